//! Houses for tests, written as blocks.
#![allow(
    dead_code,
    unreachable_pub,
    missing_docs,
    reason = "a module of several test binaries, each using its own part"
)]

pub mod pierced;
pub mod random;
pub mod told;

use job::{Basis, Block, BlockEdge, EdgeSlope, Figure, Form, FormName, Overhang, Side};
use measure::{Length, Pitch};

pub fn figure<T>(value: T) -> Figure<T> {
    Figure { value, basis: Basis::Measured, span: 0..0 }
}

/// A rectangular block under construction; lengths in feet, pitches per 12. Sides go south, east, north, west.
#[derive(Clone)]
pub struct Rect {
    pub name: &'static str,
    pub at: [f64; 2],
    pub size: [f64; 2],
    pub plate: [f64; 4],
    /// Rise per 12 of each side; none is a gable.
    pub pitch: [Option<f64>; 4],
    pub overhang: [f64; 4],
    pub level_with: Option<&'static str>,
    pub turn_degrees: f64,
    pub form: Form,
    pub fascia: f64,
    pub base: Option<f64>,
    pub on: Option<&'static str>,
    pub open: bool,
}

impl Rect {
    pub fn new(name: &'static str, at: [f64; 2], size: [f64; 2], plate: f64) -> Self {
        Self {
            name,
            at,
            size,
            plate: [plate; 4],
            pitch: [None; 4],
            overhang: [0.0; 4],
            level_with: None,
            turn_degrees: 0.0,
            form: Form::Plain,
            fascia: 0.5,
            base: None,
            on: None,
            open: false,
        }
    }

    pub fn pitches(mut self, pitch: [Option<f64>; 4]) -> Self {
        self.pitch = pitch;
        self
    }

    pub fn overhangs(mut self, overhang: [f64; 4]) -> Self {
        self.overhang = overhang;
        self
    }

    pub fn level_with(mut self, block: &'static str) -> Self {
        self.level_with = Some(block);
        self
    }

    pub fn form(mut self, form: Form) -> Self {
        self.form = form;
        self
    }

    pub fn block(&self) -> Block {
        let [x, y] = self.at;
        let [w, d] = self.size;
        let (sin, cos) = self.turn_degrees.to_radians().sin_cos();
        let turned = |dx: f64, dy: f64| {
            [Length::from_ft(x + dx * cos - dy * sin).m(), Length::from_ft(y + dx * sin + dy * cos).m()]
        };
        let sides = [Side::South, Side::East, Side::North, Side::West];
        let edge = |i: usize| BlockEdge {
            side: sides[i],
            plate: figure(Length::from_ft(self.plate[i])),
            slope: self.pitch[i]
                .map_or(EdgeSlope::Gable, |p| EdgeSlope::Pitch(figure(Pitch::from_rise_per_12(p)))),
            overhang: match self.level_with {
                Some(block) if self.pitch[i].is_some() => {
                    Overhang::LevelWith { block: block.into(), side: None, span: 0..0 }
                }
                _ => Overhang::Run(figure(Length::from_ft(self.overhang[i]))),
            },
        };
        let mut block = outline_block(
            self.name,
            vec![vec![turned(0.0, 0.0), turned(w, 0.0), turned(w, d), turned(0.0, d)]],
        );
        block.edges = vec![(0..4).map(edge).collect()];
        block.turn_degrees = self.turn_degrees;
        block.form = self.form.clone();
        block.fascia = figure(Length::from_ft(self.fascia));
        block.base = self.base.map(|b| figure(Length::from_ft(b)));
        block.on = self.on.map(str::to_owned);
        block.open = self.open;
        block
    }
}

/// A block of any outline, metres, with 6/12 from every edge, 0.3 m overhang and a plate at 3 m.
pub fn outline_block(name: &str, contours: Vec<Vec<[f64; 2]>>) -> Block {
    let edge = |contour: usize, number: usize| BlockEdge {
        side: Side::Edge { contour, number: number + 1 },
        plate: figure(Length::from_m(3.0)),
        slope: EdgeSlope::Pitch(figure(Pitch::from_rise_per_12(6.0))),
        overhang: Overhang::Run(figure(Length::from_m(0.3))),
    };
    let edges = contours
        .iter()
        .enumerate()
        .map(|(c, points)| (0..points.len()).map(|n| edge(c, n)).collect())
        .collect();
    Block {
        name: name.into(),
        span: 0..0,
        contours,
        edges,
        turn_degrees: 0.0,
        form_name: FormName::PerEdge,
        form: Form::Plain,
        fascia: figure(Length::from_in(6.0)),
        base: None,
        on: None,
        open: false,
        detached: false,
        framing: None,
        deck: None,
    }
}

/// Two-storey cross-gable with a front wing and a porch.
pub fn cross_gable() -> Vec<Block> {
    let main = Rect::new("main", [0.0, 0.0], [40.0, 26.0], 17.0)
        .pitches([Some(6.0), None, Some(6.0), None])
        .overhangs([16.0 / 12.0, 1.0, 16.0 / 12.0, 1.0]);
    let wing = Rect::new("wing", [20.0, -10.0], [16.0, 10.0], 17.0)
        .pitches([None, Some(9.0), None, Some(9.0)])
        .overhangs([1.0; 4])
        .level_with("main");
    let mut porch = Rect::new("porch", [2.0, -8.0], [18.0, 8.0], 7.25)
        .pitches([Some(3.0), None, None, None])
        .overhangs([1.0, 8.0 / 12.0, 8.0 / 12.0, 8.0 / 12.0]);
    porch.open = true;
    vec![main.block(), wing.block(), porch.block()]
}

/// Hip split level with an attached garage.
pub fn hip_split_level() -> Vec<Block> {
    let four = Some(4.0);
    let upper = Rect::new("upper", [0.0, 0.0], [32.0, 26.0], 13.0).pitches([four; 4]).overhangs([2.0; 4]);
    let main = Rect::new("main", [32.0, 3.0], [28.0, 20.0], 8.0)
        .pitches([four, four, four, None])
        .overhangs([2.0; 4]);
    let garage = Rect::new("garage", [40.0, -19.0], [20.0, 22.0], 8.0)
        .pitches([four, four, None, four])
        .overhangs([2.0; 4]);
    vec![upper.block(), main.block(), garage.block()]
}

/// A long house: main blocks end to end in two heights, each with a wing, a porch or a dormer.
pub fn row_of_blocks(count: usize) -> Vec<Block> {
    let six = Some(6.0);
    let names = (0..count).map(|i| format!("block {}", i + 1));
    let of_unit = |i: usize, name: String| {
        let (unit, part) = (i / 3, i % 3);
        let x = 30.0 * unit as f64;
        let plate = if unit.is_multiple_of(2) { 17.0 } else { 15.0 };
        let rect = match part {
            0 => Rect::new("", [x, 0.0], [30.0, 26.0], plate)
                .pitches([six, None, six, None])
                .overhangs([1.5, 0.0, 1.5, 0.0]),
            1 => Rect::new("", [x + 8.0, -12.0], [14.0, 12.0], plate)
                .pitches([None, Some(9.0), None, Some(9.0)])
                .overhangs([1.0; 4]),
            _ => Rect::new("", [x + 12.0, 17.0], [6.0, 5.0], plate + 5.0)
                .pitches([None, Some(8.0), None, Some(8.0)])
                .overhangs([0.5; 4]),
        };
        let mut block = rect.block();
        block.name = name;
        block
    };
    names.enumerate().map(|(i, name)| of_unit(i, name)).collect()
}

/// An outline of many corners: a wavy ring, 6/12 all round.
pub fn wavy_outline(corners: usize) -> Vec<Block> {
    let corner = |i: usize| {
        let turn = std::f64::consts::TAU * i as f64 / corners as f64;
        let radius = 20.0 + 3.0 * (7.0 * turn).sin() + if i.is_multiple_of(2) { 0.25 } else { 0.0 };
        [radius * turn.cos(), radius * turn.sin()]
    };
    vec![outline_block("house", vec![(0..corners).map(corner).collect()])]
}
