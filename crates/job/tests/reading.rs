//! What each notation of the document means once it is read.

#![allow(clippy::float_cmp, reason = "the very numbers that were written")]

use std::sync::LazyLock;

use book::Book;
use job::{
    Along, Basis, Block, Compass, EdgeSlope, Empties, FanEnd, Form, FreeArea, Job, Mount, Overhang,
    PlaneName, Problem, ReadingOf, Side, State,
};
use measure::{Length, Pitch};

static BOOK: LazyLock<Book> = LazyLock::new(Book::builtin);

const HEAD: &str = "weathershed = 1\ntitle = \"T\"\n[site]\ncode = \"irc-2018\"\nrain = \"6 in/h\"\nice_history = true\n\
    wall_line = \"outside\"\n[covering]\nshingle = \"shingle-laminated-metric\"\nexposure = \"5 5/8 in\"\n";

fn read(text: &str) -> Job {
    let told =
        |problems: Vec<Problem>| problems.iter().map(|problem| problem.plain(text)).collect::<String>();
    Job::read(text, &BOOK).map_err(told).map_or_else(|told| panic!("{told}\n{text}"), |(job, _)| job)
}

/// A document with one block `main`; `lines` follow its name.
fn document(lines: &str) -> String {
    let rest =
        [("plate", "\"9'\""), ("overhang", "{ eave = \"16 in\", rake = \"12 in\" }"), ("fascia", "\"6 in\"")];
    let missing = rest.iter().filter(|(key, _)| !lines.contains(&format!("{key} =")));
    let rest = missing.map(|(key, value)| format!("{key} = {value}\n")).collect::<Vec<_>>().concat();
    format!("{HEAD}[[block]]\nname = \"main\"\n{lines}\n{rest}")
}

const RECTANGLE: &str = "at = [\"10'\", \"5'\"]\nsize = [\"40'\", \"26'\"]\n";
const ELL: &str = "outline = [[\"0'\", \"0'\"], [\"30'\", \"0'\"], [\"30'\", \"10'\"], [\"12'\", \"10'\"], [\"12'\", \"24'\"], [\"0'\", \"24'\"]]\n";

fn block(lines: &str) -> Block {
    let mut blocks = read(&document(lines)).blocks;
    blocks.pop().expect("one block")
}

/// A rectangle with this roof.
fn roofed(roof: &str) -> Block {
    block(&format!("{RECTANGLE}roof = {roof}"))
}

/// Sides in order with their rise per 12; 0 for a gable.
fn rises(block: &Block) -> Vec<(Side, f64)> {
    let rise = |slope: &EdgeSlope| match slope {
        EdgeSlope::Pitch(pitch) => pitch.value.rise_per_12(),
        EdgeSlope::Gable => 0.0,
    };
    block.edges.iter().flatten().map(|edge| (edge.side, rise(&edge.slope))).collect()
}

fn compass(block: &Block) -> [f64; 4] {
    let rises = rises(block);
    Side::COMPASS.map(|side| rises.iter().find(|(known, _)| *known == side).expect("a rectangle").1)
}

fn feet(block: &Block, contour: usize) -> Vec<[f64; 2]> {
    block.contours[contour]
        .iter()
        .map(|point| point.map(|metres| (Length::from_m(metres).ft() * 1e6).round() / 1e6))
        .collect()
}

#[test]
fn every_form_slopes_the_sides_it_should() {
    for (roof, slopes) in [
        (r#"{ form = "gable", ridge = "x", pitch = "6/12" }"#, [6.0, 0.0, 6.0, 0.0]),
        (
            r#"{ form = "gable", ridge = "y", pitch = { west = "6/12", east = "8/12" } }"#,
            [0.0, 8.0, 0.0, 6.0],
        ),
        (r#"{ form = "hip", pitch = "4/12" }"#, [4.0; 4]),
        (
            r#"{ form = "hip", pitch = { south = "4/12", east = "5/12", north = "6/12" }, gable = ["west"] }"#,
            [4.0, 5.0, 6.0, 0.0],
        ),
        (r#"{ form = "shed", high = "north", pitch = "3/12" }"#, [3.0, 0.0, 0.0, 0.0]),
        (r#"{ form = "low-slope", high = "east", pitch = "0.5/12" }"#, [0.0, 0.0, 0.0, 0.5]),
        (r#"{ form = "half-hip", ridge = "x", pitch = "6/12", hip_from = "4'" }"#, [6.0, 0.0, 6.0, 0.0]),
        (r#"{ form = "hip-skirt", ridge = "x", pitch = "6/12", skirt = "4'" }"#, [6.0; 4]),
        (
            r#"{ form = "gambrel", ridge = "x", pitch = { lower = "18/12", upper = "6/12" }, break = "4'" }"#,
            [18.0, 0.0, 18.0, 0.0],
        ),
        (r#"{ form = "mansard", pitch = { lower = "20/12", upper = "4/12" }, break = "3'" }"#, [20.0; 4]),
        (
            r#"{ form = "saltbox", ridge = "x", pitch = { south = "9/12", north = "6/12" } }"#,
            [9.0, 0.0, 6.0, 0.0],
        ),
        (r#"{ form = "per-edge", edges = ["6/12", "gable", "7/12", "8/12"] }"#, [6.0, 0.0, 7.0, 8.0]),
    ] {
        assert_eq!(compass(&roofed(roof)), slopes, "{roof}");
    }
}

#[test]
fn forms_with_a_second_slope_keep_it() {
    let half_hip = roofed(r#"{ form = "half-hip", ridge = "x", pitch = "6/12", hip_from = "4'" }"#);
    let Form::HalfHip { from, pitch } = half_hip.form else { panic!("half-hip") };
    assert_eq!(
        (from.value, pitch.value, pitch.basis),
        (Length::from_ft(4.0), Pitch::from_rise_per_12(6.0), Basis::Derived)
    );
    let skirt = roofed(r#"{ form = "hip-skirt", ridge = "y", pitch = "6/12", skirt = "4'" }"#);
    assert!(matches!(skirt.form, Form::HipSkirt { ends: [Side::South, Side::North], .. }));
    let gambrel = roofed(
        r#"{ form = "gambrel", ridge = "x", pitch = { lower = "18/12", upper = "6/12" }, break = "4'" }"#,
    );
    assert!(
        matches!(gambrel.form, Form::Broken { upper, run } if upper.value == Pitch::from_rise_per_12(6.0) && run.value == Length::from_ft(4.0))
    );
}

#[test]
fn a_rectangle_turns_about_its_corner_and_keeps_its_sides() {
    let block = block(&format!(
        "{RECTANGLE}turn = \"90 deg\"\nroof = {{ form = \"gable\", ridge = \"x\", pitch = \"6/12\" }}"
    ));
    assert_eq!(feet(&block, 0), [[10.0, 5.0], [10.0, 45.0], [-16.0, 45.0], [-16.0, 5.0]]);
    assert_eq!((compass(&block), block.turn_degrees), ([6.0, 0.0, 6.0, 0.0], 90.0));
}

#[test]
fn an_outline_written_clockwise_is_turned_over_and_its_edges_keep_their_numbers() {
    let roof = r#"roof = { form = "per-edge", edges = ["1/12", "2/12", "3/12", "4/12"] }"#;
    let clockwise = block(&format!(
        "outline = [[\"0'\", \"0'\"], [\"0'\", \"20'\"], [\"30'\", \"20'\"], [\"30'\", \"0'\"]]\n{roof}"
    ));
    assert_eq!(feet(&clockwise, 0), [[0.0, 0.0], [30.0, 0.0], [30.0, 20.0], [0.0, 20.0]]);
    let edge = |number| Side::Edge { contour: 0, number };
    // edge 4 ran from the last point back to the first: the south side
    assert_eq!(rises(&clockwise), [(edge(4), 4.0), (edge(3), 3.0), (edge(2), 2.0), (edge(1), 1.0)]);
}

#[test]
fn holes_run_clockwise_and_have_slopes_of_their_own() {
    let court = block(
        "outline = [[\"0'\", \"0'\"], [\"40'\", \"0'\"], [\"40'\", \"40'\"], [\"0'\", \"40'\"]]\n\
         holes = [[[\"15'\", \"15'\"], [\"25'\", \"15'\"], [\"25'\", \"25'\"], [\"15'\", \"25'\"]]]\n\
         roof = { form = \"per-edge\", edges = [\"6/12\", \"6/12\", \"6/12\", \"6/12\"], hole_edges = [[\"1/12\", \"2/12\", \"3/12\", \"4/12\"]] }",
    );
    assert_eq!(feet(&court, 1), [[15.0, 15.0], [15.0, 25.0], [25.0, 25.0], [25.0, 15.0]]);
    let hole: Vec<(Side, f64)> = rises(&court).into_iter().skip(4).collect();
    let edge = |number| Side::Edge { contour: 1, number };
    assert_eq!(hole, [(edge(4), 4.0), (edge(3), 3.0), (edge(2), 2.0), (edge(1), 1.0)]);
}

#[test]
fn an_outline_takes_plates_and_overhangs_by_edge_number() {
    let ell = block(&format!(
        "{ELL}plate = {{ 1 = \"9'\", 2 = \"9'\", 3 = \"9'\", 4 = \"9'\", 5 = \"9'\", \"edge 6\" = \"10'\" }}\n\
         roof = {{ form = \"hip\", pitch = \"6/12\", gable = [\"5\"] }}\n\
         overhang = {{ eave = \"16 in\", rake = \"12 in\", 2 = \"2'\" }}"
    ));
    let runs: Vec<f64> = ell.edges[0]
        .iter()
        .map(|edge| if let Overhang::Run(run) = &edge.overhang { run.value.inches().round() } else { -1.0 })
        .collect();
    assert_eq!(runs, [16.0, 24.0, 16.0, 16.0, 12.0, 16.0]);
    assert_eq!(ell.edges[0][5].plate.value, Length::from_ft(10.0));
}

#[test]
fn a_gable_end_without_a_plate_takes_the_lowest() {
    let saltbox = block(&format!(
        "{RECTANGLE}plate = {{ south = \"8'\", north = \"14'\" }}\nroof = {{ form = \"saltbox\", ridge = \"x\", pitch = \"6/12\" }}"
    ));
    let plates = saltbox.edges[0].iter().map(|edge| edge.plate.value.ft().round()).collect::<Vec<_>>();
    assert_eq!(plates, [8.0, 8.0, 14.0, 8.0]);
    assert_eq!(saltbox.edges[0][1].plate.basis, Basis::Derived);
}

#[test]
fn an_overhang_left_out_is_an_assumption_only_where_an_edge_needs_it() {
    let text = document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}"))
        .replace("overhang = { eave = \"16 in\", rake = \"12 in\" }\n", "");
    let paths: Vec<String> = read(&text).assumptions.into_iter().map(|assumption| assumption.path).collect();
    assert_eq!(paths, ["block.main.overhang.eave"]);
}

#[test]
fn an_unknown_overhang_of_one_side_takes_the_default_of_what_that_side_is() {
    let job = read(&document(&format!(
        "{RECTANGLE}roof = {{ form = \"gable\", ridge = \"x\", pitch = \"6/12\" }}\noverhang = {{ eave = \"16 in\", rake = \"12 in\", east = \"unknown\" }}"
    )));
    let assumption = job.assumptions.first().expect("one assumption");
    assert_eq!(assumption.path, "block.main.overhang.east");
    let Overhang::Run(run) = &job.blocks[0].edges[0][1].overhang else { panic!("a run") };
    assert_eq!(run.basis, Basis::Assumed { key: "block.overhang.rake".into() });
}

#[test]
fn level_with_names_a_block_and_perhaps_its_side_even_with_spaces() {
    let text = document(&format!(
        "{RECTANGLE}roof = {{ form = \"gable\", ridge = \"x\", pitch = \"6/12\" }}"
    )) + "[[block]]\nname = \"main south\"\nat = [\"0'\", \"-10'\"]\nsize = [\"10'\", \"10'\"]\nplate = \"9'\"\nfascia = \"6 in\"\n\
           roof = { form = \"gable\", ridge = \"y\", pitch = \"6/12\" }\noverhang = { west = \"level with main south\", east = \"level with main north\", rake = \"0 in\" }\n";
    let text = text.replace("level with main south", "level with main");
    let job = read(&text);
    let overhang =
        |side| job.blocks[1].edges[0].iter().find(|edge| edge.side == side).map(|edge| edge.overhang.clone());
    assert!(
        matches!(overhang(Side::West), Some(Overhang::LevelWith { block, side: None, .. }) if block == "main")
    );
    assert!(
        matches!(overhang(Side::East), Some(Overhang::LevelWith { block, side: Some(Side::North), .. }) if block == "main")
    );
}

#[test]
fn the_longest_block_name_that_fits_is_meant() {
    let wing = "[[block]]\nname = \"main wing\"\nat = [\"0'\", \"-10'\"]\nsize = [\"10'\", \"10'\"]\nplate = \"9'\"\nfascia = \"6 in\"\n\
        roof = { form = \"gable\", ridge = \"y\", pitch = \"6/12\" }\noverhang = \"1'\"\n\
        [[reading]]\nwhat = \"wall\"\nof = \"main wing south\"\nvalue = \"10'\"\n";
    let job = read(&(document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}")) + wing));
    assert_eq!(job.readings[0].of, ReadingOf::Wall { block: "main wing".into(), side: Side::South });
}

#[test]
fn corners_of_readings_are_counted_as_in_the_block() {
    let reading = "[[reading]]\nwhat = \"distance\"\nfrom = \"main 1\"\nto = \"main 2\"\nvalue = \"20'\"\n";
    let clockwise = "outline = [[\"0'\", \"0'\"], [\"0'\", \"20'\"], [\"30'\", \"20'\"], [\"30'\", \"0'\"]]\nroof = { form = \"hip\", pitch = \"6/12\" }";
    let job = read(&(document(clockwise) + reading));
    let ReadingOf::Distance { from, to } = &job.readings[0].of else { panic!("a distance") };
    let corner = |(_, number): &(String, usize)| feet(&job.blocks[0], 0)[number - 1];
    assert_eq!((corner(from), corner(to)), ([0.0, 0.0], [0.0, 20.0]));
}

#[test]
fn corners_of_rectangles_go_by_compass_too() {
    let reading = "[[reading]]\nwhat = \"distance\"\nfrom = \"main south-west\"\nto = \"main corner 3\"\nvalue = \"47' 8 1/2\\\"\"\nspread = \"1/4 in\"\n";
    let job =
        read(&(document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}")) + reading));
    assert_eq!(job.readings[0].of, ReadingOf::Distance { from: ("main".into(), 1), to: ("main".into(), 3) });
    assert_eq!(job.readings[0].spread, Length::from_in(0.25));
}

#[test]
fn a_reading_without_a_spread_takes_that_of_a_tape() {
    let reading = "[[reading]]\nwhat = \"diagonal\"\nof = \"main\"\nvalue = \"47' 8 1/2\\\"\"\n";
    let job =
        read(&(document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}")) + reading));
    assert_eq!(job.readings[0].spread, Length::from_in(0.5));
}

#[test]
fn wall_thickness_is_assumed_only_where_the_barrier_is_measured_from_inside() {
    let text = document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}"));
    let assumed =
        |text: &str| read(text).assumptions.iter().any(|assumption| assumption.path == "site.wall_thickness");
    assert!(!assumed(&text));
    assert!(assumed(&text.replace("\"outside\"", "\"inside\"")));
}

#[test]
fn a_mark_windows_line_ends_and_tabs_change_nothing_but_places() {
    let text = document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}\nopen = \"yes\""));
    let windows = format!("\u{feff}{}", text.replace('\n', "\r\n").replace("open = ", "\topen\t=\t"));
    let told = |text: &str| {
        let problems = Job::read(text, &BOOK).expect_err("`open` is text");
        let [problem] = problems.as_slice() else { panic!("{problems:?}") };
        (
            problem.position(text).map(|position| position.line),
            text[problem.places[0].range.clone()].to_owned(),
            problem.message.clone(),
        )
    };
    assert_eq!(told(&windows), told(&text));
}

#[test]
fn one_bad_field_hides_no_other_and_no_check_that_does_not_need_it() {
    let text = document(
        "at = [\"0'\", \"0'\"]\nsize = [\"40'\", \"x\"]\nplate = \"9'\"\nbase = \"9'\"\nroof = { form = \"saltbox\", ridge = \"x\", pitch = \"6/12\" }\nopen = 1",
    ) + "[walls.mian]\nclearance = 1\n";
    let problems = Job::read(&text, &BOOK).expect_err("five faults");
    let codes: Vec<&str> = problems.iter().map(|problem| problem.code).collect();
    assert_eq!(
        codes,
        ["unreadable", "plate-below-base", "saltbox-alike", "wrong-kind", "unknown-block", "bare-number"]
    );
}

#[test]
fn an_unknown_leakage_follows_from_the_floor_area() {
    let house = "[house]\nfloor_area = \"2400 ft2\"\nleakage = \"unknown\"\n";
    let text = document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}")) + house;
    let leakage = read(&text).house.leakage.expect("a leakage");
    assert_eq!(leakage.basis, Basis::Assumed { key: "house.leakage".into() });
    assert!((leakage.value.cfm() - 2400.0).abs() < 1e-6); // 1 cfm at 50 Pa per ft2, the books say
    let codes = Job::read(&text.replace("floor_area = \"2400 ft2\"\n", ""), &BOOK)
        .map_err(|problems| problems[0].code);
    assert_eq!(codes.err(), Some("missing-key"));
}

#[test]
fn an_unknown_ridge_vent_takes_the_free_area_of_a_foot() {
    let attic = "[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"none\"\n[attic.main.plan]\nridge_vent = \"unknown\"\n";
    let job = read(&(document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}")) + attic));
    let Some(FreeArea::PerLength(per)) = job.attics[0].plan.ridge_vent else { panic!("per length") };
    assert!((per.inches() - 1.0).abs() < 1e-9); // 12 in2 in 12 in
    assert_eq!(job.assumptions[0].path, "attic.main.plan.ridge_vent");
}

#[test]
fn fans_have_defaults_by_room() {
    let fans = "[[fan]]\nroom = \"bath\"\n[[fan]]\nroom = \"dryer\"\n[[fan]]\nroom = \"kitchen\"\nflow = \"200 cfm\"\nends = \"outdoors\"\n";
    let job = read(&(document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}")) + fans));
    let ends: Vec<FanEnd> = job.fans.iter().map(|fan| fan.ends.value).collect();
    assert_eq!(ends, [FanEnd::Attic, FanEnd::Outdoors, FanEnd::Outdoors]);
    let flows: Vec<f64> = job.fans.iter().map(|fan| fan.flow.value.cfm().round()).collect();
    assert_eq!(flows, [40.0, 150.0, 200.0]);
    let assumed: Vec<&str> = job.assumptions.iter().map(|assumption| assumption.path.as_str()).collect();
    assert!(assumed.contains(&"fan.2.flow") && !assumed.contains(&"fan.3.flow"), "{assumed:?}");
}

#[test]
fn a_small_block_is_a_warning_that_stops_nothing() {
    let text = document(
        "at = [\"0'\", \"0'\"]\nsize = [\"3'\", \"8'\"]\nroof = { form = \"shed\", high = \"west\", pitch = \"6/12\" }",
    );
    let (_, warnings) = Job::read(&text, &BOOK).expect("only a warning");
    assert_eq!(warnings.iter().map(|warning| warning.code).collect::<Vec<_>>(), ["small-block"]);
}

const GABLE: &str = "roof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\" }\n";

fn gutters(sections: &str) -> Job {
    read(&format!("{}{sections}", document(&format!("{RECTANGLE}{GABLE}"))))
}

fn plane(block: &str, faces: Compass) -> PlaneName {
    PlaneName { block: block.to_owned(), faces }
}

#[test]
fn gutters_and_downspouts_are_read_with_names_of_their_own() {
    let job = gutters(
        r#"
[[gutter]]
eave = "main S"
part = 2
kind = "k-style-5"
fall = "1/8 in"
wall_gap = "1 in"
state = "plan"
downspouts = [
    { at = "west", size = "downspout-2x3", to = "ground" },
    { name = "corner", at = "12' 6\"", size = "downspout-3x4", to = "gutter 2" },
    { at = "east", size = "downspout-2x3", to = "main N" },
]
[[gutter]]
eave = "main N"
kind = "half-round-5"
"#,
    );
    let [south, north] = job.gutters.as_slice() else { panic!("two gutters") };
    assert_eq!((south.name.as_str(), north.name.as_str()), ("gutter 1", "gutter 2"));
    assert_eq!(
        (&south.eave, south.part, south.state),
        (&plane("main", Compass::South), Some(2), State::Plan)
    );
    assert_eq!((south.fall.value, &south.fall.basis), (Length::from_in(0.125), &Basis::Measured));
    assert_eq!((south.wall_gap, north.wall_gap), (Some(Length::from_in(1.0)), None));
    let spouts: Vec<(&str, Along, &Empties)> =
        south.downspouts.iter().map(|d| (d.name.as_str(), d.at, &d.to)).collect();
    let roof = Empties::Roof(plane("main", Compass::North));
    assert_eq!(
        spouts,
        [
            ("gutter 1 downspout 1", Along::End(Compass::West), &Empties::Ground),
            ("corner", Along::Distance(Length::from_ft(12.5)), &Empties::Gutter("gutter 2".to_owned())),
            ("gutter 1 downspout 2", Along::End(Compass::East), &roof),
        ]
    );
}

#[test]
fn the_fall_of_a_gutter_nobody_measured_is_assumed() {
    for fall in ["", "fall = \"unknown\"\n"] {
        let job = gutters(&format!("[[gutter]]\neave = \"main S\"\nkind = \"k-style-5\"\n{fall}"));
        assert_eq!(job.gutters[0].fall.basis, Basis::Assumed { key: "gutter.fall".to_owned() });
        assert!(job.assumptions.iter().any(|a| a.path == "gutter.1.fall"), "{:?}", job.assumptions);
    }
}

#[test]
fn a_made_name_keeps_clear_of_written_ones() {
    let job = gutters(
        "[[gutter]]\neave = \"main S\"\nkind = \"k-style-5\"\n\
         [[gutter]]\nname = \"gutter 1\"\neave = \"main N\"\nkind = \"k-style-5\"\n",
    );
    let names: Vec<&str> = job.gutters.iter().map(|gutter| gutter.name.as_str()).collect();
    assert_eq!(names, ["gutter 2", "gutter 1"]);
}

/// What the books do not know is kept as written, and told with what they know; so is an exposure a shingle is not made for.
#[test]
fn a_siding_or_an_exposure_not_of_the_books_is_told_and_kept() {
    let told = |exposure: &str, siding: &str| {
        let block = document(
            "size = [\"40'\", \"26'\"]\nroof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\" }\nat = [\"0'\", \"0'\"]\n",
        );
        let text = block.replace("5 5/8 in", exposure) + &format!("\n[walls.main]\nsiding = \"{siding}\"\n");
        let (job, warnings) =
            Job::read(&text, &BOOK).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"));
        assert_eq!(job.walls["main"].siding.as_deref(), Some(siding));
        let mut codes: Vec<(&str, String)> = warnings.into_iter().map(|one| (one.code, one.mend)).collect();
        codes.sort();
        codes
    };
    assert_eq!(told("5 5/8 in", "stucco"), []);
    assert_eq!(told("5 11/16 in", "stucco"), [], "read as close as a tape is");
    let [exposure, siding] = &told("12 in", "Stucco")[..] else { panic!() };
    assert_eq!((exposure.0, siding.0), ("not-its-exposure", "unknown-siding"));
    assert!(siding.1.contains("stucco"), "{}", siding.1);
    assert_eq!(told("5 in", "cedar-bevel")[0].0, "not-its-exposure");
}

/// What a skylight is mounted on is surveyed; nobody having looked, the books' default stands in and is listed. Nothing else is mounted so.
#[test]
fn a_skylight_nobody_looked_at_is_taken_to_stand_on_what_the_books_say() {
    let told = |kind: &str, line: &str| {
        let block =
            document(&format!("{RECTANGLE}roof = {{ form = \"gable\", ridge = \"x\", pitch = \"6/12\" }}"));
        let text = format!(
            "{block}[[opening]]\nkind = \"{kind}\"\nname = \"light\"\nat = [\"20'\", \"10'\"]\nsize = [\"22 in\", \"46 in\"]\n{line}\n"
        );
        let (job, warnings) =
            Job::read(&text, &BOOK).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"));
        let paths: Vec<String> = job.assumptions.into_iter().map(|assumption| assumption.path).collect();
        let codes: Vec<&str> = warnings.into_iter().map(|one| one.code).collect();
        (job.openings[0].mount.as_ref().map(|mount| mount.value), paths, codes)
    };
    let assumed = vec!["opening.light.mount".to_owned()];
    assert_eq!(told("skylight", "mount = \"deck\""), (Some(Mount::Deck), Vec::new(), Vec::new()));
    assert_eq!(told("skylight", "mount = \"curb\""), (Some(Mount::Curb), Vec::new(), Vec::new()));
    assert_eq!(told("skylight", ""), (Some(Mount::Curb), assumed.clone(), Vec::new()));
    assert_eq!(told("skylight", "mount = \"unknown\""), (Some(Mount::Curb), assumed, Vec::new()));
    assert_eq!(told("hood", "mount = \"deck\""), (None, Vec::new(), vec!["mount-without-skylight"]));
}

/// What is said of a document, errors and warnings, without places.
fn said(text: &str) -> Vec<String> {
    let problems = match Job::read(text, &BOOK) {
        Ok((_, warnings)) => warnings,
        Err(problems) => problems,
    };
    problems
        .into_iter()
        .map(|problem| format!("{}: {}; {}", problem.code, problem.message, problem.mend))
        .collect()
}

fn with_covering(lines: &str) -> String {
    document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"4/12\" }}")).replacen(
        "[covering]\n",
        &format!("[covering]\n{lines}\n"),
        1,
    )
}

#[test]
fn one_detail_written_without_brackets_is_told_how_to_write() {
    let wanted = "wrong-kind: `covering.details` is the text `valley-open`, where a list is expected; \
                  write it like [\"valley-open\"], in square brackets";
    assert_eq!(said(&with_covering("details = \"valley-open\"")), [wanted]);
}

#[test]
fn a_roof_laid_over_nothing_is_told() {
    let found = said(&with_covering("layers = 0\nover = true"));
    assert!(found[0].starts_with("over-nothing: `covering` lays the new roof over the old one"), "{found:?}");
    let found = said(&with_covering("layers = 0\nold = \"asphalt\""));
    assert!(found[0].starts_with("old-without-layers: "), "{found:?}");
    assert_eq!(said(&with_covering("layers = 0")), [""; 0]);
    assert_eq!(said(&with_covering("layers = 1\nover = true\nold = \"asphalt\"")), [""; 0]);
}

/// 3 in are 76.2 mm, 12 in 304.8 mm; -80 F are -62.22 C, 70 F 21.11 C; 20 in/h are 508 mm/h. A bound is rounded to what is allowed.
#[test]
fn a_figure_out_of_range_is_told_in_its_own_unit() {
    let exposure = |written: &str| {
        with_covering("").replacen("exposure = \"5 5/8 in\"", &format!("exposure = \"{written}\""), 1)
    };
    let site = |line: &str| with_covering("").replacen("[site]\n", &format!("[site]\n{line}\n"), 1);
    for (text, wanted) in [
        (exposure("400 mm"), ["is 400 mm, more than 304.8 mm;", "from 76.2 mm to 304.8 mm"]),
        (exposure("1 cm"), ["is 1 cm, less than 7.62 cm;", "from 7.62 cm to 30.48 cm"]),
        (exposure("2 ft"), ["is 2 ft, more than 12 in;", "from 3 in to 12 in"]),
        (site("design_temperature = \"-70 C\""), ["less than -62.22 C;", "from -62.22 C to 21.11 C"]),
        (
            with_covering("").replacen("6 in/h", "600 mm/h", 1),
            ["more than 508 mm/h;", "from 2.54 mm/h to 508 mm/h"],
        ),
    ] {
        let found = said(&text);
        assert!(wanted.iter().all(|part| found[0].contains(part)), "{found:?}");
    }
}

#[test]
fn attics_are_joined_by_open_ways_of_known_or_unknown_area() {
    let attics = |joined: &str| {
        let attic = |name: &str, more: &str| {
            format!(
                "[attic.{name}]\nunder = [\"main\"]\nceiling = \"400 ft2\"\nvapor_retarder = \"none\"\n{more}\n"
            )
        };
        document(&format!("{RECTANGLE}roof = {{ form = \"hip\", pitch = \"6/12\" }}"))
            + &attic("east", joined)
            + &attic("west", "")
    };
    let job = read(&attics("joined = [{ to = \"west\", area = \"20 ft2\" }]"));
    let [way] = job.attics[0].joined.as_slice() else { panic!("one way") };
    assert!(way.to == "west" && (way.area.value.ft2() - 20.0).abs() < 1e-9);
    assert!(job.attics[1].joined.is_empty());
    let job = read(&attics("joined = [{ to = \"west\", area = \"unknown\" }]"));
    assert!((job.attics[0].joined[0].area.value.ft2() - 12.0).abs() < 1e-9);
    assert!(job.assumptions.iter().any(|assumption| assumption.path == "attic.east.joined.1.area"));
    for (joined, code) in [
        ("joined = [{ to = \"wset\" }]", "unknown-attic"),
        ("joined = [{ to = \"east\" }]", "joined-to-itself"),
        ("joined = [{ to = \"west\" }, { to = \"west\" }]", "joined-twice"),
    ] {
        let problems = Job::read(&attics(joined), &BOOK).unwrap_err();
        assert!(problems.iter().any(|problem| problem.code == code), "{code}: {problems:#?}");
    }
    let back = attics("joined = [{ to = \"west\" }]")
        .replace("[attic.west]\n", "[attic.west]\njoined = [{ to = \"east\" }]\n");
    let problems = Job::read(&back, &BOOK).unwrap_err();
    assert_eq!(problems.iter().filter(|problem| problem.code == "joined-twice").count(), 1, "{problems:#?}");
}

/// Files of weather stay as they are written; one alone is no other.
#[test]
fn years_of_weather_are_named_by_their_files() {
    let named = |lines: &str| {
        let site = read(
            &document(&format!("{RECTANGLE}roof = {{ form = \"gable\", ridge = \"x\", pitch = \"6/12\" }}"))
                .replace("[covering]", &format!("{lines}[covering]")),
        )
        .site;
        [site.winter, site.hard_winter].map(|climate| climate.map(|climate| climate.file))
    };
    let [typical, hard] = ["winter = { file = \"a.epw\" }\n", "hard_winter = { file = \"../b c.csv\" }\n"];
    assert_eq!(named(""), [None, None]);
    assert_eq!(named(typical), [Some("a.epw".to_owned()), None]);
    assert_eq!(named(hard), [None, Some("../b c.csv".to_owned())]);
    assert_eq!(named(&[hard, typical].concat()), [Some("a.epw".to_owned()), Some("../b c.csv".to_owned())]);
}
