//! Dimensions along edges.

use book::{Act, Book, Detail, Gutter, Layer, Look, LookupError, Role, Spot};
use detail::Place;
use job::{Basis, Figure, State};
use measure::{Length, Pitch};
use roof::plan::{cross, dot, sub};
use roof::{Edge, EdgeId, Plane};

use super::{Bench, Dimension, Size, reach, sheets};
use crate::case::Ruled;
use crate::ice::Why;
use crate::line::{input, packages};
use crate::plan::ends;
use crate::ridge::VentRidges;
use crate::vents::Region;

impl Bench<'_, '_> {
    pub(super) fn along(
        &self,
        id: EdgeId,
        place: &Place,
        detail: &Detail,
    ) -> Result<Vec<Dimension>, LookupError> {
        let edge = self.case.roof.edge(id);
        let mut all = vec![self.on_edge(
            id,
            "length",
            Size::Length(edge.length),
            Vec::new(),
            "true length of the edge",
        )];
        match place.spot {
            Spot::Eave => {
                all.extend(self.ice_barrier(id, detail));
                all.extend(self.behind_gutter(id, detail)?);
            }
            Spot::Valley => all.extend(self.valley(id, edge, detail)?),
            Spot::Ridge => all.extend(self.slot(id, detail)?),
            Spot::Sidewall | Spot::Headwall | Spot::Step | Spot::Cantilever => {
                all.extend(self.wall(id, edge, place, detail)?);
            }
            _ => {}
        }
        // at an eave, courses of a roll instead
        if place.spot != Spot::Eave {
            all.extend(sheets(detail, self.case.book));
        }
        let more = self.run_on(place.spot)?;
        all.extend(detail.layers.iter().filter_map(|layer| self.pieces(id, edge.length + more, layer)));
        Ok(all)
    }

    /// How much longer than the edge its metal is, both ends together.
    fn run_on(&self, spot: Spot) -> Result<Length, LookupError> {
        let rule = match spot {
            Spot::Valley => "valley.metal.run-on",
            Spot::Headwall | Spot::Step | Spot::Cantilever => "headwall.end-return",
            _ => return Ok(Length::ZERO),
        };
        let each: Ruled<Length> = self.case.rule(rule)?;
        Ok(each.value * 2.0)
    }

    /// Pieces of metal end to end.
    fn pieces(&self, id: EdgeId, run: Length, layer: &Layer) -> Option<Dimension> {
        let pieces = layer.pieces.as_ref()?;
        let length = **pieces.length.as_ref()?;
        if length < SHORTEST_RUN {
            return None; // one to each course, counted where the wall is
        }
        let lap = *pieces.lap;
        let count = packages((run - lap).m(), (length - lap).m()).max(1);
        let inputs = vec![
            input("length with what it runs on", self.case.words.run(run)),
            input("one piece", self.case.words.tape(length)),
            input("lap", self.case.words.tape(lap)),
        ];
        let what = format!("{}, pieces of {}", layer.id, self.case.words.tape(length));
        Some(self.on_edge(id, what, Size::Count(count), inputs, "(length - lap) ÷ (piece - lap), rounded up"))
    }

    fn ice_barrier(&self, id: EdgeId, detail: &Detail) -> Vec<Dimension> {
        let spared = self.ice.spared.iter().find(|spared| spared.edge == id);
        if let Some(spared) = spared.filter(|spared| spared.why == Why::CoveredWhole) {
            let rule = format!("no strip at the eave: {}", spared.why.words());
            return vec![self.on_edge(id, UP_THE_SLOPE, Size::Whole, Vec::new(), &rule)];
        }
        let Some(strip) = self.ice.eaves.iter().find(|strip| strip.edge == id) else { return Vec::new() };
        let asked = strip.asked(self.ice.taken);
        let inputs = vec![
            input("level", self.case.words.inches(asked.level)),
            input("courses", strip.courses.to_string()),
            input("what they cover", self.case.words.inches(strip.cover)),
        ];
        let rule = "from the roof edge up the slope, as the adopted edition asks; laid in whole courses";
        let asked = self.on_edge(id, UP_THE_SLOPE, Size::Length(asked.along), inputs, rule);
        let asked = Dimension { reach_of: Some(Role::EaveBarrier), ..asked };
        let courses = self.on_edge(id, "ice barrier, courses", Size::Count(strip.courses), Vec::new(), rule);
        let above = laps_over_short(detail).map(|(layer, lap)| {
            let inputs = vec![
                input("what the courses cover", self.case.words.inches(strip.cover)),
                input("lap", self.case.words.tape(lap)),
            ];
            let rule = "the top edge of the courses as laid, less the lap over it";
            let what = format!("{} begins, up the slope", layer.id);
            self.on_edge(id, what, Size::Length(strip.cover - lap), inputs, rule)
        });
        [asked, courses].into_iter().chain(above).collect()
    }

    /// How far down the metal behind a gutter reaches: past the gutter's back, but not past the fascia.
    fn behind_gutter(&self, id: EdgeId, detail: &Detail) -> Result<Option<Dimension>, LookupError> {
        let Some((metal, hung)) = behind_gutter(detail, self.case.book) else { return Ok(None) };
        let hangs = |gutter: &&job::Gutter| {
            gutter.state != State::Remove && water::eave_of(self.case.roof, gutter).is_ok_and(|at| at == id)
        };
        let gutters = self.case.job.gutters.iter().filter(hangs);
        let rows: Result<Vec<&Gutter>, LookupError> =
            gutters.map(|gutter| self.case.book.gutter(&gutter.kind)).collect();
        let Some(row) = rows?.into_iter().max_by(|a, b| a.width.m().total_cmp(&b.width.m())) else {
            return Ok(None);
        };
        let below: Ruled<Length> = self.case.rule("gutter.flashing-below")?;
        let down = hung + *row.width + below.value;
        let fascia = self.fascia(id);
        let mut inputs = vec![
            input("gutter hung below the deck", self.case.words.tape(hung)),
            input("its back, no higher than it is wide", self.case.words.tape(*row.width)),
            below.input(),
        ];
        inputs.extend(fascia.map(|fascia| input("fascia", self.case.words.tape(fascia.value))));
        let size = Size::Length(fascia.map_or(down, |fascia| fascia.value.min(down)));
        let rule = "what it hangs down + its back + what the metal goes on below it, so that water behind the gutter leaves before the fascia and never into the \
                    soffit; no further than the fascia, over whose low edge it is kicked out";
        let mut one = self.on_edge(id, format!("{metal}, down the fascia"), size, inputs, rule);
        one.because.source = below.source;
        one.is_assumed |=
            fascia.is_some_and(|fascia| fascia.value < down && matches!(fascia.basis, Basis::Assumed { .. }));
        Ok(Some(one))
    }

    /// Depth of the fascia along an eave, as its block has it.
    fn fascia(&self, id: EdgeId) -> Option<&Figure<Length>> {
        let plane = self.case.roof.plane(*self.case.roof.edge(id).planes.first()?);
        let block = self.case.job.blocks.iter().find(|block| block.name == plane.block)?;
        Some(&block.fascia)
    }

    fn valley(&self, id: EdgeId, edge: &Edge, detail: &Detail) -> Result<Vec<Dimension>, LookupError> {
        let mut all = vec![self.on_edge(
            id,
            "fall along the valley",
            Size::Pitch(Pitch::from_slope(edge.slope.abs())),
            Vec::new(),
            "rise over run of the valley's line",
        )];
        if let [one, other] = edge.planes.as_slice() {
            let [one, other] = [one, other].map(|plane| self.case.roof.plane(*plane).rise);
            let rule = "between the planes, from their normals; flat metal is 0°";
            all.push(self.on_edge(id, "bend of the metal", Size::Angle(bend(one, other)), Vec::new(), rule));
        }
        all.extend(
            edge.planes.iter().filter_map(|plane| self.angle_off_eave(id, self.case.roof.plane(*plane))),
        );
        let starts: Vec<Length> = open_edges(detail);
        if let [one, other] = starts.as_slice() {
            let taper: Ruled<f64> = self.case.rule("valley.opening.taper")?;
            let top = *one + *other;
            let bottom = top + edge.length * taper.value;
            let inputs = vec![
                input("at the top", self.case.words.tape(top)),
                taper.input(),
                input("length", self.case.words.run(edge.length)),
            ];
            all.push(self.on_edge(
                id,
                "open at the top",
                Size::Length(top),
                Vec::new(),
                "what the shingles leave free on both sides",
            ));
            all.push(self.on_edge(
                id,
                "open at the bottom",
                Size::Length(bottom),
                inputs,
                "open at the top + length × taper",
            ));
        }
        Ok(all)
    }

    /// How a valley lies in plan to the level lines of a plane beside it.
    fn angle_off_eave(&self, id: EdgeId, plane: &Plane) -> Option<Dimension> {
        let [from, to] = ends(self.case.roof, id);
        let [run, fall] = [sub(to, from), plane.fall()];
        let steepness = dot(run, fall).abs().atan2(cross(run, fall).abs());
        let what = format!("in plan off the eave of {}", plane.name);
        let rule = "where the two planes meet, whatever their pitches; 45° only where those are alike";
        (fall != [0.0, 0.0])
            .then(|| self.on_edge(id, what, Size::Angle(steepness.to_degrees()), Vec::new(), rule))
    }

    /// How long the ridge is slotted and how wide.
    fn slot(&self, id: EdgeId, detail: &Detail) -> Result<Vec<Dimension>, LookupError> {
        let is_slotted = detail.when.vented == Some(true);
        let blocks: Vec<String> = self.case.job.blocks.iter().map(|block| block.name.clone()).collect();
        let ridges = if is_slotted {
            VentRidges::over(self.case, &blocks, &Region::default())?.ridges
        } else {
            Vec::new()
        };
        let Some(ridge) = ridges.into_iter().find(|ridge| ridge.edge == id) else { return Ok(Vec::new()) };
        let rule = "length less what the slot stops short of at its ends and at chimneys";
        let slot = self.on_edge(id, "slot, length", Size::Length(ridge.slot), vec![ridge.input], rule);
        let open: Length = open_edges(detail).into_iter().sum();
        // the section leaves room for a ridge board; trusses have none
        let planes = &self.case.roof.edge(id).planes;
        let blocks = planes.iter().flat_map(|plane| &self.case.roof.plane(*plane).blocks);
        let is_truss = |name: &String| {
            let block = self.case.job.blocks.iter().find(|block| block.name == *name);
            let framing = block.and_then(|block| block.framing.as_ref());
            let kind = framing.and_then(|framing| framing.kind.as_ref());
            kind.is_some_and(|kind| kind.value == job::FramingKind::Truss)
        };
        let board: Ruled<Length> = self.case.rule("ridge.board")?;
        let wide = if blocks.into_iter().all(is_truss) { open - board.value } else { open };
        let wide = self.on_edge(
            id,
            "slot, width",
            Size::Length(wide),
            Vec::new(),
            "what the shingles leave free on both sides",
        );
        Ok(vec![slot, wide])
    }
}

/// The metal of an eave that lies behind its gutter and reaches past its back, and how far below the deck the gutter hangs in the section.
fn behind_gutter<'d>(detail: &'d Detail, book: &Book) -> Option<(&'d str, Length)> {
    let made = |layer: &Layer| book.material(&layer.material).ok();
    let at =
        detail.layers.iter().position(|layer| made(layer).is_some_and(|made| made.does(Act::Gutters)))?;
    let gutter = &detail.layers[at];
    let face = gutter.covers.keys().next()?;
    let [hung, low] = reach(detail, gutter, face)?;
    let is_behind = |layer: &&Layer| {
        made(layer).is_some_and(|made| made.drawn == Look::Metal)
            && reach(detail, layer, face).is_some_and(|[_, to]| to >= low)
    };
    let metal = detail.layers[..at].iter().find(is_behind)?;
    Some((&metal.id, hung))
}

const UP_THE_SLOPE: &str = "ice barrier up the slope, at least";

/// What laps over a layer that sections draw short, and by how much: where it begins is the house's own.
fn laps_over_short(detail: &Detail) -> Option<(&Layer, Length)> {
    let is_short = |id: &String| detail.layers.iter().any(|one| one.id == *id && one.drawn_short.is_some());
    let lap = |layer: &Layer| layer.over.iter().find(|(id, _)| is_short(id)).map(|(_, lap)| **lap);
    detail.layers.iter().find_map(|layer| Some((layer, lap(layer)?)))
}

/// Pieces shorter than this go one to each course: 2 ft.
const SHORTEST_RUN: Length = Length::from_m(0.6096);

/// Of the shingles of each face how far back from the joint they begin.
fn open_edges(detail: &Detail) -> Vec<Length> {
    let starts = |layer: &Layer| {
        let [only] = layer.covers.keys().collect::<Vec<_>>()[..] else { return None };
        let [from, _] = reach(detail, layer, only)?;
        (layer.role == Some(Role::Covering) && from > Length::ZERO).then_some(from)
    };
    detail.layers.iter().filter_map(starts).collect()
}

/// Angle between two planes that rise so, degrees from flat.
fn bend(one: [f64; 3], other: [f64; 3]) -> f64 {
    let along = one[0] * other[0] + one[1] * other[1] + 1.0;
    let turned = [one[1] - other[1], other[0] - one[0], one[0] * other[1] - one[1] * other[0]];
    // by both sine and cosine: near flat the cosine alone says little
    turned.iter().map(|part| part * part).sum::<f64>().sqrt().atan2(along).to_degrees()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two 12/12 planes square to each other in plan meet at 60° from flat: their normals are at 45° to the vertical, a quarter turn apart.
    #[test]
    fn square_12_12_planes_bend_metal_by_60_degrees() {
        assert!((bend([1.0, 0.0, 0.0], [0.0, 1.0, 0.0]) - 60.0).abs() < 1e-9);
        assert!(bend([0.5, 0.0, 0.0], [0.5, 0.0, 3.0]).abs() < 1e-6);
        assert!((bend([1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]) - 90.0).abs() < 1e-9);
    }
}
