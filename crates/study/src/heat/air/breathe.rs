//! What people need to breathe, and what a tighter house makes of what burns in it.

use book::{Book, LookupError};
use heat::air::Leak;
use heat::energy::ventilation_need;
use job::{Basis, Job, VentClass};
use measure::{Flow, Pressure};

use super::Air;

/// Air a house needs for its people, and what its fans and what burns in it make of a tighter one.
#[derive(Clone, Debug, PartialEq)]
pub struct Breathing {
    /// What its people need (ASHRAE 62.2); none without a floor area.
    pub need: Option<Flow>,
    /// Bedrooms that is for.
    pub bedrooms: u32,
    /// Whether the job says so.
    pub is_said: bool,
    /// What all fans take out when they run at once.
    pub exhaust: Flow,
    /// How far they draw the house down, as found and as planned, at worst; none without a blower-door reading.
    pub drawn: Option<[Pressure; 2]>,
    /// What burns, how it is vented, and the lowest pressure it bears, where one is known.
    pub burns: Vec<(String, VentClass, Option<Pressure>)>,
}

impl Breathing {
    pub(in crate::heat) fn of((job, book): (&Job, &Book), air: Option<&Air>) -> Result<Self, LookupError> {
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
        let exhaust = job.fans.iter().map(|fan| fan.flow.value).sum::<Flow>();
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
