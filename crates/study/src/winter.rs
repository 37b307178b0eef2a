//! Ice through a winter: the house as found, with each fix alone, and as planned.
//!
//! [`Winter::of`] takes a study and a year of weather, with a hard one where somebody has it. The roof is cut into strips ([`winter::shape`]) over the attics of the job; insulation, leakage and vents
//! are those surveyed or those planned, by which of the [`Fixes`] are done. Every state goes through the same winter twice: as lived in, and with rooms as
//! cold as the air outdoors. The ice of the first less that of the second is the ice the building makes; the sun makes the rest.
//!
//! # Range
//! An attic has one air: what a low heel lets through warms all of it, not the strip over the wall alone. Air up the bays of a sloped ceiling is followed from band to
//! band. Lateral heat in the deck, water that wicks, wind that blows through snow are not reckoned: expect half to twice the
//! ice, and trust the order of the states before their amounts.

mod beside;
mod damp;
mod falls;
pub(crate) mod fans;
mod fixes;
mod hard;
mod log;
pub(crate) mod model;
mod parameters;
mod parts;
mod room;
mod run;
mod sample;
mod sensitivity;
mod spread;
mod surface;
mod tell;
mod unknown;

use ::winter::season::Ledger;
use ::winter::weather::Weather;
use book::Book;
use job::{Problem, Units};

use crate::Study;
use crate::heat::Bill;
pub use ::heat::moist::WoodState;
pub use damp::Damp;
pub use falls::OnRoof;
pub use fixes::{Closing, Fixes};
pub use hard::{Hard, HardYear, Read, Years};
use log::Raw;
pub use log::{Log, Outdoors, Slope, SlopeBand, State as LoggedState};
use model::Model;
pub use parameters::parameters;
pub(crate) use run::{BREEZE, DESIGN, Held, steady};
use run::{Run, Spell, cool, pond, state};
pub use sensitivity::{Index, indices};
pub use spread::{Band, Bands, FixBands, Influence, Measure, Sampling, Spread};
pub use tell::{Ablation, FREEZING_AIR, State};

/// Ice as found and as planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Winter {
    /// Where the weather was read.
    pub weather: String,
    /// What of it was filled in, left out or corrected, in words.
    pub filled: Vec<String>,
    /// As surveyed.
    pub found: State,
    /// As it will be.
    pub plan: State,
    /// Each fix alone and together, at 22 °F under a foot of snow: as found first, as planned last.
    pub ablation: Vec<Ablation>,
    /// The same rows through the typical winter and through the hard one.
    pub seasons: Vec<[State; 2]>,
    /// Where the hard winter comes from.
    pub hard: Hard,
    /// What heat costs.
    pub bill: Bill,
    /// Fixes that cannot be told of for this house, and why.
    pub left_out: Vec<String>,
    /// What did not close in a step, at its worst over all runs.
    pub ledger: Ledger,
    /// Heat and mass that did not close over the winter, as shares of what moved and fell, at their worst.
    pub closure: [f64; 2],
}

impl Winter {
    /// The winter of a studied house.
    ///
    /// # Errors
    /// What the survey lacks to reckon with, each by its field.
    pub fn of<'w>(study: &Study, years: impl Into<Years<'w>>, book: &Book) -> Result<Self, Vec<Problem>> {
        Ok(Self::watched(&Model::of(study)?, years.into(), book, || ())?.0)
    }

    /// The winter of a studied house, and what it was in every hour of the typical year.
    ///
    /// # Errors
    /// As [`Winter::of`].
    pub fn logged<'w>(
        study: &Study,
        years: impl Into<Years<'w>>,
        book: &Book,
    ) -> Result<(Self, Log), Vec<Problem>> {
        let (model, years) = (Model::of(study)?, years.into());
        let (winter, found, plan) = Self::watched(&model, years, book, Vec::<Raw>::new)?;
        Ok((winter, Log::of(&model, years.typical, found, plan)))
    }

    /// The hours of the typical winter alone, as found and as planned.
    ///
    /// # Errors
    /// As [`Winter::of`].
    pub fn hours(study: &Study, weather: &Weather) -> Result<Log, Vec<Problem>> {
        let model = Model::of(study)?;
        let (spell, draw) = (Spell::of(&model, weather), model.as_written());
        let run = |fixes: Fixes| {
            let mut hours: Vec<Raw> = Vec::new();
            state(&model, fixes, &spell, &draw, true, &mut hours);
            hours
        };
        let (found, plan) = rayon::join(|| run(Fixes::NONE), || run(Fixes::ALL));
        Ok(Log::of(&model, weather, found, plan))
    }

    /// Each row of the fixes with what the whole winters come to, typical and hard.
    pub fn rows(&self) -> impl Iterator<Item = (&Ablation, &[State; 2])> {
        self.ablation.iter().zip(&self.seasons)
    }

    /// As found and as planned through the hard winter.
    pub fn hard_states(&self) -> Option<[&State; 2]> {
        Some([&self.seasons.first()?[1], &self.seasons.last()?[1]])
    }

    /// Why each row but the first helps or does not, in words.
    pub fn why(&self, row: &Ablation) -> Option<String> {
        let (found, fixes) = self.ablation.split_first()?;
        fixes.iter().any(|fix| fix.name == row.name).then(|| row.why(found))
    }

    /// The same of all of them, each after its name.
    pub fn whys(&self) -> impl Iterator<Item = String> {
        self.ablation.iter().filter_map(|row| Some(format!("{}: {}", row.name, self.why(row)?)))
    }

    /// Fixes that take nothing that could be seen off the melt at 22 °F, and why; none of what the job does not plan, and none where nothing melts.
    pub fn useless(&self) -> Vec<(&Ablation, &'static str)> {
        let Some((found, fixes)) = self.ablation.split_first() else { return Vec::new() };
        fixes.iter().filter_map(|row| Some((row, row.why_useless(found)?))).collect()
    }

    /// One state through the winter, with some fixes done, in steps of so many to the hour and so many bands over the attics in a plane: how fine is fine enough.
    ///
    /// # Errors
    /// As [`Self::of`].
    pub fn state(
        study: &Study,
        weather: &Weather,
        fixes: Fixes,
        fineness: Fine,
    ) -> Result<State, Vec<Problem>> {
        let model = Model::with(study, fineness.bands)?;
        let draw = model.as_written();
        let spell = Spell::of(&model, weather).finer(fineness.steps);
        Ok(state(&model, fixes, &spell, &draw, fineness.is_heated, &mut ()).0)
    }
}

/// The air and the snow in which decks and melt are compared, as papers write them.
pub const fn design_words(units: Units) -> &'static str {
    match units {
        Units::Us => "22 °F under a foot of snow",
        Units::Si => "−5.6 °C under 0.3 m of snow",
    }
}

/// That air alone.
pub const fn design_air(units: Units) -> &'static str {
    match units {
        Units::Us => "22 °F",
        Units::Si => "−5.6 °C",
    }
}

/// How finely a state is reckoned, and whether anybody heats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fine {
    /// Bands over the attic in a plane.
    pub bands: usize,
    /// Steps in an hour.
    pub steps: u32,
    /// Whether rooms are warm; else they are as cold as the air outdoors.
    pub is_heated: bool,
}

impl Default for Fine {
    fn default() -> Self {
        Self { bands: model::BANDS, steps: 1, is_heated: true }
    }
}
