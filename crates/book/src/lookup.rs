//! Looking a name up, and what is said when it is not there.

/// A row that was asked for and cannot be had.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LookupError {
    /// No row of that name.
    #[error("the books have no {table} `{id}`; {hint}")]
    Unknown {
        /// Kind of row.
        table: &'static str,
        /// Name asked for.
        id: String,
        /// What may have been meant, or what there is.
        hint: String,
    },
    /// The row is there but of another kind.
    #[error("{row} is not {wanted}; name another one or mend the row in the overlay that states it")]
    Kind {
        /// The row.
        row: String,
        /// The kind asked for.
        wanted: &'static str,
    },
}

/// What to say of a name that is not known: the nearest one, or all of them.
pub(crate) fn hint<'a>(word: &str, known: impl Iterator<Item = &'a str> + Clone) -> String {
    match nearest(word, known.clone()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("known: {}", known.collect::<Vec<_>>().join(", ")),
    }
}

/// The known word a misspelt one most likely stands for: the one fewest edits away (a letter added, dropped, changed
/// or swapped with its neighbour), if a third of the letters or fewer are wrong. The first of equals wins.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let most = (word.chars().count() / 3).max(1);
    known
        .into_iter()
        .map(|candidate| (edits(word, candidate), candidate))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, _)| *distance <= most)
        .map(|(_, candidate)| candidate)
}

/// Edits between two words, ignoring case: optimal string alignment distance.
fn edits(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) =
        (a.to_lowercase().chars().collect(), b.to_lowercase().chars().collect());
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i; b.len() + 1];
        for j in 1..=b.len() {
            let changed = above[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            row[j] = changed.min(above[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                row[j] = row[j].min(before[j - 2] + 1);
            }
        }
        before = std::mem::replace(&mut above, row);
    }
    above[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dropped_added_changed_or_swapped_letter_is_one_edit() {
        assert_eq!(edits("valley", "valley"), 0);
        assert_eq!(edits("vally", "valley"), 1);
        assert_eq!(edits("valleyy", "valley"), 1);
        assert_eq!(edits("volley", "valley"), 1);
        assert_eq!(edits("irc-2081", "irc-2018"), 1);
        assert_eq!(edits("Ridge", "ridge"), 0);
        assert_eq!(edits("", "eave"), 4);
    }

    #[test]
    fn the_nearest_word_is_offered_only_when_it_is_near() {
        assert_eq!(nearest("widht", ["width", "length"]), Some("width"));
        assert_eq!(nearest("gutter", ["width", "length"]), None);
        assert_eq!(nearest("anything", []), None);
    }
}
