//! Conduction against ISO 10211:2017, annex A, and closed forms.

use heat::conduct::{Body, BodyError, Cell, Face, Side, Surface};

#[allow(clippy::unnecessary_wraps, reason = "as the solver asks for it")]
fn surface(id: usize, film: f64, temperature: f64) -> Option<Surface> {
    Some(Surface { id, film, temperature })
}

/// ISO 10211:2017, A.2, case 1: half a square column, 20 °C above, 0 °C beside and below, mirrored at its right. The standard prints a tenth of a kelvin
/// and allows 0.1 K.
#[test]
fn iso_10211_case_1() {
    const PRINTED: [[f64; 4]; 7] = [
        [9.7, 13.4, 14.7, 15.1],
        [5.3, 8.6, 10.3, 10.8],
        [3.2, 5.6, 7.0, 7.5],
        [2.0, 3.6, 4.7, 5.0],
        [1.3, 2.3, 3.0, 3.2],
        [0.7, 1.4, 1.8, 1.9],
        [0.3, 0.6, 0.8, 0.9],
    ];
    let body = Body::level(vec![0.0, 1.0], &[0.0, 2.0], vec![Cell::Solid(1.0)]).unwrap().cut(|_| 0.02);
    let field = body
        .solved_as_cut(|face: &Face| match face.side {
            Side::Above => surface(0, 0.0, 20.0),
            Side::Left | Side::Below => surface(1, 0.0, 0.0),
            Side::Right => None,
        })
        .unwrap();
    for (row, printed) in PRINTED.iter().enumerate() {
        for (column, printed) in printed.iter().enumerate() {
            let [x, down] = [column, row].map(|i| (i as f64 + 1.0) / 4.0);
            let found = field.at([x, 2.0 - down]).unwrap();
            assert!((found - printed).abs() <= 0.1, "{x}, {down}: {found} for {printed}");
            // the series: 20 Σ 4/(mπ) sin(mπx/2) sinh(mπ(2 - y)/2) / sinh(mπ), m odd
            let term = |m: i32| {
                let m = f64::from(m) * std::f64::consts::PI;
                20.0 * 4.0 / m * (m * x / 2.0).sin() * (m * (1.0 - down / 2.0)).sinh() / m.sinh()
            };
            let series: f64 = (0..100).map(|i| term(2 * i + 1)).sum();
            assert!((found - series).abs() < 0.01, "{x}, {down}: {found} for {series}");
        }
    }
}

/// ISO 10211:2017, case 2, m. Under concrete stand, at the left, 15 mm of wood over an aluminium flange, both held by a web that runs down to the
/// aluminium sheet at the bottom; insulation fills the rest.
fn case_2() -> Body {
    let (concrete, wood, insulation, metal) =
        (Cell::Solid(1.15), Cell::Solid(0.12), Cell::Solid(0.029), Cell::Solid(230.0));
    let web = [metal, metal, metal, wood, concrete];
    let flange = [metal, insulation, metal, wood, concrete];
    let field = [metal, insulation, insulation, insulation, concrete];
    // sheet 1.5, web up to the flange, flange 1.5, wood 5, concrete 6: 47.5 in all
    let heights = [0.0, 0.0015, 0.035, 0.0365, 0.0415, 0.0475];
    Body::level(vec![0.0, 0.0015, 0.015, 0.5], &heights, [web, flange, field].concat()).expect("a body")
}

/// ISO 10211:2017, case 2: the standard prints 9.5 W/m and nine temperatures, and allows 0.1 W/m and 0.1 K.
#[test]
fn iso_10211_case_2() {
    // small where the metal turns, longer away from it
    let body = case_2().cut(|[x, _]| if x < 0.02 { 0.0004 } else { 0.002 });
    let field = body
        .solved_as_cut(|face| match face.side {
            Side::Above => surface(0, 0.06, 0.0),
            Side::Below => surface(1, 0.11, 20.0),
            Side::Left | Side::Right => None,
        })
        .unwrap();
    assert!((field.flow(1) - 9.5).abs() <= 0.1, "{}", field.flow(1));
    assert!(field.closure() < 1e-9, "{}", field.closure());
    let printed = [
        ("A", [0.0, 0.0475], 7.1),
        ("B", [0.5, 0.0475], 0.8),
        ("C", [0.0, 0.0415], 7.9),
        ("D", [0.015, 0.0415], 6.3),
        ("E", [0.5, 0.0415], 0.8),
        ("F", [0.0, 0.0365], 16.4),
        ("G", [0.015, 0.0365], 16.3),
        ("H", [0.0, 0.0], 16.8),
        ("I", [0.5, 0.0], 18.3),
    ];
    for (name, at, printed) in printed {
        let found = field.at(at).unwrap();
        assert!((found - printed).abs() <= 0.1, "{name}: {found} for {printed}");
    }
}

/// Half a bay of joists in loose fill: transmittance between the limits of ISO 6946, 0.1685 and 0.1726 W/(m²·K), and within 0.3 % of 0.17098 of a
/// finite-volume solver written apart from this one.
#[test]
fn a_joist_in_loose_fill_lies_between_its_bounds() {
    let (gypsum, wood, fill) = (Cell::Solid(0.16), Cell::Solid(0.115), Cell::Solid(0.041));
    let heights = [0.0, 0.0127, 0.0127 + 0.1397, 0.0127 + 0.2397];
    let body = Body::level(vec![0.0, 0.019, 0.3048], &heights, vec![gypsum, wood, fill, gypsum, fill, fill])
        .unwrap();
    let field = body
        .cut(|_| 0.01)
        .solved(|face| match face.side {
            Side::Below => surface(0, 0.107, 20.0),
            Side::Above => surface(1, 0.107, 0.0),
            Side::Left | Side::Right => None,
        })
        .unwrap();
    let u = field.flow(0) / (20.0 * 0.3048);
    assert!((0.168_514..=0.172_559).contains(&u) && (u / 0.170_976 - 1.0).abs() < 0.003, "{u}");
}

/// A wedge whose rows close to a point, turned upside down and mirrored, lets the same through.
#[test]
fn a_wedge_keeps_its_flow_however_it_lies() {
    let wedge =
        |rows: Vec<Vec<f64>>| Body::new(vec![0.0, 0.5, 1.0], rows, vec![Cell::Solid(0.04); 4]).unwrap();
    let up = wedge(vec![vec![0.0; 3], vec![0.0, 0.1, 0.2], vec![0.0, 0.2, 0.4]]);
    let down = wedge(vec![vec![0.0, -0.2, -0.4], vec![0.0, -0.1, -0.2], vec![0.0; 3]]);
    let mirrored = wedge(vec![vec![0.0; 3], vec![0.2, 0.1, 0.0], vec![0.4, 0.2, 0.0]]);
    let flow = |body: &Body, warm: Side| {
        let field = body
            .solved_as_cut(|face| match face.side {
                side if side == warm => surface(0, 0.1, 20.0),
                Side::Below | Side::Above => surface(1, 0.1, 0.0),
                Side::Left | Side::Right => None,
            })
            .unwrap();
        assert!(field.closure() < 1e-9);
        field.flow(0)
    };
    let first = flow(&up, Side::Below);
    assert!(first > 0.0);
    for other in [flow(&up, Side::Above), flow(&down, Side::Above), flow(&mirrored, Side::Below)] {
        assert!((other / first - 1.0).abs() < 0.02, "{other} for {first}");
    }
}

#[test]
fn bodies_that_are_none_are_refused() {
    let one = || vec![Cell::Solid(1.0)];
    assert_eq!(Body::level(vec![0.0, 0.0], &[0.0, 1.0], one()), Err(BodyError::Lines(2)));
    assert_eq!(Body::level(vec![0.0, 1.0], &[1.0, 0.0], one()), Err(BodyError::Rows(2)));
    assert_eq!(Body::level(vec![0.0, 1.0], &[0.0], one()), Err(BodyError::Cells { has: 1, made: 0 }));
    let nothing = vec![Cell::Solid(0.0)];
    assert_eq!(Body::level(vec![0.0, 1.0], &[0.0, 1.0], nothing), Err(BodyError::Conductivity(0, 0.0)));
    let body = Body::level(vec![0.0, 1.0], &[0.0, 1.0], one()).unwrap();
    assert_eq!(body.solved(|_| None), Err(BodyError::Loose));
    assert_eq!(body.solved(|_| surface(0, -1.0, 0.0)), Err(BodyError::Surface(-1.0, 0.0)));
}

/// Layers in series are exact, however they are cut (closed form: 1/(0.13 + 0.1/0.04 + 0.1/0.4 + 0.04) × 20 K).
#[test]
fn layers_in_series_are_exact() {
    let body =
        Body::level(vec![0.0, 1.0], &[0.0, 0.1, 0.2], vec![Cell::Solid(0.04), Cell::Solid(0.4)]).unwrap();
    let field = body
        .solved(|face| match face.side {
            Side::Below => surface(0, 0.13, 20.0),
            Side::Above => surface(1, 0.04, 0.0),
            Side::Left | Side::Right => None,
        })
        .unwrap();
    assert!((field.flow(0) - 20.0 / 2.92).abs() < 1e-9, "{}", field.flow(0));
    assert!(field.closure() < 1e-9);
}
