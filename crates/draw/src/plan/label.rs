//! Plane names on the plan: name, pitch with a triangle of its true slope, and an arrow down the fall.

use std::collections::BTreeMap;

use roof::{Plane, PlaneId};

use super::draft::Draft;
use crate::count::whole;
use crate::letter::{Cut, Text};
use crate::notation;
use crate::paper::Paper;
use crate::place::{Board, Tilted, rings};
use crate::polygon::{Bounds, roomiest};
use crate::svg::Svg;
use crate::symbol::{SMALL, arrow, draw_leader, leader, pitch_triangle};
use crate::vector::{P2, add, along, distance, length, turned};

/// Size of plane names.
const NAME: f64 = 3.6;
/// Size of pitches.
const PITCH: f64 = 3.2;
/// Run of the pitch triangle, mm.
const RUN: f64 = 4.0;
/// Tallest triangle drawn true; steeper ones are drawn shallower but keep their number.
const STEEPEST: f64 = 1.0;

/// A label where it stands.
#[derive(Clone, Debug)]
pub(crate) struct Label {
    texts: Vec<Text>,
    classes: [&'static str; 2],
    triangle: Option<(P2, f64)>,
    arrow: Option<[P2; 2]>,
    /// The point of the plane it is tied to when it stands outside.
    tied_to: Option<P2>,
}

/// Air kept around a label where there is room.
const AIR: f64 = 1.5;

/// What a leader out over one edge with its fringe costs.
const LEADER: u32 = 3;

/// How much a label says, from most to least.
#[derive(Clone, Copy)]
enum Style {
    /// Two lines and an arrow so long.
    Full(f64),
    /// Name over pitch.
    Stacked,
    /// Name over pitch, as small as text gets, without the triangle.
    Small,
    /// One line, level.
    Line,
    /// One line, reading upwards.
    Upright,
    /// A letter for a name in the legend, by its place in the list.
    Key(usize),
}

/// Styles that name the plane.
const NAMED: [Style; 6] =
    [Style::Full(9.0), Style::Full(5.0), Style::Stacked, Style::Small, Style::Line, Style::Upright];

/// The letter that stands for a name: A to Z, then AA, BB and so on.
pub(crate) fn key_text(number: usize, at: P2) -> Text {
    let letter = "ABCDEFGHIJKLMNOPQRSTUVWXYZ".chars().cycle().nth(number).unwrap_or('A');
    Text::new(letter.to_string().repeat(1 + number / 26), at, SMALL).cut(Cut::Bold)
}

impl Label {
    /// Labels of all planes, letters and those with least room first; a plane without room near it has none. `keyed` planes have letters.
    pub(crate) fn all(
        draft: &Draft,
        paper: &Paper,
        keyed: &[PlaneId],
        board: &mut Board,
    ) -> BTreeMap<PlaneId, Self> {
        let mut order: Vec<PlaneId> = (0..draft.roof.planes.len()).map(PlaneId).collect();
        let area = |id: &PlaneId| draft.roof.plane(*id).plan_area.m2();
        order.sort_by(|a, b| (!keyed.contains(a)).cmp(&!keyed.contains(b)).then(area(a).total_cmp(&area(b))));
        let styles = |id| match keyed.iter().position(|keyed| *keyed == id) {
            Some(number) => vec![Style::Key(number)],
            None => NAMED.to_vec(),
        };
        order
            .into_iter()
            .filter_map(|id| Some((id, Self::place(draft, paper, id, &styles(id), board)?)))
            .collect()
    }

    /// In the first of some styles that has room; beside the plane, in one line, where none has.
    fn place(draft: &Draft, paper: &Paper, id: PlaneId, styles: &[Style], board: &mut Board) -> Option<Self> {
        let spots = spots(draft, paper, id);
        let within = styles.iter().find_map(|style| Self::within(draft, paper, id, *style, &spots, board));
        let beside = match styles {
            [only] => *only,
            _ => Style::Line,
        };
        let mut label = within.or_else(|| Self::outside(draft, paper, id, beside, board))?;
        board.take_all(label.rooms());
        if label.arrow.is_none() {
            label.arrow = lone_arrow(draft, paper, id, &spots, board);
            board.take_all(label.arrow.map(|ends| Tilted::around(ends, 1.0)));
        }
        Some(label)
    }

    /// The best spot where the whole label lies on what can be seen of its plane and covers no line.
    fn within(
        draft: &Draft,
        paper: &Paper,
        id: PlaneId,
        style: Style,
        spots: &[P2],
        board: &Board,
    ) -> Option<Self> {
        let fits = |label: &Self| {
            let corners = label.rooms().into_iter().flat_map(|room| room.grown(0.6).corners());
            corners.into_iter().all(|p| draft.shows(id, paper.screen(p)))
        };
        let plane = draft.roof.plane(id);
        let labels = || spots.iter().map(|&at| Self::at(draft, plane, style, at)).filter(fits);
        let airy = |label: &Self| label.rooms().into_iter().map(|room| room.grown(AIR)).collect();
        let free = |found: Option<(Self, u32)>| found.filter(|&(_, cost)| cost <= 1).map(|(label, _)| label);
        free(board.cheapest(labels(), airy)).or_else(|| free(board.cheapest(labels(), Self::rooms)))
    }

    /// Beside its plane, tied to it by a leader.
    fn outside(draft: &Draft, paper: &Paper, id: PlaneId, style: Style, board: &Board) -> Option<Self> {
        let plane = draft.roof.plane(id);
        let seen = spots(draft, paper, id).into_iter().next();
        let home = seen.unwrap_or_else(|| paper.at(roomiest(draft.outline(id))));
        let tied = |at: P2| Self { tied_to: Some(home), ..Self::at(draft, plane, style, at) };
        let words = tied(home).texts.len();
        board.with_leader(LEADER, words, &rings(home, 5.0, 3.0, 10).map(tied), Self::rooms)
    }

    fn at(draft: &Draft, plane: &Plane, style: Style, center: P2) -> Self {
        let pitch = notation::pitch(plane.pitch, draft.units);
        let name = |at: P2| Text::new(plane.name.clone(), at, NAME).cut(Cut::Bold);
        let pitch_at = |at: P2| Text::new(pitch.clone(), at, PITCH);
        let (texts, triangle, arrow) = match style {
            Style::Full(shaft) => stacked(center, name, pitch_at, plane, draft.fall(plane), Some(shaft)),
            Style::Stacked => stacked(center, name, pitch_at, plane, draft.fall(plane), None),
            Style::Small => {
                let lines = [(name([0.0; 2]), -1.7), (pitch_at([0.0; 2]), 1.7)];
                let small = |(text, y): (Text, f64)| Text { at: add(center, [0.0, y]), size: SMALL, ..text };
                (lines.map(small).to_vec(), None, None)
            }
            Style::Line => (one_line(center, plane, &pitch, 0.0), None, None),
            Style::Key(number) => (vec![key_text(number, center)], None, None),
            Style::Upright => (one_line(center, plane, &pitch, -90.0), None, None),
        };
        let classes =
            if matches!(style, Style::Key(_)) { ["plane-key", ""] } else { ["plane-name", "pitch"] };
        Self { texts, classes, triangle, arrow, tied_to: None }
    }

    fn rooms(&self) -> Vec<Tilted> {
        let texts = self.texts.iter().map(Text::room);
        let triangle = self.triangle.map(|(corner, slope)| {
            Tilted::upright(add(corner, [RUN / 2.0, -RUN * slope / 2.0]), [RUN / 2.0, RUN * slope / 2.0])
        });
        let arrow = self.arrow.map(|ends| Tilted::around(ends, 1.0));
        texts
            .chain(triangle)
            .chain(arrow)
            .chain(self.leader().map(|ends| Tilted::around(ends, 0.0)))
            .collect()
    }

    fn leader(&self) -> Option<[P2; 2]> {
        leader(&self.texts.first()?.room(), self.tied_to?, 0.0)
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        if let Some(ends) = self.leader() {
            draw_leader(svg, ends);
        }
        if let Some((corner, slope)) = self.triangle {
            pitch_triangle(svg, corner, RUN, slope);
        }
        if let Some(ends) = self.arrow {
            arrow(svg, ends);
        }
        for (text, class) in self.texts.iter().zip(self.classes) {
            svg.text(class, text);
        }
    }
}

/// An arrow by itself, where its label left no room for one beside it.
pub(super) fn lone_arrow(
    draft: &Draft,
    paper: &Paper,
    id: PlaneId,
    spots: &[P2],
    board: &Board,
) -> Option<[P2; 2]> {
    let fall = draft.fall(draft.roof.plane(id));
    let is_sloped = length(fall) > 0.5;
    let arrow = |&at: &P2, shaft: f64| [along(at, fall, -shaft / 2.0), along(at, fall, shaft / 2.0)];
    let shows = |ends: &[P2; 2]| ends.iter().all(|&p| draft.shows(id, paper.screen(p)));
    let arrows =
        [8.0, 5.0].into_iter().flat_map(|shaft| spots.iter().map(move |at| arrow(at, shaft))).filter(shows);
    let best = board.cheapest(arrows, |&ends| vec![Tilted::around(ends, 1.2)]);
    best.filter(|&(_, cost)| is_sloped && cost <= 1).map(|(ends, _)| ends)
}

type Parts = (Vec<Text>, Option<(P2, f64)>, Option<[P2; 2]>);

/// Name over pitch, the triangle before the pitch, the arrow beyond them down the fall.
fn stacked(
    center: P2,
    name: impl Fn(P2) -> Text,
    pitch: impl Fn(P2) -> Text,
    plane: &Plane,
    fall: P2,
    shaft: Option<f64>,
) -> Parts {
    let is_sloped = length(fall) > 0.5;
    let shaft = shaft.filter(|_| is_sloped);
    let start = along(center, fall, shaft.map_or(0.0, |shaft| -(shaft + 1.0) / 2.0));
    let slope = plane.pitch.slope().min(STEEPEST);
    let run = if is_sloped { RUN + 1.0 } else { 0.0 };
    let texts = vec![name(add(start, [0.0, -2.1])), pitch(add(start, [run / 2.0, 2.2]))];
    let width = texts[1].width();
    let triangle = is_sloped.then(|| (add(start, [-(width + run) * 0.5, 2.2 + RUN * slope * 0.5]), slope));
    let half = [texts[0].width().max(width + run) / 2.0, 4.6];
    let arrow = shaft.map(|shaft| {
        let from = along(start, fall, Tilted::upright(start, half).exit(fall) + 0.8);
        [from, along(from, fall, shaft)]
    });
    (texts, triangle, arrow)
}

fn one_line(center: P2, plane: &Plane, pitch: &str, turn: f64) -> Vec<Text> {
    const GAP: f64 = 1.0;
    let name = Text::new(plane.name.clone(), center, SMALL).cut(Cut::Bold).turned(turn);
    let pitch = Text::new(pitch, center, SMALL).turned(turn);
    let (a, b) = (name.width(), pitch.width());
    let shift = |text: Text, by: f64| Text { at: add(center, turned([by, 0.0], turn)), ..text };
    vec![shift(name, (b + GAP) * -0.5), shift(pitch, (a + GAP) * 0.5)]
}

/// Least distance between tried places, mm, and most places across and down a plane.
const SPACING: f64 = 2.0;
const MOST: u32 = 32;

/// Places on a grid over the paper where a plane is seen, the roomiest first.
pub(super) fn spots(draft: &Draft, paper: &Paper, id: PlaneId) -> Vec<P2> {
    let outline: Vec<Vec<P2>> =
        draft.outline(id).iter().map(|ring| ring.iter().map(|&p| paper.at(p)).collect()).collect();
    let bounds = Bounds::of(outline.iter().flatten().copied());
    let counts = [bounds.width(), bounds.height()].map(|mm| whole((mm / SPACING).ceil(), MOST).max(1));
    let share = move |i: u32, n: u32| (f64::from(i) + 0.5) / f64::from(n);
    let grid =
        (0..counts[1]).flat_map(|j| (0..counts[0]).map(move |i| [share(i, counts[0]), share(j, counts[1])]));
    let seen = grid.map(|share| bounds.at(share)).filter(|&at| draft.shows(id, paper.screen(at)));
    let home = roomiest(&outline);
    let mut spots: Vec<P2> = seen.collect();
    spots.sort_by(|&a, &b| distance(a, home).total_cmp(&distance(b, home)));
    spots
}
