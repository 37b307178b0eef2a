//! `[house]`: the house below the roof.

mod checks;

use book::{Kind, Share};
use measure::{Area, Flow, Temperature, Volume};
use serde_json::{Value as Json, json};

use crate::read::desk::Desk;
use crate::read::field::{May, Must, Nested, Notation, Section};
use crate::read::node::{Node, UNKNOWN, child};
use crate::read::notation::{Count, Flag, Leakage, Many, Quantity, Survey, Text, Words};
use crate::read::table::Table;
use crate::schema::Definitions;
use crate::{Appliance, Basis, Figure, Fuel, FuelPrice, House, Problem, VentClass};

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
        &BEDROOMS,
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
const LEAKAGE: May<LeakageText> = May::new(
    "leakage",
    "air leakage with the house at 50 Pa; unknown, it follows from `floor_area`",
    r#""2900 cfm50""#,
    LeakageText(LEAK),
);
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
const BEDROOMS: May<Survey<Count>> = May::new(
    "bedrooms",
    "bedrooms, by which the air the house needs is reckoned",
    "3",
    Survey(Count(0, 50), "house.bedrooms"),
);
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
const APPLIANCE_KIND: Must<Text> = Must::new("kind", "what it is", r#""water heater""#, Text::NOTE);
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
const PLACE: May<Text> = May::new("place", "where it stands", r#""basement""#, Text::NOTE);

/// Reads the house.
pub(crate) fn house(table: &mut Table<'_, '_>) -> House {
    let house = read_house(table);
    checks::check(table, &house);
    house
}

fn read_house(table: &mut Table<'_, '_>) -> House {
    let floor_area = table.may(&FLOOR_AREA);
    House {
        floor_area,
        heated_volume: table.may(&HEATED_VOLUME),
        leakage: leakage(table, floor_area),
        leakage_goal: table.may(&LEAKAGE_GOAL).map(|leakage| leakage.0),
        indoor_temperature: table.may(&INDOOR_TEMPERATURE),
        humidity: table.may(&HUMIDITY),
        occupants: table.may(&OCCUPANTS),
        bedrooms: table.may(&BEDROOMS),
        fuel: table.may(&FUEL),
        fuel_price: table.may(&FUEL_PRICE),
        efficiency: table.may(&EFFICIENCY),
        heat_cables: table.may(&HEAT_CABLES),
        appliances: table.may(&APPLIANCES).unwrap_or_default(),
    }
}

/// The leakage as measured, or the books' leakage per area times the heated floor area.
fn leakage(table: &mut Table<'_, '_>, floor_area: Option<Area>) -> Option<Figure<Flow>> {
    let (key, path) = (LEAKAGE.0.key, child(&table.path, LEAKAGE.0.key));
    let span = table.span_of(key);
    match (table.may(&LEAKAGE)?, floor_area) {
        (Leak::Measured(value), _) => Some(Figure { value, basis: Basis::Measured, span }),
        (Leak::Unknown, Some(area)) => {
            let a_square_foot =
                table.desk.assume("house.leakage", &path, &span, |row| f64::of(&row.value))?;
            let value = Flow::from_cfm(a_square_foot.value * area.ft2());
            Some(Figure { value, basis: a_square_foot.basis, span })
        }
        (Leak::Unknown, None) => {
            let message =
                format!("`{path}` is unknown and follows from `floor_area`, which is not there either");
            let problem = Problem::error(
                "missing-key",
                message,
                format!("add `floor_area = {}`", FLOOR_AREA.0.example),
            );
            table.desk.refuse(problem.at(span, ""))
        }
    }
}

/// Leakage as written.
enum Leak {
    Measured(Flow),
    Unknown,
}

/// A leakage, or unknown.
struct LeakageText(Quantity<Leakage>);

impl Notation for LeakageText {
    type Value = Leak;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Leak> {
        if node.is_unknown() {
            Some(Leak::Unknown)
        } else {
            self.0.read(node, desk).map(|leak| Leak::Measured(leak.0))
        }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "anyOf": [self.0.schema(definitions), { "const": UNKNOWN }] })
    }
}

fn appliance(table: &mut Table<'_, '_>) -> Option<Appliance> {
    let (kind, vent, place) = (table.must(&APPLIANCE_KIND), table.survey(&VENT), table.may(&PLACE));
    Some(Appliance { kind: kind?, vent: vent?, place, span: table.span.clone() })
}
