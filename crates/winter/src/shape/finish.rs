//! Strips along valleys, and all strips with their areas in the order in which water runs.

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::{EdgeId, EdgeKind, PlaneId};

use super::lane::{Cut, OFF, Part};
use super::{Drop, Place, Shaped};
use crate::season::Below;

/// Width of the strip along a valley: its metal (24 in, IRC R905.2.8.2).
const VALLEY: f64 = 0.6096;

impl<F: Fn(PlaneId, [f64; 2]) -> Option<usize>, B: Fn([f64; 2], f64) -> Option<PlaneId>> Cut<'_, F, B> {
    /// Strips along valleys, taken from the planes beside them.
    pub(super) fn valleys(&mut self) {
        for edge in (0..self.roof.edges.len()).map(EdgeId) {
            let of = self.roof.edge(edge);
            if !matches!(of.kind, EdgeKind::Valley | EdgeKind::LevelValley) {
                continue;
            }
            let [low, high] = self.roof.ends(edge);
            let parts = 200;
            let mut places: Vec<Place> = Vec::new();
            for i in 0..parts {
                // from the high end down
                let share = 1.0 - (f64::from(i) + 0.5) / f64::from(parts);
                let at = [0, 1].map(|axis| low[axis] + (high[axis] - low[axis]) * share);
                let place = Place::Valley { edge: edge.0, attic: (self.attic_at)(of.planes[0], at) };
                self.parts.entry(place).or_default().area += of.length.m() / f64::from(parts) * VALLEY;
                if places.last() != Some(&place) {
                    places.push(place);
                }
            }
            for pair in places.windows(2) {
                *self.onward(pair[0], Some(pair[1])) += 1.0;
            }
            if let Some(last) = places.last().copied() {
                *self.onward(last, None) += 1.0;
                let run = low[0] - high[0];
                let (run, length) = ([run, low[1] - high[1]], run.hypot(low[1] - high[1]).max(OFF));
                let past = [0, 1].map(|axis| low[axis] + run[axis] / length * OFF);
                if let Some(landing) = self.landing(past, low[2]) {
                    let drops = &mut self.parts.entry(last).or_default().drops;
                    *drops.entry((edge.0, landing)).or_default() += 1.0;
                }
            }
        }
    }

    /// The plane a strip has its sun and slope from.
    fn plane_of(&self, place: Place) -> PlaneId {
        match place {
            Place::Over { plane, .. } | Place::Overhang { plane } | Place::Outside { plane } => {
                PlaneId(plane)
            }
            Place::Valley { edge, .. } => self.roof.edges[edge].planes[0],
        }
    }

    /// Strips in an order in which water runs to later ones, areas of each plane those of the roof.
    pub(super) fn finished(mut self) -> Vec<Shaped> {
        self.scale();
        let order = self.order();
        let index: BTreeMap<Place, usize> = order.iter().enumerate().map(|(i, place)| (*place, i)).collect();
        order
            .iter()
            .enumerate()
            .map(|(i, place)| {
                let part = &self.parts[place];
                let whole: f64 = part.onward.values().sum();
                // water that would run back up leaves: no roof does that
                let is_later = |to: &usize| *to > i;
                let later = |to: &Place| index.get(to).copied().filter(is_later);
                let onward =
                    part.onward.iter().filter_map(|(to, width)| Some((later(&(*to)?)?, width / whole)));
                let drops = part.drops.iter().filter_map(|((edge, to), width)| {
                    Some(Drop { edge: EdgeId(*edge), to: later(to)?, share: width / whole })
                });
                let below = match place {
                    Place::Over { attic, .. } | Place::Valley { attic: Some(attic), .. } => {
                        Below::Attic(*attic)
                    }
                    _ => Below::Outdoors,
                };
                Shaped {
                    place: *place,
                    plane: self.plane_of(*place),
                    below,
                    area: Area::from_m2(part.area),
                    eave: Length::from_m(part.eave),
                    to: onward.filter(|(_, share)| *share > 0.0).collect(),
                    drops: drops.collect(),
                }
            })
            .collect()
    }

    /// Makes the strips of a plane as large as the plane, less its half of the valleys beside it.
    fn scale(&mut self) {
        for (plane, of) in self.roof.planes.iter().enumerate() {
            let is_of = |place: &Place| {
                !matches!(place, Place::Valley { .. }) && self.plane_of(*place) == PlaneId(plane)
            };
            let own: f64 =
                self.parts.iter().filter(|(place, _)| is_of(place)).map(|(_, part)| part.area).sum();
            let valleys: f64 = self
                .parts
                .iter()
                .filter(|(place, _)| matches!(place, Place::Valley { edge, .. } if self.roof.edges[*edge].planes.contains(&PlaneId(plane))))
                .map(|(_, part)| part.area / 2.0)
                .sum();
            let ratio = (of.slope_area.m2() - valleys).max(0.0) / own;
            let places: Vec<Place> = self.parts.keys().copied().filter(is_of).collect();
            for place in places {
                self.parts.entry(place).or_default().area *= ratio;
            }
        }
        self.parts.retain(|_, part| part.area > 0.0);
    }

    /// Each place after all from which water comes to it.
    fn order(&self) -> Vec<Place> {
        let mut order: Vec<Place> = Vec::new();
        let mut left: Vec<Place> = self.parts.keys().copied().collect();
        while !left.is_empty() {
            let is_fed = |place: &Place| {
                left.iter().filter(|from| *from != place).any(|from| {
                    let Part { onward, drops, .. } = &self.parts[from];
                    onward.contains_key(&Some(*place)) || drops.keys().any(|(_, to)| to == place)
                })
            };
            // were there a ring, it is opened where it stands first
            let next = left.iter().position(|place| !is_fed(place)).unwrap_or(0);
            order.push(left.remove(next));
        }
        order
    }
}
