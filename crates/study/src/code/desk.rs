//! What the clauses are held against: the house, what is laid on it, the edition; and the rows as they come.

use book::{Because, Book, Clause, Confidence, Edition, LookupError, Source, Spot, Stage};
use detail::{At, Details, Place, Section, Sheet};
use job::{Block, Job, Opening, State, Units};
use measure::Length;
use roof::{PlacedOpening, PlaneId, Roof};
use takeoff::Takeoff;

use super::judge::{Check, Held, Need};
use super::{Figure, Part, Row, Unasked};

/// What the clauses are held against, and what came of it.
pub(super) struct Desk<'a> {
    pub(super) roof: &'a Roof,
    pub(super) details: &'a Details,
    pub(super) takeoff: &'a Takeoff,
    pub(super) job: &'a Job,
    pub(super) book: &'a Book,
    pub(super) edition: &'a Edition,
    rows: Vec<Row>,
    unasked: Vec<Unasked>,
}

/// A clause about to be held against the house.
pub(super) struct Ask<'a> {
    pub(super) part: Part,
    /// Name of its rule in the books.
    pub(super) rule: &'static str,
    pub(super) clause: &'a str,
    pub(super) source: &'a Source,
    /// What it asks, in words.
    pub(super) asked: String,
}

/// How the books lay out a place in one of its states.
pub(super) struct Laid<'a> {
    pub(super) section: Section<'a>,
    stage: Stage,
}

impl<'a> Ask<'a> {
    pub(super) fn of(part: Part, rule: &'static str, clause: &'a Clause, asked: impl Into<String>) -> Self {
        Self { part, rule, clause: &clause.clause, source: &clause.source, asked: asked.into() }
    }
}

impl<'a> Desk<'a> {
    pub(super) const fn new(
        roof: &'a Roof,
        details: &'a Details,
        takeoff: &'a Takeoff,
        job: &'a Job,
        book: &'a Book,
        edition: &'a Edition,
    ) -> Self {
        Self { roof, details, takeoff, job, book, edition, rows: Vec::new(), unasked: Vec::new() }
    }

    pub(super) fn finish(self) -> (Vec<Row>, Vec<Unasked>) {
        (self.rows, self.unasked)
    }

    pub(super) const fn units(&self) -> Units {
        self.job.units
    }

    /// Adds a row of one check after all others that ask of the same places.
    pub(super) fn one(&mut self, ask: &Ask<'_>, place: String, check: Check, because: Vec<Because>) {
        self.row(ask, place, vec![check], Need::All, because);
    }

    /// Adds a row, or its place to the row that says the same.
    pub(super) fn row(
        &mut self,
        ask: &Ask<'_>,
        place: String,
        checks: Vec<Check>,
        need: Need,
        because: Vec<Because>,
    ) {
        let found = need.of(checks.iter().map(|check| check.found.as_ref().map(|judged| &judged.verdict)));
        let Some(planned) = need.of(checks.iter().map(|check| Some(&check.planned.verdict))) else { return };
        let clause = Because {
            what: "asked".to_owned(),
            inputs: Vec::new(),
            rule: format!("{} of {}", ask.clause, self.edition.name),
            source: ask.source.clone(),
        };
        let row = Row {
            part: ask.part,
            rule: ask.rule,
            clause: ask.clause.to_owned(),
            is_amended: self.edition.is_amended(ask.rule),
            asked: ask.asked.clone(),
            places: vec![place],
            checks,
            need,
            found,
            planned,
            because: std::iter::once(clause).chain(because).collect(),
        };
        let units = self.job.units;
        match self.rows.iter_mut().find(|known| known.says_as(&row, units)) {
            Some(known) => known.places.extend(row.places),
            None => self.rows.push(row),
        }
    }

    /// Whether a rule asks something of this house.
    pub(super) fn asks(&self, rule: &str) -> bool {
        self.rows.iter().any(|row| row.rule == rule)
    }

    /// Whether a clause is already told to ask nothing here.
    pub(super) fn is_told(&self, clause: &str) -> bool {
        self.unasked.iter().any(|unasked| unasked.clause == clause)
    }

    /// A clause that asks nothing here.
    pub(super) fn unasked(&mut self, clause: &str, what: &'static str, why: impl Into<String>) {
        let unasked = Unasked { clause: clause.to_owned(), what, why: why.into() };
        if !self.unasked.contains(&unasked) {
            self.unasked.push(unasked);
        }
    }

    /// A place as found or as planned; none where nothing is there in that state.
    pub(super) fn laid(&self, place: &Place, stage: Stage) -> Result<Option<Laid<'a>>, LookupError> {
        let fit = match stage {
            Stage::Found => place.found.as_ref(),
            Stage::Planned => place.chosen(),
        };
        let Some(fit) = fit else { return Ok(None) };
        let section = Section::of(self.book.detail(&fit.detail)?, fit.at, self.book)?;
        Ok(Some(Laid { section, stage }))
    }

    /// A place as found, if something is there, and as planned; none where nothing is planned.
    pub(super) fn both(&self, place: &Place) -> Result<Option<(Option<Laid<'a>>, Laid<'a>)>, LookupError> {
        let found = self.laid(place, Stage::Found)?;
        Ok(self.laid(place, Stage::Planned)?.map(|planned| (found, planned)))
    }

    /// A spot of an opening as planned; none where nothing is planned.
    pub(super) fn planned(&self, spot: Spot, opening: usize) -> Result<Option<Laid<'a>>, LookupError> {
        let is_it = |place: &&Place| place.spot == spot && place.at == At::Opening(opening);
        let place = self.details.places.iter().find(is_it);
        place.map_or(Ok(None), |place| self.laid(place, Stage::Planned))
    }

    /// Openings that are there when the work is done, each with its place on the roof and its index there.
    pub(super) fn openings(&self) -> Vec<(usize, &'a Opening, &'a PlacedOpening)> {
        let named = |placed: &PlacedOpening| self.job.openings.iter().find(|o| o.name == placed.name);
        let placed = self.roof.openings.iter().enumerate();
        let all = placed.filter_map(|(index, placed)| Some((index, named(placed)?, placed)));
        all.filter(|(_, opening, _)| opening.state != State::Remove).collect()
    }

    /// Blocks a plane rises from.
    pub(super) fn blocks(&self, plane: PlaneId) -> impl Iterator<Item = &'a Block> + use<'a> {
        let blocks = &self.roof.plane(plane).blocks;
        self.job.blocks.iter().filter(move |block| blocks.contains(&block.name))
    }

    /// The thickest deck under a plane, or which field would tell.
    pub(super) fn deck(&self, plane: PlaneId) -> Result<Length, String> {
        let mut thickest = Length::ZERO;
        for block in self.blocks(plane) {
            let thickness = block.deck.as_ref().and_then(|deck| deck.thickness);
            let field = || format!("block.{}.deck.thickness", block.name);
            thickest = thickest.max(thickness.ok_or_else(field)?);
        }
        Ok(thickest)
    }

    /// The plane a place of the details is on.
    pub(super) fn plane_of(&self, place: &Place) -> Option<PlaneId> {
        match place.at {
            At::Edge(edge) | At::End(edge, _) => self.roof.edge(edge).planes.first().copied(),
            At::Opening(index) => self.roof.openings.get(index).map(|placed| placed.plane),
        }
    }

    /// Whether the books filled in a field of the job, by its path.
    pub(super) fn is_assumed(&self, path: &str) -> bool {
        self.job.assumptions.iter().any(|assumption| assumption.path == path)
    }

    /// Because of a field that the books filled in.
    pub(super) fn assumed(&self, path: &str) -> Option<Because> {
        let known = self.job.assumptions.iter().find(|assumption| assumption.path == path)?;
        let source = Source { text: known.source.text.clone(), confidence: Confidence::Assumed };
        let inputs = vec![("value taken".to_owned(), known.value.clone())];
        let rule = "not measured; the default of the books stands in".to_owned();
        Some(Because { what: format!("assumed: {path}"), inputs, rule, source })
    }

    /// Where the details of places take their layers from, as found and as planned.
    pub(super) fn layers(found: Option<&Laid<'_>>, planned: &Laid<'_>) -> Vec<Because> {
        found.into_iter().chain([planned]).map(Laid::because).collect()
    }
}

impl<'a> Laid<'a> {
    fn because(&self) -> Because {
        let detail = self.section.detail;
        let (what, rule) = match self.stage {
            Stage::Found => {
                ("as found", "what the books say is usually met with there; look when it is open")
            }
            Stage::Planned => ("as planned", "layers of the detail to be built"),
        };
        Because {
            what: what.to_owned(),
            inputs: vec![("detail".to_owned(), detail.name.clone())],
            rule: rule.to_owned(),
            source: detail.source.clone(),
        }
    }

    /// The first sound sheet that is meant.
    pub(super) fn sheet(&self, is_meant: impl Fn(&Sheet<'a>) -> bool) -> Option<&Sheet<'a>> {
        self.section.sheets.iter().find(|sheet| !sheet.layer.spent && is_meant(sheet))
    }

    /// How far a sheet covers a face, along it.
    pub(super) fn on(&self, sheet: &Sheet<'_>, face: usize) -> Length {
        let shared = self.section.faces.get(face).map(|laid| laid.span.shared(sheet.span).length());
        Length::from_m(shared.unwrap_or(0.0).max(0.0))
    }

    /// Number of a sheet, from the wood outward.
    pub(super) fn depth(&self, sheet: &Sheet<'_>) -> Option<usize> {
        self.section.sheets.iter().position(|other| std::ptr::eq(other, sheet))
    }
}

/// A length as what is held against a clause.
pub(super) const fn length(length: Length) -> Held {
    Held::Is(Figure::Length(length))
}

pub(super) fn because(
    what: &str,
    inputs: impl IntoIterator<Item = (String, String)>,
    rule: impl Into<String>,
    source: &Source,
) -> Because {
    Because {
        what: what.to_owned(),
        inputs: inputs.into_iter().collect(),
        rule: rule.into(),
        source: source.clone(),
    }
}

pub(super) fn input(name: impl Into<String>, value: impl Into<String>) -> (String, String) {
    (name.into(), value.into())
}

/// What the job document says, as a source.
pub(super) fn of_job() -> Source {
    Source { text: "the job document".to_owned(), confidence: Confidence::Computed }
}
