//! `[site]`: place, climate and adopted code.

use measure::{Length, Load, RainRate, Temperature};

use crate::read::field::{May, Must, Nested, Section};
use crate::read::notation::{At, Count, Flag, Marked, Number, Quantity, Survey, Text, Words, YEARS};
use crate::read::table::Table;
use crate::{Climate, Figure, HailExposure, Site, WallLine};

/// The section.
pub(crate) const SITE: Section = Section {
    name: "site",
    what: "place, climate and adopted code",
    fields: &[
        &LATITUDE,
        &ADDRESS,
        &ELEVATION,
        &CODE,
        &CLIMATE_ZONE,
        &GROUND_SNOW,
        &SNOW_DEPTH,
        &RAIN,
        &ICE_HISTORY,
        &WALL_LINE,
        &WALL_THICKNESS,
        &YEAR_BUILT,
        &DESIGN_TEMPERATURE,
        &WINTER_TEMPERATURE,
        &HEATING_DEGREE_DAYS,
        &PERMIT,
        &HAIL_EXPOSURE,
        &POOR_SOIL,
        &WINTER,
        &HARD_WINTER,
    ],
};

/// Its winter.
const CLIMATE: Section =
    Section { name: "site.winter", what: "the winter that ice is reckoned for", fields: &[&FILE] };
const FILE: Must<At<Text>> = Must::new(
    "file",
    "a year of weather (EPW, TMY3) or monthly climate normals of the nearest station; beside this document where it is no whole path",
    r#""normals.csv""#,
    At(Text::NOTE),
);
const WINTER: May<Nested<Climate>> = May::new(
    "winter",
    CLIMATE.what,
    r#"{ file = "normals.csv" }"#,
    Nested { section: &CLIMATE, read: climate },
);

/// Its hard winter.
const HARD_CLIMATE: Section = Section {
    name: "site.hard_winter",
    what: "a hard winter that was, for the place; where none is named, one is made of the typical year",
    fields: &[&FILE],
};
const HARD_WINTER: May<Nested<Climate>> = May::new(
    "hard_winter",
    HARD_CLIMATE.what,
    r#"{ file = "winter-of-2014.epw" }"#,
    Nested { section: &HARD_CLIMATE, read: climate },
);

/// Reads a winter.
fn climate(table: &mut Table<'_, '_>) -> Option<Climate> {
    let Marked { value: file, span } = table.must(&FILE)?;
    Some(Climate { file, span })
}

const LATITUDE: May<Number> =
    May::new("latitude", "degrees north of the equator", "46.9", Number(-90.0, 90.0));
const ADDRESS: May<Text> = May::new("address", "where the house stands", r#""12 Mill Road""#, Text::NOTE);
const ELEVATION: May<Quantity<Length>> =
    May::new("elevation", "height above the sea", r#""1400 ft""#, Quantity::within("-1500 ft", "20000 ft"));
const CODE: May<Survey<Text>> = May::new(
    "code",
    "adopted code edition, as the books name it",
    r#""irc-2018""#,
    Survey(Text::NOTE, "site.code"),
);
const CLIMATE_ZONE: May<Words<&'static str>> =
    May::new("climate_zone", "climate zone of the energy code", r#""6A""#, Words(&ZONES));
const GROUND_SNOW: May<Quantity<Load>> = May::new(
    "ground_snow",
    "ground snow load, from the official map",
    r#""60 psf""#,
    Quantity::within("0 psf", "500 psf"),
);
const SNOW_DEPTH: May<Quantity<Length>> = May::new(
    "snow_depth",
    "depth of snow the building department expects to lie on roofs",
    r#""24 in""#,
    Quantity::within("0 in", "40'"),
);
const RAIN: May<Survey<Quantity<RainRate>>> = May::new(
    "rain",
    "design rain over 5 minutes",
    r#""6.0 in/h""#,
    Survey(Quantity::within("0.1 in/h", "20 in/h"), "site.rain"),
);
const ICE_HISTORY: May<Survey<Flag>> = May::new(
    "ice_history",
    "whether ice has backed up on roofs of the place; turns the ice barrier clause on",
    "true",
    Survey(Flag, "site.ice_history"),
);
const WALL_LINE: May<Survey<Words<WallLine>>> = May::new(
    "wall_line",
    "face of the wall the local official measures the ice barrier from",
    r#""outside""#,
    Survey(Words(&[("outside", WallLine::Outside), ("inside", WallLine::Inside)]), "site.wall_line"),
);
const WALL_THICKNESS: May<Survey<Quantity<Length>>> = May::new(
    "wall_thickness",
    "exterior wall, face to face",
    r#""4 1/2 in""#,
    Survey(Quantity::within("2 in", "36 in"), "site.wall_thickness"),
);
const YEAR_BUILT: May<Count> =
    May::new("year_built", "year the house was built", "1964", Count(*YEARS.start(), *YEARS.end()));
const DESIGN_TEMPERATURE: May<Quantity<Temperature>> = May::new(
    "design_temperature",
    "outdoor temperature that 99 % of the hours of a year are warmer than",
    r#""-9 F""#,
    Quantity::within("-80 F", "70 F"),
);
const WINTER_TEMPERATURE: May<Quantity<Temperature>> = May::new(
    "winter_temperature",
    "outdoor temperature that 97.5 % of the hours of a winter are warmer than, by the plumbing code",
    r#""-4 F""#,
    Quantity::within("-80 F", "70 F"),
);
const HEATING_DEGREE_DAYS: May<Number> = May::new(
    "heating_degree_days",
    "heating degree-days of a year, F d below 65 F",
    "8100",
    Number(0.0, 25000.0),
);
const PERMIT: May<Flag> =
    May::new("permit", "whether the building department asks for a permit", "true", Flag);

const HAIL_EXPOSURE: May<Words<HailExposure>> = May::new(
    "hail_exposure",
    "hail by the map of the adopted code",
    r#""moderate""#,
    Words(&[
        ("low", HailExposure::Low),
        ("moderate", HailExposure::Moderate),
        ("severe", HailExposure::Severe),
    ]),
);
const POOR_SOIL: May<Flag> =
    May::new("poor_soil", "whether the soil swells or gives way when it gets wet", "false", Flag);

/// Zones of the energy code: 1 hot to 8 arctic; A moist, B dry, C marine.
const ZONES: [(&str, &str); 19] = [
    ("1A", "1A"),
    ("1B", "1B"),
    ("2A", "2A"),
    ("2B", "2B"),
    ("3A", "3A"),
    ("3B", "3B"),
    ("3C", "3C"),
    ("4A", "4A"),
    ("4B", "4B"),
    ("4C", "4C"),
    ("5A", "5A"),
    ("5B", "5B"),
    ("5C", "5C"),
    ("6A", "6A"),
    ("6B", "6B"),
    ("7", "7"),
    ("7A", "7A"),
    ("7B", "7B"),
    ("8", "8"),
];

/// Reads the section.
pub(crate) fn site(table: &mut Table<'_, '_>) -> Option<Site> {
    let latitude = table.may(&LATITUDE);
    let address = table.may(&ADDRESS);
    let elevation = table.may(&ELEVATION);
    let code = code(table);
    let climate_zone = table.may(&CLIMATE_ZONE).map(str::to_owned);
    let (ground_snow, snow_depth) = (table.may(&GROUND_SNOW), table.may(&SNOW_DEPTH));
    let rain = table.survey(&RAIN);
    let ice_history = table.survey(&ICE_HISTORY);
    let wall_line = table.survey(&WALL_LINE);
    let wall_thickness = wall_thickness(table, wall_line.as_ref());
    let year_built = table.may(&YEAR_BUILT).map(i64::from);
    let design_temperature = table.may(&DESIGN_TEMPERATURE);
    let heating_degree_days_f = table.may(&HEATING_DEGREE_DAYS);
    let permit = table.may(&PERMIT);
    let winter_temperature = table.may(&WINTER_TEMPERATURE);
    let (hail_exposure, poor_soil) = (table.may(&HAIL_EXPOSURE), table.may(&POOR_SOIL));
    let (winter, hard_winter) = (table.may(&WINTER), table.may(&HARD_WINTER));
    Some(Site {
        latitude,
        address,
        elevation,
        code: code?,
        climate_zone,
        ground_snow,
        snow_depth,
        rain: rain?,
        ice_history: ice_history?,
        wall_line: wall_line?,
        wall_thickness: wall_thickness?,
        year_built,
        design_temperature,
        heating_degree_days_f,
        permit,
        winter_temperature,
        hail_exposure,
        poor_soil,
        winter,
        hard_winter,
    })
}

/// An edition the books have.
fn code(table: &mut Table<'_, '_>) -> Option<String> {
    let code = table.survey(&CODE)?;
    let edition = table.desk.book().edition(&code.value).map(|edition| edition.id.clone());
    table.desk.looked_up("unknown-edition", edition, &code.span)
}

/// The wall's thickness moves the ice barrier only where it is measured from the inside face.
fn wall_thickness(table: &mut Table<'_, '_>, wall_line: Option<&Figure<WallLine>>) -> Option<Figure<Length>> {
    let matters = wall_line.is_some_and(|line| line.value == WallLine::Inside);
    if matters { table.survey(&WALL_THICKNESS) } else { table.quietly(&WALL_THICKNESS) }
}
