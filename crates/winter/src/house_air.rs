//! Air that stack, wind and fans move through a house, its attics and the bays of its sloped ceilings.
//!
//! # Method
//! Rooms and attics are zones of a network ([`heat::air::Network`]). Bays are three: their lower half to windward, that to leeward, and their upper half, whose air leaves and enters
//! at the ridge; between them lies the friction of the way. What the network finds is then followed past the [parts](Bays::parts) of the bays one by one, so that air warms on its way
//! up: where wind presses it in at one eave and out at the other, it goes up the one side and down the other, past each part twice.
//!
//! # Range
//! Bays are taken to lie half to windward and half to leeward, as low vents are; those of one side are all alike.

mod bays;
mod joints;

use heat::air::{AirError, Balancer, Leak, Network};
use measure::{Area, Length};

pub use self::bays::Bays;
use self::bays::Into;
use self::joints::{End, First, Joint};
use crate::season::{Airflow, Passing, Through};

/// What sharp-edged vents let through (0.4 to 0.7; common practice).
pub const VENT_DISCHARGE: f64 = 0.6;
/// Wind pressures on vents as shares of its own: low ones to windward and leeward, high ones (from memory: soffits +0.3 to +0.6 and −0.3, ridges −0.4 to
/// −0.6 where the roof is flatter than 9/12).
pub const SHARES: [f64; 3] = [0.45, -0.3, -0.5];

/// An attic, or the bays of a sloped ceiling, as air sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct AtticAir {
    /// Ceiling between rooms and attic.
    pub ceiling: Leak,
    /// Net free area of low vents, half of it to windward.
    pub low: Area,
    /// Of high vents.
    pub high: Area,
    /// Height of low and high vents above the ground.
    pub heights: [Length; 2],
    /// Height of its ceiling; that of bays runs from the low vents to the high ones.
    pub ceiling_at: Length,
    /// Air that fans blow into it out of the rooms, kg/s.
    pub blown: f64,
    /// Where it is bays, their parts.
    pub bays: Option<Bays>,
}

impl AtticAir {
    /// What fans blow into it, where it has a way for that out again.
    pub fn taken_in(&self) -> f64 {
        let is_open = self.ceiling.coefficient > 0.0 || self.low.m2() > 0.0 || self.high.m2() > 0.0;
        if is_open { self.blown } else { 0.0 }
    }

    /// How many attics of a season it is: one, or one for each part.
    pub fn parts(&self) -> usize {
        self.bays.as_ref().map_or(1, |bays| bays.parts.len())
    }
}

/// An open way between two attics; into bays it opens at the half of them nearer to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passage {
    /// The attics, by their number in [`HouseAir::attics`].
    pub between: [usize; 2],
    /// Its area.
    pub area: Area,
    /// From its foot to its top.
    pub tall: Length,
    /// Height of its foot.
    pub foot: Length,
}

impl Passage {
    /// Heights of two openings of half its area each that exchange as much air as all of it would: 4/9 of its height apart, since through a door air of two
    /// temperatures flows both ways at C·A/3·√(g·H·ΔT/T) (Brown and Solvason 1962, from memory).
    fn halves(&self) -> [f64; 2] {
        [-1.0, 1.0].map(|side| self.foot.m() + self.tall.m() * (0.5 + side * 2.0 / 9.0))
    }
}

/// A house under its attics.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseAir {
    /// Leaks through floor and walls, half low and half high, without the ceilings.
    pub shell: Leak,
    /// Height of the topmost ceiling.
    pub height: Length,
    /// Attics and bays by number. Those of the season are theirs in this order, bays part by part from the eaves up.
    pub attics: Vec<AtticAir>,
    /// Open ways between them.
    pub passages: Vec<Passage>,
    /// Pressure of the station, Pa.
    pub pressure: f64,
    /// Air that fans take out of the rooms to outdoors, kg/s.
    pub exhaust: f64,
    /// Share of the wind at the weather station that reaches the house (0.4 to 0.8 in a suburb; from memory).
    pub shelter: f64,
    /// What was found last, from which the next is sought.
    pub last: Last,
}

/// The air found last; none at first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Last {
    kept: Option<Kept>,
    passing: Vec<Passing>,
}

/// What stays the same from one balance to the next.
#[derive(Clone, Debug, PartialEq)]
struct Kept {
    joints: Vec<Joint>,
    firsts: Vec<First>,
    ends: Vec<[End; 2]>,
    balancer: Balancer,
}

/// Air at one time, into what it is told of, kg/s.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Pressure of the rooms at height 0 over that of outdoors there, Pa.
    pub rooms: f64,
    /// Of each attic: up through its ceiling, in through low vents, in through high ones.
    pub attics: Vec<[f64; 3]>,
}

impl HouseAir {
    /// Density of the air outdoors, kg/m³, and the pressure of a wind in it, Pa.
    fn weather(&self, outdoors: f64, wind: f64) -> (f64, f64) {
        let density = heat::air::density(self.pressure, outdoors);
        (density, 0.5 * density * (wind * self.shelter).powi(2))
    }

    /// Temperatures of the zones, rooms first.
    fn zones(&self, rooms: f64, attics: &[f64]) -> impl Iterator<Item = f64> {
        let mut left = attics;
        let of = move |attic: &AtticAir| {
            let (own, rest) = left.split_at(attic.parts());
            left = rest;
            attic.bays.as_ref().map_or(([own[0], 0.0, 0.0], 1), |bays| (bays.zones(own), 3))
        };
        let all = self.attics.iter().map(of).flat_map(|(own, count)| own.into_iter().take(count));
        std::iter::once(rooms).chain(all)
    }

    /// The network at temperatures of the attics of a season and a wind; the rooms are its first zone.
    pub fn network_at(&self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64]) -> Network {
        let joints = self.joints();
        let mut network = self.network(&joints);
        network.outdoors.temperature = outdoors;
        network.zones.iter_mut().zip(self.zones(rooms, attics)).for_each(|(zone, at)| zone.temperature = at);
        let (density, push) = self.weather(outdoors, wind);
        for (joint, opening) in joints.iter().zip(&mut network.openings) {
            (opening.wind, opening.leak) = (joint.side.wind(push), joint.let_through(density));
        }
        network
    }

    /// What air moves then.
    ///
    /// # Errors
    /// Where no balance is found.
    pub fn told(&self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64]) -> Result<Told, AirError> {
        let found = self.network_at(outdoors, rooms, wind, attics).solved()?;
        let mut left = joints::past_shell(&found.openings);
        let of = |attic: &AtticAir| {
            if attic.bays.is_some() {
                let up = joints::of_bays(&mut left);
                return [up.ceilings.iter().sum(), up.low.iter().sum(), up.high];
            }
            let [ceiling, windward, leeward, high] = joints::of_attic(&mut left);
            [ceiling, windward + leeward, high]
        };
        Ok(Told { rooms: found.pressures[0], attics: self.attics.iter().map(of).collect() })
    }
}

impl Airflow for HouseAir {
    fn through(&mut self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64], flows: &mut [Through]) {
        let kept = self.last.kept.take().or_else(|| {
            let joints = self.joints();
            let balancer = Balancer::of(self.network(&joints)).ok()?;
            Some(Kept { joints, firsts: self.firsts(), ends: self.ends(), balancer })
        });
        // a shell and vents of some size always balance; an attic that is shut has no air through it
        let Some(mut kept) = kept else {
            flows.fill(Through::default());
            return;
        };
        let Kept { joints, balancer, .. } = &mut kept;
        balancer.set_temperatures(outdoors, self.zones(rooms, attics));
        let (density, push) = self.weather(outdoors, wind);
        for (joint, (wind_on, coefficient)) in joints.iter().zip(balancer.openings_mut()) {
            (*wind_on, *coefficient) = (joint.side.wind(push), joint.let_through(density).coefficient);
        }
        let mut passing = std::mem::take(&mut self.last.passing);
        if balancer.balance().or_else(|_| balancer.balance()).is_ok() {
            passing.clear();
            self.follow(&kept, flows, &mut passing);
        } else {
            flows.fill(Through::default());
            for passing in &mut passing {
                passing.flow = 0.0;
            }
        }
        self.last = Last { kept: Some(kept), passing };
    }

    fn between(&self) -> &[Passing] {
        &self.last.passing
    }
}

impl HouseAir {
    /// What the network found, by attics and parts of bays, and from one to another.
    fn follow(&self, kept: &Kept, flows: &mut [Through], passing: &mut Vec<Passing>) {
        let Kept { joints, firsts, ends, balancer } = kept;
        let found = balancer.flows();
        self.pass(found, ends, passing);
        let mut left = joints::past_shell(found);
        for (attic, First { zone, part }) in self.attics.iter().zip(firsts.iter().copied()) {
            let blown = attic.taken_in();
            if let Some(bays) = &attic.bays {
                let (up, foot) = (joints::of_bays(&mut left), self.at_foot(found, joints, zone));
                bays.follow(&up, foot, blown, Into { first: part, flows, passing });
            } else {
                let [ceiling, vents @ ..] = joints::of_attic(&mut left);
                let vent = vents.iter().map(|flow| flow.max(0.0)).sum();
                flows[part] = Through { leak: ceiling.max(0.0) + blown, vent };
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use measure::{Flow, Length};

    use super::*;

    fn house(low_in2: f64, high_in2: f64, leakage: f64) -> HouseAir {
        HouseAir {
            shell: Leak::at_50_pa(Flow::from_cfm(2350.0)),
            height: Length::from_ft(17.0),
            attics: vec![AtticAir {
                ceiling: Leak::at_50_pa(Flow::from_cfm(leakage)),
                low: Area::from_in2(low_in2),
                high: Area::from_in2(high_in2),
                heights: [17.0, 23.0].map(Length::from_ft),
                ceiling_at: Length::from_ft(17.0),
                blown: 0.0,
                bays: None,
            }],
            passages: Vec::new(),
            pressure: 101_325.0,
            exhaust: 0.0,
            shelter: 0.6,
            last: Last::default(),
        }
    }

    fn through(mut house: HouseAir, wind: f64) -> Through {
        let mut flows = [Through::default()];
        house.through(-5.6, 21.0, wind, &[0.0], &mut flows);
        flows[0]
    }

    /// A ridge vent over shut soffits brings hardly more air from outdoors and draws more out of the rooms; open soffits bring much more from outdoors.
    #[test]
    fn a_ridge_vent_over_shut_soffits_draws_on_the_rooms() {
        let found = through(house(78.0, 351.6, 550.0), 0.0);
        let ridge = through(house(78.0, 351.6 + 456.0, 550.0), 0.0);
        let open = through(house(711.0, 696.0, 550.0), 0.0);
        assert!(ridge.leak >= found.leak && ridge.vent < 1.15 * found.vent, "{found:?} {ridge:?}");
        assert!(open.vent > 3.0 * found.vent, "{found:?} {open:?}");
        assert!(through(house(711.0, 696.0, 150.0), 0.0).leak < 0.4 * open.leak);
    }

    #[test]
    fn wind_and_fans_change_the_air() {
        let still = through(house(711.0, 696.0, 150.0), 0.0);
        assert!(through(house(711.0, 696.0, 150.0), 6.0).vent > still.vent);
        let fan = HouseAir { exhaust: 0.1, ..house(711.0, 696.0, 150.0) };
        assert!(through(fan, 0.0).leak < still.leak, "a fan in the rooms holds air back from the attic");
    }

    /// Also where next to nothing drives air through a vent: some attic has a temperature at which that is so in every weather.
    #[test]
    fn a_house_balances_in_any_weather() {
        let mut failed = Vec::new();
        for (low, leakage) in [(78.0, 550.0), (711.0, 150.0), (5.0, 900.0)] {
            let house = house(low, 351.6, leakage);
            for outdoors in [-25.0, -10.69, -5.9, 1.7, 5.43, 10.22] {
                for wind in [0.0, 0.25, 0.79, 1.5256, 1.68, 6.0] {
                    for step in -100..100 {
                        let attic = outdoors + f64::from(step) * 0.08;
                        for rooms in [21.111, outdoors] {
                            if house.network_at(outdoors, rooms, wind, &[attic]).solved().is_err() {
                                failed.push((low, outdoors, wind, attic, rooms));
                            }
                        }
                    }
                }
            }
        }
        assert!(failed.is_empty(), "{} {:?}", failed.len(), &failed[..failed.len().min(12)]);
    }

    /// What a fan blows into the attic comes in from the rooms: more air from there in all, though less leaks; in an attic that is shut it goes nowhere.
    #[test]
    fn a_fan_that_ends_in_the_attic_blows_the_rooms_into_it() {
        let still = through(house(78.0, 351.6, 550.0), 0.0);
        let mut blows = house(78.0, 351.6, 550.0);
        blows.attics[0].blown = 0.05;
        let blown = through(blows, 0.0);
        assert!(blown.leak > still.leak && blown.leak < still.leak + 0.05, "{still:?} {blown:?}");
        assert!(blown.leak > 0.05 && blown.vent < still.vent);
        let mut shut = house(0.0, 0.0, 0.0);
        shut.attics[0].blown = 0.05;
        assert_eq!(through(shut, 0.0), Through::default());
    }
}
