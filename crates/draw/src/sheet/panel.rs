//! What stands under a flat plane: pitch triangle, north as it lies in plan, area, scale, and a list of what
//! has no room on the drawing.

use job::Units;
use measure::Pitch;
use roof::EdgeId;
use takeoff::Of;

use super::edge_note::edge_words;
use super::flat::Layout;
use super::opening_note::tie_words;
use crate::count::whole;
use crate::letter::{Anchor, Cut, Text, shortened};
use crate::notation;
use crate::opening::marked_name;
use crate::scale::Scale;
use crate::svg::Svg;
use crate::symbol::{BAR_HEIGHT, NORTH_HALF, north_arrow, pitch_triangle, scale_bar};
use crate::vector::{P2, add};

/// Size of the words.
const SIZE: f64 = 3.6;
/// From one line of the list to the next.
const LINE: f64 = 4.9;
/// Width of triangle, area and scale.
const FACTS: f64 = 52.0;
/// Height of triangle, area and scale together.
const FACTS_HEIGHT: f64 = 37.0;
/// Facts to list.
const GAP: f64 = 4.0;
/// Largest run and rise of the triangle, mm.
const TRIANGLE: P2 = [22.0, 14.0];

/// Most of the sheet's height that the list may take.
const MOST: f64 = 0.55;

/// The panel with its list laid out.
pub(super) struct Panel {
    lines: Vec<(P2, String)>,
    pub(super) height: f64,
}

impl Panel {
    /// `listed` are the edges whose words are not on the drawing; `size` is that of the sheet.
    pub(super) fn new(layout: &Layout, listed: &[EdgeId], size: P2) -> Self {
        let room = size[0] - FACTS - GAP;
        let most = whole(size[1] * MOST / LINE, 1000);
        let openings: Vec<String> = layout
            .openings()
            .into_iter()
            .flat_map(|(opening, symbol)| {
                let name = shortened(&marked_name(&opening.name, symbol.state), SIZE, room / 2.0);
                let mut parts = vec![format!("{name}:")];
                parts.extend(listed_parts(tie_words(layout, opening)));
                broken(&parts, room)
            })
            .collect();
        let edges: Vec<String> =
            listed.iter().map(|&id| format!("{} {}", id.number(), edge_words(layout, id).0)).collect();
        let mut lines = in_columns(&edges, "edges", 0.0, room, most);
        let below = lines.iter().map(|(at, _)| at[1] + LINE).fold(0.0, f64::max);
        let rest = most.saturating_sub(whole((below / LINE).round(), 1000));
        lines.extend(in_columns(&openings, "openings", below, room, rest));
        let height = lines.iter().map(|(at, _)| at[1] + LINE).fold(FACTS_HEIGHT, f64::max);
        Self { lines, height }
    }

    pub(super) fn draw(&self, svg: &mut Svg, at: P2, layout: &Layout, scale: &Scale) {
        draw_triangle(svg, add(at, [1.0, TRIANGLE[1] + 1.0]), layout);
        north_arrow(svg, add(at, [FACTS - NORTH_HALF - 4.0, NORTH_HALF + 1.0]), layout.north());
        draw_facts(svg, add(at, [0.0, TRIANGLE[1] + 8.5]), layout);
        scale_bar(svg, add(at, [1.0, FACTS_HEIGHT - BAR_HEIGHT]), scale, layout.units, FACTS - 14.0);
        for (shift, line) in &self.lines {
            let at = add(at, add(*shift, [FACTS + GAP, LINE / 2.0]));
            svg.text("list", &Text::new(line.clone(), at, SIZE).anchored(Anchor::Start));
        }
    }
}

/// Lines in as many columns as their width allows, from a height down; what exceeds the rows is counted in the
/// last place.
fn in_columns(lines: &[String], what: &str, from: f64, room: f64, most_rows: u32) -> Vec<(P2, String)> {
    let widest = lines.iter().map(|line| width(line)).fold(0.0, f64::max) + GAP;
    let columns = whole((room + GAP) / widest, 20).max(1) as usize;
    let rows = lines.len().div_ceil(columns).min(most_rows.max(1) as usize);
    let places = rows * columns;
    let place = |i: usize| [widest * (i / rows) as f64, from + LINE * (i % rows) as f64];
    let shown = if lines.len() > places { places - 1 } else { lines.len() };
    let more = (shown < lines.len()).then(|| format!("and {} more {what}", lines.len() - shown));
    lines[..shown].iter().cloned().chain(more).enumerate().map(|(i, line)| (place(i), line)).collect()
}

fn width(line: &str) -> f64 {
    Text::new(line, [0.0; 2], SIZE).width()
}

/// Commas between the parts.
fn listed_parts(parts: Vec<String>) -> Vec<String> {
    let last = parts.len().saturating_sub(1);
    parts.into_iter().enumerate().map(|(i, part)| if i < last { format!("{part},") } else { part }).collect()
}

/// Parts joined into lines that fit, later lines set in.
fn broken(parts: &[String], room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {part}")) <= room => {
                line.push(' ');
                line.push_str(part);
            }
            Some(_) => lines.push(format!("\u{a0}\u{a0}{part}")),
            None => lines.push(part.clone()),
        }
    }
    lines
}

/// Twelve along, the rise upright; in metres the angle instead.
fn draw_triangle(svg: &mut Svg, corner: P2, layout: &Layout) {
    let pitch = layout.plane.pitch;
    if pitch == Pitch::LEVEL {
        return;
    }
    let run = TRIANGLE[0].min(TRIANGLE[1] / pitch.slope());
    pitch_triangle(svg, corner, run, pitch.slope());
    let beside = add(corner, [run + 2.0, -run * pitch.slope() / 2.0]);
    let number = |words: String, at: P2| Text::new(words, at, SIZE);
    let rise = match layout.units {
        Units::Us => notation::pitch(pitch, Units::Us).trim_end_matches("/12").to_owned(),
        Units::Si => notation::pitch(pitch, Units::Si),
    };
    svg.text("pitch", &number(rise, beside).anchored(Anchor::Start));
    if layout.units == Units::Us {
        svg.text("pitch", &number("12".into(), add(corner, [run / 2.0, 2.6])));
    }
}

fn draw_facts(svg: &mut Svg, at: P2, layout: &Layout) {
    let basis = layout.survey.basis(Of::Area(layout.id));
    let area = layout.plane.slope_area;
    let words = match layout.units {
        Units::Us => format!("{} · {:.2} squares", Units::Us.area(area), area.squares()),
        Units::Si => Units::Si.area(area),
    };
    let text = Text::new(basis.mark(words), at, SIZE).anchored(Anchor::Start).cut(Cut::Bold);
    svg.text("area", &basis.set(text));
}
