//! Areas and volumes, and how lengths multiply into them.

use crate::Length;
use crate::quantity::{product, quantity, text};
use crate::read::{Notation, Thousands, plain};
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

static AREA: Notation = Notation {
    what: "an area",
    examples: "`1,200 sq ft`, `17.5 squares` of 100 sq ft, `78 in2` or `111 m2`",
    units: &[
        (SQUARE_FOOT, &["ft2", "sq ft", "sf", "square feet", "square foot"]),
        (SI, &["m2", "sq m", "square metres", "square meters"]),
        (ROOF_SQUARE, &["squares", "square", "sq"]),
        (SQUARE_INCH, &["in2", "sq in", "square inches", "square inch"]),
    ],
    range: 0.0..=1e8,
    limits: "0 to 100 km2",
    thousands: Thousands::Grouped,
};

static VOLUME: Notation = Notation {
    what: "a volume",
    examples: "`9,600 ft3`, `9600 cu ft` or `272 m3`",
    units: &[
        (CUBIC_FOOT, &["ft3", "cu ft", "cf", "cubic feet", "cubic foot"]),
        (SI, &["m3", "cu m", "cubic metres", "cubic meters"]),
    ],
    range: 0.0..=1e9,
    limits: "0 to 1 km3",
    thousands: Thousands::Grouped,
};

text! { Area: AREA, plain; trade "" ft2 " ft²" 1; metric "" m2 " m²" 2 }
text! { Volume: VOLUME, plain; trade "" ft3 " ft³" 1; metric "" m3 " m³" 2 }

#[cfg(test)]
mod tests {
    use crate::{Area, Length, Volume};

    #[test]
    fn products_of_lengths_divide_back() {
        let (length, width, height) = (Length::from_m(4.0), Length::from_m(2.0), Length::from_m(0.5));
        let area = length * width;
        assert_eq!(area, Area::from_m2(8.0));
        assert_eq!(area / width, length);
        assert_eq!(area * height, Volume::from_m3(4.0));
        assert_eq!(height * area, area * height);
        assert_eq!(area * height / area, height);
        assert_eq!(area * height / height, area);
    }

    #[test]
    fn quantities_of_a_kind_add_scale_and_compare() {
        let parts = [Length::from_m(1.0), Length::from_m(2.0), -Length::from_m(0.5)];
        let mut sum: Length = parts.iter().sum();
        assert_eq!(sum, Length::from_m(2.5));
        sum += Length::from_m(1.0);
        sum -= Length::from_m(0.5);
        assert_eq!(2.0 * sum / 3.0, Length::from_m(2.0));
        assert_eq!(parts[2].abs().max(parts[0]), parts[0]);
        assert_eq!(parts[2].min(Length::ZERO), parts[2]);
        assert!((parts[1] / parts[0] - 2.0).abs() < 1e-15);
    }
}
