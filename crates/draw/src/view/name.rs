//! Plane names on a view, each where most of its plane can be seen; left out where there is no room, since the
//! plan has them all.

use roof::{Plane, Roof};

use crate::letter::{Cut, Text};
use crate::paper::Paper;
use crate::place::{Board, Tilted};
use crate::plan::plane_face;
use crate::polygon::{Bounds, boundary_distance, contains_well};
use crate::sight::{INSIDE, Scene};
use crate::svg::Svg;
use crate::vector::{P2, P3, dot};

/// Size of plane names on a view.
const SIZE: f64 = 3.4;
/// Tried places across and down a plane.
const GRID: u32 = 36;

/// A name where it stands.
#[derive(Clone, Debug)]
pub(crate) struct PlaneName {
    text: Text,
}

impl PlaneName {
    pub(crate) fn all(roof: &Roof, scene: &Scene, paper: &Paper, board: &mut Board) -> Vec<Self> {
        roof.planes.iter().filter_map(|plane| Self::place(plane, scene, paper, board)).collect()
    }

    fn place(plane: &Plane, scene: &Scene, paper: &Paper, board: &mut Board) -> Option<Self> {
        let on_plane = OnPlane::new(plane, scene, paper);
        let names =
            on_plane.spots().into_iter().map(|at| Text::new(plane.name.clone(), at, SIZE).cut(Cut::Bold));
        let fits = |text: &Text| text.room().grown(0.8).corners().into_iter().all(|p| on_plane.is_seen(p));
        let (text, _) = board.cheapest(names.filter(fits), rooms).filter(|&(_, cost)| cost == 0)?;
        board.take(text.room());
        Some(Self { text })
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        svg.text("plane-name", &self.text);
    }
}

fn rooms(text: &Text) -> Vec<Tilted> {
    vec![text.room()]
}

/// A plane as it lies on the paper of a view.
struct OnPlane<'a> {
    plane: &'a Plane,
    scene: &'a Scene,
    paper: &'a Paper,
    rings: Vec<Vec<P2>>,
}

impl<'a> OnPlane<'a> {
    fn new(plane: &'a Plane, scene: &'a Scene, paper: &'a Paper) -> Self {
        let screen = |ring: &Vec<P3>| ring.iter().map(|&p| scene.eye.screen(p)).collect();
        Self { plane, scene, paper, rings: plane_face(plane).rings.iter().map(screen).collect() }
    }

    /// Places on a grid where the plane is seen, those furthest from its border first.
    fn spots(&self) -> Vec<P2> {
        let bounds = Bounds::of(self.rings.iter().flatten().copied());
        let share = |i: u32| (f64::from(i) + 0.5) / f64::from(GRID);
        let grid = (0..GRID).flat_map(|j| (0..GRID).map(move |i| bounds.at([share(i), share(j)])));
        let mut seen: Vec<P2> = grid.filter(|&p| self.is_seen_on_screen(p)).collect();
        seen.sort_by(|&a, &b| {
            boundary_distance(&self.rings, b).total_cmp(&boundary_distance(&self.rings, a))
        });
        seen.into_iter().map(|p| self.paper.at(p)).collect()
    }

    fn is_seen(&self, on_paper: P2) -> bool {
        self.is_seen_on_screen(self.paper.screen(on_paper))
    }

    fn is_seen_on_screen(&self, screen: P2) -> bool {
        contains_well(&self.rings, screen, INSIDE)
            && self.point(screen).is_some_and(|p| !self.scene.covers(p))
    }

    /// The point of the plane behind a point of the screen; none for a plane seen edge-on.
    fn point(&self, screen: P2) -> Option<P3> {
        let eye = &self.scene.eye;
        let [a, b, c] = self.plane.rise;
        let base = eye.back(screen);
        let normal = [-a, -b, 1.0];
        let facing = dot(normal, eye.toward);
        let ahead = (c - dot(normal, base)) / facing;
        (facing.abs() > 1e-6).then(|| crate::vector::along(base, eye.toward, ahead))
    }
}
