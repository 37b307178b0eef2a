//! An attic that vents by its own warmth.

use measure::{Area, Flow, Length, Temperature};

use crate::air::{GRAVITY, SPECIFIC_HEAT, density};
use crate::moist::between;

/// Outdoor air that holds an attic at a temperature where nothing leaves through the roof, as under deep snow: what comes through the ceiling, W/K of it, and
/// with air that leaks from the house, goes into the warming of that air. `heat` is that of air, J/(m³·K).
///
/// None where outdoors is no colder than the attic is to be.
pub fn airflow_to_hold(
    attic: Temperature,
    [indoors, outdoors]: [Temperature; 2],
    ceiling: f64,
    leak: Flow,
    heat: f64,
) -> Option<Flow> {
    let [above, below] = [(indoors - attic).k(), (attic - outdoors).k()];
    (below > 0.0).then(|| Flow::from_m3_s((ceiling / heat + leak.m3_s()) * above.max(0.0) / below))
}

/// Area of each of two equal openings, one a height above the other, through which warmth drives a flow; `discharge` is 0.6 for a sharp edge. The neutral
/// level is half way. None where the attic is no warmer than outdoors.
pub fn opening_for(
    flow: Flow,
    height: Length,
    [attic, outdoors]: [Temperature; 2],
    discharge: f64,
) -> Option<Area> {
    let speed = stack_speed(height, attic, outdoors);
    (speed > 0.0).then(|| Area::from_m2(flow.m3_s() / (discharge * speed)))
}

/// Speed that half the height of a warm column drives, m/s.
fn stack_speed(height: Length, attic: Temperature, outdoors: Temperature) -> f64 {
    let warmer = (attic - outdoors).k().max(0.0);
    (2.0 * GRAVITY * height.m() / 2.0 * warmer / attic.k()).sqrt()
}

/// An attic with openings low and high, equal, under a roof that lets no heat through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vented {
    /// Loss of the ceiling, W/K.
    pub ceiling: f64,
    /// Free area of the openings low, and of those high.
    pub each: Area,
    /// From the low ones to the high ones.
    pub height: Length,
    /// Of the openings: 0.6 for a sharp edge.
    pub discharge: f64,
    /// Pressure of the station, Pa.
    pub pressure: f64,
}

impl Vented {
    /// Temperature of its air: where what the ceiling gives is what the air that its warmth drives takes away.
    pub fn temperature(&self, indoors: Temperature, outdoors: Temperature) -> Temperature {
        if indoors.k() <= outdoors.k() {
            return indoors;
        }
        let cold = density(self.pressure, outdoors.c());
        let taken = |k: f64| {
            let attic = Temperature::from_k(k);
            let flow = self.discharge * self.each.m2() * stack_speed(self.height, attic, outdoors);
            cold * SPECIFIC_HEAT * flow * (attic - outdoors).k() - self.ceiling * (indoors - attic).k()
        };
        Temperature::from_k(between(outdoors.k(), indoors.k(), taken))
    }
}
