//! The choice of details for places; sections are worked out once for each detail and pitch.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use book::{Book, Choice, Cladding, Detail, LookupError, Stage, Stands};
use job::Job;
use roof::Roof;

use super::site::{Site, Survey};
use super::{Fit, Place, Stood};
use crate::lap::faults;
use crate::section::{Section, Setting};
use crate::stand::{Failure, Stand};

/// What the work takes.
pub(super) struct Desk<'a> {
    survey: Survey<'a>,
    fits: BTreeMap<(String, [u64; 2], Option<Cladding>), Fit>,
}

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
        let Site { at, spot, name, is_wall_assumed, facts_found, facts, slopes, is_there, will_be } = site;
        Ok(Place {
            at,
            spot,
            name,
            is_wall_assumed,
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
            detail.choice != Choice::Refused && wishes.iter().any(|wish| wish.detail == detail.id)
        };
        let asks = |detail: &'a Detail| Some((detail.when.asks(facts)?, detail));
        let of_spot = |detail: &&Detail| detail.at == site.spot && detail.stage == stage;
        let mut details: Vec<(usize, &Detail)> =
            self.survey.book.details().filter(of_spot).filter_map(asks).collect();
        details.sort_by_key(|(asked, detail)| (!is_wished(detail), detail.choice, Reverse(*asked)));
        let fit = |(_, detail): (usize, &Detail)| {
            let cladding = facts.cladding.filter(|_| detail.is_clad());
            let fit = self.fit(detail, Setting { slopes: site.slopes, cladding })?;
            Ok(Fit { is_wished: is_wished(detail), ..fit })
        };
        details.into_iter().map(fit).collect()
    }

    fn fit(&mut self, detail: &Detail, at: Setting) -> Result<Fit, LookupError> {
        let pitches = [at.slopes.first, at.slopes.then].map(|pitch| pitch.slope().to_bits());
        let key = (detail.id.clone(), pitches, at.cladding);
        if let Some(known) = self.fits.get(&key) {
            return Ok(known.clone());
        }
        let section = Section::of(detail, at, self.survey.book)?;
        let fit = Fit {
            detail: detail.id.clone(),
            name: detail.name.clone(),
            at,
            is_pitched: detail.faces.iter().any(|face| face.stands == Stands::Pitched),
            choice: detail.choice,
            is_wished: false,
            stands: Stand::all(&section).iter().map(|stand| stood(stand, &section)).collect(),
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
