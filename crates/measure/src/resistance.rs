//! Thermal resistance and its reciprocal, transmittance.

use crate::quantity::{quantity, text};
use crate::read::{Notation, Thousands, prefixed};
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

static R_VALUE: Notation = Notation {
    what: "an R-value",
    examples: "`R-60`, `RSI 10.5`, `60 h ft2 F/Btu` or `10.5 m2K/W`",
    units: &[
        (R_US, &["h ft2 F/Btu", "h ft2 °F/Btu", "ft2 h F/Btu", "ft2 h °F/Btu"]),
        (SI, &["m2K/W", "m2 °C/W"]),
    ],
    range: 0.0..=200.0,
    limits: "R-0 to RSI 200",
    thousands: Thousands::Refused,
};

static U_VALUE: Notation = Notation {
    what: "a U-value",
    examples: "`U-0.35`, `USI 2.0`, `0.35 Btu/h ft2 F` or `2.0 W/m2K`",
    units: &[
        (U_US, &["Btu/h ft2 F", "Btu/h ft2 °F", "Btu/(h ft2 F)", "Btu/(h ft2 °F)"]),
        (SI, &["W/m2K", "W/(m2K)"]),
    ],
    range: 0.0..=1000.0,
    limits: "U-0 to USI 1000",
    thousands: Thousands::Refused,
};

text! {
    RValue: R_VALUE, |scan, notation| prefixed(scan, notation, &[("RSI", SI), ("R", R_US)]);
    trade "R-" us "" 1; metric "RSI " si "" 2
}
text! {
    UValue: U_VALUE, |scan, notation| prefixed(scan, notation, &[("USI", SI), ("U", U_US)]);
    trade "U-" us "" 3; metric "USI " si "" 3
}
