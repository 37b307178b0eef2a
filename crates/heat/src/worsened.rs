//! Insulation that is not as its label says.

use measure::{RValue, TemperatureDifference, UValue};

/// Transmittance of a field of insulation with a share of it bare: side by side, as they lie.
///
/// `share` is 0 to 1 of the area.
pub fn with_voids(field: UValue, bare: UValue, share: f64) -> UValue {
    UValue::from_si(field.si() * (1.0 - share) + bare.si() * share)
}

/// Resistance of loose glass fiber of low density in which the cold lets air turn over: whole up to 32 °F between its faces, 0.6 of it at 73 °F,
/// straight between, no less beyond.
///
/// Ends: Wilkes and Childs, large-scale tests of attic insulation (one product, 35 to 50 % at 70 to 76 °F, onset near 32 °F); the straight line
/// between them is common practice. Batts and cellulose showed none of it, nor a field with a cover: do not use it for those.
pub fn convecting(still: RValue, between_faces: TemperatureDifference) -> RValue {
    const ONSET: TemperatureDifference = TemperatureDifference::from_f(32.0);
    const FULL: TemperatureDifference = TemperatureDifference::from_f(73.0);
    const KEPT: f64 = 0.6;
    let share = ((between_faces.k() - ONSET.k()) / (FULL.k() - ONSET.k())).clamp(0.0, 1.0);
    still * (1.0 - (1.0 - KEPT) * share)
}
