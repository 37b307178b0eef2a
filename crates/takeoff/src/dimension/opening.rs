//! Dimensions round openings.

use book::{Detail, Layer, Look, LookupError, Spot};
use job::{Opening, OpeningKind};
use measure::Length;
use roof::{Cricket, PlacedOpening};

use super::{Bench, Dimension, Size, dimension, sheets, width};
use crate::case::Ruled;
use crate::line::input;
use crate::openings::{IN_VALLEY, sizes};
use crate::steps::courses;

/// Pipes as they are called, inches, with the rules that have their outside diameters.
const PIPES: [(f64, &str); 4] =
    [(1.5, "pipe.outside.1.5"), (2.0, "pipe.outside.2"), (3.0, "pipe.outside.3"), (4.0, "pipe.outside.4")];

impl Bench<'_, '_> {
    pub(super) fn around(
        &self,
        index: usize,
        spot: Spot,
        detail: &Detail,
    ) -> Result<Vec<Dimension>, LookupError> {
        let placed = &self.case.roof.openings[index];
        let Some(opening) = self.case.job.openings.iter().find(|opening| opening.name == placed.name) else {
            return Ok(Vec::new());
        };
        let mut all = match spot {
            Spot::Pipe => self.pipe(opening, placed),
            Spot::ChimneyLow => self.chimney_low(opening, placed)?,
            Spot::ChimneySide | Spot::SkylightSide => self.flanks(placed),
            Spot::ChimneyHigh => self.chimney_high(index, opening, detail)?,
            Spot::SkylightLow => self.skylight(placed, "sill apron")?,
            Spot::SkylightHigh => self.skylight(placed, "head saddle")?,
            _ => across_and_along(placed),
        };
        all.extend(sheets(detail, self.case.book));
        all.extend(self.flange(placed, detail));
        all.extend(self.chalked(placed));
        Ok(all)
    }

    /// The collar by the pipe's outside diameter, which is more than what the pipe is called by.
    fn pipe(&self, opening: &Opening, placed: &PlacedOpening) -> Vec<Dimension> {
        let called = opening.across;
        let mut all =
            vec![dimension("pipe, as it is called", Size::Length(called), Vec::new(), "as the job says")];
        let (what, rule) =
            ("boot for an outside diameter of", "plastic and steel pipes are larger than their name");
        let called_so = input("called", self.case.words.tape(called));
        all.push(match self.outside(called) {
            Some(outside) => {
                let inputs = vec![called_so, outside.input()];
                let mut collar = dimension(what, Size::Length(outside.value), inputs, rule);
                collar.because.source = outside.source;
                collar
            }
            None => dimension(
                what,
                Size::Refused("measure it: the books know no pipe of that name"),
                vec![called_so],
                rule,
            ),
        });
        let pitch = self.case.roof.plane(placed.plane).pitch;
        all.push(dimension("boot for a slope of", Size::Pitch(pitch), Vec::new(), "pitch of its plane"));
        all
    }

    /// Outside diameter of a pipe, by the name nearest to what it is called and no more than 1/16 in off; of these the books have a rule each.
    fn outside(&self, called: Length) -> Option<Ruled<Length>> {
        let off = |name: f64| (name - called.inches()).abs();
        let near = PIPES.into_iter().filter(|(name, _)| off(*name) <= 1.0 / 16.0);
        let (_, rule) = near.min_by(|a, b| off(a.0).total_cmp(&off(b.0)))?;
        self.case.rule(rule).ok()
    }

    fn chimney_low(&self, opening: &Opening, placed: &PlacedOpening) -> Result<Vec<Dimension>, LookupError> {
        let extra: Ruled<Length> = self.case.rule("chimney.apron-extra")?;
        let inputs = vec![input("across the slope", self.case.words.tape(opening.across)), extra.input()];
        let size = Size::Length(opening.across + extra.value);
        let apron = dimension("apron", size, inputs, "width of the chimney and what wraps round its corners");
        let [across, along] = sizes(placed);
        let round = Size::Length((across + along) * 2.0);
        let rule = "round the chimney on the slope, without laps";
        Ok(vec![apron, dimension("counter-flashing, all round", round, Vec::new(), rule)])
    }

    /// Pieces across a skylight, with what they stand out at each side.
    fn skylight(&self, placed: &PlacedOpening, piece: &str) -> Result<Vec<Dimension>, LookupError> {
        let extra: Ruled<Length> = self.case.rule("skylight.flashing-extra")?;
        let [across, _] = sizes(placed);
        let inputs = vec![input("across the slope", self.case.words.inches(across)), extra.input()];
        let rule = "width of the frame and what stands out at its sides; a maker's kit goes by the frame";
        let piece = dimension(format!("{piece}, across"), Size::Length(across + extra.value), inputs, rule);
        Ok(across_and_along(placed).into_iter().chain([piece]).collect())
    }

    /// The piece a round opening comes through, up and down the slope.
    fn flange(&self, placed: &PlacedOpening, detail: &Detail) -> Option<Dimension> {
        let is_framed = matches!(placed.kind, OpeningKind::Chimney | OpeningKind::Skylight);
        let metal = |layer: &&Layer| {
            let made = self.case.book.material(&layer.material);
            made.is_ok_and(|made| made.drawn == Look::Metal) && layer.covers.len() == detail.faces.len()
        };
        let flange = detail.layers.iter().find(metal).filter(|_| !is_framed)?;
        // a pipe is as wide as its outside, not as its name
        let outside = self.outside(sizes(placed)[0]).filter(|_| placed.kind == OpeningKind::Pipe);
        let factor = self.case.roof.plane(placed.plane).pitch.slope_factor();
        let along = outside.map_or_else(|| sizes(placed)[1], |outside| outside.value * factor);
        let more = width(detail, flange)?;
        let inputs = vec![
            input("opening along the slope", self.case.words.inches(along)),
            input("above and below it, in the section", self.case.words.tape(more)),
        ];
        let what = format!("{}, along the slope at least", flange.id);
        Some(dimension(what, Size::Length(along + more), inputs, "opening + what lies above and below it"))
    }

    /// Step pieces on each side.
    fn flanks(&self, placed: &PlacedOpening) -> Vec<Dimension> {
        let exposure = &self.case.job.covering.exposure;
        let [_, along] = sizes(placed);
        let inputs = vec![
            input("along the slope", self.case.words.inches(along)),
            input("exposure", self.case.words.tape(exposure.value)),
        ];
        let pieces = Size::Count(courses(along, exposure.value));
        let steps = dimension(
            "step pieces on each side",
            pieces,
            inputs,
            "length along the slope ÷ exposure, rounded up",
        );
        let is_assumed = self.case.assumed("all planes", exposure).is_some();
        let length = dimension(
            "each side, along the slope",
            Size::Length(along),
            Vec::new(),
            "its size in plan × the slope factor",
        );
        vec![length, Dimension { is_assumed, ..steps }]
    }

    fn chimney_high(
        &self,
        index: usize,
        opening: &Opening,
        detail: &Detail,
    ) -> Result<Vec<Dimension>, LookupError> {
        let mut all = vec![self.behind(opening)?];
        let cricket = self.case.roof.crickets.iter().find(|cricket| cricket.opening == index);
        match cricket.filter(|_| detail.when.cricket == Some(true)) {
            Some(_) if self.case.roof.valley_under(&self.case.roof.openings[index]).is_some() => {
                let rule = "a cricket is sized on one plane; here two planes meet";
                all.extend(
                    SIZES_OF_CRICKETS.map(|what| dimension(what, Size::Refused(IN_VALLEY), Vec::new(), rule)),
                );
            }
            Some(cricket) => all.extend(cricket_sizes(cricket)),
            None => {
                let size = Size::Length(opening.across);
                all.insert(0, dimension("width across the slope", size, Vec::new(), "as the job says"));
            }
        }
        Ok(all)
    }

    /// The metal at the back of a chimney, turned round its corners.
    fn behind(&self, opening: &Opening) -> Result<Dimension, LookupError> {
        let extra: Ruled<Length> = self.case.rule("chimney.back-extra")?;
        let inputs = vec![input("across the slope", self.case.words.tape(opening.across)), extra.input()];
        let size = Size::Length(opening.across + extra.value);
        let rule = "width of the chimney and what is turned round its corners over the top steps";
        Ok(dimension("metal at the back, across", size, inputs, rule))
    }
}

/// What is told of a cricket.
const SIZES_OF_CRICKETS: [&str; 5] = [
    "cricket, height at the chimney",
    "cricket, level ridge",
    "cricket, each valley",
    "cricket, slope of its planes",
    "cricket, both planes",
];

fn cricket_sizes(cricket: &Cricket) -> impl Iterator<Item = Dimension> {
    let sizes = [
        (Size::Length(cricket.height), "half the width × its slope"),
        (Size::Length(cricket.ridge), "height ÷ pitch of the roof"),
        (Size::Length(cricket.valley), "true length of the line where its plane meets the roof"),
        (Size::Pitch(cricket.pitch), "as the job says, else that of the roof"),
        (Size::Area(cricket.slope_area), "area on their slopes"),
    ];
    let whats = SIZES_OF_CRICKETS.into_iter().zip(sizes);
    whats.map(|(what, (size, rule))| dimension(what, size, Vec::new(), rule))
}

fn across_and_along(placed: &PlacedOpening) -> Vec<Dimension> {
    let [across, along] = sizes(placed);
    vec![
        dimension("across the slope", Size::Length(across), Vec::new(), "as the job says"),
        dimension("along the slope", Size::Length(along), Vec::new(), "as the job says, on the slope"),
    ]
}
