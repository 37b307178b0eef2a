//! Details: what lies on the wood at an edge or opening, layer by layer from the wood outward.
//!
//! A detail is a section. Its *faces* of wood follow one another from a first to a last and meet at joints; each says which way water runs
//! on it. Its *layers* are listed from the wood outward, and each covers one unbroken stretch of the faces.
//!
//! # Units
//! Places on a face are lengths along the wood, from the joint with the face before it; on the first face, from the joint with the next.

mod check;
mod layer;
mod material;
mod place;

use std::collections::BTreeMap;

use measure::Length;
use serde::{Deserialize, Serialize};

use crate::quantity::Text;
use crate::source::{Source, words};

pub use self::layer::{Fixing, Held, Layer, Means, Pieces, Reach, Role};
pub use self::material::{Act, CLADDING, Cladding, Coming, Look, Material, Siding};
pub use self::place::{Fact, Facts, Spot, When};

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
    /// Where it is refused, though it is allowed elsewhere; the note says why.
    pub refused_when: Option<When>,
    /// The faces of wood, first to last.
    #[serde(rename = "face")]
    pub faces: Vec<Face>,
    /// The layers, from the wood outward.
    #[serde(rename = "layer", default)]
    pub layers: Vec<Layer>,
    /// What goes through wood and layers between the first two faces; none where nothing does.
    pub through: Option<Through>,
    /// How far from the joint the wood of each face is this detail's to keep dry.
    pub guards: BTreeMap<String, Reach>,
    /// Where on each face no fastener may stand.
    #[serde(default)]
    pub no_fasteners: BTreeMap<String, Reach>,
    /// Water backed up by ice; none where it cannot stand.
    pub ice: Option<Pond>,
    /// Water of a blocked gutter; none where no gutter hangs.
    pub gutter: Option<Pond>,
    /// Other details built with it at the same place, by id: joints that no one section shows.
    #[serde(default)]
    pub with: Vec<String>,
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

/// What goes through wood and layers: a pipe, a duct, a vent over its hole. Its sides stand upright, whatever the pitch.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Through {
    /// What it is, for papers.
    #[serde(deserialize_with = "words")]
    pub what: String,
    /// How wide it is drawn.
    pub wide: Text<Length>,
    /// How high it stands over the high side of its hole.
    pub high: Text<Length>,
    /// How far it goes on under the wood; none where it stands on it.
    pub below: Option<Text<Length>>,
    /// How wide the hood over it is; none where it is open at the top.
    pub hood: Option<Text<Length>>,
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

impl Detail {
    /// Whether it depends on what the wall is clad with.
    pub fn is_clad(&self) -> bool {
        self.layers.iter().any(|layer| layer.material == CLADDING)
    }

    /// How readily it is chosen at a place of which this is known.
    pub fn choice_at(&self, facts: &Facts) -> Choice {
        let is_refused = self.refused_when.as_ref().is_some_and(|when| when.asks(facts).is_some());
        if is_refused { Choice::Refused } else { self.choice }
    }

    /// Whether both are usual at some place where nothing tells which of them it shall be.
    pub(crate) fn rivals(&self, other: &Self) -> bool {
        let are_usual = [self, other].iter().all(|one| one.choice == Choice::Usual);
        are_usual && self.at == other.at && self.stage == other.stage && self.when.ties_with(&other.when)
    }

    /// The layers that are for something.
    pub fn of_role(&self, role: Role) -> impl Iterator<Item = &Layer> {
        self.layers.iter().filter(move |layer| layer.role == Some(role))
    }

    /// Indices of the layers in the order they are laid, which is mostly, but not always, from the wood outward.
    pub fn laying(&self) -> Vec<usize> {
        let is_in_turn = |index: &usize| self.layers[*index].laid_after.is_none();
        let with_followers = |index: usize| {
            let id = &self.layers[index].id;
            let follows = move |other: &usize| self.layers[*other].laid_after.as_ref() == Some(id);
            std::iter::once(index).chain((0..self.layers.len()).filter(follows))
        };
        (0..self.layers.len()).filter(is_in_turn).flat_map(with_followers).collect()
    }

    /// The face of that name.
    pub fn face(&self, name: &str) -> Option<&Face> {
        self.faces.iter().find(|face| face.name == name)
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
  { id = "membrane", material = "ice-barrier", covers = { wall = "8 in", deck = "18 in" }, held = "self-adhered" },
  { id = "shingles", material = "shingles", covers = { deck = ["1 in", "24 in"] }, over = { membrane = "4 in" }, held = "nails" },
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
    fn wood_to_be_built_with_nothing_on_it_is_told_and_may_be_found() {
        let layers = &DETAIL[DETAIL.find("layer = [").unwrap()..DETAIL.find("guards").unwrap()];
        let bare = told(layers, "layer = []\n");
        assert!(bare.contains("11:9: detail `mine`: it has no layers"), "{bare}");
        let found = DETAIL.replacen(layers, "layer = []\n", 1).replacen("planned", "found", 1);
        assert!(Book::with_overlays(&[("mine.toml", &found)]).is_ok());
    }

    /// `headwall` of the books is usual beside lap siding and shingles.
    #[test]
    fn two_details_usual_at_one_place_are_told() {
        let usual = DETAIL.replacen("\"allowed\"", "\"usual\"\nwhen = { cladding = [\"lap\"] }", 1);
        let said = |text: &str| {
            let told = Book::with_overlays(&[("mine.toml", text)]).err();
            told.map_or_else(String::new, |problems| problems.to_string())
        };
        let wanted = "mine.toml:6:10: detail `mine`: `choice`: it is usual at `headwall`, where `headwall` is usual too";
        assert!(said(&usual).contains(wanted), "{}", said(&usual));
        assert_eq!(said(&usual.replacen("id = \"mine\"", "id = \"headwall\"", 1)), "");
        // what asks more of the place goes first, and is no rival
        assert_eq!(said(&usual.replacen("[\"lap\"]", "[\"lap\"], lapped = true", 1)), "");
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
                "13:33: detail `mine`: layer `shingles` is of `shingels`, which is no material",
            ),
            (
                "deck = \"18 in\" }, held = \"self-adhered\" }",
                "deck = \"18 in\" }, fixed = [{ face = \"deck\", between = [\"6 in\", \"3 in\"], by = \"nails\" }] }",
                "is fixed from 6 in to 3 in of face `deck`, where it does not lie",
            ),
            (
                "deck = \"18 in\" }, held = \"self-adhered\" }",
                "deck = \"18 in\" }, fixed = [{ face = \"deck\", between = [\"17 in\", \"19 in\"], by = \"nails\" }] }",
                "where it does not lie",
            ),
            (
                "deck = \"18 in\" }, held",
                "deck = \"18 in\" }, held = \"self-adhered\", pieces = { length = \"6 in\", lap = \"6 in\", least = \"6 in\" } }, #",
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
            (", held = \"self-adhered\"", "", "layer `membrane` does not say how it is held"),
            ("held = \"self-adhered\"", "held = \"glue\"", "expected what holds it, such as `self-adhered`"),
            ("held = \"nails\"", "held = { layer = \"apron\" }", "held by `apron`, which is no other layer"),
            (
                "held = \"nails\"",
                "held = { by = \"loose\", apart = \"12 in\" }",
                "laid loose and yet fastened",
            ),
            (
                "held = \"self-adhered\"",
                "held = \"nails\"",
                "of `ice-barrier`, which sticks, and is held otherwise",
            ),
            ("held = \"nails\"", "held = \"self-adhered\"", "of `shingles`, which does not stick"),
            (
                "held = \"nails\"",
                "held = \"nails\", fixed = [{ face = \"deck\", between = [\"2 in\", \"3 in\"], by = \"nails\" }]",
                "says twice how it is held",
            ),
            (
                "held = \"nails\"",
                "held = \"nails\", role = \"drip-edge\"",
                "layer `shingles` has the role `drip-edge`, for which `shingles` is not made",
            ),
            ("held = \"nails\"", "held = \"nails\", role = \"shingle\"", "unknown variant `shingle`"),
            (
                "held = \"nails\"",
                "held = \"nails\", role = \"old-covering\"",
                "stays where `when` has `over = true`",
            ),
            (
                "held = \"nails\"",
                "held = \"nails\", drawn_short = \"wall\"",
                "drawn short on `wall`, where it does not lie",
            ),
            (
                "held = \"nails\"",
                "held = \"nails\", past = \"5/8 in\"",
                "stands 5/8 in past the first joint, where it does not end",
            ),
            ("held = \"nails\"", "held = \"nails\", up = \"1 in\"", "where nothing goes through as high"),
            ("held = \"nails\"", "held = \"nails\", laid_after = \"shingles\"", "which is no other layer"),
            (
                "guards = {",
                "through = { what = \"pipe\", wide = \"3 in\", high = \"9 in\" }\nguards = {",
                "`pipe` goes through two pitched faces only",
            ),
            ("at = \"headwall\"", "at = \"kick-out\"", "no layer has the role `kick-out`"),
            ("guards = {", "with = [\"headwal\"]\nguards = {", "built with `headwal`, which is no detail"),
            ("guards = {", "with = [\"headwall-found\"]\nguards = {", "of another stage"),
            (
                "guards = {",
                "with = [\"mine\"]\nguards = {",
                "built with `mine`, which is itself; take `mine` out of `with`",
            ),
            ("guards = {", "with = [\"chimney-cricket\"]\nguards = {", "which is itself built with `"),
            (
                "held = \"nails\"",
                "held = { by = \"nails\", apart = \"0 in\" }",
                "13:145: detail `mine`: layer `shingles` is fastened every `0 in`: `apart` must be more than nothing",
            ),
            (
                "deck = \"18 in\" }, held = \"self-adhered\" }",
                "deck = \"18 in\" }, fixed = [{ face = \"deck\", between = [\"2 in\", \"3 in\"], by = \"nails\", apart = \"0 in\" }] }",
                "layer `membrane` is fastened every `0 in`",
            ),
            (
                "guards = {",
                "ice = { height = \"30 ft\", on = { wall = \"all\", deck = \"all\" } }\nguards = {",
                "15:18: detail `mine`: water stands `30 ft` high; it must be more than nothing and no more than the 3' 4\" shown",
            ),
            (
                "guards = {",
                "gutter = { height = \"0 in\", on = { deck = \"all\" } }\nguards = {",
                "water stands `0 in` high; it must be more than nothing",
            ),
        ] {
            let told = told(part, instead);
            assert!(told.contains(wanted), "{instead}: {told}");
        }
    }
}
