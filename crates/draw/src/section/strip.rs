//! The order of laying: the section once more for each layer, the new one heavy, those that lie already light.
//!
//! The first picture has the wood alone. Pictures go from one hand to the other and down, on as many sheets as they take; under each stands what
//! is laid, what it laps over and by how much, and how it is fastened.

use book::{Book, LookupError};
use detail::{Details, Section};
use job::Units;

use super::bend::Bend;
use super::legend::{layer_held, layer_laps};
use super::{Drawing, GAP, Reader, SectionOptions, WOOD, Weight, each_planned};
use crate::count::whole;
use crate::figure::{Figure, file_name, sheet_size};
use crate::ink::{DIMENSION, FAINT};
use crate::letter::{Anchor, Cut, Text, shortened, wrapped};
use crate::scale::Scale;
use crate::svg::{Path, Svg};
use crate::symbol::{SMALL, Tag, draw_leader};
use crate::vector::{P2, add, between, distance, sub};

/// Border of a sheet, and around what is in a panel.
const BORDER: f64 = 1.5;
const INSIDE: f64 = 2.0;
/// Least width of a panel.
const PANEL: f64 = 56.0;
/// Most height of its picture.
const PICTURE: f64 = 52.0;
/// From line to line of words.
const LINE: f64 = 3.9;
/// Height of the title.
const TITLE: f64 = 7.0;
/// A layer to its tag, and half a tag.
const TAG_OFF: f64 = 5.0;
const TAG: f64 = 2.6;

/// Draws the order in which a detail is laid.
pub fn laying_strip(section: &Section<'_>, options: &SectionOptions) -> Vec<Figure> {
    let size = sheet_size(options.size_mm);
    let layout = Layout::new(section, options.units, size);
    let panels: Vec<Panel> = (0..=section.sheets.len()).map(|count| layout.panel(count)).collect();
    let rows: Vec<&[Panel]> = panels.chunks(layout.columns).collect();
    let sheets = layout.sheets(&rows);
    let count = sheets.len();
    sheets.iter().enumerate().map(|(i, rows)| layout.sheet(rows, [i + 1, count])).collect()
}

/// Draws the order of laying of every detail that is to be built on a house, with a name for each sheet.
///
/// # Errors
/// Rows the books do not have.
pub fn laying_strips(
    details: &Details,
    book: &Book,
    options: &SectionOptions,
) -> Result<Vec<(String, Figure)>, LookupError> {
    let drawn = each_planned(details, book, |cut, _| laying_strip(cut, options))?;
    let named = drawn.into_iter().flat_map(|(name, sheets)| {
        let name = file_name(&format!("laying {name}"));
        sheets.into_iter().enumerate().map(move |(i, figure)| (numbered(&name, i), figure))
    });
    Ok(named.collect())
}

/// Further sheets have a number.
fn numbered(name: &str, sheet: usize) -> String {
    if sheet == 0 { name.to_owned() } else { format!("{name}-{}", sheet + 1) }
}

/// One picture with its words.
struct Panel {
    /// How many layers lie, the last of them new.
    count: usize,
    name: String,
    lines: Vec<String>,
}

/// Where panels go, and how large they are.
struct Layout<'a> {
    section: &'a Section<'a>,
    units: Units,
    size: P2,
    columns: usize,
    width: f64,
    scale: Scale,
    /// Of the picture, with room for tags.
    picture: f64,
}

impl<'a> Layout<'a> {
    fn new(section: &'a Section<'a>, units: Units, size: P2) -> Self {
        let columns = whole((size[0] - 2.0 * BORDER) / PANEL, 12).max(1);
        let width = (size[0] - 2.0 * BORDER) / f64::from(columns);
        let room = [width - 2.0 * INSIDE, PICTURE];
        let fits = |scale: &Scale| {
            let bounds = Bend::new(section, scale.mm_per_m()).bounds(deep(section));
            bounds.width() <= room[0] && bounds.height() <= room[1]
        };
        let scale = Scale::first(units, fits);
        let picture = Bend::new(section, scale.mm_per_m()).bounds(deep(section)).height();
        Self { section, units, size, columns: columns as usize, width, scale, picture }
    }

    fn panel(&self, count: usize) -> Panel {
        let room = self.width - 2.0 * INSIDE;
        let Some(index) = count.checked_sub(1).map(|turn| self.section.laying()[turn]) else {
            let faces: Vec<&str> = self.section.faces.iter().map(|laid| laid.face.name.as_str()).collect();
            let lines = wrapped(&faces.join(", "), room, SMALL);
            return Panel { count, name: "wood, bare".to_owned(), lines };
        };
        let sheet = &self.section.sheets[index];
        let parts = [
            sheet.material.name.clone(),
            layer_laps(sheet.layer, self.units),
            layer_held(sheet.layer, self.units),
        ];
        let parts = parts.into_iter().filter(|part| !part.is_empty());
        let lines = parts
            .flat_map(|part| wrapped(&part, room, SMALL))
            .map(|line| shortened(&line, SMALL, room + 0.1));
        Panel { count, name: sheet.layer.id.clone(), lines: lines.collect() }
    }

    fn height(&self, row: &[Panel]) -> f64 {
        let lines = row.iter().map(|panel| panel.lines.len()).max().unwrap_or(0);
        self.picture + 2.0 * INSIDE + LINE * (lines as f64 + 1.4) + INSIDE
    }

    /// Rows of panels by sheet.
    fn sheets<'p>(&self, rows: &[&'p [Panel]]) -> Vec<Vec<&'p [Panel]>> {
        let room = self.size[1] - TITLE - 2.0 * BORDER;
        let mut sheets: Vec<Vec<&[Panel]>> = Vec::new();
        let mut taken = f64::INFINITY;
        for row in rows {
            let height = self.height(row);
            if taken + height > room {
                sheets.push(Vec::new());
                taken = 0.0;
            }
            taken += height;
            if let Some(sheet) = sheets.last_mut() {
                sheet.push(row);
            }
        }
        sheets
    }

    fn sheet(&self, rows: &[&[Panel]], [number, of]: [usize; 2]) -> Figure {
        let name = &self.section.detail.name;
        let sheet = if of > 1 { format!(", sheet {number} of {of}") } else { String::new() };
        let title =
            format!("{name}: order of laying{sheet}; {} along the wood, layers drawn apart", self.scale.name);
        let mut svg = Svg::default();
        let room = self.size[0] - 2.0 * BORDER;
        let words = Text::new(shortened(&title, SMALL, room * 0.95), [BORDER, TITLE / 2.0], SMALL);
        svg.text("title", &words.anchored(Anchor::Start).cut(Cut::Bold));
        let mut top = TITLE;
        for row in rows {
            for (column, panel) in row.iter().enumerate() {
                self.draw(&mut svg, panel, [BORDER + self.width * column as f64, top], self.height(row));
            }
            top += self.height(row);
        }
        let told: Vec<String> = rows.iter().flat_map(|row| row.iter()).map(Panel::told).collect();
        let (alt, height) = (format!("{title}. {}", told.join(" ")), top + BORDER);
        let svg = svg.finish([self.size[0], height], &format!("{name}: order of laying"), &alt);
        Figure { svg, width_mm: self.size[0], height_mm: height, alt }
    }

    fn draw(&self, svg: &mut Svg, panel: &Panel, [x, y]: P2, height: f64) {
        let corners = [[x, y], [x + self.width, y], [x + self.width, y + height], [x, y + height]];
        svg.stroke("panel", &Path::closed(&corners), &DIMENSION);
        let bend = Bend::new(self.section, self.scale.mm_per_m());
        let bounds = bend.bounds(deep(self.section));
        let middle = [x + self.width / 2.0, y + INSIDE + self.picture / 2.0];
        let bend = bend.moved(sub(middle, bounds.at([0.5, 0.5])));
        let stack = Bend::deepest(self.section) * GAP;
        let drawing = Drawing {
            section: self.section,
            bend,
            units: self.units,
            stack,
            hand: Reader::Desk.hand(),
            short: None,
        };
        drawing.wood(svg);
        drawing.through(svg);
        let laid = &self.section.laying()[..panel.count];
        for (turn, index) in laid.iter().enumerate() {
            let weight = if turn + 1 == panel.count { Weight::New } else { Weight::Earlier };
            drawing.layer(svg, *index, weight);
        }
        if let Some(new) = laid.last().copied() {
            drawing.fasteners(svg, new..new + 1);
            drawing.breaks(svg, new..new + 1);
            self.tag(svg, &drawing.bend, new);
        }
        self.words(svg, panel, [x + INSIDE, y + 2.0 * INSIDE + self.picture]);
    }

    fn tag(&self, svg: &mut Svg, bend: &Bend, index: usize) {
        let Some([from, to]) = bend.tag_of(self.section, index, TAG_OFF) else { return };
        let near = between(to, from, (TAG / distance(to, from)).min(1.0));
        draw_leader(svg, [near, from]);
        Tag::new(self.section.number(index), SMALL).draw(svg, to);
    }

    fn words(&self, svg: &mut Svg, panel: &Panel, at: P2) {
        let line = |row: f64, words: String| {
            Text::new(words, add(at, [0.0, LINE * (row + 0.5)]), SMALL).anchored(Anchor::Start)
        };
        let name = shortened(&panel.head(), SMALL, (self.width - 2.0 * INSIDE) * 0.93);
        svg.text("layer-name", &line(0.0, name).cut(Cut::Bold));
        for (row, words) in panel.lines.iter().enumerate() {
            let text = line(row as f64 + 1.1, words.clone());
            svg.text(
                "layer-told",
                &Text { colour: if panel.count == 0 { FAINT } else { text.colour }, ..text },
            );
        }
    }
}

impl Panel {
    fn head(&self) -> String {
        if self.count == 0 { self.name.clone() } else { format!("{}  {}", self.count, self.name) }
    }

    fn told(&self) -> String {
        format!("{}: {}.", self.head(), self.lines.join(" "))
    }
}

/// How far off the wood the picture reaches: over the top layer's tag, and at least as far as the wood is deep.
fn deep(section: &Section<'_>) -> f64 {
    (Bend::deepest(section) * GAP + TAG_OFF + TAG).max(WOOD)
}
