//! What is already on the house.

use book::Spot;
use detail::At;
use study::Study;
use study::code::Verdict;

use crate::sheets::{CROSS_GABLE, changed, gable, row, verdict};
use crate::support::{block, house, near, places, refused, says, study, warned, warns};

fn covered(covering: &str) -> Study {
    study(&changed(&gable("irc-2018", "6/12", 12.0), "layers = 1", covering))
}

/// IRC R908.3.1.1: no new roof over two or more.
#[test]
fn a_roof_over_one_layer_is_allowed_with_conditions_and_over_two_refused() {
    let over =
        |layers: u8| covered(&format!("layers = {layers}\nover = true\nold = \"asphalt\"\nsound = true"));
    let one = over(1);
    assert_eq!(verdict(&one.code, "recover"), Verdict::Pass);
    assert_eq!(verdict(&one.code, "ice_barrier"), Verdict::Pass, "where the old roof is torn off for it");
    warns(&one, "laid-over", &["no ice barrier", "deck", "2.5 psf", "engineer", "owner"]);
    assert_eq!(verdict(&over(2).code, "recover"), Verdict::Fail);
    assert_eq!(warned(&covered("layers = 2"), "laid-over"), Vec::<&job::Problem>::new());
}

#[test]
fn wood_shingles_beneath_asphalt_are_a_layer_and_come_off_with_it() {
    let buried = "over = true\nold = \"asphalt\"\nbeneath = \"wood shingle\"\nsound = true";
    assert_eq!(verdict(&covered(&format!("layers = 2\n{buried}")).code, "recover"), Verdict::Fail);
    let miscounted =
        changed(&gable("irc-2018", "6/12", 12.0), "layers = 1", &format!("layers = 1\n{buried}"));
    let problems = refused(&miscounted);
    assert_eq!(problems[0].code, "layer-beneath");
    says(&problems[0], &["wood shingle", "2"]);
    let torn = covered("layers = 2\nold = \"asphalt\"\nbeneath = \"wood shingle\"");
    assert_eq!(verdict(&torn.code, "replacement"), Verdict::Pass);
    warns(&torn, "spaced-boards", &["wood shingle", "new deck", "1/2 in"]);
}

#[test]
fn a_dead_chimney_taken_down_takes_its_four_details_with_it() {
    let sides = [Spot::ChimneyLow, Spot::ChimneySide, Spot::ChimneyHigh];
    let stays = study(CROSS_GABLE);
    let chosen = |study: &Study| {
        sides.iter().flat_map(|spot| places(study, *spot)).filter(|place| place.chosen().is_some()).count()
    };
    assert_eq!(chosen(&stays), 3);
    assert_eq!(stays.roof.crickets.len(), 1);
    let gone = study(&changed(
        CROSS_GABLE,
        "size = [\"32 in\", \"24 in\"] ",
        "state = \"remove\"\nsize = [\"32 in\", \"24 in\"] ",
    ));
    assert_eq!(chosen(&gone), 0);
    assert_eq!(gone.roof.crickets.len(), 0);
    let named = |study: &Study| {
        study.code.rows.iter().flat_map(|row| &row.places).filter(|name| name.starts_with("chimney")).count()
    };
    assert!(named(&stays) > 0 && named(&gone) == 0, "{} {}", named(&stays), named(&gone));
    assert!(
        places(&gone, Spot::ChimneyLow)
            .iter()
            .all(|place| matches!(place.at, At::Opening(_)) && place.found.is_some())
    );
}

/// Boards with gaps over 1/4 in want a panel over them; whether they count as solid decking is the official's to say.
#[test]
fn gapped_planks_take_an_overlay_and_the_official_says_whether_they_are_solid() {
    let planks = |gap: &str| {
        let deck = format!(
            "deck = {{ kind = \"board\", thickness = \"3/4 in\", board_width = \"6 in\", gap = \"{gap}\" }}"
        );
        study(&changed(
            &gable("irc-2018", "6/12", 12.0),
            "deck = { kind = \"plywood\", thickness = \"1/2 in\" }",
            &deck,
        ))
    };
    let wide = planks("5/8 in");
    warns(&wide, "deck-gaps", &["`main`", "5/8\"", "panel", "nails", "edge metal"]);
    let Verdict::CannotTell { missing } = &row(&wide.code, "solid_deck", "deck of main").planned else {
        panic!("told")
    };
    assert!(missing.contains("official"), "{missing}");
    assert_eq!(warned(&planks("1/4 in"), "deck-gaps"), Vec::<&job::Problem>::new());
}

/// It is taken off and put back, and counts nowhere else: what is taken off, laid and flashed is as without it.
#[test]
fn a_solar_array_comes_off_before_tear_off_and_is_no_obstacle() {
    let bare = gable("irc-2018", "6/12", 12.0);
    let with = |rest: &str| format!("{bare}[[array]]\non = \"main {rest}\n");
    let [plain, covered] = [study(&bare), study(&with("S\""))];
    warns(
        &covered,
        "solar-array",
        &[
            "`main S`",
            "before the tear-off of that plane",
            "licensed electrician takes it off",
            "puts it back",
            "mounts stand in rafters, each with a flashing",
            "each plane it covers to be opened and closed in one day",
        ],
    );
    assert_eq!(warned(&plain, "solar-array"), Vec::<&job::Problem>::new());
    assert_eq!(covered.warnings.len(), plain.warnings.len() + 1);
    assert_eq!(covered.takeoff.lines, plain.takeoff.lines);
    assert_eq!(covered.details.places.len(), plain.details.places.len());
    assert_eq!(covered.roof.openings, plain.roof.openings);
    let comes = study(&with("S\"\nstate = \"plan\""));
    warns(
        &comes,
        "solar-array",
        &["comes onto `main S`", "mounts stand in rafters", "electrician puts it up"],
    );
    let goes = study(&with("S\"\nstate = \"remove\""));
    warns(&goes, "solar-array", &["for good", "electrician takes it off", "close the holes"]);
    let problems = refused(&with("E\""));
    assert_eq!(problems[0].code, "unknown-plane");
    says(&problems[0], &["array", "`main E`", "main N"]);
}

/// Metal sheds its snow where its water falls. Only the old roof can be of metal: what a job lays is a shingle of the books.
#[test]
fn metal_over_a_way_in_wants_guards_or_a_canopy_and_the_frame_looked_at() {
    let with = |old: &str, at: [&str; 2]| {
        let walk = format!(
            "[[walk]]\nname = \"steps\"\nat = [\"{}\", \"{}\"]\nsize = [\"4 ft\", \"4 ft\"]\n",
            at[0], at[1]
        );
        let job =
            changed(&gable("irc-2018", "6/12", 12.0), "layers = 1", &format!("layers = 1\nold = \"{old}\""));
        study(&(job + &walk))
    };
    let below_the_eave = ["4 ft", "-5 ft"];
    let metal = with("metal", below_the_eave);
    warns(&metal, "metal-sheds", &["`steps`", "guards", "canopy", "engineer"]);
    assert!(warned(&with("metal", ["4 ft", "-30 ft"]), "metal-sheds").is_empty(), "clear of the roof");
    assert!(warned(&with("asphalt", below_the_eave), "metal-sheds").is_empty(), "shingles hold it");
}

/// Under three squares set-up makes the cost.
#[test]
fn a_repair_of_two_squares_is_not_reckoned_by_its_area() {
    let shed = |length: f64| {
        let block = block(
            "shed",
            [0.0, 0.0, length, 8.0],
            "8 ft",
            "form = \"shed\", high = \"north\", pitch = \"6/12\"",
            "\"0 in\"",
        );
        study(&house(&[block]))
    };
    let small = shed(22.0);
    near(small.roof.slope_area().squares(), 22.0 * 8.0 * 1.25_f64.sqrt() / 100.0, 1e-9);
    warns(&small, "small-repair", &["1.97 squares", "minimum charge"]);
    assert!(warned(&shed(34.0), "small-repair").is_empty());
}
