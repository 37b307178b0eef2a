//! Where the heat of a house goes, by its survey and its plan, without a year of weather.
//!
//! [`Heat::of`] takes a study: what each ceiling resists (`ceiling`), what of the house's leaks is in it and how air moves on a cold day (`air`), what that costs and
//! each fix saves (`fuel`), the eaves in section (`eave`), what there is to buy (`buy`), what water does in bays (`sealed`); that on decks of attics is the winter's. `kind` tells which insulation of the books the job means. Findings come with every study: a heel
//! without room for insulation (`heel`), bays that share a plane with an attic or are too shallow (`bays`).
//!
//! Invariant: attics and decks on cold days are those of [`crate::winter`], under its snow; what the survey lacks is told by its field, and the rest stands.

mod air;
mod bays;
mod buy;
mod cantilever;
mod ceiling;
mod climate;
mod desk;
mod eave;
mod foam;
mod fuel;
mod heel;
mod hold;
mod kind;
mod retarder;
mod sealed;
pub(crate) mod vapor;

use book::{Book, LookupError};
use job::{FanEnd, Job, Lumber, Problem, SpaceKind};
use measure::{Area, Length};
use roof::Roof;
use takeoff::{Takeoff, VentCheck};

use crate::Study;
use crate::winter::model::Model;
use crate::winter::{Ablation, DESIGN, Fixes, steady};
pub(crate) use desk::Desk;
use kind::Kind;

pub use air::{Air, AtticDay, Breathing, CeilingLeak, Day, Split};
pub use bays::Channel;
pub use buy::{Buy, How};
pub use cantilever::Open;
pub use ceiling::{Ceiling, Derate};
pub use climate::Climate;
pub use eave::{Eave, Section};
pub use foam::Foam;
pub use fuel::{Bill, Burnt, Saved, Year};
pub use heel::Short;
pub use hold::{Hold, work_holds};
pub(crate) use retarder::judged;
pub use retarder::{Retarder, Standing};
pub use sealed::Sealed;
pub(crate) use sealed::Touching;

/// Films on both sides of a ceiling and its gypsum, still air, heat going up, h·ft²·°F/Btu: 0.61 twice and 0.45 (ASHRAE Handbook Fundamentals, chapter 26,
/// from memory).
pub(crate) const CEILING: f64 = 0.61 + 0.61 + 0.45;

/// Where the heat of a house goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Heat {
    /// Attics and bays, in document order.
    pub spaces: Vec<Space>,
    /// What of the blower door's reading is in each ceiling.
    pub split: Vec<Split>,
    /// Leaks and air; none where the survey lacks what they take.
    pub air: Option<Air>,
    /// What people need to breathe, and what burns in the house.
    pub breathing: Breathing,
    /// Attic and deck at 22 °F under a foot of snow, each fix alone and together.
    pub cold: Vec<Ablation>,
    /// Eaves in section at 22 °F.
    pub eaves: Vec<Eave>,
    /// A year's heat; none without degree days.
    pub year: Option<Year>,
    /// The months reckoned with; none without degree days and a design temperature.
    pub climate: Option<Climate>,
    /// Bays and decks that insulation touches.
    pub sealed: Vec<Sealed>,
    /// Vapor retarders of all spaces.
    pub retarders: Vec<Retarder>,
    /// What must hold before the crew leaves; no word of the job takes it away.
    pub holds: Vec<Hold>,
    /// What goes wrong with moist air, by the survey.
    pub findings: Vec<String>,
    /// What the survey lacks, each by its field.
    pub lacking: Vec<Problem>,
}

/// An attic or bays.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: SpaceKind,
    /// Ceiling over heated rooms.
    pub area: Area,
    /// As found and as planned; none where nothing says what it resists.
    pub states: [Option<Ceiling>; 2],
    /// The way for air in its bays, where it has them.
    pub channel: Option<Channel>,
    /// What is bought for it; none where no insulation is planned.
    pub buy: Option<Buy>,
}

impl Heat {
    /// Of a studied house.
    ///
    /// # Errors
    /// A row the books lack.
    pub fn of(study: &Study, book: &Book) -> Result<Self, LookupError> {
        let (job, takeoff) = (&study.job, &study.takeoff);
        let desk = Desk::of((job, book), &study.roof, takeoff)?;
        let beside = job.attics.iter().zip(&study.envelope.channels);
        let spaces = beside
            .map(|(attic, channel)| Space::of(&desk, attic, *channel))
            .collect::<Result<Vec<_>, _>>()?;
        let (model, mut lacking) = match Model::of(study) {
            Ok(model) => (Some(model), Vec::new()),
            Err(lacking) => (None, lacking),
        };
        let of_model = model.as_ref();
        let air = of_model.map(|model| Air::of((job, book), takeoff, model)).transpose()?.flatten();
        let year = of_model.map(|model| Year::of((job, book), &spaces, model)).transpose()?.flatten();
        let climate = Climate::of(job, book)?;
        let retarders = retarder::of(&desk)?;
        let sealed = sealed::of(&desk, climate.as_ref())?;
        let ablation = |model: &Model<'_>| {
            let worth = Fixes::worth(study).into_iter();
            worth.map(|(name, fixes)| steady(model, name, fixes, DESIGN).row).collect()
        };
        let cold = of_model.map(ablation).unwrap_or_default();
        let eaves = of_model.map_or_else(Vec::new, |model| eave::eaves(&desk, &spaces, model));
        lacking.extend(desk.unwritten());
        let breathing = Breathing::of((job, book), air.as_ref())?;
        Ok(Self {
            split: air::split((job, book), &spaces)?,
            spaces,
            cold,
            eaves,
            holds: hold::holds(job, &breathing),
            findings: findings(job),
            climate,
            sealed,
            retarders,
            air,
            breathing,
            year,
            lacking,
        })
    }
}

impl Space {
    fn of(desk: &Desk<'_>, attic: &job::Attic, channel: Option<Channel>) -> Result<Self, LookupError> {
        let area = area(desk, attic);
        let found = Ceiling::of(desk, attic, area, None)?;
        let planned = match &found {
            Some(found) => Ceiling::of(desk, attic, area, Some(found))?,
            None => None,
        };
        let buy = Buy::of(desk, attic, area, found.as_ref())?;
        Ok(Self { name: attic.name.clone(), kind: attic.kind, area, states: [found, planned], channel, buy })
    }
}

/// Fans that end under the roof, with what was seen of it.
fn findings(job: &Job) -> Vec<String> {
    let ends = |end: FanEnd| match end {
        FanEnd::Outdoors => None,
        FanEnd::Attic => Some("in the attic"),
        FanEnd::Soffit => Some("at the soffit, which draws it back in"),
        FanEnd::RidgeVent => Some("at the ridge vent, which frosts shut"),
    };
    let seen: Vec<&str> = job
        .symptoms
        .iter()
        .filter_map(|symptom| match symptom.kind {
            job::SymptomKind::Frost => Some("frost"),
            job::SymptomKind::Condensation => Some("condensation"),
            job::SymptomKind::Drip => Some("drips"),
            _ => None,
        })
        .collect();
    let seen = if seen.is_empty() { String::new() } else { format!("; seen: {}", seen.join(", ")) };
    let told = job.fans.iter().enumerate().filter_map(|(i, fan)| {
        let at = ends(fan.ends.value)?;
        let is_seen = fan.ends.basis == job::Basis::Measured;
        let taken = if is_seen { "" } else { " (taken, since nobody looked)" };
        Some(format!("fan {} ends {at}{taken}: its moisture goes onto the cold deck; a duct, insulated, to a hood of its own{seen}", i + 1))
    });
    told.collect()
}

/// What the survey tells of heat before anybody reckons with weather.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LookedAt {
    /// What a person should look at before insulation is bought.
    pub(crate) warnings: Vec<Problem>,
    /// What more could be done, and what the roof's shape does to insulation.
    pub(crate) envelope: Envelope,
}

/// What stands between rooms and roof besides field and vents.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Envelope {
    /// By attic, how much larger its ceiling would be to lose as much without its low heels, as found and as planned.
    pub heels: Vec<[Area; 2]>,
    /// By attic, the closed-cell foam that fits over its ceiling; else why that is not looked at.
    pub foams: Vec<Result<Foam, String>>,
    /// By attic, the way for air in its bays, where it has them.
    pub channels: Vec<Option<Channel>>,
    /// Cantilevers whose joist bays stand open.
    pub cantilevers: Vec<Open>,
    /// Those nobody looked into.
    pub unseen: Vec<String>,
}

/// Of a job with its roof.
pub(crate) fn looked_at(of: (&Job, &Book), roof: &Roof, takeoff: &Takeoff) -> Result<LookedAt, LookupError> {
    let desk = Desk::of(of, roof, takeoff)?;
    let larger = |attic: &job::Attic| match attic.kind {
        SpaceKind::Attic => heel::larger(&desk, attic),
        SpaceKind::Cathedral => Ok([Area::ZERO; 2]),
    };
    let attics = || desk.job.attics.iter();
    let (cantilevers, unseen) = cantilever::of(&desk)?;
    let foam = |attic: &job::Attic| foam::of(&desk, attic, area(&desk, attic));
    let envelope = Envelope {
        heels: attics().map(larger).collect::<Result<_, _>>()?,
        foams: attics().map(foam).collect::<Result<_, _>>()?,
        channels: attics().map(|attic| Channel::of(&desk, attic)).collect::<Result<_, _>>()?,
        cantilevers,
        unseen,
    };
    Ok(LookedAt { warnings: [heel::warnings(&desk)?, bays::warnings(&desk)?].concat(), envelope })
}

/// Ceiling of a space over heated rooms.
fn area(desk: &Desk<'_>, attic: &job::Attic) -> Area {
    heated_ceiling(attic, desk.takeoff.vents_of(attic))
}

/// The same, its vents at hand.
pub(crate) fn heated_ceiling(attic: &job::Attic, vents: Option<&VentCheck>) -> Area {
    let vented = vents.map(|check| check.space);
    attic.heated_ceiling.or(attic.ceiling).or(vented).unwrap_or(Area::ZERO)
}

/// Depth of lumber as it is sold, of its nominal one: a half inch less up to 6 in, three quarters from 8 in on (American Softwood Lumber Standard PS 20, from
/// memory).
pub(crate) fn dressed(size: Lumber) -> Length {
    let nominal = f64::from(size.depth);
    Length::from_in(if nominal < 8.0 { nominal - 0.5 } else { nominal - 0.75 })
}
