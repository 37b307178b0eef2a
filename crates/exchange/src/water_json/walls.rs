//! Rain on walls over roofs, as JSON.

use serde::Serialize;
use water::WallWater;

use super::{OutletOut, Writer};
use crate::number::tidy;

#[derive(Serialize)]
pub(super) struct WallsOut<'a> {
    adds_m2: f64,
    faces: Vec<FaceOut<'a>>,
    outlets: Vec<OutletOut<'a>>,
}

#[derive(Serialize)]
struct FaceOut<'a> {
    edge: usize,
    kind: &'static str,
    wall_of: Option<&'a str>,
    onto: &'a str,
    wall_m2: f64,
    adds_m2: f64,
    flow_m3_s: f64,
}

impl<'a> Writer<'a> {
    pub(super) fn walls(&self, walls: &WallWater) -> WallsOut<'a> {
        let face = |face: &water::WallFace| {
            let edge = self.roof.edge(face.edge);
            FaceOut {
                edge: face.edge.number(),
                kind: edge.kind.key(),
                wall_of: edge.wall_of.as_deref(),
                onto: self.name(edge.planes[0]),
                wall_m2: tidy(face.area.m2()),
                adds_m2: tidy(face.adds.m2()),
                flow_m3_s: self.flow(face.adds),
            }
        };
        WallsOut {
            adds_m2: tidy(walls.water.rain.m2()),
            faces: walls.faces.iter().map(face).collect(),
            outlets: walls.water.outlets.iter().map(|o| self.outlet(o)).collect(),
        }
    }
}
