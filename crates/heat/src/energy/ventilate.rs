//! Air that comes in by itself, and air that has to.

use book::thermal::{CombustionLimit, Shelter, Stack};
use book::{Book, LookupError};
use measure::{Area, Flow, Length, Pressure, TemperatureDifference};

/// A story of a house, whose leaks are as they are (ASHRAE 62.2-2016; from memory).
const STORY: Length = Length::from_ft(8.2);
const BY_HEIGHT: f64 = 0.4;
/// Leakage of a house by floor, times a factor of the weather, over this is cubic feet a minute for each square foot (as above).
const LEAKAGE_TO_FLOW: f64 = 7.3;
/// The most of the need that leaks may meet by the edition of 2013 (seen).
const MOST_OF_NEED: f64 = 2.0 / 3.0;

/// Air driven through leaks by warmth and wind: A·√(Cs·|Δt| + Cw·v²), in whatever units the coefficients are of (ASHRAE Handbook Fundamentals, chapter 16,
/// basic model; from memory).
pub fn driven(area: f64, [stack, wind]: [f64; 2], difference: f64, speed: f64) -> f64 {
    area * (stack * difference.abs() + wind * speed.powi(2)).sqrt()
}

/// The same in the units of the books: leaks by their area at 4 Pa, wind at the local station in m/s.
pub fn infiltration(
    leaks: Area,
    (stack, shelter): (&Stack, &Shelter),
    difference: TemperatureDifference,
    speed: f64,
) -> Flow {
    let cm2 = leaks.m2() * 1e4;
    let wind = shelter.wind[usize::from(stack.stories.clamp(1, 3)) - 1];
    Flow::from_l_s(driven(cm2, [stack.warmth, wind], difference.k(), speed))
}

/// Air the people of a house need: by its floor and its bedrooms, one person more than these (ASHRAE 62.2, by the rules of the books).
///
/// # Errors
/// A rule the books lack.
pub fn ventilation_need(floor: Area, bedrooms: u32, book: &Book) -> Result<Flow, LookupError> {
    let by_area: f64 = book.rule("ventilation.by-area")?.get()?;
    let by_person: f64 = book.rule("ventilation.by-person")?.get()?;
    Ok(Flow::from_cfm(by_area * floor.ft2() + by_person * (f64::from(bedrooms) + 1.0)))
}

/// Leakage of a house set against its floor and height (ASHRAE 62.2-2016; from memory).
pub fn normalized_leakage(leaks: Area, floor: Area, height: Length) -> f64 {
    1000.0 * (leaks / floor) * (height / STORY).powf(BY_HEIGHT)
}

/// How much of the need leaks are let meet. Editions differ: without a word of the official, none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Credit {
    /// Fans meet all of it.
    #[default]
    None,
    /// All leaks, up to two thirds of the need: the edition of 2013, houses not new.
    UpToTwoThirds,
    /// Leaks by their share of the need, all of them where fans blow in as much as out: from 2016, detached houses.
    ByBalance {
        /// Fans blow in as much as out.
        balanced: bool,
    },
}

impl Credit {
    /// What fans have to move: the need less what leaks, by their normalized leakage and the factor of the weather, are let meet.
    pub fn fan(self, need: Flow, normalized: f64, weather: f64, floor: Area) -> Flow {
        let leaks = Flow::from_cfm(normalized * weather * floor.ft2() / LEAKAGE_TO_FLOW);
        let met = match self {
            Self::None => Flow::ZERO,
            Self::UpToTwoThirds => leaks.min(need * MOST_OF_NEED),
            Self::ByBalance { balanced: true } => leaks,
            Self::ByBalance { balanced: false } => leaks * (leaks / need).min(1.0),
        };
        (need - met).max(Flow::ZERO)
    }
}

/// Of what burns in a house, what is drawn on too far where fans lower its pressure so far below outdoors; those that take least first. Whoever seals a house has
/// it tested for spillage by a qualified person all the same: limits are those of programs, not of the house.
pub fn drawn_too_far<'a>(pressure: Pressure, burns: &[&'a CombustionLimit]) -> Vec<&'a CombustionLimit> {
    let mut beyond: Vec<&CombustionLimit> =
        burns.iter().copied().filter(|limit| pressure.pa() < limit.lowest.pa()).collect();
    beyond.sort_by(|a, b| b.lowest.pa().total_cmp(&a.lowest.pa()));
    beyond
}
