//! Air that stack, wind and fans move through a house and its attics.

use heat::air::{Balancer, Fan, Leak, Network, Opening, Outdoors, Zone};
use measure::{Area, Length};

use crate::season::{Airflow, Passing, Through};

/// What sharp-edged vents let through (0.4 to 0.7; common practice).
pub const VENT_DISCHARGE: f64 = 0.6;
/// Wind pressures on vents as shares of its own: low ones to windward and leeward, high ones (from memory: soffits +0.3 to +0.6 and −0.3, ridges −0.4 to
/// −0.6 where the roof is flatter than 9/12).
pub const SHARES: [f64; 3] = [0.45, -0.3, -0.5];

/// An attic, as air sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtticAir {
    /// Ceiling between rooms and attic.
    pub ceiling: Leak,
    /// Net free area of low vents, half of it to windward.
    pub low: Area,
    /// Of high vents.
    pub high: Area,
    /// Height of low and high vents above the ground.
    pub heights: [Length; 2],
    /// Height of its ceiling.
    pub ceiling_at: Length,
    /// Air that fans blow into it out of the rooms, kg/s.
    pub blown: f64,
}

impl AtticAir {
    /// What fans blow into it, where it has a way for that out again.
    pub fn taken_in(&self) -> f64 {
        let is_open = self.ceiling.coefficient > 0.0 || self.low.m2() > 0.0 || self.high.m2() > 0.0;
        if is_open { self.blown } else { 0.0 }
    }
}

/// An open way between two attics.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passage {
    /// The attics, by number.
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
    /// Attics by number.
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
pub struct Last(Option<Balancer>, Vec<Passing>);

/// Openings of the shell: a quarter of its leaks each, low and high, to windward and to leeward.
const SHELL: [(f64, Side); 4] =
    [(0.1, Side::Windward), (0.1, Side::Leeward), (0.8, Side::Windward), (0.8, Side::Leeward)];
/// Openings of an attic: its ceiling, low vents to windward and to leeward, high vents.
const OF_ATTIC: usize = 4;

/// Where wind meets an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Windward,
    Leeward,
    High,
    Within,
}

impl Side {
    /// Pressure of a wind on it, for what the wind's own is.
    const fn wind(self, push: f64) -> f64 {
        match self {
            Self::Windward => SHARES[0] * push,
            Self::Leeward => SHARES[1] * push,
            Self::High => SHARES[2] * push,
            Self::Within => 0.0,
        }
    }
}

impl HouseAir {
    /// Side of each opening, and the area of those that are vents, in the order of the network.
    fn sides(&self) -> impl Iterator<Item = (Side, Option<Area>)> {
        let of_attic = |attic: &AtticAir| {
            [
                (Side::Within, None),
                (Side::Windward, Some(attic.low * 0.5)),
                (Side::Leeward, Some(attic.low * 0.5)),
                (Side::High, Some(attic.high)),
            ]
        };
        let of_passage = |passage: &Passage| [(Side::Within, Some(passage.area * 0.5)); 2];
        let of_attics = self.attics.iter().flat_map(of_attic);
        SHELL
            .into_iter()
            .map(|(_, side)| (side, None))
            .chain(of_attics)
            .chain(self.passages.iter().flat_map(of_passage))
    }

    /// What weather makes of each opening, in the order of the network: the pressure of the wind, and vents by the density of the air.
    fn weathered(&self, outdoors: f64, wind: f64) -> impl Iterator<Item = (f64, Option<Leak>)> {
        let density = heat::air::density(self.pressure, outdoors);
        let push = 0.5 * density * (wind * self.shelter).powi(2);
        self.sides().map(move |(side, vent)| {
            (side.wind(push), vent.map(|area| Leak::opening(area, VENT_DISCHARGE, density)))
        })
    }

    /// The network in still air, all at 0 °C; the rooms are its first zone.
    fn network(&self) -> Network {
        let zone = || Zone { name: String::new(), temperature: 0.0 };
        let opening = |from: Option<usize>, to: usize, height: f64, leak: Leak| Opening {
            from,
            to: Some(to),
            height,
            leak,
            wind: 0.0,
        };
        let shell =
            |(share, _): (f64, Side)| opening(None, 0, self.height.m() * share, self.shell.times(0.25));
        let mut openings: Vec<Opening> = SHELL.into_iter().map(shell).collect();
        for (attic, zone) in self.attics.iter().zip(1..) {
            let vent = |area: Area, height: Length| {
                opening(None, zone, height.m(), Leak::opening(area, VENT_DISCHARGE, 1.0))
            };
            openings.extend([
                opening(Some(0), zone, attic.ceiling_at.m(), attic.ceiling),
                vent(attic.low * 0.5, attic.heights[0]),
                vent(attic.low * 0.5, attic.heights[0]),
                vent(attic.high, attic.heights[1]),
            ]);
        }
        for passage in &self.passages {
            let [from, to] = passage.between.map(|attic| attic + 1);
            let leak = Leak::opening(passage.area * 0.5, VENT_DISCHARGE, 1.0);
            openings.extend(passage.halves().map(|height| opening(Some(from), to, height, leak)));
        }
        let fan = |to: Option<usize>, flow: f64| Fan { from: Some(0), to, flow };
        let into = self.attics.iter().zip(1..).map(|(attic, zone)| fan(Some(zone), attic.taken_in()));
        let fans = std::iter::once(fan(None, self.exhaust)).chain(into);
        Network {
            outdoors: Outdoors { temperature: 0.0, pressure: self.pressure },
            zones: (0..=self.attics.len()).map(|_| zone()).collect(),
            openings,
            fans: fans.filter(|fan| fan.flow > 0.0).collect(),
        }
    }

    /// The network at temperatures and a wind; the rooms are its first zone. Its openings: four of the shell, then of each attic its ceiling, its low vents to
    /// windward and to leeward, and its high ones, then two of each passage.
    pub fn network_at(&self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64]) -> Network {
        let mut network = self.network();
        network.outdoors.temperature = outdoors;
        let temperatures = std::iter::once(rooms).chain(attics.iter().copied());
        network.zones.iter_mut().zip(temperatures).for_each(|(zone, at)| zone.temperature = at);
        for ((push, vent), opening) in self.weathered(outdoors, wind).zip(&mut network.openings) {
            opening.wind = push;
            opening.leak = vent.unwrap_or(opening.leak);
        }
        network
    }

    /// The network as kept, at temperatures and a wind.
    fn set(&self, balancer: &mut Balancer, outdoors: f64, rooms: f64, wind: f64, attics: &[f64]) {
        balancer.set_temperatures(outdoors, std::iter::once(rooms).chain(attics.iter().copied()));
        for ((push, vent), (pushed, coefficient)) in
            self.weathered(outdoors, wind).zip(balancer.openings_mut())
        {
            *pushed = push;
            *coefficient = vent.map_or(*coefficient, |leak| leak.coefficient);
        }
    }
}

impl Airflow for HouseAir {
    fn through(&mut self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64], flows: &mut [Through]) {
        let kept = self.last.0.take().or_else(|| Balancer::of(self.network()).ok());
        // a shell and vents of some size always balance; an attic that is shut has no air through it
        let Some(mut balancer) = kept else {
            flows.fill(Through::default());
            return;
        };
        self.set(&mut balancer, outdoors, rooms, wind, attics);
        if balancer.balance().or_else(|_| balancer.balance()).is_ok() {
            let (all, passed) = balancer.flows()[SHELL.len()..].split_at(OF_ATTIC * self.attics.len());
            self.last.1.clear();
            for (passage, halves) in self.passages.iter().zip(passed.chunks_exact(2)) {
                let [one, other] = passage.between;
                self.last.1.extend([(one, other, 1.0), (other, one, -1.0)].map(|(from, to, way)| Passing {
                    from,
                    to,
                    flow: halves.iter().map(|flow| (way * flow).max(0.0)).sum(),
                }));
            }
            for ((flow, own), attic) in flows.iter_mut().zip(all.chunks_exact(OF_ATTIC)).zip(&self.attics) {
                let vent = own[1..].iter().map(|flow| flow.max(0.0)).sum();
                *flow = Through { leak: own[0].max(0.0) + attic.taken_in(), vent };
            }
        } else {
            flows.fill(Through::default());
            self.last.1.iter_mut().for_each(|passing| passing.flow = 0.0);
        }
        self.last.0 = Some(balancer);
    }

    fn between(&self) -> &[Passing] {
        &self.last.1
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
