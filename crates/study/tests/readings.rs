//! What spare readings do to a job, on houses whose true measures are known.

mod houses;

use houses::random::Chance;
use houses::{BOOK, House, Spare, adjust, cross_gable, hip_split_level, read, realistic_spares};
use job::{Job, Problem};
use measure::Length;
use proptest::prelude::*;
use roof::Roof;
use study::{Adjusted, Fit, Judged, Origin, Study, Value};

const EXAMPLES: [&str; 2] = [
    include_str!("../../../examples/cross-gable.toml"),
    include_str!("../../../examples/hip-split-level.toml"),
];
/// Documents of the tests are written to a billionth of a foot.
const AS_WRITTEN: f64 = 1e-8;

fn random_house(seed: u64) -> House {
    Chance::of(seed).house()
}

fn fit(document: &str) -> Fit {
    adjust(document).adjustment.expect("there are spare readings").settled
}

fn reading<'f>(fit: &'f Fit, name: &str) -> &'f Judged {
    let found = fit.readings.iter().find(|reading| reading.name == name);
    found.unwrap_or_else(|| {
        panic!("no `{name}` in {:?}", fit.readings.iter().map(|r| &r.name).collect::<Vec<_>>())
    })
}

/// Farthest any corner or plate of two jobs lies apart.
fn farthest(one: &Job, other: &Job) -> f64 {
    let numbers = |job: &Job| -> Vec<f64> {
        let corners = job.blocks.iter().flat_map(|block| block.contours.iter().flatten().flatten().copied());
        let edges = job.blocks.iter().flat_map(|block| block.edges.iter().flatten());
        corners.chain(edges.map(|edge| edge.plate.value.m())).collect()
    };
    numbers(one).iter().zip(numbers(other)).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
}

#[test]
fn without_spare_readings_a_job_is_studied_as_written() {
    for text in EXAMPLES {
        let job = read(text);
        let study = Study::of(&job, &BOOK).expect("a sound example");
        assert_eq!((&study.job, &study.adjustment), (&job, &None));
        assert_eq!(Ok(study.roof), Roof::of(&job, &BOOK));
        assert_eq!(study.assumptions, job.assumptions);
    }
}

#[test]
fn walls_taped_twice_meet_at_their_weighted_mean() {
    // size to 1/2 in by the books, the wall to 1/4 in: the wall weighs four times as much
    let house = cross_gable();
    let twice = house.document(&[(Spare::Wall(0, 0), 40.0 + 1.0 / 12.0)]) + "spread = \"1/4 in\"\n";
    let fit = fit(&twice);
    let wanted = Length::from_ft(40.0) + Length::from_in(0.8);
    assert!((reading(&fit, "south wall of main").adjusted.si() - wanted.m()).abs() < AS_WRITTEN);
    assert!((reading(&fit, "size of main along its x").adjusted.si() - wanted.m()).abs() < AS_WRITTEN);
    assert_eq!(fit.degrees_of_freedom, 2, "the wall, and the plate that main and wing share");
}

/// Whether no pitch was moved.
fn stands_as_read(fit: &Fit) -> bool {
    let moved =
        |judged: &Judged| matches!(judged.residual, Value::Pitch(pitch) if pitch.slope().abs() > 1e-6);
    !fit.readings.iter().any(moved)
}

/// A rafter of a roof framed to 4/12, read a quarter inch long, must not turn 4/12 into 4.01/12; but rafters and a ridge of a roof
/// at 4.5/12 speak against a gauge that says 4/12. Run of the rafter over the walls 13 ft.
#[test]
fn a_pitch_stands_as_read_until_the_readings_speak_against_it() {
    let rafter = |pitch: f64| 13.0 * f64::hypot(1.0, pitch / 12.0);
    let pitch = |readings: &[(&str, &str, f64)]| {
        let house = include_str!("../../../examples/cross-gable.toml").replacen(
            "pitch = \"6/12\"",
            "pitch = \"4/12\"",
            1,
        );
        let written = readings.iter().map(|(what, of, feet)| {
            format!("\n[[reading]]\nwhat = \"{what}\"\nof = \"{of}\"\nvalue = \"{feet:.3} ft\"\n")
        });
        let main = &adjust(&(house + &written.collect::<String>())).job.blocks[0];
        let job::EdgeSlope::Pitch(pitch) = &main.edges[0][0].slope else { panic!("an eave") };
        pitch.value.rise_per_12()
    };
    let long = rafter(4.0) + 0.02;
    assert!((pitch(&[("rafter", "main north", long)]) - 4.0).abs() < 1e-12);
    let steep = rafter(4.5);
    let ridge = 17.0 + 13.0 * 4.5 / 12.0;
    let against =
        [("rafter", "main north", steep), ("rafter", "main south", steep), ("ridge height", "main", ridge)];
    assert!((pitch(&against) - 4.5).abs() < 0.05, "{}", pitch(&against));
}

#[test]
fn an_unknown_plate_follows_the_eave_that_was_taped() {
    let house = cross_gable();
    let document = house.document(&house.true_spares(&[Spare::Eave(2)]));
    let unknown = document.replacen("plate = \"7.250000000 ft\"", "plate = \"unknown\"", 1);
    assert_ne!(unknown, document);
    let adjusted = adjust(&unknown);
    let plate = adjusted.job.blocks[2].edges[0][0].plate.value.ft();
    // the default of 9 ft is good to 1 ft, the eave to about 1/2 in
    assert!((plate - 7.25).abs() < 0.02, "{plate}");
    let fit = adjusted.adjustment.expect("an adjustment").settled;
    let assumed = reading(&fit, "assumed plate of porch");
    assert!(assumed.origin == Origin::Assumed && assumed.redundancy > 0.99, "{assumed:?}");
}

#[test]
fn readings_that_have_no_equation_are_left_aside_with_a_warning() {
    let text = cross_gable().document(&[])
        + "[[reading]]\nwhat = \"eave height\"\nof = \"main east\"\nvalue = \"16'\"\n";
    let adjusted = adjust(&text);
    assert_eq!(adjusted.adjustment, None);
    assert_eq!(
        houses::plain(&adjusted.warnings, &text),
        "38:1: warning[reading-unused]: the east eave height of main checks nothing: no roof plane rises from that side\n  \
         mend: take it out, or name another side or block\n"
    );
}

/// Blocks of one form each, with the side a rafter of theirs rises from.
const FORMS: [(&str, &str); 9] = [
    ("form = \"gable\", ridge = \"y\", pitch = \"6/12\"", "east"),
    ("form = \"saltbox\", ridge = \"x\", pitch = { south = \"4/12\", north = \"8/12\" }", "north"),
    ("form = \"hip\", pitch = \"5/12\"", "west"),
    ("form = \"hip\", pitch = \"5/12\", gable = [\"east\"]", "south"),
    ("form = \"shed\", high = \"west\", pitch = \"3/12\"", "east"),
    (
        "form = \"half-hip\", ridge = \"x\", pitch = \"9/12\", hip_from = \"3'\", hip_pitch = \"12/12\"",
        "south",
    ),
    ("form = \"hip-skirt\", ridge = \"x\", pitch = \"7/12\", skirt = \"4'\"", "south"),
    (
        "form = \"gambrel\", ridge = \"x\", break = \"5'\", pitch = { lower = \"20/12\", upper = \"5/12\" }",
        "north",
    ),
    ("form = \"mansard\", break = \"3'\", pitch = { lower = \"20/12\", upper = \"4/12\" }", "south"),
];

/// A document of one block.
fn one_block(roof: &str, overhang: &str) -> String {
    head()
        + &format!(
            "[[block]]\nname = \"main\"\nat = [\"0'\", \"0'\"]\nsize = [\"34'\", \"22'\"]\nplate = \"9'\"\nroof = {{ {roof} }}\n\
         overhang = \"{overhang}\"\nfascia = \"6 in\"\n"
        )
}

/// A document up to its first block.
fn head() -> String {
    let mut text = cross_gable().document(&[]);
    text.truncate(text.find("[[block]]").expect("a block"));
    text
}

/// The eave and ridge of a block as the measured roof has them.
#[test]
fn heights_are_those_of_the_measured_roof() {
    for (form, side) in FORMS {
        let text = one_block(form, "16 in");
        let roof = Roof::of(&read(&text), &BOOK).unwrap_or_else(|problems| panic!("{form}: {problems:?}"));
        let heights = || roof.planes.iter().flat_map(|plane| &plane.outline).map(|corner| corner[2]);
        let overhang = Length::from_in(16.0).m();
        let (low, top) = (heights().fold(f64::MAX, f64::min), heights().fold(f64::MIN, f64::max));
        let top = if form.contains("shed") { top - overhang * 0.25 } else { top }; // back from the eave to the wall
        for (what, value) in
            [("ridge height\"\nof = \"main", top), (&format!("eave height\"\nof = \"main {side}"), low)]
        {
            let text = format!("{text}[[reading]]\nwhat = \"{what}\"\nvalue = \"{value} m\"\n");
            if what.contains("eave") && form.contains("saltbox") {
                continue; // its two eaves are not level
            }
            let fit = fit(&text);
            let spare = fit.readings.last().expect("a spare reading");
            assert!(spare.residual.si().abs() < AS_WRITTEN, "{form}: {spare:?}");
        }
    }
}

/// A rafter is as long as the planes above a side are on the slope, from wall line to ridge.
#[test]
fn rafters_are_as_long_as_the_measured_planes_are_high() {
    for (form, side) in FORMS {
        let text = one_block(form, "0 in");
        let roof = Roof::of(&read(&text), &BOOK).unwrap_or_else(|problems| panic!("{form}: {problems:?}"));
        let azimuth = match side {
            "north" => 0.0,
            "east" => 90.0,
            "south" => 180.0,
            _ => 270.0,
        };
        let facing = roof.planes.iter().filter(|plane| (plane.azimuth_degrees - azimuth).abs() < 1e-6);
        let length: f64 = facing
            .map(|plane| {
                let heights = plane.outline.iter().map(|corner| corner[2]);
                let rise = heights.clone().fold(f64::MIN, f64::max) - heights.fold(f64::MAX, f64::min);
                rise * plane.pitch.slope_factor() / plane.pitch.slope()
            })
            .sum();
        let text =
            format!("{text}[[reading]]\nwhat = \"rafter\"\nof = \"main {side}\"\nvalue = \"{length} m\"\n");
        let fit = fit(&text);
        let spare = fit.readings.last().expect("a spare reading");
        assert!(spare.residual.si().abs() < AS_WRITTEN, "{form}: {spare:?}");
    }
}

#[test]
fn a_turned_house_is_adjusted_like_one_that_is_not() {
    for (house, degrees) in [(cross_gable(), 30.0), (hip_split_level(), -73.0), (hip_split_level(), 90.0)] {
        let mut chance = Chance::of(5);
        let taped = chance.taped(&house, 0.5);
        let spares = chance.taped_spares(&house, &realistic_spares(&house), 0.5);
        let turned = House { turn_degrees: degrees, ..taped.clone() };
        let (one, other) = (fit(&taped.document(&spares)), fit(&turned.document(&spares)));
        let spare = |fit: &Fit| {
            fit.readings.iter().filter(|one| one.origin == Origin::Spare).cloned().collect::<Vec<_>>()
        };
        assert_eq!(one.degrees_of_freedom, other.degrees_of_freedom);
        for (one, other) in spare(&one).iter().zip(&spare(&other)) {
            assert!((one.residual.si() - other.residual.si()).abs() < 1e-7, "{degrees}: {one:?} {other:?}");
        }
    }
}

#[test]
fn a_reading_no_house_can_have_is_named_and_left_out() {
    let house = cross_gable();
    let mut spares = house.true_spares(&realistic_spares(&house));
    let ridge = spares.iter().position(|(spare, _)| *spare == Spare::Ridge(0)).expect("a ridge");
    spares[ridge].1 = 5.0; // 12 ft below its own eaves
    let text = house.document(&spares);
    let adjusted = adjust(&text);
    let [warning] = adjusted.warnings.as_slice() else {
        panic!("{}", houses::plain(&adjusted.warnings, &text))
    };
    assert_eq!(
        warning.message,
        "ridge height of main does not fit the other readings: it says 5' and would have to be 23' 6\", 18' 6\" too short"
    );
    let study = Study::of(&read(&text), &BOOK).expect("the roof stands on the other readings");
    assert!(farthest(&study.job, &read(&text)) < 1e-6);
}

#[test]
fn the_house_taped_twice_shows_its_slip_and_stands_on_the_other_readings() {
    let text = include_str!("../../../examples/taped-twice.toml");
    let (job, warnings) = Job::read(text, &BOOK).expect("a sound example");
    assert_eq!(warnings, []);
    let study = Study::of(&job, &BOOK).expect("a roof");
    assert_eq!(
        houses::plain(&study.warnings, text),
        "34:8: warning[reading-suspect]: size of garage along its y does not fit the other readings: it says 20' and would have to be \
         20' 6\", 6\" too short
  mend: tape it again and correct it; until then it is left out and the others give the roof
"
    );
    let [x, y] = study.job.blocks[1].contours[0][2].map(|metres| Length::from_m(metres).ft());
    assert!((x - 58.0).abs() < 0.05 && (y - 22.5).abs() < 0.05, "{x} {y}");
}

#[test]
fn readings_that_leave_less_than_nothing_of_a_figure_are_refused() {
    // an eave an inch above its own plate is within the spreads, but takes more than the half inch of overhang there is
    let eave = "[[reading]]\nwhat = \"eave height\"\nof = \"main south\"\nvalue = \"9' 1 1/2\\\"\"\n";
    let text = one_block("form = \"hip\", pitch = \"12/12\"", "1/2 in") + eave;
    let problems = Study::of(&read(&text), &BOOK).expect_err("no such house");
    assert_eq!(
        houses::plain(&problems, &text),
        "19:1: error[readings-contradict]: no house fits the readings: south eave height of main\n  \
         mend: check each against the blocks: a height above the first floor, feet against inches, the right side\n"
    );
}

/// A house whose main block is an outline with a slanting corner, with a porch against it and a shop turned by 45 degrees.
fn outlined(readings: &str) -> String {
    head()
        + "[[block]]\nname = \"main\"\noutline = [[\"0'\", \"0'\"], [\"30'\", \"0'\"], [\"30'\", \"20'\"], [\"26'\", \"24'\"], [\"0'\", \"24'\"]]\n\
        plate = \"9'\"\nroof = { form = \"hip\", pitch = \"6/12\" }\noverhang = \"1'\"\nfascia = \"6 in\"\n\
        [[block]]\nname = \"porch\"\nat = [\"30'\", \"4'\"]\nsize = [\"8'\", \"10'\"]\nplate = \"7'\"\n\
        roof = { form = \"shed\", high = \"west\", pitch = \"2/12\" }\noverhang = \"1'\"\nfascia = \"6 in\"\n\
        [[block]]\nname = \"shop\"\nat = [\"0'\", \"-40'\"]\nsize = [\"20'\", \"12'\"]\nturn = \"45 deg\"\nplate = \"9'\"\ndetached = true\n\
        roof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\" }\noverhang = \"1'\"\nfascia = \"6 in\"\n"
        + readings
}

#[test]
fn an_outline_moves_by_its_lines_and_what_touches_it_moves_along() {
    let text = outlined("[[reading]]\nwhat = \"wall\"\nof = \"main 1\"\nvalue = \"30' 1\\\"\"\n");
    let study = Study::of(&read(&text), &BOOK).expect("a roof");
    let inches = |block: usize, corner: usize| {
        study.job.blocks[block].contours[0][corner].map(|m| Length::from_m(m).inches())
    };
    let half_way = 360.5; // both readings to 1/2 in
    for [x, _] in [inches(0, 1), inches(0, 2), inches(1, 0), inches(1, 3)] {
        assert!((x - half_way).abs() < 1e-6, "{x}");
    }
    assert!((inches(0, 3)[0] - 312.5).abs() < 1e-6, "the slanting corner keeps its run: {:?}", inches(0, 3));
}

#[test]
fn a_block_turned_otherwise_stays_while_its_heights_are_adjusted() {
    let text = outlined(
        "[[reading]]\nwhat = \"ridge height\"\nof = \"shop\"\nvalue = \"12' 1\\\"\"\n[[reading]]\nwhat = \"diagonal\"\nof = \"shop\"\nvalue = \"23' 4\\\"\"\n",
    );
    let written = read(&text);
    let adjusted = adjust(&text);
    let shops = [&written.blocks[2], &adjusted.job.blocks[2]];
    assert_eq!(shops[0].contours, shops[1].contours);
    assert!(shops[1].edges[0][0].plate.value > shops[0].edges[0][0].plate.value);
    let fit = adjusted.adjustment.expect("an adjustment").settled;
    assert!((reading(&fit, "diagonal of shop").redundancy - 1.0).abs() < 1e-9, "nothing of it can give");
}

#[test]
fn readings_of_heights_on_an_outline_are_left_aside() {
    let text = outlined("[[reading]]\nwhat = \"ridge height\"\nof = \"main\"\nvalue = \"14'\"\n");
    let codes: Vec<&str> = adjust(&text).warnings.iter().map(|warning| warning.code).collect();
    assert_eq!(codes, ["reading-unused"]);
}

#[test]
fn readings_that_cannot_be_told_apart_are_all_named_and_the_document_stands() {
    let house = cross_gable();
    let text = house.document(&[(Spare::Diagonal(2), house.truth(Spare::Diagonal(2)) + 0.5)]);
    let adjusted = adjust(&text);
    assert_eq!(
        houses::plain(&adjusted.warnings, &text),
        "38:1: warning[reading-suspect]: the readings do not fit, and it cannot be told which of these is wrong: diagonal of porch (it says \
         20' 2 3/8\" and would have to be 19' 8 3/8\", 6\" too long); size of porch along its x (it says 18' and would have to be \
         18' 6 1/2\", 6 1/2\" too short); size of porch along its y (it says 8' and would have to be 9' 2\", 1' 2\" too short)
  \
         see 30:8: size of porch along its x
  see 30:8: size of porch along its y
  \
         mend: tape them again, or add a reading that tells them apart; until then the diagonal of porch is left out
"
    );
    assert!(farthest(&adjusted.job, &read(&text)) < AS_WRITTEN);
}

#[test]
fn many_readings_each_a_little_off_are_a_disagreement_without_a_suspect() {
    let house = cross_gable();
    let spares = house.true_spares(&realistic_spares(&house)).into_iter().enumerate();
    let off = |(row, (spare, value)): (usize, (Spare, f64))| (spare, value + [0.1, -0.1][row / 4 % 2]);
    let text = house.document(&spares.map(off).collect::<Vec<_>>());
    let codes: Vec<&str> = adjust(&text).warnings.iter().map(|warning| warning.code).collect();
    assert_eq!(codes, ["readings-disagree"]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn perfect_readings_change_nothing_and_leave_nothing(seed in any::<u64>()) {
        let house = random_house(seed);
        let text = house.document(&house.true_spares(&realistic_spares(&house)));
        let adjusted = adjust(&text);
        prop_assert!(farthest(&adjusted.job, &read(&text)) < AS_WRITTEN);
        prop_assert_eq!(adjusted.warnings, vec![]);
        let fit = adjusted.adjustment.expect("an adjustment").settled;
        prop_assert!(fit.readings.iter().all(|reading| reading.residual.si().abs() < AS_WRITTEN));
    }

    #[test]
    fn one_more_perfect_reading_changes_nothing(seed in any::<u64>(), which in 0_usize..100) {
        let mut chance = Chance::of(seed);
        let house = chance.house();
        let taped = chance.taped(&house, 0.3);
        let spares = chance.taped_spares(&house, &realistic_spares(&house), 0.3);
        let before = fit(&taped.document(&spares));
        let (again, _) = spares[which % spares.len()];
        let row = before.readings.len() - spares.len() + which % spares.len();
        let perfect = Length::from_m(before.readings[row].adjusted.si()).ft();
        let after = fit(&taped.document(&[spares, vec![(again, perfect)]].concat()));
        let added = after.readings.last().expect("the one added");
        prop_assert!(added.residual.si().abs() < 1e-7, "{:?}", added);
        for (before, after) in before.readings.iter().zip(&after.readings) {
            prop_assert!((before.adjusted.si() - after.adjusted.si()).abs() < 1e-7, "{:?} {:?}", before, after);
        }
    }

    #[test]
    fn redundancies_add_up_to_the_degrees_of_freedom(seed in any::<u64>()) {
        let mut chance = Chance::of(seed);
        let house = chance.house();
        let taped = chance.taped(&house, 1.0);
        let text = taped.document(&chance.taped_spares(&house, &realistic_spares(&house), 1.0));
        let fit = adjust(&text).adjustment.expect("an adjustment").whole;
        let sum: f64 = fit.readings.iter().map(|reading| reading.redundancy).sum();
        prop_assert!((sum - fit.degrees_of_freedom as f64).abs() < 1e-6, "{} {}", sum, fit.degrees_of_freedom);
        prop_assert!(fit.readings.iter().all(|reading| (0.0..=1.0).contains(&reading.redundancy)));
    }

    #[test]
    fn spreads_all_so_many_times_as_wide_change_no_adjusted_value(seed in any::<u64>(), times in 1_u32..5) {
        let mut chance = Chance::of(seed);
        let house = chance.house();
        let taped = chance.taped(&house, 0.3);
        let text = taped.document(&chance.taped_spares(&house, &realistic_spares(&house), 0.3));
        let overlay = format!(
            "[[rule]]\nid = \"spread.tape\"\nwhat = \"tape\"\nvalue.length = \"{} in\"\nsource = {{ text = \"test\", confidence = \"assumed\" }}\n\
             [[rule]]\nid = \"spread.pitch.gauge\"\nwhat = \"gauge\"\nvalue.pitch = \"{}/12\"\nsource = {{ text = \"test\", confidence = \"assumed\" }}\n",
            0.5 * f64::from(times), 0.25 * f64::from(times)
        );
        let wide = book::Book::with_overlays(&[("wide.toml", &overlay)]).expect("a sound overlay");
        let (job, _) = Job::read(&text, &wide).expect("a sound document");
        let wide = Adjusted::of(&job, &wide).expect("a fit").adjustment.expect("an adjustment").settled;
        let narrow = fit(&text);
        if stands_as_read(&narrow) != stands_as_read(&wide) {
            return Ok(()); // readings that are wide enough do not speak against a pitch
        }
        for (narrow, wide) in narrow.readings.iter().zip(&wide.readings) {
            prop_assert!((narrow.adjusted.si() - wide.adjusted.si()).abs() < 1e-7, "{:?} {:?}", narrow, wide);
        }
    }

    #[test]
    fn blocks_that_touch_still_touch_when_adjusted(seed in any::<u64>()) {
        let mut chance = Chance::of(seed);
        let house = chance.house();
        let taped = chance.taped(&house, 1.0);
        let bare = Roof::of(&read(&taped.document(&[])), &BOOK);
        let text = taped.document(&chance.taped_spares(&house, &realistic_spares(&house), 1.0));
        let adjusted = Roof::of(&adjust(&text).job, &BOOK);
        let codes = |problems: Vec<Problem>| problems.into_iter().map(|problem| problem.code).collect::<Vec<_>>();
        if bare.is_ok() {
            prop_assert_eq!(adjusted.map(|_| ()).map_err(codes), Ok(()));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn readings_of_any_value_end_in_an_answer(values in proptest::collection::vec(0.1_f64..499.0, 16)) {
        let house = cross_gable();
        let spares = realistic_spares(&house).into_iter().zip(values).collect::<Vec<_>>();
        let text = house.document(&spares);
        match Study::of(&read(&text), &BOOK) {
            Ok(study) => prop_assert!(study.roof.slope_area().m2().is_finite()),
            Err(problems) => prop_assert!(problems.iter().any(Problem::is_error), "{}", houses::plain(&problems, &text)),
        }
    }
}
