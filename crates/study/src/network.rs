//! The unknowns of a house: its wall lines, and the figures that readings depend on.
//!
//! Numbers of one kind that agree are one unknown, whichever blocks they stand in. So walls that lie in one line stay in one
//! line, blocks that touch keep touching, eaves that were level stay level, and a plane that runs on over two blocks
//! stays one plane.
//!
//! - Wall lines: in the frame of the first block, every corner of a block lies on an x-line and a y-line. Corners whose
//!   coordinates agree within 1/4 in (what the roof counts as touching) share the line. The two lines through the first corner of the
//!   first block are the datum and are held.
//! - Plates, pitches, overhangs and the figures of broken and half-hip forms: equal as written.
//!
//! # Limits
//! - A block turned otherwise than the first by anything but quarter turns stays where it was written and keeps its form.
//! - An outline moves by its lines as any block does, so its slanting edges may turn by what its corners move.
//! - Openings stay where they were written.

use job::Block;

use crate::figure::{self, Kind};
use crate::term::Term;

/// Coordinates this close are one wall line, metres: walls that touch.
const IN_LINE: f64 = roof::TOUCH;
/// Figures this close were written alike, metres or rise over run.
const ALIKE: f64 = 1e-9;
/// Turns this close to a multiple of a right angle are one, degrees.
const SQUARE: f64 = 1e-6;

/// A number of the house: held, or the unknown of an index.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Place {
    Held(f64),
    Unknown(usize),
}

/// A corner: its x-line and its y-line.
pub(crate) type Corner = [Place; 2];

/// A corner as written, in the house's frame, and the lines it lies on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Station {
    pub(crate) lines: Corner,
    pub(crate) at: [f64; 2],
}

impl Place {
    /// The unknown's index.
    pub(crate) fn unknown(self) -> Option<usize> {
        match self {
            Self::Held(_) => None,
            Self::Unknown(index) => Some(index),
        }
    }

    pub(crate) fn value(self, values: &[f64]) -> f64 {
        match self {
            Self::Held(value) => value,
            Self::Unknown(index) => values[index],
        }
    }

    pub(crate) fn term(self, values: &[f64]) -> Term {
        match self {
            Self::Held(value) => Term::held(value, values.len()),
            Self::Unknown(index) => Term::unknown(index, values),
        }
    }
}

/// Numbers of one kind that agree.
#[derive(Clone, Debug)]
struct Cluster {
    kind: Kind,
    low: f64,
    high: f64,
    /// The number as first written.
    start: f64,
    /// Its number among the unknowns; none for the datum.
    unknown: Option<usize>,
}

impl Cluster {
    fn covers(&self, kind: Kind, value: f64) -> bool {
        self.kind == kind && (self.low - ALIKE..=self.high + ALIKE).contains(&value)
    }
}

/// The unknowns of a house.
#[derive(Clone, Debug)]
pub(crate) struct Network {
    frame: Frame,
    clusters: Vec<Cluster>,
}

impl Network {
    pub(crate) fn of(blocks: &[Block]) -> Self {
        let frame = Frame::of(blocks);
        let datum = blocks.iter().flat_map(|block| block.contours.iter().flatten()).next();
        let datum = datum.map(|corner| frame.in_house(*corner));
        let mut clusters = clustered(numbers(blocks, &frame));
        let is_datum = |cluster: &Cluster| {
            datum.is_some_and(|[x, y]| cluster.covers(Kind::LineX, x) || cluster.covers(Kind::LineY, y))
        };
        let free = clusters.iter_mut().filter(|cluster| !is_datum(cluster));
        free.enumerate().for_each(|(index, cluster)| cluster.unknown = Some(index));
        Self { frame, clusters }
    }

    /// The unknowns as written.
    pub(crate) fn start(&self) -> Vec<f64> {
        let starts: Vec<f64> = self.unknowns().map(|cluster| cluster.start).collect();
        starts
    }

    /// Unknowns that are pitches.
    pub(crate) fn pitches(&self) -> Vec<usize> {
        let pitches = self.unknowns().filter(|cluster| cluster.kind == Kind::Pitch);
        pitches.filter_map(|cluster| cluster.unknown).collect()
    }

    fn unknowns(&self) -> impl Iterator<Item = &Cluster> {
        self.clusters.iter().filter(|cluster| cluster.unknown.is_some())
    }

    /// Where a number of the document goes.
    pub(crate) fn place(&self, kind: Kind, value: f64) -> Place {
        let cluster = self.clusters.iter().find(|cluster| cluster.covers(kind, value));
        cluster.map_or(Place::Held(value), |cluster| match cluster.unknown {
            Some(index) => Place::Unknown(index),
            None => Place::Held(cluster.start),
        })
    }

    /// The lines a corner lies on; those of a block turned otherwise are held. None where the block has no such corner.
    pub(crate) fn corner(&self, block: &Block, contour: usize, corner: usize) -> Option<Corner> {
        Some(self.station(block, *block.contours.get(contour)?.get(corner)?).lines)
    }

    /// All corners of a block, contour by contour.
    pub(crate) fn stations(&self, block: &Block) -> Vec<Vec<Station>> {
        let stations =
            |points: &Vec<[f64; 2]>| points.iter().map(|point| self.station(block, *point)).collect();
        block.contours.iter().map(stations).collect()
    }

    fn station(&self, block: &Block, point: [f64; 2]) -> Station {
        let at = self.frame.in_house(point);
        let lines = if self.holds(block) {
            [self.place(Kind::LineX, at[0]), self.place(Kind::LineY, at[1])]
        } else {
            at.map(Place::Held)
        };
        Station { lines, at }
    }

    /// Whether a block stands square to the first and moves by its lines.
    pub(crate) fn holds(&self, block: &Block) -> bool {
        self.frame.holds(block)
    }

    /// The blocks with the unknowns at the values given.
    pub(crate) fn adjusted(&self, blocks: &[Block], values: &[f64]) -> Vec<Block> {
        blocks.iter().map(|block| self.adjusted_block(block, values)).collect()
    }

    /// Whether a house can have these values: every wall still runs the way it did, and nothing is less than nothing.
    pub(crate) fn is_sound(&self, blocks: &[Block], values: &[f64]) -> bool {
        let may_be_negative = [Kind::LineX, Kind::LineY, Kind::Plate];
        let mut figures = self.unknowns().filter(|cluster| !may_be_negative.contains(&cluster.kind));
        let positive = figures.all(|cluster| cluster.unknown.is_none_or(|index| values[index] > 0.0));
        positive && blocks.iter().all(|block| same_way(block, &self.adjusted_block(block, values)))
    }

    fn adjusted_block(&self, block: &Block, values: &[f64]) -> Block {
        let mut adjusted = block.clone();
        if self.holds(block) {
            for corner in adjusted.contours.iter_mut().flatten() {
                let lines = self.station(block, *corner).lines;
                *corner = self.frame.in_plan(lines.map(|line| line.value(values)));
            }
        }
        figure::change(&mut adjusted, |written| {
            written.value.with_si(self.place(written.kind, written.value.si()).value(values))
        });
        adjusted
    }
}

/// Whether every edge of a block still runs the way it did.
fn same_way(before: &Block, after: &Block) -> bool {
    let runs = |block: &Block| -> Vec<[f64; 2]> {
        let ends = block.contours.iter().flat_map(|points| points.iter().zip(points.iter().cycle().skip(1)));
        ends.map(|([x, y], [to_x, to_y])| [to_x - x, to_y - y]).collect()
    };
    runs(before).iter().zip(runs(after)).all(|([x, y], [u, v])| x * u + y * v > 0.0)
}

/// Every number that may change, in the order of the document.
fn numbers(blocks: &[Block], frame: &Frame) -> Vec<(Kind, f64)> {
    let mut numbers = Vec::new();
    for block in blocks {
        let corners = block.contours.iter().flatten().filter(|_| frame.holds(block));
        for [x, y] in corners.map(|corner| frame.in_house(*corner)) {
            numbers.extend([(Kind::LineX, x), (Kind::LineY, y)]);
        }
        let figures = figure::figures(block).into_iter().filter(figure::Written::is_free);
        numbers.extend(figures.map(|written| (written.kind, written.value.si())));
    }
    numbers
}

/// Numbers gathered into those that agree, by kind and size.
fn clustered(numbers: Vec<(Kind, f64)>) -> Vec<Cluster> {
    let mut sorted: Vec<(usize, (Kind, f64))> = numbers.into_iter().enumerate().collect();
    sorted.sort_by(|(_, (kind, value)), (_, (other, than))| kind.cmp(other).then(value.total_cmp(than)));
    let mut clusters: Vec<(usize, Cluster)> = Vec::new();
    for (order, (kind, value)) in sorted {
        match clusters.last_mut() {
            Some((first, last)) if last.kind == kind && value - last.low <= reach(kind) => {
                last.high = value;
                if order < *first {
                    (*first, last.start) = (order, value);
                }
            }
            _ => {
                clusters
                    .push((order, Cluster { kind, low: value, high: value, start: value, unknown: None }));
            }
        }
    }
    clusters.into_iter().map(|(_, cluster)| cluster).collect()
}

/// How far numbers of a kind that are one unknown may lie apart.
const fn reach(kind: Kind) -> f64 {
    match kind {
        Kind::LineX | Kind::LineY => IN_LINE,
        Kind::Plate | Kind::Pitch | Kind::Overhang | Kind::Break | Kind::Start => ALIKE,
    }
}

/// The house's own axes: those of its first block.
#[derive(Clone, Debug)]
struct Frame {
    turn_degrees: f64,
    sine: f64,
    cosine: f64,
}

impl Frame {
    fn of(blocks: &[Block]) -> Self {
        let turn_degrees = blocks.first().map_or(0.0, |block| block.turn_degrees);
        let (sine, cosine) =
            if is_square(turn_degrees) { (0.0, 1.0) } else { turn_degrees.to_radians().sin_cos() };
        Self { turn_degrees, sine, cosine }
    }

    fn holds(&self, block: &Block) -> bool {
        is_square(block.turn_degrees - self.turn_degrees)
    }

    fn in_house(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x * self.cosine + y * self.sine, y * self.cosine - x * self.sine]
    }

    fn in_plan(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x * self.cosine - y * self.sine, x * self.sine + y * self.cosine]
    }
}

fn is_square(degrees: f64) -> bool {
    let over = degrees.rem_euclid(90.0);
    over.min(90.0 - over) < SQUARE
}
