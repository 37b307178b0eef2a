//! The details of the two example houses.

use book::{Book, Choice, Cladding, Facts, Spot, Stage};
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

/// One sheet cut into tabs bends into the weave; what is laminated, and what nobody says is such a sheet, does not.
#[test]
fn a_woven_valley_of_three_tab_shingles_is_allowed_and_built_where_it_is_wished() {
    let tabs = |text: &str| {
        let text = text.replace("shingle = \"shingle-laminated-metric\"", "shingle = \"shingle-three-tab\"");
        assert_ne!(text, CROSS_GABLE);
        text
    };
    let (_, house) = details(&tabs(&wishing(CROSS_GABLE, "valley-woven")));
    assert_eq!(house.problems, []);
    let chosen: Vec<&str> = at_spot(&house, Spot::Valley)
        .iter()
        .filter_map(|place| place.chosen())
        .map(|fit| fit.detail.as_str())
        .collect();
    assert!(!chosen.is_empty() && chosen.iter().all(|id| *id == "valley-woven"), "{chosen:?}");
    let (_, usual) = details(&tabs(CROSS_GABLE));
    assert!(at_spot(&usual, Spot::Valley).iter().all(|place| {
        place.chosen().is_some_and(|fit| fit.detail == "valley-open")
            && place.planned.iter().all(|fit| fit.choice != Choice::Refused)
    }));
}

/// Two 6/12 gables side by side with their ridges in line: no rake between them, and the wall of the higher one is as high above the lower roof all along.
fn side_by_side(plate: &str, siding: &str) -> String {
    let twice = include_str!("../../../examples/taped-twice.toml");
    let head = &twice[..twice.find("[[block]]").expect("a block")];
    let gable = |name: &str, west: &str, plate: &str| {
        format!(
            "[[block]]\nname = \"{name}\"\nat = [\"{west}\", \"0 ft\"]\nsize = [\"20 ft\", \"24 ft\"]\nplate = \"{plate}\"\n\
             roof = {{ form = \"gable\", ridge = \"x\", pitch = \"6/12\" }}\noverhang = {{ eave = \"12 in\", rake = \"0 in\" }}\n\n"
        )
    };
    let (low, high) = (gable("low", "0 ft", "9 ft"), gable("high", "20 ft", plate));
    format!("{head}{low}{high}[walls.high]\nsiding = \"{siding}\"\n")
}

#[test]
fn a_low_wall_beside_a_roof_takes_step_flashing_as_a_high_one_does() {
    for (plate, kind) in [("11 ft", roof::EdgeKind::Step), ("17 ft", roof::EdgeKind::Sidewall)] {
        for (siding, detail) in [("cedar-bevel", "sidewall-lap-siding"), ("brick-veneer", "sidewall-brick")] {
            let (roof, house) = details(&side_by_side(plate, siding));
            let walls = at_spot(&house, Spot::Sidewall);
            assert_eq!(walls.len(), 2, "{plate}"); // up one slope and down the other
            for place in walls {
                let At::Edge(edge) = place.at else { panic!("{:?}", place.at) };
                assert_eq!(roof.edge(edge).kind, kind);
                let chosen = place.chosen().expect("a detail");
                assert_eq!((chosen.detail.as_str(), &chosen.faults), (detail, &Vec::new()));
            }
            assert!(at_spot(&house, Spot::Step).is_empty());
        }
    }
}

/// Water comes down the cavity behind brick: every detail that ends it over a roof has metal through the wall, and none has lap siding.
#[test]
fn every_spot_at_a_wall_has_a_detail_for_each_cladding() {
    let book = Book::builtin();
    let spots = [Spot::Sidewall, Spot::Headwall, Spot::BackWall, Spot::Step, Spot::Cantilever, Spot::KickOut];
    for spot in spots {
        for (cladding, made) in [(Cladding::Brick, "brick-veneer"), (Cladding::Stucco, "stucco")] {
            let facts = Facts { cladding: Some(cladding), ..Facts::default() };
            let fits = |detail: &&book::Detail| {
                let is_planned = detail.stage == Stage::Planned && detail.choice == Choice::Usual;
                detail.at == spot && is_planned && detail.when.asks(&facts).is_some()
            };
            let usual: Vec<&book::Detail> = book.details().filter(fits).collect();
            let [detail] = usual[..] else { panic!("{spot:?} beside {cladding:?}: {}", usual.len()) };
            assert!(detail.layers.iter().any(|layer| layer.material == made), "{}", detail.id);
            let is_pan = |layer: &book::Layer| layer.id.starts_with("through-wall pan");
            let drains = cladding != Cladding::Brick || spot == Spot::KickOut;
            assert!(drains || detail.layers.iter().any(is_pan), "{}", detail.id);
        }
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

fn house_with(from: &str, to: &str) -> Details {
    assert!(CROSS_GABLE.contains(from), "{from}");
    details(&CROSS_GABLE.replacen(from, to, 1)).1
}

/// Common practice: walls of the example were looked at, its valleys and chimney were not.
#[test]
fn what_nobody_surveyed_is_marked_and_what_somebody_did_is_not() {
    let (_, house) = details(CROSS_GABLE);
    let assumed = |spot: Spot| at_spot(&house, spot)[0].found.as_ref().expect("a found detail").is_assumed;
    assert!([Spot::Valley, Spot::ChimneyHigh, Spot::Eave, Spot::Rake].into_iter().all(assumed));
    assert!(![Spot::KickOut, Spot::Sidewall, Spot::Headwall].into_iter().any(assumed));
    let planned = house.places.iter().filter_map(Place::chosen);
    assert!(planned.into_iter().all(|fit| !fit.is_assumed));
}

/// What the survey found at the eaves is what stands there: 36 in of ice barrier, and drip edge.
#[test]
fn eaves_are_met_with_as_the_survey_says() {
    let found = |survey: &str| {
        let house = house_with("[covering]", &format!("[covering]\n{survey}"));
        let eave = at_spot(&house, Spot::Eave)[0].clone();
        eave.found.expect("a found detail")
    };
    let usual = found("");
    assert!(usual.is_assumed && usual.failures(Attack::Ice) == Some(0), "{}", usual.detail);
    let seen = found("eave_barrier = \"36 in\"\neave_drip_edge = true");
    assert_eq!((seen.detail.as_str(), seen.is_assumed), ("eave-found-bare-barrier-drip", false));
    assert_eq!(seen.failures(Attack::Ice), Some(1));
    // 12 in end below where water stands
    assert_eq!(found("eave_barrier = \"12 in\"\neave_drip_edge = true").failures(Attack::Ice), Some(0));
    let none = found("eave_barrier = \"0 in\"\neave_drip_edge = false");
    assert_eq!((none.detail.as_str(), none.is_assumed), ("eave-found-bare", false));
    let half = found("eave_drip_edge = true\neave_barrier = \"unknown\"");
    assert_eq!((half.detail.as_str(), half.is_assumed), ("eave-found-bare-drip", true));
}

/// The place counts the weaker of the cricket in the roof and the cricket at the brick, and both are drawn.
#[test]
fn a_cricket_is_built_with_its_joint_to_the_chimney() {
    let (_, house) = details(CROSS_GABLE);
    let built: Vec<&str> = house.built().iter().map(|built| built.fit.detail.as_str()).collect();
    assert!(built.contains(&"chimney-cricket") && built.contains(&"cricket-to-brick"));
    let shipped = include_str!("../../../books/details/chimneys.toml");
    let start = shipped.find("[[detail]]\nid = \"cricket-to-brick\"\n").expect("the detail");
    let end = start + 1 + shipped[start + 1..].find("\n[[detail]]").expect("another after it");
    let open = shipped[start..end]
        .replace("let_in = true, ", "")
        .replace("brick = \"8 in\", cricket", "brick = \"1 in\", cricket");
    let without = open
        .lines()
        .filter(|line| !line.contains("counter-flashing\", material"))
        .collect::<Vec<_>>()
        .join("\n");
    let book = Book::with_overlays(&[("open.toml", &without)]).expect("an overlay that reads");
    let (_, weaker) = details_with(CROSS_GABLE, &book);
    let ice = |house: &Details| {
        at_spot(house, Spot::ChimneyHigh)[0].chosen().and_then(|fit| fit.failures(Attack::Ice))
    };
    assert!(ice(&weaker) < ice(&house), "{:?} {:?}", ice(&weaker), ice(&house));
    assert!(
        weaker.problems.iter().any(|problem| problem.message.contains("cricket-to-brick")),
        "{:?}",
        weaker.problems
    );
}

/// Common practice: only edges and ridges can keep the old roof; where flashing needs the deck it is told.
#[test]
fn a_roof_laid_over_the_old_one_shows_what_stays_and_tells_where_it_cannot() {
    let book = Book::builtin();
    let house = house_with("[covering]", "[covering]\nover = true");
    for spot in [Spot::Eave, Spot::Rake, Spot::Ridge] {
        for place in at_spot(&house, spot) {
            let detail = book.detail(&place.chosen().expect("a detail").detail).expect("of the books");
            assert!(detail.of_role(book::Role::OldCovering).next().is_some(), "{}", place.name);
        }
    }
    let told = house.problems.iter().find(|problem| problem.code == "stripped-for-flashing").expect("told");
    for name in ["valley", "sidewall", "headwall", "chimney", "stack"] {
        assert!(told.message.contains(name), "{}", told.message);
    }
    assert!(!told.message.contains("rake") && !told.message.contains("ridge"), "{}", told.message);
    assert!(details(CROSS_GABLE).1.problems.is_empty());
}

/// Names are the books' own: shingles and drip edge called otherwise are known by what they are for.
#[test]
fn an_overlay_may_name_layers_and_materials_as_it_likes() {
    let own = |text: &str| {
        text.replace("id = \"drip edge\"", "id = \"edge tin\"")
            .replace("\"drip edge\" =", "\"edge tin\" =")
            .replace("layer = \"drip edge\"", "layer = \"edge tin\"")
            .replace("laid_after = \"shingles\"", "laid_after = \"tabs\"")
            .replace("id = \"shingles", "id = \"tabs")
            .replace("\"shingles of", "\"tabs of")
            .replace("over = { shingles =", "over = { tabs =")
            .replace("id = \"kick-out\", material", "id = \"diverter\", material")
            .replace("over = { kick-out =", "over = { diverter =")
            .replace("material = \"shingles\"", "material = \"tabs\"")
            .replace("material = \"drip-edge\"", "material = \"tin\"")
    };
    let named = "[[material]]\nid = \"tabs\"\nname = \"tabs\"\ndrawn = \"band\"\nrole = \"covering\"\n\
                 stops = [\"running\", \"driven\"]\nacts = [\"courses\"]\nsource = { text = \"ours\", confidence = \"common-practice\" }\n\
                 [[material]]\nid = \"tin\"\nname = \"tin\"\ndrawn = \"metal\"\nrole = \"drip-edge\"\n\
                 stops = [\"running\", \"driven\"]\nsource = { text = \"ours\", confidence = \"common-practice\" }\n";
    let shipped = [
        include_str!("../../../books/details/edges.toml"),
        include_str!("../../../books/details/valleys.toml"),
        include_str!("../../../books/details/walls.toml"),
    ];
    let [edges, valleys, walls] = shipped.map(own);
    let edges = format!("{named}{edges}");
    let overlays =
        [("edges.toml", edges.as_str()), ("valleys.toml", valleys.as_str()), ("walls.toml", walls.as_str())];
    let book = Book::with_overlays(&overlays).unwrap_or_else(|problems| panic!("{problems}"));
    let (_, ours) = details_with(CROSS_GABLE, &book);
    let (_, theirs) = details(CROSS_GABLE);
    assert_eq!(ours.problems, []);
    for (one, other) in ours.places.iter().zip(&theirs.places) {
        let counts = |place: &Place| place.chosen().map(|fit| Attack::ALL.map(|attack| fit.failures(attack)));
        assert_eq!(counts(one), counts(other), "{}", one.name);
    }
    let eave = book.detail("eave-gutter").expect("a detail");
    assert_eq!(eave.of_role(book::Role::DripEdge).next().map(|layer| layer.id.as_str()), Some("edge tin"));
}

/// The dome of the split level on a curb or on the deck, as it is met with and as it will be; where nobody wrote which, the books' default.
#[test]
fn a_skylight_is_found_and_flashed_as_it_is_mounted() {
    let mount = |line: &str| {
        assert!(SPLIT_LEVEL.contains("mount = \"curb\"\n"));
        details(&SPLIT_LEVEL.replacen("mount = \"curb\"\n", line, 1)).1
    };
    let chosen = |house: &Details| -> Vec<[String; 2]> {
        let spots = [Spot::SkylightLow, Spot::SkylightSide, Spot::SkylightHigh];
        let places = spots.iter().flat_map(|spot| at_spot(house, *spot));
        let id = |fit: Option<&detail::Fit>| fit.map(|fit| fit.detail.clone()).unwrap_or_default();
        places.map(|place| [id(place.found.as_ref()), id(place.chosen())]).collect()
    };
    let named = |found: &str, planned: &str| {
        ["low", "side", "high"]
            .map(|side| [format!("skylight-{side}{found}"), format!("skylight-{side}{planned}")])
    };
    let (curb, deck, unknown) = (mount("mount = \"curb\"\n"), mount("mount = \"deck\"\n"), mount(""));
    assert_eq!(chosen(&curb), named("-curb-found", ""));
    assert_eq!(chosen(&deck), named("-deck-found", "-deck"));
    assert_eq!(chosen(&unknown), chosen(&curb));
    let is_assumed = |house: &Details| {
        at_spot(house, Spot::SkylightLow)[0].found.as_ref().is_some_and(|fit| fit.is_assumed)
    };
    assert_eq!([&curb, &deck, &unknown].map(is_assumed), [false, false, true]);
}
