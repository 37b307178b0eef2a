//! Dimension lines outside the outline.
//!
//! On each side, a chain runs from roof edge to wall corner to wall corner to roof edge: the corners of those
//! walls that face the side and have no other wall before them. A second line gives the whole. A side whose
//! chain only repeats the opposite one is left out.
//!
//! Numbers that do not fit between their ends move past the end of the chain or to rows further out. Where four
//! rows do not suffice, the narrowest steps are joined: the chain then says less, but nothing wrong.

use measure::Length;
use roof::{EdgeId, NodeId};
use takeoff::Of;

use super::draft::Draft;
use crate::letter::Text;
use crate::notation::Basis;
use crate::paper::Paper;
use crate::place::{Board, covers};
use crate::polygon::Bounds;
use crate::svg::{Path, Svg};
use crate::symbol::dimension_line;
use crate::vector::{P2, between};

/// Stations closer than this are one, metres.
const SAME: f64 = 5e-3;
/// Size of the numbers, mm.
const SIZE: f64 = 3.0;
/// Outline to the first line.
const FIRST: f64 = 7.2;
/// From one row of numbers to the next.
const ROW: f64 = 3.6;
/// A line to the middle of its numbers.
const RISE: f64 = 2.3;
/// A line to the middle of the first row beyond it.
const BELOW: f64 = 3.1;
/// Rows further out than the line that numbers may move to.
const ROWS: usize = 3;

/// Sides of the drawing: down, up, and to both hands, named as on a plan with north up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    South,
    North,
    West,
    East,
}

/// Where the first and last number of a chain go when they do not fit between their ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Overflow {
    /// Past the end of the chain: makes it longer.
    Beyond,
    /// To a row further out: makes it deeper.
    Outward,
}

/// For chains that lie level and for those that stand upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Overflows {
    level: Overflow,
    upright: Overflow,
}

impl Overflows {
    /// All there are, the best looking first.
    pub(crate) const ALL: [Self; 4] = {
        use Overflow::{Beyond, Outward};
        [
            Self { level: Beyond, upright: Beyond },
            Self { level: Beyond, upright: Outward },
            Self { level: Outward, upright: Beyond },
            Self { level: Outward, upright: Outward },
        ]
    };

    const fn of(self, side: Side) -> Overflow {
        match side {
            Side::South | Side::North => self.level,
            Side::West | Side::East => self.upright,
        }
    }
}

/// A point along a side where a dimension starts or ends.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Station {
    /// On the screen, metres: x for south and north, y for west and east.
    at: f64,
    basis: Basis,
}

/// The dimension lines of one side, laid out on paper.
#[derive(Clone, Debug)]
pub(crate) struct Chain {
    lines: Vec<[P2; 2]>,
    extensions: Vec<[P2; 2]>,
    texts: Vec<Text>,
}

impl Chain {
    /// All chains of a plan, laid out for a scale.
    pub(crate) fn all(draft: &Draft, paper: &Paper, overflows: Overflows) -> Vec<Self> {
        // Only where numbers stand to each other matters here: the frame is judged by whoever chooses the scale.
        let mut board = Board::new(Bounds { low: [-1e6; 2], high: [1e6; 2] });
        sides_with_stations(draft)
            .into_iter()
            .map(|(side, is_whole, stations)| {
                Layout::new(draft, paper, side, overflows.of(side)).chain(stations, is_whole, &mut board)
            })
            .collect()
    }

    /// The room it takes.
    pub(crate) fn bounds(&self) -> Bounds {
        let lines = self.lines.iter().chain(&self.extensions).flatten().copied();
        Bounds::of(lines.chain(self.texts.iter().flat_map(|text| text.room().corners())))
    }

    /// Takes its room on the board.
    pub(crate) fn take(&self, board: &mut Board) {
        board.take_all(self.texts.iter().map(Text::room));
        for &line in &self.lines {
            board.line(line);
        }
        for &line in &self.extensions {
            board.thin_line(line);
        }
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        let extensions = self.extensions.iter().fold(Path::default(), |path, line| path.and_open(line));
        svg.stroke("extension", &extensions, &crate::ink::DIMENSION);
        for &line in &self.lines {
            dimension_line(svg, line);
        }
        for text in &self.texts {
            svg.text("dimension", text);
        }
    }
}

/// Sides that get a chain; whether with the whole; the stations in order.
fn sides_with_stations(draft: &Draft) -> Vec<(Side, bool, Vec<Station>)> {
    if draft.surround.is_some() {
        return Vec::new();
    }
    let pair = |first: Side, second: Side| {
        let (a, b) = (stations(draft, first), stations(draft, second));
        let ((more, rich), (less, poor)) =
            if b.len() > a.len() { ((second, b), (first, a)) } else { ((first, a), (second, b)) };
        let known = |s: &Station| rich.iter().any(|r| (r.at - s.at).abs() < SAME);
        let repeats = poor.iter().all(known);
        let mut out = vec![(more, true, rich)];
        if !repeats {
            out.push((less, false, poor));
        }
        out
    };
    let mut all = pair(Side::South, Side::North);
    all.extend(pair(Side::West, Side::East));
    all.retain(|(_, _, stations)| stations.len() > 1);
    all
}

/// Roof edge, corners of the foremost walls, roof edge.
fn stations(draft: &Draft, side: Side) -> Vec<Station> {
    let wall_corners =
        foremost_corners(draft, side).into_iter().map(|at| Station { at, basis: Basis::Measured });
    let mut all: Vec<_> = wall_corners.chain(roof_extremes(draft, side)).collect();
    all.sort_by(|a, b| a.at.total_cmp(&b.at));
    all.dedup_by(|b, a| (a.at - b.at).abs() < SAME);
    all
}

/// The outermost points of the roof along a side; assumed where an edge across the side is that lies so far out, or else a
/// corner.
fn roof_extremes(draft: &Draft, side: Side) -> [Station; 2] {
    let roof = draft.roof;
    let place = |node: NodeId| side.split(super::draft::on_screen(draft, roof.node(node).at))[0];
    let nodes = || (0..roof.nodes.len()).map(NodeId);
    let station = |at: f64| {
        let is_at = |node: NodeId| (place(node) - at).abs() < SAME;
        let lines = (0..roof.edges.len()).map(EdgeId);
        let across = |id: &EdgeId| [roof.edge(*id).from, roof.edge(*id).to].into_iter().all(is_at);
        let lines: Vec<Of> = lines.filter(across).map(Of::Line).collect();
        let corners = || nodes().filter(|node| is_at(*node)).map(Of::Point).collect();
        let figures = if lines.is_empty() { corners() } else { lines };
        let is_assumed = |of: Of| draft.survey.basis(of) == Basis::Assumed;
        Station { at, basis: Basis::assumed_if(figures.into_iter().any(is_assumed)) }
    };
    let (low, high) =
        nodes().map(place).fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), a| (l.min(a), h.max(a)));
    [station(low), station(high)]
}

/// Whether any number of the chains rests on an assumption.
pub(crate) fn is_any_assumed(draft: &Draft) -> bool {
    let stations = sides_with_stations(draft).into_iter().flat_map(|(_, _, stations)| stations);
    stations.into_iter().any(|station| station.basis == Basis::Assumed)
}

/// A wall as seen from a side.
struct Front {
    /// Along the side and outwards, metres.
    ends: [P2; 2],
}

impl Front {
    fn out_at(&self, at: f64) -> Option<f64> {
        let [a, b] = self.ends;
        let (low, high) = (a[0].min(b[0]), a[0].max(b[0]));
        (low < at && at < high).then(|| between(a, b, (at - a[0]) / (b[0] - a[0]))[1])
    }
}

/// Where the foremost wall, seen from a side, changes.
fn foremost_corners(draft: &Draft, side: Side) -> Vec<f64> {
    let fronts: Vec<Front> = draft
        .roof
        .walls
        .iter()
        .map(|wall| [wall.from, wall.to].map(|p| side.split(draft.screen(p))))
        .filter(|ends| side.is_faced_by(ends))
        .map(|ends| Front { ends })
        .collect();
    let mut cuts: Vec<f64> = fronts.iter().flat_map(|front| front.ends.map(|p| p[0])).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|b, a| (*a - *b).abs() < SAME);
    let foremost = |at: f64| {
        let outs = fronts.iter().enumerate().filter_map(|(i, front)| Some((i, front.out_at(at)?)));
        outs.max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0))).map(|(i, _)| i)
    };
    let spans: Vec<Option<usize>> = cuts.windows(2).map(|w| foremost(f64::midpoint(w[0], w[1]))).collect();
    let before = std::iter::once(None).chain(spans.iter().copied());
    let after = spans.iter().copied().chain(std::iter::once(None));
    cuts.into_iter().zip(before.zip(after)).filter(|(_, (b, a))| a != b).map(|(at, _)| at).collect()
}

impl Side {
    /// A point of the screen as distance along the side and outwards.
    fn split(self, [x, y]: P2) -> P2 {
        match self {
            Self::South => [x, -y],
            Self::North => [x, y],
            Self::West => [y, -x],
            Self::East => [y, x],
        }
    }

    /// Whether a wall, its block on the left going along, has its outside towards this side.
    fn is_faced_by(self, [a, b]: &[P2; 2]) -> bool {
        let step = b[0] - a[0];
        match self {
            Self::South | Self::East => step > SAME,
            Self::North | Self::West => step < -SAME,
        }
    }

    /// Clockwise turn of its numbers on paper.
    const fn turn(self) -> f64 {
        match self {
            Self::South | Self::North => 0.0,
            Self::West | Self::East => -90.0,
        }
    }
}

/// How a side's chain goes onto paper.
struct Layout<'a> {
    draft: &'a Draft<'a>,
    paper: &'a Paper,
    side: Side,
    overflow: Overflow,
    /// Around the roof, on paper.
    bounds: Bounds,
}

/// A number and where along the side it stands.
struct Step {
    from: f64,
    to: f64,
    words: String,
    basis: Basis,
}

impl<'a> Layout<'a> {
    fn new(draft: &'a Draft<'a>, paper: &'a Paper, side: Side, overflow: Overflow) -> Self {
        Self { draft, paper, side, overflow, bounds: paper.bounds(&draft.bounds()) }
    }

    fn chain(&self, mut stations: Vec<Station>, is_whole: bool, board: &mut Board) -> Chain {
        while let Some(narrow) = self.narrowest(&stations).filter(|_| stations.len() > 2) {
            join(&mut stations, narrow);
        }
        loop {
            let mut trial = board.clone();
            let steps: Vec<Step> = stations.windows(2).map(|w| self.step(w[0], w[1])).collect();
            match self.numbers(&steps, &mut trial) {
                Err(crowded) if stations.len() > 2 => join(&mut stations, crowded),
                Err(_) => return self.finish(&stations, Vec::new(), is_whole, board),
                Ok(texts) => return self.finish(&stations, texts, is_whole, board),
            }
        }
    }

    /// The narrowest step, when its ends would run together on paper.
    fn narrowest(&self, stations: &[Station]) -> Option<usize> {
        const LEAST: f64 = 0.8;
        let width = |i: usize| (self.along(stations[i + 1].at) - self.along(stations[i].at)).abs();
        let narrowest = (0..stations.len() - 1).min_by(|&a, &b| width(a).total_cmp(&width(b)));
        narrowest.filter(|&i| width(i) < LEAST)
    }

    fn step(&self, a: Station, b: Station) -> Step {
        let basis = Basis::assumed_if([a, b].iter().any(|s| s.basis == Basis::Assumed));
        let words = basis.mark(self.draft.units.length(Length::from_m(b.at - a.at)));
        Step { from: self.along(a.at), to: self.along(b.at), words, basis }
    }

    /// The numbers of a row, or the step that found no place.
    fn numbers(&self, steps: &[Step], board: &mut Board) -> Result<Vec<Text>, usize> {
        let mut texts = Vec::new();
        for (i, step) in steps.iter().enumerate() {
            let ends = [i == 0, i + 1 == steps.len()];
            let best = board.cheapest(self.places(step, ends), |text| vec![text.room()]);
            let (text, _) = best.filter(|&(_, cost)| !covers(cost)).ok_or(i)?;
            board.take(text.room());
            texts.push(text);
        }
        Ok(texts)
    }

    /// Places for a number, the best first.
    fn places(&self, step: &Step, [is_first, is_last]: [bool; 2]) -> Vec<Text> {
        let text = |along: f64, depth: f64| self.text(step, along, depth);
        let middle = f64::midpoint(step.from, step.to);
        let width = text(0.0, 0.0).width();
        let (low, high) = (step.from.min(step.to), step.from.max(step.to));
        if width + 1.2 < high - low {
            return vec![text(middle, FIRST - RISE)];
        }
        let mut places = Vec::new();
        let ends = if step.from < step.to { [is_first, is_last] } else { [is_last, is_first] };
        let ends_low = ends[0];
        let ends = ends.map(|is_end| is_end && self.overflow == Overflow::Beyond);
        if ends[0] {
            places.push(text(low - 1.6 - width / 2.0, FIRST));
        }
        if ends[1] {
            places.push(text(high + 1.6 + width / 2.0, FIRST));
        }
        // At an end of the chain the line to the whole must stay clear.
        let inside = if is_first || is_last { (width - (high - low)) / 2.0 + 0.8 } else { 0.0 };
        let inside = if ends_low { inside } else { -inside };
        for row in 0..ROWS {
            let depth = FIRST + BELOW + ROW * row as f64;
            places.extend(
                [inside, inside + 0.3 * width, inside - 0.3 * width].map(|shift| text(middle + shift, depth)),
            );
        }
        places
    }

    fn text(&self, step: &Step, along: f64, depth: f64) -> Text {
        step.basis.set(Text::new(step.words.clone(), self.at(along, depth), SIZE).turned(self.side.turn()))
    }

    /// Lines for the stations, and the whole on a second line beyond the numbers.
    fn finish(&self, stations: &[Station], mut texts: Vec<Text>, is_whole: bool, board: &mut Board) -> Chain {
        let along: Vec<f64> = stations.iter().map(|s| self.along(s.at)).collect();
        let mut lines: Vec<_> =
            along.windows(2).map(|w| [self.at(w[0], FIRST), self.at(w[1], FIRST)]).collect();
        let mut outermost = FIRST;
        if let (true, [first, .., last]) = (is_whole && stations.len() > 2, stations) {
            outermost = self.depth_below(&texts) + ROW + 1.2;
            let whole = self.step(*first, *last);
            lines.push([self.at(whole.from, outermost), self.at(whole.to, outermost)]);
            texts.push(self.text(&whole, f64::midpoint(whole.from, whole.to), outermost - RISE));
        }
        board.take_all(texts.iter().map(Text::room));
        let last = along.len() - 1;
        let extend = |(i, &a): (usize, &f64)| {
            let end = if i == 0 || i == last { outermost } else { FIRST };
            [self.at(a, self.outline_depth(a) + 1.5), self.at(a, end + 1.2)]
        };
        Chain { lines, extensions: along.iter().enumerate().map(extend).collect(), texts }
    }

    /// How far out the numbers of the first line reach.
    fn depth_below(&self, texts: &[Text]) -> f64 {
        texts.iter().flat_map(|text| text.room().corners()).map(|p| self.depth(p)).fold(FIRST + 0.8, f64::max)
    }

    /// Depth, counted from the roof's outermost line inwards as negative, where the outline is met from outside.
    fn outline_depth(&self, along: f64) -> f64 {
        let at_along = |[a, b]: [P2; 2]| {
            let (pa, pb) = (self.split(self.paper.at(a)), self.split(self.paper.at(b)));
            let (low, high) = (pa[0].min(pb[0]), pa[0].max(pb[0]));
            if along < low - 0.05 || along > high + 0.05 {
                return f64::NEG_INFINITY;
            }
            if high - low < 0.1 {
                pa[1].max(pb[1])
            } else {
                between(pa, pb, (along - pa[0]) / (pb[0] - pa[0]))[1]
            }
        };
        let deepest = self.draft.sides().map(at_along).fold(f64::NEG_INFINITY, f64::max);
        if deepest.is_finite() { deepest } else { 0.0 }
    }

    /// Position along the side on paper.
    fn along(&self, station: f64) -> f64 {
        let screen = match self.side {
            Side::South | Side::North => [station, 0.0],
            Side::West | Side::East => [0.0, station],
        };
        self.split(self.paper.at(screen))[0]
    }

    /// A point on paper from its position along the side and its depth outwards.
    fn at(&self, along: f64, depth: f64) -> P2 {
        match self.side {
            Side::South => [along, self.bounds.high[1] + depth],
            Side::North => [along, self.bounds.low[1] - depth],
            Side::West => [self.bounds.low[0] - depth, along],
            Side::East => [self.bounds.high[0] + depth, along],
        }
    }

    fn depth(&self, p: P2) -> f64 {
        self.split(p)[1]
    }

    /// The inverse of [`Self::at`].
    fn split(&self, [x, y]: P2) -> P2 {
        match self.side {
            Side::South => [x, y - self.bounds.high[1]],
            Side::North => [x, self.bounds.low[1] - y],
            Side::West => [y, self.bounds.low[0] - x],
            Side::East => [y, x - self.bounds.high[0]],
        }
    }
}

/// Takes out the inner station that makes the crowded step shortest to its neighbour.
fn join(stations: &mut Vec<Station>, crowded: usize) {
    let inner = 1..stations.len() - 1;
    let width = |i: usize| stations[i + 1].at - stations[i - 1].at;
    let victim =
        inner.filter(|&i| i == crowded || i == crowded + 1).min_by(|&a, &b| width(a).total_cmp(&width(b)));
    stations.remove(victim.unwrap_or(1));
}
