//! Water: what air carries up into attics and leaves on their decks month by month, and what condenses in bays.
//!
//! # Method
//! Months are made of what the job says of its climate: a year that goes like a cosine, whose coldest month is so much above the design temperature and whose
//! degree days are those of the place. Months that freeze lie under snow, with attic and deck of [`crate::winter`] at their mean; in others the deck is bare. Vapor that
//! comes with leaks and through the ceiling leaves with the vents or goes onto the deck ([`heat::moist::Attic`]). Bays: ISO 13788, month by month.
//!
//! # Range
//! Snow is taken to lie a foot deep through every month that freezes. Monthly means: neither the nights that frost a deck nor the sun that dries it. Take the order of the states, and frost for a warning.

use std::f64::consts::TAU;

use book::{Book, Kind as _, LookupError, Share};
use heat::energy::{MonthlyMean, of_trade, usual_base, yearly_spread};
use heat::moist::{Deck, MoistAir, Mold, WoodState, exchange, wood_moisture, wood_state};
use job::{Attic, Block, Job};

use ::heat::air::SPECIFIC_HEAT;
use ::winter::season::Below;

use crate::winter::model::{DECK, IN_ATTIC, Model};
use crate::winter::{Fixes, steady};

/// Mean outdoors of a month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Climate {
    /// January to December, °C.
    pub means: [f64; 12],
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

/// Days of the months.
pub(super) const DAYS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

impl Climate {
    /// Of a job with degree days and a design temperature.
    pub(super) fn of(job: &Job, book: &Book) -> Result<Option<Self>, LookupError> {
        let Some((trade, design)) = job.site.heating_degree_days_f.zip(job.site.design_temperature) else {
            return Ok(None);
        };
        let above: f64 = book.rule("climate.cold-month")?.get()?;
        let humidity: Share = book.rule("climate.humidity")?.get()?;
        let (base, wanted, coldest) = (usual_base(book)?.c(), of_trade(trade), design.c() + above);
        let year = |mean: f64| {
            std::array::from_fn(|month| mean - (mean - coldest) * (TAU * month as f64 / 12.0).cos())
        };
        // a warmer year has fewer degree days
        let (mut low, mut high) = (coldest, coldest + MOST);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if degree_days(&year(middle), base) > wanted { low = middle } else { high = middle }
        }
        Ok(Some(Self { means: year(f64::midpoint(low, high)), humidity: humidity.of_one() }))
    }
}

/// The mean of a year is no more above its coldest month, K.
const MOST: f64 = 40.0;
const HALVINGS: usize = 60;

fn degree_days(means: &[f64; 12], base: f64) -> f64 {
    let yearly_spread = yearly_spread(means);
    let months = means.iter().zip(DAYS);
    months.map(|(mean, days)| MonthlyMean { mean: *mean, days, yearly_spread }.heating(base)).sum()
}

/// An attic through a year, from October.
#[derive(Clone, Debug, PartialEq)]
pub struct Damp {
    /// The attic.
    pub attic: String,
    /// As found and as planned.
    pub states: [Season; 2],
}

/// What a year does to a deck.
#[derive(Clone, Debug, PartialEq)]
pub struct Season {
    /// October to September.
    pub months: Vec<DampMonth>,
    /// Vapor that comes with leaks and through the ceiling in the coldest month, kg a day.
    pub vapor: f64,
    /// Frost or water on a square metre of deck at its most, kg.
    pub frost: f64,
    /// First month in which more than drips is wet and not frozen, January as 1; none where there is less.
    pub thaws: Option<u8>,
    /// The most moisture the deck comes to, share of its dry weight.
    pub moisture: f64,
    /// How that stands.
    pub wood: WoodState,
    /// Mold index at the year's highest: 3 is what the eye sees.
    pub mold: f64,
}

/// A month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DampMonth {
    /// January is 1.
    pub month: u8,
    /// Mean outdoors, °C.
    pub outdoors: f64,
    /// Air of the attic, °C.
    pub attic: f64,
    /// Deck, °C.
    pub deck: f64,
    /// Relative humidity at the deck, 0 to 1.
    pub humidity: f64,
    /// Moisture the deck's wood comes to in it, share of its dry weight.
    pub moisture: f64,
    /// Frost or water on it at the end, kg/m².
    pub held: f64,
}

/// Frost on a square metre that drips when it thaws, kg (common practice).
const DRIPS: f64 = 0.1;
/// Heat between air and deck by which vapor goes too, W/(m²·K) (2 to 4 in attics; from memory).
pub(crate) const CONVECTIVE: f64 = 3.0;
/// Bare deck with shingles, from the attic's air outward, and the part of it to the deck's middle, m²·K/W: the winter's own, and the film outdoors.
const BARE: f64 = IN_ATTIC + DECK + 0.04;
const TO_DECK: f64 = IN_ATTIC + DECK / 2.0;
/// One US perm, kg/(s·m²·Pa) (exact to what is printed).
pub(crate) const PERM: f64 = 5.7214e-11;

/// Of the attics a winter can be reckoned for.
pub(super) fn attics(
    (job, book): (&Job, &Book),
    model: &Model<'_>,
    climate: &Climate,
) -> Result<Vec<Damp>, LookupError> {
    let runs = [Fixes::default(), Fixes::ALL].map(|fixes| Run::of(model, fixes, climate));
    let mut all = Vec::new();
    for (i, attic) in job.attics.iter().enumerate() {
        let [found, planned] = &runs;
        let states = [
            found.season((job, book), (attic, i), climate)?,
            planned.season((job, book), (attic, i), climate)?,
        ];
        all.push(Damp { attic: attic.name.clone(), states });
    }
    Ok(all)
}

/// Air and temperatures of all attics month by month, from January.
struct Run {
    /// By month and attic: air of the attic, deck, °C; leak and vent, kg/s.
    months: Vec<Vec<[f64; 4]>>,
    /// Deck over each attic, m².
    decks: Vec<f64>,
    /// Ceiling below it, m².
    ceilings: Vec<f64>,
    rooms: f64,
    pressure: f64,
}

impl Run {
    fn of(model: &Model<'_>, fixes: Fixes, climate: &Climate) -> Self {
        let house = model.house_as_written(fixes);
        let over = |attic: usize| house.strips.iter().filter(move |strip| strip.below == Below::Attic(attic));
        let attics = 0..house.attics.len();
        let decks: Vec<f64> =
            attics.clone().map(|attic| over(attic).map(|strip| strip.area).sum::<f64>()).collect();
        let level = |strip: &::winter::season::Strip| strip.area * house.planes[strip.plane].cosine;
        let ceilings = attics.map(|attic| over(attic).map(level).sum::<f64>()).collect();
        let month = |outdoors: &f64| {
            let frozen = steady(model, "", fixes, outdoors.min(0.0));
            let attics: Vec<f64> = frozen.2.iter().map(|[air, _]| *air).collect();
            let flows = through(model, fixes, *outdoors, &attics);
            let of_attic = |i: usize| {
                let [leak, vent] = flows[i];
                let warm = house.attics[i].to_rooms + leak * SPECIFIC_HEAT;
                let cold = vent * SPECIFIC_HEAT + decks[i] / BARE;
                let bare = (warm * model.rooms + cold * outdoors) / (warm + cold);
                let deck = bare - (bare - outdoors) * TO_DECK / BARE;
                let [air, deck] = if *outdoors < 0.0 { frozen.2[i] } else { [bare, deck] };
                [air, deck, leak, vent]
            };
            (0..decks.len()).map(of_attic).collect()
        };
        Self {
            months: climate.means.iter().map(month).collect(),
            decks,
            ceilings,
            rooms: model.rooms,
            pressure: model.pressure,
        }
    }

    /// One attic from October to September.
    fn season(
        &self,
        (job, book): (&Job, &Book),
        (attic, i): (&Attic, usize),
        climate: &Climate,
    ) -> Result<Season, LookupError> {
        let humidity = humidity(job, book);
        let rooms = MoistAir::of_humidity(self.rooms, humidity, self.pressure);
        let ceiling = perms(attic) * PERM * self.ceilings[i];
        let class = book.thermal().mold(mold_class(job, attic))?;
        let (mut mold, mut worst) = (Mold::new(0.0), 0.0_f64);
        let mut deck =
            [Deck { area: self.decks[i], temperature: 0.0, exchange: exchange(CONVECTIVE), held: 0.0 }];
        let mut months = Vec::new();
        for month in (9..12).chain(0..9) {
            let [air, at, leak, vent] = self.months[month][i];
            let outdoors = MoistAir::of_humidity(climate.means[month], climate.humidity, self.pressure);
            let through_ceiling = ceiling * (rooms.vapor() - outdoors.vapor()).max(0.0);
            deck[0].temperature = at;
            let balance = heat::moist::Attic { leak, vent, house: rooms, outdoors, through_ceiling };
            let (ratio, _) = balance.step(&mut deck, DAYS[month] * 86_400.0);
            let beside = MoistAir { temperature: at, ratio, pressure: self.pressure };
            let humidity = beside.humidity().min(1.0);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "whole days of a month"
            )]
            mold.pass(class, at, humidity * 100.0, DAYS[month] as u32 * 24);
            worst = worst.max(mold.index);
            let moisture = wood_moisture(at, humidity);
            #[expect(clippy::cast_possible_truncation, reason = "one of twelve")]
            let number = month as u8 + 1;
            months.push(DampMonth {
                month: number,
                outdoors: climate.means[month],
                attic: air,
                deck: at,
                humidity,
                moisture,
                held: deck[0].held,
            });
        }
        self.told(months, book, (rooms, worst), i, ceiling)
    }

    fn told(
        &self,
        months: Vec<DampMonth>,
        book: &Book,
        (rooms, mold): (MoistAir, f64),
        i: usize,
        ceiling: f64,
    ) -> Result<Season, LookupError> {
        let frost = months.iter().map(|month| month.held).fold(0.0, f64::max);
        let lay =
            |at: usize| at.checked_sub(1).map_or(0.0, |before| months[before].held).max(months[at].held);
        let thaws = (0..months.len())
            .find(|at| months[*at].deck >= 0.0 && lay(*at) > DRIPS)
            .map(|at| months[at].month);
        let moisture = months.iter().map(|month| month.moisture).fold(0.0, f64::max);
        let coldest = months.iter().min_by(|a, b| a.outdoors.total_cmp(&b.outdoors));
        let vapor = coldest.map_or(0.0, |month| {
            let [.., leak, _] = self.months[usize::from(month.month) - 1][i];
            let air = MoistAir::of_humidity(month.deck, month.humidity, self.pressure);
            let brought = leak * (rooms.ratio - air.ratio) + ceiling * (rooms.vapor() - air.vapor());
            brought.max(0.0) * 86_400.0
        });
        Ok(Season { vapor, frost, thaws, moisture, wood: wood_state(moisture, book)?, mold, months })
    }
}

/// Leak and vent of each attic at its temperature, kg/s.
fn through(model: &Model<'_>, fixes: Fixes, outdoors: f64, attics: &[f64]) -> Vec<[f64; 2]> {
    use ::winter::season::{Airflow, Through};
    let mut flows = vec![Through::default(); attics.len()];
    model.air_as_written(fixes).through(outdoors, model.rooms, crate::winter::BREEZE, attics, &mut flows);
    flows.iter().map(|flow| [flow.leak, flow.vent]).collect()
}

/// Humidity of the rooms in a cold spell, as read or as is usual.
pub(crate) fn humidity(job: &Job, book: &Book) -> f64 {
    let read = job.house.humidity.as_ref().map(|humidity| humidity.value.of_one());
    let usual = || book.default("house.humidity").and_then(|row| Share::of(&row.value)).map(Share::of_one);
    read.or_else(usual).unwrap_or(USUAL_HUMIDITY)
}

const USUAL_HUMIDITY: f64 = 0.35;

/// What a ceiling lets through, perms, by the class of its retarder; painted gypsum where there is none (IRC R702.7; ASHRAE Handbook Fundamentals, chapter 26,
/// from memory).
pub(super) fn perms(attic: &Attic) -> f64 {
    match attic.vapor_retarder {
        Some(1) => 0.1,
        Some(2) => 1.0,
        _ => 10.0,
    }
}

/// Boards are sawn pine; panels and what nobody looked at are less so.
fn mold_class(job: &Job, attic: &Attic) -> &'static str {
    let mut blocks = job.blocks.iter().filter(|block| attic.under.contains(&block.name));
    if blocks.any(Block::is_boarded) { "very-sensitive" } else { "sensitive" }
}
