//! Texts made fit to print with the one face the papers carry.
//!
//! An archival PDF may not hold a character its fonts cannot show, and a name typed by a person may hold any. What the
//! face lacks (and what has no shape: control characters, direction marks, private-use codes) is printed as its code,
//! `⟨U+5C4B⟩`, so that nothing is dropped in silence and nothing can reorder a line. Words too long for a table column
//! get places to break, after the dots and underscores of a name first, which leave no character in the paper; a text longer than a table row may be is cut with a word that says so. The
//! attached job document keeps every character as it was typed.

use serde_json::Value;

use crate::world::fonts;

/// Longest text, in characters, that fits a table row on one page even in a narrow column.
const LONGEST_TEXT: usize = 1000;
/// Longest run without a space that a table column surely takes.
const LONGEST_RUN: usize = 18;
/// Where names are broken, if they must be.
const JOINTS: [char; 3] = ['.', '_', '/'];
/// Distance of the break places put into a longer run without joints.
const BREAK_EVERY: usize = 9;
/// Stands for a break place on the way to the typesetter, whose template takes it out again.
const BREAK_PLACE: char = '\u{200B}';
const NO_BREAK_SPACE: char = '\u{A0}';

/// Every string of a JSON value, made fit to print. Keys are ours and stay.
pub(crate) fn texts(value: Value) -> Value {
    match value {
        Value::String(s) => Value::String(line(&s)),
        Value::Array(items) => Value::Array(items.into_iter().map(texts).collect()),
        Value::Object(fields) => Value::Object(fields.into_iter().map(|(k, v)| (k, texts(v))).collect()),
        other => other,
    }
}

/// One text, made fit to print.
pub(crate) fn line(text: &str) -> String {
    breakable(&whole_numbers(&cut(&shown(text))))
}

/// An SVG document whose texts can all be shown. Its markup is ASCII and unchanged.
pub(crate) fn drawing(svg: &str) -> String {
    shown(svg)
}

/// A text for the metadata, which are not drawn but are XML: control characters become spaces.
pub(crate) fn metadata(text: &str) -> String {
    text.replace(char::is_control, " ")
}

fn shown(text: &str) -> String {
    let piece =
        |c: char| if is_printable(c) { c.to_string() } else { format!("⟨U+{:04X}⟩", u32::from(c)) };
    text.chars().map(piece).collect()
}

pub(crate) fn is_printable(c: char) -> bool {
    match c {
        '\n' | '\t' | ' '..='~' => true,
        '\u{E000}'..='\u{F8FF}' | '\u{FEFF}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' => false,
        _ => !c.is_control() && fonts().iter().all(|font| font.info().coverage.contains(u32::from(c))),
    }
}

fn cut(text: &str) -> String {
    match text.char_indices().nth(LONGEST_TEXT) {
        Some((end, _)) => format!("{}… (cut; the whole is in job.toml)", &text[..end]),
        None => text.to_owned(),
    }
}

/// Keeps `3 3/8` on one line.
fn whole_numbers(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let between_digits = |i: usize| {
        let digit = |at: Option<usize>| at.and_then(|at| chars.get(at)).is_some_and(char::is_ascii_digit);
        digit(i.checked_sub(1)) && digit(i.checked_add(1))
    };
    let kept = |(i, c): (usize, &char)| if *c == ' ' && between_digits(i) { NO_BREAK_SPACE } else { *c };
    chars.iter().enumerate().map(kept).collect()
}

fn breakable(text: &str) -> String {
    let is_long = |run: &str| run.chars().count() > LONGEST_RUN;
    let open = |run: &str| if is_long(run) { opened(run) } else { run.to_owned() };
    text.split_inclusive(char::is_whitespace).map(open).collect()
}

/// A long run with places to break.
fn opened(run: &str) -> String {
    let mut out = String::with_capacity(run.len());
    for part in run.split_inclusive(JOINTS) {
        if !out.is_empty() {
            out.push(BREAK_PLACE);
        }
        let is_long = part.chars().count() > LONGEST_RUN;
        for (i, c) in part.chars().enumerate() {
            if is_long && i > 0 && i % BREAK_EVERY == 0 && !is_combining(c) {
                out.push(BREAK_PLACE);
            }
            out.push(c);
        }
    }
    out
}

fn is_combining(c: char) -> bool {
    matches!(c, '\u{0300}'..='\u{036F}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shown_keeps_what_the_trade_writes() {
        let text = "16′-4 1/2″ ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ 12° ft² m³ → ← ↑ ↓ ≥ ≤ ± × √ Ångström naïve e\u{301} ● ○ ■ □ ◊";
        assert_eq!(shown(text), text);
    }

    #[test]
    fn shown_writes_the_code_of_what_the_face_lacks() {
        assert_eq!(shown("屋根 🏠"), "⟨U+5C4B⟩⟨U+6839⟩ ⟨U+1F3E0⟩");
    }

    #[test]
    fn shown_writes_the_code_of_what_has_no_shape() {
        assert_eq!(shown("a\u{202E}b\u{0}c\u{FEFF}\u{E000}"), "a⟨U+202E⟩b⟨U+0000⟩c⟨U+FEFF⟩⟨U+E000⟩");
    }

    #[test]
    fn cut_leaves_a_thousand_characters_and_says_what_it_took_from_more() {
        assert_eq!(cut(&"é".repeat(1000)), "é".repeat(1000));
        assert_eq!(cut(&"é".repeat(1001)), "é".repeat(1000) + "… (cut; the whole is in job.toml)");
    }

    #[test]
    fn mixed_numbers_stay_whole_and_words_do_not() {
        assert_eq!(whole_numbers("9′-3 3/8″, IRC 2018 R905"), "9′-3\u{A0}3/8″, IRC 2018 R905");
    }

    #[test]
    fn breakable_leaves_ordinary_words_and_opens_long_runs() {
        assert_eq!(breakable("counterflashing at the chimney"), "counterflashing at the chimney");
        let opened = breakable(&"x".repeat(40));
        assert_eq!(opened.replace(BREAK_PLACE, ""), "x".repeat(40));
        assert!(opened.split(BREAK_PLACE).all(|run| run.len() <= LONGEST_RUN), "{opened}");
    }

    #[test]
    fn names_break_after_their_joints() {
        let opened = breakable("see attic.main.plan.insulation_depth first");
        assert_eq!(opened.replace(BREAK_PLACE, "|"), "see attic.|main.|plan.|insulation_|depth first");
        assert_eq!(breakable("R905.2.8.2 at 0.105 in"), "R905.2.8.2 at 0.105 in");
    }

    #[test]
    fn texts_reach_strings_at_any_depth_and_leave_numbers() {
        let value = serde_json::json!({ "a": [1, "屋", { "b": null, "c": "ok" }] });
        assert_eq!(texts(value), serde_json::json!({ "a": [1, "⟨U+5C4B⟩", { "b": null, "c": "ok" }] }));
    }
}
