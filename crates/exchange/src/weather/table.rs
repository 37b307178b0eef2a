//! Lines and columns of text.

use std::borrow::Cow;

use super::FileError;

/// Longest piece of a file that is shown in a message.
const SHOWN: usize = 40;

/// Bytes as text, without a byte order mark; letters that are none in UTF-8 become a sign for that, since only names hold any.
pub(super) fn text(bytes: &[u8]) -> Cow<'_, str> {
    String::from_utf8_lossy(bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes))
}

/// Lines that hold anything, with their numbers from 1.
pub(super) fn lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.split('\n').enumerate().map(|(at, line)| (at + 1, line.trim())).filter(|(_, line)| !line.is_empty())
}

/// The columns of a line; commas inside quotes part nothing.
pub(super) fn columns(line: &str) -> Vec<&str> {
    let mut is_quoted = false;
    let parts = line.split(move |c| {
        is_quoted ^= c == '"';
        c == ',' && !is_quoted
    });
    parts.map(|part| part.trim().trim_matches('"').trim()).collect()
}

/// A piece of a file as messages show it.
pub(super) fn shown(text: &str) -> String {
    let mut piece: String = text.chars().take(SHOWN).map(|c| if c.is_control() { '·' } else { c }).collect();
    if text.chars().nth(SHOWN).is_some() {
        piece.push('…');
    }
    piece
}

/// A line of columns.
pub(super) struct Line<'a> {
    pub(super) number: usize,
    pub(super) columns: Vec<&'a str>,
}

impl<'a> Line<'a> {
    pub(super) fn of((number, line): (usize, &'a str)) -> Self {
        Self { number, columns: columns(line) }
    }

    /// What stands in a column; nothing where the line ends before it.
    pub(super) fn text(&self, at: usize) -> &'a str {
        self.columns.get(at).copied().unwrap_or("")
    }

    /// The number in a column, none where it is empty.
    pub(super) fn number(&self, at: usize, field: &str) -> Result<Option<f64>, FileError> {
        let text = self.text(at);
        if text.is_empty() {
            return Ok(None);
        }
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() => Ok(Some(number)),
            _ => Err(FileError::Number { line: self.number, field: field.to_owned(), text: shown(text) }),
        }
    }

    /// The number in a column that has to be there.
    pub(super) fn needed(&self, at: usize, field: &str) -> Result<f64, FileError> {
        let missing =
            || FileError::Number { line: self.number, field: field.to_owned(), text: String::new() };
        self.number(at, field)?.ok_or_else(missing)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commas_inside_quotes_part_nothing() {
        assert_eq!(columns("1, \"A, B\" ,,x"), ["1", "A, B", "", "x"]);
        assert_eq!(columns(""), [""]);
        assert_eq!(lines("a\r\n\n b").collect::<Vec<_>>(), [(1, "a"), (3, "b")]);
    }

    #[test]
    fn infinity_is_no_number() {
        let line = Line::of((7, "inf,1e3,"));
        assert!(line.number(0, "wind").is_err());
        assert_eq!(line.number(1, "wind"), Ok(Some(1000.0)));
        assert_eq!(line.number(2, "wind"), Ok(None));
        assert_eq!(line.needed(2, "wind").unwrap_err().to_string(), "line 7, wind: `` is not a number");
    }

    #[test]
    fn long_pieces_are_cut() {
        assert_eq!(shown(&"x\u{7}".repeat(30)).chars().count(), SHOWN + 1);
    }
}
