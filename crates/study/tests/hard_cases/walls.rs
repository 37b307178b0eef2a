//! Roofs and walls.

use book::{Choice, Spot};
use detail::At;
use roof::EdgeKind;
use study::Study;
use study::code::Verdict;
use takeoff::{Amount, Quantity, Size};
use water::Finding;

use crate::sheets::{CROSS_GABLE, changed, row};
use crate::support::{block, built, edge, edges, house, near, places, size, study, wall, warned, warns};

/// The porch's eave dies into the wing's wall, whose own eave is higher.
#[test]
fn where_an_eave_dies_into_a_wall_there_is_a_kick_out_and_the_gutter_stops_short() {
    let found = study(CROSS_GABLE);
    let [end] = places(&found, Spot::KickOut)[..] else { panic!("one roof end") };
    let At::End(edge, _) = end.at else { panic!("{:?}", end.at) };
    assert_eq!(found.roof.edge(edge).wall_of.as_deref(), Some("wing"));
    assert_eq!(end.chosen().map(|fit| fit.detail.as_str()), Some("kick-out"));
    let index = found.details.places.iter().position(|place| place.at == end.at).expect("it");
    let gap = found.dimensions[index]
        .iter()
        .find(|one| one.what == "gutter ends short of the wall")
        .expect("a gap");
    let Size::Length(gap) = gap.size else { panic!("{gap:?}") };
    near(gap.inches(), 1.0, 1e-9);
    assert!(!found.drainage.findings.iter().any(|finding| matches!(finding, Finding::EndAtWall(..))));
    let tight = study(&changed(CROSS_GABLE, "wall_gap = \"1 in\"", "wall_gap = \"0 in\""));
    let told = |finding: &&Finding| matches!(finding, Finding::EndAtWall(..));
    let finding = tight.drainage.findings.iter().find(told).expect("it ends at a wall");
    assert_eq!(finding.key(), "gutter_end_at_wall");
    assert!(finding.told(&tight.roof, &tight.drainage.gutters, tight.job.units).contains("porch gutter"));
}

/// A low roof under a floor that stands out over it by 18 in.
#[test]
fn a_roof_under_a_cantilevered_floor_gets_its_apron_behind_the_soffit() {
    let blocks = |reach: &str| {
        house(&[
            block(
                "upper",
                [0.0, 0.0, 30.0, 24.0],
                "18 ft",
                "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
                "\"12 in\"",
            ),
            block(
                "low",
                [0.0, -10.0, 30.0, 10.0],
                "7 ft",
                "form = \"shed\", high = \"north\", pitch = \"3/12\"",
                "\"12 in\"",
            ),
            format!("[walls.upper]\nsiding = \"cedar-bevel\"\n{reach}"),
        ])
    };
    let cantilever = "[[walls.upper.cantilever]]\nside = \"south\"\nlength = \"30 ft\"\ndepth = \"18 in\"\nblocked = false\n";
    let under = study(&blocks(cantilever));
    let head = edge(&under.roof, EdgeKind::Headwall);
    assert_eq!(built(&under, head), "cantilever");
    assert_eq!(places(&under, Spot::Cantilever)[0].at, At::Edge(head));
    let plain = study(&blocks(""));
    assert_eq!(built(&plain, edge(&plain.roof, EdgeKind::Headwall)), "headwall");
}

/// A low wing beside a tower, whose walls are as written.
fn low_wing(walls: &str) -> Study {
    study(&house(&[
        block("tower", [0.0, 0.0, 20.0, 24.0], "20 ft", "form = \"hip\", pitch = \"6/12\"", "\"12 in\""),
        block(
            "low",
            [20.0, 0.0, 20.0, 24.0],
            "9 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
            "\"12 in\"",
        ),
        format!("[walls.tower]\n{walls}"),
    ]))
}

/// In brick or lap siding.
#[test]
fn a_brick_sidewall_is_built_on_pans_through_the_wall_and_a_reglet_is_second_best() {
    let clad = |siding: &str| low_wing(&format!("siding = \"{siding}\"\n"));
    let brick = clad("brick-veneer");
    for id in edges(&brick.roof, EdgeKind::Sidewall) {
        assert_eq!(built(&brick, id), "sidewall-brick");
        let place = brick.details.places.iter().find(|place| place.at == At::Edge(id)).expect("a place");
        let second =
            place.planned.iter().find(|fit| fit.detail == "sidewall-brick-reglet").expect("a second best");
        assert_eq!(second.choice, Choice::Allowed);
    }
    assert_eq!(edges(&brick.roof, EdgeKind::Sidewall).len(), 2);
    let reglet = crate::sheets::BOOKS.detail("sidewall-brick-reglet").expect("a detail");
    assert!(
        reglet.note.contains("second best") && reglet.note.contains("the report must say"),
        "{}",
        reglet.note
    );
    let lap = clad("cedar-bevel");
    assert_eq!(built(&lap, edges(&lap.roof, EdgeKind::Sidewall)[0]), "sidewall-lap-siding");
}

/// Steps whose legs the brick was laid on cannot be pulled: they are cut at the bend, and new ones counter-flashed in a reglet. Pans through the wall,
/// which a mason builds, stay the better way and can be wished.
#[test]
fn old_steps_under_brick_are_cut_at_the_bend_and_new_ones_counter_flashed() {
    let clad = |line: &str| low_wing(&format!("siding = \"brick-veneer\"\n{line}"));
    let found = clad("built_in = true\n");
    let walls = edges(&found.roof, EdgeKind::Sidewall);
    assert_eq!(walls.len(), 2);
    for id in walls {
        assert_eq!(built(&found, id), "sidewall-brick-built-in");
        let place = found.details.places.iter().find(|place| place.at == At::Edge(id)).expect("a place");
        let pans = place.planned.iter().find(|fit| fit.detail == "sidewall-brick").expect("the better way");
        assert_eq!(pans.choice, Choice::Usual);
    }
    let detail = crate::sheets::BOOKS.detail("sidewall-brick-built-in").expect("a detail");
    for word in ["cut at the bend", "reglet", "the report must say", "mason", "option"] {
        assert!(detail.note.contains(word), "{}", detail.note);
    }
    let holds = found.details.holds(&crate::sheets::BOOKS);
    for photo in ["old step pieces cut off at the bend", "hose on the wall above, from the low end up"] {
        assert!(holds.iter().any(|(hold, places)| hold.photo == photo && places.len() == 2), "{photo}");
    }
    assert!(found.code.rule("veneer").all(|row| row.planned == Verdict::Pass));
    for line in ["built_in = false\n", ""] {
        let free = clad(line);
        assert_eq!(built(&free, edges(&free.roof, EdgeKind::Sidewall)[0]), "sidewall-brick");
    }
}

/// Two gables in line, no rake between them: the wall of the higher one is 2 ft high beside the lower roof, all the way up. Such a wall takes one
/// step piece to each course: 12 ft on the plan at 6/12 are 13.42 ft or 161 in on the slope, 28.6 courses of 5 5/8 in, and so 29 pieces a side.
#[test]
fn a_low_wall_beside_a_roof_is_flashed_in_steps_on_every_paper() {
    let gable = |name: &str, x: f64, plate: &str| {
        let roof = "form = \"gable\", ridge = \"x\", pitch = \"6/12\"";
        block(name, [x, 0.0, 20.0, 24.0], plate, roof, "{ eave = \"12 in\", rake = \"0 in\" }")
    };
    let clad = |siding: &str| {
        study(&house(&[
            gable("low", 0.0, "9 ft"),
            gable("high", 20.0, "11 ft"),
            format!("[walls.high]\nsiding = \"{siding}\"\n"),
        ]))
    };
    let lap = clad("cedar-bevel");
    let steps = edges(&lap.roof, EdgeKind::Step);
    assert_eq!(steps.len(), 2);
    for id in &steps {
        assert_eq!(built(&lap, *id), "sidewall-lap-siding");
        assert_eq!(size(&lap, *id, "step pieces"), Size::Count(29));
    }
    let line = lap.takeoff.line("step-flashing").expect("a line");
    let Amount::Ordered { net, .. } = &line.amount else { panic!("{:?}", line.amount) };
    assert_eq!(*net, Quantity::Count(58));
    assert!(lap.takeoff.line("headwall-apron").is_none());
    assert!(lap.code.rule("sidewall_flashing").all(|row| row.planned == Verdict::Pass));
    assert!(lap.code.rule("sidewall_flashing").count() > 0);
    let brick = clad("brick-veneer");
    assert!(edges(&brick.roof, EdgeKind::Step).iter().all(|id| built(&brick, *id) == "sidewall-brick"));
    let veneer: Vec<_> = brick.code.rule("veneer").collect();
    assert!(!veneer.is_empty() && veneer.iter().all(|row| row.planned == Verdict::Pass));
}

/// Brick under a floor that stands out, and at the foot of a roof: its cavity drains over pans, and the clause of veneer is asked there too.
#[test]
fn the_clause_of_veneer_is_asked_wherever_brick_stands_over_a_roof() {
    let cantilever = "[[walls.upper.cantilever]]\nside = \"south\"\nlength = \"30 ft\"\ndepth = \"18 in\"\nblocked = false\n";
    let under = |high: &str| {
        study(&house(&[
            block(
                "upper",
                [0.0, 0.0, 30.0, 24.0],
                "18 ft",
                "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
                "\"12 in\"",
            ),
            block(
                "low",
                [0.0, -10.0, 30.0, 10.0],
                "7 ft",
                &format!("form = \"shed\", high = \"{high}\", pitch = \"3/12\""),
                "\"12 in\"",
            ),
            format!("[walls.upper]\nsiding = \"brick-veneer\"\n{cantilever}"),
        ]))
    };
    for (high, spot, detail) in
        [("north", Spot::Cantilever, "cantilever-brick"), ("south", Spot::BackWall, "back-wall-brick")]
    {
        let found = under(high);
        let [place] = places(&found, spot)[..] else { panic!("one {spot:?}") };
        assert_eq!(place.chosen().map(|fit| fit.detail.as_str()), Some(detail));
        let veneer: Vec<_> = found.code.rule("veneer").collect();
        assert!(!veneer.is_empty() && veneer.iter().all(|row| row.planned == Verdict::Pass), "{spot:?}");
    }
}

/// Air that comes in at the eave of a shed has no way out under a higher wall: the job says so by its attic.
#[test]
fn a_shed_against_a_higher_wall_has_no_way_out_for_its_air() {
    let shed = study(&house(&[
        block(
            "tall",
            [0.0, 0.0, 30.0, 24.0],
            "18 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
            "\"12 in\"",
        ),
        block(
            "shed",
            [0.0, -10.0, 30.0, 10.0],
            "7 ft",
            "form = \"shed\", high = \"north\", pitch = \"4/12\"",
            "\"12 in\"",
        ),
        "[attic.shed]\nunder = [\"shed\"]\n[attic.shed.found]\nsoffit_open = \"200 in2\"\n".to_owned(),
    ]));
    let head = edge(&shed.roof, EdgeKind::Headwall);
    assert_eq!(built(&shed, head), "headwall");
    assert_eq!(row(&shed.code, "cross_vents", "attic shed").planned, Verdict::Fail);
    warns(
        &shed,
        "vents-end-at-wall",
        &["attic `shed`", &format!("edge {}", head.number()), "wall vent flashing"],
    );
}

/// IRC R903.2.2 asks a cricket over 30 in; in snow country one is built from 24 in on, by common practice. The job says whether it is.
#[test]
fn a_chimney_from_24_to_30_in_wide_has_a_cricket_by_practice() {
    let wide = |across: &str, line: &str| {
        let size = "size = [\"32 in\", \"24 in\"] ";
        study(&changed(CROSS_GABLE, size, &format!("{line}size = [\"{across}\", \"24 in\"] ")))
    };
    for across in ["24 in", "30 in"] {
        warns(
            &wide(across, ""),
            "cricket-by-practice",
            &["chimney", "R903.2.2", "over 30 in", "from 24 in on", "cricket = true"],
        );
    }
    for (across, line) in [
        ("23 1/2 in", ""),
        ("32 in", ""),
        ("28 in", "cricket = true\n"),
        ("28 in", "cricket = false\n"),
        ("28 in", "state = \"remove\"\n"),
    ] {
        assert!(warned(&wide(across, line), "cricket-by-practice").is_empty(), "{across} {line}");
    }
    let why = |across: &str, line: &str| {
        let code = wide(across, line).code;
        let told = code.unasked.iter().find(|one| one.what == "cricket").map(|one| one.why.clone());
        told.unwrap_or_default()
    };
    assert!(why("28 in", "").ends_with("and none is planned"), "{}", why("28 in", ""));
    assert!(why("28 in", "").contains("common practice in snow country"));
    assert!(why("28 in", "cricket = true\n").ends_with("and one is planned"));
    assert!(!why("22 in", "").contains("practice"));
}

/// Two dormers with cheeks of `apart` inches between them.
fn dormers(apart: f64) -> Study {
    let dormer = |name: &str, x: f64| {
        let roof = "form = \"gable\", ridge = \"y\", pitch = \"6/12\"";
        block(name, [x, 2.0, 5.0, 8.0], "13 ft", roof, "\"0 in\"") + "on = \"main\"\n"
    };
    study(&house(&[
        block(
            "main",
            [0.0, 0.0, 40.0, 28.0],
            "9 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"8/12\"",
            "\"12 in\"",
        ),
        dormer("west", 10.0),
        dormer("east", 15.0 + apart / 12.0),
    ]))
}

#[test]
fn a_strip_between_two_dormers_under_24_in_wide_is_one_metal_pan() {
    let close = dormers(12.0);
    let between =
        [wall(&close.roof, EdgeKind::Sidewall, "west"), wall(&close.roof, EdgeKind::Sidewall, "east")];
    assert_eq!(between.len(), 2);
    warns(&close, "walls-close", &["edge ", "1'", "plane `main S`", "no shingles", "engineer"]);
    assert_eq!(warned(&dormers(30.0), "walls-close"), Vec::<&job::Problem>::new());
}

/// A window 4 ft from the corner of the house, over a porch that meets the wall from 2 ft on: a leg of 4 in and 2 in clear of the sill.
#[test]
fn a_sill_too_low_for_the_leg_is_told_with_what_may_be_done() {
    let sill = |inches: f64| {
        let window = format!(
            "[[window]]\nname = \"stair\"\nwall = \"main south\"\nat = \"4'\"\nwidth = \"3'\"\nsill = \"{inches} in\"\n\n# --- openings"
        );
        study(&changed(CROSS_GABLE, "# --- openings", &window))
    };
    let low = sill(5.875);
    warns(&low, "low-sill", &["stair", "5 7/8", "6\"", "not cut shorter", "pan", "1/4 in 12"]);
    let window = low.roof.windows.iter().find(|window| window.name == "stair").expect("it");
    let porch = low.roof.edge(window.edge);
    assert_eq!((porch.kind, porch.wall_of.as_deref()), (EdgeKind::Headwall, Some("main")));
    let from_corner = |at: measure::Length| {
        let ends = low.roof.ends(window.edge);
        (ends[0][0] + (ends[1][0] - ends[0][0]) * (at / porch.plan_length)) / 0.3048
    };
    let span = window.span.map(from_corner);
    near(span[0].min(span[1]), 4.0, 1e-9);
    near(span[0].max(span[1]), 7.0, 1e-9);
    let size_of = |study: &Study, what: &str| {
        let head = wall(&study.roof, EdgeKind::Headwall, "main");
        let index = study.details.places.iter().position(|place| place.at == At::Edge(head)).expect("it");
        study.dimensions[index].iter().find(|one| one.what.starts_with(what)).map(|one| one.size)
    };
    let under = "flashing behind the siding under `stair`";
    assert!(matches!(size_of(&low, under), Some(Size::Refused(why)) if why.contains("sill pan")));
    let just = sill(6.0);
    assert!(warned(&just, "low-sill").is_empty());
    let Some(Size::Length(up)) = size_of(&just, under) else {
        panic!("the membrane reaches higher than 4 in")
    };
    near(up.inches(), 4.0, 1e-9);
    assert_eq!(size_of(&sill(27.0), under), None, "nothing reaches so high");
    assert!(
        matches!(size_of(&sill(27.0), "sill of `stair`"), Some(Size::Length(up)) if (up.inches() - 27.0).abs() < 1e-9)
    );
}

/// Porches of 8 and 9 ft side by side against one wall: a window across both is measured from the higher.
#[test]
fn a_window_over_two_roofs_is_measured_from_the_nearer() {
    let shed = |name: &str, x: f64, plate: &str| {
        block(
            name,
            [x, -8.0, 12.0, 8.0],
            plate,
            "form = \"shed\", high = \"north\", pitch = \"3/12\"",
            "\"0 in\"",
        )
    };
    let main = block(
        "main",
        [0.0, 0.0, 30.0, 24.0],
        "18 ft",
        "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
        "\"12 in\"",
    );
    let window = "[[window]]\nname = \"wide\"\nwall = \"main south\"\nat = \"10 ft\"\nwidth = \"6 ft\"\nsill = \"3 in\"\n";
    let found =
        study(&house(&[main, shed("low", 1.0, "8 ft"), shed("high", 13.0, "9 ft"), window.to_owned()]));
    let [window] = &found.roof.windows[..] else { panic!("{:?}", found.roof.windows) };
    assert_eq!(found.roof.plane(found.roof.edge(window.edge).planes[0]).block, "high");
    warns(&found, "low-sill", &["wide"]);
}
