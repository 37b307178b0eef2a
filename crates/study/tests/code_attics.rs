//! Clauses on attics: each passes, fails and is beyond telling.
//!
//! Sources: IRC R806 and R807 as the rows of `books/editions.toml` give them; clear ways worked by hand from heel and pitch.

mod sheets;

use Verdict::{Fail, Pass};
use sheets::{changed, gable, inches, missing, near, sheet, verdict};
use study::code::{CodeSheet, Verdict};

/// A gable of 40 by 28 ft with an attic, and more of it.
fn attic(more: &str) -> CodeSheet {
    framed("", more)
}

/// The same over trusses or rafters as written.
fn framed(framing: &str, more: &str) -> CodeSheet {
    let document = changed(&gable("irc-2018", "6/12", 12.0), "fascia = ", &format!("{framing}fascia = "));
    sheet(&(document + &format!("[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"none\"\n{more}\n")))
}

#[test]
fn attics_are_reached_or_not() {
    for (access, wanted) in [
        ("access = [\"30 in\", \"22 in\"]", Pass),
        ("access = [\"21 7/8 in\", \"54 in\"]", Fail),
        ("", missing("attic.main.access")),
    ] {
        assert_eq!(verdict(&attic(access), "attic_access"), wanted, "{access}");
    }
}

/// IRC R806.1 asks ventilation from one side to another: low and above, or by louvers in opposite gables.
#[test]
fn air_goes_through_by_each_arrangement_that_has_a_way_in_and_another_out() {
    let boxes = "[[opening]]\nkind = \"box-vent\"\nat = [\"20 ft\", \"16 ft\"]\nsize = [\"8 in\", \"8 in\"]\nfree_area = \"50 in2\"\n";
    let alone = missing("whether the official takes soffits alone as cross ventilation");
    for (vents, wanted) in [
        ("soffit_open = \"600 in2\"\nridge_vent = \"500 in2\"", Pass),
        ("soffit_open = \"600 in2\"\ngable_louvers = \"500 in2\"", Pass),
        (&format!("soffit_open = \"600 in2\"\n{boxes}"), Pass),
        ("soffit_open = \"0 in2\"\ngable_louvers = \"1100 in2\"\nopposite_louvers = true", Pass),
        ("gable_louvers = \"1100 in2\"\nopposite_louvers = true", Pass),
        ("soffit_open = \"0 in2\"\ngable_louvers = \"1100 in2\"\nopposite_louvers = false", Fail),
        (
            "soffit_open = \"0 in2\"\ngable_louvers = \"1100 in2\"",
            missing("attic.main.plan.opposite_louvers"),
        ),
        ("soffit_open = \"0 in2\"\ngable_louvers = \"600 in2\"\nridge_vent = \"500 in2\"", Pass),
        ("soffit_open = \"0 in2\"\nridge_vent = \"500 in2\"", Fail),
        (&format!("soffit_open = \"0 in2\"\n{boxes}"), Fail),
        ("soffit_open = \"0 in2\"", Fail),
        ("soffit_open = \"600 in2\"", alone),
        ("", missing("attic.main.found.soffit_open")),
    ] {
        assert_eq!(verdict(&attic(&format!("[attic.main.plan]\n{vents}")), "cross_vents"), wanted, "{vents}");
    }
}

/// Louvers that were found in opposite gables stay so; under a shed roof there is one eave, and no other side.
#[test]
fn louvers_found_opposite_stay_so_and_one_eave_is_one_side() {
    let found =
        "[attic.main.found]\nsoffit_open = \"0 in2\"\ngable_louvers = \"1100 in2\"\nopposite_louvers = true";
    let louvers = attic(found);
    let crossing = louvers.rule("cross_vents").next().unwrap();
    assert_eq!((crossing.found.as_ref(), &crossing.planned), (Some(&Pass), &Pass));
    let shed = changed(
        &gable("irc-2018", "6/12", 12.0),
        "form = \"gable\", ridge = \"x\"",
        "form = \"shed\", high = \"north\"",
    );
    let one_eave = "[attic.main]\nunder = [\"main\"]\n[attic.main.plan]\nsoffit_open = \"600 in2\"\n";
    assert_eq!(verdict(&sheet(&(shed + one_eave)), "cross_vents"), Fail);
}

const HEEL: &str = "framing = { kind = \"truss\", spacing = \"24 in\", heel = \"5 1/4 in\" }\n";

/// At 6/12 the slope factor is √1.25: a heel of 5 1/4 in over 4 in of insulation leaves 1 1/4 in upright and 1.118 in square to the deck, over 4 1/4 in 0.894 in.
#[test]
fn insulation_that_comes_decides_the_clear_way_and_not_what_was_found_before_it() {
    let of = |plan: &str| {
        framed(
            HEEL,
            &format!(
                "[attic.main.found]\nsoffit_open = \"600 in2\"\nclear_way = \"2 in\"\n[attic.main.plan]\n{plan}"
            ),
        )
    };
    let blown = "insulation = \"R-60 blown\"\neffective = \"R-52\"\n";
    let asked = |plan: &str| verdict(&of(plan), "vent_clearance");
    assert_eq!(asked(""), Pass, "nothing comes, so what was found stays");
    assert_eq!(asked(blown), missing("attic.main.plan.baffles or attic.main.plan.insulation_depth"));
    assert_eq!(asked(&format!("{blown}insulation_depth = \"4 in\"")), Pass);
    assert_eq!(asked(&format!("{blown}insulation_depth = \"4 1/4 in\"")), Fail);
    assert_eq!(asked(&format!("{blown}insulation_depth = \"16 in\"")), Fail);
    assert_eq!(asked(&format!("{blown}clear_way = \"1 in\"")), Pass);
    assert_eq!(asked(&format!("{blown}clear_way = \"7/8 in\"")), Fail);
    let sheet = of(&format!("{blown}insulation_depth = \"4 in\""));
    let way = &sheet.rule("vent_clearance").next().unwrap().checks[0];
    near(inches(way.planned.provided), 1.25 / 1.25_f64.sqrt(), 1e-9);
    near(inches(way.found.as_ref().unwrap().provided), 2.0, 1e-9);
    let no_heel = format!("[attic.main.plan]\nsoffit_open = \"600 in2\"\n{blown}insulation_depth = \"4 in\"");
    assert_eq!(verdict(&attic(&no_heel), "vent_clearance"), missing("block.main.framing.heel"));
}

/// Two eaves of 40 ft between the rakes have 20 bays of 24 in each; a strip of 30 ft takes in at 15 of them.
#[test]
fn baffles_in_every_bay_that_takes_air_in_keep_the_way_clear() {
    let of = |framing: &str, plan: &str| {
        let plan =
            format!("[attic.main.plan]\ninsulation = \"R-60 blown\"\ninsulation_depth = \"16 in\"\n{plan}");
        verdict(&framed(framing, &plan), "vent_clearance")
    };
    let all = "soffit_open = \"9 in2/ft\"\n";
    assert_eq!(of(HEEL, &format!("{all}baffles = 40")), Pass);
    assert_eq!(of(HEEL, &format!("{all}baffles = 39")), Fail);
    assert_eq!(of(HEEL, &format!("{all}baffles = 0")), Fail, "the insulation fills the heel");
    let part = "soffit_open = { per_length = \"9 in2/ft\", over = \"30 ft\" }\n";
    assert_eq!(of(HEEL, &format!("{part}baffles = 15")), Pass);
    assert_eq!(of(HEEL, &format!("{part}baffles = 14")), Fail);
    assert_eq!(of("", &format!("{all}baffles = 40")), missing("block.main.framing.spacing"));
}

#[test]
fn an_attic_that_takes_no_air_in_at_its_eaves_needs_no_clear_way_there() {
    let louvers = attic("[attic.main.plan]\nsoffit_open = \"0 in2\"\ngable_louvers = \"1100 in2\"");
    assert_eq!(louvers.rule("vent_clearance").count(), 0);
    assert!(louvers.unasked.iter().any(|u| u.clause == "R806.3"));
    assert_eq!(verdict(&attic(""), "vent_clearance"), missing("attic.main.found.clear_way"));
}

/// 1,120 ft² ask 1,075.2 in². A vent without label is taken as 50 in², which must not decide: 1,050 in² and it are enough, 1,000 in² and it are not.
#[test]
fn a_vent_without_a_label_does_not_decide() {
    let of = |soffit: u32| {
        let vent = "[[opening]]\nkind = \"box-vent\"\nname = \"old\"\nat = [\"20 ft\", \"16 ft\"]\nsize = [\"8 in\", \"8 in\"]\nfree_area = \"unknown\"\n";
        let plan = format!("[attic.main.plan]\nsoffit_open = \"{soffit} in2\"\n");
        let more = format!("{vent}[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"none\"\n{plan}");
        verdict(&sheet(&(gable("irc-2018", "6/12", 12.0) + &more)), "attic_vents")
    };
    assert_eq!(of(1100), Pass);
    assert_eq!(of(1050), missing("opening.old.free_area"));
    assert_eq!(of(1000), Fail);
}
