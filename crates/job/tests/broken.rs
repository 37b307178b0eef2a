//! Broken documents and what is said of them. Every message names place, cause and mend; all errors come at once.

#![allow(clippy::unwrap_used, reason = "a test fails where its files cannot be read")]

use std::path::{Path, PathBuf};

use book::Book;
use job::{Job, Problem};

fn documents() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/broken");
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    files
}

fn problems(text: &str) -> Vec<Problem> {
    Job::read(text, &Book::builtin()).expect_err("a broken document")
}

#[test]
fn every_broken_document_is_answered_as_recorded() {
    for file in documents() {
        let text = std::fs::read_to_string(&file).unwrap();
        let name = file.file_stem().unwrap().to_string_lossy().into_owned();
        let said: String = problems(&text).iter().map(|problem| problem.plain(&text)).collect();
        insta::assert_snapshot!(name, said);
    }
}

#[test]
fn every_message_has_place_cause_and_mend_and_they_come_in_order() {
    for file in documents() {
        let text = std::fs::read_to_string(&file).unwrap();
        let problems = problems(&text);
        assert!(!problems.is_empty(), "{}", file.display());
        for problem in &problems {
            let place = problem.places.first().unwrap_or_else(|| panic!("{problem:?}"));
            assert!(text.get(place.range.clone()).is_some(), "{problem:?}");
            assert!(!problem.message.is_empty() && !problem.mend.is_empty(), "{problem:?}");
        }
        assert!(problems.is_sorted_by_key(|problem| problem.position(&text)), "{}", file.display());
    }
}
