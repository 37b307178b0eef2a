//! Overlays: what they replace, what they add, and what is said when they are wrong.

use book::{Book, LookupError, Problems, Quantity};

const CAPS: &str = r#"
[[package]]
id = "ridge-cap"
name = "ridge and hip cap, 33 ft"
unit = "bundle"
form.run = { covers = "33 ft" }
source = { text = "label of the bundle delivered", confidence = "published" }
"#;

const AMENDED: &str = r#"
[[edition]]
id = "wisconsin"
name = "Wisconsin dwelling code"
year = 2015
based_on = "irc-2015"
source = { text = "state text as quoted on a public page", confidence = "published" }

[edition.ice_barrier]
clause = "SPS 321.28"
inside_wall_line = "12 in"
steep = { from = "0/12", along_slope = "30 in" }
detached_excepted = false
source = { text = "SPS 321.28", confidence = "published" }
"#;

fn overlay(text: &str) -> Result<Book, Problems> {
    Book::with_overlays(&[("mine.toml", text)])
}

fn lines(text: &str) -> Vec<String> {
    overlay(text).expect_err("the overlay is wrong").0.iter().map(ToString::to_string).collect()
}

#[test]
fn a_row_with_a_known_id_replaces_it_and_nothing_else() {
    let (book, mine) = (Book::builtin(), overlay(CAPS).unwrap());
    assert_eq!(book.package("ridge-cap").unwrap().run().unwrap().covers.text(), "20 ft");
    let caps = mine.package("ridge-cap").unwrap();
    assert_eq!(caps.run().unwrap().covers.text(), "33 ft");
    assert_eq!(caps.source.text, "label of the bundle delivered");
    assert_eq!(mine.package("starter"), book.package("starter"));
}

#[test]
fn the_later_overlay_wins() {
    let later = CAPS.replace("33 ft", "25 ft");
    let book = Book::with_overlays(&[("a.toml", CAPS), ("b.toml", &later)]).unwrap();
    assert_eq!(book.package("ridge-cap").unwrap().run().unwrap().covers.text(), "25 ft");
}

#[test]
fn an_amended_edition_keeps_what_it_does_not_state() {
    let book = overlay(AMENDED).unwrap();
    let (amended, base) = (book.edition("wisconsin").unwrap(), book.edition("irc-2015").unwrap());
    assert_eq!(amended.ice_barrier.inside_wall_line.text(), "12 in");
    assert_eq!(amended.attic_vents, base.attic_vents);
    assert_eq!(amended.drip_edge, base.drip_edge);
    assert_eq!(amended.based_on.as_deref(), Some("irc-2015"));
}

#[test]
fn an_edition_amended_in_place_leaves_the_editions_built_on_it_alone() {
    let text = AMENDED.replace("\"wisconsin\"", "\"irc-2015\"");
    let book = overlay(&text).unwrap();
    assert_eq!(book.edition("irc-2015").unwrap().ice_barrier.inside_wall_line.text(), "12 in");
    assert_eq!(book.edition("irc-2018").unwrap().ice_barrier.inside_wall_line.text(), "24 in");
}

#[test]
fn an_edition_on_an_unknown_base_is_refused_with_the_nearest() {
    let found = lines(&AMENDED.replace("\"irc-2015\"", "\"irc-2051\""));
    assert_eq!(
        found,
        [
            "mine.toml:2:1: edition `wisconsin` is based on `irc-2051`, which is not stated before it; did you mean `irc-2015`?"
        ]
    );
}

#[test]
fn an_edition_on_no_base_must_state_every_rule() {
    let found = lines(&AMENDED.replace("based_on = \"irc-2015\"\n", ""));
    assert_eq!(
        found,
        [
            "mine.toml:2:1: edition `wisconsin` does not state attic_vents, asphalt_shingles, sidewall_flashing, kick_out, \
          valley_metal, flashing_metal, cricket, cricket_height, solid_deck, fasteners, nail_count, closed_valley, base_flashing, \
          flashing_places, penetrations, veneer, replacement, recover, wood_cover, reuse, skylight_curb, plumbing_vent, \
          chimney_height, cross_vents, vent_clearance, attic_access, unvented, exhaust, discharge, lot_line, left_to_others; state them, or name an earlier edition with `based_on`"
        ]
    );
}

#[test]
fn a_clause_without_its_source_is_refused_at_its_place() {
    let found =
        lines(&AMENDED.replace("source = { text = \"SPS 321.28\", confidence = \"published\" }\n", ""));
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(
        found[0].starts_with("mine.toml:9:1: edition `wisconsin`: missing field `source`; say where"),
        "{}",
        found[0]
    );
}

#[test]
fn a_row_of_another_kind_cannot_replace_one() {
    let found = lines(&CAPS.replace("form.run = { covers = \"33 ft\" }", "form.each = {}"));
    assert_eq!(
        found,
        [
            "mine.toml:2:1: package `ridge-cap` is of another kind than the row it would replace; keep the kind, or give the \
          row an id of its own"
        ]
    );
}

#[test]
fn a_spread_of_another_kind_than_its_value_is_refused() {
    let found = lines(
        "[[default]]\nid = \"block.plate\"\nwhat = \"plate\"\nvalue.length = \"8 ft\"\nspread.share = \"10 %\"\n\
         source = { text = \"mine\", confidence = \"assumed\" }\n",
    );
    assert_eq!(
        found,
        [
            "mine.toml:4:1: default `block.plate`: `value` is a length and `spread` a share; write both as the same kind"
        ]
    );
}

#[test]
fn a_number_that_is_not_finite_is_refused() {
    let found = lines(
        "[[rule]]\nid = \"waste.hip\"\nwhat = \"waste\"\nvalue.number = nan\nsource = { text = \"mine\", confidence = \"assumed\" }\n",
    );
    assert_eq!(found, ["mine.toml:4:1: rule `waste.hip`: `value` is NaN; write a finite number"]);
}

#[test]
fn an_unknown_table_is_refused_with_the_nearest() {
    let found = lines("[[pacakge]]\nid = \"a\"\n");
    assert_eq!(found, ["mine.toml:1:3: unknown table `pacakge`; did you mean `package`?"]);
}

#[test]
fn the_problems_of_all_overlays_are_told_together() {
    let problems = Book::with_overlays(&[("a.toml", "[[ruel]]\n"), ("b.toml", "[[package]]\nid = \"x\"\n")])
        .unwrap_err();
    let files: Vec<&str> = problems.0.iter().map(|problem| problem.file.as_str()).collect();
    assert_eq!(files, ["a.toml", "b.toml", "b.toml"], "{problems}");
}

#[test]
fn a_name_the_books_do_not_have_gives_the_nearest() {
    let book = Book::builtin();
    let told = |error: LookupError| error.to_string();
    assert_eq!(
        told(book.edition("irc-2081").unwrap_err()),
        "the books have no edition `irc-2081`; did you mean `irc-2018`?"
    );
    assert_eq!(
        told(book.package("ice-barier").unwrap_err()),
        "the books have no package `ice-barier`; did you mean `ice-barrier`?"
    );
    assert!(
        told(book.edition("uniform code").unwrap_err())
            .ends_with("known: irc-2009, irc-2012, irc-2015, irc-2018, irc-2021, irc-2024")
    );
    assert_eq!(
        told(book.package("starter").unwrap().roll().unwrap_err()),
        "package `starter` is not a roll; name another one or mend the row in the overlay that states it"
    );
}

#[test]
fn defaults_carry_value_and_spread_as_written() {
    let book = Book::builtin();
    let printed = |path: &str| {
        let default = book.default(path).unwrap();
        (default.value.to_string(), default.spread.as_ref().map(Quantity::to_string))
    };
    assert_eq!(printed("block.overhang.eave"), ("12 in".to_owned(), Some("6 in".to_owned())));
    assert_eq!(printed("covering.exposure"), ("5 5/8 in".to_owned(), None));
    assert_eq!(printed("attic.insulation"), ("R-11".to_owned(), Some("R-3".to_owned())));
    assert_eq!(printed("site.ice_history"), ("yes".to_owned(), None));
    assert_eq!(book.default("block.pitch"), None);
}

#[test]
fn the_default_code_is_an_edition_of_the_books() {
    let book = Book::builtin();
    let code = book.default("site.code").unwrap().value.to_string();
    assert!(book.edition(&code).is_ok(), "{code}");
}

#[test]
fn the_overlays_shown_in_the_readme_read() {
    let readme = include_str!("../../../books/README.md");
    let shown: Vec<&str> = readme
        .split("```toml\n")
        .skip(1)
        .filter_map(|rest| rest.split("```").next())
        .filter(|block| block.starts_with("[["))
        .collect();
    assert_eq!(shown.len(), 5);
    for block in shown {
        overlay(block).unwrap();
    }
}

#[test]
fn an_edition_knows_which_rules_an_overlay_amends_and_so_do_those_built_on_it() {
    let on_top = "\n[[edition]]\nid = \"town\"\nname = \"a town\"\nyear = 2016\nbased_on = \"wisconsin\"\n\
                  source = { text = \"town text\", confidence = \"published\" }\n";
    let book = Book::with_overlays(&[("mine.toml", &format!("{AMENDED}{on_top}"))]).unwrap();
    for (id, amended) in [("wisconsin", true), ("town", true), ("irc-2015", false)] {
        let edition = book.edition(id).unwrap();
        assert_eq!(
            (edition.is_amended("ice_barrier"), edition.is_amended("drip_edge")),
            (amended, false),
            "{id}"
        );
    }
}
