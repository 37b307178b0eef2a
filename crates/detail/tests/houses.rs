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
            let usual = place.chosen().unwrap_or_else(|| panic!("{}", place.name));
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
            assert_eq!(place.chosen().and_then(failures), Some(3), "{}", place.name);
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
    assert_eq!(high[0].chosen().map(|fit| fit.detail.as_str()), Some("chimney-cricket"));
    for ridge in at_spot(&house, Spot::Ridge) {
        assert_eq!(ridge.chosen().map(|fit| fit.detail.as_str()), Some("ridge-vent"), "{}", ridge.name);
    }
    let (_, split) = details(SPLIT_LEVEL);
    let closed = at_spot(&split, Spot::Ridge)
        .into_iter()
        .filter_map(Place::chosen)
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
        assert!(side.found.is_none() && side.chosen().is_some(), "{}", side.name);
    }
}

#[test]
fn the_plan_stands_better_than_what_is_found_at_every_place_under_every_attack() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (_, details) = details(text);
        for place in &details.places {
            let Some((found, usual)) = place.found.as_ref().zip(place.chosen()) else { continue };
            for stood in &found.stands {
                let strength = |failures: Option<usize>| failures.unwrap_or(usize::MAX);
                let planned = usual.failures(stood.attack);
                assert!(
                    strength(planned) >= strength(stood.failures),
                    "{} under {}: {planned:?}",
                    place.name,
                    stood.attack
                );
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

/// The job with lines put into its `[covering]`.
fn wishing(text: &str, wish: &str) -> String {
    assert!(text.contains("[covering]\n"));
    text.replacen("[covering]\n", &format!("[covering]\ndetails = [\"{wish}\"]\n"), 1)
}

#[test]
fn what_the_job_wishes_is_built_wherever_it_fits() {
    let (_, house) = details(&wishing(CROSS_GABLE, "valley-closed-cut"));
    assert_eq!(house.problems, []);
    for valley in at_spot(&house, Spot::Valley) {
        let chosen = valley.chosen().expect("a detail");
        assert_eq!((chosen.detail.as_str(), chosen.is_wished), ("valley-closed-cut", true));
    }
    let sidewall = at_spot(&house, Spot::Sidewall)[0].chosen().expect("a detail");
    assert!(!sidewall.is_wished);
}

#[test]
fn a_refused_wish_is_an_error_that_says_why_and_one_that_fits_nowhere_a_warning() {
    let (_, house) = details(&wishing(CROSS_GABLE, "valley-woven"));
    let [problem] = house.problems.as_slice() else { panic!("{:?}", house.problems) };
    assert!(
        problem.is_error() && problem.message.contains("laminated shingles do not bend"),
        "{}",
        problem.message
    );
    let (_, house) = details(&wishing(CROSS_GABLE, "sidewall-brick-reglet"));
    let [problem] = house.problems.as_slice() else { panic!("{:?}", house.problems) };
    assert!(!problem.is_error() && problem.code == "unmet-wish", "{}", problem.message);
}

#[test]
fn a_fault_of_a_chosen_detail_is_one_error_with_all_its_places() {
    let shipped = include_str!("../../../books/details/valleys.toml");
    let start = shipped.find("[[detail]]\nid = \"valley-open\"\n").expect("the detail");
    let end = start + 1 + shipped[start + 1..].find("\n[[detail]]").expect("another after it");
    let short =
        shipped[start..end].replace("lap = \"8 in\", least = \"8 in\"", "lap = \"2 in\", least = \"8 in\"");
    let book = Book::with_overlays(&[("short.toml", &short)]).expect("a sound overlay");
    let (_, house) = details_with(CROSS_GABLE, &book);
    let [problem] = house.problems.as_slice() else { panic!("{:?}", house.problems) };
    assert!(problem.is_error() && problem.code == "detail-fault");
    let valleys = at_spot(&house, Spot::Valley);
    assert!(
        valleys.len() == 2 && valleys.iter().all(|valley| problem.message.contains(&valley.name)),
        "{}",
        problem.message
    );
}

#[test]
fn an_eave_is_built_for_the_gutter_that_will_hang_there_and_met_with_the_one_that_did() {
    let (roof, house) = details(CROSS_GABLE);
    let detail = |place: &Place| place.chosen().map(|fit| fit.detail.clone());
    for eave in at_spot(&house, Spot::Eave) {
        assert_eq!(detail(eave).as_deref(), Some("eave-gutter"), "{}", eave.name);
        let At::Edge(edge) = eave.at else { panic!("{:?}", eave.at) };
        let plane = &roof.plane(roof.edge(edge).planes[0]).name;
        let found = eave.found.as_ref().map(|fit| fit.detail.as_str());
        let met = if plane.starts_with("main") { found.is_some() } else { found == Some("eave-found-bare") };
        assert!(met, "{plane}: {found:?}");
    }
    let bare = &CROSS_GABLE[..CROSS_GABLE.find("[[gutter]]").expect("gutters")];
    let rest = &CROSS_GABLE[CROSS_GABLE.find("# --- walls and attic").expect("walls")..];
    let (_, house) = details(&format!("{bare}{rest}"));
    assert!(at_spot(&house, Spot::Eave).iter().all(|eave| detail(eave).as_deref() == Some("eave")));
}

/// Only the headwall below the side that stands out is under the cantilever.
#[test]
fn a_cantilever_changes_the_wall_below_its_own_side_alone() {
    let text = |side: &str| {
        CROSS_GABLE.replacen(
            "[walls.main]\n",
            &format!("[[walls.main.cantilever]]\nside = \"{side}\"\nlength = \"20'\"\ndepth = \"18 in\"\n\n[walls.main]\n"),
            1,
        )
    };
    for (side, under) in [("south", true), ("north", false)] {
        let (_, house) = details(&text(side));
        assert_eq!(!at_spot(&house, Spot::Cantilever).is_empty(), under, "{side}");
        assert_eq!(at_spot(&house, Spot::Headwall).is_empty(), under, "{side}");
    }
}
