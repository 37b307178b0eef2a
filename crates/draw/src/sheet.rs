//! One plane laid flat at true size: what a crew cuts and lays by.
//!
//! The level runs across the sheet, up the slope is up, seen from outside. Every edge carries its number, kind
//! and true length; what has no room on the drawing stands in a list below it.

mod corner;
mod edge_note;
mod flat;
mod opening_note;
mod panel;

use job::Units;
use roof::{EdgeId, PlaneId, Roof};

use self::corner::Corner;
use self::edge_note::EdgeNote;
#[cfg(test)]
pub(crate) use self::flat::Flat;
use self::flat::Layout;
use self::opening_note::{DrawnDistance, OpeningNote};
use self::panel::Panel;
use crate::figure::{Figure, sheet_size};
use crate::ink::{Pen, edge_pen};
use crate::letter::{Cut, Text};
use crate::notation;
use crate::paper::Paper;
use crate::place::{Board, Tilted};
use crate::polygon::{Bounds, contains, roomiest};
use crate::scale::Scale;
use crate::survey::Survey;
use crate::svg::{Path, Svg};
use crate::symbol::arrow;
use crate::vector::{P2, add, distance};

/// How to draw a plane's sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetOptions {
    /// Width and height of the picture; at least 110 mm each way is used.
    pub size_mm: (f64, f64),
    /// How numbers are written, and which rule the scale is from.
    pub units: Units,
}

/// Border of the sheet, and room around the plane for words along its edges.
const BORDER: f64 = 1.5;
const WORDS: f64 = 10.5;

/// Draws one plane laid flat.
pub fn plane_sheet(roof: &Roof, survey: &Survey, plane: PlaneId, options: &SheetOptions) -> Figure {
    let size = sheet_size(options.size_mm);
    let sheet = Sheet { roof, survey, plane, units: options.units, size };
    let mut listed = Vec::new();
    // Listing an edge makes the drawing smaller, which may cost another edge its words: a few rounds settle it.
    for _ in 0..roof.plane(plane).edges.len() {
        let homeless = sheet.drawn(&listed).homeless;
        if homeless.is_empty() {
            break;
        }
        listed.extend(homeless);
        listed.sort();
    }
    let Drawn { svg, alt, .. } = sheet.drawn(&listed);
    let svg = svg.finish(size, &format!("Plane {}", roof.plane(plane).name), &alt);
    Figure { svg, width_mm: size[0], height_mm: size[1], alt }
}

/// What a sheet is drawn from.
struct Sheet<'a> {
    roof: &'a Roof,
    survey: &'a Survey,
    plane: PlaneId,
    units: Units,
    size: P2,
}

struct Drawn {
    svg: Svg,
    alt: String,
    /// Edges whose words found no room.
    homeless: Vec<EdgeId>,
}

impl Sheet<'_> {
    fn drawn(&self, listed: &[EdgeId]) -> Drawn {
        let panel = Panel::new(
            &self.layout(Paper::at_corner(1.0)),
            listed,
            [self.size[0] - 2.0 * BORDER, self.size[1]],
        );
        let panel_at = [BORDER, self.size[1] - BORDER - panel.height];
        let (scale, layout) = self.fit(panel_at[1]);
        let mut board = Board::new(Bounds { low: [0.5; 2], high: [self.size[0] - 0.5, panel_at[1] - 1.0] });
        let mut svg = Svg::default();
        draw_outline(&mut svg, &layout, &mut board);
        let homeless = draw_notes(&mut svg, &layout, listed, &mut board);
        panel.draw(&mut svg, panel_at, &layout, &scale);
        Drawn { svg, alt: self.described(&layout, &scale), homeless }
    }

    fn layout(&self, paper: Paper) -> Layout<'_> {
        Layout::new(self.roof, self.survey, self.plane, self.units, paper)
    }

    /// The largest scale at which the plane with its words stays above the panel.
    fn fit(&self, floor: f64) -> (Scale, Layout<'_>) {
        let room = [self.size[0] - 2.0 * (BORDER + WORDS), floor - 2.0 * WORDS - BORDER];
        let fits = |scale: &Scale| {
            let bounds = self.layout(Paper::at_corner(scale.mm_per_m())).bounds();
            bounds.width() <= room[0] && bounds.height() <= room[1]
        };
        let scale = Scale::first(self.units, fits);
        let paper = Paper::at_corner(scale.mm_per_m());
        let bounds = self.layout(paper).bounds();
        let layout = self.layout(paper.centred(&bounds, [self.size[0] / 2.0, f64::midpoint(BORDER, floor)]));
        (scale, layout)
    }

    fn described(&self, layout: &Layout, scale: &Scale) -> String {
        let plane = layout.plane;
        let edges = plane.edges.iter().map(|&id| {
            let (words, _) = edge_note::edge_words(layout, id);
            format!("{} {words}", id.number())
        });
        format!(
            "Plane {} laid flat, scale {}, pitch {}, {} on the slope. Edges: {}. {} openings.",
            plane.name,
            scale.name,
            notation::pitch(plane.pitch, self.units),
            self.units.area(plane.slope_area),
            edges.collect::<Vec<_>>().join(", "),
            layout.openings().len(),
        )
    }
}

fn draw_outline(svg: &mut Svg, layout: &Layout, board: &mut Board) {
    for &id in &layout.plane.edges {
        let line = layout.line(id);
        line.draw(svg);
        board.line(line.stretch([0.0, 1.0]));
        board.thin_line(line.fringe([0.0, 1.0]));
    }
    for (_, symbol) in layout.openings() {
        board.symbol(symbol.room());
    }
    draw_crickets(svg, layout);
}

/// The valleys of crickets, which lie in the plane.
fn draw_crickets(svg: &mut Svg, layout: &Layout) {
    let openings = layout.openings();
    let is_own = |cricket: &&roof::Cricket| {
        let opening = layout.roof.openings.get(cricket.opening);
        opening.is_some_and(|opening| openings.iter().any(|(own, _)| own.name == opening.name))
    };
    for [low, _, at_roof] in layout.roof.crickets.iter().filter(is_own).flat_map(|cricket| cricket.planes) {
        let pen = Pen { width: 0.35, ..edge_pen(roof::EdgeKind::Valley) };
        svg.stroke("cricket", &Path::open(&[low, at_roof].map(|p| layout.at(p))), &pen);
    }
}

/// Everything in words, in the order of what has least choice; gives back the edges whose words found no room.
fn draw_notes(svg: &mut Svg, layout: &Layout, listed: &[EdgeId], board: &mut Board) -> Vec<EdgeId> {
    let (notes, homeless) = EdgeNote::all(layout, listed, board);
    let openings = layout.openings();
    let names: Vec<_> =
        openings.iter().filter_map(|(opening, symbol)| OpeningNote::place(opening, symbol, board)).collect();
    let corners = Corner::all(layout, board);
    draw_fall(svg, layout, board);
    let distances: Vec<_> =
        openings.iter().flat_map(|(opening, _)| DrawnDistance::all(layout, opening, board)).collect();
    for distance in &distances {
        distance.draw(svg);
    }
    for (_, symbol) in &openings {
        symbol.draw(svg);
    }
    for corner in &corners {
        corner.draw(svg);
    }
    for name in &names {
        name.draw(svg);
    }
    for note in &notes {
        note.draw(svg);
    }
    homeless
}

/// The plane's name over an arrow down the fall, where the plane has most room left.
fn draw_fall(svg: &mut Svg, layout: &Layout, board: &mut Board) {
    const SHAFT: f64 = 10.0;
    let home = roomiest(&layout.rings);
    let name = |at: P2| Text::new(layout.plane.name.clone(), add(at, [0.0, -4.0]), 5.0).cut(Cut::Bold);
    let shaft = |at: P2| [at, add(at, [0.0, SHAFT])];
    let rooms = |at: &P2| {
        let arrow = (!layout.is_level()).then(|| Tilted::around(shaft(*at), 1.2));
        std::iter::once(name(*at).room()).chain(arrow).collect::<Vec<_>>()
    };
    let is_inside = |at: &P2| rooms(at).iter().flat_map(Tilted::corners).all(|p| contains(&layout.rings, p));
    let mut spots: Vec<P2> = grid(&layout.bounds()).filter(is_inside).collect();
    spots.sort_by(|&a, &b| distance(a, home).total_cmp(&distance(b, home)));
    let airy = |at: &P2| rooms(at).into_iter().map(|room| room.grown(1.5)).collect::<Vec<_>>();
    let free = |found: Option<(P2, u32)>| found.filter(|&(_, cost)| cost == 0);
    let found =
        free(board.cheapest(spots.iter().copied(), airy)).or_else(|| free(board.cheapest(spots, rooms)));
    let Some((at, _)) = found else { return };
    board.take_all(rooms(&at));
    svg.text("plane-name", &name(at));
    if !layout.is_level() {
        arrow(svg, shaft(at));
    }
}

fn grid(bounds: &Bounds) -> impl Iterator<Item = P2> + use<> {
    const N: u32 = 40;
    let bounds = *bounds;
    let share = |i: u32| (f64::from(i) + 0.5) / f64::from(N);
    (0..N).flat_map(move |j| (0..N).map(move |i| bounds.at([share(i), share(j)])))
}
