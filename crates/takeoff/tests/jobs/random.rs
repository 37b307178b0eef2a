//! Random houses: tidy ones on a grid, and wild ones.

use proptest::prelude::*;

use super::made::{House, Made};

const OPENINGS: [&str; 7] =
    ["pipe", "hood", "chimney", "skylight", "box-vent", "power-vent", "daylight-tube"];

/// A length on the grid of all tidy figures. On a finer one walls and edges would now and then miss each other by less
/// than the half millimetre below which a roof merges points, and a merged point is off by that much.
pub fn feet(from: u32, to: u32) -> impl Strategy<Value = f64> {
    (4 * from..=4 * to).prop_map(|quarters| f64::from(quarters) / 4.0)
}

fn pitch() -> impl Strategy<Value = u32> {
    4..=14_u32
}

fn overhang() -> impl Strategy<Value = f64> {
    feet(0, 3)
}

/// A roof in the document's words; the ridge runs along x.
fn main_roof() -> impl Strategy<Value = String> {
    (0..5, pitch()).prop_map(|(form, p)| match form {
        0 | 1 => format!("{{ form = \"gable\", ridge = \"x\", pitch = \"{p}/12\" }}"),
        2 => format!("{{ form = \"hip\", pitch = \"{p}/12\" }}"),
        3 => format!("{{ form = \"gambrel\", ridge = \"x\", pitch = {{ lower = \"20/12\", upper = \"{p}/12\" }}, break = \"3 ft\" }}"),
        _ => format!("{{ form = \"mansard\", pitch = {{ lower = \"20/12\", upper = \"{p}/12\" }}, break = \"2 ft\" }}"),
    })
}

fn wing_roof() -> impl Strategy<Value = String> {
    (any::<bool>(), pitch()).prop_map(|(hip, p)| {
        if hip {
            format!("{{ form = \"hip\", pitch = \"{p}/12\", gable = [\"north\"] }}")
        } else {
            format!("{{ form = \"gable\", ridge = \"y\", pitch = \"{p}/12\" }}")
        }
    })
}

prop_compose! {
    pub fn main_block()(
        w in feet(22, 50),
        d in feet(18, 32),
        roof in main_roof(),
        eave in overhang(),
        rake in overhang(),
    ) -> Made {
        Made { plate: 17.0, ..Made::new("main", [0.0, 0.0], [w, d], &roof, eave, rake) }
    }
}

prop_compose! {
    /// A wing on the south side of a main block, deep enough for a hip to end in a ridge; its fascia level with that
    /// of main, or its whole roof below the eave of main.
    pub fn wing()(
        x in feet(1, 9),
        w in feet(8, 12),
        d in feet(7, 20),
        level in any::<bool>(),
        roof in wing_roof(),
        eave in overhang(),
        rake in overhang(),
    ) -> Made {
        let wing = Made::new("wing", [x, -d], [w, d], &roof, eave, rake);
        if level { Made { eave: None, plate: 17.0, ..wing } } else { Made { plate: 8.0, ..wing } }
    }
}

prop_compose! {
    /// A porch on the north side of a main block, clear of its overhang; where it stands is found when they are put together.
    fn porch()(
        x in feet(0, 8),
        w in feet(6, 14),
        d in feet(4, 9),
        pitch in 1..=6_u32,
        eave in overhang(),
    ) -> Made {
        let roof = format!("{{ form = \"shed\", high = \"south\", pitch = \"{pitch}/12\" }}");
        Made { plate: 4.0, open: true, ..Made::new("porch", [x, 0.0], [w, d], &roof, eave, eave) }
    }
}

prop_compose! {
    pub fn house()(
        main in main_block(),
        wing in prop::option::of(wing()),
        porch in prop::option::of(porch()),
    ) -> House {
        let depth = main.size[1];
        let on_north = porch.map(|mut porch| {
            porch.at[1] = depth;
            porch
        });
        House::of([Some(main), wing, on_north].into_iter().flatten().collect())
    }
}

fn any_roof() -> impl Strategy<Value = String> {
    let side = prop::sample::select(vec!["north", "east", "south", "west"]);
    prop_oneof![
        main_roof(),
        wing_roof(),
        (side, 0.3..18.0)
            .prop_map(|(side, p)| format!("{{ form = \"shed\", high = \"{side}\", pitch = \"{p}/12\" }}")),
    ]
}

prop_compose! {
    fn any_block(name: &'static str)(
        at in [-8.0..12.0, -8.0..10.0],
        size in [10.0..40.0, 10.0..30.0],
        plate in 4.0..20.0,
        roof in any_roof(),
        eave in 0.0..3.0,
        rake in 0.0..3.0,
        open in any::<bool>(),
    ) -> Made {
        Made { plate, open, ..Made::new(name, at, size, &roof, eave, rake) }
    }
}

prop_compose! {
    fn opening()(kind in prop::sample::select(OPENINGS.to_vec()), x in 12.0..18.0, y in 10.0..16.0) -> String {
        format!("[[opening]]\nkind = \"{kind}\"\nat = [\"{x} ft\", \"{y} ft\"]\nsize = [\"8 in\", \"8 in\"]\n")
    }
}

/// An attic under some blocks, named like the first; where it is vented anew, by a ridge vent.
fn attic(blocks: &[&str], vent: bool) -> String {
    let name = blocks[0];
    let found =
        format!("[attic.{name}]\nunder = {blocks:?}\n[attic.{name}.found]\nsoffit_open = \"9 in2/ft\"\n");
    let plan =
        if vent { format!("[attic.{name}.plan]\nridge_vent = \"12 in2/ft\"\n") } else { String::new() };
    found + &plan
}

prop_compose! {
    /// Things on and under a roof, wherever they fall.
    fn furniture()(
        openings in prop::collection::vec(opening(), 0..3),
        vent in any::<bool>(),
        under in prop::sample::select(vec![vec![vec!["a", "b"]], vec![vec!["a"], vec!["b"]]]),
    ) -> String {
        let attics = under.iter().map(|blocks| attic(blocks, vent));
        openings.into_iter().chain(attics).collect()
    }
}

prop_compose! {
    /// Blocks and openings anywhere, as a slip of the hand might write them.
    pub fn wild_house()(
        a in any_block("a"),
        b in any_block("b"),
        c in any_block("c"),
        turn in 0.0..360.0,
        more in furniture(),
    ) -> House {
        House { more, turn_degrees: turn, ..House::of(vec![a, b, c]) }
    }
}
