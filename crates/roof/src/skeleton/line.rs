//! The moving lines of the outline's sides, in a scaled frame and free of input rounding.
//!
//! # Formula
//! A side's line at height h is `n·x = c + w h`: n its inward normal, c its offset at the outline, w = 1/m its speed
//! (0 for a gable). Three lines meet where the determinant of the rows `(n, c + w h)` vanishes; a linear equation in
//! h.
//!
//! # Degenerate cases
//! Sides meant to be parallel or in one line miss it by the rounding of their coordinates. Directions that agree
//! within that rounding (64 units in the last place of the largest coordinate, or 1e-11 of the extent, at the ends of
//! both sides) become one direction, the longest side's; parallel lines that agree become one line; slopes within
//! 1e-12 become one slope. Only then is "parallel" a yes-or-no question, which level ridges and planes in line need.
//! If that moves a corner by more than half a side (neighbours a hair off straight), the lines are taken exactly as
//! given.
//!
//! # Units
//! Scaled: the outline's extent is between 1/2 and 1, the fastest line's speed between 1/2 and 1, both by powers of
//! two so that scaling is exact.

use std::ops::Index;

use super::double::{Double, Vector};
use super::outline::{Outline, Side};
use super::{ContourEdge, EdgeSlope};

/// Units in the last place (of the largest coordinate) that an input point may be off.
const INPUT_ROUNDING: f64 = 64.0 * f64::EPSILON;
/// Offset, as a share of the extent, below which nothing an outline says about parallel or not is taken for real.
const FINEST: f64 = 1e-11;
/// No two directions further apart than this are ever joined.
const JOINED_SINE: f64 = 1e-9;
/// Slopes that agree to this are one slope.
const JOINED_SLOPE: f64 = 1e-12;

/// How two lines lie to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Relation {
    /// They cross in one point.
    Crossing,
    /// Parallel, both facing the same way.
    Along,
    /// Parallel, facing each other or back to back.
    Against,
}

/// The line of one side, moving inwards with height.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    /// Unit vector along the side, the inside on its left.
    pub(super) dir: Vector,
    /// Distance of the line from the frame's origin, inwards positive.
    pub(super) offset: Double,
    /// Advance for each unit of height.
    pub(super) speed: Double,
    /// Lines with one bearing are parallel.
    bearing: usize,
    forward: bool,
    /// Lines that coincide and stay so have one plane number.
    pub(super) plane: usize,
    pub(super) id: ContourEdge,
}

impl Line {
    pub(super) fn normal(&self) -> Vector {
        self.dir.left()
    }

    pub(super) fn relation(&self, other: &Self) -> Relation {
        match (self.bearing == other.bearing, self.forward == other.forward) {
            (false, _) => Relation::Crossing,
            (true, true) => Relation::Along,
            (true, false) => Relation::Against,
        }
    }

    /// How far a point lies inside the line at a height.
    pub(super) fn depth(&self, point: Vector, height: Double) -> Double {
        self.normal().dot(point) - self.offset - self.speed * height
    }

    /// Height at which two parallel lines coincide, if they ever do and do not always.
    fn parallel_meeting(&self, other: &Self) -> Option<Double> {
        let (gap, closing) = match self.relation(other) {
            Relation::Along => (other.offset - self.offset, self.speed - other.speed),
            _ => (-(other.offset + self.offset), self.speed + other.speed),
        };
        (self.plane != other.plane && !closing.is_zero()).then(|| gap / closing)
    }
}

/// All lines, numbered as the outline's sides, and the frame they live in.
#[derive(Clone, Debug)]
pub(super) struct Lines {
    each: Vec<Line>,
    /// Start point of each side.
    pub(super) corners: Vec<Vector>,
    pub(super) frame: Frame,
}

impl Index<usize> for Lines {
    type Output = Line;
    fn index(&self, side: usize) -> &Line {
        &self.each[side]
    }
}

/// The map between the caller's metres and the scaled frame.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    center: [f64; 2],
    /// Scaled length of one metre, a power of two.
    scale: f64,
    /// Scaled height for each scaled length, a power of two.
    climb: f64,
}

impl Frame {
    fn inward(&self, point: [f64; 2]) -> Vector {
        let axis = |k: usize| Double::difference(point[k], self.center[k]).scaled(self.scale);
        Vector { x: axis(0), y: axis(1) }
    }

    /// Plan position in metres.
    pub(super) fn outward(&self, point: Vector) -> [f64; 2] {
        let axis = |c: Double, center: f64| (c.scaled(1.0 / self.scale) + Double::from(center)).to_f64();
        [axis(point.x, self.center[0]), axis(point.y, self.center[1])]
    }

    /// Height in metres.
    pub(super) fn height(&self, height: Double) -> f64 {
        height.scaled(self.climb / self.scale).to_f64()
    }
}

impl Lines {
    /// Lines of a checked outline.
    pub(super) fn new(outline: &Outline) -> Self {
        let rounding = (outline.magnitude * INPUT_ROUNDING).max(outline.extent * FINEST);
        let joined = Self::with_rounding(outline, rounding);
        if joined.keeps_corners(outline) { joined } else { Self::with_rounding(outline, 0.0) }
    }

    fn with_rounding(outline: &Outline, rounding: f64) -> Self {
        let slopes = joined_slopes(&outline.sides);
        let frame = frame(outline, &slopes);
        let corners: Vec<Vector> = outline.sides.iter().map(|side| frame.inward(side.from)).collect();
        let rounding = rounding * frame.scale;
        let rays: Vec<Ray> =
            outline.sides.iter().enumerate().map(|(k, s)| Ray::new(corners[k], corners[s.next])).collect();
        let (bearings, directions) = bearings(&rays, rounding);
        let mut lines: Vec<Line> = (0..rays.len())
            .map(|k| line(&outline.sides[k], &rays[k], (bearings[k], directions[k]), slopes[k], frame.climb))
            .collect();
        join_offsets(&mut lines, &rays, 8.0 * rounding);
        number_planes(&mut lines);
        Self { each: lines, corners, frame }
    }

    pub(super) fn count(&self) -> usize {
        self.each.len()
    }

    /// Whether the joined lines still cross near the corners: each side keeps at least half of its length.
    fn keeps_corners(&self, outline: &Outline) -> bool {
        let mut before = vec![0; self.count()];
        for (index, side) in outline.sides.iter().enumerate() {
            before[side.next] = index;
        }
        let crossing = |k: usize| self.crossing_or(before[k], k, self.corners[k]);
        (0..self.count()).all(|k| {
            let next = outline.sides[k].next;
            let given = (self.corners[next] - self.corners[k]).length();
            let kept = self[k].dir.dot(crossing(next) - crossing(k)).to_f64();
            kept > 0.5 * given && kept < 2.0 * given
        })
    }

    fn crossing_or(&self, a: usize, b: usize, otherwise: Vector) -> Vector {
        match self[a].relation(&self[b]) {
            Relation::Crossing => self.crossing(a, b, Double::ZERO),
            _ => otherwise,
        }
    }

    /// Point where two lines that are not parallel cross at a height.
    pub(super) fn crossing(&self, a: usize, b: usize, height: Double) -> Vector {
        let (a, b) = (&self[a], &self[b]);
        solve(a, b, a.offset + a.speed * height, b.offset + b.speed * height)
    }

    /// Velocity of that point with height.
    pub(super) fn pace(&self, a: usize, b: usize) -> Vector {
        let (a, b) = (&self[a], &self[b]);
        solve(a, b, a.speed, b.speed)
    }

    /// Height at which three lines meet in a point (or, two being parallel, those two coincide). The same bits for
    /// every order of the three.
    pub(super) fn meeting_height(&self, a: usize, b: usize, c: usize) -> Option<Double> {
        let mut order = [a, b, c];
        order.sort_unstable();
        let [a, b, c] = order.map(|k| &self[k]);
        let pairs = [(a, b), (b, c), (a, c)];
        if pairs.iter().any(|(p, q)| p.relation(q) != Relation::Crossing) {
            return pairs
                .iter()
                .filter(|(p, q)| p.relation(q) != Relation::Crossing)
                .find_map(|(p, q)| p.parallel_meeting(q));
        }
        let weights = [b.dir.cross(c.dir), c.dir.cross(a.dir), a.dir.cross(b.dir)];
        let [x, y, z] = weights;
        let offsets = a.offset * x + b.offset * y + c.offset * z;
        let speeds = a.speed * x + b.speed * y + c.speed * z;
        let height = -(offsets / speeds);
        height.to_f64().is_finite().then_some(height)
    }

    /// The point where three lines meet, from the two that cross at the best angle.
    pub(super) fn meeting_point(&self, a: usize, b: usize, c: usize, height: Double) -> Vector {
        let sine = |p: usize, q: usize| self[p].dir.cross(self[q].dir).to_f64().abs();
        let pairs = [(a, b), (b, c), (a, c)];
        let best = pairs.into_iter().max_by(|p, q| sine(p.0, p.1).total_cmp(&sine(q.0, q.1)));
        let (p, q) = best.unwrap_or((a, b));
        self.crossing(p, q, height)
    }
}

/// The point at distances p and q inside the lines through the origin parallel to a and b.
fn solve(a: &Line, b: &Line, p: Double, q: Double) -> Vector {
    (b.dir.times(p) - a.dir.times(q)).over(a.dir.cross(b.dir))
}

/// A side before its direction is joined with others.
struct Ray {
    middle: Vector,
    unit: Vector,
    length: f64,
}

impl Ray {
    fn new(from: Vector, to: Vector) -> Self {
        let along = to - from;
        let length = along.dot(along).sqrt();
        let middle = (from + to).times(Double::from(0.5));
        Self { middle, unit: along.over(length), length: length.to_f64() }
    }
}

fn frame(outline: &Outline, slopes: &[Option<f64>]) -> Frame {
    let gentlest = slopes.iter().flatten().fold(f64::INFINITY, |least, m| least.min(*m));
    Frame {
        center: outline.center,
        scale: power_of_two_below(1.0 / outline.extent),
        climb: power_of_two_below(gentlest),
    }
}

/// Largest power of two not above a positive normal value.
fn power_of_two_below(value: f64) -> f64 {
    f64::from_bits(value.to_bits() & 0x7FF0_0000_0000_0000)
}

/// Rise of each side (none for a gable), slopes within rounding of each other made equal.
fn joined_slopes(sides: &[Side]) -> Vec<Option<f64>> {
    let rise = |side: &Side| match side.slope {
        EdgeSlope::Rise(slope) => Some(slope),
        EdgeSlope::Gable => None,
    };
    let mut distinct: Vec<f64> = sides.iter().filter_map(rise).collect();
    distinct.sort_by(f64::total_cmp);
    distinct.dedup_by(|next, kept| *next <= *kept * (1.0 + JOINED_SLOPE));
    let nearest = |slope: f64| distinct[distinct.partition_point(|kept| *kept <= slope).saturating_sub(1)];
    sides.iter().map(|side| rise(side).map(nearest)).collect()
}

fn line(
    side: &Side,
    ray: &Ray,
    (bearing, dir): ((usize, bool), Vector),
    slope: Option<f64>,
    climb: f64,
) -> Line {
    Line {
        dir,
        offset: dir.left().dot(ray.middle),
        speed: slope.map_or(Double::ZERO, |m| (Double::ONE / Double::from(m)).scaled(climb)),
        bearing: bearing.0,
        forward: bearing.1,
        plane: 0,
        id: side.id,
    }
}

/// Bearing (number, forward or not) and joined unit vector of every ray.
fn bearings(rays: &[Ray], rounding: f64) -> (Vec<(usize, bool)>, Vec<Vector>) {
    let groups = parallel_groups(rays, rounding);
    let mut bearings = vec![(0, true); rays.len()];
    let mut units: Vec<Vector> = rays.iter().map(|ray| ray.unit).collect();
    for (number, group) in groups.iter().enumerate() {
        let longest = longest_of(group, rays);
        for &k in group {
            let forward = rays[k].unit.dot(rays[longest].unit) > Double::ZERO;
            bearings[k] = (number, forward);
            units[k] = if forward { rays[longest].unit } else { -rays[longest].unit };
        }
    }
    (bearings, units)
}

/// Rays whose directions agree, up to a half turn, within rounding.
fn parallel_groups(rays: &[Ray], rounding: f64) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = (0..rays.len()).collect();
    order.sort_by(|a, b| half_turn_angle(&rays[*a]).total_cmp(&half_turn_angle(&rays[*b])).then(a.cmp(b)));
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for k in order {
        match groups.last_mut() {
            Some(group) if group.last().is_some_and(|&l| parallel(&rays[l], &rays[k], rounding)) => {
                group.push(k);
            }
            _ => groups.push(vec![k]),
        }
    }
    join_ends(&mut groups, rays, rounding);
    groups
}

/// The sort starts at an arbitrary direction; the first and the last group may be one.
fn join_ends(groups: &mut Vec<Vec<usize>>, rays: &[Ray], rounding: f64) {
    let ends = (groups.first().and_then(|g| g.first()), groups.last().and_then(|g| g.last()));
    if let (Some(&first), Some(&last)) = ends
        && groups.len() > 1
        && parallel(&rays[first], &rays[last], rounding)
        && let Some(group) = groups.pop()
    {
        groups[0].extend(group);
    }
}

/// Grows with the angle of the ray's direction taken modulo a half turn; -1 at east, 1 back at west.
fn half_turn_angle(ray: &Ray) -> f64 {
    let [x, y] = ray.unit.to_f64();
    let (x, y) = if y < 0.0 || (y == 0.0 && x < 0.0) { (-x, -y) } else { (x, y) };
    -x / (x.abs() + y)
}

fn parallel(a: &Ray, b: &Ray, rounding: f64) -> bool {
    let sine = a.unit.cross(b.unit).to_f64().abs();
    sine <= (rounding * (1.0 / a.length + 1.0 / b.length)).clamp(EXACT, JOINED_SINE)
}

/// Rounding of the double-double arithmetic itself.
const EXACT: f64 = 1e-29;

fn longest_of(group: &[usize], rays: &[Ray]) -> usize {
    group.iter().copied().fold(group[0], |best, k| if rays[k].length > rays[best].length { k } else { best })
}

/// Makes parallel lines that agree within the tolerance one line, the one of its longest side.
fn join_offsets(lines: &mut [Line], rays: &[Ray], tolerance: f64) {
    let mut order: Vec<usize> = (0..lines.len()).collect();
    let key = |k: usize| (lines[k].bearing, lines[k].forward);
    let offset = |k: usize| lines[k].offset.to_f64();
    order.sort_by(|&a, &b| key(a).cmp(&key(b)).then(offset(a).total_cmp(&offset(b))).then(a.cmp(&b)));
    let close = |a: &usize, b: &usize| {
        key(*a) == key(*b) && (lines[*b].offset - lines[*a].offset).to_f64() <= tolerance.max(EXACT)
    };
    let chunks: Vec<Vec<usize>> = order.chunk_by(close).map(<[usize]>::to_vec).collect();
    for chunk in chunks {
        let offset = lines[longest_of(&chunk, rays)].offset;
        for k in chunk {
            lines[k].offset = offset;
        }
    }
}

/// Gives lines that coincide at every height one number.
fn number_planes(lines: &mut [Line]) {
    for k in 0..lines.len() {
        let same = |l: &Line| {
            l.relation(&lines[k]) == Relation::Along
                && l.offset == lines[k].offset
                && l.speed == lines[k].speed
        };
        lines[k].plane = lines[..k].iter().position(same).unwrap_or(k);
    }
}

#[cfg(test)]
mod tests {
    use super::{Lines, Outline, Relation};
    use crate::skeleton::{Contour, EdgeSlope};

    fn lines(points: &[[f64; 2]], slopes: &[f64]) -> Lines {
        let slopes: Vec<EdgeSlope> = slopes.iter().map(|slope| EdgeSlope::Rise(*slope)).collect();
        Lines::new(&Outline::new(Contour { points, slopes: &slopes }, &[]).expect("outline is sound"))
    }

    fn turned(points: &[[f64; 2]], angle: f64) -> Vec<[f64; 2]> {
        let (sin, cos) = angle.sin_cos();
        points.iter().map(|[x, y]| [cos * x - sin * y, sin * x + cos * y]).collect()
    }

    const U_SHAPE: [[f64; 2]; 8] =
        [[0.0, 0.0], [9.0, 0.0], [9.0, 7.0], [6.0, 7.0], [6.0, 2.0], [3.0, 2.0], [3.0, 7.0], [0.0, 7.0]];

    #[test]
    fn parallel_sides_of_a_turned_outline_are_exactly_parallel_and_those_in_line_one_plane() {
        for angle in [0.1, 0.7, 2.0, 4.4] {
            let lines = lines(&turned(&U_SHAPE, angle), &[0.5; 8]);
            assert_eq!(lines[0].relation(&lines[2]), Relation::Against);
            assert_eq!(lines[0].relation(&lines[4]), Relation::Against);
            assert_eq!(lines[1].relation(&lines[5]), Relation::Along);
            assert_eq!(lines[0].relation(&lines[1]), Relation::Crossing);
            assert_eq!(lines[2].plane, lines[6].plane, "both arms end in one line");
            assert!(lines[2].plane != lines[4].plane);
        }
    }

    #[test]
    fn sides_a_micrometre_off_parallel_stay_apart() {
        let points = [[0.0, 0.0], [8.0, 0.0], [8.0, 6.0], [0.0, 6.000001]];
        assert_eq!(lines(&points, &[0.5; 4])[0].relation(&lines(&points, &[0.5; 4])[2]), Relation::Crossing);
    }

    #[test]
    fn slopes_within_rounding_have_one_speed() {
        let lines = lines(&U_SHAPE, &[0.5, 0.5 + 1e-15, 0.5 - 1e-14, 0.6, 0.5, 0.5, 0.5, 0.5]);
        assert!(lines[0].speed == lines[1].speed && lines[1].speed == lines[2].speed);
        assert!(lines[3].speed < lines[0].speed);
    }

    #[test]
    fn three_lines_meet_at_the_same_height_in_any_order() {
        let lines = lines(&turned(&U_SHAPE, 0.3), &[0.5, 0.7, 1.1, 0.5, 0.3, 0.5, 2.0, 0.9]);
        let height = lines.meeting_height(0, 1, 2);
        assert!(height.is_some());
        assert_eq!(lines.meeting_height(2, 0, 1), height);
        assert_eq!(lines.meeting_height(1, 2, 0), height);
    }
}
