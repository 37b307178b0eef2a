//! Air that stack, wind and fans move through a house and its attics.

use heat::air::{Leak, Network, Opening, Outdoors, Zone};
use measure::{Area, Length};

use crate::season::{Airflow, Through};

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
    /// Pressure of the station, Pa.
    pub pressure: f64,
    /// Air that fans take out of the rooms, kg/s.
    pub exhaust: f64,
    /// Share of the wind at the weather station that reaches the house (0.4 to 0.8 in a suburb; from memory).
    pub shelter: f64,
    /// Pressures found last, from which the next are sought; none at first.
    pub last: Vec<f64>,
}

impl HouseAir {
    /// The network at temperatures and a wind; the rooms are its first zone.
    fn network(&self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64]) -> Network {
        let density = heat::air::density(self.pressure, outdoors);
        let push = 0.5 * density * (wind * self.shelter).powi(2);
        let [windward, leeward, high] = SHARES.map(|share| share * push);
        let mut zones = vec![Zone { name: String::new(), temperature: rooms }];
        // a quarter of its leaks each: low and high, to windward and to leeward
        let shell = |share: f64, height: f64, wind: f64| Opening {
            from: None,
            to: Some(0),
            height: self.height.m() * height,
            leak: self.shell.times(share),
            wind,
        };
        let mut openings = vec![
            shell(0.25, 0.1, windward),
            shell(0.25, 0.1, leeward),
            shell(0.25, 0.8, windward),
            shell(0.25, 0.8, leeward),
        ];
        for (i, (attic, temperature)) in self.attics.iter().zip(attics).enumerate() {
            zones.push(Zone { name: String::new(), temperature: *temperature });
            let zone = Some(i + 1);
            let vent = |area: Area, height: Length, wind: f64| Opening {
                from: None,
                to: zone,
                height: height.m(),
                leak: Leak::opening(area, VENT_DISCHARGE, density),
                wind,
            };
            openings.extend([
                Opening {
                    from: Some(0),
                    to: zone,
                    height: attic.ceiling_at.m(),
                    leak: attic.ceiling,
                    wind: 0.0,
                },
                vent(attic.low * 0.5, attic.heights[0], windward),
                vent(attic.low * 0.5, attic.heights[0], leeward),
                vent(attic.high, attic.heights[1], high),
            ]);
        }
        let fans = if self.exhaust > 0.0 {
            vec![heat::air::Fan { from: Some(0), to: None, flow: self.exhaust }]
        } else {
            Vec::new()
        };
        Network {
            outdoors: Outdoors { temperature: outdoors, pressure: self.pressure },
            zones,
            openings,
            fans,
        }
    }
}

impl Airflow for HouseAir {
    fn through(&mut self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64], flows: &mut [Through]) {
        let network = self.network(outdoors, rooms, wind, attics);
        // a shell and vents of some size always balance; an attic that is shut has no air through it
        let Ok(solved) = network.solved_from(&self.last).or_else(|_| network.solved()) else {
            flows.fill(Through::default());
            return;
        };
        self.last.clone_from(&solved.pressures);
        for (i, flow) in flows.iter_mut().enumerate() {
            let own = network
                .openings
                .iter()
                .zip(&solved.openings)
                .filter(|(opening, _)| opening.to == Some(i + 1));
            let into = |from: Option<usize>| -> f64 {
                own.clone().filter(|(opening, _)| opening.from == from).map(|(_, flow)| flow.max(0.0)).sum()
            };
            *flow = Through { leak: into(Some(0)), vent: into(None) };
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
            }],
            pressure: 101_325.0,
            exhaust: 0.0,
            shelter: 0.6,
            last: Vec::new(),
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
}
