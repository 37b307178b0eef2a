//! Dimensioned roof plan.
//!
//! Seen from above and turned so that the walls lie level and upright on paper (at most 45°; the arrow shows
//! north), at the largest scale of the rule that leaves room for dimension lines and legend. Numbers and names
//! are placed one after the other where they cover no other text and, where there is a choice, no line; see
//! [`crate::place`]. A plane without room for its name gets a letter, and its name stands in the legend. What else finds no room
//! is left out, and the plan says how much that is.

mod chain;
mod draft;
mod fit;
mod key;
mod label;
mod legend;
mod name;
mod note;
mod tag;
mod water;

use std::collections::BTreeMap;

use job::Units;
use measure::Length;
use roof::{EdgeId, EdgeKind, PlaneId, Roof};

use self::chain::Chain;
use self::draft::Draft;
pub(crate) use self::draft::plane_face;
use self::fit::Fit;
pub use self::key::key_plan;
use self::label::Label;
use self::legend::Legend;
use self::name::{OpeningNames, symbols};
use self::tag::PlacedTag;
pub(crate) use self::water::Stream;
pub use self::water::{WaterScene, meets_wall, owner_water, water_plan};
use crate::figure::{Figure, sheet_size};
use crate::ink::{FINE, MARK, Pen, WALL, edge_pen};
use crate::letter::{Anchor, Text};
use crate::line::EdgeLine;
use crate::notation;
use crate::opening::OpeningSymbol;
use crate::paper::Paper;
use crate::place::Board;
use crate::polygon::Bounds;
use crate::scale::Scale;
use crate::survey::Survey;
use crate::svg::{Path, Svg};
use crate::symbol::SMALL;
use crate::vector::P2;

/// How to draw a plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanOptions {
    /// Width and height of the picture; at least 110 mm each way is used.
    pub size_mm: (f64, f64),
    /// How numbers are written, and which rule the scale is from.
    pub units: Units,
}

/// Draws the dimensioned roof plan.
pub fn plan(roof: &Roof, survey: &Survey, options: &PlanOptions) -> Figure {
    let size = sheet_size(options.size_mm);
    let draft = Draft::new(roof, survey, options.units);
    let drawn = settled(&draft, size);
    let Drawn { mut svg, alt, left_out, .. } = drawn;
    if let Some(words) = &left_out {
        svg.text("left-out", &Text::new(words, [1.5, size[1] - NOTE / 2.0], SMALL).anchored(Anchor::Start));
    }
    let svg = svg.finish(size, "Roof plan", &alt);
    Figure { svg, width_mm: size[0], height_mm: size[1], alt }
}

/// Height kept for a line that says what has been left out, where something has.
const NOTE: f64 = 4.5;
/// Most planes that get a letter instead of a name: a longer list would leave no room for the drawing.
const MOST_KEYS: usize = 52;
/// Most times the sheet is laid out again.
const ROUNDS: usize = 4;

/// The plan with letters for the names that find no room. A list of names or a note makes the drawing smaller, which may cost
/// another name its room: a few rounds settle it.
fn settled(draft: &Draft, size: P2) -> Drawn {
    let noted = [size[0], size[1] - NOTE];
    let (mut keyed, mut room, mut hopeless) = (Vec::new(), size, Vec::new());
    let mut drawn = Drawn::new(draft, &keyed, room);
    for _ in 0..ROUNDS {
        let (without_letter, without_name): (Vec<_>, Vec<_>) =
            drawn.homeless.iter().partition(|id| keyed.contains(id));
        hopeless.extend(without_letter);
        let more: Vec<PlaneId> = without_name.into_iter().filter(|id| !hopeless.contains(id)).collect();
        let is_settled = more.is_empty() && !keyed.iter().any(|id| hopeless.contains(id));
        if is_settled && (drawn.left_out.is_none() || room[1] < size[1]) {
            break;
        }
        keyed.retain(|id| !hopeless.contains(id));
        keyed.extend(more);
        keyed.sort();
        keyed.truncate(MOST_KEYS);
        room = if drawn.left_out.is_none() { size } else { noted };
        drawn = Drawn::new(draft, &keyed, room);
    }
    drawn
}

/// A plan laid out, with what found no room.
struct Drawn {
    svg: Svg,
    alt: String,
    /// Planes without name or letter.
    homeless: Vec<PlaneId>,
    left_out: Option<String>,
}

impl Drawn {
    /// `keyed` are the planes with a letter instead of a name.
    fn new(draft: &Draft, keyed: &[PlaneId], room: P2) -> Self {
        let legend = Legend::of(draft, keyed);
        let fit = Fit::best(draft, &legend, room);
        let mut board = Board::new(Bounds { low: [0.5; 2], high: room.map(|mm| mm - 0.5) });
        board.take_all(fit.rooms());
        let drawing = Drawing::new(draft, &fit, keyed, &mut board);
        let left_out = drawing.left_out(draft);
        let mut svg = Svg::default();
        drawing.draw(&mut svg);
        fit.draw(&mut svg, draft);
        let alt = described(draft, &fit.scale, left_out.as_deref());
        let is_homeless = |id: &PlaneId| !drawing.labels.contains_key(id);
        let homeless = (0..draft.roof.planes.len()).map(PlaneId).filter(is_homeless).collect();
        Self { svg, alt, homeless, left_out }
    }
}

/// Everything on the plan but legend and compass, in place.
struct Drawing {
    walls: Vec<[P2; 2]>,
    lines: Vec<EdgeLine>,
    chains: Vec<Chain>,
    crickets: Vec<([P2; 2], Pen)>,
    symbols: Vec<OpeningSymbol>,
    names: OpeningNames,
    labels: BTreeMap<PlaneId, Label>,
    tags: Vec<PlacedTag>,
}

impl Drawing {
    fn new(draft: &Draft, fit: &Fit, keyed: &[PlaneId], board: &mut Board) -> Self {
        let paper = &fit.paper;
        let lines: Vec<EdgeLine> =
            (0..draft.roof.edges.len()).map(|i| draft.line(EdgeId(i), paper)).collect();
        let (walls, crickets) = (walls(draft, paper), crickets(draft, paper));
        let (chains, symbols) = (Chain::all(draft, paper, fit.overflows), symbols(draft, paper));
        for chain in &chains {
            chain.take(board);
        }
        for symbol in &symbols {
            board.symbol(symbol.room());
        }
        take_lines(board, &lines, &walls, &crickets);

        let mut names = OpeningNames::default();
        names.place_beside(draft, &symbols, board);
        names.place_around(draft, &symbols, board);
        let labels = Label::all(draft, paper, keyed, board);
        let tags = PlacedTag::all(&lines, board);
        Self { walls, lines, chains, crickets, symbols, names, labels, tags }
    }

    fn draw(&self, svg: &mut Svg) {
        svg.stroke("wall", &self.walls.iter().fold(Path::default(), |path, wall| path.and_open(wall)), &WALL);
        self.lines.iter().for_each(|line| line.draw(svg));
        self.chains.iter().for_each(|chain| chain.draw(svg));
        self.crickets.iter().for_each(|(line, pen)| svg.stroke("cricket", &Path::open(line), pen));
        self.symbols.iter().for_each(|symbol| symbol.draw(svg));
        self.labels.values().for_each(|label| label.draw(svg));
        self.tags.iter().for_each(|tag| tag.draw(svg));
        self.names.draw(svg);
    }

    /// How many names and numbers found no room, in words; none when everything is there.
    fn left_out(&self, draft: &Draft) -> Option<String> {
        let planes = draft.roof.planes.len() - self.labels.len();
        let edges = self.lines.len() - self.tags.len();
        let openings = self.symbols.len() - self.names.count();
        let counts = [(planes, "plane"), (edges, "edge"), (openings, "opening")];
        let missing = counts.iter().filter(|(count, _)| *count > 0);
        let words =
            missing.map(|(count, what)| format!("{count} {what}{}", if *count == 1 { "" } else { "s" }));
        let list = words.collect::<Vec<_>>().join(", ");
        (!list.is_empty()).then(|| format!("Not marked here for want of room: {list}. See the plane sheets."))
    }
}

fn walls(draft: &Draft, paper: &Paper) -> Vec<[P2; 2]> {
    draft.roof.walls.iter().map(|wall| [wall.from, wall.to].map(|p| paper.at(draft.screen(p)))).collect()
}

/// Lines of crickets: foot at the opening, valleys dash-dotted, the ridge heavier.
fn crickets(draft: &Draft, paper: &Paper) -> Vec<([P2; 2], Pen)> {
    let valley = Pen { width: 0.3, ..edge_pen(EdgeKind::Valley) };
    let planes = draft.roof.crickets.iter().flat_map(|cricket| cricket.planes);
    let lines = planes.flat_map(|corners| {
        let [low, near, far] = corners.map(|p| paper.at(draft.scene.eye.screen(p)));
        [([near, low], FINE), ([low, far], valley), ([near, far], MARK)]
    });
    lines.collect()
}

fn take_lines(board: &mut Board, lines: &[EdgeLine], walls: &[[P2; 2]], crickets: &[([P2; 2], Pen)]) {
    for line in lines {
        for &stretch in &line.seen {
            board.line(line.stretch(stretch));
            board.thin_line(line.fringe(stretch));
        }
        for &stretch in &line.hidden {
            board.thin_line(line.stretch(stretch));
        }
    }
    for &wall in walls {
        board.thin_line(wall);
    }
    for &(line, _) in crickets {
        board.line(line);
    }
}

/// The plan in words.
fn described(draft: &Draft, scale: &Scale, left_out: Option<&str>) -> String {
    let planes = draft.roof.planes.iter();
    let planes = planes.map(|plane| format!("{} {}", plane.name, notation::pitch(plane.pitch, draft.units)));
    let size = [draft.bounds().width(), draft.bounds().height()];
    let [width, height] = size.map(|m| draft.units.length(Length::from_m(m)));
    let sentences = [
        format!("Roof plan, scale {}, {width} by {height} over all.", scale.name),
        format!("Planes: {}.", planes.collect::<Vec<_>>().join(", ")),
        format!("{} edges, {} openings.", draft.roof.edges.len(), draft.roof.openings.len()),
        left_out.unwrap_or_default().into(),
    ];
    sentences.join(" ").trim_end().into()
}
