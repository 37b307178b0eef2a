//! Surface loads and air pressures: both in pascals, never to be mixed.

use crate::quantity::quantity;
use crate::unit::{HECTOPASCAL, INCH_WATER, PSF, SI};

quantity! {
    /// A load on a surface: snow, wind (negative for uplift), dead weight.
    Load {
        "pascals" from_pa, pa = SI;
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
