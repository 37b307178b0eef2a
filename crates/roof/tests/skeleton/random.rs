//! Random outlines: sound roofs, brute-force heights, and what must not change them.

use std::f64::consts::{PI, TAU};

use rand::RngExt;
use rand::rngs::ChaCha8Rng;
use roof::skeleton::{Skeleton, SkeletonError};

use crate::outlines::{
    ALL_SLOPES, Ring, Slopes, convex, grid_points, moved, regular, rng, squares, star, star_with_holes,
    with_slopes,
};
use crate::roofs::{Outline, assert_tiles, covers, distance_to_segment, height_at, rise, top};

/// Builds `count` outlines of a kind with each way of dealing slopes and checks every roof; returns how many had one.
fn check_sound(seed: u64, count: u64, kind: impl Fn(&mut ChaCha8Rng) -> Vec<Ring>) -> usize {
    let mut sound = 0;
    for (way, slopes) in ALL_SLOPES.into_iter().enumerate() {
        for run in 0..count {
            let mut rng = rng(seed * 1_000_000 + way as u64 * 100_000 + run);
            let contours = kind(&mut rng);
            let outline = with_slopes(&mut rng, contours, slopes);
            sound += usize::from(is_sound(&mut rng, &outline));
        }
    }
    sound
}

/// Whether there is a roof. Fails if it is not sound or was refused for anything but the outline itself.
fn is_sound(rng: &mut ChaCha8Rng, outline: &Outline) -> bool {
    use SkeletonError::{AllGable, EdgesMeet, RepeatedPoint, SlopesInLine, Unroofed};
    match outline.roof() {
        Ok(skeleton) => {
            assert_tiles(outline, &skeleton);
            for at in inner_points(rng, &skeleton, 3) {
                assert!(height_at(outline, &skeleton, at) > 0.0);
            }
            true
        }
        Err(AllGable | EdgesMeet { .. } | RepeatedPoint { .. } | SlopesInLine { .. } | Unroofed { .. }) => {
            false
        }
        Err(error) => panic!("{error}\n{outline:?}"),
    }
}

#[test]
fn stars_have_sound_roofs() {
    let kind = |rng: &mut ChaCha8Rng| {
        let count = rng.random_range(3..30);
        vec![star(rng, count, 0.7)]
    };
    assert!(check_sound(1, 1_500, kind) > 5_900);
}

#[test]
fn stars_with_holes_have_sound_roofs() {
    assert!(check_sound(2, 1_000, star_with_holes) > 3_900);
}

#[test]
fn right_angled_outlines_have_sound_roofs() {
    assert!(check_sound(3, 1_500, squares) > 5_900);
}

#[test]
fn turned_right_angled_outlines_have_sound_roofs() {
    let kind = |rng: &mut ChaCha8Rng| {
        let outline = Outline::new(squares(rng), || rise(1.0));
        let by = [0; 2].map(|_| rng.random_range(-100.0..100.0));
        moved(&outline, rng.random_range(0.0..TAU), by).contours
    };
    assert!(check_sound(4, 1_500, kind) > 5_900);
}

#[test]
fn right_angled_outlines_slightly_disturbed_have_sound_roofs() {
    let kind = |rng: &mut ChaCha8Rng| {
        let outline = Outline::new(squares(rng), || rise(0.5));
        let size = 10_f64.powi(-rng.random_range(1..17));
        disturbed(rng, &outline, size).contours
    };
    assert!(check_sound(5, 1_500, kind) > 5_900);
}

#[test]
fn grid_points_have_sound_roofs() {
    assert!(check_sound(6, 10_000, |rng| vec![grid_points(rng)]) > 10_000);
}

/// Positions strictly inside an outline and off all arcs, as good as surely.
fn inner_points(rng: &mut ChaCha8Rng, skeleton: &Skeleton, count: usize) -> Vec<[f64; 2]> {
    let corners = skeleton.faces.iter().flat_map(|face| &face.polygon);
    let (low, high) = corners.fold(([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]), |(low, high), p| {
        ([0, 1].map(|k| low[k].min(p[k])), [0, 1].map(|k| high[k].max(p[k])))
    });
    let tries = (0..count).map(|_| [0, 1].map(|k| rng.random_range(low[k]..high[k])));
    tries.filter(|p| skeleton.faces.iter().any(|face| covers(face, *p))).collect()
}

#[test]
fn roof_over_a_convex_outline_is_the_lowest_of_its_planes() {
    for seed in 0..1_000 {
        let mut rng = rng(7_000_000 + seed);
        let contours = vec![convex(&mut rng)];
        let outline = with_slopes(&mut rng, contours, Slopes::Any);
        let skeleton = outline.sound_roof();
        for at in inner_points(&mut rng, &skeleton, 20) {
            let planes = skeleton.faces.iter().map(|face| outline.plane_height(face, at));
            let lowest = planes.fold(f64::INFINITY, f64::min);
            let height = height_at(&outline, &skeleton, at);
            assert!((height - lowest).abs() < 1e-9, "{height} {lowest} at {at:?} of {outline:?}");
        }
    }
}

/// Distance to the outline in the larger of the two directions of its walls.
fn square_distance(outline: &Outline, at: [f64; 2]) -> f64 {
    let to_segment = |(a, b): (&[f64; 2], &[f64; 2])| {
        let axis = |k: usize| {
            let (low, high) = (a[k].min(b[k]), a[k].max(b[k]));
            (low - at[k]).max(at[k] - high).max(0.0)
        };
        axis(0).max(axis(1))
    };
    let edges = outline.contours.iter().flat_map(|c| c.iter().zip(c.iter().cycle().skip(1)));
    edges.map(to_segment).fold(f64::INFINITY, f64::min)
}

#[test]
fn uniform_roof_with_right_angles_rises_with_the_larger_of_the_two_wall_distances() {
    // With right angles only, the mitred offset of an inner corner is the square around it: the straight skeleton's
    // height is the slope times the distance in the maximum norm, holes and inner corners included.
    for seed in 0..2_000 {
        let mut rng = rng(8_000_000 + seed);
        let contours = squares(&mut rng);
        let outline = with_slopes(&mut rng, contours, Slopes::Uniform);
        let angle = rng.random_range(0.0..TAU);
        let turned = moved(&outline, angle, [30.0, -20.0]);
        let skeleton = turned.sound_roof();
        for at in inner_points(&mut rng, &skeleton, 20) {
            let back = Outline::single(&[[at[0] - 30.0, at[1] + 20.0]], &[]);
            let home = moved(&back, -angle, [0.0, 0.0]).contours[0][0];
            let expected = 0.5 * square_distance(&outline, home);
            let height = height_at(&turned, &skeleton, at);
            assert!((height - expected).abs() < 1e-9, "{height} {expected} at {at:?} of {turned:?}");
        }
    }
}

#[test]
fn uniform_roof_is_no_higher_than_the_distance_allows() {
    // Inner corners run ahead of the rounded offset, never behind it.
    for seed in 0..2_000 {
        let mut rng = rng(9_000_000 + seed);
        let contours = if seed % 2 == 0 { star_with_holes(&mut rng) } else { vec![grid_points(&mut rng)] };
        let size = 10_f64.powi(-rng.random_range(1..17));
        let outline = disturbed(&mut rng, &Outline::new(contours, || rise(0.5)), size);
        let Ok(skeleton) = outline.roof() else { continue };
        for at in inner_points(&mut rng, &skeleton, 20) {
            let edges = outline.contours.iter().flat_map(|c| c.iter().zip(c.iter().cycle().skip(1)));
            let distance = edges.map(|(a, b)| distance_to_segment(*a, *b, at)).fold(f64::INFINITY, f64::min);
            let height = height_at(&outline, &skeleton, at);
            assert!(height > 0.0 && height <= 0.5 * distance + 1e-9, "{height} at {at:?} of {outline:?}");
        }
    }
}

#[test]
fn regular_polygons_close_in_one_point() {
    for count in 3..80 {
        let outline = Outline::new(vec![regular(count, 7.0)], || rise(1.0));
        let turned = moved(&outline, 0.1 * count as f64, [3.0, -5.0]);
        let skeleton = turned.sound_roof();
        assert_tiles(&turned, &skeleton);
        let apothem = 7.0 * (PI / count as f64).cos();
        assert!((top(&skeleton) - apothem).abs() < 1e-12);
        let each = turned.area() / count as f64;
        for face in &skeleton.faces {
            assert!((face.plan_area() - each).abs() < 1e-10 * turned.area(), "{count}: {face:?}");
            assert_eq!(face.polygon.len(), 3, "{count}: {face:?}");
        }
    }
}

/// Plan areas by contour and edge, gables 0.
fn areas(outline: &Outline) -> Option<Vec<Vec<f64>>> {
    let mut areas: Vec<Vec<f64>> = outline.slopes.iter().map(|s| vec![0.0; s.len()]).collect();
    for face in outline.roof().ok()?.faces {
        areas[face.contour][face.edge] = face.plan_area();
    }
    Some(areas)
}

fn assert_same_areas(outline: &Outline, other: &Outline, renumber: impl Fn(Vec<f64>) -> Vec<f64>) {
    let back = areas(other).map(|areas| areas.into_iter().map(renumber).collect::<Vec<_>>());
    let (areas, allowed) = (areas(outline), 1e-8 * outline.area());
    let (areas, back) = match (areas, back) {
        (Some(areas), Some(back)) => (areas, back),
        (areas, back) => return assert_eq!(areas, back, "{outline:?}\n{other:?}"),
    };
    for (area, back) in areas.iter().flatten().zip(back.iter().flatten()) {
        assert!((area - back).abs() <= allowed, "{areas:?}\n{back:?}\n{outline:?}\n{other:?}");
    }
}

fn check_invariant(seed: u64, slopes: Slopes, kind: impl Fn(&mut ChaCha8Rng) -> Vec<Ring>) {
    for run in 0..1_000 {
        let mut rng = rng(seed * 1_000_000 + run);
        let contours = kind(&mut rng);
        let outline = with_slopes(&mut rng, contours, slopes);
        let by = [0; 2].map(|_| rng.random_range(-50.0..50.0));
        assert_same_areas(&outline, &moved(&outline, rng.random_range(0.0..TAU), by), |areas| areas);
        assert_same_areas(&outline, &outline.map(|[x, y]| [-x, y]), |areas| areas);
        let mut renumbered = outline.clone();
        let by = rng.random_range(1..3);
        renumbered.contours.iter_mut().for_each(|c| c.rotate_left(by));
        renumbered.slopes.iter_mut().for_each(|s| s.rotate_left(by));
        assert_same_areas(&outline, &renumbered, |mut areas| {
            areas.rotate_right(by);
            areas
        });
    }
}

#[test]
fn moving_turning_mirroring_and_renumbering_leave_stars_alone() {
    check_invariant(11, Slopes::Any, star_with_holes);
    check_invariant(12, Slopes::Gables, star_with_holes);
}

#[test]
fn moving_turning_mirroring_and_renumbering_leave_right_angled_outlines_alone() {
    check_invariant(17, Slopes::Common, squares);
    check_invariant(16, Slopes::Gables, squares);
    check_invariant(13, Slopes::Uniform, squares);
    check_invariant(14, Slopes::Any, squares);
}

/// Every point moved by up to `size` in each direction.
fn disturbed(rng: &mut ChaCha8Rng, outline: &Outline, size: f64) -> Outline {
    let mut shift = || size * rng.random_range(-1.0..1.0);
    let contours = outline.contours.iter().map(|ring| ring.iter().map(|p| p.map(|c| c + shift())).collect());
    Outline { contours: contours.collect(), slopes: outline.slopes.clone() }
}

#[test]
fn small_disturbance_moves_the_roof_little() {
    // From what a tape misreads down to the last bits: heights follow, and every place keeps exactly one face.
    for seed in 0..5_000 {
        let mut rng = rng(15_000_000 + seed);
        let contours = squares(&mut rng);
        let outline = with_slopes(&mut rng, contours, Slopes::Uniform);
        let size = 10_f64.powi(-rng.random_range(5..16));
        let disturbed = disturbed(&mut rng, &outline, size);
        let skeleton = disturbed.sound_roof();
        for at in inner_points(&mut rng, &skeleton, 10) {
            let expected = 0.5 * square_distance(&outline, at);
            let height = height_at(&disturbed, &skeleton, at);
            assert!(
                (height - expected).abs() < 20.0 * size + 1e-9,
                "{height} {expected} at {at:?} of {disturbed:?}"
            );
        }
    }
}
