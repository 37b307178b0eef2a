//! Ways in which water comes at a roof.

use std::fmt;

use book::{Coming, Pond};

use crate::section::{Section, Stretch};

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

    /// Of each stretch whether it stands under water.
    pub(crate) fn drowned(self, section: &Section<'_>) -> Vec<bool> {
        let pond = self.pond(section).map(|pond| (pond.height.m(), section.spans(&pond.on)));
        let under = |stretch: &Stretch| {
            pond.as_ref().is_some_and(|(height, on)| {
                stretch.height <= *height && on.iter().any(|span| span.touches(stretch.span))
            })
        };
        section.stretches.iter().map(under).collect()
    }

    /// How its water comes at layers that it drowns or does not. A blocked gutter runs over; it does not press.
    pub(crate) const fn coming(self, drowns: bool) -> Coming {
        match self {
            Self::Wind => Coming::Driven,
            Self::Ice if drowns => Coming::Standing,
            Self::Rain | Self::Ice | Self::Gutter => Coming::Running,
        }
    }
}

impl fmt::Display for Attack {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
