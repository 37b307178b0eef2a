//! A measured roof cut into strips across the fall, each over one attic or over outdoors, with where its water runs.
//!
//! # Method
//! Each plane is read along lanes down its fall. A lane is cut where the wall line below it is crossed, and over an attic into bands by distance in from
//! that line. What bands of a plane lie side by side make a strip; what share of a strip's lanes go on into another strip is the share of its water that
//! does. Along a valley lie strips of their own, as wide as its metal, over the attic and past the wall line: much water comes to little of the roof there.
//!
//! What leaves a plane at an eave comes down on the roof that lies under it, if one does ([`Drop`]): on the strip there, all of which it wets. Whether a gutter
//! takes the water is not asked here.
//!
//! # Checks
//! conservation: strips of a plane have its area · property: all water of a strip goes somewhere

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::{EdgeId, EdgeKind, PlaneId, Roof};

use crate::season::Below;

/// Width of the strip along a valley: its metal (24 in, IRC R905.2.8.2).
const VALLEY: f64 = 0.6096;
/// Lanes are no wider than this, and there are at least so many in a plane, m.
const LANE: f64 = 0.1;
const LEAST_LANES: usize = 24;
/// Steps along a lane by which its bands are told apart, m.
const STEP: f64 = 0.05;

/// How far past an eave one looks for what lies under it, m.
const OFF: f64 = 0.01;

/// Where a strip lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// Over an attic, by its number, in a band counted from the wall line inward.
    Over {
        /// The plane.
        plane: usize,
        /// The attic.
        attic: usize,
        /// The band.
        band: usize,
    },
    /// Past the wall line at the foot of the plane.
    Overhang {
        /// The plane.
        plane: usize,
    },
    /// Past a gable's wall, or on a roof without an attic.
    Outside {
        /// The plane.
        plane: usize,
    },
    /// Along a valley, over an attic or past the wall line.
    Valley {
        /// The edge.
        edge: usize,
        /// The attic; none past the wall line.
        attic: Option<usize>,
    },
}

/// A strip of the measured roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaped {
    /// Where it lies.
    pub place: Place,
    /// The plane whose sun and slope it has.
    pub plane: PlaneId,
    /// What lies under it.
    pub below: Below,
    /// On the slope.
    pub area: Area,
    /// Length of eave that ends it; nothing where none does.
    pub eave: Length,
    /// Strips after it into which its water runs, with shares.
    pub to: Vec<(usize, f64)>,
    /// What of it falls on lower roofs.
    pub drops: Vec<Drop>,
}

/// What falls from an edge of a plane onto a lower roof.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drop {
    /// The edge.
    pub edge: EdgeId,
    /// A strip after it.
    pub to: usize,
    /// Share of the water of the strip it falls from.
    pub share: f64,
}

/// How finely to cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fineness {
    /// Bands over the attic in a plane.
    pub bands: usize,
}

/// Cuts a roof; `attic_at` says which attic lies under a plane at a point in plan, `below` which plane lies lower than a height there.
pub fn strips(
    roof: &Roof,
    fineness: Fineness,
    attic_at: impl Fn(PlaneId, [f64; 2]) -> Option<usize>,
    below: impl Fn([f64; 2], f64) -> Option<PlaneId>,
) -> Vec<Shaped> {
    let mut cut = Cut {
        roof,
        bands: fineness.bands.max(1),
        attic_at,
        below,
        longest: Vec::new(),
        parts: BTreeMap::new(),
    };
    cut.longest = (0..roof.planes.len()).map(|plane| cut.longest_run(plane)).collect();
    for plane in 0..roof.planes.len() {
        cut.plane(plane);
    }
    cut.valleys();
    cut.finished()
}

/// What is known of a strip while lanes are read.
#[derive(Clone, Debug, Default)]
struct Part {
    area: f64,
    eave: f64,
    /// Width of lanes that go on into each other strip; none leaves the roof.
    onward: BTreeMap<Option<Place>, f64>,
    /// Width of lanes of those that leave which end over a lower roof: by their edge, and the strip they fall on.
    drops: BTreeMap<(usize, Place), f64>,
}

struct Cut<'a, F, B> {
    roof: &'a Roof,
    bands: usize,
    attic_at: F,
    below: B,
    /// By plane, the longest way over an attic down one lane.
    longest: Vec<f64>,
    parts: BTreeMap<Place, Part>,
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

    fn plane(&mut self, plane: usize) {
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
    fn longest_run(&self, plane: usize) -> f64 {
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
    fn landing(&self, at: [f64; 2], height: f64) -> Option<Place> {
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

    fn onward(&mut self, from: Place, to: Option<Place>) -> &mut f64 {
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

    /// Strips along valleys, taken from the planes beside them.
    fn valleys(&mut self) {
        for edge in (0..self.roof.edges.len()).map(EdgeId) {
            let of = self.roof.edge(edge);
            if !matches!(of.kind, EdgeKind::Valley | EdgeKind::LevelValley) {
                continue;
            }
            let [low, high] = self.roof.ends(edge);
            let parts = 200;
            let mut places: Vec<Place> = Vec::new();
            for i in 0..parts {
                // from the high end down
                let share = 1.0 - (f64::from(i) + 0.5) / f64::from(parts);
                let at = [0, 1].map(|axis| low[axis] + (high[axis] - low[axis]) * share);
                let place = Place::Valley { edge: edge.0, attic: (self.attic_at)(of.planes[0], at) };
                self.parts.entry(place).or_default().area += of.length.m() / f64::from(parts) * VALLEY;
                if places.last() != Some(&place) {
                    places.push(place);
                }
            }
            for pair in places.windows(2) {
                *self.onward(pair[0], Some(pair[1])) += 1.0;
            }
            if let Some(last) = places.last().copied() {
                *self.onward(last, None) += 1.0;
                let run = low[0] - high[0];
                let (run, length) = ([run, low[1] - high[1]], run.hypot(low[1] - high[1]).max(OFF));
                let past = [0, 1].map(|axis| low[axis] + run[axis] / length * OFF);
                if let Some(landing) = self.landing(past, low[2]) {
                    let drops = &mut self.parts.entry(last).or_default().drops;
                    *drops.entry((edge.0, landing)).or_default() += 1.0;
                }
            }
        }
    }

    /// The plane a strip has its sun and slope from.
    fn plane_of(&self, place: Place) -> PlaneId {
        match place {
            Place::Over { plane, .. } | Place::Overhang { plane } | Place::Outside { plane } => {
                PlaneId(plane)
            }
            Place::Valley { edge, .. } => self.roof.edges[edge].planes[0],
        }
    }

    /// Strips in an order in which water runs to later ones, areas of each plane those of the roof.
    fn finished(mut self) -> Vec<Shaped> {
        self.scale();
        let order = self.order();
        let index: BTreeMap<Place, usize> = order.iter().enumerate().map(|(i, place)| (*place, i)).collect();
        order
            .iter()
            .enumerate()
            .map(|(i, place)| {
                let part = &self.parts[place];
                let whole: f64 = part.onward.values().sum();
                // water that would run back up leaves: no roof does that
                let is_later = |to: &usize| *to > i;
                let later = |to: &Place| index.get(to).copied().filter(is_later);
                let onward =
                    part.onward.iter().filter_map(|(to, width)| Some((later(&(*to)?)?, width / whole)));
                let drops = part.drops.iter().filter_map(|((edge, to), width)| {
                    Some(Drop { edge: EdgeId(*edge), to: later(to)?, share: width / whole })
                });
                let below = match place {
                    Place::Over { attic, .. } | Place::Valley { attic: Some(attic), .. } => {
                        Below::Attic(*attic)
                    }
                    _ => Below::Outdoors,
                };
                Shaped {
                    place: *place,
                    plane: self.plane_of(*place),
                    below,
                    area: Area::from_m2(part.area),
                    eave: Length::from_m(part.eave),
                    to: onward.filter(|(_, share)| *share > 0.0).collect(),
                    drops: drops.collect(),
                }
            })
            .collect()
    }

    /// Makes the strips of a plane as large as the plane, less its half of the valleys beside it.
    fn scale(&mut self) {
        for (plane, of) in self.roof.planes.iter().enumerate() {
            let is_of = |place: &Place| {
                !matches!(place, Place::Valley { .. }) && self.plane_of(*place) == PlaneId(plane)
            };
            let own: f64 =
                self.parts.iter().filter(|(place, _)| is_of(place)).map(|(_, part)| part.area).sum();
            let valleys: f64 = self
                .parts
                .iter()
                .filter(|(place, _)| matches!(place, Place::Valley { edge, .. } if self.roof.edges[*edge].planes.contains(&PlaneId(plane))))
                .map(|(_, part)| part.area / 2.0)
                .sum();
            let ratio = (of.slope_area.m2() - valleys).max(0.0) / own;
            let places: Vec<Place> = self.parts.keys().copied().filter(is_of).collect();
            for place in places {
                self.parts.entry(place).or_default().area *= ratio;
            }
        }
        self.parts.retain(|_, part| part.area > 0.0);
    }

    /// Each place after all from which water comes to it.
    fn order(&self) -> Vec<Place> {
        let mut order: Vec<Place> = Vec::new();
        let mut left: Vec<Place> = self.parts.keys().copied().collect();
        while !left.is_empty() {
            let is_fed = |place: &Place| {
                left.iter().filter(|from| *from != place).any(|from| {
                    let Part { onward, drops, .. } = &self.parts[from];
                    onward.contains_key(&Some(*place)) || drops.keys().any(|(_, to)| to == place)
                })
            };
            // were there a ring, it is opened where it stands first
            let next = left.iter().position(|place| !is_fed(place)).unwrap_or(0);
            order.push(left.remove(next));
        }
        order
    }
}
