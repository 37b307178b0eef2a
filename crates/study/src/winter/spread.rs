//! How far the figures of a winter may be off, what they hang on, and what is worth measuring next.
//!
//! # Method
//! A Latin hypercube over all unknowns of the books; each of its points goes through the whole winter as found and as planned, and through every fix at 22 °F, so
//! that states differ by what is done and not by chance. Runs share nothing and are gathered in their order: a seed gives the same bits on any number of threads.
//!
//! Indices of the ice as found come from a surface through the runs ([`super::surface`]); it is taken only where it tells runs that it has not seen, and how well it
//! does stands beside them.
//!
//! # What to measure next
//! Houses are drawn on that surface, what it does not tell added at random. Were an unknown x read as y with a deviation s, houses count by exp(−(y − xⱼ)²/2s²).
//! Readings y = xₖ + s·e of all houses k give the expected width P10 to P90 of the ice; what that is less than with the readings of another house in each one's place,
//! which tell nothing, is the narrowing to expect (preposterior analysis: Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961; from memory). s is at
//! least so much that some dozens of houses count.

use ::winter::weather::Weather;
use ::winter::year::Random;
use book::Book;
use job::Problem;
use rayon::prelude::*;

use super::model::Model;
use super::sample::{latin, order, place, quantile};
use super::sensitivity::{Index, indices};
use super::surface::Surface;
use super::unknown::{Draw, Unknown};
use super::{Ablation, Run, Spell, State};
use crate::Study;
use crate::heat::Bill;

/// Ice on a metre of eave that is as good as none, kg (chosen: a sleeve of 1 cm by 10 cm).
const NEAR_NONE: f64 = 1.0;
/// A fix that takes less than this off the melt does nothing that could be seen (chosen).
const SEEN: f64 = 0.1;
/// Share of runs not seen that a surface must tell for its indices to be worth reading, and points they are taken from.
const TOLD: f64 = 0.8;
const POINTS: usize = 4096;
/// Houses on the surface of which readings are tried, and how many of them count at least for one.
const HOUSES: usize = 600;
const COUNTED: f64 = 20.0;
/// Times that readings of other runs are tried, to learn what chance alone narrows.
const UNTOLD: usize = 8;

/// How a spread is sampled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sampling {
    /// Runs, each through the whole winter.
    pub runs: usize,
    /// The same seed is the same sample.
    pub seed: u64,
}

/// A figure with one chance in ten to be lower and one in ten to be higher.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Band {
    /// One in ten is lower.
    pub p10: f64,
    /// As many are lower as higher.
    pub p50: f64,
    /// One in ten is higher.
    pub p90: f64,
}

impl Band {
    fn of(values: &[f64]) -> Self {
        let (order, weights) = (order(values), vec![1.0; values.len()]);
        let at = |share| quantile(values, &order, &weights, share);
        Self { p10: at(0.1), p50: at(0.5), p90: at(0.9) }
    }

    /// From one chance in ten to the other.
    pub fn width(&self) -> f64 {
        self.p90 - self.p10
    }
}

/// Figures of a state, each as [`State`] has it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bands {
    /// Ice the building makes, kg on a metre of eave.
    pub ice: Band,
    /// Ice that cold rooms leave, likewise.
    pub sun_ice: Band,
    /// Snow melted from below, kg.
    pub melt: Band,
    /// Water that drips in freezing air, kg.
    pub icicles: Band,
    /// Days with water past the membrane.
    pub pond_days: Band,
    /// Heat into the attics, kWh.
    pub heat: Band,
    /// Heat that the heater gives for ceilings and the air up through them, kWh.
    pub heating: Band,
    /// Air from outdoors through the attics, m³/s.
    pub vent: Band,
    /// Air from the rooms into them, m³/s.
    pub leak: Band,
    /// Decks at 22 °F, °C.
    pub deck_at_design: Band,
    /// Attic at 22 °F, °C.
    pub attic_at_design: Band,
}

/// A fix at 22 °F.
#[derive(Clone, Debug, PartialEq)]
pub struct FixBands {
    /// What is done.
    pub name: String,
    /// Decks, °C.
    pub deck: Band,
    /// Attic, °C.
    pub attic: Band,
    /// Snow melted from below in a day, kg.
    pub melt_day: Band,
    /// Air from outdoors, kg/s.
    pub vent: Band,
    /// Air from the rooms, kg/s.
    pub leak: Band,
    /// Chance that it takes more than a tenth off the melt, where there is any as found; none where there never is.
    pub lowers: Option<f64>,
}

/// What an unknown has to do with the ice as found.
#[derive(Clone, Debug, PartialEq)]
pub struct Influence {
    /// The unknown.
    pub name: String,
    /// Its share.
    pub index: Index,
}

/// Something to measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// The unknown.
    pub name: String,
    /// With what.
    pub by: String,
    /// Where it is written; none where the job has no field for it.
    pub field: Option<String>,
    /// By what share the width P10 to P90 of the ice as found is expected to narrow.
    pub narrows: f64,
    /// Deviation of that by the sample's chance.
    pub error: f64,
    /// The same of the heat of the winter as found, and so of its money; none where the surface does not tell that.
    pub heating: Option<[f64; 2]>,
}

impl Measure {
    /// Whether it narrows the ice or the heat by more than chance would: of ten that are tried one passes two deviations.
    pub fn is_clear(&self) -> bool {
        let is_clear = |[narrows, error]: [f64; 2]| narrows > 3.0 * error && narrows > 0.01;
        is_clear([self.narrows, self.error]) || self.heating.is_some_and(is_clear)
    }
}

/// A winter with its spread.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// How it was sampled.
    pub sampling: Sampling,
    /// As surveyed.
    pub found: Bands,
    /// As planned.
    pub plan: Bands,
    /// Ice as found less that as planned, of the same house in the same winter, kg on a metre of eave.
    pub saved: Band,
    /// Heat of the winter as found less that as planned, likewise, kWh.
    pub saved_heating: Band,
    /// Chance that the plan leaves less ice than there was, and that it leaves next to none.
    pub plan_lowers: f64,
    /// Chance that less than a kilogram on a metre is left.
    pub plan_ends: f64,
    /// Each fix at 22 °F.
    pub fixes: Vec<FixBands>,
    /// What the ice as found hangs on, the most first; nothing where runs are too few to tell.
    pub influences: Vec<Influence>,
    /// Share of the variance of unseen runs that the surface behind them tells; none for too few runs.
    pub told: Option<f64>,
    /// What is worth measuring, the most first.
    pub next: Vec<Measure>,
}

impl Spread {
    /// Of a studied house, on all threads that are there.
    ///
    /// # Errors
    /// What the survey lacks to reckon with, each by its field.
    pub fn of(
        study: &Study,
        weather: &Weather,
        book: &Book,
        sampling: Sampling,
    ) -> Result<Self, Vec<Problem>> {
        let model = Model::of(study)?;
        let attics: Vec<&str> = model.attics().collect();
        let unknowns = Unknown::all(book, &attics);
        let spell = Spell::of(&model, weather);
        let shares = latin(unknowns.len(), sampling.runs.max(1), sampling.seed);
        let run = |shares: &Vec<f64>| Run::of(&model, &spell, &Draw::at(&unknowns, shares, attics.len()));
        let runs: Vec<Run> = shares.par_iter().map(run).collect();
        let points = scores(&unknowns, &shares);
        let through = |of: fn(&State) -> f64| {
            let values: Vec<f64> = runs.iter().map(|run| of(&run.found)).collect();
            Surface::through(&points, &values)
        };
        let (surface, heating) = (through(|state| state.ice), through(|state| state.heating));
        let chance =
            |of: &dyn Fn(&Run) -> bool| runs.iter().filter(|run| of(run)).count() as f64 / runs.len() as f64;
        Ok(Self {
            sampling,
            found: bands(&runs, |run| &run.found),
            plan: bands(&runs, |run| &run.plan),
            saved: band(&runs, |run| run.found.ice - run.plan.ice),
            saved_heating: band(&runs, |run| run.found.heating - run.plan.heating),
            plan_lowers: chance(&|run| run.plan.ice < run.found.ice),
            plan_ends: chance(&|run| run.plan.ice < NEAR_NONE),
            fixes: (0..runs[0].ablation.len()).map(|i| fix(&runs, i)).collect(),
            influences: influences(&unknowns, attics.len(), surface.as_ref(), sampling.seed),
            next: next(&unknowns, &attics, [surface.as_ref(), heating.as_ref()], sampling.seed),
            told: surface.map(|surface| surface.told),
        })
    }
}

impl Spread {
    /// Money of the winter's heat as found, as planned and saved, each with its ends; none where the job names no price.
    pub fn money(&self, bill: &Bill) -> Option<String> {
        let told = |name: &str, of: &Band| {
            let [low, middle, high] = [of.p10, of.p50, of.p90].map(|kwh| bill.whole_dollars(kwh));
            Some(format!("{name} {} ({} to {})", middle?, low?, high?))
        };
        let found = told("found", &self.found.heating)?;
        let plan = told("planned", &self.plan.heating)?;
        Some(format!("{found}, {plan}, {}", told("saved", &self.saved_heating)?))
    }
}

fn band(runs: &[Run], of: impl Fn(&Run) -> f64) -> Band {
    Band::of(&runs.iter().map(of).collect::<Vec<f64>>())
}

fn bands(runs: &[Run], of: impl Fn(&Run) -> &State) -> Bands {
    let band = |figure: fn(&State) -> f64| band(runs, |run| figure(of(run)));
    Bands {
        ice: band(|state| state.ice),
        sun_ice: band(|state| state.sun_ice),
        melt: band(|state| state.melt),
        icicles: band(|state| state.icicles),
        pond_days: band(|state| state.pond_days),
        heat: band(|state| state.heat),
        heating: band(|state| state.heating),
        vent: band(State::vent_m3_s),
        leak: band(State::leak_m3_s),
        deck_at_design: band(|state| state.deck_at_design),
        attic_at_design: band(|state| state.attic_at_design),
    }
}

fn fix(runs: &[Run], which: usize) -> FixBands {
    let band = |figure: fn(&Ablation) -> f64| band(runs, |run| figure(&run.ablation[which]));
    let melting: Vec<&Run> = runs.iter().filter(|run| run.ablation[0].melt_day > 0.0).collect();
    let lowers = |run: &&&Run| run.ablation[which].melt_day < (1.0 - SEEN) * run.ablation[0].melt_day;
    FixBands {
        name: runs[0].ablation[which].name.clone(),
        deck: band(|row| row.deck),
        attic: band(|row| row.attic),
        melt_day: band(|row| row.melt_day),
        vent: band(|row| row.vent),
        leak: band(|row| row.leak),
        lowers: (!melting.is_empty())
            .then(|| melting.iter().filter(lowers).count() as f64 / melting.len() as f64),
    }
}

/// What the ice hangs on, by the surface; nothing where that does not tell it.
fn influences(
    unknowns: &[Unknown<'_>],
    attics: usize,
    surface: Option<&Surface>,
    seed: u64,
) -> Vec<Influence> {
    let Some(surface) = surface.filter(|surface| surface.told >= TOLD) else { return Vec::new() };
    let f = |shares: &[f64]| {
        let scores: Vec<f64> =
            unknowns.iter().zip(shares).map(|(unknown, share)| unknown.score(*share)).collect();
        surface.at(&scores)
    };
    let indices = indices(f, unknowns.len(), POINTS, seed);
    let named = unknowns.iter().zip(indices);
    let mut all: Vec<Influence> =
        named.map(|(unknown, index)| Influence { name: unknown.name(attics), index }).collect();
    all.sort_by(|a, b| b.index.total.total_cmp(&a.index.total));
    all
}

/// What narrows the ice most, measured to the accuracy of its instrument, and what it does to the heat: by the surfaces and what they do not tell; nothing where that is
/// too much of the ice.
fn next(
    unknowns: &[Unknown<'_>],
    attics: &[&str],
    surfaces: [Option<&Surface>; 2],
    seed: u64,
) -> Vec<Measure> {
    let points = scores(unknowns, &latin(unknowns.len(), HOUSES, seed));
    let drawn = surfaces.map(|surface| {
        let surface = surface.filter(|surface| surface.told >= TOLD)?;
        let mut random = Random::new(seed);
        let values = points.iter().map(|point| surface.at(point) + surface.untold * random.normal());
        Some(values.collect::<Vec<f64>>())
    });
    let [Some(ice), heating] = drawn else { return Vec::new() };
    let of = |(i, unknown): (usize, &Unknown<'_>)| {
        let left = unknown.left_by_measuring()?.max(COUNTED / HOUSES as f64);
        let own: Vec<f64> = points.iter().map(|scores| scores[i]).collect();
        let [narrows, error] = narrowing(&own, left, &ice, seed);
        Some(Measure {
            name: unknown.name(attics.len()),
            by: unknown.row.measured.as_ref()?.by.clone(),
            field: unknown.field(attics),
            narrows,
            error,
            heating: heating.as_ref().map(|heating| narrowing(&own, left, heating, seed)),
        })
    };
    let mut all: Vec<Measure> = unknowns.par_iter().enumerate().filter_map(of).collect();
    all.sort_by(|a, b| b.narrows.total_cmp(&a.narrows));
    all
}

/// Shares of unknowns as scores.
fn scores(unknowns: &[Unknown<'_>], shares: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let of = |shares: &Vec<f64>| -> Vec<f64> {
        unknowns.iter().zip(shares).map(|(unknown, share)| unknown.score(*share)).collect()
    };
    shares.iter().map(of).collect()
}

/// By what share a reading of a deviation of x narrows an answer, and the deviation of that: readings of other runs narrow it by nothing, but for chance.
fn narrowing(x: &[f64], deviation: f64, answer: &[f64], seed: u64) -> [f64; 2] {
    let order = order(answer);
    let mut random = Random::new(seed);
    let errors: Vec<f64> = x.iter().map(|_| deviation * random.normal()).collect();
    let told = width(x, &errors, deviation, answer, &order);
    let untold = [(); UNTOLD].map(|()| {
        let mut others = x.to_vec();
        (1..others.len()).rev().for_each(|last| others.swap(last, place(&mut random, last + 1)));
        width(&others, &errors, deviation, answer, &order)
    });
    let mean = untold.iter().sum::<f64>() / UNTOLD as f64;
    let square = untold.iter().map(|one| (one - mean).powi(2)).sum::<f64>();
    let error = (square / (UNTOLD - 1) as f64).sqrt();
    if mean > 0.0 { [(1.0 - told / mean).max(0.0), error / mean] } else { [0.0; 2] }
}

/// Expected width P10 to P90 of the ice after a reading of a deviation of x, of which each run has one.
fn width(x: &[f64], errors: &[f64], deviation: f64, ice: &[f64], order: &[usize]) -> f64 {
    let of = |(at, error): (&f64, &f64)| {
        let weight = |x: &f64| (-((at + error - x) / deviation).powi(2) / 2.0).exp();
        let weights: Vec<f64> = x.iter().map(weight).collect();
        quantile(ice, order, &weights, 0.9) - quantile(ice, order, &weights, 0.1)
    };
    let widths: Vec<f64> = x.iter().zip(errors).map(of).filter(|width| width.is_finite()).collect();
    widths.iter().sum::<f64>() / widths.len().max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// y = 3·a + b of normal a and b: known to a tenth of its deviation, a leaves √(9·0.01 + 1)/√10 = 0.33 of the width, b leaves √(9 + 0.01)/√10 = 0.95 (the
    /// variance a reading leaves of a normal is s²/(1 + s²) of it).
    #[test]
    fn what_carries_the_spread_narrows_it_when_measured() {
        let points = latin(2, 1000, 5);
        let [a, b] = [0, 1]
            .map(|i| -> Vec<f64> { points.iter().map(|point| ::winter::year::above(point[i])).collect() });
        let y: Vec<f64> = a.iter().zip(&b).map(|(a, b)| 3.0 * a + b).collect();
        let left = |x: &[f64]| 1.0 - narrowing(x, 0.1, &y, 2)[0];
        let of = |a: f64, b: f64| ((9.0 * a + b) / 10.0).sqrt();
        let known = 0.01 / 1.01;
        assert!((left(&a) - of(known, 1.0)).abs() < 0.03, "{}", left(&a));
        assert!((left(&b) - of(1.0, known)).abs() < 0.03, "{}", left(&b));
    }
}
