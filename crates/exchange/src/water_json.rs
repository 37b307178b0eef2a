//! Where water goes, as JSON.

mod hung;
mod walls;

use job::Units;
use measure::{Area, Length, RainRate};
use roof::{EdgeId, PlaneId, Roof};
use serde::Serialize;
use serde_json::Value;
use water::{
    Change, DownspoutId, Drainage, EdgeFlow, Fall, Finding, GutterNeed, HungGutter, Inflow, OpeningFlow,
    OutletKind, Path, Spill, Step, Water, Way,
};

use crate::VERSION;
use crate::number::{point, tidy};
use crate::water_json::hung::HungOut;

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    rain_m_s: f64,
    catchment_m2: f64,
    edges: Vec<EdgeOut<'a>>,
    openings: Vec<OpeningOut<'a>>,
    falls: Vec<FallOut<'a>>,
    outlets: Vec<OutletOut<'a>>,
    findings: Vec<FindingOut>,
    gutters: Vec<GutterOut<'a>>,
    hung: HungOut<'a>,
}

#[derive(Serialize)]
struct GutterOut<'a> {
    eave: usize,
    straight_m2: f64,
    streams_m2: f64,
    walls_m2: f64,
    counted_m2: f64,
    flow_m3_s: f64,
    fits: Vec<FittingOut<'a>>,
    downspouts: Vec<DownspoutsOut<'a>>,
}

#[derive(Serialize)]
struct FittingOut<'a> {
    gutter: &'a str,
    fall_per_foot: &'a str,
    margin: f64,
}

#[derive(Serialize)]
struct DownspoutsOut<'a> {
    downspout: &'a str,
    count: usize,
}

#[derive(Serialize)]
struct EdgeOut<'a> {
    edge: usize,
    kind: &'static str,
    catchment_m2: f64,
    flow_m3_s: f64,
    streams_m2: f64,
    sources: Vec<SourceOut<'a>>,
    inflows: Vec<InflowOut<'a>>,
}

#[derive(Serialize)]
struct SourceOut<'a> {
    plane: &'a str,
    catchment_m2: f64,
}

#[derive(Serialize)]
struct InflowOut<'a> {
    from_m: f64,
    to_m: f64,
    depth_m: [f64; 2],
    catchment_m2: f64,
    source: &'a str,
}

#[derive(Serialize)]
struct OpeningOut<'a> {
    opening: &'a str,
    catchment_m2: f64,
    flow_m3_s: f64,
    streams_m2: f64,
    cricket: bool,
    left_m2: f64,
    right_m2: f64,
}

#[derive(Serialize)]
struct FallOut<'a> {
    from_edge: Option<usize>,
    from_node: Option<usize>,
    from_downspout: Option<&'a str>,
    onto: &'a str,
    beside_edge: Option<usize>,
    catchment_m2: f64,
    flow_m3_s: f64,
    source: &'a str,
}

#[derive(Serialize)]
struct OutletOut<'a> {
    #[serde(flatten)]
    place: PlaceOut<'a>,
    catchment_m2: f64,
    flow_m3_s: f64,
    source: &'a str,
}

#[derive(Serialize)]
struct FindingOut {
    kind: &'static str,
    message: String,
    catchment_m2: f64,
    flow_m3_s: f64,
}

#[derive(Serialize)]
struct PathOut<'a> {
    version: u32,
    steps: Vec<StepOut<'a>>,
    end: PlaceOut<'a>,
}

#[derive(Serialize)]
struct StepOut<'a> {
    way: &'static str,
    plane: Option<&'a str>,
    edge: Option<usize>,
    gutter: Option<&'a str>,
    downspout: Option<&'a str>,
    from_m: [f64; 3],
    to_m: [f64; 3],
}

#[derive(Serialize)]
struct PlaceOut<'a> {
    kind: &'static str,
    edge: Option<usize>,
    node: Option<usize>,
    plane: Option<&'a str>,
    downspout: Option<&'a str>,
}

/// Where the water of a roof goes at a rate of rain. Numbers of edges and nodes count from 1, as on the drawings; planes and openings
/// are referred to by name. Catchments are areas in plan. `changes` are what its blocked gutters change.
pub fn water(
    water: &Water,
    gutters: &[GutterNeed],
    drainage: &Drainage,
    changes: &[Change],
    roof: &Roof,
    rain: RainRate,
    units: Units,
) -> Value {
    let out = Writer { roof, rain, units, hung: &drainage.gutters };
    crate::number::value(&Document {
        version: VERSION,
        rain_m_s: rain.m_s(),
        catchment_m2: tidy(water.rain.m2()),
        edges: water.edges.iter().enumerate().map(|(i, flow)| out.edge(EdgeId(i), flow)).collect(),
        openings: water.openings.iter().enumerate().map(|(i, flow)| out.opening(i, flow)).collect(),
        falls: water.falls.iter().map(|f| out.fall(f)).collect(),
        outlets: water.outlets.iter().map(|o| out.outlet(o)).collect(),
        findings: water.findings(roof).iter().map(|f| out.finding(f)).collect(),
        gutters: gutters.iter().map(gutter).collect(),
        hung: out.hung(drainage, changes),
    })
}

fn gutter(need: &GutterNeed) -> GutterOut<'_> {
    let fits = need.gutters.iter().map(|g| FittingOut {
        gutter: &g.id,
        fall_per_foot: &g.fall,
        margin: tidy(g.margin),
    });
    let downspouts = need.downspouts.iter().map(|d| DownspoutsOut { downspout: &d.id, count: d.count });
    GutterOut {
        eave: need.edge.number(),
        straight_m2: tidy(need.straight.m2()),
        streams_m2: tidy(need.streams.m2()),
        walls_m2: tidy(need.walls.m2()),
        counted_m2: tidy(need.counted.m2()),
        flow_m3_s: need.flow.m3_s(),
        fits: fits.collect(),
        downspouts: downspouts.collect(),
    }
}

/// The way of one drop, through gutters where it was followed through them.
pub fn path(path: &Path, roof: &Roof, gutters: &[HungGutter]) -> Value {
    crate::number::value(&PathOut {
        version: VERSION,
        steps: path.steps.iter().map(|s| step(roof, gutters, s)).collect(),
        end: place(roof, gutters, path.end),
    })
}

fn step<'a>(roof: &'a Roof, hung: &'a [HungGutter], step: &Step) -> StepOut<'a> {
    let of = |way| StepOut {
        way,
        plane: None,
        edge: None,
        gutter: None,
        downspout: None,
        from_m: point(step.from),
        to_m: point(step.to),
    };
    let on = |way, plane: PlaneId| StepOut { plane: Some(&roof.plane(plane).name), ..of(way) };
    match step.way {
        Way::Plane(plane) => on("plane", plane),
        Way::Aside(plane) => on("aside", plane),
        Way::Falls(plane) => on("falls", plane),
        Way::Edge(edge) => StepOut { edge: Some(edge.number()), ..of("edge") },
        Way::Gutter(id) => StepOut { gutter: Some(&hung[id.0].name), ..of("gutter") },
        Way::Downspout(id) => StepOut { downspout: Some(downspout(hung, id)), ..of("downspout") },
    }
}

/// A way out by key, with the edge, node or plane it is at.
fn place<'a>(roof: &'a Roof, hung: &'a [HungGutter], kind: OutletKind) -> PlaceOut<'a> {
    let of = PlaceOut::of;
    match kind {
        OutletKind::OffEdge(edge) => PlaceOut { edge: Some(edge.number()), ..of("off_edge") },
        OutletKind::OffEnd(node) => PlaceOut { node: Some(node.number()), ..of("off_end") },
        OutletKind::StandsAt(edge) => PlaceOut { edge: Some(edge.number()), ..of("stands_at_edge") },
        OutletKind::StandsOn(plane) => {
            PlaceOut { plane: Some(&roof.plane(plane).name), ..of("stands_on_plane") }
        }
        OutletKind::Downspout(id) => PlaceOut { downspout: Some(downspout(hung, id)), ..of("downspout") },
    }
}

impl PlaceOut<'_> {
    /// Nowhere yet.
    const fn of(kind: &'static str) -> Self {
        Self { kind, edge: None, node: None, plane: None, downspout: None }
    }
}

fn downspout(hung: &[HungGutter], id: DownspoutId) -> &str {
    &hung[id.gutter.0].downspouts[id.index].name
}

struct Writer<'a> {
    roof: &'a Roof,
    rain: RainRate,
    units: Units,
    hung: &'a [HungGutter],
}

impl<'a> Writer<'a> {
    fn flow(&self, catchment: Area) -> f64 {
        (self.rain * catchment).m3_s()
    }

    fn name(&self, plane: PlaneId) -> &'a str {
        &self.roof.plane(plane).name
    }

    fn opening(&self, index: usize, flow: &OpeningFlow) -> OpeningOut<'a> {
        OpeningOut {
            opening: &self.roof.openings[index].name,
            catchment_m2: tidy(flow.behind.m2()),
            flow_m3_s: self.flow(flow.behind),
            streams_m2: tidy(flow.streams.m2()),
            cricket: self.roof.crickets.iter().any(|c| c.opening == index),
            left_m2: tidy(flow.sides[0].m2()),
            right_m2: tidy(flow.sides[1].m2()),
        }
    }

    fn edge(&self, id: EdgeId, flow: &EdgeFlow) -> EdgeOut<'a> {
        let sources = flow.sources();
        EdgeOut {
            edge: id.number(),
            kind: self.roof.edge(id).kind.key(),
            catchment_m2: tidy(flow.catchment().m2()),
            flow_m3_s: self.flow(flow.catchment()),
            streams_m2: tidy(flow.streams().m2()),
            sources: (sources.iter())
                .map(|(p, a)| SourceOut { plane: self.name(*p), catchment_m2: tidy(a.m2()) })
                .collect(),
            inflows: flow.inflows.iter().map(|i| self.inflow(i)).collect(),
        }
    }

    fn inflow(&self, inflow: &Inflow) -> InflowOut<'a> {
        let [from, to] = inflow.span.map(Length::m);
        InflowOut {
            from_m: tidy(from),
            to_m: tidy(to),
            depth_m: inflow.depth.map(|d| tidy(d.m())),
            catchment_m2: tidy(inflow.amount.m2()),
            source: self.name(inflow.source),
        }
    }

    fn fall(&self, fall: &Fall) -> FallOut<'a> {
        let (from_edge, from_node, from_downspout) = match fall.from {
            Spill::Edge(edge) => (Some(edge.number()), None, None),
            Spill::End(node) => (None, Some(node.number()), None),
            Spill::Downspout(id) => (None, None, Some(downspout(self.hung, id))),
        };
        FallOut {
            from_edge,
            from_node,
            from_downspout,
            onto: self.name(fall.onto),
            beside_edge: fall.beside.map(EdgeId::number),
            catchment_m2: tidy(fall.amount.m2()),
            flow_m3_s: self.flow(fall.amount),
            source: self.name(fall.source),
        }
    }

    fn outlet(&self, outlet: &water::Outlet) -> OutletOut<'a> {
        OutletOut {
            place: place(self.roof, self.hung, outlet.kind),
            catchment_m2: tidy(outlet.amount.m2()),
            flow_m3_s: self.flow(outlet.amount),
            source: self.name(outlet.source),
        }
    }

    fn finding(&self, finding: &Finding) -> FindingOut {
        FindingOut {
            kind: finding.key(),
            message: finding.told(self.roof, self.hung, self.units),
            catchment_m2: tidy(finding.amount().m2()),
            flow_m3_s: self.flow(finding.amount()),
        }
    }
}
