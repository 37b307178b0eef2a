use super::*;

const HOUSE: &str = "\u{feff}# A house\r\nweathershed = 1\r\n\r\n[site] # place\r\n\tcode = \"irc-2018\"  # adopted\r\n\r\n\
    [[block]]\r\nname = \"main\"\r\nroof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\" } # gauge\r\n\r\n\
    [[block]]\r\nname = \"häuser 2\"\r\nplate = \"9'\"\r\n\r\n[attic.main.found]\r\nhatch = \"R-1\"\r\n\r\n\
    [[reading]]\r\nvalue = \"40'\"\r\n";

/// The lines that differ, old and new.
fn changed(path: &str, value: &str) -> (Vec<String>, Vec<String>) {
    let edited = set(HOUSE, path, value).unwrap_or_else(|problem| panic!("{}", problem.plain(HOUSE)));
    let lines = |text: &str| text.split_inclusive('\n').map(str::to_owned).collect::<Vec<_>>();
    let (old, new) = (lines(HOUSE), lines(&edited));
    let same = |pair: &(&String, &String)| pair.0 == pair.1;
    let head = old.iter().zip(&new).take_while(same).count();
    let shorter = old.len().min(new.len()) - head;
    let tail = old.iter().rev().zip(new.iter().rev()).take(shorter).take_while(same).count();
    (old[head..old.len() - tail].to_vec(), new[head..new.len() - tail].to_vec())
}

fn check(path: &str, value: &str, old: &[&str], new: &[&str]) {
    let (was, is) = changed(path, value);
    assert_eq!(
        (was.iter().map(String::as_str).collect::<Vec<_>>(), is),
        (old.to_vec(), new.iter().map(|line| (*line).to_owned()).collect())
    );
}

#[test]
fn a_value_changes_in_place_and_its_remark_stays() {
    check(
        "site.code",
        "irc-2021",
        &["\tcode = \"irc-2018\"  # adopted\r\n"],
        &["\tcode = \"irc-2021\"  # adopted\r\n"],
    );
}

#[test]
fn a_value_in_braces_changes_in_place() {
    check(
        "block.main.roof.pitch",
        "7/12",
        &["roof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\" } # gauge\r\n"],
        &["roof = { form = \"gable\", ridge = \"x\", pitch = \"7/12\" } # gauge\r\n"],
    );
}

#[test]
fn items_are_found_by_name_or_number() {
    check("block.häuser 2.plate", "10'", &["plate = \"9'\"\r\n"], &["plate = \"10'\"\r\n"]);
    check("block.2.plate", "10'", &["plate = \"9'\"\r\n"], &["plate = \"10'\"\r\n"]);
    check("reading.1.value", "41'", &["value = \"40'\"\r\n"], &["value = \"41'\"\r\n"]);
}

#[test]
fn a_missing_key_is_added_after_the_last_of_its_section() {
    check("site.year_built", "1964", &[], &["\tyear_built = 1964\r\n"]);
    check("block.main.plate", "17'", &[], &["plate = \"17'\"\r\n"]);
    check("units", "si", &[], &["units = \"si\"\r\n"]);
    check("attic.main.found.baffles", "0", &[], &["baffles = 0\r\n"]);
}

#[test]
fn a_missing_key_is_added_inside_braces() {
    check(
        "block.main.roof.hip_from",
        "4'",
        &["roof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\" } # gauge\r\n"],
        &["roof = { form = \"gable\", ridge = \"x\", pitch = \"6/12\", hip_from = \"4'\" } # gauge\r\n"],
    );
}

#[test]
fn a_missing_table_of_a_list_item_is_added_in_braces() {
    check("block.main.overhang.eave", "16 in", &[], &["overhang = { eave = \"16 in\" }\r\n"]);
}

#[test]
fn a_missing_section_is_added_at_the_end() {
    check("house.humidity", "38 %", &[], &["\r\n", "[house]\r\n", "humidity = \"38 %\"\r\n"]);
    check("attic.main.ceiling", "1200 ft2", &[], &["\r\n", "[attic.main]\r\n", "ceiling = \"1200 ft2\"\r\n"]);
    check(
        "walls.main.siding",
        "cedar-bevel",
        &[],
        &["\r\n", "[walls.main]\r\n", "siding = \"cedar-bevel\"\r\n"],
    );
}

#[test]
fn a_document_without_a_last_line_end_gets_one() {
    assert_eq!(set("[site]\na = 1", "site.b", "2").as_deref(), Ok("[site]\na = 1\nb = 2\n"));
    assert_eq!(set("", "title", "x").as_deref(), Ok("title = \"x\"\n"));
    assert_eq!(set("[site]", "site.a", "1").as_deref(), Ok("[site]\na = 1\n"));
}

#[test]
fn empty_braces_and_values_over_several_lines_are_filled() {
    assert_eq!(set("a = {}", "a.b", "1").as_deref(), Ok("a = { b = 1 }"));
    assert_eq!(
        set("[t]\na = [\n  1,\n]\n[u]\n", "t.b", "1").as_deref(),
        Ok("[t]\na = [\n  1,\n]\nb = 1\n[u]\n")
    );
}

#[test]
fn a_path_that_leads_nowhere_is_refused_with_the_nearest_name() {
    let refused = |path: &str| set(HOUSE, path, "1").unwrap_err();
    assert_eq!(refused("block.mian.plate").mend, "did you mean `main`?");
    assert_eq!(refused("reading.7.value").mend, "call it by number, 1 to 1");
    assert_eq!(refused("site.code.year").message, "`site.code` is a single value and has no `year` in it");
    assert_eq!(refused("attic").message, "`attic` is a section of its own, not a value");
    assert_eq!(refused("attic.main").message, "`attic.main` is a section of its own, not a value");
    assert_eq!(refused("site").message, "`site` is a section of its own, not a value");
    assert_eq!(refused("block").message, "`block` is a section of its own, not a value");
    assert_eq!(refused("a..b").code, "no-such-path");
}

#[test]
fn a_table_of_dotted_keys_gets_no_heading_of_its_own() {
    assert_eq!(set("house.fuel = \"oil\"\n", "house.humidity", "38 %").unwrap_err().code, "cannot-set");
}
