//! A rafter bay with a way for air under its deck.
//!
//! # Method
//! Along the bay air comes exponentially to the temperature at which what the room gives is what the deck takes. Its warmth drives it against friction and the
//! losses of its ends: the more air, the colder it stays and the less drives it, so that both meet at one speed.

use measure::{Length, RValue, Temperature, UValue};
use thiserror::Error;

use crate::air::{GRAVITY, Leak, SPECIFIC_HEAT, density};
use crate::moist::between;

/// Above this Reynolds number flow is turbulent.
const TURBULENT: f64 = 2300.0;
/// Viscosity of air at 0 °C, Pa·s, and how it goes with temperature (Sutherland's law; from memory).
const VISCOSITY: f64 = 1.716e-5;
const SUTHERLAND: f64 = 110.4;
/// No bay has air faster than this, m/s.
const FASTEST: f64 = 20.0;

/// A bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bay {
    /// From eave to ridge along the slope.
    pub length: Length,
    /// Between the rafters.
    pub width: Length,
    /// Depth of the way for air.
    pub depth: Length,
    /// How much higher its upper end is.
    pub rise: Length,
    /// From the room to its air.
    pub below: UValue,
    /// From its air to the underside of the snow; none where nothing goes through the roof.
    pub deck: Option<RValue>,
    /// Of snow and the film over it.
    pub snow: RValue,
    /// Of both ends, in heads of the air's speed: 1.5 at an inlet and 1.5 to 2 at an outlet, more with screens.
    pub ends: f64,
    /// Pressure of the station, Pa.
    pub pressure: f64,
}

/// Why there is no bay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error(
    "a bay has length, width and depth of more than nothing, rises, and takes heat from a room warmer than outdoors"
)]
pub struct BayError;

/// Air of a bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BayAir {
    /// m/s.
    pub speed: f64,
    /// kg/s.
    pub flow: f64,
    /// Along the slope over which its difference from where it tends to falls to 1/e, m.
    pub scale: f64,
    /// Where it tends to.
    pub tends_to: Temperature,
    /// At its outlet.
    pub outlet: Temperature,
    /// Up the slope from here snow over it melts, if it does anywhere.
    pub melts_from: Option<Length>,
}

/// Four times the area of a way over its girth.
pub fn hydraulic_diameter(depth: Length, width: Length) -> Length {
    Length::from_m(2.0 * depth.m() * width.m() / (depth + width).m())
}

/// Fall of pressure by friction along a flat way, Pa: laminar between plates (96/Re), turbulent after Blasius (0.3164·Re^-¼). `viscosity` is kinematic, m²/s.
pub fn friction([length, depth, width]: [Length; 3], speed: f64, density: f64, viscosity: f64) -> f64 {
    let across = hydraulic_diameter(depth, width).m();
    let reynolds = speed * across / viscosity;
    if reynolds <= 0.0 {
        return 0.0;
    }
    let factor = if reynolds < TURBULENT { 96.0 / reynolds } else { 0.3164 * reynolds.powf(-0.25) };
    factor * length.m() / across * density * speed.powi(2) / 2.0
}

/// A flat way as a leak, its flow laminar: v = Δp·D²/(48·µ·L), as [`friction`] has it below a Reynolds number of 2300. Faster air, in ways deeper than an inch or
/// two, meets more friction than this says; there it is the vents that hold it back.
pub fn way([length, depth, width]: [Length; 3], air: Temperature) -> Leak {
    let across = hydraulic_diameter(depth, width).m();
    let section = depth.m() * width.m();
    Leak { coefficient: across.powi(2) * section / (48.0 * viscosity(air) * length.m()), exponent: 1.0 }
}

impl Bay {
    /// Air that its own warmth drives between a room and outdoors.
    ///
    /// # Errors
    /// A bay that is none, a room no warmer than outdoors.
    pub fn driven(&self, indoors: Temperature, outdoors: Temperature) -> Result<BayAir, BayError> {
        let sizes = [self.length, self.width, self.depth, self.rise];
        let is_bay = sizes.iter().all(|size| size.m() > 0.0 && size.m().is_finite());
        if !(is_bay && self.below.si() > 0.0 && indoors.k() > outdoors.k()) {
            return Err(BayError);
        }
        let lacking = |speed: f64| {
            let flow = self.flow(speed, outdoors);
            let air = self.mean(flow, [indoors, outdoors]);
            let [cold, warm] = [outdoors, air].map(|t| density(self.pressure, t.c()));
            let kinematic = viscosity(air) / warm;
            let ends = self.ends * warm * speed.powi(2) / 2.0;
            let way = friction([self.length, self.depth, self.width], speed, warm, kinematic);
            ends + way - (cold - warm) * GRAVITY * self.rise.m()
        };
        let speed = between(0.0, FASTEST, lacking);
        Ok(self.at(self.flow(speed, outdoors), [indoors, outdoors]))
    }

    /// Air of a flow, kg/s, whatever drives it.
    pub fn at(&self, flow: f64, rooms: [Temperature; 2]) -> BayAir {
        let [indoors, outdoors] = rooms;
        let (scale, tends_to) = (self.scale(flow), self.tends_to(rooms));
        let section = self.width.m() * self.depth.m();
        let outlet = self.air_at(self.length, flow, rooms);
        let melts = |x: f64| self.under_snow(self.air_at(Length::from_m(x), flow, rooms), outdoors).c();
        let length = self.length.m();
        let melts_from = (indoors.k() > outdoors.k() && melts(length) > 0.0).then(|| {
            if melts(0.0) > 0.0 { Length::ZERO } else { Length::from_m(between(0.0, length, melts)) }
        });
        BayAir {
            speed: flow / (section * density(self.pressure, outdoors.c())),
            flow,
            scale,
            tends_to,
            outlet,
            melts_from,
        }
    }

    /// Temperature of the air at a distance up the slope.
    pub fn air_at(&self, up: Length, flow: f64, rooms: [Temperature; 2]) -> Temperature {
        let (tends, outdoors) = (self.tends_to(rooms).k(), rooms[1].k());
        Temperature::from_k(tends - (tends - outdoors) * (-up.m() / self.scale(flow)).exp())
    }

    /// Temperature under the snow where air is as warm.
    pub fn under_snow(&self, air: Temperature, outdoors: Temperature) -> Temperature {
        // where nothing goes through, snow is as warm as what lies under it
        let share = self.deck.map_or(1.0, |deck| self.snow / (deck + self.snow));
        Temperature::from_k(outdoors.k() + (air - outdoors).k() * share)
    }

    fn flow(&self, speed: f64, outdoors: Temperature) -> f64 {
        speed * self.width.m() * self.depth.m() * density(self.pressure, outdoors.c())
    }

    /// Up through deck and snow, W/(m²·K).
    fn above(&self) -> f64 {
        self.deck.map_or(0.0, |deck| (deck + self.snow).si().recip())
    }

    fn scale(&self, flow: f64) -> f64 {
        flow * SPECIFIC_HEAT / ((self.below.si() + self.above()) * self.width.m())
    }

    fn tends_to(&self, [indoors, outdoors]: [Temperature; 2]) -> Temperature {
        let (below, above) = (self.below.si(), self.above());
        Temperature::from_k((below * indoors.k() + above * outdoors.k()) / (below + above))
    }

    /// Mean over the length.
    fn mean(&self, flow: f64, rooms: [Temperature; 2]) -> Temperature {
        let (tends, outdoors) = (self.tends_to(rooms).k(), rooms[1].k());
        let share = self.scale(flow) / self.length.m();
        Temperature::from_k(tends - (tends - outdoors) * share * -(-share.recip()).exp_m1())
    }
}

/// Of air, Pa·s.
fn viscosity(air: Temperature) -> f64 {
    VISCOSITY * (air.k() / 273.15).powf(1.5) * (273.15 + SUTHERLAND) / (air.k() + SUTHERLAND)
}
