//! What had to be filled in, by kind.

use std::collections::BTreeMap;
use std::fmt;

/// What of the weather.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// Whole hours.
    Hour,
    /// Temperature of the air.
    Temperature,
    /// Dew point.
    DewPoint,
    /// Pressure of the air.
    Pressure,
    /// Speed of the wind.
    Wind,
    /// Cover of clouds.
    Cloud,
    /// Radiation of the sun.
    Light,
    /// Long waves of the sky.
    Sky,
    /// Rain and snow together.
    Precipitation,
    /// Whether it is rain or snow.
    Phase,
    /// Depth of snow on the ground.
    SnowDepth,
}

/// What was done about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    /// It cannot be, and was not taken.
    Dropped,
    /// It was not taken for what it is: a leap day, a flag instead of a depth.
    LeftOut,
    /// Brought into what is possible: a dew point above the temperature.
    Corrected,
    /// Taken between what was read before and after.
    Between,
    /// Worked out from other readings.
    Derived,
    /// Totals of several hours, spread over them.
    Spread,
    /// Made from what an observer saw falling.
    Reported,
    /// Laid into the dampest hours, since no reading told when.
    Damp,
    /// Multiplied so that a month comes to its total.
    Scaled,
    /// Not read, and taken as none.
    None,
    /// Not read, and assumed.
    Assumed,
    /// Drawn at random by what is normal.
    Drawn,
}

/// How many hours each was done in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filled(BTreeMap<(What, How), usize>);

impl Filled {
    /// One more hour.
    pub fn add(&mut self, what: What, how: How) {
        self.add_many(what, how, 1);
    }

    /// So many more hours.
    pub fn add_many(&mut self, what: What, how: How, hours: usize) {
        if hours > 0 {
            *self.0.entry((what, how)).or_default() += hours;
        }
    }

    /// In how many hours.
    pub fn hours(&self, what: What, how: How) -> usize {
        self.0.get(&(what, how)).copied().unwrap_or(0)
    }

    /// All of them in order.
    pub fn iter(&self) -> impl Iterator<Item = (What, How, usize)> {
        self.0.iter().map(|((what, how), hours)| (*what, *how, *hours))
    }

    /// Whether nothing had to be done.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl fmt::Display for What {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Hour => "hour",
            Self::Temperature => "temperature",
            Self::DewPoint => "dew point",
            Self::Pressure => "pressure",
            Self::Wind => "wind",
            Self::Cloud => "cloud",
            Self::Light => "sunshine",
            Self::Sky => "radiation of the sky",
            Self::Precipitation => "precipitation",
            Self::Phase => "rain or snow",
            Self::SnowDepth => "depth of snow",
        })
    }
}

impl fmt::Display for How {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Dropped => "impossible, dropped",
            Self::LeftOut => "left out",
            Self::Corrected => "corrected",
            Self::Between => "taken between the hours before and after",
            Self::Derived => "worked out from other readings",
            Self::Spread => "spread from totals of several hours",
            Self::Reported => "made from reports of present weather",
            Self::Damp => "laid into the dampest hours",
            Self::Scaled => "scaled to the month's total",
            Self::None => "not read, taken as none",
            Self::Assumed => "not read, assumed",
            Self::Drawn => "drawn at random from monthly normals",
        })
    }
}
