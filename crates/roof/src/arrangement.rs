//! A planar subdivision of the plan by line segments.
//!
//! Segments go in; out come vertices, half-edges and cells. Points closer than [`MERGE`] are one point, and a point that close
//! to a segment is on it; after that segments meet only in vertices. The rule is stated, independent of order, and applied
//! until nothing moves, so that readings of a tape that miss each other by a hair leave no slivers.
//!
//! # Complexity
//! Segments are compared only with those in the same squares of a grid: near n log n for the segments of a house, whose
//! crossings are few.

use std::collections::BTreeMap;

use crate::plan::{Bounds, P2, along, cross, distance, dot, orientation, sub, to_segment};

/// Points closer than this are one point, metres (1/50 in).
pub(crate) const MERGE: f64 = 0.0005;
/// A merge that moves nothing further than this cannot make segments cross anew, metres.
const STILL: f64 = 1e-9;
/// Rounds of merging and cutting; two are the rule, more a sign of something pathological.
const ROUNDS: usize = 12;

/// A half-edge: one side of a piece of segment, with its cell on the left.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HalfEdge {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) next: usize,
    pub(crate) cell: usize,
}

/// The subdivision. Half-edges come in pairs: the twin of `h` is `h ^ 1`.
#[derive(Debug, Default)]
pub(crate) struct Arrangement {
    pub(crate) points: Vec<P2>,
    pub(crate) half_edges: Vec<HalfEdge>,
    /// A point well inside each cell; none for the unbounded cell, which is number 0.
    pub(crate) samples: Vec<Option<P2>>,
}

/// Twin of a half-edge.
pub(crate) const fn twin(h: usize) -> usize {
    h ^ 1
}

impl Arrangement {
    /// Subdivides the plan by segments.
    pub(crate) fn of(segments: &[(P2, P2)]) -> Self {
        let (points, pieces) = cut(segments);
        let mut arrangement = Self { half_edges: paired(&pieces), points, samples: Vec::new() };
        arrangement.link();
        arrangement.find_cells();
        arrangement
    }

    /// Sets `next` of every half-edge: the first one clockwise from its twin around its end.
    fn link(&mut self) {
        let mut around: Vec<Vec<usize>> = vec![Vec::new(); self.points.len()];
        for (h, e) in self.half_edges.iter().enumerate() {
            around[e.from].push(h);
        }
        for (v, outgoing) in around.iter_mut().enumerate() {
            let points = &self.points;
            let towards = |h: usize| points[self.half_edges[h].to];
            outgoing.sort_by(|&g, &h| by_angle(points[v], towards(g), towards(h)));
            for (k, &h) in outgoing.iter().enumerate() {
                let before = outgoing[(k + outgoing.len() - 1) % outgoing.len()];
                self.half_edges[twin(h)].next = before;
            }
        }
    }

    /// Numbers the cells: each counter-clockwise cycle is one, with the clockwise cycles inside it as its holes.
    fn find_cells(&mut self) {
        let cycles = self.cycles();
        let mut outer: Vec<Outer> = Vec::new();
        let mut holes = Vec::new();
        for cycle in cycles {
            let area = self.cycle_area(&cycle);
            if area > 0.0 {
                outer.push(Outer { bounds: self.cycle_bounds(&cycle), area, cycle, holes: Vec::new() });
            } else {
                holes.push(cycle);
            }
        }
        self.samples = vec![None; outer.len() + 1];
        for hole in holes {
            if let Some(k) = self.smallest_around(&outer, &hole) {
                outer[k].holes.push(hole);
            }
        }
        for (k, cell) in outer.iter().enumerate() {
            for &h in cell.cycle.iter().chain(cell.holes.iter().flatten()) {
                self.half_edges[h].cell = k + 1;
            }
            self.samples[k + 1] = self.inner_point(cell);
        }
    }

    fn cycles(&self) -> Vec<Vec<usize>> {
        let mut seen = vec![false; self.half_edges.len()];
        let mut cycles = Vec::new();
        for start in 0..self.half_edges.len() {
            let mut cycle = Vec::new();
            let mut h = start;
            while !seen[h] {
                seen[h] = true;
                cycle.push(h);
                h = self.half_edges[h].next;
            }
            if !cycle.is_empty() {
                cycles.push(cycle);
            }
        }
        cycles
    }

    fn cycle_area(&self, cycle: &[usize]) -> f64 {
        let origin = self.from(cycle[0]);
        cycle.iter().map(|&h| cross(sub(self.from(h), origin), sub(self.to(h), origin))).sum::<f64>() * 0.5
    }

    fn cycle_bounds(&self, cycle: &[usize]) -> Bounds {
        let points: Vec<P2> = cycle.iter().map(|&h| self.from(h)).collect();
        Bounds::of(&points)
    }

    /// The smallest counter-clockwise cycle around a clockwise one that does not belong to the same piece of the drawing.
    fn smallest_around(&self, outer: &[Outer], hole: &[usize]) -> Option<usize> {
        let p = self.from(hole[0]);
        (0..outer.len())
            .filter(|&k| outer[k].bounds.holds(p) && self.goes_around(&outer[k].cycle, hole))
            .min_by(|&a, &b| outer[a].area.total_cmp(&outer[b].area))
    }

    fn goes_around(&self, cycle: &[usize], hole: &[usize]) -> bool {
        // any corner of the hole that is no corner of the cycle decides; sharing all corners means being its own outside
        let corner = hole
            .iter()
            .map(|&h| self.half_edges[h].from)
            .find(|v| cycle.iter().all(|&h| self.half_edges[h].from != *v));
        corner.is_some_and(|v| {
            let p = self.points[v];
            cycle.iter().filter(|&&h| crate::plan::crosses_ray(self.from(h), self.to(h), p)).count() % 2 == 1
        })
    }

    /// The middle of the widest level chord found in the cell.
    fn inner_point(&self, cell: &Outer) -> Option<P2> {
        let sides: Vec<(P2, P2)> = cell
            .cycle
            .iter()
            .chain(cell.holes.iter().flatten())
            .map(|&h| (self.from(h), self.to(h)))
            .collect();
        let mut levels: Vec<f64> = sides.iter().map(|(a, _)| a[1]).collect();
        levels.sort_by(f64::total_cmp);
        levels
            .windows(2)
            .filter(|w| w[1] > w[0])
            .filter_map(|w| widest_chord(&sides, 0.5 * (w[0] + w[1]), w[1] - w[0]))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, p)| p)
    }

    pub(crate) fn from(&self, h: usize) -> P2 {
        self.points[self.half_edges[h].from]
    }

    pub(crate) fn to(&self, h: usize) -> P2 {
        self.points[self.half_edges[h].to]
    }

    /// Area of each cell, less than nothing for the unbounded one, and length all round it.
    pub(crate) fn cell_sizes(&self) -> Vec<(f64, f64)> {
        let origin = self.points.first().copied().unwrap_or_default();
        let mut sizes = vec![(0.0, 0.0); self.cell_count()];
        for (h, e) in self.half_edges.iter().enumerate() {
            let (a, b) = (self.from(h), self.to(h));
            let (area, around) = &mut sizes[e.cell];
            *area += 0.5 * cross(sub(a, origin), sub(b, origin));
            *around += distance(a, b);
        }
        sizes
    }

    pub(crate) fn cell_count(&self) -> usize {
        self.samples.len()
    }
}

/// A counter-clockwise cycle and the clockwise ones inside it.
struct Outer {
    cycle: Vec<usize>,
    holes: Vec<Vec<usize>>,
    area: f64,
    bounds: Bounds,
}

/// Room (the lesser of width and height) and middle of the widest chord at a level.
fn widest_chord(sides: &[(P2, P2)], y: f64, gap: f64) -> Option<(f64, P2)> {
    let mut at: Vec<f64> = sides
        .iter()
        .filter(|(a, b)| (a[1] > y) != (b[1] > y))
        .map(|(a, b)| a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]))
        .collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2)
        .map(|c| ((c[1] - c[0]).min(gap), [0.5 * (c[0] + c[1]), y]))
        .max_by(|a, b| a.0.total_cmp(&b.0))
}

/// Order of two directions by angle from east, counter-clockwise; exact.
fn by_angle(centre: P2, a: P2, b: P2) -> std::cmp::Ordering {
    let upper = |p: P2| p[1] > centre[1] || (p[1] >= centre[1] && p[0] > centre[0]);
    upper(b).cmp(&upper(a)).then_with(|| 0.0f64.total_cmp(&orientation(centre, a, b)))
}

fn paired(pieces: &[(usize, usize)]) -> Vec<HalfEdge> {
    let half = |from, to| HalfEdge { from, to, next: 0, cell: 0 };
    pieces.iter().flat_map(|&(a, b)| [half(a, b), half(b, a)]).collect()
}

/// Cuts segments at their crossings and merges near points until nothing moves.
fn cut(segments: &[(P2, P2)]) -> (Vec<P2>, Vec<(usize, usize)>) {
    let mut current = distinct(segments);
    for _ in 0..ROUNDS {
        let (points, pieces, moved) = cut_once(&current);
        if moved <= STILL {
            return (points, pieces);
        }
        current = pieces.iter().map(|&(a, b)| (points[a], points[b])).collect();
    }
    let (points, pieces, _) = cut_once(&current);
    (points, pieces)
}

/// Segments of some length, each once: neighbouring sheets share their sides.
fn distinct(segments: &[(P2, P2)]) -> Vec<(P2, P2)> {
    let order = |a: &P2, b: &P2| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1]));
    let forwards = |(a, b): (P2, P2)| if order(&a, &b).is_le() { (a, b) } else { (b, a) };
    let mut all: Vec<(P2, P2)> =
        segments.iter().map(|s| forwards(*s)).filter(|(a, b)| distance(*a, *b) > STILL).collect();
    all.sort_unstable_by(|s, t| order(&s.0, &t.0).then(order(&s.1, &t.1)));
    all.dedup();
    all
}

/// One round: all crossings and touches, merged, and the pieces between them; and how far anything moved.
fn cut_once(segments: &[(P2, P2)]) -> (Vec<P2>, Vec<(usize, usize)>, f64) {
    let mut raw: Vec<P2> = segments.iter().flat_map(|(a, b)| [*a, *b]).collect();
    let mut on: Vec<Vec<usize>> = (0..segments.len()).map(|s| vec![2 * s, 2 * s + 1]).collect();
    let mut moved = 0.0f64;
    for (s, t) in near_pairs(segments) {
        for (p, touch) in meetings(segments[s], segments[t]) {
            moved = moved.max(touch);
            on[s].push(raw.len());
            on[t].push(raw.len());
            raw.push(p);
        }
    }
    let (points, point_of, spread) = merge(&raw);
    let mut pieces: Vec<(usize, usize)> = Vec::new();
    for (s, marks) in on.iter().enumerate() {
        let (a, b) = segments[s];
        let mut ordered: Vec<(f64, usize)> =
            marks.iter().map(|&m| (dot(sub(raw[m], a), sub(b, a)), point_of[m])).collect();
        ordered.sort_by(|x, y| x.0.total_cmp(&y.0));
        pieces.extend(
            ordered.windows(2).filter(|w| w[0].1 != w[1].1).map(|w| (w[0].1.min(w[1].1), w[0].1.max(w[1].1))),
        );
    }
    pieces.sort_unstable();
    pieces.dedup();
    (points, pieces, moved.max(spread))
}

/// Where two segments meet: their crossing, or each end that lies on the other, with its distance from it.
fn meetings(s: (P2, P2), t: (P2, P2)) -> Vec<(P2, f64)> {
    let (u, v) = (sub(s.1, s.0), sub(t.1, t.0));
    let (sa, sb) = (cross(v, sub(s.0, t.0)), cross(v, sub(s.1, t.0)));
    let (ta, tb) = (cross(u, sub(t.0, s.0)), cross(u, sub(t.1, s.0)));
    if are_beside(sa, sb, v) || are_beside(ta, tb, u) {
        return Vec::new();
    }
    let mut found: Vec<(P2, f64)> = Vec::new();
    for (p, other) in [(s.0, t), (s.1, t), (t.0, s), (t.1, s)] {
        let (gap, _) = to_segment(p, other.0, other.1);
        if gap < MERGE {
            found.push((p, gap));
        }
    }
    if found.is_empty() && (sa > 0.0) != (sb > 0.0) && (ta > 0.0) != (tb > 0.0) {
        found.push((along(s.0, u, sa / (sa - sb)), 0.0));
    }
    found
}

/// Whether two points, given by their cross products with a direction, lie on one side of a line and clear of it.
fn are_beside(a: f64, b: f64, direction: P2) -> bool {
    let clear = MERGE * MERGE * dot(direction, direction);
    (a > 0.0) == (b > 0.0) && a * a > clear && b * b > clear
}

/// Pairs of segments that share a square of a grid, each pair once.
fn near_pairs(segments: &[(P2, P2)]) -> Vec<(usize, usize)> {
    let boxes: Vec<Bounds> = segments.iter().map(|(a, b)| Bounds::of([a, b]).grown(MERGE)).collect();
    let whole = Bounds::of(segments.iter().flat_map(|(a, b)| [a, b])).grown(2.0 * MERGE);
    let across = ((segments.len() as f64).sqrt()).clamp(1.0, 256.0);
    let size = [(whole.max[0] - whole.min[0]) / across, (whole.max[1] - whole.min[1]) / across];
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the grid")]
    let cell = |p: P2, i: usize| ((p[i] - whole.min[i]) / size[i]).floor().clamp(0.0, across - 1.0) as u32;
    let mut entries: Vec<(u32, u32, usize)> = Vec::new();
    for (s, b) in boxes.iter().enumerate() {
        for x in cell(b.min, 0)..=cell(b.max, 0) {
            for y in cell(b.min, 1)..=cell(b.max, 1) {
                entries.push((x, y, s));
            }
        }
    }
    entries.sort_unstable();
    let mut pairs = Vec::new();
    for square in entries.chunk_by(|a, b| (a.0, a.1) == (b.0, b.1)) {
        for (k, a) in square.iter().enumerate() {
            let met = square[k + 1..].iter().filter(|b| boxes[a.2].meets(&boxes[b.2]));
            pairs.extend(met.map(|b| (a.2, b.2)));
        }
    }
    pairs.sort_unstable();
    pairs.dedup();
    pairs
}

/// Merges points closer than [`MERGE`], however chained, into their mean: points, index of each raw point, largest move.
fn merge(raw: &[P2]) -> (Vec<P2>, Vec<usize>, f64) {
    let mut order: Vec<usize> = (0..raw.len()).collect();
    order.sort_by(|&a, &b| raw[a][0].total_cmp(&raw[b][0]).then(raw[a][1].total_cmp(&raw[b][1])));
    let mut parent = near_ones_joined(raw);
    let mut index = vec![usize::MAX; raw.len()];
    let mut sums: Vec<(P2, f64)> = Vec::new();
    let mut point_of = vec![0; raw.len()];
    for &a in &order {
        let r = root(&mut parent, a);
        if index[r] == usize::MAX {
            index[r] = sums.len();
            sums.push(([0.0, 0.0], 0.0));
        }
        point_of[a] = index[r];
        let (sum, n) = &mut sums[index[r]];
        *sum = [sum[0] + raw[a][0], sum[1] + raw[a][1]];
        *n += 1.0;
    }
    let points: Vec<P2> = sums.iter().map(|(s, n)| [s[0] / n, s[1] / n]).collect();
    let moved = (0..raw.len()).map(|a| distance(raw[a], points[point_of[a]])).fold(0.0, f64::max);
    (points, point_of, moved)
}

/// A union-find forest in which points closer than [`MERGE`] hang together.
///
/// Points are sorted into squares so small that all points of one are that close. So many lines that meet in one point cost no more
/// than as many that do not: whole squares are joined, and two squares only until one pair of their points is found close.
fn near_ones_joined(raw: &[P2]) -> Vec<usize> {
    #[expect(clippy::cast_possible_truncation, reason = "coordinates are within 1e7 m, squares 1/4 mm")]
    let square = |p: P2| p.map(|v| (v / (0.5 * MERGE)).floor() as i64);
    let mut parent: Vec<usize> = (0..raw.len()).collect();
    let mut squares: BTreeMap<[i64; 2], Vec<usize>> = BTreeMap::new();
    for (i, p) in raw.iter().enumerate() {
        squares.entry(square(*p)).or_default().push(i);
    }
    let neighbours = (0..=2_i64).flat_map(|x| (-2..=2_i64).map(move |y| [x, y])).filter(|o| *o > [0, 0]);
    let neighbours: Vec<[i64; 2]> = neighbours.collect();
    for ([x, y], here) in &squares {
        for i in here {
            join(&mut parent, here[0], *i);
        }
        for there in neighbours.iter().filter_map(|[dx, dy]| squares.get(&[x + dx, y + dy])) {
            let is_near = |&a: &usize| there.iter().any(|&b| distance(raw[a], raw[b]) < MERGE);
            if root(&mut parent, here[0]) != root(&mut parent, there[0]) && here.iter().any(is_near) {
                join(&mut parent, here[0], there[0]);
            }
        }
    }
    parent
}

/// Makes two sets one.
pub(crate) fn join(parent: &mut [usize], a: usize, b: usize) {
    let (a, b) = (root(parent, a), root(parent, b));
    parent[a.max(b)] = a.min(b);
}

/// The representative of a set in a union-find forest.
pub(crate) fn root(parent: &mut [usize], mut a: usize) -> usize {
    while parent[a] != a {
        parent[a] = parent[parent[a]];
        a = parent[a];
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, size: f64) -> Vec<(P2, P2)> {
        let p = [[x, y], [x + size, y], [x + size, y + size], [x, y + size]];
        (0..4).map(|i| (p[i], p[(i + 1) % 4])).collect()
    }

    /// Area of each bounded cell, sorted.
    fn cell_areas(a: &Arrangement) -> Vec<f64> {
        let mut bounded: Vec<f64> = a.cell_sizes().into_iter().skip(1).map(|(area, _)| area).collect();
        bounded.sort_by(f64::total_cmp);
        bounded
    }

    #[test]
    fn crossing_squares_make_three_cells() {
        let segments = [square(0.0, 0.0, 2.0), square(1.0, 1.0, 2.0)].concat();
        assert_eq!(cell_areas(&Arrangement::of(&segments)), [1.0, 3.0, 3.0]);
    }

    #[test]
    fn square_inside_another_is_a_hole_of_it() {
        let segments = [square(0.0, 0.0, 4.0), square(1.0, 1.0, 1.0)].concat();
        assert_eq!(cell_areas(&Arrangement::of(&segments)), [1.0, 15.0]);
    }

    #[test]
    fn sides_a_hair_apart_become_one() {
        let segments = [square(0.0, 0.0, 1.0), square(1.0001, 0.00005, 1.0)].concat();
        let a = Arrangement::of(&segments);
        assert_eq!(cell_areas(&a).len(), 2);
        assert_eq!(a.points.len(), 6);
    }

    #[test]
    fn overlapping_collinear_sides_are_cut_at_each_others_ends() {
        let segments = [square(0.0, 0.0, 2.0), square(2.0, 0.5, 1.0)].concat();
        assert_eq!(cell_areas(&Arrangement::of(&segments)), [1.0, 4.0]);
    }

    #[test]
    fn samples_lie_in_their_cells() {
        let segments =
            [square(0.0, 0.0, 4.0), square(1.0, 1.0, 2.0), vec![([0.0, 0.0], [4.0, 4.0])]].concat();
        let a = Arrangement::of(&segments);
        assert_eq!(a.cell_count(), 5);
        assert!(a.samples[1..].iter().all(Option::is_some));
    }
}
