//! Air: what of the house's leaks is in its ceilings, how it moves on a winter's day, what the house needs once it is sealed, and what burns in it.
//!
//! # Source
//! The network is that of the winter ([`winter::house_air`](::winter::house_air)), so that both tell the same. Ventilation: ASHRAE 62.2. What appliances bear: a
//! combustion test standard, by the rows of the books.

use ::winter::house_air::HouseAir;
use book::{Book, LookupError, Share};
use heat::air::{GRAVITY, Leak, density};
use heat::energy::ventilation_need;
use job::{Basis, Job, VentClass};
use measure::{Area, Flow, Pressure, Temperature};

use crate::winter::model::Model;
use crate::winter::{BREEZE, DESIGN, Fixes, steady};

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
    /// Where nobody measured it: the least and the most it may be as found.
    pub between: [Flow; 2],
    /// Openings of the attic to outdoors by the pressures measured in it, as free area with sharp edges; none without them.
    pub by_pressure: Option<Area>,
    /// What low and high vents in series come to, as found and as planned.
    pub series: [Area; 2],
    /// Free area of all vents together, as found.
    pub vents: Area,
}

/// Air of all attics in one state on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    /// Outdoors.
    pub outdoors: Temperature,
    /// What is done: as found, or as planned.
    pub state: &'static str,
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
}

impl Air {
    /// Leaks and air of a job the winter can be reckoned for.
    pub(super) fn of(
        (job, book): (&Job, &Book),
        takeoff: &takeoff::Takeoff,
        model: &Model<'_>,
    ) -> Result<Option<Self>, LookupError> {
        let Some(found) = job.house.leakage.as_ref().map(|leakage| leakage.value) else { return Ok(None) };
        let share = |id: &str| book.rule(id)?.get::<Share>().map(Share::of_one);
        let between =
            [share("leak.ceiling-share.least")?, share("leak.ceiling-share.most")?].map(|of| found * of);
        let air = [Fixes::default(), Fixes::ALL].map(|fixes| model.air_as_written(fixes));
        let at_50 = |leak: &Leak| Flow::from_m3_s(leak.flow(MEASURED_AT));
        let mut ceilings = Vec::new();
        for (i, attic) in job.attics.iter().enumerate() {
            let Some(check) = takeoff.vents.iter().find(|check| check.attic == attic.name) else { continue };
            let leaks = [0, 1].map(|state: usize| at_50(&air[state].attics[i].ceiling));
            let is_measured = attic.found.leakage.is_some();
            ceilings.push(CeilingLeak {
                attic: attic.name.clone(),
                leaks,
                between: if is_measured { [leaks[0]; 2] } else { between },
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
const MEASURED_AT: f64 = 50.0;

/// Openings of an attic by what it is under with the house at 50 Pa: the same air goes through ceiling and vents, so that their leaks are to one another as the
/// pressures, turned, to the power of the exponent.
fn by_pressure(attic: &job::Attic, ceiling: Flow) -> Option<Area> {
    let (inner, outer) = attic.found.house_to_attic.zip(attic.found.attic_to_outdoors)?;
    let through = Leak::at_50_pa(ceiling).flow(inner.pa());
    const SHARP: f64 = 0.6;
    let speed = (2.0 * outer.pa() / density(STANDARD, 20.0)).sqrt();
    (outer.pa() > 0.0).then(|| Area::from_m2(through / (SHARP * speed)))
}

/// Pressure of air at the sea, Pa.
const STANDARD: f64 = 101_325.0;

/// As found and as planned, at the winter design hour and at 22 °F.
fn days(job: &Job, model: &Model<'_>, ceilings: &[CeilingLeak]) -> Vec<Day> {
    let design = job.site.design_temperature.map(Temperature::c);
    let outdoors = design.into_iter().chain([DESIGN]);
    outdoors
        .flat_map(|at| {
            [("as found", Fixes::default()), ("as planned", Fixes::ALL)]
                .map(|(name, fixes)| day(model, ceilings, (name, fixes), at))
        })
        .collect()
}

fn day(model: &Model<'_>, ceilings: &[CeilingLeak], (state, fixes): (&'static str, Fixes), at: f64) -> Day {
    let (_, _, attics) = steady(model, state, fixes, at);
    let air: HouseAir = model.air_as_written(fixes);
    let network = air.network_at(at, model.rooms, BREEZE, &attics);
    let solved = network.solved().ok();
    let flow = |i: usize| solved.as_ref().map_or(0.0, |solved| solved.openings[i]);
    // four openings are of the shell, then four of each attic
    let of_attic = |(i, attic): (usize, &CeilingLeak)| {
        let first = SHELL + PER_ATTIC * i;
        AtticDay {
            attic: attic.attic.clone(),
            temperature: Temperature::from_c(attics[i]),
            ceiling: flow(first),
            low: flow(first + 1) + flow(first + 2),
            high: flow(first + 3),
        }
    };
    let lift = (density(model.pressure, at) - density(model.pressure, model.rooms)) * GRAVITY;
    let neutral = solved.as_ref().filter(|_| lift > 0.0).map(|solved| -solved.pressures[0] / lift);
    Day {
        outdoors: Temperature::from_c(at),
        state,
        neutral,
        attics: ceilings.iter().enumerate().map(of_attic).collect(),
    }
}

const SHELL: usize = 4;
const PER_ATTIC: usize = 4;

/// Air a house needs for its people, and what its fans and what burns in it make of a tighter one.
#[derive(Clone, Debug, PartialEq)]
pub struct Breathing {
    /// What its people need (ASHRAE 62.2); none without a floor area.
    pub need: Option<Flow>,
    /// Bedrooms that is for.
    pub bedrooms: u32,
    /// Whether the job says so.
    pub is_said: bool,
    /// What fans that were counted take out when all of them run.
    pub exhaust: Flow,
    /// How far they draw the house down, as found and as planned, at worst; none without a blower-door reading.
    pub drawn: Option<[Pressure; 2]>,
    /// What burns, how it is vented, and the lowest pressure it bears, where one is known.
    pub burns: Vec<(String, VentClass, Option<Pressure>)>,
}

impl Breathing {
    pub(super) fn of((job, book): (&Job, &Book), air: Option<&Air>) -> Result<Self, LookupError> {
        let said = job
            .house
            .bedrooms
            .as_ref()
            .filter(|figure| figure.basis == Basis::Measured)
            .map(|figure| figure.value);
        let bedrooms = said
            .unwrap_or(USUAL_BEDROOMS)
            .max(job.house.occupants.map_or(0, |people| people.saturating_sub(1)));
        let need = job.house.floor_area.map(|floor| ventilation_need(floor, bedrooms, book)).transpose()?;
        let exhaust =
            job.fans.iter().filter_map(|fan| fan.flow.as_ref()).map(|flow| flow.value).sum::<Flow>();
        let drawn = air.map(|air| air.house.map(|leakage| drawn(exhaust, leakage)));
        let mut burns = Vec::new();
        for appliance in &job.house.appliances {
            let row = limit(&appliance.kind, appliance.vent.value, job.house.appliances.len());
            let lowest =
                row.map(|row| book.thermal().combustion_limit(row)).transpose()?.map(|row| *row.lowest);
            burns.push((appliance.kind.clone(), appliance.vent.value, lowest));
        }
        Ok(Self { need, bedrooms, is_said: said.is_some(), exhaust, drawn, burns })
    }

    /// What fans draw on too far, as planned.
    pub fn too_far(&self) -> impl Iterator<Item = &(String, VentClass, Option<Pressure>)> {
        let planned = self.drawn.map(|[_, planned]| planned);
        self.burns
            .iter()
            .filter(move |(_, _, lowest)| planned.zip(*lowest).is_some_and(|(at, lowest)| at < lowest))
    }
}

/// Bedrooms where the job does not say.
const USUAL_BEDROOMS: u32 = 3;

/// How far below outdoors fans draw a house: what they take out comes in through all its leaks.
fn drawn(exhaust: Flow, leakage: Flow) -> Pressure {
    let leak = Leak::at_50_pa(leakage);
    let pa = if leak.coefficient > 0.0 {
        (exhaust.m3_s() / leak.coefficient).powf(leak.exponent.recip())
    } else {
        0.0
    };
    Pressure::from_pa(-pa)
}

/// The row of the books for what burns.
fn limit(kind: &str, vent: VentClass, all: usize) -> Option<&'static str> {
    let is_heater = kind.to_lowercase().contains("water");
    match vent {
        VentClass::Atmospheric if is_heater && all == 1 => Some("water-heater-alone"),
        VentClass::Atmospheric if is_heater => Some("furnace-and-water-heater"),
        VentClass::Atmospheric => Some("furnace-and-water-heater"),
        VentClass::FanAssisted => Some("power-vented"),
        VentClass::Sealed => Some("sealed"),
        // it has no flue to draw: it is to go, whatever the pressure
        VentClass::Unvented => None,
    }
}
