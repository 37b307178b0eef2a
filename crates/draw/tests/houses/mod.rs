//! Houses for tests and for looking at: the two examples, and some that are hard to draw.
#![allow(dead_code, unreachable_pub, reason = "each user takes its own part")]

use std::fmt::Write as _;

use book::Book;
use draw::{Survey, WaterScene};
use job::{BlockEdge, Job};
use roof::Roof;
use takeoff::Assumed;
use water::{Drainage, Water};

/// A house ready to be drawn.
pub struct House {
    pub name: &'static str,
    pub job: Job,
    pub roof: Roof,
    pub survey: Survey,
    pub bare: Water,
    pub drainage: Drainage,
}

impl House {
    fn read(name: &'static str, text: &str) -> Self {
        let (job, _) =
            Job::read(text, &Book::builtin()).unwrap_or_else(|problems| panic!("{name}: {problems:?}"));
        Self::of(name, job)
    }

    fn of(name: &'static str, job: Job) -> Self {
        let roof = Roof::of(&job, &Book::builtin()).unwrap_or_else(|problems| panic!("{name}: {problems:?}"));
        let survey = Survey::of(&job, Assumed::of(&roof, &job, &Book::builtin()));
        let bare = Water::of(&roof);
        // Names by compass letter do not hold in a house that was turned: its gutters are left away.
        let gutters = water::hang(&roof, &job.gutters, job.units).unwrap_or_default();
        let drainage = Drainage::of(&roof, &gutters, &[], job.site.rain.value, &Book::builtin())
            .unwrap_or_else(|lost| panic!("{name}: {lost}"));
        Self { name, job, roof, survey, bare, drainage }
    }

    /// What its pictures of water show.
    pub fn water(&self) -> WaterScene<'_> {
        WaterScene {
            roof: &self.roof,
            survey: &self.survey,
            bare: &self.bare,
            drainage: &self.drainage,
            rain: self.job.site.rain.value,
            is_rain_assumed: false,
        }
    }
}

/// All of them.
pub fn all() -> Vec<House> {
    vec![
        cross_gable(),
        hip_split_level(),
        tiny_shed(),
        long_thin(),
        turned("turned cross gable", cross_gable().job, 37.0),
        mirrored("mirrored split level", hip_split_level().job),
        dormers(),
        court(),
        half_surveyed(),
        many_forms(),
    ]
}

pub fn cross_gable() -> House {
    House::read("cross gable", include_str!("../../../../examples/cross-gable.toml"))
}

pub fn hip_split_level() -> House {
    House::read("hip split level", include_str!("../../../../examples/hip-split-level.toml"))
}

/// Six feet by four.
pub fn tiny_shed() -> House {
    let shed = r#"
[[block]]
name = "shed"
at = ["0'", "0'"]
size = ["6'", "4'"]
plate = "6'"
roof = { form = "shed", high = "north", pitch = "3/12" }
overhang = "4 in"
"#;
    House::read("tiny shed", &document(shed))
}

/// Ten times as long as deep, with a row of vents.
pub fn long_thin() -> House {
    let mut text = document(
        r#"
[[block]]
name = "stable"
at = ["0'", "0'"]
size = ["140'", "14'"]
plate = "9'"
roof = { form = "gable", ridge = "x", pitch = "8/12" }
overhang = { eave = "18 in", rake = "6 in" }
"#,
    );
    for i in 0..12 {
        let _ = writeln!(
            text,
            "[[opening]]\nkind = \"box-vent\"\nat = [\"{}'\", \"10'\"]\nsize = [\"10 in\", \"10 in\"]",
            6 + 11 * i
        );
    }
    House::read("long thin", &text)
}

/// A gable with a row of gable dormers on each side: sixty planes.
pub fn dormers() -> House {
    let mut text = document(
        r#"
[[block]]
name = "main"
at = ["0'", "0'"]
size = ["180'", "40'"]
plate = "17'"
roof = { form = "gable", ridge = "x", pitch = "9/12" }
overhang = "12 in"
"#,
    );
    for i in 0..29 {
        let (row, column) = (i % 2, i / 2);
        let (x, y, ridge_end) =
            (4 + 12 * column, if row == 0 { 4 } else { 28 }, if row == 0 { "south" } else { "north" });
        let _ = writeln!(
            text,
            "# {ridge_end}\n[[block]]\nname = \"dormer {i}\"\non = \"main\"\nat = [\"{x}'\", \"{y}'\"]\nsize = [\"6'\", \"8'\"]\nplate = \"25'\"\nroof = {{ form = \"gable\", ridge = \"y\", pitch = \"6/12\" }}\noverhang = \"6 in\"\n"
        );
    }
    House::read("dormers", &text)
}

/// Hips around a court, turned.
pub fn court() -> House {
    let block = r#"
[[block]]
name = "cloister"
outline = [["0'", "0'"], ["60'", "0'"], ["60'", "50'"], ["0'", "50'"]]
holes = [[["18'", "16'"], ["40'", "16'"], ["40'", "32'"], ["18'", "32'"]]]
turn = "-20 deg"
plate = "10'"
roof = { form = "hip", pitch = "5/12" }
overhang = "18 in"
"#;
    House::read("court", &document(block))
}

/// A house whose plate and overhang nobody measured, written in metres.
pub fn half_surveyed() -> House {
    let block = r#"
[[block]]
name = "old house"
at = ["0 m", "0 m"]
size = ["9.2 m", "7.4 m"]
plate = "unknown"
roof = { form = "saltbox", ridge = "x", pitch = { south = "12/12", north = "7/12" } }
overhang = "unknown"

[[block]]
name = "kitchen"
at = ["9.2 m", "1 m"]
size = ["4 m", "4 m"]
plate = "2.5 m"
roof = { form = "shed", high = "west", pitch = "4/12" }
overhang = "30 cm"
"#;
    House::read("half surveyed", &document(block).replace("units = \"us\"", "units = \"si\""))
}

/// Mansard, gambrel and a low roof beside each other.
pub fn many_forms() -> House {
    let blocks = r#"
[[block]]
name = "tower"
at = ["0'", "0'"]
size = ["24'", "24'"]
plate = "20'"
roof = { form = "mansard", pitch = { lower = "20/12", upper = "4/12" }, break = "4'" }
overhang = "12 in"

[[block]]
name = "barn"
at = ["24'", "2'"]
size = ["36'", "20'"]
plate = "10'"
roof = { form = "gambrel", ridge = "x", pitch = { lower = "16/12", upper = "5/12" }, break = "4'" }
overhang = "10 in"

[[block]]
name = "terrace"
at = ["4'", "-10'"]
size = ["30'", "10'"]
plate = "9'"
roof = { form = "low-slope", high = "north", pitch = "0.5/12" }
overhang = "6 in"
"#;
    House::read("many forms", &document(blocks))
}

/// The house turned counter-clockwise about the origin.
pub fn turned(name: &'static str, mut job: Job, degrees: f64) -> House {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let turn = |p: &mut [f64; 2]| *p = [p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos];
    for block in &mut job.blocks {
        block.contours.iter_mut().flatten().for_each(turn);
        block.turn_degrees += degrees;
    }
    job.openings.iter_mut().for_each(|opening| turn(&mut opening.at));
    House::of(name, job)
}

/// The house with east and west swapped.
pub fn mirrored(name: &'static str, mut job: Job) -> House {
    for block in &mut job.blocks {
        for (contour, edges) in block.contours.iter_mut().zip(&mut block.edges) {
            for p in contour.iter_mut() {
                p[0] = -p[0];
            }
            contour.reverse();
            let count = edges.len();
            let old = edges.clone();
            for (i, edge) in edges.iter_mut().enumerate() {
                *edge = BlockEdge { side: edge.side, ..old[(2 * count - 2 - i) % count].clone() };
            }
        }
        block.turn_degrees = -block.turn_degrees;
    }
    for opening in &mut job.openings {
        opening.at[0] = -opening.at[0];
    }
    House::of(name, job)
}

/// A job document around blocks.
fn document(blocks: &str) -> String {
    let head = r#"
weathershed = 1
title = "House for drawing"
units = "us"

[site]
code = "irc-2018"
rain = "6 in/h"

[covering]
shingle = "shingle-laminated-metric"
exposure = "5 5/8 in"
"#;
    format!("{head}\n{blocks}\n")
}
