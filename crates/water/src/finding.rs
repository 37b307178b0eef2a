//! What of a roof's water a person should look at.
//!
//! # Source
//! Each is a place where roofs leak first, by common practice: water that stands, runs into walls, or comes as a stream where a roof
//! was made for rain, or drips and freezes where people walk.

use measure::{Area, Length};
use roof::{EdgeId, EdgeKind, NodeId, PlaneId, Roof};

use crate::flow::{Fall, OutletKind, Spill, Water};
use crate::hung::{DownspoutId, GutterId};
use crate::walk::on_walks;

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
    /// Water falls from the roof where people walk or drive.
    DripsOnWalk {
        /// From where.
        from: Spill,
        /// Index of the walk.
        walk: usize,
        /// Its catchment.
        amount: Area,
    },
    /// A downspout lets its water go where people walk or drive.
    DownspoutOntoWalk {
        /// The downspout.
        downspout: DownspoutId,
        /// Index of the walk.
        walk: usize,
        /// Its catchment.
        amount: Area,
    },
    /// A free edge drips on a lower roof.
    DripsOnRoof {
        /// The edge.
        edge: EdgeId,
        /// The plane it drips on.
        onto: PlaneId,
        /// Its catchment.
        amount: Area,
    },
    /// A downspout empties on a roof rather than into the gutter below.
    DownspoutOntoRoof {
        /// The downspout.
        downspout: DownspoutId,
        /// The plane it empties on.
        onto: PlaneId,
        /// Its catchment.
        amount: Area,
    },
    /// The end of a gutter comes too close to a wall to keep that dry.
    EndAtWall(GutterId, Area),
    /// A gutter is too small for what runs to one of its outlets.
    GutterOverloaded(GutterId, Area),
    /// A downspout is too small for what it carries.
    DownspoutOverloaded(DownspoutId, Area),
    /// A gutter has no downspout.
    NoDownspout(GutterId, Area),
    /// The stream of a valley comes into a gutter faster than its inside corner takes it.
    SplashOver {
        /// The gutter.
        gutter: GutterId,
        /// The throat.
        at: NodeId,
        /// What it takes besides a splash guard.
        asks: Splash,
        /// The valley's catchment.
        amount: Area,
    },
    /// More gutter runs to one outlet than should, in all or from one side.
    RunTooLong {
        /// The downspout.
        downspout: DownspoutId,
        /// The most one should serve, where it serves more.
        serves: Option<Length>,
        /// The longest run that should fall one way, where a longer one does.
        one_way: Option<Length>,
        /// Its catchment.
        amount: Area,
    },
    /// A gutter falls too little or too steeply.
    FallOutOfRange {
        /// The gutter.
        gutter: GutterId,
        /// Whether it falls too steeply.
        is_steep: bool,
        /// Its catchment.
        amount: Area,
    },
}

/// What the inside corner of a gutter under a valley takes besides a splash guard.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Splash {
    /// A gutter of this width, being narrower.
    pub wider: Option<Length>,
    /// An outlet within this distance, having none so close.
    pub outlet_within: Option<Length>,
    /// Part of the flow led elsewhere.
    pub split: bool,
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
            | Self::DripsOnWalk { amount, .. }
            | Self::DownspoutOntoWalk { amount, .. }
            | Self::DripsOnRoof { amount, .. }
            | Self::DownspoutOntoRoof { amount, .. }
            | Self::EndAtWall(_, amount)
            | Self::GutterOverloaded(_, amount)
            | Self::DownspoutOverloaded(_, amount)
            | Self::NoDownspout(_, amount)
            | Self::SplashOver { amount, .. }
            | Self::RunTooLong { amount, .. }
            | Self::FallOutOfRange { amount, .. } => *amount,
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
            Self::DownspoutOntoRoof { .. } => 5,
            Self::EndAtWall(..) => 6,
            Self::GutterOverloaded(..) => 7,
            Self::DownspoutOverloaded(..) => 8,
            Self::NoDownspout(..) => 9,
            Self::SplashOver { .. } => 10,
            Self::OpeningInStream(..) => 11,
            Self::DownspoutOntoWalk { .. } => 12,
            Self::DripsOnWalk { .. } => 13,
            Self::DripsOnRoof { .. } => 14,
            Self::RunTooLong { .. } => 15,
            Self::FallOutOfRange { .. } => 16,
        }
    }
}

/// All findings of a roof, worst first.
pub(crate) fn findings(roof: &Roof, water: &Water) -> Vec<Finding> {
    let mut all = standing(water);
    all.extend(at_edges(roof, water));
    all.extend(falling(water));
    all.extend(on_walks(roof, water));
    let openings = water.openings.iter().enumerate().filter(|(_, o)| o.streams.m2() > STREAM);
    all.extend(openings.map(|(i, o)| Finding::OpeningInStream(i, o.streams)));
    in_order(all)
}

/// Those of more than rounding, the worst kind first, within a kind the largest first.
pub(crate) fn in_order(mut all: Vec<Finding>) -> Vec<Finding> {
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

/// What falls, whatever plane its rain fell on. What downspouts let fall is judged with the gutters.
fn falling(water: &Water) -> Vec<Finding> {
    let places = water.falls.chunk_by(|a, b| (a.from, a.onto, a.beside) == (b.from, b.onto, b.beside));
    let told = |falls: &[Fall]| {
        let Fall { from, onto, beside, .. } = falls[0];
        let amount = falls.iter().map(|f| f.amount).sum();
        match (from, beside) {
            (Spill::Downspout(_), _) => None,
            (Spill::Edge(edge), _) => Some(Finding::DripsOnRoof { edge, onto, amount }),
            (from, Some(wall)) => Some(Finding::StreamBesideWall { from, wall, amount }),
            (from, None) => Some(Finding::StreamOntoRoof { from, onto, amount }),
        }
    };
    places.filter_map(told).collect()
}
