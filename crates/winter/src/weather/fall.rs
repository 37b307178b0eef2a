//! Rain and snow: totals of several hours, what observers saw, and totals of months.

use super::Hour;
use super::filled::{Filled, How, What};

/// All that falls in each month, kg/m², January first.
pub type Totals = [f64; 12];

/// Air in which some of what falls is snow and some is rain, °C: all snow at the first, all rain at the second, a straight line between (a rule of many snow
/// models; chosen).
pub const FREEZING_RANGE: [f64; 2] = [0.0, 2.0];
/// The most that falls in an hour, kg/m²; in longer times as their root (about a storm of a hundred years in the wettest snow country; assumed).
const MOST: f64 = 75.0;
/// A month in which less than this share of its total was read was not read.
const READ: f64 = 1.0 / 3.0;
/// It rains or snows in one of so many hours of a month, where nothing tells when (assumed).
const DAMP: usize = 10;
/// Totals are rounded to this, kg/m².
const ROUNDED: f64 = 1.0;
/// Longest total that is spread, hours.
const LONGEST: u8 = 48;

/// What was read of precipitation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fallen {
    /// How much, kg/m².
    pub water: f64,
    /// In how many hours up to the end of this one.
    pub hours: u8,
}

/// What an observer saw falling: how heavily, in shares of light rain, which is about 1 kg/m² in an hour.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seen {
    /// Rain, drizzle.
    pub rain: f64,
    /// Snow, ice pellets.
    pub snow: f64,
}

impl Seen {
    fn all(self) -> f64 {
        self.rain + self.snow
    }
}

/// Share of what falls that is snow, in air of a temperature in °C.
pub fn snow_share(temperature: f64) -> f64 {
    let [cold, warm] = FREEZING_RANGE;
    ((warm - temperature) / (warm - cold)).clamp(0.0, 1.0)
}

/// What falls in each hour, kg/m², by totals up to the end of hours: shorter totals first, what is left of a longer one goes to the hours without.
pub(super) fn hourly(
    read: &[Option<Fallen>],
    seen: &[Option<Seen>],
    filled: &mut Filled,
) -> Vec<Option<f64>> {
    let mut amounts: Vec<Option<f64>> = vec![None; read.len()];
    let mut bad = vec![false; read.len()];
    let mut order: Vec<(u8, usize, f64)> = read
        .iter()
        .enumerate()
        .filter_map(|(at, fallen)| fallen.map(|fallen| (fallen.hours, at, fallen.water)))
        .collect();
    order.sort_by_key(|(hours, at, _)| (*hours, *at));
    for (hours, at, water) in order {
        let window = (at + 1).saturating_sub(usize::from(hours))..at + 1;
        let most = MOST * f64::from(hours).sqrt();
        // a total is no better than a bad reading in it
        let is_sound = (0.0..=most).contains(&water) && (1..=LONGEST).contains(&hours);
        if !is_sound || bad[window.clone()].contains(&true) {
            filled.add(What::Precipitation, How::Dropped);
            bad[at] = true;
            continue;
        }
        spread(water, window, &mut amounts, seen, filled);
    }
    amounts
}

fn spread(
    water: f64,
    window: std::ops::Range<usize>,
    amounts: &mut [Option<f64>],
    seen: &[Option<Seen>],
    filled: &mut Filled,
) {
    let known: f64 = amounts[window.clone()].iter().flatten().sum();
    let open: Vec<usize> = window.clone().filter(|at| amounts[*at].is_none()).collect();
    let left = (water - known).max(0.0);
    let saw = |at: &usize| seen[*at].map_or(0.0, Seen::all);
    let any: f64 = open.iter().map(saw).sum();
    if open.is_empty() && left > ROUNDED {
        // shorter totals tell all of it, and less: they stand
        filled.add(What::Precipitation, How::LeftOut);
    }
    for at in &open {
        let share = if any > 0.0 { saw(at) / any } else { 1.0 / open.len() as f64 };
        amounts[*at] = Some(left * share);
        if left > 0.0 && window.len() > 1 {
            filled.add(What::Precipitation, How::Spread);
        }
    }
}

/// Takes what was seen for what fell, where no depth was read in all the year: light rain for 1 kg/m² in an hour.
pub(super) fn as_seen(amounts: &mut [f64], seen: &[Option<Seen>], filled: &mut Filled) {
    for (amount, seen) in amounts.iter_mut().zip(seen) {
        *amount = seen.map_or(0.0, Seen::all);
        if *amount > 0.0 {
            filled.add(What::Precipitation, How::Reported);
        }
    }
}

/// Brings the months to their totals: what was read is multiplied; where too little was read, what observers saw or the dampest hours take it.
pub(super) fn to_totals(
    amounts: &mut [f64],
    seen: &[Option<Seen>],
    hours: &[Hour],
    totals: &Totals,
    filled: &mut Filled,
) {
    for (month, total) in (1..=12_u8).zip(totals) {
        let here: Vec<usize> = (0..hours.len()).filter(|at| hours[*at].date.month() == month).collect();
        let read: f64 = here.iter().map(|at| amounts[*at]).sum();
        let saw: f64 = here.iter().filter_map(|at| seen[*at]).map(Seen::all).sum();
        let (weights, how): (Vec<f64>, How) = if read > 0.0 && read >= READ * total {
            (here.iter().map(|at| amounts[*at]).collect(), How::Scaled)
        } else if saw > 0.0 {
            (here.iter().map(|at| seen[*at].map_or(0.0, Seen::all)).collect(), How::Reported)
        } else {
            (dampest(&here, hours), How::Damp)
        };
        let all: f64 = weights.iter().sum();
        for (at, weight) in here.into_iter().zip(weights) {
            amounts[at] = if all > 0.0 { total * weight / all } else { 0.0 };
            if amounts[at] > 0.0 {
                filled.add(What::Precipitation, how);
            }
        }
    }
}

/// 1 for the hours whose air is nearest to its dew point, 0 for others.
fn dampest(here: &[usize], hours: &[Hour]) -> Vec<f64> {
    let dry = |at: &usize| hours[*at].temperature - hours[*at].dew_point;
    let mut order = here.to_vec();
    order.sort_by(|a, b| dry(a).total_cmp(&dry(b)).then(a.cmp(b)));
    order.truncate(here.len().div_ceil(DAMP));
    order.sort_unstable();
    here.iter().map(|at| f64::from(u8::from(order.binary_search(at).is_ok()))).collect()
}

/// Rain and snow of an hour: as seen, else by temperature.
pub(super) fn parted(water: f64, seen: Option<Seen>, temperature: f64, filled: &mut Filled) -> [f64; 2] {
    if water <= 0.0 {
        return [0.0; 2];
    }
    let (share, how) = match seen.filter(|seen| seen.all() > 0.0) {
        Some(seen) => (seen.snow / seen.all(), How::Reported),
        None => (snow_share(temperature), How::Derived),
    };
    filled.add(What::Phase, how);
    [water * (1.0 - share), water * share]
}
