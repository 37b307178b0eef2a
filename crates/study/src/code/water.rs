//! Roof water on soil that swells or gives way.

use job::{Downspout, Empties, Gutter, State};

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn water(&mut self) {
        let clause = &self.edition.discharge;
        let soil = self.job.site.poor_soil;
        let gutters = self.job.gutters.iter().filter(|gutter| gutter.state != State::Remove);
        let spouts: Vec<(&Gutter, &Downspout)> =
            gutters.flat_map(|gutter| gutter.downspouts.iter().map(move |spout| (gutter, spout))).collect();
        let grounded =
            spouts.iter().filter(|(_, spout)| matches!(spout.to, Empties::Ground | Empties::Drain));
        let why = match soil {
            Some(false) => Some("the job says the soil neither swells nor gives way"),
            _ if spouts.is_empty() => Some("the job hangs no gutter with a downspout"),
            _ => None,
        };
        if let Some(why) = why {
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
        for (gutter, spout) in grounded {
            let least = Demand::AtLeast(Figure::Length(*clause.away));
            let check = match (soil, &spout.to) {
                (None, _) => Check::new("away", least, None, Held::Missing("site.poor_soil".to_owned())),
                (_, Empties::Drain) => Check::new("into a drain", Demand::Yes, None, Held::yes_no(true)),
                _ => {
                    let away = spout.away.map(Figure::Length);
                    let missing = format!("gutter.{}.downspouts: away", gutter.name);
                    Check::new("away", least, None, Held::or_missing(away, missing))
                }
            };
            let said =
                because("as planned", [input("soil", soil_word(soil))], "as the job writes it", &of_job());
            self.one(&ask, spout.name.clone(), check, vec![said]);
        }
    }
}

const fn soil_word(soil: Option<bool>) -> &'static str {
    match soil {
        Some(true) => "swells or gives way",
        Some(false) => "holds",
        None => "not written",
    }
}
