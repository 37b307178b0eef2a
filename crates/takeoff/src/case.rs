//! What every count works from: the roof, its job, the books, and the edition the job adopts.

use std::collections::BTreeMap;

use book::{Book, Edition, Kind, LookupError, Package, Source};
use job::{Job, Opening, State};
use measure::Pitch;
use roof::{Edge, EdgeId, EdgeKind, PlacedOpening, Plane, PlaneId, Roof};

use crate::assumed::Assumed;
use crate::line::input;
use crate::words::Words;

/// The rule that says which planes are covered whole with ice barrier.
pub(crate) const WHOLE_BELOW: &str = "ice-barrier.full-face-below";

/// What every count works from.
pub(crate) struct Case<'a> {
    pub(crate) roof: &'a Roof,
    pub(crate) job: &'a Job,
    pub(crate) book: &'a Book,
    pub(crate) edition: &'a Edition,
    pub(crate) words: Words,
    pub(crate) assumed: Assumed,
    whole_below: Pitch,
}

/// A figure of the trade and where it comes from.
pub(crate) struct Ruled<T> {
    pub(crate) value: T,
    pub(crate) source: Source,
    pub(crate) what: String,
    text: String,
}

impl<T> Ruled<T> {
    /// The rule as an input of a because.
    pub(crate) fn input(&self) -> (String, String) {
        input(&self.what, &self.text)
    }
}

impl<'a> Case<'a> {
    pub(crate) fn new(roof: &'a Roof, job: &'a Job, book: &'a Book) -> Result<Self, LookupError> {
        Self::assuming(roof, job, book, Assumed::of(roof, job, book))
    }

    /// With what is assumed worked out already.
    pub(crate) fn assuming(
        roof: &'a Roof,
        job: &'a Job,
        book: &'a Book,
        assumed: Assumed,
    ) -> Result<Self, LookupError> {
        let edition = book.edition(&job.site.code)?;
        let whole_below = book.rule(WHOLE_BELOW)?.get()?;
        Ok(Self { roof, job, book, edition, words: Words(job.units), assumed, whole_below })
    }

    /// A rule of the trade.
    pub(crate) fn rule<T: Kind>(&self, id: &str) -> Result<Ruled<T>, LookupError> {
        let rule = self.book.rule(id)?;
        Ok(Ruled {
            value: rule.get()?,
            source: rule.source.clone(),
            what: rule.what.clone(),
            text: rule.value.to_string(),
        })
    }

    /// A package of the books.
    pub(crate) fn package(&self, id: &str) -> Result<&'a Package, LookupError> {
        self.book.package(id)
    }

    /// Planes with their ids.
    pub(crate) fn planes(&self) -> impl Iterator<Item = (PlaneId, &'a Plane)> {
        self.roof.planes.iter().enumerate().map(|(number, plane)| (PlaneId(number), plane))
    }

    /// Whether the adopted edition lets shingles cover a plane.
    pub(crate) fn takes_shingles(&self, plane: PlaneId) -> bool {
        !self.roof.plane(plane).pitch.is_flatter_than(*self.edition.asphalt_shingles.least_pitch)
    }

    /// Planes shingles may cover.
    pub(crate) fn shingled(&self) -> impl Iterator<Item = (PlaneId, &'a Plane)> {
        self.planes().filter(|(id, _)| self.takes_shingles(*id))
    }

    /// Whether a plane is covered whole with ice barrier, which stands in for the doubled underlayment.
    pub(crate) fn is_covered_whole(&self, plane: PlaneId) -> bool {
        self.takes_shingles(plane) && self.is_low(plane)
    }

    /// Whether a plane is flatter than what is covered whole, shingles or not.
    pub(crate) fn is_low(&self, plane: PlaneId) -> bool {
        self.roof.plane(plane).pitch.is_flatter_than(self.whole_below)
    }

    /// Whether the adopted edition asks two layers of underlayment on a plane and no membrane stands in for them.
    pub(crate) fn takes_two_layers(&self, plane: PlaneId) -> bool {
        let single_from = *self.edition.asphalt_shingles.single_underlayment_from;
        self.takes_shingles(plane)
            && !self.is_covered_whole(plane)
            && self.roof.plane(plane).pitch.is_flatter_than(single_from)
    }

    /// The clause of the adopted edition that says how underlayment is doubled.
    pub(crate) fn doubling_clause(&self) -> &'a str {
        let clause = &self.edition.asphalt_shingles;
        clause.method_clause.as_ref().unwrap_or(&clause.clause)
    }

    /// Edges of some kinds.
    pub(crate) fn all_edges(&self, kinds: &[EdgeKind]) -> Vec<(EdgeId, &'a Edge)> {
        let edges = self.roof.edges.iter().enumerate().map(|(number, edge)| (EdgeId(number), edge));
        edges.filter(|(_, edge)| kinds.contains(&edge.kind)).collect()
    }

    /// Edges of some kinds that bound a plane shingles may cover.
    pub(crate) fn edges(&self, kinds: &[EdgeKind]) -> Vec<(EdgeId, &'a Edge)> {
        let mut edges = self.all_edges(kinds);
        edges.retain(|(_, edge)| edge.planes.iter().any(|plane| self.takes_shingles(*plane)));
        edges
    }

    /// Openings that are there when the work is done, each with its place on the roof.
    pub(crate) fn openings(&self) -> Vec<(&'a Opening, &'a PlacedOpening)> {
        self.placed().into_iter().filter(|(opening, _)| opening.state != State::Remove).collect()
    }

    /// All openings of the job, each with its place on the roof.
    pub(crate) fn placed(&self) -> Vec<(&'a Opening, &'a PlacedOpening)> {
        let places: BTreeMap<&str, &PlacedOpening> =
            self.roof.openings.iter().map(|placed| (placed.name.as_str(), placed)).collect();
        let openings = self.job.openings.iter();
        openings.filter_map(|opening| Some((opening, *places.get(opening.name.as_str())?))).collect()
    }

    /// Whether a plane rises from any of some blocks.
    pub(crate) fn is_over(&self, plane: PlaneId, blocks: &[String]) -> bool {
        self.roof.plane(plane).blocks.iter().any(|block| blocks.contains(block))
    }
}
