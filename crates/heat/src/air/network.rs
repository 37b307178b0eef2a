//! Pressures at which the air of all zones balances.

use thiserror::Error;

use super::balance::Balancer;
use super::leak::Leak;

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
        let mut balancer = Balancer::of(self.clone())?;
        balancer.balance()?;
        Ok(balancer.into_flows())
    }

    /// Whether all of it is sound, and no fan moves air through a zone without a way out; which zones have one.
    pub(super) fn sound(&self) -> Result<Vec<bool>, AirError> {
        self.checked()?;
        let tied = self.tied();
        let idle = self.zones.iter().enumerate().find(|(zone, _)| {
            let is_of = |end: Option<usize>| end == Some(*zone);
            !tied[*zone] && self.fans.iter().any(|fan| fan.flow > 0.0 && (is_of(fan.from) || is_of(fan.to)))
        });
        match idle {
            Some((_, zone)) => Err(AirError::Sealed(zone.name.clone())),
            None => Ok(tied),
        }
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
}
