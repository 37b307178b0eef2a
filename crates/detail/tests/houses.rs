//! The details of the two example houses.

use book::{Book, Choice, Spot};
use detail::{At, Attack, Details, Place};
use job::Job;
use roof::Roof;

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../examples/hip-split-level.toml");

fn details_with(text: &str, book: &Book) -> (Roof, Details) {
    let (job, _) = Job::read(text, book).expect("a sound job");
    let roof = Roof::of(&job, book).expect("a roof");
    let details = Details::of(&roof, &job, book).expect("materials of the books");
    (roof, details)
}

fn details(text: &str) -> (Roof, Details) {
    details_with(text, &Book::builtin())
}

fn at_spot(details: &Details, spot: Spot) -> Vec<&Place> {
    details.places.iter().filter(|place| place.spot == spot).collect()
}

#[test]
fn every_edge_end_and_opening_that_stays_or_comes_has_a_detail_without_a_fault() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (roof, details) = details(text);
        assert_eq!(details.problems, []);
        for index in 0..roof.edges.len() {
            let has = |place: &&Place| place.at == At::Edge(roof::EdgeId(index));
            let place = details.places.iter().find(has).expect("a place for each edge");
            let usual = place.usual().unwrap_or_else(|| panic!("{}", place.name));
            assert!(usual.faults.is_empty() && place.found.is_some(), "{}", place.name);
        }
    }
}

/// The count of roof ends at walls and their numbers of layers are the check values of the example houses' description.
#[test]
fn roof_ends_at_walls_get_kick_outs_and_go_from_no_layer_to_three() {
    for (text, ends) in [(CROSS_GABLE, 1), (SPLIT_LEVEL, 2)] {
        let (_, details) = details(text);
        let kick_outs = at_spot(&details, Spot::KickOut);
        assert_eq!(kick_outs.len(), ends);
        for place in kick_outs {
            let failures = |fit: &detail::Fit| fit.failures(Attack::Rain);
            assert_eq!(place.found.as_ref().and_then(failures), Some(0), "{}", place.name);
            assert_eq!(place.usual().and_then(failures), Some(3), "{}", place.name);
        }
    }
}

#[test]
fn taking_the_kick_outs_away_is_an_error_that_names_each_edge() {
    let shipped = include_str!("../../../books/details/walls.toml");
    let start = shipped.find("[[detail]]\nid = \"kick-out\"\n").expect("the detail");
    let end = start + 1 + shipped[start + 1..].find("\n[[detail]]").expect("another after it");
    let refused = shipped[start..end].replace("choice = \"usual\"", "choice = \"refused\"");
    let book = Book::with_overlays(&[("refused.toml", &refused)]).expect("a sound overlay");
    for (text, ends) in [(CROSS_GABLE, 1), (SPLIT_LEVEL, 2)] {
        let (roof, details) = details_with(text, &book);
        assert_eq!(details.problems.len(), ends);
        for (problem, place) in details.problems.iter().zip(at_spot(&details, Spot::KickOut)) {
            let At::End(edge, _) = place.at else { panic!("{:?}", place.at) };
            assert_eq!(problem.code, "no-kick-out");
            assert!(problem.message.contains(&format!("edge {},", edge.number())), "{}", problem.message);
            assert!(roof.edge(edge).kind.is_wall());
        }
    }
}

#[test]
fn a_chimney_wider_than_30_in_has_its_cricket_and_a_vented_ridge_its_vent() {
    let (_, house) = details(CROSS_GABLE);
    let high = at_spot(&house, Spot::ChimneyHigh);
    assert_eq!(high[0].usual().map(|fit| fit.detail.as_str()), Some("chimney-cricket"));
    for ridge in at_spot(&house, Spot::Ridge) {
        assert_eq!(ridge.usual().map(|fit| fit.detail.as_str()), Some("ridge-vent"), "{}", ridge.name);
    }
    let (_, split) = details(SPLIT_LEVEL);
    let closed = at_spot(&split, Spot::Ridge)
        .into_iter()
        .filter_map(Place::usual)
        .any(|fit| fit.detail == "ridge-closed");
    assert!(closed, "the upper attic breathes by roof vents");
}

#[test]
fn every_roof_end_wall_valley_and_eave_has_hold_points_with_their_edges() {
    let book = Book::builtin();
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (_, details) = details(text);
        let holds = details.holds(&book);
        let asked = |spot: Spot| holds.iter().flat_map(|(_, places)| places).any(|place| place.spot == spot);
        let spots = [Spot::Eave, Spot::Valley, Spot::Sidewall, Spot::KickOut, Spot::Ridge, Spot::Pipe];
        assert!(spots.into_iter().all(asked));
        let kick_outs =
            holds.iter().find(|(hold, _)| hold.photo.starts_with("kick-out")).expect("a hold point");
        assert_eq!(kick_outs.1.len(), at_spot(&details, Spot::KickOut).len());
    }
}

#[test]
fn a_woven_valley_is_refused_and_a_closed_cut_one_allowed() {
    let (_, house) = details(CROSS_GABLE);
    for valley in at_spot(&house, Spot::Valley) {
        let choices: Vec<(&str, Choice)> =
            valley.planned.iter().map(|fit| (fit.detail.as_str(), fit.choice)).collect();
        let wanted = [
            ("valley-open", Choice::Usual),
            ("valley-closed-cut", Choice::Allowed),
            ("valley-woven", Choice::Refused),
        ];
        assert_eq!(choices, wanted);
    }
}

#[test]
fn what_goes_has_no_detail_to_build_and_what_comes_none_as_found() {
    let (_, house) = details(CROSS_GABLE);
    for vent in at_spot(&house, Spot::BoxVent) {
        assert!(vent.planned.is_empty() && vent.found.is_some(), "{}", vent.name);
    }
    for side in at_spot(&house, Spot::SkylightHigh) {
        assert!(side.found.is_none() && side.usual().is_some(), "{}", side.name);
    }
}

#[test]
fn the_plan_stands_better_than_what_is_found_at_every_place_under_every_attack() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (_, details) = details(text);
        for place in &details.places {
            let Some((found, usual)) = place.found.as_ref().zip(place.usual()) else { continue };
            for stood in &found.stands {
                let planned = usual.failures(stood.attack);
                assert!(planned >= stood.failures, "{} under {}: {planned:?}", place.name, stood.attack);
            }
        }
    }
}

#[test]
fn the_worst_place_comes_first() {
    let (_, house) = details(CROSS_GABLE);
    let worst = house.worst_first();
    let least = |place: &&Place| place.found.as_ref().and_then(|fit| fit.failures(Attack::Rain));
    assert_eq!(worst.first().and_then(least), Some(0));
    assert_eq!(worst.len(), house.places.len());
}
