//! What a survey's words and figures say is wrong with insulation.

use book::{LookupError, Share};
use job::{Attic, AtticState};
use measure::{Area, Length, RValue, UValue};

use super::CEILING;
use crate::heat::desk::Desk;
use crate::heat::kind::Kind;

/// Something that makes insulation resist less than its label.
#[derive(Clone, Debug, PartialEq)]
pub struct Derate {
    /// What it is, and what follows.
    pub what: String,
    /// Share of the resistance that is left, where one figure says it.
    pub keeps: Option<f64>,
    /// Whether the resistance reckoned with has it in.
    pub is_in: bool,
}

/// One state of an attic's survey.
pub(super) struct Survey<'a> {
    pub(super) desk: &'a Desk<'a>,
    pub(super) attic: &'a Attic,
    pub(super) state: &'a AtticState,
    pub(super) is_plan: bool,
}

impl Survey<'_> {
    /// All that is said of insulation with a label and a depth; `is_read` where its resistance was read with all of that in it.
    pub(super) fn derates(
        &self,
        (kind, label, depth): (Kind<'_>, RValue, Length),
        is_read: bool,
    ) -> Result<Vec<Derate>, LookupError> {
        let seen = [self.black(), self.wet()?, self.gaps(label)?, self.compressed(label, depth)];
        let rest = [self.wind_washed()?, loose(kind), self.hatch()];
        let told = seen.into_iter().chain(rest).flatten();
        Ok(told.map(|(what, keeps)| Derate { what, keeps, is_in: is_read || keeps.is_some() }).collect())
    }

    fn says(&self, words: &[&str]) -> bool {
        let said = self.state.condition.as_deref().unwrap_or_default().to_lowercase();
        words.iter().any(|word| said.contains(word))
    }

    fn rule(&self, id: &str) -> Result<f64, LookupError> {
        self.desk.book.rule(id)?.get::<Share>().map(Share::of_one)
    }

    fn black(&self) -> Option<Told> {
        let what = "blackened: air goes through it where it is dark, and fiber filters air but does not stop it; no loss of its own, seal what is below first";
        self.says(&["black", "dirty", "dust"]).then(|| (what.to_owned(), None))
    }

    fn wet(&self) -> Result<Option<Told>, LookupError> {
        let keeps = self.rule("insulation.wet")?;
        let what = "wet: resists next to nothing while it is, and is replaced once the leak is mended";
        Ok(self.says(&["wet", "damp"]).then(|| (what.to_owned(), Some(keeps))))
    }

    fn gaps(&self, label: RValue) -> Result<Option<Told>, LookupError> {
        let (bare, ceiling) = (self.rule("insulation.voids")?, RValue::from_us(CEILING));
        let through = |r: RValue| UValue::from_si(r.si().recip());
        let holed = ::heat::with_voids(through(label + ceiling), through(ceiling), bare);
        let left = (RValue::from_si(holed.si().recip()) - ceiling).max(RValue::ZERO);
        let told = || (format!("gaps: {:.0} % of the ceiling bare", bare * 100.0), Some(left / label));
        Ok(self.says(&["void", "gap", "missing", "moved"]).then(told))
    }

    fn compressed(&self, label: RValue, depth: Length) -> Option<Told> {
        let desk = self.desk;
        let is_in = |of: Length| (of - depth).m().abs() < 0.003;
        let row = desk.book.thermal().batts().find(|row| *row.label == label && is_in(*row.depth))?;
        let what = format!(
            "compressed: {} in {} is {}",
            desk.r(label),
            desk.job.units.lap(depth),
            desk.r(*row.resistance)
        );
        Some((what, Some(*row.resistance / label)))
    }

    fn wind_washed(&self) -> Result<Option<Told>, LookupError> {
        let low = |check: &takeoff::VentCheck| if self.is_plan { check.plan.low } else { check.found.low };
        let mut checks = self.desk.takeoff.vents.iter().filter(|check| check.attic == self.attic.name);
        let is_baffled = self.state.baffles.as_ref().is_some_and(|baffles| baffles.value > 0);
        if is_baffled || !checks.any(|check| low(check) > Area::ZERO) {
            return Ok(None);
        }
        let width: Length = self.desk.book.rule("insulation.wind-washed.width")?.get()?;
        let what = format!(
            "wind-washed: the outer {} at eaves that take air in, without baffles, lose about {:.0} % of theirs",
            self.desk.job.units.length(width),
            self.rule("insulation.wind-washed")? * 100.0
        );
        Ok(Some((what, None)))
    }

    fn hatch(&self) -> Option<Told> {
        let told = || ("hatch: reckoned at its own resistance over its own area".to_owned(), None);
        self.state.hatch.as_ref().map(|_| told())
    }
}

/// What it is, and the share of the resistance it leaves.
type Told = (String, Option<f64>);

fn loose(kind: Kind<'_>) -> Option<Told> {
    let what = "loose glass fiber of low density without a cover may lose up to 40 % at 73 °F between its faces: a cover of cellulose or batts, or a product labelled against \
                it, stops that";
    (kind.is_named && kind.row.id == "glass-fiber").then(|| (what.to_owned(), None))
}
