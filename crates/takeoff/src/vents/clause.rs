//! What the adopted edition requires of an attic, and under which conditions less will do.
//!
//! # Clause
//! IRC R806.2. The part that sits high must be at least so much of the required area and at most so much of what is
//! provided: more intake than asked does no harm, more exhaust than intake does not pass. What is of unknown height counts against
//! both: not towards the least, but towards the most.

use book::{AtticVents, Because, HighPlace, Needs};
use job::Attic;
use measure::Area;

use super::{Applies, Condition, Vented, Verdict};
use crate::case::Case;
use crate::line::{because, input};
use crate::words::percent;

/// What an edition requires of an attic.
pub(super) struct Needed {
    pub(super) required: Area,
    pub(super) reduced: Area,
}

/// What an attic has.
pub(super) struct Provided {
    pub(super) low: Area,
    pub(super) high: Area,
    /// Of unknown height.
    pub(super) unknown: Area,
    pub(super) total: Area,
}

impl Needed {
    pub(super) fn because(&self, case: &Case<'_>, space: Area) -> Because {
        let clause = &case.edition.attic_vents;
        let inputs = [
            input("vented space", case.words.area(space)),
            input(format!("1/{}", clause.divisor), case.words.vent(self.required)),
            input(format!("1/{} under conditions", clause.reduced_divisor), case.words.vent(self.reduced)),
        ];
        let rule = format!(
            "{} of {}: net free area over the area of the vented space",
            clause.clause, case.edition.name
        );
        because("net free area required", inputs, rule, clause.source.clone())
    }
}

/// Whether the conditions for the reduced area are met.
pub(super) fn is_excepted(clause: &AtticVents, conditions: &[Condition]) -> bool {
    match clause.reduced_needs {
        Needs::All => conditions.iter().all(|condition| condition.met || condition.applies == Applies::No),
        Needs::Any => conditions.iter().any(|condition| condition.met && condition.applies == Applies::Yes),
    }
}

pub(super) fn verdict(excepted: bool, total: Area, needs: &Needed) -> Verdict {
    let is_enough = |needed: Area| total.m2() >= needed.m2() * (1.0 - 1e-9);
    match (is_enough(needs.required), is_enough(needs.reduced) && excepted) {
        (true, _) => Verdict::Enough,
        (false, true) => Verdict::EnoughByException,
        (false, false) => Verdict::NotEnough,
    }
}

/// The conditions under which the reduced area is enough.
pub(super) fn conditions(
    case: &Case<'_>,
    attic: &Attic,
    provided: &Provided,
    needs: &Needed,
) -> Vec<Condition> {
    vec![high_enough(case, provided, needs), retarder(case, attic)]
}

/// Enough of the required area high, and no more of what is provided than the clause allows.
fn high_enough(case: &Case<'_>, provided: &Provided, needs: &Needed) -> Condition {
    /// A hair of the arithmetic, so that just enough is enough.
    const HAIR: f64 = 1.0 + 1e-9;
    let clause = &case.edition.attic_vents;
    let (least, most) = (&clause.high_share.least, &clause.high_share.most);
    let place = match &clause.high_place {
        HighPlace::AboveEaveVents(height) => format!("at least {height} above the eave vents"),
        HighPlace::BelowRidge(depth) => format!("within {depth} of the ridge"),
    };
    let Provided { low, high, unknown, total } = *provided;
    let found = if needs.reduced > Area::ZERO { percent(high / needs.reduced) } else { percent(0.0) };
    let besides = if unknown > Area::ZERO {
        format!(", and {} of unknown height, counted against it both ways", case.words.vent(unknown))
    } else {
        String::new()
    };
    let rest = if clause.rest_low { ", the rest of what is required in the bottom third" } else { "" };
    let required_low = needs.reduced - high.min(needs.reduced * most.of_one());
    Condition {
        what: format!(
            "at least {least} of the required area {place}, and at most {most} of what is provided{rest}; \
             here {found} of the required area{besides}"
        ),
        applies: Applies::Yes,
        met: high * HAIR >= needs.reduced * least.of_one()
            && high + unknown <= total * (most.of_one() * HAIR)
            && (!clause.rest_low || low * HAIR >= required_low),
    }
}

fn retarder(case: &Case<'_>, attic: &Attic) -> Condition {
    let asked = &case.edition.attic_vents.retarder;
    Condition {
        what: format!("vapour retarder of class {} or tighter on the warm side of the ceiling", asked.class),
        applies: asked.from_zone.map_or(Applies::Yes, |from| zone_from(case, from)),
        met: attic.vapor_retarder.is_some_and(|class| class <= asked.class),
    }
}

/// Whether the house stands in a climate zone or a colder one.
fn zone_from(case: &Case<'_>, from: u8) -> Applies {
    let digits =
        |zone: &String| zone.chars().take_while(char::is_ascii_digit).collect::<String>().parse::<u8>().ok();
    match case.job.site.climate_zone.as_ref().and_then(digits) {
        Some(zone) if zone >= from => Applies::Yes,
        Some(_) => Applies::No,
        None => Applies::ZoneUnknown,
    }
}

pub(super) fn conditions_because(case: &Case<'_>, plan: &Vented) -> Because {
    let clause = &case.edition.attic_vents;
    let any_is_enough = clause.reduced_needs == Needs::Any;
    let word = |condition: &Condition| match (condition.applies, condition.met) {
        (Applies::No, _) => "not asked in this climate zone",
        // Where all are asked, it is met whatever the zone; where one will do, it may not be one of them.
        (Applies::ZoneUnknown, true) if any_is_enough => {
            "would be met; the job does not say the climate zone"
        }
        (_, true) => "met",
        (Applies::Yes, false) => "not met",
        (Applies::ZoneUnknown, false) => "not met; the job does not say the climate zone",
    };
    let inputs: Vec<_> =
        plan.conditions.iter().map(|condition| input(&condition.what, word(condition))).collect();
    let how_many = if any_is_enough { "any one of these" } else { "all of these" };
    let rule = format!(
        "{} of {}: 1/{} is enough under {how_many}",
        clause.clause, case.edition.name, clause.reduced_divisor
    );
    because("conditions for the reduced area, as planned", inputs, rule, clause.source.clone())
}
