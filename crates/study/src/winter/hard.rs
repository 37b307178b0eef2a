//! A hard winter: one that was, or one made of a typical year, as cold and as snowy as one in ten.
//!
//! # Method
//! Every hour of the cold months is colder by the same step, its air as damp as before; long waves of the sky, where they were measured, go with the fourth power of the
//! temperature. Rain in air that this makes cold enough is snow, by the line that parts rain from snow everywhere; then all snow of these months is
//! multiplied so that they bring so many times what they did. Wind, sun and clouds stay as they were.
//!
//! # Range
//! Cold and snow of one in ten seldom come in the same winter: take it for a winter that few are harder than. A file of a hard winter that was
//! (`site.hard_winter`) goes before it: how much harder it is than the typical year is told, whatever comes out.

use std::borrow::Cow;

use ::winter::weather::{Hour, Weather, snow_share};
use book::{Book, LookupError};
use job::Units;

use super::parameters::cool;
use super::run::in_cool_months;

/// The years a house is taken through.
#[derive(Clone, Copy, Debug)]
pub struct Years<'w> {
    /// As most are.
    pub typical: &'w Weather,
    /// A hard winter that was; else one is made of the typical year.
    pub hard: Option<HardYear<'w>>,
}

impl<'w> From<&'w Weather> for Years<'w> {
    fn from(typical: &'w Weather) -> Self {
        Self { typical, hard: None }
    }
}

/// A hard winter that was.
#[derive(Clone, Copy, Debug)]
pub struct HardYear<'w> {
    /// Its weather.
    pub weather: &'w Weather,
    /// Name of the file it was read from.
    pub file: &'w str,
    /// SHA-256 of that file, in hexadecimal.
    pub hash: &'w str,
}

/// How much harder, and whether that was read or made.
#[derive(Clone, Debug, PartialEq)]
pub struct Hard {
    /// Colder by, K, in the cold months of the typical year.
    pub colder: f64,
    /// Times the snow; none where the typical year has none.
    pub snowier: Option<f64>,
    /// What it was read from; none where it was made.
    pub read: Option<Read>,
}

/// Where a hard winter was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// Place of the weather.
    pub weather: String,
    /// Name of the file.
    pub file: String,
    /// SHA-256 of it, in hexadecimal.
    pub hash: String,
    /// What of it was filled in, left out or corrected, in words.
    pub filled: Vec<String>,
}

/// What is done to a typical year.
#[derive(Clone, Copy, Debug)]
struct Rule {
    colder: f64,
    snowier: f64,
}

/// 0 °C, K.
const ZERO: f64 = 273.15;

impl Hard {
    /// The hard winter of these years: as read, or made by the rules of the books.
    pub(super) fn of<'w>(years: Years<'w>, book: &Book) -> Result<(Self, Cow<'w, Weather>), LookupError> {
        if let Some(hard) = years.hard {
            return Ok((Self::read(years.typical, hard), Cow::Borrowed(hard.weather)));
        }
        let number = |id: &str| book.rule(id)?.get();
        let rule = Rule { colder: number("winter.hard-colder")?, snowier: number("winter.hard-snow")? };
        let made = Self { colder: rule.colder, snowier: Some(rule.snowier), read: None };
        Ok((made, Cow::Owned(rule.year(years.typical))))
    }

    /// One that was, against the typical year: the months that are cold in that, all snow of both.
    fn read(typical: &Weather, hard: HardYear<'_>) -> Self {
        let is_cold = in_cool_months(typical);
        let mean = |year: &Weather| {
            let cold = year.hours.iter().filter(|hour| is_cold(hour));
            let (sum, count) = cold.fold((0.0, 0.0), |(sum, n), hour| (sum + hour.temperature, n + 1.0));
            if count > 0.0 { sum / count } else { 0.0 }
        };
        let snow = |year: &Weather| year.hours.iter().map(|hour| hour.snow).sum::<f64>();
        let HardYear { weather, file, hash } = hard;
        Self {
            colder: mean(typical) - mean(weather),
            snowier: Some(snow(weather) / snow(typical)).filter(|times| times.is_finite()),
            read: Some(Read {
                weather: weather.site.name.clone(),
                file: file.to_owned(),
                hash: hash.to_owned(),
                filled: filled(weather),
            }),
        }
    }

    /// Where it comes from, for papers.
    pub fn told(&self, units: Units) -> String {
        let by = match units {
            Units::Us => format!("{:.0} °F", self.colder.abs() * 1.8),
            Units::Si => format!("{:.1} °C", self.colder.abs()),
        };
        let (way, cool) = (if self.colder < 0.0 { "warmer" } else { "colder" }, cool(units));
        let Some(read) = &self.read else {
            return format!(
                "Hard winter: the same year, {way} by {by} in months of a mean under {cool}, rain in air that is then cold enough taken as snow, {} times the snow; as cold and as snowy as one in ten",
                self.snowier.unwrap_or(1.0)
            );
        };
        let snow = self.snowier.map_or_else(String::new, |times| format!(", {times:.1} times the snow"));
        let is_milder = self.colder <= 0.0 && self.snowier.is_none_or(|times| times <= 1.0);
        let milder = if is_milder { "; that is no harder: name another year" } else { "" };
        format!(
            "Hard winter: {}, read from {} (`site.hard_winter`); {way} than the typical year by {by} in months of a mean under {cool}{snow}{milder}",
            read.weather, read.file
        )
    }
}

/// What of a year was filled in, left out or corrected, in words.
pub(super) fn filled(year: &Weather) -> Vec<String> {
    year.filled.iter().map(|(what, how, hours)| format!("{what} in {hours} hours {how}")).collect()
}

impl Rule {
    /// The same year, harder.
    fn year(&self, typical: &Weather) -> Weather {
        let is_cold = in_cool_months(typical);
        let mut hours: Vec<Hour> =
            typical.hours.iter().map(|hour| if is_cold(hour) { self.colder(hour) } else { *hour }).collect();
        let snow = |hours: &[Hour]| hours.iter().filter(|hour| is_cold(hour)).map(|hour| hour.snow).sum();
        let (before, after): (f64, f64) = (snow(&typical.hours), snow(&hours));
        // colder air alone may turn so much rain to snow that there is enough
        let times = if after > 0.0 { (self.snowier * before / after).max(1.0) } else { 1.0 };
        hours.iter_mut().filter(|hour| is_cold(hour)).for_each(|hour| hour.snow *= times);
        Weather { hours, ..typical.clone() }
    }

    fn colder(&self, hour: &Hour) -> Hour {
        let temperature = hour.temperature - self.colder;
        let falls = hour.falls();
        let snow = hour.snow.max(falls * snow_share(temperature));
        let cooled = ((temperature + ZERO) / (hour.temperature + ZERO)).powi(4);
        Hour {
            temperature,
            dew_point: hour.dew_point - self.colder,
            sky: hour.sky.map(|down| down * cooled),
            snow,
            rain: falls - snow,
            snow_depth: None,
            ..*hour
        }
    }
}

#[cfg(test)]
mod tests {
    use ::winter::weather::Site;
    use ::winter::year::{Month, Normals};

    use super::super::run::COOL;
    use super::*;

    fn typical() -> Weather {
        let means = [-6.0, -4.0, 1.0, 7.0, 13.0, 18.0, 20.0, 19.0, 15.0, 9.0, 3.0, -3.0];
        let months = means.map(|mean| Month {
            mean,
            high: mean + 5.0,
            low: mean - 5.0,
            precipitation: 80.0,
            ..Month::default()
        });
        let site = Site { name: "town".into(), latitude: 46.9, longitude: -92.0, zone: -6.0, height: 350.0 };
        Normals { site, months }.year(3).expect("a year")
    }

    /// Colder by the step in the seven cold months and in no other, as damp as before, with so many times the snow to a hair; what falls as snow no longer rains.
    #[test]
    fn cold_months_are_colder_and_snowier_and_no_other_is() {
        let (soft, rule) = (typical(), Rule { colder: 2.2, snowier: 1.4 });
        let hard = rule.year(&soft);
        let means = |year: &Weather| year.by_month(|hour| hour.temperature);
        for (month, (before, after)) in means(&soft).into_iter().zip(means(&hard)).enumerate() {
            let step = if before < COOL { 2.2 } else { 0.0 };
            assert!((before - after - step).abs() < 1e-9, "{month}: {before} to {after}");
        }
        let snow = |year: &Weather| year.hours.iter().map(|hour| hour.snow).sum::<f64>();
        assert!((snow(&hard) / snow(&soft) - 1.4).abs() < 1e-9, "{}", snow(&hard) / snow(&soft));
        let rain = |year: &Weather| year.hours.iter().map(|hour| hour.rain).sum::<f64>();
        assert!(rain(&hard) < rain(&soft));
        let damper = soft.hours.iter().zip(&hard.hours).map(|(a, b)| (a.humidity() - b.humidity()).abs());
        assert!(damper.fold(0.0, f64::max) < 0.02);
    }

    /// In air of 3 °C all of 2 kg/m² is rain; 2.2 K colder, at 0.8 °C, three fifths of it is snow by the line from 0 to 2 °C.
    #[test]
    fn rain_in_air_that_is_cold_enough_is_snow() {
        let mild = Hour {
            temperature: 3.0,
            dew_point: 2.0,
            rain: 2.0,
            snow: 0.0,
            sky: Some(300.0),
            ..typical().hours[0]
        };
        let colder = Rule { colder: 2.2, snowier: 1.4 }.colder(&mild);
        assert!((colder.snow - 1.2).abs() < 1e-9 && (colder.rain - 0.8).abs() < 1e-9);
        // 300·(273.95/276.15)⁴
        assert!((colder.sky.expect("given") - 290.55).abs() < 0.05, "{:?}", colder.sky);
    }

    /// A winter that was, 3 K colder all year with twice the snow, is told by its file and by how much harder it is; a milder one, and one in a place without snow, likewise.
    #[test]
    fn a_winter_that_was_is_told_by_how_much_harder_it_is() {
        let (soft, book) = (typical(), Book::builtin());
        let year = |colder: f64, times: f64| {
            let change = |hour: &Hour| Hour {
                temperature: hour.temperature - colder,
                snow: hour.snow * times,
                ..*hour
            };
            Weather { hours: soft.hours.iter().map(change).collect(), ..soft.clone() }
        };
        let of = |typical: &Weather, weather: &Weather| {
            let hard = HardYear { weather, file: "hard.epw", hash: "5b3f" };
            let (told, taken) = Hard::of(Years { typical, hard: Some(hard) }, &book).expect("a winter");
            assert_eq!(taken.hours, weather.hours, "as it was");
            told
        };
        let hard = of(&soft, &year(3.0, 2.0));
        assert!((hard.colder - 3.0).abs() < 1e-9 && (hard.snowier.expect("snow") - 2.0).abs() < 1e-9);
        let told = hard.told(Units::Us);
        for part in ["town, read from hard.epw", "colder than the typical year by 5 °F", "2.0 times the snow"]
        {
            assert!(told.contains(part), "{told}");
        }
        assert!(!told.contains("no harder"), "{told}");
        let mild = of(&soft, &year(-1.0, 0.5)).told(Units::Si);
        assert!(
            mild.contains("warmer than the typical year by 1.0 °C") && mild.contains("that is no harder"),
            "{mild}"
        );
        let bare = of(&year(0.0, 0.0), &year(1.0, 1.0));
        assert_eq!(bare.snowier, None);
        assert!(!bare.told(Units::Us).contains("snow"), "{bare:?}");
    }
}
