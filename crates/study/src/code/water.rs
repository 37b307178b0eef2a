//! Roof water on soil that swells or gives way.
//!
//! # Limits
//! Water off an eave without gutter comes down as far from the foundation as its edge stands out over the wall line.

use job::{Downspout, Empties, Gutter, State};
use measure::Length;
use roof::{Edge, EdgeId, EdgeKind};

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};

/// Less of an eave than this over the ground is its end beyond a roof below, metres.
const END: f64 = 0.05;

impl Desk<'_> {
    pub(super) fn water(&mut self) {
        let clause = &self.edition.discharge;
        if self.job.site.poor_soil == Some(false) {
            let why = "the job says the soil neither swells nor gives way";
            self.unasked(&clause.clause, "roof water on poor soil", why);
            return;
        }
        let ask = Ask {
            part: Part::Water,
            rule: "discharge",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "where soil swells or gives way, roof water is let go {} from the foundation or into an approved drain",
                clause.away.text()
            ),
        };
        let hung = || self.job.gutters.iter().filter(|gutter| gutter.state != State::Remove);
        for gutter in hung() {
            self.led_off(&ask, *clause.away, gutter);
        }
        let guttered: Vec<EdgeId> =
            hung().filter_map(|gutter| water::eave_of(self.roof, gutter).ok()).collect();
        let edges = (0..self.roof.edges.len()).map(EdgeId);
        for edge in edges.filter(|edge| drips_on_ground(self.roof.edge(*edge)) && !guttered.contains(edge)) {
            self.dripped(&ask, *clause.away, edge);
        }
    }

    /// What a gutter takes, by its downspouts.
    fn led_off(&mut self, ask: &Ask<'_>, away: Length, gutter: &Gutter) {
        if gutter.downspouts.is_empty() {
            let held = self.on_poor_soil(|| Held::Missing(format!("gutter.{}.downspouts", gutter.name)));
            self.let_go(ask, away, gutter.name.clone(), held);
        }
        for spout in &gutter.downspouts {
            match spout.to {
                Empties::Drain if self.job.site.poor_soil.is_some() => {
                    let check = Check::new("into a drain", Demand::Yes, None, Held::yes_no(true));
                    self.one(ask, spout.name.clone(), check, vec![self.soil()]);
                }
                Empties::Ground | Empties::Drain => {
                    let held = self.on_poor_soil(|| far(gutter, spout));
                    self.let_go(ask, away, spout.name.clone(), held);
                }
                _ => {}
            }
        }
    }

    /// What runs off an eave without gutter.
    fn dripped(&mut self, ask: &Ask<'_>, away: Length, edge: EdgeId) {
        let held = self.on_poor_soil(|| Held::Is(Figure::Length(self.roof.edge(edge).overhang)));
        self.let_go(ask, away, format!("{edge}"), held);
    }

    fn let_go(&mut self, ask: &Ask<'_>, away: Length, place: String, held: Held) {
        let check = Check::new("away", Demand::AtLeast(Figure::Length(away)), None, held);
        self.one(ask, place, check, vec![self.soil()]);
    }

    /// Where nobody wrote what the soil does, nothing can be told.
    fn on_poor_soil(&self, held: impl FnOnce() -> Held) -> Held {
        if self.job.site.poor_soil.is_some() { held() } else { Held::Missing("site.poor_soil".to_owned()) }
    }

    fn soil(&self) -> book::Because {
        let soil = [input("soil", soil_word(self.job.site.poor_soil))];
        because(
            "as planned",
            soil,
            "as the job writes it; off an eave without gutter by its overhang",
            &of_job(),
        )
    }
}

fn far(gutter: &Gutter, spout: &Downspout) -> Held {
    let missing = format!("gutter.{}.downspouts: away", gutter.name);
    Held::or_missing(spout.away.map(Figure::Length), missing)
}

/// Whether water runs off an edge onto the ground, not only onto a roof below.
fn drips_on_ground(edge: &Edge) -> bool {
    let over: Length = edge.over.iter().map(|below| below.length).sum();
    matches!(edge.kind, EdgeKind::Eave | EdgeKind::SkewRake) && (edge.plan_length - over).m() > END
}

const fn soil_word(soil: Option<bool>) -> &'static str {
    match soil {
        Some(true) => "swells or gives way",
        Some(false) => "holds",
        None => "not written",
    }
}
