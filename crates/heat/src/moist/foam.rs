//! Insulation no air goes through, over insulation air goes through, where a roof has no vents.

use book::thermal::AirtightInsulation;
use book::{Book, LookupError};
use measure::RValue;

/// What a climate zone asks of the airtight part of an unvented roof, against what it has.
#[derive(Clone, Debug, PartialEq)]
pub struct AirtightPart {
    /// Its least resistance by the table of the code.
    pub least: RValue,
    /// Its least share of all insulation, which does the same at any thickness, where that is known.
    pub least_share: Option<f64>,
    /// What it resists.
    pub has: RValue,
    /// Its share of all insulation.
    pub share: f64,
}

impl AirtightPart {
    /// Of a roof in a climate zone; `open` is the insulation under it that air goes through.
    ///
    /// # Errors
    /// A zone the books lack.
    pub fn of(zone: &str, has: RValue, open: RValue, book: &Book) -> Result<Self, LookupError> {
        let AirtightInsulation { resistance, share, .. } = book.thermal().airtight_in(zone)?;
        let all = (has + open).si();
        Ok(Self {
            least: **resistance,
            least_share: share.as_ref().map(|share| share.of_one()),
            has,
            share: if all > 0.0 { has.si() / all } else { 0.0 },
        })
    }

    /// As much as the table asks.
    pub fn meets_table(&self) -> bool {
        self.has >= self.least
    }

    /// As large a share of all, which thick insulation under it needs: the table is for as much as the code asks in all. None where no share is known.
    pub fn meets_share(&self) -> Option<bool> {
        self.least_share.map(|least| self.share >= least)
    }
}
