//! Air: what of the house's leaks is in its ceilings, how it moves on a winter's day, what the house needs once it is sealed, and what burns in it (`breathe`).
//!
//! # Source
//! The network is that of the winter ([`winter::house_air`](::winter::house_air)), so that both tell the same. Ventilation: ASHRAE 62.2. What appliances bear: a
//! combustion test standard, by the rows of the books.

mod breathe;

use ::winter::house_air::{HouseAir, VENT_DISCHARGE};
use book::{Book, LookupError, Share};
use heat::air::{GRAVITY, Leak, density};
use job::Job;
use measure::{Area, Flow, Temperature};

use crate::winter::model::Model;
use crate::winter::{BREEZE, DESIGN, Fixes, Held, steady};

pub use breathe::Breathing;

/// Leaks and air of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Air {
    /// What leaks at 50 Pa, as found and as planned.
    pub house: [Flow; 2],
    /// How far one reading of it may be off, as a share.
    pub reading: f64,
    /// Area of the leaks at 4 Pa, as found and as planned.
    pub area: [Area; 2],
    /// Attic by attic.
    pub ceilings: Vec<CeilingLeak>,
    /// What leaks elsewhere, floor and walls.
    pub shell: Flow,
    /// Share of the leaks in the ceilings, as found and as planned.
    pub share: [f64; 2],
    /// Air on cold days.
    pub days: Vec<Day>,
}

/// What a ceiling leaks.
#[derive(Clone, Debug, PartialEq)]
pub struct CeilingLeak {
    /// Attic over it.
    pub attic: String,
    /// At 50 Pa, as found and as planned.
    pub leaks: [Flow; 2],
    /// Openings of the attic to outdoors by the pressures measured in it, as free area with sharp edges; none without them.
    pub by_pressure: Option<Area>,
    /// What low and high vents in series come to, as found and as planned.
    pub series: [Area; 2],
    /// Free area of all vents together, as found.
    pub vents: Area,
}

/// How much of what a blower door read is in a ceiling.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    /// Attic over it.
    pub attic: String,
    /// Whether somebody measured it; else it is what is usual of the whole house, by the area of the ceiling.
    pub is_measured: bool,
    /// At 50 Pa as found: the least, what is taken, the most.
    pub leaks: [Flow; 3],
}

/// Of a house with a blower-door reading.
pub(super) fn split((job, book): (&Job, &Book), spaces: &[super::Space]) -> Result<Vec<Split>, LookupError> {
    let Some(house) = job.house.leakage.as_ref().map(|leakage| leakage.value) else { return Ok(Vec::new()) };
    let share = |id: &str| book.rule(id)?.get::<Share>().map(Share::of_one);
    let usual =
        [share("leak.ceiling-share.least")?, share("leak.ceiling-share")?, share("leak.ceiling-share.most")?];
    let off = share("leak.one-point")?;
    let whole: f64 = spaces.iter().map(|space| space.area.m2()).sum();
    let of = |(attic, space): (&job::Attic, &super::Space)| {
        let leaks = match attic.found.leakage {
            Some(read) => [1.0 - off, 1.0, 1.0 + off].map(|of| read * of),
            None => usual.map(|of| house * (of * space.area.m2() / whole)),
        };
        Split { attic: attic.name.clone(), is_measured: attic.found.leakage.is_some(), leaks }
    };
    Ok(if whole > 0.0 { job.attics.iter().zip(spaces).map(of).collect() } else { Vec::new() })
}

/// Air of all attics in one state on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    /// Outdoors.
    pub outdoors: Temperature,
    /// What is done: as found, or as planned.
    pub state: &'static str,
    /// Whether all fans run; none does otherwise.
    pub fans: bool,
    /// Pressure of the house over that outdoors at the floor of its heights, Pa; none where the air does not balance.
    pub at_floor: Option<f64>,
    /// Height over the datum above which the house's air presses out and below which it draws in, m; none where no height does.
    pub neutral: Option<f64>,
    /// Attic by attic.
    pub attics: Vec<AtticDay>,
}

/// Air of an attic.
#[derive(Clone, Debug, PartialEq)]
pub struct AtticDay {
    /// Its name.
    pub attic: String,
    /// Its air.
    pub temperature: Temperature,
    /// Up through the ceiling, kg/s; below nothing where it comes down.
    pub ceiling: f64,
    /// In at the low vents, kg/s; below nothing where it goes out there.
    pub low: f64,
    /// In at the high vents, kg/s; below nothing where it goes out there.
    pub high: f64,
    /// Blown into it by fans, kg/s.
    pub fans: f64,
}

impl Air {
    /// Leaks and air of a job the winter can be reckoned for.
    pub(super) fn of(
        (job, book): (&Job, &Book),
        takeoff: &takeoff::Takeoff,
        model: &Model<'_>,
    ) -> Result<Option<Self>, LookupError> {
        if job.house.leakage.is_none() {
            return Ok(None);
        }
        let share = |id: &str| book.rule(id)?.get::<Share>().map(Share::of_one);
        let air = [Fixes::default(), Fixes::ALL].map(|fixes| model.air_as_written(fixes));
        let at_50 = |leak: &Leak| Flow::from_m3_s(leak.flow(MEASURED_AT));
        let mut ceilings = Vec::new();
        for (i, attic) in job.attics.iter().enumerate() {
            let Some(check) = takeoff.vents_of(attic) else { continue };
            let leaks = [0, 1].map(|state: usize| at_50(&air[state].attics[i].ceiling));
            ceilings.push(CeilingLeak {
                attic: attic.name.clone(),
                leaks,
                by_pressure: by_pressure(attic, leaks[0]),
                series: [check.found.effective, check.plan.effective],
                vents: check.found.total,
            });
        }
        let of_ceilings = |state: usize| ceilings.iter().map(|ceiling| ceiling.leaks[state]).sum::<Flow>();
        let shell = at_50(&air[0].shell);
        let house = [0, 1].map(|state| shell + of_ceilings(state));
        let standard = density(model.pressure, 20.0);
        Ok(Some(Self {
            house,
            reading: share("leak.one-point")?,
            area: house.map(|flow| Leak::at_50_pa(flow).effective_area(standard)),
            shell,
            share: [0, 1].map(|state| of_ceilings(state) / house[state]),
            days: days(job, model, &ceilings),
            ceilings,
        }))
    }
}

/// Pressure at which houses are measured, Pa.
pub(super) const MEASURED_AT: f64 = 50.0;

/// Openings of an attic by what it is under with the house at 50 Pa: the same air goes through ceiling and vents, so that their leaks are to one another as the
/// pressures, turned, to the power of the exponent.
fn by_pressure(attic: &job::Attic, ceiling: Flow) -> Option<Area> {
    let (inner, outer) = attic.found.house_to_attic.zip(attic.found.attic_to_outdoors)?;
    let through = Leak::at_50_pa(ceiling).flow(inner.pa());
    let speed = (2.0 * outer.pa() / density(STANDARD, 20.0)).sqrt();
    (outer.pa() > 0.0).then(|| Area::from_m2(through / (VENT_DISCHARGE * speed)))
}

/// Pressure of air at the sea, Pa.
pub(super) const STANDARD: f64 = 101_325.0;

/// As found and as planned, at the winter design hour and at 22 °F; on the colder of them with all fans on as well.
fn days(job: &Job, model: &Model<'_>, ceilings: &[CeilingLeak]) -> Vec<Day> {
    let design = job.site.design_temperature.map(Temperature::c);
    let coldest = design.map_or(DESIGN, |design| design.min(DESIGN));
    let of = |at: f64, (name, fixes): (&'static str, Fixes)| {
        let [off, on] = day(model, ceilings, (name, fixes), at);
        let has_fans = at <= coldest && !job.fans.is_empty();
        std::iter::once(off).chain(has_fans.then_some(on))
    };
    let states = [("as found", Fixes::default()), ("as planned", Fixes::ALL)];
    let outdoors = design.into_iter().chain([DESIGN]);
    outdoors.flat_map(|at| states.into_iter().flat_map(move |state| of(at, state))).collect()
}

/// A day while no fan runs, and while all do: attics do not warm or cool so fast.
fn day(
    model: &Model<'_>,
    ceilings: &[CeilingLeak],
    (state, fixes): (&'static str, Fixes),
    at: f64,
) -> [Day; 2] {
    let held = steady(model, state, fixes, at);
    let [off, on] = model.air_with_fans(fixes);
    [(off, false), (on, true)].map(|(air, fans)| hour(model, ceilings, (state, &air, fans), at, &held))
}

fn hour(
    model: &Model<'_>,
    ceilings: &[CeilingLeak],
    (state, air, fans): (&'static str, &HouseAir, bool),
    at: f64,
    held: &Held,
) -> Day {
    let told = air.told(at, model.rooms, BREEZE, &held.parts).ok();
    let of_attic = |(i, attic): (usize, &CeilingLeak)| {
        let [ceiling, low, high] = told.as_ref().map_or([0.0; 3], |told| told.attics[i]);
        AtticDay {
            attic: attic.attic.clone(),
            temperature: Temperature::from_c(held.attics[i][0]),
            ceiling,
            low,
            high,
            fans: air.attics[i].taken_in(),
        }
    };
    let lift = (density(model.pressure, at) - density(model.pressure, model.rooms)) * GRAVITY;
    let neutral = told.as_ref().filter(|_| lift > 0.0).map(|told| -told.rooms / lift);
    Day {
        outdoors: Temperature::from_c(at),
        state,
        fans,
        at_floor: told.as_ref().map(|told| told.rooms),
        neutral,
        attics: ceilings.iter().enumerate().map(of_attic).collect(),
    }
}
