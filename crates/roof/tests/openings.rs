//! Openings that lie on one another, in the example houses.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use book::Book;
use job::{Job, Problem, edit};
use roof::Roof;

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");
const HIP_SPLIT_LEVEL: &str = include_str!("../../../examples/hip-split-level.toml");

/// Errors after openings were moved to where they are told.
fn errors(text: &str, moves: &[(&str, &str)]) -> Vec<Problem> {
    let moved = |text: String, (name, at): &(&str, &str)| {
        edit::set(&text, &format!("opening.{name}.at"), at).unwrap()
    };
    let text = moves.iter().fold(text.to_owned(), moved);
    let books = Book::builtin();
    let (job, _) = Job::read(&text, &books).unwrap();
    Roof::of(&job, &books).err().unwrap_or_default()
}

fn messages(text: &str, moves: &[(&str, &str)]) -> Vec<String> {
    let errors = errors(text, moves);
    assert!(errors.iter().all(|e| e.code == "openings-overlap" && e.places.len() == 2), "{errors:?}");
    errors.into_iter().map(|e| e.message).collect()
}

#[test]
fn rims_that_cross_overlap() {
    let at_the_corner_of_the_skylight = [("stack", r#"["29' 4\"", "20' 8\""]"#)];
    let found = messages(CROSS_GABLE, &at_the_corner_of_the_skylight);
    assert_eq!(found, ["openings `stack` and `skylight` overlap on plane `main N`"]);
}

#[test]
fn opening_inside_another_overlaps() {
    let found = messages(CROSS_GABLE, &[("vent pipe", r#"["30' 8\"", "19'"]"#)]);
    assert_eq!(found, ["openings `vent pipe` and `skylight` overlap on plane `main N`"]);
}

#[test]
fn pipe_in_the_cricket_of_the_chimney_is_named_with_it() {
    // the chimney's back is at y 16 ft, its cricket ends 16 in further up
    let found = messages(CROSS_GABLE, &[("stack", r#"["12'", "15' 6\""]"#)]);
    assert_eq!(found, ["opening `stack` stands in the cricket behind `chimney` on plane `main N`"]);
    // beside the cricket, which is narrower up the roof
    assert_eq!(messages(CROSS_GABLE, &[("stack", r#"["13' 2\"", "15'"]"#)]), [""; 0]);
}

#[test]
fn openings_side_by_side_do_not_overlap() {
    assert_eq!(messages(HIP_SPLIT_LEVEL, &[("vent north-east", r#"["14' 8\"", "16'"]"#)]), [""; 0]);
    let found = messages(HIP_SPLIT_LEVEL, &[("vent north-east", r#"["14' 7\"", "16'"]"#)]);
    assert_eq!(found, ["openings `vent north-west` and `vent north-east` overlap on plane `upper N`"]);
}

#[test]
fn opening_may_come_where_an_old_one_goes() {
    assert_eq!(messages(HIP_SPLIT_LEVEL, &[("vent north-west", r#"["15'", "15'"]"#)]), [""; 0]);
}
