//! How numbers are written in a because: as the job's papers are, with figures enough to check them by hand.

use job::{State, Units};
use measure::{Area, Fraction, Length};

/// Writes quantities in the units of a job's papers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Words(pub(crate) Units);

impl Words {
    /// A dimension as a tape shows it: `1' 4"` or `0.406 m`.
    pub(crate) fn tape(self, length: Length) -> String {
        match self.0 {
            Units::Us => length.trade(Fraction::Sixteenth).to_string(),
            Units::Si => length.metric().to_string(),
        }
    }

    /// A small dimension in decimals: `44.72 in` or `1.136 m`.
    pub(crate) fn inches(self, length: Length) -> String {
        match self.0 {
            Units::Us => format!("{:.2} in", length.inches()),
            Units::Si => length.metric().to_string(),
        }
    }

    /// A length that adds up, in decimals: `199.82 ft` or `60.906 m`.
    pub(crate) fn run(self, length: Length) -> String {
        match self.0 {
            Units::Us => format!("{:.2} ft", length.ft()),
            Units::Si => length.metric().to_string(),
        }
    }

    /// An area of roof or material.
    pub(crate) fn area(self, area: Area) -> String {
        match self.0 {
            Units::Us => format!("{area:.2}"),
            Units::Si => format!("{:.2}", area.metric()),
        }
    }

    /// Free area of a vent.
    pub(crate) fn vent(self, area: Area) -> String {
        match self.0 {
            Units::Us => format!("{:.1} in²", area.in2()),
            Units::Si => format!("{:.0} cm²", area.m2() * 1e4),
        }
    }
}

/// A part of a whole in percent.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.1} %", share * 100.0)
}

/// Whether an opening stays, comes or goes, for papers.
pub const fn state_word(state: State) -> &'static str {
    match state {
        State::Found => "stays",
        State::Plan => "new",
        State::Remove => "goes",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_and_areas_follow_the_units_of_the_job() {
        let (us, si) = (Words(Units::Us), Words(Units::Si));
        assert_eq!(us.tape(Length::from_in(16.0)), "1' 4\"");
        assert_eq!(si.tape(Length::from_m(0.4064)), "0.406 m");
        assert_eq!(us.run(Length::from_ft(199.8224)), "199.82 ft");
        assert_eq!(us.area(Area::from_ft2(340.5375)), "340.54 ft²");
        assert_eq!(si.vent(Area::from_m2(0.045)), "450 cm²");
        assert_eq!(percent(0.4947), "49.5 %");
    }
}
