//! Windows and doors in walls that a roof runs into below them.

use measure::Length;

use super::{Side, Span};

/// A window, or a door, above a roof that meets its wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Name, unique among them.
    pub name: String,
    /// Where the name stands in the document.
    pub name_span: Span,
    /// Block and side of the wall it is in.
    pub wall: (String, Side),
    /// From the wall's west end, its south end where it runs north, to the nearer side of the frame; 0 or more.
    pub at: Length,
    /// Width of the frame; more than 0.
    pub width: Length,
    /// From the roof below up to the underside of the sill where the two are nearest; 0 or more.
    pub sill: Length,
}
