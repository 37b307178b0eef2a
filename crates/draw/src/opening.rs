//! Symbols of openings, drawn to scale from the rim: the kind by what is inside, the state by the outline.
//!
//! There now: a plain outline. Comes: heavier dashes. Goes: crossed out. What would be smaller than [`LEAST`]
//! on paper is drawn that large.

use job::{OpeningKind, State};

use crate::ink::{FINE, OPENING, OPENING_NEW, PAPER, Pen};
use crate::place::Tilted;
use crate::svg::{Path, Svg};
use crate::vector::{P2, add, along, between, distance, quarter, scale, sub, unit};

/// Smallest symbol, mm.
const LEAST: f64 = 1.6;

/// An opening on paper.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct OpeningSymbol {
    pub(crate) kind: OpeningKind,
    pub(crate) state: State,
    /// Corners in turn.
    pub(crate) rim: [P2; 4],
}

impl OpeningSymbol {
    pub(crate) fn new(kind: OpeningKind, state: State, rim: [P2; 4]) -> Self {
        let middle = scale(rim.into_iter().fold([0.0; 2], add), 0.25);
        let smaller = distance(rim[0], rim[1]).min(distance(rim[1], rim[2]));
        let grow = if smaller > 0.0 { (LEAST / smaller).max(1.0) } else { 1.0 };
        Self { kind, state, rim: rim.map(|p| along(middle, sub(p, middle), grow)) }
    }

    pub(crate) fn center(&self) -> P2 {
        scale(self.rim.into_iter().fold([0.0; 2], add), 0.25)
    }

    /// The room it takes.
    pub(crate) fn room(&self) -> Tilted {
        let [a, b, c, _] = self.rim;
        let half = [distance(a, b) / 2.0, distance(b, c) / 2.0];
        let grown = if self.state == State::Remove { 0.8 } else { 0.3 };
        Tilted { center: self.center(), half, along: unit(sub(b, a)).unwrap_or([1.0, 0.0]) }.grown(grown)
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        let outline = if is_round(self.kind) {
            Path::circle(self.center(), self.radius())
        } else {
            Path::closed(&self.rim)
        };
        svg.shape("opening", &outline, PAPER, self.pen());
        let inside = self.inside();
        if !inside.is_empty() {
            svg.shape("opening-kind", &inside, self.inside_fill(), &FINE);
        }
        if self.state == State::Remove {
            svg.stroke("opening-goes", &self.cross(), &OPENING);
        }
    }

    fn radius(&self) -> f64 {
        distance(self.rim[0], self.rim[1]).min(distance(self.rim[1], self.rim[2])) / 2.0
    }

    const fn pen(&self) -> &'static Pen {
        match self.state {
            State::Found | State::Remove => &OPENING,
            State::Plan => &OPENING_NEW,
        }
    }

    /// Masonry is toned, the rest open.
    const fn inside_fill(&self) -> &'static str {
        if matches!(self.kind, OpeningKind::Chimney) { "#b9b9b9" } else { "none" }
    }

    /// The part of the symbol that tells the kind.
    fn inside(&self) -> Path {
        let (center, radius) = (self.center(), self.radius());
        match self.kind {
            OpeningKind::Pipe => Path::circle(center, radius * 0.35),
            OpeningKind::DaylightTube => Path::circle(center, radius * 0.7),
            OpeningKind::PowerVent => self.blades(),
            OpeningKind::Chimney => Path::closed(&self.shrunk(0.55)),
            OpeningKind::Skylight => {
                Path::closed(&self.shrunk(0.8)).and_open(&[self.shrunk(0.8)[0], self.shrunk(0.8)[2]])
            }
            OpeningKind::BoxVent => self.bars(&[0.3, 0.5, 0.7]),
            OpeningKind::Hood => self.bars(&[0.5]),
        }
    }

    fn shrunk(&self, times: f64) -> [P2; 4] {
        self.rim.map(|p| between(self.center(), p, times))
    }

    /// Bars parallel to the second side.
    fn bars(&self, shares: &[f64]) -> Path {
        let [a, b, c, d] = self.rim;
        shares.iter().fold(Path::default(), |path, &t| path.and_open(&[between(a, b, t), between(d, c, t)]))
    }

    /// Three spokes.
    fn blades(&self) -> Path {
        let (center, radius) = (self.center(), self.radius());
        let spoke = |degrees: f64| along(center, crate::vector::turned([0.0, -1.0], degrees), radius);
        [0.0, 120.0, 240.0]
            .into_iter()
            .fold(Path::default(), |path, turn| path.and_open(&[center, spoke(turn)]))
    }

    /// Two strokes through the corners and a little beyond.
    fn cross(&self) -> Path {
        let center = self.center();
        let reach = |p: P2| along(p, unit(sub(p, center)).unwrap_or([0.0, 0.0]), 0.8);
        let [a, b, c, d] = self.rim.map(reach);
        Path::open(&[a, c]).and_open(&[b, d])
    }
}

/// Whether openings of a kind are round.
pub(crate) const fn is_round(kind: OpeningKind) -> bool {
    matches!(kind, OpeningKind::Pipe | OpeningKind::DaylightTube | OpeningKind::PowerVent)
}

/// The name as it stands beside the symbol: `+` before what comes, `×` before what goes.
pub(crate) fn marked_name(name: &str, state: State) -> String {
    match state {
        State::Found => name.into(),
        State::Plan => format!("+ {name}"),
        State::Remove => format!("× {name}"),
    }
}

/// A symbol in the middle of a box, for a legend.
pub(crate) fn sample(kind: OpeningKind, state: State, center: P2, half: f64) -> OpeningSymbol {
    let corner = |d: P2| along(center, d, half);
    let low = [1.0, 1.0];
    let rim = [low, quarter(low), scale(low, -1.0), scale(quarter(low), -1.0)].map(corner);
    OpeningSymbol::new(kind, state, rim)
}
