//! Roof water on poor soil, by IRC R801.3: 5 ft from the foundation or into an approved drain.

mod sheets;

use Verdict::{Fail, Pass};
use sheets::{CROSS_GABLE, changed, gable, missing, places, row, sheet};
use study::code::{CodeSheet, Verdict};

/// A gable with eaves so far out, its soil as written, and more.
fn on(soil: &str, overhang_in: f64, more: &str) -> CodeSheet {
    let document = gable("irc-2018", "6/12", overhang_in);
    sheet(&(changed(&document, "climate_zone", &format!("{soil}climate_zone")) + more))
}

const POOR: &str = "poor_soil = true\n";

/// A gutter on one of the two eaves, its downspout to somewhere.
fn spout(to: &str) -> String {
    format!(
        "[[gutter]]\nname = \"g\"\neave = \"main N\"\nkind = \"k-style-5\"\nfall = \"1/16 in\"\n\
         downspouts = [{{ at = \"west\", size = \"downspout-2x3\", to = {to} }}]\n"
    )
}

#[test]
fn roof_water_is_let_go_far_enough_on_poor_soil() {
    let of =
        |soil: &str, to: &str| row(&on(soil, 12.0, &spout(to)), "discharge", "g downspout 1").planned.clone();
    assert_eq!(of(POOR, "\"ground\", away = \"5 ft\""), Pass);
    assert_eq!(of(POOR, "\"ground\", away = \"4 ft 11 in\""), Fail);
    assert_eq!(of(POOR, "\"ground\""), missing("gutter.g.downspouts: away"));
    assert_eq!(of(POOR, "\"drain\""), Pass);
    assert_eq!(of("", "\"ground\""), missing("site.poor_soil"));
    assert_eq!(on("poor_soil = false\n", 12.0, &spout("\"ground\"")).rule("discharge").count(), 0);
}

/// Off an eave without gutter water comes down as far out as the eave: 12 in is not 5 ft.
#[test]
fn eaves_without_gutter_let_water_go_at_the_foundation() {
    for (soil, overhang, wanted) in
        [(POOR, 12.0, Fail), (POOR, 60.0, Pass), (POOR, 59.0, Fail), ("", 12.0, missing("site.poor_soil"))]
    {
        let bare = on(soil, overhang, "");
        assert_eq!(places(&bare, "discharge").len(), 2, "both eaves");
        assert!(bare.rule("discharge").all(|row| row.planned == wanted), "{soil}{overhang}");
    }
    assert_eq!(on("poor_soil = false\n", 12.0, "").rule("discharge").count(), 0);
    let half = on(POOR, 12.0, &spout("\"drain\""));
    let failing: Vec<_> =
        half.rule("discharge").filter(|row| row.planned == Fail).flat_map(|row| &row.places).collect();
    assert_eq!(failing.len(), 1, "the eave that has no gutter: {failing:?}");
    let taken_down = on(POOR, 12.0, &(spout("\"drain\"") + "state = \"remove\"\n"));
    assert!(taken_down.rule("discharge").all(|row| row.planned == Fail));
}

/// All eaves of the example have gutters, or will: what its seven downspouts to the ground do is all that is asked.
#[test]
fn eaves_with_gutters_are_asked_by_their_downspouts() {
    let poor = sheet(&changed(CROSS_GABLE, "ice_history = true", "ice_history = true\npoor_soil = true"));
    let asked = places(&poor, "discharge");
    assert!(asked.iter().all(|place| place.contains("downspout")), "{asked:?}");
    assert_eq!(asked.len(), 7);
}
