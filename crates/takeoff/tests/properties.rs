//! What holds of every roof: random houses, turned, mirrored, scaled, with wider overhangs.

mod jobs;

use std::collections::BTreeSet;
use std::sync::LazyLock;

use book::Book;
use job::Units;
use jobs::made::{House, Made};
use jobs::random::{feet, house, main_block, wild_house, wing};
use jobs::{BOOKS, Counted, try_count};
use measure::Area;
use proptest::prelude::*;
use roof::{EdgeKind, PlaneId};
use takeoff::{Amount, Line, Quantity};

/// An edition whose ice barrier reaches so far inside the wall line, in feet, and nothing else.
fn reaching(feet: f64) -> Book {
    let text = format!(
        "[[edition]]\nid = \"reaching\"\nname = \"reaching\"\nyear = 2009\nbased_on = \"irc-2009\"\nsource = {{ text = \"test\", confidence = \"assumed\" }}\n\
         [edition.ice_barrier]\nclause = \"test\"\ninside_wall_line = \"{feet} ft\"\ndetached_excepted = true\nsource = {{ text = \"test\", confidence = \"assumed\" }}\n"
    );
    Book::with_overlays(&[("reaching.toml", &text)]).expect("a sound overlay")
}

static REACHING_2: LazyLock<Book> = LazyLock::new(|| reaching(2.0));
static REACHING_4: LazyLock<Book> = LazyLock::new(|| reaching(4.0));
static REACHING_300: LazyLock<Book> = LazyLock::new(|| reaching(300.0));

/// Counts a house, if its blocks make a roof.
fn counted(house: &House, book: &Book) -> Option<Counted> {
    try_count(&house.document(), book).ok()
}

fn value(line: &Line) -> Option<f64> {
    line.net().map(|net| net.in_units(Units::Si).0)
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1.0)
}

/// Planes that drain to an eave and stand at no wall or soffit.
fn planes_between_eaves_and_ridges(house: &Counted) -> Vec<PlaneId> {
    let kinds = |id: &PlaneId| house.roof.plane(*id).edges.iter().map(|edge| house.roof.edge(*edge).kind);
    let is_end = |kind: EdgeKind| kind.is_wall() || kind == EdgeKind::Soffit;
    (0..house.roof.planes.len())
        .map(PlaneId)
        .filter(|id| kinds(id).any(|kind| kind == EdgeKind::Eave) && !kinds(id).any(is_end))
        .collect()
}

fn assert_same(a: &Counted, b: &Counted, what: &str) -> Result<(), TestCaseError> {
    let keys =
        |house: &Counted| house.takeoff.lines.iter().map(|line| line.item.key.clone()).collect::<Vec<_>>();
    prop_assert_eq!(keys(a), keys(b), "lines when {}", what);
    for (x, y) in a.takeoff.lines.iter().zip(&b.takeoff.lines) {
        let (net_x, net_y) = (value(x).unwrap_or(0.0), value(y).unwrap_or(0.0));
        prop_assert!(close(net_x, net_y), "{} {net_x} became {net_y} when {what}", x.item.key);
        prop_assert_eq!(x.ordered(), y.ordered(), "{} when {}", x.item.key, what);
    }
    Ok(())
}

/// What must hold of every line and every attic.
fn assert_figures(counted: &Counted) -> Result<(), TestCaseError> {
    let mut keys = BTreeSet::new();
    for line in &counted.takeoff.lines {
        prop_assert!(keys.insert(&line.item.key), "two lines `{}`", line.item.key);
    }
    for line in &counted.takeoff.lines {
        let net = value(line);
        prop_assert!(net.is_none_or(|net| net.is_finite() && net >= 0.0), "{}: {net:?}", line.item.key);
        prop_assert!(!line.because.is_empty(), "{}", line.item.key);
        if let Amount::Ordered { count, package, .. } = &line.amount {
            prop_assert!((1..10_000).contains(count) && !package.is_empty(), "{}: {count}", line.item.key);
        }
    }
    for vented in counted.takeoff.vents.iter().flat_map(|check| [&check.found, &check.plan]) {
        let areas = [vented.low, vented.high, vented.total, vented.effective];
        prop_assert!(areas.iter().all(|area| area.m2().is_finite() && *area >= Area::ZERO), "{vented:?}");
        prop_assert!(vented.effective.m2() <= vented.low.m2() * (1.0 + 1e-12), "{vented:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn every_figure_is_a_number_not_below_zero(house in house()) {
        if let Some(counted) = counted(&house, &BOOKS) {
            assert_figures(&counted)?;
        }
    }

    #[test]
    fn however_a_house_is_written_every_figure_is_a_number_not_below_zero(house in wild_house()) {
        if let Some(counted) = counted(&house, &BOOKS) {
            assert_figures(&counted)?;
        }
    }

    #[test]
    fn nothing_changes_when_a_house_is_turned_or_mirrored(house in house(), degrees in 0.0..360.0) {
        let Some(before) = counted(&house, &BOOKS) else { return Ok(()) };
        if let Some(turned) = counted(&house.clone().turned(degrees), &BOOKS) {
            assert_same(&before, &turned, "turned")?;
        }
        if let Some(mirrored) = counted(&house.mirrored(), &BOOKS) {
            assert_same(&before, &mirrored, "mirrored")?;
        }
    }

    /// Areas go with the square of the scale, lengths with the scale, and the strips with the square when their reach is scaled too.
    #[test]
    fn a_house_of_twice_the_size_has_four_times_the_area(house in house()) {
        let house = house.code("reaching");
        let (one, two) = (&*REACHING_2, &*REACHING_4);
        let doubled = double_breaks(house.clone().scaled(2.0));
        let (Some(small), Some(large)) = (counted(&house, one), counted(&doubled, two)) else { return Ok(()) };
        if !have_one_shape(&small, &large) || has_parts_under_an_inch(&small) {
            return Ok(()); // the quarter inch within which walls and ridges meet does not scale
        }
        for key in ["plan-area", "slope-area", "edge.eave", "edge.ridge", "edge.hip", "edge.valley", "edge.rake"] {
            let (Some(a), Some(b)) = (small.takeoff.line(key), large.takeoff.line(key)) else { continue };
            let power = if matches!(a.net(), Some(Quantity::Area(_))) { 4.0 } else { 2.0 };
            prop_assert!(close(value(a).unwrap_or(0.0) * power, value(b).unwrap_or(0.0)), "{key}");
        }
        let (a, b) = (&small.takeoff.ice.outside, &large.takeoff.ice.outside);
        prop_assert!(close(a.exact.m2() * 4.0, b.exact.m2()), "{} {}", a.exact.m2(), b.exact.m2());
        prop_assert!(close(a.by_length.m2() * 4.0, b.by_length.m2()));
    }

    #[test]
    fn strips_never_cover_more_than_their_plane_and_grow_with_their_reach(
        house in house(),
        near in 0.5..4.0,
        more in 0.0..6.0,
    ) {
        let house = house.code("reaching");
        let [short, long] = [near, near + more].map(|reach| counted(&house, &reaching(reach)));
        let (Some(short), Some(long)) = (short, long) else { return Ok(()) };
        for (plane, area) in &long.takeoff.ice.outside.planes {
            let whole = long.roof.plane(*plane).slope_area;
            prop_assert!(area.m2() <= whole.m2() * (1.0 + 1e-9), "{area} of {whole}");
            let before = short.takeoff.ice.outside.planes.get(plane).copied().unwrap_or(Area::ZERO);
            prop_assert!(before.m2() <= area.m2() * (1.0 + 1e-9), "{before} shrank to {area}");
        }
        prop_assert!(short.takeoff.ice.outside.exact <= short.takeoff.ice.inside.exact);
        prop_assert!(short.takeoff.ice.outside.exact.m2() <= short.takeoff.ice.laid.exact.m2() * (1.0 + 1e-9));
    }

    /// So the columns of a plane are all of it, whatever stands at their feet: eaves, valleys, pitch breaks. Where a valley lets go
    /// at anything but eaves of both planes there is no strip to run on into it.
    #[test]
    fn a_reach_longer_than_the_roof_covers_every_plane_that_drains_to_an_eave(
        main in main_block(),
        wing in prop::option::of(wing()),
    ) {
        let level = wing.map(|wing| Made { eave: None, plate: 17.0, ..wing });
        let house = House::of([Some(main), level].into_iter().flatten().collect()).code("reaching");
        let Some(counted) = counted(&house, &REACHING_300) else { return Ok(()) };
        if !valleys_end_on_eaves(&counted) {
            return Ok(());
        }
        for id in planes_between_eaves_and_ridges(&counted) {
            let plane = counted.roof.plane(id);
            let covered = counted.takeoff.ice.outside.planes.get(&id).copied().unwrap_or(Area::ZERO);
            let is_whole = close(covered.m2(), plane.slope_area.m2());
            prop_assert!(is_whole, "{}: {covered} of {}", plane.name, plane.slope_area);
        }
    }

    #[test]
    fn a_wider_overhang_takes_more_ice_barrier(main in main_block(), wider in feet(0, 2)) {
        let wide = Made { eave: main.eave.map(|eave| eave + wider), ..main.clone() };
        let [before, after] = [main, wide].map(|block| counted(&House::of(vec![block]), &BOOKS));
        let (Some(before), Some(after)) = (before, after) else { return Ok(()) };
        let (a, b) = (&before.takeoff.ice.outside, &after.takeoff.ice.outside);
        prop_assert!(a.exact.m2() <= b.exact.m2() * (1.0 + 1e-9), "{} shrank to {}", a.exact, b.exact);
        prop_assert!(a.by_length.m2() <= b.by_length.m2() * (1.0 + 1e-9));
    }

    /// Corners are taken twice by length times width, and a roof without valleys has nothing to run into.
    #[test]
    fn without_valleys_the_exact_area_is_never_the_larger(main in main_block()) {
        let Some(counted) = counted(&House::of(vec![main]), &BOOKS) else { return Ok(()) };
        let asked = &counted.takeoff.ice.outside;
        if counted.takeoff.line("edge.pitch_break_convex").is_none() {
            let (exact, by_length) = (asked.exact, asked.by_length);
            prop_assert!(exact.m2() <= by_length.m2() * (1.0 + 1e-9), "{exact} and {by_length}");
        }
    }
}

/// Whether every valley has an eave of both its planes at its low end, or a valley below that does.
fn valleys_end_on_eaves(house: &Counted) -> bool {
    let roof = &house.roof;
    let is_served = |valley: &roof::Edge, plane: &PlaneId| {
        roof.node(valley.from).edges.iter().map(|edge| roof.edge(*edge)).any(|edge| {
            edge.kind == EdgeKind::Eave && edge.planes.contains(plane)
                || edge.kind == EdgeKind::Valley && edge.to == valley.from
        })
    };
    let valleys = roof.edges.iter().filter(|edge| edge.kind == EdgeKind::Valley);
    valleys.into_iter().all(|valley| valley.planes.iter().all(|plane| is_served(valley, plane)))
}

/// The distances to pitch breaks, which stand in the roof's words, doubled.
fn double_breaks(mut house: House) -> House {
    for block in &mut house.blocks {
        block.roof = block
            .roof
            .replace("break = \"3 ft\"", "break = \"6 ft\"")
            .replace("break = \"2 ft\"", "break = \"4 ft\"");
    }
    house
}

/// Whether two houses have the same edges, but for their lengths.
fn have_one_shape(a: &Counted, b: &Counted) -> bool {
    let kinds = |house: &Counted| house.roof.edges.iter().map(|edge| edge.kind).collect::<Vec<_>>();
    kinds(a) == kinds(b)
}

fn has_parts_under_an_inch(house: &Counted) -> bool {
    house.roof.edges.iter().any(|edge| edge.length.inches() < 1.0)
}

/// Most of the houses these tests make are houses; of those written by a slip of the hand, enough.
#[test]
fn few_random_houses_fail_to_have_a_roof() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let made = 200;
    let mut built = |houses: BoxedStrategy<House>| {
        let trees = (0..made).filter_map(|_| houses.new_tree(&mut runner).ok());
        trees.filter(|tree| counted(&tree.current(), &BOOKS).is_some()).count()
    };
    let (tidy, wild) = (built(house().boxed()), built(wild_house().boxed()));
    assert!(tidy > made * 9 / 10 && wild > made / 10, "{tidy} and {wild} of {made}");
}
