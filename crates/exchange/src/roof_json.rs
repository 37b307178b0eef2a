//! The measured roof as JSON.

use std::collections::BTreeMap;

use measure::Length;
use roof::{Cricket, Edge, EdgeId, EdgeKind, Node, PlacedOpening, Plane, Roof};
use serde::Serialize;
use serde_json::Value;

use crate::VERSION;
use crate::number::{point, tidy};

type Point = [f64; 3];

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    planes: Vec<PlaneOut<'a>>,
    edges: Vec<EdgeOut<'a>>,
    nodes: Vec<NodeOut>,
    openings: Vec<OpeningOut<'a>>,
    crickets: Vec<CricketOut<'a>>,
    passages: Vec<PassageOut<'a>>,
    totals: Totals,
}

#[derive(Serialize)]
struct PlaneOut<'a> {
    name: &'a str,
    block: &'a str,
    blocks: &'a [String],
    pitch_rise_per_12: f64,
    azimuth_deg: f64,
    plan_area_m2: f64,
    slope_area_m2: f64,
    outline_m: Vec<Point>,
    holes_m: Vec<Vec<Point>>,
    edges: Vec<usize>,
}

#[derive(Serialize)]
struct EdgeOut<'a> {
    id: usize,
    kind: &'static str,
    length_m: f64,
    plan_length_m: f64,
    slope: f64,
    from_m: Point,
    to_m: Point,
    from_node: usize,
    to_node: usize,
    planes: Vec<&'a str>,
    wall_of: Option<&'a str>,
    overhang_m: f64,
    over: Vec<BelowOut<'a>>,
    wall_near_low_end: Option<NearOut>,
}

#[derive(Serialize)]
struct BelowOut<'a> {
    plane: &'a str,
    length_m: f64,
    drop_m: f64,
}

#[derive(Serialize)]
struct NearOut {
    edge: usize,
    distance_m: f64,
}

#[derive(Serialize)]
struct NodeOut {
    id: usize,
    kind: &'static str,
    at_m: Point,
    edges: Vec<usize>,
}

#[derive(Serialize)]
struct OpeningOut<'a> {
    name: &'a str,
    kind: &'static str,
    plane: &'a str,
    at_m: Point,
    rim_m: [Point; 4],
    distances: Vec<DistanceOut>,
}

#[derive(Serialize)]
struct DistanceOut {
    edge: usize,
    plan_from_centre_m: f64,
    slope_from_rim_m: f64,
}

#[derive(Serialize)]
struct CricketOut<'a> {
    opening: &'a str,
    planes_m: [[Point; 3]; 2],
    slope_area_m2: f64,
    height_m: f64,
    ridge_m: f64,
    valley_m: f64,
}

#[derive(Serialize)]
struct PassageOut<'a> {
    plane: &'a str,
    under: &'a str,
    gap_m: f64,
    at_m: Point,
}

#[derive(Serialize)]
struct Totals {
    plan_area_m2: f64,
    slope_area_m2: f64,
    edge_length_m: BTreeMap<&'static str, f64>,
}

/// The measured roof. Numbers of edges and nodes count from 1, as on the drawings; planes are referred to by name. Crickets are
/// listed apart and not counted in the planes or totals.
pub fn roof(roof: &Roof) -> Value {
    crate::number::value(&Document {
        version: VERSION,
        planes: roof.planes.iter().map(plane).collect(),
        edges: (0..roof.edges.len()).map(|i| edge(roof, EdgeId(i))).collect(),
        nodes: roof.nodes.iter().enumerate().map(|(i, n)| node(i, n)).collect(),
        openings: roof.openings.iter().map(|o| opening(roof, o)).collect(),
        crickets: roof.crickets.iter().map(|c| cricket(roof, c)).collect(),
        passages: (roof.passages.iter())
            .map(|p| PassageOut {
                plane: &roof.plane(p.plane).name,
                under: &p.under,
                gap_m: metres(p.gap),
                at_m: point(p.at),
            })
            .collect(),
        totals: totals(roof),
    })
}

fn metres(length: Length) -> f64 {
    tidy(length.m())
}

fn plane(p: &Plane) -> PlaneOut<'_> {
    let ring = |points: &[Point]| points.iter().map(|q| point(*q)).collect();
    PlaneOut {
        name: &p.name,
        block: &p.block,
        blocks: &p.blocks,
        pitch_rise_per_12: tidy(p.pitch.rise_per_12()),
        azimuth_deg: tidy(p.azimuth_degrees),
        plan_area_m2: tidy(p.plan_area.m2()),
        slope_area_m2: tidy(p.slope_area.m2()),
        outline_m: ring(&p.outline),
        holes_m: p.holes.iter().map(|h| ring(h)).collect(),
        edges: p.edges.iter().map(|e| e.number()).collect(),
    }
}

fn edge(roof: &Roof, id: EdgeId) -> EdgeOut<'_> {
    let e: &Edge = roof.edge(id);
    let [from, to] = roof.ends(id);
    EdgeOut {
        id: id.number(),
        kind: e.kind.key(),
        length_m: metres(e.length),
        plan_length_m: metres(e.plan_length),
        slope: tidy(e.slope),
        from_m: point(from),
        to_m: point(to),
        from_node: e.from.number(),
        to_node: e.to.number(),
        planes: e.planes.iter().map(|p| roof.plane(*p).name.as_str()).collect(),
        wall_of: e.wall_of.as_deref(),
        overhang_m: metres(e.overhang),
        over: (e.over.iter())
            .map(|b| BelowOut {
                plane: &roof.plane(b.plane).name,
                length_m: metres(b.length),
                drop_m: metres(b.drop),
            })
            .collect(),
        wall_near_low_end: (e.wall_near_low_end.as_ref())
            .map(|w| NearOut { edge: w.edge.number(), distance_m: metres(w.distance) }),
    }
}

fn node(i: usize, n: &Node) -> NodeOut {
    NodeOut {
        id: i + 1,
        kind: n.kind.name(),
        at_m: point(n.at),
        edges: n.edges.iter().map(|e| e.number()).collect(),
    }
}

fn opening<'a>(roof: &'a Roof, o: &'a PlacedOpening) -> OpeningOut<'a> {
    let distance = |d: &roof::EdgeDistance| DistanceOut {
        edge: d.edge.number(),
        plan_from_centre_m: metres(d.plan_from_centre),
        slope_from_rim_m: metres(d.slope_from_rim),
    };
    OpeningOut {
        name: &o.name,
        kind: o.kind.key(),
        plane: &roof.plane(o.plane).name,
        at_m: point(o.at),
        rim_m: o.rim.map(point),
        distances: o.distances.iter().map(distance).collect(),
    }
}

fn cricket<'a>(roof: &'a Roof, c: &Cricket) -> CricketOut<'a> {
    CricketOut {
        opening: &roof.openings[c.opening].name,
        planes_m: c.planes.map(|triangle| triangle.map(point)),
        slope_area_m2: tidy(c.slope_area.m2()),
        height_m: metres(c.height),
        ridge_m: metres(c.ridge),
        valley_m: metres(c.valley),
    }
}

fn totals(roof: &Roof) -> Totals {
    Totals {
        plan_area_m2: tidy(roof.plan_area().m2()),
        slope_area_m2: tidy(roof.slope_area().m2()),
        edge_length_m: EdgeKind::ALL.iter().map(|k| (k.key(), metres(roof.length_of(*k)))).collect(),
    }
}
