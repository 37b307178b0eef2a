//! Insulation by depth, weight, bag and lift.

use book::thermal::{CeilingLimit, Insulation, Supply};
use measure::{Area, Length, Load, RValue};

use crate::air::GRAVITY;

/// Insulation blown from bags.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blown {
    /// What each metre resists once settled, (m²·K/W)/m.
    pub per_metre: f64,
    /// Once settled, kg/m³.
    pub density: f64,
    /// How much of the depth blown it loses, share of it.
    pub settles: f64,
    /// Weight of a bag, kg.
    pub bag: f64,
}

/// How a depth of it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Depth that lasts.
    pub settled: Length,
    /// Depth to blow.
    pub blown: Length,
    /// What it weighs, kg/m².
    pub weight: f64,
    bag: f64,
}

impl Blown {
    /// A row of the books, in the middle of its ranges; none where it does not come in bags.
    pub fn of(row: &Insulation) -> Option<Self> {
        let Supply::Blown { settles, bag_kg } = &row.supply else { return None };
        Some(Self {
            per_metre: row.per_inch.si() / Length::from_in(1.0).m(),
            density: row.density_kg_m3.middle(),
            settles: settles.middle(),
            bag: *bag_kg,
        })
    }

    /// As deep as a resistance asks beyond what lies there already; nothing where that is enough.
    pub fn fill(&self, wanted: RValue, there: RValue) -> Fill {
        let settled = (wanted.si() - there.si()).max(0.0) / self.per_metre;
        Fill {
            settled: Length::from_m(settled),
            blown: Length::from_m(settled / (1.0 - self.settles)),
            weight: settled * self.density,
            bag: self.bag,
        }
    }
}

impl Fill {
    /// Its load on the ceiling.
    pub fn load(&self) -> Load {
        Load::from_pa(self.weight * GRAVITY)
    }

    /// Bags for an area, with a share more for waste: not rounded.
    pub fn bags(&self, area: Area, waste: f64) -> f64 {
        self.weight * area.m2() * (1.0 + waste) / self.bag
    }

    /// How much of what a ceiling carries it and what lies there already take: more than 1 is too heavy.
    pub fn share_of(&self, limit: &CeilingLimit, there: Load) -> f64 {
        (self.load() + there) / *limit.load
    }
}

/// Foam that is sprayed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foam {
    /// What each metre resists, aged, (m²·K/W)/m.
    pub per_metre: f64,
    /// The most of one pass.
    pub lift: Length,
    /// Density once set, kg/m³.
    pub density: f64,
    /// How much of what a set should give it gives, share of it.
    pub yields: f64,
}

impl Foam {
    /// A row of the books, in the middle of its ranges; none where it is not sprayed.
    pub fn of(row: &Insulation) -> Option<Self> {
        let Supply::Sprayed { lift, yields } = &row.supply else { return None };
        Some(Self {
            per_metre: row.per_inch.si() / Length::from_in(1.0).m(),
            lift: **lift,
            density: row.density_kg_m3.middle(),
            yields: yields.middle(),
        })
    }

    /// Depth for a resistance.
    pub fn depth(&self, wanted: RValue) -> Length {
        Length::from_m(wanted.si() / self.per_metre)
    }

    /// Passes it takes, each of which cools before the next. A hair over a whole number of lifts is that number.
    pub fn lifts(&self, depth: Length) -> u32 {
        let lifts = (depth / self.lift - 1e-6).ceil().max(0.0);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole, at least 0, and capped by the cast"
        )]
        let whole = lifts as u32;
        whole
    }

    /// Weight of what is sprayed from for an area, kg, with what is lost on the job.
    pub fn weight(&self, area: Area, depth: Length) -> f64 {
        (area * depth).m3() * self.density / self.yields
    }
}

/// What foam is sold by: a square foot an inch deep.
pub fn board_feet(area: Area, depth: Length) -> f64 {
    area.ft2() * depth.inches()
}
