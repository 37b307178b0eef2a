//! Weather of a year, hour by hour, whole.
//!
//! [`Reading`]s are what a station wrote, with holes and slips; [`Weather::of`] makes of them a year without holes and counts whatever it had to fill in,
//! leave out or correct ([`Filled`]), so that papers can tell. Readers of files stand elsewhere.
//!
//! # Conventions
//! Local standard time, without daylight saving. An hour is named by its end: hour 1 ends at 1 in the morning, hour 24 at midnight. Sums and means are of the
//! hour; the sun is taken at the middle of it. A year has 8760 hours: 29 February is left out. Years of typical months mix years of the calendar; each
//! hour keeps its own.
//!
//! # Checks
//! property: what goes into months and periods comes out of them · outside: files of weather services (in crate `exchange`)

mod fall;
mod filled;
mod gap;
mod light;
mod reading;
mod whole;

use heat::air;

use crate::calendar::Date;
use crate::sky::{Air, Sky};
use crate::slope::{Bright, Diffuse, Light, Plane, Received};
use crate::sun::{Moment, Sun};
use crate::vapour;

pub use fall::{FREEZING_RANGE, Fallen, Seen, Totals, snow_share};
pub use filled::{Filled, How, What};
pub use light::clear_sky;
pub use reading::{Reading, WeatherError};

/// Hours of a year.
pub const HOURS: usize = 8760;

/// Where weather was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// What it is called.
    pub name: String,
    /// Degrees north.
    pub latitude: f64,
    /// Degrees east.
    pub longitude: f64,
    /// Hours its standard time is ahead of universal time.
    pub zone: f64,
    /// Above the sea, m.
    pub height: f64,
}

impl Site {
    /// What of it is out of range: the field and its value.
    pub fn fault(&self) -> Option<(&'static str, f64)> {
        let fields = [
            ("latitude", self.latitude, -90.0..=90.0),
            ("longitude", self.longitude, -180.0..=180.0),
            ("time zone", self.zone, -13.0..=15.0),
            ("elevation", self.height, -500.0..=6000.0),
        ];
        fields
            .into_iter()
            .find(|(_, value, range)| !range.contains(value))
            .map(|(name, value, _)| (name, value))
    }

    /// Pressure of the air there, Pa, on a day like any other.
    pub fn pressure(&self) -> f64 {
        air::station_pressure(self.height)
    }

    /// The sun at hours after midnight.
    pub fn sun(&self, date: Date, hours: f64) -> Sun {
        Sun::at(Moment::local(date, hours, self.zone), self.latitude, self.longitude, self.height)
    }
}

/// An hour of weather.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hour {
    /// The day.
    pub date: Date,
    /// The hour that ends, 1 to 24.
    pub hour: u8,
    /// Of the air, °C.
    pub temperature: f64,
    /// Of the air, over water, °C.
    pub dew_point: f64,
    /// Of the air, Pa.
    pub pressure: f64,
    /// At the height it is measured at, m/s.
    pub wind: f64,
    /// Where it comes from, degrees clockwise from north, where that was read.
    pub wind_from: Option<f64>,
    /// Share of the sky that opaque clouds cover; all clouds, where only those are told.
    pub cloud: f64,
    /// What the sun sends, mean of the hour.
    pub light: Light,
    /// Long waves on level ground, W/m², where they were given.
    pub sky: Option<f64>,
    /// Rain in the hour, kg/m².
    pub rain: f64,
    /// Snow in the hour, kg/m².
    pub snow: f64,
    /// Depth of snow on the ground, m, where it was measured.
    pub snow_depth: Option<f64>,
}

impl Hour {
    /// The middle of it, hours after midnight.
    pub fn middle(&self) -> f64 {
        f64::from(self.hour) - 0.5
    }

    /// Share of the vapour that the air can hold over water.
    pub fn humidity(&self) -> f64 {
        vapour::humidity(self.temperature, self.dew_point)
    }

    /// Pressure of the vapour in the air, Pa.
    pub fn vapour(&self) -> f64 {
        vapour::over_water(self.dew_point)
    }

    /// All that falls, kg/m².
    pub fn falls(&self) -> f64 {
        self.rain + self.snow
    }

    /// The air as a [`Sky`] asks for it.
    pub fn air(&self) -> Air {
        Air {
            temperature: self.temperature,
            dew_point: self.dew_point,
            pressure: self.pressure,
            cloud: self.cloud,
            hours: self.middle(),
        }
    }

    /// Long waves from the sky on level ground, W/m²: as given, or by formula.
    pub fn sky_down(&self, sky: &Sky) -> f64 {
        self.sky.unwrap_or_else(|| sky.down(&self.air()))
    }
}

/// A year of weather without holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Weather {
    /// Where.
    pub site: Site,
    /// 8760 hours from 1 January on.
    pub hours: Vec<Hour>,
    /// What was filled in, left out and corrected.
    pub filled: Filled,
}

impl Weather {
    /// Where the sun stands at the middle of an hour.
    pub fn sun(&self, hour: &Hour) -> Sun {
        self.site.sun(hour.date, hour.middle())
    }

    /// What planes receive of the sun in an hour, over ground of an albedo.
    pub fn on(&self, hour: &Hour, planes: &[Plane], albedo: f64, diffuse: Diffuse) -> Vec<Received> {
        if hour.light == Light::default() {
            return vec![Received::default(); planes.len()];
        }
        let sun = self.sun(hour);
        let bright = Bright::of(&sun, hour.pressure, hour.temperature);
        planes.iter().map(|plane| plane.receives(&sun, hour.light, albedo, bright, diffuse)).collect()
    }

    /// The hours from the warmest month on, so that the winter comes in one piece: it is in the middle of the year south of the equator.
    pub fn through_winter(&self) -> impl Iterator<Item = &Hour> {
        let means = self.by_month(|hour| hour.temperature);
        let warmest = (0..12).max_by(|a, b| means[*a].total_cmp(&means[*b])).unwrap_or(6);
        let from = self.hours.iter().position(|hour| usize::from(hour.date.month()) == warmest + 1);
        let (before, after) = self.hours.split_at(from.unwrap_or(0));
        after.iter().chain(before)
    }

    /// Mean of something in each month.
    pub fn by_month(&self, of: impl Fn(&Hour) -> f64) -> [f64; 12] {
        std::array::from_fn(|month| {
            let hours = || self.hours.iter().filter(|hour| usize::from(hour.date.month()) == month + 1);
            let all = hours().count();
            if all == 0 { 0.0 } else { hours().map(&of).sum::<f64>() / all as f64 }
        })
    }

    /// Sum of something in each month.
    pub fn sum_by_month(&self, of: impl Fn(&Hour) -> f64) -> [f64; 12] {
        std::array::from_fn(|month| {
            self.hours.iter().filter(|hour| usize::from(hour.date.month()) == month + 1).map(&of).sum()
        })
    }
}
