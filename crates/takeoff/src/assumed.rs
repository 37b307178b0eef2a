//! Which figures of a roof rest on readings nobody took.
//!
//! Plates, overhangs and fascias may be unknown; pitches and walls may not. A reading counts where it moves something:
//! an overhang moves the free edge over its wall; plates move the line in which two planes meet, unless it is one reading
//! that lifts both alike; plate, overhang and fascia of a block move the line where another roof ends at its soffit. Where two
//! free edges or walls cross, they alone say where the corner is. A length rests on its two ends, an area on its corners,
//! a height on its plates besides.
//!
//! # What it does not judge
//! How far a figure moves with the reading. Roofs that pass under an overhang rest on its readings only where the gap is within
//! a few spreads of one.

use std::collections::{BTreeMap, BTreeSet};

use book::{Because, Book, Confidence, Kind, Source};
use job::{Basis, Block, BlockEdge, EdgeSlope, Figure, Job, Overhang};
use measure::Length;
use roof::plan::{P2, cross, distance, dot, flat, outward, sub, unit};
use roof::{ALONG_FALL, Edge, EdgeId, EdgeKind, Node, NodeId, Plane, PlaneId, Roof, TOUCH, Wall};

use crate::case::Case;
use crate::line::{because, input};
use crate::plan::ends;

/// Spreads of an assumed reading within which a gap above a roof might close.
const SPREADS: f64 = 3.0;

/// A figure of the roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Of {
    /// Where an edge lies in plan, along itself not counted.
    Line(EdgeId),
    /// Where a node lies in plan.
    Point(NodeId),
    /// True length of an edge.
    Length(EdgeId),
    /// Area of a plane.
    Area(PlaneId),
    /// Heights of a plane above the datum.
    Height(PlaneId),
}

/// What of a roof rests on which assumed readings. The default knows of none: everything is measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assumed(BTreeMap<Of, Readings>);

/// A reading of the survey.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Reading {
    block: String,
    /// Where it stands in the document: one reading may serve several sides.
    at: usize,
    /// The default that stands in for it, where it is assumed.
    key: Option<String>,
}

type Readings = BTreeSet<Reading>;

impl Assumed {
    /// Finds the figures behind which a reading is assumed.
    pub fn of(roof: &Roof, job: &Job, book: &Book) -> Self {
        let edges = job.blocks.iter().flat_map(|block| block.edges.iter().flatten());
        let survey = Survey { roof, job, sides: roof.walls.iter().zip(edges).collect() };
        let lines: Vec<Readings> = roof.edges.iter().map(|edge| survey.line(edge)).collect();
        let points: Vec<Readings> = roof.nodes.iter().map(|node| survey.point(node, &lines)).collect();
        let ends = |edge: &Edge| &points[edge.from.0] | &points[edge.to.0];
        let area = |id: PlaneId| {
            let corners = roof.plane(id).edges.iter().flat_map(|edge| ends(roof.edge(*edge)));
            corners.chain(survey.above(id, book)).collect::<Readings>()
        };
        let planes = || (0..roof.planes.len()).map(PlaneId);
        let height = |id| &area(id) | &survey.plates(roof.plane(id));
        let figures = (lines.iter().cloned().enumerate().map(|(i, line)| (Of::Line(EdgeId(i)), line)))
            .chain(roof.edges.iter().enumerate().map(|(i, edge)| (Of::Length(EdgeId(i)), ends(edge))))
            .chain(planes().map(|id| (Of::Area(id), area(id))))
            .chain(planes().map(|id| (Of::Height(id), height(id))))
            .chain(points.iter().cloned().enumerate().map(|(i, point)| (Of::Point(NodeId(i)), point)));
        let assumed = |readings: Readings| readings.into_iter().filter(|reading| reading.key.is_some());
        let figures = figures.map(|(of, readings)| (of, assumed(readings).collect::<Readings>()));
        Self(figures.filter(|(_, readings)| !readings.is_empty()).collect())
    }

    /// Whether a figure rests on an assumed reading.
    pub fn touches(&self, of: Of) -> bool {
        self.0.contains_key(&of)
    }
}

/// Readings and the roof they gave.
struct Survey<'a> {
    roof: &'a Roof,
    job: &'a Job,
    sides: Vec<(&'a Wall, &'a BlockEdge)>,
}

impl Survey<'_> {
    fn of_blocks(&self, blocks: &[String]) -> impl Iterator<Item = &(&Wall, &BlockEdge)> {
        self.sides.iter().filter(move |(wall, _)| blocks.contains(&wall.block))
    }

    /// Plates a plane rises from: those of the walls it faces.
    fn plates(&self, plane: &Plane) -> Readings {
        let faces = |wall: &Wall| dot(outward(unit(wall.from, wall.to)), plane.fall()) > 1.0 - ALONG_FALL;
        let plate = |(wall, edge): &(&Wall, &BlockEdge)| reading(&wall.block, &edge.plate);
        let facing: Readings =
            self.of_blocks(&plane.blocks).filter(|(wall, _)| faces(wall)).map(plate).collect();
        if facing.is_empty() { self.of_blocks(&plane.blocks).map(plate).collect() } else { facing }
    }

    /// What says where an edge lies in plan.
    fn line(&self, edge: &Edge) -> Readings {
        let planes = || edge.planes.iter().map(|id| self.roof.plane(*id));
        match &edge.wall_of {
            _ if edge.kind.is_shared() => {
                let plates: Readings = planes().flat_map(|plane| self.plates(plane)).collect();
                if plates.len() > 1 { plates } else { Readings::new() }
            }
            Some(block) if edge.kind == EdgeKind::Soffit => {
                planes().flat_map(|plane| self.under(plane, block)).collect()
            }
            _ if edge.kind.is_wall() => Readings::new(),
            _ => planes().flat_map(|plane| self.overhangs(plane, edge)).collect(),
        }
    }

    /// Overhangs of the walls a free edge runs along.
    fn overhangs(&self, plane: &Plane, edge: &Edge) -> Readings {
        let ends = [edge.from, edge.to].map(|end| flat(self.roof.node(end).at));
        let along: Vec<_> =
            self.of_blocks(&plane.blocks).filter(|(wall, _)| runs_along(ends, wall)).collect();
        let all = || self.of_blocks(&plane.blocks).collect();
        let sides = if along.is_empty() { all() } else { along };
        sides
            .into_iter()
            .flat_map(|(wall, edge)| self.reach(&wall.block, edge, self.job.blocks.len()))
            .collect()
    }

    /// What says how far a roof reaches out over a wall: the overhang or, level with another one, all that sets both heights.
    fn reach(&self, block: &str, edge: &BlockEdge, depth: usize) -> Readings {
        let (other, side) = match &edge.overhang {
            Overhang::Run(run) => return Readings::from([reading(block, run)]),
            Overhang::LevelWith { block, side, .. } => (block, side),
        };
        let is_meant = |edge: &BlockEdge| {
            matches!(edge.slope, EdgeSlope::Pitch(_)) && side.is_none_or(|side| side == edge.side)
        };
        let others =
            self.of_blocks(std::slice::from_ref(other)).filter(|(_, edge)| depth > 0 && is_meant(edge));
        let heights = others.flat_map(|(_, edge)| {
            self.reach(other, edge, depth - 1).into_iter().chain([reading(other, &edge.plate)])
        });
        heights.chain([reading(block, &edge.plate)]).collect()
    }

    /// What says where a plane meets the soffit of a block.
    fn under(&self, plane: &Plane, block: &String) -> Readings {
        let sides = self.of_blocks(std::slice::from_ref(block)).flat_map(|(wall, edge)| {
            self.reach(&wall.block, edge, self.job.blocks.len())
                .into_iter()
                .chain([reading(block, &edge.plate)])
        });
        let is_it = |other: &&Block| other.name == *block;
        let fascia = self.job.blocks.iter().find(is_it).map(|block| reading(&block.name, &block.fascia));
        sides.chain(fascia).chain(self.plates(plane)).collect()
    }

    /// Readings by which a plane might end at an overhang it passes under.
    fn above(&self, plane: PlaneId, book: &Book) -> Readings {
        let is_close = |reading: &Reading, gap: Length| {
            let row = reading.key.as_ref().and_then(|key| book.default(key));
            let spread = row.and_then(|row| Length::of(row.spread.as_ref()?));
            spread.is_none_or(|spread| gap < spread * SPREADS)
        };
        let passages = self.roof.passages.iter().filter(|passage| passage.plane == plane);
        let close = passages.flat_map(|passage| {
            let under = self.under(self.roof.plane(plane), &passage.under);
            under.into_iter().filter(|reading| is_close(reading, passage.gap))
        });
        close.collect()
    }

    /// What says where a node lies in plan.
    fn point(&self, node: &Node, lines: &[Readings]) -> Readings {
        let is_fixed = |id: &&EdgeId| {
            let kind = self.roof.edge(**id).kind;
            !kind.is_shared() && kind != EdgeKind::Soffit
        };
        let direction = |id: &EdgeId| {
            let [from, to] = ends(self.roof, *id);
            unit(from, to)
        };
        let fixed: Vec<&EdgeId> = node.edges.iter().filter(is_fixed).collect();
        let crosses =
            |a: &&EdgeId| fixed.iter().any(|b| cross(direction(a), direction(b)).abs() > ALONG_FALL);
        let all = || node.edges.iter().collect();
        let through = if fixed.iter().any(crosses) { fixed } else { all() };
        through.into_iter().flat_map(|id| lines[id.0].clone()).collect()
    }
}

/// Whether a free edge is the one over a wall.
fn runs_along(ends: [P2; 2], wall: &Wall) -> bool {
    let out = outward(unit(wall.from, wall.to));
    let is_at = |p: P2| (dot(sub(p, wall.from), out) - wall.overhang.m()).abs() < TOUCH;
    distance(ends[0], ends[1]) > 0.0 && ends.into_iter().all(is_at)
}

fn reading<T>(block: &str, figure: &Figure<T>) -> Reading {
    Reading { block: block.to_owned(), at: figure.span.start, key: key(figure).map(str::to_owned) }
}

fn key<T>(figure: &Figure<T>) -> Option<&str> {
    if let Basis::Assumed { key } = &figure.basis { Some(key) } else { None }
}

impl Case<'_> {
    /// The because of a figure, if it is assumed.
    pub(crate) fn assumed<T>(&self, of: &str, figure: &Figure<T>) -> Option<Because> {
        Some(self.assumption(of, key(figure)?))
    }

    /// Because of what is assumed in the shape of the roof.
    pub(crate) fn assumed_shape(&self) -> Vec<Because> {
        self.assumed_behind(|of| matches!(of, Of::Area(_)))
    }

    /// Because of what is assumed behind the lengths of some edges.
    pub(crate) fn assumed_lengths(&self, edges: &[(EdgeId, &Edge)]) -> Vec<Because> {
        self.assumed_behind(|of| edges.iter().any(|(id, _)| of == Of::Length(*id)))
    }

    /// Because of what is assumed behind some figures, each default once.
    fn assumed_behind(&self, is_meant: impl Fn(Of) -> bool) -> Vec<Because> {
        let mut blocks: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        let figures = self.assumed.0.iter().filter(|(of, _)| is_meant(**of));
        for reading in figures.flat_map(|(_, readings)| readings) {
            blocks.entry(reading.key.as_deref().unwrap_or_default()).or_default().insert(&reading.block);
        }
        let named = |blocks: BTreeSet<&str>| blocks.into_iter().collect::<Vec<_>>().join(", ");
        blocks.into_iter().map(|(key, blocks)| self.assumption(&named(blocks), key)).collect()
    }

    fn assumption(&self, of: &str, key: &str) -> Because {
        let mut inputs = vec![input("of", of)];
        let (mut what, mut text) = (key.to_owned(), "the job says it is unknown".to_owned());
        if let Some(row) = self.book.default(key) {
            inputs.push(input("value taken", row.value.to_string()));
            inputs.extend(row.spread.as_ref().map(|spread| input("may be off by", spread.to_string())));
            (what, text) = (row.what.clone(), row.source.text.clone());
        }
        let source = Source { text, confidence: Confidence::Assumed };
        because(
            format!("assumed: {what}"),
            inputs,
            "not measured; the default of the books stands in",
            source,
        )
    }
}
