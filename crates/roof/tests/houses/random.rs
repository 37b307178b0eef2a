//! Random houses: blocks of all forms, wings, porches, dormers, turned blocks; half of the figures on a coarse grid so that
//! walls line up, ridges meet and heights agree, half anywhere.

use job::{Block, Form, Side};
use measure::{Length, Pitch};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use super::{Rect, figure};

const NAMES: [&str; 8] = ["a", "b", "c", "d", "e", "f", "g", "h"];
const PITCHES: [f64; 10] = [2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 12.0, 18.0];

pub struct Random {
    rng: ChaCha8Rng,
    on_grid: bool,
}

/// The house of a seed.
pub fn house(seed: u64) -> Vec<Rect> {
    let mut r = Random { rng: ChaCha8Rng::seed_from_u64(seed), on_grid: seed.is_multiple_of(2) };
    let main = r.main();
    let mut blocks = vec![main];
    for name in NAMES.iter().skip(1).take(r.count(0, 4)) {
        let host = blocks[r.count(0, blocks.len() - 1)].clone();
        let next = match r.count(0, 5) {
            0 => r.dormer(name, &host),
            1 => r.porch(name, &host),
            2 => r.across(name, &host),
            _ => r.wing(name, &host),
        };
        blocks.push(next);
    }
    blocks
}

pub fn blocks(house: &[Rect]) -> Vec<Block> {
    house.iter().map(Rect::block).collect()
}

impl Random {
    fn count(&mut self, from: usize, to: usize) -> usize {
        self.rng.random_range(from..=to)
    }

    fn one_in(&mut self, n: u32) -> bool {
        self.rng.random_range(0..n) == 0
    }

    fn feet(&mut self, from: f64, to: f64) -> f64 {
        let x = self.rng.random_range(from..to);
        if self.on_grid { x.round() } else { x }
    }

    fn pitch(&mut self) -> f64 {
        let k = self.count(0, PITCHES.len() - 1);
        if self.on_grid { PITCHES[k] } else { self.rng.random_range(1.0..18.0) }
    }

    fn overhang(&mut self) -> f64 {
        let steps = [0.0, 0.5, 1.0, 4.0 / 3.0, 2.0, 3.0];
        let k = self.count(0, steps.len() - 1);
        if self.on_grid { steps[k] } else { self.rng.random_range(0.0..3.0) }
    }

    fn roof(&mut self, rect: Rect, ridge_x: bool) -> Rect {
        let p = self.pitch();
        let q = if self.one_in(4) { self.pitch() } else { p };
        let eave = self.overhang();
        let rake = self.overhang();
        let long = if ridge_x { [Some(p), None, Some(q), None] } else { [None, Some(p), None, Some(q)] };
        let all = [Some(p), Some(p), Some(q), Some(q)];
        let reach = if ridge_x { [eave, rake, eave, rake] } else { [rake, eave, rake, eave] };
        let narrow = rect.size[0].min(rect.size[1]);
        match self.count(0, 9) {
            0..=2 => rect.pitches(long).overhangs(reach),
            3 => rect.pitches(all).overhangs([eave; 4]),
            4 => {
                let gable = self.count(0, 3);
                let mut pitches = all;
                pitches[gable] = None;
                rect.pitches(pitches).overhangs([eave; 4])
            }
            5 => {
                let low = self.count(0, 3);
                let mut pitches = [None; 4];
                pitches[low] = Some(p);
                rect.pitches(pitches).overhangs([eave, rake, eave, rake])
            }
            6 => {
                let from = figure(Length::from_ft(0.5 * p / 12.0 * narrow / 4.0));
                let pitch = figure(Pitch::from_rise_per_12(self.pitch()));
                rect.pitches(long).overhangs(reach).form(Form::HalfHip { from, pitch })
            }
            7 => {
                let ends = if ridge_x { [Side::East, Side::West] } else { [Side::South, Side::North] };
                let run = figure(Length::from_ft(narrow / 6.0));
                rect.pitches(all).overhangs([eave; 4]).form(Form::HipSkirt { run, ends })
            }
            8 => {
                let run = figure(Length::from_ft(narrow / 5.0));
                let upper = figure(Pitch::from_rise_per_12(3.0));
                let steep = long.map(|p| p.map(|_| 20.0));
                rect.pitches(steep).overhangs(reach.map(|o| o * 0.3)).form(Form::Broken { run, upper })
            }
            _ => {
                let run = figure(Length::from_ft(narrow / 6.0));
                let upper = figure(Pitch::from_rise_per_12(3.0));
                rect.pitches([Some(18.0); 4]).overhangs([eave * 0.3; 4]).form(Form::Broken { run, upper })
            }
        }
    }

    fn main(&mut self) -> Rect {
        let size = [self.feet(20.0, 50.0), self.feet(18.0, 34.0)];
        let plate = self.feet(9.0, 20.0);
        let turn = match self.count(0, 3) {
            0 => self.rng.random_range(0.0..360.0),
            _ => 0.0,
        };
        let mut rect = Rect::new(NAMES[0], [0.0, 0.0], size, plate);
        rect.turn_degrees = turn;
        self.roof(rect, true)
    }

    /// A block whose wall lies along one side of its host.
    fn wing(&mut self, name: &'static str, host: &Rect) -> Rect {
        let side = self.count(0, 3);
        let along = host.size[side % 2];
        let width = self.feet(6.0, (along - 1.0).max(8.0));
        let depth = self.feet(5.0, 24.0);
        let offset =
            if self.one_in(5) { self.feet(-3.0, along) } else { self.feet(0.0, (along - width).max(0.5)) };
        let plate = match self.count(0, 3) {
            0 | 1 => host.plate[0],
            2 => (host.plate[0] - self.feet(2.0, 9.0)).max(6.0),
            _ => host.plate[0] + self.feet(1.0, 9.0),
        };
        let rect = beside(name, host, side, offset, [width, depth], plate);
        let mut rect = self.roof(rect, side % 2 == 1);
        let sloped_equally = rect.pitch.iter().flatten().all(|p| *p < 18.5);
        if plate >= host.plate[0]
            && self.one_in(3)
            && sloped_equally
            && host.pitch[0] == host.pitch[2]
            && host.pitch[0].is_some()
        {
            rect.plate = [host.plate[0]; 4];
        }
        rect
    }

    fn porch(&mut self, name: &'static str, host: &Rect) -> Rect {
        let side = self.count(0, 3);
        let along = host.size[side % 2];
        let width = self.feet(6.0, along.max(8.0));
        let depth = self.feet(4.0, 10.0);
        let offset = self.feet(0.0, (along - width).max(0.5));
        let mut rect = beside(name, host, side, offset, [width, depth], (host.plate[0] * 0.45).max(4.0));
        rect.pitch = [None; 4];
        rect.pitch[side] = Some(self.pitch().min(6.0));
        rect.overhang = [self.overhang(); 4];
        rect.open = true;
        rect
    }

    fn dormer(&mut self, name: &'static str, host: &Rect) -> Rect {
        let size = [self.feet(4.0, 9.0), self.feet(4.0, 9.0)];
        let x = self.feet(2.0, (host.size[0] - size[0] - 2.0).max(3.0));
        let y = self.feet(1.0, (host.size[1] / 2.0 - 2.0).max(2.0));
        let plate = host.plate[0] + self.feet(3.0, 9.0);
        let mut rect = Rect::new(name, at(host, x, y), size, plate);
        rect.turn_degrees = host.turn_degrees;
        rect.on = Some(host.name);
        let ridge_x = self.one_in(6);
        self.roof(rect, ridge_x)
    }

    /// A block that overlaps its host at any angle.
    fn across(&mut self, name: &'static str, host: &Rect) -> Rect {
        let centre = at(host, host.size[0] * 0.5, host.size[1] * 0.5);
        let size = [self.feet(10.0, 40.0), self.feet(8.0, 20.0)];
        let plate = host.plate[0] + self.feet(-4.0, 4.0);
        let mut rect = Rect::new(name, [centre[0] - 3.0, centre[1] - 2.0], size, plate.max(6.0));
        rect.turn_degrees = if self.on_grid { 45.0 } else { self.rng.random_range(0.0..360.0) };
        let ridge_x = self.one_in(2);
        self.roof(rect, ridge_x)
    }
}

/// A point in the frame of a block, in plan.
fn at(host: &Rect, x: f64, y: f64) -> [f64; 2] {
    let (sin, cos) = host.turn_degrees.to_radians().sin_cos();
    [host.at[0] + x * cos - y * sin, host.at[1] + x * sin + y * cos]
}

fn beside(
    name: &'static str,
    host: &Rect,
    side: usize,
    offset: f64,
    [width, depth]: [f64; 2],
    plate: f64,
) -> Rect {
    let [w, d] = host.size;
    let (origin, size) = match side {
        0 => (at(host, offset, -depth), [width, depth]),
        1 => (at(host, w, offset), [depth, width]),
        2 => (at(host, offset, d), [width, depth]),
        _ => (at(host, -depth, offset), [depth, width]),
    };
    let mut rect = Rect::new(name, origin, size, plate);
    rect.turn_degrees = host.turn_degrees;
    rect
}
