//! Gutters and downspouts where they hang.

use measure::Length;
use roof::{EdgeId, PlaneId};

/// Index of a gutter among those that hang.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct GutterId(pub usize);

/// A downspout: its gutter, and which of the gutter's it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DownspoutId {
    /// The gutter.
    pub gutter: GutterId,
    /// Index among the gutter's downspouts.
    pub index: usize,
}

/// What can be blocked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// A whole gutter.
    Gutter(GutterId),
    /// One downspout.
    Downspout(DownspoutId),
}

/// A gutter at its eave.
#[derive(Clone, Debug, PartialEq)]
pub struct HungGutter {
    /// Its name in the job.
    pub name: String,
    /// The eave it hangs at.
    pub edge: EdgeId,
    /// Its id in the books.
    pub kind: String,
    /// Fall in each foot of its length.
    pub fall: Length,
    /// How far its end stops short of a wall the eave ends at.
    pub wall_gap: Length,
    /// Its downspouts.
    pub downspouts: Vec<HungDownspout>,
}

/// A downspout at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct HungDownspout {
    /// Its name in the job.
    pub name: String,
    /// Distance in plan from the first end of the eave's edge.
    pub at: Length,
    /// Its id in the books.
    pub size: String,
    /// Where its water goes.
    pub to: Discharge,
}

/// Where the water of a downspout goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Discharge {
    /// Onto the ground.
    Ground,
    /// Into a drain.
    Drain,
    /// Into a lower gutter, where that is nearest.
    Gutter(GutterId),
    /// Onto a lower roof.
    Roof {
        /// The plane.
        plane: PlaneId,
        /// Where on it.
        at: [f64; 2],
    },
}

impl DownspoutId {
    /// What of it or over it keeps water from it when it is blocked.
    pub const fn parts(self) -> [Part; 2] {
        [Part::Gutter(self.gutter), Part::Downspout(self)]
    }
}

impl Part {
    /// The gutter or downspout of that name.
    pub fn named(name: &str, gutters: &[HungGutter]) -> Option<Self> {
        gutters.iter().enumerate().find_map(|(g, hung)| {
            let gutter = GutterId(g);
            let of = |index: usize| Self::Downspout(DownspoutId { gutter, index });
            if hung.name == name {
                return Some(Self::Gutter(gutter));
            }
            hung.downspouts.iter().position(|d| d.name == name).map(of)
        })
    }
}
