//! Attics of the season: each attic of a job is one, and the bays of a sloped ceiling are one for each band from the eaves to the ridge.

use ::winter::season::Below;
use ::winter::shape::{Place, Shaped};

/// How the spaces of a job are cut.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Parts {
    /// Of each space, the share of its ceiling that each of its parts is over.
    shares: Vec<Vec<f64>>,
    /// What lies under each strip.
    below: Vec<Below>,
}

impl Parts {
    /// Of strips over spaces of which some are bays, cut into so many bands.
    pub(super) fn of(shaped: &[Shaped], is_bays: &[bool], bands: usize) -> Self {
        let count = |space: usize| if is_bays[space] { bands } else { 1 };
        let within = |shaped: &Shaped| {
            let Below::Attic(space) = shaped.below else { return None };
            let band = match shaped.place {
                Place::Over { band, .. } => band,
                // a valley runs past all of them
                _ => bands / 2,
            };
            Some((space, band.min(count(space) - 1)))
        };
        let shares = (0..is_bays.len()).map(|space| {
            let mut areas = vec![0.0; count(space)];
            for strip in shaped {
                if let Some((_, part)) = within(strip).filter(|(own, _)| *own == space) {
                    areas[part] += strip.area.m2();
                }
            }
            let all: f64 = areas.iter().sum();
            let even = 1.0 / areas.len() as f64;
            areas.iter().map(|area| if all > 0.0 { area / all } else { even }).collect()
        });
        let shares: Vec<Vec<f64>> = shares.collect();
        let first = |space: usize| shares[..space].iter().map(Vec::len).sum::<usize>();
        let below = |shaped: &Shaped| {
            within(shaped).map_or(Below::Outdoors, |(space, part)| Below::Attic(first(space) + part))
        };
        Self { below: shaped.iter().map(below).collect(), shares }
    }

    /// What lies under a strip.
    pub(super) fn below(&self, strip: usize) -> Below {
        self.below[strip]
    }

    /// Strips over an attic of the season.
    pub(super) fn over(&self, part: usize) -> Vec<usize> {
        (0..self.below.len()).filter(|strip| self.below[*strip] == Below::Attic(part)).collect()
    }

    /// Shares of the ceiling of a space.
    pub(super) fn shares(&self, space: usize) -> &[f64] {
        &self.shares[space]
    }

    /// Attics of the season in their order, each with its space and its share of that.
    pub(super) fn all(&self) -> impl Iterator<Item = (usize, f64)> {
        let spaces = self.shares.iter().enumerate();
        spaces.flat_map(|(space, shares)| shares.iter().map(move |share| (space, *share)))
    }

    /// Means by space of what is known by attics of the season.
    pub(super) fn means(&self, mut by_part: &[f64]) -> Vec<f64> {
        let mean = |shares: &Vec<f64>| {
            let (own, rest) = by_part.split_at(shares.len());
            by_part = rest;
            own.iter().zip(shares).map(|(value, share)| value * share).sum()
        };
        self.shares.iter().map(mean).collect()
    }
}

#[cfg(test)]
mod tests {
    use book::Book;
    use job::Job;
    use measure::{Area, Length};
    use roof::PlaneId;

    use super::*;
    use crate::Study;
    use crate::winter::model::Model;
    use crate::winter::{DESIGN, Fixes, Held, steady};

    const HOUSE: &str = include_str!("../../../../examples/cross-gable.toml");

    fn strip(place: Place, below: Below, m2: f64) -> Shaped {
        Shaped {
            place,
            plane: PlaneId(0),
            below,
            area: Area::from_m2(m2),
            eave: Length::ZERO,
            to: Vec::new(),
            drops: Vec::new(),
        }
    }

    #[test]
    fn bays_are_cut_by_bands_and_attics_are_not() {
        let over = |attic: usize, band: usize, m2: f64| {
            strip(Place::Over { plane: 0, attic, band }, Below::Attic(attic), m2)
        };
        let valley = strip(Place::Valley { edge: 0, attic: Some(1) }, Below::Attic(1), 2.0);
        let overhang = strip(Place::Overhang { plane: 0 }, Below::Outdoors, 5.0);
        let shaped = [
            over(0, 0, 7.0),
            over(0, 1, 3.0),
            over(1, 0, 4.0),
            over(1, 1, 1.0),
            over(1, 2, 1.0),
            valley,
            overhang,
        ];
        let parts = Parts::of(&shaped, &[false, true, true], 3);
        assert_eq!(parts.shares(0), [1.0]);
        assert_eq!(parts.shares(1), [0.5, 0.375, 0.125]);
        assert_eq!(parts.over(2), [3, 5], "a valley lies over the middle of the bays");
        assert_eq!(parts.below(6), Below::Outdoors);
        let third = 1.0 / 3.0;
        assert_eq!(parts.all().nth(4), Some((2, third)), "bays under no strip are cut evenly");
        let means = parts.means(&[1.0, 8.0, 16.0, 24.0, 3.0, 3.0, 3.0]);
        assert_eq!(means[..2], [1.0, 13.0]);
        assert!((means[2] - 3.0).abs() < 1e-12);
    }

    /// The cross-gable with a sloped ceiling over the west 16 ft of its main block, between rafters of 7 1/4 in.
    fn held(insulation: &str, fixes: Fixes) -> Held {
        let bays = format!(
            "[attic.hall]\nunder = [\"main\"]\nkind = \"cathedral\"\npart = {{ at = [\"0'\", \"0'\"], size = [\"16'\", \"26'\"] }}\nvapor_retarder = \"class 2\"\n\
             [attic.hall.found]\n{insulation}\nleakage = \"60 cfm50\"\nsoffit_open = {{ per_length = \"4 in2/ft\" }}\nridge_vent = {{ per_length = \"8 in2/ft\" }}\n\
             [attic.hall.plan]\neffective = \"R-21\"\ninsulation = \"glass-fibre batt\"\n\n[house]"
        );
        let text = HOUSE.replacen("[house]", &bays, 1);
        let book = Book::builtin();
        let (job, _) = Job::read(&text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
        let study = Study::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
        let model = Model::of(&study).unwrap_or_else(|problems| panic!("{problems:#?}"));
        steady(&model, "", fixes, DESIGN)
    }

    /// Air of open bays warms from the eaves to the ridge; that of bays which insulation fills is warm all along, and no air from outdoors goes through them.
    #[test]
    fn air_warms_up_the_bays_of_a_house() {
        let thin = "insulation = \"3.5 in glass-fibre batt\"\neffective = \"R-11\"";
        let open = held(thin, Fixes::NONE);
        let [attic, bays @ ..] = &open.parts[..] else { panic!("an attic") };
        assert_eq!((bays.len(), open.attics.len()), (super::super::model::BANDS, 2));
        assert!(bays.windows(2).all(|pair| pair[1] > pair[0]), "{bays:?}");
        assert!(bays[0] > DESIGN && bays[0] < *attic && bays[4] - bays[0] > 1.0, "{bays:?} beside {attic}");
        let stuffed = held("insulation = \"glass-fibre batt\"\neffective = \"R-26\"", Fixes::NONE);
        assert!(stuffed.row.vent < open.row.vent, "{} {}", stuffed.row.vent, open.row.vent);
        let gap = |bays: &[f64]| bays[4] - bays[0];
        assert!(gap(&stuffed.parts[1..]) < 0.5 * gap(bays), "{:?} {bays:?}", stuffed.parts);
        let insulated = held(thin, Fixes { insulate: true, ..Fixes::NONE });
        assert!(insulated.attics[1][0] < open.attics[1][0], "{:?}", insulated.attics);
    }
}
