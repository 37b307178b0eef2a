//! Insulation that runs out under a sloping deck.

use measure::{Length, Pitch, RValue, UValue};
use thiserror::Error;

/// Insulation over a ceiling, as deep at the wall as the heel leaves room for and deeper inward with the deck, to its full depth.
///
/// Depth at x inward of the outside of the plate: the lesser of full depth and depth at the wall + x·tan of the pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taper {
    /// Depth at the outside of the plate: heel height less the way kept clear for air.
    pub at_wall: Length,
    /// Depth where nothing limits it.
    pub full: Length,
    /// Pitch of the deck over it.
    pub pitch: Pitch,
    /// What a metre of it resists, (m²·K/W)/m: the reciprocal of its conductivity.
    pub per_metre: f64,
    /// Films and ceiling under it.
    pub rest: RValue,
}

/// Why there is no taper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error(
    "insulation with its depths, what it resists and what lies under it is to be more than nothing, and no deeper at the wall than elsewhere"
)]
pub struct TaperError;

impl Taper {
    /// Resistance at a distance inward of the outside of the plate.
    pub fn at(&self, inward: Length) -> RValue {
        let depth = (self.at_wall.m() + inward.m().max(0.0) * self.pitch.slope()).min(self.full.m());
        self.rest + RValue::from_si(depth * self.per_metre)
    }

    /// How far inward it reaches its full depth; none under a flat deck.
    pub fn reach(&self) -> Option<Length> {
        let slope = self.pitch.slope();
        (slope > 0.0).then(|| Length::from_m((self.full.m() - self.at_wall.m()).max(0.0) / slope))
    }

    /// Mean transmittance from the plate to `width` inward: ∫dx/R(x) in closed form.
    ///
    /// # Errors
    /// Sizes of nothing, less than nothing, or deeper at the wall than full.
    pub fn mean(&self, width: Length) -> Result<UValue, TaperError> {
        let sound = self.rest.si() > 0.0 && self.per_metre > 0.0 && self.at_wall.m() >= 0.0;
        if !(sound && self.full >= self.at_wall && width.m() > 0.0 && width.m().is_finite()) {
            return Err(TaperError);
        }
        let reach = self.reach().unwrap_or(width).min(width);
        let [low, high] = [Length::ZERO, reach].map(|inward| self.at(inward).si());
        let grows = self.per_metre * self.pitch.slope();
        let tapered = if grows > 0.0 { (high / low).ln() / grows } else { reach.m() / low };
        let rest = (width - reach).m() / self.at(width).si();
        Ok(UValue::from_si((tapered + rest) / width.m()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taper(at_wall: f64) -> Taper {
        Taper {
            at_wall: Length::from_in(at_wall),
            full: Length::from_in(14.0),
            pitch: Pitch::from_rise_per_12(4.0),
            per_metre: 3.5 * 0.176_110_2 / 0.0254,
            rest: RValue::from_us(1.67),
        }
    }

    /// The closed form against a sum over ten thousand slices.
    #[test]
    fn closed_form_is_the_sum_of_slices() {
        let taper = taper(4.0);
        let width = Length::from_ft(14.0);
        let slices = 10_000;
        let middle = |i: i32| width * ((f64::from(i) + 0.5) / f64::from(slices));
        let sum: f64 = (0..slices).map(|i| taper.at(middle(i)).si().recip()).sum::<f64>() / f64::from(slices);
        assert!((taper.mean(width).unwrap().si() / sum - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_higher_heel_loses_less_and_nothing_is_refused() {
        let width = Length::from_ft(14.0);
        let us: Vec<UValue> =
            [0.0, 2.0, 4.0, 8.0, 14.0].map(|depth| taper(depth).mean(width).unwrap()).to_vec();
        assert!(us.windows(2).all(|pair| pair[1] < pair[0]));
        assert_eq!(taper(15.0).mean(width), Err(TaperError));
        assert_eq!(taper(4.0).mean(Length::ZERO), Err(TaperError));
    }
}
