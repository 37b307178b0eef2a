//! Names of units, and when two are the same or nearly so.

/// A name of a unit: a word such as `sq ft`, or a mark such as `'`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct UnitName(pub(crate) &'static str);

impl UnitName {
    /// Whether this is written there, case, spaces and points aside.
    pub(crate) fn is(self, written: &str) -> bool {
        folded(self.0).eq(folded(written))
    }

    /// Whether one letter too many, too few, wrong, or two swapped part the names.
    pub(crate) fn is_one_slip_from(self, written: &str) -> bool {
        let (known, written): (Vec<char>, Vec<char>) = (folded(self.0).collect(), folded(written).collect());
        if known.len() < 3 {
            return false; // nearly any word is one slip from a word of two letters
        }
        let shorter = known.len().min(written.len());
        let head = common(known.iter().zip(&written));
        let tail = common(known.iter().rev().zip(written.iter().rev()).take(shorter - head));
        match (&known[head..known.len() - tail], &written[head..written.len() - tail]) {
            ([a, b], [c, d]) => (a, b) == (d, c),
            (left, right) => left.len() <= 1 && right.len() <= 1 && !has_digit(left) && !has_digit(right),
        }
    }

    /// A number with this unit: marks stand close to it, words apart.
    pub(crate) fn after(self, number: &str) -> String {
        let gap = if self.0.starts_with(char::is_alphabetic) { " " } else { "" };
        format!("{number}{gap}{}", self.0)
    }
}

/// Between `ft` and `ft2` there is more than a slip.
fn has_digit(letters: &[char]) -> bool {
    letters.iter().any(char::is_ascii_digit)
}

/// How many leading pairs are equal.
fn common<'a>(pairs: impl Iterator<Item = (&'a char, &'a char)>) -> usize {
    pairs.take_while(|(a, b)| a == b).count()
}

/// The letters of a unit that matter.
fn folded(name: &str) -> impl Iterator<Item = char> {
    name.chars().filter(|c| !c.is_whitespace() && !".·⋅*^".contains(*c)).map(|c| match c {
        '²' => '2',
        '³' => '3',
        'º' => '°',
        _ => c.to_ascii_lowercase(),
    })
}

#[cfg(test)]
mod tests {
    use super::UnitName;

    #[test]
    fn name_written_with_points_spaces_and_capitals_is_the_same() {
        assert!(UnitName("sq ft").is("SQ. FT."));
        assert!(UnitName("ft2").is("ft²"));
        assert!(UnitName("°F").is("º F"));
        assert!(!UnitName("ft2").is("ft3"));
    }

    #[test]
    fn one_slip_is_seen_and_two_are_not() {
        for written in ["pfs", "pf", "psff", "paf"] {
            assert!(UnitName("psf").is_one_slip_from(written), "{written}");
        }
        for written in ["", "p", "gpm", "spfs", "fsp"] {
            assert!(!UnitName("psf").is_one_slip_from(written), "{written}");
        }
    }

    #[test]
    fn another_power_of_a_unit_is_not_a_slip() {
        assert!(!UnitName("ft2").is_one_slip_from("ft"));
        assert!(!UnitName("ft2").is_one_slip_from("ft3"));
    }
}
