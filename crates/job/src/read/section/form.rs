//! `roof = { form = "..", .. }`: the roof forms, each with keys of its own, brought to one shape.

use measure::{Length, Pitch};

use crate::read::field::{May, Must, Nested, Section};
use crate::read::notation::{BySide, Known, List, Marked, Quantity, SideName, Sided, SlopeWord, Words};
use crate::read::table::Table;
use crate::read::variants::{Case, Refused, Variants};
use crate::{Basis, EdgeSlope, Figure, Form, FormName, Problem, Side};

/// A roof form as read: which sides slope, and what happens above.
pub(crate) struct FormDraft {
    pub(crate) name: FormName,
    pub(crate) slopes: Slopes,
    pub(crate) form: Form,
}

/// Which sides slope, and how.
pub(crate) enum Slopes {
    /// The two along the ridge; the others are gables.
    Along { ridge: Ridge, pitch: Pitches },
    /// All but the gables.
    Around { pitch: Pitches, gables: Vec<Marked<Side>> },
    /// The one opposite the high side.
    Below { high: Marked<Side>, pitch: Figure<Pitch> },
    /// As listed, edge by edge, contour by contour.
    Listed(Vec<Marked<Vec<EdgeSlope>>>),
}

/// Pitches by side.
pub(crate) type Pitches = Sided<Figure<Pitch>>;

/// Which way a ridge runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ridge {
    /// Along the block's x.
    X,
    /// Along the block's y.
    Y,
}

impl Ridge {
    /// The sides along it.
    pub(crate) const fn eaves(self) -> [Side; 2] {
        match self {
            Self::X => [Side::South, Side::North],
            Self::Y => [Side::West, Side::East],
        }
    }

    /// The sides it points at.
    pub(crate) const fn ends(self) -> [Side; 2] {
        match self {
            Self::X => [Side::West, Side::East],
            Self::Y => [Side::South, Side::North],
        }
    }
}

/// Roofs that are not made of planes.
const ROUND: Refused = Refused {
    words: &["round", "cone", "conical", "turret", "dome", "bell", "curved", "barrel", "eyebrow"],
    code: "round-roof",
    why: "not made of planes, and is not measured as if it were",
    mend: "write an outline of straight edges that leaves an inch or less between it and the curve, with a \"hip\" roof, and call what comes out \
           approximate; or leave it out and have it measured by hand",
};

/// Pitches a roof may have.
pub(crate) const PITCH_RANGE: Quantity<Pitch> = Quantity::within("0.25/12", "24/12");

const RIDGE: Must<Words<Ridge>> = Must::new(
    "ridge",
    "which way the ridge runs: `x` along the block's first size, `y` along its second",
    r#""x""#,
    Words(&[("x", Ridge::X), ("y", Ridge::Y)]),
);
const PITCHES: Must<BySide<Known<Quantity<Pitch>>>> =
    Must::new("pitch", "pitch, one for all sloped sides or by side", r#""6/12""#, BySide(Known(PITCH_RANGE)));
const GABLES: May<List<SideName>> =
    May::new("gable", "sides without a slope, walls up to the roof", r#"["west"]"#, List(SideName, 0));
const HIGH: Must<SideName> = Must::new("high", "the high side", r#""north""#, SideName);
const PITCH: Must<Known<Quantity<Pitch>>> = Must::new("pitch", "pitch", r#""3/12""#, Known(PITCH_RANGE));
const LOW_PITCH: Must<Known<Quantity<Pitch>>> =
    Must::new("pitch", "pitch, under 2/12", r#""0.5/12""#, Known(PITCH_RANGE));
const HIP_FROM: Must<Known<Quantity<Length>>> = Must::new(
    "hip_from",
    "height above the plate at which the small hips of the gable ends start",
    r#""4'""#,
    Known(Quantity::within("1 in", "40'")),
);
const HIP_PITCH: May<Known<Quantity<Pitch>>> = May::new(
    "hip_pitch",
    "pitch of the small hips; the main pitch when left out",
    r#""6/12""#,
    Known(PITCH_RANGE),
);
const SKIRT: Must<Known<Quantity<Length>>> = Must::new(
    "skirt",
    "distance in plan from the wall line to the small gable above the hip",
    r#""4'""#,
    Known(Quantity::within("1 in", "100'")),
);
const BREAK: Must<Known<Quantity<Length>>> = Must::new(
    "break",
    "distance in plan from the wall line to where the pitch changes",
    r#""4'""#,
    Known(Quantity::within("1 in", "100'")),
);
const TWO_PITCHES: Must<Nested<TwoPitches>> = Must::new(
    "pitch",
    "pitches below and above the break",
    r#"{ lower = "18/12", upper = "6/12" }"#,
    Nested { section: &PITCH_PAIR, read: two_pitches },
);
const EDGES: Must<List<SlopeWord>> = Must::new(
    "edges",
    "for each edge of the outline, its pitch or `gable`",
    r#"["6/12", "gable", "6/12", "gable"]"#,
    List(SlopeWord(PITCH_RANGE), 3),
);
const HOLE_EDGES: May<List<List<SlopeWord>>> = May::new(
    "hole_edges",
    "for each hole, a list like `edges`",
    r#"[["6/12", "6/12", "6/12", "6/12"]]"#,
    List(List(SlopeWord(PITCH_RANGE), 3), 0),
);

const PITCH_PAIR: Section =
    Section { name: "roof.pitches", what: "pitches below and above a break", fields: &[&LOWER, &UPPER] };
const LOWER: Must<Known<Quantity<Pitch>>> =
    Must::new("lower", "pitch from the wall to the break", r#""18/12""#, Known(PITCH_RANGE));
const UPPER: Must<Known<Quantity<Pitch>>> =
    Must::new("upper", "pitch above the break", r#""6/12""#, Known(PITCH_RANGE));

macro_rules! section {
    ($name:ident, $key:literal, $what:literal, [$($field:ident),+]) => {
        const $name: Section = Section { name: $key, what: $what, fields: &[$(&$field),+] };
    };
}

section! { GABLE, "roof.gable", "two slopes to a ridge, walls up to the roof at its ends", [RIDGE, PITCHES] }
section! { HIP, "roof.hip", "a slope from every side, but for the gables named", [PITCHES, GABLES] }
section! { SHED, "roof.shed", "one slope", [HIGH, PITCH] }
section! { LOW_SLOPE, "roof.low-slope", "one slope under 2/12", [HIGH, LOW_PITCH] }
section! { HALF_HIP, "roof.half-hip", "a gable roof with its ends cut by small hips", [RIDGE, PITCHES, HIP_FROM, HIP_PITCH] }
section! { HIP_SKIRT, "roof.hip-skirt", "a hip roof with small gables at the ends of its ridge", [RIDGE, PITCHES, SKIRT] }
section! { GAMBREL, "roof.gambrel", "a gable roof that breaks to a flatter pitch", [RIDGE, TWO_PITCHES, BREAK] }
section! { MANSARD, "roof.mansard", "a hip roof that breaks to a flatter pitch", [TWO_PITCHES, BREAK] }
section! { SALTBOX, "roof.saltbox", "a gable roof whose two sides differ in pitch or plate", [RIDGE, PITCHES] }
section! { PER_EDGE, "roof.per-edge", "a pitch or a gable for each edge", [EDGES, HOLE_EDGES] }

/// How a roof is written.
pub(crate) const ROOF: Variants<FormDraft> = Variants {
    key: "form",
    refused: Some(&ROUND),
    cases: &[
        Case { word: "gable", section: &GABLE, read: |table| along(table, FormName::Gable) },
        Case { word: "hip", section: &HIP, read: hip },
        Case { word: "shed", section: &SHED, read: shed },
        Case { word: "low-slope", section: &LOW_SLOPE, read: low_slope },
        Case { word: "half-hip", section: &HALF_HIP, read: half_hip },
        Case { word: "hip-skirt", section: &HIP_SKIRT, read: hip_skirt },
        Case { word: "gambrel", section: &GAMBREL, read: gambrel },
        Case { word: "mansard", section: &MANSARD, read: mansard },
        Case { word: "saltbox", section: &SALTBOX, read: |table| along(table, FormName::Saltbox) },
        Case { word: "per-edge", section: &PER_EDGE, read: per_edge },
    ],
};

fn along(table: &mut Table<'_, '_>, name: FormName) -> Option<FormDraft> {
    let (ridge, pitch) = (table.must(&RIDGE), table.must(&PITCHES));
    Some(FormDraft { name, slopes: Slopes::Along { ridge: ridge?, pitch: pitch? }, form: Form::Plain })
}

fn hip(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (pitch, gables) = (table.must(&PITCHES), table.may(&GABLES));
    let slopes = Slopes::Around { pitch: pitch?, gables: gables.unwrap_or_default() };
    Some(FormDraft { name: FormName::Hip, slopes, form: Form::Plain })
}

fn shed(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (high, pitch) = (table.must(&HIGH), table.must(&PITCH));
    let slopes = Slopes::Below { high: high?, pitch: pitch? };
    Some(FormDraft { name: FormName::Shed, slopes, form: Form::Plain })
}

fn low_slope(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (high, pitch) = (table.must(&HIGH), table.must(&LOW_PITCH));
    let pitch = pitch?;
    if pitch.value >= Pitch::from_rise_per_12(2.0) {
        let message = format!("`{}.pitch` is {}, not under 2/12", table.path, pitch.value);
        let problem =
            Problem::error("not-low-slope", message, "write form = \"shed\" for a roof of 2/12 or more");
        return table.desk.refuse(problem.at(pitch.span, ""));
    }
    let slopes = Slopes::Below { high: high?, pitch };
    Some(FormDraft { name: FormName::LowSlope, slopes, form: Form::Plain })
}

fn half_hip(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (ridge, pitches) = (table.must(&RIDGE), table.must(&PITCHES));
    let (from, written) = (table.must(&HIP_FROM), table.may(&HIP_PITCH));
    let pitch = match (written, &pitches) {
        (None, Some(pitches)) if !table.has(HIP_PITCH.0.key) => main_pitch(table, pitches),
        (written, _) => written,
    };
    let form = Form::HalfHip { from: from?, pitch: pitch? };
    Some(FormDraft {
        name: FormName::HalfHip,
        slopes: Slopes::Along { ridge: ridge?, pitch: pitches? },
        form,
    })
}

/// The one pitch the small hips take when they have none of their own.
fn main_pitch(table: &mut Table<'_, '_>, pitches: &Pitches) -> Option<Figure<Pitch>> {
    let mut values = pitches.all.iter().chain(pitches.sides.iter().map(|(_, pitch)| pitch));
    let first = values.next()?;
    if values.all(|pitch| pitch.value == first.value) {
        return Some(Figure { value: first.value, basis: Basis::Derived, span: first.span.clone() });
    }
    let message = format!("`{}` has two pitches, and its small hips could take either", table.path);
    let problem = Problem::error("missing-key", message, "add `hip_pitch` with the pitch of the small hips");
    table.desk.refuse(problem.at(pitches.span.clone(), ""))
}

fn hip_skirt(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (ridge, pitch, run) = (table.must(&RIDGE), table.must(&PITCHES), table.must(&SKIRT));
    let form = Form::HipSkirt { run: run?, ends: ridge?.ends() };
    let slopes = Slopes::Around { pitch: pitch?, gables: Vec::new() };
    Some(FormDraft { name: FormName::HipSkirt, slopes, form })
}

fn gambrel(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (ridge, pitches, run) = (table.must(&RIDGE), table.must(&TWO_PITCHES), table.must(&BREAK));
    let (pitch, form) = broken(pitches?, run?);
    Some(FormDraft { name: FormName::Gambrel, slopes: Slopes::Along { ridge: ridge?, pitch }, form })
}

fn mansard(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (pitches, run) = (table.must(&TWO_PITCHES), table.must(&BREAK));
    let (pitch, form) = broken(pitches?, run?);
    let slopes = Slopes::Around { pitch, gables: Vec::new() };
    Some(FormDraft { name: FormName::Mansard, slopes, form })
}

fn broken(TwoPitches { lower, upper }: TwoPitches, run: Figure<Length>) -> (Pitches, Form) {
    let span = lower.span.clone();
    (Sided { all: Some(lower), sides: Vec::new(), span }, Form::Broken { run, upper })
}

/// Pitches below and above a break.
pub(crate) struct TwoPitches {
    lower: Figure<Pitch>,
    upper: Figure<Pitch>,
}

fn two_pitches(table: &mut Table<'_, '_>) -> Option<TwoPitches> {
    let (lower, upper) = (table.must(&LOWER), table.must(&UPPER));
    let pitches = TwoPitches { lower: lower?, upper: upper? };
    if pitches.upper.value >= pitches.lower.value {
        let message = format!(
            "`{}` rises at {} above the break and {} below it",
            table.path, pitches.upper.value, pitches.lower.value
        );
        let problem =
            Problem::error("upper-not-flatter", message, "swap them: the upper pitch is the flatter one");
        return table
            .desk
            .refuse(problem.at(pitches.upper.span, "").at(pitches.lower.span, "the lower pitch"));
    }
    Some(pitches)
}

fn per_edge(table: &mut Table<'_, '_>) -> Option<FormDraft> {
    let (outer, holes) = (table.must(&EDGES), table.may(&HOLE_EDGES));
    let mark = |key: &str, value| Marked { value, span: table.span_of(key) };
    let outer = mark(EDGES.0.key, outer?);
    let holes = holes.unwrap_or_default().into_iter().map(|hole| mark(HOLE_EDGES.0.key, hole));
    let slopes = Slopes::Listed(std::iter::once(outer).chain(holes).collect());
    Some(FormDraft { name: FormName::PerEdge, slopes, form: Form::Plain })
}
