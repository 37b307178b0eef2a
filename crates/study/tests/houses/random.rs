//! Random houses and random errors of the tape.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use super::{End, Form, House, Part, Placed, Shared, Spare, in_line};

const INCH: f64 = 1.0 / 12.0;
/// Spread of a tape, feet, and of a pitch gauge, rise in 12.
const TAPE: f64 = 0.5 * INCH;
const GAUGE: f64 = 0.25;

pub struct Chance(ChaCha8Rng);

impl Chance {
    pub fn of(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    fn feet(&mut self, from: f64, to: f64) -> f64 {
        (self.0.random_range(from..to) * 24.0).round() / 24.0
    }

    fn up_to(&mut self, most: usize) -> usize {
        self.0.random_range(0..=most)
    }

    /// A standard normal number (Box and Muller).
    fn normal(&mut self) -> f64 {
        let (u, v): (f64, f64) = (self.0.random_range(1e-12..1.0), self.0.random_range(0.0..1.0));
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }

    /// A house of one to four blocks, each against a side of an earlier one.
    pub fn house(&mut self) -> House {
        let size = [self.feet(24.0, 48.0), self.feet(20.0, 32.0)];
        let plate = self.feet(8.0, 19.0);
        let placed = [Placed::At(0.0); 2];
        let mut parts = vec![self.part("main", size, placed, Shared::Own(plate))];
        for name in ["wing", "shop", "porch"].iter().take(self.up_to(3)) {
            let host = self.up_to(parts.len() - 1);
            let house = House { parts, turn_degrees: 0.0 };
            let part = self.beside(name, &house, host);
            parts = house.parts;
            parts.push(part);
        }
        House { parts, turn_degrees: 0.0 }
    }

    fn beside(&mut self, name: &str, house: &House, host: usize) -> Part {
        let across = self.up_to(1);
        let along = 1 - across;
        let walls = house.walls(host, along);
        let width = self.feet(8.0, (walls[1] - walls[0] - 4.0).max(9.0));
        let depth = self.feet(6.0, 20.0);
        let (mine, its) = if self.up_to(1) == 0 { (End::High, End::Low) } else { (End::Low, End::High) };
        let mut placed = [in_line(mine, host, its); 2];
        let free = (walls[1] - walls[0] - width).max(0.6);
        placed[along] = match self.up_to(3) {
            0 => in_line(End::Low, host, End::Low),
            _ => Placed::At(walls[0] + self.feet(0.5, free + 0.1)),
        };
        let mut size = [width; 2];
        size[across] = depth;
        let plate = if self.up_to(1) == 0 { Shared::Of(host) } else { Shared::Own(self.feet(7.0, 19.0)) };
        self.part(name, size, placed, plate)
    }

    fn part(&mut self, name: &str, size: [f64; 2], placed: [Placed; 2], plate: Shared) -> Part {
        let form = match self.up_to(5) {
            0..=2 => Form::Gable { ridge: usize::from(size[0] < size[1]) },
            3 => Form::Hip,
            4 => Form::HipAndGable { axis: self.up_to(1), end: [End::Low, End::High][self.up_to(1)] },
            _ => Form::Shed,
        };
        let pitch = [3.0, 4.0, 5.0, 6.0, 8.0, 9.0, 12.0][self.up_to(6)];
        let overhang = Shared::Own(self.feet(0.5, 2.5));
        Part { name: name.into(), size, placed, plate, pitch, overhang, form }
    }

    /// The house as a tape and a gauge of `times` the usual spread read it.
    pub fn taped(&mut self, house: &House, times: f64) -> House {
        let mut taped = house.clone();
        let pitches: Vec<f64> = house.parts.iter().map(|part| part.pitch).collect();
        let gauge: Vec<f64> = pitches.iter().map(|_| GAUGE * times * self.normal()).collect();
        for part in &mut taped.parts {
            part.size = part.size.map(|size| size + TAPE * times * self.normal());
            for placed in &mut part.placed {
                if let Placed::At(at) = placed {
                    *at += TAPE * times * self.normal();
                }
            }
            for shared in [&mut part.plate, &mut part.overhang] {
                if let Shared::Own(figure) = shared {
                    *figure += TAPE * times * self.normal();
                }
            }
            // one pitch of the house is gauged once
            let first =
                pitches.iter().position(|pitch| (pitch - part.pitch).abs() < 1e-9).unwrap_or_default();
            part.pitch += gauge[first];
        }
        taped
    }

    pub fn taped_spares(&mut self, house: &House, spares: &[Spare], times: f64) -> Vec<(Spare, f64)> {
        spares.iter().map(|spare| (*spare, house.truth(*spare) + TAPE * times * self.normal())).collect()
    }
}
