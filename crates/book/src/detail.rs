//! Details: what lies on the wood at an edge or opening, layer by layer from the wood outward.
//!
//! A detail is a section. Its *faces* of wood follow one another from a first to a last and meet at joints; each says which way water runs
//! on it. Its *layers* are listed from the wood outward, and each covers one unbroken stretch of the faces.
//!
//! # Units
//! Places on a face are lengths along the wood, from the joint with the face before it; on the first face, from the joint with the next.

use std::collections::BTreeMap;

use measure::Length;
use serde::{Deserialize, Deserializer, Serialize, de};

use crate::quantity::Text;
use crate::source::{Source, words};
use crate::table::Row;

/// How water comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Coming {
    /// Runs down over it.
    Running,
    /// Is driven against it by wind.
    Driven,
    /// Stands on it.
    Standing,
}

/// What a material does besides stopping water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Act {
    /// Closes round the fasteners that go through it.
    Heals,
    /// Sticks to what it lies on, so that no water runs along under it.
    Bonds,
    /// Is laid in courses, each hiding the fasteners of the one before.
    Courses,
    /// Carries water, which stands behind it when it is blocked.
    Gutters,
}

/// How a layer is drawn in a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Look {
    /// A sheet laid loose: dashed.
    Sheet,
    /// A sheet that sticks: heavy.
    Membrane,
    /// Metal or another stiff thin piece: a thin line, its ends marked.
    Metal,
    /// Courses or boards: a band.
    Band,
}

/// What layers are made of, as far as water is concerned.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Name in details, such as `ice-barrier`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// How its line looks in a section.
    pub drawn: Look,
    /// Water that a sound layer of it keeps out; its own joints count, sealant does not.
    pub stops: Vec<Coming>,
    /// What else it does.
    #[serde(default)]
    pub acts: Vec<Act>,
    /// The cladding it is, where layers of [`CLADDING`] become what the wall at hand is clad with.
    pub clads: Option<Cladding>,
    /// Where it comes from.
    pub source: Source,
}

impl Material {
    /// Whether it does that.
    pub fn does(&self, act: Act) -> bool {
        self.acts.contains(&act)
    }
}

impl Row for Material {
    const TABLE: &'static str = "material";

    fn id(&self) -> &str {
        &self.id
    }
}

/// The material that stands for what a wall is clad with, whatever that is.
pub const CLADDING: &str = "cladding";

/// What a wall is clad with, as far as details go by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cladding {
    /// Boards lapped over one another.
    Lap,
    /// Shingles.
    Shingle,
    /// Stucco or adhered stone.
    Stucco,
    /// Brick veneer.
    Brick,
}

impl Cladding {
    /// As tables write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lap => "lap",
            Self::Shingle => "shingle",
            Self::Stucco => "stucco",
            Self::Brick => "brick",
        }
    }
}

/// A siding.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Siding {
    /// Name in job documents, such as `cedar-bevel`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What details know it as.
    pub family: Cladding,
    /// How far above a roof it stays.
    pub clearance: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Siding {
    const TABLE: &'static str = "siding";

    fn id(&self) -> &str {
        &self.id
    }
}

/// Where on a house a detail is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Spot {
    Eave,
    Rake,
    HighEave,
    Ridge,
    Hip,
    Valley,
    LevelValley,
    Sidewall,
    Headwall,
    BackWall,
    KickOut,
    /// Steeper above.
    PitchBreakIn,
    /// Flatter above.
    PitchBreakOut,
    LowSlope,
    Step,
    /// A roof that ends in under another roof's overhang.
    Soffit,
    Cantilever,
    ChimneyLow,
    ChimneySide,
    ChimneyHigh,
    Pipe,
    Hood,
    BoxVent,
    DaylightTube,
    SkylightLow,
    SkylightSide,
    SkylightHigh,
}

impl Spot {
    /// As tables write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eave => "eave",
            Self::Rake => "rake",
            Self::HighEave => "high-eave",
            Self::Ridge => "ridge",
            Self::Hip => "hip",
            Self::Valley => "valley",
            Self::LevelValley => "level-valley",
            Self::Sidewall => "sidewall",
            Self::Headwall => "headwall",
            Self::BackWall => "back-wall",
            Self::KickOut => "kick-out",
            Self::PitchBreakIn => "pitch-break-in",
            Self::PitchBreakOut => "pitch-break-out",
            Self::LowSlope => "low-slope",
            Self::Step => "step",
            Self::Soffit => "soffit",
            Self::Cantilever => "cantilever",
            Self::ChimneyLow => "chimney-low",
            Self::ChimneySide => "chimney-side",
            Self::ChimneyHigh => "chimney-high",
            Self::Pipe => "pipe",
            Self::Hood => "hood",
            Self::BoxVent => "box-vent",
            Self::DaylightTube => "daylight-tube",
            Self::SkylightLow => "skylight-low",
            Self::SkylightSide => "skylight-side",
            Self::SkylightHigh => "skylight-high",
        }
    }
}

/// Whether a detail is how things are met with, or how they are to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Met with when the roof is opened.
    Found,
    /// To be built.
    Planned,
}

/// How readily a detail is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Choice {
    /// Unless something else is wished.
    Usual,
    /// When it is wished.
    Allowed,
    /// Never; the detail's note says why.
    Refused,
}

/// What is known of a place of a house, for the choice of its detail; none where it says nothing there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Facts {
    /// What the wall is clad with.
    pub cladding: Option<Cladding>,
    /// Whether the weather barrier laps over the flashing.
    pub lapped: Option<bool>,
    /// Whether there is a kick-out.
    pub kick_out: Option<bool>,
    /// Whether the space below breathes at the ridge.
    pub vented: Option<bool>,
    /// Whether a cricket stands behind the chimney.
    pub cricket: Option<bool>,
    /// Whether a gutter hangs there.
    pub gutter: Option<bool>,
}

/// What must hold at a place for a detail to be right there.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct When {
    /// Claddings that will do; any where none is named.
    pub cladding: Vec<Cladding>,
    /// As [`Facts::lapped`].
    pub lapped: Option<bool>,
    /// As [`Facts::kick_out`].
    pub kick_out: Option<bool>,
    /// As [`Facts::vented`].
    pub vented: Option<bool>,
    /// As [`Facts::cricket`].
    pub cricket: Option<bool>,
    /// As [`Facts::gutter`].
    pub gutter: Option<bool>,
}

impl When {
    /// How much it asks; none where a place does not fit.
    pub fn asks(&self, facts: &Facts) -> Option<usize> {
        let cladding = !self.cladding.is_empty();
        let clad = !cladding || facts.cladding.is_some_and(|known| self.cladding.contains(&known));
        let asked = [
            (self.lapped, facts.lapped),
            (self.kick_out, facts.kick_out),
            (self.vented, facts.vented),
            (self.cricket, facts.cricket),
            (self.gutter, facts.gutter),
        ];
        let fits = clad && asked.iter().all(|(wanted, known)| wanted.is_none() || wanted == known);
        let count = asked.iter().filter(|(wanted, _)| wanted.is_some()).count() + usize::from(cladding);
        fits.then_some(count)
    }
}

/// More layers than this no detail has.
const MOST_LAYERS: usize = 16;
/// More than this of a face is no detail any more: 20 ft.
const MOST_SHOWN: f64 = 6.096;
/// Places closer than this are one, metres.
const SAME: f64 = 1e-9;

/// A detail.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Detail {
    /// Name in the books, such as `sidewall-lap-siding`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Where it is for.
    pub at: Spot,
    /// Found or planned.
    pub stage: Stage,
    /// How readily it is chosen.
    pub choice: Choice,
    /// What must hold at the place.
    #[serde(default)]
    pub when: When,
    /// The faces of wood, first to last.
    #[serde(rename = "face")]
    pub faces: Vec<Face>,
    /// The layers, from the wood outward.
    #[serde(rename = "layer", default)]
    pub layers: Vec<Layer>,
    /// How far from the joint the wood of each face is this detail's to keep dry.
    pub guards: BTreeMap<String, Reach>,
    /// Where on each face no fastener may stand.
    #[serde(default)]
    pub no_fasteners: BTreeMap<String, Reach>,
    /// Water backed up by ice; none where it cannot stand.
    pub ice: Option<Pond>,
    /// Water of a blocked gutter; none where no gutter hangs.
    pub gutter: Option<Pond>,
    /// What must be photographed before it is covered.
    #[serde(default)]
    pub hold: Vec<Hold>,
    /// What a mechanic would add.
    #[serde(default)]
    pub note: String,
    /// Where it comes from.
    pub source: Source,
}

/// A hold point: work stops until a photograph shows that it passes.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hold {
    /// What the photograph shows.
    #[serde(deserialize_with = "words")]
    pub photo: String,
    /// When it passes.
    #[serde(deserialize_with = "words")]
    pub passes: String,
    /// The defect it keeps away.
    #[serde(deserialize_with = "words")]
    pub prevents: String,
}

/// How a face stands in the section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stands {
    /// With the pitch of the roof, rising from the joint on the last face, falling to it on the first.
    Pitched,
    /// Level: cut along a level line of the roof, or a level face.
    Level,
    /// Upright.
    Upright,
}

/// Which way water runs on a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Falls {
    /// Towards the last face.
    On,
    /// Towards the first face.
    Back,
    /// Neither: the section is cut across the fall.
    Along,
}

/// A face of wood.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Face {
    /// Name within the detail, such as `deck`.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// How much of it is shown.
    pub shown: Text<Length>,
    /// How it stands.
    pub stands: Stands,
    /// Which way water runs on it.
    pub falls: Falls,
    /// Whether it is no wood, so that water reaching it does no harm of itself.
    #[serde(default)]
    pub masonry: bool,
}

/// A layer.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// Name within the detail, such as `steps`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Id of its material.
    pub material: String,
    /// The stretch of each face it covers.
    pub covers: BTreeMap<String, Reach>,
    /// The layers it hands its water to, each with how much it must at least lap over it.
    #[serde(default)]
    pub over: BTreeMap<String, Text<Length>>,
    /// Its pieces along the run.
    pub pieces: Option<Pieces>,
    /// Where it is fastened.
    #[serde(default)]
    pub fixed: Vec<Fixing>,
    /// Whether its high end is let into a reglet or a wall, so that nothing runs in behind it; sealant does not make it so.
    #[serde(default)]
    pub let_in: bool,
    /// Whether it is past service, holed or torn, so that it stops nothing.
    #[serde(default)]
    pub spent: bool,
    /// Whether it stays from the old roof and is used again.
    #[serde(default)]
    pub reused: bool,
    /// What a mechanic would add.
    #[serde(default)]
    pub note: String,
}

/// Pieces along the run, each lapping over the next one down.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pieces {
    /// Length of one; none where it is cut to the run.
    pub length: Option<Text<Length>>,
    /// How much each laps over the next.
    pub lap: Text<Length>,
    /// How much it must at least.
    pub least: Text<Length>,
}

/// Water that stands.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pond {
    /// How high above the first joint.
    pub height: Text<Length>,
    /// How far on each face.
    pub on: BTreeMap<String, Reach>,
}

/// A row of fasteners.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fixing {
    /// The face they go into.
    pub face: String,
    /// Between which two places on it.
    pub between: [Text<Length>; 2],
    /// What they are.
    pub by: String,
}

/// A stretch of a face: from the joint to a place (`"8 in"`), between two (`["2 in", "8 in"]`), or `"all"` that is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Reach {
    /// Between two places.
    Between([Text<Length>; 2]),
    /// All of it.
    All,
}

impl<'de> Deserialize<'de> for Reach {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged, expecting = "expected `8 in`, [`2 in`, `8 in`] or `all`")]
        enum Written {
            One(String),
            Two([String; 2]),
        }
        let place = |text: &str| text.parse::<Text<Length>>().map_err(de::Error::custom);
        match Written::deserialize(from)? {
            Written::One(word) if word == "all" => Ok(Self::All),
            Written::One(text) => Ok(Self::Between([place("0 in")?, place(&text)?])),
            Written::Two([from, to]) => Ok(Self::Between([place(&from)?, place(&to)?])),
        }
    }
}

impl Detail {
    /// Whether it depends on what the wall is clad with.
    pub fn is_clad(&self) -> bool {
        self.layers.iter().any(|layer| layer.material == CLADDING)
    }

    /// The face of that name.
    pub fn face(&self, name: &str) -> Option<&Face> {
        self.faces.iter().find(|face| face.name == name)
    }

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
        faults
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
        }
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
        faults.extend(self.id_fault());
        if self.layers.len() > MOST_LAYERS {
            faults.push(format!("it has {} layers; {MOST_LAYERS} at most", self.layers.len()));
        }
        faults
    }
}

#[cfg(test)]
mod tests {
    use crate::Book;

    const DETAIL: &str = r#"[[detail]]
id = "mine"
name = "mine"
at = "headwall"
stage = "planned"
choice = "allowed"
face = [
  { name = "wall", shown = "16 in", stands = "upright", falls = "on" },
  { name = "deck", shown = "24 in", stands = "pitched", falls = "on" },
]
layer = [
  { id = "membrane", material = "ice-barrier", covers = { wall = "8 in", deck = "18 in" } },
  { id = "shingles", material = "shingles", covers = { deck = ["1 in", "24 in"] }, over = { membrane = "4 in" } },
]
guards = { deck = "12 in" }
source = { text = "ours", confidence = "common-practice" }
"#;

    /// What is said of the detail with one part written otherwise.
    fn told(part: &str, instead: &str) -> String {
        assert!(DETAIL.contains(part), "{part}");
        let text = DETAIL.replacen(part, instead, 1);
        Book::with_overlays(&[("mine.toml", &text)])
            .err()
            .map_or_else(String::new, |problems| problems.to_string())
    }

    #[test]
    fn a_sound_detail_reads() {
        assert_eq!(told("mine", "mine"), "");
    }

    #[test]
    fn what_a_detail_cannot_be_is_told() {
        for (part, instead, wanted) in [
            ("over = { membrane", "over = { felt", "laps over `felt`, which is no other layer of the detail"),
            (
                "covers = { wall = \"8 in\"",
                "covers = { wal = \"8 in\"",
                "names face `wal`, which the detail does not have",
            ),
            (
                "wall = \"8 in\"",
                "wall = \"20 in\"",
                "covers 0 in to 20 in of face `wall`, which is shown for 16 in",
            ),
            (
                "wall = \"8 in\"",
                "wall = [\"2 in\", \"8 in\"]",
                "layer `membrane` is broken between its faces",
            ),
            ("shown = \"16 in\"", "shown = \"0 in\"", "face `wall` must be shown for more than nothing"),
            ("name = \"deck\"", "name = \"wall\"", "face `wall` stands twice"),
            ("id = \"shingles\"", "id = \"membrane\"", "layer `membrane` stands twice"),
            ("falls = \"on\"", "falls = \"down\"", "unknown variant `down`"),
            ("shown = \"16 in\"", "shown = \"21 ft\"", "and 20 ft at most"),
            ("guards = { deck", "guards = { dek", "it must guard wood"),
            (
                "stands = \"pitched\", falls = \"on\"",
                "stands = \"pitched\", falls = \"on\", masonry = true",
                "it must guard wood",
            ),
            ("id = \"mine\"", "id = \"Mine/../x\"", "may have small letters, digits and hyphens only"),
            (
                "material = \"shingles\"",
                "material = \"shingels\"",
                "layer `shingles` of detail `mine` is of `shingels`, which is no material",
            ),
            (
                "deck = \"18 in\" } }",
                "deck = \"18 in\" }, fixed = [{ face = \"deck\", between = [\"6 in\", \"3 in\"], by = \"nails\" }] }",
                "is fixed from 6 in to 3 in of face `deck`, where it does not lie",
            ),
            (
                "deck = \"18 in\" } }",
                "deck = \"18 in\" }, fixed = [{ face = \"deck\", between = [\"17 in\", \"19 in\"], by = \"nails\" }] }",
                "where it does not lie",
            ),
            (
                "deck = \"18 in\" } }",
                "deck = \"18 in\" }, pieces = { length = \"6 in\", lap = \"6 in\", least = \"6 in\" } }",
                "they would not get on",
            ),
            (
                "choice = \"allowed\"",
                "choice = \"allowed\"\nwhen = { laped = true }",
                "unknown field `laped`",
            ),
            (
                "choice = \"allowed\"",
                "choice = \"allowed\"\nwhen = { cladding = [\"vinyl\"] }",
                "unknown variant `vinyl`",
            ),
            ("wall = \"8 in\"", "wall = \"high\"", "high"),
        ] {
            let told = told(part, instead);
            assert!(told.contains(wanted), "{instead}: {told}");
        }
    }
}
