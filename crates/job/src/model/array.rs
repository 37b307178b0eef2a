//! Solar arrays on the roof.

use super::{PlaneName, Span, State};

/// A solar array on a plane.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Array {
    /// The plane it stands on.
    pub on: PlaneName,
    /// Whether it stays, comes or goes; one that stays is off while its plane is laid.
    pub state: State,
    /// Where it stands in the document.
    pub span: Span,
    /// Where its `on` stands.
    pub on_span: Span,
}
