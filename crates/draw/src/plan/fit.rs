//! The scale of a plan, and where drawing, legend, north arrow and scale bar go on the sheet.
//!
//! Three arrangements are tried, each with long and with deep dimension chains: the first that allows the
//! largest scale.

use super::chain::{Chain, Overflows};
use super::draft::Draft;
use super::legend::{Columns, Legend};
use crate::paper::Paper;
use crate::place::{Board, Tilted, covers};
use crate::polygon::Bounds;
use crate::scale::Scale;
use crate::svg::Svg;
use crate::symbol::{BAR_HEIGHT, NORTH_HALF, north_arrow, scale_bar};
use crate::vector::{P2, add, turned};

/// Border kept free around everything.
const BORDER: f64 = 1.5;
/// Drawing to legend.
const GUTTER: f64 = 3.0;
/// Width of the scale bar with its words, in a strip and elsewhere.
const LONG_BAR: f64 = 36.0;
const SHORT_BAR: f64 = 27.5;
/// Of which its words take.
const BAR_WORDS: f64 = 8.0;
/// North arrow and scale bar side by side.
const BESIDE: P2 = [LONG_BAR + 2.0 * NORTH_HALF + 2.0, 2.0 * NORTH_HALF + 1.0];
/// North arrow over scale bar.
const STACKED: P2 = [SHORT_BAR, BAR_HEIGHT + 2.0 * NORTH_HALF + 2.0];

/// The scale and where things go.
pub(crate) struct Fit<'a> {
    pub(crate) scale: Scale,
    pub(crate) paper: Paper,
    pub(crate) overflows: Overflows,
    legend: Columns<'a>,
    legend_at: P2,
    compass: Compass,
}

/// North arrow and scale bar.
#[derive(Clone, Copy)]
struct Compass {
    /// Middle of the arrow.
    north: P2,
    /// Upper corner where the bar starts.
    bar: P2,
    bar_width: f64,
}

type Arrange = for<'a> fn(&'a Legend, &Bounds) -> Arrangement<'a>;

/// A way of sharing the sheet.
struct Arrangement<'a> {
    drawing: Bounds,
    legend: Columns<'a>,
    legend_at: P2,
    /// None when the compass goes where the drawing leaves room.
    compass: Option<Compass>,
}

impl<'a> Fit<'a> {
    pub(crate) fn best(draft: &Draft, legend: &'a Legend, size: P2) -> Self {
        let inner = Bounds { low: [BORDER; 2], high: size.map(|mm| mm - BORDER) };
        // What stands around a roof without dimension lines is not known here, so nothing floats there.
        let all: [Arrange; 3] = [below, floating, beside];
        let some: [Arrange; 2] = [below, beside];
        let ways: &[Arrange] = if draft.surround.is_none() { &all } else { &some };
        let ways = || ways.iter().map(|arrange| arrange(legend, &inner));
        let try_all = |scale: &Scale| ways().find_map(|way| way.fit(draft, scale));
        let scale = Scale::first(draft.units, |scale| try_all(scale).is_some());
        try_all(&scale).unwrap_or_else(|| below(legend, &inner).forced(draft, scale))
    }

    /// Rooms that the drawing may not use.
    pub(crate) fn rooms(&self) -> Vec<Tilted> {
        let [x, y] = self.legend.size.map(|mm| mm / 2.0);
        let legend = Tilted::upright(add(self.legend_at, [x, y]), [x, y]);
        std::iter::once(legend).chain(self.compass.rooms()).collect()
    }

    pub(crate) fn draw(&self, svg: &mut Svg, draft: &Draft) {
        self.legend.draw(svg, self.legend_at);
        let Compass { north, bar, bar_width } = self.compass;
        north_arrow(svg, north, turned(Paper::direction([0.0, 1.0]), -draft.up_degrees));
        scale_bar(svg, bar, &self.scale, draft.units, bar_width - BAR_WORDS);
    }
}

impl<'a> Arrangement<'a> {
    /// With the first way of laying chains that makes the scale fit; none when none does.
    fn fit(self, draft: &Draft, scale: &Scale) -> Option<Fit<'a>> {
        let paper = Paper::at_corner(scale.mm_per_m());
        let holds =
            |taken: &Bounds| taken.width() <= self.drawing.width() && taken.height() <= self.drawing.height();
        if !holds(&paper.bounds(&draft.bounds())) {
            return None; // laying chains is the slow part
        }
        let (paper, overflows, compass) = Overflows::ALL.into_iter().find_map(|overflows| {
            let taken = taken(draft, &paper, overflows);
            let paper = paper.centred(&taken, self.middle(&taken));
            let compass = if holds(&taken) { self.compass_beside(draft, &paper, overflows) } else { None };
            Some((paper, overflows, compass?))
        })?;
        let Self { legend, legend_at, .. } = self;
        Some(Fit { scale: scale.clone(), paper, overflows, legend, legend_at, compass })
    }

    /// Where the middle of the drawing goes: to one hand when the compass must find room beside it.
    fn middle(&self, taken: &Bounds) -> P2 {
        let [x, y] = self.drawing.at([0.5, 0.5]);
        if self.compass.is_some() { [x, y] } else { [self.drawing.low[0] + taken.width() / 2.0, y] }
    }

    /// However little room there is.
    fn forced(self, draft: &Draft, scale: Scale) -> Fit<'a> {
        let overflows = Overflows::ALL[0];
        let paper = Paper::at_corner(scale.mm_per_m());
        let paper = paper.centred(&taken(draft, &paper, overflows), self.drawing.at([0.5, 0.5]));
        let Self { legend, legend_at, compass, .. } = self;
        let compass = compass.unwrap_or(Compass::stacked(legend_at));
        Fit { scale, paper, overflows, legend, legend_at, compass }
    }

    /// The compass where the arrangement has it, or where the drawing leaves room for it.
    fn compass_beside(&self, draft: &Draft, paper: &Paper, overflows: Overflows) -> Option<Compass> {
        if self.compass.is_some() {
            return self.compass;
        }
        let mut board = Board::new(self.drawing);
        for chain in Chain::all(draft, paper, overflows) {
            chain.take(&mut board);
        }
        for side in draft.sides() {
            board.line(side.map(|p| paper.at(p)));
        }
        let is_outside = |p: P2| !draft.is_roof(paper.screen(p));
        // From the lower corner away from where counting starts, in steps of a twentieth.
        let share = |i: i32| f64::from(i) / 20.0;
        let corners = (0..=20).rev().flat_map(|x| (0..=20).rev().map(move |y| [share(x), share(y)]));
        let free = Bounds {
            high: [self.drawing.high[0] - STACKED[0], self.drawing.high[1] - STACKED[1]],
            ..self.drawing
        };
        let spots = corners.map(|share| Compass::stacked(free.at(share)));
        let clear = spots.filter(|spot| spot.rooms().iter().flat_map(Tilted::corners).all(is_outside));
        let best = board.cheapest(clear, Compass::rooms);
        best.filter(|&(_, cost)| cost <= 1 && !covers(cost)).map(|(compass, _)| compass)
    }
}

impl Compass {
    /// One over the other; `at` is the upper corner.
    fn stacked(at: P2) -> Self {
        let north = add(at, [NORTH_HALF, NORTH_HALF]);
        Self { north, bar: add(at, [0.0, STACKED[1] - BAR_HEIGHT]), bar_width: SHORT_BAR }
    }

    fn rooms(&self) -> Vec<Tilted> {
        let half = [self.bar_width / 2.0, BAR_HEIGHT / 2.0];
        vec![Tilted::upright(self.north, [NORTH_HALF; 2]), Tilted::upright(add(self.bar, half), half)]
    }
}

/// Legend, bar and arrow in a strip under the drawing.
fn below<'a>(legend: &'a Legend, inner: &Bounds) -> Arrangement<'a> {
    let legend = legend.within(inner.width() - BESIDE[0] - GUTTER);
    let top = inner.high[1] - legend.size[1].max(BESIDE[1]);
    let drawing = Bounds { low: inner.low, high: [inner.high[0], top - GUTTER] };
    let north = [inner.high[0] - NORTH_HALF, top + NORTH_HALF];
    let bar = [inner.high[0] - BESIDE[0], inner.high[1] - BAR_HEIGHT];
    let compass = Some(Compass { north, bar, bar_width: LONG_BAR });
    Arrangement { drawing, legend, legend_at: [inner.low[0], top], compass }
}

/// The legend under the drawing, bar and arrow where there is room beside the house.
fn floating<'a>(legend: &'a Legend, inner: &Bounds) -> Arrangement<'a> {
    let legend = legend.within(inner.width());
    let top = inner.high[1] - legend.size[1];
    let drawing = Bounds { low: inner.low, high: [inner.high[0], top - GUTTER] };
    Arrangement { drawing, legend, legend_at: [inner.low[0], top], compass: None }
}

/// All in a column beside the drawing.
fn beside<'a>(legend: &'a Legend, inner: &Bounds) -> Arrangement<'a> {
    let legend = legend.column();
    let split = inner.high[0] - legend.size[0].max(STACKED[0]);
    let drawing = Bounds { low: inner.low, high: [split - GUTTER, inner.high[1]] };
    let top = inner.high[1] - legend.size[1];
    let compass = Some(Compass::stacked([split, top - GUTTER - STACKED[1]]));
    Arrangement { drawing, legend, legend_at: [split, top], compass }
}

/// What roof and dimension lines take at a scale.
fn taken(draft: &Draft, paper: &Paper, overflows: Overflows) -> Bounds {
    let roof = paper.bounds(&draft.bounds());
    let room = draft.surround.unwrap_or(2.5);
    let margin = Bounds { low: roof.low.map(|x| x - room), high: roof.high.map(|x| x + room) };
    Chain::all(draft, paper, overflows).iter().fold(margin, |all, chain| all.and(chain.bounds()))
}
