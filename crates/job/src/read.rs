//! Reading a job document: text to checked job, or to everything that is wrong with it.
//!
//! 1. [`syntax`]: text to a tree of values that know their places.
//! 2. [`version`]: is this a document this program knows?
//! 3. [`roll`]: the names of the blocks, so that any field may refer to any block.
//! 4. [`section`]: every field of every section, each on its own, so that one bad field hides no other.
//! 5. [`relations`]: what only several sections together can tell.

pub(crate) mod desk;
pub(crate) mod field;
pub(crate) mod node;
pub(crate) mod notation;
mod relations;
mod roll;
mod section;
pub(crate) mod syntax;
mod table;
mod variants;
mod version;

use book::Book;
use toml::de::DeTable;

use self::desk::Desk;
use self::field::{May, Must, Nested, Section};
use self::notation::{Many, Map, Text, Words};
use self::relations::{Parts, relate};
use self::roll::Roll;
use self::section::{
    ARRAY, ATTIC, AtticDraft, BLOCK, BlockDraft, COVERING, CREW, FAN, GUTTER, GutterDraft, HOUSE, OPENING,
    OpeningDraft, READING, SITE, STORM, SYMPTOM, WALK, WALLS, WINDOW, array, attic, block, covering, crew,
    fan, gutter, house, opening, site, storm, symptom, walk, walls, window,
};
use self::table::Table;
use self::variants::Variants;
use self::version::VERSION;
use crate::{
    Array, Covering, Crew, Fan, House, Job, Problem, Reading, Site, Storm, Symptom, Units, Walk, Walls,
    Window,
};

/// What the whole document is.
pub(crate) const DOCUMENT: Section = Section {
    name: "job",
    what: "one house, its roof, what was surveyed and what is planned",
    fields: &[
        &VERSION,
        &TITLE,
        &UNITS,
        &SITE_FIELD,
        &COVERING_FIELD,
        &BLOCKS,
        &OPENINGS,
        &GUTTERS,
        &ARRAYS,
        &WALKS,
        &WINDOWS,
        &WALLS_FIELD,
        &ATTICS,
        &READINGS,
        &HOUSE_FIELD,
        &FANS,
        &SYMPTOMS,
        &STORM_FIELD,
        &CREW_FIELD,
    ],
};

const TITLE: Must<Text> =
    Must::new("title", "what the job is called on papers", r#""Re-roof and ice cure""#, Text::TITLE);
const UNITS: May<Words<Units>> = May::new(
    "units",
    "how papers are written: feet and inches, or metres; `us` when left out",
    r#""us""#,
    Words(&[("us", Units::Us), ("si", Units::Si)]),
);
const SITE_FIELD: Must<Nested<Site>> =
    Must::new("site", SITE.what, r#"{ code = "irc-2018" }"#, Nested { section: &SITE, read: site });
const COVERING_FIELD: Must<Nested<Covering>> = Must::new(
    "covering",
    COVERING.what,
    r#"{ shingle = "shingle-laminated-metric" }"#,
    Nested { section: &COVERING, read: covering },
);
const BLOCKS: Must<Many<Nested<BlockDraft>>> = Must::new(
    "block",
    "the parts of the house",
    r#"[{ name = "main", at = ["0'", "0'"], size = ["40'", "26'"], plate = "9'", roof = { form = "hip", pitch = "6/12" } }]"#,
    Many(Nested { section: &BLOCK, read: block }),
);
const OPENINGS: May<Many<Nested<OpeningDraft>>> = May::new(
    "opening",
    "what pierces or sits on the roof",
    r#"[{ kind = "pipe", at = ["26'", "20'"], size = "3 in" }]"#,
    Many(Nested { section: &OPENING, read: |table| Some(opening(table)) }),
);
const GUTTERS: May<Many<Nested<GutterDraft>>> = May::new(
    "gutter",
    "gutters and their downspouts",
    r#"[{ eave = "main S", kind = "k-style-5", downspouts = [{ at = "west", size = "downspout-2x3", to = "ground" }] }]"#,
    Many(Nested { section: &GUTTER, read: |table| Some(gutter(table)) }),
);
const ARRAYS: May<Many<Nested<Array>>> = May::new(
    "array",
    "solar arrays on the roof",
    r#"[{ on = "main S" }]"#,
    Many(Nested { section: &ARRAY, read: array }),
);
const WALKS: May<Many<Nested<Walk>>> = May::new(
    "walk",
    "walks, entrances, steps and drives to be kept clear of drips and ice",
    r#"[{ name = "front steps", at = ["4'", "-12'"], size = ["5'", "3'"] }]"#,
    Many(Nested { section: &WALK, read: walk }),
);
const WINDOWS: May<Many<Nested<Window>>> = May::new(
    "window",
    "windows and doors above a roof that meets their wall",
    r#"[{ name = "stair window", wall = "main south", at = "12'", width = "3'", sill = "7 in" }]"#,
    Many(Nested { section: &WINDOW, read: window }),
);
const WALLS_FIELD: May<Map<Nested<Walls>>> = May::new(
    "walls",
    "walls by block",
    r#"{ main = { siding = "cedar-bevel" } }"#,
    Map(Nested { section: &WALLS, read: walls }),
);
const ATTICS: May<Map<Nested<AtticDraft>>> = May::new(
    "attic",
    "attics by name",
    r#"{ main = { under = ["main"] } }"#,
    Map(Nested { section: &ATTIC, read: attic }),
);
const READINGS: May<Many<Variants<Reading>>> = May::new(
    "reading",
    "tape readings beyond what the blocks need",
    r#"[{ what = "wall", of = "main south", value = "40'" }]"#,
    Many(READING),
);
const HOUSE_FIELD: May<Nested<House>> = May::new(
    "house",
    HOUSE.what,
    r#"{ humidity = "38 %" }"#,
    Nested { section: &HOUSE, read: |table| Some(house(table)) },
);
const FANS: May<Many<Nested<Fan>>> = May::new(
    "fan",
    "fans that blow moist air out of rooms",
    r#"[{ room = "bath", ends = "attic" }]"#,
    Many(Nested { section: &FAN, read: fan }),
);
const SYMPTOMS: May<Many<Nested<Symptom>>> = May::new(
    "symptom",
    "what the owner saw go wrong",
    r#"[{ kind = "icicles", place = "north eave" }]"#,
    Many(Nested { section: &SYMPTOM, read: symptom }),
);
const STORM_FIELD: May<Nested<Storm>> =
    May::new("storm", STORM.what, "{ date = 2025-06-14 }", Nested { section: &STORM, read: storm });
const CREW_FIELD: May<Nested<Crew>> = May::new(
    "crew",
    CREW.what,
    r#"{ roofers = 3, day_hours = 9, productive = "85 %", rate_per_hour = "$38.50", overhead = "18 %", profit = "12 %" }"#,
    Nested { section: &CREW, read: crew },
);

impl Job {
    /// Reads and checks a job document: the job and its warnings, or everything that is wrong with it. Both are sorted
    /// by place.
    pub fn read(text: &str, book: &Book) -> Result<(Self, Vec<Problem>), Vec<Problem>> {
        let document = DeTable::parse(text).map_err(|error| vec![syntax::problem(text, &error)])?;
        let document = document.get_ref();
        if let Some(newer) = version::newer(document) {
            return Err(vec![newer]); // its other errors would be guesses
        }
        let mut desk = Desk::new(book, Roll::call(document));
        let job = read_document(document, &mut desk);
        let (problems, assumptions) = desk.clear();
        match job {
            Some(job) if !problems.iter().any(Problem::is_error) => {
                Ok((Self { assumptions, ..job }, problems))
            }
            _ => Err(problems),
        }
    }
}

fn read_document(document: &DeTable<'_>, desk: &mut Desk<'_>) -> Option<Job> {
    let mut table = Table::root(&DOCUMENT, document, desk);
    let version = table.must(&VERSION);
    let (title, units) = (table.must(&TITLE), table.may(&UNITS));
    let (site, covering) = (table.must(&SITE_FIELD), table.must(&COVERING_FIELD));
    let parts = Parts {
        blocks: table.must(&BLOCKS).unwrap_or_default(),
        openings: table.may(&OPENINGS).unwrap_or_default(),
        gutters: table.may(&GUTTERS).unwrap_or_default(),
        arrays: table.may(&ARRAYS).unwrap_or_default(),
        walks: table.may(&WALKS).unwrap_or_default(),
        windows: table.may(&WINDOWS).unwrap_or_default(),
        walls: table.may(&WALLS_FIELD).unwrap_or_default(),
        attics: table.may(&ATTICS).unwrap_or_default(),
        readings: table.may(&READINGS).unwrap_or_default(),
        storm: table.may(&STORM_FIELD),
    };
    let house = table.may(&HOUSE_FIELD).unwrap_or_default();
    let (fans, symptoms) = (table.may(&FANS), table.may(&SYMPTOMS));
    let crew = table.may(&CREW_FIELD);
    table.close();
    let related = relate(parts, desk);
    version?;
    Some(Job {
        title: title?,
        units: units.unwrap_or(Units::Us),
        site: site?,
        covering: covering?,
        blocks: related.blocks,
        openings: related.openings,
        gutters: related.gutters,
        arrays: related.arrays,
        walks: related.walks,
        windows: related.windows,
        walls: related.walls,
        attics: related.attics,
        readings: related.readings,
        house,
        fans: fans.unwrap_or_default(),
        symptoms: symptoms.unwrap_or_default(),
        storm: related.storm,
        crew,
        assumptions: Vec::new(),
    })
}

/// Names of the sections that describe a key.
pub(crate) fn describing(key: &str) -> Vec<&'static str> {
    let has_key = |section: &&'static Section| section.keys().any(|known| known == key);
    let sections = sections();
    let mut names: Vec<&str> = sections.into_iter().filter(has_key).map(|section| section.name).collect();
    names.dedup();
    names
}

/// Every section of the document, the document first.
pub(crate) fn sections() -> Vec<&'static Section> {
    let mut found: Vec<&'static Section> = vec![&DOCUMENT];
    let mut next = 0;
    while let Some(section) = found.get(next).copied() {
        let inner = section.fields.iter().flat_map(|field| field.sections());
        let new: Vec<&'static Section> =
            inner.filter(|section| found.iter().all(|known| known.name != section.name)).collect();
        for section in new {
            if found.iter().all(|known| known.name != section.name) {
                found.push(section);
            }
        }
        next += 1;
    }
    found
}

#[cfg(test)]
mod tests;
