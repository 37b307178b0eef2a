//! Gutters and downspouts.

use std::fmt;

use measure::Length;

use super::{Compass, Figure, Span, State};

/// A plane of the roof, called by the block it rises from and the way it faces: `main S`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlaneName {
    /// The block.
    pub block: String,
    /// The way it faces.
    pub faces: Compass,
}

impl fmt::Display for PlaneName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.block, self.faces.letter())
    }
}

/// A gutter.
#[derive(Clone, Debug, PartialEq)]
pub struct Gutter {
    /// Name, unique among gutters and downspouts; `gutter` and its number where the document has none.
    pub name: String,
    /// The plane at whose eave it hangs.
    pub eave: PlaneName,
    /// Which of its eaves where it has several: counted from the west, or from the south where they run north.
    pub part: Option<u32>,
    /// A gutter of the books.
    pub kind: String,
    /// Fall in each foot of its length.
    pub fall: Figure<Length>,
    /// How far its end stops short of a wall the eave ends at; none where it runs to the end of the eave.
    pub wall_gap: Option<Length>,
    /// Its downspouts in document order.
    pub downspouts: Vec<Downspout>,
    /// Whether it stays, comes or goes.
    pub state: State,
    /// Where it stands in the document.
    pub span: Span,
    /// Where its `eave` stands.
    pub eave_span: Span,
}

/// A downspout.
#[derive(Clone, Debug, PartialEq)]
pub struct Downspout {
    /// Name, unique among gutters and downspouts; made from the gutter's where the document has none.
    pub name: String,
    /// Where along the eave.
    pub at: Along,
    /// A downspout of the books.
    pub size: String,
    /// Where its water goes.
    pub to: Empties,
    /// How far from the foundation its water is let go, where it was written.
    pub away: Option<Length>,
    /// Where its `at` stands in the document.
    pub at_span: Span,
    /// Where its `to` stands.
    pub to_span: Span,
}

/// A place along an eave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Along {
    /// So far from its west end, or from its south end where it runs north.
    Distance(Length),
    /// At the end on this side.
    End(Compass),
}

/// What a downspout empties on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Empties {
    /// Onto the ground.
    Ground,
    /// Into a drain.
    Drain,
    /// Into the gutter of this name.
    Gutter(String),
    /// Onto a roof.
    Roof(PlaneName),
}
