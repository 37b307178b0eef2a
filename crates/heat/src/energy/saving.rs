//! What insulation and air sealing save in a year, with the range it may lie in.
//!
//! # Method
//! Loss falls by A·(1/R − 1/R′) of each surface and by ρ·c·Q of air; degree days turn it into heat, the heater and its fuel into units and money. The range
//! is that of independent errors of every figure, each taken as a share of it, first order: from one in ten to nine in ten.
//!
//! # Valid range
//! An attic is warmer than outdoors, so that degree days overstate what its ceiling loses by 5 to 15 %; the share that is realized takes that in.

use book::thermal::Fuel;
use book::{Book, LookupError, Share};
use measure::{Area, Flow, Money, RValue, TemperatureDifference};
use std::num::NonZeroU32;

use crate::air::SPECIFIC_HEAT;

const DAY: f64 = 86_400.0;
/// British thermal unit, International Table, J (exact: 2326 J/kg times the pound).
const BTU: f64 = 2326.0 * 0.453_592_37;
/// One in ten is less than so many standard deviations below the middle of what is normally distributed.
const ONE_IN_TEN: f64 = 1.281_551_565_545;
/// Units of fuel are counted to this part for money.
const PARTS: u32 = 1000;

/// A surface before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Its area.
    pub area: Area,
    /// From air to air as found.
    pub before: RValue,
    /// As built.
    pub after: RValue,
}

impl Surface {
    /// Loss as found and as built, W/K.
    fn losses(&self) -> [f64; 2] {
        [self.before, self.after].map(|r| self.area.m2() / r.si())
    }
}

/// What is done to a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// What is insulated.
    pub surfaces: Vec<Surface>,
    /// Air that no longer comes in and is no longer heated.
    pub air: Flow,
    /// Density of air, kg/m³.
    pub density: f64,
}

/// Heat saved in a year, J.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Saving {
    /// Through surfaces.
    pub conduction: f64,
    /// With air.
    pub air: f64,
    /// One standard deviation of both together, without that of the heater, J.
    pub deviation: f64,
}

/// One standard deviation of each figure, as a share of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spreads {
    /// Resistance as found.
    pub before: f64,
    /// As built.
    pub after: f64,
    /// Areas.
    pub area: f64,
    /// Degree days.
    pub degree_days: f64,
    /// Of the heater.
    pub heater: f64,
    /// Leaks.
    pub leakage: f64,
}

impl Spreads {
    /// Those of the books.
    ///
    /// # Errors
    /// A rule the books lack.
    pub fn of(book: &Book) -> Result<Self, LookupError> {
        let of = |id: &str| book.rule(&format!("spread.{id}"))?.get::<Share>().map(Share::of_one);
        Ok(Self {
            before: of("resistance-before")?,
            after: of("resistance-after")?,
            area: of("area")?,
            degree_days: of("degree-days")?,
            heater: of("heater")?,
            leakage: of("leakage")?,
        })
    }
}

/// Units of fuel a year: one in ten, even chance, nine in ten that it is no more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Promise {
    /// One in ten.
    pub low: f64,
    /// Even.
    pub middle: f64,
    /// Nine in ten.
    pub high: f64,
    /// More than the most of the bill that is promised: all three were brought down to that.
    pub capped: bool,
}

impl Cut {
    /// Heat saved over degree days, K·d.
    pub fn saving(&self, degree_days: f64, spreads: &Spreads) -> Saving {
        let seconds = degree_days * DAY;
        let losses: Vec<[f64; 2]> = self.surfaces.iter().map(Surface::losses).collect();
        let conduction: f64 = losses.iter().map(|[before, after]| before - after).sum::<f64>() * seconds;
        let air = self.air.m3_s() * self.density * SPECIFIC_HEAT * seconds;
        let surfaces = losses.iter().map(|[before, after]| {
            let own = [before * spreads.before, after * spreads.after, (before - after) * spreads.area];
            own.iter().map(|part| (part * seconds).powi(2)).sum::<f64>()
        });
        let shared =
            [(conduction + air) * spreads.degree_days, air * spreads.leakage].map(|part| part.powi(2));
        let deviation = (surfaces.sum::<f64>() + shared.iter().sum::<f64>()).sqrt();
        Saving { conduction, air, deviation }
    }
}

impl Saving {
    /// Both together, J.
    pub fn heat(&self) -> f64 {
        self.conduction + self.air
    }

    /// Units of a fuel that make it in a heater that gives so much of it.
    pub fn units(&self, fuel: &Fuel, gives: f64) -> f64 {
        self.heat() / (gives * fuel.heat_btu.middle() * BTU)
    }

    /// What is promised of it: the share that bills show, in a range, no more than a share of what is billed for heating a year, in units of the fuel.
    ///
    /// # Errors
    /// A rule the books lack.
    pub fn promise(
        &self,
        (fuel, gives): (&Fuel, f64),
        billed: Option<f64>,
        spreads: &Spreads,
        book: &Book,
    ) -> Result<Promise, LookupError> {
        let rule = |id| book.rule(id)?.get::<Share>().map(Share::of_one);
        let middle = self.units(fuel, gives) * rule("saving.realized")?;
        let most = billed.map(|units| Ok(units * rule("saving.most")?)).transpose()?;
        let share = if self.heat() > 0.0 { self.deviation / self.heat() } else { 0.0 };
        let deviation = middle * (share.powi(2) + spreads.heater.powi(2)).sqrt();
        let [low, high] = [-1.0, 1.0].map(|side| (middle + side * ONE_IN_TEN * deviation).max(0.0));
        let most = most.unwrap_or(f64::INFINITY);
        let [low, middle, high] = [low, middle, high].map(|units| (units.min(most), units > most));
        Ok(Promise { low: low.0, middle: middle.0, high: high.0, capped: low.1 || middle.1 || high.1 })
    }
}

impl Promise {
    /// What it costs at a price of one unit, one in ten to nine in ten; none past the range of money.
    pub fn money(&self, price: Money) -> Option<[Money; 3]> {
        let cost = |units: f64| {
            let parts = (units * f64::from(PARTS)).round();
            let fits = parts.abs() < 9e15;
            #[expect(clippy::cast_possible_truncation, reason = "rounded, and held to what fits")]
            fits.then_some(parts as i64).and_then(|parts| price.times_ratio(parts, NonZeroU32::new(PARTS)?))
        };
        Some([cost(self.low)?, cost(self.middle)?, cost(self.high)?])
    }
}

/// Degree days of the trade, °F·d, as K·d.
pub fn of_trade(degree_days: f64) -> f64 {
    degree_days * TemperatureDifference::from_f(1.0).k()
}
