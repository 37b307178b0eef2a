//! Layers of snow, from the deck upward.

use crate::snow::{FUSION, Held, ICE_DENSITY, ICE_HEAT, settling};

/// Thickness kept for the top layer and the next, m; the rest is one (FSM2, Essery 2015).
const TOP: f64 = 0.1;
const NEXT: f64 = 0.2;
/// Ice less than this is none, kg/m².
const NOTHING: f64 = 1e-9;
const MOST: usize = 3;
/// Density of ice that settles out of the air, kg/m³ (common practice).
const HOAR: f64 = 100.0;

/// One layer.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Layer {
    /// Ice, kg/m².
    pub ice: f64,
    /// Water, kg/m².
    pub liquid: f64,
    /// Thickness, m.
    pub depth: f64,
    /// Temperature, no more than 0 °C.
    pub temperature: f64,
}

impl Layer {
    /// Ice and water, kg/m³.
    pub fn density(&self) -> f64 {
        (self.ice + self.liquid) / self.depth
    }

    /// Heat it holds, J/m².
    pub(super) fn heat(&self) -> f64 {
        ICE_HEAT * self.ice * self.temperature + FUSION * self.liquid
    }

    /// Takes ice out at 0 °C, as dense as before; how much there was. Its cold stays with what is left where that is the more, and is given back where it
    /// is not, J/m².
    fn take(&mut self, ice: f64) -> (f64, f64) {
        let taken = ice.min(self.ice);
        let left = self.ice - taken;
        let mut cold = 0.0;
        if taken < left {
            self.temperature *= self.ice / left;
        } else {
            cold = ICE_HEAT * taken * self.temperature;
        }
        if left > 0.0 {
            self.depth *= left / self.ice;
        }
        self.ice = left;
        (taken, cold)
    }
}

/// Which end of the snow something is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    Deck,
    Sky,
}

/// The layers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Pack {
    layers: [Layer; MOST],
    count: usize,
    /// Cold of ice that was taken, J/m², until it is cleared.
    cold: f64,
}

impl Pack {
    pub(super) const fn is_none(&self) -> bool {
        self.count == 0
    }

    pub(super) fn layers(&self) -> &[Layer] {
        &self.layers[..self.count]
    }

    pub(super) fn layers_mut(&mut self) -> &mut [Layer] {
        &mut self.layers[..self.count]
    }

    pub(super) fn mass(&self) -> f64 {
        self.layers().iter().map(|layer| layer.ice + layer.liquid).sum()
    }

    pub(super) fn ice(&self) -> f64 {
        self.layers().iter().map(|layer| layer.ice).sum()
    }

    pub(super) fn depth(&self) -> f64 {
        self.layers().iter().map(|layer| layer.depth).sum()
    }

    pub(super) fn heat(&self) -> f64 {
        self.cold + self.layers().iter().map(Layer::heat).sum::<f64>()
    }

    /// Snow falls on the top layer.
    pub(super) fn fall(&mut self, mass: f64, density: f64, temperature: f64) {
        if mass <= 0.0 {
            return;
        }
        if self.is_none() {
            self.layers[0] = Layer::default();
            self.count = 1;
        }
        let top = &mut self.layers[self.count - 1];
        top.temperature = (top.ice * top.temperature + mass * temperature) / (top.ice + mass);
        top.ice += mass;
        top.depth += mass / density;
    }

    /// Water comes into the top layer.
    pub(super) fn rain(&mut self, water: f64) {
        if let Some(top) = self.layers_mut().last_mut() {
            top.liquid += water;
        }
    }

    /// Water that no layer holds runs down; what comes out below.
    pub(super) fn percolated(&mut self, held: Held) -> f64 {
        let mut running = 0.0;
        for layer in self.layers_mut().iter_mut().rev() {
            let all = layer.liquid + running;
            layer.liquid = all.min(held.of(layer.ice, layer.depth));
            running = all - layer.liquid;
        }
        running
    }

    /// Takes ice from an end inward, and gives back how much there was.
    pub(super) fn take(&mut self, end: End, ice: f64) -> f64 {
        let mut taken = 0.0;
        for turn in 0..self.count {
            let i = if end == End::Deck { turn } else { self.count - 1 - turn };
            let (of_layer, cold) = self.layers[i].take(ice - taken);
            taken += of_layer;
            self.cold += cold;
        }
        taken
    }

    /// Takes up to so much ice off the top layer as cold as it is, where that is dry and no denser: ice, its depth and its heat.
    pub(super) fn scoured(&mut self, most: f64, densest: f64) -> [f64; 3] {
        let Some(top) = self.layers_mut().last_mut() else { return [0.0; 3] };
        if top.liquid > 0.0 || top.temperature >= 0.0 || top.density() > densest {
            return [0.0; 3];
        }
        let is_all = top.ice - most <= NOTHING;
        let share = if is_all { 1.0 } else { most / top.ice };
        let taken = [top.ice * share, top.depth * share, ICE_HEAT * top.ice * share * top.temperature];
        top.ice -= taken[0];
        top.depth -= taken[1];
        self.count -= usize::from(is_all);
        taken
    }

    /// Ice settles on the top layer out of the air.
    pub(super) fn frost(&mut self, ice: f64) {
        if let Some(top) = self.layers_mut().last_mut() {
            let all = top.ice + ice;
            top.temperature *= top.ice / all;
            top.depth += ice / HOAR;
            top.ice = all;
        }
    }

    /// Layers without ice are gone: their water and the heat that was in them.
    pub(super) fn cleared(&mut self) -> (f64, f64) {
        let (mut water, mut heat, mut kept) = (0.0, std::mem::take(&mut self.cold), 0);
        for i in 0..self.count {
            let layer = self.layers[i];
            if layer.ice > NOTHING {
                self.layers[kept] = layer;
                kept += 1;
            } else {
                // what is left of its ice counts as melted, by heat it is to give back
                water += layer.liquid + layer.ice;
                heat += layer.heat() - FUSION * (layer.liquid + layer.ice);
            }
        }
        self.count = kept;
        (water, heat)
    }

    /// Snow settles.
    pub(super) fn settled(&mut self, seconds: f64) {
        let mut over = 0.0;
        for layer in self.layers_mut().iter_mut().rev() {
            let mass = layer.ice + layer.liquid;
            let density = layer.density();
            let settled = density + seconds * settling(density, over + mass / 2.0, layer.temperature);
            layer.depth = mass / settled.clamp(density, ICE_DENSITY.max(density));
            over += mass;
        }
    }

    /// As many layers as its depth asks, the top one thin.
    pub(super) fn layered(&mut self, most: usize) {
        let depth = self.depth();
        let wanted = match depth {
            _ if depth <= 0.0 => return,
            _ if depth < 1.5 * TOP => 1,
            _ if depth < 2.0 * (TOP + NEXT) / 1.5 => 2,
            _ => MOST,
        };
        let wanted = wanted.min(most);
        let top = self.layers[self.count - 1].depth;
        let second = self.count.checked_sub(2).map_or(NEXT, |i| self.layers[i].depth);
        let is_right = |depth: f64, wanted: f64| (0.6..1.5).contains(&(depth / wanted));
        if wanted == self.count
            && (wanted == 1 || is_right(top, TOP) && (wanted == 2 || is_right(second, NEXT)))
        {
            return;
        }
        let mut depths = [depth, 0.0, 0.0];
        if wanted == 2 {
            depths = [depth - TOP, TOP, 0.0];
        } else if wanted == MOST {
            depths = [depth - TOP - NEXT, NEXT, TOP];
        }
        *self = self.divided(&depths[..wanted]);
    }

    /// The same snow in layers of other depths, which add up to the same.
    fn divided(&self, depths: &[f64]) -> Self {
        let mut new = Self { count: depths.len(), ..Self::default() };
        let mut sensible = [0.0; MOST];
        let mut from = 0.0;
        for old in self.layers() {
            let to = from + old.depth;
            let mut overlaps = [0.0; MOST];
            let mut low = 0.0;
            for (overlap, depth) in overlaps.iter_mut().zip(depths) {
                *overlap = (to.min(low + depth) - from.max(low)).max(0.0);
                low += depth;
            }
            // all of it goes somewhere, whatever rounding says
            let whole: f64 = overlaps.iter().sum();
            for (j, overlap) in overlaps.iter().enumerate().take(new.count) {
                let share = overlap / whole;
                new.layers[j].ice += share * old.ice;
                new.layers[j].liquid += share * old.liquid;
                sensible[j] += share * old.ice * old.temperature;
            }
            from = to;
        }
        for (j, depth) in depths.iter().enumerate() {
            new.layers[j].depth = *depth;
            new.layers[j].temperature = sensible[j] / new.layers[j].ice;
        }
        new
    }
}
