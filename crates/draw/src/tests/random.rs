//! Random houses: blocks of several forms, beside and into each other, some turned.

use std::fmt::Write as _;

use book::Book;
use job::{Job, Units};
use proptest::prelude::*;
use roof::{PlaneId, Roof};

use super::readable::assert_readable;
use crate::{PlanOptions, SheetOptions, Survey, ViewOptions};

/// A house as numbers.
#[derive(Clone, Debug)]
pub(super) struct Plan {
    blocks: Vec<RandomBlock>,
    turn: i32,
}

#[derive(Clone, Debug)]
struct RandomBlock {
    at: [i32; 2],
    size: [i32; 2],
    plate: i32,
    form: usize,
    pitch: i32,
    overhang: i32,
}

const FORMS: [&str; 6] = [
    r#"form = "gable", ridge = "x", pitch = "P/12""#,
    r#"form = "gable", ridge = "y", pitch = "P/12""#,
    r#"form = "hip", pitch = "P/12""#,
    r#"form = "shed", high = "north", pitch = "P/12""#,
    r#"form = "shed", high = "west", pitch = "P/12""#,
    r#"form = "gambrel", ridge = "x", pitch = { lower = "18/12", upper = "P/12" }, break = "3'""#,
];

impl Arbitrary for Plan {
    type Parameters = ();
    type Strategy = BoxedStrategy<Self>;

    fn arbitrary_with((): ()) -> Self::Strategy {
        let block =
            ((-20..20i32, -20..20i32), (8..40i32, 8..30i32), 8..20i32, 0..FORMS.len(), 2..15i32, 0..24i32);
        let block = block.prop_map(|((x, y), (w, d), plate, form, pitch, overhang)| RandomBlock {
            at: [x, y],
            size: [w, d],
            plate,
            form,
            pitch,
            overhang,
        });
        let turn = prop_oneof![Just(0), -44..45i32];
        (proptest::collection::vec(block, 1..6), turn)
            .prop_map(|(blocks, turn)| Self { blocks, turn })
            .boxed()
    }
}

/// The roof of a plan; none where the blocks do not make one.
pub(super) fn random_house(plan: &Plan) -> Option<Roof> {
    let mut text = String::from(
        "weathershed = 1\ntitle = \"random\"\nunits = \"us\"\n[site]\ncode = \"irc-2018\"\nrain = \"6 in/h\"\n\
         [covering]\nshingle = \"shingle-laminated-metric\"\nexposure = \"5 5/8 in\"\n",
    );
    for (i, block) in plan.blocks.iter().enumerate() {
        let RandomBlock { at: [x, y], size: [w, d], plate, form, pitch, overhang } = block;
        let form = FORMS[*form].replace('P', &pitch.to_string());
        let _ = write!(
            text,
            "[[block]]\nname = \"b{i}\"\nat = [\"{x}'\", \"{y}'\"]\nsize = [\"{w}'\", \"{d}'\"]\nplate = \"{plate}'\"\n\
             roof = {{ {form} }}\noverhang = \"{overhang} in\"\ndetached = true\n",
        );
    }
    let (mut job, _) =
        Job::read(&text, &Book::builtin()).unwrap_or_else(|problems| panic!("{problems:?}\n{text}"));
    let (sin, cos) = f64::from(plan.turn).to_radians().sin_cos();
    for block in &mut job.blocks {
        for p in block.contours.iter_mut().flatten() {
            *p = [p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos];
        }
        block.turn_degrees += f64::from(plan.turn);
    }
    Roof::of(&job, &Book::builtin()).ok()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn random_houses_draw_well_formed_and_without_covered_text(plan in any::<Plan>(), azimuth in 0.0..360.0f64) {
        let Some(roof) = random_house(&plan) else { return Ok(()) };
        let (survey, units, size_mm) = (Survey::default(), Units::Us, super::SIZE);
        assert_readable("plan", &crate::plan(&roof, &survey, &PlanOptions { size_mm, units }));
        assert_readable("view", &crate::view(&roof, &survey, &ViewOptions { size_mm, azimuth_degrees: azimuth }));
        for plane in (0..roof.planes.len().min(3)).map(PlaneId) {
            assert_readable("sheet", &crate::plane_sheet(&roof, &survey, plane, &SheetOptions { size_mm, units }));
        }
    }
}
