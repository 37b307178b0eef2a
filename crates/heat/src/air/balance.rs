//! The search for pressures at which air balances, kept from one state of a network to the next.

use super::leak::Leak;
use super::network::{AirError, Fan, Flows, Network, Opening};
use super::{GRAVITY, density};

/// Below this the power law goes on as a straight line, Pa: else its slope at nothing has no end.
const STRAIGHT: f64 = 1e-4;
/// Air that balances to this share of all that moves is balanced; Newton's steps square it, so that most end far below.
const BALANCED: f64 = 1e-9;
/// Air less than this is none, kg/s.
const NOTHING: f64 = 1e-13;
/// Steps of Newton's method, and how many times one is made shorter.
const STEPS: usize = 200;
const SHORTER: usize = 60;
/// A step past the lowest energy along it is made shorter where energy rises there faster than this share of how it fell at first: where air through an opening
/// turns, the root law sends Newton's steps to and fro between its two sides.
const TURNED: f64 = 0.5;

/// A network whose temperatures, winds and vents change while what joins its zones stays: each balance is sought from the pressures found last.
#[derive(Clone, Debug, PartialEq)]
pub struct Balancer {
    network: Network,
    /// Zones that have a way to outdoors.
    tied: Vec<bool>,
    ways: Vec<Way>,
    pressures: Vec<f64>,
    /// Where a step of the search leads.
    next: Vec<f64>,
    step: Vec<f64>,
    here: Balance,
    there: Balance,
}

impl Balancer {
    /// Of a network that is sound.
    ///
    /// # Errors
    /// As [`Network::solved`].
    pub fn of(network: Network) -> Result<Self, AirError> {
        let tied = network.sound()?;
        let count = network.zones.len();
        let way = |opening: &Opening| Way {
            ends: [opening.from, opening.to],
            drive: 0.0,
            conductances: [0.0; 2],
            exponent: opening.leak.exponent,
            is_root: opening.leak.exponent.to_bits() == 0.5_f64.to_bits(),
            line: STRAIGHT.powf(opening.leak.exponent - 1.0),
        };
        Ok(Self {
            tied,
            ways: network.openings.iter().map(way).collect(),
            pressures: vec![0.0; count],
            next: vec![0.0; count],
            step: vec![0.0; count],
            here: Balance::default(),
            there: Balance::default(),
            network,
        })
    }

    /// Sets the temperature outdoors and those of the zones, °C.
    pub fn set_temperatures(&mut self, outdoors: f64, zones: impl IntoIterator<Item = f64>) {
        self.network.outdoors.temperature = outdoors;
        self.network.zones.iter_mut().zip(zones).for_each(|(zone, own)| zone.temperature = own);
    }

    /// Openings in their order, to set their wind and how much they let through; exponents stay as they were.
    pub fn openings_mut(&mut self) -> impl Iterator<Item = (&mut f64, &mut f64)> {
        self.network.openings.iter_mut().map(|opening| (&mut opening.wind, &mut opening.leak.coefficient))
    }

    /// Seeks the balance.
    ///
    /// # Errors
    /// Where none is found.
    pub fn balance(&mut self) -> Result<(), AirError> {
        self.draw();
        let Self { network, tied, ways, pressures, next, step, here, there } = self;
        here.take(ways, &network.fans, pressures);
        for _ in 0..STEPS {
            if here.left.iter().all(|left| left.abs() <= BALANCED * here.moved + NOTHING) {
                break;
            }
            here.descend(tied, step);
            // how fast the energy falls along the step, at its start
            let fall = along(step, &here.left);
            let mut share = 1.0;
            let gains = (0..SHORTER).any(|_| {
                let at = pressures.iter().zip(&*step).map(|(p, step)| p + share * step);
                next.iter_mut().zip(at).for_each(|(next, at)| *next = at);
                there.take(ways, &network.fans, next);
                let falls = along(step, &there.left);
                let is_good = there.energy <= here.energy - 1e-4 * share * fall && falls >= -TURNED * fall;
                // near the end energies differ by less than their rounding
                if is_good || most(&there.left) < 0.5 * most(&here.left) {
                    return true;
                }
                share *= if falls < 0.0 { fall / (fall - falls) } else { 0.5 };
                false
            });
            if !gains {
                // rounding is all that is left
                break;
            }
            std::mem::swap(pressures, next);
            std::mem::swap(here, there);
        }
        let left = most(&here.left);
        if !here.moved.is_finite() || left > 1e-6 * here.moved + NOTHING {
            pressures.fill(0.0);
            return Err(AirError::Unbalanced(left));
        }
        Ok(())
    }

    /// Air through each opening the way it is given, kg/s, as balanced last.
    pub fn flows(&self) -> &[f64] {
        &self.here.flows
    }

    /// All that was found.
    pub(super) fn into_flows(self) -> Flows {
        let residual = most(&self.here.left);
        Flows { pressures: self.pressures, openings: self.here.flows, residual }
    }

    /// What of each opening does not change with the pressures.
    fn draw(&mut self) {
        let Network { outdoors, zones, openings, .. } = &self.network;
        let of = |end: Option<usize>| {
            density(outdoors.pressure, end.map_or(outdoors.temperature, |zone| zones[zone].temperature))
        };
        for (way, opening) in self.ways.iter_mut().zip(openings) {
            let densities = way.ends.map(of);
            let wind = way.ends.map(|end| if end.is_none() { opening.wind } else { 0.0 });
            let own = [0, 1].map(|i| wind[i] - densities[i] * GRAVITY * opening.height);
            way.drive = own[0] - own[1];
            let Leak { coefficient, .. } = opening.leak;
            way.conductances = densities.map(|density| density * coefficient);
        }
    }
}

/// An opening at the temperatures of a network.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Way {
    ends: [Option<usize>; 2],
    /// What drives air through it while zones have no pressure of their own, Pa.
    drive: f64,
    /// Flow at 1 Pa out of either end, kg/s.
    conductances: [f64; 2],
    exponent: f64,
    /// Whether that is one half, as of most: a root is found faster than a power.
    is_root: bool,
    /// Slope of the straight line, for a flow of 1 at 1 Pa.
    line: f64,
}

impl Way {
    /// Air through it, kg/s, its slope by pressure, and its share of the convex function.
    fn through(&self, pressures: &[f64]) -> (f64, f64, f64) {
        let at = |end: Option<usize>| end.map_or(0.0, |zone| pressures[zone]);
        let drive = self.drive + at(self.ends[0]) - at(self.ends[1]);
        let conductance = self.conductances[usize::from(drive <= 0.0)];
        let slope = conductance * self.line;
        let size = drive.abs();
        if size < STRAIGHT {
            return (slope * drive, slope, slope * drive * drive / 2.0);
        }
        let flow = conductance * if self.is_root { size.sqrt() } else { size.powf(self.exponent) };
        let foot = slope * STRAIGHT * STRAIGHT;
        let energy = foot / 2.0 + (flow * size - foot) / (self.exponent + 1.0);
        (flow.copysign(drive), self.exponent * flow / size, energy)
    }
}

/// What pressures come to.
#[derive(Clone, Debug, Default, PartialEq)]
struct Balance {
    /// What comes into each zone and does not go out, kg/s.
    left: Vec<f64>,
    /// How that falls with each pressure, row by row.
    slopes: Vec<f64>,
    /// Through each opening, kg/s.
    flows: Vec<f64>,
    /// All that goes through openings, kg/s.
    moved: f64,
    /// The convex function whose slope by each pressure is what is left over there, with its sign turned.
    energy: f64,
}

impl Balance {
    /// Takes what some pressures come to.
    fn take(&mut self, ways: &[Way], fans: &[Fan], pressures: &[f64]) {
        let count = pressures.len();
        self.left.clear();
        self.left.resize(count, 0.0);
        self.slopes.clear();
        self.slopes.resize(count * count, 0.0);
        self.flows.clear();
        (self.moved, self.energy) = (0.0, 0.0);
        for way in ways {
            let (flow, slope, energy) = way.through(pressures);
            for (end, sign) in way.ends.into_iter().zip([-1.0, 1.0]) {
                let Some(zone) = end else { continue };
                self.left[zone] += sign * flow;
                self.slopes[zone * count + zone] += slope;
            }
            if let [Some(a), Some(b)] = way.ends {
                self.slopes[a * count + b] -= slope;
                self.slopes[b * count + a] -= slope;
            }
            self.energy += energy;
            self.moved += flow.abs();
            self.flows.push(flow);
        }
        for fan in fans {
            for (end, sign) in [(fan.from, -1.0), (fan.to, 1.0)] {
                if let Some(zone) = end {
                    self.left[zone] += sign * fan.flow;
                    self.energy -= sign * fan.flow * pressures[zone];
                }
            }
        }
    }

    /// Newton's step: slopes · step = what is left over. Zones without a way out stay as they are. The slopes are used up.
    fn descend(&mut self, tied: &[bool], step: &mut [f64]) {
        let count = tied.len();
        let slopes = &mut self.slopes;
        step.copy_from_slice(&self.left);
        for zone in (0..count).filter(|zone| !tied[*zone]) {
            slopes[zone * count..(zone + 1) * count].fill(0.0);
            slopes[zone * count + zone] = 1.0;
            step[zone] = 0.0;
        }
        // Slopes are those of a graph tied to outdoors: no pivots are needed.
        for i in 0..count {
            let (above, below) = slopes.split_at_mut((i + 1) * count);
            let pivot = &above[i * count..];
            for (row, j) in below.chunks_exact_mut(count).zip(i + 1..) {
                let share = row[i] / pivot[i];
                row.iter_mut().zip(pivot).skip(i).for_each(|(own, other)| *own -= share * other);
                step[j] -= share * step[i];
            }
        }
        for i in (0..count).rev() {
            let row = &slopes[i * count..(i + 1) * count];
            let known: f64 = (i + 1..count).map(|k| row[k] * step[k]).sum();
            step[i] = (step[i] - known) / row[i];
        }
    }
}

/// How fast the energy falls along a step where so much is left over.
fn along(step: &[f64], left: &[f64]) -> f64 {
    step.iter().zip(left).map(|(step, left)| step * left).sum()
}

/// The largest, whatever its sign.
fn most(all: &[f64]) -> f64 {
    all.iter().fold(0.0, |most, one| most.max(one.abs()))
}
