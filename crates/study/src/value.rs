//! A figure of a reading: a length or a pitch.

use book::Quantity;
use job::Units;
use measure::{Length, Pitch};

/// A length or a pitch, also a difference of two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// A length.
    Length(Length),
    /// A pitch.
    Pitch(Pitch),
}

impl Value {
    /// Metres, or rise over run.
    pub const fn si(self) -> f64 {
        match self {
            Self::Length(length) => length.m(),
            Self::Pitch(pitch) => pitch.slope(),
        }
    }

    /// A value of the same kind.
    #[must_use]
    pub const fn with_si(self, si: f64) -> Self {
        match self {
            Self::Length(_) => Self::Length(Length::from_m(si)),
            Self::Pitch(_) => Self::Pitch(Pitch::from_slope(si)),
        }
    }

    /// The same without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        self.with_si(self.si().abs())
    }

    /// As papers in these units write it.
    pub fn written(self, units: Units) -> String {
        match self {
            Self::Length(length) => units.length(length),
            Self::Pitch(pitch) => units.pitch(pitch),
        }
    }

    /// A figure of the books, if it is a length or a pitch.
    pub(crate) fn of(quantity: &Quantity) -> Option<Self> {
        match quantity {
            Quantity::Length(length) => Some(Self::Length(**length)),
            Quantity::Pitch(pitch) => Some(Self::Pitch(**pitch)),
            _ => None,
        }
    }
}
