//! The network of a house: its zones and, in their order, the openings that join them.
//!
//! Zones: the rooms, then of each attic one, of bays three (lower half to windward, lower half to leeward, upper half). Openings: four of the shell, then of each
//! attic its ceiling, its low vents to windward and to leeward and its high ones; of bays the ceilings of the three, the low vents of two, the high ones and the ways up from
//! the two to the third. Passages last.

use heat::air::{Fan, Leak, Network, Opening, Outdoors, Zone};
use measure::{Area, Length};

use super::bays::Up;
use super::{AtticAir, HouseAir, Passage, SHARES, VENT_DISCHARGE};
use crate::season::Passing;

/// Openings of the shell: a quarter of its leaks each, low and high, to windward and to leeward.
const SHELL: [(f64, Side); 4] =
    [(0.1, Side::Windward), (0.1, Side::Leeward), (0.8, Side::Windward), (0.8, Side::Leeward)];

/// Where wind meets an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Windward,
    Leeward,
    High,
    Within,
}

impl Side {
    /// Pressure of a wind on it, for what the wind's own is.
    pub(super) const fn wind(self, push: f64) -> f64 {
        match self {
            Self::Windward => SHARES[0] * push,
            Self::Leeward => SHARES[1] * push,
            Self::High => SHARES[2] * push,
            Self::Within => 0.0,
        }
    }
}

/// An opening of the network.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Joint {
    ends: [Option<usize>; 2],
    height: f64,
    pub(super) side: Side,
    lets: Lets,
}

/// What one lets through.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Lets {
    As(Leak),
    /// By the density of the air.
    Vent(Area),
}

impl Joint {
    /// Between zones.
    const fn within(ends: [usize; 2], height: f64, lets: Lets) -> Self {
        Self { ends: [Some(ends[0]), Some(ends[1])], height, side: Side::Within, lets }
    }

    /// From outdoors.
    const fn outer(to: usize, height: f64, side: Side, lets: Lets) -> Self {
        Self { ends: [None, Some(to)], height, side, lets }
    }

    /// What it lets through in air of a density.
    pub(super) fn let_through(&self, density: f64) -> Leak {
        match self.lets {
            Lets::As(leak) => leak,
            Lets::Vent(area) => Leak::opening(area, VENT_DISCHARGE, density),
        }
    }

    /// Air through it into a zone.
    fn into(&self, zone: usize, flow: f64) -> f64 {
        let is_its = |end: Option<usize>| end == Some(zone);
        if is_its(self.ends[1]) {
            flow
        } else if is_its(self.ends[0]) {
            -flow
        } else {
            0.0
        }
    }
}

/// Where an attic begins among the zones of the network and the attics of the season.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct First {
    pub(super) zone: usize,
    pub(super) part: usize,
}

/// An end of a passage: the zones it opens to, each to as much of it, and the attic of the season.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct End {
    zones: Vec<usize>,
    part: usize,
}

/// The next so many of what the network found.
fn next<const N: usize>(flows: &mut &[f64]) -> [f64; N] {
    let Some((own, rest)) = flows.split_first_chunk() else { return [0.0; N] };
    *flows = rest;
    *own
}

/// Of an attic: up through its ceiling, in through low vents to windward and to leeward, through high ones.
pub(super) fn of_attic(flows: &mut &[f64]) -> [f64; 4] {
    next(flows)
}

/// Of bays.
pub(super) fn of_bays(flows: &mut &[f64]) -> Up {
    let [a, b, c, windward, leeward, high, _, _] = next(flows);
    Up { ceilings: [a, b, c], low: [windward, leeward], high }
}

/// All but those of the shell.
pub(super) fn past_shell(flows: &[f64]) -> &[f64] {
    &flows[SHELL.len()..]
}

/// Openings of a passage: two for each pair of zones that it joins.
fn of_passage(passage: &Passage, [from, to]: &[End; 2]) -> Vec<Joint> {
    let area = passage.area * (0.5 / (from.zones.len() * to.zones.len()) as f64);
    let pairs = from.zones.iter().flat_map(|from| to.zones.iter().map(move |to| [*from, *to]));
    let at = |ends| passage.halves().map(|height| Joint::within(ends, height, Lets::Vent(area)));
    pairs.flat_map(at).collect()
}

impl HouseAir {
    /// Where each attic begins.
    pub(super) fn firsts(&self) -> Vec<First> {
        let mut next = First { zone: 1, part: 0 };
        let first = |attic: &AtticAir| {
            let first = next;
            next.zone += if attic.bays.is_some() { 3 } else { 1 };
            next.part += attic.parts();
            first
        };
        self.attics.iter().map(first).collect()
    }

    /// Openings in their order.
    pub(super) fn joints(&self) -> Vec<Joint> {
        let shell = |(share, side): (f64, Side)| {
            Joint::outer(0, self.height.m() * share, side, Lets::As(self.shell.times(0.25)))
        };
        let of_attics =
            self.attics.iter().zip(self.firsts()).flat_map(|(attic, first)| attic.joints(first.zone));
        let of_passages =
            self.passages.iter().zip(self.ends()).flat_map(|(passage, ends)| of_passage(passage, &ends));
        SHELL.into_iter().map(shell).chain(of_attics).chain(of_passages).collect()
    }

    /// Both ends of each passage.
    pub(super) fn ends(&self) -> Vec<[End; 2]> {
        let firsts = self.firsts();
        let of = |passage: &Passage| passage.between.map(|attic| self.end(passage, attic, &firsts));
        self.passages.iter().map(of).collect()
    }

    fn end(&self, passage: &Passage, attic: usize, firsts: &[First]) -> End {
        let (First { zone, part }, of) = (firsts[attic], &self.attics[attic]);
        let middle = passage.foot + passage.tall * 0.5;
        if of.bays.is_none() {
            End { zones: vec![zone], part }
        } else if middle > of.at(0.5) {
            End { zones: vec![zone + 2], part: part + of.parts() - 1 }
        } else {
            End { zones: vec![zone, zone + 1], part }
        }
    }

    /// The network in still air, all at 0 °C.
    pub(super) fn network(&self, joints: &[Joint]) -> Network {
        let opening = |joint: &Joint| Opening {
            from: joint.ends[0],
            to: joint.ends[1],
            height: joint.height,
            leak: joint.let_through(1.0),
            wind: 0.0,
        };
        let fan = |to: Option<usize>, flow: f64| Fan { from: Some(0), to, flow };
        let into = self.attics.iter().zip(self.firsts()).flat_map(|(attic, first)| {
            let zones = attic.zones(first.zone).into_iter();
            zones.map(move |(zone, share)| fan(Some(zone), attic.taken_in() * share))
        });
        let fans = std::iter::once(fan(None, self.exhaust)).chain(into);
        let zones = 1 + self.attics.iter().map(|attic| attic.zones(0).len()).sum::<usize>();
        Network {
            outdoors: Outdoors { temperature: 0.0, pressure: self.pressure },
            zones: (0..zones).map(|_| Zone { name: String::new(), temperature: 0.0 }).collect(),
            openings: joints.iter().map(opening).collect(),
            fans: fans.filter(|fan| fan.flow > 0.0).collect(),
        }
    }

    /// How many openings come before those of passages.
    fn before_passages(&self) -> usize {
        SHELL.len() + self.attics.iter().map(AtticAir::openings).sum::<usize>()
    }

    /// What comes into the foot of bays through passages, on each side.
    pub(super) fn at_foot(&self, found: &[f64], joints: &[Joint], zone: usize) -> [f64; 2] {
        let first = self.before_passages();
        let passages = || joints[first..].iter().zip(&found[first..]);
        [zone, zone + 1].map(|zone| passages().map(|(joint, flow)| joint.into(zone, *flow)).sum())
    }

    /// What goes through passages, by the attics of the season.
    pub(super) fn pass(&self, found: &[f64], ends: &[[End; 2]], passing: &mut Vec<Passing>) {
        let mut left = &found[self.before_passages()..];
        for [one, other] in ends {
            let (own, rest) = left.split_at(2 * one.zones.len() * other.zones.len());
            left = rest;
            let ways = [(one.part, other.part, 1.0), (other.part, one.part, -1.0)];
            passing.extend(ways.map(|(from, to, way)| Passing {
                from,
                to,
                flow: own.iter().map(|flow| (way * flow).max(0.0)).sum(),
            }));
        }
    }
}

impl AtticAir {
    /// A height between its low vents and its high ones.
    fn at(&self, share: f64) -> Length {
        self.heights[0] + (self.heights[1] - self.heights[0]) * share
    }

    /// How many openings it has but for passages.
    fn openings(&self) -> usize {
        if self.bays.is_some() { 8 } else { 4 }
    }

    /// Its zones with the share of its ceiling each is over.
    fn zones(&self, first: usize) -> Vec<(usize, f64)> {
        match &self.bays {
            None => vec![(first, 1.0)],
            Some(bays) => {
                let low = bays.low_share();
                vec![(first, 0.5 * low), (first + 1, 0.5 * low), (first + 2, 1.0 - low)]
            }
        }
    }

    /// Its openings but for passages, in their order.
    fn joints(&self, first: usize) -> Vec<Joint> {
        let [low, high] = self.heights.map(Length::m);
        let ceiling = |(zone, share): (usize, f64), height: f64| {
            Joint::within([0, zone], height, Lets::As(self.ceiling.times(share)))
        };
        let eaves = |zone, side| Joint::outer(zone, low, side, Lets::Vent(self.low * 0.5));
        let ridge = |zone| Joint::outer(zone, high, Side::High, Lets::Vent(self.high));
        let Some(bays) = &self.bays else {
            return vec![
                ceiling((first, 1.0), self.ceiling_at.m()),
                eaves(first, Side::Windward),
                eaves(first, Side::Leeward),
                ridge(first),
            ];
        };
        let ceilings = self.zones(first).into_iter().zip([0.25, 0.25, 0.75]);
        let top = first + 2;
        let up = |from| Joint::within([from, top], self.at(0.5).m(), Lets::As(bays.way.times(0.5)));
        ceilings
            .map(|(zone, share)| ceiling(zone, self.at(share).m()))
            .chain([
                eaves(first, Side::Windward),
                eaves(first + 1, Side::Leeward),
                ridge(top),
                up(first),
                up(first + 1),
            ])
            .collect()
    }
}
