//! Volume flow of air or water, and the rain that feeds it.

use crate::Area;
use crate::quantity::{product, quantity};
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
