//! The two example houses against their check values.

mod houses;

use houses::{cross_gable, hip_split_level};
use roof::{EdgeKind, Roof};

#[test]
fn print() {
    for house in [cross_gable(), hip_split_level()] {
        let roof = Roof::of_blocks(&house).unwrap();
        for p in &roof.planes {
            println!("{:12} plan {:9.3} slope {:9.3} {:?}", p.name, p.plan_area.ft2(), p.slope_area.ft2(), p.outline.iter().map(|q| q.map(|v| (v / 0.3048 * 1000.0).round() / 1000.0)).collect::<Vec<_>>());
        }
        println!("total {} {}", roof.plan_area().ft2(), roof.slope_area().ft2());
        for (i, e) in roof.edges.iter().enumerate() {
            let ends = roof.ends(roof::EdgeId(i)).map(|p| p.map(|v| (v / 0.3048 * 1000.0).round() / 1000.0));
            println!("{:3} {:12} {:8.3} {:?} {:?} {:?}/{:?} oh {:.3} over {:?} near {:?}", i + 1, e.kind.name(), e.length.ft(), ends, e.planes.iter().map(|p| &roof.plane(*p).name).collect::<Vec<_>>(), roof.node(e.from).kind, roof.node(e.to).kind, e.overhang.ft(), e.over.iter().map(|b| (&roof.plane(b.plane).name, b.length.ft(), b.drop.ft())).collect::<Vec<_>>(), e.wall_near_low_end.as_ref().map(|w| w.distance.ft()));
        }
        for k in EdgeKind::ALL { println!("{} {:.3}", k.name(), roof.length_of(k).ft()); }
        for p in &roof.passages { println!("{} under {} gap {:.3} at {:?}", roof.plane(p.plane).name, p.under, p.gap.ft(), p.at.map(|v| v / 0.3048)); }
        println!("{:?}", roof.warnings);
    }
}
