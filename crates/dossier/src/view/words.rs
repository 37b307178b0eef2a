//! Numbers and names as the papers write them.

use job::{Basis, Figure};
use study::Study;

use crate::Stated;

/// A text that is set differently when an assumption stands behind it.
pub(super) fn stated(text: String, assumed: bool) -> Stated {
    if assumed { Stated::assumed(text) } else { Stated::measured(text) }
}

/// Whether a figure of the survey was assumed.
pub(super) fn is_assumed<T>(figure: &Figure<T>) -> bool {
    matches!(figure.basis, Basis::Assumed { .. })
}

/// Whether any figure whose path starts so was assumed.
pub(super) fn is_any_assumed(study: &Study, path: &str) -> bool {
    study.assumptions.iter().any(|assumption| assumption.path.starts_with(path))
}

/// A name as part of a file name: lower case, words joined by `-`, nothing but letters and digits.
pub(super) fn file_name(name: &str) -> String {
    let kept: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    kept.to_lowercase().split_whitespace().collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_hold_no_separators() {
        assert_eq!(file_name("main N"), "main-n");
        assert_eq!(file_name("../Büro: 2/1"), "büro-2-1");
    }
}
