//! Outside check: 31 uniform and 14 weighted roofs computed with general-purpose geometry libraries.
//!
//! Source: `data/skeleton-vectors.json`, generator and conventions in its `meta`. The generator lumps the faces of
//! edges in one line (to about 1e-6) into one of them and reports 0 for the others; there the sum over the line is
//! compared. Its node list gives plan positions to 1e-7.

use roof::skeleton::{EdgeSlope, Skeleton};
use serde_json::Value;

use crate::roofs::{Outline, assert_tiles, distance_to, rise, top};

const VECTORS: &str = include_str!("../data/skeleton-vectors.json");
/// Relative difference allowed.
const AGREEMENT: f64 = 1e-6;
/// Rounding of the plan positions in the node lists.
const NODE_ROUNDING: f64 = 1e-7;

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().expect("list").iter().map(|v| v.as_f64().expect("number")).collect()
}

fn points(value: &Value) -> Vec<[f64; 2]> {
    value.as_array().expect("list").iter().map(|p| [0, 1].map(|k| p[k].as_f64().expect("number"))).collect()
}

fn outline(case: &Value) -> Outline {
    let mut contours = vec![points(&case["outer"])];
    contours.extend(case["holes"].as_array().expect("holes").iter().map(points));
    let pitches = case.get("edge_pitch_deg").map(numbers).unwrap_or_default();
    let mut pitches = pitches.into_iter();
    Outline::new(contours, || pitches.next().map_or(rise(1.0), |deg| rise(deg.to_radians().tan())))
}

fn check_all(kind: &str, count: usize) {
    let all: Value = serde_json::from_str(VECTORS).expect("vectors are JSON");
    let cases = all[kind].as_array().expect("cases");
    assert_eq!(cases.len(), count);
    for case in cases {
        let outline = outline(case);
        let skeleton = outline.sound_roof();
        assert_tiles(&outline, &skeleton);
        check_areas(case, &outline, &skeleton);
        check_heights(case, &outline, &skeleton);
    }
}

fn check_areas(case: &Value, outline: &Outline, skeleton: &Skeleton) {
    let expected = numbers(&case["roof_area_per_contour_edge"]);
    let found: Vec<f64> = skeleton.faces.iter().map(|face| outline.slope_area(face)).collect();
    assert_eq!(found.len(), expected.len(), "{}", case["name"]);
    for group in lines(outline) {
        let lumped = group.iter().any(|&edge| expected[edge] == 0.0);
        let parts = if lumped { vec![group] } else { group.into_iter().map(|edge| vec![edge]).collect() };
        for part in parts {
            let [want, have] = [&expected, &found].map(|areas| part.iter().map(|&k| areas[k]).sum::<f64>());
            agree(case, &format!("area of edges {part:?}"), have, want);
        }
    }
    agree(case, "roof area", found.iter().sum(), case["roof_area"].as_f64().expect("area"));
}

/// Edges grouped by the line they lie in.
fn lines(outline: &Outline) -> Vec<Vec<usize>> {
    let ends: Vec<[[f64; 2]; 2]> = outline
        .contours
        .iter()
        .flat_map(|c| c.iter().zip(c.iter().cycle().skip(1)).map(|(a, b)| [*a, *b]).collect::<Vec<_>>())
        .collect();
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (edge, [a, b]) in ends.iter().enumerate() {
        let same = |group: &Vec<usize>| {
            let [p, q] = ends[group[0]];
            let off = |x: [f64; 2]| ((q[0] - p[0]) * (x[1] - p[1]) - (q[1] - p[1]) * (x[0] - p[0])).abs();
            let forward = (q[0] - p[0]) * (b[0] - a[0]) + (q[1] - p[1]) * (b[1] - a[1]) > 0.0;
            forward && off(*a).max(off(*b)) < 1e-4
        };
        match groups.iter_mut().find(|group| same(group)) {
            Some(group) => group.push(edge),
            None => groups.push(vec![edge]),
        }
    }
    groups
}

fn check_heights(case: &Value, outline: &Outline, skeleton: &Skeleton) {
    let highest = case["max_height"].as_f64().expect("height");
    agree(case, "top height", top(skeleton), highest);
    for node in case["nodes_x_y_height"].as_array().expect("nodes") {
        let node = numbers(node);
        let at = [node[0], node[1]];
        let near = skeleton.faces.iter().filter(|face| distance_to(face, at) <= 2.0 * NODE_ROUNDING);
        let off =
            |face| (outline.plane_height(face, at) - node[2]).abs() - steepest(outline) * 2.0 * NODE_ROUNDING;
        let best = near.map(off).fold(f64::INFINITY, f64::min);
        assert!(best <= AGREEMENT * highest, "{}: node {node:?} is off the roof by {best}", case["name"]);
    }
}

fn steepest(outline: &Outline) -> f64 {
    let slope = |slope: &EdgeSlope| match slope {
        EdgeSlope::Rise(slope) => *slope,
        EdgeSlope::Gable => 0.0,
    };
    outline.slopes.iter().flatten().map(slope).fold(0.0, f64::max)
}

fn agree(case: &Value, what: &str, have: f64, want: f64) {
    let close = (have - want).abs() <= AGREEMENT * want;
    assert!(close, "{}: {what} is {have}, reference {want}", case["name"]);
}

#[test]
fn uniform_roofs_agree_with_the_reference() {
    check_all("uniform", 31);
}

#[test]
fn weighted_roofs_agree_with_the_reference() {
    check_all("weighted", 14);
}
