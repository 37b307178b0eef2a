//! `[attic.NAME]`: a space under the roof, as found and as planned.

use book::{Kind, Share};
use measure::{Area, Length, Pressure, RValue, Volume};
use serde_json::{Value as Json, json};

use super::block::PLAN as IN_PLAN;
use crate::read::desk::Desk;
use crate::read::field::{May, Must, Nested, Notation, Section};
use crate::read::node::{Node, UNKNOWN};
use crate::read::notation::{
    AreaPerLength, At, BlockName, Count, Flag, Known, Leakage, List, Many, Marked, Pair, Quantity, Survey,
    Text, Words, Written,
};
use crate::read::table::Table;
use crate::schema::Definitions;
use crate::{Attic, AtticState, FreeArea, Joined, Problem, SideWalls, SpaceKind, Span};

/// The section.
pub(crate) const ATTIC: Section = Section {
    name: "attic",
    what: "a space under the roof that is vented as one",
    fields: &[
        &UNDER,
        &KIND,
        &PART,
        &CEILING,
        &HEATED_CEILING,
        &VOLUME,
        &VAPOR_RETARDER,
        &JOINED,
        &GARAGE_SEPARATION,
        &ACCESS,
        &FOUND,
        &PLAN,
    ],
};

const UNDER: Must<List<At<BlockName>>> =
    Must::new("under", "blocks it lies under", r#"["main"]"#, List(At(BlockName), 1));
const KIND: May<Words<SpaceKind>> = May::new(
    "kind",
    "a space over a level ceiling, or rafter bays over a sloped one; an attic when left out",
    r#""cathedral""#,
    Words(&[("attic", SpaceKind::Attic), ("cathedral", SpaceKind::Cathedral)]),
);
const PART: May<Nested<[[f64; 2]; 2]>> = May::new(
    "part",
    "the rectangle of those blocks it lies under; what no other space has a part of when left out",
    r#"{ at = ["24'", "0'"], size = ["16'", "26'"] }"#,
    Nested { section: &PART_SECTION, read: part },
);
const PART_SECTION: Section = Section {
    name: "attic.part",
    what: "the rectangle of the plan a space lies under",
    fields: &[&PART_AT, &PART_SIZE],
};
const PART_AT: Must<Pair<Length>> =
    Must::new("at", "its south-west corner, plan x and y", r#"["24'", "0'"]"#, Pair(IN_PLAN));
const PART_SIZE: Must<Pair<Length>> =
    Must::new("size", "its size east and north", r#"["16'", "26'"]"#, Pair(Quantity::within("1 in", "500'")));
const AREA: Quantity<Area> = Quantity::within("1 ft2", "100000 ft2");
const CEILING: May<Quantity<Area>> = May::new(
    "ceiling",
    "area of the ceiling below; from the blocks' wall lines when left out",
    r#""1200 ft2""#,
    AREA,
);
const HEATED_CEILING: May<Quantity<Area>> =
    May::new("heated_ceiling", "the part of it with heated rooms below, if not all", r#""560 ft2""#, AREA);
const VOLUME: May<Quantity<Volume>> =
    May::new("volume", "volume of the space", r#""4052 ft3""#, Quantity::within("1 ft3", "1000000 ft3"));
const VAPOR_RETARDER: May<Survey<Words<Option<u8>>>> = May::new(
    "vapor_retarder",
    "class of the vapor retarder on the warm side of the ceiling",
    r#""class 2""#,
    Survey(
        Words(&[("none", None), ("class 1", Some(1)), ("class 2", Some(2)), ("class 3", Some(3))]),
        "attic.vapor_retarder",
    ),
);
const JOINED: May<Many<Nested<JoinedDraft>>> = May::new(
    "joined",
    "open ways to other attics, each written with one of the two",
    r#"[{ to = "garage", area = "12 ft2" }]"#,
    Many(Nested { section: &JOINED_SECTION, read: joined }),
);
const JOINED_SECTION: Section = Section {
    name: "attic.joined",
    what: "an open way from one attic to another, such as a scuttle or a gable left open",
    fields: &[&JOINED_TO, &JOINED_AREA],
};
const JOINED_TO: Must<At<Text>> = Must::new("to", "name of the other attic", r#""garage""#, At(Text::NOTE));
const JOINED_AREA: May<Survey<Quantity<Area>>> = May::new(
    "area",
    "its open area",
    r#""12 ft2""#,
    Survey(Quantity::within("1 in2", "1000 ft2"), "attic.passage"),
);
const GARAGE_SEPARATION: May<Known<Flag>> =
    May::new("garage_separation", "whether gypsum separates a garage from this attic", "true", Known(Flag));
const ACCESS: May<Pair<Length>> = May::new(
    "access",
    "rough opening of the way in",
    r#"["22 in", "30 in"]"#,
    Pair(Quantity::within("1 in", "10'")),
);
const FOUND: May<Nested<AtticState>> = May::new(
    "found",
    "as surveyed",
    r#"{ insulation = "R-11 batt" }"#,
    Nested { section: &STATE, read: |table| Some(state(table)) },
);
const PLAN: May<Nested<AtticState>> = May::new(
    "plan",
    "as it will be",
    r#"{ insulation = "R-60 blown" }"#,
    Nested { section: &STATE, read: |table| Some(state(table)) },
);

const STATE: Section = Section {
    name: "attic.state",
    what: "ventilation, insulation and air leakage of an attic, as found or as planned",
    fields: &[
        &INSULATION,
        &INSULATION_DEPTH,
        &EFFECTIVE,
        &CONDITION,
        &LEAKAGE,
        &SOFFIT_OPEN,
        &RIDGE_VENT,
        &GABLE_LOUVERS,
        &OPPOSITE_LOUVERS,
        &BAFFLES,
        &CLEAR_WAY,
        &DECK_MOISTURE,
        &HATCH,
        &SIDE_WALLS,
        &HOUSE_TO_ATTIC,
        &ATTIC_TO_OUTDOORS,
    ],
};

const INSULATION: May<Text> =
    May::new("insulation", "insulation on the ceiling", r#""3.5 in glass-fibre batt""#, Text::NOTE);
const INSULATION_DEPTH: May<Quantity<Length>> = May::new(
    "insulation_depth",
    "depth of the insulation where it ends over the wall, above the plate",
    r#""4 in""#,
    Quantity::within("0 in", "4'"),
);
const EFFECTIVE: May<Survey<Quantity<RValue>>> = May::new(
    "effective",
    "thermal resistance it really has",
    r#""R-9""#,
    Survey(Quantity::ANY, "attic.insulation"),
);
const CONDITION: May<Text> =
    May::new("condition", "condition of the insulation", r#""blackened""#, Text::NOTE);
const LEAKAGE: May<Quantity<Leakage>> = May::new(
    "leakage",
    "air leakage of the ceiling with the house at 50 Pa",
    r#""550 cfm50""#,
    Quantity::within("0 cfm50", "20000 cfm50"),
);
const SOFFIT_OPEN: May<FreeAreaText> = May::new(
    "soffit_open",
    "net free area of the soffits that is really open",
    r#""78 in2""#,
    FreeAreaText(None),
);
const RIDGE_VENT: May<FreeAreaText> = May::new(
    "ridge_vent",
    "net free area of the ridge vent",
    r#"{ per_length = "12 in2/ft" }"#,
    FreeAreaText(Some("attic.ridge_vent")),
);
const GABLE_LOUVERS: May<Quantity<Area>> = May::new(
    "gable_louvers",
    "net free area of all louvers in the gables",
    r#""201.6 in2""#,
    Quantity::within("0 in2", "10000 in2"),
);
const OPPOSITE_LOUVERS: May<Flag> =
    May::new("opposite_louvers", "whether the louvers sit in gables that face opposite ways", "true", Flag);
const BAFFLES: May<Survey<Count>> =
    May::new("baffles", "baffles that keep the eave bays open", "0", Survey(Count(0, 1000), "attic.baffles"));
const CLEAR_WAY: May<Quantity<Length>> = May::new(
    "clear_way",
    "least clear way between insulation and deck at the eave vents",
    r#""1 in""#,
    Quantity::within("0 in", "4'"),
);
const DECK_MOISTURE: May<Survey<Quantity<Share>>> = May::new(
    "deck_moisture",
    "moisture content of the deck from below",
    r#""12 %""#,
    Survey(Quantity::ANY, "attic.deck_moisture"),
);
const HATCH: May<Survey<Quantity<RValue>>> =
    May::new("hatch", "thermal resistance of the hatch", r#""R-1""#, Survey(Quantity::ANY, "attic.hatch"));
const SIDE_WALLS: May<Nested<SideWalls>> = May::new(
    "side_walls",
    "walls, kneewalls and shafts between the attic and heated rooms",
    r#"{ area = "33.3 ft2", effective = "R-9", backed = false }"#,
    Nested { section: &SIDE_WALL, read: side_walls },
);
const PRESSURE: Quantity<Pressure> = Quantity::within("0 Pa", "60 Pa");
const HOUSE_TO_ATTIC: May<Quantity<Pressure>> = May::new(
    "house_to_attic",
    "pressure from house to attic with the house at 50 Pa",
    r#""48.6 Pa""#,
    PRESSURE,
);
const ATTIC_TO_OUTDOORS: May<Quantity<Pressure>> = May::new(
    "attic_to_outdoors",
    "pressure from attic to outdoors with the house at 50 Pa",
    r#""1.4 Pa""#,
    PRESSURE,
);

const SIDE_WALL: Section = Section {
    name: "side_walls",
    what: "walls, kneewalls and shafts between an attic and heated rooms",
    fields: &[&WALL_AREA, &WALL_EFFECTIVE, &BACKED],
};
const WALL_AREA: Must<Quantity<Area>> = Must::new("area", "their area", r#""33.3 ft2""#, AREA);
const WALL_EFFECTIVE: May<Survey<Quantity<RValue>>> = May::new(
    "effective",
    "thermal resistance they really have",
    r#""R-9""#,
    Survey(Quantity::ANY, "attic.kneewall"),
);
const BACKED: May<Known<Flag>> =
    May::new("backed", "whether their insulation is covered on the attic side", "false", Known(Flag));

/// An attic, and where each block it lies under is named.
pub(crate) struct AtticDraft {
    pub(crate) attic: Attic,
    pub(crate) under: Vec<Marked<String>>,
    /// Where each attic it is joined to is named.
    pub(crate) joined: Vec<Span>,
}

/// An open way as read, and where the other attic is named.
type JoinedDraft = (Joined, Span);

/// Reads one attic.
pub(crate) fn attic(table: &mut Table<'_, '_>) -> Option<AtticDraft> {
    let under = table.must(&UNDER);
    let (kind, part) = (table.may(&KIND).unwrap_or_default(), table.may(&PART));
    let (ceiling, heated_ceiling, volume) =
        (table.may(&CEILING), table.may(&HEATED_CEILING), table.may(&VOLUME));
    check_ceiling(table, ceiling, heated_ceiling);
    let vapor_retarder = table.survey(&VAPOR_RETARDER);
    let (joined, spans) = table.may(&JOINED).unwrap_or_default().into_iter().unzip();
    let (garage_separation, access) = (table.may(&GARAGE_SEPARATION), table.may(&ACCESS));
    let (found, plan) = (table.may(&FOUND), table.may(&PLAN));
    let under = under?;
    let attic = Attic {
        name: table.key.clone(),
        kind,
        part,
        under: under.iter().map(|block| block.value.clone()).collect(),
        ceiling,
        heated_ceiling,
        volume,
        vapor_retarder: vapor_retarder?.value,
        joined,
        garage_separation,
        access,
        found: found.unwrap_or_default(),
        plan: plan.unwrap_or_default(),
        span: table.span.clone(),
    };
    Some(AtticDraft { attic, under, joined: spans })
}

fn joined(table: &mut Table<'_, '_>) -> Option<JoinedDraft> {
    let (to, area) = (table.must(&JOINED_TO), table.survey(&JOINED_AREA));
    let Marked { value: to, span } = to?;
    Some((Joined { to, area: area? }, span))
}

fn part(table: &mut Table<'_, '_>) -> Option<[[f64; 2]; 2]> {
    let (at, size) = (table.must(&PART_AT), table.must(&PART_SIZE));
    let ([x, y], [wide, deep]) = (at?, size?);
    Some([[x.m(), y.m()], [(x + wide).m(), (y + deep).m()]])
}

/// A part is no more than the whole.
fn check_ceiling(table: &mut Table<'_, '_>, ceiling: Option<Area>, heated: Option<Area>) {
    let Some((ceiling, heated)) = ceiling.zip(heated).filter(|(ceiling, heated)| heated > ceiling) else {
        return;
    };
    let message =
        format!("`{}` has {heated} of ceiling over heated rooms, but only {ceiling} in all", table.path);
    let problem = Problem::error(
        "part-over-whole",
        message,
        "check the two areas; the heated part is within the other",
    );
    let (part, whole) = (table.span_of(HEATED_CEILING.0.key), table.span_of(CEILING.0.key));
    table.desk.report(problem.at(part, "").at(whole, "the whole ceiling"));
}

fn state(table: &mut Table<'_, '_>) -> AtticState {
    let state = read_state(table);
    check_pressures(table, &state);
    state
}

/// Pressure of the house over outdoors in the test, and how far two readings of its parts may miss it, pascals.
const TEST_PRESSURE: (f64, f64) = (50.0, 5.0);

/// The attic lies between house and outdoors, so the two differences add up to the whole.
fn check_pressures(table: &mut Table<'_, '_>, state: &AtticState) {
    let Some((inner, outer)) = state.house_to_attic.zip(state.attic_to_outdoors) else { return };
    let (whole, slack) = TEST_PRESSURE;
    if (inner.pa() + outer.pa() - whole).abs() <= slack {
        return;
    }
    let message = format!(
        "`{}` has {inner} from house to attic and {outer} on to outdoors, which are not {whole} Pa together",
        table.path
    );
    let problem = Problem::warning(
        "pressures-do-not-add",
        message,
        "measure both with the house at 50 Pa, or check the two readings",
    );
    let (one, other) = (table.span_of(ATTIC_TO_OUTDOORS.0.key), table.span_of(HOUSE_TO_ATTIC.0.key));
    table.desk.report(problem.at(one, "").at(other, "the other reading"));
}

fn read_state(table: &mut Table<'_, '_>) -> AtticState {
    AtticState {
        insulation: table.may(&INSULATION),
        insulation_depth: table.may(&INSULATION_DEPTH),
        effective: table.may(&EFFECTIVE),
        condition: table.may(&CONDITION),
        leakage: table.may(&LEAKAGE).map(|leakage| leakage.0),
        soffit: table.may(&SOFFIT_OPEN),
        ridge_vent: table.may(&RIDGE_VENT),
        louvers: table.may(&GABLE_LOUVERS),
        opposite_louvers: table.may(&OPPOSITE_LOUVERS),
        baffles: table.may(&BAFFLES),
        clear_way: table.may(&CLEAR_WAY),
        deck_moisture: table.may(&DECK_MOISTURE),
        hatch: table.may(&HATCH),
        side_walls: table.may(&SIDE_WALLS),
        house_to_attic: table.may(&HOUSE_TO_ATTIC),
        attic_to_outdoors: table.may(&ATTIC_TO_OUTDOORS),
    }
}

fn side_walls(table: &mut Table<'_, '_>) -> Option<SideWalls> {
    let (area, effective, backed) =
        (table.must(&WALL_AREA), table.survey(&WALL_EFFECTIVE), table.may(&BACKED));
    Some(SideWalls { area: area?, effective: effective?, backed })
}

/// Free area: whole, per length, or per length over a length given. Unknown where the books have a default of it per
/// foot.
struct FreeAreaText(Option<&'static str>);

const PER_LENGTH: Section = Section {
    name: "free_area",
    what: "net free area per length of soffit or ridge",
    fields: &[&PER, &OVER],
};
const PER: Must<Quantity<AreaPerLength>> =
    Must::new("per_length", "net free area per length", r#""9 in2/ft""#, Quantity::ANY);
const OVER: May<Quantity<Length>> = May::new(
    "over",
    "length it runs over; from the roof when left out",
    r#""79'""#,
    Quantity::within("0'", "2000'"),
);

impl Notation for FreeAreaText {
    type Value = FreeArea;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<FreeArea> {
        if let Some(key) = self.0.filter(|_| node.is_unknown()) {
            let a_foot = desk.assume(key, &node.path, &node.span, |row| Area::of(&row.value))?;
            return Some(FreeArea::PerLength(a_foot.value / Length::from_ft(1.0)));
        }
        if node.table().is_some() {
            return Nested { section: &PER_LENGTH, read: per_length }.read(node, desk);
        }
        match node.text() {
            Some(text) if AreaPerLength::parse(text).is_ok() => {
                Quantity::<AreaPerLength>::ANY.read(node, desk).map(|per| FreeArea::PerLength(per.0))
            }
            _ => Quantity::<Area>::within("0 in2", "10000 in2").read(node, desk).map(FreeArea::Total),
        }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let total = Quantity::<Area>::ANY.schema(definitions);
        let per = Quantity::<AreaPerLength>::ANY.schema(definitions);
        let table = definitions.refer(&PER_LENGTH);
        let unknown = self.0.map(|_| json!({ "const": UNKNOWN }));
        let ways: Vec<Json> = [total, per, table].into_iter().chain(unknown).collect();
        json!({ "anyOf": ways })
    }

    fn sections(&self) -> Vec<&'static Section> {
        vec![&PER_LENGTH]
    }
}

fn per_length(table: &mut Table<'_, '_>) -> Option<FreeArea> {
    let (per, over) = (table.must(&PER), table.may(&OVER));
    let per = per?.0;
    Some(over.map_or(FreeArea::PerLength(per), |over| FreeArea::PerLengthOver(per, over)))
}
