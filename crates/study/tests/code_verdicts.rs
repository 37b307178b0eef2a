//! Each clause can pass, fail and be beyond telling, and says what would settle it.

mod sheets;

use Verdict::{Fail, Pass};
use sheets::{CROSS_GABLE, changed, gable, missing, row, sheet, sheet_over, verdict};
use study::code::{CodeSheet, Verdict};

/// A gable with one thing changed and something more at its end.
fn made(from: &str, to: &str, more: &str) -> CodeSheet {
    sheet(&(changed(&gable("irc-2018", "6/12", 12.0), from, to) + more))
}

fn with(more: &str) -> CodeSheet {
    made("6/12", "6/12", more)
}

/// Under a roof laid over another the barrier lies where the old one is torn off for it, as the eave's detail says.
#[test]
fn a_roof_laid_over_another_has_its_ice_barrier_on_the_deck_laid_bare() {
    let over = made("layers = 1", "layers = 1\nover = true\nold = \"asphalt\"\nsound = true", "");
    let rows: Vec<_> = over.rule("ice_barrier").collect();
    let [row] = rows[..] else { panic!("{rows:?}") };
    assert_eq!(row.planned, Pass);
    assert!(row.because.iter().any(|one| one.rule.contains("torn off to the deck")));
}

/// An eave built without a sheet that sticks has no ice barrier, whatever is counted.
#[test]
fn an_eave_whose_detail_has_no_barrier_fails() {
    // felt comes over the metal of an eave: under it, unsealed, it would empty behind it
    let start = EDGES.find("id = \"eave\"").expect("the detail");
    let [felt, metal] = ["  { id = \"membrane\"", "  { id = \"drip edge\""].map(|layer| {
        let rest = &EDGES[start + EDGES[start..].find(layer).expect("a layer")..];
        &rest[..=rest.find('\n').expect("its end")]
    });
    let bare = EDGES
        .replacen(&format!("{felt}{metal}"), &format!("{metal}{felt}"), 1)
        .replace("material = \"ice-barrier\"", "material = \"underlayment\"")
        .replace("role = \"eave-barrier\", ", "")
        .replace("held = \"self-adhered\"", "held = \"staples\"");
    assert_ne!(bare, EDGES);
    let document = gable("irc-2018", "6/12", 12.0);
    assert_eq!(verdict(&sheet(&document), "ice_barrier"), Pass);
    assert_eq!(verdict(&sheet_over(&document, &bare), "ice_barrier"), Fail);
}

/// 10 in of overhang and 24 in at 6/12 are 38.01 in on the slope by the outside face, so two courses are laid, which cover 68 1/2 in; by the
/// inside face of a wall of 30 in it would take 71.55 in. Whose default is the outside face cannot tell; who asked can.
#[test]
fn a_reading_of_the_wall_line_nobody_asked_for_decides_nothing() {
    let outside = "[[default]]\nid = \"site.wall_line\"\nwhat = \"the shorter reading\"\nvalue.word = \"outside\"\n\
                   source = { text = \"test\", confidence = \"common-practice\" }\n";
    let of = |line: &str, wall: &str| {
        let document = gable("irc-2018", "6/12", 10.0);
        let document = changed(&document, "wall_line = \"outside\"", line);
        let document = changed(&document, "wall_thickness = \"6 in\"", wall);
        verdict(&sheet_over(&document, outside), "ice_barrier")
    };
    let (thick, asked, guessed) =
        ("wall_thickness = \"30 in\"", "wall_line = \"outside\"", "wall_line = \"unknown\"");
    assert_eq!(of(asked, thick), Pass);
    assert_eq!(of(guessed, thick), missing("site.wall_line"));
    assert_eq!(of(guessed, "wall_thickness = \"6 in\""), Pass);
}

const EDGES: &str = include_str!("../../../books/details/edges.toml");
const VALLEYS: &str = include_str!("../../../books/details/valleys.toml");
const WALLS: &str = include_str!("../../../books/details/walls.toml");
const OPENINGS: &str = include_str!("../../../books/details/openings.toml");

/// IRC R905.2.8.2: metal of open valleys 24 in wide, 12 in to each side.
#[test]
fn valleys_are_lined_wide_enough_or_not() {
    assert_eq!(verdict(&sheet(CROSS_GABLE), "valley_metal"), Pass);
    let narrow =
        VALLEYS.replace("one = \"12 in\", other = \"12 in\"", "one = \"11 7/8 in\", other = \"11 7/8 in\"");
    let narrow = narrow.replace("\"12 in\"], by = \"clips", "\"11 7/8 in\"], by = \"clips");
    let narrow = narrow.replace("[\"8 in\", \"44 in\"]", "[\"7 in\", \"44 in\"]");
    assert_ne!(narrow, VALLEYS);
    assert_eq!(verdict(&sheet_over(CROSS_GABLE, &narrow), "valley_metal"), Fail);
    let closed = changed(CROSS_GABLE, "layers = 1", "layers = 1\ndetails = [\"valley-closed-cut\"]");
    let sheet = sheet(&closed);
    assert_eq!(verdict(&sheet, "closed_valley"), Pass);
    assert!(
        sheet.rule("valley_metal").count() == 0
            && sheet.unasked.iter().all(|u| u.what != "lining of valleys")
    );
}

/// A kick-out that does not reach out over the wall below turns nothing away; a pipe without its boot is not flashed.
#[test]
fn kick_outs_and_boots_are_there_or_not() {
    let held_back = changed(
        WALLS,
        "covers = { beside = \"6 in\", below = \"2 in\" }, over = { \"drip edge\" = \"3 in\", gutter = \"1 in\", \"siding below\" = \"1 in\" }",
        "covers = { beside = \"6 in\" }",
    );
    assert_eq!(verdict(&sheet_over(CROSS_GABLE, &held_back), "kick_out"), Fail);
    // metal that merely reaches over the wall below is no kick-out, whatever else is called one
    let by_steps = changed(
        &held_back,
        "covers = { beside = [\"2 in\", \"18 in\"] }",
        "covers = { beside = \"18 in\", below = \"2 in\" }",
    );
    assert_eq!(verdict(&sheet_over(CROSS_GABLE, &by_steps), "kick_out"), Fail);
    let bare = changed(
        OPENINGS,
        "{ id = \"boot\", material = \"collar\",",
        "{ id = \"boot\", spent = true, material = \"collar\",",
    );
    assert_eq!(row(&sheet_over(CROSS_GABLE, &bare), "penetrations", "stack").planned, Fail);
    assert_eq!(row(&sheet(CROSS_GABLE), "penetrations", "stack").planned, Pass);
    let walls = sheet(CROSS_GABLE);
    assert!(
        walls.rule("flashing_places").count() > 0
            && walls.rule("flashing_places").all(|row| row.planned == Pass)
    );
}

#[test]
fn decks_are_solid_gapped_or_not_described() {
    let of = |deck: &str| {
        verdict(&made("deck = { kind = \"plywood\", thickness = \"1/2 in\" }", deck, ""), "solid_deck")
    };
    assert_eq!(of("deck = { kind = \"plywood\" }"), Pass);
    assert_eq!(of("deck = { kind = \"board\", gap = \"0 in\" }"), Pass);
    assert_eq!(of("deck = { kind = \"board\" }"), missing("block.main.deck.gap"));
    assert_eq!(of(""), missing("block.main.deck.kind"));
    let gapped = of("deck = { kind = \"board\", gap = \"5/16 in\", widest_gap = \"1/2 in\" }");
    assert_eq!(gapped, missing("whether the official takes boards with gaps up to 1/2\" as solid"));
}

#[test]
fn nails_to_a_shingle_are_enough_too_few_or_the_makers_to_say() {
    let three = "[[rule]]\nid = \"nails.per-shingle\"\nwhat = \"nails\"\nvalue.number = 3.0\nsource = { text = \"test\", confidence = \"published\" }\n";
    assert_eq!(verdict(&with(""), "nail_count"), Pass);
    assert_eq!(verdict(&sheet_over(&gable("irc-2018", "6/12", 12.0), three), "nail_count"), Fail);
    let steep = sheet(&gable("irc-2018", "22/12", 12.0));
    assert_eq!(verdict(&steep, "nail_count"), missing("what the maker asks above 21/12"));
    assert_eq!(verdict(&sheet(&gable("irc-2018", "21/12", 12.0)), "nail_count"), Pass);
}

/// The books' drip edge of an eave without gutter reaches 2 in down from the top of the deck: 1/4 in below one of 1 3/4 in, 1/8 in below one of 1 7/8 in.
#[test]
fn drip_edge_reaches_below_the_deck_or_not_by_its_thickness() {
    let of = |deck: &str| {
        let sheet = made("thickness = \"1/2 in\"", deck, "");
        sheet.rule("drip_edge").next().unwrap().planned.clone()
    };
    assert_eq!(of("thickness = \"1 3/4 in\""), Pass);
    assert_eq!(of("thickness = \"1 7/8 in\""), Fail);
    assert_eq!(of("thickness = \"1/2 in\""), Pass);
    let undescribed = made(", thickness = \"1/2 in\"", "", "");
    assert_eq!(undescribed.rule("drip_edge").next().unwrap().planned, missing("block.main.deck.thickness"));
}

fn pipe(more: &str, site: &str) -> Verdict {
    let opening =
        format!("[[opening]]\nkind = \"pipe\"\nname = \"stack\"\nat = [\"20 ft\", \"20 ft\"]\n{more}\n");
    verdict(&made("climate_zone", &format!("{site}climate_zone"), &opening), "plumbing_vent")
}

/// IRC P3103.1: 6 in above the roof or above the snow expected, whichever is higher. The load on the ground does not tell how deep snow lies.
#[test]
fn plumbing_vents_stand_clear_of_the_snow_expected() {
    let of = |height: &str, site: &str| pipe(&format!("size = \"3 in\"\nheight = \"{height}\""), site);
    assert_eq!(of("6 in", "ground_snow = \"60 psf\"\n"), missing("site.snow_depth"));
    assert_eq!(of("6 in", ""), missing("site.snow_depth"));
    assert_eq!(of("6 in", "ground_snow = \"0 psf\"\n"), Pass);
    assert_eq!(of("6 in", "snow_depth = \"0 in\"\n"), Pass);
    assert_eq!(of("5 7/8 in", "ground_snow = \"0 psf\"\n"), Fail);
    assert_eq!(of("5 7/8 in", ""), Fail);
    let deep = "ground_snow = \"60 psf\"\nsnow_depth = \"18 in\"\n";
    assert_eq!(of("6 in", deep), Fail);
    assert_eq!(of("24 in", deep), Pass);
    assert_eq!(of("23 7/8 in", deep), Fail);
    assert_eq!(pipe("size = \"3 in\"", deep), missing("opening.stack.height"));
    assert_eq!(pipe("size = \"3 in\"", ""), missing("opening.stack.height; site.snow_depth"));
}

/// A pipe of 2 in is too narrow where the winter is colder than 0 F in 97.5 % of its hours; the 99 % temperature is colder still and does not tell.
#[test]
fn plumbing_vents_are_wide_enough_for_frost_or_not() {
    let of =
        |site: &str| pipe("size = \"2 in\"\nheight = \"12 in\"", &format!("snow_depth = \"6 in\"\n{site}"));
    assert_eq!(of("winter_temperature = \"-4 F\"\n"), Fail);
    assert_eq!(of("winter_temperature = \"0 F\"\n"), Pass);
    assert_eq!(of("design_temperature = \"-9 F\"\n"), missing("site.winter_temperature"));
    assert_eq!(of("design_temperature = \"5 F\"\n"), Pass);
}

/// A planned skylight has the curb its detail draws; one that stays has what was measured.
#[test]
fn curbs_are_asked_below_3_in_12() {
    let of = |pitch: &str, more: &str| {
        let opening = format!(
            "[[opening]]\nkind = \"skylight\"\nname = \"light\"\nat = [\"20 ft\", \"20 ft\"]\nsize = [\"22 in\", \"46 in\"]\n{more}\n"
        );
        sheet(&(gable("irc-2018", pitch, 12.0) + &opening))
    };
    assert_eq!(verdict(&of("2.5/12", "state = \"plan\""), "skylight_curb"), Pass);
    assert_eq!(verdict(&of("2.5/12", "state = \"plan\"\nheight = \"3 in\""), "skylight_curb"), Fail);
    assert_eq!(verdict(&of("2.5/12", ""), "skylight_curb"), missing("opening.light.height"));
    assert_eq!(of("3/12", "").rule("skylight_curb").count(), 0);
    assert_eq!(of("3/12", "mount = \"deck\"").rule("skylight_curb").count(), 0);
    // on the deck there is no curb, and only the maker may allow that
    for more in ["mount = \"deck\"", "mount = \"deck\"\nstate = \"plan\""] {
        let asked = missing("the maker's instructions for `light`, which lies on the deck");
        assert_eq!(verdict(&of("2.5/12", more), "skylight_curb"), asked);
    }
    let leans = |more: &str| {
        let sheet = of("2.5/12", more);
        let rows: Vec<_> = sheet.rule("skylight_curb").collect();
        rows.iter().any(|row| row.because.iter().any(|one| one.what == "assumed: opening.light.mount"))
    };
    assert!(leans("") && !leans("mount = \"curb\""));
}

/// IRC R903.2.1 wants the joint flashed: metal that stays on one side of it flashes nothing, nor does the drip edge of a roof that ends above.
#[test]
fn metal_flashes_only_the_joint_it_lies_over() {
    let walls = include_str!("../../../books/details/walls.toml");
    let start = walls.find("[[detail]]\nid = \"headwall\"\n").expect("the detail");
    let end = start + 1 + walls[start + 1..].find("\n[[detail]]").expect("another after it");
    let whole = &walls[start..end];
    let apron = whole.lines().find(|line| line.contains("id = \"apron\"")).expect("an apron");
    let covers = "covers = { wall = \"5 in\", deck = \"5 in\" }";
    assert!(apron.contains(covers), "{apron}");
    let planned = |text: &str| -> Vec<Verdict> {
        sheet_over(CROSS_GABLE, text).rule("flashing_places").map(|row| row.planned.clone()).collect()
    };
    assert!(planned(whole).iter().all(|verdict| *verdict == Pass) && !planned(whole).is_empty());
    let apart = whole
        .replace(covers, "covers = { deck = \"5 in\" }")
        .replace(
            "face = \"wall\", between = [\"4 in\", \"5 in\"]",
            "face = \"deck\", between = [\"4 in\", \"5 in\"]",
        )
        .replace("over = { apron = \"2 in\" }, ", "");
    assert_ne!(apart, whole);
    assert!(planned(&apart).contains(&Fail), "{:?}", planned(&apart));
    let as_edge =
        whole.replace("id = \"apron\", material = \"flashing\"", "id = \"apron\", material = \"drip-edge\"");
    assert_ne!(as_edge, whole);
    assert!(planned(&as_edge).contains(&Fail));
}

/// The metal of the books has no thickness: what is bought has.
#[test]
fn flashing_metal_is_thick_enough_too_thin_or_not_gauged() {
    let of = |thickness: &str| {
        let apron = format!(
            "[[package]]\nid = \"headwall-apron\"\nname = \"apron\"\nunit = \"piece\"\n{thickness}form.stick = {{ length = \"10 ft\", lap = \"4 in\" }}\n\
             source = {{ text = \"test\", confidence = \"published\" }}\n"
        );
        sheet_over(CROSS_GABLE, &apron).rule("base_flashing").next().unwrap().planned.clone()
    };
    assert_eq!(of("thickness = \"0.019 in\"\n"), Pass);
    assert_eq!(of("thickness = \"0.0179 in\"\n"), Fail);
    assert_eq!(of(""), missing("thickness of the metal bought (its label, or a gauge)"));
}

/// Brick above the porch is let into, under an overlay of the wall's siding.
#[test]
fn veneer_above_a_roof_takes_counter_flashing() {
    let brick = changed(
        CROSS_GABLE,
        "[walls.wing]\nsiding = \"cedar-bevel\"",
        "[walls.wing]\nsiding = \"brick-veneer\"",
    );
    let sheet = sheet(&brick);
    assert_eq!(verdict(&sheet, "veneer"), Pass);
    assert_eq!(sheet.rule("veneer").next().unwrap().found, Some(Fail));
    assert_eq!(sheets::sheet(CROSS_GABLE).rule("veneer").count(), 0);
}

#[test]
fn rows_come_worst_first_and_are_counted() {
    let sheet = sheet(sheets::HIP_SPLIT_LEVEL);
    let [failing, untold, passing] = sheet.counts();
    assert_eq!(failing + untold + passing, sheet.rows.len());
    assert!(failing > 0 && untold > 0 && passing > 0);
    let words: Vec<&str> = sheet.worst_first().iter().map(|row| row.planned.word()).collect();
    let mut sorted = words.clone();
    sorted.sort_by_key(|word| ["FAIL", "cannot tell", "pass"].iter().position(|known| known == word));
    assert_eq!(words, sorted);
    assert_eq!(row(&sheet, "exhaust", "bath fan 1").telling().planned.verdict, Fail);
}

/// P3103 is on plumbing vents: a pipe that serves fuel or a fan is none.
#[test]
fn only_pipes_of_the_plumbing_are_held_against_p3103() {
    let pipe = |serves: &str| {
        let more = format!(
            "[[opening]]\nkind = \"pipe\"\nname = \"p\"\nat = [\"12 ft\", \"8 ft\"]\nsize = \"3 in\"\n{serves}"
        );
        with(&more).rule("plumbing_vent").count()
    };
    assert_eq!(pipe(""), 1);
    assert_eq!(pipe("serves = \"plumbing\"\n"), 1);
    assert_eq!((pipe("serves = \"fuel\"\n"), pipe("serves = \"fan\"\n")), (0, 0));
}
