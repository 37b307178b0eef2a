//! Months outdoors, made of what the job says of its climate: a year that goes like a cosine, whose coldest month is so much above the design temperature and whose
//! degree days are those of the place.

use std::f64::consts::TAU;

use book::{Book, LookupError, Share};
use heat::energy::{MonthlyMean, of_trade, usual_base, yearly_spread};
use job::Job;

/// Mean outdoors of a month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Climate {
    /// January to December, °C.
    pub means: [f64; 12],
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

/// Days of the months.
pub(super) const DAYS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

impl Climate {
    /// Of a job with degree days and a design temperature.
    pub(super) fn of(job: &Job, book: &Book) -> Result<Option<Self>, LookupError> {
        let Some((trade, design)) = job.site.heating_degree_days_f.zip(job.site.design_temperature) else {
            return Ok(None);
        };
        let above: f64 = book.rule("climate.cold-month")?.get()?;
        let humidity: Share = book.rule("climate.humidity")?.get()?;
        let (base, wanted, coldest) = (usual_base(book)?.c(), of_trade(trade), design.c() + above);
        let year = |mean: f64| {
            std::array::from_fn(|month| mean - (mean - coldest) * (TAU * month as f64 / 12.0).cos())
        };
        // a warmer year has fewer degree days
        let (mut low, mut high) = (coldest, coldest + MOST);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if degree_days(&year(middle), base) > wanted { low = middle } else { high = middle }
        }
        Ok(Some(Self { means: year(f64::midpoint(low, high)), humidity: humidity.of_one() }))
    }
}

/// The mean of a year is no more above its coldest month, K.
const MOST: f64 = 40.0;
const HALVINGS: usize = 60;

fn degree_days(means: &[f64; 12], base: f64) -> f64 {
    let yearly_spread = yearly_spread(means);
    let months = means.iter().zip(DAYS);
    months.map(|(mean, days)| MonthlyMean { mean: *mean, days, yearly_spread }.heating(base)).sum()
}
