//! The house as faces and lines in space: roof planes, the edge of the roof with its depth, walls down to the
//! ground, posts, chimneys, openings, crickets.
//!
//! # Assumptions and limits
//! Nothing of this is measured beyond the roof and the wall lines: walls are drawn down to the ground, which is
//! the datum or 8 ft under the lowest eave, whichever is lower; chimneys stand 3 ft above the highest point of
//! their rim; posts are one line each at the corners of a roof on posts.

use job::{OpeningKind, State};
use measure::Length;
use roof::{Edge, EdgeKind, Family, PlacedOpening, Plane, PlaneId, Roof};

use super::wall::{Run, wall_runs};
use crate::opening::is_round;
use crate::plan::plane_face;
use crate::sight::{Eye, Face};
use crate::survey::Survey;
use crate::vector::{P2, P3, along, between, dot, plan_of, sub, turned};

/// What a face is, which decides how it is toned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Surface {
    Plane(PlaneId),
    Cricket,
    /// Vertical edge of the roof.
    Fascia,
    Wall,
    Chimney,
    /// Something that lies in a plane.
    Opening,
}

/// What a line is, which decides how it is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Line {
    Edge(EdgeKind),
    /// A shared edge beyond which the roof falls out of sight.
    Contour,
    Wall,
    Post,
    Opening(State),
    Cricket,
}

/// All faces and lines of a house.
#[derive(Clone, Debug, Default)]
pub(crate) struct Solid {
    pub(crate) faces: Vec<Face>,
    /// What each face is.
    pub(crate) surfaces: Vec<Surface>,
    pub(crate) lines: Vec<(Line, [P3; 2])>,
}

impl Solid {
    pub(crate) fn of(roof: &Roof, survey: &Survey, eye: &Eye) -> Self {
        let mut solid = Self::default();
        let ground = ground(roof);
        solid.add_planes(roof, survey, eye);
        solid.add_walls(roof, survey, ground);
        roof.openings.iter().for_each(|opening| solid.add_opening(opening, survey.state(&opening.name)));
        roof.crickets.iter().for_each(|cricket| solid.add_cricket(&cricket.planes));
        solid
    }

    fn face(&mut self, surface: Surface, face: Face) {
        self.faces.push(face);
        self.surfaces.push(surface);
    }

    fn line(&mut self, line: Line, ends: [P3; 2]) {
        self.lines.push((line, ends));
    }

    fn add_planes(&mut self, roof: &Roof, survey: &Survey, eye: &Eye) {
        for (i, plane) in roof.planes.iter().enumerate() {
            self.face(Surface::Plane(PlaneId(i)), plane_face(plane));
        }
        for edge in &roof.edges {
            let ends = [edge.from, edge.to].map(|node| roof.node(node).at);
            if is_free(edge) {
                let depth = edge.planes.first().map_or(0.0, |&id| survey.fascia(&roof.plane(id).block).m());
                self.add_fascia(ends, depth);
            }
            let planes: Vec<_> = edge.planes.iter().map(|&id| roof.plane(id)).collect();
            self.line(if is_contour(&planes, eye) { Line::Contour } else { Line::Edge(edge.kind) }, ends);
        }
    }

    fn add_fascia(&mut self, [a, b]: [P3; 2], depth: f64) {
        let [low_a, low_b] = [a, b].map(|p| below(p, depth));
        self.face(Surface::Fascia, Face::of([a, b, low_b, low_a]));
        for ends in [[low_a, low_b], [a, low_a], [b, low_b]] {
            self.line(Line::Wall, ends);
        }
    }

    fn add_walls(&mut self, roof: &Roof, survey: &Survey, ground: f64) {
        let runs = wall_runs(roof);
        for (i, run) in runs.iter().enumerate() {
            let others = || runs.iter().enumerate().filter(|&(j, _)| j != i).map(|(_, other)| other);
            self.add_run(run, ground, |end| others().any(|other| other.carries_on(run, end)));
        }
        self.add_posts(roof, survey, &runs, ground);
    }

    /// Posts at the corners that stand clear of walls, and beams from and to them.
    fn add_posts(&mut self, roof: &Roof, survey: &Survey, runs: &[Run], ground: f64) {
        let is_clear = |p: P2| !runs.iter().any(|run| run.is_at(p));
        for wall in roof.walls.iter().filter(|wall| wall.open) {
            let top = (wall.plate - survey.fascia(&wall.block)).m();
            let [from, to] = [wall.from, wall.to].map(|p| [p[0], p[1], top]);
            if is_clear(wall.from) {
                self.line(Line::Post, [[from[0], from[1], ground], from]);
            }
            if is_clear(wall.from) || is_clear(wall.to) {
                self.line(Line::Wall, [from, to]);
            }
        }
    }

    fn add_run(&mut self, run: &Run, ground: f64, carries_on: impl Fn(P2) -> bool) {
        let down = |p: P3| [p[0], p[1], ground.min(p[2])];
        let (Some(&first), Some(&last)) = (run.top.first(), run.top.last()) else { return };
        let outline: Vec<P3> =
            [down(first), down(last)].into_iter().chain(run.top.iter().rev().copied()).collect();
        self.face(Surface::Wall, Face::of(outline));
        run.top.windows(2).for_each(|w| self.line(Line::Wall, [w[0], w[1]]));
        self.line(Line::Wall, [down(first), down(last)]);
        for end in [first, last] {
            if !carries_on(plan_of(end)) {
                self.line(Line::Wall, [down(end), end]);
            }
        }
    }

    fn add_opening(&mut self, opening: &PlacedOpening, state: State) {
        if opening.kind == OpeningKind::Chimney {
            return self.add_chimney(&opening.rim, state);
        }
        let rim = if is_round(opening.kind) { round(&opening.rim) } else { opening.rim.to_vec() };
        self.add_ring(&rim, Line::Opening(state));
        self.face(Surface::Opening, Face::of(rim));
    }

    fn add_chimney(&mut self, rim: &[P3; 4], state: State) {
        let top = rim.iter().map(|p| p[2]).fold(f64::NEG_INFINITY, f64::max) + Length::from_ft(3.0).m();
        let up = |p: P3| [p[0], p[1], top];
        for i in 0..4 {
            let (a, b) = (rim[i], rim[(i + 1) % 4]);
            self.face(Surface::Chimney, Face::of([a, b, up(b), up(a)]));
            self.line(Line::Opening(state), [a, up(a)]);
        }
        self.face(Surface::Chimney, Face::of(rim.map(up)));
        self.add_ring(&rim.map(up), Line::Opening(state));
        self.add_ring(rim, Line::Opening(state));
    }

    fn add_cricket(&mut self, planes: &[[P3; 3]; 2]) {
        for plane in planes {
            self.face(Surface::Cricket, Face::of(*plane));
            self.add_ring(plane, Line::Cricket);
        }
    }

    fn add_ring(&mut self, ring: &[P3], line: Line) {
        crate::polygon::ring_sides(ring).for_each(|side| self.line(line, side));
    }
}

/// The ellipse that touches the middles of a rim's sides.
fn round(rim: &[P3; 4]) -> Vec<P3> {
    const CORNERS: u32 = 16;
    let center = between(rim[0], rim[2], 0.5);
    let [u, v] = [1, 2].map(|i| sub(between(rim[i], rim[i - 1], 0.5), center));
    let spoke = |i: u32| turned([1.0, 0.0], 360.0 * f64::from(i) / f64::from(CORNERS));
    (0..CORNERS).map(|i| along(along(center, u, spoke(i)[0]), v, spoke(i)[1])).collect()
}

/// Whether one of two planes turns its upper side to the eye and the other does not.
fn is_contour(planes: &[&Plane], eye: &Eye) -> bool {
    let is_faced = |plane: &Plane| dot([-plane.rise[0], -plane.rise[1], 1.0], eye.toward) > 0.0;
    matches!(planes, [a, b] if is_faced(a) != is_faced(b))
}

fn is_free(edge: &Edge) -> bool {
    matches!(edge.kind.family(), Family::LetsGo | Family::Ends)
}

fn below(p: P3, depth: f64) -> P3 {
    [p[0], p[1], p[2] - depth]
}

/// Height of the ground: the datum, or 8 ft under the lowest point of the roof.
fn ground(roof: &Roof) -> f64 {
    let lowest = roof.nodes.iter().map(|node| node.at[2]).fold(f64::INFINITY, f64::min);
    (lowest - Length::from_ft(8.0).m()).min(0.0)
}
