//! The code sheet: what a reader sees of it.

use std::sync::LazyLock;

use book::Book;
use job::Job;
use study::Study;

use super::fixture::JOB;
use super::{runs, squeezed, text_of};
use crate::code::compose;
use crate::view::code::sheet;
use crate::*;

const HIP_SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");
const DAY: Prepared = Prepared { year: 2026, month: 11, day: 28 };
const HASH: &str = "5b3f0c1d9a8e7f60514233445566778899aabbccddeeff00112233445566771f";

/// The example whose sheet has all three verdicts.
static SHEET: LazyLock<CodeSheet> = LazyLock::new(|| {
    let book = Book::builtin();
    let (job, _) = Job::read(HIP_SPLIT_LEVEL, &book).unwrap();
    sheet(&Study::of(&job, &book).unwrap(), HASH, DAY)
});

fn pages(sheet: &CodeSheet) -> Vec<String> {
    let document = compose(sheet, JOB).unwrap().pages().unwrap();
    document.pages().iter().map(|page| squeezed(&text_of(&page.frame))).collect()
}

#[test]
fn page_one_names_the_house_and_the_edition_and_what_fails_first() {
    let first = &pages(&SHEET)[0];
    for word in
        ["hipsplitlevelof1978", "2021InternationalResidentialCode", "outsideface", "×FAIL", "?cannottell"]
    {
        assert!(first.contains(word), "{word} not on page 1: {first}");
    }
    assert!(first.find("×FAIL") < first.find("?cannottell"), "{first}");
    assert!(first.contains("R806.2") && first.contains("M1501"), "{first}");
}

/// By hand: 832 ft² over 150 is 798.72 in², 30.72 in² more than the 768 in² planned.
#[test]
fn figures_that_decide_are_printed_with_their_margin() {
    let text = pages(&SHEET).concat();
    for word in ["atleast798.72in²", "768in²notenough", "-30.72in²", "1/300underconditions"] {
        assert!(text.contains(word), "{word}: {text}");
    }
}

/// What is missing is named so that it finds the field, and nothing unseen stands in any name.
#[test]
fn names_of_fields_stand_whole_in_the_text() {
    let document = compose(&SHEET, JOB).unwrap().pages().unwrap();
    let text: String = document.pages().iter().map(|page| text_of(&page.frame)).collect();
    for field in ["attic.upper.access", "site.winter_temperature", "shingle-laminated-metric"] {
        assert!(text.contains(field), "{field}: {text}");
    }
    assert!(!text.contains('\u{200B}'));
}

/// Nobody looked under the shingles: what the books call usual there must not read as a survey.
#[test]
fn what_nobody_surveyed_is_called_usual() {
    let rows = || SHEET.parts.iter().flat_map(|part| &part.rows);
    let found = |clause: &str| rows().find(|row| row.clause == clause).unwrap().checks[0].found.text.clone();
    assert_eq!(found("R905.1.2"), "usually 0 in");
    assert_eq!(found("R905.2.8.5"), "usually no");
    assert_eq!(found("R905.2.1"), "yes", "decks were described");
    assert!(pages(&SHEET).concat().contains("usually0innotenough"));
}

#[test]
fn every_row_and_every_part_is_printed_and_every_page_has_its_strip() {
    let pages = pages(&SHEET);
    let text = pages.concat();
    for row in SHEET.parts.iter().flat_map(|part| &part.rows) {
        assert!(
            text.contains(&squeezed(&row.clause)) && text.contains(&squeezed(&row.asked)),
            "{}",
            row.asked
        );
    }
    for (i, page) in pages.iter().enumerate() {
        for word in ["Codesheet", "5b3f0c1d", &format!("{}of{}", i + 1, pages.len())] {
            assert!(page.contains(word), "{word} not on page {}", i + 1);
        }
    }
    assert!(!text.to_lowercase().contains("safe"));
}

#[test]
fn markup_in_texts_is_printed_as_typed_and_an_amendment_is_marked() {
    let hostile = r#"#panic("x") $x^2$ *bold* _it_ [a] #let \ <label> @ref"#;
    let mut sheet = SHEET.clone();
    let row = &mut sheet.parts[0].rows[0];
    row.asked = hostile.into();
    row.places = vec![hostile.into()];
    row.checks[0].what = hostile.into();
    row.amended = true;
    sheet.unasked[0].why = hostile.into();
    let text = pages(&sheet).concat();
    assert_eq!(text.matches(&squeezed(hostile)).count(), 4, "{text}");
    assert!(text.contains("amendedlocally"));
}

#[test]
fn a_sheet_on_which_all_is_met_says_so_and_exports() {
    let sheet = CodeSheet { open: vec![], doubts: vec![], ..SHEET.clone() };
    let text = pages(&sheet).concat();
    assert!(text.contains("Nothing:everyclause") && text.contains("None:everyclausewasread"), "{text}");
    assert!(code_sheet(&sheet, JOB).unwrap().pdf(Paper::Letter).unwrap().len() > 10_000);
}

#[test]
fn nothing_that_informs_is_set_smaller_than_it_can_be_read() {
    let document = compose(&SHEET, JOB).unwrap().pages().unwrap();
    let labels = ["Code sheet", "prepared", "job document", "before you cut or order", "page"];
    let small = document.pages().iter().flat_map(|page| runs(&page.frame)).filter(|(size, _)| *size < 8.49);
    for (_, text) in small {
        assert!(labels.contains(&text.as_str()), "{text} is set too small");
    }
}
