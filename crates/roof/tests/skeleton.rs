//! Straight-skeleton roofs against outside references.
use roof::skeleton::{Contour, EdgeSlope, Face, Skeleton, roof};
use serde_json::Value;

const VECTORS: &str = include_str!("data/skeleton-vectors.json");

fn points(value: &Value) -> Vec<[f64; 2]> {
    let number = |v: &Value| v.as_f64().expect("number");
    value.as_array().expect("points").iter().map(|p| [number(&p[0]), number(&p[1])]).collect()
}
fn case_roof(case: &Value) -> (Skeleton, Vec<f64>) {
    let outer = points(&case["outer"]);
    let holes: Vec<_> = case["holes"].as_array().unwrap().iter().map(points).collect();
    let total = outer.len() + holes.iter().map(Vec::len).sum::<usize>();
    let slopes: Vec<f64> = match case["edge_pitch_deg"].as_array() {
        Some(p) => p.iter().map(|d| d.as_f64().unwrap().to_radians().tan()).collect(),
        None => vec![1.0; total],
    };
    let rises: Vec<EdgeSlope> = slopes.iter().map(|&s| EdgeSlope::Rise(s)).collect();
    let (outer_rises, mut rest) = rises.split_at(outer.len());
    let mut contours = Vec::new();
    for hole in &holes {
        let (own, others) = rest.split_at(hole.len());
        contours.push(Contour { points: hole, slopes: own });
        rest = others;
    }
    (roof(Contour { points: &outer, slopes: outer_rises }, &contours).unwrap_or_else(|e| panic!("{} {e}", case["name"])), slopes)
}
fn area(face: &Face, slope: f64) -> f64 { face.plan_area() * slope.hypot(1.0) }

#[test]
fn vectors() {
    let all: Value = serde_json::from_str(VECTORS).unwrap();
    for kind in ["uniform", "weighted"] {
        for case in all[kind].as_array().unwrap() {
            let (skeleton, slopes) = case_roof(case);
            let expected = case["roof_area_per_contour_edge"].as_array().unwrap();
            let mut worst: f64 = 0.0;
            for ((face, slope), want) in skeleton.faces.iter().zip(&slopes).zip(expected) {
                let want = want.as_f64().unwrap();
                worst = worst.max((area(face, *slope) - want).abs() / want);
            }
            let top = skeleton.faces.iter().flat_map(|f| &f.polygon).map(|p| p[2]).fold(0.0, f64::max);
            let want_top = case["max_height"].as_f64().unwrap();
            println!("{kind} {} worst {worst:.2e} top {:.2e}", case["name"], (top-want_top).abs()/want_top);
        }
    }
}
