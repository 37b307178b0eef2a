//! Axonometric view: the house from above one side, what is behind left out.
//!
//! Parallel projection, so that equal lengths in one direction stay equal. Faces are painted from the farthest to
//! the nearest piece ([`crate::order`]); lines are cut to what can be seen of them ([`crate::sight`]). Faces
//! are toned by which way they lean, in few light greys.

mod name;
mod solid;
mod wall;

use roof::{EdgeKind, Family, Roof};

use self::name::PlaneName;
use self::solid::Line;
pub(crate) use self::solid::{Solid, Surface};
use crate::count::whole;
use crate::figure::{Figure, sheet_size};
use crate::ink::{FINE, INK, PAPER, Pen, WATER, edge_pen};
use crate::order::far_to_near;
use crate::paper::Paper;
use crate::place::Board;
use crate::polygon::Bounds;
use crate::sight::{Eye, Face, Scene};
use crate::survey::Survey;
use crate::svg::{Path, Svg};
use crate::symbol::{NORTH_HALF, north_arrow};
use crate::vector::{P2, P3, between, dot, unit};

/// How to draw a view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ViewOptions {
    /// Width and height of the picture; at least 110 mm each way is used.
    pub size_mm: (f64, f64),
    /// Where the eye is, degrees clockwise from north: 225 looks at the house from the south-west.
    pub azimuth_degrees: f64,
}

/// Height of the eye above the horizon.
const ABOVE_DEGREES: f64 = 32.0;

/// Draws the house from above one side.
pub fn view(roof: &Roof, survey: &Survey, options: &ViewOptions) -> Figure {
    let size = sheet_size(options.size_mm);
    let azimuth = if options.azimuth_degrees.is_finite() { options.azimuth_degrees } else { 0.0 };
    let eye = Eye::from_direction(azimuth, ABOVE_DEGREES);
    let solid = Solid::of(roof, survey, &eye);
    let scene = Scene::new(eye, &solid.faces);
    let paper = fit(&solid, &eye, size);
    let mut svg = Svg::default();
    paint(&mut svg, &solid, &scene, &paper);
    let mut board = Board::new(Bounds { low: [0.5; 2], high: size.map(|mm| mm - 0.5) });
    draw_lines(&mut svg, &solid, &scene, &paper, &mut board);
    for name in PlaneName::all(roof, &scene, &paper, &mut board) {
        name.draw(&mut svg);
    }
    draw_north(&mut svg, &eye, size);
    let alt = described(roof, azimuth);
    let svg = svg.finish(size, "View of the roof", &alt);
    Figure { svg, width_mm: size[0], height_mm: size[1], alt }
}

/// As large as the sheet allows; a view has no scale to keep.
fn fit(solid: &Solid, eye: &Eye, size: P2) -> Paper {
    const BORDER: f64 = 3.0;
    let corners = solid.faces.iter().flat_map(|face| face.rings.iter().flatten());
    let ends = solid.lines.iter().flat_map(|(_, ends)| ends);
    let bounds = Bounds::of(corners.chain(ends).map(|&p| eye.screen(p)));
    let room = [size[0] - 2.0 * BORDER, size[1] - 2.0 * BORDER];
    let mm_per_m = (room[0] / bounds.width().max(1.0)).min(room[1] / bounds.height().max(1.0));
    let paper = Paper::at_corner(mm_per_m);
    paper.centred(&paper.bounds(&bounds), [size[0] / 2.0, size[1] / 2.0])
}

/// Fills the faces, the farthest first. Neighbouring pieces of one face go into one path, and each piece is
/// rimmed in its own tone, so that no seam shows between them.
fn paint(svg: &mut Svg, solid: &Solid, scene: &Scene, paper: &Paper) {
    let mut pieces = far_to_near(&solid.faces, scene.eye.toward).into_iter().peekable();
    while let Some(piece) = pieces.next() {
        let on_paper =
            |corners: &[P3]| corners.iter().map(|&p| paper.at(scene.eye.screen(p))).collect::<Vec<_>>();
        let mut path = Path::closed(&on_paper(&piece.corners));
        while let Some(next) = pieces.next_if(|next| next.face == piece.face) {
            path = path.and_closed(&on_paper(&next.corners));
        }
        let tone = tone(solid.surfaces[piece.face], &solid.faces[piece.face], &scene.eye);
        svg.shape("face", &path, tone, &Pen { width: 0.12, dash: &[], colour: tone });
    }
}

/// Tones of roof planes from light to dark, and of walls.
const PLANES: [&str; 5] = ["#f4f4f4", "#e8e8e8", "#dcdcdc", "#cfcfcf", "#c2c2c2"];
const WALLS: [&str; 2] = ["#ffffff", "#f7f7f7"];

/// Light comes over one shoulder of the eye: what leans towards it is light.
fn tone(surface: Surface, face: &Face, eye: &Eye) -> &'static str {
    let normal = face.normal().unwrap_or([0.0, 0.0, 1.0]);
    let facing = if dot(normal, eye.toward) < 0.0 { normal.map(|x| -x) } else { normal };
    let lit = dot(facing, eye.over_the_shoulder()).clamp(0.0, 1.0);
    match surface {
        Surface::Opening => PAPER,
        Surface::Fascia => WALLS[0],
        Surface::Wall => WALLS[usize::from(lit < 0.4)],
        Surface::Plane(_) | Surface::Cricket | Surface::Chimney => {
            PLANES[whole((1.0 - lit) * 7.0, 4) as usize]
        }
    }
}

fn draw_lines(svg: &mut Svg, solid: &Solid, scene: &Scene, paper: &Paper, board: &mut Board) {
    let mut lines: Vec<_> = solid.lines.iter().collect();
    lines.sort_by(|a, b| pen(a.0).width.total_cmp(&pen(b.0).width));
    for &&(line, ends) in &lines {
        for [from, to] in scene.seen(ends) {
            let seen = [from, to].map(|t| paper.at(scene.eye.screen(between(ends[0], ends[1], t))));
            svg.stroke(class(line), &Path::open(&seen), &pen(line));
            board.line(seen);
        }
    }
}

/// As on the plan, somewhat lighter: a view has no symbols along its lines.
const fn pen(line: Line) -> Pen {
    match line {
        Line::Edge(kind) => Pen { width: edge_width(kind), ..edge_pen(kind) },
        Line::Contour => Pen { width: 0.5, dash: &[], colour: INK },
        Line::Wall => Pen { width: 0.18, dash: &[], colour: INK },
        Line::Post => Pen { width: 0.4, dash: &[], colour: INK },
        Line::Opening(job::State::Plan) => Pen { width: 0.4, dash: &[1.0, 0.6], colour: INK },
        Line::Opening(_) => Pen { width: 0.25, dash: &[], colour: INK },
        Line::Cricket => Pen { width: 0.25, dash: &[], colour: WATER },
    }
}

const fn edge_width(kind: EdgeKind) -> f64 {
    match kind.family() {
        Family::Divides => 0.6,
        Family::Gathers => 0.5,
        Family::LetsGo => 0.45,
        Family::Ends => 0.3,
        Family::Passes => FINE.width,
    }
}

const fn class(line: Line) -> &'static str {
    match line {
        Line::Edge(_) | Line::Contour => "edge",
        Line::Wall => "wall",
        Line::Post => "post",
        Line::Opening(_) => "opening",
        Line::Cricket => "cricket",
    }
}

/// North as it lies on the ground, in a corner.
fn draw_north(svg: &mut Svg, eye: &Eye, size: P2) {
    let north = unit(Paper::direction(eye.screen([0.0, 1.0, 0.0]))).unwrap_or([0.0, -1.0]);
    let margin = NORTH_HALF + 2.5;
    north_arrow(svg, [size[0] - margin, size[1] - margin], north);
}

fn described(roof: &Roof, azimuth: f64) -> String {
    let names: Vec<_> = roof.planes.iter().map(|plane| plane.name.as_str()).collect();
    format!(
        "View of the house from the {}, above. Planes: {}. Walls, posts and chimneys are sketched; only the roof is measured.",
        compass(azimuth),
        names.join(", ")
    )
}

/// The nearest of the eight compass directions, degrees clockwise from north, in words.
pub fn compass(azimuth: f64) -> &'static str {
    const NAMES: [&str; 8] =
        ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];
    NAMES[whole((azimuth.rem_euclid(360.0) / 45.0).round(), 8) as usize % 8]
}
