//! The hip split level: figures worked by hand from its stated geometry.
//!
//! Source: worked example of an invented house; 4/12 and 24 in overhangs everywhere, so the slope factor is √(1 + 1/9).

mod jobs;

use book::Book;
use jobs::{Counted, HIP_SPLIT_LEVEL, changed, count, count_with, near};
use takeoff::{Place, Verdict};

fn house() -> Counted {
    count(HIP_SPLIT_LEVEL)
}

fn slope_factor() -> f64 {
    (1.0_f64 + 1.0 / 9.0).sqrt()
}

/// Plan by hand: upper 36 × 30 ft; lower 30 × 24 ft and 24 × 22 ft.
#[test]
fn areas_follow_from_the_outlines() {
    let house = house();
    near(house.ft2("plan-area"), 36.0 * 30.0 + 30.0 * 24.0 + 24.0 * 22.0, 1e-6);
    near(house.ft2("slope-area"), 2328.0 * slope_factor(), 1e-6);
}

/// Plan of the strips to a level reach `r` from the roof edge. Upper: a mitred ring in 36 × 30 ft. Lower: eaves of 128 ft; its three
/// outside corners lose r²/2 from both planes and its two ends at the wall nothing; at the valley both planes run on by r²/2. Sum: 128 r − 2 r².
fn strips_in_plan(r: f64) -> f64 {
    36.0 * 30.0 - (36.0 - 2.0 * r) * (30.0 - 2.0 * r) + 128.0 * r - 2.0 * r * r
}

/// Level reach 24 + 24 in.
#[test]
fn ice_barrier_asked_is_mitred_at_hips_and_run_into_the_valley() {
    let asked = house().takeoff.ice.outside;
    near(asked.exact.ft2(), strips_in_plan(4.0) * slope_factor(), 1e-6);
    near(asked.by_length.ft2(), 260.0 * 4.0 * slope_factor(), 1e-6);
}

#[test]
fn as_laid_two_courses_cover_68_and_a_half_inches_of_slope() {
    let laid = house().takeoff.ice.laid;
    near(laid.exact.ft2(), strips_in_plan(68.5 / 12.0 / slope_factor()) * slope_factor(), 1e-6);
}

/// Length times width takes the corners twice: on this house 10 % too much.
#[test]
fn length_times_width_is_a_tenth_too_much_on_hips() {
    let asked = house().takeoff.ice.outside;
    near(asked.by_length / asked.exact, 1.10, 0.005);
}

/// Ridges 6 + 18 + 22 ft; hips four of 15 ft and three of 12 ft of run, times √(2 + 1/9): 185.5 ft.
#[test]
fn caps_cover_ridges_and_hips() {
    let house = house();
    let hips = (4.0 * 15.0 + 3.0 * 12.0) * (2.0_f64 + 1.0 / 9.0).sqrt();
    near(house.ft("ridge-cap"), 46.0 + hips, 1e-6);
    assert_eq!(house.ordered("ridge-cap"), 10);
}

/// Runs of 24, 22, 36, 6, 46, 30, 30, 30 and 36 ft in pieces of 10 ft with 2 in laps: 3, 3, 4, 1, 5, 4, 4, 4, 4 run by run. Used
/// again: 23 whole ones, and last ones of 6.67, 6.5, 6.5, 6, 4.33, 2.33 and three of 0.5 ft out of five more.
#[test]
fn drip_edge_takes_32_pieces_run_by_run_and_28_with_offcuts() {
    let house = house();
    near(house.ft("drip-edge"), 260.0, 1e-6);
    assert_eq!(house.ordered("drip-edge"), 28);
    assert!(house.why("drip-edge").contains("each run by itself = 32"));
}

/// Both feet on the upper east wall; 12 ft of run is 12.649 ft of slope, 26.98 courses.
#[test]
fn the_lower_roof_has_two_kick_outs_and_27_step_pieces_a_side() {
    let house = house();
    assert_eq!(house.ordered("kick-out"), 2);
    assert_eq!(house.ordered("step-flashing"), 54);
    near(house.ft("edge.sidewall"), 2.0 * 12.0 * slope_factor(), 1e-6);
    assert!(house.takeoff.line("headwall-apron").is_none());
}

/// One valley of 12 ft of run: 17.436 ft and 6 in at each end.
#[test]
fn the_valley_takes_2_pieces_of_metal() {
    let house = house();
    near(house.ft("valley-metal"), 12.0 * (2.0_f64 + 1.0 / 9.0).sqrt(), 1e-6);
    assert_eq!(house.ordered("valley-metal"), 2);
}

/// Eaves less the overhang round each hip corner are the walls below: 2 × 32 + 2 × 26 ft.
#[test]
fn soffits_of_a_hip_roof_are_as_long_as_its_walls() {
    let house = count(&with_soffit(r#""9 in2/ft""#));
    near(house.takeoff.vents[0].plan.low.in2(), 9.0 * 116.0, 1e-6);
}

/// Strip vents along the 64 ft of north and south eaves, as the example plans them: 576 in², with four roof vents of 48 in² 768 in².
const STRIPS: &str = r#"{ per_length = "9 in2/ft", over = "64'" }"#;

/// The example with another soffit vent planned for the upper attic.
fn with_soffit(soffit: &str) -> String {
    changed(HIP_SPLIT_LEVEL, STRIPS, soffit)
}

/// 832 ft² over 150 is 798.7 in², over 300 399.4 in²; 192 in² high are 48 % of that and 25 % of 768 in².
#[test]
fn the_upper_attic_fails_1_150_and_passes_by_the_exception_with_its_retarder() {
    let check = &count(HIP_SPLIT_LEVEL).takeoff.vents[0];
    near(check.required.in2(), 798.72, 0.01);
    near(check.plan.total.in2(), 768.0, 0.01);
    assert!(check.plan.total < check.required);
    assert!(check.plan.parts.iter().filter(|part| part.place == Place::High).count() == 4);
    assert_eq!(check.plan.verdict, Verdict::EnoughByException);
}

/// Without the retarder the exception is gone for the upper attic, and nothing changes for the lower.
#[test]
fn without_its_retarder_only_the_upper_attic_changes() {
    let with = count(HIP_SPLIT_LEVEL).takeoff.vents;
    let without =
        count(&changed(HIP_SPLIT_LEVEL, "vapor_retarder = \"class 2\"", "vapor_retarder = \"none\""))
            .takeoff
            .vents;
    assert_eq!(without[0].plan.verdict, Verdict::NotEnough);
    assert_eq!(without[1].plan.verdict, with[1].plan.verdict);
}

/// 2009 and 2012 ask one of the conditions. In 2012 192 in² high is enough of 399.4 in²; in 2009 it is under 50 %, so the retarder decides.
#[test]
fn older_editions_ask_one_condition_only() {
    let verdict = |code: &str, retarder: &str| {
        let document = changed(HIP_SPLIT_LEVEL, "irc-2021", code);
        let document =
            changed(&document, "vapor_retarder = \"class 2\"", &format!("vapor_retarder = \"{retarder}\""));
        count(&document).takeoff.vents[0].plan.verdict
    };
    assert_eq!(verdict("irc-2009", "class 2"), Verdict::EnoughByException);
    assert_eq!(verdict("irc-2009", "none"), Verdict::NotEnough);
    assert_eq!(verdict("irc-2012", "class 3"), Verdict::EnoughByException);
    for code in ["irc-2015", "irc-2018", "irc-2021", "irc-2024"] {
        assert_eq!(verdict(code, "class 1"), Verdict::EnoughByException, "{code}");
        assert_eq!(verdict(code, "class 3"), Verdict::NotEnough, "{code}");
    }
}

/// The retarder is a condition from zone 6 up only; where the zone is not written it is taken to be asked.
#[test]
fn below_zone_6_no_retarder_is_asked() {
    let verdict = |zone: &str| {
        let document = changed(HIP_SPLIT_LEVEL, "climate_zone = \"6B\"", zone);
        let document = changed(&document, "vapor_retarder = \"class 2\"", "vapor_retarder = \"none\"");
        count(&document).takeoff.vents[0].plan.verdict
    };
    assert_eq!(verdict("climate_zone = \"5B\""), Verdict::EnoughByException);
    assert_eq!(verdict("climate_zone = \"7\""), Verdict::NotEnough);
    assert_eq!(verdict(""), Verdict::NotEnough);
}

/// More out than in does not pass by the exception, whatever the sum.
#[test]
fn more_exhaust_than_intake_does_not_pass() {
    let check = &count(&with_soffit("\"190 in2\"")).takeoff.vents[0];
    near(check.plan.total.in2(), 382.0, 0.01);
    let more = count(&with_soffit("\"210 in2\"")).takeoff.vents[0].plan.verdict;
    assert_eq!((check.plan.verdict, more), (Verdict::NotEnough, Verdict::EnoughByException));
    let vents = changed(&with_soffit("\"230 in2\""), "free_area = \"48 in2\"", "free_area = \"60 in2\"");
    assert_eq!(count(&vents).takeoff.vents[0].plan.verdict, Verdict::NotEnough);
}

/// The example with gable louvers planned for the upper attic and roof vents and soffit of another size.
fn with_louvers(louvers: &str, each_vent: &str, soffit: &str) -> String {
    let plan = "[attic.upper.plan]\n";
    let document = changed(&with_soffit(soffit), plan, &format!("{plan}gable_louvers = \"{louvers}\"\n"));
    changed(&document, "free_area = \"48 in2\"", &format!("free_area = \"{each_vent}\""))
}

/// IRC R806.2 asks where vents sit, and the job has no height for louvers. 4 × 30 in² high are 30 % of 399.4 in²; 60 in² of
/// louvers would make it 45 %, if they were within 3 ft of the ridge.
#[test]
fn louvers_of_unknown_height_do_not_help_to_the_least_that_is_high() {
    let check = &count(&with_louvers("60 in2", "30 in2", STRIPS)).takeoff.vents[0];
    near(check.plan.total.in2(), 576.0 + 120.0 + 60.0, 0.01);
    near(check.plan.high.in2(), 120.0, 0.01);
    assert_eq!(check.plan.verdict, Verdict::NotEnough);
}

/// 192 in² high and 210 in² low pass; with 20 in² of louvers, high for all the job says, 212 of 422 in² might be high: over half.
#[test]
fn louvers_of_unknown_height_do_not_help_to_the_most_that_is_high() {
    let verdict =
        |louvers| count(&with_louvers(louvers, "48 in2", "\"210 in2\"")).takeoff.vents[0].plan.verdict;
    assert_eq!(verdict("0 in2"), Verdict::EnoughByException);
    assert_eq!(verdict("17 in2"), Verdict::EnoughByException);
    assert_eq!(verdict("20 in2"), Verdict::NotEnough);
}

/// IRC 2012 asks one condition, the retarder only from zone 6 up: where the zone is not written it cannot be leaned on, and the reason says so.
#[test]
fn a_retarder_without_a_zone_would_be_met_where_one_condition_is_enough() {
    let told = |code: &str| {
        let document = changed(HIP_SPLIT_LEVEL, "irc-2021", code);
        let check = count(&changed(&document, "climate_zone = \"6B\"", "")).takeoff.vents[0].clone();
        let conditions = check.because.into_iter().find(|because| because.what.starts_with("conditions"));
        let inputs = conditions.expect("the conditions").inputs;
        inputs.into_iter().find(|(what, _)| what.contains("retarder")).expect("the retarder").1
    };
    assert_eq!(told("irc-2012"), "would be met; the job does not say the climate zone");
    assert_eq!(told("irc-2009"), "met");
    assert_eq!(told("irc-2021"), "met");
}

/// The ridge is at 17.333 ft; at y = 3 the south plane is 3.333 ft below it.
#[test]
fn a_roof_vent_far_below_the_ridge_does_not_count_as_high() {
    let low = changed(HIP_SPLIT_LEVEL, r#"at = ["14'", "10'"]"#, r#"at = ["14'", "3'"]"#);
    let plan = count(&low).takeoff.vents[0].plan.clone();
    near(plan.high.in2(), 144.0, 0.01);
    near(plan.total.in2(), 768.0, 0.01);
    assert_eq!(plan.verdict, Verdict::NotEnough, "36 % of the required area is high");
}

#[test]
fn a_vent_without_a_label_is_told_to_be_assumed() {
    let lower = &house().takeoff.vents[1];
    let assumed: Vec<_> =
        lower.because.iter().filter(|because| because.what.starts_with("assumed")).collect();
    assert_eq!(assumed.len(), 2, "{assumed:#?}");
    assert!(lower.because.iter().all(|because| !because.source.text.is_empty()));
}

/// A power ventilator lets air through only while it runs, and its free area is not written.
#[test]
fn a_power_ventilator_is_no_opening() {
    let lower = &house().takeoff.vents[1];
    near(lower.found.high.in2(), 100.0, 0.01);
    assert!(lower.found.parts.iter().all(|part| part.name != "power ventilator"));
}

/// An overlay changes what is counted: half rolls of 100 ft².
#[test]
fn a_roll_of_the_yards_own_size_is_counted_by_it() {
    let roll = r#"
[[package]]
id = "ice-barrier"
name = "ice barrier of the yard"
unit = "roll"
form.roll = { width = "36 in", length = "33' 4\"", side_lap = "3 1/2 in", end_lap = "6 in" }
source = { text = "label", confidence = "published" }
"#;
    let book = Book::with_overlays(&[("yard.toml", roll)]).unwrap();
    let (half, whole) = (count_with(HIP_SPLIT_LEVEL, &book), house());
    near(half.ft2("ice-barrier"), whole.ft2("ice-barrier"), 1e-9);
    assert_eq!(half.ordered("ice-barrier").div_ceil(2), whole.ordered("ice-barrier"));
}
