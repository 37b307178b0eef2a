//! What is wrong with a detail as written.

use measure::{Fraction, Length};

use super::{
    Act, Choice, Detail, Fixing, Held, Layer, Look, Material, Means, Pond, Reach, Role, Stage, Stands,
};
use crate::quantity::Text;
use crate::table::Row;

/// More layers than this no detail has.
const MOST_LAYERS: usize = 16;
/// More than this of a face is no detail any more: 20 ft.
const MOST_SHOWN: f64 = 6.096;
/// Places closer than this are one, metres.
const SAME: f64 = 1e-9;

impl Detail {
    /// Names that no face bears.
    fn strangers<'a>(&'a self, what: &'a str, names: impl Iterator<Item = &'a String>) -> Vec<String> {
        let names = names.filter(|name| self.face(name).is_none());
        names.map(|name| format!("{what} names face `{name}`, which the detail does not have")).collect()
    }

    /// What is wrong with the faces.
    fn face_faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        for (index, face) in self.faces.iter().enumerate() {
            if face.shown.m() <= 0.0 || face.shown.m() > MOST_SHOWN {
                faults.push(format!(
                    "face `{}` must be shown for more than nothing and 20 ft at most",
                    face.name
                ));
            }
            if self.faces[..index].iter().any(|before| before.name == face.name) {
                faults.push(format!("face `{}` stands twice", face.name));
            }
        }
        let is_wood = |name: &String| self.face(name).is_some_and(|face| !face.masonry);
        if !self.guards.keys().any(is_wood) {
            faults.push("it must guard wood: a `face` that is no masonry, named in `guards`".to_owned());
        }
        faults
    }

    /// Joints that a layer on both sides of them does not run over: what it covers must hang together.
    fn gaps(&self, layer: &Layer) -> Option<String> {
        let on: Vec<(usize, &Reach)> = (self.faces.iter().enumerate())
            .filter_map(|(index, face)| Some((index, layer.covers.get(&face.name)?)))
            .collect();
        let runs_over = |pair: &[(usize, &Reach)]| {
            let [(before, reach), (after, next)] = [pair[0], pair[1]];
            let starts = |reach: &Reach| matches!(reach, Reach::Between([from, _]) if from.m() > 0.0);
            let ends =
                |reach: &Reach| matches!(reach, Reach::Between([_, to]) if **to < *self.faces[before].shown);
            let leaves = if before == 0 { starts(reach) } else { ends(reach) };
            after == before + 1 && !leaves && !starts(next)
        };
        let broken = on.windows(2).any(|pair| !runs_over(pair));
        broken.then(|| format!("layer `{}` is broken between its faces; make it two layers", layer.id))
    }

    /// Water that stands nowhere, or higher than anything that is shown under it.
    fn pond_fault(&self, pond: &Pond) -> Option<String> {
        let on = self.faces.iter().filter(|face| pond.on.contains_key(&face.name));
        let shown: f64 = on.map(|face| face.shown.m()).sum();
        let height = pond.height.m();
        let sound = height > 0.0 && (height <= shown + SAME || pond.on.is_empty());
        (!sound).then(|| {
            let shown = Length::from_m(shown);
            let shown = shown.trade(Fraction::Eighth);
            format!(
                "water stands `{}` high; it must be more than nothing and no more than the {shown} shown of the faces it stands on",
                pond.height
            )
        })
    }

    /// Wood that is to be built with nothing on it.
    fn bare_fault(&self) -> Option<String> {
        let is_bare = self.layers.is_empty() && self.stage == Stage::Planned;
        is_bare.then(|| {
            "it has no layers, so that nothing keeps water from the wood: write `layer`, or `stage = \"found\"` for wood that is found bare"
                .to_owned()
        })
    }

    /// What is wrong with one layer.
    fn layer_faults(&self, layer: &Layer) -> Vec<String> {
        let what = format!("layer `{}`", layer.id);
        let fixed = layer.fixed.iter().map(|fixing| &fixing.face);
        let mut faults = self.strangers(&what, layer.covers.keys().chain(fixed));
        let known =
            |name: &&String| self.layers.iter().any(|other| other.id == **name && other.id != layer.id);
        let unknown = layer.over.keys().filter(|name| !known(name));
        faults.extend(
            unknown.map(|name| format!("{what} laps over `{name}`, which is no other layer of the detail")),
        );
        if layer.covers.is_empty() {
            faults.push(format!("{what} covers nothing"));
        }
        let pieces = layer.pieces.as_ref().and_then(|pieces| Some((pieces.length.as_ref()?, &pieces.lap)));
        if let Some((length, lap)) = pieces.filter(|(length, lap)| ***lap >= ***length) {
            faults.push(format!("pieces of {what} are {length} long and lap {lap}: they would not get on"));
        }
        faults.extend(layer.fixed.iter().filter_map(|fixing| self.fixing_fault(layer, fixing)));
        faults.extend(
            layer.spacings().filter(|apart| apart.m() <= 0.0).map(|apart| {
                format!("{what} is fastened every `{apart}`: `apart` must be more than nothing")
            }),
        );
        faults.extend(self.held_fault(layer));
        faults.extend(self.short_fault(layer));
        faults.extend(self.past_fault(layer));
        faults.extend(self.up_fault(layer));
        faults.extend(self.order_fault(layer));
        faults
    }

    /// Faces beside the first joint on which a layer reaches it.
    fn at_first_joint(&self, layer: &Layer) -> usize {
        let starts = |reach: &Reach| match reach {
            Reach::All => true,
            Reach::Between([from, _]) => from.m() <= SAME,
        };
        let beside = self.faces.iter().take(2);
        beside.filter(|face| layer.covers.get(&face.name).is_some_and(starts)).count()
    }

    /// A layer that stands out past a joint it does not end at.
    fn past_fault(&self, layer: &Layer) -> Option<String> {
        let past = layer.past.as_ref()?;
        let ends = self.faces.len() > 1 && layer.covers.len() == 1 && self.at_first_joint(layer) == 1;
        let sound = ends && self.through.is_none() && past.m() > 0.0;
        (!sound).then(|| {
            format!("layer `{}` stands {past} past the first joint, where it does not end", layer.id)
        })
    }

    /// A layer that turns up where nothing stands up.
    fn up_fault(&self, layer: &Layer) -> Option<String> {
        let up = layer.up.as_ref()?;
        let high = self.through.as_ref().map_or(0.0, |through| through.high.m());
        let sound = self.at_first_joint(layer) > 0 && up.m() > 0.0 && up.m() <= high;
        (!sound).then(|| format!("layer `{}` turns up {up}, where nothing goes through as high", layer.id))
    }

    /// A layer laid after one that is no other layer, or that waits for another itself.
    fn order_fault(&self, layer: &Layer) -> Option<String> {
        let after = layer.laid_after.as_ref()?;
        let known = |other: &Layer| other.id == *after && other.id != layer.id && other.laid_after.is_none();
        (!self.layers.iter().any(known)).then(|| {
            format!(
                "layer `{}` is laid after `{after}`, which is no other layer that is laid in its turn",
                layer.id
            )
        })
    }

    /// What goes through, and cannot.
    fn through_fault(&self) -> Option<String> {
        let through = self.through.as_ref()?;
        let pitched = self.faces.iter().take(2).filter(|face| face.stands == Stands::Pitched).count() == 2;
        let is_some = |length: &Length| length.m() > 0.0 && length.m() <= MOST_SHOWN;
        let others = through.below.iter().chain(&through.hood).map(|text| **text);
        let sized = [*through.wide, *through.high].into_iter().chain(others).all(|size| is_some(&size));
        let hooded = through.hood.as_ref().is_none_or(|hood| **hood >= *through.wide);
        (!(pitched && sized && hooded && self.faces.len() == 2)).then(|| {
            format!(
                "`{}` goes through two pitched faces only, its hood no narrower than itself",
                through.what
            )
        })
    }

    /// A layer that does not say how it is held, or says it wrongly.
    fn held_fault(&self, layer: &Layer) -> Option<String> {
        let what = format!("layer `{}`", layer.id);
        match &layer.held {
            None if layer.fixed.is_empty() => {
                Some(format!("{what} does not say how it is held: `fixed` or `held`"))
            }
            Some(_) if !layer.fixed.is_empty() => {
                Some(format!("{what} says twice how it is held: `fixed` and `held`"))
            }
            Some(Held::Layer(by)) if *by == layer.id || self.layers.iter().all(|other| other.id != *by) => {
                Some(format!("{what} is held by `{by}`, which is no other layer of the detail"))
            }
            Some(Held::By { means: Means::Loose, apart: Some(_) }) => {
                Some(format!("{what} is laid loose and yet fastened every so far"))
            }
            _ => None,
        }
    }

    /// A layer that goes on where it is not.
    fn short_fault(&self, layer: &Layer) -> Option<String> {
        let name = layer.drawn_short.as_ref()?;
        let is_there = self.face(name).is_some() && layer.covers.contains_key(name);
        (!is_there).then(|| format!("layer `{}` is drawn short on `{name}`, where it does not lie", layer.id))
    }

    /// Fasteners that stand where their layer is not.
    fn fixing_fault(&self, layer: &Layer, fixing: &Fixing) -> Option<String> {
        let face = self.face(&fixing.face)?;
        let [from, to] = &fixing.between;
        let covered = match layer.covers.get(&fixing.face)? {
            Reach::All => [0.0, face.shown.m()],
            Reach::Between([from, to]) => [from.m(), to.m()],
        };
        let sound = covered[0] <= from.m() + SAME && from.m() < to.m() && to.m() <= covered[1] + SAME;
        (!sound).then(|| {
            format!(
                "layer `{}` is fixed from {from} to {to} of face `{}`, where it does not lie",
                layer.id, face.name
            )
        })
    }

    /// What is wrong with its layers for what they are made of, once they know what they are for.
    pub(crate) fn material_faults<'b>(&self, material: impl Fn(&str) -> Option<&'b Material>) -> Vec<String> {
        let made = |layer: &Layer| material(&layer.material).and_then(|made| made_fault(layer, made));
        let mut faults: Vec<String> = self.layers.iter().filter_map(made).collect();
        let is_built = self.stage == Stage::Planned && self.choice != Choice::Refused;
        let wanted = self.at.wants().filter(|role| is_built && self.of_role(*role).next().is_none());
        faults.extend(wanted.map(|role| {
            format!("no layer has the role `{}`, which is asked after at `{}`", role.name(), self.at.name())
        }));
        let stays = self.of_role(Role::OldCovering).next().is_some();
        if self.stage == Stage::Planned && stays != (self.when.over == Some(true)) {
            faults.push(
                "a layer of the role `old-covering` stays where `when` has `over = true`, and only there"
                    .to_owned(),
            );
        }
        faults
    }

    /// Materials the books do not have.
    pub(crate) fn unknown_materials(&self, has: impl Fn(&str) -> bool) -> Vec<(&str, &str)> {
        let layers = self.layers.iter().filter(|layer| !has(&layer.material));
        layers.map(|layer| (layer.id.as_str(), layer.material.as_str())).collect()
    }

    /// What is wrong with its id, which names files.
    fn id_fault(&self) -> Option<String> {
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        let sound = self.id.chars().all(plain);
        (!sound).then(|| format!("id `{}` may have small letters, digits and hyphens only", self.id))
    }

    /// Stretches that run backward or past what is shown.
    fn reach_faults<'a>(
        &'a self,
        what: &str,
        reaches: impl Iterator<Item = (&'a String, &'a Reach)>,
    ) -> Vec<String> {
        let wrong = |(name, reach): (&String, &Reach)| {
            let Reach::Between([from, to]) = reach else { return None };
            let face = self.face(name)?;
            let sound = from.m() >= 0.0 && **from < **to && **to <= *face.shown;
            (!sound).then(|| {
                format!("{what} covers {from} to {to} of face `{name}`, which is shown for {}", face.shown)
            })
        };
        reaches.filter_map(wrong).collect()
    }
}

impl Layer {
    /// How far apart its fasteners stand, wherever it says so.
    fn spacings(&self) -> impl Iterator<Item = &Text<Length>> {
        let held = self.held.as_ref().and_then(|held| match held {
            Held::By { apart, .. } => apart.as_ref(),
            Held::Layer(_) => None,
        });
        self.fixed.iter().filter_map(|fixing| fixing.apart.as_ref()).chain(held)
    }
}

/// What is wrong with a layer for what it is made of.
fn made_fault(layer: &Layer, material: &Material) -> Option<String> {
    let fits = |role: &Role| match role {
        Role::Covering | Role::OldCovering => material.does(Act::Courses),
        Role::Underlayment => material.drawn == Look::Sheet,
        Role::EaveBarrier => material.does(Act::Bonds),
        Role::DripEdge | Role::KickOut => material.drawn == Look::Metal,
    };
    let id = &layer.id;
    if let Some(role) = layer.role.filter(|role| !fits(role)) {
        return Some(format!(
            "layer `{id}` has the role `{}`, for which `{}` is not made",
            role.name(),
            material.id
        ));
    }
    let bonds = |held: &Held| matches!(held, Held::By { means, .. } if means.bonds());
    let sticks = layer.held.as_ref().is_some_and(bonds);
    match material.does(Act::Bonds) {
        true if !sticks && layer.fixed.is_empty() => {
            Some(format!("layer `{id}` is of `{}`, which sticks, and is held otherwise", material.id))
        }
        false if sticks => Some(format!("layer `{id}` is of `{}`, which does not stick", material.id)),
        _ => None,
    }
}

impl Row for Detail {
    const TABLE: &'static str = "detail";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let mut faults: Vec<String> = self.layers.iter().flat_map(|layer| self.layer_faults(layer)).collect();
        faults.extend(self.strangers("`guards`", self.guards.keys()));
        faults.extend(self.strangers("`no_fasteners`", self.no_fasteners.keys()));
        let ponds = self.ice.iter().chain(&self.gutter);
        for pond in ponds {
            faults.extend(self.strangers("standing water", pond.on.keys()));
            faults.extend(self.reach_faults("standing water", pond.on.iter()));
            faults.extend(self.pond_fault(pond));
        }
        faults.extend(self.bare_fault());
        faults.extend(self.reach_faults("`guards`", self.guards.iter()));
        faults.extend(self.reach_faults("`no_fasteners`", self.no_fasteners.iter()));
        for layer in &self.layers {
            faults.extend(self.reach_faults(&format!("layer `{}`", layer.id), layer.covers.iter()));
            if self.layers.iter().filter(|other| other.id == layer.id).count() > 1 {
                faults.push(format!("layer `{}` stands twice", layer.id));
            }
        }
        faults.extend(self.layers.iter().filter_map(|layer| self.gaps(layer)));
        faults.extend(self.face_faults());
        faults.extend(self.through_fault());
        faults.extend(self.id_fault());
        if self.layers.len() > MOST_LAYERS {
            faults.push(format!("it has {} layers; {MOST_LAYERS} at most", self.layers.len()));
        }
        faults
    }
}
