//! Snow that slides off a roof, and snow that the wind moves over it.
//!
//! # Rules
//! Snow slides off a strip once water parts it from what it lies on, where the roofing lets go at that slope ([`Way::sheds`]: slippery roofing from 15 to 20°,
//! shingles from 45°, common practice) and most of its way down is free: nothing lies there, or goes as well. What freezes to a cold eave so holds what
//! lies above it, as low aluminum test roofs were seen to dam (Lane, Marshall and Munis, cold-regions report 79-17). It goes down to the eave and on to the
//! ground or the roof below in the same step, and comes to lie where it meets snow, or roofing that does not let go. Ice on the deck stays.
//!
//! Wind over its threshold (Li and Pomeroy 1997) takes dry snow off slopes that face it: over so short a way what it can carry over a long one grows as
//! 3/500 of that for each metre (Liston and Sturm 1998; transport after Tabler). Half of it comes to lie behind the ridge on slopes of the same roof that
//! face away (O'Rourke), and the rest is blown off. A slope faces the wind, or away from it, within 60°.
//!
//! # Range
//! Snow moves at the end of a step, as dense as it was. Wind whose direction nobody knows moves none.
//!
//! # Checks
//! conservation: mass and heat of the whole roof, with what left it · property: shingles under their slope never shed, a windless year drifts nothing

use crate::column::{Column, Load};
use crate::season::{Hour, House};

/// Share of its ways down that may be blocked for snow to go.
const MOST_HELD: f64 = 0.5;
/// Cosine of the angle to the wind within which a slope faces it.
const FACES: f64 = 0.5;
/// Less than this is nothing, as a share of the ways down.
const NOTHING: f64 = 1e-9;

/// What moves on a roof besides water; nothing by default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Moves {
    /// By strip; none where nothing slides.
    pub ways: Vec<Way>,
    /// What wind does.
    pub drift: Option<Drift>,
}

/// The way snow slides from a strip.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Way {
    /// Whether roofing as steep as this lets snow go once its foot is wet.
    pub sheds: bool,
    /// Strips after it on the same roof into which it leads, with shares; the rest leads off the eave.
    pub on: Vec<(usize, f64)>,
    /// Strips after it under that eave, with shares; the rest of what leaves comes down on the ground.
    pub off: Vec<(usize, f64)>,
}

/// What wind does with dry snow.
#[derive(Clone, Debug, PartialEq)]
pub struct Drift {
    /// Figures of the law.
    pub law: DriftLaw,
    /// Share of the wind at the weather station that reaches the house.
    pub shelter: f64,
    /// By plane.
    pub planes: Vec<Open>,
}

/// A plane in the wind.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Open {
    /// Way it faces, degrees clockwise from north.
    pub azimuth: f64,
    /// Strips from which snow is taken; none of a level plane.
    pub scoured: Vec<usize>,
    /// Strips on which it comes to lie.
    pub settles: Vec<usize>,
    /// Planes of the same roof.
    pub beyond: Vec<usize>,
}

/// The law of wind that moves snow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriftLaw {
    /// Wind from which dry snow moves, m/s, as a polynomial of the air in °C.
    pub threshold: [f64; 3],
    /// kg/(m·s) over long level ground in a wind of 1 m/s, and the power of the wind it goes with.
    pub rate: f64,
    /// That power.
    pub power: f64,
    /// Growth of that over a short way, 1/m.
    pub growth: f64,
    /// Snow denser than this stays, kg/m³.
    pub densest: f64,
    /// Share that comes down behind a ridge.
    pub trapped: f64,
}

/// What moved in a step, kg, and what did not close of it over the whole roof.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Moved {
    /// Off the roof to the ground, and onto lower roofs or less steep ones.
    pub(crate) slid: f64,
    pub(crate) landed: f64,
    /// Off the roof with the wind, and behind its ridges.
    pub(crate) blown: f64,
    pub(crate) drifted: f64,
    /// kg and J.
    pub(crate) mass_error: f64,
    pub(crate) heat_error: f64,
}

impl DriftLaw {
    /// Snow that a wind takes up from each level m², kg/(m²·s).
    pub fn lifted(&self, air: f64, wind: f64) -> f64 {
        let [still, linear, square] = self.threshold;
        let threshold = still + linear * air + square * air * air;
        if air < 0.0 && wind > threshold { self.rate * wind.powf(self.power) * self.growth } else { 0.0 }
    }
}

impl Moves {
    /// Moves snow at the end of a step.
    pub(crate) fn step(&self, house: &House, columns: &mut [Column], hour: &Hour) -> Moved {
        let lifted = self.lifted(hour);
        let goes = self.going(columns);
        let mut moved = Moved::default();
        if lifted <= 0.0 && goes.is_empty() {
            return moved;
        }
        let before = held(house, columns);
        let mut left = Load::default();
        if !goes.is_empty() {
            self.slide(house, columns, &goes, (&mut moved, &mut left));
        }
        if let Some(drift) = self.drift.as_ref().filter(|_| lifted > 0.0) {
            drift.blow(house, columns, (hour, lifted), (&mut moved, &mut left));
        }
        let after = held(house, columns);
        moved.mass_error = before[0] - after[0] - left.mass();
        moved.heat_error = before[1] - after[1] - left.heat;
        moved
    }

    fn lifted(&self, hour: &Hour) -> f64 {
        let of = self.drift.as_ref().filter(|_| hour.wind_from.is_some());
        of.map_or(0.0, |drift| drift.law.lifted(hour.sky.air, hour.sky.wind * drift.shelter))
    }

    /// By strip, whether its snow goes; nothing at all where none does.
    fn going(&self, columns: &[Column]) -> Vec<bool> {
        let is_ready = |i: usize| self.ways[i].sheds && columns[i].is_loose();
        if !(0..self.ways.len()).any(is_ready) {
            return Vec::new();
        }
        let mut goes = vec![false; columns.len()];
        for i in (0..self.ways.len()).rev().filter(|i| is_ready(*i)) {
            let is_held = |next: usize| columns[next].is_snowy() && !goes[next];
            let held: f64 =
                self.ways[i].on.iter().filter(|(next, _)| is_held(*next)).map(|(_, share)| share).sum();
            goes[i] = held < MOST_HELD;
        }
        if goes.contains(&true) { goes } else { Vec::new() }
    }

    /// Snow goes down, from the highest strip to the lowest.
    fn slide(
        &self,
        house: &House,
        columns: &mut [Column],
        goes: &[bool],
        (moved, left): (&mut Moved, &mut Load),
    ) {
        let mut loads = vec![Load::default(); columns.len()];
        for (i, way) in self.ways.iter().enumerate() {
            let area = house.strips[i].area;
            let mut load = loads[i];
            if goes[i] {
                load = load.and(&columns[i].shed().times(area));
            }
            if load.mass() <= 0.0 {
                continue;
            }
            let is_free = |next: usize| goes[next] || !columns[next].is_snowy();
            let on = || way.on.iter().filter(|(next, _)| is_free(*next));
            let out = (1.0 - way.on.iter().map(|(_, share)| share).sum::<f64>()).max(0.0);
            let all = on().map(|(_, share)| share).sum::<f64>() + out;
            let passes = goes[i] || way.sheds && !columns[i].is_snowy();
            if !passes || all <= NOTHING {
                columns[i].land(&load.times(area.recip()));
                moved.landed += load.mass();
                continue;
            }
            for (next, share) in on().chain(&way.off) {
                loads[*next] = loads[*next].and(&load.times(share / all));
            }
            let off: f64 = way.off.iter().map(|(_, share)| share).sum();
            let gone = load.times((out - off).max(0.0) / all);
            moved.slid += gone.mass();
            *left = left.and(&gone);
        }
    }
}

impl Drift {
    /// Wind takes snow off slopes that face it, and leaves some behind them.
    fn blow(
        &self,
        house: &House,
        columns: &mut [Column],
        (hour, lifted): (&Hour, f64),
        (moved, left): (&mut Moved, &mut Load),
    ) {
        let Some(from) = hour.wind_from else { return };
        let facing = |plane: &Open| (from - plane.azimuth).to_radians().cos();
        let lee = |plane: &&usize| facing(&self.planes[**plane]) < -FACES;
        for (number, plane) in self.planes.iter().enumerate().filter(|(_, plane)| facing(plane) > FACES) {
            let most = lifted * hour.seconds * house.planes[number].cosine;
            let mut load = Load::default();
            for i in &plane.scoured {
                let taken = columns[*i].scoured(most, self.law.densest);
                load = load.and(&taken.times(house.strips[*i].area));
            }
            let behind = || plane.beyond.iter().filter(lee).flat_map(|other| &self.planes[*other].settles);
            let area: f64 = behind().map(|i| house.strips[*i].area).sum();
            let kept = if area > 0.0 && load.mass() > 0.0 { self.law.trapped } else { 0.0 };
            if kept > 0.0 {
                let on_each = load.times(kept / area);
                behind().for_each(|i| columns[*i].land(&on_each));
            }
            moved.drifted += kept * load.mass();
            moved.blown += (1.0 - kept) * load.mass();
            *left = left.and(&load.times(1.0 - kept));
        }
    }
}

/// Water and heat of all strips, kg and J.
fn held(house: &House, columns: &[Column]) -> [f64; 2] {
    let all = house.strips.iter().zip(columns);
    all.fold([0.0; 2], |[mass, heat], (strip, column)| {
        [mass + column.mass() * strip.area, heat + column.heat(&strip.base) * strip.area]
    })
}
