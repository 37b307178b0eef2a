//! The owner's picture of the water: few words, one number, big arrows.
//!
//! It shows the roof without gutters, as in a storm that runs over them: that is where a roof must stand the water by itself.

use measure::Area;
use roof::plan::P2 as OnPlan;
use roof::{EdgeId, PlaneId};
use water::Finding;

use super::WaterScene;
use super::current::{Current, along_edges};
use super::gauge::{Gauge, counted};
use super::mark::ring;
use super::mouth::{By, Mouth, unguttered};
use super::stream::Stream;
use crate::figure::{Figure, sheet_size};
use crate::ink::{INK, Pen};
use crate::letter::{Anchor, Cut, Text};
use crate::notation::Basis;
use crate::paper::Paper;
use crate::place::Board;
use crate::plan::PlanOptions;
use crate::plan::draft::Draft;
use crate::plan::label::spots;
use crate::polygon::Bounds;
use crate::svg::{Path, Svg};
use crate::symbol::north_arrow_of;
use crate::vector::{P2, along, between, distance, length, turned};

/// Least size of its text: 12 pt.
const TEXT: f64 = 12.0 / 72.0 * 25.4;
/// Size of the number.
const NUMBER: f64 = 7.5;
/// Width of the largest flow, and of the least arrow.
const WIDEST: f64 = 9.0;
/// Length of arrows where water leaves, and on planes: the longest that finds room.
const LEAVES: f64 = 12.0;
const FALLS: [f64; 3] = [13.0, 9.5, 7.0];
/// Flows of a smaller part of the largest are left out.
const SLIGHT: f64 = 0.06;
/// Around the roof.
const ROOM: f64 = 16.0;
/// Beside the roof, for words.
const WORDS: f64 = 50.0;
/// Radius of a ring.
const RING: f64 = 6.5;
/// Tone of the roof.
const ROOF: &str = "#f1f1f1";
/// Rings at most.
const MOST: usize = 4;

/// Draws the owner's picture: where the rain goes, at most 25 words, one number, nothing smaller than 12 pt.
pub fn owner_water(scene: &WaterScene<'_>, options: &PlanOptions) -> Figure {
    let size = sheet_size(options.size_mm);
    let draft = Draft::new(scene.roof, scene.survey, options.units);
    let paper = fitted(&draft, size);
    let currents = along_edges(scene.roof, scene.bare);
    let mouths = unguttered(scene.roof, scene.bare);
    let flows = currents.iter().map(Current::amount).chain(mouths.iter().map(Mouth::amount));
    let gauge = Gauge::new(scene.rain, options.units, flows, WIDEST);
    let picture = Picture { scene, options, draft, paper, currents, mouths, gauge };
    let told = picture.told();
    let mut svg = Svg::default();
    picture.draw(&mut svg, &told, size);
    let alt =
        format!("The roof from above, arrows the way the rain runs, as wide as much water. {}", told.words());
    Figure { svg: svg.finish(size, "Where the rain goes", &alt), width_mm: size[0], height_mm: size[1], alt }
}

/// The roof as large as the room beside the words lets it be, whatever the scale.
fn fitted(draft: &Draft, size: P2) -> Paper {
    let roof = draft.bounds();
    let room = [size[0] - WORDS - 2.0 * ROOM, size[1] - 2.0 * ROOM];
    let scale = (room[0] / roof.width()).min(room[1] / roof.height());
    let scale = if scale.is_finite() && scale > 0.0 { scale } else { 1.0 };
    let paper = Paper::at_corner(scale);
    paper.centred(&paper.bounds(&roof), [(size[0] - WORDS) / 2.0, size[1] / 2.0])
}

/// What the picture says.
struct Told {
    /// The one number.
    number: Text,
    lines: Vec<String>,
    /// Places that are ringed, the one of the number first.
    rings: Vec<OnPlan>,
}

impl Told {
    fn words(&self) -> String {
        format!("{} {}", self.number.content, self.lines.join(" "))
    }
}

struct Picture<'a> {
    scene: &'a WaterScene<'a>,
    options: &'a PlanOptions,
    draft: Draft<'a>,
    paper: Paper,
    currents: Vec<Current>,
    mouths: Vec<Mouth>,
    gauge: Gauge,
}

/// Whether much water meets a wall there, or has no way out: what the owner's picture rings.
pub const fn meets_wall(finding: &Finding) -> bool {
    matches!(
        finding,
        Finding::StandsAt(..)
            | Finding::StandsOn(..)
            | Finding::DeadValley(..)
            | Finding::MeetsWall(..)
            | Finding::StreamBesideWall { .. }
    )
}

impl Picture<'_> {
    /// The worst place at a wall with its flow; where there is none, what runs off in all.
    fn told(&self) -> Told {
        let findings = self.scene.bare.findings(self.scene.roof);
        let walls: Vec<&Finding> = findings.iter().filter(|finding| meets_wall(finding)).collect();
        let spot = |finding: &&Finding| finding.spot(self.scene.roof, &[]);
        let lines: [&str; 3] = match walls.first() {
            Some(Finding::StreamBesideWall { .. } | Finding::MeetsWall(..)) => {
                ["a minute meet", "this wall when", "gutters run over"]
            }
            Some(_) => ["a minute have", "no way off here", "in a cloudburst"],
            None => ["a minute run", "off this roof", "in a cloudburst"],
        };
        let amount = walls.first().map_or(self.scene.bare.rain, |finding| finding.amount());
        let rings = walls.iter().take(MOST).map(spot).collect();
        Told { number: self.number(amount), lines: lines.map(str::to_owned).into(), rings }
    }

    /// Whole gallons, or litres to a tenth under ten, of a minute.
    fn number(&self, amount: Area) -> Text {
        let per_minute = match self.options.units {
            job::Units::Us => 1.0,
            job::Units::Si => 60.0,
        };
        let count = counted(self.scene.rain * amount, self.options.units) * per_minute;
        let unit = match self.options.units {
            job::Units::Us => "gallons",
            job::Units::Si => "liters",
        };
        let all = (0..self.scene.roof.planes.len()).map(|i| (PlaneId(i), Area::ZERO)).collect();
        let basis = self.scene.basis(&all);
        let text = Text::new(basis.mark(format!("{count:.0} {unit}")), [0.0; 2], NUMBER);
        if basis == Basis::Assumed { basis.set(text) } else { text.cut(Cut::Bold) }
    }

    fn at(&self, plan: OnPlan) -> P2 {
        self.paper.at(self.draft.screen(plan))
    }

    fn draw(&self, svg: &mut Svg, told: &Told, size: P2) {
        self.roof(svg);
        self.streams(svg);
        for spot in &told.rings {
            ring(svg, self.at(*spot), RING, false);
        }
        self.words(svg, told, size);
    }

    /// Planes toned, their borders by what they do to water.
    fn roof(&self, svg: &mut Svg) {
        for id in (0..self.draft.roof.planes.len()).map(PlaneId) {
            let rings =
                self.draft.outline(id).iter().map(|ring| ring.iter().map(|p| self.paper.at(*p)).collect());
            let path = rings.fold(Path::default(), |path, ring: Vec<P2>| path.and_closed(&ring));
            svg.fill("plane", &path, ROOF);
        }
        for id in (0..self.draft.roof.edges.len()).map(EdgeId) {
            self.draft.line(id, &self.paper).draw(svg);
        }
    }

    fn streams(&self, svg: &mut Svg) {
        let mut board = Board::new(Bounds { low: [0.0; 2], high: [1e4; 2] });
        let mut streams: Vec<Stream> = Vec::new();
        for current in &self.currents {
            let widths = current.passing.iter().map(|flow| self.gauge.width(*flow)).collect();
            streams.push(Stream { ends: current.ends.map(|p| self.at(p)), widths });
        }
        board.take_all(streams.iter().map(Stream::room));
        for arrow in self.leaving() {
            let (room, is_main) = (arrow.room(), arrow.widths[0] > WIDEST * 0.99);
            if is_main || board.cost(&room) == 0 {
                board.take(room);
                streams.push(arrow);
            }
        }
        for id in (0..self.draft.roof.planes.len()).map(PlaneId) {
            let arrow = self.plane_arrow(id, &board);
            board.take_all(arrow.iter().map(Stream::room));
            streams.extend(arrow);
        }
        for stream in &streams {
            stream.draw(svg, "stream");
        }
    }

    /// Arrows over edges and off ends, the largest first.
    fn leaving(&self) -> Vec<Stream> {
        let mut mouths: Vec<&Mouth> = self.mouths.iter().filter(|mouth| mouth.by != By::Nothing).collect();
        mouths.sort_by(|a, b| b.amount().m2().total_cmp(&a.amount().m2()));
        let largest = mouths.first().map_or(Area::ZERO, |mouth| mouth.amount());
        mouths.retain(|mouth| mouth.amount() > largest * SLIGHT);
        let arrow = |mouth: &Mouth| {
            let out = Paper::direction(self.draft.screen(mouth.out));
            let from = along(self.at(mouth.at), out, 1.6);
            Stream::even([from, along(from, out, LEAVES)], self.gauge.width(mouth.amount()))
        };
        mouths.into_iter().map(arrow).collect()
    }

    /// An arrow down a plane where it is roomiest, as wide as what falls on it.
    fn plane_arrow(&self, id: PlaneId, board: &Board) -> Option<Stream> {
        let plane = self.draft.roof.plane(id);
        let fall = self.draft.fall(plane);
        let width = self.gauge.width(plane.plan_area);
        let arrow = |at: P2, long: f64| {
            Stream::even([along(at, fall, -long / 2.0), along(at, fall, long / 2.0)], width)
        };
        let shows = |stream: &Stream| {
            stream.room().corners().iter().all(|p| self.draft.shows(id, self.paper.screen(*p)))
        };
        let places = spots(&self.draft, &self.paper, id);
        let arrows = FALLS.iter().flat_map(|long| places.iter().map(|at| arrow(*at, *long))).filter(shows);
        let best = board.cheapest(arrows, |stream| vec![stream.room()]);
        best.filter(|&(_, cost)| cost == 0 && length(fall) > 0.5).map(|(stream, _)| stream)
    }

    /// In a column beside the roof, tied to the ring the number is about.
    fn words(&self, svg: &mut Svg, told: &Told, size: P2) {
        let x = size[0] - WORDS + 2.0;
        let middle = size[1] * 0.42;
        let number = Text { at: [x, middle], ..told.number.clone() }.anchored(Anchor::Start);
        let line = |row: usize, words: &str| {
            let at = [x, middle + NUMBER * 0.95 + TEXT * 1.35 * row as f64];
            Text::new(words, at, TEXT * 1.1).anchored(Anchor::Start)
        };
        if let Some(spot) = told.rings.first() {
            let (from, to) = ([x - 2.0, middle], self.at(*spot));
            let end = between(to, from, (RING / distance(to, from).max(RING)).min(1.0));
            svg.stroke("leader", &Path::open(&[from, end]), &Pen { width: 0.5, dash: &[], colour: INK });
        }
        svg.text("number", &number);
        told.lines.iter().enumerate().for_each(|(row, words)| svg.text("words", &line(row, words)));
        let foot = size[1] - 6.0;
        let wide = Stream::even([[x, foot], [x + 12.0, foot]], 5.0);
        wide.draw(svg, "stream");
        let key = Text::new("wider: more water", [x + 14.0, foot], TEXT).anchored(Anchor::Start);
        svg.text("words", &key);
        let north = turned(Paper::direction([0.0, 1.0]), -self.draft.up_degrees);
        north_arrow_of(svg, [x + 8.0, 12.0], north, TEXT);
    }
}
