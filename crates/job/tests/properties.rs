//! Whatever is written, reading and editing end with an answer: never a panic, never an error without a place.

use std::sync::LazyLock;

use book::Book;
use job::{Job, edit};
use proptest::prelude::*;

static BOOK: LazyLock<Book> = LazyLock::new(Book::builtin);

const EXAMPLES: [&str; 3] = [
    include_str!("../../../examples/cross-gable.toml"),
    include_str!("../../../examples/hip-split-level.toml"),
    job::starter(),
];

/// Bits of documents that may stand anywhere.
const BITS: [&str; 24] = [
    "\"",
    "'",
    "[",
    "]",
    "{",
    "}",
    "=",
    ",",
    "\n",
    "#",
    "\"unknown\"",
    "-",
    "0",
    "999999999999999999999",
    "1e308",
    "nan",
    "true",
    "[[block]]\n",
    "\"level with main\"",
    "'",
    "6/12",
    "\u{feff}",
    "é",
    "outline = [[\"0'\", \"0'\"]]\n",
];

/// Every problem has a place in the text, a message and a mend; a job has no errors among its warnings.
fn check(text: &str) {
    match Job::read(text, &BOOK) {
        Ok((_, warnings)) => assert!(warnings.iter().all(|warning| !warning.is_error())),
        Err(problems) => {
            assert!(problems.iter().any(job::Problem::is_error), "refused without saying why");
            for problem in problems {
                let place = problem.places.first().expect("a place");
                assert!(text.get(place.range.clone()).is_some(), "{problem:?}");
                assert!(!problem.plain(text).is_empty());
            }
        }
    }
}

/// An example with some of its bytes replaced by a bit, at character boundaries.
fn mutated() -> impl Strategy<Value = String> {
    let cuts = prop::collection::vec(
        (any::<prop::sample::Index>(), 0_usize..12, prop::sample::select(&BITS[..])),
        1..5,
    );
    (prop::sample::select(&EXAMPLES[..]), cuts).prop_map(|(example, cuts)| {
        cuts.into_iter().fold(example.to_owned(), |text, (at, length, bit)| {
            let letters: Vec<char> = text.chars().collect();
            let start = at.index(letters.len());
            let rest = letters.iter().skip(start + length);
            letters[..start].iter().chain(bit.chars().collect::<Vec<_>>().iter()).chain(rest).collect()
        })
    })
}

/// An example with one of its values replaced by another of its values.
fn shuffled() -> impl Strategy<Value = String> {
    (prop::sample::select(&EXAMPLES[..]), any::<prop::sample::Index>(), any::<prop::sample::Index>())
        .prop_map(|(example, from, to)| {
            let values: Vec<&str> =
                example.lines().filter_map(|line| line.split_once(" = ")).map(|(_, value)| value).collect();
            let value = values[from.index(values.len())];
            let mut lines: Vec<String> = example.lines().map(str::to_owned).collect();
            let line = to.index(lines.len());
            if let Some((key, _)) = lines[line].clone().split_once(" = ") {
                lines[line] = format!("{key} = {value}");
            }
            lines.join("\n")
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_text_is_answered(text in "\\PC{0,200}") {
        check(&text);
    }

    #[test]
    fn any_toml_like_text_is_answered(text in "(\\[{0,2}[a-z.]{0,6}\\]{0,2} ?= ?[\\[\"{]{0,2}[0-9'a-z/ ]{0,6}[\\]\"}]{0,2}\n){0,8}") {
        check(&format!("weathershed = 1\n{text}"));
    }

    #[test]
    fn a_damaged_example_is_answered(text in mutated()) {
        check(&text);
    }

    #[test]
    fn an_example_with_values_in_the_wrong_places_is_answered(text in shuffled()) {
        check(&text);
    }

    #[test]
    fn setting_a_value_changes_that_value_or_is_refused(
        example in 0..EXAMPLES.len(),
        path in "(block|site|walls|attic|opening|house)(\\.(main|roof|pitch|overhang|eave|code|found|1|2|plate|new))?(\\.(roof|pitch|eave|south|humidity|hatch))?",
        value in "[0-9a-z'\"/ ]{0,8}",
    ) {
        let example = EXAMPLES[example];
        if let Ok(edited) = edit::set(example, &path, &value) {
            let again = edit::set(&edited, &path, &value);
            prop_assert!(again.as_ref() == Ok(&edited), "setting it once more changes nothing");
            let is_kept = |line: &&str| edited.contains(line.trim_end());
            let lost = example.lines().filter(|line| !is_kept(line)).count();
            prop_assert!(lost <= 1, "one line at most is other than it was");
        }
    }
}
