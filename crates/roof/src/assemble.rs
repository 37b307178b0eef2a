//! From pieces and runs to planes, edges and nodes that know each other.

use std::collections::BTreeMap;

use measure::{Area, Length, Pitch};

use crate::arrangement::twin;
use crate::classify::{End, Line, node_kind};
use crate::model::{
    Below, Edge, EdgeId, EdgeKind, Node, NodeId, NodeKind, Plane, PlaneId, Point3, Wall, WallNear,
};
use crate::plan::{P2, area, cross, distance, dot, midpoint, sub, to_segment, unit};
use crate::surface::Surface;
use crate::topology::{Beyond, MEETS, Pieces, Run};

/// Planes, edges and nodes of the house.
pub(crate) struct Parts {
    pub(crate) planes: Vec<Plane>,
    pub(crate) edges: Vec<Edge>,
    pub(crate) nodes: Vec<Node>,
    /// Plane of each piece.
    pub(crate) plane_of: Vec<PlaneId>,
}

/// Greatest height of a wall between two roofs that is still a step, metres (4 ft, and a hair so that 4 ft counts).
const STEP: f64 = 1.2192 + MEETS;
/// Overhang up to which a roof edge above a wall stands flush with it, metres (2 in, and a hair).
const FLUSH: f64 = 0.0508 + MEETS;

/// Turns the pieces of a surface into the parts of a roof. `names` are the blocks' names, `walls` their wall lines.
pub(crate) fn parts(surface: &Surface, pieces: &Pieces, names: &[&str], walls: &[Wall]) -> Parts {
    let mut builder = Builder { surface, pieces, names, walls, nodes: Nodes::default(), edges: Vec::new() };
    let runs = builder.runs();
    for run in runs {
        builder.add_edge(run);
    }
    builder.finish()
}

struct Builder<'a> {
    surface: &'a Surface,
    pieces: &'a Pieces<'a>,
    names: &'a [&'a str],
    walls: &'a [Wall],
    nodes: Nodes,
    edges: Vec<Built<'a>>,
}

/// An edge while it is built, with the run it came from.
struct Built<'a> {
    run: &'a Run,
    other: Option<usize>,
    edge: Edge,
}

impl<'a> Builder<'a> {
    /// All runs, those shared by two pieces once.
    fn runs(&self) -> Vec<&'a Run> {
        let all = self.pieces.all.iter().flat_map(|p| p.borders.iter().flatten());
        all.filter(|run| !matches!(run.beyond, Beyond::Piece(other) if other < run.piece)).collect()
    }

    fn group(&self, piece: usize) -> usize {
        self.pieces.all[piece].group
    }

    fn ends(&self, run: &Run) -> [(usize, P2); 2] {
        let a = &self.surface.arrangement;
        let (first, last) = (run.half_edges[0], run.half_edges[run.half_edges.len() - 1]);
        let [p, q] = [a.half_edges[first].from, a.half_edges[last].to];
        [(p, a.points[p]), (q, a.points[q])]
    }

    fn add_edge(&mut self, run: &'a Run) {
        let group = self.group(run.piece);
        let [(v, p), (w, q)] = self.ends(run);
        let (zp, zq) = (self.surface.height(group, p), self.surface.height(group, q));
        let (mut from, mut to) = (self.nodes.at(v, p, zp), self.nodes.at(w, q, zq));
        let line = Line { direction: unit(p, q), rise: self.surface.group_rise[group] };
        let kind = self.kind(run, line);
        let is_level = matches!(
            kind,
            EdgeKind::Eave
                | EdgeKind::HighEave
                | EdgeKind::Ridge
                | EdgeKind::LevelValley
                | EdgeKind::Headwall
        );
        if zp > zq && !is_level {
            std::mem::swap(&mut from, &mut to);
        }
        if let Beyond::Piece(other) = run.beyond {
            let next = self.group(other);
            self.nodes.at(v, p, self.surface.height(next, p));
            self.nodes.at(w, q, self.surface.height(next, q));
        }
        let edge = Edge {
            kind,
            from,
            to,
            planes: Vec::new(),
            length: Length::ZERO,
            plan_length: Length::ZERO,
            slope: 0.0,
            wall_of: match run.beyond {
                Beyond::Wall(block) | Beyond::Overhang(block) => Some(self.names[block].to_string()),
                _ => None,
            },
            overhang: Length::ZERO,
            over: Vec::new(),
            wall_near_low_end: None,
        };
        let other = match run.beyond {
            Beyond::Piece(other) => Some(other),
            _ => None,
        };
        self.edges.push(Built { run, other, edge });
    }

    fn kind(&self, run: &Run, line: Line) -> EdgeKind {
        match run.beyond {
            Beyond::Piece(other) => {
                line.shared_kind(self.surface.group_rise[self.group(other)], self.across(run))
            }
            Beyond::Wall(block) if self.is_step(run, line, block) => EdgeKind::Step,
            Beyond::Wall(_) => line.wall_kind(),
            Beyond::Overhang(_) => EdgeKind::Soffit,
            Beyond::Nothing => line.free_kind(),
        }
    }

    /// From the piece on the left of a run to what is on its right.
    fn across(&self, run: &Run) -> P2 {
        let a = &self.surface.arrangement;
        let h = run.half_edges[0];
        let within = |h: usize| a.samples[a.half_edges[h].cell].unwrap_or_else(|| a.from(h));
        sub(within(twin(h)), within(h))
    }

    /// Whether the wall carries, flush and not far above, the edge of a roof of that block that falls the same way.
    fn is_step(&self, run: &Run, line: Line, block: usize) -> bool {
        run.half_edges.iter().all(|&h| self.is_step_at(h, self.group(run.piece), line, block))
    }

    fn is_step_at(&self, h: usize, group: usize, line: Line, block: usize) -> bool {
        let s = self.surface;
        let (here, there) = (s.arrangement.half_edges[h].cell, s.arrangement.half_edges[twin(h)].cell);
        let middle = midpoint(s.arrangement.from(h), s.arrangement.to(h));
        let z = s.height(group, middle);
        let of_block =
            |cell: usize| s.over_cell[cell].iter().map(|&t| &s.sheets[t]).filter(|t| t.block == block);
        let overhangs = of_block(here).any(|t| t.height(middle) > z);
        let above = of_block(there)
            .filter(|t| t.is_inside() && line.falls_with(t.rise))
            .any(|t| (MEETS..STEP).contains(&(t.height(middle) - z)));
        above && !(overhangs && self.overhang_of(block, middle) > FLUSH)
    }

    /// Overhang over the wall line of a block that passes through a point.
    fn overhang_of(&self, block: usize, p: P2) -> f64 {
        self.walls
            .iter()
            .filter(|w| w.block == self.names[block] && to_segment(p, w.from, w.to).0 < 4.0 * MEETS)
            .map(|w| w.overhang.m())
            .fold(0.0, f64::max)
    }

    fn finish(mut self) -> Parts {
        let order = self.edge_order();
        let mut edge_of: BTreeMap<(usize, usize), EdgeId> = BTreeMap::new();
        for (number, &i) in order.iter().enumerate() {
            let built = &self.edges[i];
            for &h in &built.run.half_edges {
                edge_of.insert((built.run.piece, h), EdgeId(number));
                if let Some(other) = built.other {
                    edge_of.insert((other, twin(h)), EdgeId(number));
                }
            }
        }
        let (planes, plane_of) = self.planes(&edge_of);
        for i in 0..self.edges.len() {
            self.complete(i, &plane_of);
        }
        let mut built: Vec<Option<Built>> = self.edges.into_iter().map(Some).collect();
        let edges: Vec<Edge> = order.iter().filter_map(|&i| built[i].take()).map(|b| b.edge).collect();
        let nodes = nodes(&self.nodes, &edges, &planes);
        let mut parts = Parts { planes, edges, nodes, plane_of };
        parts.find_near_walls();
        parts
    }

    /// Edges by kind, then from south to north, west to east.
    fn edge_order(&self) -> Vec<usize> {
        let rank = |kind| EdgeKind::ALL.iter().position(|k| *k == kind);
        let key = |i: usize| {
            let [(_, p), (_, q)] = self.ends(self.edges[i].run);
            let m = midpoint(p, q);
            (rank(self.edges[i].edge.kind), round(m[1]), round(m[0]))
        };
        let mut order: Vec<usize> = (0..self.edges.len()).collect();
        order.sort_by_key(|&i| key(i));
        order
    }

    /// Planes in order of block and compass, and the plane of each piece.
    fn planes(&self, edge_of: &BTreeMap<(usize, usize), EdgeId>) -> (Vec<Plane>, Vec<PlaneId>) {
        let mut made: Vec<(usize, Plane)> =
            (0..self.pieces.all.len()).map(|i| (i, self.plane(i, edge_of))).collect();
        made.sort_by_key(|(i, p)| {
            let centre = centroid(&p.outline);
            (
                self.pieces.all[*i].blocks.first().copied(),
                round(p.azimuth_degrees),
                round(centre[2]),
                round(centre[0]),
                round(centre[1]),
            )
        });
        let mut plane_of = vec![PlaneId(0); made.len()];
        for (k, (i, _)) in made.iter().enumerate() {
            plane_of[*i] = PlaneId(k);
        }
        let mut planes: Vec<Plane> = made.into_iter().map(|(_, p)| p).collect();
        name_planes(&mut planes);
        (planes, plane_of)
    }

    fn plane(&self, piece: usize, edge_of: &BTreeMap<(usize, usize), EdgeId>) -> Plane {
        let p = &self.pieces.all[piece];
        let rise = self.surface.group_rise[p.group];
        let mut loops = p.borders.iter().map(|b| self.corners(piece, b, edge_of));
        let plan: f64 = p.borders.iter().map(|b| self.border_area(b)).sum();
        let m = rise[0].hypot(rise[1]);
        let around = p.borders.iter().flatten().flat_map(|run| &run.half_edges);
        let mut edges: Vec<EdgeId> = around.filter_map(|&h| edge_of.get(&(piece, h)).copied()).collect();
        edges.dedup();
        if edges.len() > 1 && edges.first() == edges.last() {
            edges.pop();
        }
        let blocks: Vec<String> = p.blocks.iter().map(|&b| self.names[b].to_string()).collect();
        Plane {
            name: String::new(),
            block: blocks.first().cloned().unwrap_or_default(),
            blocks,
            rise,
            pitch: Pitch::from_slope(m),
            azimuth_degrees: azimuth(rise),
            outline: loops.next().unwrap_or_default(),
            holes: loops.collect(),
            plan_area: Area::from_m2(plan),
            slope_area: Area::from_m2(plan * (1.0 + m * m).sqrt()),
            edges,
        }
    }

    /// Corners of a border: where one edge ends and the next begins.
    fn corners(
        &self,
        piece: usize,
        border: &[Run],
        edge_of: &BTreeMap<(usize, usize), EdgeId>,
    ) -> Vec<Point3> {
        let around: Vec<usize> = border.iter().flat_map(|run| run.half_edges.iter().copied()).collect();
        let edge = |h: usize| edge_of.get(&(piece, h));
        let starts = (0..around.len())
            .filter(|&i| edge(around[i]) != edge(around[(i + around.len() - 1) % around.len()]));
        starts
            .map(|i| {
                let q = self.surface.arrangement.from(around[i]);
                [q[0], q[1], self.surface.height(self.group(piece), q)]
            })
            .collect()
    }

    fn border_area(&self, border: &[Run]) -> f64 {
        let a = &self.surface.arrangement;
        let points: Vec<P2> = border.iter().flat_map(|r| &r.half_edges).map(|&h| a.from(h)).collect();
        area(&points)
    }

    /// Fills in what an edge can know only once planes have their numbers.
    fn complete(&mut self, i: usize, plane_of: &[PlaneId]) {
        let run = self.edges[i].run;
        let mut planes = vec![plane_of[run.piece]];
        planes.extend(self.edges[i].other.map(|o| plane_of[o]));
        let over = if run.beyond == Beyond::Nothing { self.below(run, plane_of) } else { Vec::new() };
        let overhang = if run.beyond == Beyond::Nothing { self.wall_behind(run) } else { Length::ZERO };
        let [p, q] = [self.edges[i].edge.from, self.edges[i].edge.to].map(|n| self.nodes.place(n));
        let plan_length = distance([p[0], p[1]], [q[0], q[1]]);
        let edge = &mut self.edges[i].edge;
        edge.length = Length::from_m(plan_length.hypot(q[2] - p[2]));
        edge.plan_length = Length::from_m(plan_length);
        edge.slope = (q[2] - p[2]).abs() / plan_length;
        edge.planes = planes;
        edge.over = over;
        edge.overhang = overhang;
    }

    /// Planes under a free edge: the highest below each part of it.
    fn below(&self, run: &Run, plane_of: &[PlaneId]) -> Vec<Below> {
        let s = self.surface;
        let own = self.group(run.piece);
        let mut found: BTreeMap<PlaneId, Below> = BTreeMap::new();
        for &h in &run.half_edges {
            let [p, q] = [s.arrangement.from(h), s.arrangement.to(h)];
            let cell = s.arrangement.half_edges[twin(h)].cell;
            let drop = |g: usize, v: P2| s.height(own, v) - s.height(g, v);
            let m = midpoint(p, q);
            let under = s.seen[cell].iter().copied().filter(|&g| drop(g, m) > MEETS);
            let highest = under.min_by(|&g, &h| drop(g, m).total_cmp(&drop(h, m)));
            let Some((g, piece)) = highest.and_then(|g| self.pieces.at(cell, g).map(|piece| (g, piece)))
            else {
                continue;
            };
            let least = Length::from_m(drop(g, p).min(drop(g, q)).max(0.0));
            let length = Length::from_m(distance(p, q));
            found
                .entry(plane_of[piece])
                .and_modify(|b| {
                    b.length += length;
                    b.drop = b.drop.min(least);
                })
                .or_insert(Below { plane: plane_of[piece], length, drop: least });
        }
        found.into_values().collect()
    }

    /// Distance from a free edge back to the wall line it belongs to: the parallel one of its blocks whose overhang reaches it.
    fn wall_behind(&self, run: &Run) -> Length {
        let [(_, p), (_, q)] = self.ends(run);
        let (direction, m) = (unit(p, q), midpoint(p, q));
        let blocks: Vec<&str> = self.pieces.all[run.piece].blocks.iter().map(|&b| self.names[b]).collect();
        let reaches = |w: &&Wall| {
            let along = unit(w.from, w.to);
            let out = dot(sub(m, w.from), crate::plan::outward(along));
            blocks.contains(&w.block.as_str())
                && cross(along, direction).abs() < 1e-3
                && (out - w.overhang.m()).abs() < 4.0 * MEETS
        };
        let nearest =
            |a: &&Wall, b: &&Wall| to_segment(m, a.from, a.to).0.total_cmp(&to_segment(m, b.from, b.to).0);
        self.walls.iter().filter(reaches).min_by(nearest).map_or(Length::ZERO, |w| w.overhang)
    }
}

/// A number for sorting that rounding errors do not move: tenths of a millimetre, or of a thousandth of a degree.
fn round(x: f64) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "a sorting key; saturates far outside any house")]
    let rounded = (x * 1e4).round() as i64;
    rounded
}

fn centroid(outline: &[Point3]) -> Point3 {
    let n = outline.len().max(1) as f64;
    outline.iter().fold([0.0; 3], |c, p| [c[0] + p[0] / n, c[1] + p[1] / n, c[2] + p[2] / n])
}

/// Direction of the fall, degrees clockwise from north, 0 up to 360; 0 for a level plane.
fn azimuth(rise: [f64; 3]) -> f64 {
    let degrees = (-rise[0]).atan2(-rise[1]).to_degrees();
    let turned = if degrees < 0.0 { degrees + 360.0 } else { degrees };
    // keeps due north at 0, whatever the sign of a rounding error
    if turned > 360.0 - 1e-7 || turned.is_nan() { 0.0 } else { turned }
}

/// Names planes by block and compass letter; planes that would share a name are told apart as lower and upper, or by number.
fn name_planes(planes: &mut [Plane]) {
    let base: Vec<String> = planes.iter().map(base_name).collect();
    for i in 0..planes.len() {
        let alike: Vec<usize> = (0..planes.len()).filter(|&j| base[j] == base[i]).collect();
        let place = alike.iter().position(|&j| j == i).unwrap_or_default();
        let pitches_differ = alike.len() == 2
            && (planes[alike[0]].pitch.slope() - planes[alike[1]].pitch.slope()).abs() > 1e-6;
        planes[i].name = match alike.len() {
            1 => base[i].clone(),
            2 if pitches_differ => format!("{} {}", base[i], ["lower", "upper"][place]),
            _ => format!("{}{}", base[i], place + 1),
        };
    }
}

fn base_name(plane: &Plane) -> String {
    if plane.pitch.slope() < 1e-9 {
        return format!("{} flat", plane.block);
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 8")]
    let eighth = (plane.azimuth_degrees / 45.0).round() as usize % 8;
    format!("{} {}", plane.block, job::Compass::ALL[eighth].letter())
}

/// Nodes while edges are collected: one for each height at each point, at the mean of what the planes there say.
#[derive(Default)]
struct Nodes {
    made: Vec<Heights>,
    of_point: BTreeMap<usize, Vec<NodeId>>,
}

/// A point and the heights found for it.
struct Heights {
    at: P2,
    first: f64,
    sum: f64,
    count: f64,
}

impl Nodes {
    fn at(&mut self, point: usize, p: P2, z: f64) -> NodeId {
        let here = self.of_point.entry(point).or_default();
        let known = here.iter().copied().find(|id| (self.made[id.0].first - z).abs() < 4.0 * MEETS);
        let id = known.unwrap_or_else(|| {
            let id = NodeId(self.made.len());
            self.made.push(Heights { at: p, first: z, sum: 0.0, count: 0.0 });
            here.push(id);
            id
        });
        let node = &mut self.made[id.0];
        node.sum += z;
        node.count += 1.0;
        id
    }

    fn place(&self, id: NodeId) -> Point3 {
        let node = &self.made[id.0];
        [node.at[0], node.at[1], node.sum / node.count]
    }
}

fn nodes(nodes: &Nodes, edges: &[Edge], planes: &[Plane]) -> Vec<Node> {
    let mut meeting: Vec<Vec<EdgeId>> = vec![Vec::new(); nodes.made.len()];
    for (i, e) in edges.iter().enumerate() {
        meeting[e.from.0].push(EdgeId(i));
        meeting[e.to.0].push(EdgeId(i));
    }
    let made =
        meeting.into_iter().enumerate().map(|(n, meeting)| (NodeId(n), nodes.place(NodeId(n)), meeting));
    made.map(|(id, at, meeting)| Node {
        kind: kind_of_node(id, at, &meeting, edges, planes),
        at,
        edges: meeting,
    })
    .collect()
}

fn kind_of_node(id: NodeId, at: Point3, meeting: &[EdgeId], edges: &[Edge], planes: &[Plane]) -> NodeKind {
    let end = |e: &Edge| match () {
        () if e.slope * e.plan_length.m() < MEETS => End::Level,
        () if e.from == id => End::Low,
        () => End::High,
    };
    let ends: Vec<(EdgeKind, End)> = meeting.iter().map(|e| (edges[e.0].kind, end(&edges[e.0]))).collect();
    let planes_here: Vec<PlaneId> = meeting.iter().flat_map(|e| edges[e.0].planes.iter().copied()).collect();
    let turns_inwards = planes_here.iter().any(|p| is_inside_corner(&planes[p.0].outline, at));
    node_kind(&ends, turns_inwards)
}

fn is_inside_corner(outline: &[Point3], at: Point3) -> bool {
    let n = outline.len();
    (0..n).any(|i| {
        let [a, b, c] = [outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]].map(|p| [p[0], p[1]]);
        distance(b, [at[0], at[1]]) < MEETS && cross(unit(a, b), unit(b, c)) < -1e-3
    })
}

impl Parts {
    /// For each valley, the nearest wall on the planes its low end stands on or drips on.
    fn find_near_walls(&mut self) {
        for i in 0..self.edges.len() {
            if self.edges[i].kind == EdgeKind::Valley {
                self.edges[i].wall_near_low_end = self.near_wall(&self.edges[i]);
            }
        }
    }

    fn near_wall(&self, valley: &Edge) -> Option<WallNear> {
        let node = &self.nodes[valley.from.0];
        let p = [node.at[0], node.at[1]];
        let mut planes = valley.planes.clone();
        planes.extend(node.edges.iter().flat_map(|e| &self.edges[e.0].over).map(|b| b.plane));
        let walls =
            planes.iter().flat_map(|pl| &self.planes[pl.0].edges).filter(|e| self.edges[e.0].kind.is_wall());
        let distance_to = |e: &EdgeId| {
            let [a, b] = [self.edges[e.0].from, self.edges[e.0].to]
                .map(|n| [self.nodes[n.0].at[0], self.nodes[n.0].at[1]]);
            to_segment(p, a, b).0
        };
        walls
            .map(|e| (*e, distance_to(e)))
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(edge, d)| WallNear { edge, distance: Length::from_m(d) })
    }
}
