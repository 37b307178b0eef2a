//! Attics and what is blown into them.

use study::Study;
use study::code::Verdict;

use crate::sheets::{gable, row};
use crate::support::{block, house, near, opening, study, warned, warns};

/// A gable of 40 by 28 ft with an attic, as planned and with more at its end.
fn attic(plan: &str, more: &str) -> Study {
    study(
        &(gable("irc-2018", "6/12", 12.0)
            + &format!(
                "[attic.main]\nunder = [\"main\"]\n[attic.main.plan]\nsoffit_open = \"600 in2\"\n{plan}\n{more}"
            )),
    )
}

fn box_vent(name: &str, x: &str, state: &str) -> String {
    opening("box-vent", name, [x, "17 ft"], ["8 in", "8 in"], state) + "free_area = \"50 in2\"\n"
}

#[test]
fn a_bath_fan_that_ends_in_the_attic_fails_until_a_hood_is_planned() {
    let fan = "[[fan]]\nroom = \"bath\"\nends = \"attic\"\n";
    let none = attic("", fan);
    assert_eq!(row(&none.code, "exhaust", "bath fan 1").planned, Verdict::Fail);
    let hood = "[[opening]]\nkind = \"hood\"\nname = \"cap\"\nat = [\"20 ft\", \"20 ft\"]\nsize = \"4 in\"\nstate = \"plan\"\n";
    let capped = attic("", &format!("{fan}{hood}"));
    let row = row(&capped.code, "exhaust", "bath fan 1");
    assert_eq!((row.found.clone(), row.planned.clone()), (Some(Verdict::Fail), Verdict::Pass));
    let cap = capped.details.places.iter().find(|place| place.name == "cap").expect("a hood to flash");
    assert_eq!(cap.chosen().map(|fit| fit.detail.as_str()), Some("hood"));
}

#[test]
fn exhaust_of_more_than_one_kind_over_one_attic_is_told_with_what_to_close() {
    let ridge = "ridge_vent = { per_length = \"12 in2/ft\" }";
    let both = attic(ridge, &box_vent("box", "10 ft", "found"));
    warns(&both, "mixed-exhaust", &["attic `main`", "ridge vent", "box vent", "`box`", "close"]);
    let louvers = attic(&format!("{ridge}\ngable_louvers = \"100 in2\""), "");
    warns(&louvers, "mixed-exhaust", &["ridge vent", "gable louvers"]);
    let fan = opening("power-vent", "blower", ["30 ft", "17 ft"], ["14 in", "14 in"], "found");
    let blown = attic("", &(box_vent("box", "10 ft", "found") + &fan));
    warns(&blown, "mixed-exhaust", &["box vent", "power vent", "`blower`", "electrician"]);
    for clean in
        [attic(ridge, &box_vent("box", "10 ft", "remove")), attic("", &box_vent("box", "10 ft", "found"))]
    {
        assert_eq!(warned(&clean, "mixed-exhaust"), Vec::<&job::Problem>::new());
    }
}

/// A hip of 32 by 28 ft at 6/12 has a ridge of 4 ft, whose slot stops 12 in short of the hips at both ends: 2 ft at 18 in² are 36 in². The attic of
/// 896 ft² asks 896 / 300 × 144 = 430 in² under conditions, of which no more than a fifth would be the ridge.
#[test]
fn a_tiny_ridge_on_a_hip_does_not_vent_its_attic_and_box_vents_do() {
    let hip = |plan: &str, more: &str| {
        study(&house(&[
            block("main", [0.0, 0.0, 32.0, 28.0], "9 ft", "form = \"hip\", pitch = \"6/12\"", "\"12 in\""),
            format!(
                "[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"class 2\"\n[attic.main.plan]\nsoffit_open = \"300 in2\"\n{plan}\n{more}"
            ),
        ]))
    };
    let ridge = hip("ridge_vent = { per_length = \"18 in2/ft\" }", "");
    let vents = &ridge.takeoff.vents[0];
    near(vents.plan.high.in2(), 36.0, 1e-6);
    near(vents.reduced.in2(), 896.0 / 300.0 * 144.0, 1e-6);
    assert_eq!(vents.plan.verdict, takeoff::Verdict::NotEnough);
    assert_eq!(row(&ridge.code, "attic_vents", "attic main").planned, Verdict::Fail);
    let boxes: String = [13.0, 15.0, 17.0, 19.0]
        .map(|x| {
            opening("box-vent", &format!("box {x}"), [&format!("{x} ft"), "16 ft"], ["8 in", "8 in"], "plan")
                + "free_area = \"50 in2\"\n"
        })
        .concat();
    let boxed = hip("", &boxes);
    near(boxed.takeoff.vents[0].plan.high.in2(), 200.0, 1e-6);
    assert_eq!(row(&boxed.code, "attic_vents", "attic main").planned, Verdict::Pass);
}

#[test]
fn soffit_vents_under_a_roof_without_overhang_are_told() {
    let flush = study(
        &(gable("irc-2018", "6/12", 0.0)
            + "[attic.main]\nunder = [\"main\"]\n[attic.main.plan]\nsoffit_open = \"600 in2\"\n"),
    );
    warns(&flush, "no-soffit", &["attic `main`", "over the fascia"]);
    assert_eq!(warned(&attic("", ""), "no-soffit"), Vec::<&job::Problem>::new());
}

/// A hood on the north plane of a gable whose ridge is at y = 14 ft. At 6/12, a point d up from the ridge in plan is 1.118 d from it.
#[test]
fn what_is_blown_out_or_burnt_keeps_clear_of_the_ridge_vent() {
    let ridge = "ridge_vent = { per_length = \"12 in2/ft\" }";
    let at = |kind: &str, feet: f64, serves: &str| {
        let y = format!("{} ft", 14.0 + feet);
        attic(ridge, &(opening(kind, "cap", ["20 ft", &y], ["4 in", "4 in"], "plan") + serves))
    };
    // 3 ft and its half width of 2 in are 2.832 ft in plan
    warns(&at("hood", 2.8, ""), "exhaust-near", &["`cap`", "ridge vent", "2' 11 5/8\"", "3'"]);
    assert!(warned(&at("hood", 2.84, ""), "exhaust-near").is_empty());
    let boiler = at("pipe", 5.0, "serves = \"fuel\"\n");
    warns(&boiler, "fuel-vent-near", &["`cap`", "ridge vent", "installer", "listing", "never cap"]);
    assert!(warned(&at("pipe", 5.0, ""), "fuel-vent-near").is_empty());
    let none = attic("", &(opening("hood", "cap", ["20 ft", "15 ft"], ["4 in", "4 in"], "plan")));
    assert!(warned(&none, "exhaust-near").is_empty());
}
