//! Pressures at which the air of all zones balances.

use thiserror::Error;

use super::leak::Leak;
use super::{GRAVITY, density};

/// Below this the power law goes on as a straight line, Pa: else its slope at nothing has no end.
const STRAIGHT: f64 = 1e-4;
/// Air that balances to this share of all that moves is balanced.
const BALANCED: f64 = 1e-11;
/// Air less than this is none, kg/s.
const NOTHING: f64 = 1e-13;
/// Steps of Newton's method, and halvings of one.
const STEPS: usize = 200;
const HALVINGS: i32 = 60;

/// Air outdoors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outdoors {
    /// °C.
    pub temperature: f64,
    /// Of the station, Pa.
    pub pressure: f64,
}

/// Air of one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// What it is, for messages.
    pub name: String,
    /// °C.
    pub temperature: f64,
}

/// A way for air between two zones, or between one and outdoors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// From this zone; none is outdoors.
    pub from: Option<usize>,
    /// To this one.
    pub to: Option<usize>,
    /// Height of its middle, m, above the same level for all.
    pub height: f64,
    /// What it lets through.
    pub leak: Leak,
    /// Pressure of wind at its outer side, Pa; nothing between zones.
    pub wind: f64,
}

/// Air that is moved whatever the pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fan {
    /// From this zone; none is outdoors.
    pub from: Option<usize>,
    /// To this one.
    pub to: Option<usize>,
    /// kg/s, at least 0.
    pub flow: f64,
}

/// Zones and what joins them.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    /// The air around.
    pub outdoors: Outdoors,
    /// Air of rooms and attics.
    pub zones: Vec<Zone>,
    /// Ways between them.
    pub openings: Vec<Opening>,
    /// What fans move.
    pub fans: Vec<Fan>,
}

/// Why there is no balance.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum AirError {
    /// A fan blows into, or draws from, zones without a way out.
    #[error("a fan moves air through `{0}`, which has no opening to outdoors")]
    Sealed(String),
    /// A zone that is not there.
    #[error("opening or fan {0} joins a zone that is not there")]
    Zone(usize),
    /// A figure that is none.
    #[error("{0} is not a number in its range")]
    Figure(&'static str),
    /// No balance was found.
    #[error("the air does not balance: {0:.1e} kg/s are left over")]
    Unbalanced(f64),
}

/// Air that moves.
#[derive(Clone, Debug, PartialEq)]
pub struct Flows {
    /// Pressure of each zone at height 0 over that of outdoors there, Pa.
    pub pressures: Vec<f64>,
    /// Through each opening the way it is given, kg/s.
    pub openings: Vec<f64>,
    /// What is left over in the worst zone, kg/s.
    pub residual: f64,
}

impl Network {
    /// The balance.
    ///
    /// # Errors
    /// Zones that are not there, figures that are none, fans in zones without a way out.
    pub fn solved(&self) -> Result<Flows, AirError> {
        self.solved_from(&[])
    }

    /// The balance, sought from pressures that were found for a network much like it; from none where they are not as many as the zones.
    ///
    /// # Errors
    /// As [`Self::solved`].
    pub fn solved_from(&self, last: &[f64]) -> Result<Flows, AirError> {
        self.checked()?;
        let tied = self.tied();
        let idle = self.zones.iter().enumerate().find(|(zone, _)| {
            let is_of = |end: Option<usize>| end == Some(*zone);
            !tied[*zone] && self.fans.iter().any(|fan| fan.flow > 0.0 && (is_of(fan.from) || is_of(fan.to)))
        });
        if let Some((_, zone)) = idle {
            return Err(AirError::Sealed(zone.name.clone()));
        }
        let mut pressures = vec![0.0; self.zones.len()];
        if last.len() == pressures.len() {
            pressures.copy_from_slice(last);
        }
        for _ in 0..STEPS {
            let (left, slopes) = self.balance(&pressures);
            if self.is_balanced(&pressures, &left) {
                break;
            }
            let step = descent(slopes, &left, &tied);
            // no step gains any more: rounding is all that is left
            let Some(next) = self.stepped(&pressures, &step, &left) else { break };
            pressures = next;
        }
        let (residual, _) = self.balance(&pressures);
        let left = most(&residual);
        let openings: Vec<f64> =
            self.openings.iter().map(|opening| self.through(opening, &pressures).0).collect();
        let moved = openings.iter().map(|flow| flow.abs()).sum::<f64>();
        if left > 1e-6 * moved + NOTHING {
            return Err(AirError::Unbalanced(left));
        }
        Ok(Flows { pressures, openings, residual: left })
    }

    /// As far along a step, by halves, as the energy falls or less is left over; none where neither does.
    fn stepped(&self, pressures: &[f64], step: &[f64], left: &[f64]) -> Option<Vec<f64>> {
        let before = self.energy(pressures);
        // how fast the energy falls along the step
        let fall: f64 = step.iter().zip(left).map(|(step, left)| step * left).sum();
        (0..HALVINGS).map(|halving| 0.5_f64.powi(halving)).find_map(|share| {
            let at: Vec<f64> = pressures.iter().zip(step).map(|(p, step)| p + share * step).collect();
            let is_lower = self.energy(&at) <= before - 1e-4 * share * fall;
            // near the end energies differ by less than their rounding
            (is_lower || most(&self.balance(&at).0) < 0.9 * most(left)).then_some(at)
        })
    }

    fn checked(&self) -> Result<(), AirError> {
        let is_there = |end: Option<usize>| end.is_none_or(|zone| zone < self.zones.len());
        let ends =
            self.openings.iter().map(|o| [o.from, o.to]).chain(self.fans.iter().map(|f| [f.from, f.to]));
        for (i, ends) in ends.enumerate() {
            if !ends.into_iter().all(is_there) {
                return Err(AirError::Zone(i + 1));
            }
        }
        let warm = |t: f64| t > -273.15 && t < 1000.0;
        if !(warm(self.outdoors.temperature) && self.zones.iter().all(|zone| warm(zone.temperature))) {
            return Err(AirError::Figure("a temperature"));
        }
        if !(self.outdoors.pressure > 1e3 && self.outdoors.pressure < 2e5) {
            return Err(AirError::Figure("the pressure outdoors"));
        }
        let is_leak = |o: &Opening| {
            o.leak.coefficient >= 0.0
                && o.leak.coefficient.is_finite()
                && (0.5..=1.0).contains(&o.leak.exponent)
        };
        if !self.openings.iter().all(|o| is_leak(o) && o.height.is_finite() && o.wind.is_finite()) {
            return Err(AirError::Figure("an opening"));
        }
        let is_fan = |fan: &Fan| fan.flow >= 0.0 && fan.flow.is_finite();
        if self.fans.iter().all(is_fan) { Ok(()) } else { Err(AirError::Figure("a fan's flow")) }
    }

    /// Which zones have a way to outdoors.
    fn tied(&self) -> Vec<bool> {
        let mut tied = vec![false; self.zones.len()];
        let is_tied = |tied: &[bool], end: Option<usize>| end.is_none_or(|zone| tied[zone]);
        for _ in 0..self.zones.len() {
            for opening in self.openings.iter().filter(|opening| opening.leak.coefficient > 0.0) {
                if is_tied(&tied, opening.from) || is_tied(&tied, opening.to) {
                    [opening.from, opening.to].into_iter().flatten().for_each(|zone| tied[zone] = true);
                }
            }
        }
        tied
    }

    fn density(&self, end: Option<usize>) -> f64 {
        let temperature = end.map_or(self.outdoors.temperature, |zone| self.zones[zone].temperature);
        density(self.outdoors.pressure, temperature)
    }

    /// Pressure that drives air through an opening, Pa.
    fn drive(&self, opening: &Opening, pressures: &[f64]) -> f64 {
        let at = |end: Option<usize>| {
            let own = end.map_or(opening.wind, |zone| pressures[zone]);
            own - self.density(end) * GRAVITY * opening.height
        };
        at(opening.from) - at(opening.to)
    }

    /// Air through an opening, kg/s, and its slope by pressure.
    fn through(&self, opening: &Opening, pressures: &[f64]) -> (f64, f64) {
        let drive = self.drive(opening, pressures);
        let Leak { coefficient, exponent } = opening.leak;
        let conductance = self.density(if drive > 0.0 { opening.from } else { opening.to }) * coefficient;
        if drive.abs() < STRAIGHT {
            let slope = conductance * STRAIGHT.powf(exponent - 1.0);
            (slope * drive, slope)
        } else {
            let flow = conductance * drive.abs().powf(exponent);
            (flow.copysign(drive), exponent * flow / drive.abs())
        }
    }

    /// What comes into each zone and does not go out, and how that falls with the pressures.
    fn balance(&self, pressures: &[f64]) -> (Vec<f64>, Vec<Vec<f64>>) {
        let count = self.zones.len();
        let (mut left, mut slopes) = (vec![0.0; count], vec![vec![0.0; count]; count]);
        for opening in &self.openings {
            let (flow, slope) = self.through(opening, pressures);
            for (end, sign) in [(opening.from, -1.0), (opening.to, 1.0)] {
                let Some(zone) = end else { continue };
                left[zone] += sign * flow;
                slopes[zone][zone] += slope;
            }
            if let (Some(a), Some(b)) = (opening.from, opening.to) {
                slopes[a][b] -= slope;
                slopes[b][a] -= slope;
            }
        }
        for fan in &self.fans {
            for (end, sign) in [(fan.from, -1.0), (fan.to, 1.0)] {
                if let Some(zone) = end {
                    left[zone] += sign * fan.flow;
                }
            }
        }
        (left, slopes)
    }

    /// The convex function whose slope by each pressure is what is left over there, with its sign turned.
    fn energy(&self, pressures: &[f64]) -> f64 {
        let openings = self.openings.iter().map(|opening| {
            let drive = self.drive(opening, pressures);
            let Leak { coefficient, exponent } = opening.leak;
            let conductance = self.density(if drive > 0.0 { opening.from } else { opening.to }) * coefficient;
            let line = conductance * STRAIGHT.powf(exponent - 1.0) / 2.0;
            if drive.abs() < STRAIGHT {
                line * drive * drive
            } else {
                let power = |p: f64| conductance * p.powf(exponent + 1.0) / (exponent + 1.0);
                line * STRAIGHT * STRAIGHT + power(drive.abs()) - power(STRAIGHT)
            }
        });
        let at = |end: Option<usize>| end.map_or(0.0, |zone| pressures[zone]);
        let fans = self.fans.iter().map(|fan| fan.flow * (at(fan.from) - at(fan.to)));
        openings.chain(fans).sum()
    }

    fn is_balanced(&self, pressures: &[f64], left: &[f64]) -> bool {
        let moved: f64 = self.openings.iter().map(|opening| self.through(opening, pressures).0.abs()).sum();
        left.iter().all(|left| left.abs() <= BALANCED * moved + NOTHING)
    }
}

/// The largest, whatever its sign.
fn most(all: &[f64]) -> f64 {
    all.iter().fold(0.0, |most, one| most.max(one.abs()))
}

/// Newton's step: slopes · step = what is left over. Zones without a way out stay as they are.
fn descent(mut slopes: Vec<Vec<f64>>, left: &[f64], tied: &[bool]) -> Vec<f64> {
    let count = left.len();
    let mut right = left.to_vec();
    for zone in (0..count).filter(|zone| !tied[*zone]) {
        slopes[zone] = vec![0.0; count];
        slopes[zone][zone] = 1.0;
        right[zone] = 0.0;
    }
    // Slopes are those of a graph tied to outdoors: no pivots are needed.
    for i in 0..count {
        let pivot = slopes[i].clone();
        for j in i + 1..count {
            let share = slopes[j][i] / pivot[i];
            slopes[j].iter_mut().zip(&pivot).skip(i).for_each(|(own, other)| *own -= share * other);
            right[j] -= share * right[i];
        }
    }
    for i in (0..count).rev() {
        let known: f64 = (i + 1..count).map(|k| slopes[i][k] * right[k]).sum();
        right[i] = (right[i] - known) / slopes[i][i];
    }
    right
}
