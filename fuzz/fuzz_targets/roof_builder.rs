//! Blocks of any figures: no panic, no endless loop, a roof that is built is whole, and the rain on it leaves.
#![no_main]

use job::{Basis, Block, BlockEdge, EdgeSlope, Figure, Form, FormName, Overhang, Side};
use libfuzzer_sys::fuzz_target;
use measure::{Length, Pitch};
use roof::Roof;
use water::Water;

/// Figures taken from bytes, coarse so that coincidences are common.
struct Bytes<'a>(&'a [u8]);

impl Bytes<'_> {
    fn next(&mut self) -> u8 {
        let first = self.0.first().copied().unwrap_or_default();
        self.0 = self.0.get(1..).unwrap_or_default();
        first
    }

    fn coarse(&mut self, step: f64) -> f64 {
        let (whole, part) = (self.next(), self.next());
        // most figures fall on the grid, some a hair beside it
        let hair = if part < 64 { f64::from(part) * 1e-4 } else { 0.0 };
        f64::from(whole) * step + hair
    }
}

fn figure<T>(value: T) -> Figure<T> {
    Figure { value, basis: Basis::Measured, span: 0..0 }
}

fn block(bytes: &mut Bytes, index: usize) -> Block {
    let kind = bytes.next();
    let (x, y) = (bytes.coarse(0.25), bytes.coarse(0.25));
    let mut points = if kind & 1 == 0 {
        let (w, d) = (0.3 + bytes.coarse(0.1), 0.3 + bytes.coarse(0.1));
        let turn = if kind & 2 == 0 { 0.0 } else { bytes.coarse(0.05) };
        let (sin, cos) = turn.sin_cos();
        let corner = |a: f64, b: f64| [x + a * cos - b * sin, y + a * sin + b * cos];
        vec![corner(0.0, 0.0), corner(w, 0.0), corner(w, d), corner(0.0, d)]
    } else {
        (0..3 + usize::from(kind >> 4)).map(|_| [bytes.coarse(0.25), bytes.coarse(0.25)]).collect()
    };
    let twice_area: f64 =
        points.iter().zip(points.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum();
    if twice_area < 0.0 {
        points.reverse();
    }
    let plate = 2.0 + bytes.coarse(0.05);
    let edge = |number: usize, bytes: &mut Bytes| BlockEdge {
        side: Side::Edge { contour: 0, number: number + 1 },
        plate: figure(Length::from_m(plate)),
        slope: match bytes.next() % 4 {
            0 => EdgeSlope::Gable,
            n => EdgeSlope::Pitch(figure(Pitch::from_rise_per_12(f64::from(n) * 3.0))),
        },
        overhang: Overhang::Run(figure(Length::from_m(bytes.coarse(0.01)))),
    };
    let edges = (0..points.len()).map(|n| edge(n, bytes)).collect();
    Block {
        name: format!("block {index}"),
        span: 0..0,
        contours: vec![points],
        edges: vec![edges],
        turn_degrees: 0.0,
        form_name: FormName::PerEdge,
        form: Form::Plain,
        fascia: figure(Length::from_m(0.05 + bytes.coarse(0.01))),
        base: (kind & 4 != 0).then(|| figure(Length::from_m(1.0))),
        on: None,
        open: false,
        detached: true,
        framing: None,
        deck: None,
    }
}

fuzz_target!(|data: &[u8]| {
    let mut bytes = Bytes(data);
    let count = 1 + usize::from(bytes.next() % 4);
    let blocks: Vec<Block> = (0..count).map(|i| block(&mut bytes, i)).collect();
    let Ok(roof) = Roof::of_blocks(&blocks) else { return };
    for edge in &roof.edges {
        assert_eq!(edge.planes.len(), if edge.kind.is_shared() { 2 } else { 1 });
        assert!(edge.length.m().is_finite() && edge.length.m() > 0.0);
    }
    for plane in &roof.planes {
        assert!(plane.plan_area.m2() > 0.0 && plane.slope_area.m2().is_finite());
        assert!(plane.outline.len() > 2 && plane.outline.iter().flatten().all(|v| v.is_finite()));
    }
    let water = Water::of(&roof);
    let leaves: f64 = water.outlets.iter().map(|o| o.amount.m2()).sum();
    assert!((leaves - water.rain.m2()).abs() <= 1e-9 * roof.plan_area().m2(), "{leaves} of {}", water.rain.m2());
});
