//! The list of layers under a section.

use book::{Fixing, Held, Layer, Reach, Role};
use detail::{Section, Sheet};
use job::Units;
use measure::Length;

use super::SectionOptions;
use super::short::reaches;
use crate::ink::FAINT;
use crate::letter::{Anchor, Cut, Text, wrapped};
use crate::svg::Svg;
use crate::vector::P2;

const SIZE: f64 = 3.1;
const LINE: f64 = 4.6;

/// Lines of text, each with how it is set.
pub(super) struct Legend {
    title: String,
    lines: Vec<(String, bool)>,
}

impl Legend {
    pub(super) fn new(section: &Section<'_>, options: &SectionOptions, width: f64) -> Self {
        let SectionOptions { units, short, .. } = *options;
        let mut lines = Vec::new();
        lines.extend(through_told(section, units).map(|line| (line, false)));
        for (turn, index) in section.laying().into_iter().enumerate() {
            let sheet = &section.sheets[index];
            let head = format!("{}  {}: {}", turn + 1, sheet.layer.id, sheet.material.name);
            let told = [
                head,
                layer_covers(section, sheet.layer, units, short),
                layer_laps(sheet.layer, units),
                layer_held(sheet.layer, units),
            ];
            let told: Vec<String> = told.into_iter().filter(|part| !part.is_empty()).collect();
            lines.extend(wrapped(&told.join(" · "), width, SIZE).into_iter().map(|line| (line, false)));
            let notes = wrapped(&sheet.layer.note, width - 5.0, SIZE * 0.9);
            lines.extend(notes.into_iter().map(|line| (line, true)));
        }
        Self { title: section.detail.name.clone(), lines }
    }

    pub(super) fn height(&self) -> f64 {
        (self.lines.len() as f64 + 3.0) * LINE
    }

    pub(super) fn draw(&self, svg: &mut Svg, [x, y]: P2, scale: &str) {
        let text = |words: &str, row: usize, indent: f64, size: f64| {
            Text::new(words, [x + indent, y + (row as f64 + 0.5) * LINE], size).anchored(Anchor::Start)
        };
        svg.text("title", &text(&self.title, 0, 0.0, SIZE).cut(Cut::Bold));
        let read = format!("In the order they are laid; {scale} along the wood, layers drawn apart");
        svg.text("scale", &Text { colour: FAINT, ..text(&read, 1, 0.0, SIZE * 0.9) });
        for (row, (words, is_note)) in self.lines.iter().enumerate() {
            let line = if *is_note {
                Text { colour: FAINT, ..text(words, row + 2, 5.0, SIZE * 0.9) }
            } else {
                text(words, row + 2, 0.0, SIZE)
            };
            svg.text("layer-name", &line);
        }
    }

    pub(super) fn told(&self) -> String {
        let lines: Vec<&str> = self.lines.iter().map(|(line, _)| line.as_str()).collect();
        format!("{}, layers in the order they are laid: {}", self.title, lines.join("; "))
    }
}

/// What a layer covers of each face, such as `wall 8 in, deck 18 in`; where it is drawn short, how far it reaches on the house.
pub fn layer_covers(
    section: &Section<'_>,
    layer: &Layer,
    units: Units,
    short: Option<[Length; 2]>,
) -> String {
    let faces =
        section.faces.iter().filter_map(|laid| Some((&laid.face.name, layer.covers.get(&laid.face.name)?)));
    let goes_on = |name: &String| layer.drawn_short.as_ref() == Some(name);
    let under = |name: &String| {
        let mut others = section.sheets.iter().map(|sheet| sheet.layer);
        others.find(|other| other.drawn_short.as_ref() == Some(name) && layer.over.contains_key(&other.id))
    };
    let told = faces.map(|(name, reach)| match (reach, under(name)) {
        // where it begins is the house's own, as the layer under it ends
        (Reach::Between([from, _]), Some(under)) if from.m() > 0.0 => {
            format!("{name} from the top edge of the {} as laid, less the lap", under.id)
        }
        (_, _) if goes_on(name) => short.map_or_else(
            || format!("{name} further than drawn"),
            |far| format!("{name} {} on this house, drawn short", reaches(far, units)),
        ),
        (Reach::All, _) => format!("{name} all"),
        (Reach::Between([from, to]), _) if from.m() <= 0.0 => format!("{name} {}", units.lap(**to)),
        (Reach::Between([from, to]), _) => format!("{name} {} to {}", units.lap(**from), units.lap(**to)),
    });
    let past =
        layer.past.iter().map(|past| format!("{} past the {}", units.lap(**past), edge(section, layer)));
    let what = section.detail.through.as_ref().map_or("opening", |through| through.what.as_str());
    let up = layer.up.iter().map(|up| format!("{} up the {what}", units.lap(**up)));
    told.chain(past).chain(up).collect::<Vec<_>>().join(", ")
}

/// What a layer stands out past: the metal of the edge where there is any.
pub(super) fn edge(section: &Section<'_>, layer: &Layer) -> &'static str {
    let is_metal = |sheet: &Sheet<'_>| sheet.material.role == Some(Role::DripEdge);
    let under = section.sheets.iter().take_while(|sheet| sheet.layer.id != layer.id);
    if under.clone().any(is_metal) { "metal" } else { "edge" }
}

/// What goes through the layers.
pub(super) fn through_told(section: &Section<'_>, units: Units) -> impl Iterator<Item = String> {
    let through = section.detail.through.iter();
    through.map(move |through| {
        format!("Through wood and layers: {}, {} wide here", through.what, units.lap(*through.wide))
    })
}

/// What a layer laps and by how much, such as `over steps by 2 in and more; pieces lap 6 in`.
pub fn layer_laps(layer: &Layer, units: Units) -> String {
    let over =
        layer.over.iter().map(|(lower, least)| format!("over {lower} by {} and more", units.lap(**least)));
    let pieces = layer.pieces.iter().map(|pieces| {
        let lap = format!("pieces lap {}", units.lap(*pieces.lap));
        pieces.length.as_ref().map_or(lap.clone(), |length| format!("{} long, {lap}", units.length(**length)))
    });
    over.chain(pieces).collect::<Vec<_>>().join("; ")
}

/// How a layer is held, such as `held: roofing nails, 12 in apart (deck 1 1/2 in to 2 1/2 in)`.
pub fn layer_held(layer: &Layer, units: Units) -> String {
    let every = |apart: Option<&Length>| {
        apart.map_or_else(String::new, |apart| format!(", {} apart", units.lap(*apart)))
    };
    let row = |fixing: &Fixing| {
        let [from, to] = [&fixing.between[0], &fixing.between[1]].map(|place| units.lap(**place));
        let every = every(fixing.apart.as_deref());
        format!("{}{every} ({} {from} to {to})", fixing.by, fixing.face)
    };
    let told = match &layer.held {
        Some(Held::By { means, apart }) => vec![format!("{}{}", means.words(), every(apart.as_deref()))],
        Some(Held::Layer(by)) => vec![format!("by the {by} over it")],
        None => layer.fixed.iter().map(row).collect(),
    };
    if told.is_empty() { String::new() } else { format!("held: {}", told.join(", ")) }
}
