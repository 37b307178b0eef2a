//! What is wrong with a table file.

use std::fmt;

/// One finding: where, what, and what would mend it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Name of the file as it was given.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Cause, in one sentence that names the row.
    pub message: String,
    /// What would mend it; empty where the message says so.
    pub mend: String,
}

impl Problem {
    /// A finding at a byte offset of a file's text.
    pub(crate) fn at(file: &str, text: &str, offset: usize, message: String, mend: String) -> Self {
        let before = text.get(..offset).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        Self {
            file: file.to_owned(),
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
            message,
            mend,
        }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}: {}", self.file, self.line, self.column, self.message)?;
        if self.mend.is_empty() { Ok(()) } else { write!(f, "; {}", self.mend) }
    }
}

/// Everything found wrong, in the order of the files and of the places in them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problems(pub Vec<Problem>);

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lines: Vec<String> = self.0.iter().map(Problem::to_string).collect();
        f.write_str(&lines.join("\n"))
    }
}

impl std::error::Error for Problems {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_counts_lines_and_characters_from_one() {
        let place = |offset| {
            let problem = Problem::at("a.toml", "é = 1\r\nb = 2\n", offset, String::new(), String::new());
            (problem.line, problem.column)
        };
        assert_eq!(place(0), (1, 1));
        assert_eq!(place(3), (1, 3));
        assert_eq!(place(8), (2, 1));
        assert_eq!(place(14), (3, 1));
        assert_eq!(place(999), (3, 1));
    }
}
