//! Invariants on ten thousand random houses.

mod houses;

use std::collections::{BTreeMap, BTreeSet};

use houses::Rect;
use houses::random::{blocks, house};
use houses::told::{mirrored, turned};
use job::{Block, Problem};
use roof::{EdgeKind, Point3, Roof};

const HOUSES: u64 = 10_000;

fn roof_of(house: &[Rect]) -> Option<Roof> {
    Roof::of_blocks(&blocks(house)).ok()
}

fn plan_distance(a: Point3, b: Point3) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// What must hold of any roof.
fn check(roof: &Roof, seed: u64) {
    for e in &roof.edges {
        let wanted = if e.kind.is_shared() { 2 } else { 1 };
        assert_eq!(e.planes.len(), wanted, "seed {seed}: {} has {} planes", e.kind.name(), e.planes.len());
        assert!(e.length.m().is_finite() && e.length.m() > 0.0, "seed {seed}: length of {}", e.kind.name());
    }
    for (i, p) in roof.planes.iter().enumerate() {
        let rings = std::iter::once(&p.outline).chain(&p.holes);
        let perimeter: f64 = rings
            .flat_map(|r| r.iter().zip(r.iter().cycle().skip(1)))
            .map(|(a, b)| plan_distance(*a, *b))
            .sum();
        let edges: f64 = p.edges.iter().map(|e| roof.edge(*e).plan_length.m()).sum();
        assert!(
            (perimeter - edges).abs() < 1e-6,
            "seed {seed}: plane {} has {perimeter} of border, {edges} of edges",
            p.name
        );
        assert!(p.plan_area.m2() > 0.0 && p.outline.len() > 2, "seed {seed}: area of {}", p.name);
        for e in &p.edges {
            assert!(roof.edge(*e).planes.iter().any(|q| q.0 == i), "seed {seed}: edge not of plane");
        }
        for q in p.outline.iter().chain(p.holes.iter().flatten()) {
            assert!(q.iter().all(|v| v.is_finite()), "seed {seed}: {q:?}");
            assert!((p.height_at([q[0], q[1]]) - q[2]).abs() < 1e-9, "seed {seed}: corner off plane");
        }
    }
    let mut names: Vec<&str> = roof.planes.iter().map(|p| p.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), roof.planes.len(), "seed {seed}: names repeat");
}

/// Figures that must not depend on where the house stands or how it is written down.
fn figures(roof: &Roof) -> BTreeMap<&'static str, f64> {
    let mut all: BTreeMap<&str, f64> =
        EdgeKind::ALL.iter().map(|k| (k.name(), roof.length_of(*k).m())).collect();
    all.insert("plan area", roof.plan_area().m2());
    all.insert("slope area", roof.slope_area().m2());
    all
}

/// The distance within which points are merged, metres: what may settle differently.
const SETTLING: f64 = 5e-4;
/// Lengths by which a house may settle differently, metres (2 in): a part smaller than an inch may get one answer or another.
const SETTLED: f64 = 0.0508;
/// What was done to the houses that settle differently, and their seeds. A new one is a change of behaviour to look at.
const SETTLE: [(&str, &[u64]); 3] =
    [("turned and moved", &[5879, 6431, 6467, 6793, 6933, 6946]), ("mirrored", &[8939]), ("reordered", &[])];

/// What differs between two roofs that ought to be one by more than is allowed, if anything.
fn difference(a: &Roof, b: &Roof, allowed: f64) -> Option<String> {
    let (before, after) = (figures(a), figures(b));
    let figure = before.iter().zip(after.values()).find(|((_, x), y)| (*x - *y).abs() > allowed);
    let same_counts = a.planes.len() == b.planes.len() && a.edges.len() == b.edges.len();
    figure
        .map(|((name, x), y)| format!("{name} {x} became {y}"))
        .or_else(|| (!same_counts).then(|| format!("{} edges became {}", a.edges.len(), b.edges.len())))
}

#[test]
fn keep_every_invariant() {
    let mut built = 0;
    for seed in 0..HOUSES {
        if let Some(roof) = roof_of(&house(seed)) {
            check(&roof, seed);
            built += 1;
        }
    }
    assert!(built > HOUSES * 9 / 10, "only {built} of {HOUSES} houses could be built");
}

/// What may be done to a house without changing its roof.
fn retold(written: &[Block]) -> [(&'static str, Vec<Block>); 3] {
    [
        ("turned and moved", written.iter().map(turned).collect()),
        ("mirrored", written.iter().map(mirrored).collect()),
        ("reordered", written.iter().rev().cloned().collect()),
    ]
}

/// What became of houses told otherwise.
#[derive(Default)]
struct Told {
    /// Those that settled differently, as in [`SETTLE`].
    settled: BTreeSet<(&'static str, u64)>,
    /// Those that changed by more, with what changed.
    changed: BTreeMap<(&'static str, u64), String>,
}

impl Told {
    fn of(seeds: impl Iterator<Item = u64>) -> Self {
        let mut told = Self::default();
        for seed in seeds {
            let written = blocks(&house(seed));
            let Ok(roof) = Roof::of_blocks(&written) else { continue };
            for (what, other) in retold(&written) {
                told.compare(seed, what, &roof, Roof::of_blocks(&other));
            }
        }
        told
    }

    /// A change in how many planes and edges there are counts as settled so long as every sum of lengths and both areas agree to
    /// within [`SETTLED`]: which parts are there is then not compared.
    fn compare(&mut self, seed: u64, what: &'static str, roof: &Roof, other: Result<Roof, Vec<Problem>>) {
        let other = match other {
            Ok(other) => other,
            Err(e) => {
                self.changed.insert((what, seed), format!("{e:?}"));
                return;
            }
        };
        if difference(roof, &other, SETTLING).is_none() {
            return;
        }
        match difference(roof, &other, SETTLED).filter(|d| !d.contains("edges became")) {
            None => _ = self.settled.insert((what, seed)),
            Some(most) => _ = self.changed.insert((what, seed), most),
        }
    }
}

/// What is in one set and not in a list, and the other way round.
fn news(found: &BTreeSet<(&'static str, u64)>, listed: &[(&'static str, &[u64])]) -> String {
    let known: BTreeSet<_> =
        listed.iter().flat_map(|(what, seeds)| seeds.iter().map(|seed| (*what, *seed))).collect();
    let new: Vec<_> = found.difference(&known).collect();
    let gone: Vec<_> = known.difference(found).collect();
    if new.is_empty() && gone.is_empty() { String::new() } else { format!("new {new:?}, gone {gone:?}") }
}

#[test]
fn do_not_change_when_moved_turned_mirrored_or_reordered() {
    let [even, odd] = std::thread::scope(|scope| {
        let halves = [0, 1].map(|half| scope.spawn(move || Told::of((half..HOUSES).step_by(2))));
        halves.map(|told| told.join().expect("no panic"))
    });
    let settled: BTreeSet<_> = even.settled.into_iter().chain(odd.settled).collect();
    let changed: BTreeMap<_, _> = even.changed.into_iter().chain(odd.changed).collect();
    let settled = news(&settled, &SETTLE);
    assert!(settled.is_empty() && changed.is_empty(), "settled: {settled}\nchanged: {changed:#?}");
}
