//! What gutter and downspouts an eave needs.
//!
//! An eave's gutter carries what runs over it and the streams that end at it: a valley's throat between two eaves goes to the longer.
//! Slopes count their area in plan more often the steeper they are, since driven rain meets their face; of walls above
//! a share counts for the same reason. At a rate of rain the rating of
//! a gutter, given at 1 in/h, is divided by that rate.
//!
//! # Source
//! Ratings, factors and the rule for downspouts: `books/gutters.toml`, each row with its own.

use book::{Book, Gutter, LookupError};
use measure::{Area, Flow, Length, RainRate};
use roof::{Edge, EdgeId, EdgeKind, NodeId, PlaneId, Roof};

use crate::desk::Desk;
use crate::flow::{OutletKind, Spill, Water};
use crate::wall::WallWater;

/// What an eave asks of a gutter.
#[derive(Clone, Debug, PartialEq)]
pub struct GutterNeed {
    /// The eave.
    pub edge: EdgeId,
    /// Catchment in plan of what runs over it.
    pub straight: Area,
    /// Catchment in plan of the streams that end at it.
    pub streams: Area,
    /// What walls above add.
    pub walls: Area,
    /// All of it, slopes counted as often as driven rain asks.
    pub counted: Area,
    /// What comes at the design rain, of the area counted.
    pub flow: Flow,
    /// Area at 1 in/h that brings as much: what ratings are held against.
    pub rating: Area,
    /// Gutters that carry it, the least first, each with the least fall in a foot at which it does.
    pub gutters: Vec<Fitting>,
    /// How many downspouts of each size it takes, the smallest first.
    pub downspouts: Vec<Downspouts>,
}

/// A gutter that is large enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitting {
    /// Its id in the books.
    pub id: String,
    /// Its name for papers.
    pub name: String,
    /// Least fall in a foot, as the books write it.
    pub fall: String,
    /// Its rating over what is asked: 1 is just enough.
    pub margin: f64,
}

/// Downspouts of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Downspouts {
    /// Id in the books.
    pub id: String,
    /// Name for papers.
    pub name: String,
    /// How many.
    pub count: usize,
}

/// What each eave asks of a gutter, in the order of edges.
///
/// # Errors
/// Rows the books do not have.
pub fn gutters(
    roof: &Roof,
    water: &Water,
    rain: RainRate,
    book: &Book,
) -> Result<Vec<GutterNeed>, LookupError> {
    let walls = WallWater::with(roof, &[], &[], book)?;
    let desk = Desk { roof, water, walls: &walls, rain, book };
    let is_eave = |i: &usize| roof.edges[*i].kind == EdgeKind::Eave;
    (0..roof.edges.len()).filter(is_eave).map(|i| desk.need(EdgeId(i))).collect()
}

impl Desk<'_> {
    fn need(&self, edge: EdgeId) -> Result<GutterNeed, LookupError> {
        let over = self.water.edge(edge).sources().into_iter().collect::<Vec<_>>();
        let ending = self.streams_at(self.water, edge);
        let of_walls = &self.walls.water;
        let walls = of_walls.edge(edge).catchment() + sum(&self.streams_at(of_walls, edge));
        let counted = self.counted(&over)? + self.counted(&ending)? + walls;
        let rating = counted * self.rain.in_per_h();
        Ok(GutterNeed {
            edge,
            straight: sum(&over),
            streams: sum(&ending),
            walls,
            counted,
            flow: self.rain * counted,
            rating,
            gutters: self.book.gutters().into_iter().filter_map(|g| fitting(g, rating)).collect(),
            downspouts: self.downspouts(rating, self.roof.edge(edge).length)?,
        })
    }

    /// The streams that end at an eave: over its ends, or falling from them onto another roof, where no longer eave ends too.
    fn streams_at(&self, water: &Water, id: EdgeId) -> Vec<(PlaneId, Area)> {
        let edge = self.roof.edge(id);
        let ends: Vec<NodeId> =
            [edge.from, edge.to].into_iter().filter(|n| self.is_longest(edge, *n)).collect();
        let leaving =
            water.outlets.iter().filter(|o| matches!(o.kind, OutletKind::OffEnd(n) if ends.contains(&n)));
        let falling = water.falls.iter().filter(|f| matches!(f.from, Spill::End(n) if ends.contains(&n)));
        leaving.map(|o| (o.source, o.amount)).chain(falling.map(|f| (f.source, f.amount))).collect()
    }

    fn is_longest(&self, edge: &Edge, node: NodeId) -> bool {
        let eaves = self
            .roof
            .node(node)
            .edges
            .iter()
            .map(|e| self.roof.edge(*e))
            .filter(|e| e.kind == EdgeKind::Eave);
        eaves.map(|e| e.length.m()).fold(0.0, f64::max) <= edge.length.m()
    }

    fn downspouts(&self, rating: Area, length: Length) -> Result<Vec<Downspouts>, LookupError> {
        let per_in2: f64 = self.book.rule("downspout.drains")?.get()?;
        let longest: Length = self.book.rule("downspout.longest-run")?.get()?;
        let by_length = (length / longest).ceil();
        let sizes = self.book.downspouts().into_iter().map(|d| {
            let by_flow = (rating.ft2() / (per_in2 * d.opening.in2())).ceil();
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
            let count = by_flow.max(by_length).max(1.0) as usize;
            Downspouts { id: d.id.clone(), name: d.name.clone(), count }
        });
        Ok(sizes.collect())
    }
}

fn sum(sources: &[(PlaneId, Area)]) -> Area {
    sources.iter().map(|(_, area)| *area).sum()
}

/// A gutter at the least fall at which it carries so much at 1 in/h.
fn fitting(gutter: &Gutter, rating: Area) -> Option<Fitting> {
    let drains = gutter.drains.iter().find(|d| d.area.m2() >= rating.m2())?;
    Some(Fitting {
        id: gutter.id.clone(),
        name: gutter.name.clone(),
        fall: drains.fall.text().to_owned(),
        margin: *drains.area / rating,
    })
}
