//! Reading a finished skeleton: heights, areas, and whether its faces tile.

use std::collections::BTreeMap;

use roof::skeleton::{Contour, EdgeSlope, Face, Skeleton, SkeletonError, roof};

/// An outline with its slopes: the outer contour, then the holes.
#[derive(Clone, Debug)]
pub(crate) struct Outline {
    pub(crate) contours: Vec<Vec<[f64; 2]>>,
    pub(crate) slopes: Vec<Vec<EdgeSlope>>,
}

impl Outline {
    pub(crate) fn new(contours: Vec<Vec<[f64; 2]>>, slope: impl FnMut() -> EdgeSlope) -> Self {
        let mut slope = slope;
        let slopes = contours.iter().map(|c| c.iter().map(|_| slope()).collect()).collect();
        Self { contours, slopes }
    }

    pub(crate) fn single(points: &[[f64; 2]], slopes: &[EdgeSlope]) -> Self {
        Self { contours: vec![points.to_vec()], slopes: vec![slopes.to_vec()] }
    }

    pub(crate) fn roof(&self) -> Result<Skeleton, SkeletonError> {
        let contours: Vec<Contour<'_>> = self
            .contours
            .iter()
            .zip(&self.slopes)
            .map(|(points, slopes)| Contour { points, slopes })
            .collect();
        roof(contours[0], &contours[1..])
    }

    /// The roof of an outline that must have one.
    pub(crate) fn sound_roof(&self) -> Skeleton {
        self.roof().unwrap_or_else(|error| panic!("{error}\n{self:?}"))
    }

    pub(crate) fn map(&self, place: impl Fn([f64; 2]) -> [f64; 2]) -> Self {
        let contours = self.contours.iter().map(|c| c.iter().map(|p| place(*p)).collect()).collect();
        Self { contours, slopes: self.slopes.clone() }
    }

    /// Plan area, the outer contour less the holes, whichever way they run.
    pub(crate) fn area(&self) -> f64 {
        let areas: Vec<f64> = self.contours.iter().map(|c| signed_area(c).abs()).collect();
        areas[0] - areas[1..].iter().sum::<f64>()
    }

    pub(crate) fn slope(&self, face: &Face) -> f64 {
        match self.slopes[face.contour][face.edge] {
            EdgeSlope::Rise(slope) => slope,
            EdgeSlope::Gable => panic!("a gable has no face"),
        }
    }

    /// Distance of a point from the line of a face's edge, inwards positive.
    pub(crate) fn depth(&self, contour: usize, edge: usize, point: [f64; 2]) -> f64 {
        let points = &self.contours[contour];
        let (a, b) = (points[edge], points[(edge + 1) % points.len()]);
        let inward = if (signed_area(points) > 0.0) == (contour == 0) { 1.0 } else { -1.0 };
        let along = [b[0] - a[0], b[1] - a[1]];
        let cross = along[0] * (point[1] - a[1]) - along[1] * (point[0] - a[0]);
        inward * cross / along[0].hypot(along[1])
    }

    /// Height of a face's plane over a point.
    pub(crate) fn plane_height(&self, face: &Face, point: [f64; 2]) -> f64 {
        self.slope(face) * self.depth(face.contour, face.edge, point)
    }

    /// Area on the slope.
    pub(crate) fn slope_area(&self, face: &Face) -> f64 {
        face.plan_area() * self.slope(face).hypot(1.0)
    }
}

pub(crate) fn rise(slope: f64) -> EdgeSlope {
    EdgeSlope::Rise(slope)
}

pub(crate) fn signed_area(points: &[[f64; 2]]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}

pub(crate) fn top(skeleton: &Skeleton) -> f64 {
    skeleton.faces.iter().flat_map(|face| &face.polygon).map(|p| p[2]).fold(0.0, f64::max)
}

fn rings(face: &Face) -> impl Iterator<Item = &Vec<[f64; 3]>> {
    std::iter::once(&face.polygon).chain(&face.holes)
}

/// Even-odd test over all rings of a face.
pub(crate) fn covers(face: &Face, point: [f64; 2]) -> bool {
    let crosses = |a: [f64; 3], b: [f64; 3]| {
        (a[1] > point[1]) != (b[1] > point[1])
            && point[0] < (b[0] - a[0]) * (point[1] - a[1]) / (b[1] - a[1]) + a[0]
    };
    let edges = rings(face).flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    edges.filter(|(a, b)| crosses(**a, **b)).count() % 2 == 1
}

/// Distance of a plan position from a face, zero inside.
pub(crate) fn distance_to(face: &Face, point: [f64; 2]) -> f64 {
    if covers(face, point) {
        return 0.0;
    }
    let edges = rings(face).flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    edges.map(|(a, b)| distance_to_segment([a[0], a[1]], [b[0], b[1]], point)).fold(f64::INFINITY, f64::min)
}

pub(crate) fn distance_to_segment(a: [f64; 2], b: [f64; 2], point: [f64; 2]) -> f64 {
    let (along, reach) = ([b[0] - a[0], b[1] - a[1]], [point[0] - a[0], point[1] - a[1]]);
    let squared = along[0].powi(2) + along[1].powi(2);
    let share = if squared > 0.0 { (reach[0] * along[0] + reach[1] * along[1]) / squared } else { 0.0 };
    let share = share.clamp(0.0, 1.0);
    (reach[0] - share * along[0]).hypot(reach[1] - share * along[1])
}

/// Roof height over a plan position off all arcs: of the one face that covers it.
pub(crate) fn height_at(outline: &Outline, skeleton: &Skeleton, point: [f64; 2]) -> f64 {
    let covering: Vec<&Face> = skeleton.faces.iter().filter(|face| covers(face, point)).collect();
    assert_eq!(covering.len(), 1, "faces over {point:?} in {outline:?}");
    outline.plane_height(covering[0], point)
}

/// Fails unless areas sum up, every corner lies on its plane, faces start with their edge, and every border that is
/// not a wall has a face on each side.
pub(crate) fn assert_tiles(outline: &Outline, skeleton: &Skeleton) {
    let area = outline.area();
    let covered: f64 = skeleton.faces.iter().map(Face::plan_area).sum();
    assert!((covered - area).abs() <= 1e-9 * area, "{covered} of {area} m² covered\n{outline:?}");
    for face in &skeleton.faces {
        assert_starts_with_edge(outline, face);
        for p in rings(face).flatten() {
            let plane = outline.plane_height(face, [p[0], p[1]]);
            let allowed = 1e-9 * outline.slope(face).max(1.0) * area.sqrt().max(1.0);
            assert!((plane - p[2]).abs() <= allowed, "{p:?} off the plane of {face:?} by {}", plane - p[2]);
        }
    }
    assert_borders_shared(outline, skeleton);
}

fn assert_starts_with_edge(outline: &Outline, face: &Face) {
    let points = &outline.contours[face.contour];
    let ends = [points[face.edge], points[(face.edge + 1) % points.len()]];
    let first = [0, 1].map(|k| [face.polygon[k][0], face.polygon[k][1]]);
    assert!(first == ends || first == [ends[1], ends[0]], "{face:?} does not start with its edge");
    assert!(face.polygon.len() >= 3, "{face:?}");
}

/// Each directed border of a face is some other face's border the other way round, unless it lies on the outline or on
/// the line of a gable.
fn assert_borders_shared(outline: &Outline, skeleton: &Skeleton) {
    let key = |p: &[f64; 3]| p.map(f64::to_bits);
    let mut borders: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for (index, face) in skeleton.faces.iter().enumerate() {
        for ring in rings(face) {
            for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                borders.entry((key(a), key(b))).or_default().push(index);
            }
        }
    }
    for ((a, b), faces) in &borders {
        let at = [a, b].map(|p| p.map(f64::from_bits));
        assert_eq!(faces.len(), 1, "border {at:?} twice in {outline:?}");
        let other = borders.get(&(*b, *a)).map_or(0, Vec::len);
        let on_outline = at[0][2] == 0.0 && at[1][2] == 0.0;
        assert!(
            other == 1 || on_outline || on_gable_line(outline, at),
            "border {at:?} of {:?} has no other side in {outline:?}",
            skeleton.faces[faces[0]]
        );
    }
}

fn on_gable_line(outline: &Outline, border: [[f64; 3]; 2]) -> bool {
    let scale = outline.area().sqrt();
    let gables = outline.slopes.iter().enumerate().flat_map(|(contour, slopes)| {
        let gable =
            |(edge, slope): (usize, &EdgeSlope)| (*slope == EdgeSlope::Gable).then_some((contour, edge));
        slopes.iter().enumerate().filter_map(gable).collect::<Vec<_>>()
    });
    let mut near = gables.filter(|&(contour, edge)| {
        border.iter().all(|p| outline.depth(contour, edge, [p[0], p[1]]).abs() < 1e-6 * scale)
    });
    near.next().is_some()
}
