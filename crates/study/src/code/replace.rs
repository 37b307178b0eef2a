//! What becomes of the old roof.

use book::{LookupError, Recover, Stage};
use job::{Condition, Covering, HailExposure, OldRoof};

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held, Need};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn old_roof(&mut self) {
        let covering = &self.job.covering;
        if covering.over {
            self.recovered(covering);
        } else {
            self.replaced(covering);
        }
        self.over_wood(covering);
    }

    /// Old wood under a new roof: where a space that can burn is left between, it is covered first.
    fn over_wood(&mut self, covering: &Covering) {
        let clause = &self.edition.wood_cover;
        let is_wood = |old: OldRoof| matches!(old, OldRoof::WoodShingle | OldRoof::WoodShake);
        let olds = [covering.old, covering.beneath];
        if !covering.over {
            self.unasked(&clause.clause, "old wood under a new roof", "the old roof comes off");
            return;
        }
        if covering.old.is_some() && !olds.into_iter().flatten().any(is_wood) {
            let why = "the old roof is neither of wood shingles nor of shakes";
            self.unasked(&clause.clause, "old wood under a new roof", why);
            return;
        }
        let asked = "old wood shingles or shakes are covered all over with gypsum board, mineral or glass fiber, or the like, before a roof that leaves a space \
                     which can burn is laid over them";
        let ask = Ask::of(Part::Reroofing, "wood_cover", clause, asked);
        let field = if covering.old.is_some() { "covering.wood_covered" } else { "covering.old" };
        let is_covered = covering.wood_covered.filter(|_| covering.old.is_some());
        let check = Check::new("covered", Demand::Yes, None, yes_no(is_covered, field));
        let rule = "shingles on courses of old wood leave such spaces, unless the official sees none";
        self.one(&ask, "whole roof".to_owned(), check, vec![because("as planned", [], rule, &of_job())]);
    }

    /// What of flashings and edging goes back on: what details keep, and what stays where the old roof does.
    pub(super) fn reused(&mut self) -> Result<(), LookupError> {
        let clause = &self.edition.reuse;
        let asked = "flashing, edging, drains and collars that are rusted, damaged or worn are replaced";
        let ask = Ask::of(Part::Reroofing, "reuse", clause, asked);
        for place in &self.details.places {
            let Some(planned) = self.laid(place, Stage::Planned)? else { continue };
            let layers = || planned.section.sheets.iter().map(|sheet| sheet.layer);
            let (held, rule) = if layers().any(|layer| layer.spent) {
                (Held::yes_no(false), "a layer past service stays")
            } else if layers().any(|layer| layer.reused) {
                (kept(self.job.covering.kept_metal), "old metal is used again")
            } else {
                continue;
            };
            let said = because("as planned", [], rule, &of_job());
            self.one(&ask, place.name.clone(), Check::new("sound", Demand::Yes, None, held), vec![said]);
        }
        if self.job.covering.over {
            let held = kept(self.job.covering.kept_metal);
            let said = because("as planned", [], "what flashes the old roof stays with it", &of_job());
            self.one(&ask, "whole roof".to_owned(), Check::new("sound", Demand::Yes, None, held), vec![said]);
        }
        if !self.asks("reuse") {
            let why = "no detail to be built uses flashing or edging of the old roof again";
            self.unasked(&clause.clause, "re-use of flashing and edging", why);
        }
        Ok(())
    }

    fn replaced(&mut self, covering: &Covering) {
        let clause = &self.edition.replacement;
        let stays = if clause.barrier_may_stay {
            "; an old ice barrier that sticks to it may stay under another"
        } else {
            ""
        };
        let asked = format!("all old layers come off, down to the deck{stays}");
        let ask = Ask {
            part: Part::Reroofing,
            rule: "replacement",
            clause: &clause.clause,
            source: &clause.source,
            asked,
        };
        let layers = covering.layers.as_ref().map_or("not written".to_owned(), |n| n.value.to_string());
        let mut reasons = vec![because(
            "as planned",
            [input("layers found", layers)],
            "the job does not lay the new roof over the old one, so that comes off whole",
            &of_job(),
        )];
        reasons.extend(self.assumed("covering.layers"));
        let mut checks = vec![Check::new("old layers off", Demand::Yes, None, Held::yes_no(true))];
        if covering.barrier_stays {
            // what stays is covered only where a new barrier is laid
            let (what, is) = if clause.barrier_may_stay {
                ("old ice barrier under a new one", self.takeoff.ice.asked)
            } else {
                ("old ice barrier off", false)
            };
            checks.push(Check::new(what, Demand::Yes, None, Held::yes_no(is)));
        }
        self.row(&ask, "whole roof".to_owned(), checks, Need::All, reasons);
        let recover = &self.edition.recover;
        let too_many = covering.layers.as_ref().is_some_and(|n| n.value > recover.most_layers);
        let refused = if too_many { ", and could not be laid over" } else { "" };
        self.unasked(
            &recover.clause,
            "a new roof over the old one",
            format!("the old roof comes off{refused}"),
        );
    }

    fn recovered(&mut self, covering: &Covering) {
        let clause = &self.edition.recover;
        let asked = format!(
            "no new roof over one that is soaked or too far gone, over slate, tile or the like{}, or over more than {} layer{}",
            if clause.shakes_bar { " or wood shakes" } else { "" },
            clause.most_layers,
            if clause.hail_bars { ", nor asphalt over asphalt where hail is moderate or severe" } else { "" },
        );
        let ask = Ask {
            part: Part::Reroofing,
            rule: "recover",
            clause: &clause.clause,
            source: &clause.source,
            asked,
        };
        let mut checks = vec![
            Check::new("firm and dry enough", Demand::Yes, None, yes_no(covering.sound, "covering.sound")),
            Check::new("of a kind that may stay", Demand::Yes, None, may_stay(clause, covering)),
            layers(clause, covering),
        ];
        if clause.hail_bars {
            let hail = hail_lets(covering.old, self.job.site.hail_exposure);
            checks.push(Check::new("hail allows it", Demand::Yes, None, hail));
        }
        let said = because("as planned", [], "the new roof is laid over the old one", &of_job());
        self.row(&ask, "whole roof".to_owned(), checks, Need::All, vec![said]);
        self.unasked(
            &self.edition.replacement.clause.clone(),
            "taking the old roof off",
            "the new roof is laid over the old one",
        );
    }
}

fn yes_no(is: Option<bool>, field: &str) -> Held {
    Held::or_missing(is.map(Figure::YesNo), field)
}

fn may_stay(clause: &Recover, covering: &Covering) -> Held {
    let bars = |old: OldRoof| match old {
        OldRoof::Slate | OldRoof::Tile | OldRoof::AsbestosCement => true,
        OldRoof::WoodShake => clause.shakes_bar,
        OldRoof::Asphalt | OldRoof::WoodShingle | OldRoof::Metal => false,
    };
    match (covering.old, covering.beneath) {
        (_, Some(beneath)) if bars(beneath) => Held::yes_no(false),
        (old, _) => yes_no(old.map(|old| !bars(old)), "covering.old"),
    }
}

/// A count nobody took decides nothing, but what lies beneath the old roof makes two.
fn layers(clause: &Recover, covering: &Covering) -> Check {
    let measured = covering.layers.as_ref().filter(|layers| layers.basis == job::Basis::Measured);
    let least = covering.beneath.map(|_| 2);
    let count = measured.map(|layers| layers.value).or(least).map(|count| Figure::Count(count.into()));
    let most = Demand::AtMost(Figure::Count(clause.most_layers.into()));
    Check::new("layers there now", most, None, Held::or_missing(count, "covering.layers"))
}

/// Whether old metal that stays is fit to.
fn kept(condition: Option<Condition>) -> Held {
    yes_no(condition.map(|condition| condition == Condition::Sound), "covering.kept_metal")
}

fn hail_lets(old: Option<OldRoof>, hail: Option<HailExposure>) -> Held {
    match (old, hail) {
        (_, Some(HailExposure::Low)) => Held::yes_no(true),
        (Some(old), _) if old != OldRoof::Asphalt => Held::yes_no(true),
        (Some(_), Some(_)) => Held::yes_no(false),
        (None, Some(_)) => Held::Missing("covering.old".to_owned()),
        (_, None) => Held::Missing("site.hail_exposure".to_owned()),
    }
}
