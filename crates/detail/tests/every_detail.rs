//! Every detail of the built-in books: sound as it stands, its least failures found again by trying all sets, a planted fault named.

use std::collections::BTreeSet;

use book::{Act, Book, Choice, Cladding, Detail, Falls, Spot, Stage};
use detail::{Attack, Failure, Fault, MOST_FAILURES, Section, Setting, Slopes, Stand, faults, wets};
use measure::Pitch;

fn pitch(text: &str) -> Pitch {
    text.parse().expect("a pitch")
}

fn planned(book: &Book) -> impl Iterator<Item = &Detail> {
    book.details().filter(|detail| detail.stage == Stage::Planned)
}

/// Failures it takes under an attack beside lap siding; none where the attack cannot happen or no failures suffice.
fn count(detail: &Detail, attack: Attack, book: &Book) -> Option<usize> {
    let at = Setting { cladding: Some(Cladding::Lap), ..pitch("6/12").into() };
    let section = Section::of(detail, at, book).expect("materials of the books");
    Stand::of(&section, attack)?.failures
}

fn counts(id: &str, attack: Attack) -> Option<usize> {
    let book = Book::builtin();
    count(book.detail(id).expect("a detail"), attack, &book)
}

/// Failures it takes, more than any number where none suffice or the attack cannot happen.
fn strength(detail: &Detail, attack: Attack, book: &Book) -> usize {
    count(detail, attack, book).unwrap_or(usize::MAX)
}

#[test]
fn planned_details_have_no_fault_at_any_pitches_beside_any_cladding() {
    let book = Book::builtin();
    let pitches = [("2/12", "2/12"), ("4/12", "9/12"), ("14/12", "1/12")];
    let claddings = [Cladding::Lap, Cladding::Shingle, Cladding::Stucco, Cladding::Brick];
    for detail in planned(&book) {
        for (first, then) in pitches.map(|(a, b)| (pitch(a), pitch(b))) {
            for cladding in claddings {
                let at = Setting { cladding: Some(cladding), ..Slopes { first, then }.into() };
                let section = Section::of(detail, at, &book).expect("materials of the books");
                assert_eq!(faults(&section), [], "{} at {first} and {then}", detail.id);
            }
        }
    }
}

/// The pair the trade knows: steps used again and felt not lapped, against steps, membrane turned up, lapped wrap and kick-out.
#[test]
fn a_sidewall_as_found_has_one_layer_along_it_and_none_at_its_end_and_as_planned_three() {
    assert_eq!(counts("sidewall-found", Attack::Rain), Some(1));
    assert_eq!(counts("kick-out-found", Attack::Rain), Some(0));
    assert_eq!(counts("sidewall-lap-siding", Attack::Rain), Some(3));
    assert_eq!(counts("kick-out", Attack::Rain), Some(3));
}

/// Common practice: with membrane under the metal, a valley whose metal fails still drains.
#[test]
fn a_valley_whose_metal_fails_still_drains_over_its_membrane() {
    let book = Book::builtin();
    let section =
        Section::of(book.detail("valley-open").expect("a detail"), pitch("6/12"), &book).expect("sound");
    let metal = section.sheets.iter().position(|sheet| sheet.layer.id == "metal").expect("metal");
    assert!(!wets(&section, Attack::Rain, &BTreeSet::from([Failure::Layer(metal)])));
    let mut without = book.detail("valley-open").expect("a detail").clone();
    without.layers.retain(|layer| layer.id != "membrane");
    let section = Section::of(&without, pitch("6/12"), &book).expect("sound");
    assert!(wets(&section, Attack::Rain, &BTreeSet::from([Failure::Layer(metal - 1)])));
}

/// Common practice: with membrane turned up behind the siding, a sidewall that is backed up by ice still drains.
#[test]
fn a_sidewall_backed_up_by_ice_drains_by_its_turned_up_membrane_alone() {
    let book = Book::builtin();
    let detail = book.detail("sidewall-lap-siding").expect("a detail");
    assert_eq!(count(detail, Attack::Ice, &book), Some(1));
    let mut flat = detail.clone();
    let membrane = flat.layers.iter_mut().find(|layer| layer.id == "membrane").expect("a membrane");
    membrane.covers.remove("wall");
    assert_eq!(count(&flat, Attack::Ice, &book), Some(0));
    assert_eq!(counts("sidewall-found", Attack::Ice), Some(0));
}

/// Common practice: a ridge vent must not take in driving rain.
#[test]
fn a_ridge_vent_keeps_driving_rain_out_only_with_its_baffle() {
    let book = Book::builtin();
    let vent = book.detail("ridge-vent").expect("a detail");
    assert!(strength(vent, Attack::Wind, &book) >= 2);
    let mut bare = vent.clone();
    let part = bare.layers.iter_mut().find(|layer| layer.id == "vent").expect("a vent");
    part.material = "ridge-vent-bare".to_owned();
    assert_eq!(count(&bare, Attack::Wind, &book), Some(1)); // the caps alone
    assert_eq!(count(&bare, Attack::Rain, &book), count(vent, Attack::Rain, &book));
}

/// Common practice: metal behind the gutter throws out over the fascia what rises behind a blocked gutter.
#[test]
fn metal_behind_a_blocked_gutter_keeps_the_fascia_dry() {
    let book = Book::builtin();
    let eave = book.detail("eave-gutter").expect("a detail");
    assert_eq!(count(eave, Attack::Gutter, &book), Some(1));
    let mut without = eave.clone();
    without.layers.retain(|layer| layer.id != "flashing behind gutter");
    assert_eq!(count(&without, Attack::Gutter, &book), Some(0));
    assert_eq!(counts("eave-found", Attack::Gutter), Some(0));
    assert_eq!(counts("eave", Attack::Gutter), None);
}

/// Whatever is met with at a spot, what is usually built there in its place takes as many failures, whichever water comes.
#[test]
fn what_is_planned_at_a_spot_stands_no_worse_than_anything_found_there() {
    let book = Book::builtin();
    let found = || book.details().filter(|detail| detail.stage == Stage::Found);
    let is_meant = |found: &Detail, planned: &Detail| {
        let [was, will] = [&found.when.cladding, &planned.when.cladding];
        let is_clad_alike = was.is_empty() || will.is_empty() || was.iter().any(|one| will.contains(one));
        let is_alike = [(found.when.curb, planned.when.curb), (found.when.gutter, planned.when.gutter)];
        planned.at == found.at
            && planned.choice == Choice::Usual
            && planned.when.over != Some(true)
            && is_clad_alike
            && is_alike.iter().all(|(was, will)| was.is_none() || will.is_none() || was == will)
    };
    let mut weaker = Vec::new();
    for was in found() {
        for will in planned(&book).filter(|will| is_meant(was, will)) {
            for attack in Attack::ALL {
                let Some(before) = count(was, attack, &book) else { continue };
                let after = strength(will, attack, &book);
                if after < before {
                    weaker.push(format!("{} under {attack}: {after}; {}: {before}", will.id, was.id));
                }
            }
        }
    }
    assert_eq!(weaker, [""; 0]);
}

/// 18 in and more of sheet under the covering of the steep roof, and a second sheet wherever the low roof's deck has nothing over it.
#[test]
fn a_low_roof_tied_in_under_a_steep_one_stands_as_well_as_what_is_found() {
    assert_eq!(counts("low-slope-found", Attack::Rain), Some(2));
    assert_eq!(counts("low-slope", Attack::Rain), Some(2));
    assert_eq!(counts("low-slope", Attack::Wind), Some(2));
    assert_eq!(counts("low-slope-found", Attack::Ice), Some(0));
    assert_eq!(counts("low-slope", Attack::Ice), Some(2));
}

/// The kick-out lies over the end of the drip edge and of the gutter, the first step piece over the kick-out, what hangs on the wall over its leg.
#[test]
fn a_kick_out_takes_the_step_and_gives_to_the_gutter() {
    let book = Book::builtin();
    for (id, wall, over_leg) in [
        ("kick-out", "kick-out-to-wall", "wrap strip"),
        ("kick-out-stucco", "kick-out-to-wall-stucco", "weep screed"),
        ("kick-out-brick", "kick-out-to-wall-brick", "through-wall pan"),
    ] {
        let [end, up] = [id, wall].map(|id| book.detail(id).expect("a detail"));
        assert_eq!(end.with, [wall]);
        let order = |detail: &Detail, id: &str| {
            detail.layers.iter().position(|layer| layer.id == id).unwrap_or_else(|| panic!("no {id}"))
        };
        for lower in ["gutter", "drip edge"] {
            assert!(order(end, lower) < order(end, "kick-out"), "{id}");
        }
        assert!(order(end, "kick-out") < order(end, "steps"));
        assert!(order(up, "kick-out") < order(up, "first step piece"));
        assert!(order(up, "first step piece") < order(up, over_leg), "{wall}");
        // where the gutter lies over the kick-out, what leaves it runs down behind the gutter
        let mut wrong = end.clone();
        let gutter = wrong.layers.remove(order(&wrong, "gutter"));
        wrong.layers.insert(order(&wrong, "kick-out") + 1, gutter);
        wrong.layers.iter_mut().for_each(|layer| layer.over.clear());
        let section = Section::of(&wrong, pitch("6/12"), &book).expect("sound");
        let reverse = Fault::Reverse { upper: "kick-out".to_owned(), lower: "gutter".to_owned() };
        assert!(faults(&section).contains(&reverse), "{id}: {:?}", faults(&section));
    }
}

/// Water behind ice, 4 in high: the membrane keeps it out alone, up the frame as up a curb; but behind a curb, where at 6/12 it reaches 8.9 in up the
/// deck, so does the one-piece saddle, 12 in up the deck and 4 in up the curb. That of a frame of 4 in is turned up 3 in.
#[test]
fn skylights_on_a_curb_and_on_the_deck_are_wrapped_where_neither_was() {
    for (side, on_curb, on_deck) in [("low", 1, 1), ("side", 1, 1), ("high", 2, 1)] {
        for (found, planned, least) in [
            (format!("skylight-{side}-curb-found"), format!("skylight-{side}"), on_curb),
            (format!("skylight-{side}-deck-found"), format!("skylight-{side}-deck"), on_deck),
        ] {
            assert_eq!(counts(&found, Attack::Ice), Some(0), "{found}");
            assert_eq!(counts(&planned, Attack::Ice), Some(least), "{planned}");
        }
    }
}

#[test]
fn no_smaller_set_of_failures_wets_the_wood_and_every_least_one_is_told() {
    let book = Book::builtin();
    for detail in book.details() {
        for pitch in ["3/12", "12/12"].map(pitch) {
            let section = Section::of(detail, pitch, &book).expect("materials of the books");
            for stand in Stand::all(&section) {
                let told: Vec<BTreeSet<Failure>> = stand.sets.clone();
                assert_eq!(
                    told,
                    least_by_trying(&section, stand.attack),
                    "{} under {}",
                    detail.id,
                    stand.attack
                );
            }
        }
    }
}

/// All least sets of failures that wet the wood, by trying every set, smaller ones first.
fn least_by_trying(section: &Section<'_>, attack: Attack) -> Vec<BTreeSet<Failure>> {
    let all = Failure::all(section);
    for size in 0..=all.len().min(MOST_FAILURES) {
        let wetting: BTreeSet<BTreeSet<Failure>> =
            subsets(&all, size).into_iter().filter(|set| wets(section, attack, set)).collect();
        if !wetting.is_empty() {
            return wetting.into_iter().collect();
        }
    }
    Vec::new()
}

fn subsets(all: &[Failure], size: usize) -> Vec<BTreeSet<Failure>> {
    let Some((first, rest)) = all.split_first().filter(|_| size > 0) else {
        return if size == 0 { vec![BTreeSet::new()] } else { Vec::new() };
    };
    let with = subsets(rest, size - 1).into_iter().map(|mut set| {
        set.insert(*first);
        set
    });
    with.chain(subsets(rest, size)).collect()
}

#[test]
fn the_detail_shown_in_the_readme_of_the_books_has_no_fault() {
    let readme = include_str!("../../../books/README.md");
    let shown = readme.split("```toml\n").filter_map(|rest| rest.split("```").next());
    let shown =
        shown.into_iter().find(|block| block.starts_with("[[detail]]")).expect("a detail in the readme");
    let book = Book::with_overlays(&[("readme", shown)]).expect("a sound overlay");
    let detail = book.detail("my-sidewall").expect("the detail");
    let section = Section::of(detail, pitch("6/12"), &book).expect("sound");
    assert_eq!(faults(&section), []);
    assert_eq!(count(detail, Attack::Rain, &book), Some(2));
}

/// Pairs of layers that water passes in sequence: where the first ends low, the second lies right under it and goes on. In a trough every
/// layer through it ends at the joint.
fn pairs(section: &Section<'_>) -> BTreeSet<(usize, usize)> {
    let under = |layer: usize, [inside, beyond]: [usize; 2]| {
        let [inside, beyond] = [inside, beyond].map(|at| &section.stretches[at].layers);
        let goes_on = |other: &&usize| beyond.contains(*other) && **other < layer;
        Some((layer, *inside.iter().rev().find(goes_on)?))
    };
    let steps = (1..section.stretches.len()).flat_map(|at| {
        let [before, after] = [section.falls(at - 1), section.falls(at)];
        let is_on = before == Falls::On && after != Falls::Back;
        let is_back = after == Falls::Back && before != Falls::On;
        let trough = before == Falls::On && after == Falls::Back;
        let steps = [is_on.then_some([at - 1, at]), is_back.then_some([at, at - 1])];
        let into =
            trough.then_some([[at - 1, at], [at, at - 1]]).into_iter().flatten().map(|step| (step, true));
        steps.into_iter().flatten().map(|step| (step, false)).chain(into)
    });
    let passed = steps.flat_map(|([inside, beyond], is_trough)| {
        let here = section.stretches[inside].layers.clone();
        let sheds = move |layer: &usize| {
            let ends = !section.stretches[beyond].layers.contains(layer);
            ends || (is_trough && section.sheets[*layer].acts(Act::Courses))
        };
        here.into_iter().filter(sheds).filter_map(move |layer| under(layer, [inside, beyond]))
    });
    passed.collect()
}

/// Swaps that lead no water astray: sheets lapped over a peak from both sides, whichever first; a strip over a peak that hands its water to felt
/// under the old shingles instead of onto them; layers whose top edge a membrane sticks over; a weave, course by course.
const FREE: [(&str, &str, &str); 15] = [
    ("hip", "strip", "underlayment of one"),
    ("hip", "strip", "underlayment of other"),
    ("ridge-closed", "strip", "underlayment of one"),
    ("ridge-closed", "strip", "underlayment of other"),
    ("low-slope", "transition metal", "cap sheet"),
    ("hip", "underlayment of other", "underlayment of one"),
    ("ridge-closed", "underlayment of other", "underlayment of one"),
    ("hip-over", "strip", "old shingles of one"),
    ("hip-over", "strip", "old shingles of other"),
    ("ridge-closed-over", "strip", "old shingles of one"),
    ("ridge-closed-over", "strip", "old shingles of other"),
    ("kick-out", "patch", "wrap below"),
    ("kick-out-stucco", "patch", "wrap below"),
    ("kick-out-brick", "patch", "wrap below"),
    ("valley-woven", "shingles of other", "shingles of one"),
];

/// A detail with one of its layers moved out over another, and none of its layers saying what it laps.
fn swapped(detail: &Detail, (upper, lower): (usize, usize)) -> Detail {
    let mut wrong = detail.clone();
    let moved = wrong.layers.remove(lower);
    wrong.layers.insert(upper, moved);
    wrong.layers.iter_mut().for_each(|layer| layer.over.clear());
    wrong
}

#[test]
fn a_swap_of_any_two_layers_that_water_passes_in_sequence_is_named_by_where_they_lie() {
    let book = Book::builtin();
    let mut planted: BTreeSet<&str> = BTreeSet::new();
    let mut unnamed = Vec::new();
    for detail in planned(&book) {
        let section = Section::of(detail, pitch("6/12"), &book).expect("materials of the books");
        for (upper, lower) in pairs(&section) {
            let names = [upper, lower].map(|layer| detail.layers[layer].id.clone());
            let wrong = swapped(detail, (upper, lower));
            let section = Section::of(&wrong, pitch("6/12"), &book).expect("materials of the books");
            let is_named = |fault: &Fault| match fault {
                Fault::Reverse { lower, .. } => *lower == names[1], // the one laid too far out
                Fault::Hidden { layer, .. } => *layer == names[0],
                _ => false,
            };
            let is_free = FREE.contains(&(detail.id.as_str(), names[0].as_str(), names[1].as_str()));
            if is_free {
                assert_eq!(faults(&section), [], "{}: {names:?}", detail.id);
            } else if !faults(&section).iter().any(is_named) {
                unnamed.push(format!("{}: {names:?} {:?}", detail.id, faults(&section)));
            }
            planted.extend((!is_free).then_some(detail.id.as_str()));
        }
    }
    assert_eq!(unnamed, [""; 0]);
    // at a rake water runs along the edge, and passes no layer there to another
    let passes = |detail: &&Detail| detail.at != Spot::Rake;
    let all: BTreeSet<&str> = planned(&book).filter(passes).map(|detail| detail.id.as_str()).collect();
    assert_eq!(planted, all);
}

/// Orders that hand no lap over wrongly as the details say their laps, yet let water behind a layer or hide one that is there to shed it.
#[test]
fn planted_orders_are_named_though_no_lap_is_said_of_them() {
    let book = Book::builtin();
    let reverse =
        |upper: &str, lower: &str| Fault::Reverse { upper: upper.to_owned(), lower: lower.to_owned() };
    let hidden =
        |layer: &str, behind: &str| Fault::Hidden { layer: layer.to_owned(), behind: behind.to_owned() };
    // (detail, layer moved, to just before or after which, what is wrong)
    let orders = [
        ("eave-gutter", "gutter", "drip edge", false, reverse("drip edge", "gutter")),
        ("eave-gutter", "strip", "drip edge", true, reverse("strip", "drip edge")),
        ("headwall", "siding", "head flashing", true, reverse("siding", "head flashing")),
        ("sidewall-lap-siding", "steps", "shingles", false, reverse("shingles", "steps")),
        ("ridge-vent", "caps", "vent", true, hidden("caps", "vent")),
        ("rake", "drip edge", "shingles", false, reverse("shingles", "drip edge")),
        ("rake-over", "drip edge", "shingles", false, reverse("shingles", "drip edge")),
    ];
    for (id, moved, by, is_before, fault) in orders {
        let mut wrong = book.detail(id).expect("a detail").clone();
        let place = |detail: &Detail, id: &str| detail.layers.iter().position(|layer| layer.id == id);
        let at = place(&wrong, moved).expect("a layer");
        let mut layer = wrong.layers.remove(at);
        layer.over.clear();
        let by = place(&wrong, by).expect("a layer");
        wrong.layers.insert(if is_before { by } else { by + 1 }, layer);
        let section = Section::of(&wrong, pitch("6/12"), &book).expect("materials of the books");
        assert!(faults(&section).contains(&fault), "{id}: {:?}", faults(&section));
    }
}

#[test]
fn a_short_lap_planted_in_any_lap_is_named() {
    let book = Book::builtin();
    for detail in planned(&book) {
        for (index, layer) in detail.layers.iter().enumerate() {
            for lower in layer.over.keys() {
                let mut wrong = detail.clone();
                wrong.layers[index].over.insert(lower.clone(), "99 in".parse().expect("a length"));
                let section = Section::of(&wrong, pitch("6/12"), &book).expect("materials of the books");
                let is_named = |fault: &Fault| matches!(fault, Fault::Short { upper, lower: over, .. } if *upper == layer.id && over == lower);
                assert!(faults(&section).iter().any(is_named), "{}: {} over {lower}", detail.id, layer.id);
            }
        }
    }
}

#[test]
fn a_nail_in_a_forbidden_zone_is_named_and_lets_water_in_by_itself() {
    let book = Book::builtin();
    let mut valley = book.detail("valley-open").expect("a detail").clone();
    let metal = valley.layers.iter_mut().find(|layer| layer.id == "metal").expect("metal");
    metal.fixed[0].between = ["2 in", "3 in"].map(|text| text.parse().expect("a length"));
    let section = Section::of(&valley, pitch("6/12"), &book).expect("sound");
    assert_eq!(faults(&section), [Fault::Fastener { layer: "metal".to_owned() }]);
    assert_eq!(count(&valley, Attack::Rain, &book), Some(1)); // the membrane heals round it and is left alone
}

#[test]
fn a_turn_up_below_standing_water_is_named() {
    let book = Book::builtin();
    let mut wall = book.detail("headwall").expect("a detail").clone();
    let membrane = wall.layers.iter_mut().find(|layer| layer.id == "membrane").expect("a membrane");
    let short = book::Reach::Between(["0 in", "4 in"].map(|text| text.parse().expect("a length")));
    membrane.covers.insert("wall".to_owned(), short);
    let section = Section::of(&wall, pitch("6/12"), &book).expect("sound");
    let is_named =
        |fault: &Fault| matches!(fault, Fault::TurnUp { layer: Some(layer), .. } if layer == "membrane");
    assert!(faults(&section).iter().any(is_named));
    assert_eq!(count(&wall, Attack::Ice, &book), Some(0));
}

/// The same detail with its faces in the other order.
fn mirrored(detail: &Detail) -> Detail {
    let mut other = detail.clone();
    other.faces.reverse();
    for face in &mut other.faces {
        face.falls = match face.falls {
            Falls::On => Falls::Back,
            Falls::Back => Falls::On,
            Falls::Along => Falls::Along,
        };
    }
    other
}

#[test]
fn nothing_changes_when_a_section_is_seen_from_behind() {
    let book = Book::builtin();
    for detail in book.details() {
        let [here, there] = [detail.clone(), mirrored(detail)];
        let [section, other] =
            [&here, &there].map(|detail| Section::of(detail, pitch("6/12"), &book).expect("sound"));
        assert_eq!(Stand::all(&section), Stand::all(&other), "{}", detail.id);
        assert_eq!(faults(&section), faults(&other), "{}", detail.id);
    }
}

#[test]
fn a_layer_past_service_never_makes_a_detail_stand_better() {
    let book = Book::builtin();
    for detail in book.details() {
        for index in 0..detail.layers.len() {
            let mut worse = detail.clone();
            worse.layers[index].spent = true;
            for attack in Attack::ALL {
                let [before, after] = [detail, &worse].map(|detail| strength(detail, attack, &book));
                assert!(after <= before, "{} without {}", detail.id, detail.layers[index].id);
            }
        }
    }
}
