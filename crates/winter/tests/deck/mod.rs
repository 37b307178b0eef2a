//! A deck for tests of whole roofs.

use winter::column::Base;
use winter::snow::Law;
use winter::surface::Turbulence;

/// Half an inch of panel under shingles, snow on it in full.
pub(crate) const DECK: Base = Base {
    capacity: 14_000.0,
    inward: 0.2,
    outward: 0.0935,
    absorbed: 0.9,
    emissivity: 0.9,
    turbulence: Turbulence::Film { still: 4.0, windy: 4.0 },
    snow: Law::FULL,
};
