//! Areas and volumes, and how lengths multiply into them.

use crate::Length;
use crate::quantity::{product, quantity};
use crate::unit::{CUBIC_FOOT, ROOF_SQUARE, SI, SQUARE_FOOT, SQUARE_INCH};

quantity! {
    /// An area, on the plan or on the slope.
    ///
    /// ```
    /// use measure::{Area, Length};
    /// let slope_area: Area = Length::from_ft(40.0) * Length::from_ft(15.0);
    /// assert_eq!(slope_area.ft2().round(), 600.0);
    /// ```
    Area {
        "square metres" from_m2, m2 = SI;
        "square feet" from_ft2, ft2 = SQUARE_FOOT;
        "roofing squares of 100 square feet" from_squares, squares = ROOF_SQUARE;
        "square inches" from_in2, in2 = SQUARE_INCH;
    }
}

quantity! {
    /// A volume.
    Volume {
        "cubic metres" from_m3, m3 = SI;
        "cubic feet" from_ft3, ft3 = CUBIC_FOOT;
    }
}

product! { Length [from_m m] * itself = Area [from_m2 m2] }
product! { Area [from_m2 m2] * Length [from_m m] = Volume [from_m3 m3] }
