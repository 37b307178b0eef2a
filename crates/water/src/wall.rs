//! Rain that wind drives against walls, on its way over the roofs at their feet.
//!
//! A wall stands from the roof that meets it up to the roof right above: that of its own block, seen over its line (so a gable wall ends
//! in its triangle), or whatever roof or overhang comes in between. A share of that area counts as if it were roof in plan. It is kept
//! apart from the rain on the roof itself: what the walls give is what reaches edges and outlets of its own [`Water`].
//!
//! Every wall gives its share, though wind meets one side of a house at a time: the careful answer. Sides of openings and roofs on posts
//! give nothing.
//!
//! # Source
//! The share: `books/gutters.toml`, rule `wall.share`.

use book::{Book, LookupError};
use measure::Area;
use roof::plan::{P2, along, dot, flat, midpoint, outward, scale, unit};
use roof::{EdgeId, PlaneId, Roof};

use crate::flow::Water;
use crate::hung::{HungGutter, Part};
use crate::packet::{Line, SHORT};
use crate::route::Router;

/// How far beside a wall line one looks for what is above it, metres.
const BESIDE: f64 = 0.001;
/// What stands this little above the foot of a wall is no wall, metres: pieces of one surface meet that closely.
const NOTHING: f64 = 0.003;
/// Part of the fall that must lead away from a wall for its water to go down the plane: 2 degrees.
const AWAY: f64 = 0.035;

/// The wall above an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallFace {
    /// The edge at its foot.
    pub edge: EdgeId,
    /// Its area, upright.
    pub area: Area,
    /// What it adds to the catchment of the plane below.
    pub adds: Area,
}

/// Rain on walls, and where it goes.
#[derive(Clone, Debug, PartialEq)]
pub struct WallWater {
    /// Walls that stand on the roof, in the order of edges.
    pub faces: Vec<WallFace>,
    /// Where their water goes; the rain is what they add.
    pub water: Water,
}

/// Water of a wall along its foot.
pub(crate) struct Foot {
    pub(crate) edge: EdgeId,
    pub(crate) plane: PlaneId,
    pub(crate) line: Line,
    /// Whether the plane falls away from the wall.
    pub(crate) runs_away: bool,
}

impl WallWater {
    /// Sends the rain on all walls down over a roof with gutters hung, some of them or of their downspouts blocked.
    ///
    /// # Errors
    /// A row the books do not have.
    pub fn with(
        roof: &Roof,
        gutters: &[HungGutter],
        blocked: &[Part],
        book: &Book,
    ) -> Result<Self, LookupError> {
        Self::over(&Router::with(roof, gutters, blocked), book)
    }

    /// The same over a roof that is ready for water.
    pub(crate) fn over(router: &Router<'_>, book: &Book) -> Result<Self, LookupError> {
        let share: f64 = book.rule("wall.share")?.get()?;
        let roof = router.roof;
        let mut faces = Vec::new();
        let mut feet = Vec::new();
        for edge in (0..roof.edges.len()).map(EdgeId).filter(|id| roof.edge(*id).kind.is_wall()) {
            let wall = router.wall(edge);
            let area: f64 = wall.iter().map(|foot| foot.line.amount()).sum();
            if area > 0.0 {
                let area = Area::from_m2(area);
                faces.push(WallFace { edge, area, adds: area * share });
            }
            feet.extend(wall.into_iter().map(|foot| foot.shared(share)));
        }
        Ok(Self { faces, water: router.wall_rain(&feet) })
    }
}

impl Foot {
    fn shared(self, share: f64) -> Self {
        let per_m = self.line.per_m.map(|height| height * share);
        Self { line: Line { per_m, ..self.line }, ..self }
    }
}

impl Router<'_> {
    /// The wall above an edge: lines along its foot that carry its height.
    fn wall(&self, id: EdgeId) -> Vec<Foot> {
        let (edge, ends) = (self.roof.edge(id), self.roof.ends(id));
        let plane = edge.planes[0];
        let on_posts = self.roof.walls.iter().any(|w| w.open && edge.wall_of.as_ref() == Some(&w.block));
        let Some(side) = self.side_of(plane, ends.map(flat)).filter(|_| !on_posts) else { return vec![] };
        let runs_away = dot(self.roof.plane(plane).fall(), side) > AWAY;
        let whole = Line { ends: ends.map(flat), per_m: [1.0; 2] };
        let beside = [BESIDE, -BESIDE].map(|by| whole.moved(scale(side, by)));
        let mut cuts: Vec<f64> = beside.iter().flat_map(|line| self.layers.cuts(line)).collect();
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        let foot = |w: &[f64]| {
            let line = whole.part(w[0], w[1]);
            let z = |t: f64| ends[0][2] + (ends[1][2] - ends[0][2]) * t;
            let heights = [z(w[0]), z(w[1])];
            let above = beside.iter().map(|b| b.part(w[0], w[1]).middle());
            let top = self.lowest_above(above, line.middle(), 0.5 * (heights[0] + heights[1]))?;
            let tall = |k: usize| (self.roof.plane(top).height_at(line.ends[k]) - heights[k]).max(0.0);
            let line = Line { per_m: [tall(0), tall(1)], ..line };
            (line.length() > SHORT).then_some(Foot { edge: id, plane, line, runs_away })
        };
        cuts.windows(2).filter_map(foot).collect()
    }

    /// The direction from an edge onto its plane.
    fn side_of(&self, plane: PlaneId, [a, b]: [P2; 2]) -> Option<P2> {
        let out = outward(unit(a, b));
        let sides = [out, scale(out, -1.0)];
        sides.into_iter().find(|side| self.layers.covers(plane, along(midpoint(a, b), *side, BESIDE)))
    }

    /// Of the planes over any of some points, the one that is lowest above a height at the wall.
    fn lowest_above(&self, over: impl Iterator<Item = P2>, wall: P2, z: f64) -> Option<PlaneId> {
        let height = |id: &PlaneId| self.roof.plane(*id).height_at(wall);
        let planes = over.flat_map(|p| {
            (0..self.roof.planes.len()).map(PlaneId).filter(move |id| self.layers.covers(*id, p))
        });
        let above = planes.filter(|id| height(id) > z + NOTHING);
        above.min_by(|a, b| height(a).total_cmp(&height(b)))
    }
}
