//! Thermal resistance and its reciprocal, transmittance.

use crate::quantity::quantity;
use crate::unit::{R_US, SI, U_US};

quantity! {
    /// Thermal resistance of a layer or of layers in series, which add.
    RValue {
        "m²·K/W" from_si, si = SI;
        "h·ft²·°F/Btu, as printed on insulation" from_us, us = R_US;
    }
}

quantity! {
    /// Thermal transmittance of an assembly; paths side by side average by area.
    UValue {
        "W/(m²·K)" from_si, si = SI;
        "Btu/(h·ft²·°F)" from_us, us = U_US;
    }
}

impl RValue {
    /// The transmittance 1/R; none where nothing resists.
    ///
    /// ```
    /// use measure::RValue;
    /// let u = RValue::from_us(50.0).u_value().expect("50 resists");
    /// assert!((u.us() - 0.02).abs() < 1e-12);
    /// assert_eq!(RValue::ZERO.u_value(), None);
    /// ```
    pub fn u_value(self) -> Option<UValue> {
        reciprocal(self.0).map(UValue)
    }
}

impl UValue {
    /// The resistance 1/U; none where nothing passes.
    pub fn r_value(self) -> Option<RValue> {
        reciprocal(self.0).map(RValue)
    }
}

fn reciprocal(x: f64) -> Option<f64> {
    Some(x.recip()).filter(|inverse| x > 0.0 && inverse.is_finite())
}
