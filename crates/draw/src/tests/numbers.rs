//! The numbers on a drawing are the roof's.

use std::collections::BTreeSet;

use job::Units;
use measure::Length;
use roof::{EdgeId, Roof};

use super::houses::{self, House};
use super::page::Page;
use crate::sheet::Flat;
use crate::vector::distance;

/// Half of the 1/8 in that lengths are written to.
const HALF_EIGHTH: f64 = 0.0254 / 16.0 + 1e-9;

fn read(words: &str) -> Length {
    words.trim_end_matches('◊').parse().unwrap_or_else(|error| panic!("{words}: {error}"))
}

fn assert_close(words: &str, expected: Length) {
    let error = (read(words) - expected).m().abs();
    assert!(error <= HALF_EIGHTH, "{words} is {error} m off {expected}");
}

#[test]
fn plan_gives_the_extent_of_the_roof_and_chains_that_add_up_to_it() {
    // Roof of the cross gable: 42 ft by 38 ft 4 in, from walls and overhangs alone.
    let page = Page::of(&houses::cross_gable().plan());
    let mut numbers = page.words("dimension");
    let mut take = |words: &str| {
        let at = numbers.iter().position(|w| *w == words).unwrap_or_else(|| panic!("{words} in {numbers:?}"));
        numbers.remove(at);
    };
    for words in ["1'", "2'", "18'", "16'", "4'", "1'", "42'"] {
        take(words);
    }
    for words in ["1'", "2'", "8'", "26'", "1' 4\"", "38' 4\""] {
        take(words);
    }
    assert!(numbers.is_empty(), "{numbers:?}");
}

#[test]
fn plan_numbers_every_edge_and_names_every_plane_with_its_pitch() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        let page = Page::of(&house.plan());
        let numbers: BTreeSet<usize> = page.words("edge-number").iter().map(|n| n.parse().unwrap()).collect();
        // The legend's sample carries a 7.
        assert_eq!(numbers, (1..=house.roof.edges.len()).collect(), "{}", house.name);
        let mut names = page.words("plane-name");
        let mut expected: Vec<&str> = house.roof.planes.iter().map(|plane| plane.name.as_str()).collect();
        names.sort_unstable();
        expected.sort_unstable();
        assert_eq!(names, expected, "{}", house.name);
        let pitches: BTreeSet<String> = page.words("pitch").iter().map(ToString::to_string).collect();
        assert_eq!(
            pitches,
            house.roof.planes.iter().map(|plane| plane.pitch.to_string()).collect(),
            "{}",
            house.name
        );
        assert!(page.words("left-out").is_empty(), "{}", house.name);
    }
}

#[test]
fn sheets_give_every_edge_with_its_true_length() {
    for house in [houses::cross_gable(), houses::hip_split_level(), houses::many_forms()] {
        for (i, plane) in house.roof.planes.iter().enumerate() {
            let page = Page::of(&house.sheet(i));
            let listed: Vec<&str> =
                page.words("list").into_iter().filter(|line| !line.contains(':')).collect();
            let all: Vec<&str> = page
                .words("edge-length")
                .into_iter()
                .chain(listed.iter().map(|l| without_number(l)))
                .collect();
            assert_eq!(all.len(), plane.edges.len(), "{} {}", house.name, plane.name);
            for &id in &plane.edges {
                let edge = house.roof.edge(id);
                let has_it = |words: &&&str| {
                    let length = words.strip_prefix(edge.kind.name()).map(str::trim);
                    length.is_some_and(|l| {
                        l.parse::<Length>().is_ok_and(|l| (l - edge.length).m().abs() <= HALF_EIGHTH)
                    })
                };
                assert!(
                    all.iter().any(|words| has_it(&words)),
                    "{} {}: {edge:?} in {all:?}",
                    house.name,
                    plane.name
                );
            }
        }
    }
}

fn without_number(line: &str) -> &str {
    line.split_once(' ').map_or(line, |(_, rest)| rest)
}

#[test]
fn flat_planes_keep_the_true_length_of_every_edge() {
    for house in houses::all() {
        for plane in &house.roof.planes {
            let flat = Flat::of(plane);
            for &id in &plane.edges {
                let [a, b] = house.roof.ends(id).map(|p| flat.at(p));
                let drawn = distance(a, b);
                assert!(
                    (drawn - house.roof.edge(id).length.m()).abs() < 1e-6,
                    "{} {} {id:?}",
                    house.name,
                    plane.name
                );
            }
        }
    }
}

#[test]
fn sheets_give_area_and_opening_distances_of_the_roof() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        for (i, plane) in house.roof.planes.iter().enumerate() {
            let page = Page::of(&house.sheet(i));
            let area =
                format!("{:.1} ft² · {:.2} squares", plane.slope_area.ft2(), plane.slope_area.squares());
            assert_eq!(page.words("area"), [area.as_str()]);
            assert_distances(&house, i, &page);
        }
    }
}

/// Every opening has a line in the list with its eave and two more edges, each as far as the roof says.
fn assert_distances(house: &House, plane: usize, page: &Page) {
    let list = page.words("list").join(" ");
    for opening in house.roof.openings.iter().filter(|o| o.plane.0 == plane) {
        let (_, line) =
            list.split_once(&format!("{}:", opening.name)).unwrap_or_else(|| panic!("{}", opening.name));
        for part in line.split(", ").take(3) {
            let (length, to) = part.split_once(" to ").expect("a distance to an edge");
            let number = to.split(' ').find_map(|word| word.parse::<usize>().ok()).expect("an edge number");
            let distance =
                opening.distances.iter().find(|d| d.edge == EdgeId(number - 1)).expect("one of its edges");
            assert_close(length, distance.slope_from_rim);
        }
    }
}

#[test]
fn distances_drawn_at_openings_are_among_those_of_the_roof() {
    let house = houses::cross_gable();
    let drawn: Vec<_> = (0..house.roof.planes.len()).map(|i| Page::of(&house.sheet(i))).collect();
    let words: Vec<&str> = drawn.iter().flat_map(|page| page.words("opening-distance")).collect();
    assert!(words.len() >= 3, "{words:?}");
    for words in words {
        let known = house.roof.openings.iter().flat_map(|o| &o.distances);
        assert!(
            known.into_iter().any(|d| (read(words) - d.slope_from_rim).m().abs() <= HALF_EIGHTH),
            "{words}"
        );
    }
}

#[test]
fn openings_carry_their_state() {
    let page = Page::of(&houses::cross_gable().plan());
    let names = page.words("opening-name");
    for expected in ["chimney", "+ skylight", "+ daylight tube", "× box-vent 1", "stack"] {
        assert!(names.contains(&expected), "{expected} in {names:?}");
    }
    assert_eq!(page.shapes("opening-goes").count(), 3 + 1, "three vents go, and the legend's sample");
}

#[test]
fn planes_without_room_for_a_name_have_a_letter_on_the_plan_and_their_name_in_the_legend() {
    let house = houses::dormers();
    let page = Page::of(&house.plan());
    let sorted = |class: &str| {
        let mut words = page.words(class);
        words.sort_unstable();
        words
    };
    let keys = sorted("plane-key");
    assert!(!keys.is_empty() && keys == sorted("key"), "each letter of the legend stands on the plan once");
    let (names, legend) = (page.words("plane-name"), page.words("legend"));
    for plane in &house.roof.planes {
        let is_listed = || legend.iter().any(|words| words.starts_with(&format!("{} ", plane.name)));
        assert!(names.contains(&plane.name.as_str()) || is_listed(), "{}", plane.name);
    }
    assert_eq!(names.len() + keys.len(), house.roof.planes.len());
}

#[test]
fn assumed_numbers_are_marked_and_measured_ones_are_not() {
    let house = houses::half_surveyed();
    let page = Page::of(&house.plan());
    let marked: Vec<_> = page.texts.iter().filter(|t| t.content.ends_with('◊')).collect();
    assert!(marked.iter().all(|t| t.text.cut == crate::letter::Cut::Italic));
    assert!(page.words("pitch").contains(&"45.0°"), "pitches are measured");
    assert!(marked.iter().any(|t| t.class == "dimension"), "the overhang of the old house is unknown");
    assert!(page.words("dimension").contains(&"9.200 m"), "walls are measured");
    assert!(page.words("legend").contains(&"assumed, not measured"));
    let measured = Page::of(&houses::cross_gable().plan());
    assert!(measured.texts.iter().all(|t| !t.content.contains('◊')));
}

#[test]
fn metric_sheet_says_the_same_lengths_in_metres() {
    let house = houses::tiny_shed();
    let page = Page::of(&house.sheet_in(0, Units::Si));
    let eave = eave_length(&house.roof);
    assert!(
        page.words("edge-length").contains(&format!("eave {:.3} m", eave.m()).as_str()),
        "{:?}",
        page.words("edge-length")
    );
}

fn eave_length(roof: &Roof) -> Length {
    roof.length_of(roof::EdgeKind::Eave)
}
