//! `plan`: every result and every paper into a folder.

use std::path::Path;

use book::Book;
use dossier::{DossierError, Illustrated, Paper, Prepared, Wintered};
use draw::{ChartOptions, PlanOptions, Reader, SectionOptions, Survey, WaterScene};
use job::{Basis, Problem, Severity};
use serde_json::json;
use study::Study;
use study::winter::{Log, Sampling, Spread, Winter};
use time::OffsetDateTime;

use super::weather::{self, Years};
use super::{pretty, studied, warn};
use crate::document::Document;
use crate::failure::Failure;
use crate::folder::Folder;
use crate::output::{Output, plain};

/// Width and height of a section's drawing: it fits a page of either size.
const SECTION_MM: (f64, f64) = (180.0, 225.0);
/// Of other pictures that have a page to themselves, and of the owner's, which shares it with words.
const SHEET_MM: (f64, f64) = (180.0, 216.0);
const OWNER_MM: (f64, f64) = (180.0, 125.0);

/// Which houses are drawn for ranges: any will do, the same each time.
const SEED: u64 = 1;

/// How the job is asked for.
pub(crate) struct Asked {
    pub(crate) json: bool,
    /// Houses run through the winter for ranges.
    pub(crate) runs: usize,
}

pub(crate) fn run(
    path: &Path,
    target: &Path,
    asked: &Asked,
    books: &Book,
    out: &Output,
) -> Result<(), Failure> {
    let (document, study) = studied(path, books)?;
    let years = weather::named(&document, &study)?;
    let mut folder = Folder::begin(target)?;
    folder.told().iter().for_each(|line| out.note(line));
    warn(&document, &study, out);
    let logged = || logged(&document, &study, years.as_ref(), asked.runs, books, out);
    add_papers(&document, &study, logged, books, &mut folder)?;
    add_details(&study, books, &mut folder)?;
    add_water(&study, &mut folder)?;
    folder.add("roof.json", pretty(&exchange::roof(&study.roof)).as_bytes())?;
    let water = exchange::water(
        &study.water,
        &study.gutters,
        &study.drainage,
        &[],
        &study.roof,
        study.job.site.rain.value,
        study.job.units,
    );
    folder.add("water.json", pretty(&water).as_bytes())?;
    folder.add(
        "detail.json",
        pretty(&exchange::details(&study.details, &study.dimensions, study.job.units, books)).as_bytes(),
    )?;
    folder.add("takeoff.json", pretty(&exchange::takeoff(&study.takeoff, study.job.units)).as_bytes())?;
    folder.add("code.json", pretty(&exchange::code(&study.code)).as_bytes())?;
    folder.add("job.toml", document.text.as_bytes())?;
    let files = folder.finish()?;
    if asked.json {
        Output::result(&pretty(
            &json!({ "version": 1, "folder": target.display().to_string(), "files": files }),
        ))?;
    } else {
        out.note(&summary(&study, target, &files));
    }
    Ok(())
}

/// A winter with the years it was worked out for.
struct Logged<'y> {
    years: &'y Years,
    winter: Winter,
    log: Log,
    spread: Option<Spread>,
}

impl Logged<'_> {
    fn wintered(&self) -> Wintered<'_> {
        let Self { years, winter, log, spread } = self;
        let year = &years.typical;
        Wintered { winter, log, spread: spread.as_ref(), file: &year.file, file_hash: &year.hash }
    }
}

/// The papers on both sizes of sheet, drawings that stand on them, and the winter they tell of.
fn add_papers<'y>(
    document: &Document,
    study: &Study,
    logged: impl FnOnce() -> Option<Logged<'y>>,
    books: &Book,
    folder: &mut Folder,
) -> Result<(), Failure> {
    let (text, hash, prepared) = (&document.text, &document.hash(), today());
    let roofers = || {
        let crew = files("crew-book", &dossier::crew_papers(study, books, text, hash, prepared)?)?;
        let roof = files("roof-sheet", &dossier::roof_papers(study, text, hash, prepared)?)?;
        let code = files("code-sheet", &dossier::code_paper(study, text, hash, prepared)?.into())?;
        Ok::<_, DossierError>([crew, roof, code].concat())
    };
    let owners = |wintered: Option<&Wintered<'_>>| {
        let owner = dossier::owner_papers(study, wintered, text, hash, prepared)?;
        let owner = files("owner-letter", &owner.into())?;
        let diagnosis = dossier::diagnosis_paper(study, wintered, books, text, hash, prepared)?;
        let diagnosis = files("diagnosis-sheet", &diagnosis.into())?;
        let winter = wintered
            .map(|of| files("winter-sheet", &dossier::winter_papers(study, of, text, hash, prepared)?))
            .transpose()?;
        Ok::<_, DossierError>([owner, diagnosis, winter.unwrap_or_default()].concat())
    };
    // Typesetting and the winter are most of the work, and papers without a winter wait for none.
    let (roofers, (logged, owners)) = std::thread::scope(|scope| {
        let roofers = scope.spawn(roofers);
        let logged = logged();
        let owners = owners(logged.as_ref().map(Logged::wintered).as_ref());
        (roofers.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)), (logged, owners))
    });
    for (name, bytes) in roofers?.into_iter().chain(owners?) {
        folder.add(&name, &bytes)?;
    }
    let Some(Logged { winter, spread, .. }) = logged else { return Ok(()) };
    folder.add("winter.json", pretty(&exchange::winter(&winter, spread.as_ref())).as_bytes())
}

/// The winter of the year the job names. Where it names none, or the survey lacks what a winter needs, that is told, and the other papers are made all the same.
fn logged<'y>(
    document: &Document,
    study: &Study,
    years: Option<&'y Years>,
    runs: usize,
    books: &Book,
    out: &Output,
) -> Option<Logged<'y>> {
    let Some(years) = years else {
        out.note("no winter: the job names no year of weather; add `site.winter`, and papers tell why ice comes and which fix stops it");
        return None;
    };
    let lacking = match Winter::logged(study, years.both(), books) {
        Ok((winter, log)) => {
            let sampling = Sampling { runs, seed: SEED };
            // a winter that was reckoned lacks nothing
            let spread = (runs > 0).then(|| Spread::of(study, &years.typical.weather, books, sampling).ok());
            return Some(Logged { years, winter, log, spread: spread.flatten() });
        }
        Err(lacking) => lacking,
    };
    let warning = |problem: Problem| Problem { severity: Severity::Warning, ..problem };
    let warnings: Vec<Problem> = lacking.into_iter().map(warning).collect();
    out.warnings(&document.path.display().to_string(), &document.text, &warnings);
    out.note("no winter: the survey lacks what it needs");
    None
}

/// Names and bytes of a paper on sheets of both sizes, and of its drawings.
fn files(name: &str, papers: &Illustrated) -> Result<Vec<(String, Vec<u8>)>, DossierError> {
    let pdf = |size, paper| Ok((format!("{name}-{size}.pdf"), papers.paper.pdf(paper)?));
    let drawings = papers.drawings.iter();
    let drawings = drawings.map(|(name, svg)| Ok((format!("drawings/{name}.svg"), svg.clone().into_bytes())));
    [pdf("letter", Paper::Letter), pdf("a4", Paper::A4)].into_iter().chain(drawings).collect()
}

/// Sections of what is to be built, the order in which it is laid, and the chart of layers.
fn add_details(study: &Study, books: &Book, folder: &mut Folder) -> Result<(), Failure> {
    let options =
        |size_mm| SectionOptions { size_mm, units: study.job.units, reader: Reader::Desk, short: None };
    let sections = draw::sections(&study.details, &study.dimensions, books, &options(SECTION_MM))?;
    let strips = draw::laying_strips(&study.details, books, &options(SHEET_MM))?;
    for (name, figure) in sections.into_iter().chain(strips) {
        folder.add(&format!("drawings/{name}.svg"), figure.svg.as_bytes())?;
    }
    let chart = draw::layers_chart(&study.details, &study.roof, &ChartOptions { size_mm: SHEET_MM });
    for (i, figure) in chart.iter().enumerate() {
        folder.add(&format!("drawings/layers-{:02}.svg", i + 1), figure.svg.as_bytes())?;
    }
    Ok(())
}

/// The plan of water and the owner's picture of it.
fn add_water(study: &Study, folder: &mut Folder) -> Result<(), Failure> {
    let survey = Survey::of(&study.job, study.takeoff.assumed.clone());
    let scene = WaterScene {
        roof: &study.roof,
        survey: &survey,
        bare: &study.water,
        drainage: &study.drainage,
        rain: study.job.site.rain.value,
        is_rain_assumed: matches!(study.job.site.rain.basis, Basis::Assumed { .. }),
    };
    let options = |size_mm| PlanOptions { size_mm, units: study.job.units };
    let plan = draw::water_plan(&scene, &options(SHEET_MM));
    folder.add("drawings/water-plan.svg", plan.svg.as_bytes())?;
    let owner = draw::owner_water(&scene, &options(OWNER_MM));
    folder.add("drawings/water-owner.svg", owner.svg.as_bytes())
}

fn summary(study: &Study, target: &Path, files: &[String]) -> String {
    let roof = &study.roof;
    format!(
        "{}: {} planes, {:.2} squares, {} lines to order; {} files in {}",
        plain(&study.job.title),
        roof.planes.len(),
        roof.slope_area().squares(),
        study.takeoff.lines.iter().filter(|l| l.ordered().is_some()).count(),
        files.len(),
        target.display()
    )
}

/// The day on the clock, where the machine is; in Greenwich, where it does not say where it is.
fn today() -> Prepared {
    let now = OffsetDateTime::now_local().unwrap_or_else(|_| OffsetDateTime::now_utc());
    Prepared { year: now.year(), month: now.month().into(), day: now.day() }
}
