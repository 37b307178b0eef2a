//! Layers to wet: how many must fail before water reaches wood, place by place, as found and as planned.
//!
//! One row a place, the worst first; places of one sort with the same answers share one. One column an attack; within it a ring stands where
//! the place is as found, a dot where it will be, on a scale from nought. A column stays empty where its attack cannot happen.

mod row;

use detail::{Attack, Details, MOST_FAILURES};
use roof::Roof;

use self::row::{Count, Row};
use crate::figure::{Figure, sheet_size};
use crate::ink::{FAINT, FINE, INK, MARK, Pen};
use crate::letter::{Anchor, Cut, Text, wrapped};
use crate::svg::{Path, Svg};
use crate::symbol::SMALL;
use crate::vector::P2;

/// How to draw a chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartOptions {
    /// Width, and most height, of each sheet; at least 110 mm each way is used.
    pub size_mm: (f64, f64),
}

/// Border of a sheet.
const BORDER: f64 = 2.0;
/// Share of the width that names of places take.
const NAMES: f64 = 0.33;
/// From line to line of words.
const LINE: f64 = 4.1;
/// Title, names of the attacks in two lines at most, and their scales.
const HEAD: f64 = BORDER + 3.4 * LINE + 1.5;
/// Least height of a row.
const ROW: f64 = 6.2;
/// Radius of the ring of what is found, and of the dot of what is planned: one fits into the other.
const RING: f64 = 1.75;
const DOT: f64 = 1.0;
/// Pattern of a ring that nobody surveyed.
const BROKEN: [f64; 2] = [1.1, 0.7];
/// Tone behind nought.
const NOUGHT: &str = "#c9c9c9";
/// Line of a row, of the scale.
const RULE: Pen = Pen { width: 0.15, dash: &[], colour: FAINT };

/// What the marks say.
const READING: &str = "How many layers or fasteners must each fail by itself before water reaches wood. At 0 nothing holds it: water gets there \
                       as it is. Sealant counts nothing. An empty column: it does not happen there. A broken ring: nobody surveyed it, the books' \
                       usual case stands in. Edges are numbered as on the plan.";

/// Draws the chart on as many sheets as it takes.
pub fn layers_chart(details: &Details, roof: &Roof, options: &ChartOptions) -> Vec<Figure> {
    let size = sheet_size(options.size_mm);
    let rows = Row::all(details, roof);
    let frame = Frame::new(size, &rows);
    let sheets = frame.sheets(&rows);
    let count = sheets.len();
    sheets.iter().enumerate().map(|(i, rows)| frame.sheet(rows, [i + 1, count])).collect()
}

/// Where columns and lines go.
struct Frame {
    size: P2,
    /// Of names.
    width: f64,
    /// Of a column.
    column: f64,
    /// The largest number of the scale.
    most: usize,
    /// Whether anything takes more failures than are counted.
    has_never: bool,
    reading: Vec<String>,
}

impl Frame {
    fn new(size: P2, rows: &[Row]) -> Self {
        let width = NAMES * size[0] - BORDER;
        let column = (size[0] - 2.0 * BORDER - width) / Attack::ALL.len() as f64;
        let counts = || rows.iter().flat_map(Row::counts);
        let failures = |count: Count| match count {
            Count::Failures(count) => Some(count),
            Count::Never | Count::Nothing => None,
        };
        Self {
            size,
            width,
            column,
            most: counts().filter_map(failures).max().unwrap_or(0).max(3),
            has_never: counts().any(|count| matches!(count, Count::Never)),
            reading: wrapped(READING, size[0] - 2.0 * BORDER, SMALL),
        }
    }

    /// Marks and how to read them.
    fn foot(&self) -> f64 {
        BORDER + (self.reading.len() as f64 + 1.6) * LINE
    }

    /// Rows by sheet.
    fn sheets<'r>(&self, rows: &'r [Row]) -> Vec<&'r [Row]> {
        let room = self.size[1] - HEAD - self.foot() - 2.0;
        let (mut sheets, mut from, mut taken) = (Vec::new(), 0, 0.0);
        for (i, row) in rows.iter().enumerate() {
            let height = self.height(row);
            if taken + height > room && i > from {
                sheets.push(&rows[from..i]);
                (from, taken) = (i, 0.0);
            }
            taken += height;
        }
        sheets.push(&rows[from..]);
        sheets
    }

    /// Lines of a row's name, no more than fill half a sheet.
    fn lines(&self, row: &Row) -> Vec<String> {
        let mut lines = wrapped(&row.name, self.width - 2.0, SMALL);
        let most = crate::count::whole((self.size[1] - HEAD - self.foot()) * 0.5 / LINE, 40).max(1);
        lines.truncate(most as usize);
        lines.into_iter().map(|line| crate::letter::shortened(&line, SMALL, self.width - 2.0)).collect()
    }

    fn height(&self, row: &Row) -> f64 {
        (self.lines(row).len() as f64 * LINE + 1.6).max(ROW)
    }

    /// Where a count of an attack stands.
    fn at(&self, attack: usize, count: Count) -> Option<f64> {
        let steps = self.most + usize::from(self.has_never);
        let step = (self.column - 2.0 * 3.6) / steps as f64;
        let left = BORDER + self.width + self.column * attack as f64 + 3.6;
        match count {
            Count::Failures(count) => Some(left + step * count as f64),
            Count::Never => Some(left + step * steps as f64),
            Count::Nothing => None,
        }
    }

    fn sheet(&self, rows: &[Row], [number, of]: [usize; 2]) -> Figure {
        let mut svg = Svg::default();
        let title =
            if of > 1 { format!("Layers to wet, sheet {number} of {of}") } else { "Layers to wet".into() };
        svg.text("title", &start(&title, [BORDER, BORDER + LINE * 0.5]).cut(Cut::Bold));
        let bottom = HEAD + rows.iter().map(|row| self.height(row)).sum::<f64>();
        self.scales(&mut svg, bottom);
        let mut top = HEAD;
        for row in rows {
            self.row(&mut svg, row, top);
            top += self.height(row);
        }
        let height = bottom + 2.0 + self.foot();
        self.key(&mut svg, bottom + 2.0);
        let told: Vec<String> = rows.iter().map(Row::told).collect();
        let alt = format!("{title}, the worst place first. {}", told.join(" "));
        let svg = svg.finish([self.size[0], height], "Layers to wet", &alt);
        Figure { svg, width_mm: self.size[0], height_mm: height, alt }
    }

    /// Names of the attacks, their numbers, and lines down from them; the strip of nought is toned.
    fn scales(&self, svg: &mut Svg, bottom: f64) {
        let top = HEAD;
        for (index, attack) in Attack::ALL.iter().enumerate() {
            let middle = BORDER + self.width + self.column * (index as f64 + 0.5);
            for (row, words) in
                wrapped(attack.name(), self.column - 1.5, SMALL).iter().rev().take(2).enumerate()
            {
                let at = [middle, top - 1.5 - LINE * (row as f64 + 1.4)];
                svg.text("attack", &Text::new(words, at, SMALL).cut(Cut::Bold));
            }
            let counts = (0..=self.most).map(|count| (Count::Failures(count), count.to_string()));
            let never = self.has_never.then(|| (Count::Never, format!(">{MOST_FAILURES}")));
            for (count, words) in counts.chain(never) {
                let Some(x) = self.at(index, count) else { continue };
                if matches!(count, Count::Failures(0)) {
                    let half = RING + 0.5;
                    let strip = [[x - half, top], [x + half, top], [x + half, bottom], [x - half, bottom]];
                    svg.fill("nought", &Path::closed(&strip), NOUGHT);
                }
                svg.stroke("scale", &Path::open(&[[x, top], [x, bottom]]), &RULE);
                svg.text("count", &Text::new(words, [x, top - 2.0], SMALL));
            }
        }
    }

    fn row(&self, svg: &mut Svg, row: &Row, top: f64) {
        let height = self.height(row);
        let line = [[BORDER, top], [self.size[0] - BORDER, top]];
        svg.stroke("row", &Path::open(&line), &FINE);
        let lines = self.lines(row);
        let first = top + height / 2.0 - LINE * (lines.len() as f64 - 1.0) / 2.0;
        for (i, words) in lines.iter().enumerate() {
            svg.text("place", &start(words, [BORDER, first + LINE * i as f64]));
        }
        let y = top + height / 2.0;
        for (attack, [found, planned]) in row.stands.iter().enumerate() {
            let [found_at, planned_at] = [*found, *planned].map(|count| self.at(attack, count));
            if let (Some(a), Some(b)) = (found_at, planned_at) {
                let ends = [a + RING * (b - a).signum(), b];
                if (b - a).abs() > RING {
                    svg.stroke("change", &Path::open(&ends.map(|x| [x, y])), &MARK);
                }
            }
            if let Some(x) = found_at {
                ring(svg, [x, y], matches!(found, Count::Failures(0)), row.is_assumed);
            }
            if let Some(x) = planned_at {
                svg.fill("planned", &Path::circle([x, y], DOT), INK);
            }
        }
    }

    /// What the marks mean.
    fn key(&self, svg: &mut Svg, top: f64) {
        let y = top + LINE * 0.8;
        let mut x = BORDER + RING + 0.3;
        for (words, found, is_nought, is_assumed, planned) in [
            ("as found", true, false, false, false),
            ("found, not surveyed", true, false, true, false),
            ("found at 0", true, true, false, false),
            ("as planned", false, false, false, true),
            ("both", true, false, false, true),
        ] {
            if found {
                ring(svg, [x, y], is_nought, is_assumed);
            }
            if planned {
                svg.fill("planned", &Path::circle([x, y], DOT), INK);
            }
            let text = start(words, [x + RING + 1.3, y]);
            x += RING + text.width() + 6.0;
            svg.text("key", &text);
        }
        for (i, words) in self.reading.iter().enumerate() {
            svg.text("reading", &start(words, [BORDER, top + LINE * (i as f64 + 2.0)]));
        }
    }
}

/// The ring of what is found; heavy, and crossed, where nothing holds; broken where nobody surveyed it.
fn ring(svg: &mut Svg, at: P2, is_nought: bool, is_assumed: bool) {
    let dash: &[f64] = if is_assumed { &BROKEN } else { &[] };
    let pen = Pen { width: if is_nought { 0.75 } else { 0.4 }, dash, ..MARK };
    svg.shape("found", &Path::circle(at, RING), crate::ink::PAPER, &pen);
    if is_nought {
        let far = RING * 0.72;
        let [x, y] = at;
        let cross = Path::open(&[[x - far, y - far], [x + far, y + far]])
            .and_open(&[[x - far, y + far], [x + far, y - far]]);
        svg.stroke("found-nought", &cross, &Pen { width: 0.5, ..MARK });
    }
}

fn start(words: &str, at: P2) -> Text {
    Text::new(words, at, SMALL).anchored(Anchor::Start)
}
