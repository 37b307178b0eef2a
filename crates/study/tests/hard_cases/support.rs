//! Small houses and what is asked of their studies.

use book::Spot;
use detail::{At, Place};
use job::{Job, Problem};
use roof::{EdgeId, EdgeKind, Roof};
use study::Study;
use takeoff::{Dimension, Size};

use crate::sheets::BOOKS;

/// A job of blocks and whatever else follows them, under the 2018 edition, with a history of ice.
pub(crate) fn house(parts: &[String]) -> String {
    head("irc-2018") + &parts.concat()
}

pub(crate) fn head(code: &str) -> String {
    format!(
        "weathershed = 1\ntitle = \"made\"\n[site]\ncode = \"{code}\"\nice_history = true\nwall_line = \"outside\"\nwall_thickness = \"6 in\"\n\
         rain = \"6 in/h\"\nclimate_zone = \"6A\"\n[covering]\nshingle = \"shingle-laminated-metric\"\nexposure = \"5 5/8 in\"\nlayers = 1\n"
    )
}

/// A block by place and size in feet, with its roof and overhang as the document writes them.
pub(crate) fn block(name: &str, [x, y, dx, dy]: [f64; 4], plate: &str, roof: &str, overhang: &str) -> String {
    format!(
        "[[block]]\nname = \"{name}\"\nat = [\"{x} ft\", \"{y} ft\"]\nsize = [\"{dx} ft\", \"{dy} ft\"]\nplate = \"{plate}\"\n\
         roof = {{ {roof} }}\noverhang = {overhang}\nfascia = \"6 in\"\n"
    )
}

pub(crate) fn opening(kind: &str, name: &str, at: [&str; 2], size: [&str; 2], state: &str) -> String {
    format!(
        "[[opening]]\nkind = \"{kind}\"\nname = \"{name}\"\nat = [\"{}\", \"{}\"]\nsize = [\"{}\", \"{}\"]\nstate = \"{state}\"\n",
        at[0], at[1], size[0], size[1]
    )
}

/// The study of a document, which must be sound.
pub(crate) fn study(document: &str) -> Study {
    let (job, _) = Job::read(document, &BOOKS).unwrap_or_else(|problems| panic!("{problems:#?}\n{document}"));
    Study::of(&job, &BOOKS).unwrap_or_else(|problems| panic!("{problems:#?}\n{document}"))
}

/// What keeps a document from being studied.
pub(crate) fn refused(document: &str) -> Vec<Problem> {
    match Job::read(document, &BOOKS) {
        Ok((job, _)) => Study::of(&job, &BOOKS).expect_err("refused"),
        Err(problems) => problems,
    }
}

/// The warnings of a code.
pub(crate) fn warned<'a>(study: &'a Study, code: &str) -> Vec<&'a Problem> {
    study.warnings.iter().filter(|warning| warning.code == code).collect()
}

/// The one warning of a code, which says all of some words.
pub(crate) fn warns(study: &Study, code: &str, words: &[&str]) {
    let [warning] = warned(study, code)[..] else { panic!("not one `{code}`: {:#?}", study.warnings) };
    assert_eq!(warning.severity, job::Severity::Warning);
    says(warning, words);
}

pub(crate) fn says(problem: &Problem, words: &[&str]) {
    let told = format!("{} | {}", problem.message, problem.mend);
    for word in words {
        assert!(told.contains(word), "no `{word}` in: {told}");
    }
}

pub(crate) fn edges(roof: &Roof, kind: EdgeKind) -> Vec<EdgeId> {
    (0..roof.edges.len()).map(EdgeId).filter(|id| roof.edge(*id).kind == kind).collect()
}

/// The one edge of a kind.
pub(crate) fn edge(roof: &Roof, kind: EdgeKind) -> EdgeId {
    let found = edges(roof, kind);
    assert_eq!(found.len(), 1, "{:?}", roof.edges.iter().map(|edge| edge.kind).collect::<Vec<_>>());
    found[0]
}

/// An edge of a kind along the wall of a block.
pub(crate) fn wall(roof: &Roof, kind: EdgeKind, block: &str) -> EdgeId {
    let mut all = edges(roof, kind).into_iter();
    let is_of = |id: &EdgeId| roof.edge(*id).wall_of.as_deref() == Some(block);
    all.find(is_of).unwrap_or_else(|| panic!("no {kind:?} at {block}"))
}

/// The eave of a plane.
pub(crate) fn eave(roof: &Roof, plane: &str) -> EdgeId {
    let is_of = |id: &EdgeId| roof.edge(*id).planes.iter().any(|p| roof.plane(*p).name == plane);
    let eaves: Vec<EdgeId> = edges(roof, EdgeKind::Eave).into_iter().filter(is_of).collect();
    assert_eq!(eaves.len(), 1, "eaves of {plane}");
    eaves[0]
}

/// The places of a spot.
pub(crate) fn places(study: &Study, spot: Spot) -> Vec<&Place> {
    study.details.places.iter().filter(|place| place.spot == spot).collect()
}

/// What will be built along an edge.
pub(crate) fn built(study: &Study, edge: EdgeId) -> &str {
    let place = study.details.places.iter().find(|place| place.at == At::Edge(edge)).expect("a place");
    &place.chosen().expect("a detail to build").detail
}

/// A dimension along an edge.
pub(crate) fn size(study: &Study, edge: EdgeId, what: &str) -> Size {
    let places = study.details.places.iter().zip(&study.dimensions);
    let mut of_edge = places.filter(|(place, _)| place.at == At::Edge(edge)).flat_map(|(_, all)| all);
    let is_meant = |one: &&Dimension| one.what == what;
    of_edge.find(is_meant).unwrap_or_else(|| panic!("no `{what}`")).size
}

pub(crate) fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted} within {within}");
}
