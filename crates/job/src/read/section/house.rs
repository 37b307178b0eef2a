//! `[house]`, `[[fan]]` and `[[symptom]]`: the house below the roof, and what goes wrong in it.

use book::Share;
use measure::{Area, Flow, Length, Temperature, Volume};

use super::block::PLAN;
use crate::read::field::{May, Must, Nested, Section};
use crate::read::notation::{Count, Day, Flag, Leakage, Many, Pair, Quantity, Survey, Text, Words};
use crate::read::table::Table;
use crate::{
    Appliance, Date, Fan, FanEnd, Figure, Fuel, FuelPrice, House, Room, Symptom, SymptomKind, VentClass,
};

/// The section of the house.
pub(crate) const HOUSE: Section = Section {
    name: "house",
    what: "the house below the roof",
    fields: &[
        &FLOOR_AREA,
        &HEATED_VOLUME,
        &LEAKAGE,
        &LEAKAGE_GOAL,
        &INDOOR_TEMPERATURE,
        &HUMIDITY,
        &OCCUPANTS,
        &FUEL,
        &FUEL_PRICE,
        &EFFICIENCY,
        &HEAT_CABLES,
        &APPLIANCES,
    ],
};

const FLOOR_AREA: May<Quantity<Area>> =
    May::new("floor_area", "heated floor area", r#""2400 ft2""#, Quantity::within("10 ft2", "100000 ft2"));
const HEATED_VOLUME: May<Quantity<Volume>> =
    May::new("heated_volume", "heated volume", r#""19200 ft3""#, Quantity::within("100 ft3", "1000000 ft3"));
const LEAK: Quantity<Leakage> = Quantity::within("0 cfm50", "50000 cfm50");
const LEAKAGE: May<Quantity<Leakage>> =
    May::new("leakage", "air leakage with the house at 50 Pa", r#""2900 cfm50""#, LEAK);
const LEAKAGE_GOAL: May<Quantity<Leakage>> =
    May::new("leakage_goal", "air leakage to reach, at 50 Pa", r#""2500 cfm50""#, LEAK);
const INDOOR_TEMPERATURE: May<Survey<Quantity<Temperature>>> = May::new(
    "indoor_temperature",
    "indoor temperature in a cold spell",
    r#""70 F""#,
    Survey(Quantity::within("32 F", "100 F"), "house.temperature"),
);
const HUMIDITY: May<Survey<Quantity<Share>>> = May::new(
    "humidity",
    "indoor relative humidity in a cold spell",
    r#""38 %""#,
    Survey(Quantity::ANY, "house.humidity"),
);
const OCCUPANTS: May<Count> = May::new("occupants", "people who live there", "4", Count(0, 100));
const FUEL: May<Words<Fuel>> = May::new(
    "fuel",
    "what it is heated with",
    r#""natural gas""#,
    Words(&[
        ("natural gas", Fuel::NaturalGas),
        ("propane", Fuel::Propane),
        ("oil", Fuel::Oil),
        ("electricity", Fuel::Electricity),
        ("wood", Fuel::Wood),
    ]),
);
const FUEL_PRICE: May<Quantity<FuelPrice>> =
    May::new("fuel_price", "price of the fuel", r#""$1.32/therm""#, Quantity::ANY);
const EFFICIENCY: May<Quantity<Share>> =
    May::new("efficiency", "share of the fuel's heat that reaches the rooms", r#""80 %""#, Quantity::ANY);
const HEAT_CABLES: May<Survey<Flag>> = May::new(
    "heat_cables",
    "whether heat cables lie on the roof",
    "false",
    Survey(Flag, "house.heat_cables"),
);
const APPLIANCES: May<Many<Nested<Appliance>>> = May::new(
    "appliance",
    "whatever burns fuel",
    r#"[{ kind = "water heater", vent = "atmospheric" }]"#,
    Many(Nested { section: &APPLIANCE, read: appliance }),
);

const APPLIANCE: Section = Section {
    name: "appliance",
    what: "something that burns fuel",
    fields: &[&APPLIANCE_KIND, &VENT, &PLACE],
};
const APPLIANCE_KIND: Must<Text> = Must::new("kind", "what it is", r#""water heater""#, Text);
const VENT: May<Survey<Words<VentClass>>> = May::new(
    "vent",
    "how its smoke leaves",
    r#""atmospheric""#,
    Survey(
        Words(&[
            ("atmospheric", VentClass::Atmospheric),
            ("fan-assisted", VentClass::FanAssisted),
            ("sealed", VentClass::Sealed),
            ("unvented", VentClass::Unvented),
        ]),
        "house.combustion",
    ),
);
const PLACE: May<Text> = May::new("place", "where it stands", r#""basement""#, Text);

/// Reads the house.
pub(crate) fn house(table: &mut Table<'_, '_>) -> House {
    House {
        floor_area: table.may(&FLOOR_AREA),
        heated_volume: table.may(&HEATED_VOLUME),
        leakage: table.may(&LEAKAGE).map(|leakage| leakage.0),
        leakage_goal: table.may(&LEAKAGE_GOAL).map(|leakage| leakage.0),
        indoor_temperature: table.may(&INDOOR_TEMPERATURE),
        humidity: table.may(&HUMIDITY),
        occupants: table.may(&OCCUPANTS),
        fuel: table.may(&FUEL),
        fuel_price: table.may(&FUEL_PRICE),
        efficiency: table.may(&EFFICIENCY),
        heat_cables: table.may(&HEAT_CABLES),
        appliances: table.may(&APPLIANCES).unwrap_or_default(),
    }
}

fn appliance(table: &mut Table<'_, '_>) -> Option<Appliance> {
    let (kind, vent, place) = (table.must(&APPLIANCE_KIND), table.survey(&VENT), table.may(&PLACE));
    Some(Appliance { kind: kind?, vent: vent?, place, span: table.span.clone() })
}

/// The section of a fan.
pub(crate) const FAN: Section = Section {
    name: "fan",
    what: "a fan that blows moist air out of a room",
    fields: &[&ROOM, &FAN_AT, &FLOW, &ENDS],
};

const ROOM: Must<Words<Room>> = Must::new(
    "room",
    "room it serves",
    r#""bath""#,
    Words(&[
        ("bath", Room::Bath),
        ("kitchen", Room::Kitchen),
        ("laundry", Room::Laundry),
        ("dryer", Room::Dryer),
    ]),
);
const FAN_AT: May<Pair<Length>> =
    May::new("at", "where it hangs, plan x and y", r#"["30'", "19'"]"#, Pair(PLAN));
const FLOW: May<Survey<Quantity<Flow>>> = May::new(
    "flow",
    "air it moves",
    r#""40 cfm""#,
    Survey(Quantity::within("1 cfm", "3000 cfm"), "house.bath_fan"),
);
const FAN_ENDS: Words<FanEnd> = Words(&[
    ("outdoors", FanEnd::Outdoors),
    ("attic", FanEnd::Attic),
    ("soffit", FanEnd::Soffit),
    ("ridge vent", FanEnd::RidgeVent),
]);
const ENDS: May<Survey<Words<FanEnd>>> =
    May::new("ends", "where its air goes", r#""attic""#, Survey(FAN_ENDS, "house.bath_fan_end"));

/// Reads a fan.
pub(crate) fn fan(table: &mut Table<'_, '_>) -> Option<Fan> {
    let (room, at) = (table.must(&ROOM), table.may(&FAN_AT));
    let (flow, ends): (Option<Figure<Flow>>, Option<Figure<FanEnd>>) =
        (table.survey(&FLOW), table.survey(&ENDS));
    let at = at.map(|at| at.map(Length::m));
    Some(Fan { room: room?, at, flow: flow?, ends: ends?, span: table.span.clone() })
}

/// The section of a symptom.
pub(crate) const SYMPTOM: Section = Section {
    name: "symptom",
    what: "what the owner saw go wrong",
    fields: &[&SYMPTOM_KIND, &SYMPTOM_PLACE, &SYMPTOM_AT, &DATE, &WEATHER],
};

const SYMPTOM_KIND: Must<Words<SymptomKind>> = Must::new(
    "kind",
    "what it was",
    r#""icicles""#,
    Words(&[
        ("stain", SymptomKind::Stain),
        ("drip", SymptomKind::Drip),
        ("ice", SymptomKind::Ice),
        ("icicles", SymptomKind::Icicles),
        ("frost", SymptomKind::Frost),
        ("condensation", SymptomKind::Condensation),
        ("peeling paint", SymptomKind::PeelingPaint),
        ("cold room", SymptomKind::ColdRoom),
        ("running ventilator", SymptomKind::RunningVentilator),
    ]),
);
const SYMPTOM_PLACE: Must<Text> = Must::new("place", "where", r#""north eave""#, Text);
const SYMPTOM_AT: May<Pair<Length>> =
    May::new("at", "where in plan, x and y", r#"["11'", "25'"]"#, Pair(PLAN));
const DATE: May<Day> = May::new("date", "when", "2025-01-12", Day);
const WEATHER: May<Text> =
    May::new("weather", "weather then and before", r#""14 in of snow, 18 to 26 F""#, Text);

/// Reads a symptom.
pub(crate) fn symptom(table: &mut Table<'_, '_>) -> Option<Symptom> {
    let (kind, place, at) = (table.must(&SYMPTOM_KIND), table.must(&SYMPTOM_PLACE), table.may(&SYMPTOM_AT));
    let (date, weather): (Option<Date>, Option<String>) = (table.may(&DATE), table.may(&WEATHER));
    let at = at.map(|at| at.map(Length::m));
    Some(Symptom { kind: kind?, place: place?, at, date, weather, span: table.span.clone() })
}
