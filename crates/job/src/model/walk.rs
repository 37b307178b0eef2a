//! Places on the ground to keep clear of drips and ice.

use super::Span;

/// A walk, an entrance, steps or a drive: a rectangle in plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// Name, unique among them.
    pub name: String,
    /// Where the name stands in the document.
    pub name_span: Span,
    /// South-west corner in plan, metres.
    pub from: [f64; 2],
    /// North-east corner.
    pub to: [f64; 2],
}
