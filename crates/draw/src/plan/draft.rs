//! The roof as it lies on the plan: which way up, what hides what, where on paper.

use std::collections::BTreeMap;

use job::Units;
use roof::{EdgeId, EdgeKind, Plane, PlaneId, Roof};

use crate::line::EdgeLine;
use crate::paper::Paper;
use crate::polygon::{Bounds, contains, contains_well, sides};
use crate::sight::{Eye, Face, INSIDE, Scene};
use crate::survey::Survey;
use crate::vector::{P2, P3, along, between, dot, plan_of, quarter, sub, unit};

/// What every part of the plan reads.
pub(crate) struct Draft<'a> {
    pub(crate) roof: &'a Roof,
    pub(crate) survey: &'a Survey,
    pub(crate) units: Units,
    /// How far the drawing is turned: this direction, degrees clockwise from north, is up on paper.
    pub(crate) up_degrees: f64,
    pub(crate) scene: Scene,
    /// Room kept free around the roof, mm on paper, where there are no dimension lines.
    pub(crate) surround: Option<f64>,
    /// Outlines of the planes on the screen.
    outlines: Vec<Vec<Vec<P2>>>,
}

impl<'a> Draft<'a> {
    pub(crate) fn new(roof: &'a Roof, survey: &'a Survey, units: Units) -> Self {
        let up_degrees = up_degrees(roof);
        let eye = Eye::above(up_degrees);
        let faces: Vec<Face> = roof.planes.iter().map(plane_face).collect();
        let on_screen = |face: &Face| {
            face.rings.iter().map(|ring| ring.iter().map(|&p| eye.screen(p)).collect()).collect()
        };
        let outlines = faces.iter().map(on_screen).collect();
        Self { roof, survey, units, up_degrees, scene: Scene::new(eye, &faces), surround: None, outlines }
    }

    /// With room around the roof in place of dimension lines.
    pub(crate) fn with_room(self, mm: f64) -> Self {
        Self { surround: Some(mm), ..self }
    }

    /// Around all planes, on the screen.
    pub(crate) fn bounds(&self) -> Bounds {
        Bounds::of(self.outlines.iter().flatten().flatten().copied())
    }

    pub(crate) fn outline(&self, plane: PlaneId) -> &[Vec<P2>] {
        &self.outlines[plane.0]
    }

    /// Sides of all outlines.
    pub(crate) fn sides(&self) -> impl Iterator<Item = [P2; 2]> {
        self.outlines.iter().flat_map(|rings| sides(rings))
    }

    /// Whether a point of the screen lies on the roof.
    pub(crate) fn is_roof(&self, at: P2) -> bool {
        self.outlines.iter().any(|rings| contains(rings, at))
    }

    /// A point of the job's plan on the screen.
    pub(crate) fn screen(&self, plan: P2) -> P2 {
        self.scene.eye.screen([plan[0], plan[1], 0.0])
    }

    /// Whether a point of the screen lies in a plane and can be seen there.
    pub(crate) fn shows(&self, id: PlaneId, at: P2) -> bool {
        let plan = turned_back(at, self.up_degrees);
        let point = [plan[0], plan[1], self.roof.plane(id).height_at(plan)];
        contains_well(self.outline(id), at, INSIDE) && !self.scene.covers(point)
    }

    /// Unit direction of a plane's fall on paper; zero for a level plane.
    pub(crate) fn fall(&self, plane: &Plane) -> P2 {
        Paper::direction(self.screen(plane.fall()))
    }

    /// An edge as a line on paper.
    pub(crate) fn line(&self, id: EdgeId, paper: &Paper) -> EdgeLine {
        let edge = self.roof.edge(id);
        let ends = self.roof.ends(id);
        let screen = ends.map(|p| self.scene.eye.screen(p));
        let plane = edge.planes.first().copied();
        let inward = plane.map_or([0.0, 0.0], |plane| self.inward(plane, screen));
        let fall = plane.map_or([0.0, 0.0], |plane| self.fall(self.roof.plane(plane)));
        let ends_on_paper = screen.map(|p| paper.at(p));
        let (seen, hidden) = (self.scene.seen(ends), self.scene.hidden(ends));
        EdgeLine {
            kind: edge.kind,
            ends: ends_on_paper,
            inward: Paper::direction(inward),
            fall,
            seen,
            hidden,
        }
    }

    /// Unit direction square to a side of a plane and into it.
    fn inward(&self, plane: PlaneId, [a, b]: [P2; 2]) -> P2 {
        const STEP: f64 = 0.02;
        let Some(d) = unit(sub(b, a)) else { return [0.0, 0.0] };
        let across = quarter(d);
        let is_inside = |t| contains_well(self.outline(plane), along(between(a, b, t), across, STEP), 0.0);
        let votes = [0.3, 0.5, 0.7].into_iter().filter(|&t| is_inside(t)).count();
        if votes > 1 { across } else { across.map(|x| -x) }
    }

    /// Edges that a legend must explain, one of each look.
    pub(crate) fn looks(&self) -> Vec<EdgeKind> {
        let key = |kind: EdgeKind| (kind.family(), !kind.is_shared());
        let is_seen = |i: &usize| !self.scene.seen(self.roof.ends(EdgeId(*i))).is_empty();
        let seen = (0..self.roof.edges.len()).rev().filter(is_seen).map(|i| self.roof.edges[i].kind);
        let looks: BTreeMap<_, _> = seen.map(|kind| (key(kind), kind)).collect();
        looks.into_values().collect()
    }
}

pub(crate) fn plane_face(plane: &Plane) -> Face {
    Face { rings: std::iter::once(&plane.outline).chain(&plane.holes).cloned().collect() }
}

fn turned_back([x, y]: P2, up_degrees: f64) -> P2 {
    let (sin, cos) = up_degrees.to_radians().sin_cos();
    [x * cos + y * sin, y * cos - x * sin]
}

/// The direction within 45° of north that most of the walls' length runs along or square to; such drawings have
/// level and upright dimension lines.
fn up_degrees(roof: &Roof) -> f64 {
    const NEAR: f64 = 0.25;
    let walls: Vec<(f64, f64)> = roof.walls.iter().filter_map(|wall| bearing(wall.from, wall.to)).collect();
    let alike = |degrees: f64| walls.iter().filter(move |wall| (wall.0 - degrees).abs() < NEAR);
    let weight = |degrees: f64| alike(degrees).map(|wall| wall.1).sum::<f64>();
    // Among equals the least turn, so that a house with walls every way keeps north up.
    let better = |a: &&(f64, f64), b: &&(f64, f64)| {
        weight(a.0).total_cmp(&weight(b.0)).then(b.0.abs().total_cmp(&a.0.abs()))
    };
    let Some(&(winner, _)) = walls.iter().max_by(better) else { return 0.0 };
    alike(winner).map(|(degrees, length)| degrees * length).sum::<f64>() / weight(winner)
}

/// How far a wall line is turned clockwise from the nearest of the four compass directions, with its length.
fn bearing(from: P2, to: P2) -> Option<(f64, f64)> {
    let d = sub(to, from);
    let length = dot(d, d).sqrt();
    let degrees = d[0].atan2(d[1]).to_degrees();
    let turn = degrees - 90.0 * (degrees / 90.0).round();
    (length > 1e-6).then_some((turn, length))
}

/// The plan of a point in space, on the screen.
pub(crate) fn on_screen(draft: &Draft, p: P3) -> P2 {
    draft.screen(plan_of(p))
}
