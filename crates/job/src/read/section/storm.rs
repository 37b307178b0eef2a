//! `[storm]`: the storm a claim is about, and what it did to each plane.

use measure::Length;
use serde_json::{Value as Json, json};

use crate::read::desk::Desk;
use crate::read::field::{May, Must, Notation, Section};
use crate::read::node::{Node, child};
use crate::read::notation::{Count, Day, Gust, List, PLANE_ENDING, PlaneOf, Quantity, Text, Words};
use crate::read::table::Table;
use crate::schema::Definitions;
use crate::{Compass, PlaneCount, Storm};

/// The section.
pub(crate) const STORM: Section = Section {
    name: "storm",
    what: "the storm a claim is about; counts by plane, called by block and compass letter",
    fields: &[&DATE, &HAIL, &GUST, &FROM, &HITS, &CREASED, &SOFT_METALS],
};

const DATE: Must<Day> = Must::new("date", "day of the storm", "2025-06-14", Day);
const HAIL: May<Quantity<Length>> =
    May::new("hail", "largest hailstone across", r#""1 1/4 in""#, Quantity::within("0 in", "8 in"));
const GUST: May<Quantity<Gust>> = May::new("gust", "strongest gust", r#""58 mph""#, Quantity::ANY);
const FROM: May<Words<Compass>> = May::new(
    "from",
    "where it came from",
    r#""south-west""#,
    Words(&[
        ("north", Compass::North),
        ("north-east", Compass::NorthEast),
        ("east", Compass::East),
        ("south-east", Compass::SouthEast),
        ("south", Compass::South),
        ("south-west", Compass::SouthWest),
        ("west", Compass::West),
        ("north-west", Compass::NorthWest),
    ]),
);
const HITS: May<ByPlane> =
    May::new("hits", "hail hits in a 10 ft by 10 ft square", r#"{ "main S" = 11 }"#, ByPlane(Count(0, 1000)));
const CREASED: May<ByPlane> =
    May::new("creased", "shingles creased or missing", r#"{ "main S" = 14 }"#, ByPlane(Count(0, 10000)));
const SOFT_METALS: May<List<Text>> = May::new(
    "soft_metals",
    "dents in soft metal and plastic",
    r#"["gutters south, 7 in 10 ft"]"#,
    List(Text::NOTE, 0),
);

/// Reads the section.
pub(crate) fn storm(table: &mut Table<'_, '_>) -> Option<Storm> {
    let (date, hail, gust, from) = (table.must(&DATE), table.may(&HAIL), table.may(&GUST), table.may(&FROM));
    let (hits, creased) = (table.may(&HITS), table.may(&CREASED));
    let soft_metals = table.may(&SOFT_METALS);
    Some(Storm {
        date: date?,
        hail,
        gust_m_s: gust.map(|gust| gust.0),
        from,
        hits: hits.unwrap_or_default(),
        creased: creased.unwrap_or_default(),
        soft_metals: soft_metals.unwrap_or_default(),
        span: table.span.clone(),
    })
}

/// Counts by plane, such as `{ "main S" = 11 }`.
struct ByPlane(Count);

impl Notation for ByPlane {
    type Value = Vec<PlaneCount>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Vec<PlaneCount>> {
        let Some(entries) = node.table() else {
            return desk
                .refuse(node.wrong_kind("a count for each plane", r#"{ "main S" = 11, "main N" = 4 }"#));
        };
        let mut counts = Vec::new();
        for (key, value) in entries {
            let item = Node::new(value, child(&node.path, key.get_ref()));
            let place = Node { span: key.span(), ..Node::new(value, node.path.clone()) };
            let (plane, count) = (PlaneOf::named(key.get_ref(), &place, desk), self.0.read(&item, desk));
            let named = plane.zip(count);
            counts.extend(named.map(|(plane, count)| PlaneCount { plane, count, span: key.span() }));
        }
        counts.sort_by_key(|count| count.span.start);
        Some(counts)
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let count = self.0.schema(definitions);
        json!({ "type": "object", "patternProperties": { PLANE_ENDING: count }, "additionalProperties": false })
    }
}
