//! Which detail is built where: the roof with the numbers of its details, to go from the roof to the page of the crew book.
//!
//! Numbers are in 14 pt, as all that is read on the roof. A number that finds no room is left out, and the plan says how many are.

use detail::At;
use roof::plan::flat;
use roof::{EdgeId, PlaneId, Roof};

use super::PlanOptions;
use super::draft::Draft;
use super::label::spots;
use super::name::symbols;
use super::tag::{home, places_on};
use super::{take_lines, walls};
use crate::figure::{Figure, sheet_size};
use crate::ink::{FINE, PAPER, WALL};
use crate::letter::{Anchor, Cut, Text};
use crate::line::EdgeLine;
use crate::opening::OpeningSymbol;
use crate::paper::Paper;
use crate::place::{Board, Tilted, rings};
use crate::polygon::Bounds;
use crate::survey::Survey;
use crate::svg::{Path, Svg};
use crate::symbol::{draw_leader, leader, north_arrow_of, pill};
use crate::vector::{P2, distance, turned};

/// Size of all that is written: 14 pt.
const TEXT: f64 = 14.0 / 72.0 * 25.4;
/// Around the roof, for numbers.
const ROOM: f64 = 15.0;
/// Height of the line that says what is left out.
const NOTE: f64 = 7.0;
/// What a number on its own line with its fringe costs at most, and what a leader may.
const ON_LINE: u32 = 5;
const BESIDE: u32 = 8;

/// Draws the roof with the numbers of the details at each of its places.
pub fn key_plan(roof: &Roof, survey: &Survey, numbers: &[(At, Vec<usize>)], options: &PlanOptions) -> Figure {
    let size = sheet_size(options.size_mm);
    let draft = Draft::new(roof, survey, options.units);
    let paper = fitted(&draft, [size[0], size[1] - NOTE]);
    let key = Key::new(&draft, &paper, numbers, [size[0], size[1] - NOTE]);
    let mut svg = Svg::default();
    key.draw(&mut svg);
    let north = turned(Paper::direction([0.0, 1.0]), -draft.up_degrees);
    north_arrow_of(&mut svg, NORTH, north, TEXT);
    let words = key.left_out();
    if let Some(words) = &words {
        let at = [1.5, size[1] - NOTE / 2.0];
        svg.text("left-out", &Text::new(words.as_str(), at, TEXT).anchored(Anchor::Start));
    }
    let alt = format!(
        "The roof from above; at {} of its edges, ends and openings the number of the detail that is built there. {}",
        key.marks.len(),
        words.unwrap_or_default()
    );
    let alt = alt.trim_end().to_owned();
    Figure { svg: svg.finish(size, "Which detail where", &alt), width_mm: size[0], height_mm: size[1], alt }
}

/// Where the north arrow stands.
const NORTH: P2 = [8.0, 16.0];

/// The roof as large as its room lets it be, whatever the scale: nothing is measured here.
fn fitted(draft: &Draft, size: P2) -> Paper {
    let roof = draft.bounds();
    let scale = ((size[0] - 2.0 * ROOM) / roof.width()).min((size[1] - 2.0 * ROOM) / roof.height());
    let paper = Paper::at_corner(if scale.is_finite() && scale > 0.0 { scale } else { 1.0 });
    paper.centred(&paper.bounds(&roof), [size[0] / 2.0, size[1] / 2.0])
}

/// The numbers at a place where they stand.
struct Mark {
    text: Text,
    /// The point they are tied to, and how far off it a leader ends, where they do not stand on their line.
    tied_to: Option<(P2, f64)>,
}

impl Mark {
    fn half(&self) -> P2 {
        let height = TEXT * 0.62;
        [(self.text.width() / 2.0 + TEXT * 0.24).max(height), height]
    }

    fn room(&self) -> Tilted {
        Tilted::upright(self.text.at, self.half())
    }

    fn leader(&self) -> Option<[P2; 2]> {
        let (to, clear) = self.tied_to?;
        leader(&self.room(), to, clear)
    }

    fn rooms(&self) -> Vec<Tilted> {
        let leader = self.leader().map(|ends| Tilted::around(ends, 0.0));
        std::iter::once(self.room()).chain(leader).collect()
    }

    fn draw(&self, svg: &mut Svg) {
        if let Some(ends) = self.leader() {
            draw_leader(svg, ends);
        }
        svg.shape("detail-tag", &pill(self.text.at, self.half()), PAPER, &FINE);
        svg.text("detail-number", &self.text);
    }
}

struct Key<'a> {
    draft: &'a Draft<'a>,
    paper: &'a Paper,
    lines: Vec<EdgeLine>,
    symbols: Vec<OpeningSymbol>,
    marks: Vec<Mark>,
    names: Vec<Text>,
    missing: usize,
}

impl<'a> Key<'a> {
    fn new(draft: &'a Draft<'a>, paper: &'a Paper, numbers: &[(At, Vec<usize>)], size: P2) -> Self {
        let lines: Vec<EdgeLine> =
            (0..draft.roof.edges.len()).map(|i| draft.line(EdgeId(i), paper)).collect();
        let symbols = symbols(draft, paper);
        let mut board = Board::new(Bounds { low: [0.5; 2], high: size.map(|mm| mm - 0.5) });
        board.take(Tilted::upright(NORTH, [6.0, 14.0]));
        take_lines(&mut board, &lines, &walls(draft, paper), &[]);
        for symbol in &symbols {
            board.symbol(symbol.room());
        }
        let mut key = Self { draft, paper, lines, symbols, marks: Vec::new(), names: Vec::new(), missing: 0 };
        let mut order: Vec<&(At, Vec<usize>)> = numbers.iter().collect();
        // those with least room to stand in first
        order.sort_by(|a, b| key.length(a.0).total_cmp(&key.length(b.0)));
        for (at, numbers) in order {
            let mark = key.mark(*at, &listed(numbers), &board);
            board.take_all(mark.iter().flat_map(Mark::rooms));
            key.missing += usize::from(mark.is_none());
            key.marks.extend(mark);
        }
        key.name_planes(&mut board);
        key
    }

    /// How long on paper a place is: openings and ends have no length.
    fn length(&self, at: At) -> f64 {
        match at {
            At::Edge(id) => distance(self.lines[id.0].ends[0], self.lines[id.0].ends[1]),
            At::End(..) | At::Opening(_) => 0.0,
        }
    }

    /// Numbers on their line, or near their place.
    fn mark(&self, at: At, words: &str, board: &Board) -> Option<Mark> {
        let text = |at: P2| Text::new(words, at, TEXT).cut(Cut::Bold);
        let near = |to: P2, clear: f64| {
            let tied = move |at: P2| Mark { text: text(at), tied_to: Some((to, clear)) };
            board.with_leader(BESIDE, 1, &rings(to, 6.5, 2.5, 12).map(tied), Mark::rooms)
        };
        match at {
            At::Edge(id) => {
                let line = &self.lines[id.0];
                let on =
                    places_on(line, &line.seen).into_iter().map(|at| Mark { text: text(at), tied_to: None });
                let on = board.cheapest(on, Mark::rooms).filter(|&(_, cost)| cost <= ON_LINE);
                on.map(|(mark, _)| mark).or_else(|| near(home(line), 0.0))
            }
            At::End(_, node) => {
                near(self.paper.at(self.draft.screen(flat(self.draft.roof.node(node).at))), 0.0)
            }
            At::Opening(index) => {
                let symbol = &self.symbols[index];
                near(symbol.center(), symbol.room().half[0].min(symbol.room().half[1]))
            }
        }
    }

    /// Names of planes where one has room: a plan of numbers is read without them.
    fn name_planes(&mut self, board: &mut Board) {
        for id in (0..self.draft.roof.planes.len()).map(PlaneId) {
            let shows = |text: &Text| {
                text.room().corners().iter().all(|p| self.draft.shows(id, self.paper.screen(*p)))
            };
            let name = &self.draft.roof.plane(id).name;
            let places = spots(self.draft, self.paper, id);
            let texts = places.into_iter().map(|at| Text::new(name.as_str(), at, TEXT)).filter(shows);
            let best = board.cheapest(texts, |text| vec![text.room()]).filter(|&(_, cost)| cost == 0);
            board.take_all(best.iter().map(|(text, _)| text.room()));
            self.names.extend(best.map(|(text, _)| text));
        }
    }

    fn draw(&self, svg: &mut Svg) {
        let walls = walls(self.draft, self.paper);
        svg.stroke("wall", &walls.iter().fold(Path::default(), |path, wall| path.and_open(wall)), &WALL);
        self.lines.iter().for_each(|line| line.draw(svg));
        self.symbols.iter().for_each(|symbol| symbol.draw(svg));
        self.names.iter().for_each(|name| svg.text("plane", name));
        self.marks.iter().for_each(|mark| mark.draw(svg));
    }

    fn left_out(&self) -> Option<String> {
        let places = if self.missing == 1 { "place" } else { "places" };
        (self.missing > 0).then(|| format!("Without a number for want of room: {} {places}.", self.missing))
    }
}

/// Such as `3`, `3, 5` or `8–10`.
fn listed(numbers: &[usize]) -> String {
    let is_run = numbers.len() > 2 && numbers.windows(2).all(|two| two[1] == two[0] + 1);
    match numbers {
        [first, .., last] if is_run => format!("{first}–{last}"),
        _ => numbers.iter().map(usize::to_string).collect::<Vec<_>>().join(", "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_and_more_in_a_row_are_a_run() {
        assert_eq!(listed(&[3]), "3");
        assert_eq!(listed(&[3, 4]), "3, 4");
        assert_eq!(listed(&[8, 9, 10]), "8–10");
        assert_eq!(listed(&[8, 9, 11]), "8, 9, 11");
    }
}
