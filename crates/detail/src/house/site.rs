//! The places of a house that need a detail, and what is known of each.

use std::collections::BTreeSet;

use book::{Book, Cladding, Fact, Facts, Package, Spot};
use job::{Basis, Figure, Job, Mount, Opening, OpeningKind, State, Walls};
use measure::{Length, Pitch};
use roof::plan::{between, flat, to_segment};
use roof::{Edge, EdgeId, EdgeKind, LEVEL, NodeId, NodeKind, Roof};

use super::At;
use crate::section::Slopes;

/// A wall edge this near a wall line runs along it, metres: 1/4 in, what walls of a tape survey may miss by.
const ALONG: f64 = 0.006_35;

/// A place before its details are looked up.
pub(super) struct Site {
    pub(super) at: At,
    pub(super) spot: Spot,
    pub(super) name: String,
    pub(super) is_wall_assumed: bool,
    pub(super) sides: Vec<String>,
    pub(super) facts_found: Facts,
    pub(super) facts: Facts,
    /// Of what is met with, what somebody looked at.
    pub(super) known: BTreeSet<Fact>,
    /// How far ice barrier was found to reach up from an eave.
    pub(super) barrier: Option<Length>,
    pub(super) slopes: Slopes,
    pub(super) is_there: bool,
    pub(super) will_be: bool,
}

/// What finding places takes.
pub(super) struct Survey<'a> {
    pub(super) roof: &'a Roof,
    pub(super) job: &'a Job,
    pub(super) book: &'a Book,
    /// Flatter than this a roof takes no shingles.
    pub(super) least_pitch: Pitch,
    /// Eaves at which gutters hang, or will.
    pub(super) gutters: Vec<(EdgeId, State)>,
}

impl Survey<'_> {
    pub(super) fn sites(&self) -> Vec<Site> {
        let edges = (0..self.roof.edges.len()).map(|index| self.along(EdgeId(index)));
        let ends = (0..self.roof.nodes.len()).filter_map(|index| self.end(NodeId(index)));
        let openings = (0..self.roof.openings.len()).flat_map(|index| self.around(index));
        edges.chain(ends).chain(openings).collect()
    }

    fn along(&self, id: EdgeId) -> Site {
        let edge = self.roof.edge(id);
        let [facts_found, facts] = self.facts(id);
        Site {
            at: At::Edge(id),
            spot: self.spot(edge),
            name: format!("{id}, {}", edge.kind.name()),
            is_wall_assumed: self.is_wall_assumed(edge),
            sides: self.sides(edge),
            facts_found,
            facts,
            known: self.known(id),
            barrier: self.barrier().filter(|_| edge.kind == EdgeKind::Eave),
            slopes: self.slopes(edge),
            is_there: true,
            will_be: true,
        }
    }

    fn spot(&self, edge: &Edge) -> Spot {
        match edge.kind {
            EdgeKind::Eave => Spot::Eave,
            EdgeKind::Rake | EdgeKind::SkewRake => Spot::Rake,
            EdgeKind::HighEave => Spot::HighEave,
            EdgeKind::Ridge => Spot::Ridge,
            EdgeKind::Hip => Spot::Hip,
            EdgeKind::Valley => Spot::Valley,
            EdgeKind::LevelValley => Spot::LevelValley,
            EdgeKind::PitchBreakConcave if self.is_low(edge) => Spot::LowSlope,
            EdgeKind::PitchBreakConcave => Spot::PitchBreakIn,
            EdgeKind::PitchBreakConvex => Spot::PitchBreakOut,
            EdgeKind::Sidewall | EdgeKind::SkewWall => Spot::Sidewall,
            EdgeKind::Headwall if self.is_under_cantilever(edge) => Spot::Cantilever,
            EdgeKind::Headwall => Spot::Headwall,
            EdgeKind::BackWall => Spot::BackWall,
            // beside a roof the wall takes step flashing however low it is
            EdgeKind::Step if edge.slope.abs() >= LEVEL => Spot::Sidewall,
            EdgeKind::Step => Spot::Step,
            EdgeKind::Soffit => Spot::Soffit,
        }
    }

    /// Whether a plane at an edge is too flat for shingles.
    fn is_low(&self, edge: &Edge) -> bool {
        edge.planes.iter().any(|plane| self.roof.plane(*plane).pitch.is_flatter_than(self.least_pitch))
    }

    /// Whether the floor behind a wall edge stands out over the wall below on that side of its block.
    fn is_under_cantilever(&self, edge: &Edge) -> bool {
        let Some((block, walls)) = self.walls(edge) else { return false };
        let middle = {
            let [from, to] = [edge.from, edge.to].map(|node| flat(self.roof.node(node).at));
            between(from, to, 0.5)
        };
        let sides = self.roof.walls.iter().filter(|wall| wall.block == block);
        let mut along = sides.filter(|wall| to_segment(middle, wall.from, wall.to).0 < ALONG);
        along.any(|wall| walls.cantilevers.iter().any(|reach| reach.side.to_string() == wall.side))
    }

    /// The block behind a wall edge and what is known of its walls.
    fn walls<'e>(&self, edge: &'e Edge) -> Option<(&'e str, &Walls)> {
        let block = edge.wall_of.as_deref()?;
        Some((block, self.job.walls.get(block)?))
    }

    /// The pitches that meet at an edge; where the pitch changes, that of the upper plane first.
    fn slopes(&self, edge: &Edge) -> Slopes {
        let mut pitches: Vec<Pitch> = edge.planes.iter().map(|plane| self.roof.plane(*plane).pitch).collect();
        match edge.kind {
            EdgeKind::PitchBreakConcave => pitches.sort_by(|a, b| b.slope().total_cmp(&a.slope())),
            _ => pitches.sort_by(|a, b| a.slope().total_cmp(&b.slope())),
        }
        let first = pitches[0];
        Slopes { first, then: pitches.last().copied().unwrap_or(first) }
    }

    /// The planes on both sides of a valley, ridge or hip, in the order of [`Self::slopes`].
    fn sides(&self, edge: &Edge) -> Vec<String> {
        let is_between =
            matches!(edge.kind, EdgeKind::Valley | EdgeKind::LevelValley | EdgeKind::Ridge | EdgeKind::Hip);
        let mut planes: Vec<_> = edge.planes.iter().map(|plane| self.roof.plane(*plane)).collect();
        planes.sort_by(|a, b| a.pitch.slope().total_cmp(&b.pitch.slope()));
        if is_between { planes.iter().map(|plane| plane.name.clone()).collect() } else { Vec::new() }
    }

    /// What is known of an edge as it is met with and as it will be.
    fn facts(&self, id: EdgeId) -> [Facts; 2] {
        let [found, planned] = self.facts_of_kind(id);
        [found, Facts { over: Some(self.job.covering.over), ..planned }]
    }

    fn facts_of_kind(&self, id: EdgeId) -> [Facts; 2] {
        let edge = self.roof.edge(id);
        match edge.kind {
            kind if kind.is_wall() => {
                let facts = self.wall_facts(edge);
                [facts, facts]
            }
            EdgeKind::Eave => [State::Plan, State::Remove].map(|without| {
                let hangs = |(at, state): &(EdgeId, State)| *at == id && *state != without;
                let covering = &self.job.covering;
                Facts {
                    gutter: Some(self.gutters.iter().any(hangs)),
                    barrier: Some(self.barrier().is_some()),
                    drip_edge: Some(covering.eave_drip_edge.as_ref().is_some_and(|is| is.value)),
                    ..Facts::default()
                }
            }),
            EdgeKind::Valley => {
                let package = self.book.package(&self.job.covering.shingle);
                let tabs = package.and_then(Package::shingle).is_ok_and(|shingle| shingle.tabs);
                [Facts::default(), Facts { tabs: Some(tabs), ..Facts::default() }]
            }
            EdgeKind::Ridge => [false, true]
                .map(|planned| Facts { vented: Some(self.is_vented(edge, planned)), ..Facts::default() }),
            _ => [Facts::default(); 2],
        }
    }

    /// How far ice barrier reaches up from the eaves as they are met with; none where there is none.
    fn barrier(&self) -> Option<Length> {
        let found = self.job.covering.eave_barrier.as_ref().map(|barrier| barrier.value);
        found.filter(|up| *up > Length::ZERO)
    }

    /// What somebody looked at of an edge as it is met with. Gutters and vents that the job does not name are not there.
    fn known(&self, id: EdgeId) -> BTreeSet<Fact> {
        fn seen<T>(figure: Option<&Figure<T>>) -> bool {
            figure.is_some_and(|figure| figure.basis == Basis::Measured)
        }
        let walls = self.walls(self.roof.edge(id)).map(|(_, walls)| walls);
        let covering = &self.job.covering;
        let looked = [
            (Fact::Cladding, walls.is_some_and(|walls| walls.siding.is_some())),
            (Fact::Lapped, seen(walls.and_then(|walls| walls.lapped.as_ref()))),
            (Fact::KickOut, seen(walls.and_then(|walls| walls.kick_out.as_ref()))),
            (Fact::BuiltIn, seen(walls.and_then(|walls| walls.built_in.as_ref()))),
            (Fact::Vented, true),
            (Fact::Gutter, true),
            (Fact::Barrier, seen(covering.eave_barrier.as_ref())),
            (Fact::DripEdge, seen(covering.eave_drip_edge.as_ref())),
        ];
        looked.into_iter().filter(|(_, is_known)| *is_known).map(|(fact, _)| fact).collect()
    }

    /// Whether an edge runs along a wall of unknown siding.
    fn is_wall_assumed(&self, edge: &Edge) -> bool {
        let siding = self.walls(edge).and_then(|(_, walls)| walls.siding.as_deref());
        edge.kind.is_wall()
            && edge.wall_of.is_some()
            && siding.and_then(|id| self.book.siding(id).ok()).is_none()
    }

    fn wall_facts(&self, edge: &Edge) -> Facts {
        let walls = self.walls(edge).map(|(_, walls)| walls);
        let siding = walls.and_then(|walls| walls.siding.as_deref());
        let cladding =
            siding.and_then(|id| self.book.siding(id).ok()).map_or(Cladding::Lap, |siding| siding.family);
        let is = |figure: Option<&Figure<bool>>| Some(figure.is_some_and(|figure| figure.value));
        Facts {
            cladding: Some(cladding),
            lapped: is(walls.and_then(|walls| walls.lapped.as_ref())),
            kick_out: is(walls.and_then(|walls| walls.kick_out.as_ref())),
            built_in: is(walls.and_then(|walls| walls.built_in.as_ref())),
            ..Facts::default()
        }
    }

    /// Whether a ridge vent lies, or will, over the space under an edge.
    fn is_vented(&self, edge: &Edge, planned: bool) -> bool {
        let blocks = || edge.planes.iter().flat_map(|plane| &self.roof.plane(*plane).blocks);
        let vents = |attic: &&job::Attic| {
            let state = if planned { &attic.plan } else { &attic.found };
            state.ridge_vent.is_some()
        };
        self.job.attics.iter().filter(vents).any(|attic| blocks().any(|block| attic.under.contains(block)))
    }

    /// The lower end of a wall where the eave stops.
    fn end(&self, id: NodeId) -> Option<Site> {
        let node = self.roof.node(id);
        let ends_here = |edge: &&EdgeId| {
            let wall = self.roof.edge(**edge);
            matches!(wall.kind, EdgeKind::Sidewall | EdgeKind::SkewWall | EdgeKind::Step) && wall.from == id
        };
        let edge = *node.edges.iter().find(ends_here).filter(|_| node.kind == NodeKind::WallFoot)?;
        let [facts_found, facts] = self.facts(edge);
        Some(Site {
            at: At::End(edge, id),
            spot: Spot::KickOut,
            name: format!("lower end of {edge}, {}", self.roof.edge(edge).kind.name()),
            is_wall_assumed: self.is_wall_assumed(self.roof.edge(edge)),
            sides: Vec::new(),
            facts_found,
            facts,
            known: self.known(edge),
            barrier: None,
            slopes: self.slopes(self.roof.edge(edge)),
            is_there: true,
            will_be: true,
        })
    }

    fn around(&self, index: usize) -> Vec<Site> {
        let placed = &self.roof.openings[index];
        let Some(opening) = self.job.openings.iter().find(|opening| opening.name == placed.name) else {
            return Vec::new();
        };
        let cricket = self.roof.crickets.iter().any(|cricket| cricket.opening == index);
        let curb = opening.mount.as_ref().map(|mount| mount.value == Mount::Curb);
        let known = |cricket: bool| Facts { cricket: Some(cricket), curb, ..Facts::default() };
        let is_looked = opening.mount.as_ref().is_some_and(|mount| mount.basis == Basis::Measured);
        let looked: BTreeSet<Fact> = is_looked.then_some(Fact::Curb).into_iter().collect();
        let over = Some(self.job.covering.over);
        let site = |(spot, side): &(Spot, &str)| Site {
            at: At::Opening(index),
            spot: *spot,
            name: if side.is_empty() { opening.name.clone() } else { format!("{}, {side}", opening.name) },
            is_wall_assumed: false,
            sides: Vec::new(),
            facts_found: known(false),
            facts: Facts { over, ..known(cricket) },
            known: looked.clone(),
            barrier: None,
            slopes: self.roof.plane(placed.plane).pitch.into(),
            is_there: opening.state != State::Plan,
            will_be: opening.state != State::Remove,
        };
        sides(opening).iter().map(site).collect()
    }
}

/// The spots round an opening, each with the side it is on.
fn sides(opening: &Opening) -> &'static [(Spot, &'static str)] {
    match opening.kind {
        OpeningKind::Pipe => &[(Spot::Pipe, "")],
        OpeningKind::Hood => &[(Spot::Hood, "")],
        OpeningKind::BoxVent | OpeningKind::PowerVent => &[(Spot::BoxVent, "")],
        OpeningKind::DaylightTube => &[(Spot::DaylightTube, "")],
        OpeningKind::Chimney => {
            &[(Spot::ChimneyLow, "low side"), (Spot::ChimneySide, "flanks"), (Spot::ChimneyHigh, "high side")]
        }
        OpeningKind::Skylight => {
            &[(Spot::SkylightLow, "sill"), (Spot::SkylightSide, "jambs"), (Spot::SkylightHigh, "head")]
        }
    }
}
