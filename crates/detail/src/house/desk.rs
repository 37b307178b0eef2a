//! The choice of details for places; sections are worked out once for each detail and pitch.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use book::{Book, Choice, Cladding, Detail, LookupError, Stage, Stands, When};
use job::Job;
use roof::Roof;

use super::site::{Site, Survey};
use super::{Fit, Place, Stood};
use crate::attack::Attack;
use crate::lap::faults;
use crate::section::{Section, Setting};
use crate::stand::{Failure, Stand};

/// What the work takes.
pub(super) struct Desk<'a> {
    survey: Survey<'a>,
    fits: BTreeMap<Key, Fit>,
}

/// A detail and where it is cut: pitches and barrier by their bits.
type Key = (String, [u64; 2], Option<Cladding>, Option<u64>);

impl<'a> Desk<'a> {
    pub(super) fn new(roof: &'a Roof, job: &'a Job, book: &'a Book) -> Result<Self, LookupError> {
        let least_pitch = *book.edition(&job.site.code)?.asphalt_shingles.least_pitch;
        // A gutter that has no eave is told by whoever hangs it.
        let at = |gutter: &job::Gutter| Some((water::eave_of(roof, gutter).ok()?, gutter.state));
        let gutters = job.gutters.iter().filter_map(at).collect();
        Ok(Self { survey: Survey { roof, job, book, least_pitch, gutters }, fits: BTreeMap::new() })
    }

    pub(super) fn sites(&self) -> Vec<Site> {
        self.survey.sites()
    }

    pub(super) fn place(&mut self, site: Site) -> Result<Place, LookupError> {
        let found = if site.is_there { self.fitting(&site, Stage::Found)?.into_iter().next() } else { None };
        let planned = if site.will_be { self.fitting(&site, Stage::Planned)? } else { Vec::new() };
        let Site {
            at,
            spot,
            name,
            is_wall_assumed,
            sides,
            facts_found,
            facts,
            slopes,
            is_there,
            will_be,
            ..
        } = site;
        Ok(Place {
            at,
            spot,
            name,
            is_wall_assumed,
            sides,
            facts_found,
            facts,
            slopes,
            is_there,
            will_be,
            found,
            planned,
        })
    }

    /// Details of a stage that fit: the wished one, then the usual ones; the more a detail asks of the place, the earlier.
    fn fitting(&mut self, site: &Site, stage: Stage) -> Result<Vec<Fit>, LookupError> {
        let facts = if stage == Stage::Found { &site.facts_found } else { &site.facts };
        let wishes = &self.survey.job.covering.details;
        let is_wished = |detail: &Detail| {
            detail.choice_at(facts) != Choice::Refused && wishes.iter().any(|wish| wish.detail == detail.id)
        };
        let asks = |detail: &'a Detail| Some((detail.when.asks(facts)?, detail));
        let of_spot = |detail: &&Detail| detail.at == site.spot && detail.stage == stage;
        let mut details: Vec<(usize, &Detail)> =
            self.survey.book.details().filter(of_spot).filter_map(asks).collect();
        details.sort_by_key(|(asked, detail)| (!is_wished(detail), detail.choice_at(facts), Reverse(*asked)));
        let is_assumed = stage == Stage::Found && !self.is_surveyed(site);
        let barrier = site.barrier.filter(|_| stage == Stage::Found);
        let fit = |(_, detail): (usize, &Detail)| {
            let cladding = facts.cladding.filter(|_| detail.is_clad());
            let fit = self.fit(detail, Setting { slopes: site.slopes, cladding, barrier })?;
            let choice = detail.choice_at(facts);
            Ok(Fit { choice, is_wished: is_wished(detail), is_assumed, ..fit })
        };
        details.into_iter().map(fit).collect()
    }

    /// Whether the job tells all that the books ask to know how such a place is met with.
    fn is_surveyed(&self, site: &Site) -> bool {
        let of_spot = |detail: &&Detail| detail.at == site.spot && detail.stage == Stage::Found;
        let asked = || self.survey.book.details().filter(of_spot).map(|detail| &detail.when);
        asked().any(When::asks_any) && asked().all(|when| when.is_settled(&site.known))
    }

    fn fit(&mut self, detail: &Detail, at: Setting) -> Result<Fit, LookupError> {
        let pitches = [at.slopes.first, at.slopes.then].map(|pitch| pitch.slope().to_bits());
        let key = (detail.id.clone(), pitches, at.cladding, at.barrier.map(|up| up.m().to_bits()));
        if let Some(known) = self.fits.get(&key) {
            return Ok(known.clone());
        }
        let section = Section::of(detail, at, self.survey.book)?;
        let with: Result<Vec<Fit>, LookupError> =
            detail.with.iter().map(|id| self.fit(self.survey.book.detail(id)?, at)).collect();
        let with = with?;
        let own: Vec<Stood> = Stand::all(&section).iter().map(|stand| stood(stand, &section)).collect();
        let fit = Fit {
            detail: detail.id.clone(),
            name: detail.name.clone(),
            at,
            is_pitched: detail.faces.iter().any(|face| face.stands == Stands::Pitched),
            choice: detail.choice,
            is_wished: false,
            is_assumed: false,
            stands: with.iter().fold(own, |weaker, fit| weaker_of(&weaker, &fit.stands)),
            with,
            faults: faults(&section),
        };
        self.fits.insert(key, fit.clone());
        Ok(fit)
    }
}

fn stood(stand: &Stand, section: &Section<'_>) -> Stood {
    let names = |set: &BTreeSet<Failure>| set.iter().map(|one| one.name(section)).collect();
    Stood { attack: stand.attack, failures: stand.failures, sets: stand.sets.iter().map(names).collect() }
}

/// Under each attack what stands less; of equals the ways of both.
fn weaker_of(one: &[Stood], other: &[Stood]) -> Vec<Stood> {
    let least = |stood: &Stood| stood.failures.unwrap_or(usize::MAX);
    let under = |attack: Attack| {
        let both: Vec<&Stood> = one.iter().chain(other).filter(|stood| stood.attack == attack).collect();
        let failures = both.iter().min_by_key(|stood| least(stood))?.failures;
        let mut sets: Vec<Vec<String>> = Vec::new();
        for set in both.iter().filter(|stood| stood.failures == failures).flat_map(|stood| &stood.sets) {
            if !sets.contains(set) {
                sets.push(set.clone());
            }
        }
        Some(Stood { attack, failures, sets })
    };
    Attack::ALL.into_iter().filter_map(under).collect()
}
