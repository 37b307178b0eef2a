//! What is refused, and that the message names the place.

use proptest::prelude::*;
use roof::skeleton::EdgeSlope::{self, Gable};
use roof::skeleton::{Contour, SkeletonError, roof};

use crate::roofs::{Outline, assert_tiles, rise};

const SQUARE: [[f64; 2]; 4] = [[0.0, 0.0], [8.0, 0.0], [8.0, 8.0], [0.0, 8.0]];

fn error(points: &[[f64; 2]], slopes: &[EdgeSlope]) -> String {
    roof(Contour { points, slopes }, &[]).expect_err("no roof").to_string()
}

fn error_with_holes(holes: &[&[[f64; 2]]]) -> String {
    let slopes = [rise(1.0); 4];
    let holes: Vec<Contour<'_>> =
        holes.iter().map(|points| Contour { points, slopes: &slopes[..points.len()] }).collect();
    roof(Contour { points: &SQUARE, slopes: &slopes }, &holes).expect_err("no roof").to_string()
}

#[test]
fn two_points_are_no_outline() {
    let message = error(&SQUARE[..2], &[rise(1.0); 2]);
    assert_eq!(message, "the outline has 2 points; an outline needs at least 3");
}

#[test]
fn cause_and_mend_are_said_apart_and_shown_together() {
    let error = SkeletonError::AllGable;
    assert_eq!(
        (error.cause().as_str(), error.mend()),
        ("every edge is a gable", "at least one edge needs a slope")
    );
    assert_eq!(error.to_string(), "every edge is a gable; at least one edge needs a slope");
}

#[test]
fn missing_slope_is_counted() {
    let message = error(&SQUARE, &[rise(1.0); 3]);
    assert_eq!(message, "the outline has 4 points but 3 slopes; give one slope for each edge");
}

#[test]
fn coordinate_that_is_not_finite_names_its_point() {
    for bad in [f64::NAN, f64::INFINITY, 2e7] {
        let points = [[0.0, 0.0], [8.0, 0.0], [8.0, bad], [0.0, 8.0]];
        assert!(error(&points, &[rise(1.0); 4]).starts_with("point 3 of the outline is not"));
    }
}

#[test]
fn slope_out_of_range_names_its_edge() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 5e-4] {
        let message = error(&SQUARE, &[rise(1.0), rise(bad), Gable, Gable]);
        assert!(message.starts_with("edge 2 of the outline has slope"), "{message}");
    }
}

#[test]
fn outline_of_gables_is_refused() {
    assert_eq!(error(&SQUARE, &[Gable; 4]), "every edge is a gable; at least one edge needs a slope");
}

#[test]
fn repeated_point_names_both() {
    let points = [[0.0, 0.0], [8.0, 0.0], [8.0, 8.0], [8.0, 8.0 + 1e-10]];
    let message = error(&points, &[rise(1.0); 4]);
    let expected = "point 4 of the outline repeats its neighbour point 3 of the outline; delete one of them";
    assert_eq!(message, expected);
}

#[test]
fn crossing_edges_are_named() {
    let points = [[0.0, 0.0], [8.0, 8.0], [8.0, 0.0], [0.0, 8.0]];
    let message = error(&points, &[rise(1.0); 4]);
    assert!(
        message.starts_with("edge 1 of the outline crosses or touches edge 3 of the outline"),
        "{message}"
    );
}

#[test]
fn spike_without_width_is_an_outline_that_touches_itself() {
    let points = [[0.0, 0.0], [8.0, 0.0], [8.0, 8.0], [8.0, 20.0], [8.0, 8.0 + 1e-9], [0.0, 8.0]];
    assert!(error(&points, &[rise(1.0); 6]).contains("crosses or touches"));
}

#[test]
fn hole_outside_and_hole_in_a_hole_are_named() {
    let outside = [[20.0, 0.0], [21.0, 1.0], [21.0, 0.0]];
    assert!(error_with_holes(&[&outside]).starts_with("hole 1 lies outside the outline"));
    let big = [[1.0, 1.0], [1.0, 7.0], [7.0, 7.0], [7.0, 1.0]];
    let small = [[3.0, 3.0], [4.0, 4.0], [4.0, 3.0]];
    assert!(error_with_holes(&[&small, &big]).starts_with("hole 1 lies inside hole 2"));
}

#[test]
fn hole_that_touches_the_outline_is_refused() {
    let hole = [[0.0, 3.0], [1.0, 4.0], [1.0, 3.0]];
    assert!(error_with_holes(&[&hole]).contains("of the outline crosses or touches"));
}

#[test]
fn unlike_slopes_in_one_line_are_refused_and_like_ones_are_not() {
    let points = [[0.0, 0.0], [5.0, 0.0], [8.0, 0.0], [8.0, 8.0], [0.0, 8.0]];
    let message = error(&points, &[rise(1.0), rise(0.5), rise(1.0), rise(1.0), rise(1.0)]);
    let expected = "edge 1 of the outline and edge 2 of the outline lie in one line but differ in slope";
    assert!(message.starts_with(expected), "{message}");
    let outline = Outline::single(&points, &[rise(1.0); 5]);
    let skeleton = outline.sound_roof();
    assert_tiles(&outline, &skeleton);
    // The two faces of one plane are divided at x = 5, square to the edge.
    assert_eq!(
        skeleton.faces[0].polygon,
        [[0.0, 0.0, 0.0], [5.0, 0.0, 0.0], [5.0, 3.0, 3.0], [4.0, 4.0, 4.0]]
    );
}

#[test]
fn area_between_gables_that_no_plane_reaches_names_the_gables() {
    // The shed over the left leg ends against the longer wall at y = 3; nothing covers the part behind it.
    let points = [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [10.0, 3.0], [10.0, 6.0], [0.0, 6.0]];
    let message = error(&points, &[rise(1.0), Gable, Gable, Gable, Gable, Gable]);
    let edges = [3, 4, 5, 6].map(|edge| format!("edge {edge} of the outline")).join(", ");
    assert_eq!(message, format!("no roof plane covers the area between {edges}; give one of them a slope"));
}

#[test]
fn contours_may_run_either_way_round() {
    let outer = vec![[0.0, 0.0], [0.0, 8.0], [12.0, 8.0], [12.0, 0.0]];
    let hole = vec![[5.0, 3.0], [6.0, 3.0], [6.0, 4.0]];
    let outline = Outline::new(vec![outer, hole], || rise(0.7));
    let skeleton = outline.sound_roof();
    assert_tiles(&outline, &skeleton);
    let order: Vec<(usize, usize)> = skeleton.faces.iter().map(|face| (face.contour, face.edge)).collect();
    assert_eq!(order, [(0, 0), (0, 1), (0, 2), (0, 3), (1, 0), (1, 1), (1, 2)]);
}

fn coordinate() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => (-4..5_i32).prop_map(f64::from),
        4 => -5.0..5.0_f64,
        1 => proptest::num::f64::ANY,
        1 => (-4..5_i32).prop_map(|k| f64::from(k) + 1e-9),
    ]
}

fn edge_slope() -> impl Strategy<Value = EdgeSlope> {
    prop_oneof![
        6 => Just(rise(1.0)),
        2 => Just(Gable),
        2 => (1e-3..1e3_f64).prop_map(rise),
        1 => proptest::num::f64::ANY.prop_map(rise),
    ]
}

fn contour() -> impl Strategy<Value = (Vec<[f64; 2]>, Vec<EdgeSlope>)> {
    let corner = ([coordinate(), coordinate()], edge_slope());
    proptest::collection::vec(corner, 0..8).prop_map(|corners| corners.into_iter().unzip())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn any_input_gives_a_finite_roof_or_an_error(contours in proptest::collection::vec(contour(), 1..3)) {
        let (contours, slopes) = contours.into_iter().unzip();
        let outline = Outline { contours, slopes };
        match outline.roof() {
            Ok(skeleton) => {
                let corners = skeleton.faces.iter().flat_map(|face| face.polygon.iter().chain(face.holes.iter().flatten()));
                prop_assert!(corners.flatten().all(|coordinate| coordinate.is_finite()));
            }
            Err(SkeletonError::Unresolved { .. }) => prop_assert!(false, "unresolved: {outline:?}"),
            Err(_) => {}
        }
    }
}
