//! A hard winter made of a typical one: as cold and as snowy as one in ten.
//!
//! # Method
//! Every hour of the cold months is colder by the same step, its air as damp as before; long waves of the sky, where they were measured, go with the fourth power of the
//! temperature. Rain in air that this makes cold enough is snow, by the line that parts rain from snow everywhere; then all snow of these months is
//! multiplied so that they bring so many times what they did. Wind, sun and clouds stay as they were.
//!
//! # Range
//! Cold and snow of one in ten seldom come in the same winter: take it for a winter that few are harder than. A file of a hard winter that was goes before it.

use ::winter::weather::{Hour, Weather, snow_share};
use book::{Book, LookupError};
use job::Units;

use super::parameters::cool;
use super::run::cold_months;

/// How much harder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hard {
    /// Colder by, K.
    pub colder: f64,
    /// Times the snow.
    pub snowier: f64,
}

/// 0 °C, K.
const ZERO: f64 = 273.15;

impl Hard {
    /// By the rules of the books.
    pub(super) fn of(book: &Book) -> Result<Self, LookupError> {
        let number = |id: &str| book.rule(id)?.get();
        Ok(Self { colder: number("winter.hard-colder")?, snowier: number("winter.hard-snow")? })
    }

    /// The same year, harder.
    pub(super) fn year(&self, typical: &Weather) -> Weather {
        let months = cold_months(typical);
        let is_cold = |hour: &Hour| months[usize::from(hour.date.month()) - 1];
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

    /// How it was made, for papers.
    pub fn told(&self, units: Units) -> String {
        let colder = match units {
            Units::Us => format!("{:.0} °F", self.colder * 1.8),
            Units::Si => format!("{:.1} °C", self.colder),
        };
        let cool = cool(units);
        format!(
            "Hard winter: the same year, colder by {colder} in months of a mean under {cool}, rain in air that is then cold enough taken as snow, {} times the snow; as cold and as snowy as one in ten",
            self.snowier
        )
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
        let (soft, rule) = (typical(), Hard { colder: 2.2, snowier: 1.4 });
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
        let colder = Hard { colder: 2.2, snowier: 1.4 }.colder(&mild);
        assert!((colder.snow - 1.2).abs() < 1e-9 && (colder.rain - 0.8).abs() < 1e-9);
        // 300·(273.95/276.15)⁴
        assert!((colder.sky.expect("given") - 290.55).abs() < 0.05, "{:?}", colder.sky);
    }
}
