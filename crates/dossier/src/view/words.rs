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
