//! Field shingles, with what cutting loses told cause by cause.
//!
//! # Formula
//! slope area + losses: at rakes and hips a part of a shingle for each course, less what is laid again at the other
//! one; at open valleys an area per length; at openings a number of shingles; along the top of a face a part of an exposure;
//! broken ones a share. Bundles by what one covers at the job's exposure, rounded up, and spare ones. Openings are not
//! taken off the area. Starter and caps are counted apart.
//! # Clause
//! IRC R905.2.2: no shingles on planes flatter than 2/12.
//! # Checks
//! The same by one flat share stands beside it, and so does the most that is usual for the shape of the roof.

use book::{Because, LookupError, Share, Shingle};
use measure::{Area, Length};
use roof::EdgeKind;

use crate::case::{Case, Ruled};
use crate::line::{Item, Line, Quantity, because, input, packages, whole};
use crate::words::percent;

/// Edges at the top of a plane, where the last course is trimmed.
const TOPS: [EdgeKind; 5] = [
    EdgeKind::Ridge,
    EdgeKind::Headwall,
    EdgeKind::HighEave,
    EdgeKind::PitchBreakConvex,
    EdgeKind::PitchBreakConcave,
];

/// Shingle lost to one cause.
struct Loss {
    cause: &'static str,
    area: Area,
    rules: Vec<(String, String)>,
}

/// A shingle as it is laid on this job.
struct Laid<'a> {
    case: &'a Case<'a>,
    shingle: &'a Shingle,
    exposure: Length,
}

pub(crate) fn lines(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    Ok(shingles(case)?.into_iter().chain(too_flat(case)).collect())
}

fn shingles(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let area: Area = case.shingled().map(|(_, plane)| plane.slope_area).sum();
    if area <= Area::ZERO {
        return Ok(None);
    }
    let package = case.package(&case.job.covering.shingle)?;
    let shingle = package.shingle()?;
    let laid = Laid { case, shingle, exposure: case.job.covering.exposure.value };
    let losses = laid.losses(area)?;
    let lost: Area = losses.iter().map(|loss| loss.area).sum();
    let spare: Ruled<f64> = case.rule("waste.spare")?;
    let bundle = shingle.bundle_covers() * (laid.exposure / *shingle.exposure);
    let count = packages((area + lost).m2(), bundle.m2()) + whole(spare.value);
    let mut reasons = case.assumed_shape();
    reasons.extend(case.assumed("all planes", &case.job.covering.exposure));
    reasons.push(loss_because(case, area, &losses)?);
    reasons.extend(valleys_because(case)?);
    reasons.push(flat_share(case, area, bundle)?);
    reasons.push(usual(case, lost / area)?);
    reasons.push(because(
        "bundles",
        [
            input("area and losses", case.words.area(area + lost)),
            input("one bundle covers", case.words.area(bundle)),
            input("exposure", case.words.tape(laid.exposure)),
            spare.input(),
        ],
        "area and losses over what a bundle covers, rounded up, and the spare",
        package.source.clone(),
    ));
    let item = Item::new("field-shingles", "field shingles");
    Ok(Some(Line::ordered_as(item, package, Quantity::Area(area), count, reasons)))
}

/// Planes shingles may not cover.
fn too_flat(case: &Case<'_>) -> Option<Line> {
    let planes: Vec<_> = case.planes().filter(|(id, _)| !case.takes_shingles(*id)).collect();
    let inputs: Vec<_> = (planes.iter())
        .map(|(_, plane)| {
            input(&plane.name, format!("{}, {}", plane.pitch, case.words.area(plane.slope_area)))
        })
        .collect();
    let clause = &case.edition.asphalt_shingles;
    let least = clause.least_pitch.text();
    let reason = format!(
        "flatter than {least}: shingles are not allowed there; choose a covering for low slopes and count it apart"
    );
    let rule = format!("{} of {}: no shingles under {least}", clause.clause, case.edition.name);
    let reasons = vec![because("planes too flat for shingles", inputs, rule, clause.source.clone())];
    (!planes.is_empty()).then(|| {
        Line::refused(Item::new("low-slope-covering", "planes too flat for shingles"), &reason, reasons)
    })
}

impl Laid<'_> {
    fn losses(&self, area: Area) -> Result<Vec<Loss>, LookupError> {
        let breakage: Ruled<Share> = self.case.rule("waste.breakage")?;
        let broken =
            Loss { cause: "broken", area: area * breakage.value.of_one(), rules: vec![breakage.input()] };
        Ok(vec![self.rakes()?, self.hips()?, self.valleys()?, self.openings()?, self.tops()?, broken])
    }

    /// Part of a shingle lost along a length of courses' ends, less what is used again.
    fn cut(&self, cause: &'static str, up: Length, lost: &str, reused: &str) -> Result<Loss, LookupError> {
        let lost: Ruled<f64> = self.case.rule(lost)?;
        let reused: Ruled<Share> = self.case.rule(reused)?;
        let area = up * *self.shingle.length * (lost.value * (1.0 - reused.value.of_one()));
        Ok(Loss { cause, area, rules: vec![lost.input(), reused.input()] })
    }

    fn rakes(&self) -> Result<Loss, LookupError> {
        let rakes = self.case.edges(&[EdgeKind::Rake, EdgeKind::SkewRake]);
        let up = rakes.iter().map(|(_, edge)| edge.length).sum();
        self.cut("rakes", up, "waste.rake", "waste.rake.reused")
    }

    /// Courses end at a hip on both of its planes; counted up each plane, not along the hip.
    fn hips(&self) -> Result<Loss, LookupError> {
        let up = |edge: &roof::Edge| -> Length {
            let planes = edge.planes.iter().filter(|plane| self.case.takes_shingles(**plane));
            planes.map(|plane| crate::steps::up_the_plane(self.case.roof.plane(*plane), edge)).sum()
        };
        let up = self.case.edges(&[EdgeKind::Hip]).iter().map(|(_, edge)| up(edge)).sum();
        self.cut("hips", up, "waste.hip", "waste.hip.reused")
    }

    fn valleys(&self) -> Result<Loss, LookupError> {
        let wide: Ruled<Length> = self.case.rule("waste.valley.open")?;
        let length: Length = self.case.edges(&[EdgeKind::Valley]).iter().map(|(_, edge)| edge.length).sum();
        Ok(Loss { cause: "open valleys", area: length * wide.value, rules: vec![wide.input()] })
    }

    fn openings(&self) -> Result<Loss, LookupError> {
        let each: Ruled<f64> = self.case.rule("waste.opening")?;
        let openings =
            self.case.openings().into_iter().filter(|(_, placed)| self.case.takes_shingles(placed.plane));
        let area = self.exposure * *self.shingle.length * (each.value * openings.count() as f64);
        Ok(Loss { cause: "openings", area, rules: vec![each.input()] })
    }

    fn tops(&self) -> Result<Loss, LookupError> {
        let part: Ruled<f64> = self.case.rule("waste.top-course")?;
        let faces =
            |edge: &roof::Edge| if edge.kind == EdgeKind::Ridge { edge.planes.len() as f64 } else { 1.0 };
        let length: Length = self.case.edges(&TOPS).iter().map(|(_, edge)| edge.length * faces(edge)).sum();
        Ok(Loss {
            cause: "tops of faces",
            area: length * self.exposure * part.value,
            rules: vec![part.input()],
        })
    }
}

/// Which valleys the losses are those of: metal is ordered for every valley, so every one is open.
fn valleys_because(case: &Case<'_>) -> Result<Option<Because>, LookupError> {
    let valleys = case.edges(&[EdgeKind::Valley]).len();
    if valleys == 0 {
        return Ok(None);
    }
    let open: Ruled<Length> = case.rule("waste.valley.open")?;
    let inputs = [input("valleys", valleys.to_string()), open.input()];
    let rule = "valleys are reckoned open, as metal is ordered for them; the job does not say how they are covered, \
                and shingles closed over a valley lose more";
    Ok(Some(because("shingles at valleys", inputs, rule, open.source)))
}

fn loss_because(case: &Case<'_>, area: Area, losses: &[Loss]) -> Result<Because, LookupError> {
    let mut inputs = vec![input("area on the slope", case.words.area(area))];
    for loss in losses.iter().filter(|loss| loss.area > Area::ZERO) {
        let rules: Vec<String> = loss.rules.iter().map(|(what, value)| format!("{what}: {value}")).collect();
        inputs.push(input(
            format!("lost at {}", loss.cause),
            format!("{} ({})", case.words.area(loss.area), rules.join("; ")),
        ));
    }
    let lost: Area = losses.iter().map(|loss| loss.area).sum();
    inputs.push(input("lost in all", format!("{}, {}", case.words.area(lost), percent(lost / area))));
    let source: Ruled<f64> = case.rule("waste.rake")?;
    Ok(because("losses by cause", inputs, "each cause by its own rule, added up", source.source))
}

fn flat_share(case: &Case<'_>, area: Area, bundle: Area) -> Result<Because, LookupError> {
    let share: Ruled<Share> = case.rule("waste.shingle")?;
    let total = area * (1.0 + share.value.of_one());
    let inputs = [
        share.input(),
        input("area with it", case.words.area(total)),
        input("bundles", packages(total.m2(), bundle.m2()).to_string()),
    ];
    Ok(because("the same by one flat share, to compare", inputs, "not what is ordered", share.source))
}

/// Whether the losses stay under the most that is usual for the shape of the roof.
fn usual(case: &Case<'_>, lost: f64) -> Result<Because, LookupError> {
    let has = |kind| !case.edges(&[kind]).is_empty();
    let id = match (has(EdgeKind::Valley), has(EdgeKind::Hip)) {
        (true, _) => "waste.check.cut-up",
        (false, true) => "waste.check.hip",
        (false, false) => "waste.check.simple-gable",
    };
    let most: Ruled<Share> = case.rule(id)?;
    let verdict =
        if lost <= most.value.of_one() { "as usual" } else { "MORE than usual: look at the causes above" };
    let inputs = [input("lost in all", percent(lost)), most.input()];
    Ok(because("losses against what is usual", inputs, verdict, most.source))
}
