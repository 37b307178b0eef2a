//! Errors of TOML itself, in plain words.

use toml::de::Error;

use super::node::shortened;
use crate::{Problem, Span};

/// What the parser says of a fault, the cause in plain words, and what mends it. The first that fits is taken.
const FAULTS: [(&str, &str, &str); 17] = [
    (
        "string values must be quoted",
        "a value stands here without quotes",
        "put text and measurements in quotes, like \"16 in\"; only plain numbers, true and false go without",
    ),
    (
        "missing opening quote",
        "a quote ends here that was never opened",
        "put the whole value in double quotes, like \"17'\"",
    ),
    (
        "unexpected key or value",
        "something follows a value that is already complete",
        "start a new line; inside double quotes write an inch mark as \\\" or the inches as `in`",
    ),
    (
        "duplicate key",
        "this name is already taken above",
        "keep one of the two; parts of the house come in [[block]] with two brackets",
    ),
    (
        "key with no value",
        "a name stands here without a value",
        "write it as name = value, or put # before a remark",
    ),
    (
        "invalid unquoted key",
        "a name has letters that need quotes",
        "put the name in double quotes, like \"häuser\" = ..",
    ),
    ("unquoted keys cannot be empty", "a value stands here without a name", "write it as name = value"),
    ("unclosed table", "a heading is not closed", "end it with the same brackets, like [site] or [[block]]"),
    ("unclosed array", "a list is not closed", "end it with ]"),
    ("unclosed inline table", "a table in braces is not closed", "end it with }"),
    ("missing comma", "two values follow each other without a comma", "put a comma between them"),
    (
        "invalid basic string",
        "a text in double quotes is not closed on its line",
        "end it with \" on the same line",
    ),
    (
        "invalid literal string",
        "a text in single quotes is not closed on its line",
        "end it with ' on the same line, or use double quotes",
    ),
    (
        "missing escaped value",
        "a backslash stands before a letter that means nothing",
        "write two backslashes, or take it out",
    ),
    (
        "unexpected leading zero",
        "a number starts with a zero",
        "take the zero out, or put a date or measurement in its own notation",
    ),
    (
        "carriage return",
        "a line ends in half of a Windows line end",
        "save the file again with ordinary line ends",
    ),
    ("invalid date", "this is no day of the calendar", "write days like 2025-06-14, year first"),
];

/// The problem of a document that is no TOML.
pub(crate) fn problem(text: &str, error: &Error) -> Problem {
    let span = error.span().unwrap_or(text.len()..text.len());
    let known = FAULTS.iter().find(|(said, ..)| error.message().starts_with(said));
    let near = nearby(text, &span);
    let (message, mend) = match (unseen(text, &span), known) {
        (Some(letter), _) => (
            format!("a character that cannot be seen (U+{:04X}) stands here: `{near}`", u32::from(letter)),
            "delete it; it may have come along with pasted text".to_owned(),
        ),
        (None, Some((_, cause, mend))) => (format!("{cause}: `{near}`"), (*mend).to_owned()),
        (None, None) => (
            format!("this cannot be read: {}: `{near}`", error.message()),
            "check quotes, brackets and commas here".to_owned(),
        ),
    };
    Problem::error("syntax", message, mend).at(span, "")
}

/// The letter at fault, if it is one that cannot be seen and that no document may hold.
fn unseen(text: &str, span: &Span) -> Option<char> {
    let letter = text.get(span.start..)?.chars().next()?;
    (letter.is_control() && !matches!(letter, '\n' | '\r' | '\t')).then_some(letter)
}

/// The line of the fault, as far as it helps.
fn nearby(text: &str, span: &Span) -> String {
    let before = text.get(..span.start).unwrap_or(text);
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let line = text.get(start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
    shortened(line.trim_start_matches('\u{feff}').trim())
}

#[cfg(test)]
mod tests {
    use toml::de::DeTable;

    use super::*;

    /// What is said of a document that is no TOML.
    fn said(text: &str) -> String {
        let error = DeTable::parse(text).expect_err("no TOML");
        problem(text, &error).message
    }

    #[test]
    fn every_usual_slip_is_told_in_plain_words() {
        for (text, cause) in [
            ("plate = 17 ft", "a value stands here without quotes: `plate = 17 ft`"),
            ("roof = gable", "a value stands here without quotes: `roof = gable`"),
            ("pitch = 6/12", "a value stands here without quotes: `pitch = 6/12`"),
            ("plate = 17'", "a quote ends here that was never opened: `plate = 17'`"),
            (
                "plate = \"7' 3\"\"",
                "something follows a value that is already complete: `plate = \"7' 3\"\"`",
            ),
            ("a = 1 b = 2", "something follows a value that is already complete: `a = 1 b = 2`"),
            ("a = 1\na = 2", "this name is already taken above: `a = 2`"),
            ("[[block]]\n[block]", "this name is already taken above: `[block]`"),
            ("note", "a name stands here without a value: `note`"),
            ("wall line = 1", "a name stands here without a value: `wall line = 1`"),
            ("häuser = 1", "a name has letters that need quotes: `häuser = 1`"),
            ("= 3", "a value stands here without a name: `= 3`"),
            ("[site\na = 1", "a heading is not closed: `[site`"),
            ("at = [1, 2", "a list is not closed: `at = [1, 2`"),
            ("roof = { form = 1", "a table in braces is not closed: `roof = { form = 1`"),
            ("at = [\"1'\" \"2'\"]", "two values follow each other without a comma: `at = [\"1'\" \"2'\"]`"),
            ("title = \"x", "a text in double quotes is not closed on its line: `title = \"x`"),
            ("title = 'x", "a text in single quotes is not closed on its line: `title = 'x`"),
            ("title = \"\\q\"", "a backslash stands before a letter that means nothing: `title = \"\\q\"`"),
            ("year = 0123", "a number starts with a zero: `year = 0123`"),
            ("a = 1\r b = 2", "a line ends in half of a Windows line end: `a = 1  b = 2`"),
            (
                "title = \"a\u{7}b\"",
                "a character that cannot be seen (U+0007) stands here: `title = \"a b\"`",
            ),
            ("note\u{0} = 1", "a character that cannot be seen (U+0000) stands here: `note  = 1`"),
            ("date = 2025-13-40", "this is no day of the calendar: `date = 2025-13-40`"),
        ] {
            assert_eq!(said(text), cause);
        }
    }

    #[test]
    fn what_is_not_usual_is_told_in_the_words_of_toml() {
        assert_eq!(said("open = tru"), "this cannot be read: invalid boolean, expected `true`: `open = tru`");
    }
}
