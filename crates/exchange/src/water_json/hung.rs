//! Gutters as hung, as JSON.

use measure::{Area, Length};
use roof::EdgeId;
use serde::Serialize;
use water::{
    Bearing, Change, Discharge, DownspoutId, Drainage, GutterId, HungDownspout, Load, Part, Place,
    SpoutBearing,
};

use super::walls::WallsOut;
use super::{FallOut, FindingOut, OutletOut, PlaceOut, Writer, downspout, place};
use crate::number::tidy;

#[derive(Serialize)]
pub(super) struct HungOut<'a> {
    blocked: Vec<&'a str>,
    gutters: Vec<GutterOut<'a>>,
    edges: Vec<EdgeOut>,
    falls: Vec<FallOut<'a>>,
    outlets: Vec<OutletOut<'a>>,
    walls: WallsOut<'a>,
    findings: Vec<FindingOut>,
    changes: Vec<ChangeOut<'a>>,
}

#[derive(Serialize)]
struct GutterOut<'a> {
    gutter: &'a str,
    eave: usize,
    kind: &'a str,
    fall_slope: f64,
    catchment_m2: f64,
    walls_m2: f64,
    flow_m3_s: f64,
    #[serde(flatten)]
    load: LoadOut,
    downspouts: Vec<SpoutOut<'a>>,
}

#[derive(Serialize)]
struct SpoutOut<'a> {
    downspout: &'a str,
    at_m: f64,
    size: &'a str,
    to: &'static str,
    to_gutter: Option<&'a str>,
    to_plane: Option<&'a str>,
    serves_m: f64,
    catchment_m2: f64,
    walls_m2: f64,
    flow_m3_s: f64,
    #[serde(flatten)]
    load: LoadOut,
}

#[derive(Serialize)]
struct LoadOut {
    comes_m2_at_1_in_h: f64,
    rating_m2_at_1_in_h: f64,
    margin: Option<f64>,
}

#[derive(Serialize)]
struct EdgeOut {
    edge: usize,
    catchment_m2: f64,
    flow_m3_s: f64,
}

#[derive(Serialize)]
struct ChangeOut<'a> {
    what: &'static str,
    #[serde(flatten)]
    place: PlaceOut<'a>,
    before_m2: f64,
    now_m2: f64,
}

impl<'a> Writer<'a> {
    pub(super) fn hung(&self, drainage: &'a Drainage, changes: &[Change]) -> HungOut<'a> {
        let edges = drainage.water.edges.iter().enumerate().map(|(i, flow)| EdgeOut {
            edge: EdgeId(i).number(),
            catchment_m2: tidy(flow.catchment().m2()),
            flow_m3_s: self.flow(flow.catchment()),
        });
        HungOut {
            blocked: drainage.blocked.iter().map(|part| self.part(*part)).collect(),
            gutters: drainage.bearings.iter().map(|b| self.gutter(b)).collect(),
            edges: edges.collect(),
            falls: drainage.water.falls.iter().map(|f| self.fall(f)).collect(),
            outlets: drainage.water.outlets.iter().map(|o| self.outlet(o)).collect(),
            walls: self.walls(&drainage.walls),
            findings: drainage.findings.iter().map(|f| self.finding(f)).collect(),
            changes: changes.iter().map(|c| self.change(c)).collect(),
        }
    }

    fn part(&self, part: Part) -> &'a str {
        match part {
            Part::Gutter(GutterId(g)) => &self.hung[g].name,
            Part::Downspout(id) => downspout(self.hung, id),
        }
    }

    fn gutter(&self, bearing: &Bearing) -> GutterOut<'a> {
        let hung = &self.hung[bearing.gutter.0];
        GutterOut {
            gutter: &hung.name,
            eave: hung.edge.number(),
            kind: &hung.kind,
            fall_slope: tidy(hung.fall / Length::from_ft(1.0)),
            catchment_m2: tidy(bearing.catchment.m2()),
            walls_m2: tidy(bearing.walls.m2()),
            flow_m3_s: self.flow(bearing.catchment),
            load: load(&bearing.load),
            downspouts: hung
                .downspouts
                .iter()
                .zip(&bearing.downspouts)
                .map(|(d, b)| self.spout(d, b))
                .collect(),
        }
    }

    fn spout(&self, spout: &'a HungDownspout, bearing: &SpoutBearing) -> SpoutOut<'a> {
        let (to, to_gutter, to_plane) = match spout.to {
            Discharge::Ground => ("ground", None, None),
            Discharge::Drain => ("drain", None, None),
            Discharge::Gutter(GutterId(g)) => ("gutter", Some(self.hung[g].name.as_str()), None),
            Discharge::Roof { plane, .. } => ("roof", None, Some(self.name(plane))),
        };
        SpoutOut {
            downspout: &spout.name,
            at_m: tidy(spout.at.m()),
            size: &spout.size,
            to,
            to_gutter,
            to_plane,
            serves_m: tidy(bearing.serves.m()),
            catchment_m2: tidy(bearing.catchment.m2()),
            walls_m2: tidy(bearing.walls.m2()),
            flow_m3_s: self.flow(bearing.catchment),
            load: load(&bearing.load),
        }
    }

    fn change(&self, change: &Change) -> ChangeOut<'a> {
        let (what, place) = match change.place {
            Place::Edge(id) => ("comes", PlaceOut { edge: Some(id.number()), ..PlaceOut::of("edge") }),
            Place::Downspout(id) => ("carries", self.at_downspout(id)),
            Place::Outlet(kind) => ("leaves", place(self.roof, self.hung, kind)),
        };
        let [before_m2, now_m2] = [change.before, change.now].map(|area: Area| tidy(area.m2()));
        ChangeOut { what, place, before_m2, now_m2 }
    }

    fn at_downspout(&self, id: DownspoutId) -> PlaceOut<'a> {
        PlaceOut { downspout: Some(downspout(self.hung, id)), ..PlaceOut::of("downspout") }
    }
}

fn load(load: &Load) -> LoadOut {
    LoadOut {
        comes_m2_at_1_in_h: tidy(load.comes.m2()),
        rating_m2_at_1_in_h: tidy(load.rating.m2()),
        margin: load.margin().map(tidy),
    }
}
