//! Layers that go on further than a section shows: broken off where it ends, with how far they reach on the house.

use detail::Section;
use job::Units;
use measure::Length;

use super::Drawing;
use super::bend::Bend;
use super::legend::edge;
use crate::ink::{INK, Pen};
use crate::letter::{Anchor, Text};
use crate::svg::{Path, Svg};
use crate::vector::along;

/// Half the length of a break's stroke across its layer, and how far its kinks stand aside, mm.
const HALF: f64 = 2.2;
const KINK: f64 = 0.8;

/// How far it reaches, as papers write it: one figure, or the least and the most.
pub(super) fn reaches([least, most]: [Length; 2], units: Units) -> String {
    let [least, most] = [least, most].map(|length| units.lap(length));
    if least == most { least } else { format!("{least} to {most}") }
}

/// Layers drawn short, each with the face on which it goes on.
fn short(section: &Section<'_>) -> impl Iterator<Item = (usize, usize)> {
    let on = |name: &String| section.faces.iter().position(|laid| laid.face.name == *name);
    let sheets = section.sheets.iter().enumerate();
    sheets.filter_map(move |(index, sheet)| Some((index, on(sheet.layer.drawn_short.as_ref()?)?)))
}

impl Drawing<'_> {
    /// A kinked stroke across the end of each layer that goes on.
    pub(super) fn breaks(&self, svg: &mut Svg, layers: std::ops::Range<usize>) {
        for (index, face) in short(self.section).filter(|(index, _)| layers.contains(index)) {
            let sheet = &self.section.sheets[index];
            let far = self.section.faces[face].span;
            // away from the joint: the first face runs back from it
            let end = if face == 0 && self.section.faces.len() > 1 {
                sheet.span.from.max(far.from)
            } else {
                sheet.span.to.min(far.to)
            };
            let last = |stretch: &detail::Stretch| {
                stretch.face == face
                    && [stretch.span.from, stretch.span.to].iter().any(|at| (at - end).abs() < 1e-6)
            };
            let on = |i: &usize| self.section.stretches[*i].layers.contains(&index);
            let at_end =
                (0..self.section.stretches.len()).filter(on).find(|i| last(&self.section.stretches[*i]));
            let Some(depth) = at_end.and_then(|stretch| Bend::depth(self.section, stretch, index)) else {
                continue;
            };
            let (middle, out, aside) = (
                self.bend.at(face, end, depth),
                self.bend.out(face),
                self.bend.inward(face, self.bend.at(face, end, depth)),
            );
            let point = |off: f64, by: f64| along(along(middle, out, off), aside, by);
            let stroke = [
                point(-HALF, 0.0),
                point(-KINK, 0.0),
                point(-KINK / 2.0, KINK),
                point(KINK / 2.0, -KINK),
                point(KINK, 0.0),
                point(HALF, 0.0),
            ];
            svg.stroke("break", &Path::open(&stroke), &Pen { width: 0.3, dash: &[], colour: INK });
        }
    }

    /// How far layers stand out past an edge, those that stand out alike together.
    fn past_told(&self) -> Vec<String> {
        let mut told: Vec<(String, Vec<String>)> = Vec::new();
        for index in self.section.laying() {
            let layer = self.section.sheets[index].layer;
            let Some(past) = &layer.past else { continue };
            let number = self.section.number(index).to_string();
            let words = format!("{} past the {}", self.units.lap(**past), edge(self.section, layer));
            match told.iter_mut().find(|(other, _)| *other == words) {
                Some((_, numbers)) => numbers.push(number),
                None => told.push((words, vec![number])),
            }
        }
        told.into_iter().map(|(words, numbers)| format!("{}: {words}", numbers.join(", "))).collect()
    }

    /// What stands of them beside the drawing, under the wood.
    pub(super) fn told_under(&self) -> Vec<Text> {
        let wood = self.bend.bounds(0.0);
        let size = self.hand.ruler;
        let told = short(self.section).map(|(index, _)| {
            let number = self.section.number(index);
            match self.short {
                Some(far) => format!("{number}: {} here,", reaches(far, self.units)),
                None => format!("{number} goes on,"),
            }
        });
        let lines: Vec<String> = told.flat_map(|line| [line, "drawn short".to_owned()]).collect();
        let lines: Vec<String> = lines.into_iter().chain(self.past_told()).collect();
        let top = wood.high[1] + size * 1.3;
        let line = |(row, words): (usize, String)| {
            Text::new(words, [wood.low[0], top + size * 1.3 * row as f64], size).anchored(Anchor::Start)
        };
        lines.into_iter().enumerate().map(line).collect()
    }
}
