//! Days of the calendar, without a clock.

/// Days before each month of a year without leap day, and in all.
const BEFORE: [u16; 13] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365];

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: i32,
    month: u8,
    day: u8,
}

/// Whether a year of the Gregorian calendar has a leap day.
pub fn is_leap(year: i32) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

/// Days of a month (1 to 12) of a year without leap day; 0 for what is no month.
pub fn days_in(month: u8) -> u8 {
    let month = usize::from(month);
    let is_month = (1..=12).contains(&month);
    if is_month { u8::try_from(BEFORE[month] - BEFORE[month - 1]).unwrap_or(0) } else { 0 }
}

impl Date {
    /// A day of the Gregorian calendar from 1600 to 2500; none where there is no such day.
    pub fn new(year: i32, month: u8, day: u8) -> Option<Self> {
        let leap = u8::from(month == 2 && is_leap(year));
        let is_day = (1..=days_in(month) + leap).contains(&day) && days_in(month) > 0;
        ((1600..=2500).contains(&year) && is_day).then_some(Self { year, month, day })
    }

    /// The year.
    pub fn year(self) -> i32 {
        self.year
    }

    /// The month, 1 to 12.
    pub fn month(self) -> u8 {
        self.month
    }

    /// The day of the month, from 1.
    pub fn day(self) -> u8 {
        self.day
    }

    /// Whether it is 29 February.
    pub fn is_leap_day(self) -> bool {
        self.month == 2 && self.day == 29
    }

    /// The day of a year without leap day, from 1; 29 February counts as 28 February does.
    pub fn of_year(self) -> u16 {
        BEFORE[usize::from(self.month) - 1] + u16::from(self.day).min(u16::from(days_in(self.month)))
    }

    /// Julian day number at noon of it, as astronomers count (Fliegel and Van Flandern 1968).
    pub fn julian_day(self) -> i32 {
        let (year, month, day) = (self.year, i32::from(self.month), i32::from(self.day));
        let early = (month - 14) / 12;
        (1461 * (year + 4800 + early)) / 4 + (367 * (month - 2 - 12 * early)) / 12
            - (3 * ((year + 4900 + early) / 100)) / 4
            + day
            - 32_075
    }

    /// The day of a year (from 1) that has no leap day, in a year given; the last day for what lies beyond.
    pub fn of(year: i32, day_of_year: u16) -> Self {
        let day = day_of_year.clamp(1, 365);
        let month = (1..=12).rev().find(|month| BEFORE[month - 1] < day).unwrap_or(1);
        let narrow = |n: u16| u8::try_from(n).unwrap_or(1);
        let month_number = u8::try_from(month).unwrap_or(1);
        Self { year: year.clamp(1600, 2500), month: month_number, day: narrow(day - BEFORE[month - 1]) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_that_are_none_are_refused() {
        for (year, month, day) in
            [(2021, 2, 29), (1900, 2, 29), (2021, 13, 1), (2021, 0, 1), (2021, 4, 31), (2021, 4, 0)]
        {
            assert_eq!(Date::new(year, month, day), None);
        }
        assert!(Date::new(2000, 2, 29).unwrap().is_leap_day());
    }

    #[test]
    fn every_day_of_a_year_is_counted_once() {
        let days: Vec<u16> = (1..=365).map(|day| Date::of(2021, day).of_year()).collect();
        assert_eq!(days, (1..=365).collect::<Vec<_>>());
        let first = Date::of(2021, 1).julian_day();
        assert!((1..=365).all(|day| Date::of(2021, day).julian_day() == first + i32::from(day) - 1));
        // noon of 1 January 2000 begins the day astronomers count from
        assert_eq!(Date::new(2000, 1, 1).unwrap().julian_day(), 2_451_545);
    }
}
