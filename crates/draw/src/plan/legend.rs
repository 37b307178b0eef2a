//! What the lines and symbols of a plan mean, in words; and the north arrow with the scale bar.

use job::{OpeningKind, State, Units};
use measure::Length;
use roof::{EdgeId, EdgeKind, Family, PlaneId};

use super::chain;
use super::draft::Draft;
use super::label::key_text;
use super::water::Mark;
use crate::ink::{HIDDEN, Pen, WALL};
use crate::letter::{Anchor, Text, shortened};
use crate::line;
use crate::notation::{self, Basis};
use crate::opening;
use crate::polygon::Bounds;
use crate::svg::{Path, Svg};
use crate::symbol::{SMALL, Tag, arrow};
use crate::vector::{P2, add};

/// One line of the legend.
struct Entry {
    sample: Sample,
    words: String,
}

enum Sample {
    Edge(EdgeKind),
    Line(Pen),
    Arrow,
    Number,
    Key(usize),
    Opening(State),
    Assumed(Units),
    Water(Mark),
}

/// Length of a sample.
const SAMPLE: f64 = 9.0;
/// Distance between lines of the legend.
const LINE: f64 = 4.9;
/// Longest name of a plane written out.
const LONGEST: f64 = 48.0;
/// Sample to words, and one column to the next.
const GAP: f64 = 1.8;
const COLUMN_GAP: f64 = 3.5;

/// The legend of a plan, its entries known, its columns not yet.
pub(crate) struct Legend {
    entries: Vec<Entry>,
}

impl Legend {
    /// Only what the plan shows, and the names of `keyed` planes, which have letters on it.
    pub(crate) fn of(draft: &Draft, keyed: &[PlaneId]) -> Self {
        let roof = draft.roof;
        let hides = |i: usize| !draft.scene.hidden(roof.ends(EdgeId(i))).is_empty();
        let has = |state: State| roof.openings.iter().any(|o| draft.survey.state(&o.name) == state);
        let others = [
            ((0..roof.edges.len()).any(hides), Sample::Line(HIDDEN), "hidden under another roof"),
            (!roof.walls.is_empty(), Sample::Line(WALL), "wall below"),
            (true, Sample::Arrow, "water falls this way"),
            (true, Sample::Number, "edge number"),
            (has(State::Found), Sample::Opening(State::Found), "opening, there now"),
            (has(State::Plan), Sample::Opening(State::Plan), "+ opening that comes"),
            (has(State::Remove), Sample::Opening(State::Remove), "× opening that goes"),
            (chain::is_any_assumed(draft), Sample::Assumed(draft.units), "assumed, not measured"),
        ];
        let shown = others.into_iter().filter(|(is_shown, ..)| *is_shown);
        let shown = shown.map(|(_, sample, words)| Entry { sample, words: words.to_owned() });
        Self { entries: edges(draft).chain(shown).chain(names(draft, keyed)).collect() }
    }

    /// Edges, and marks of water with their words.
    pub(crate) fn of_water(
        draft: &Draft,
        keyed: &[PlaneId],
        marks: Vec<(Mark, String)>,
        is_assumed: bool,
    ) -> Self {
        let number = Entry { sample: Sample::Number, words: "edge number".to_owned() };
        let marks = marks.into_iter().map(|(mark, words)| Entry { sample: Sample::Water(mark), words });
        let assumed = is_assumed.then(|| Entry {
            sample: Sample::Assumed(draft.units),
            words: "assumed, not measured".to_owned(),
        });
        let entries =
            edges(draft).chain([number]).chain(marks).chain(assumed).chain(names(draft, keyed)).collect();
        Self { entries }
    }

    /// In as many columns as a width holds.
    pub(crate) fn within(&self, width: f64) -> Columns<'_> {
        let count = self.entries.len();
        let all = (1..=count).map(|rows| Columns::new(&self.entries, rows));
        let fitting = all.into_iter().find(|columns| columns.size[0] <= width);
        fitting.unwrap_or_else(|| self.column())
    }

    /// In one column.
    pub(crate) fn column(&self) -> Columns<'_> {
        Columns::new(&self.entries, self.entries.len())
    }
}

/// Each look of an edge.
fn edges(draft: &Draft) -> impl Iterator<Item = Entry> {
    let edge = |kind| Entry { sample: Sample::Edge(kind), words: edge_words(kind).to_owned() };
    draft.looks().into_iter().map(edge)
}

/// Names of planes that have letters on the plan.
fn names<'a>(draft: &'a Draft, keyed: &'a [PlaneId]) -> impl Iterator<Item = Entry> + 'a {
    keyed.iter().enumerate().map(|(number, id)| {
        let plane = draft.roof.plane(*id);
        let name = shortened(&plane.name, SMALL, LONGEST);
        let words = format!("{name} {}", notation::pitch(plane.pitch, draft.units));
        Entry { sample: Sample::Key(number), words }
    })
}

/// A legend laid out.
pub(crate) struct Columns<'a> {
    columns: Vec<(f64, &'a [Entry])>,
    pub(crate) size: P2,
}

impl<'a> Columns<'a> {
    fn new(entries: &'a [Entry], rows: usize) -> Self {
        let mut columns = Vec::new();
        let mut x = 0.0;
        for part in entries.chunks(rows.max(1)) {
            columns.push((x, part));
            let widest = part.iter().map(Entry::words_width).fold(0.0, f64::max);
            x += SAMPLE + GAP + widest + COLUMN_GAP;
        }
        Self { columns, size: [x - COLUMN_GAP, LINE * rows as f64] }
    }

    /// `at` is the upper corner where it starts.
    pub(crate) fn draw(&self, svg: &mut Svg, at: P2) {
        for (x, entries) in &self.columns {
            for (row, entry) in entries.iter().enumerate() {
                entry.draw(svg, add(at, [*x, LINE * (row as f64 + 0.5)]));
            }
        }
    }
}

impl Entry {
    fn words_width(&self) -> f64 {
        Text::new(self.words.as_str(), [0.0; 2], SMALL).width()
    }

    /// `at` is the middle of the end where its sample starts.
    fn draw(&self, svg: &mut Svg, at: P2) {
        let end = add(at, [SAMPLE, 0.0]);
        let middle = add(at, [SAMPLE / 2.0, 0.0]);
        match &self.sample {
            Sample::Edge(kind) => line::sample(*kind, &Bounds::of([at, end])).draw(svg),
            Sample::Line(pen) => svg.stroke("sample", &Path::open(&[at, end]), pen),
            Sample::Arrow => arrow(svg, [add(at, [0.5, 0.0]), add(end, [-0.5, 0.0])]),
            Sample::Number => Tag::new(7, SMALL).draw(svg, middle),
            Sample::Key(number) => svg.text("key", &key_text(*number, middle)),
            Sample::Opening(state) => opening::sample(OpeningKind::Hood, *state, middle, 1.6).draw(svg),
            Sample::Water(mark) => mark.draw(svg, [at, end]),
            Sample::Assumed(units) => svg.text("sample", &assumed_sample(*units, middle)),
        }
        svg.text(
            "legend",
            &Text::new(self.words.as_str(), add(end, [GAP, 0.0]), SMALL).anchored(Anchor::Start),
        );
    }
}

fn assumed_sample(units: Units, at: P2) -> Text {
    let number = units.length(Length::from_ft(1.0));
    Basis::Assumed.set(Text::new(Basis::Assumed.mark(number), at, SMALL))
}

const fn edge_words(kind: EdgeKind) -> &'static str {
    match kind.family() {
        Family::Divides => "divides water: ridge, hip",
        Family::Gathers if kind.is_shared() => "gathers water: valley",
        Family::Gathers => "gathers water: wall",
        Family::LetsGo => "lets water go: eave",
        Family::Ends => "ends the roof: rake",
        Family::Passes => "passes water on: pitch break",
    }
}
