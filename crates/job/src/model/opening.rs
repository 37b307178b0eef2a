//! What pierces or sits on a roof.

use measure::{Area, Length, Pitch, RValue};

use super::{Figure, Span};

/// What pierces or sits on a roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the trade's own names")]
pub enum OpeningKind {
    Pipe,
    Hood,
    Chimney,
    Skylight,
    DaylightTube,
    BoxVent,
    PowerVent,
}

impl OpeningKind {
    /// As the document writes it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Pipe => "pipe",
            Self::Hood => "hood",
            Self::Chimney => "chimney",
            Self::Skylight => "skylight",
            Self::DaylightTube => "daylight-tube",
            Self::BoxVent => "box-vent",
            Self::PowerVent => "power-vent",
        }
    }
}

/// Whether a thing is there now, comes, or goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// There now, stays.
    Found,
    /// New.
    Plan,
    /// There now, goes.
    Remove,
}

/// What a pipe or a hood carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Serves {
    /// Air of the drains.
    Plumbing,
    /// Moist air a fan blows out.
    Fan,
    /// What an appliance that burns fuel gives off.
    Fuel,
}

/// What a skylight is mounted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mount {
    /// A framed box that lifts it above the roof.
    Curb,
    /// The deck, its own frame screwed on.
    Deck,
}

/// Whether a small two-slope roof is built behind an opening.
#[derive(Clone, Debug, PartialEq)]
pub enum Cricket {
    /// As the adopted code asks.
    ByCode,
    /// Asked for, with the roof's own pitch or this one.
    Built(Option<Pitch>),
    /// Not wanted; the code is still reported.
    None,
}

/// One opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Name, unique in the job; given by kind and number where the document has none.
    pub name: String,
    /// What it is.
    pub kind: OpeningKind,
    /// Plan centre, metres.
    pub at: [f64; 2],
    /// Size across the slope (a diameter for round things).
    pub across: Length,
    /// Size along the slope: in plan for what stands upright (chimney, pipe, hood), on the slope for what lies in it.
    pub along: Length,
    /// Whether it stays, comes or goes.
    pub state: State,
    /// What it carries; none where it was not written or it is neither pipe nor hood.
    pub serves: Option<Serves>,
    /// Cricket behind it.
    pub cricket: Cricket,
    /// What it is mounted on; none where it is no skylight.
    pub mount: Option<Figure<Mount>>,
    /// Net free area of a vent.
    pub net_free_area: Option<Figure<Area>>,
    /// Note on the framing around it, as written.
    pub framing: Option<String>,
    /// How far it stands above the roof where that is highest beside it; for what is planned, as it will be.
    pub height: Option<Length>,
    /// Shaft from the ceiling up to it.
    pub shaft: Option<Shaft>,
    /// Where it stands in the document.
    pub span: Span,
    /// Where its `at` stands.
    pub at_span: Span,
}

impl Opening {
    /// What a pipe or a hood carries: as written, else a pipe the air of the drains and a hood that of a fan; nothing else carries anything.
    pub fn carries(&self) -> Option<Serves> {
        match self.kind {
            OpeningKind::Pipe => Some(self.serves.unwrap_or(Serves::Plumbing)),
            OpeningKind::Hood => Some(self.serves.unwrap_or(Serves::Fan)),
            _ => None,
        }
    }
}

/// Shaft of a skylight through the attic.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaft {
    /// Ceiling to roof.
    pub depth: Length,
    /// Thermal resistance of its sides; none where it was not written.
    pub insulation: Option<Figure<RValue>>,
}
