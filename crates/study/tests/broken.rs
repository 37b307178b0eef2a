//! What is said of houses that read well but do not hold together: the example with one slip each.

use book::Book;
use job::{Job, Problem};
use study::Study;

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");
const TAPED_TWICE: &str = include_str!("../../../examples/taped-twice.toml");

/// A name, the house, and what is written instead of what.
type Slip = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

const MAIN_ROOF: &str = r#"roof = { form = "gable", ridge = "x", pitch = "6/12" }
overhang = { eave = "16 in", rake = "12 in" }"#;
const MAIN_AND_WING: &str = r#"at = ["0'", "0'"]
size = ["40'", "26'"]
plate = "17'"                   # top outer edge of the wall plate above the first floor
roof = { form = "gable", ridge = "x", pitch = "6/12" }"#;
/// Two pitches on one straight eave of an outline with an inside corner.
const BENT: &str = r#"outline = [["0'", "0'"], ["20'", "0'"], ["40'", "0'"], ["40'", "26'"], ["30'", "26'"], ["30'", "40'"], ["0'", "40'"]]
plate = "17'"
roof = { form = "per-edge", edges = ["6/12", "9/12", "6/12", "6/12", "6/12", "6/12", "6/12"] }"#;
const WING_FORM: &str = r#"roof = { form = "gable", ridge = "y", pitch = "9/12" }"#;
const LEVEL: &str = r#"overhang = { eave = "level with main", rake = "12 in" }"#;
const PORCH_OVERHANG: &str = r#"overhang = { eave = "12 in", rake = "8 in" }"#;
const WING_AT: &str = r#"at = ["20'", "-10'"]"#;
const CHIMNEY_AT: &str = r#"at = ["12'", "17'"]"#;
const STACK_AT: &str = r#"at = ["26'", "20'"]"#;

/// Over the porch, whose roof is against the wall from 2 ft on.
const WINDOW_AT_FOUR_FEET: (&str, &str) = (
    "# --- openings",
    "[[window]]\nname = \"stair\"\nwall = \"main south\"\nat = \"4'\"\nwidth = \"3'\"\nsill = \"5 in\"\n\n# --- openings",
);

const SLIPS: &[Slip] = &[
    ("opening-off-the-roof", CROSS_GABLE, &[(STACK_AT, r#"at = ["26'", "40'"]"#)]),
    ("opening-across-the-ridge", CROSS_GABLE, &[(STACK_AT, r#"at = ["26'", "13'"]"#)]),
    ("opening-across-a-valley", CROSS_GABLE, &[(STACK_AT, r#"at = ["22' 8\"", "4'"]"#)]),
    (
        "two-openings-at-once",
        CROSS_GABLE,
        &[(STACK_AT, r#"at = ["26'", "13'"]"#), (CHIMNEY_AT, r#"at = ["-12'", "17'"]"#)],
    ),
    (
        "gutters-that-cannot-hang",
        CROSS_GABLE,
        &[
            ("part = 2\n", ""),
            (r#"at = "18'", size"#, r#"at = "28'", size"#),
            (
                r#"{ at = "west", size = "downspout-2x3", to = "ground" },      "#,
                r#"{ at = "south", size = "downspout-2x3", to = "ground" },"#,
            ),
            (r#"size = "downspout-3x4", to = "ground""#, r#"size = "downspout-3x4", to = "wing W""#),
            (r#"eave = "wing E""#, r#"eave = "wing W""#),
        ],
    ),
    ("chimney-across-the-ridge", CROSS_GABLE, &[(CHIMNEY_AT, r#"at = ["12'", "13'"]"#)]),
    ("cricket-past-the-ridge", CROSS_GABLE, &[(CHIMNEY_AT, r#"at = ["12'", "14' 6\""]"#)]),
    ("blocks-apart-by-a-hand", CROSS_GABLE, &[(WING_AT, r#"at = ["20'", "-10' 3\""]"#)]),
    ("block-that-touches-nothing", CROSS_GABLE, &[(r#"at = ["2'", "-8'"]"#, r#"at = ["2'", "-28'"]"#)]),
    (
        "fascia-lines-that-do-not-meet",
        CROSS_GABLE,
        &[
            (WING_FORM, r#"roof = { form = "gable", ridge = "y", pitch = "8/12" }"#),
            (LEVEL, r#"overhang = { eave = "10 2/3 in", rake = "12 in" }"#),
        ],
    ),
    (
        "fascia-lines-of-a-hip-with-unequal-pitches",
        CROSS_GABLE,
        &[
            (
                MAIN_ROOF,
                r#"roof = { form = "hip", pitch = { south = "6/12", east = "9/12", north = "6/12", west = "9/12" } }
overhang = "16 in""#,
            ),
            (LEVEL, r#"overhang = { eave = "level with main south", rake = "12 in" }"#),
        ],
    ),
    ("level-with-a-fascia-above-the-plate", CROSS_GABLE, &[(PORCH_OVERHANG, LEVEL)]),
    (
        "level-with-a-side-that-has-no-eave",
        CROSS_GABLE,
        &[(LEVEL, r#"overhang = { eave = "level with main east", rake = "12 in" }"#)],
    ),
    (
        "level-with-eaves-at-two-heights",
        CROSS_GABLE,
        &[(
            r#"overhang = { eave = "16 in", rake = "12 in" }"#,
            r#"overhang = { south = "16 in", north = "24 in", east = "12 in", west = "12 in" }"#,
        )],
    ),
    ("outline-without-a-roof", CROSS_GABLE, &[(MAIN_AND_WING, BENT)]),
    (
        "level-with-a-fascia-far-below",
        CROSS_GABLE,
        &[(LEVEL, r#"overhang = { eave = "level with porch", rake = "12 in" }"#)],
    ),
    (
        "gambrel-that-breaks-beyond-its-ridge",
        CROSS_GABLE,
        &[(
            r#"roof = { form = "gable", ridge = "x", pitch = "6/12" }"#,
            r#"roof = { form = "gambrel", ridge = "x", pitch = { lower = "20/12", upper = "6/12" }, break = "13'" }"#,
        )],
    ),
    (
        "half-hip-from-above-the-ridge",
        CROSS_GABLE,
        &[(
            r#"roof = { form = "gable", ridge = "x", pitch = "6/12" }"#,
            r#"roof = { form = "half-hip", ridge = "x", pitch = "6/12", hip_from = "30'" }"#,
        )],
    ),
    ("window-too-low", CROSS_GABLE, &[WINDOW_AT_FOUR_FEET]),
    (
        "windows-off-their-roof",
        CROSS_GABLE,
        &[
            WINDOW_AT_FOUR_FEET,
            (r#"at = "4'""#, r#"at = "38'""#),
            (
                "# --- openings",
                "[[window]]\nname = \"hall\"\nwall = \"main north\"\nat = \"2'\"\nwidth = \"3'\"\nsill = \"2'\"\n\n# --- openings",
            ),
        ],
    ),
    ("readings-with-a-suspect", TAPED_TWICE, &[]),
];

fn said_of((name, house, changes): &Slip) -> (String, Vec<Problem>) {
    let text = changes.iter().fold((*house).to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{name}: no {from}");
        text.replacen(from, to, 1)
    });
    let book = Book::builtin();
    let problems =
        Job::read(&text, &book).and_then(|(job, _)| Study::of(&job, &book)).map(|study| study.warnings);
    (text, problems.unwrap_or_else(|problems| problems))
}

#[test]
fn every_slip_is_answered_as_recorded() {
    for slip in SLIPS {
        let (text, problems) = said_of(slip);
        let said: String = problems.iter().map(|problem| problem.plain(&text)).collect();
        insta::assert_snapshot!(slip.0, said);
    }
}

#[test]
fn every_message_has_place_cause_and_mend() {
    for slip in SLIPS {
        let (text, problems) = said_of(slip);
        assert!(!problems.is_empty(), "{} goes unnoticed", slip.0);
        for problem in &problems {
            let place = problem.places.first().unwrap_or_else(|| panic!("{}: {problem:?}", slip.0));
            assert!(text.get(place.range.clone()).is_some(), "{problem:?}");
            assert!(!problem.message.is_empty() && !problem.mend.is_empty(), "{problem:?}");
        }
    }
}
