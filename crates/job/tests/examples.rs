//! The example houses and the starter read without errors, and what is in them comes out as written.

#![allow(clippy::float_cmp, reason = "the very numbers that were written")]

use book::Book;
use job::{Basis, Block, EdgeSlope, FormName, Job, OpeningKind, Overhang, Side, State};
use measure::{Length, Pitch};

fn read(text: &str) -> Job {
    match Job::read(text, &Book::builtin()) {
        Ok((job, warnings)) => {
            assert_eq!(warnings, []);
            job
        }
        Err(problems) => panic!("{}", problems.iter().map(|problem| problem.plain(text)).collect::<String>()),
    }
}

fn cross_gable() -> Job {
    read(include_str!("../../../examples/cross-gable.toml"))
}

fn hip_split_level() -> Job {
    read(include_str!("../../../examples/hip-split-level.toml"))
}

/// Corners of a block in feet, rounded to a thousandth.
fn corners(block: &Block) -> Vec<(f64, f64)> {
    let feet = |metres: f64| (Length::from_m(metres).ft() * 1000.0).round() / 1000.0;
    block.contours[0].iter().map(|[x, y]| (feet(*x), feet(*y))).collect()
}

/// Sides of a block with their pitches in rise per 12; none for a gable.
fn pitches(block: &Block) -> Vec<(Side, Option<f64>)> {
    let rise = |slope: &EdgeSlope| match slope {
        EdgeSlope::Pitch(pitch) => Some(pitch.value.rise_per_12()),
        EdgeSlope::Gable => None,
    };
    block.edges[0].iter().map(|edge| (edge.side, rise(&edge.slope))).collect()
}

fn run(block: &Block, side: Side) -> Option<f64> {
    block.edges[0].iter().find(|edge| edge.side == side).and_then(|edge| match &edge.overhang {
        Overhang::Run(run) => Some(run.value.inches().round()),
        Overhang::LevelWith { .. } => None,
    })
}

#[test]
fn the_cross_gable_house_has_its_walls_and_pitches() {
    let job = cross_gable();
    let [main, wing, porch] = job.blocks.as_slice() else { panic!("three blocks") };
    assert_eq!(corners(main), [(0.0, 0.0), (40.0, 0.0), (40.0, 26.0), (0.0, 26.0)]);
    assert_eq!(corners(wing), [(20.0, -10.0), (36.0, -10.0), (36.0, 0.0), (20.0, 0.0)]);
    assert_eq!(
        pitches(main),
        [(Side::South, Some(6.0)), (Side::East, None), (Side::North, Some(6.0)), (Side::West, None)]
    );
    assert_eq!(
        pitches(wing),
        [(Side::South, None), (Side::East, Some(9.0)), (Side::North, None), (Side::West, Some(9.0))]
    );
    assert_eq!(
        pitches(porch),
        [(Side::South, Some(3.0)), (Side::East, None), (Side::North, None), (Side::West, None)]
    );
    assert_eq!(
        (run(main, Side::South), run(main, Side::East), run(porch, Side::West)),
        (Some(16.0), Some(12.0), Some(8.0))
    );
    assert!(
        matches!(&wing.edges[0][1].overhang, Overhang::LevelWith { block, side: None, .. } if block == "main")
    );
    assert_eq!((main.open, porch.open, porch.form_name), (false, true, FormName::Shed));
}

#[test]
fn the_cross_gable_house_has_its_openings() {
    let job = cross_gable();
    let names: Vec<&str> = job.openings.iter().map(|opening| opening.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "chimney",
            "stack",
            "vent pipe",
            "box-vent 1",
            "box-vent 2",
            "box-vent 3",
            "skylight",
            "daylight tube",
            "bath cap"
        ]
    );
    let removed = job.openings.iter().filter(|opening| opening.state == State::Remove);
    assert!(removed.clone().all(|opening| opening.kind == OpeningKind::BoxVent) && removed.count() == 3);
    let chimney = &job.openings[0];
    assert_eq!((chimney.across, chimney.along), (Length::from_in(32.0), Length::from_in(24.0)));
    assert_eq!(job.openings[1].across, job.openings[1].along);
}

#[test]
fn the_cross_gable_house_assumes_only_what_it_does_not_say() {
    let paths: Vec<String> =
        cross_gable().assumptions.into_iter().map(|assumption| assumption.path).collect();
    assert_eq!(
        paths,
        [
            "block.main.fascia",
            "block.wing.fascia",
            "block.porch.fascia",
            "walls.main.moisture",
            "walls.wing.moisture",
            "attic.main.found.hatch",
            "fan.1.flow",
        ]
    );
}

#[test]
fn the_hip_split_level_has_its_walls_and_pitches() {
    let job = hip_split_level();
    let [upper, main, garage] = job.blocks.as_slice() else { panic!("three blocks") };
    assert_eq!(corners(upper), [(0.0, 0.0), (32.0, 0.0), (32.0, 26.0), (0.0, 26.0)]);
    assert_eq!(corners(main), [(32.0, 3.0), (60.0, 3.0), (60.0, 23.0), (32.0, 23.0)]);
    assert_eq!(corners(garage), [(40.0, -19.0), (60.0, -19.0), (60.0, 3.0), (40.0, 3.0)]);
    assert!(pitches(upper).iter().all(|(_, pitch)| *pitch == Some(4.0)));
    assert_eq!(pitches(main)[3], (Side::West, None));
    assert_eq!(pitches(garage)[2], (Side::North, None));
    assert_eq!(upper.fascia.value, Length::from_in(6.0));
    assert_eq!(upper.edges[0][0].plate.value, Length::from_ft(13.0));
}

#[test]
fn the_hip_split_level_assumes_only_what_it_does_not_know() {
    let job = hip_split_level();
    let paths: Vec<&str> = job.assumptions.iter().map(|assumption| assumption.path.as_str()).collect();
    assert_eq!(
        paths,
        [
            "covering.layers",
            "opening.lower vent west.free_area",
            "opening.lower vent east.free_area",
            "walls.upper.cantilever.1.effective",
            "attic.lower.vapor_retarder",
            "attic.lower.found.side_walls.effective",
            "fan.1.flow",
            "fan.2.flow",
        ]
    );
    let layers = job.covering.layers.expect("layers are written as unknown");
    assert_eq!((layers.value, layers.basis), (1, Basis::Assumed { key: "covering.layers".into() }));
    assert!(!job.assumptions[0].source.text.is_empty());
}

#[test]
fn the_starter_reads_and_shows_its_unknowns_as_assumptions() {
    let job = read(job::starter());
    let assumed = |path: &str| job.assumptions.iter().any(|assumption| assumption.path == path);
    for path in [
        "site.rain",
        "site.wall_line",
        "block.main.overhang.eave",
        "block.main.overhang.rake",
        "walls.main.clearance",
    ] {
        assert!(assumed(path), "{path}");
    }
    assert!(
        matches!(&job.blocks[0].edges[0][0].slope, EdgeSlope::Pitch(pitch) if pitch.value == Pitch::from_rise_per_12(6.0))
    );
}

/// A measurement the field at a path takes.
fn measured(path: &str) -> &'static str {
    match path.rsplit('.').next() {
        Some("moisture") => "14 %",
        Some("hatch" | "effective") => "R-5",
        Some("flow") => "50 cfm",
        Some("free_area") => "48 in2",
        Some("vapor_retarder") => "class 2",
        Some("layers") => "2",
        Some("ice_history") => "true",
        Some("rain") => "5 in/h",
        Some("wall_line") => "inside",
        Some("exposure") => "5 5/8 in",
        _ => "7 in",
    }
}

#[test]
fn an_assumption_ends_when_its_path_is_set_to_a_measurement() {
    let houses = [
        include_str!("../../../examples/cross-gable.toml"),
        include_str!("../../../examples/hip-split-level.toml"),
        job::starter(),
    ];
    for text in houses {
        for assumption in read(text).assumptions {
            let path = assumption.path;
            let edited =
                job::edit::set(text, &path, measured(&path)).unwrap_or_else(|problem| panic!("{problem:?}"));
            let job = read(&edited);
            assert!(job.assumptions.iter().all(|left| left.path != path), "{path} is still assumed");
        }
    }
}
