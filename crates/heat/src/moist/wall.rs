//! Vapor that goes through layers and condenses between them, for one month at a time.
//!
//! # Method
//! ISO 13788:2012, clauses 5 and 6. Drawn over what each layer lets through of vapor, in thickness of still air, pressure runs straight where no water
//! is. It may not pass saturation: it is the string drawn tight under that, and where the string touches, water condenses. At interfaces that are wet already
//! pressure is that of saturation, and the same balance tells how fast they dry.
//!
//! # Valid range
//! Vapor alone: no air that leaks, no water that runs or is drawn, no wood that stores it. In attics air that leaks carries far more: see
//! [`super::Attic`].

use measure::RValue;
use thiserror::Error;

use super::air::{iso_dew_point, iso_saturation};

/// Permeability of still air, kg/(s·m·Pa) (ISO 13788:2012).
pub(super) const STILL_AIR: f64 = 2e-10;
/// Humidity at a surface from which mold grows (ISO 13788:2012).
const MOLD_AT: f64 = 0.8;

/// No layer is cut into more parts.
const MOST_PARTS: u16 = 1000;

/// One layer.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What it is.
    pub name: String,
    /// What it resists.
    pub resistance: RValue,
    /// Still air that resists vapor as much, m.
    pub still_air: f64,
}

/// Layers from the inside out, with their films.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    films: [RValue; 2],
    sheets: Vec<Sheet>,
}

/// Air on both sides, over a month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Month {
    /// How long it is.
    pub days: f64,
    /// Temperature indoors and out, °C.
    pub temperatures: [f64; 2],
    /// Vapor indoors and out, Pa.
    pub vapors: [f64; 2],
}

/// Why layers make no wall.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum WallError {
    /// A layer whose figures are none.
    #[error("`{0}` is to resist heat by at least 0 and vapor by more than 0 m of still air")]
    Sheet(String),
    /// Nothing at all.
    #[error("a wall has at least one layer, and resists heat")]
    Nothing,
    /// Air that cannot be.
    #[error("{0}")]
    Month(&'static str),
}

/// What condenses in a month, or dries.
#[derive(Clone, Debug, PartialEq)]
pub struct Condensing {
    /// At each interface from the inner surface to the outer, °C.
    pub temperatures: Vec<f64>,
    /// The most vapor that can be there, Pa.
    pub saturations: Vec<f64>,
    /// What is there, Pa.
    pub vapors: Vec<f64>,
    /// Water that gathers at each, kg/(s·m²); below nothing where it dries.
    pub rates: Vec<f64>,
    /// Where the string touches saturation, ends included.
    pub touches: Vec<usize>,
    /// Vapor indoors is more than the inner surface can hold: it is wet, and the balance takes what it holds.
    pub wet_surface: bool,
}

impl Wall {
    /// Layers from the inside out, with the film inside and that outside.
    ///
    /// # Errors
    /// No layer, layers without a figure.
    pub fn new(films: [RValue; 2], sheets: Vec<Sheet>) -> Result<Self, WallError> {
        let is_sheet = |sheet: &&Sheet| {
            let (r, sd) = (sheet.resistance.si(), sheet.still_air);
            r >= 0.0 && r.is_finite() && sd > 0.0 && sd.is_finite()
        };
        if let Some(wrong) = sheets.iter().find(|sheet| !is_sheet(sheet)) {
            return Err(WallError::Sheet(wrong.name.clone()));
        }
        let wall = Self { films, sheets };
        let resists = wall.resistance().si();
        if wall.sheets.is_empty() || !(resists > 0.0 && resists.is_finite()) {
            Err(WallError::Nothing)
        } else {
            Ok(wall)
        }
    }

    /// The same with layers cut into parts of no more resistance each, as the standard asks (0.25 m²·K/W): water condenses inside thick insulation too.
    #[must_use]
    pub fn divided(&self, most: RValue) -> Self {
        let parts = |sheet: &Sheet| {
            let count = (sheet.resistance / most).ceil().clamp(1.0, f64::from(MOST_PARTS));
            let part = Sheet {
                name: sheet.name.clone(),
                resistance: sheet.resistance / count,
                still_air: sheet.still_air / count,
            };
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "whole, from 1 to the most parts"
            )]
            std::iter::repeat_n(part, count as usize)
        };
        Self { films: self.films, sheets: self.sheets.iter().flat_map(parts).collect() }
    }

    /// The layers.
    pub fn sheets(&self) -> &[Sheet] {
        &self.sheets
    }

    /// What all of it resists.
    pub fn resistance(&self) -> RValue {
        self.films[0] + self.films[1] + self.sheets.iter().map(|sheet| sheet.resistance).sum::<RValue>()
    }

    /// A month, with the interfaces that are wet from before.
    ///
    /// # Errors
    /// Air that cannot be.
    pub fn month(&self, month: &Month, wet: &[bool]) -> Result<Condensing, WallError> {
        month.checked()?;
        let temperatures = self.temperatures(month.temperatures);
        let saturations: Vec<f64> = temperatures.iter().map(|t| iso_saturation(*t)).collect();
        let depths = self.depths();
        let last = depths.len() - 1;
        let wet_surface = month.vapors[0] > saturations[0];
        let mut limits = saturations.clone();
        limits[0] = month.vapors[0].min(saturations[0]);
        limits[last] = month.vapors[1].min(saturations[last]);
        // wet interfaces part the wall: between them the string is drawn by itself
        let is_fixed = |i: &usize| *i == 0 || *i == last || wet.get(*i).copied().unwrap_or(false);
        let fixed: Vec<usize> = (0..=last).filter(is_fixed).collect();
        let mut touches = vec![0];
        for pair in fixed.windows(2) {
            touches.extend(taut(&depths, &limits, pair[0], pair[1]));
        }
        let mut rates = vec![0.0; last + 1];
        for three in touches.windows(3) {
            let flow = |from: usize, to: usize| {
                STILL_AIR * (limits[from] - limits[to]) / (depths[to] - depths[from])
            };
            rates[three[1]] = flow(three[0], three[1]) - flow(three[1], three[2]);
        }
        let vapors = along(&depths, &limits, &touches);
        Ok(Condensing { temperatures, saturations, vapors, rates, touches, wet_surface })
    }

    /// At each interface, from the inner surface to the outer, °C.
    fn temperatures(&self, [inside, outside]: [f64; 2]) -> Vec<f64> {
        let whole = self.resistance().si();
        let surface = self.films[0].si();
        let sums = self.sheets.iter().scan(surface, |sum, sheet| {
            *sum += sheet.resistance.si();
            Some(*sum)
        });
        std::iter::once(surface).chain(sums).map(|r| inside - (inside - outside) * r / whole).collect()
    }

    /// Still air up to each interface, m.
    fn depths(&self) -> Vec<f64> {
        let sums = self.sheets.iter().scan(0.0, |sum, sheet| {
            *sum += sheet.still_air;
            Some(*sum)
        });
        std::iter::once(0.0).chain(sums).collect()
    }
}

impl Month {
    fn checked(&self) -> Result<(), WallError> {
        if !(self.days > 0.0 && self.days <= 366.0) {
            return Err(WallError::Month("a month has more than 0 days and at most 366"));
        }
        if !self.temperatures.iter().all(|t| (-80.0..=80.0).contains(t)) {
            return Err(WallError::Month("temperatures are to lie between -80 and 80 °C"));
        }
        if !self.vapors.iter().all(|p| *p >= 0.0 && p.is_finite()) {
            return Err(WallError::Month("vapor has a pressure of at least 0 Pa"));
        }
        Ok(())
    }
}

/// Where a string from one point to another, drawn tight below the limits between, touches: without the first, with the last.
fn taut(depths: &[f64], limits: &[f64], from: usize, to: usize) -> Vec<usize> {
    let slope = |a: usize, b: usize| (limits[b] - limits[a]) / (depths[b] - depths[a]);
    let mut touches = Vec::new();
    let mut at = from;
    while at < to {
        let steepest = (at + 1..=to).fold(at + 1, |best, next| {
            // of equals the farthest: a straight string touches at its ends only
            if slope(at, next) <= slope(at, best) { next } else { best }
        });
        touches.push(steepest);
        at = steepest;
    }
    touches
}

/// Pressure at every interface, straight between those where the string touches.
fn along(depths: &[f64], limits: &[f64], touches: &[usize]) -> Vec<f64> {
    let mut vapors = limits.to_vec();
    for pair in touches.windows(2) {
        let [from, to] = [pair[0], pair[1]];
        let slope = (limits[to] - limits[from]) / (depths[to] - depths[from]);
        (from + 1..to).for_each(|i| vapors[i] = limits[from] + slope * (depths[i] - depths[from]));
    }
    vapors
}

/// Least temperature of a surface indoors on which no mold grows, °C, at a temperature and relative humidity (0 to 1) of the room.
pub fn least_surface(inside: f64, humidity: f64) -> f64 {
    iso_dew_point(humidity * iso_saturation(inside) / MOLD_AT)
}

/// How far a surface is on the way from outdoors to the room: 1 is as warm as the room. None where both are as warm.
pub fn surface_factor(surface: f64, inside: f64, outside: f64) -> Option<f64> {
    let whole = inside - outside;
    (whole != 0.0).then(|| (surface - outside) / whole)
}
