//! `[walls.NAME]`: the walls of a block.

use book::{LookupError, Share};
use measure::{Area, Length, RValue};

use crate::read::field::{May, Must, Nested, Section};
use crate::read::node::UNKNOWN;
use crate::read::notation::{
    BlockName, BySide, Flag, Known, Many, Marked, Quantity, SideName, Survey, Text, Words,
};
use crate::read::table::Table;
use crate::{Cantilever, Figure, Lumber, Problem, Side, Walls, WeatherBarrier};

/// The section.
pub(crate) const WALLS: Section = Section {
    name: "walls",
    what: "walls of a block, as surveyed",
    fields: &[
        &SIDING,
        &EXPOSURE,
        &CLEARANCE,
        &WEATHER_BARRIER,
        &LAPPED,
        &BUILT_IN,
        &SHEATHING,
        &MOISTURE,
        &KICK_OUT,
        &LOT_LINE,
        &CANTILEVER_FIELD,
    ],
};

const SIDING: May<Text> = May::new("siding", "kind of siding", r#""cedar-bevel""#, Text::NOTE);
const EXPOSURE: May<Quantity<Length>> = May::new(
    "exposure",
    "height of siding left visible in one course",
    r#""6 1/2 in""#,
    Quantity::within("1 in", "48 in"),
);
const CLEARANCE: May<Survey<Quantity<Length>>> = May::new(
    "clearance",
    "siding's distance above the roof",
    r#""0 in""#,
    Survey(Quantity::within("0 in", "24 in"), "walls.clearance"),
);
const WEATHER_BARRIER: May<Survey<Words<WeatherBarrier>>> = May::new(
    "weather_barrier",
    "sheet behind the siding",
    r#""felt""#,
    Survey(
        Words(&[
            ("none", WeatherBarrier::None),
            ("felt", WeatherBarrier::Felt),
            ("wrap", WeatherBarrier::Wrap),
        ]),
        "walls.weather_barrier",
    ),
);
const LAPPED: May<Known<Flag>> =
    May::new("lapped", "whether that sheet laps over the flashing of the roof below", "false", Known(Flag));
const BUILT_IN: May<Known<Flag>> = May::new(
    "built_in",
    "whether veneer was laid on the legs of the step flashing, so that these cannot be pulled",
    "false",
    Known(Flag),
);
const SHEATHING: May<Text> = May::new("sheathing", "kind of sheathing", r#""1x8 boards""#, Text::NOTE);
const MOISTURE: May<Survey<Quantity<Share>>> = May::new(
    "moisture",
    "moisture content of the sheathing below the roof's ends",
    r#""14 %""#,
    Survey(Quantity::ANY, "walls.sheathing_moisture"),
);
const KICK_OUT: May<Survey<Flag>> = May::new(
    "kick_out",
    "whether a kick-out turns water off the wall at the roof's low end",
    "false",
    Survey(Flag, "walls.kick_out"),
);
const LOT_LINE: May<BySide<Quantity<Length>>> = May::new(
    "lot_line",
    "from the wall to the lot line it faces, by side, where that is near",
    r#"{ south = "4'" }"#,
    BySide(Quantity::within("0'", "500'")),
);
const CANTILEVER_FIELD: May<Many<Nested<CantileverDraft>>> = May::new(
    "cantilever",
    "floors that reach out past the wall below",
    r#"[{ side = "south", length = "32'", depth = "18 in" }]"#,
    Many(Nested { section: &CANTILEVER, read: cantilever }),
);

const CANTILEVER: Section = Section {
    name: "cantilever",
    what: "a floor that reaches out past the wall below",
    fields: &[&SIDE, &LENGTH, &DEPTH, &JOIST, &EFFECTIVE, &BLOCKED, &GAP, &OPENS_INTO, &CLOSE],
};
const SIDE: Must<SideName> = Must::new("side", "side of the block", r#""south""#, SideName);
const LENGTH: Must<Quantity<Length>> =
    Must::new("length", "along the wall", r#""32'""#, Quantity::within("1 in", "300'"));
const DEPTH: Must<Quantity<Length>> =
    Must::new("depth", "out from the wall below", r#""18 in""#, Quantity::within("1 in", "8'"));
const JOIST: May<Quantity<Lumber>> =
    May::new("joist", "nominal size of its joists", r#""2x10""#, Quantity::ANY);
const EFFECTIVE: May<Survey<Quantity<RValue>>> = May::new(
    "effective",
    "thermal resistance it really has",
    r#""R-4""#,
    Survey(Quantity::ANY, "cantilever.insulation"),
);
const BLOCKED: May<Known<Flag>> =
    May::new("blocked", "whether the joist bays are blocked over the wall below", "false", Known(Flag));

const GAP: May<Quantity<Area>> = May::new(
    "gap",
    "open area between its joist bays and the cold, as measured",
    r#""60 in2""#,
    Quantity::within("0 in2", "50 ft2"),
);
const OPENS_INTO: May<BlockName> = May::new(
    "opens_into",
    "the block into whose attic its joist bays stand open; outdoors when left out",
    r#""main""#,
    BlockName,
);
const CLOSE: May<Flag> = May::new(
    "close",
    "whether the work blocks and seals its joist bays; it does not when left out",
    "true",
    Flag,
);

/// A cantilever and where its side is named.
pub(crate) struct CantileverDraft {
    cantilever: Cantilever,
    side: Marked<Side>,
}

/// Reads the walls of a block.
pub(crate) fn walls(table: &mut Table<'_, '_>) -> Option<Walls> {
    let siding = table.may(&SIDING);
    check_siding(table, siding.as_deref());
    let exposure = table.may(&EXPOSURE);
    let clearance = table.survey(&CLEARANCE);
    let weather_barrier = table.may(&WEATHER_BARRIER);
    let lapped = table.may(&LAPPED);
    let built_in = table.may(&BUILT_IN);
    let sheathing = table.may(&SHEATHING);
    let moisture = table.may(&MOISTURE);
    let kick_out = table.may(&KICK_OUT);
    let cantilevers = table.may(&CANTILEVER_FIELD).unwrap_or_default();
    let lot_line = lot_line(table);
    check_sides(table, &cantilevers);
    check_lapped(table, weather_barrier.as_ref(), lapped.as_ref());
    Some(Walls {
        siding,
        exposure,
        clearance: clearance?,
        weather_barrier,
        lapped,
        built_in,
        sheathing,
        moisture,
        kick_out,
        lot_line,
        cantilevers: cantilevers.into_iter().map(|draft| draft.cantilever).collect(),
        span: table.span.clone(),
    })
}

/// The distance of every side the lot line is near; one figure without a side is that of all.
fn lot_line(table: &mut Table<'_, '_>) -> Vec<(Side, Length)> {
    let Some(away) = table.may(&LOT_LINE) else { return Vec::new() };
    let Some(shape) = table.desk.roll().find(&table.key).map(|entry| entry.shape.clone()) else {
        return Vec::new();
    };
    for side in away.named() {
        table.check_side(side, &shape);
    }
    shape.sides().into_iter().filter_map(|side| Some((side, *away.of(side)?))).collect()
}

fn cantilever(table: &mut Table<'_, '_>) -> Option<CantileverDraft> {
    let (side, length, depth) = (table.must(&SIDE), table.must(&LENGTH), table.must(&DEPTH));
    let joist = table.may(&JOIST);
    let (effective, blocked) = (table.may(&EFFECTIVE), table.may(&BLOCKED));
    let (gap, opens_into) = (table.may(&GAP), table.may(&OPENS_INTO));
    let close = table.may(&CLOSE).unwrap_or_default();
    let (side, length, depth) = (side?, length?, depth?);
    let cantilever =
        Cantilever { side: side.value, length, depth, joist, effective, blocked, gap, opens_into, close };
    Some(CantileverDraft { cantilever, side })
}

/// Details are chosen by kinds of siding the books know; another is kept as written, and told.
fn check_siding(table: &mut Table<'_, '_>, siding: Option<&str>) {
    let lost = siding.filter(|id| *id != UNKNOWN).and_then(|id| table.desk.book().siding(id).err());
    let Some(LookupError::Unknown { id, hint, .. }) = lost else { return };
    let message = format!("the books do not know the siding `{id}`: details are those of lap siding");
    let span = table.span_of(SIDING.0.key);
    table.desk.report(Problem::warning("unknown-siding", message, hint).at(span, ""));
}

/// Where there is no sheet, none laps over anything.
fn check_lapped(
    table: &mut Table<'_, '_>,
    barrier: Option<&Figure<WeatherBarrier>>,
    lapped: Option<&Figure<bool>>,
) {
    let bare = barrier.filter(|barrier| barrier.value == WeatherBarrier::None);
    let Some((bare, lapped)) = bare.zip(lapped.filter(|lapped| lapped.value)) else { return };
    let message = format!("`{}` has no weather barrier, but one that laps over the flashing", table.path);
    let problem =
        Problem::error("lapped-without-barrier", message, "write what sheet it is, or lapped = false");
    table.desk.report(problem.at(lapped.span.clone(), "").at(bare.span.clone(), "no barrier"));
}

/// The sides must be those of the block the walls belong to.
fn check_sides(table: &mut Table<'_, '_>, cantilevers: &[CantileverDraft]) {
    let shape = table.desk.roll().find(&table.key).map(|entry| entry.shape.clone());
    let Some(shape) = shape else { return };
    for CantileverDraft { side, .. } in cantilevers {
        table.check_side(side, &shape);
    }
}
