//! A plane laid flat: true lengths, x along the level, y up the slope, seen from outside.

use roof::{EdgeId, Plane, PlaneId, Roof};

use crate::line::EdgeLine;
use crate::opening::OpeningSymbol;
use crate::paper::Paper;
use crate::polygon::{Bounds, contains};
use crate::survey::Survey;
use crate::vector::{P2, P3, along, between, dot, plan_of, quarter, sub, unit};

/// The frame of a plane in plan, and how much longer the slope is than its plan.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Flat {
    level: P2,
    uphill: P2,
    slope_factor: f64,
}

impl Flat {
    /// A level plane lies with north up.
    pub(crate) fn of(plane: &Plane) -> Self {
        let uphill = unit(plane.fall()).map_or([0.0, 1.0], |fall| fall.map(|x| -x));
        let level = [uphill[1], -uphill[0]];
        Self { level, uphill, slope_factor: plane.pitch.slope_factor() }
    }

    /// Where a point of the plane, given in space, lies.
    pub(crate) fn at(&self, p: P3) -> P2 {
        let plan = plan_of(p);
        [dot(plan, self.level), dot(plan, self.uphill) * self.slope_factor]
    }
}

/// A flat plane on paper.
pub(super) struct Layout<'a> {
    pub(super) roof: &'a Roof,
    pub(super) survey: &'a Survey,
    pub(super) plane: &'a Plane,
    pub(super) id: PlaneId,
    pub(super) units: job::Units,
    pub(super) flat: Flat,
    pub(super) paper: Paper,
    /// Outline and holes on paper.
    pub(super) rings: Vec<Vec<P2>>,
}

impl<'a> Layout<'a> {
    pub(super) fn new(
        roof: &'a Roof,
        survey: &'a Survey,
        id: PlaneId,
        units: job::Units,
        paper: Paper,
    ) -> Self {
        let plane = roof.plane(id);
        let flat = Flat::of(plane);
        let on_paper = |ring: &Vec<P3>| ring.iter().map(|&p| paper.at(flat.at(p))).collect();
        let rings = std::iter::once(&plane.outline).chain(&plane.holes).map(on_paper).collect();
        Self { roof, survey, plane, id, units, flat, paper, rings }
    }

    pub(super) fn at(&self, p: P3) -> P2 {
        self.paper.at(self.flat.at(p))
    }

    pub(super) fn bounds(&self) -> Bounds {
        Bounds::of(self.rings.iter().flatten().copied())
    }

    /// An edge on paper, its first plane being this one.
    pub(super) fn line(&self, id: EdgeId) -> EdgeLine {
        let ends = self.roof.ends(id).map(|p| self.at(p));
        let inward = unit(sub(ends[1], ends[0])).map_or([0.0, 0.0], |d| self.inward(ends, quarter(d)));
        let fall = if self.is_level() { [0.0, 0.0] } else { [0.0, 1.0] };
        EdgeLine {
            kind: self.roof.edge(id).kind,
            ends,
            inward,
            fall,
            seen: vec![[0.0, 1.0]],
            hidden: Vec::new(),
        }
    }

    /// North in plan, on paper, the plane's level and uphill directions being the sheet's.
    pub(super) fn north(&self) -> P2 {
        Paper::direction([self.flat.level[1], self.flat.uphill[1]])
    }

    pub(super) fn is_level(&self) -> bool {
        self.plane.pitch.slope() == 0.0
    }

    /// Openings of this plane with their symbols.
    pub(super) fn openings(&self) -> Vec<(&'a roof::PlacedOpening, OpeningSymbol)> {
        let own = self.roof.openings.iter().filter(|opening| opening.plane == self.id);
        own.map(|opening| {
            let rim = opening.rim.map(|p| self.at(p));
            (opening, OpeningSymbol::new(opening.kind, self.survey.state(&opening.name), rim))
        })
        .collect()
    }

    fn inward(&self, [a, b]: [P2; 2], across: P2) -> P2 {
        const STEP: f64 = 0.05;
        let is_inside = |t: &f64| contains(&self.rings, along(between(a, b, *t), across, STEP));
        let votes = [0.3, 0.5, 0.7].iter().filter(|t| is_inside(t)).count();
        if votes > 1 { across } else { across.map(|x| -x) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vector::distance;
    use measure::{Area, Pitch};

    fn plane(rise: P3) -> Plane {
        Plane {
            name: String::new(),
            block: String::new(),
            blocks: Vec::new(),
            rise,
            pitch: Pitch::from_slope(rise[0].hypot(rise[1])),
            azimuth_degrees: 0.0,
            outline: Vec::new(),
            holes: Vec::new(),
            plan_area: Area::ZERO,
            slope_area: Area::ZERO,
            edges: Vec::new(),
        }
    }

    #[test]
    fn flat_plane_keeps_distances_and_has_uphill_up_and_is_not_mirrored() {
        let plane = plane([0.3, -0.4, 2.0]);
        let flat = Flat::of(&plane);
        let point = |x: f64, y: f64| [x, y, plane.height_at([x, y])];
        let [o, e, n] = [point(1.0, 1.0), point(4.0, 1.0), point(1.0, 3.0)];
        for [a, b] in [[o, e], [e, n], [n, o]] {
            assert!((distance(flat.at(a), flat.at(b)) - distance(a, b)).abs() < 1e-12);
        }
        let [e, n] = [e, n].map(|p| sub(flat.at(p), flat.at(o)));
        assert!(
            crate::vector::cross(e, n) > 0.0,
            "east to north turns counter-clockwise, as seen from above"
        );
        assert!(e[1] > 0.0 && n[1] < 0.0, "east is uphill here, north downhill");
    }
}
