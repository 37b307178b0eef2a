//! Ways in which water comes at a roof.

use std::fmt;

use book::{Coming, Pond};

use crate::section::Section;

/// A way in which water comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Attack {
    /// Rain that runs down.
    Rain,
    /// Rain that wind drives against and up under things.
    Wind,
    /// Water that ice has backed up.
    Ice,
    /// Water of a blocked gutter.
    Gutter,
}

impl Attack {
    /// All of them, the everyday one first.
    pub const ALL: [Self; 4] = [Self::Rain, Self::Wind, Self::Ice, Self::Gutter];

    /// For papers.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rain => "running rain",
            Self::Wind => "driven rain",
            Self::Ice => "water behind ice",
            Self::Gutter => "blocked gutter",
        }
    }

    /// The water that stands in it.
    fn pond<'a>(self, section: &Section<'a>) -> Option<&'a Pond> {
        match self {
            Self::Rain | Self::Wind => None,
            Self::Ice => section.detail.ice.as_ref(),
            Self::Gutter => section.detail.gutter.as_ref(),
        }
    }

    /// Whether it can happen there.
    pub fn happens(self, section: &Section<'_>) -> bool {
        matches!(self, Self::Rain | Self::Wind) || self.pond(section).is_some()
    }

    /// Whether a stretch stands under water.
    pub(crate) fn drowns(self, section: &Section<'_>, stretch: usize) -> bool {
        let stretch = &section.stretches[stretch];
        self.pond(section).is_some_and(|pond| {
            let mut on = section.spans(&pond.on).into_iter();
            stretch.height <= pond.height.m() && on.any(|span| span.touches(stretch.span))
        })
    }

    /// Whether its water is on the outside of a stretch from the start.
    pub(crate) fn begins(self, section: &Section<'_>, stretch: usize) -> bool {
        match self {
            Self::Rain | Self::Wind => true,
            Self::Ice | Self::Gutter => self.drowns(section, stretch),
        }
    }

    /// How its water comes at the layers of a stretch. A blocked gutter runs over; it does not press.
    pub(crate) fn coming(self, section: &Section<'_>, stretch: usize) -> Coming {
        match self {
            Self::Wind => Coming::Driven,
            Self::Ice if self.drowns(section, stretch) => Coming::Standing,
            Self::Rain | Self::Ice | Self::Gutter => Coming::Running,
        }
    }
}

impl fmt::Display for Attack {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
