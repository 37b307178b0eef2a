//! What roof lies below water that falls.

use measure::Area;
use roof::plan::{Bounds, P2, along, area, cross, edges, flat, sub};
use roof::{PlaneId, Roof};

use crate::packet::{Flow, Line};

/// A roof this little below is not below, metres: pieces of one surface meet that closely.
const BELOW: f64 = 0.003;

/// Half the width of a stream, metres: enough that it cannot slip between two planes.
const WIDE: f64 = 2.7e-4;

/// The planes of a roof with their bounds and borders in plan.
#[derive(Debug)]
pub struct Layers<'a> {
    roof: &'a Roof,
    bounds: Vec<Bounds>,
    rings: Vec<Vec<Vec<P2>>>,
}

impl<'a> Layers<'a> {
    /// Of a roof.
    pub fn of(roof: &'a Roof) -> Self {
        let ring = |points: &Vec<[f64; 3]>| points.iter().map(|p| flat(*p)).collect::<Vec<P2>>();
        let rings: Vec<Vec<Vec<P2>>> = (roof.planes.iter())
            .map(|p| std::iter::once(&p.outline).chain(&p.holes).map(ring).collect())
            .collect();
        let bounds = rings.iter().map(|r| Bounds::of(&r[0])).collect();
        Self { roof, bounds, rings }
    }

    /// Area in plan within the borders of a plane.
    pub(crate) fn area_of(&self, plane: PlaneId) -> Area {
        self.rings[plane.0].iter().map(|ring| Area::from_m2(area(ring))).sum()
    }

    /// Area in plan within all borders.
    pub(crate) fn area(&self) -> Area {
        (0..self.rings.len()).map(|p| self.area_of(PlaneId(p))).sum()
    }

    /// Whether a plane is over a point.
    pub(crate) fn covers(&self, plane: PlaneId, p: P2) -> bool {
        let crossings = self.rings[plane.0].iter().flat_map(|r| edges(r));
        self.bounds[plane.0].holds(p)
            && crossings.filter(|&(a, b)| roof::plan::crosses_ray(a, b, p)).count() % 2 == 1
    }

    /// The highest plane below a height at a point.
    pub fn below(&self, p: P2, z: f64) -> Option<PlaneId> {
        let height = |id: &PlaneId| self.roof.plane(*id).height_at(p);
        let under =
            (0..self.rings.len()).map(PlaneId).filter(|id| self.covers(*id, p) && height(id) < z - BELOW);
        under.max_by(|a, b| height(a).total_cmp(&height(b)))
    }

    /// The highest plane below a stream: also one whose border it just meets.
    pub(crate) fn below_stream(&self, p: P2, z: f64) -> Option<PlaneId> {
        let around = [[0.0, 0.0], [WIDE, 0.0], [-WIDE, 0.0], [0.0, WIDE], [0.0, -WIDE]];
        let found = around.iter().filter_map(|by| self.below(along(p, *by, 1.0), z));
        let height = |id: &PlaneId| self.roof.plane(*id).height_at(p);
        found.max_by(|a, b| height(a).total_cmp(&height(b)))
    }

    /// Where borders of planes cut a line, as parts of it in order, its ends with them.
    pub(crate) fn cuts(&self, line: &Line) -> Vec<f64> {
        let mut cuts = vec![0.0, 1.0];
        let bounds = Bounds::of(&line.ends);
        for (rings, _) in self.rings.iter().zip(&self.bounds).filter(|(_, b)| b.meets(&bounds)) {
            cuts.extend(rings.iter().flat_map(|r| edges(r)).filter_map(|side| crossing(line.ends, side)));
        }
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        cuts
    }

    /// A line of falling water in parts, each with the plane it falls on. `heights` are those of its ends.
    pub(crate) fn parts(&self, line: &Line, heights: [f64; 2]) -> Vec<(Option<PlaneId>, Flow)> {
        let part = |w: &[f64]| {
            let piece = line.part(w[0], w[1]);
            (self.below_part(line, heights, w), Flow::along(piece, piece.amount()))
        };
        self.cuts(line).windows(2).map(part).collect()
    }

    /// What lies below a point of a line water falls over, `t` of the way along it: what lies below the part it is of, slivers aside. The
    /// point itself would not do: where a roof comes up to the line's end, it is no longer below there.
    pub(crate) fn below_line(&self, line: &Line, heights: [f64; 2], t: f64) -> Option<PlaneId> {
        let (cuts, p, wide) = (self.cuts(line), line.part(t, t).ends[0], WIDE / line.length());
        let here = cuts.windows(2).filter(|w| w[1] - w[0] >= wide && w[0] - wide <= t && t <= w[1] + wide);
        let height = |id: &PlaneId| self.roof.plane(*id).height_at(p);
        here.filter_map(|w| self.below_part(line, heights, w)).max_by(|a, b| height(a).total_cmp(&height(b)))
    }

    /// What lies below a part of a line.
    fn below_part(&self, line: &Line, heights: [f64; 2], part: &[f64]) -> Option<PlaneId> {
        let z = heights[0] + (heights[1] - heights[0]) * 0.5 * (part[0] + part[1]);
        self.below(line.part(part[0], part[1]).middle(), z)
    }
}

/// Where a side crosses a line, as a part of the line.
fn crossing([p, q]: [P2; 2], (a, b): (P2, P2)) -> Option<f64> {
    let run = sub(b, a);
    let (sp, sq) = (cross(run, sub(p, a)), cross(run, sub(q, a)));
    let (sa, sb) = (cross(sub(q, p), sub(a, p)), cross(sub(q, p), sub(b, p)));
    ((sp > 0.0) != (sq > 0.0) && (sa > 0.0) != (sb > 0.0)).then(|| sp / (sp - sq))
}
