//! An attic as the season sees it: its ceiling, its vents, where it lies.

use ::winter::house_air::Passage;
use job::{Attic, AtticState};
use measure::{Area, Flow, Length, RValue};
use roof::{PlaneId, Roof};
use takeoff::{Region, VentCheck, Vented};

use super::Fixes;
use crate::Study;
use crate::heat::{CEILING, Channel, Foam, heated_ceiling};

/// An attic with what was surveyed of it and of its vents.
pub(super) struct Room<'s> {
    pub(super) attic: &'s Attic,
    pub(super) vents: &'s VentCheck,
    /// Figures as found and as planned.
    pub(super) states: [Figures; 2],
    pub(super) heights: [Length; 2],
    /// As [`crate::heat::Envelope`] has them.
    pub(super) heels: [Area; 2],
    pub(super) foam: Option<Foam>,
    /// Where it is the bays of a sloped ceiling.
    pub(super) channel: Option<Channel>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Figures {
    pub(super) insulation: RValue,
    pub(super) leakage: Flow,
}

/// Share of leaks that is left whatever is closed.
pub(super) const LEFT: f64 = 0.1;

impl Room<'_> {
    /// Leakage of the ceiling with the house at 50 Pa, found and sealed so many times what is written, and what closing cantilevers takes off what was found, m³/s.
    pub(super) fn leaks(&self, fixes: Fixes, [found, sealing]: [f64; 2], closed: f64) -> Flow {
        if let Some(foam) = self.foam.filter(|_| fixes.foam) {
            return (foam.leakage * sealing).min(self.states[0].leakage * found);
        }
        if fixes.seal && self.attic.plan.leakage.is_some() {
            return self.states[1].leakage * sealing;
        }
        let open = self.states[0].leakage * found;
        Flow::from_m3_s((open.m3_s() - closed).max(LEFT * open.m3_s()))
    }

    /// Low or high vents: what is laid new is as open as its label says, what is left as it was is so many times as open as written.
    pub(super) fn open(
        &self,
        fixes: Fixes,
        of: impl Fn(&Vented) -> Area,
        is_done: bool,
        [factor, through]: [f64; 2],
    ) -> Area {
        let [found, plan] = [&self.vents.found, &self.vents.plan].map(of);
        if fixes.balanced {
            self.vents.required * (0.5 * through)
        } else if is_done && plan != found {
            plan * through
        } else {
            found * (factor * through)
        }
    }

    /// Loss of the ceiling, W/K, with what its heels let through; insulation that is found and that is laid new resists so many times what is written. Foam is as deep
    /// over the heels.
    pub(super) fn to_rooms(&self, fixes: Fixes, [found, laid]: [f64; 2]) -> f64 {
        let state = usize::from(fixes.insulate);
        let is_new = fixes.insulate && self.attic.plan.effective.is_some();
        let (resists, heels) = if let Some(foam) = self.foam.filter(|_| fixes.foam) {
            (foam.resists * laid, Area::ZERO)
        } else {
            let factor = if is_new { laid } else { found };
            (self.states[state].insulation * factor, self.heels[state])
        };
        (self.heated() + heels).m2() / (resists + RValue::from_us(CEILING)).si()
    }

    pub(super) fn heated(&self) -> Area {
        heated_ceiling(self.attic, Some(self.vents))
    }
}

/// What a state has, or what it keeps of another.
pub(super) fn figures(state: &AtticState, before: Option<Figures>) -> Option<Figures> {
    let insulation = state.effective.as_ref().map(|r| r.value).or(before.map(|before| before.insulation))?;
    let leakage = state.leakage.or(before.map(|before| before.leakage))?;
    Some(Figures { insulation, leakage })
}

/// Low and high vents over the datum: at the lowest plate, and at the top of the planes over it.
pub(super) fn heights(roof: &Roof, attic: &Attic) -> [Length; 2] {
    let walls = roof.walls.iter().filter(|wall| attic.under.contains(&wall.block));
    let plate = walls.map(|wall| wall.plate.m()).fold(f64::INFINITY, f64::min);
    let planes =
        roof.planes.iter().filter(|plane| plane.blocks.iter().any(|block| attic.under.contains(block)));
    let top = planes.flat_map(|plane| &plane.outline).map(|point| point[2]).fold(plate, f64::max);
    [plate, top].map(Length::from_m)
}

/// Whether an attic lies under a plane at a point in plan: inside the wall lines of one of its blocks, and its part of them.
pub(super) fn is_under(study: &Study, attic: &Attic, plane: PlaneId, at: [f64; 2]) -> bool {
    let (roof, is_its) = (&study.roof, |block: &String| attic.under.contains(block));
    roof.plane(plane).blocks.iter().any(is_its) && is_over(study, attic, at)
}

/// Whether a point in plan is inside the wall lines of one of an attic's blocks, and in its part of them.
fn is_over(study: &Study, attic: &Attic, at: [f64; 2]) -> bool {
    Region::of(&study.job, attic).holds(at)
        && attic.under.iter().any(|block| is_inside(&study.roof, block, at))
}

/// Open ways between attics: as tall as wide, their foot on the higher of the two ceilings.
pub(super) fn passages(spaces: &[Room<'_>]) -> Vec<Passage> {
    let of = |(number, room): (usize, &Room<'_>)| -> Vec<Passage> {
        let of = |joined: &job::Joined| {
            let other = spaces.iter().position(|other| other.attic.name == joined.to)?;
            Some(Passage {
                between: [number, other],
                area: joined.area.value,
                tall: Length::from_m(joined.area.value.m2().sqrt()),
                foot: room.heights[0].max(spaces[other].heights[0]),
            })
        };
        room.attic.joined.iter().filter_map(of).collect()
    };
    spaces.iter().enumerate().flat_map(of).collect()
}

/// The attic over a point, the one with the largest ceiling where none is or nobody wrote the point.
pub(super) fn attic_at(study: &Study, spaces: &[Room<'_>], at: Option<[f64; 2]>) -> Option<usize> {
    let largest = || {
        let all = spaces.iter().enumerate();
        all.max_by(|(_, a), (_, b)| a.heated().m2().total_cmp(&b.heated().m2())).map(|(i, _)| i)
    };
    let there = at.and_then(|at| spaces.iter().position(|room| is_over(study, room.attic, at)));
    there.or_else(largest)
}

/// Whether a point lies inside the wall lines of a block, by how often a line to the east crosses them.
fn is_inside(roof: &Roof, block: &str, [x, y]: [f64; 2]) -> bool {
    let walls = roof.walls.iter().filter(|wall| wall.block == block);
    let crosses = |wall: &&roof::Wall| {
        let ([ax, ay], [bx, by]) = (wall.from, wall.to);
        (ay > y) != (by > y) && x < ax + (bx - ax) * (y - ay) / (by - ay)
    };
    walls.filter(crosses).count() % 2 == 1
}
