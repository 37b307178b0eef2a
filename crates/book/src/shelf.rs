//! The book: all tables together, the built-in ones and what overlays change.
//!
//! Files are read in order, the built-in ones first. A row with a known id replaces the row of that id, whole; a new
//! id adds one. A row cannot change its kind by being replaced. An edition is stated on a base read before it, so
//! that replacing an edition does not change those built on it.

use std::collections::BTreeMap;
use std::ops::Range;

use measure::Pitch;

use crate::cause::Cause;
use crate::detail::{CLADDING, Cladding, Detail, Material, Siding};
use crate::edition::{Edition, Written};
use crate::gutter::{Downspout, Gutter, RainFactor};
use crate::lookup::{LookupError, hint};
use crate::package::{Package, Vent};
use crate::problem::{Problem, Problems};
use crate::rule::{DefaultValue, Rule};
use crate::table::{Placed, Row, TableFile};
use crate::thermal::Thermal;

const BUILTIN: [(&str, &str); 12] = [
    ("books/editions.toml", include_str!("../../../books/editions.toml")),
    ("books/packages.toml", include_str!("../../../books/packages.toml")),
    ("books/gutters.toml", include_str!("../../../books/gutters.toml")),
    ("books/practice.toml", include_str!("../../../books/practice.toml")),
    ("books/details/materials.toml", include_str!("../../../books/details/materials.toml")),
    ("books/details/edges.toml", include_str!("../../../books/details/edges.toml")),
    ("books/details/walls.toml", include_str!("../../../books/details/walls.toml")),
    ("books/details/valleys.toml", include_str!("../../../books/details/valleys.toml")),
    ("books/details/chimneys.toml", include_str!("../../../books/details/chimneys.toml")),
    ("books/details/openings.toml", include_str!("../../../books/details/openings.toml")),
    ("books/symptoms.toml", include_str!("../../../books/symptoms.toml")),
    ("books/defaults.toml", include_str!("../../../books/defaults.toml")),
];

/// In the order in which those of one file are read.
const TABLES: [&str; 12] = [
    Written::TABLE,
    Package::TABLE,
    Vent::TABLE,
    Gutter::TABLE,
    Downspout::TABLE,
    RainFactor::TABLE,
    Material::TABLE,
    Siding::TABLE,
    Detail::TABLE,
    Cause::TABLE,
    Rule::TABLE,
    DefaultValue::TABLE,
];

/// Slopes closer than this are one pitch.
const SAME_PITCH: f64 = 1e-9;

/// All reference tables.
#[derive(Clone, Debug, PartialEq)]
pub struct Book {
    editions: BTreeMap<String, Edition>,
    packages: BTreeMap<String, Package>,
    vents: BTreeMap<String, Vent>,
    gutters: BTreeMap<String, Gutter>,
    downspouts: BTreeMap<String, Downspout>,
    rain_factors: BTreeMap<String, RainFactor>,
    materials: BTreeMap<String, Material>,
    sidings: BTreeMap<String, Siding>,
    details: BTreeMap<String, Detail>,
    causes: BTreeMap<String, Cause>,
    rules: BTreeMap<String, Rule>,
    defaults: BTreeMap<String, DefaultValue>,
    /// Those of the program where no overlay changes them.
    thermal: Option<Thermal>,
}

impl Book {
    /// The tables the program carries.
    #[expect(clippy::missing_panics_doc, reason = "the tables are fixed when the program is built")]
    pub fn builtin() -> Self {
        Self::read(&BUILTIN, &[])
            .expect("the built-in tables read without a problem, as the tests of this crate show")
    }

    /// The built-in tables with overlays on top, each a name for messages and a text; later ones win.
    pub fn with_overlays(overlays: &[(&str, &str)]) -> Result<Self, Problems> {
        Self::read(&BUILTIN, overlays)
    }

    /// The edition of the code of that id.
    pub fn edition(&self, id: &str) -> Result<&Edition, LookupError> {
        find(&self.editions, Written::TABLE, id)
    }

    /// All editions, oldest first.
    pub fn editions(&self) -> Vec<&Edition> {
        let mut editions: Vec<&Edition> = self.editions.values().collect();
        editions.sort_by_key(|edition| edition.year);
        editions
    }

    /// The package of that id.
    pub fn package(&self, id: &str) -> Result<&Package, LookupError> {
        find(&self.packages, Package::TABLE, id)
    }

    /// The kind of vent of that id.
    pub fn vent(&self, id: &str) -> Result<&Vent, LookupError> {
        find(&self.vents, Vent::TABLE, id)
    }

    /// Gutters by what they carry, the least first.
    pub fn gutters(&self) -> Vec<&Gutter> {
        let mut all: Vec<&Gutter> = self.gutters.values().collect();
        all.sort_by(|a, b| a.drains[0].area.m2().total_cmp(&b.drains[0].area.m2()));
        all
    }

    /// The gutter of that id.
    pub fn gutter(&self, id: &str) -> Result<&Gutter, LookupError> {
        find(&self.gutters, Gutter::TABLE, id)
    }

    /// The downspout of that id.
    pub fn downspout(&self, id: &str) -> Result<&Downspout, LookupError> {
        find(&self.downspouts, Downspout::TABLE, id)
    }

    /// Downspouts by their opening, the smallest first.
    pub fn downspouts(&self) -> Vec<&Downspout> {
        let mut all: Vec<&Downspout> = self.downspouts.values().collect();
        all.sort_by(|a, b| a.opening.m2().total_cmp(&b.opening.m2()));
        all
    }

    /// How many times slopes of a pitch count their area in plan: the row of the flattest slopes that takes the pitch in.
    pub fn rain_factor(&self, pitch: Pitch) -> Result<&RainFactor, LookupError> {
        let takes_in = self.rain_factors.values().filter(|f| f.up_to.slope() > pitch.slope() - SAME_PITCH);
        let flattest = takes_in.min_by(|a, b| a.up_to.slope().total_cmp(&b.up_to.slope()));
        flattest.ok_or_else(|| LookupError::Unknown {
            table: RainFactor::TABLE,
            id: pitch.to_string(),
            hint: "add a row for steeper slopes".to_owned(),
        })
    }

    /// The material of that id.
    pub fn material(&self, id: &str) -> Result<&Material, LookupError> {
        find(&self.materials, Material::TABLE, id)
    }

    /// The material of a cladding.
    pub fn cladding(&self, cladding: Cladding) -> Result<&Material, LookupError> {
        let material = self.materials.values().find(|material| material.clads == Some(cladding));
        material.map_or_else(|| self.material(CLADDING), Ok)
    }

    /// The siding of that id.
    pub fn siding(&self, id: &str) -> Result<&Siding, LookupError> {
        find(&self.sidings, Siding::TABLE, id)
    }

    /// The detail of that id.
    pub fn detail(&self, id: &str) -> Result<&Detail, LookupError> {
        find(&self.details, Detail::TABLE, id)
    }

    /// All details by id.
    pub fn details(&self) -> impl Iterator<Item = &Detail> {
        self.details.values()
    }

    /// The rule of the trade of that id.
    pub fn rule(&self, id: &str) -> Result<&Rule, LookupError> {
        find(&self.rules, Rule::TABLE, id)
    }

    /// Causes of what owners see, by name.
    pub fn causes(&self) -> impl Iterator<Item = &Cause> {
        self.causes.values()
    }

    /// What stands in for the survey field of that path, if anything can.
    pub fn default(&self, path: &str) -> Option<&DefaultValue> {
        self.defaults.get(path)
    }

    /// Heat, air and moisture.
    pub fn thermal(&self) -> &Thermal {
        self.thermal.as_ref().unwrap_or_else(|| Thermal::builtin())
    }

    fn read(builtin: &[(&str, &str)], overlays: &[(&str, &str)]) -> Result<Self, Problems> {
        let mut book = Self {
            editions: BTreeMap::new(),
            packages: BTreeMap::new(),
            vents: BTreeMap::new(),
            gutters: BTreeMap::new(),
            downspouts: BTreeMap::new(),
            rain_factors: BTreeMap::new(),
            materials: BTreeMap::new(),
            sidings: BTreeMap::new(),
            details: BTreeMap::new(),
            causes: BTreeMap::new(),
            rules: BTreeMap::new(),
            defaults: BTreeMap::new(),
            thermal: None,
        };
        let files = builtin.iter().map(|file| (file, false)).chain(overlays.iter().map(|file| (file, true)));
        let problems: Vec<Problem> = files
            .flat_map(|((name, text), is_local)| book.lay(TableFile::new(name, text), is_local))
            .collect();
        if problems.is_empty() { Ok(book) } else { Err(Problems(problems)) }
    }

    /// Lays one file over what is there.
    fn lay(&mut self, mut file: TableFile<'_>, is_local: bool) -> Vec<Problem> {
        let mut tables = file.tables();
        tables.sort_by_key(|(name, _)| TABLES.iter().position(|table| table == name.get_ref()));
        for (name, table) in tables {
            match name.get_ref().as_str() {
                Written::TABLE => {
                    for placed in file.rows(table) {
                        self.put_edition(&mut file, placed, is_local);
                    }
                }
                Package::TABLE => put_all(&mut self.packages, file.rows(table), &mut file),
                Vent::TABLE => put_all(&mut self.vents, file.rows(table), &mut file),
                Gutter::TABLE => put_all(&mut self.gutters, file.rows(table), &mut file),
                Downspout::TABLE => put_all(&mut self.downspouts, file.rows(table), &mut file),
                RainFactor::TABLE => put_all(&mut self.rain_factors, file.rows(table), &mut file),
                Material::TABLE => put_all(&mut self.materials, file.rows(table), &mut file),
                Siding::TABLE => put_all(&mut self.sidings, file.rows(table), &mut file),
                Detail::TABLE => {
                    let mut details = file.rows(table);
                    self.fill_roles(&mut details);
                    self.report_materials(&details, &mut file);
                    self.report_companions(&details, &mut file);
                    self.report_rivals(&details, &mut file);
                    put_all(&mut self.details, details, &mut file);
                }
                Cause::TABLE => put_all(&mut self.causes, file.rows(table), &mut file),
                Rule::TABLE => put_all(&mut self.rules, file.rows(table), &mut file),
                DefaultValue::TABLE => put_all(&mut self.defaults, file.rows(table), &mut file),
                other if Thermal::TABLES.contains(&other) => {
                    let thermal = self.thermal.get_or_insert_with(|| Thermal::builtin().clone());
                    thermal.lay(other, table, &mut file);
                }
                _ => file.report_table(&name, &[&TABLES, Thermal::TABLES].concat()),
            }
        }
        file.into_problems()
    }

    /// Layers that do not say what they are for are for what their material is.
    fn fill_roles(&self, details: &mut [Placed<'_, Detail>]) {
        for layer in details.iter_mut().flat_map(|placed| &mut placed.row.layers) {
            let made = self.materials.get(&layer.material);
            layer.role = layer.role.or_else(|| made?.role);
        }
    }

    /// Materials of details that are not stated before them, or in the same file.
    fn report_materials(&self, details: &[Placed<'_, Detail>], file: &mut TableFile<'_>) {
        for placed in details {
            let detail = &placed.row;
            for (layer, material) in detail.unknown_materials(|id| self.materials.contains_key(id)) {
                let fault = format!("layer `{layer}` is of `{material}`, which is no material");
                file.report_fault(placed, &fault, hint(material, self.materials.keys().map(String::as_str)));
            }
            for fault in detail.material_faults(|id| self.materials.get(id)) {
                file.report_fault(placed, &fault, "mend it in this row, or the material it names".to_owned());
            }
        }
    }

    /// Details built with others that the books do not have, or that are for nothing that is built.
    fn report_companions(&self, details: &[Placed<'_, Detail>], file: &mut TableFile<'_>) {
        let here = || details.iter().map(|placed| &placed.row);
        for placed in details {
            let detail = &placed.row;
            for id in &detail.with {
                let companion = here().find(|other| other.id == *id).or_else(|| self.details.get(id));
                let Some((fault, mend)) = company_fault(detail, id, companion) else { continue };
                let mend = mend.unwrap_or_else(|| hint(id, here().map(|other| other.id.as_str())));
                file.report_fault(placed, &fault, mend);
            }
        }
    }

    /// Details that are usual where another one is, with nothing at the place to tell which of the two it shall be.
    fn report_rivals(&self, details: &[Placed<'_, Detail>], file: &mut TableFile<'_>) {
        let is_here = |id: &str| details.iter().any(|placed| placed.row.id == id);
        for (index, placed) in details.iter().enumerate() {
            let before = details[..index].iter().map(|before| &before.row);
            let known = self.details.values().filter(|other| !is_here(&other.id));
            for other in before.chain(known).filter(|other| placed.row.rivals(other)) {
                let fault = format!(
                    "is usual at `{}`, where `{}` is usual too, and nothing tells which is built",
                    placed.row.at.name(),
                    other.id
                );
                let mend = format!(
                    "write choice = \"allowed\" in one of them, let `when` ask more of the place in one, or give this one the id `{}` to replace it",
                    other.id
                );
                file.report_fault(placed, &format!("`choice`: it {fault}"), mend);
            }
        }
    }

    fn put_edition(&mut self, file: &mut TableFile<'_>, placed: Placed<'_, Written>, is_local: bool) {
        let Placed { row: written, at, .. } = placed;
        match self.complete(written, is_local) {
            Ok(edition) => {
                self.editions.insert(edition.id.clone(), edition);
            }
            Err((message, mend)) => file.report(&at, message, mend),
        }
    }

    /// A written edition on its base, or what is wrong and what would mend it.
    fn complete(&self, written: Written, is_local: bool) -> Result<Edition, (String, String)> {
        let id = written.id.clone();
        let base = match &written.based_on {
            Some(base) => Some(self.edition(base).map_err(|_| {
                let mend = hint(base, self.editions.keys().map(String::as_str));
                (format!("edition `{id}` is based on `{base}`, which is not stated before it"), mend)
            })?),
            None => None,
        };
        written.on(base, is_local).map_err(|missing| {
            let mend = "state them, or name an earlier edition with `based_on`".to_owned();
            (format!("edition `{id}` does not state {}", missing.join(", ")), mend)
        })
    }
}

/// What is wrong with building a detail with another one, and what would mend it where its name is not what is wrong.
fn company_fault(detail: &Detail, id: &str, other: Option<&Detail>) -> Option<(String, Option<String>)> {
    let take_out = || Some(format!("take `{id}` out of `with`"));
    let wrong = |what: &str, mend| Some((format!("`with`: it is built with `{id}`, {what}"), mend));
    match other {
        None => wrong("which is no detail", None),
        Some(other) if other.id == detail.id => wrong("which is itself", take_out()),
        Some(other) if other.with.contains(&detail.id) => {
            wrong("which is built with it in turn: name the other in one of the two only", take_out())
        }
        Some(other) if !other.with.is_empty() => {
            let mend = format!("name what `{id}` is built with here too, and take its own `with` out");
            wrong(&format!("which is itself built with `{}`", other.with.join("`, `")), Some(mend))
        }
        Some(other) if other.stage != detail.stage => {
            wrong("which is of another stage: found goes with found, planned with planned", take_out())
        }
        Some(_) => None,
    }
}

/// Puts rows in a table, each in the place of the one whose id it has.
pub(crate) fn put_all<R: Row>(
    table: &mut BTreeMap<String, R>,
    rows: Vec<Placed<'_, R>>,
    file: &mut TableFile<'_>,
) {
    for Placed { row, at, .. } in rows {
        match table.get(row.id()) {
            Some(old) if !row.replaces(old) => report_kind::<R>(file, &at, row.id()),
            _ => {
                table.insert(row.id().to_owned(), row);
            }
        }
    }
}

fn report_kind<R: Row>(file: &mut TableFile<'_>, at: &Range<usize>, id: &str) {
    let message = format!("{} `{id}` is of another kind than the row it would replace", R::TABLE);
    file.report(at, message, "keep the kind, or give the row an id of its own".to_owned());
}

pub(crate) fn find<'a, R>(
    rows: &'a BTreeMap<String, R>,
    table: &'static str,
    id: &str,
) -> Result<&'a R, LookupError> {
    rows.get(id).ok_or_else(|| LookupError::Unknown {
        table,
        id: id.to_owned(),
        hint: hint(id, rows.keys().map(String::as_str)),
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::thermal::BUILTIN as BUILTIN_THERMAL;

    #[test]
    fn no_row_or_clause_of_the_builtin_tables_can_lose_its_source() {
        for (name, text) in BUILTIN.into_iter().chain([BUILTIN_THERMAL]) {
            let lines: Vec<&str> = text.lines().collect();
            let sources = (0..lines.len()).filter(|n| lines[*n].starts_with("source = "));
            for n in sources {
                let without = [&lines[..n], &lines[n + 1..]].concat().join("\n");
                let found = Book::read(&[(name, &without)], &[]).expect_err("a source is gone").to_string();
                assert!(found.contains("missing field `source`"), "line {n} of {name}: {found}");
            }
        }
    }

    #[test]
    fn no_id_stands_in_two_builtin_files() {
        let book = Book::builtin();
        let rows = book.editions.len()
            + book.packages.len()
            + book.vents.len()
            + book.gutters.len()
            + book.downspouts.len()
            + book.rain_factors.len()
            + book.materials.len()
            + book.sidings.len()
            + book.details.len()
            + book.causes.len()
            + book.rules.len()
            + book.defaults.len()
            + book.thermal().count();
        let is_row = |line: &&str| line.starts_with("[[") && !line.contains('.');
        let files = BUILTIN.iter().chain([&BUILTIN_THERMAL]);
        let heads = files.flat_map(|(_, text)| text.lines()).filter(is_row);
        assert_eq!(rows, heads.count());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        /// However a file is damaged, reading ends, and each problem has a place in it.
        #[test]
        fn a_damaged_file_gives_problems_with_places(
            file in 0..=BUILTIN.len(), at in any::<prop::sample::Index>(), length in 0_usize..60, put in "[ -~\n]{0,12}"
        ) {
            let (name, text) = BUILTIN.get(file).copied().unwrap_or(BUILTIN_THERMAL);
            let chars: Vec<char> = text.chars().collect();
            let from = at.index(chars.len());
            let rest = &chars[(from + length).min(chars.len())..];
            let damaged: String = chars[..from].iter().copied().chain(put.chars()).chain(rest.iter().copied()).collect();
            if let Err(problems) = Book::read(&[(name, &damaged)], &[]) {
                prop_assert!(!problems.0.is_empty());
                for problem in problems.0 {
                    prop_assert!(problem.line >= 1 && problem.line <= damaged.lines().count() + 1, "{problem}");
                    prop_assert!(problem.column >= 1 && !problem.message.is_empty(), "{problem}");
                }
            }
        }
    }
}
