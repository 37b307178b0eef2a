//! Lines and columns of places in a text.
//!
//! [`Position::of`] counts from the start of the text, for one place. [`Positions`] keeps a mark every kilobyte or so, so that
//! a document with thousands of faults, be they all on one line, costs no more for each than one with three.

/// Line and column of a place, both from 1; columns count characters. A byte order mark takes no column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line.
    pub line: usize,
    /// Column.
    pub column: usize,
}

impl Position {
    const START: Self = Self { line: 1, column: 1 };

    /// The position of byte `offset` of `text`; past the end it is that of the end.
    ///
    /// ```
    /// use job::Position;
    /// assert_eq!(Position::of("a\r\nbé c", 7), Position { line: 2, column: 4 });
    /// ```
    pub fn of(text: &str, offset: usize) -> Self {
        Self::START.past(&text[..floor_boundary(text, offset)])
    }

    /// The position after some text that starts here.
    fn past(self, text: &str) -> Self {
        text.chars().fold(self, |Self { line, column }, c| match c {
            '\n' => Self { line: line + 1, column: 1 },
            '\u{feff}' => Self { line, column },
            _ => Self { line, column: column + 1 },
        })
    }
}

/// Bytes between marks, at least.
const STRIDE: usize = 1024;

/// The positions of a text, for looking up many.
pub struct Positions<'t> {
    text: &'t str,
    /// Offsets at character boundaries, in order, the first 0, and their positions.
    marks: Vec<(usize, Position)>,
}

impl<'t> Positions<'t> {
    /// Of a text, read once.
    pub fn of(text: &'t str) -> Self {
        let mut marks = vec![(0, Position::START)];
        let (mut from, mut position) = (0, Position::START);
        while from < text.len() {
            let to = floor_boundary(text, from + STRIDE);
            position = position.past(&text[from..to]);
            marks.push((to, position));
            from = to;
        }
        Self { text, marks }
    }

    /// The same as [`Position::of`].
    pub fn at(&self, offset: usize) -> Position {
        let offset = floor_boundary(self.text, offset);
        let after = self.marks.partition_point(|(mark, _)| *mark <= offset);
        let (mark, position) = self.marks[..after].last().copied().unwrap_or((0, Position::START));
        position.past(&self.text[mark..offset])
    }
}

/// The last character boundary at or before `offset`.
fn floor_boundary(text: &str, offset: usize) -> usize {
    (0..=offset.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_count_characters_and_ignore_a_byte_order_mark() {
        let text = "\u{feff}ab\r\n\tdé=1";
        let at = |needle: &str| Position::of(text, text.find(needle).unwrap());
        assert_eq!(at("b"), Position { line: 1, column: 2 });
        assert_eq!(at("d"), Position { line: 2, column: 2 });
        assert_eq!(at("="), Position { line: 2, column: 4 });
    }

    #[test]
    fn positions_past_the_end_or_inside_a_character_are_the_nearest_before() {
        assert_eq!(Position::of("é", 1), Position { line: 1, column: 1 });
        assert_eq!(Position::of("ab", 99), Position { line: 1, column: 3 });
    }

    #[test]
    fn many_positions_are_the_same_as_one_at_a_time() {
        let text = "\u{feff}é\r\nhäuser ß\n".repeat(300) + &"ü".repeat(3 * STRIDE);
        let positions = Positions::of(&text);
        for offset in 0..=text.len() + 1 {
            assert_eq!(positions.at(offset), Position::of(&text, offset), "{offset}");
        }
        assert_eq!(Positions::of("").at(7), Position::START);
    }
}
