//! What is ordered to vent attics: ridge vent, soffit strip; and what the ridge vent gains over the vents it replaces.

use book::{LookupError, Package};
use job::{Attic, FreeArea};
use measure::Length;
use roof::{Edge, EdgeId};

use super::parts::soffits;
use super::{Region, VentCheck};
use crate::case::{Case, Ruled};
use crate::line::{Item, Line, Quantity, because, input};
use crate::ridge::VentRidges;
use crate::sticks::pieces_by_run;

pub(crate) fn lines(case: &Case<'_>, checks: &[VentCheck]) -> Result<Vec<Line>, LookupError> {
    let (mut ridge, mut soffit) = (Runs::default(), Runs::default());
    for attic in &case.job.attics {
        ridge.add_ridges(case, attic)?;
        soffit.add_soffits(case, attic);
    }
    let rule = "each ridge less its stops in pieces that butt, rounded up";
    let ridge = ridge.line(case, Item::new("ridge-vent", "ridge vent"), case.package("ridge-vent")?, rule)?;
    let rule = "each soffit in strips that butt, rounded up";
    let item = Item::new("soffit-vent", "soffit strip vent");
    let soffit = soffit.line(case, item, case.package("soffit-strip-vent")?, rule)?;
    let gains = gains(case, checks)?;
    Ok(ridge.into_iter().chain(soffit).chain(gains).collect())
}

/// Straight runs of something sold in pieces, and where they come from.
#[derive(Default)]
struct Runs<'a> {
    lengths: Vec<Length>,
    inputs: Vec<(String, String)>,
    edges: Vec<(EdgeId, &'a Edge)>,
}

impl<'a> Runs<'a> {
    /// The ridges over an attic that plans a ridge vent.
    fn add_ridges(&mut self, case: &Case<'a>, attic: &Attic) -> Result<(), LookupError> {
        let Some(planned) = &attic.plan.ridge_vent else { return Ok(()) };
        let ridges = VentRidges::over(case, &attic.under, &Region::of(case.job, attic))?;
        let from_roof = ridges.length();
        self.inputs.extend(ridges.ridges.iter().map(|ridge| ridge.input.clone()));
        self.inputs.extend(ridges.too_flat);
        match planned {
            FreeArea::PerLengthOver(_, over) => self.add_stated(case, *over, from_roof),
            FreeArea::PerLength(_) | FreeArea::Total(_) => {
                self.lengths.extend(ridges.ridges.iter().map(|ridge| ridge.slot));
                self.edges.extend(ridges.ridges.iter().map(|ridge| (ridge.edge, case.roof.edge(ridge.edge))));
            }
        }
        Ok(())
    }

    /// The soffits of an attic that plans strip vents along them.
    fn add_soffits(&mut self, case: &Case<'a>, attic: &Attic) {
        let runs = soffits(case, attic);
        let from_roof = runs.iter().map(|(_, length)| *length).sum();
        match &attic.plan.soffit {
            Some(FreeArea::PerLength(_)) => {
                self.inputs.extend(runs.iter().map(|(id, run)| input(id.to_string(), case.words.run(*run))));
                self.lengths.extend(runs.iter().map(|(_, length)| *length));
                self.edges.extend(runs.iter().map(|(id, _)| (*id, case.roof.edge(*id))));
            }
            Some(FreeArea::PerLengthOver(_, over)) => self.add_stated(case, *over, from_roof),
            Some(FreeArea::Total(_)) | None => {}
        }
    }

    /// A length the job states, which goes before what the roof gives.
    fn add_stated(&mut self, case: &Case<'_>, stated: Length, from_roof: Length) {
        self.inputs.push(input("length the job states", case.words.run(stated)));
        self.inputs.push(input("length the roof gives", case.words.run(from_roof)));
        self.lengths.push(stated);
    }

    /// The line that orders it; none where there is no run.
    fn line(
        self,
        case: &Case<'_>,
        item: Item,
        package: &Package,
        rule: &str,
    ) -> Result<Option<Line>, LookupError> {
        let stick = package.stick()?;
        let net: Length = self.lengths.iter().sum();
        if net <= Length::ZERO {
            return Ok(None);
        }
        let count = pieces_by_run(&self.lengths, stick);
        let mut inputs = self.inputs;
        inputs.extend([input("in all", case.words.run(net)), input("one piece", stick.length.text())]);
        let mut reasons = case.assumed_lengths(&self.edges);
        reasons.push(because("pieces", inputs, rule, package.source.clone()));
        Ok(Some(Line::ordered_as(item, package, Quantity::Length(net), count, reasons)))
    }
}

/// How many times the free area of the old roof vents each new ridge vent has, against what is usual.
fn gains(case: &Case<'_>, checks: &[VentCheck]) -> Result<Vec<Line>, LookupError> {
    let usual: Ruled<f64> = case.rule("ridge-vent.gain")?;
    let line = |check: &VentCheck| {
        let gain = check.gain?;
        let inputs = [
            input("attic", &check.attic),
            input("found and replaced, times", format!("{gain:.2}")),
            usual.input(),
        ];
        let rule =
            "free area of the planned ridge vent over that of the roof vents taken away; a check, not a rule";
        let reasons = vec![because("gain of the ridge vent", inputs, rule, usual.source.clone())];
        let item = Item::new(
            format!("ridge-vent-gain.{}", check.attic),
            format!("ridge vent over the roof vents it replaces, {}", check.attic),
        );
        Some(Line::measured(item, Quantity::Ratio(gain), reasons))
    };
    Ok(checks.iter().filter_map(line).collect())
}
