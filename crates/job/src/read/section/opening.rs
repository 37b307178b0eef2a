//! `[[opening]]`: what pierces or sits on the roof.

use book::Kind;
use measure::{Area, Length, Pitch, RValue};
use serde_json::{Value as Json, json};
use toml::de::DeValue;

use super::block::PLAN;
use super::form::PITCH_RANGE;
use crate::read::desk::Desk;
use crate::read::field::{May, Must, Nested, Notation, Section};
use crate::read::node::{Node, UNKNOWN, child};
use crate::read::notation::{At, Known, Marked, Name, Pair, Quantity, Survey, Text, Words};
use crate::read::table::Table;
use crate::schema::Definitions;
use crate::{Basis, Cricket, Figure, Mount, Opening, OpeningKind, Problem, Serves, Shaft, Span, State};

/// The section.
pub(crate) const OPENING: Section = Section {
    name: "opening",
    what: "what pierces or sits on the roof",
    fields: &[
        &KIND, &NAME, &AT, &SIZE, &STATE, &SERVES, &MOUNT, &CRICKET, &FREE_AREA, &FRAMING, &HEIGHT, &SHAFT,
    ],
};

/// Kinds and their words.
const KINDS: [(&str, OpeningKind); 7] = [
    ("pipe", OpeningKind::Pipe),
    ("hood", OpeningKind::Hood),
    ("chimney", OpeningKind::Chimney),
    ("skylight", OpeningKind::Skylight),
    ("daylight-tube", OpeningKind::DaylightTube),
    ("box-vent", OpeningKind::BoxVent),
    ("power-vent", OpeningKind::PowerVent),
];

const KIND: Must<Words<OpeningKind>> = Must::new("kind", "what it is", r#""chimney""#, Words(&KINDS));
const NAME: May<At<Name>> =
    May::new("name", "name, unique in the job; kind and number when left out", r#""chimney""#, At(Name));
const AT: Must<At<Pair<Length>>> =
    Must::new("at", "centre in plan, x and y", r#"["12'", "17'"]"#, At(Pair(PLAN)));
const SIZE: Must<Size> = Must::new(
    "size",
    "across and along the slope, or one diameter; along is in plan for what stands upright, on the slope for what lies in it",
    r#"["32 in", "24 in"]"#,
    Size(Quantity::within("1/2 in", "30'")),
);
const STATE: May<Words<State>> = May::new(
    "state",
    "there and stays, comes, or goes; `found` when left out",
    r#""found""#,
    Words(&[("found", State::Found), ("plan", State::Plan), ("remove", State::Remove)]),
);
const SERVES: May<Words<Serves>> = May::new(
    "serves",
    "what a pipe or a hood carries: air of the drains, what a fan blows out, or what an appliance that burns fuel gives off",
    r#""plumbing""#,
    Words(&[("plumbing", Serves::Plumbing), ("fan", Serves::Fan), ("fuel", Serves::Fuel)]),
);
const MOUNT: May<Survey<Words<Mount>>> = May::new(
    "mount",
    "what a skylight is mounted on: a curb that lifts it above the roof, or the deck with its own frame",
    r#""curb""#,
    Survey(Words(&[("curb", Mount::Curb), ("deck", Mount::Deck)]), "opening.mount"),
);
const CRICKET: May<CricketWord> = May::new(
    "cricket",
    "small roof behind it: true, false or its pitch; as the code asks when left out",
    "true",
    CricketWord(PITCH_RANGE),
);
const FREE_AREA: May<FreeAreaText> = May::new(
    "free_area",
    "net free area of a vent",
    r#""50 in2""#,
    FreeAreaText(Quantity::within("0 in2", "1000 in2")),
);
const FRAMING: May<Text> =
    May::new("framing", "note on the framing around it", r#""one rafter cut""#, Text::NOTE);
const HEIGHT: May<Quantity<Length>> = May::new(
    "height",
    "how far it stands above the roof where that is highest beside it; as it will be, where it is planned",
    r#""12 in""#,
    Quantity::within("0 in", "60'"),
);
const SHAFT: May<Nested<Shaft>> = May::new(
    "shaft",
    "shaft from the ceiling up to it",
    r#"{ depth = "30 in" }"#,
    Nested { section: &SHAFT_SECTION, read: shaft },
);

const SHAFT_SECTION: Section =
    Section { name: "shaft", what: "shaft of a skylight through the attic", fields: &[&DEPTH, &INSULATION] };
const DEPTH: Must<Quantity<Length>> =
    Must::new("depth", "ceiling to roof", r#""30 in""#, Quantity::within("1 in", "20'"));
const INSULATION: May<Known<Quantity<RValue>>> =
    May::new("effective", "thermal resistance its sides really have", r#""R-0""#, Known(Quantity::ANY));

/// An opening whose name may still have to be made.
pub(crate) struct OpeningDraft {
    /// As written, and where.
    pub(crate) name: Option<Marked<String>>,
    /// Without its name; none where it cannot be read.
    pub(crate) opening: Option<Opening>,
}

/// The word of a kind.
pub(crate) fn kind_word(kind: OpeningKind) -> &'static str {
    KINDS.iter().find(|(_, known)| *known == kind).map_or("opening", |(word, _)| *word)
}

/// Reads one opening.
pub(crate) fn opening(table: &mut Table<'_, '_>) -> OpeningDraft {
    let name = table.may(&NAME);
    OpeningDraft { name, opening: nameless(table) }
}

fn nameless(table: &mut Table<'_, '_>) -> Option<Opening> {
    let kind = table.must(&KIND);
    let (at, size) = (table.must(&AT), table.must(&SIZE));
    let (state, serves, cricket) = (table.may(&STATE), table.may(&SERVES), table.may(&CRICKET));
    let mount = mount(table, kind);
    let area = table.may(&FREE_AREA);
    let net_free_area = net_free_area(table, kind, area);
    let (framing, height, shaft) = (table.may(&FRAMING), table.may(&HEIGHT), table.may(&SHAFT));
    LIT.check(table, kind);
    SERVING.check(table, kind);
    check_free_area(table, net_free_area.as_ref(), size);
    let Marked { value: at, span: at_span } = at?;
    let [across, along] = size?;
    Some(Opening {
        name: String::new(),
        kind: kind?,
        at: at.map(Length::m),
        across,
        along,
        state: state.unwrap_or(State::Found),
        serves,
        cricket: cricket.unwrap_or(Cricket::ByCode),
        mount,
        net_free_area,
        framing,
        height,
        shaft,
        span: table.span.clone(),
        at_span,
    })
}

/// What a skylight is mounted on, which is told by the kind of its flashing; nothing else is mounted so.
fn mount(table: &mut Table<'_, '_>, kind: Option<OpeningKind>) -> Option<Figure<Mount>> {
    let kind = kind?;
    if kind == OpeningKind::Skylight {
        return table.survey(&MOUNT);
    }
    if table.has(MOUNT.0.key) {
        let message = format!("`{}` is a {} that is mounted on something", table.path, kind_word(kind));
        let mend = "take `mount` out, or change `kind` to skylight";
        let span = table.span_of(MOUNT.0.key);
        table.desk.report(Problem::warning("mount-without-skylight", message, mend).at(span, ""));
    }
    None
}

/// The free area of a vent. Only box vents have a default; the area of nothing but a vent means anything.
fn net_free_area(
    table: &mut Table<'_, '_>,
    kind: Option<OpeningKind>,
    written: Option<Vented>,
) -> Option<Figure<Area>> {
    let span = table.span_of(FREE_AREA.0.key);
    match (kind?, written) {
        (OpeningKind::BoxVent | OpeningKind::PowerVent, Some(Vented::Area(value))) => {
            Some(Figure { value, basis: Basis::Measured, span })
        }
        (OpeningKind::BoxVent, None) if table.has(FREE_AREA.0.key) => None,
        (OpeningKind::BoxVent, _) => {
            let path = child(&table.path, FREE_AREA.0.key);
            table.desk.assume("opening.free_area.box-vent", &path, &span, |row| Area::of(&row.value))
        }
        (OpeningKind::PowerVent, Some(Vented::Unknown)) => table.desk.refuse(unlabelled(table, span)),
        (_, None) => None,
        (_, Some(_)) => table.desk.refuse(not_a_vent(table, span)),
    }
}

fn unlabelled(table: &Table<'_, '_>, span: Span) -> Problem {
    let message = format!("`{}.free_area` is unknown, and no default stands for a power vent", table.path);
    Problem::error("must-be-measured", message, "read its label, or take the line out").at(span, "")
}

fn not_a_vent(table: &Table<'_, '_>, span: Span) -> Problem {
    let message = format!("`{}` has a free area but is no vent", table.path);
    Problem::error("not-a-vent", message, "take `free_area` out, or change `kind` to box-vent or power-vent")
        .at(span, "")
}

/// A key that only openings of some kinds can have.
struct Only {
    key: &'static str,
    kinds: [OpeningKind; 2],
    code: &'static str,
    /// What one of another kind then seems to be.
    told: &'static str,
}

/// Only pipes and hoods carry something that is written down.
const SERVING: Only = Only {
    key: SERVES.0.key,
    kinds: [OpeningKind::Pipe, OpeningKind::Hood],
    code: "serves-nothing",
    told: "that serves something",
};
/// Only what brings light has a shaft through the attic.
const LIT: Only = Only {
    key: SHAFT.0.key,
    kinds: [OpeningKind::Skylight, OpeningKind::DaylightTube],
    code: "shaft-without-light",
    told: "with a shaft of light below it",
};

impl Only {
    fn check(&self, table: &mut Table<'_, '_>, kind: Option<OpeningKind>) {
        let Some(kind) = kind.filter(|kind| table.has(self.key) && !self.kinds.contains(kind)) else {
            return;
        };
        let message = format!("`{}` is a {} {}", table.path, kind_word(kind), self.told);
        let [one, other] = self.kinds.map(kind_word);
        let mend = format!("take `{}` out, or change `kind` to {one} or {other}", self.key);
        let span = table.span_of(self.key);
        table.desk.report(Problem::warning(self.code, message, mend).at(span, ""));
    }
}

/// No more of a hole can be free than there is of it.
fn check_free_area(table: &mut Table<'_, '_>, free: Option<&Figure<Area>>, size: Option<[Length; 2]>) {
    let Some((free, [across, along])) = free.zip(size) else { return };
    let whole = across * along;
    if free.basis == Basis::Measured && free.value > whole {
        let [free_in2, whole_in2] = [free.value, whole].map(Area::in2);
        let message = format!(
            "`{}` has {free_in2:.1} in2 free, but its opening is only {whole_in2:.1} in2",
            table.path
        );
        let mend = "read the label again: the free area is what air can pass through, less than the opening";
        let problem = Problem::warning("free-over-whole", message, mend).at(free.span.clone(), "");
        let size = table.span_of(SIZE.0.key);
        table.desk.report(problem.at(size, "its size"));
    }
}

fn shaft(table: &mut Table<'_, '_>) -> Option<Shaft> {
    let (depth, insulation) = (table.must(&DEPTH), table.may(&INSULATION));
    Some(Shaft { depth: depth?, insulation })
}

/// Two lengths, or one for a round thing.
struct Size(Quantity<Length>);

impl Notation for Size {
    type Value = [Length; 2];

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<[Length; 2]> {
        if node.items().is_some() {
            Pair(Quantity::within("1/2 in", "30'")).read(node, desk)
        } else {
            self.0.read(node, desk).map(|diameter| [diameter; 2])
        }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let one = self.0.schema(definitions);
        json!({ "anyOf": [one, { "type": "array", "minItems": 2, "maxItems": 2, "items": one }] })
    }
}

/// Yes, no, or yes with a pitch.
struct CricketWord(Quantity<Pitch>);

impl Notation for CricketWord {
    type Value = Cricket;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Cricket> {
        match node.value {
            DeValue::Boolean(true) => Some(Cricket::Built(None)),
            DeValue::Boolean(false) => Some(Cricket::None),
            _ if node.is_word() => desk.refuse(node.wrong_kind("yes, no or a pitch", "true, without quotes")),
            _ => self.0.read(node, desk).map(|pitch| Cricket::Built(Some(pitch))),
        }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "anyOf": [{ "type": "boolean" }, self.0.schema(definitions)] })
    }
}

/// Free area as written.
enum Vented {
    Area(Area),
    Unknown,
}

/// An area, or unknown; what unknown stands for depends on the kind of opening.
struct FreeAreaText(Quantity<Area>);

impl Notation for FreeAreaText {
    type Value = Vented;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Vented> {
        if node.is_unknown() { Some(Vented::Unknown) } else { self.0.read(node, desk).map(Vented::Area) }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "anyOf": [self.0.schema(definitions), { "const": UNKNOWN }] })
    }
}
