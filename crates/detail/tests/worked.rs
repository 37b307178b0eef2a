//! Details small enough to be worked by hand, and every kind of fault planted.

use std::collections::BTreeSet;

use book::{Book, Detail};
use detail::{Attack, Failure, Fault, Section, Stand, faults};
use job::Units;
use measure::Pitch;

/// A detail laid over the shipped ones.
fn written(faces: &str, layers: &str, rest: &str) -> (Book, Detail) {
    let text = format!(
        "[[detail]]\nid = \"worked\"\nname = \"worked\"\nat = \"headwall\"\nstage = \"planned\"\nchoice = \"allowed\"\n\
         face = [{faces}]\nlayer = [{layers}]\n{rest}\nsource = {{ text = \"worked by hand\", confidence = \"common-practice\" }}\n"
    );
    let book = Book::with_overlays(&[("worked.toml", &text)]).unwrap_or_else(|problems| panic!("{problems}"));
    let detail = book.detail("worked").expect("the detail").clone();
    (book, detail)
}

fn pitch() -> Pitch {
    "6/12".parse().expect("a pitch")
}

fn stand(detail: &Detail, book: &Book, attack: Attack) -> Stand {
    let section = Section::of(detail, pitch(), book).expect("materials of the books");
    Stand::of(&section, attack).expect("an attack that happens")
}

fn faults_of(detail: &Detail, book: &Book) -> Vec<Fault> {
    faults(&Section::of(detail, pitch(), book).expect("materials of the books"))
}

const DECK: &str = r#"{ name = "deck", shown = "24 in", stands = "pitched", falls = "on" }"#;
const WALL: &str = r#"{ name = "wall", shown = "12 in", stands = "upright", falls = "on" }"#;

/// Nothing on the wood: water is there.
#[test]
fn bare_wood_takes_no_failure() {
    let layer = r#"{ id = "sheet", material = "underlayment", covers = { deck = "all" }, held = "staples" }"#;
    let (book, mut detail) = written(DECK, layer, r#"guards = { deck = "all" }"#);
    detail.layers.clear();
    assert_eq!(stand(&detail, &book, Attack::Rain).sets, [BTreeSet::new()]);
}

/// One sheet with nails through it: the sheet fails, or its nails do; driven rain is no worse, since the sheet stops it.
#[test]
fn one_sheet_with_its_nails_falls_to_either() {
    let layer = r#"{ id = "sheet", material = "underlayment", covers = { deck = "all" }, fixed = [{ face = "deck", between = ["3 in", "4 in"], by = "nails" }] }"#;
    let (book, detail) = written(DECK, layer, r#"guards = { deck = "all" }"#);
    for attack in [Attack::Rain, Attack::Wind] {
        let wanted = [Failure::Layer(0), Failure::Fastener(0)].map(|one| BTreeSet::from([one]));
        assert_eq!(stand(&detail, &book, attack).sets, wanted);
    }
}

/// Over a layer that heals, the nails of the one above lead nowhere: both layers must fail.
#[test]
fn nails_through_a_layer_that_heals_do_not_count() {
    let layers = r#"{ id = "membrane", material = "ice-barrier", covers = { deck = "all" }, held = "self-adhered" },
        { id = "sheet", material = "underlayment", covers = { deck = "all" }, fixed = [{ face = "deck", between = ["3 in", "4 in"], by = "nails" }] }"#;
    let (book, detail) = written(DECK, layers, r#"guards = { deck = "all" }"#);
    let wanted: Vec<BTreeSet<Failure>> =
        vec![[Failure::Layer(0), Failure::Layer(1)].into(), [Failure::Layer(0), Failure::Fastener(1)].into()];
    assert_eq!(stand(&detail, &book, Attack::Rain).sets, wanted);
}

/// A sheet that starts below the top of the face lets in at its upper end what runs down bare wood above it.
#[test]
fn a_sheet_is_run_under_from_above_unless_it_is_let_in_or_bonds() {
    let layer = |material: &str, more: &str| {
        format!(
            r#"{{ id = "sheet", material = "{material}", covers = {{ deck = ["6 in", "24 in"] }}{more} }}"#
        )
    };
    for (material, more, failures) in [
        ("underlayment", ", held = \"nails\"", 0),
        ("underlayment", ", held = \"nails\", let_in = true", 1),
        ("ice-barrier", ", held = \"self-adhered\"", 1),
    ] {
        let (book, detail) =
            written(DECK, &layer(material, more), r#"guards = { deck = ["8 in", "12 in"] }"#);
        let stand = stand(&detail, &book, Attack::Rain);
        assert_eq!(stand.failures, Some(failures), "{material}{more}");
    }
}

/// Three faces: ledge, wall, deck. What falls on the ledge runs down the wall over all of them.
#[test]
fn three_faces_drain_one_over_the_other() {
    let faces =
        format!(r#"{{ name = "ledge", shown = "6 in", stands = "level", falls = "on" }}, {WALL}, {DECK}"#);
    let layers = r#"{ id = "apron", material = "flashing", covers = { wall = ["8 in", "12 in"], deck = "4 in" }, held = "nails" },
        { id = "cap", material = "flashing", covers = { ledge = "all", wall = "10 in" }, over = { apron = "2 in" }, held = "nails" }"#;
    let (book, detail) =
        written(&faces, layers, r#"guards = { ledge = "all", wall = "all", deck = "3 in" }"#);
    assert_eq!(faults_of(&detail, &book), []);
    let stand = stand(&detail, &book, Attack::Rain);
    assert_eq!(stand.failures, Some(1));
    // the apron's end beyond the guarded wood is nobody's here; either metal failing wets what it alone covers
    assert_eq!(stand.sets, [0, 1].map(|layer| BTreeSet::from([Failure::Layer(layer)])));
}

/// As many layers as a detail may have, each healing and fastened, take more failures than are looked for, and are soon done with.
#[test]
fn many_layers_are_counted_no_further_than_the_most_failures() {
    let one = |n: usize| {
        format!(
            r#"{{ id = "layer {n}", material = "ice-barrier", covers = {{ deck = "all" }}, fixed = [{{ face = "deck", between = ["3 in", "4 in"], by = "nails" }}] }}"#
        )
    };
    let layers = (0..16).map(one).collect::<Vec<_>>().join(", ");
    let (book, detail) = written(DECK, &layers, r#"guards = { deck = "all" }"#);
    let stand = stand(&detail, &book, Attack::Rain);
    assert_eq!((stand.failures, stand.sets.len()), (None, 0));
}

#[test]
fn a_layer_that_ends_over_bare_wood_is_named() {
    let layer =
        r#"{ id = "sheet", material = "underlayment", covers = { deck = "10 in" }, held = "staples" }"#;
    let (book, detail) = written(DECK, layer, r#"guards = { deck = "20 in" }"#);
    assert_eq!(faults_of(&detail, &book), [Fault::Bare { layer: "sheet".to_owned() }]);
    let (book, detail) = written(DECK, layer, r#"guards = { deck = "10 in" }"#);
    assert_eq!(faults_of(&detail, &book), []); // it drips beyond what is to stay dry
}

/// A membrane whose low end lies under the sheet below it sends its water behind that sheet, guarded or not.
#[test]
fn a_layer_that_ends_behind_the_next_one_down_is_named() {
    let layers = r#"{ id = "membrane", material = "ice-barrier", covers = { deck = "14 in" }, held = "self-adhered" },
        { id = "sheet", material = "underlayment", covers = { deck = ["8 in", "24 in"] }, held = "staples" }"#;
    let (book, detail) = written(DECK, layers, r#"guards = { deck = "6 in" }"#);
    let named = Fault::Reverse { upper: "membrane".to_owned(), lower: "sheet".to_owned() };
    assert_eq!(faults_of(&detail, &book), [named]);
}

#[test]
fn felt_that_does_not_lap_over_steps_left_in_place_is_a_reverse_lap_as_found() {
    let book = Book::builtin();
    let found = book.detail("sidewall-found").expect("a detail");
    let named = Fault::Reverse { upper: "wall felt".to_owned(), lower: "steps".to_owned() };
    assert!(faults_of(found, &book).contains(&named));
}

#[test]
fn pieces_that_lap_too_little_are_named() {
    let layer = r#"{ id = "sheet", material = "underlayment", covers = { deck = "all" }, pieces = { length = "120 in", lap = "2 in", least = "4 in" }, held = "staples" }"#;
    let (book, detail) = written(DECK, layer, r#"guards = { deck = "all" }"#);
    let told: Vec<String> = faults_of(&detail, &book).iter().map(|fault| fault.told(Units::Us)).collect();
    assert_eq!(told, ["pieces of sheet lap by 2 in; 4 in at least"]);
}

/// Roof and wall move apart; deck and fascia do not.
#[test]
fn metal_fixed_to_wall_and_roof_is_named_and_to_deck_and_fascia_not() {
    let fixed = |one: &str, other: &str| {
        format!(
            r#"{{ id = "metal", material = "flashing", covers = {{ {one} = "5 in", {other} = "5 in" }}, fixed = [{{ face = "{one}", between = ["3 in", "4 in"], by = "nails" }}, {{ face = "{other}", between = ["3 in", "4 in"], by = "nails" }}] }}"#
        )
    };
    let (book, detail) =
        written(&format!("{WALL}, {DECK}"), &fixed("wall", "deck"), r#"guards = { deck = "4 in" }"#);
    assert_eq!(faults_of(&detail, &book), [Fault::BothBodies { layer: "metal".to_owned() }]);
    let fascia = WALL.replace("wall", "fascia");
    let (book, detail) = written(
        &format!("{DECK}, {fascia}"),
        &fixed("deck", "fascia").replace("deck = \"5 in\"", "deck = [\"0 in\", \"24 in\"]"),
        r#"guards = { fascia = "4 in" }"#,
    );
    assert_eq!(faults_of(&detail, &book), []);
}

#[test]
fn standing_water_that_nothing_holds_is_named() {
    let layer = r#"{ id = "apron", material = "flashing", covers = { wall = "8 in", deck = "5 in" }, held = "nails" }"#;
    let ponded = r#"guards = { wall = "4 in" }
ice = { height = "6 in", on = { wall = "6 in", deck = "4 in" } }"#;
    let (book, detail) = written(&format!("{WALL}, {DECK}"), layer, ponded);
    let told: Vec<String> = faults_of(&detail, &book).iter().map(|fault| fault.told(Units::Us)).collect();
    assert_eq!(told, ["nothing that holds water turns up the wall; water stands 6 in high"]);
}
