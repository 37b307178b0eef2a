//! `[[symptom]]`: what the owner saw go wrong.

use measure::Length;

use super::block::PLAN;
use crate::read::field::{May, Must, Section};
use crate::read::notation::{Day, Pair, Text, Words};
use crate::read::table::Table;
use crate::{Symptom, SymptomKind};

/// The section.
pub(crate) const SYMPTOM: Section = Section {
    name: "symptom",
    what: "what the owner saw go wrong",
    fields: &[&KIND, &PLACE, &AT, &DATE, &WEATHER],
};

const KIND: Must<Words<SymptomKind>> = Must::new(
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
const PLACE: Must<Text> = Must::new("place", "where", r#""north eave""#, Text::NOTE);
const AT: May<Pair<Length>> = May::new("at", "where in plan, x and y", r#"["11'", "25'"]"#, Pair(PLAN));
const DATE: May<Day> = May::new("date", "when", "2025-01-12", Day);
const WEATHER: May<Text> =
    May::new("weather", "weather then and before", r#""14 in of snow, 18 to 26 F""#, Text::NOTE);

/// Reads a symptom.
pub(crate) fn symptom(table: &mut Table<'_, '_>) -> Option<Symptom> {
    let (kind, place, at) = (table.must(&KIND), table.must(&PLACE), table.may(&AT));
    let (date, weather) = (table.may(&DATE), table.may(&WEATHER));
    let at = at.map(|at| at.map(Length::m));
    Some(Symptom { kind: kind?, place: place?, at, date, weather, span: table.span.clone() })
}
