//! What every finding on heat works from.

use book::{Book, Edition, Kind as _, LookupError};
use job::{Attic, Basis, Block, Job, Problem, Units};
use measure::{Length, RValue};
use roof::Roof;
use takeoff::Takeoff;

use super::kind::Kind;

/// Job, roof and quantities with the books, and what the adopted edition asks of the way for air.
pub(crate) struct Desk<'a> {
    pub(super) job: &'a Job,
    pub(super) roof: &'a Roof,
    pub(super) takeoff: &'a Takeoff,
    pub(super) book: &'a Book,
    pub(super) edition: &'a Edition,
    pub(super) clear: Length,
}

/// Zones as cold as this make ice at eaves.
const COLD_FROM: u8 = 5;

impl<'a> Desk<'a> {
    pub(crate) fn of(
        (job, book): (&'a Job, &'a Book),
        roof: &'a Roof,
        takeoff: &'a Takeoff,
    ) -> Result<Self, LookupError> {
        let edition = book.edition(&job.site.code)?;
        Ok(Self { job, roof, takeoff, book, edition, clear: *edition.vent_clearance.least })
    }

    /// Whether ice at eaves is to be reckoned with.
    pub(super) fn is_cold(&self) -> bool {
        let zone = self.job.site.climate_zone.as_deref().unwrap_or_default();
        let number = zone.trim_end_matches(char::is_alphabetic).parse::<u8>();
        self.job.site.ice_history.value || number.is_ok_and(|number| number >= COLD_FROM)
    }

    /// What a space is to resist when done: as the job plans it, or what the energy code asks where it plans insulation and does not say how much. None where
    /// nothing is planned, or nobody can tell.
    pub(super) fn target(&self, attic: &Attic) -> Result<Option<RValue>, LookupError> {
        if let Some(planned) = attic.plan.effective.as_ref().filter(|r| r.basis == Basis::Measured) {
            return Ok(Some(planned.value));
        }
        let zone = self.job.site.climate_zone.as_deref().filter(|_| attic.plan.insulation.is_some());
        let Some(zone) = zone else { return Ok(None) };
        let row = self.book.thermal().energy_code_in(self.edition.year, zone)?;
        Ok(Some(*row.ceiling))
    }

    /// The insulation that is to lie there.
    pub(super) fn kind(&self, attic: &Attic) -> Result<Kind<'a>, LookupError> {
        let words = attic.plan.insulation.as_deref().or(attic.found.insulation.as_deref());
        Kind::of(words, self.book)
    }

    /// Insulation as found and as planned: what it resists, of which kind, and the way kept clear over it. What is found is kept where none is planned.
    pub(super) fn insulations(
        &self,
        attic: &Attic,
    ) -> Result<[(Option<RValue>, Kind<'a>, Length); 2], LookupError> {
        let [found, planned] =
            [&attic.found, &attic.plan].map(|state| state.effective.as_ref().map(|r| r.value));
        let before = (found, Kind::of(attic.found.insulation.as_deref(), self.book)?, Length::ZERO);
        let after = if attic.plan.tells_insulation() {
            (planned.or(found), self.kind(attic)?, self.clear)
        } else {
            before
        };
        Ok([before, after])
    }

    pub(super) fn blocks<'s>(&'s self, attic: &'s Attic) -> impl Iterator<Item = &'s Block> {
        self.job.blocks.iter().filter(|block| attic.under.contains(&block.name) && !block.open)
    }

    /// What an inch of closed-cell foam resists.
    pub(super) fn closed_cell(&self) -> RValue {
        self.book.thermal().insulation("foam-closed").map_or(RValue::ZERO, |row| *row.per_inch)
    }

    /// The heel of the books, where they have one.
    pub(super) fn usual_heel(&self) -> Option<Length> {
        Length::of(&self.book.default("attic.heel_height")?.value)
    }

    /// What fuel and people take that nobody wrote.
    pub(super) fn unwritten(&self) -> Vec<Problem> {
        let (house, site) = (&self.job.house, &self.job.site);
        let lacks = [
            (site.heating_degree_days_f.is_none(), "site.heating_degree_days", "what a winter takes of heat"),
            (house.fuel.is_none(), "house.fuel", "what is burnt for it"),
            (house.fuel_price.is_none(), "house.fuel_price", "what that costs"),
            (house.floor_area.is_none(), "house.floor_area", "how much air people need"),
            (site.design_temperature.is_none(), "site.design_temperature", "the coldest hour"),
        ];
        let told = |(_, path, what): (bool, &str, &str)| {
            let message = format!("`{path}` is not written: without it nobody can say {what}");
            Problem::warning("heat-needs", message, format!("write `{path}`"))
        };
        lacks.into_iter().filter(|(lacks, ..)| *lacks).map(told).collect()
    }

    /// A resistance for messages.
    pub(super) fn r(&self, of: RValue) -> String {
        match self.job.units {
            Units::Us => format!("R-{:.0}", of.us()),
            Units::Si => format!("RSI {:.1}", of.si()),
        }
    }
}
