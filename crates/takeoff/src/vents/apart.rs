//! What is blown out, or burnt, too near where an attic breathes.
//!
//! # Formula
//! From rim to rim in space, what comes out being round and as wide as it is across.
//!
//! # Source
//! IRC chapter 15 for what fans blow out; for what burns fuel the appliance's listing decides, and the distance only says when to ask. The distances
//! are rules of the books.

use book::LookupError;
use job::{Opening, Problem, Serves, State};
use measure::Length;
use roof::{PlacedOpening, Point3};

use super::parts::{roof_vents, state_of};
use super::wary::is_any;
use super::{Region, When};
use crate::case::Case;
use crate::ridge::VentRidges;

/// Of every pipe and hood that stays or comes: the nearest way out of an attic's air, if it is too near.
pub(crate) fn warnings(case: &Case<'_>) -> Result<Vec<Problem>, LookupError> {
    let fan: Length = case.rule("exhaust.from-openings")?.value;
    let fuel: Length = case.rule("fuel-vent.ask-within")?.value;
    let vents = vents(case)?;
    let told = |(opening, placed): (&Opening, &PlacedOpening)| {
        let limit = match opening.carries()? {
            Serves::Fan => fan,
            Serves::Fuel => fuel,
            Serves::Plumbing => return None,
        };
        let gap = |vent: &Vent| vent.from(placed.at) - opening.across * 0.5;
        let nearest = vents.iter().min_by(|a, b| gap(a).m().total_cmp(&gap(b).m()))?;
        let gap = gap(nearest).max(Length::ZERO);
        let told = || [gap, limit].map(|length| case.words.0.length(length));
        (gap < limit).then(|| problem(opening, &nearest.name, told()))
    };
    let stays = case.job.openings.iter().zip(&case.roof.openings).filter(|(o, _)| o.state != State::Remove);
    Ok(stays.filter_map(told).collect())
}

/// A way out of an attic's air: along a line, or round a point.
struct Vent {
    name: String,
    line: [Point3; 2],
    half: Length,
}

impl Vent {
    /// From its rim to a point.
    fn from(&self, p: Point3) -> Length {
        let [a, b] = self.line;
        let (run, off) = (minus(b, a), minus(p, a));
        let t = if dot(run, run) > 0.0 { (dot(off, run) / dot(run, run)).clamp(0.0, 1.0) } else { 0.0 };
        let away = minus(off, run.map(|v| v * t));
        Length::from_m(dot(away, away).sqrt()) - self.half
    }
}

fn minus(a: Point3, b: Point3) -> Point3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn dot(a: Point3, b: Point3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// The ways out on the roof of all attics, as planned.
fn vents(case: &Case<'_>) -> Result<Vec<Vent>, LookupError> {
    let mut all = Vec::new();
    for attic in &case.job.attics {
        let has_ridge_vent = state_of(attic, When::Plan).ridge_vent.as_ref().is_some_and(is_any);
        if has_ridge_vent {
            let ridges = VentRidges::over(case, &attic.under, &Region::of(case.job, attic))?.ridges;
            all.extend(ridges.iter().map(|ridge| Vent {
                name: format!("the ridge vent of {}", ridge.edge),
                line: case.roof.ends(ridge.edge),
                half: Length::ZERO,
            }));
        }
        all.extend(roof_vents(case, attic, When::Plan).into_iter().map(|(opening, placed)| Vent {
            name: format!("`{}`", opening.name),
            line: [placed.at; 2],
            half: opening.across * 0.5,
        }));
    }
    Ok(all)
}

fn problem(opening: &Opening, vent: &str, [gap, limit]: [String; 2]) -> Problem {
    let is_fuel = opening.carries() == Some(Serves::Fuel);
    let (code, message, mend) = if is_fuel {
        (
            "fuel-vent-near",
            format!(
                "`{}` lets out what an appliance burns {gap} from {vent}, less than {limit}",
                opening.name
            ),
            "have the installer hold it against the clearances of the appliance's and the vent's listing before anything is moved or cut; never cap it on sight",
        )
    } else {
        (
            "exhaust-near",
            format!(
                "`{}` blows moist air out {gap} from {vent}, less than {limit}: the attic draws it back in",
                opening.name
            ),
            "set the hood further down or along the roof, or end the vent short of it",
        )
    };
    Problem::warning(code, message, mend).at(opening.at_span.clone(), "this opening")
}
