//! What becomes of the old roof.

use book::{Because, LookupError, Recover};
use job::{Covering, Figure as Survey, HailExposure, OldRoof};

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
    }

    /// What of flashings and edging goes back on.
    pub(super) fn reused(&mut self) -> Result<(), LookupError> {
        let clause = &self.edition.reuse;
        let asked = "flashing, edging, drains and collars that are rusted, damaged or worn are replaced";
        let ask = Ask::of(Part::Reroofing, "reuse", clause, asked);
        for place in &self.details.places {
            let Some(planned) = self.laid(place, book::Stage::Planned)? else { continue };
            let worn = planned.section.sheets.iter().any(|sheet| sheet.layer.spent);
            let check = Check::new("", Demand::Yes, None, Held::yes_no(!worn));
            let rule = if worn { "a layer past service stays" } else { "every layer is new or sound" };
            let place = if worn { place.name.clone() } else { "every edge and opening".to_owned() };
            self.once(&ask, place, check, vec![because("as planned", [], rule, &of_job())]);
        }
        Ok(())
    }

    /// Adds a row of one check, but a place that it already names only once.
    fn once(&mut self, ask: &Ask<'_>, place: String, check: Check, because: Vec<Because>) {
        if !self.has(ask.rule, &place) {
            self.one(ask, place, check, because);
        }
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
            "the old roof comes off whole",
            &of_job(),
        )];
        reasons.extend(self.assumed("covering.layers"));
        let check = Check::new("", Demand::Yes, None, Held::yes_no(true));
        self.one(&ask, "whole roof".to_owned(), check, reasons);
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
            Check::new("of a kind that may stay", Demand::Yes, None, may_stay(clause, covering.old)),
            layers(clause, covering.layers.as_ref()),
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

fn may_stay(clause: &Recover, old: Option<OldRoof>) -> Held {
    let bars = |old: OldRoof| match old {
        OldRoof::Slate | OldRoof::Tile | OldRoof::AsbestosCement => true,
        OldRoof::WoodShake => clause.shakes_bar,
        OldRoof::Asphalt | OldRoof::WoodShingle | OldRoof::Metal => false,
    };
    yes_no(old.map(|old| !bars(old)), "covering.old")
}

/// A count nobody took decides nothing.
fn layers(clause: &Recover, layers: Option<&Survey<u32>>) -> Check {
    let measured = layers.filter(|layers| layers.basis == job::Basis::Measured);
    let count = measured.map(|layers| Figure::Count(layers.value.into()));
    let most = Demand::AtMost(Figure::Count(clause.most_layers.into()));
    Check::new("layers there now", most, None, Held::or_missing(count, "covering.layers"))
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
