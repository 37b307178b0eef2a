//! Surface loads and air pressures: both in pascals, never to be mixed.

use crate::quantity::{quantity, text};
use crate::read::{Notation, Thousands, plain};
use crate::unit::{HECTOPASCAL, INCH_WATER, KILOPASCAL, PSF, SI};

quantity! {
    /// A load on a surface: snow, wind (negative for uplift), dead weight.
    Load {
        "pascals" from_pa, pa = SI;
        "kilopascals" from_kpa, kpa = KILOPASCAL;
        "pounds-force per square foot" from_psf, psf = PSF;
    }
}

quantity! {
    /// An air pressure or a difference of air pressures.
    Pressure {
        "pascals" from_pa, pa = SI;
        "hectopascals, the same as millibars" from_hpa, hpa = HECTOPASCAL;
        "inches of water, conventional" from_inch_water, inch_water = INCH_WATER;
    }
}

static LOAD: Notation = Notation {
    what: "a surface load",
    examples: "`60 psf`, `60 lb/ft2` or `2.9 kPa`",
    units: &[
        (PSF, &["psf", "lb/ft2", "lbs/ft2", "lbf/ft2", "lb/sq ft"]),
        (KILOPASCAL, &["kPa", "kN/m2"]),
        (SI, &["Pa", "N/m2"]),
    ],
    range: -1e6..=1e6,
    limits: "-1000 kPa to 1000 kPa",
    thousands: Thousands::Refused,
};

static PRESSURE: Notation = Notation {
    what: "an air pressure",
    examples: "`50 Pa`, `1013 hPa` or `0.2 in w.c.`",
    units: &[
        (SI, &["Pa", "N/m2"]),
        (INCH_WATER, &["in w.c.", "in w.g.", "inH2O"]),
        (HECTOPASCAL, &["hPa", "mbar", "mb"]),
        (KILOPASCAL, &["kPa"]),
    ],
    range: -1e6..=1e6,
    limits: "-1000 kPa to 1000 kPa",
    thousands: Thousands::Refused,
};

text! { Load: LOAD, plain; trade "" psf " psf" 1; metric "" kpa " kPa" 2 }
text! { Pressure: PRESSURE, plain; trade "" pa " Pa" 1 }
