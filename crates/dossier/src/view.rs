//! From the results of a job to the roof sheet's texts and drawings.
//!
//! Words only: every number is already computed; here it is written as papers write it and marked when an assumption stands
//! behind it.

mod assumption;
pub(crate) mod code;
pub(crate) mod crew;
pub(crate) mod diagnosis;
mod edge;
pub(crate) mod letter;
mod opening;
mod plane;
mod quantity;
mod reading;
mod ventilation;
pub(crate) mod winter;
mod words;

use draw::{PlanOptions, SheetOptions, Survey, ViewOptions};
use job::Units;
use measure::Length;
use roof::{EdgeId, EdgeKind, Family, PlaneId};
use study::Study;
use takeoff::Of;

use crate::{
    DossierError, Drawing, EdgeFamily, Fact, Figures, Head, Prepared, RoofSheet, Room, Stated, Typeset,
    standing_cautions,
};
pub use code::code_paper;
pub use crew::crew_papers;
pub use diagnosis::diagnosis_paper;
pub use letter::owner_papers;
pub use winter::{Wintered, winter_papers};
use words::stated;

/// A paper with drawings it shows that are of use by themselves.
#[derive(Debug)]
pub struct Illustrated {
    /// The paper.
    pub paper: Typeset,
    /// Name and SVG document of each.
    pub drawings: Vec<(String, String)>,
}

impl From<Typeset> for Illustrated {
    fn from(paper: Typeset) -> Self {
        Self { paper, drawings: Vec::new() }
    }
}

/// Typesets the roof sheet of a job's results.
///
/// `job_document` is the text the results come from and `hash` its SHA-256; both stand on the paper.
///
/// # Errors
/// As [`crate::roof_sheet`].
pub fn roof_papers(
    study: &Study,
    job_document: &str,
    hash: &str,
    prepared: Prepared,
) -> Result<Illustrated, DossierError> {
    let survey = Survey::of(&study.job, study.takeoff.assumed.clone());
    let figures = figures(study, &survey);
    let paper = crate::roof_sheet(&sheet(study, hash, prepared), &figures, job_document)?;
    let fixed = [("plan", &figures.plan), ("view", &figures.view)];
    let mut drawings: Vec<(String, String)> = fixed.map(|(name, d)| (name.to_owned(), d.svg.clone())).into();
    for (i, (plane, drawing)) in study.roof.planes.iter().zip(&figures.planes).enumerate() {
        // names may be alike but for what a file name cannot hold
        drawings.push((format!("plane-{:02}-{}", i + 1, draw::file_name(&plane.name)), drawing.svg.clone()));
    }
    Ok(Illustrated { paper, drawings })
}

/// The quarter the view is taken from: south-west, degrees clockwise from north.
const VIEWED_FROM: f64 = 225.0;

fn figures(study: &Study, survey: &Survey) -> Figures {
    let (roof, units) = (&study.roof, study.job.units);
    let plan = draw::plan(roof, survey, &PlanOptions { size_mm: Room::PLAN.size_mm(), units });
    let view = ViewOptions { size_mm: Room::VIEW.size_mm(), azimuth_degrees: VIEWED_FROM };
    let view = draw::view(roof, survey, &view);
    let sheet = SheetOptions { size_mm: Room::PLANE.size_mm(), units };
    let planes = (0..roof.planes.len()).map(|i| draw::plane_sheet(roof, survey, PlaneId(i), &sheet));
    Figures {
        plan: drawing(plan, "Edges carry the numbers of the edge table."),
        view: drawing(view, "Seen from the south-west; hidden lines left out; not to scale."),
        planes: planes.map(|f| drawing(f, "Laid flat: lengths are true on the slope.")).collect(),
    }
}

fn drawing(figure: draw::Figure, caption: &str) -> Drawing {
    Drawing { svg: figure.svg, alt: figure.alt, caption: caption.to_owned() }
}

/// What heads a paper of a job that is found by these words.
fn head<const N: usize>(study: &Study, words: [&str; N], hash: &str, prepared: Prepared) -> Head {
    let job = &study.job;
    let keywords = words.map(str::to_owned).into_iter().chain([job.site.code.clone()]).collect();
    Head { title: job.title.clone(), keywords, prepared, content_hash: hash.to_owned() }
}

fn sheet(study: &Study, hash: &str, prepared: Prepared) -> RoofSheet {
    let (job, roof) = (&study.job, &study.roof);
    let area_assumed = is_assumed(study, (0..roof.planes.len()).map(|i| Of::Area(PlaneId(i))));
    RoofSheet {
        head: head(study, ["roof", "quantities"], hash, prepared),
        units_note: units_note(job.units).to_owned(),
        site: site(study),
        key_numbers: key_numbers(study, area_assumed),
        edge_families: families(study),
        planes: plane::rows(study),
        plane_total: plane::areas(roof.plan_area(), roof.slope_area(), job.units, area_assumed),
        edges: edge::rows(study),
        openings: opening::rows(study),
        quantities: quantity::rows(study),
        ventilation: ventilation::of(study),
        readings: reading::rows(study),
        assumptions: assumption::rows(study),
        cautions: standing_cautions(),
    }
}

const fn units_note(units: Units) -> &'static str {
    match units {
        Units::Us => {
            "Lengths in feet and inches to 1/8 in, areas in square feet; a square is 100 square feet of slope."
        }
        Units::Si => "Lengths in metres, areas in square metres; a square is 9.29 m² of slope.",
    }
}

fn fact(label: &str, value: Stated) -> Fact {
    Fact { label: label.to_owned(), value }
}

fn site(study: &Study) -> Vec<Fact> {
    let site = &study.job.site;
    let mut facts = vec![
        fact("code edition", stated(site.code.to_uppercase(), words::is_any_assumed(study, "site.code"))),
        fact("design rain", stated(site.rain.value.to_string(), words::is_assumed(&site.rain))),
    ];
    facts.extend(site.climate_zone.as_ref().map(|zone| fact("climate zone", Stated::measured(zone))));
    facts.extend(site.ground_snow.map(|snow| fact("ground snow", Stated::measured(snow.to_string()))));
    facts.extend(site.year_built.map(|year| fact("built", Stated::measured(year.to_string()))));
    let ice = if site.ice_history.value { "yes" } else { "no" };
    facts.push(fact("history of ice", stated(ice.to_owned(), words::is_assumed(&site.ice_history))));
    facts
}

/// Whether any of some figures rests on an assumption.
fn is_assumed(study: &Study, mut figures: impl Iterator<Item = Of>) -> bool {
    figures.any(|of| study.takeoff.assumed.touches(of))
}

fn key_numbers(study: &Study, area_assumed: bool) -> Vec<Fact> {
    let (roof, units) = (&study.roof, study.job.units);
    let walls: Vec<EdgeKind> = EdgeKind::ALL.into_iter().filter(|kind| kind.is_wall()).collect();
    let areas = [
        ("squares", format!("{:.2}", roof.slope_area().squares())),
        ("area on the slope", units.area(roof.slope_area())),
        ("area in plan", units.area(roof.plan_area())),
    ];
    let lengths = [
        ("eaves", [EdgeKind::Eave, EdgeKind::SkewRake].as_slice()),
        ("valleys", &[EdgeKind::Valley]),
        ("along walls", &walls),
    ];
    let areas = areas.into_iter().map(|(label, text)| fact(label, stated(text, area_assumed)));
    areas.chain(lengths.into_iter().map(|(label, kinds)| fact(label, length(study, kinds)))).collect()
}

/// Length of all edges of some kinds.
fn length(study: &Study, kinds: &[EdgeKind]) -> Stated {
    let sum: Length = kinds.iter().map(|kind| study.roof.length_of(*kind)).sum();
    let edges = study.roof.edges.iter().enumerate().filter(|(_, edge)| kinds.contains(&edge.kind));
    let assumed = is_assumed(study, edges.map(|(i, _)| Of::Length(EdgeId(i))));
    stated(study.job.units.length(sum), assumed)
}

/// Edge lengths by what they do to water.
fn families(study: &Study) -> Vec<EdgeFamily> {
    let (roof, units) = (&study.roof, study.job.units);
    let family = |(family, name): (Family, &str)| {
        let is_there = |kind: &EdgeKind| kind.family() == family && roof.length_of(*kind) > Length::ZERO;
        let kinds: Vec<EdgeKind> = EdgeKind::ALL.into_iter().filter(is_there).collect();
        let words = |kind: &EdgeKind| format!("{} {}", kind.name(), units.length(roof.length_of(*kind)));
        let words: Vec<String> = kinds.iter().map(words).collect();
        (!kinds.is_empty()).then(|| EdgeFamily {
            name: name.to_owned(),
            length: length(study, &kinds),
            kinds: words.join(", "),
        })
    };
    let families = [
        (Family::Divides, "divides water"),
        (Family::Gathers, "gathers water"),
        (Family::LetsGo, "lets water go"),
        (Family::Ends, "ends the roof"),
        (Family::Passes, "passes water on"),
    ];
    families.into_iter().filter_map(family).collect()
}
