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

/// A roof laid over the old one, as the job writes the old one.
fn over(old: &str) -> Verdict {
    verdict(&made("layers = 1", &format!("over = true\n{old}"), ""), "recover")
}

#[test]
fn a_roof_over_two_layers_or_over_slate_or_over_a_soaked_one_is_refused() {
    let kept = "old = \"asphalt\"\nsound = true\n";
    assert_eq!(over(&format!("{kept}layers = 1")), Pass);
    assert_eq!(over(&format!("{kept}layers = 2")), Fail);
    assert_eq!(over(&format!("{kept}layers = \"unknown\"")), missing("covering.layers"));
    assert_eq!(over("layers = 1\nold = \"slate\"\nsound = true"), Fail);
    assert_eq!(over("layers = 1\nold = \"asphalt\"\nsound = false"), Fail);
    assert_eq!(over("layers = 1"), missing("covering.sound; covering.old"));
    let refused = made("layers = 1", "layers = 2", "");
    assert_eq!(verdict(&refused, "replacement"), Pass);
    assert!(refused.unasked.iter().any(|u| u.why == "the old roof comes off, and could not be laid over"));
}

/// Nothing reaches the deck under a roof laid over another: neither ice barrier nor a second underlayment.
#[test]
fn a_roof_laid_over_another_fails_the_ice_barrier() {
    let over = made("layers = 1", "layers = 1\nover = true\nold = \"asphalt\"\nsound = true", "");
    assert!(over.rule("ice_barrier").all(|row| row.planned == Fail) && over.rule("ice_barrier").count() == 1);
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
        "covers = { beside = \"6 in\", below = \"2 in\" }, over = { \"siding below\" = \"1 in\" }",
        "covers = { beside = \"6 in\" }",
    );
    assert_eq!(verdict(&sheet_over(CROSS_GABLE, &held_back), "kick_out"), Fail);
    let bare = changed(
        OPENINGS,
        "{ id = \"boot\", material = \"collar\", covers = { above = \"6 in\"",
        "{ id = \"boot\", spent = true, material = \"collar\", covers = { above = \"6 in\"",
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

/// A nail of 1 1/4 in through a shingle of 1/4 in leaves 1 in for a deck of 1/2 in; through one of 7/8 in it leaves 3/8 in.
#[test]
fn nails_are_long_enough_too_short_or_untold() {
    let shingle = |thickness: &str| {
        format!(
            "[[package]]\nid = \"shingle-laminated-metric\"\nname = \"shingle\"\nunit = \"bundle\"\n{thickness}\
             form.shingle = {{ height = \"13 1/4 in\", length = \"39 3/8 in\", exposure = \"5 5/8 in\", bundles_per_square = 3 }}\n\
             source = {{ text = \"test\", confidence = \"published\" }}\n"
        )
    };
    let of = |overlay: &str| verdict(&sheet_over(&gable("irc-2018", "6/12", 12.0), overlay), "fasteners");
    assert_eq!(of(&shingle("thickness = \"1/4 in\"\n")), Pass);
    assert_eq!(of(&shingle("thickness = \"7/8 in\"\n")), Fail);
    assert_eq!(
        of(&shingle("")),
        missing("thickness of shingle-laminated-metric at its nail line (its label)")
    );
    let thin = "[[package]]\nid = \"roofing-nails\"\nname = \"thin\"\nunit = \"coil\"\nform.nail = { length = \"1 1/4 in\", shank = \"0.104 in\", \
                head = \"3/8 in\" }\nsource = { text = \"test\", confidence = \"published\" }\n";
    assert_eq!(of(thin), Fail);
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

/// A pipe of 2 in is too narrow where the winter is colder than 0 F in 97.5 % of its hours; the 99 % temperature is colder still and does not tell.
#[test]
fn plumbing_vents_are_high_and_wide_enough_or_not() {
    assert_eq!(pipe("size = \"3 in\"\nheight = \"6 in\"", ""), Pass);
    assert_eq!(pipe("size = \"3 in\"\nheight = \"5 7/8 in\"", ""), Fail);
    assert_eq!(pipe("size = \"3 in\"", ""), missing("opening.stack.height"));
    let narrow = "size = \"2 in\"\nheight = \"12 in\"";
    assert_eq!(pipe(narrow, "winter_temperature = \"-4 F\"\n"), Fail);
    assert_eq!(pipe(narrow, "winter_temperature = \"0 F\"\n"), Pass);
    assert_eq!(pipe(narrow, "design_temperature = \"-9 F\"\n"), missing("site.winter_temperature"));
    assert_eq!(pipe(narrow, "design_temperature = \"5 F\"\n"), Pass);
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
}

fn attic(more: &str) -> CodeSheet {
    with(&format!("[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"none\"\n{more}\n"))
}

#[test]
fn attics_are_reached_kept_clear_and_blown_through_or_not() {
    for (access, wanted) in [
        ("access = [\"30 in\", \"22 in\"]", Pass),
        ("access = [\"21 7/8 in\", \"54 in\"]", Fail),
        ("", missing("attic.main.access")),
    ] {
        assert_eq!(verdict(&attic(access), "attic_access"), wanted, "{access}");
    }
    for (way, wanted) in [
        ("[attic.main.plan]\nclear_way = \"1 in\"", Pass),
        ("[attic.main.found]\nclear_way = \"1/2 in\"", Fail),
        ("", missing("attic.main.plan.clear_way")),
    ] {
        assert_eq!(verdict(&attic(way), "vent_clearance"), wanted, "{way}");
    }
    for (vents, wanted) in [
        ("[attic.main.plan]\nsoffit_open = \"600 in2\"\nridge_vent = \"500 in2\"", Pass),
        ("[attic.main.plan]\nsoffit_open = \"600 in2\"", Fail),
        ("", missing("attic.main.found.soffit_open")),
    ] {
        assert_eq!(verdict(&attic(vents), "cross_vents"), wanted, "{vents}");
    }
}

/// 1,120 ft² ask 1,075.2 in². A vent without label is taken as 50 in², which must not decide: 1,050 in² and it are enough, 1,000 in² and it are not.
#[test]
fn a_vent_without_a_label_does_not_decide() {
    let of = |soffit: u32| {
        let vent = "[[opening]]\nkind = \"box-vent\"\nname = \"old\"\nat = [\"20 ft\", \"16 ft\"]\nsize = [\"8 in\", \"8 in\"]\nfree_area = \"unknown\"\n";
        let plan = format!("[attic.main.plan]\nsoffit_open = \"{soffit} in2\"\n");
        let more = format!("{vent}[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"none\"\n{plan}");
        verdict(&with(&more), "attic_vents")
    };
    assert_eq!(of(1100), Pass);
    assert_eq!(of(1050), missing("opening.old.free_area"));
    assert_eq!(of(1000), Fail);
}

#[test]
fn roof_water_is_let_go_far_enough_on_poor_soil() {
    let of = |soil: &str, away: &str| {
        let gutter = format!(
            "[[gutter]]\nname = \"g\"\neave = \"main N\"\nkind = \"k-style-5\"\nfall = \"1/16 in\"\n\
             downspouts = [{{ at = \"west\", size = \"downspout-2x3\", to = \"ground\"{away} }}]\n"
        );
        made("climate_zone", &format!("{soil}climate_zone"), &gutter)
    };
    let poor = "poor_soil = true\n";
    assert_eq!(verdict(&of(poor, ", away = \"5 ft\""), "discharge"), Pass);
    assert_eq!(verdict(&of(poor, ", away = \"4 ft 11 in\""), "discharge"), Fail);
    assert_eq!(verdict(&of(poor, ""), "discharge"), missing("gutter.g.downspouts: away"));
    assert_eq!(verdict(&of("", ""), "discharge"), missing("site.poor_soil"));
    assert_eq!(of("poor_soil = false\n", "").rule("discharge").count(), 0);
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

/// A worn layer that stays fails the clause on what is used again.
#[test]
fn a_layer_past_service_must_not_stay() {
    let worn = r#"
[[detail]]
id = "rake"
name = "rake with its old metal"
at = "rake"
stage = "planned"
choice = "usual"
face = [
  { name = "barge", shown = "8 in", stands = "upright", falls = "back" },
  { name = "deck", shown = "24 in", stands = "level", falls = "along" },
]
layer = [
  { id = "underlayment", material = "underlayment", covers = { deck = "all" } },
  { id = "drip edge", material = "drip-edge", covers = { barge = "1 1/2 in", deck = "3 in" }, over = { underlayment = "2 in" }, spent = true },
  { id = "shingles", material = "shingles", covers = { deck = "all" } },
]
guards = { deck = "12 in" }
source = { text = "test", confidence = "common-practice" }
"#;
    assert_eq!(verdict(&with(""), "reuse"), Pass);
    let sheet = sheet_over(&gable("irc-2018", "6/12", 12.0), worn);
    assert!(
        sheet.rule("reuse").any(|row| row.planned == Fail && row.places.iter().all(|p| p.contains("rake")))
    );
    let rakes: Vec<_> = sheet.rule("drip_edge").filter(|row| row.asked.contains("rakes")).collect();
    assert!(rakes.len() == 1 && rakes[0].planned == Fail, "{rakes:#?}");
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
