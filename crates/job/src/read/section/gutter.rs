//! `[[gutter]]`: gutters and their downspouts.

use book::LookupError;
use measure::Length;
use serde_json::{Value as Json, json};

use crate::read::desk::Desk;
use crate::read::field::{May, Must, Nested, Notation, Section};
use crate::read::node::Node;
use crate::read::notation::{At, Count, Many, Marked, Name, PlaneOf, Quantity, Survey, Text, Words, Written};
use crate::read::table::Table;
use crate::schema::Definitions;
use crate::{Along, Compass, Figure, PlaneName, Problem, Span, State};

/// The section.
pub(crate) const GUTTER: Section = Section {
    name: "gutter",
    what: "a gutter and its downspouts",
    fields: &[&NAME, &EAVE, &PART, &KIND, &FALL, &WALL_GAP, &DOWNSPOUTS, &STATE],
};

const NAME: May<At<Name>> = May::new(
    "name",
    "name, unique among gutters and downspouts; `gutter` and its number when left out",
    r#""south gutter""#,
    At(Name),
);
const EAVE: Must<At<PlaneOf>> =
    Must::new("eave", "the plane at whose eave it hangs", r#""main S""#, At(PlaneOf));
const PART: May<Count> = May::new(
    "part",
    "which eave of the plane where it has several, counted from the west, or from the south where they run north",
    "1",
    Count(1, 100),
);
const KIND: Must<At<Text>> =
    Must::new("kind", "gutter, as the books name it", r#""k-style-5""#, At(Text::NOTE));
const FALL: May<Survey<Quantity<Length>>> = May::new(
    "fall",
    "its fall in each foot of length",
    r#""1/16 in""#,
    Survey(Quantity::within("0 in", "2 in"), "gutter.fall"),
);
const WALL_GAP: May<Quantity<Length>> = May::new(
    "wall_gap",
    "how far its end stops short of a wall the eave ends at; it runs to the end of the eave when left out",
    r#""1 in""#,
    Quantity::within("0 in", "5'"),
);
const DOWNSPOUTS: May<Many<Nested<DownspoutDraft>>> = May::new(
    "downspouts",
    "its downspouts",
    r#"[{ at = "west", size = "downspout-2x3", to = "ground" }]"#,
    Many(Nested { section: &DOWNSPOUT, read: |table| Some(downspout(table)) }),
);
pub(super) const STATE: May<Words<State>> = May::new(
    "state",
    "there and stays, comes, or goes; `found` when left out",
    r#""found""#,
    Words(&[("found", State::Found), ("plan", State::Plan), ("remove", State::Remove)]),
);

const DOWNSPOUT: Section = Section {
    name: "downspout",
    what: "a downspout of a gutter",
    fields: &[&SPOUT_NAME, &SPOUT_AT, &SPOUT_SIZE, &SPOUT_TO, &SPOUT_AWAY],
};
const SPOUT_NAME: May<At<Name>> = May::new(
    "name",
    "name, unique among gutters and downspouts; its gutter's and a number when left out",
    r#""corner downspout""#,
    At(Name),
);
const SPOUT_AT: Must<At<AlongEave>> = Must::new(
    "at",
    "where along the eave: an end by its name, or the distance from the west end, from the south end where it runs north",
    r#""west""#,
    At(AlongEave(Quantity::within("0'", "500'"))),
);
const SPOUT_SIZE: Must<At<Text>> =
    Must::new("size", "downspout, as the books name it", r#""downspout-2x3""#, At(Text::NOTE));
const SPOUT_TO: Must<At<Text>> = Must::new(
    "to",
    "what it empties on: `ground`, `drain`, the name of a lower gutter, or a lower roof such as `porch S`",
    r#""ground""#,
    At(Text::NOTE),
);

const SPOUT_AWAY: May<Quantity<Length>> = May::new(
    "away",
    "how far from the foundation its water is let go",
    r#""5 ft""#,
    Quantity::within("0 in", "500'"),
);

/// Downspouts that are said to empty further off than this are asked about.
const FAR: Length = Length::from_m(15.24); // 50 ft

/// A gutter whose name may still have to be made, and whose downspouts may name other gutters.
pub(crate) struct GutterDraft {
    /// As written, and where.
    pub(crate) name: Option<Marked<String>>,
    pub(crate) eave: Option<Marked<PlaneName>>,
    pub(crate) part: Option<u32>,
    pub(crate) kind: Option<String>,
    pub(crate) fall: Option<Figure<Length>>,
    pub(crate) wall_gap: Option<Length>,
    pub(crate) downspouts: Vec<DownspoutDraft>,
    pub(crate) state: State,
    pub(crate) path: String,
    pub(crate) span: Span,
}

/// A downspout as written.
pub(crate) struct DownspoutDraft {
    pub(crate) name: Option<Marked<String>>,
    pub(crate) at: Option<Marked<Along>>,
    pub(crate) size: Option<String>,
    pub(crate) to: Option<Marked<String>>,
    pub(crate) away: Option<Length>,
    pub(crate) path: String,
}

/// Reads a gutter.
pub(crate) fn gutter(table: &mut Table<'_, '_>) -> GutterDraft {
    let (name, eave, part) = (table.may(&NAME), table.must(&EAVE), table.may(&PART));
    let kind = table.must(&KIND);
    let kind = kind.and_then(|id| {
        let found = table.desk.book().gutter(&id.value).map(|row| row.id.clone());
        in_books(table, "unknown-gutter", &id, found)
    });
    GutterDraft {
        name,
        eave,
        part,
        kind,
        fall: table.survey(&FALL),
        wall_gap: table.may(&WALL_GAP),
        downspouts: table.may(&DOWNSPOUTS).unwrap_or_default(),
        state: table.may(&STATE).unwrap_or(State::Found),
        path: table.path.clone(),
        span: table.span.clone(),
    }
}

fn downspout(table: &mut Table<'_, '_>) -> DownspoutDraft {
    let (name, at) = (table.may(&SPOUT_NAME), table.must(&SPOUT_AT));
    let size = table.must(&SPOUT_SIZE);
    let size = size.and_then(|id| {
        let found = table.desk.book().downspout(&id.value).map(|row| row.id.clone());
        in_books(table, "unknown-downspout", &id, found)
    });
    let (to, away) = (table.must(&SPOUT_TO), table.may(&SPOUT_AWAY));
    check_away(table, away);
    DownspoutDraft { name, at, size, to, away, path: table.path.clone() }
}

/// Water is led off by a few lengths of pipe; further it may be, but is rather a slip of the unit.
fn check_away(table: &mut Table<'_, '_>, away: Option<Length>) {
    if away.is_none_or(|away| away <= FAR) {
        return;
    }
    let span = table.span_of(SPOUT_AWAY.0.key);
    let written = table.text_of(SPOUT_AWAY.0.key).unwrap_or_default();
    let message = format!("`{}` lets its water go {written} from the foundation", table.path);
    let mend = "check the figure and its unit; where a pipe really leads so far, leave it";
    table.desk.report(Problem::warning("far-away", message, mend).at(span, ""));
}

/// The id of a row, or the report that nobody can size what the books do not have.
fn in_books(
    table: &mut Table<'_, '_>,
    code: &'static str,
    id: &Marked<String>,
    found: Result<String, LookupError>,
) -> Option<String> {
    if id.value == crate::read::node::UNKNOWN {
        let message = format!("`{}` does not know a size its rating hangs on", table.path);
        let mend = "measure it across and write the row of the books that fits";
        return table.desk.refuse(Problem::error("must-be-measured", message, mend).at(id.span.clone(), ""));
    }
    table.desk.looked_up(code, found, &id.span)
}

/// A distance along an eave, or one of its ends.
struct AlongEave(Quantity<Length>);

/// Ends an eave can have.
const ENDS: [(&str, Compass); 4] =
    [("west", Compass::West), ("east", Compass::East), ("south", Compass::South), ("north", Compass::North)];

impl Notation for AlongEave {
    type Value = Along;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Along> {
        if node.is_word() { Self::end(node, desk) } else { self.0.read(node, desk).map(Along::Distance) }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let words = ENDS.map(|(word, _)| word);
        json!({ "anyOf": [{ "enum": words }, self.0.schema(definitions)] })
    }
}

impl AlongEave {
    fn end(node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Along> {
        let word = node.text().unwrap_or_default();
        if let Some((_, end)) = ENDS.iter().find(|(known, _)| *known == word) {
            return Some(Along::End(*end));
        }
        let message =
            format!("`{}` is `{word}`, neither an end of an eave nor a distance along it", node.path);
        let mend = match book::nearest(word, ENDS.map(|(known, _)| known)) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None => format!("write west, east, south or north, or a distance like {}", Length::EXAMPLE),
        };
        desk.refuse(node.error("unknown-word", message, mend))
    }
}
