//! What of a roof's water a person should look at.
//!
//! # Source
//! Each is a place where roofs leak first, by common practice: water that stands, runs into walls, or comes as a stream where a roof
//! was made for rain.

use measure::Area;
use roof::{EdgeId, EdgeKind, PlaneId, Roof};

use crate::flow::{Fall, OutletKind, Spill, Water};

/// Catchments below this are rounding, square metres: a hand's breadth square.
const NOTHING: f64 = 0.01;

/// Streams of smaller catchments are no more than rain to an opening, square metres: what runs off a pipe above it.
const STREAM: f64 = 1.0;

/// A place where water is more than a roof is made for. The area is the catchment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Finding {
    /// Water stands in a level valley or at a wall: it has no way out.
    StandsAt(EdgeId, Area),
    /// Water stands on a plane.
    StandsOn(PlaneId, Area),
    /// A level valley: no fall of its own, a dead valley.
    DeadValley(EdgeId, Area),
    /// Water runs into a wall or the edge of another roof.
    MeetsWall(EdgeId, Area),
    /// The stream at the end of what gathered it falls onto a lower roof within 12 in of a wall.
    StreamBesideWall {
        /// Where it falls from.
        from: Spill,
        /// The wall.
        wall: EdgeId,
        /// Its catchment.
        amount: Area,
    },
    /// The stream at the end of what gathered it falls onto a lower roof.
    StreamOntoRoof {
        /// Where it falls from.
        from: Spill,
        /// The plane it falls on.
        onto: PlaneId,
        /// Its catchment.
        amount: Area,
    },
    /// An opening, by its index, stands in the way of a stream.
    OpeningInStream(usize, Area),
    /// A free edge drips on a lower roof.
    DripsOnRoof {
        /// The edge.
        edge: EdgeId,
        /// The plane it drips on.
        onto: PlaneId,
        /// Its catchment.
        amount: Area,
    },
}

impl Finding {
    /// The catchment it speaks of.
    pub const fn amount(&self) -> Area {
        match self {
            Self::StandsAt(_, amount)
            | Self::StandsOn(_, amount)
            | Self::DeadValley(_, amount)
            | Self::MeetsWall(_, amount)
            | Self::StreamBesideWall { amount, .. }
            | Self::StreamOntoRoof { amount, .. }
            | Self::OpeningInStream(_, amount)
            | Self::DripsOnRoof { amount, .. } => *amount,
        }
    }

    /// Place in the order of harm, the worst first.
    const fn rank(&self) -> u8 {
        match self {
            Self::StandsAt(..) | Self::StandsOn(..) => 0,
            Self::DeadValley(..) => 1,
            Self::MeetsWall(..) => 2,
            Self::StreamBesideWall { .. } => 3,
            Self::StreamOntoRoof { .. } => 4,
            Self::OpeningInStream(..) => 5,
            Self::DripsOnRoof { .. } => 6,
        }
    }
}

/// All findings, the worst kind first, within a kind the largest first.
pub(crate) fn findings(roof: &Roof, water: &Water) -> Vec<Finding> {
    let mut all = standing(water);
    all.extend(at_edges(roof, water));
    all.extend(falling(water));
    let openings = water.openings.iter().enumerate().filter(|(_, o)| o.streams.m2() > STREAM);
    all.extend(openings.map(|(i, o)| Finding::OpeningInStream(i, o.streams)));
    all.retain(|f| f.amount().m2() > NOTHING);
    all.sort_by(|a, b| a.rank().cmp(&b.rank()).then(b.amount().m2().total_cmp(&a.amount().m2())));
    all
}

fn standing(water: &Water) -> Vec<Finding> {
    let mut kinds: Vec<OutletKind> = water.outlets.iter().map(|o| o.kind).filter(|k| k.stands()).collect();
    kinds.dedup();
    let told = |kind: OutletKind| match kind {
        OutletKind::StandsAt(edge) => Some(Finding::StandsAt(edge, water.leaving(kind))),
        OutletKind::StandsOn(plane) => Some(Finding::StandsOn(plane, water.leaving(kind))),
        OutletKind::OffEdge(_) | OutletKind::OffEnd(_) | OutletKind::Downspout(_) => None,
    };
    kinds.into_iter().filter_map(told).collect()
}

fn at_edges(roof: &Roof, water: &Water) -> Vec<Finding> {
    let told = |(i, kind): (usize, EdgeKind)| {
        let (id, amount) = (EdgeId(i), water.edges[i].catchment());
        match kind {
            EdgeKind::LevelValley => Some(Finding::DeadValley(id, amount)),
            EdgeKind::BackWall | EdgeKind::SkewWall | EdgeKind::Soffit => {
                Some(Finding::MeetsWall(id, amount))
            }
            _ => None,
        }
    };
    roof.edges.iter().map(|e| e.kind).enumerate().filter_map(told).collect()
}

/// What falls, whatever plane its rain fell on.
fn falling(water: &Water) -> Vec<Finding> {
    let places = water.falls.chunk_by(|a, b| (a.from, a.onto, a.beside) == (b.from, b.onto, b.beside));
    let told = |falls: &[Fall]| {
        let Fall { from, onto, beside, .. } = falls[0];
        let amount = falls.iter().map(|f| f.amount).sum();
        match (from, beside) {
            (Spill::Edge(edge), _) => Finding::DripsOnRoof { edge, onto, amount },
            (from, Some(wall)) => Finding::StreamBesideWall { from, wall, amount },
            (from, None) => Finding::StreamOntoRoof { from, onto, amount },
        }
    };
    places.map(told).collect()
}
