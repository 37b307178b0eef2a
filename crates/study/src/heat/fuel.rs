//! What heat is lost through ceilings and with the air that leaks through them, and what each fix saves in fuel and money.
//!
//! # Method
//! Loss × degree days, as the trade reckons it, with the share of it bills show and the range of independent errors ([`heat::energy::Cut`]). Air is that through the
//! ceilings at the mean temperature of the heating season.
//!
//! # Range
//! An attic is warmer than outdoors, so that its ceiling loses less than degree days say; the share that is realized takes that in. Seasons run hour by hour go
//! before these figures where weather was read.

use book::thermal::Range;
use book::{Book, LookupError};
use heat::air::density;
use heat::energy::{Cut, Promise, Saving, Spreads, Surface, of_trade, usual_base};
use job::{Fuel, FuelUnit, House, Job};
use measure::{Area, Flow, Money, Temperature};

use super::Space;
use crate::winter::model::Model;
use crate::winter::{Fixes, steady};

/// A year's heat.
#[derive(Clone, Debug, PartialEq)]
pub struct Year {
    /// Degree days, K·d.
    pub degree_days: f64,
    /// Mean outdoors over the heating season.
    pub mean: Temperature,
    /// Name of the fuel in the books, its unit, and what the heater gives of it.
    pub fuel: Option<Burnt>,
    /// Through the ceilings, as found and as planned, kWh.
    pub conducted: [f64; 2],
    /// With the air through them, kWh.
    pub leaked: [f64; 2],
    /// What is saved by each fix alone and by all.
    pub fixes: Vec<Saved>,
}

/// What is burnt.
#[derive(Clone, Debug, PartialEq)]
pub struct Burnt {
    /// Its name.
    pub name: String,
    /// What it is sold by.
    pub unit: String,
    /// What the heater gives of it, and whether the job says so.
    pub gives: (f64, bool),
    /// Price of one, where the job gives it by that unit.
    pub price: Option<Money>,
}

/// What a fix saves in a year.
#[derive(Clone, Debug, PartialEq)]
pub struct Saved {
    /// The fix.
    pub name: &'static str,
    /// Heat, kWh.
    pub heat: f64,
    /// Units of the fuel.
    pub units: Option<Promise>,
    /// Money, one in ten, even, nine in ten that it is no more.
    pub money: Option<[Money; 3]>,
}

/// What heat costs in a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Bill {
    fuel: Option<(book::thermal::Fuel, Burnt)>,
    /// Whether the job gives a price, by whatever unit.
    has_price: bool,
}

impl Bill {
    pub(crate) fn of(house: &House, book: &Book) -> Result<Self, LookupError> {
        let fuel = burnt(house, book)?.map(|(row, burnt)| (row.clone(), burnt));
        Ok(Self { fuel, has_price: house.fuel_price.is_some() })
    }

    /// What is burnt; none where the job names no fuel.
    pub fn burnt(&self) -> Option<&Burnt> {
        self.fuel.as_ref().map(|(_, burnt)| burnt)
    }

    /// Units of the fuel for so much heat, kWh.
    pub fn units(&self, kwh: f64) -> Option<f64> {
        let (row, burnt) = self.fuel.as_ref()?;
        Some(Saving { conduction: kwh * KWH, air: 0.0, deviation: 0.0 }.units(row, burnt.gives.0))
    }

    /// Its price.
    pub fn money(&self, kwh: f64) -> Option<Money> {
        let price = self.burnt()?.price?;
        let units = self.units(kwh)?;
        let [_, money, _] = Promise { low: units, middle: units, high: units, capped: false }.money(price)?;
        Some(money)
    }

    /// The same in whole dollars, as papers write it.
    pub fn whole_dollars(&self, kwh: f64) -> Option<String> {
        let cents = self.money(kwh)?.to_cents().to_string();
        cents.split('.').next().map(str::to_owned)
    }

    /// The field that would tell the money; none where it is told.
    pub fn lacks(&self) -> Option<String> {
        let Some(burnt) = self.burnt() else { return Some("`house.fuel` is not written".to_owned()) };
        match (burnt.price, self.has_price) {
            (Some(_), _) => None,
            (None, true) => Some(format!("`house.fuel_price` is not by the {}", burnt.unit)),
            (None, false) => Some("`house.fuel_price` is not written".to_owned()),
        }
    }
}

const KWH: f64 = 3.6e6;
const DAY: f64 = 86_400.0;

impl Year {
    /// Of a job with degree days.
    pub(super) fn of(
        (job, book): (&Job, &Book),
        spaces: &[Space],
        model: &Model<'_>,
    ) -> Result<Option<Self>, LookupError> {
        let Some(trade) = job.site.heating_degree_days_f else { return Ok(None) };
        let degree_days = of_trade(trade);
        let days: f64 = book.rule("climate.heating-days")?.get()?;
        let mean = usual_base(book)?.c() - degree_days / days;
        let air = density(model.pressure, model.rooms);
        let seal = Fixes { seal: true, ..Fixes::default() };
        let insulate = Fixes { insulate: true, ..Fixes::default() };
        let leak = |fixes: Fixes| Flow::from_m3_s(steady(model, "", fixes, mean).row.leak.max(0.0) / air);
        let [found, planned, sealed] = [Fixes::default(), Fixes::ALL, seal].map(leak);
        let burnt = burnt(&job.house, book)?;
        let surfaces = |is_done: bool| surfaces(spaces, is_done);
        let rows = [
            ("leaks sealed alone", surfaces(false), (found - sealed).max(Flow::ZERO)),
            ("insulated alone", surfaces(true), (found - leak(insulate)).max(Flow::ZERO)),
            ("all that is planned", surfaces(true), (found - planned).max(Flow::ZERO)),
        ];
        let saved = |(name, surfaces, air_saved): (&'static str, Vec<Surface>, Flow)| {
            let saving =
                Cut { surfaces, air: air_saved, density: air }.saving(degree_days, &Spreads::of(book)?);
            Saved::of(name, &saving, burnt.as_ref(), book)
        };
        let fixes = rows.into_iter().map(saved).collect::<Result<Vec<_>, _>>()?;
        let conducted = [0, 1].map(|state: usize| {
            let loss: f64 =
                spaces.iter().filter_map(|space| space.states[state].as_ref()).map(|c| c.loss).sum();
            loss * degree_days * DAY / KWH
        });
        let with = |flow: Flow| flow.m3_s() * air * heat::air::SPECIFIC_HEAT * degree_days * DAY / KWH;
        Ok(Some(Self {
            degree_days,
            mean: Temperature::from_c(mean),
            fuel: burnt.map(|(_, burnt)| burnt),
            conducted,
            leaked: [with(found), with(planned)],
            fixes,
        }))
    }
}

impl Saved {
    fn of(
        name: &'static str,
        saving: &Saving,
        burnt: Option<&(&book::thermal::Fuel, Burnt)>,
        book: &Book,
    ) -> Result<Self, LookupError> {
        let spreads = Spreads::of(book)?;
        let promise = |(row, burnt): &(&book::thermal::Fuel, Burnt)| {
            saving.promise((row, burnt.gives.0), None, &spreads, book)
        };
        let units = burnt.map(promise).transpose()?;
        let price = burnt.and_then(|(_, burnt)| burnt.price);
        let money = units.as_ref().zip(price).and_then(|(units, price)| units.money(price));
        Ok(Self { name, heat: saving.heat() / KWH, units, money })
    }
}

/// Ceilings as found, and as found or as planned.
fn surfaces(spaces: &[Space], is_done: bool) -> Vec<Surface> {
    let of = |space: &Space| {
        let [found, planned] = space.states.each_ref();
        let before = found.as_ref()?;
        let after = planned.as_ref().filter(|_| is_done).unwrap_or(before);
        let r = |ceiling: &super::Ceiling| Some(measure::RValue::from_si(ceiling.whole.si().recip()));
        Some(Surface {
            area: Area::from_m2(before.loss / before.whole.si()),
            before: r(before)?,
            after: r(after)?,
        })
    };
    spaces.iter().filter_map(of).collect()
}

/// The fuel's row of the books and what is made of it; none where the job names no fuel.
fn burnt<'b>(house: &House, book: &'b Book) -> Result<Option<(&'b book::thermal::Fuel, Burnt)>, LookupError> {
    let Some(fuel) = house.fuel else { return Ok(None) };
    let (row, heater) = match fuel {
        Fuel::NaturalGas => ("gas", "gas-mid"),
        Fuel::Propane => ("propane", "gas-mid"),
        Fuel::Oil => ("oil", "oil-furnace"),
        Fuel::Electricity => ("electricity", "electric"),
        Fuel::Wood => ("cord-wood", "wood-stove"),
    };
    let row = book.thermal().fuel(row)?;
    let usual: Range = book.thermal().heater(heater)?.gives;
    let gives = house.efficiency.map_or((usual.middle(), false), |given| (given.of_one(), true));
    let unit = |per: FuelUnit| match per {
        FuelUnit::Therm => "therm",
        FuelUnit::Gallon => "gallon",
        FuelUnit::KilowattHour => "kWh",
        FuelUnit::Cord => "cord",
    };
    let price = house.fuel_price.filter(|price| unit(price.per) == row.unit).map(|price| price.amount);
    Ok(Some((row, Burnt { name: row.name.clone(), unit: row.unit.clone(), gives, price })))
}
