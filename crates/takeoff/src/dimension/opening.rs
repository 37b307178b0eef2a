//! Dimensions round openings.

use book::{Detail, LookupError, Spot};
use job::Opening;
use measure::Length;
use roof::PlacedOpening;

use super::{Bench, Dimension, Size, dimension, sheets};
use crate::case::Ruled;
use crate::line::input;
use crate::openings::sizes;
use crate::steps::courses;

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
            Spot::ChimneyLow => self.chimney_low(opening)?,
            Spot::ChimneySide | Spot::SkylightSide => self.flanks(placed),
            Spot::ChimneyHigh => self.chimney_high(index, opening, detail),
            _ => across_and_along(placed),
        };
        all.extend(sheets(detail, self.case.book));
        all.extend(self.nearest(placed));
        Ok(all)
    }

    /// The collar by the pipe's outside diameter, which is more than what the pipe is called by.
    fn pipe(&self, opening: &Opening, placed: &PlacedOpening) -> Vec<Dimension> {
        let called = opening.across;
        let mut all =
            vec![dimension("pipe, as it is called", Size::Length(called), Vec::new(), "as the job says")];
        let outside: Result<Ruled<Length>, LookupError> =
            self.case.rule(&format!("pipe.outside.{}", called.inches()));
        if let Ok(outside) = outside {
            let inputs = vec![input("called", self.case.words.tape(called)), outside.input()];
            let size = Size::Length(outside.value);
            let mut collar = dimension(
                "boot for an outside diameter of",
                size,
                inputs,
                "plastic and steel pipes are larger than their name",
            );
            collar.because.source = outside.source;
            all.push(collar);
        }
        let pitch = self.case.roof.plane(placed.plane).pitch;
        all.push(dimension("boot for a slope of", Size::Pitch(pitch), Vec::new(), "pitch of its plane"));
        all
    }

    fn chimney_low(&self, opening: &Opening) -> Result<Vec<Dimension>, LookupError> {
        let extra: Ruled<Length> = self.case.rule("chimney.apron-extra")?;
        let inputs = vec![input("across the slope", self.case.words.tape(opening.across)), extra.input()];
        let size = Size::Length(opening.across + extra.value);
        Ok(vec![dimension("apron", size, inputs, "width of the chimney and what wraps round its corners")])
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

    fn chimney_high(&self, index: usize, opening: &Opening, detail: &Detail) -> Vec<Dimension> {
        let cricket = self.case.roof.crickets.iter().find(|cricket| cricket.opening == index);
        let Some(cricket) = cricket.filter(|_| detail.when.cricket == Some(true)) else {
            return vec![dimension(
                "width across the slope",
                Size::Length(opening.across),
                Vec::new(),
                "as the job says",
            )];
        };
        let sizes = [
            ("cricket, height at the chimney", Size::Length(cricket.height), "half the width × its slope"),
            ("cricket, level ridge", Size::Length(cricket.ridge), "height ÷ pitch of the roof"),
            (
                "cricket, each valley",
                Size::Length(cricket.valley),
                "true length of the line where its plane meets the roof",
            ),
            (
                "cricket, slope of its planes",
                Size::Pitch(cricket.pitch),
                "as the job says, else that of the roof",
            ),
            ("cricket, both planes", Size::Area(cricket.slope_area), "area on their slopes"),
        ];
        sizes.map(|(what, size, rule)| dimension(what, size, Vec::new(), rule)).into()
    }

    /// How far off the nearest edge is.
    fn nearest(&self, placed: &PlacedOpening) -> Option<Dimension> {
        let near = placed.distances.first()?;
        let edge = self.case.roof.edge(near.edge);
        let what = format!("to edge {}, {}, on the slope", near.edge.number(), edge.kind.name());
        Some(dimension(
            what,
            Size::Length(near.slope_from_rim),
            Vec::new(),
            "from its rim to the nearest edge of its plane",
        ))
    }
}

fn across_and_along(placed: &PlacedOpening) -> Vec<Dimension> {
    let [across, along] = sizes(placed);
    vec![
        dimension("across the slope", Size::Length(across), Vec::new(), "as the job says"),
        dimension("along the slope", Size::Length(along), Vec::new(), "as the job says, on the slope"),
    ]
}
