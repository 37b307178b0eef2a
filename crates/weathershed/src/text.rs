//! What a file says as text, or what kind of file it is instead and how to make it text.
//!
//! A file in another encoding is told once and whole: read on as if it were text, it would be wrong on every line.

use std::fs;
use std::path::Path;

use crate::failure::Failure;

/// Why a file is no text that can be read, and what would mend it.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct NotText {
    pub(crate) why: String,
    pub(crate) mend: &'static str,
}

const AS_UTF_8: &str =
    "open it in an editor and save it again in UTF-8, which is one of the choices of \"Save as\"";

/// The text of a file.
pub(crate) fn text_of(path: &Path) -> Result<String, Failure> {
    let bytes = fs::read(path).map_err(Failure::file("cannot read", path))?;
    decoded(bytes).map_err(|fault| Failure::NotText { path: path.to_path_buf(), fault })
}

fn decoded(bytes: Vec<u8>) -> Result<String, NotText> {
    if is_utf_16(&bytes) {
        return Err(NotText { why: "is text in UTF-16, not in UTF-8".to_owned(), mend: AS_UTF_8 });
    }
    if let Some(at) = bytes.iter().position(|byte| *byte == 0) {
        let why =
            format!("holds bytes of zero, which text never does, the first on line {}", line(&bytes, at));
        return Err(NotText { why, mend: "it was damaged, or is no job document: take an earlier copy" });
    }
    let text = String::from_utf8(bytes).map_err(|error| not_utf_8(&error))?;
    if text.contains('\r') && !text.contains('\n') {
        let why = "has lines that end in a carriage return alone, as on very old machines".to_owned();
        return Err(NotText { why, mend: "save it again with the line ends of Unix (LF) or Windows (CRLF)" });
    }
    Ok(text)
}

/// Whether it begins with the mark of UTF-16, or has the zero of a Latin letter in every other place.
fn is_utf_16(bytes: &[u8]) -> bool {
    let marked = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    let zeros = |first: usize| bytes.iter().skip(first).step_by(2).filter(|byte| **byte == 0).count();
    let (even, odd) = (zeros(0), zeros(1));
    marked || even.max(odd) > bytes.len() / 4 && even.min(odd) < bytes.len() / 20
}

fn not_utf_8(error: &std::string::FromUtf8Error) -> NotText {
    let at = line(error.as_bytes(), error.utf8_error().valid_up_to());
    let why = format!("is not in UTF-8: line {at} holds a letter of another encoding, perhaps Windows-1252");
    NotText { why, mend: AS_UTF_8 }
}

/// The line of a byte, from 1.
fn line(bytes: &[u8], at: usize) -> usize {
    bytes.iter().take(at).filter(|byte| **byte == b'\n').count() + 1
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "weathershed = 1\ntitle = \"Büro\"\n";

    fn utf_16(bytes: fn(u16) -> [u8; 2]) -> Vec<u8> {
        TEXT.encode_utf16().flat_map(bytes).collect()
    }

    fn why(bytes: &[u8]) -> String {
        decoded(bytes.to_vec()).unwrap_err().why
    }

    #[test]
    fn utf_8_is_read_with_or_without_its_mark_and_with_windows_line_ends() {
        for text in [TEXT.to_owned(), format!("\u{feff}{TEXT}"), TEXT.replace('\n', "\r\n"), String::new()] {
            assert_eq!(decoded(text.clone().into_bytes()), Ok(text));
        }
    }

    #[test]
    fn utf_16_is_known_with_and_without_its_mark_either_way_round() {
        for (mark, bytes) in
            [([0xff, 0xfe], u16::to_le_bytes as fn(u16) -> [u8; 2]), ([0xfe, 0xff], u16::to_be_bytes)]
        {
            assert!(why(&utf_16(bytes)).contains("UTF-16"));
            assert!(why(&[mark.to_vec(), utf_16(bytes)].concat()).contains("UTF-16"));
        }
    }

    #[test]
    fn bytes_of_zero_and_letters_of_other_encodings_are_told_with_their_line() {
        assert!(
            why(&TEXT.replace("title", "ti\0tle").into_bytes())
                .contains("zero, which text never does, the first on line 2")
        );
        assert!(why(&[TEXT.as_bytes(), &[0; 500]].concat()).contains("the first on line 3"));
        assert!(
            why(b"weathershed = 1\ntitle = \"B\xfcro\"\n")
                .contains("line 2 holds a letter of another encoding")
        );
    }

    #[test]
    fn carriage_returns_alone_are_no_line_ends() {
        assert!(why(&TEXT.replace('\n', "\r").into_bytes()).contains("carriage return alone"));
    }
}
