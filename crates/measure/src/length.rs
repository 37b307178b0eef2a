//! Lengths, heights and distances.

use std::fmt;
use std::str::FromStr;

use crate::quantity::quantity;
use crate::read::{Notation, ReadError, Thousands, length, read};
use crate::unit::{CENTIMETRE, FOOT, INCH, MILLIMETRE, SI};
use crate::{Fraction, Trade, Written};

quantity! {
    /// A length, height or distance; negative when it is an offset the other way.
    ///
    /// ```
    /// use measure::Length;
    /// assert_eq!(Length::from_ft(24.5), Length::from_in(294.0));
    /// assert_eq!(Length::from_ft(1.0).m(), 0.3048);
    /// ```
    Length {
        "metres" from_m, m = SI;
        "millimetres" from_mm, mm = MILLIMETRE;
        "feet" from_ft, ft = FOOT;
        "inches" from_in, inches = INCH;
    }
}

static LENGTH: Notation = Notation {
    what: "a length",
    examples: "`24' 6 1/2\"`, `24-6`, `16 in`, `8.5 ft` or `7.48 m`",
    units: &[
        (FOOT, &["'", "′", "’", "ft", "feet", "foot"]),
        (INCH, &["in", "\"", "″", "”", "''", "′′", "’’", "inches", "inch"]),
        (SI, &["m", "metres", "metre", "meters", "meter"]),
        (MILLIMETRE, &["mm"]),
        (CENTIMETRE, &["cm"]),
    ],
    range: -10_000.0..=10_000.0,
    limits: "-10 km to 10 km",
    thousands: Thousands::Refused,
};

impl Length {
    /// For writing in feet, inches and a fraction, as in `24' 6 1/2"`.
    pub const fn trade(self, fraction: Fraction) -> Trade {
        Trade::new(self, fraction)
    }

    /// For writing in metres to the millimetre, as in `7.480 m`; `{:.1}` sets the decimals.
    pub const fn metric(self) -> Written {
        Written::exactly(3, "", self.0, " m")
    }
}

impl FromStr for Length {
    type Err = ReadError;
    fn from_str(text: &str) -> Result<Self, ReadError> {
        read(text, &LENGTH, length).map(Self)
    }
}

/// In feet and inches to 1/16 in.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.trade(Fraction::Sixteenth).fmt(f)
    }
}
