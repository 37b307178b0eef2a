//! The plan of water for estimator and crew: every amount by its edge or outlet.

use roof::plan::{P2 as OnPlan, flat};
use roof::{EdgeId, PlaneId};
use water::{GutterId, Path as Way, Way as Course};

use super::WaterScene;
use super::current::{Current, along_edges, in_gutters};
use super::gauge::Gauge;
use super::mark::{Mark, RING, SPOUT, drop_way, gutter, ring, spout};
use super::mouth::{By, Mouth, spouts, unguttered};
use super::stream::Stream;
use super::trouble::{List, Trouble, key, troubles};
use crate::figure::{Figure, sheet_size};
use crate::ink::WALL;
use crate::letter::{Anchor, Cut, Text};
use crate::line::EdgeLine;
use crate::notation::Basis;
use crate::opening::OpeningSymbol;
use crate::paper::Paper;
use crate::place::{Board, Tilted};
use crate::plan::draft::Draft;
use crate::plan::fit::Fit;
use crate::plan::label::{Label, lone_arrow, spots};
use crate::plan::legend::Legend;
use crate::plan::name::symbols;
use crate::plan::note::Note;
use crate::plan::tag::PlacedTag;
use crate::plan::{MOST_KEYS, NOTE, PlanOptions, take_lines, walls};
use crate::polygon::Bounds;
use crate::svg::{Path, Svg};
use crate::symbol::{SMALL, arrow};
use crate::vector::{P2, add, along, between, scale, sub, unit};

/// Around the roof, for gutters, arrows and their numbers, mm.
const ROOM: f64 = 12.0;
/// Width of the largest flow, mm.
const WIDEST: f64 = 4.4;
/// Edge to gutter, so that numbers on the edge clear it.
const OFF: f64 = 2.2;
/// Length of an arrow where water leaves.
const LEAVES: f64 = 7.0;
/// Line of an edge to the drop that runs along it.
const BESIDE: f64 = 1.8;
/// Border of the sheet.
const BORDER: f64 = 1.5;
/// Drops followed at most.
const DROPS: usize = 3;
/// Arrows down a plane besides the one of its name.
const ARROWS: usize = 5;
/// Air round such an arrow, mm.
const ARROW_AIR: f64 = 9.0;

/// Draws the plan of water.
pub fn water_plan(scene: &WaterScene<'_>, options: &PlanOptions) -> Figure {
    let size = sheet_size(options.size_mm);
    let content = Content::new(scene, options, size);
    let room = [size[0], size[1] - content.list.height() - NOTE];
    let first = content.lay(&[], room);
    let mut keyed = first.homeless.clone();
    keyed.truncate(MOST_KEYS);
    let Laid { mut svg, left_out, .. } = if keyed.is_empty() { first } else { content.lay(&keyed, room) };
    content.list.draw(&mut svg, [BORDER, room[1]]);
    if let Some(words) = left_out {
        svg.text(
            "left-out",
            &Text::new(words, [BORDER, size[1] - NOTE / 2.0], SMALL).anchored(Anchor::Start),
        );
    }
    let alt = content.described();
    Figure { svg: svg.finish(size, "Where the rain goes", &alt), width_mm: size[0], height_mm: size[1], alt }
}

/// What is drawn, before it has a place on paper.
struct Content<'a> {
    scene: &'a WaterScene<'a>,
    draft: Draft<'a>,
    currents: Vec<Current>,
    mouths: Vec<Mouth>,
    gauge: Gauge,
    troubles: Vec<Trouble>,
    list: List,
    drops: Vec<Way>,
}

/// The plan laid out.
struct Laid {
    svg: Svg,
    /// Planes without name or letter.
    homeless: Vec<PlaneId>,
    left_out: Option<String>,
}

impl<'a> Content<'a> {
    fn new(scene: &'a WaterScene<'a>, options: &PlanOptions, size: P2) -> Self {
        let (roof, drainage) = (scene.roof, scene.drainage);
        let mut currents = along_edges(roof, &drainage.water);
        currents.extend(in_gutters(roof, drainage));
        let mut mouths = unguttered(roof, &drainage.water);
        mouths.extend(spouts(roof, drainage));
        let flows = currents.iter().map(Current::amount).chain(mouths.iter().map(Mouth::amount));
        let gauge = Gauge::new(scene.rain, options.units, flows, WIDEST);
        mouths.retain(|mouth| gauge.is_told(mouth.amount()));
        currents.retain(|current| gauge.is_told(current.amount()));
        let troubles = troubles(scene, &gauge);
        let list = List::new(&troubles, [size[0] - 2.0 * BORDER, size[1] * 0.35]);
        let drops = drainage.telling_drops(roof, DROPS);
        let draft = Draft::new(roof, scene.survey, options.units).with_room(ROOM);
        Self { scene, draft, currents, mouths, gauge, troubles, list, drops }
    }

    fn lay(&self, keyed: &[PlaneId], room: P2) -> Laid {
        let legend = Legend::of_water(
            &self.draft,
            keyed,
            self.marks(),
            self.mouths.iter().any(|m| self.is_assumed(m)),
        );
        let fit = Fit::best(&self.draft, &legend, room);
        let mut board = Board::new(Bounds { low: [0.5; 2], high: room.map(|mm| mm - 0.5) });
        board.take_all(fit.rooms());
        let sheet = Sheet::new(self, &fit.paper, keyed, &mut board);
        let mut svg = Svg::default();
        sheet.draw(&mut svg);
        fit.draw(&mut svg, &self.draft);
        let is_homeless = |id: &PlaneId| !sheet.labels.iter().any(|(known, _)| known == id);
        let homeless = (0..self.draft.roof.planes.len()).map(PlaneId).filter(is_homeless).collect();
        Laid { svg, homeless, left_out: sheet.left_out() }
    }

    /// Those that the list tells.
    fn ringed(&self) -> &[Trouble] {
        &self.troubles[..self.list.count]
    }

    /// What the legend explains.
    fn marks(&self) -> Vec<(Mark, String)> {
        let streams = self.gauge.samples(WIDEST).into_iter();
        let streams = streams.map(|(width, flow)| (Mark::Stream(width), format!("stream of {flow}")));
        let has = |when_over: bool| self.ringed().iter().any(|t| t.when_over == when_over);
        let others = [
            (!self.scene.drainage.gutters.is_empty(), Mark::Gutter, "gutter"),
            (self.mouths.iter().any(Mouth::is_spout), Mark::Spout, "downspout"),
            (has(false), Mark::Ring { is_broken: false }, "look at this"),
            (has(true), Mark::Ring { is_broken: true }, "when gutters run over"),
            (!self.drops.is_empty(), Mark::Drop, "way of a drop"),
        ];
        let others = others.into_iter().filter(|(is_there, ..)| *is_there);
        streams.chain(others.map(|(_, mark, words)| (mark, words.to_owned()))).collect()
    }

    fn is_assumed(&self, mouth: &Mouth) -> bool {
        self.scene.basis(&mouth.sources) == Basis::Assumed
    }

    /// The plan in words.
    fn described(&self) -> String {
        let (roof, gauge) = (self.scene.roof, &self.gauge);
        let last: Vec<&Mouth> = self.mouths.iter().filter(|m| m.is_last()).collect();
        let told =
            |by: fn(&By) -> bool| gauge.told(last.iter().filter(|m| by(&m.by)).map(|m| m.amount()).sum());
        let sentences = [
            format!(
                "Roof seen from above with its water: {} of rain fall on it.",
                gauge.told(self.scene.drainage.water.rain)
            ),
            format!(
                "By downspouts {} leave, over free edges and ends {}.",
                told(|by| matches!(by, By::Spout(_))),
                told(|by| matches!(by, By::Edge(_) | By::End(_)))
            ),
            format!("{} planes, {} edges.", roof.planes.len(), roof.edges.len()),
            self.list.told(),
        ];
        sentences.join(" ").trim_end().into()
    }
}

/// Everything in place.
struct Sheet<'a> {
    content: &'a Content<'a>,
    paper: &'a Paper,
    walls: Vec<[P2; 2]>,
    lines: Vec<EdgeLine>,
    openings: Vec<OpeningSymbol>,
    gutters: Vec<[[P2; 2]; 2]>,
    streams: Vec<Stream>,
    spouts: Vec<P2>,
    tags: Vec<PlacedTag>,
    labels: Vec<(PlaneId, Label)>,
    arrows: Vec<[P2; 2]>,
    notes: Vec<(&'static str, Note)>,
    missing: usize,
}

impl<'a> Sheet<'a> {
    fn new(content: &'a Content<'a>, paper: &'a Paper, keyed: &[PlaneId], board: &mut Board) -> Self {
        let draft = &content.draft;
        let lines: Vec<EdgeLine> =
            (0..draft.roof.edges.len()).map(|i| draft.line(EdgeId(i), paper)).collect();
        let (walls, openings) = (walls(draft, paper), symbols(draft, paper));
        take_lines(board, &lines, &walls, &[]);
        for symbol in &openings {
            board.symbol(symbol.room());
        }
        let mut sheet = Self {
            content,
            paper,
            walls,
            lines,
            openings,
            gutters: Vec::new(),
            streams: Vec::new(),
            spouts: Vec::new(),
            tags: Vec::new(),
            labels: Vec::new(),
            arrows: Vec::new(),
            notes: Vec::new(),
            missing: 0,
        };
        sheet.place_gutters(board);
        sheet.place_rings(board);
        sheet.tags = PlacedTag::all(&sheet.lines, board);
        sheet.place_streams(board);
        sheet.labels = Label::all(draft, paper, keyed, board).into_iter().collect();
        sheet.place_leaving(board);
        sheet.place_flows(board);
        sheet.place_arrows(board);
        sheet
    }

    fn at(&self, plan: OnPlan) -> P2 {
        self.paper.at(self.content.draft.screen(plan))
    }

    fn direction(&self, plan: OnPlan) -> P2 {
        Paper::direction(self.content.draft.screen(plan))
    }

    /// Middle of the gutter at an edge, off the edge on paper, and half its width.
    fn channel(&self, edge: EdgeId) -> (P2, f64) {
        let at = self.content.currents.iter().filter(|c| c.in_gutter && c.edge == edge);
        let widest = at.map(|c| self.content.gauge.width(c.amount())).fold(0.5, f64::max);
        let half = widest / 2.0 + 0.45;
        (scale(self.lines[edge.0].inward, -(OFF + half)), half)
    }

    fn place_gutters(&mut self, board: &mut Board) {
        for hung in &self.content.scene.drainage.gutters {
            let (off, half) = self.channel(hung.edge);
            let line = &self.lines[hung.edge.0];
            let side = |by: f64| line.ends.map(|p| along(add(p, off), line.inward, by));
            self.gutters.push([side(half), side(-half)]);
            board.symbol(Tilted::around(line.ends.map(|p| add(p, off)), half));
        }
        for mouth in &self.content.mouths {
            if let By::Spout(edge) = mouth.by {
                let at = add(self.at(mouth.at), self.channel(edge).0);
                board.symbol(Tilted::upright(at, [SPOUT + 0.3; 2]));
                self.spouts.push(at);
            }
        }
    }

    fn place_rings(&mut self, board: &mut Board) {
        let troubles = self.content.ringed();
        let rooms: Vec<Tilted> =
            troubles.iter().map(|t| Tilted::upright(self.at(t.at), [RING + 0.4; 2])).collect();
        for room in &rooms {
            board.symbol(*room);
        }
        for (index, room) in rooms.iter().enumerate() {
            let text = Text::new(key(index), room.center, 3.4).cut(Cut::Bold);
            self.place("trouble-key", &text, &[*room], board);
        }
    }

    fn place_streams(&mut self, board: &mut Board) {
        for current in &self.content.currents {
            let off = if current.in_gutter { self.channel(current.edge).0 } else { [0.0; 2] };
            let ends = current.ends.map(|p| add(self.at(p), off));
            let widths = current.passing.iter().map(|flow| self.content.gauge.width(*flow)).collect();
            self.streams.push(Stream { ends, widths });
        }
        for mouth in self.content.mouths.iter().filter(|m| matches!(m.by, By::Edge(_) | By::End(_))) {
            let out = self.direction(mouth.out);
            let from = along(self.at(mouth.at), out, 1.6);
            let width = self.content.gauge.width(mouth.amount());
            self.streams.push(Stream::even([from, along(from, out, LEAVES)], width));
        }
        for stream in &self.streams {
            board.symbol(stream.room());
        }
        for way in &self.content.drops {
            self.drop_way(way).into_iter().for_each(|part| board.line(part));
        }
    }

    /// What leaves.
    fn place_leaving(&mut self, board: &mut Board) {
        let content = self.content;
        for mouth in &content.mouths {
            let basis = content.scene.basis(&mouth.sources);
            let at = match mouth.by {
                By::Spout(edge) => add(self.at(mouth.at), self.channel(edge).0),
                By::Edge(_) | By::End(_) => {
                    along(self.at(mouth.at), self.direction(mouth.out), 1.6 + LEAVES / 2.0)
                }
                By::Nothing => self.at(mouth.at),
            };
            let half = match mouth.by {
                By::Spout(edge) => [self.channel(edge).1.max(SPOUT + 0.3); 2],
                _ => [2.2, LEAVES / 2.0],
            };
            let words = basis.mark(content.gauge.told(mouth.amount()));
            let (class, cut) =
                if mouth.is_last() { ("leaves", Cut::Bold) } else { ("passes-on", Cut::Regular) };
            let text = basis.set(Text::new(words, at, SMALL).cut(cut));
            self.place(class, &text, &[Tilted::upright(at, half)], board);
        }
    }

    /// What comes to edges that carry it along, and to gutters where their downspouts do not say it.
    fn place_flows(&mut self, board: &mut Board) {
        let content = self.content;
        let along = content.currents.iter().filter(|c| !c.in_gutter);
        for current in along {
            let [from, to] = current.ends.map(|p| self.at(p));
            let half = content.gauge.width(current.amount()) / 2.0 + 0.6;
            let rooms =
                [0.7, 0.4, 0.55, 0.85, 0.25].map(|t| Tilted::upright(between(from, to, t), [half; 2]));
            self.place_flow(current.edge, between(from, to, 0.7), &rooms, board);
        }
        for hung in &content.scene.drainage.gutters {
            let comes = content.scene.drainage.water.edge(hung.edge).catchment();
            let is_said = |mouth: &Mouth| {
                mouth.by == By::Spout(hung.edge)
                    && content.gauge.told(mouth.amount()) == content.gauge.told(comes)
            };
            if content.gauge.is_told(comes) && !content.mouths.iter().any(is_said) {
                let (off, half) = self.channel(hung.edge);
                let ends = self.lines[hung.edge.0].ends.map(|p| add(p, off));
                let rooms = [0.5, 0.35, 0.65, 0.2, 0.8]
                    .map(|t| Tilted::upright(between(ends[0], ends[1], t), [half; 2]));
                self.place_flow(hung.edge, between(ends[0], ends[1], 0.5), &rooms, board);
            }
        }
    }

    fn place_flow(&mut self, edge: EdgeId, home: P2, rooms: &[Tilted], board: &mut Board) {
        let flow = self.content.scene.drainage.water.edge(edge);
        let basis = self.content.scene.basis(&flow.sources());
        let words = basis.mark(self.content.gauge.told(flow.catchment()));
        self.place("flow", &basis.set(Text::new(words, home, SMALL)), rooms, board);
    }

    /// Words beside the first of some rooms where they touch nothing, or near the first with a leader.
    fn place(&mut self, class: &'static str, text: &Text, rooms: &[Tilted], board: &mut Board) {
        let close = || rooms.iter().flat_map(|room| Note::beside(text, room));
        let free = board.cheapest(close(), Note::rooms).filter(|&(_, cost)| cost <= 1).map(|(note, _)| note);
        let found = free.or_else(|| {
            board.with_leader(
                LEADER,
                1,
                &Note::around(text, &Tilted::upright(text.at, [0.3; 2])),
                Note::rooms,
            )
        });
        board.take_all(found.iter().flat_map(Note::rooms));
        self.missing += usize::from(found.is_none());
        self.notes.extend(found.map(|note| (class, note)));
    }

    /// Arrows down the fall wherever a plane has room for them.
    fn place_arrows(&mut self, board: &mut Board) {
        let draft = &self.content.draft;
        for id in (0..draft.roof.planes.len()).map(PlaneId) {
            let places = spots(draft, self.paper, id);
            for _ in 0..ARROWS {
                let Some(ends) = lone_arrow(draft, self.paper, id, &places, board) else { break };
                board.take(Tilted::around(ends, 1.0).grown(ARROW_AIR));
                self.arrows.push(ends);
            }
        }
    }

    fn draw(&self, svg: &mut Svg) {
        self.gutters.iter().for_each(|[near, far]| gutter(svg, near, far));
        self.streams.iter().for_each(|stream| stream.draw(svg, "stream"));
        svg.stroke("wall", &self.walls.iter().fold(Path::default(), |path, wall| path.and_open(wall)), &WALL);
        self.lines.iter().for_each(|line| line.draw(svg));
        self.openings.iter().for_each(|symbol| symbol.draw(svg));
        self.spouts.iter().for_each(|at| spout(svg, *at));
        self.arrows.iter().for_each(|ends| arrow(svg, *ends));
        for way in &self.content.drops {
            drop_way(svg, &self.drop_way(way));
        }
        for trouble in self.content.ringed() {
            ring(svg, self.at(trouble.at), RING, trouble.when_over);
        }
        self.labels.iter().for_each(|(_, label)| label.draw(svg));
        self.tags.iter().for_each(|tag| tag.draw(svg));
        self.notes.iter().for_each(|(class, note)| note.draw(svg, class));
    }

    /// A drop's way; beside the line of an edge that carries it, in the middle of a gutter, and a little out from an edge it falls from, so
    /// that both are seen.
    fn drop_way(&self, way: &Way) -> Vec<[P2; 2]> {
        let mut off = [0.0; 2];
        let mut parts: Vec<[P2; 2]> = Vec::with_capacity(way.steps.len());
        for step in &way.steps {
            let ends = [step.from, step.to].map(|p| self.at(flat(p)));
            if let (Course::Gutter(id), Some([_, came])) = (step.way, parts.last().copied()) {
                parts.push([came, add(ends[0], self.in_channel(id))]);
            }
            parts.push(match step.way {
                Course::Edge(id) => ends.map(|p| along(p, self.lines[id.0].inward, BESIDE)),
                Course::Plane(_) | Course::Aside(_) => ends.map(|p| add(p, off)),
                Course::Gutter(id) => ends.map(|p| add(p, self.in_channel(id))),
                Course::Downspout(id) => [add(ends[0], self.in_channel(id.gutter)), ends[1]],
                Course::Falls(_) => {
                    let came = parts.last().and_then(|[from, to]| unit(sub(*to, *from)));
                    let start = add(ends[0], off);
                    off = along(off, came.unwrap_or([0.0; 2]), BESIDE);
                    [start, add(ends[1], off)]
                }
            });
        }
        parts
    }

    /// From an eave to its gutter on paper.
    fn in_channel(&self, id: GutterId) -> P2 {
        self.channel(self.content.scene.drainage.gutters[id.0].edge).0
    }

    fn left_out(&self) -> Option<String> {
        let tags = self.lines.len() - self.tags.len();
        let planes = self.content.draft.roof.planes.len() - self.labels.len();
        let counts = [(planes, "plane names"), (tags, "edge numbers"), (self.missing, "amounts or keys")];
        let missing = counts.iter().filter(|(count, _)| *count > 0);
        let list = missing.map(|(count, what)| format!("{count} {what}")).collect::<Vec<_>>().join(", ");
        (!list.is_empty()).then(|| format!("Not marked here for want of room: {list}."))
    }
}

/// What a leader over an edge with its fringe and a stream costs.
const LEADER: u32 = 13;
