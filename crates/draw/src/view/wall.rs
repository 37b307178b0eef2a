//! Walls under the roof: where they show, and how far up they go.
//!
//! A wall shows where the roof of its own block is over it and no other block's rooms, as high or higher, are
//! before it.

use roof::{Plane, Roof, Wall};

use crate::polygon::{contains, crossings, encloses, segment_distance};
use crate::vector::{P2, P3, add, between, cross, distance, dot, plan_of, quarter, scale, sub, unit};

/// Walls closer than this touch, metres.
const NEAR: f64 = 0.01;
/// How far under the roof's surface a wall ends, metres: out of sight under the overhang.
const UNDER: f64 = 0.03;

/// A stretch of wall.
#[derive(Clone, Debug)]
pub(super) struct Run {
    /// Just under the roof, along the wall.
    pub(super) top: Vec<P3>,
}

impl Run {
    /// Whether this run goes on in the direction of another beyond its end, so that no corner shows there.
    pub(super) fn carries_on(&self, other: &Self, end: P2) -> bool {
        let (Some([a, b]), Some([c, d])) = (self.plan(), other.plan()) else { return false };
        let far = if distance(c, end) > distance(d, end) { c } else { d };
        let (Some(way), Some(own)) = (unit(sub(end, far)), unit(sub(b, a))) else { return false };
        let ahead = [a, b].map(|p| dot(sub(p, end), way));
        let is_in_line = cross(way, own).abs() < 1e-3 && cross(way, sub(a, end)).abs() < NEAR;
        is_in_line && ahead[0].max(ahead[1]) > NEAR && ahead[0].min(ahead[1]) < NEAR
    }

    /// Whether a point of the plan stands at this wall.
    pub(super) fn is_at(&self, p: P2) -> bool {
        self.plan().is_some_and(|wall| segment_distance(wall, p) < 0.1)
    }

    fn plan(&self) -> Option<[P2; 2]> {
        Some([plan_of(*self.top.first()?), plan_of(*self.top.last()?)])
    }
}

/// All stretches of wall that show.
pub(super) fn wall_runs(roof: &Roof) -> Vec<Run> {
    let house = House::of(roof);
    roof.walls.iter().filter(|wall| !wall.open).flat_map(|wall| house.runs(wall)).collect()
}

/// Outlines in plan.
struct House<'a> {
    planes: Vec<(&'a Plane, Vec<Vec<P2>>)>,
    /// Closed blocks with the sides of their rooms.
    rooms: Vec<(&'a str, Vec<[P2; 2]>)>,
}

impl<'a> House<'a> {
    fn of(roof: &'a Roof) -> Self {
        let rings = |plane: &Plane| -> Vec<Vec<P2>> {
            let rings = std::iter::once(&plane.outline).chain(&plane.holes);
            rings.map(|ring| ring.iter().map(|&p| plan_of(p)).collect()).collect()
        };
        let mut rooms: Vec<(&str, Vec<[P2; 2]>)> = Vec::new();
        for wall in roof.walls.iter().filter(|wall| !wall.open) {
            let side = [wall.from, wall.to];
            match rooms.iter_mut().find(|(block, _)| *block == wall.block) {
                Some((_, sides)) => sides.push(side),
                None => rooms.push((&wall.block, vec![side])),
            }
        }
        Self { planes: roof.planes.iter().map(|plane| (plane, rings(plane))).collect(), rooms }
    }

    fn runs(&self, wall: &Wall) -> Vec<Run> {
        let ends = [wall.from, wall.to];
        let Some(inward) = unit(sub(wall.to, wall.from)).map(quarter) else { return Vec::new() };
        let mut runs: Vec<Run> = Vec::new();
        let mut goes_on = false;
        for [from, to] in self.stretches(ends, inward) {
            let middle = between(ends[0], ends[1], f64::midpoint(from, to));
            let plane = self.roof_over(&wall.block, add(middle, scale(inward, NEAR / 2.0)));
            let shown = plane.filter(|plane| {
                !self.is_indoors(wall, plane.height_at(middle), sub(middle, scale(inward, NEAR)))
            });
            if let Some(plane) = shown {
                let top = [from, to].map(|t| top_of(plane, between(ends[0], ends[1], t)));
                match runs.last_mut().filter(|_| goes_on) {
                    Some(run) => run.top.extend(top),
                    None => runs.push(Run { top: top.to_vec() }),
                }
            }
            goes_on = shown.is_some();
        }
        runs
    }

    /// The wall cut wherever a plane or a room over or before it begins or ends.
    fn stretches(&self, ends: [P2; 2], inward: P2) -> Vec<[f64; 2]> {
        let moved = |by: f64| ends.map(|p| add(p, scale(inward, by)));
        let planes = self.planes.iter().flat_map(|(_, rings)| crossings(rings, moved(NEAR / 2.0)));
        let rooms = self
            .rooms
            .iter()
            .flat_map(|(_, sides)| sides.iter().flat_map(|side| crossings(&[side.to_vec()], moved(-NEAR))));
        let mut cuts: Vec<f64> = planes.chain(rooms).chain([0.0, 1.0]).collect();
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2).map(|w| [w[0], w[1]]).filter(|[a, b]| b - a > 1e-6).collect()
    }

    /// The highest plane of a block at a point.
    fn roof_over(&self, block: &str, at: P2) -> Option<&'a Plane> {
        let own = self.planes.iter().filter(|(plane, _)| plane.blocks.iter().any(|name| name == block));
        let over = own.filter(|(_, rings)| contains(rings, at)).map(|&(plane, _)| plane);
        over.max_by(|a, b| a.height_at(at).total_cmp(&b.height_at(at)))
    }

    /// Whether a point before a wall lies in another block's rooms that reach as high.
    fn is_indoors(&self, wall: &Wall, height: f64, before: P2) -> bool {
        let others = self.rooms.iter().filter(|(block, _)| *block != wall.block);
        let mut around = others.filter(|(_, sides)| encloses(sides.iter().copied(), before));
        around.any(|(block, _)| {
            self.roof_over(block, before).is_some_and(|plane| plane.height_at(before) > height - 2.0 * NEAR)
        })
    }
}

fn top_of(plane: &Plane, at: P2) -> P3 {
    [at[0], at[1], plane.height_at(at) - UNDER]
}
