//! What grows where it stays damp.
//!
//! # Source
//! Hukka and Viitanen 1999, with the classes of Ojanen and others 2010, as two open implementations have them. Index 1 is growth seen through a microscope,
//! 3 growth that the eye sees, 6 a surface covered.

use book::thermal::MoldClass;
use book::{Book, LookupError};

const DAY_HOURS: f64 = 24.0;
/// Hours without growth up to which it declines at the first rate; from there to a day it rests, then it declines at the second, index/day.
const AT_FIRST: f64 = 6.0;
const FIRST_DECLINE: f64 = 0.032;
const LATER_DECLINE: f64 = 0.016;
/// Temperatures between which it grows, °C.
const GROWS_FROM: f64 = 0.0;
const GROWS_TO: f64 = 50.0;
/// Critical humidity falls up to this temperature, °C.
const FALLS_TO: f64 = 20.0;

/// Humidity from which mold grows at a temperature, %, no less than the least of its class; none where it never does.
pub fn critical_humidity(temperature: f64, least: f64) -> Option<f64> {
    let t = temperature;
    let curve = -0.00267 * t.powi(3) + 0.160 * t.powi(2) - 3.13 * t + 100.0;
    let critical = if t <= FALLS_TO { curve.max(least) } else { least };
    (t > GROWS_FROM && t < GROWS_TO).then_some(critical)
}

/// Mold on a surface over time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mold {
    /// Its index, 0 to 6.
    pub index: f64,
    /// How much of the published decline the surface has: 1 on sawn pine, down to 0.1 on others.
    pub declines: f64,
    dry_hours: f64,
}

impl Mold {
    /// A surface with an index.
    pub const fn new(index: f64) -> Self {
        Self { index, declines: 1.0, dry_hours: 0.0 }
    }

    /// Hours at a temperature, °C, and a relative humidity, %: an hour at a time. Frost counts as too dry.
    pub fn pass(&mut self, class: &MoldClass, temperature: f64, humidity: f64, hours: u32) {
        (0..hours).for_each(|_| self.hour(class, temperature, humidity));
    }

    /// Whether the eye sees it.
    ///
    /// # Errors
    /// A rule the books lack.
    pub fn is_visible(&self, book: &Book) -> Result<bool, LookupError> {
        let from: f64 = book.rule("mold.visible")?.get()?;
        Ok(self.index >= from)
    }

    fn hour(&mut self, class: &MoldClass, temperature: f64, humidity: f64) {
        let humidity = humidity.min(100.0);
        let critical =
            critical_humidity(temperature, class.least_humidity).filter(|least| humidity >= *least);
        if let Some(critical) = critical {
            self.dry_hours = 0.0;
            self.index += growth(class, self.index, temperature, humidity, critical) / DAY_HOURS;
        } else {
            let rate = match self.dry_hours {
                hours if hours < AT_FIRST => FIRST_DECLINE,
                hours if hours < DAY_HOURS => 0.0,
                _ => LATER_DECLINE,
            };
            self.dry_hours += 1.0;
            self.index = (self.index - self.declines * rate / DAY_HOURS).max(0.0);
        }
    }
}

/// How fast it grows, index/day.
fn growth(class: &MoldClass, index: f64, temperature: f64, humidity: f64, critical: f64) -> f64 {
    let [a, b, c] = class.highest;
    let share = if critical < 100.0 { (critical - humidity) / (critical - 100.0) } else { 0.0 };
    let highest = (a + b * share - c * share.powi(2)).max(0.0);
    let speed = if index < 1.0 { class.starts } else { class.goes_on };
    let slows = (1.0 - (2.3 * (index - highest)).exp()).max(0.0);
    // the published fit has two more terms, of spruce and of kiln-dried surfaces, which the revised form leaves out
    let weeks = (-0.68 * temperature.ln() - 13.9 * humidity.ln() + 66.02).exp();
    speed * slows / (7.0 * weeks)
}
