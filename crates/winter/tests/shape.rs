//! Measured roofs cut into strips.

use book::Book;
use job::Job;
use roof::{PlaneId, Roof};
use winter::season::Below;
use winter::shape::{Fineness, Place, Shaped, strips};

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../examples/hip-split-level.toml");

fn roof_of(text: &str) -> Roof {
    let book = Book::builtin();
    let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    Roof::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// Whether a point lies inside the wall lines of a block: rectangles, as both examples have.
fn inside(roof: &Roof, block: &str, [x, y]: [f64; 2]) -> bool {
    let walls: Vec<_> = roof.walls.iter().filter(|wall| wall.block == block).collect();
    !walls.is_empty()
        && walls.iter().all(|wall| {
            let (p, q) = (wall.from, wall.to);
            (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]) >= 0.0
        })
}

fn cut(roof: &Roof, bands: usize, attics: &[&[&str]]) -> Vec<Shaped> {
    let is_under = |under: &&[&str], plane: PlaneId, at| {
        roof.plane(plane).blocks.iter().any(|block| under.contains(&block.as_str()))
            && under.iter().any(|block| inside(roof, block, at))
    };
    let attic_at = |plane, at| attics.iter().position(|under| is_under(under, plane, at));
    strips(roof, Fineness { bands }, attic_at, |at, height| highest_below(roof, at, height))
}

/// The highest plane under a point, a hair lower: holes aside, which no plane under an eave of the examples has.
fn highest_below(roof: &Roof, at: [f64; 2], height: f64) -> Option<PlaneId> {
    let covers = |plane: &roof::Plane| {
        let ends = plane.outline.iter().zip(plane.outline.iter().cycle().skip(1));
        let crossed = ends.filter(|(p, q)| {
            (p[1] > at[1]) != (q[1] > at[1]) && at[0] < p[0] + (q[0] - p[0]) * (at[1] - p[1]) / (q[1] - p[1])
        });
        crossed.count() % 2 == 1
    };
    let lower = roof.planes.iter().enumerate().filter(|(_, plane)| covers(plane));
    let heights = lower.map(|(i, plane)| (PlaneId(i), plane.height_at(at)));
    let under = heights.filter(|(_, at)| *at < height - 0.003);
    under.max_by(|(_, a), (_, b)| a.total_cmp(b)).map(|(id, _)| id)
}

#[test]
fn strips_have_the_area_of_the_roof_and_water_runs_to_later_ones() {
    for (text, attics) in [
        (CROSS_GABLE, vec![&["main", "wing"][..]]),
        (SPLIT_LEVEL, vec![&["upper"][..], &["main", "garage"][..]]),
    ] {
        let roof = roof_of(text);
        for bands in [1, 4, 8] {
            let strips = cut(&roof, bands, &attics);
            let area: f64 = strips.iter().map(|strip| strip.area.m2()).sum();
            assert!((area / roof.slope_area().m2() - 1.0).abs() < 1e-9, "{area}");
            for (i, strip) in strips.iter().enumerate() {
                let shares: f64 = strip.to.iter().map(|(_, share)| share).sum();
                assert!(shares <= 1.0 + 1e-12 && strip.to.iter().all(|(to, _)| *to > i), "{strip:?}");
                // over an attic all water goes on, past the wall line or into a valley
                let is_over = matches!(strip.place, Place::Over { .. });
                assert!(!is_over || (shares - 1.0).abs() < 1e-9, "{strip:?}");
            }
            let eaves: f64 = strips.iter().map(|strip| strip.eave.m()).sum();
            assert!((eaves / roof.length_of(roof::EdgeKind::Eave).m() - 1.0).abs() < 0.03, "{eaves}");
        }
    }
}

/// Half of each wing plane's rain comes to its valley (59.259 of 145.19 ft² in plan), and what falls on the overhang of main stays out of the attic:
/// 16 in over 42 ft at the north.
#[test]
fn strips_of_the_cross_gable_by_hand() {
    let roof = roof_of(CROSS_GABLE);
    let strips = cut(&roof, 6, &[&["main", "wing"]]);
    let plane = |name: &str| roof.planes.iter().position(|plane| plane.name == name).unwrap();
    let north = plane("main N");
    let overhang = strips.iter().find(|strip| strip.place == Place::Overhang { plane: north }).unwrap();
    // 40 ft of wall, 16 in out, 6/12
    let wanted = 40.0 * 16.0 / 12.0 * f64::hypot(1.0, 0.5) * 0.092_903;
    assert!((overhang.area.m2() / wanted - 1.0).abs() < 0.03, "{} {wanted}", overhang.area.m2());
    assert_eq!(overhang.below, Below::Outdoors);
    let over: f64 = strips
        .iter()
        .filter(|strip| matches!(strip.place, Place::Over { plane, .. } if plane == north))
        .map(|strip| strip.area.m2())
        .sum();
    let wanted = 40.0 * 13.0 * f64::hypot(1.0, 0.5) * 0.092_903;
    assert!((over / wanted - 1.0).abs() < 0.02, "{over} {wanted}");
    assert!(strips.iter().any(|strip| matches!(strip.place, Place::Valley { attic: None, .. })));
    let porch = plane("porch S");
    let on_porch = strips.iter().filter(|strip| strip.plane.0 == porch);
    assert!(on_porch.clone().count() > 0 && on_porch.clone().all(|strip| strip.below == Below::Outdoors));
}

/// The upper roof's east eave hangs at x 34 ft over a wall from y 0 to 26 ft, the lower roof under it reaches from 1 to 25 ft with its ridge at 13 ft: of the
/// 26 ft of eave before the wall, 12 drip on each slope. No other eave of the house has a roof under it.
#[test]
fn the_east_eave_of_the_split_level_drips_on_both_lower_slopes() {
    let roof = roof_of(SPLIT_LEVEL);
    let strips = cut(&roof, 5, &[&["upper"], &["main", "garage"]]);
    let name = |strip: &Shaped| roof.plane(strip.plane).name.as_str();
    let mut shares = std::collections::BTreeMap::new();
    for strip in &strips {
        for drop in &strip.drops {
            assert_eq!(name(strip), "upper E");
            assert_eq!(roof.edge(drop.edge).kind, roof::EdgeKind::Eave);
            *shares.entry(name(&strips[drop.to])).or_insert(0.0) += drop.share;
        }
    }
    assert_eq!(shares.keys().copied().collect::<Vec<_>>(), ["main N", "main S"]);
    assert!(shares.values().all(|share| f64::abs(share - 12.0 / 26.0) < 0.015), "{shares:?}");
}
