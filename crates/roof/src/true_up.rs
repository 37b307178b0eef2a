//! Blocks trued up: readings that miss each other by a hair brought to one, before anything is built on them.
//!
//! Walls of two blocks that run in one line, or lie against each other, are measured twice, and so are plates at one height. What is built
//! on both would carry the difference into every line of the roof: a jog of 1/16 in along an eave, a sliver where one plane was meant.
//! So first blocks turn until walls against each other are parallel, then walls up to [`TOUCH`] apart move into one line,
//! then plates up to [`HAIR`] apart come to one height, and last slopes up to [`HAIR`] apart come to one plane. What is longer or
//! larger stands as it was read and the other moves; walls and plates of equals move to the middle. No result depends on the order of
//! the blocks or on where the house stands.
//!
//! A block that would lose its shape, being hardly larger than the differences themselves, stays as it was read.

use std::cmp::Ordering;
use std::collections::{BTreeMap, VecDeque};

use job::{Block, EdgeSlope};
use measure::Length;

use crate::arrangement::{join, root};
use crate::contact::{self, TOUCH};
use crate::plan::{
    Bounds, P2, along, area, cross, distance, dot, edges, line_crossing, midpoint, outward, sub, unit,
};

/// Plates, planes and roof edges up to this far apart were meant to be one, metres (1/8 in, and rounding).
const HAIR: f64 = 0.003_176;
/// Directions closer than this are one but for rounding, radians.
const PARALLEL: f64 = 1e-7;
/// Walls that differ by more than this in direction were not meant to be parallel, radians (1 degree).
const ASKEW: f64 = 0.017_453;
/// Walls run beside each other where they do so for at least this long, metres.
const BESIDE: f64 = 4.0 * TOUCH;
/// Sizes closer than this have no larger one, as a part of them.
const EQUAL: f64 = 1e-6;
/// Rounds of moving walls into line: moving one can bring another within reach. More than two are not known to be needed.
const ROUNDS: usize = 4;

/// The blocks as they are built on.
pub(crate) fn blocks(read: &[Block]) -> Vec<Block> {
    let mut blocks = read.to_vec();
    let pairs = touching_pairs(read);
    turn(&mut blocks, &pairs);
    for _ in 0..ROUNDS {
        if !line_up(&mut blocks, &pairs) {
            break;
        }
    }
    level(&mut blocks, &pairs);
    flatten(&mut blocks, &pairs);
    blocks
}

/// Brings overhangs to one where the roof edges of one plane would miss each other by a hair: `overhangs` by block, contour and
/// edge, metres.
pub(crate) fn overhangs(blocks: &[Block], overhangs: &mut [Vec<Vec<f64>>]) {
    let pairs = touching_pairs(blocks);
    let walls = walls(blocks);
    let reach = |w: &Wall| overhangs[w.block][w.contour][w.edge];
    let is_one = |a: &Wall, b: &Wall| {
        let (p, q) = (along(a.a, a.out(), reach(a)), along(b.a, b.out(), reach(b)));
        let sloped = matches!((a.pitch, b.pitch), (Some(p), Some(q)) if (p - q).abs() < PARALLEL);
        let levels = (a.plate - a.drop(reach(a)) - b.plate + b.drop(reach(b))).abs();
        a.runs_with(b) && sloped && levels < HAIR && dot(sub(p, q), a.out()).abs() < HAIR
    };
    let mut moved: BTreeMap<[usize; 3], f64> = BTreeMap::new();
    for set in sets(&walls, &pairs, is_one) {
        let first = set[0];
        let line = |w: &Wall| dot(sub(w.a, first.a), first.out()) + reach(w);
        let to = standing(&set, Wall::length, line);
        moved.extend(set.iter().map(|w| (w.key(), (reach(w) + to - line(w)).max(0.0))));
    }
    if moved.is_empty() {
        return;
    }
    // what was read once for several sides of a block moves on all of them
    for w in walls.iter().filter(|w| !moved.contains_key(&w.key())).collect::<Vec<_>>() {
        let same = |v: &&Wall| v.block == w.block && (reach(v) - reach(w)).abs() < ROUNDING;
        if let Some(to) = walls.iter().filter(same).find_map(|v| moved.get(&v.key()).copied()) {
            moved.insert(w.key(), to);
        }
    }
    for ([b, c, e], overhang) in moved {
        overhangs[b][c][e] = overhang;
    }
}

/// Blocks that touch or overlap, the lower index first.
fn touching_pairs(blocks: &[Block]) -> Vec<(usize, usize)> {
    let bounds: Vec<Bounds> = blocks.iter().map(|b| Bounds::of(&b.contours[0]).grown(TOUCH)).collect();
    let pairs = (0..blocks.len()).flat_map(|j| (0..j).map(move |i| (i, j)));
    let near = pairs.filter(|&(i, j)| bounds[i].meets(&bounds[j]));
    near.filter(|&(i, j)| contact::apart(&blocks[i], &blocks[j]) <= TOUCH).collect()
}

/// One wall line.
#[derive(Clone, Copy)]
struct Wall {
    block: usize,
    contour: usize,
    edge: usize,
    a: P2,
    b: P2,
    plate: f64,
    /// Slope of the roof over it; none over a gable.
    pitch: Option<f64>,
}

fn walls(blocks: &[Block]) -> Vec<Wall> {
    blocks.iter().enumerate().flat_map(|(i, b)| walls_of(i, b)).collect()
}

fn walls_of(block: usize, b: &Block) -> Vec<Wall> {
    let mut all = Vec::new();
    for (contour, (points, of_contour)) in b.contours.iter().zip(&b.edges).enumerate() {
        for (edge, ((a, b), e)) in edges(points).zip(of_contour).enumerate() {
            let pitch = match &e.slope {
                EdgeSlope::Pitch(p) => Some(p.value.slope()),
                EdgeSlope::Gable => None,
            };
            all.push(Wall { block, contour, edge, a, b, plate: e.plate.value.m(), pitch });
        }
    }
    all
}

impl Wall {
    fn key(&self) -> [usize; 3] {
        [self.block, self.contour, self.edge]
    }

    fn direction(&self) -> P2 {
        unit(self.a, self.b)
    }

    fn out(&self) -> P2 {
        outward(self.direction())
    }

    fn length(&self) -> f64 {
        distance(self.a, self.b)
    }

    fn drop(&self, run: f64) -> f64 {
        self.pitch.unwrap_or(0.0) * run
    }

    fn is_parallel(&self, other: &Self) -> bool {
        cross(self.direction(), other.direction()).abs() < PARALLEL
    }

    /// Whether both face the same way.
    fn runs_with(&self, other: &Self) -> bool {
        self.is_parallel(other) && dot(self.direction(), other.direction()) > 0.0
    }

    /// Length of the stretch along which another wall lies beside this one; negative where there is a gap between them.
    fn beside(&self, other: &Self) -> f64 {
        let at = |p: P2| dot(sub(p, self.a), self.direction());
        let (from, to) = (at(other.a).min(at(other.b)), at(other.a).max(at(other.b)));
        to.min(self.length()) - from.max(0.0)
    }

    /// Greatest distance of another wall from this one's line, along the stretch where they lie beside each other.
    fn off(&self, other: &Self) -> f64 {
        let at = |p: P2| dot(sub(p, self.a), self.direction());
        let off = |p: P2| cross(self.direction(), sub(p, self.a));
        let (u, v) = (at(other.a), at(other.b));
        let ends = [u.clamp(0.0, self.length()), v.clamp(0.0, self.length())];
        let part = |t: f64| if (v - u).abs() > 0.0 { (t - u) / (v - u) } else { 0.0 };
        ends.map(|t| off(along(other.a, sub(other.b, other.a), part(t))).abs())
            .into_iter()
            .fold(0.0, f64::max)
    }

    /// Whether another block's wall was meant to be in one line with this one.
    fn is_in_line(&self, other: &Self) -> bool {
        self.is_parallel(other) && self.beside(other) > -TOUCH && self.off(other) <= TOUCH
    }
}

/// Walls of touching blocks that hang together, two or more at a time.
fn sets<'a>(
    walls: &'a [Wall],
    pairs: &[(usize, usize)],
    is_one: impl Fn(&Wall, &Wall) -> bool,
) -> Vec<Vec<&'a Wall>> {
    let mut parent: Vec<usize> = (0..walls.len()).collect();
    let of_block = |b: usize| {
        let from = walls.partition_point(|w| w.block < b);
        from..walls.partition_point(|w| w.block <= b)
    };
    for &(i, j) in pairs {
        for a in of_block(i) {
            for b in of_block(j).filter(|&b| is_one(&walls[a], &walls[b])) {
                join(&mut parent, a, b);
            }
        }
    }
    let mut sets: Vec<Vec<&Wall>> = vec![Vec::new(); walls.len()];
    for (w, wall) in walls.iter().enumerate() {
        sets[root(&mut parent, w)].push(wall);
    }
    sets.retain(|s| s.len() > 1);
    sets
}

/// The figure of the largest of a set, or the mean of those that are equally large.
fn standing<T>(set: &[&T], size: impl Fn(&T) -> f64, figure: impl Fn(&T) -> f64) -> f64 {
    let largest = set.iter().map(|t| size(t)).fold(0.0, f64::max);
    let figures: Vec<f64> =
        set.iter().filter(|t| size(t) >= largest * (1.0 - EQUAL)).map(|t| figure(t)).collect();
    figures.iter().sum::<f64>() / figures.len() as f64
}

fn size(block: &Block) -> f64 {
    area(&block.contours[0]).abs()
}

/// Turns blocks whose walls lie against each other but for a hair: from the largest on, each turns with the first it touches.
fn turn(blocks: &mut [Block], pairs: &[(usize, usize)]) {
    let rank = |b: &usize| (size(&blocks[*b]), blocks[*b].edges[0][0].plate.value.m());
    let mut largest_first: Vec<usize> = (0..blocks.len()).collect();
    largest_first.sort_by(|a, b| rank(b).partial_cmp(&rank(a)).unwrap_or(Ordering::Equal));
    let mut settled = vec![false; blocks.len()];
    for first in largest_first {
        let mut standing = VecDeque::from([first]);
        while let Some(i) = standing.pop_front() {
            settled[i] = true;
            let beside =
                pairs.iter().filter_map(|&(a, b)| if a == i { Some(b) } else { (b == i).then_some(a) });
            for j in beside.filter(|j| !settled[*j]).collect::<Vec<_>>() {
                if let Some((about, angle)) = askew(blocks, i, j) {
                    turn_a_little(&mut blocks[j], about, angle);
                    standing.push_back(j);
                }
            }
        }
    }
}

/// Turns a block unless that moves one of its corners further than walls that touch may be apart.
fn turn_a_little(block: &mut Block, centre: P2, angle: f64) {
    let turned = turned(block, centre, angle);
    let moved = block.contours.iter().flatten().zip(turned.iter().flatten());
    if moved.map(|(p, q)| distance(*p, *q)).fold(0.0, f64::max) <= TOUCH {
        block.contours = turned;
    }
}

/// About which point, and how far, block `j` must turn to lie square against block `i`.
fn askew(blocks: &[Block], i: usize, j: usize) -> Option<(P2, f64)> {
    let [of_i, of_j] = [i, j].map(|b| walls_of(b, &blocks[b]));
    let lies_against = |a: &Wall, b: &Wall| {
        let angle = cross(a.direction(), b.direction()).abs();
        (PARALLEL..ASKEW).contains(&angle)
            && a.beside(b).min(b.beside(a)) >= BESIDE
            && a.off(b).min(b.off(a)) <= TOUCH
    };
    let against =
        of_i.iter().flat_map(|a| of_j.iter().map(move |b| (a, b))).filter(|(a, b)| lies_against(a, b));
    let (a, b) = against.max_by(|x, y| x.0.beside(x.1).total_cmp(&y.0.beside(y.1)))?;
    let (u, v) = (a.direction(), b.direction());
    Some((midpoint(b.a, b.b), (cross(v, u) * dot(u, v).signum()).asin()))
}

fn turned(block: &Block, centre: P2, angle: f64) -> Vec<Vec<P2>> {
    let (sin, cos) = angle.sin_cos();
    let turn = |p: &P2| {
        let [x, y] = sub(*p, centre);
        [centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos]
    };
    block.contours.iter().map(|c| c.iter().map(turn).collect()).collect()
}

/// Moves walls into one line; says whether any moved.
fn line_up(blocks: &mut [Block], pairs: &[(usize, usize)]) -> bool {
    let all = walls(blocks);
    let mut shifts: Vec<Vec<Vec<f64>>> =
        blocks.iter().map(|b| b.contours.iter().map(|c| vec![0.0; c.len()]).collect()).collect();
    for set in sets(&all, pairs, |a, b| a.is_in_line(b) || b.is_in_line(a)) {
        let first = set[0];
        let off = |w: &Wall| cross(first.direction(), sub(midpoint(w.a, w.b), first.a));
        let to = standing(&set, Wall::length, off);
        for w in &set {
            let outwards = if first.runs_with(w) { -1.0 } else { 1.0 };
            shifts[w.block][w.contour][w.edge] = outwards * (to - off(w));
        }
    }
    let mut any = false;
    for (block, shifts) in blocks.iter_mut().zip(&shifts) {
        let moves = shifts.iter().flatten().any(|s| s.abs() > ROUNDING);
        if let Some(contours) = moves.then(|| shifted(block, shifts)).flatten() {
            block.contours = contours;
            any = true;
        }
    }
    any
}

/// Shifts below this are rounding, metres.
const ROUNDING: f64 = 1e-9;

/// A block's contours with every wall moved outwards by so much; none if a wall would all but vanish or a corner run away.
fn shifted(block: &Block, shifts: &[Vec<f64>]) -> Option<Vec<Vec<P2>>> {
    block.contours.iter().zip(shifts).map(|(c, s)| shifted_contour(c, s)).collect()
}

fn shifted_contour(points: &[P2], shifts: &[f64]) -> Option<Vec<P2>> {
    let n = points.len();
    let line = |i: usize| {
        let direction = unit(points[i], points[(i + 1) % n]);
        (along(points[i], outward(direction), shifts[i]), direction)
    };
    let corner = |i: usize| {
        let ((p, u), (q, v)) = (line((i + n - 1) % n), line(i));
        let crossing = if cross(u, v).abs() > ASKEW { line_crossing(p, u, q, v)? } else { q };
        (distance(crossing, points[i]) <= 4.0 * TOUCH).then_some(crossing)
    };
    let moved: Vec<P2> = (0..n).map(corner).collect::<Option<_>>()?;
    let keeps = |i: usize| {
        let j = (i + 1) % n;
        dot(sub(moved[j], moved[i]), line(i).1) > 0.5 * distance(points[i], points[j])
    };
    (0..n).all(keeps).then_some(moved)
}

/// Brings plates of touching blocks to one height.
fn level(blocks: &mut [Block], pairs: &[(usize, usize)]) {
    let all = walls(blocks);
    let sizes: Vec<f64> = blocks.iter().map(size).collect();
    let mut plates = Vec::new();
    for set in sets(&all, pairs, |a, b| (a.plate - b.plate).abs() <= HAIR) {
        let to = standing(&set, |w| sizes[w.block], |w| w.plate);
        plates.extend(set.iter().map(|w| (w.key(), to)));
    }
    set_plates(blocks, plates);
}

/// Brings slopes of touching blocks to one plane: of two that fall the same way, the shorter one's plate moves.
fn flatten(blocks: &mut [Block], pairs: &[(usize, usize)]) {
    let all = walls(blocks);
    // height of a wall's plane over another's wall line
    let above = |a: &Wall, b: &Wall| a.plate - a.drop(dot(sub(b.a, a.a), a.out())) - b.plate;
    let is_one = |a: &Wall, b: &Wall| {
        let alike = matches!((a.pitch, b.pitch), (Some(p), Some(q)) if (p - q).abs() < PARALLEL);
        alike && a.runs_with(b) && above(a, b).abs() <= HAIR
    };
    let mut plates = Vec::new();
    for set in sets(&all, pairs, is_one) {
        let first = set[0];
        let to = standing(&set, Wall::length, |w| above(w, first));
        plates.extend(set.iter().map(|w| (w.key(), w.plate + to - above(w, first))));
    }
    set_plates(blocks, plates);
}

fn set_plates(blocks: &mut [Block], plates: Vec<([usize; 3], f64)>) {
    for ([b, c, e], plate) in plates {
        blocks[b].edges[c][e].plate.value = Length::from_m(plate);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A wall of block 0 along the x axis facing south.
    fn wall(from: f64, to: f64, y: f64) -> Wall {
        Wall { block: 0, contour: 0, edge: 0, a: [from, y], b: [to, y], plate: 2.5, pitch: None }
    }

    #[test]
    fn walls_a_quarter_inch_off_are_in_line_and_those_further_are_not() {
        let main = wall(0.0, 10.0, 0.0);
        assert!(main.is_in_line(&wall(10.0, 15.0, 0.006)), "end to end");
        assert!(main.is_in_line(&wall(4.0, 2.0, -0.006)), "against each other");
        assert!(!main.is_in_line(&wall(10.0, 15.0, 0.007)), "a jog");
        assert!(!main.is_in_line(&wall(10.02, 15.0, 0.0)), "apart along the line");
    }

    #[test]
    fn the_longer_wall_stands_and_equal_ones_meet_halfway() {
        let [long, short] = [wall(0.0, 10.0, 0.0), wall(10.0, 15.0, 0.004)];
        let y = |w: &Wall| w.a[1];
        assert!(standing(&[&short, &long], Wall::length, y).abs() < 1e-12);
        let equal = wall(10.0, 20.0, 0.004);
        assert!((standing(&[&long, &equal], Wall::length, y) - 0.002).abs() < 1e-12);
    }

    #[test]
    fn moving_one_wall_keeps_the_others_where_they_are() {
        let square = [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]];
        let moved = shifted_contour(&square, &[0.0, 0.005, 0.0, 0.0]).expect("a square");
        assert_eq!(moved, [[0.0, 0.0], [4.005, 0.0], [4.005, 3.0], [0.0, 3.0]]);
    }

    #[test]
    fn a_block_hardly_larger_than_the_differences_stays_as_it_was_read() {
        let sliver = [[0.0, 0.0], [4.0, 0.0], [4.0, 0.008], [0.0, 0.008]];
        assert_eq!(shifted_contour(&sliver, &[0.0, 0.0, -0.006, 0.0]), None);
    }
}
