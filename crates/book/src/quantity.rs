//! Figures of the tables, read from trade text and kept with the text they were written as.

use std::fmt::{self, Display};
use std::ops::Deref;
use std::str::FromStr;

use measure::{Area, Flow, Length, Pitch, RValue, RainRate, Temperature};
use serde::{Deserialize, Deserializer, de};

/// A quantity and how the table writes it; reads as its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Text<T> {
    text: String,
    value: T,
}

impl<T> Text<T> {
    /// As the table writes it.
    pub fn text(&self) -> &str {
        &self.text
    }
}

impl<T> Deref for Text<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T> Display for Text<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl<T: FromStr<Err: Display>> FromStr for Text<T> {
    type Err = T::Err;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Ok(Self { text: text.to_owned(), value: text.parse()? })
    }
}

impl<'de, T: FromStr<Err: Display>> Deserialize<'de> for Text<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

/// A part of a whole, 0 to 1; written in percent.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Share(f64);

impl Share {
    /// As a number from 0 to 1.
    pub const fn of_one(self) -> f64 {
        self.0
    }
}

/// The text is not a share.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("expected a share from 0 % to 100 %, such as `40 %`")]
pub struct NotAShare;

impl FromStr for Share {
    type Err = NotAShare;

    fn from_str(text: &str) -> Result<Self, NotAShare> {
        let percent: f64 = text
            .trim()
            .strip_suffix('%')
            .and_then(|number| number.trim_end().parse().ok())
            .ok_or(NotAShare)?;
        if (0.0..=100.0).contains(&percent) { Ok(Self(percent / 100.0)) } else { Err(NotAShare) }
    }
}

/// A figure whose kind the table row says: `value.length = "12 in"`.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// A length.
    Length(Text<Length>),
    /// An area.
    Area(Text<Area>),
    /// A pitch.
    Pitch(Text<Pitch>),
    /// A temperature.
    Temperature(Text<Temperature>),
    /// A rate of rain.
    Rain(Text<RainRate>),
    /// A thermal resistance.
    RValue(Text<RValue>),
    /// A flow.
    Flow(Text<Flow>),
    /// A part of a whole.
    Share(Text<Share>),
    /// A plain number; the row says of what.
    Number(f64),
    /// A word of the job document.
    Word(String),
    /// Yes or no.
    YesNo(bool),
}

/// What a [`Quantity`] can be taken as.
pub trait Kind: Sized {
    /// The kind in words, as the tables write it.
    const KIND: &'static str;

    /// The quantity, if it is of this kind.
    fn of(quantity: &Quantity) -> Option<Self>;
}

macro_rules! kinds {
    ($($variant:ident($inner:ident) $word:literal: $type:ty = $value:expr;)+) => {
        impl Quantity {
            /// The kind in words, as the tables write it.
            pub const fn kind(&self) -> &'static str {
                match self {
                    $(Self::$variant(_) => $word,)+
                }
            }
        }

        $(impl Kind for $type {
            const KIND: &'static str = $word;

            fn of(quantity: &Quantity) -> Option<Self> {
                if let Quantity::$variant($inner) = quantity { Some($value) } else { None }
            }
        })+
    };
}

kinds! {
    Length(text) "length": Length = text.value;
    Area(text) "area": Area = text.value;
    Pitch(text) "pitch": Pitch = text.value;
    Temperature(text) "temperature": Temperature = text.value;
    Rain(text) "rain": RainRate = text.value;
    RValue(text) "r_value": RValue = text.value;
    Flow(text) "flow": Flow = text.value;
    Share(text) "share": Share = text.value;
    Number(number) "number": f64 = *number;
    Word(word) "word": String = word.clone();
    YesNo(yes) "yes_no": bool = *yes;
}

impl Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(text) => text.fmt(f),
            Self::Area(text) => text.fmt(f),
            Self::Pitch(text) => text.fmt(f),
            Self::Temperature(text) => text.fmt(f),
            Self::Rain(text) => text.fmt(f),
            Self::RValue(text) => text.fmt(f),
            Self::Flow(text) => text.fmt(f),
            Self::Share(text) => text.fmt(f),
            Self::Number(number) => number.fmt(f),
            Self::Word(word) => f.write_str(word),
            Self::YesNo(yes) => f.write_str(if *yes { "yes" } else { "no" }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_written_in_percent() {
        assert_eq!("40 %".parse::<Share>().map(Share::of_one), Ok(0.4));
        assert_eq!(" 2.5%".parse::<Share>().map(Share::of_one), Ok(0.025));
    }

    #[test]
    fn a_share_without_percent_or_beyond_the_whole_is_refused() {
        for text in ["0.4", "101 %", "-1 %", "NaN %", "inf %", "%", ""] {
            assert_eq!(text.parse::<Share>(), Err(NotAShare), "{text}");
        }
    }

    #[test]
    fn a_text_keeps_its_spelling_and_reads_as_its_value() {
        let text: Text<Share> = "40 %".parse().unwrap();
        assert_eq!((text.text(), text.of_one()), ("40 %", 0.4));
    }

    #[test]
    fn a_quantity_gives_itself_only_as_its_own_kind() {
        let quantity = Quantity::Number(4.0);
        assert_eq!(f64::of(&quantity), Some(4.0));
        assert_eq!(bool::of(&quantity), None);
        assert_eq!(quantity.kind(), "number");
    }
}
