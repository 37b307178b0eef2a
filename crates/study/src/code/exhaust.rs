//! Where the air of fans ends.
//!
//! # Limits
//! The job does not say which fan goes to which hood. Hoods that are there already serve the fans that end outdoors; new ones serve the others.

use job::{Basis, Fan, FanEnd, OpeningKind, State};

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn exhaust(&mut self) {
        let clause = &self.edition.exhaust;
        let asked = "exhaust ends outdoors, not in attic, soffit, ridge vent or crawl space";
        let ask = Ask::of(Part::Standing, "exhaust", clause, asked);
        let fans = &self.job.fans;
        if fans.is_empty() {
            self.unasked(&clause.clause, "where exhaust ends", "the job lists no fan; look for them");
            return;
        }
        // a hood that is there already serves what ends there already
        let is_new =
            |opening: &job::Opening| opening.kind == OpeningKind::Hood && opening.state == State::Plan;
        let free = self.openings().iter().filter(|(_, opening, _)| is_new(opening)).count();
        let outdoors = fans.iter().filter(|fan| ends(fan) == Some(true)).count();
        let others = fans.len() - outdoors;
        for (index, fan) in fans.iter().enumerate() {
            let found = ends(fan);
            let missing = || format!("fan {}: ends", index + 1);
            let planned = match found {
                Some(true) => Held::yes_no(true),
                _ if free >= others => Held::yes_no(true),
                Some(_) if free == 0 => Held::yes_no(false),
                Some(_) => Held::Missing("which fan goes to which hood".to_owned()),
                None => Held::Missing(missing()),
            };
            let found = Held::or_missing(found.map(Figure::YesNo), missing());
            let check = Check::new("outdoors", Demand::Yes, Some(found), planned);
            let inputs = [
                input("as found it ends in", end_word(fan.ends.value)),
                input("new hoods", free.to_string()),
                input("fans", fans.len().to_string()),
            ];
            let said = because(
                "as planned",
                inputs,
                "a new hood for each fan that does not end outdoors",
                &of_job(),
            );
            self.one(&ask, format!("{} fan {}", fan.room.name(), index + 1), check, vec![said]);
        }
    }
}

/// Whether a fan ends outdoors; none where nobody looked.
fn ends(fan: &Fan) -> Option<bool> {
    let is_known = !matches!(fan.ends.basis, Basis::Assumed { .. });
    is_known.then_some(fan.ends.value == FanEnd::Outdoors)
}

const fn end_word(end: FanEnd) -> &'static str {
    match end {
        FanEnd::Outdoors => "outdoors",
        FanEnd::Attic => "the attic",
        FanEnd::Soffit => "the soffit",
        FanEnd::RidgeVent => "a ridge vent",
    }
}
