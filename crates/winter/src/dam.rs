//! The dam that ice at an eave makes, and the pond behind it.
//!
//! Along the slope from the eave's edge, in a cut square to the eave. `thickness` is square to the roof at the crest; the crest is level, so that water
//! behind it reaches as far up as the crest is high.
//!
//! # Range
//! Ice that fills a wedge level with its crest makes the lowest dam a mass of ice can make; a ridge of ice stands higher. Between lies a factor of 1 to
//! [`MOST_SHAPED`] on the thickness (common practice), to be printed as a range.
//!
//! # Checks
//! closed forms, worked by hand in the tests

use measure::{Length, Pitch};

use crate::snow::ICE_DENSITY;

/// A ridge of ice stands this much higher than a wedge of as much (common practice).
pub const MOST_SHAPED: f64 = 1.6;

/// A dam in the cold zone of an eave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dam {
    /// Of the roof.
    pub pitch: Pitch,
    /// Slope length of the zone that stays cold: overhang, and gutter where it is full of ice.
    pub cold: Length,
}

impl Dam {
    /// Thickness of the crest, for ice in kg on a metre of eave: √(2A·tan θ) while the wedge fills the cold zone, then as much thicker as spreads over it.
    pub fn thickness(&self, ice: f64) -> Length {
        let (slope, cold) = (self.pitch.slope(), self.cold.m());
        let area = ice.max(0.0) / ICE_DENSITY;
        let full = cold * cold * slope / 2.0;
        Length::from_m(if area <= full || cold <= 0.0 {
            (2.0 * area * slope).sqrt()
        } else {
            cold * slope + (area - full) / cold
        })
    }

    /// How far up the slope from the eave's edge water behind a crest reaches; none on a flat roof, where it reaches everywhere.
    pub fn reach(&self, thickness: Length) -> Option<Length> {
        let slope = self.pitch.slope();
        (slope > 0.0).then(|| Length::from_m(thickness.m() / slope))
    }

    /// How far up the slope past the ice that fills the cold zone water stands.
    pub fn pond(&self, thickness: Length) -> Length {
        self.reach(thickness).map_or(Length::ZERO, |reach| (reach - self.cold).max(Length::ZERO))
    }

    /// Water over the roof, upright, at a distance in plan from the foot of the crest.
    pub fn depth(&self, thickness: Length, inward: Length) -> Length {
        let cosine = self.pitch.slope_factor().recip();
        Length::from_m((thickness.m() * cosine - inward.m() * self.pitch.slope()).max(0.0))
    }

    /// Thickness at which water reaches so far up the slope from the eave's edge.
    pub fn thickness_for(&self, reach: Length) -> Length {
        reach * self.pitch.slope()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dam(rise: f64, cold: f64) -> Dam {
        Dam { pitch: Pitch::from_rise_per_12(rise), cold: Length::from_m(cold) }
    }

    fn close(found: Length, wanted: f64) {
        assert!((found.m() / wanted - 1.0).abs() < 1e-4, "{} for {wanted}", found.m());
    }

    /// t·cot θ along the slope (plane geometry): a crest of 0.1 m.
    #[test]
    fn a_level_crest_holds_water_up_the_slope() {
        for (rise, along, plan, high) in [
            (4.0, 0.3, 0.2846, 0.105_41),
            (6.0, 0.2, 0.178_885, 0.111_803),
            (8.0, 0.15, 0.124_81, 0.120_19),
            (12.0, 0.1, 0.070_711, 0.141_42),
        ] {
            let dam = dam(rise, 0.0);
            let crest = Length::from_m(0.1);
            let reach = dam.reach(crest).unwrap();
            close(reach, along);
            close(reach * dam.pitch.slope_factor().recip(), plan);
            close(crest * dam.pitch.slope_factor(), high);
            assert!(dam.depth(crest, reach * dam.pitch.slope_factor().recip()).m() < 1e-12);
        }
    }

    /// Water reaches a membrane that ends 24 in inside the wall line (IRC R905.1.2) at these thicknesses, in: plane geometry.
    #[test]
    fn thickness_at_which_water_passes_the_membrane() {
        for (rise, overhang, along, thick) in
            [(4.0, 16.0, 42.164, 14.055), (6.0, 16.0, 44.721, 22.361), (8.0, 12.0, 43.267, 28.844)]
        {
            let dam = dam(rise, 0.0);
            let membrane = Length::from_in(overhang + 24.0) * dam.pitch.slope_factor();
            assert!((membrane.inches() / along - 1.0).abs() < 1e-4);
            assert!((dam.thickness_for(membrane).inches() / thick - 1.0).abs() < 1e-4);
        }
    }

    /// A zone of 0.45 m at 6/12: full at 0.050625 m² of ice; 0.14142 m thick at 0.02 m², 0.29028 m at 0.08 m².
    #[test]
    fn ice_fills_a_wedge_and_then_the_zone() {
        let dam = dam(6.0, 0.45);
        close(dam.thickness(0.02 * ICE_DENSITY), 0.141_42);
        close(dam.thickness(0.08 * ICE_DENSITY), 0.290_28);
        close(dam.thickness(0.050_625 * ICE_DENSITY), 0.225);
        assert_eq!(dam.pond(dam.thickness(0.02 * ICE_DENSITY)), Length::ZERO);
        assert!(dam.pond(dam.thickness(0.08 * ICE_DENSITY)).m() > 0.0);
    }
}
