//! Numbers as drawings write them, and how an assumed number looks different from a measured one.

use job::Units;
use measure::Pitch;

use crate::letter::{Cut, Text};

/// What a number rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Basis {
    /// Measurement alone.
    Measured,
    /// At least one assumption.
    Assumed,
}

/// Stands behind every assumed number.
const ASSUMED_MARK: char = '◊';

impl Basis {
    pub(crate) const fn assumed_if(assumed: bool) -> Self {
        if assumed { Self::Assumed } else { Self::Measured }
    }

    /// The number as it is written: an assumed one carries a mark.
    pub(crate) fn mark(self, number: String) -> String {
        match self {
            Self::Measured => number,
            Self::Assumed => format!("{number}{ASSUMED_MARK}"),
        }
    }

    /// The text in the cut it is set in: an assumed number is italic.
    pub(crate) fn set(self, text: Text) -> Text {
        match self {
            Self::Measured => text,
            Self::Assumed => text.cut(Cut::Italic),
        }
    }
}

/// Rise in 12, or degrees.
pub(crate) fn pitch(value: Pitch, units: Units) -> String {
    match units {
        _ if value == Pitch::LEVEL => "level".into(),
        _ => units.pitch(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn assumed_numbers_are_marked_and_italic() {
        let text = Basis::Assumed.set(Text::new(Basis::Assumed.mark("6/12".into()), [0.0, 0.0], 3.0));
        assert_eq!((text.content.as_str(), text.cut), ("6/12◊", Cut::Italic));
        assert_eq!(Basis::Measured.mark("6/12".into()), "6/12");
    }

    #[test]
    fn pitch_of_a_flat_roof_is_a_word() {
        assert_eq!(pitch(Pitch::LEVEL, Units::Us), "level");
        assert_eq!(pitch(Pitch::from_rise_per_12(6.0), Units::Us), "6/12");
        assert_eq!(pitch(Pitch::from_degrees(30.0), Units::Si), "30.0°");
    }
}
