//! What becomes of the old roof: taken off, laid over, used again; each clause passes, fails and is beyond telling.
//!
//! Sources: IRC R908 as the rows of `books/editions.toml` give it.

mod sheets;

use Verdict::{Fail, Pass};
use sheets::{CROSS_GABLE, changed, gable, missing, row, sheet, sheet_over, verdict};
use study::code::{CodeSheet, Verdict};

/// A gable whose covering is written so.
fn covered(code: &str, covering: &str) -> CodeSheet {
    sheet(&changed(&gable(code, "6/12", 12.0), "layers = 1", covering))
}

/// A roof laid over the old one, as the job writes the old one.
fn over(old: &str) -> Verdict {
    verdict(&covered("irc-2018", &format!("over = true\n{old}")), "recover")
}

#[test]
fn a_roof_over_two_layers_or_over_slate_or_over_a_soaked_one_is_refused() {
    let kept = "old = \"asphalt\"\nsound = true\n";
    assert_eq!(over(&format!("{kept}layers = 1")), Pass);
    assert_eq!(over(&format!("{kept}layers = 2")), Fail);
    assert_eq!(over(&format!("{kept}layers = \"unknown\"")), missing("covering.layers"));
    for old in ["slate", "tile", "asbestos cement"] {
        assert_eq!(over(&format!("layers = 1\nold = \"{old}\"\nsound = true")), Fail, "{old}");
    }
    assert_eq!(over("layers = 1\nold = \"metal\"\nsound = true"), Pass);
    assert_eq!(over("layers = 1\nold = \"asphalt\"\nsound = false"), Fail);
    assert_eq!(over("layers = 1"), missing("covering.sound; covering.old"));
    let refused = covered("irc-2018", "layers = 2");
    assert_eq!(verdict(&refused, "replacement"), Pass);
    assert!(refused.unasked.iter().any(|u| u.why == "the old roof comes off, and could not be laid over"));
}

/// What lies beneath the old roof makes two layers, whether or not anybody counted.
#[test]
fn a_roof_beneath_the_old_one_bars_a_third() {
    let beneath = "layers = \"unknown\"\nold = \"asphalt\"\nsound = true\nbeneath = ";
    assert_eq!(over(&format!("{beneath}\"asphalt\"")), Fail);
    let slate = covered("irc-2018", &format!("over = true\n{beneath}\"slate\""));
    let kinds = &slate.rule("recover").next().unwrap().checks[1];
    assert_eq!((kinds.what.as_str(), &kinds.planned.verdict), ("of a kind that may stay", &Fail));
}

/// An ice barrier that sticks may stay from 2012 on, under another: where none is laid it is not covered.
#[test]
fn an_old_ice_barrier_comes_off_until_2012_and_is_covered_from_then_on() {
    let stays = "layers = 1\nbarrier_stays = true";
    for code in ["irc-2009", "irc-2012", "irc-2015", "irc-2018", "irc-2021", "irc-2024"] {
        let wanted = if code == "irc-2009" { Fail } else { Pass };
        assert_eq!(verdict(&covered(code, stays), "replacement"), wanted, "{code}");
        assert_eq!(verdict(&covered(code, "layers = 1"), "replacement"), Pass, "{code}");
    }
    let mild = changed(&gable("irc-2018", "6/12", 12.0), "ice_history = true", "ice_history = false");
    assert_eq!(verdict(&sheet(&changed(&mild, "layers = 1", stays)), "replacement"), Fail);
}

/// IRC R908.4: old wood under a new roof is covered first where a space that can burn is left.
#[test]
fn old_wood_is_covered_before_a_roof_is_laid_over_it() {
    let of = |old: &str| covered("irc-2018", &format!("layers = 1\nover = true\n{old}"));
    for wood in ["wood shingle", "wood shake"] {
        let old = format!("old = \"{wood}\"\n");
        assert_eq!(verdict(&of(&format!("{old}wood_covered = true")), "wood_cover"), Pass, "{wood}");
        assert_eq!(verdict(&of(&format!("{old}wood_covered = false")), "wood_cover"), Fail, "{wood}");
        assert_eq!(verdict(&of(&old), "wood_cover"), missing("covering.wood_covered"), "{wood}");
    }
    assert_eq!(verdict(&of(""), "wood_cover"), missing("covering.old"));
    for (sheet, number) in [
        (of("old = \"asphalt\""), "R908.4"),
        (covered("irc-2018", "layers = 1"), "R908.4"),
        (covered("irc-2012", "layers = 1"), "R907.4"),
    ] {
        assert_eq!(sheet.rule("wood_cover").count(), 0);
        assert!(sheet.unasked.iter().any(|u| u.clause == number), "{number}");
    }
}

/// A counter-flashing that goes back on is as good as somebody found it.
#[test]
fn old_metal_is_used_again_only_where_it_is_sound() {
    let again = |more: &str| {
        let details = format!("layers = 1\ndetails = [\"chimney-side-reused\"]{more}");
        sheet(&changed(CROSS_GABLE, "layers = 1", &details))
    };
    for (kept, wanted) in [
        ("\nkept_metal = \"sound\"", Pass),
        ("\nkept_metal = \"rusted\"", Fail),
        ("\nkept_metal = \"damaged\"", Fail),
        ("\nkept_metal = \"worn\"", Fail),
        ("", missing("covering.kept_metal")),
    ] {
        assert_eq!(row(&again(kept), "reuse", "chimney, flanks").planned, wanted, "{kept}");
    }
    let new = sheet(CROSS_GABLE);
    assert!(new.rule("reuse").count() == 0 && new.unasked.iter().any(|u| u.clause == "R908.5"));
}

#[test]
fn flashing_that_stays_under_a_roof_laid_over_the_old_one_is_sound_or_it_is_replaced() {
    let of = |kept: &str| {
        let over = format!("layers = 1\nover = true\nold = \"asphalt\"\nsound = true\n{kept}");
        verdict(&covered("irc-2018", &over), "reuse")
    };
    assert_eq!(of("kept_metal = \"sound\""), Pass);
    assert_eq!(of("kept_metal = \"rusted\""), Fail);
    assert_eq!(of(""), missing("covering.kept_metal"));
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
  { id = "underlayment", material = "underlayment", covers = { deck = "all" }, held = "cap-nails" },
  { id = "drip edge", material = "drip-edge", covers = { barge = "1 1/2 in", deck = "3 in" }, over = { underlayment = "2 in" }, held = "nails", spent = true },
  { id = "shingles", material = "shingles", covers = { deck = "all" }, held = "nails" },
]
guards = { deck = "12 in" }
source = { text = "test", confidence = "common-practice" }
"#;
    let sheet = sheet_over(&gable("irc-2018", "6/12", 12.0), worn);
    assert!(
        sheet.rule("reuse").any(|row| row.planned == Fail && row.places.iter().all(|p| p.contains("rake")))
    );
    let rakes: Vec<_> = sheet.rule("drip_edge").filter(|row| row.asked.contains("rakes")).collect();
    assert!(rakes.len() == 1 && rakes[0].planned == Fail, "{rakes:#?}");
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

/// Through a new shingle of 1/4 in and an old roof of 1/2 in, a nail of 1 1/4 in reaches 1/2 in: through a deck of 1/2 in, not 3/4 in into a thicker one.
/// Through 5/8 in of old roof it leaves 3/8 in.
#[test]
fn nails_through_an_old_roof_are_longer_by_it() {
    let shingle = "[[package]]\nid = \"shingle-laminated-metric\"\nname = \"shingle\"\nunit = \"bundle\"\nthickness = \"1/4 in\"\n\
                   form.shingle = { height = \"13 1/4 in\", length = \"39 3/8 in\", exposure = \"5 5/8 in\", bundles_per_square = 3 }\n\
                   source = { text = \"test\", confidence = \"published\" }\n";
    let of = |old: &str, deck: &str| {
        let document = gable("irc-2018", "6/12", 12.0);
        let document = changed(&document, "thickness = \"1/2 in\"", deck);
        sheet_over(&changed(&document, "layers = 1", &format!("layers = 1\n{old}")), shingle)
    };
    let thin = "thickness = \"1/2 in\"";
    let asked = |old: &str, deck: &str| verdict(&of(old, deck), "fasteners");
    assert_eq!(asked("over = true\nold_thickness = \"1/2 in\"", thin), Pass);
    assert_eq!(asked("over = true\nold_thickness = \"1/2 in\"", "thickness = \"3/4 in\""), Fail);
    assert_eq!(asked("over = true\nold_thickness = \"5/8 in\"", thin), Fail);
    assert_eq!(asked("over = true", thin), missing("covering.old_thickness"));
    assert_eq!(
        asked("old_thickness = \"5/8 in\"", thin),
        Pass,
        "an old roof that comes off is not nailed through"
    );
    let told = of("over = true\nold_thickness = \"1/2 in\"", thin);
    let inputs = &told.rule("fasteners").next().unwrap().because[1].inputs;
    assert!(inputs.contains(&("length that reaches".to_owned(), "1.5 in".to_owned())), "{inputs:?}");
}
