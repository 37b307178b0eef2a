//! What fits between ceiling and deck at the wall.

use measure::{Length, Pitch, RValue};

use crate::{Taper, TaperError};

/// Room over the outside of the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heel {
    /// From the ceiling to the underside of the deck over the outside of the plate.
    pub height: Length,
    /// Way kept clear for air under the deck.
    pub clear: Length,
    /// Pitch of the deck.
    pub pitch: Pitch,
}

impl Heel {
    /// Insulation that is as deep as it fits, up to a full depth; `rest` is films and ceiling.
    ///
    /// # Errors
    /// Figures that are no taper.
    pub fn taper(&self, full: Length, per_metre: f64, rest: RValue) -> Result<Taper, TaperError> {
        let at_wall = (self.height - self.clear).max(Length::ZERO).min(full);
        let taper = Taper { at_wall, full, pitch: self.pitch, per_metre, rest };
        // its own check of its figures
        taper.mean(Length::from_m(1.0)).map(|_| taper)
    }

    /// Height of a heel that takes the full depth over the plate.
    pub fn height_for(&self, full: Length) -> Length {
        full + self.clear
    }
}
