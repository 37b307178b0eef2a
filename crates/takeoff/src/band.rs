//! Strips laid from eaves up the roof: exact area, with mitred corners and strips run on into valleys.
//!
//! # Formula
//! Of each column of a plane, the part within the level reach of the eave that its strips come from; its plan area times
//! the slope factor. Columns that end at a hip are cut by it, so that corners come out mitred. Columns that stand in a valley
//! take the strip of their plane's eave at the valley's low end, run on level. Above a pitch break the level reach
//! goes on counting from the eave.
//! # Checks
//! outside: closed form of the mitred ring of a hip roof, worked example of a cross gable (`tests/`)

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::plan::{P2, clip, dot, sub};
use roof::{EdgeId, PlaneId, Roof};

use crate::columns::Columns;
use crate::plan::{area, ends};

/// Level reach of the strip of each eave that has one.
pub(crate) type Reaches = BTreeMap<EdgeId, Length>;

/// Area on the slope of the strips on each plane that has any.
pub(crate) fn band(roof: &Roof, columns: &Columns<'_>, reaches: &Reaches) -> BTreeMap<PlaneId, Area> {
    let planes = (0..roof.planes.len()).map(PlaneId);
    planes
        .map(|plane| (plane, on_plane(roof, columns, plane, reaches)))
        .filter(|(_, area)| *area > Area::ZERO)
        .collect()
}

fn on_plane(roof: &Roof, columns: &Columns<'_>, plane: PlaneId, reaches: &Reaches) -> Area {
    let in_column = |column| {
        let eave = columns.eave_below(plane, column)?;
        let (line, reach) = (Inwards::of(roof, eave)?, reaches.get(&eave)?.m());
        Some(area(&clip(&column.quad, |p| reach - line.distance(p))))
    };
    let in_plan: Area = columns.on(plane).iter().filter_map(in_column).sum();
    in_plan * roof.plane(plane).pitch.slope_factor()
}

/// The way in from an eave, square to it in plan.
pub(crate) struct Inwards {
    eave: P2,
    direction: P2,
    /// Length on the slope for each length of level, going this way.
    pub(crate) slope_factor: f64,
}

impl Inwards {
    /// Of the plane that ends at an edge; none where that plane is level or the edge runs along its fall.
    pub(crate) fn of(roof: &Roof, edge: EdgeId) -> Option<Self> {
        let plane = roof.plane(*roof.edge(edge).planes.first()?);
        let [a, b] = ends(roof, edge);
        let along = sub(b, a);
        let length = dot(along, along).sqrt();
        let square = [along[1] / length, -along[0] / length];
        let up_per_level = dot(square, [plane.rise[0], plane.rise[1]]);
        let turned = if up_per_level < 0.0 { [-square[0], -square[1]] } else { square };
        let is_way_up = length > 0.0 && up_per_level != 0.0;
        is_way_up.then(|| Self { eave: a, direction: turned, slope_factor: up_per_level.hypot(1.0) })
    }

    fn distance(&self, p: P2) -> f64 {
        dot(sub(p, self.eave), self.direction)
    }
}
