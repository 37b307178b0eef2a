//! Volume flow of air or water, and the rain that feeds it.

use crate::Area;
use crate::quantity::{product, quantity, text};
use crate::read::{Notation, Thousands, plain};
use crate::unit::{CFM, GPM, INCH_PER_HOUR, LITRE_PER_SECOND, MILLIMETRE_PER_HOUR, SI};

quantity! {
    /// A volume flow of air or water.
    Flow {
        "cubic metres per second" from_m3_s, m3_s = SI;
        "cubic feet per minute" from_cfm, cfm = CFM;
        "U.S. gallons per minute" from_gpm, gpm = GPM;
        "litres per second" from_l_s, l_s = LITRE_PER_SECOND;
    }
}

quantity! {
    /// Depth of rain falling on the plan in a given time. On an area it makes a flow.
    ///
    /// ```
    /// use measure::{Area, Flow, RainRate};
    /// let flow: Flow = RainRate::from_in_per_h(6.0) * Area::from_ft2(415.0);
    /// assert!((flow.gpm() - 25.87).abs() < 0.01);
    /// ```
    RainRate {
        "metres per second" from_m_s, m_s = SI;
        "inches per hour" from_in_per_h, in_per_h = INCH_PER_HOUR;
        "millimetres per hour" from_mm_per_h, mm_per_h = MILLIMETRE_PER_HOUR;
    }
}

product! { RainRate [from_m_s m_s] * Area [from_m2 m2] = Flow [from_m3_s m3_s] }

static FLOW: Notation = Notation {
    what: "a flow",
    examples: "`550 cfm`, `25.9 gpm`, `1.6 L/s` or `0.26 m3/s`",
    units: &[
        (CFM, &["cfm", "ft3/min", "cu ft/min"]),
        (GPM, &["gpm", "gal/min"]),
        (LITRE_PER_SECOND, &["L/s"]),
        (SI, &["m3/s"]),
    ],
    range: 0.0..=1e4,
    limits: "0 to 10,000 m3/s",
    thousands: Thousands::Grouped,
};

static RAIN_RATE: Notation = Notation {
    what: "a rain rate",
    examples: "`6.0 in/h` or `150 mm/h`",
    units: &[
        (INCH_PER_HOUR, &["in/h", "in/hr", "iph", "inches per hour"]),
        (MILLIMETRE_PER_HOUR, &["mm/h", "mm/hr"]),
    ],
    range: 0.0..=0.001,
    limits: "0 to 3600 mm/h",
    thousands: Thousands::Refused,
};

text! { Flow: FLOW, plain; trade "" cfm " cfm" 1; metric "" l_s " L/s" 1 }
text! { RainRate: RAIN_RATE, plain; trade "" in_per_h " in/h" 2; metric "" mm_per_h " mm/h" 1 }
