//! Lengths, heights and distances.

use crate::quantity::quantity;
use crate::unit::{FOOT, INCH, MILLIMETRE, SI};

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
