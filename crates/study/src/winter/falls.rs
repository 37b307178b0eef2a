//! What leaves the slopes of a house for a lower roof or the ground: water that no gutter takes, snow that slides, snow that the wind takes.

use ::winter::shape::{Place, Shaped};
use ::winter::slide::{Drift, DriftLaw, Moves, Open, Way};
use book::{Book, LookupError};
use job::{Job, OldRoof, State};
use roof::{EdgeId, Roof};

use super::Fixes;
use super::unknown::Draw;
use crate::Study;

/// How snow lies on a house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnRoof {
    /// Slope from which it slides off with a wet foot, degrees, by the roofing that is found and by the new one.
    pub slides_from: [f64; 2],
    /// Wind that moves it.
    pub drift: DriftLaw,
}

impl OnRoof {
    /// By what the roof of a job is covered with; shingles where nobody wrote what lies there.
    pub(crate) fn of(job: &Job, book: &Book) -> Result<Self, LookupError> {
        let thermal = book.thermal();
        let from = |id: &str| thermal.roof_surface(id).map(|surface| surface.slides_from_deg.middle());
        let wind = thermal.wind_on_snow("dry-snow")?;
        let drift = DriftLaw {
            threshold: wind.threshold,
            rate: wind.rate,
            power: wind.power,
            growth: wind.folds / wind.fetch_m,
            densest: wind.densest_kg_m3,
            trapped: wind.trapped,
        };
        Ok(Self { slides_from: [from(surface(job.covering.old))?, from(surface(None))?], drift })
    }
}

/// The row of the books a roofing has.
const fn surface(old: Option<OldRoof>) -> &'static str {
    match old {
        None | Some(OldRoof::Asphalt) => "asphalt",
        Some(OldRoof::WoodShingle) => "wood-shingle",
        Some(OldRoof::WoodShake) => "wood-shake",
        Some(OldRoof::Slate) => "slate",
        Some(OldRoof::Tile) => "tile",
        Some(OldRoof::AsbestosCement) => "asbestos-cement",
        Some(OldRoof::Metal) => "metal",
    }
}

/// Edges and planes, as what falls from them asks.
#[derive(Clone, Debug)]
pub(super) struct Falls {
    /// Edges whose water gutters take, as found and when the job is done.
    caught: [Vec<EdgeId>; 2],
    /// By plane, in the wind.
    open: Vec<Open>,
    snow: OnRoof,
}

impl Falls {
    /// Of a roof cut into strips, with so many bands over the attic in a plane.
    pub(super) fn of(study: &Study, shaped: &[Shaped], bands: usize) -> Self {
        Self {
            caught: [State::Plan, State::Remove].map(|gone| gutters(study, gone)),
            open: open(&study.roof, shaped, bands),
            snow: study.snow,
        }
    }

    /// Whether the work that is planned changes anything of it.
    pub(super) fn change(&self) -> bool {
        let [found, planned] = self.snow.slides_from;
        self.caught[0] != self.caught[1] || found.to_bits() != planned.to_bits()
    }

    /// What of a strip's water drips onto lower roofs: what no gutter takes.
    pub(super) fn dripped<'a>(
        &'a self,
        shaped: &'a Shaped,
        fixes: Fixes,
    ) -> impl Iterator<Item = (usize, f64)> + use<'a> {
        let caught = &self.caught[usize::from(fixes.rest)];
        let falls = shaped.drops.iter().filter(|drop| !caught.contains(&drop.edge));
        falls.map(|drop| (drop.to, drop.share))
    }

    /// Snow that slides and drifts: gutters hold none of it.
    pub(super) fn moves(&self, roof: &Roof, shaped: &[Shaped], fixes: Fixes, draw: &Draw) -> Moves {
        let from = self.snow.slides_from[usize::from(fixes.rest)];
        let sheds = |shaped: &Shaped| {
            // snow of two slopes wedges in a valley
            !matches!(shaped.place, Place::Valley { .. }) && roof.plane(shaped.plane).pitch.degrees() >= from
        };
        let way = |shaped: &Shaped| Way {
            sheds: sheds(shaped),
            on: shaped.to.clone(),
            off: shaped.drops.iter().map(|drop| (drop.to, drop.share)).collect(),
        };
        let is_any = shaped.iter().any(sheds);
        Moves {
            ways: if is_any { shaped.iter().map(way).collect() } else { Vec::new() },
            drift: Some(Drift { law: self.snow.drift, shelter: draw.shelter, planes: self.open.clone() }),
        }
    }
}

/// Eaves with a gutter where those of a state are not.
fn gutters(study: &Study, gone: State) -> Vec<EdgeId> {
    let hung = study.job.gutters.iter().filter(|gutter| gutter.state != gone);
    hung.filter_map(|gutter| water::eave_of(&study.roof, gutter).ok()).collect()
}

/// Planes in the wind: it takes snow off all of a slope but its valleys, and what comes over a ridge lies on the upper half of what it covers of the attic.
fn open(roof: &Roof, shaped: &[Shaped], bands: usize) -> Vec<Open> {
    let of = |(number, plane): (usize, &roof::Plane)| {
        let own = || shaped.iter().enumerate().filter(move |(_, strip)| strip.plane.0 == number);
        let is_open = |strip: &Shaped| !matches!(strip.place, Place::Valley { .. });
        let is_high =
            |strip: &Shaped| matches!(strip.place, Place::Over { band, .. } if 2 * band + 1 >= bands);
        let slopes = plane.pitch.slope() > 0.0;
        let scoured: Vec<usize> =
            own().filter(|(_, strip)| slopes && is_open(strip)).map(|(i, _)| i).collect();
        let high: Vec<usize> = own().filter(|(_, strip)| is_high(strip)).map(|(i, _)| i).collect();
        let is_of = |other: &roof::Plane| other.blocks.iter().any(|block| plane.blocks.contains(block));
        let beyond = roof.planes.iter().enumerate().filter(|(i, other)| *i != number && is_of(other));
        Open {
            azimuth: plane.azimuth_degrees,
            settles: if high.is_empty() { scoured.clone() } else { high },
            scoured,
            beyond: beyond.map(|(i, _)| i).collect(),
        }
    };
    roof.planes.iter().enumerate().map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::winter::model::Model;

    const SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");

    fn study(text: &str) -> Study {
        let book = Book::builtin();
        let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
        Study::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"))
    }

    /// The upper east eave has no gutter as found: of the 26 ft before its wall 12 drip on each lower slope. When the job is done one hangs there, and none does.
    #[test]
    fn a_gutter_keeps_an_eave_from_dripping_on_the_roof_below() {
        let study = study(SPLIT_LEVEL);
        let model = Model::of(&study).unwrap_or_else(|problems| panic!("{problems:#?}"));
        let upper = |shaped: &Shaped| study.roof.plane(shaped.plane).name == "upper E";
        let drips = |fixes: Fixes| -> Vec<(usize, f64)> {
            let of = model.shaped.iter().filter(|shaped| upper(shaped));
            of.flat_map(|shaped| model.falls.dripped(shaped, fixes)).collect()
        };
        let found = drips(Fixes::default());
        for name in ["main N", "main S"] {
            let on = found.iter().filter(|(to, _)| study.roof.plane(model.shaped[*to].plane).name == name);
            let share: f64 = on.map(|(_, share)| share).sum();
            assert!((share - 12.0 / 26.0).abs() < 0.015, "{name}: {share}");
        }
        assert!(drips(Fixes::ALL).is_empty());
        let house = model.house(Fixes::default(), &model.as_written());
        for (i, strip) in house.strips.iter().enumerate() {
            let all: f64 = strip.to.iter().map(|(_, share)| share).sum();
            assert!(all <= 1.0 + 1e-9 && strip.to.iter().all(|(to, _)| *to > i), "{strip:?}");
        }
    }

    /// Old metal at 4/12 (18.4°) lets go of its snow, the new shingles hold theirs; old shingles held theirs too. Nothing slides out of a valley.
    #[test]
    fn old_metal_sheds_and_new_shingles_hold() {
        let metal = SPLIT_LEVEL.replace("[covering]", "[covering]\nold = \"metal\"");
        for (text, sheds) in [(SPLIT_LEVEL, false), (metal.as_str(), true)] {
            let study = study(text);
            let model = Model::of(&study).unwrap_or_else(|problems| panic!("{problems:#?}"));
            let ways = |fixes: Fixes| model.house(fixes, &model.as_written()).moves.ways;
            assert!(ways(Fixes::ALL).is_empty());
            let found = ways(Fixes::default());
            assert_eq!(!found.is_empty(), sheds);
            for (way, shaped) in found.iter().zip(&model.shaped) {
                assert_eq!(way.sheds, !matches!(shaped.place, Place::Valley { .. }), "{shaped:?}");
            }
        }
    }
}
