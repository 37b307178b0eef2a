//! Gables, against figures worked out by hand.

use roof::skeleton::EdgeSlope::{self, Gable};
use roof::skeleton::Face;

use crate::roofs::{Outline, assert_tiles, height_at, rise, top};

const HOUSE: [[f64; 2]; 4] = [[0.0, 0.0], [10.0, 0.0], [10.0, 6.0], [0.0, 6.0]];

fn roof_of(points: &[[f64; 2]], slopes: &[EdgeSlope]) -> (Outline, Vec<Face>) {
    let outline = Outline::single(points, slopes);
    let skeleton = outline.sound_roof();
    assert_tiles(&outline, &skeleton);
    (outline, skeleton.faces)
}

fn areas(faces: &[Face]) -> Vec<(usize, f64)> {
    faces.iter().map(|face| (face.edge, face.plan_area())).collect()
}

#[test]
fn rectangle_with_two_gables_is_a_gable_roof() {
    let (_, faces) = roof_of(&HOUSE, &[rise(0.5), Gable, rise(0.5), Gable]);
    let south = [[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [10.0, 3.0, 1.5], [0.0, 3.0, 1.5]];
    let north = [[10.0, 6.0, 0.0], [0.0, 6.0, 0.0], [0.0, 3.0, 1.5], [10.0, 3.0, 1.5]];
    assert_eq!(faces.iter().map(|face| face.polygon.clone()).collect::<Vec<_>>(), [south, north]);
}

#[test]
fn unequal_slopes_between_gables_move_the_ridge_towards_the_steep_side() {
    // 6 m split so that 0.5 a = 1.0 b: a = 4, b = 2.
    let (_, faces) = roof_of(&HOUSE, &[rise(0.5), Gable, rise(1.0), Gable]);
    assert_eq!(faces[0].polygon, [[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [10.0, 4.0, 2.0], [0.0, 4.0, 2.0]]);
    assert_eq!(areas(&faces), [(0, 40.0), (2, 20.0)]);
}

#[test]
fn rectangle_with_one_gable_and_one_hip_has_a_ridge_from_wall_to_hip() {
    // The hip at the right end takes a triangle 6 m wide and 3 m deep.
    let (_, faces) = roof_of(&HOUSE, &[rise(0.5), rise(0.5), rise(0.5), Gable]);
    assert_eq!(areas(&faces), [(0, 25.5), (1, 9.0), (2, 25.5)]);
    assert_eq!(faces[1].polygon, [[10.0, 0.0, 0.0], [10.0, 6.0, 0.0], [7.0, 3.0, 1.5]]);
}

#[test]
fn one_sloped_edge_among_gables_is_a_shed_roof() {
    let (_, faces) = roof_of(&HOUSE, &[rise(0.25), Gable, Gable, Gable]);
    assert_eq!(faces[0].polygon, [[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [10.0, 6.0, 1.5], [0.0, 6.0, 1.5]]);
}

#[test]
fn l_shape_with_gables_at_both_ends_has_two_ridges_and_one_valley() {
    // Wings 6 m wide, slope 0.5. The hip runs from the outer corner (0, 0), the valley from (6, 6), both to (3, 3).
    let points = [[0.0, 0.0], [16.0, 0.0], [16.0, 6.0], [6.0, 6.0], [6.0, 14.0], [0.0, 14.0]];
    let slopes = [rise(0.5), Gable, rise(0.5), rise(0.5), Gable, rise(0.5)];
    let (outline, faces) = roof_of(&points, &slopes);
    // South: 16 m eave, 13 m ridge, 3 m deep; and so on round the house.
    assert_eq!(areas(&faces), [(0, 43.5), (2, 34.5), (3, 28.5), (5, 37.5)]);
    assert!((top(&outline.sound_roof()) - 1.5).abs() < 1e-15);
}

#[test]
fn gable_at_an_inner_corner_leaves_a_wall_in_the_roof() {
    // The upper part of the left wing rises between the gable at x = 5 and the other walls; the right wing is lower.
    let points = [[0.0, 0.0], [12.0, 0.0], [12.0, 4.0], [5.0, 4.0], [5.0, 10.0], [0.0, 10.0]];
    let slopes = [rise(1.0), rise(1.0), rise(1.0), Gable, rise(1.0), rise(1.0)];
    let (outline, _) = roof_of(&points, &slopes);
    let skeleton = outline.sound_roof();
    let [left, right] = [[4.999, 3.0], [5.001, 3.0]].map(|at| height_at(&outline, &skeleton, at));
    // Left of the wall the plane from the south edge goes on, right of it the plane from y = 4 comes down.
    assert!((left - 3.0).abs() < 1e-9 && (right - 1.0).abs() < 1e-9, "{left} {right}");
}

#[test]
fn t_shape_with_three_gables_carries_one_ridge_into_the_other() {
    let points = [
        [0.0, 0.0],
        [20.0, 0.0],
        [20.0, 8.0],
        [13.0, 8.0],
        [13.0, 14.0],
        [7.0, 14.0],
        [7.0, 8.0],
        [0.0, 8.0],
    ];
    let slopes = [rise(0.5), Gable, rise(0.5), rise(0.5), Gable, rise(0.5), rise(0.5), Gable];
    let (outline, faces) = roof_of(&points, &slopes);
    let skeleton = outline.sound_roof();
    // Main ridge at y = 4, 2 m up; the wing's ridge at x = 10, 1.5 m up, meets the main roof at y = 5.
    assert!((height_at(&outline, &skeleton, [10.0, 4.0 + 1e-9]) - 2.0).abs() < 1e-8);
    assert!((height_at(&outline, &skeleton, [10.0 - 1e-9, 9.0]) - 1.5).abs() < 1e-8);
    let wing: f64 = faces.iter().filter(|f| [3, 5].contains(&f.edge)).map(Face::plan_area).sum();
    // 6 m by 6 m outside the main block, and the triangle 6 m wide and 3 m deep on its slope.
    assert!((wing - 45.0).abs() < 1e-12, "{wing}");
}
