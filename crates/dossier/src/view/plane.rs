//! Planes as rows.

use job::Units;
use measure::{Area, Length};
use roof::{Plane, PlaneId};
use study::Study;
use takeoff::Of;

use super::words::stated;
use crate::{Areas, PlaneRow, Stated};

pub(super) fn rows(study: &Study) -> Vec<PlaneRow> {
    (0..study.roof.planes.len()).map(|i| row(study, PlaneId(i))).collect()
}

fn row(study: &Study, id: PlaneId) -> PlaneRow {
    let (plane, units) = (study.roof.plane(id), study.job.units);
    let is_assumed = |of: Of| study.takeoff.assumed.touches(of);
    let [low, high] = heights(plane).map(|height| stated(units.length(height), is_assumed(Of::Height(id))));
    PlaneRow {
        name: plane.name.clone(),
        pitch: Stated::measured(units.pitch(plane.pitch)),
        faces: faces(plane),
        low,
        high,
        areas: areas(plane.plan_area, plane.slope_area, units, is_assumed(Of::Area(id))),
        edges: plane.edges.iter().map(|e| e.number().to_string()).collect(),
    }
}

/// Least and greatest height of a plane above the job's datum.
fn heights(plane: &Plane) -> [Length; 2] {
    let all = || plane.outline.iter().map(|p| p[2]);
    [all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max)].map(Length::from_m)
}

/// Compass direction of the fall, with degrees where it is not one of the eight.
fn faces(plane: &Plane) -> String {
    if plane.pitch.slope() <= 0.0 {
        return "level".to_owned();
    }
    let eighths = plane.azimuth_degrees / 45.0;
    let name = draw::compass(plane.azimuth_degrees);
    if (eighths - eighths.round()).abs() < 0.01 {
        name.to_owned()
    } else {
        format!("{name}, {:.0}°", plane.azimuth_degrees)
    }
}

pub(super) fn areas(plan: Area, slope: Area, units: Units, assumed: bool) -> Areas {
    Areas {
        plan: stated(units.area(plan), assumed),
        slope: stated(units.area(slope), assumed),
        squares: stated(format!("{:.2}", slope.squares()), assumed),
    }
}
