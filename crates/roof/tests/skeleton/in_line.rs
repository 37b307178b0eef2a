//! Fronts of unlike slope that come into one line: the stated rule, and that it does not depend on how the outline is
//! written.

use roof::skeleton::EdgeSlope::{self, Gable};

use crate::roofs::{Outline, assert_tiles, height_at, rise};

fn outline(points: &[[f64; 2]], slopes: &[EdgeSlope]) -> Outline {
    Outline::single(points, slopes)
}

/// Height at a point, after checking that mirroring and renumbering leave it alone.
fn height(outline: &Outline, at: [f64; 2]) -> f64 {
    let skeleton = outline.sound_roof();
    assert_tiles(outline, &skeleton);
    let height = height_at(outline, &skeleton, at);
    let mirrored = outline.map(|[x, y]| [-x, y]);
    let mirrored_height = height_at(&mirrored, &mirrored.sound_roof(), [-at[0], at[1]]);
    assert!((mirrored_height - height).abs() < 1e-15, "{mirrored_height} {height}");
    let mut renumbered = outline.clone();
    renumbered.contours[0].rotate_left(3);
    renumbered.slopes[0].rotate_left(3);
    let renumbered_height = height_at(&renumbered, &renumbered.sound_roof(), at);
    assert!((renumbered_height - height).abs() < 1e-15, "{renumbered_height} {height}");
    height
}

fn house_with_bay(main: EdgeSlope, bay: EdgeSlope) -> Outline {
    let points =
        [[0.0, 0.0], [3.0, 0.0], [3.0, -1.0], [6.0, -1.0], [6.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]];
    outline(&points, &[main, rise(10.0), bay, rise(10.0), main, rise(1.0), rise(1.0), rise(1.0)])
}

#[test]
fn gentle_bay_dies_into_the_steeper_main_roof() {
    let house = house_with_bay(rise(1.0), rise(0.25));
    // Bay and main plane are level at y = 1/3; above it the main plane goes on.
    assert!((height(&house, [4.4, 0.2]) - 0.3).abs() < 1e-12);
    assert!((height(&house, [4.4, 2.0]) - 2.0).abs() < 1e-12);
}

#[test]
fn taken_front_of_a_bay_is_shared_evenly_by_the_two_sides_of_the_main_roof() {
    let house = house_with_bay(rise(1.0), rise(0.25));
    let skeleton = house.sound_roof();
    let area = |edge: usize| {
        skeleton.faces.iter().find(|f| f.edge == edge).map_or(0.0, roof::skeleton::Face::plan_area)
    };
    // The main roof's south plane reaches y = 4; the bay's roof would divide it at x = 4.5.
    assert!((area(0) + area(4) + area(2) + area(1) + area(3) - (10.0 * 4.0 - 16.0 + 3.0)).abs() < 1e-9);
    assert!(
        skeleton.faces.iter().any(|f| f.polygon.iter().any(|p| (p[0] - 4.5).abs() < 1e-12 && p[1] > 3.9))
    );
}

#[test]
fn main_roof_runs_on_over_a_steep_recess() {
    let points =
        [[0.0, 0.0], [3.0, 0.0], [3.0, 1.0], [6.0, 1.0], [6.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]];
    let main = rise(0.25);
    let slopes = [main, rise(10.0), rise(1.0), rise(10.0), main, rise(1.0), rise(1.0), rise(1.0)];
    assert!((height(&outline(&points, &slopes), [4.4, 3.0]) - 0.75).abs() < 1e-12);
}

#[test]
fn lean_to_ends_against_the_gable_wall_behind_it() {
    let points =
        [[0.0, 0.0], [3.0, 0.0], [3.0, -2.0], [6.0, -2.0], [6.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]];
    let slopes = [Gable, Gable, rise(0.25), Gable, Gable, rise(0.5), Gable, rise(0.5)];
    let house = outline(&points, &slopes);
    assert!((height(&house, [4.4, -0.001]) - 0.49975).abs() < 1e-12);
    // Behind the wall the main gable roof, ridge along x = 5.
    assert!((height(&house, [4.4, 0.001]) - 2.2).abs() < 1e-12);
}

#[test]
fn roof_runs_on_over_the_top_of_a_short_wall() {
    let points =
        [[0.0, 0.0], [3.0, 0.0], [3.0, 1.0], [6.0, 1.0], [6.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]];
    let slopes = [rise(0.5), Gable, Gable, Gable, rise(0.5), Gable, rise(0.5), Gable];
    assert!((height(&outline(&points, &slopes), [4.4, 2.0]) - 1.0).abs() < 1e-12);
}

#[test]
fn of_two_planes_side_by_side_the_shorter_front_goes_on() {
    // In line at y = 4/3, h = 1/3: 4.63 m of gentle front on the left, 4.7 m of steep front on the right.
    let points = [[0.0, 0.0], [5.0, 0.0], [5.0, 1.0], [10.0, 1.0], [10.0, 8.0], [0.0, 8.0]];
    let slopes = [rise(0.25), rise(10.0), rise(1.0), rise(1.0), rise(1.0), rise(1.0)];
    assert!((height(&outline(&points, &slopes), [7.0, 2.0]) - 0.5).abs() < 1e-12);
}

#[test]
fn gentle_plane_closes_round_a_steep_hole() {
    let outer = vec![[0.0, 0.0], [20.0, 0.0], [20.0, 20.0], [0.0, 20.0]];
    let shaft = vec![[9.0, 6.0], [9.0, 7.0], [10.0, 7.0], [10.0, 6.0]];
    let slopes = vec![vec![rise(0.1), rise(5.0), rise(5.0), rise(5.0)], vec![rise(20.0); 4]];
    let house = Outline { contours: vec![outer, shaft], slopes };
    let skeleton = house.sound_roof();
    assert_tiles(&house, &skeleton);
    let south = &skeleton.faces[0];
    assert_eq!((south.edge, south.holes.len()), (0, 1), "{south:?}");
    assert!((height_at(&house, &skeleton, [9.4, 8.0]) - 0.8).abs() < 1e-12);
}
