//! All states of a winter side by side: found, each fix alone, planned, through the typical year and the hard one (`hard`).
//!
//! Runs share nothing and are gathered in their order, so that the figures are the same bits on any number of threads. Fixes that come to the same house (the job plans
//! none of them) are run once.

use ::winter::season::Ledger;
use book::{Book, LookupError};
use job::Problem;
use rayon::prelude::*;

use super::damp::Damping;
use super::log::Watch;
use super::model::Model;
use super::run::{Spell, at_design, state};
use super::{Ablation, Fixes, Hard, State, Winter, Years, hard};
use crate::heat::Bill;

/// One house through one winter, and who looks on.
struct Task<'t, W> {
    fixes: Fixes,
    spell: &'t Spell,
    watch: (Damping, Option<W>),
}

/// What it came to.
struct Ran<W> {
    told: State,
    ledger: Ledger,
    watch: Option<W>,
}

impl Winter {
    /// A winter whose hours, as found and as planned, are looked at: what looked at them comes back.
    pub(super) fn watched<W: Watch + Clone + Send>(
        model: &Model<'_>,
        years: Years<'_>,
        book: &Book,
        watch: impl Fn() -> W,
    ) -> Result<(Self, W, W), Vec<Problem>> {
        let lost = |lost: LookupError| vec![Problem::not_in_books(&lost)];
        let weather = years.typical;
        let (hard, hard_year) = Hard::of(years, book).map_err(lost)?;
        let spells = [Spell::of(model, weather), Spell::of(model, &hard_year)];
        let damping = |spell: &Spell| Damping::of(model, spell, book).map_err(lost);
        let dampings = [damping(&spells[0])?, damping(&spells[1])?];
        let worth = Fixes::worth(model.study);
        let houses: Vec<Fixes> = worth.iter().map(|(_, fixes)| model.done(*fixes)).collect();
        let [first, last] = [0, houses.len() - 1].map(|row| houses[row]);
        let task = |fixes: Fixes, which: usize| {
            let is_watched = which == 0 && (fixes == first || fixes == last);
            let aired = model.aired(fixes);
            let watch = (dampings[which].aired(aired), is_watched.then(&watch));
            Task { fixes, spell: &spells[which], watch }
        };
        let different = different(&houses);
        let tasks: Vec<Task<'_, W>> =
            different.iter().flat_map(|fixes| [task(*fixes, 0), task(*fixes, 1)]).collect();
        let draw = model.as_written();
        let (rows, ran) = rayon::join(
            || -> Vec<(Ablation, Ledger)> {
                worth.par_iter().map(|(name, fixes)| at_design(model, name, *fixes, &draw)).collect()
            },
            || -> Vec<Ran<W>> {
                let run = |mut task: Task<'_, W>| {
                    let (mut told, ledger) =
                        state(model, task.fixes, task.spell, &draw, true, &mut task.watch);
                    let (damping, watch) = task.watch;
                    told.damp = damping.told();
                    Ran { told, ledger, watch }
                };
                tasks.into_par_iter().map(run).collect()
            },
        );
        let place = |fixes: Fixes| 2 * different.iter().position(|other| *other == fixes).unwrap_or(0);
        let seasons: Vec<[State; 2]> = houses
            .iter()
            .zip(&rows)
            .map(|(fixes, (design, _))| {
                [0, 1].map(|which| {
                    let mut told = ran[place(*fixes) + which].told.clone();
                    told.take_design(Some(design));
                    told
                })
            })
            .collect();
        let looked = |fixes: Fixes| ran[place(fixes)].watch.clone().unwrap_or_else(&watch);
        let (in_found, in_plan) = (looked(first), looked(last));
        let ledgers = rows.iter().map(|(_, ledger)| *ledger).chain(ran.iter().map(|ran| ran.ledger));
        let ledger = ledgers.fold(Ledger::default(), Ledger::worst);
        let closure = [0, 1].map(|i| ran.iter().map(|ran| ran.told.closure[i]).fold(0.0, f64::max));
        let winter = Self {
            weather: weather.site.name.clone(),
            filled: hard::filled(weather),
            found: seasons[0][0].clone(),
            plan: seasons[seasons.len() - 1][0].clone(),
            ablation: rows.into_iter().map(|(row, _)| row).collect(),
            seasons,
            hard,
            bill: Bill::of(&model.study.job.house, book).map_err(lost)?,
            left_out: Fixes::left_out(model.study),
            ledger,
            closure,
        };
        Ok((winter, in_found, in_plan))
    }
}

/// Houses that differ, each once, in their order.
fn different(houses: &[Fixes]) -> Vec<Fixes> {
    let mut all: Vec<Fixes> = Vec::new();
    for house in houses {
        if !all.contains(house) {
            all.push(*house);
        }
    }
    all
}
