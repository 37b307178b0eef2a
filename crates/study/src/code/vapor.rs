//! Vapor retarders on the warm side, and roofs without vents: judged by [`crate::heat`], which tells them in its own words; here they take their place among the clauses.
//!
//! # Limits
//! The clause on retarders speaks of walls. A ceiling that does as it says passes; whether it is asked of one that does not is for the official to say. Insulation of
//! bays and against decks is all of one kind, as the job names it: layers of foam under fibers cannot be written.

use book::LookupError;
use book::thermal::RetarderCode;
use job::Attic;

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held, Judged, Need, Verdict};
use super::{Figure, Part};
use crate::heat::{Desk as HeatDesk, Standing, Touching, judged};

const WHAT: &str = "vapor retarder on the warm side";

impl<'a> Desk<'a> {
    pub(super) fn vapor(&mut self) -> Result<(), LookupError> {
        let (job, heat) = (self.job, self.heat()?);
        for attic in &job.attics {
            let name = format!("attic {}", attic.name);
            let (row, standing) = judged(&heat, attic)?;
            match row {
                Some(row) => self.retarder(attic, (row, standing), &name),
                None => self.no_zone(&name),
            }
            self.unvented(&heat, attic, standing, &name)?;
        }
        Ok(())
    }

    fn heat(&self) -> Result<HeatDesk<'a>, LookupError> {
        HeatDesk::of((self.job, self.book), self.roof, self.takeoff)
    }

    fn retarder(&mut self, attic: &Attic, (row, standing): (&RetarderCode, Standing), name: &str) {
        let zone = self.job.site.climate_zone.as_deref().unwrap_or_default();
        let Some(least) = wanted(row) else {
            let why = format!("nothing is asked of walls in zone {zone}");
            return self.unasked(&row.clause, WHAT, why);
        };
        if standing == Standing::ShutIn {
            let why = format!("{name} has no vents: {} bars its class", self.edition.unvented.clause);
            return self.unasked(&row.clause, WHAT, why);
        }
        let ask = Ask {
            part: Part::Attic,
            rule: "retarder_code",
            clause: &row.clause,
            source: &row.source,
            asked: format!("on the warm side of walls in zone {zone}: {least}; the yardstick of ceilings"),
        };
        let field = format!("attic.{}.vapor_retarder", attic.name);
        let is_met = matches!(standing, Standing::Meets | Standing::NothingAsked);
        let judged = if self.is_assumed(&field) {
            Demand::Yes.judge(Held::Missing(field.clone()))
        } else if is_met {
            Demand::Yes.judge(Held::yes_no(true))
        } else {
            let missing = format!("whether the official asks it of ceilings: {}", standing.words());
            Judged { provided: Some(Figure::YesNo(false)), verdict: Verdict::CannotTell { missing } }
        };
        let check = Check {
            what: least,
            demand: Demand::Yes,
            found: Some(judged.clone()),
            is_usual: false,
            planned: judged,
        };
        let class = attic.vapor_retarder.map_or_else(|| "none".to_owned(), |class| format!("class {class}"));
        let said = because(
            "as planned",
            [input("vapor retarder", class)],
            "as the job writes it; the work does not change it",
            &of_job(),
        );
        let reasons = std::iter::once(said).chain(self.assumed(&field)).collect();
        self.one(&ask, name.to_owned(), check, reasons);
    }

    /// A retarder in a zone nobody wrote, by what the edition asks elsewhere.
    fn no_zone(&mut self, name: &str) {
        let (book, year) = (self.book, self.edition.year);
        let rows = book.thermal().retarder_codes().filter(|row| row.from <= year);
        let Some(row) = rows.max_by_key(|row| row.from) else { return };
        let ask = Ask {
            part: Part::Attic,
            rule: "retarder_code",
            clause: &row.clause,
            source: &row.source,
            asked:
                "on the warm side of walls a vapor retarder by the climate zone; the yardstick of ceilings"
                    .to_owned(),
        };
        let held = || Held::Missing("site.climate_zone".to_owned());
        let check = Check::new(WHAT, Demand::Yes, Some(held()), held());
        self.one(&ask, name.to_owned(), check, Vec::new());
    }

    fn unvented(
        &mut self,
        heat: &HeatDesk<'_>,
        attic: &Attic,
        standing: Standing,
        name: &str,
    ) -> Result<(), LookupError> {
        let clause = &self.edition.unvented;
        let touching = Touching::of(heat, attic)?;
        let shut = touching.as_ref().filter(|touching| !touching.is_vented);
        if shut.is_none() && standing != Standing::ShutIn {
            let why = match touching {
                Some(_) => format!("air goes over the insulation of {name}"),
                None => format!("no insulation is planned against the deck of {name}"),
            };
            self.unasked(&clause.clause, "roofs without vents", why);
            return Ok(());
        }
        let asked = "a roof without vents: against its deck insulation that no air goes through, by the climate zone, and below it no vapor retarder of class 1; or vents, low and above";
        let ask = Ask::of(Part::Attic, "unvented", clause, asked);
        let unsaid = (!attic.says_soffits()).then(|| format!("attic.{}.found.soffit_open", attic.name));
        let field = format!("attic.{}.vapor_retarder", attic.name);
        let unknown = unsaid.clone().or_else(|| self.is_assumed(&field).then_some(field));
        let below = unknown.map_or_else(|| Held::yes_no(standing != Standing::ShutIn), Held::Missing);
        let mut checks = vec![Check::new("no class 1 below", Demand::Yes, None, below)];
        let mut reasons = Vec::new();
        if let Some(shut) = shut {
            checks.insert(0, airtight(shut, heat, unsaid)?);
            let words = attic.plan.insulation.as_deref().or(attic.found.insulation.as_deref());
            let inputs = [input("insulation", words.unwrap_or("not named"))];
            reasons.push(because("as planned", inputs, "foam lets no air through, fibers do", &of_job()));
        }
        self.row(&ask, name.to_owned(), checks, Need::All, reasons);
        Ok(())
    }

    /// Whether a space is planned without vents, and may be.
    pub(super) fn goes_without(&self, attic: &Attic) -> Result<bool, LookupError> {
        let heat = self.heat()?;
        let check = self.takeoff.vents_of(attic);
        let has_none = check.is_some_and(|check| check.plan.total.m2() <= 0.0);
        let Some(touching) = Touching::of(&heat, attic)?.filter(|_| has_none && attic.says_soffits()) else {
            return Ok(false);
        };
        let is_enough = touching.airtight(&heat)?.is_some_and(|part| part.meets_table());
        Ok(is_enough && judged(&heat, attic)?.1 != Standing::ShutIn)
    }
}

/// What a row wants of a retarder, in words; none where it wants nothing.
fn wanted(row: &RetarderCode) -> Option<String> {
    let bars: Vec<String> = row.bars.iter().map(u8::to_string).collect();
    let bars = bars.join(" or ");
    Some(match row.asks {
        Some(class) if bars.is_empty() => format!("vapor retarder of class {class} or tighter"),
        Some(class) => format!("vapor retarder of class {class} or tighter, not of class {bars}"),
        None if bars.is_empty() => return None,
        None => format!("no vapor retarder of class {bars}"),
    })
}

/// Insulation no air goes through against what the zone asks of it, as [`heat::moist::AirtightPart`] judges it.
fn airtight(shut: &Touching<'_>, heat: &HeatDesk<'_>, unsaid: Option<String>) -> Result<Check, LookupError> {
    let what = "insulation no air goes through";
    let Some(part) = shut.airtight(heat)? else {
        return Ok(Check::new(what, Demand::Yes, None, Held::Missing("site.climate_zone".to_owned())));
    };
    let verdict = match unsaid {
        Some(missing) => Verdict::CannotTell { missing },
        None if part.meets_table() => Verdict::Pass,
        None => Verdict::Fail,
    };
    Ok(Check {
        what: what.to_owned(),
        demand: Demand::AtLeast(Figure::Resistance(part.least)),
        found: None,
        is_usual: false,
        planned: Judged { provided: Some(Figure::Resistance(part.has)), verdict },
    })
}
