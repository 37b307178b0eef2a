//! Snow that leaves a column or comes onto it otherwise than from the sky: it slides, or the wind moves it.

use super::Column;
use crate::snow::{FUSION, ICE_HEAT};

/// Water that parts snow from what it lies on, kg/m²: a hundredth of a millimetre (chosen).
const FILM: f64 = 0.01;

/// Snow on its way, of a square metre or in all.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Load {
    /// Ice and water, kg.
    pub(crate) ice: f64,
    pub(crate) liquid: f64,
    /// Room it takes, m³.
    pub(crate) room: f64,
    /// Heat it holds, J.
    pub(crate) heat: f64,
}

impl Load {
    pub(crate) fn mass(&self) -> f64 {
        self.ice + self.liquid
    }

    #[must_use]
    pub(crate) fn times(&self, factor: f64) -> Self {
        let Self { ice, liquid, room, heat } = *self;
        Self { ice: ice * factor, liquid: liquid * factor, room: room * factor, heat: heat * factor }
    }

    #[must_use]
    pub(crate) fn and(&self, other: &Self) -> Self {
        Self {
            ice: self.ice + other.ice,
            liquid: self.liquid + other.liquid,
            room: self.room + other.room,
            heat: self.heat + other.heat,
        }
    }
}

impl Column {
    pub(crate) fn is_snowy(&self) -> bool {
        !self.snow.is_none()
    }

    /// Whether water at the foot of its snow parts that from what it lies on.
    pub(crate) fn is_loose(&self) -> bool {
        self.is_snowy() && self.foot > FILM
    }

    /// Takes all snow off with the water in it and at its foot; ice on the deck stays.
    pub(crate) fn shed(&mut self) -> Load {
        let snow = std::mem::take(&mut self.snow);
        let foot = std::mem::take(&mut self.foot);
        let liquid = snow.layers().iter().map(|layer| layer.liquid).sum::<f64>() + foot;
        Load { ice: snow.ice(), liquid, room: snow.depth(), heat: snow.heat() + FUSION * foot }
    }

    /// Takes up to so much of its top layer, where that is dry and no denser.
    pub(crate) fn scoured(&mut self, most: f64, densest: f64) -> Load {
        let [ice, room, heat] = self.snow.scoured(most, densest);
        Load { ice, liquid: 0.0, room, heat }
    }

    /// Snow comes to lie on it, on what is there.
    pub(crate) fn land(&mut self, load: &Load) {
        if load.ice > 0.0 {
            let sensible = load.heat - FUSION * load.liquid;
            self.snow.fall(load.ice, load.ice / load.room, (sensible / (ICE_HEAT * load.ice)).min(0.0));
            self.snow.rain(load.liquid);
        }
    }
}
