//! Planes read along lanes down their fall.

use std::collections::BTreeMap;

use roof::{EdgeId, EdgeKind, PlaneId, Roof};

use super::Place;

/// Lanes are no wider than this, and there are at least so many in a plane, m.
const LANE: f64 = 0.1;
const LEAST_LANES: usize = 24;
/// Steps along a lane by which its bands are told apart, m.
const STEP: f64 = 0.05;
/// How far past an eave one looks for what lies under it, m.
pub(super) const OFF: f64 = 0.01;

/// What is known of a strip while lanes are read.
#[derive(Clone, Debug, Default)]
pub(super) struct Part {
    pub(super) area: f64,
    pub(super) eave: f64,
    /// Width of lanes that go on into each other strip; none leaves the roof.
    pub(super) onward: BTreeMap<Option<Place>, f64>,
    /// Width of lanes of those that leave which end over a lower roof: by their edge, and the strip they fall on.
    pub(super) drops: BTreeMap<(usize, Place), f64>,
}

/// A roof while it is cut.
pub(super) struct Cut<'a, F, B> {
    pub(super) roof: &'a Roof,
    pub(super) bands: usize,
    pub(super) attic_at: F,
    pub(super) below: B,
    /// By plane, the longest way over an attic down one lane.
    pub(super) longest: Vec<f64>,
    pub(super) parts: BTreeMap<Place, Part>,
}

/// A lane from its top to its foot: distances down the fall, and the edge at its foot.
struct Lane {
    top: f64,
    foot: f64,
    edge: Option<EdgeId>,
}

impl<F: Fn(PlaneId, [f64; 2]) -> Option<usize>, B: Fn([f64; 2], f64) -> Option<PlaneId>> Cut<'_, F, B> {
    /// Fall and across of a plane, in plan.
    fn axes(&self, plane: usize) -> [[f64; 2]; 2] {
        let fall = self.roof.planes[plane].fall();
        let fall = if fall == [0.0, 0.0] { [0.0, -1.0] } else { fall };
        [fall, [-fall[1], fall[0]]]
    }

    /// Where the lanes of a plane begin across the fall, how wide each is, and how many there are.
    fn spread(&self, plane: usize) -> (f64, f64, usize) {
        let [_, across] = self.axes(plane);
        let outline = &self.roof.planes[plane].outline;
        let along = |p: &[f64; 3]| p[0] * across[0] + p[1] * across[1];
        let low = outline.iter().map(along).fold(f64::INFINITY, f64::min);
        let high = outline.iter().map(along).fold(f64::NEG_INFINITY, f64::max);
        let mut lanes = LEAST_LANES;
        while (high - low) / lanes as f64 > LANE {
            lanes += 1;
        }
        (low, (high - low) / lanes as f64, lanes)
    }

    pub(super) fn plane(&mut self, plane: usize) {
        let (low, width, lanes) = self.spread(plane);
        let longest = self.longest[plane];
        for lane in 0..lanes {
            let at = low + (lane as f64 + 0.5) * width;
            for lane in self.lanes(plane, at) {
                self.read(plane, at, width, &lane, longest);
            }
        }
    }

    /// Parts of a line down the fall that lie in a plane.
    fn lanes(&self, plane: usize, at: f64) -> Vec<Lane> {
        let [fall, across] = self.axes(plane);
        let of = &self.roof.planes[plane];
        let rings = std::iter::once(&of.outline).chain(&of.holes);
        let mut crossed: Vec<f64> = Vec::new();
        for ring in rings {
            for (i, p) in ring.iter().enumerate() {
                let q = &ring[(i + 1) % ring.len()];
                let [a, b] = [p, q].map(|p| p[0] * across[0] + p[1] * across[1] - at);
                if (a < 0.0) != (b < 0.0) {
                    let down = |p: &[f64; 3]| p[0] * fall[0] + p[1] * fall[1];
                    crossed.push(down(p) + (down(q) - down(p)) * a / (a - b));
                }
            }
        }
        crossed.sort_by(f64::total_cmp);
        let ends = crossed.chunks_exact(2);
        ends.map(|ends| Lane {
            top: ends[0],
            foot: ends[1],
            edge: self.edge_at(plane, self.point(plane, at, ends[1])),
        })
        .collect()
    }

    fn point(&self, plane: usize, at: f64, down: f64) -> [f64; 2] {
        let [fall, across] = self.axes(plane);
        [across[0] * at + fall[0] * down, across[1] * at + fall[1] * down]
    }

    /// The edge of a plane nearest to a point on its border.
    fn edge_at(&self, plane: usize, point: [f64; 2]) -> Option<EdgeId> {
        let off = |id: &EdgeId| {
            let [p, q] = self.roof.ends(*id);
            let (d, r) = ([q[0] - p[0], q[1] - p[1]], [point[0] - p[0], point[1] - p[1]]);
            let along = ((d[0] * r[0] + d[1] * r[1]) / (d[0] * d[0] + d[1] * d[1])).clamp(0.0, 1.0);
            (r[0] - along * d[0]).hypot(r[1] - along * d[1])
        };
        self.roof.planes[plane].edges.iter().copied().min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    fn is_over(&self, plane: usize, at: f64, down: f64) -> bool {
        (self.attic_at)(PlaneId(plane), self.point(plane, at, down)).is_some()
    }

    /// Where on a lane the last of it lies over an attic, as a distance down the fall.
    fn wall_line(&self, plane: usize, at: f64, lane: &Lane) -> Option<f64> {
        const NEAR: f64 = 1e-4;
        let mut below = lane.foot;
        while below > lane.top {
            let above = (below - STEP).max(lane.top);
            if self.is_over(plane, at, above) || self.is_over(plane, at, f64::midpoint(above, below)) {
                let mut ends = if self.is_over(plane, at, above) {
                    [above, below]
                } else {
                    [f64::midpoint(above, below), below]
                };
                while ends[1] - ends[0] > NEAR {
                    let middle = f64::midpoint(ends[0], ends[1]);
                    ends[usize::from(!self.is_over(plane, at, middle))] = middle;
                }
                return Some(ends[0]);
            }
            below = above;
        }
        None
    }

    /// Longest way over an attic down one lane.
    pub(super) fn longest_run(&self, plane: usize) -> f64 {
        let (low, width, lanes) = self.spread(plane);
        let at = |lane: usize| low + (lane as f64 + 0.5) * width;
        let all =
            (0..lanes).flat_map(|i| self.lanes(plane, at(i)).into_iter().map(move |lane| (at(i), lane)));
        let runs = all.filter_map(|(at, lane)| Some(self.wall_line(plane, at, &lane)? - lane.top));
        runs.fold(STEP, f64::max)
    }

    /// Where a place on a lane lies.
    fn place(&self, plane: usize, at: f64, down: f64, wall: Option<f64>, longest: f64) -> Place {
        let Some(wall) = wall else { return Place::Outside { plane } };
        if down >= wall {
            return Place::Overhang { plane };
        }
        let Some(attic) = (self.attic_at)(PlaneId(plane), self.point(plane, at, down)) else {
            return Place::Outside { plane };
        };
        let inward = (wall - down) / longest * self.bands as f64;
        let band = (0..self.bands).find(|band| inward <= (*band + 1) as f64).unwrap_or(self.bands - 1);
        Place::Over { plane, attic, band }
    }

    /// Reads a lane from its top to its foot.
    fn read(&mut self, plane: usize, at: f64, width: f64, lane: &Lane, longest: f64) {
        let secant = self.roof.planes[plane].pitch.slope_factor();
        let wall = self.wall_line(plane, at, lane);
        let (mut down, mut before) = (lane.top, None);
        while down < lane.foot {
            let wall_ahead = wall.filter(|wall| *wall > down);
            let next = (down + STEP).min(wall_ahead.unwrap_or(lane.foot)).min(lane.foot);
            let place = self.place(plane, at, f64::midpoint(down, next), wall, longest);
            if let Some(before) = before.filter(|before| *before != place) {
                *self.onward(before, Some(place)) += width;
            }
            self.parts.entry(place).or_default().area += (next - down) * width * secant;
            (down, before) = (next, Some(place));
        }
        let Some(last) = before else { return };
        let foot = self.point(plane, at, lane.foot);
        let onward = lane.edge.and_then(|edge| self.past(plane, edge, foot));
        *self.onward(last, onward) += width;
        let is_eave = |edge: &EdgeId| self.roof.edge(*edge).kind == EdgeKind::Eave;
        let Some(eave) = lane.edge.filter(is_eave).filter(|_| onward.is_none()) else { return };
        let landing = self.landing(self.point(plane, at, lane.foot + OFF), self.height(plane, foot));
        let part = self.parts.entry(last).or_default();
        part.eave += width;
        if let Some(landing) = landing {
            *part.drops.entry((eave.0, landing)).or_default() += width;
        }
    }

    fn height(&self, plane: usize, at: [f64; 2]) -> f64 {
        self.roof.planes[plane].height_at(at)
    }

    /// The strip that lies under a point.
    pub(super) fn landing(&self, at: [f64; 2], height: f64) -> Option<Place> {
        let PlaneId(plane) = (self.below)(at, height)?;
        self.place_at(plane, at)
    }

    /// The strip of a plane at a point in plan.
    fn place_at(&self, plane: usize, at: [f64; 2]) -> Option<Place> {
        let [fall, across] = self.axes(plane);
        let [line, down] = [across, fall].map(|axis| at[0] * axis[0] + at[1] * axis[1]);
        let lane = self.lanes(plane, line).into_iter().find(|lane| lane.top <= down && down <= lane.foot)?;
        let wall = self.wall_line(plane, line, &lane);
        Some(self.place(plane, line, down, wall, self.longest[plane]))
    }

    pub(super) fn onward(&mut self, from: Place, to: Option<Place>) -> &mut f64 {
        self.parts.entry(from).or_default().onward.entry(to).or_default()
    }

    /// The strip past an edge at a point: along a valley, or the plane below a pitch break; none where water leaves.
    fn past(&self, plane: usize, edge: EdgeId, at: [f64; 2]) -> Option<Place> {
        let of = self.roof.edge(edge);
        match of.kind {
            EdgeKind::Valley | EdgeKind::LevelValley => {
                Some(Place::Valley { edge: edge.0, attic: (self.attic_at)(of.planes[0], at) })
            }
            EdgeKind::PitchBreakConvex | EdgeKind::PitchBreakConcave => {
                let other = of.planes.iter().map(|id| id.0).find(|other| *other != plane)?;
                let [fall, _] = self.axes(other);
                self.place_at(other, [0, 1].map(|axis| at[axis] + fall[axis] * STEP))
            }
            _ => None,
        }
    }
}
