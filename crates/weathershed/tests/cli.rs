//! The command line as a person and a program use it.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use assert_cmd::Command;
use serde_json::Value;
use tempfile::TempDir;

const FOOT: f64 = 0.3048;

fn weathershed() -> Command {
    let mut command = Command::cargo_bin("weathershed").unwrap();
    command.env("NO_COLOR", "1");
    command
}

fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name)
}

fn run(args: &[&str]) -> (i32, String, String) {
    let output = weathershed().args(args).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
}

fn json(args: &[&str]) -> Value {
    let (status, out, err) = run(args);
    assert_eq!(status, 0, "{err}");
    serde_json::from_str(&out).unwrap()
}

fn job_in(home: &TempDir, name: &str, text: &str) -> String {
    let path = home.path().join(name);
    fs::write(&path, text).unwrap();
    path.display().to_string()
}

#[test]
fn show_roof_as_json_gives_the_cross_gables_figures() {
    let path = example("cross-gable.toml");
    let roof = json(&["show", "roof", path.to_str().unwrap(), "--json"]);
    assert_eq!(roof["version"], 1);
    let near = |value: &Value, feet: f64, power: i32| {
        let wanted = feet * FOOT.powi(power);
        let value = value.as_f64().unwrap();
        assert!((value - wanted).abs() <= 0.01 * FOOT.powi(power), "{value} against {wanted}");
    };
    near(&roof["totals"]["plan_area_m2"], 1543.85, 2);
    near(&roof["totals"]["slope_area_m2"], 1749.74, 2);
    near(&roof["totals"]["edge_length_m"]["eave"], 104.222, 1);
    near(&roof["totals"]["edge_length_m"]["valley"], 34.712, 1);
    let plane = roof["planes"].as_array().unwrap().iter().find(|p| p["name"] == "main N").unwrap();
    near(&plane["slope_area_m2"], 673.06, 2);
    assert_eq!(plane["pitch_rise_per_12"], 6.0);
    assert_eq!(plane["azimuth_deg"], 0.0);
    let skylight = roof["openings"].as_array().unwrap().iter().find(|o| o["name"] == "skylight").unwrap();
    assert_eq!(skylight["plane"], "main N");
    assert_eq!(skylight["kind"], "skylight");
}

#[test]
fn show_takeoff_as_json_has_lines_with_reasons() {
    let path = example("cross-gable.toml");
    let takeoff = json(&["show", "takeoff", path.to_str().unwrap(), "--json"]);
    assert_eq!(takeoff["version"], 1);
    let lines = takeoff["lines"].as_array().unwrap();
    assert!(lines.len() > 10);
    for line in lines {
        assert!(
            line["item"].is_string() && line["because"].as_array().is_some_and(|b| !b.is_empty()),
            "{line}"
        );
    }
}

#[test]
fn show_heat_tells_what_ceilings_resist_what_to_buy_and_what_must_hold() {
    let path = example("cross-gable.toml");
    let heat = json(&["show", "heat", path.to_str().unwrap(), "--json"]);
    assert_eq!(heat["version"], 1);
    assert_eq!(heat["spaces"][0]["name"], "main");
    assert_eq!(heat["spaces"][0]["buy"]["how"]["by"], "bags");
    assert_eq!(heat["at_22_F"].as_array().map(Vec::len), Some(9));
    assert_eq!(heat["eaves"].as_array().map(Vec::len), Some(2));
    assert!(heat["eaves"][0]["plan"]["closure_rel"].as_f64().unwrap() < 1e-6);
    let (status, text, _) = run(&["show", "heat", path.to_str().unwrap()]);
    assert_eq!(status, 0);
    for told in ["as found", "to buy:", "spillage and carbon monoxide", "R-60.0", "$"] {
        assert!(text.contains(told), "no `{told}` in: {text}");
    }
}

#[test]
fn show_water_as_json_gives_the_cross_gables_catchments_and_findings() {
    let path = example("cross-gable.toml");
    let water = json(&["show", "water", path.to_str().unwrap(), "--json"]);
    let ft2 = |v: &Value| v.as_f64().unwrap() / 0.092_903_04;
    let valleys: Vec<f64> = (water["edges"].as_array().unwrap().iter())
        .filter(|e| e["kind"] == "valley")
        .map(|e| ft2(&e["catchment_m2"]))
        .collect();
    assert!(valleys.len() == 2 && valleys.iter().all(|v| (v - 127.407).abs() < 5e-4), "{valleys:?}");
    let leaves: f64 = water["outlets"].as_array().unwrap().iter().map(|o| ft2(&o["catchment_m2"])).sum();
    assert!((leaves - ft2(&water["catchment_m2"])).abs() < 1e-5);
    assert_eq!(water["findings"][0]["kind"], "stream_beside_wall");
}

/// By hand: 832 ft² over 150 is 798.72 in², 0.515 302 m²; planned are 768 in², 0.495 483 m².
#[test]
fn show_code_gives_the_split_levels_verdicts_worst_first_and_as_json() {
    let path = example("hip-split-level.toml");
    let code = json(&["show", "code", path.to_str().unwrap(), "--json"]);
    assert_eq!((&code["version"], &code["edition_id"]), (&1.into(), &"irc-2021".into()));
    let rows = code["rows"].as_array().unwrap();
    let count = |verdict: &str| rows.iter().filter(|row| row["planned"]["verdict"] == verdict).count();
    for (verdict, told) in [("fail", "failing"), ("cannot_tell", "untold"), ("pass", "passing")] {
        assert_eq!(code[told], count(verdict), "{verdict}");
    }
    let upper =
        rows.iter().find(|row| row["rule"] == "attic_vents" && row["places"][0] == "attic upper").unwrap();
    let plain = &upper["checks"][0];
    let near =
        |value: &Value, wanted: f64| assert!((value.as_f64().unwrap() - wanted).abs() < 1e-6, "{value}");
    near(&plain["required"], 0.515_302);
    near(&plain["planned"]["provided"], 0.495_483);
    assert_eq!((&plain["unit"], &plain["planned"]["verdict"]), (&"m2".into(), &"fail".into()));
    assert_eq!((&upper["need"], &upper["planned"]["verdict"]), (&"any".into(), &"pass".into()));
    let (status, text, _) = run(&["show", "code", path.to_str().unwrap()]);
    assert_eq!(status, 0);
    let at = |words: &str| text.find(words).unwrap_or_else(|| panic!("no `{words}` in {text}"));
    assert!(at("\n FAIL ") < at("\n cannot tell ") && at("\n cannot tell ") < at("\n pass "), "{text}");
    assert!(text.contains("798.72 in²") && text.contains("768 in² NOT") && text.contains("official decide"));
}

/// By hand: of the south-west eave's 415.67 ft² its two downspouts take all; blocked, the valley's 127.407 ft² go into the wing's gutter.
#[test]
fn show_water_tells_what_a_blocked_gutter_changes() {
    let path = example("cross-gable.toml");
    let name = "south-west gutter";
    let ft2 = |v: &Value| v.as_f64().unwrap() / 0.092_903_04;
    let of = |water: &Value, name: &str| -> f64 {
        let gutters = water["hung"]["gutters"].as_array().unwrap();
        ft2(&gutters.iter().find(|g| g["gutter"] == name).unwrap()["catchment_m2"])
    };
    let open = json(&["show", "water", path.to_str().unwrap(), "--json"]);
    let blocked = json(&["show", "water", path.to_str().unwrap(), "--json", "--blocked", name]);
    assert!((of(&open, name) - 415.67).abs() < 5e-3 && of(&blocked, name) == 0.0);
    let throat = of(&blocked, "wing west gutter") - of(&open, "wing west gutter");
    assert!((throat - 127.407).abs() < 5e-4, "{throat}");
    assert_eq!(open["hung"]["changes"], serde_json::json!([]));
    assert!(blocked["hung"]["changes"].as_array().unwrap().iter().any(|c| c["what"] == "comes"));
    assert_eq!(open["edges"], blocked["edges"]);
}

#[test]
fn only_what_hangs_can_be_blocked() {
    let path = example("cross-gable.toml");
    let (status, _, told) = run(&["show", "water", path.to_str().unwrap(), "--blocked", "porch guter"]);
    assert!(status == 2 && told.contains("did you mean `porch gutter`?"), "{told}");
    let (status, _, told) = run(&["show", "roof", path.to_str().unwrap(), "--blocked", "porch gutter"]);
    assert!(status == 2 && told.contains("only water"), "{told}");
}

#[test]
fn trace_tells_the_way_of_a_drop_and_refuses_a_point_off_the_roof() {
    let path = example("cross-gable.toml");
    let path = path.to_str().unwrap();
    let (status, way, _) = run(&["trace", path, "24'", "10'", "--no-gutters"]);
    assert_eq!(status, 0);
    let ways: Vec<&str> = way.lines().collect();
    assert_eq!(ways[0], "falls at 24' east, 10' north");
    assert!(ways[ways.len() - 1].starts_with("off the roof end at wall of eave"), "{way}");
    let end = json(&["trace", path, "24'", "10'", "--json", "--no-gutters"]);
    assert_eq!(end["end"]["kind"], "off_end");
    let (status, _, told) = run(&["trace", path, "-24'", "10'"]);
    assert!(status == 2 && told.contains("no roof at"), "{told}");
}

/// Down the valley into the gutter at its throat, by the downspout at 18 ft into the porch's gutter, and along that to its west end.
#[test]
fn trace_follows_a_drop_through_the_gutters() {
    let path = example("cross-gable.toml");
    let drop = ["trace", path.to_str().unwrap(), "24'", "10'"];
    let (status, way, _) = run(&drop);
    assert_eq!(status, 0);
    let ways: Vec<&str> = way.lines().map(|line| line.split(" to ").next().unwrap()).collect();
    let gutters = [
        "along gutter south-west gutter",
        "down south-west gutter downspout 2",
        "along gutter porch gutter",
        "down porch gutter downspout 1",
    ];
    assert!(ways[2].starts_with("along valley") && ways[3..] == gutters, "{way}");
    let told = json(&[&drop[..], &["--json"]].concat());
    assert_eq!(told["end"]["downspout"], "porch gutter downspout 1");
    assert_eq!(told["steps"][2]["gutter"], "south-west gutter");
    let blocked = json(&[&drop[..], &["--json", "--blocked", "porch gutter"]].concat());
    assert_eq!(blocked["end"]["kind"], "off_edge");
    let (status, _, told) = run(&[&drop[..], &["--no-gutters", "--blocked", "porch gutter"]].concat());
    assert!(status == 2 && told.contains("--no-gutters"), "{told}");
}

#[test]
fn tables_on_the_terminal_name_every_plane_and_item() {
    let path = example("hip-split-level.toml");
    let (status, roof, _) = run(&["show", "roof", path.to_str().unwrap()]);
    assert_eq!(status, 0);
    assert!(roof.contains("upper N") && roof.contains("roof end at wall") && roof.contains("whole roof"));
    let (status, takeoff, _) = run(&["show", "takeoff", path.to_str().unwrap()]);
    assert_eq!(status, 0);
    assert!(takeoff.contains("because") && takeoff.contains("R905"));
}

#[test]
fn show_detail_sets_layers_to_wet_as_found_beside_those_as_planned_the_worst_first() {
    let path = example("cross-gable.toml");
    let (status, text, _) = run(&["show", "detail", path.to_str().unwrap()]);
    assert_eq!(status, 0);
    let row = |place: &str| text.lines().find(|line| line.trim_start().starts_with(place)).unwrap();
    assert!(row("lower end of edge 18").contains("0 > 3"), "{text}");
    assert!(row("edge 18, sidewall").contains("1 > 3"), "{text}");
    assert!(text.find("lower end of edge 18") < text.find("edge 7, rake"));
    let out = json(&["show", "detail", path.to_str().unwrap(), "--json"]);
    let end = out["places"].as_array().unwrap().iter().find(|place| place["spot"] == "kick-out").unwrap();
    let rain = |fit: &Value| fit["stands"][0]["failures"].clone();
    assert_eq!((rain(&end["found"]), rain(&end["planned"][0])), (0.into(), 3.into()));
    assert_eq!(out["version"], 1);
}

#[test]
fn a_roof_end_at_a_wall_without_kick_out_stops_the_plan_and_names_the_edge() {
    let home = tempfile::tempdir().unwrap();
    let shipped = include_str!("../../../books/details/walls.toml");
    let from = shipped.find("[[detail]]\nid = \"kick-out\"\n").unwrap();
    let to = from + 1 + shipped[from + 1..].find("\n[[detail]]").unwrap();
    let refused = shipped[from..to].replace("choice = \"usual\"", "choice = \"refused\"");
    let overlay = job_in(&home, "mine.toml", &refused);
    let path = example("hip-split-level.toml");
    let (status, _, err) = run(&["show", "detail", path.to_str().unwrap(), "--book", &overlay]);
    assert_eq!(status, 1);
    assert_eq!(err.matches("has no kick-out").count(), 2, "{err}");
}

#[test]
fn plan_writes_both_papers_drawings_and_results_and_can_be_run_again() {
    let home = tempfile::tempdir().unwrap();
    let target = home.path().join("Büro, first try");
    let job = example("cross-gable.toml");
    for _ in 0..2 {
        weathershed().args(["plan", job.to_str().unwrap(), "-o"]).arg(&target).assert().success();
    }
    for name in [
        "roof-sheet-letter.pdf",
        "roof-sheet-a4.pdf",
        "code-sheet-letter.pdf",
        "code-sheet-a4.pdf",
        "code.json",
        "roof.json",
        "takeoff.json",
        "job.toml",
        "SHA256SUMS",
        "drawings/plan.svg",
        "drawings/view.svg",
        "drawings/plane-01-main-n.svg",
        "owner-letter-letter.pdf",
        "owner-letter-a4.pdf",
        "drawings/water-plan.svg",
        "drawings/water-owner.svg",
        "drawings/layers-01.svg",
        "drawings/laying-kick-out-3-12-lap.svg",
        "drawings/section-kick-out-3-12-lap.svg",
        "drawings/section-valley-open-6-12-and-9-12.svg",
        "detail.json",
        "diagnosis-sheet-letter.pdf",
        "diagnosis-sheet-a4.pdf",
        "winter-sheet-letter.pdf",
        "winter-sheet-a4.pdf",
        "winter.json",
        "drawings/winter-season.svg",
        "drawings/winter-profile.svg",
        "drawings/winter-fixes.svg",
        "drawings/winter-bands.svg",
        "drawings/owner-house.svg",
        "drawings/owner-breath.svg",
    ] {
        assert!(target.join(name).exists(), "{name}");
    }
    assert!(fs::read(target.join("roof-sheet-letter.pdf")).unwrap().starts_with(b"%PDF-"));
    assert_eq!(fs::read_to_string(target.join("job.toml")).unwrap(), fs::read_to_string(job).unwrap());
    assert_eq!(fs::read_dir(home.path()).unwrap().count(), 1);
}

#[test]
fn what_a_plan_that_was_killed_leaves_is_gone_after_the_next() {
    let home = tempfile::tempdir().unwrap();
    let (target, job) = (home.path().join("out"), example("taped-twice.toml"));
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_weathershed"));
    let mut killed = command.arg("plan").arg(&job).arg("-o").arg(&target).spawn().unwrap();
    let begun = || fs::read_dir(home.path()).unwrap().next().is_some();
    while !begun() && killed.try_wait().unwrap().is_none() {
        std::thread::sleep(Duration::from_millis(2));
    }
    killed.kill().unwrap();
    killed.wait().unwrap();
    let left: Vec<_> = fs::read_dir(home.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(left.len() == 1 && left[0].to_string_lossy().starts_with(".out.new-"), "{left:?}");
    weathershed().arg("plan").arg(&job).arg("-o").arg(&target).assert().success();
    assert_eq!(fs::read_dir(home.path()).unwrap().count(), 1);
    assert!(target.join("roof.json").exists());
}

#[test]
fn plan_of_a_broken_job_leaves_an_earlier_folder_alone() {
    let home = tempfile::tempdir().unwrap();
    let target = home.path().join("out");
    let good = example("cross-gable.toml");
    weathershed().args(["plan", good.to_str().unwrap(), "-o"]).arg(&target).assert().success();
    let broken =
        job_in(&home, "broken.toml", &fs::read_to_string(&good).unwrap().replace("26'\"]", "-26'\"]"));
    weathershed().args(["plan", &broken, "-o"]).arg(&target).assert().code(1);
    assert!(target.join("roof-sheet-letter.pdf").exists());
}

#[test]
fn new_job_checks_without_errors_and_is_never_written_over() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("my house.toml");
    let path = path.to_str().unwrap();
    assert_eq!(run(&["new", path]).0, 0);
    let (status, _, err) = run(&["check", path]);
    assert_eq!(status, 0, "{err}");
    assert!(err.contains("no errors"), "{err}");
    let (status, _, err) = run(&["new", path]);
    assert_eq!(status, 3);
    assert!(err.contains("already there"), "{err}");
}

#[test]
fn problems_go_to_standard_error_with_place_cause_and_mend() {
    let home = tempfile::tempdir().unwrap();
    let text = fs::read_to_string(example("cross-gable.toml")).unwrap();
    let job = job_in(
        &home,
        "job.toml",
        &text
            .replace("pitch = \"6/12\"", "pitch = \"6\"")
            .replace("at = [\"12'\", \"17'\"]", "at = [\"120'\", \"17'\"]"),
    );
    let (status, out, err) = run(&["check", &job]);
    assert_eq!(status, 1);
    assert!(out.is_empty(), "{out}");
    assert!(err.contains("job.toml:") && err.contains("6/12"), "{err}");
}

#[test]
fn an_opening_off_the_roof_is_reported_where_it_stands() {
    let home = tempfile::tempdir().unwrap();
    let text = fs::read_to_string(example("cross-gable.toml")).unwrap();
    let job = job_in(&home, "job.toml", &text.replace("at = [\"12'\", \"17'\"]", "at = [\"120'\", \"17'\"]"));
    let found: Value = {
        let (status, out, _) = run(&["check", &job, "--json"]);
        assert_eq!(status, 1);
        serde_json::from_str(&out).unwrap()
    };
    let problem = &found["problems"][0];
    assert_eq!(problem["code"], "opening-off-roof");
    let line = text.lines().position(|l| l.contains("at = [\"12'\", \"17'\"]")).unwrap() + 1;
    assert_eq!(problem["places"][0]["line"], line);
}

#[test]
fn windows_line_ends_and_a_byte_order_mark_make_no_difference() {
    let home = tempfile::tempdir().unwrap();
    let text = fs::read_to_string(example("hip-split-level.toml")).unwrap();
    let job = job_in(&home, "von Windows.toml", &format!("\u{feff}{}", text.replace('\n', "\r\n")));
    let plain = json(&["show", "roof", example("hip-split-level.toml").to_str().unwrap(), "--json"]);
    assert_eq!(json(&["show", "roof", &job, "--json"]), plain);
}

#[test]
fn files_that_cannot_be_read_are_exit_three_and_usage_is_exit_two() {
    let home = tempfile::tempdir().unwrap();
    let missing = home.path().join("none.toml");
    let (status, _, err) = run(&["check", missing.to_str().unwrap()]);
    assert_eq!(status, 3);
    assert!(err.contains("cannot read") && err.contains("weathershed new"), "{err}");
    let not_text = home.path().join("job.toml");
    fs::write(&not_text, [0x74, 0xff, 0xfe]).unwrap();
    let (status, _, err) = run(&["check", not_text.to_str().unwrap()]);
    assert!(status == 3 && err.contains("save it again in UTF-8") && err.lines().count() == 2, "{err}");
    assert_eq!(run(&["show", "nothing", "x"]).0, 2);
}

#[test]
fn quiet_says_nothing_when_nothing_is_wrong() {
    let (status, out, err) = run(&["check", "--quiet", example("cross-gable.toml").to_str().unwrap()]);
    assert_eq!((status, out.as_str(), err.as_str()), (0, "", ""));
}

#[test]
fn schema_and_completions_are_printed() {
    let schema = json(&["schema"]);
    assert!(schema["properties"]["block"].is_object());
    let (status, script, _) = run(&["completions", "bash"]);
    assert_eq!(status, 0);
    assert!(script.contains("weathershed"));
}

#[test]
fn set_changes_one_value_and_keeps_comments() {
    let home = tempfile::tempdir().unwrap();
    let before = fs::read_to_string(example("cross-gable.toml")).unwrap();
    let job = job_in(&home, "house.toml", &before);
    let (status, _, err) = run(&["set", &job, "block.porch.plate", "7' 4\""]);
    assert_eq!(status, 0, "{err}");
    let after = fs::read_to_string(&job).unwrap();
    assert_eq!(after, before.replacen(r#""7' 3\"""#, r#""7' 4\"""#, 1));
}

#[test]
fn set_refuses_what_would_break_the_job_and_leaves_it_alone() {
    let home = tempfile::tempdir().unwrap();
    let before = fs::read_to_string(example("cross-gable.toml")).unwrap();
    let job = job_in(&home, "house.toml", &before);
    for (path, value, said) in [
        ("block.main.roof.pitch", "6 feet", "pitch"),
        ("block.mian.plate", "17'", "mian"),
        ("block.main.at", "[", "at"),
    ] {
        let (status, _, err) = run(&["set", &job, path, value]);
        assert!(status == 1 && err.contains(said), "{path}: {err}");
        assert_eq!(fs::read_to_string(&job).unwrap(), before, "{path}");
    }
}

#[test]
fn tables_of_ones_own_go_on_top_of_the_books() {
    let home = tempfile::tempdir().unwrap();
    let overlay = "[[edition]]\nid = \"irc-2018\"\nname = \"our county\"\nyear = 2018\nbased_on = \"irc-2015\"\n\
        source = { text = \"county ordinance\", confidence = \"assumed\" }\n\
        [edition.ice_barrier]\nclause = \"ordinance\"\ninside_wall_line = \"6 ft\"\ndetached_excepted = true\n\
        source = { text = \"county ordinance\", confidence = \"assumed\" }\n";
    let table = job_in(&home, "county.toml", overlay);
    let path = example("cross-gable.toml");
    let wide = json(&["show", "takeoff", path.to_str().unwrap(), "--json", "--book", &table]);
    let plain = json(&["show", "takeoff", path.to_str().unwrap(), "--json"]);
    let net = |of: &Value| {
        let lines = of["lines"].as_array().unwrap();
        lines.iter().find(|line| line["item"] == "ice-barrier").unwrap()["net"].as_f64().unwrap()
    };
    assert!(net(&wide) > net(&plain) * 1.2, "{} and {}", net(&wide), net(&plain));
    let broken = job_in(&home, "broken.toml", "[[edition]]\nid = 3\n");
    let (status, _, err) = run(&["check", path.to_str().unwrap(), "--book", &broken]);
    assert!(status == 1 && err.contains("broken.toml:2:"), "{err}");
}

#[test]
fn a_problem_on_a_line_longer_than_any_terminal_is_told_in_words() {
    let home = tempfile::tempdir().unwrap();
    let job = job_in(&home, "wide.toml", &format!("title = \"{}\" y\n", "x".repeat(70_000)));
    let (status, _, err) = run(&["check", &job]);
    assert_eq!(status, 1);
    assert!(err.contains("wide.toml:1:") && err.len() < 2_000, "{}", err.len());
}

#[test]
fn more_problems_than_a_person_reads_are_told_as_a_count() {
    let home = tempfile::tempdir().unwrap();
    let keys: Vec<String> = (0..20_000).map(|n| format!("odd{n} = 1\n")).collect();
    let job = job_in(&home, "flood.toml", &format!("{}{}", keys.concat(), job::starter()));
    let (status, _, err) = run(&["check", &job]);
    assert_eq!(status, 1);
    assert!(err.contains("19900 more: 19900 unknown-key") && err.contains("check --json"), "{}", err.len());
    assert!(err.contains("20000 problems") && err.lines().count() < 2_000, "{}", err.lines().count());
    let (_, out, _) = run(&["check", "--json", &job]);
    let all: Value = serde_json::from_str(&out).unwrap();
    let last = all["problems"].as_array().unwrap().last().unwrap();
    assert_eq!(last["places"][0]["line"], 20_000);
}

#[test]
fn the_folder_one_works_in_is_not_replaced_from_within() {
    let home = tempfile::tempdir().unwrap();
    let job = fs::canonicalize(example("taped-twice.toml")).unwrap();
    for target in [".".to_owned(), format!("../{}", home.path().file_name().unwrap().to_str().unwrap())] {
        let output = weathershed()
            .current_dir(home.path())
            .args(["plan", job.to_str().unwrap(), "-o", &target])
            .output()
            .unwrap();
        let err = String::from_utf8(output.stderr).unwrap();
        assert!(output.status.code() == Some(3) && err.contains("the folder you work in"), "{err}");
    }
    assert_eq!(fs::read_dir(home.path()).unwrap().count(), 0);
}

#[cfg(target_os = "linux")]
#[test]
fn a_result_that_cannot_be_written_is_a_failure() {
    let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let job = example("cross-gable.toml");
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_weathershed"));
    let status =
        command.args(["show", "roof", job.to_str().unwrap(), "--json"]).stdout(full).status().unwrap();
    assert_eq!(status.code(), Some(3));
}

/// The winter of the example hour by hour: where the job names its weather nothing need be asked, a file that is there stays unless it may go, and every row
/// has the columns of the headings.
#[test]
fn winter_writes_hours_once_and_again_only_when_asked() {
    let home = TempDir::new().unwrap();
    let table = home.path().join("hours.csv");
    let job = example("cross-gable.toml");
    let args = ["winter", job.to_str().unwrap(), "--hours", table.to_str().unwrap()];
    let (status, out, err) = run(&args);
    assert!(status == 0 && out.is_empty() && err.contains("hours of the winter of SNOWY TOWN"), "{err}");
    let text = fs::read_to_string(&table).unwrap();
    let columns = |row: &str| row.split(',').count();
    let headings = text.lines().next().unwrap();
    assert!(headings.starts_with("hour_begins,outdoors_C,") && headings.contains("plan_attic_main_C"));
    assert!(text.lines().count() > 4000 && text.lines().all(|row| columns(row) == columns(headings)));
    fs::write(&table, "mine").unwrap();
    let (status, _, err) = run(&args);
    assert!(status == 3 && err.contains("is already there") && err.contains("--replace"), "{err}");
    assert_eq!(fs::read_to_string(&table).unwrap(), "mine");
    let (status, ..) = run(&[&args[..], &["--replace"]].concat());
    assert_eq!((status, fs::read_to_string(&table).unwrap() == text), (0, true));
}

#[test]
fn winter_without_weather_or_with_a_file_that_is_none_says_what_it_wants() {
    let home = TempDir::new().unwrap();
    let text = fs::read_to_string(example("cross-gable.toml")).unwrap();
    let at = text.find("winter = {").unwrap();
    let end = at + text[at..].find('\n').unwrap();
    let without = [&text[..at], &text[end..]].concat();
    let job = job_in(&home, "job.toml", &without);
    let table = home.path().join("hours.csv").display().to_string();
    let (status, _, err) = run(&["winter", &job, "--hours", &table]);
    assert!(status == 2 && err.contains("site.winter") && err.contains("--weather"), "{err}");
    let none = job_in(&home, "none.csv", "STATION,DATE\nX,01\n");
    let (status, _, err) = run(&["winter", &job, "--hours", &table, "--weather", &none]);
    assert!(status == 3 && err.contains("no column"), "{err}");
    let lost = job_in(&home, "lost.toml", &text);
    let (status, _, err) = run(&["winter", &lost, "--hours", &table]);
    assert!(status == 3 && err.contains("snowy-town-normals.csv"), "{err}");
    assert!(!Path::new(&table).exists());
}

/// The example's house with a hard winter that was: here the other town's normals, as if its winter had come once.
fn with_hard_winter(home: &TempDir, file: &str) -> String {
    fs::copy(example("snowy-town-normals.csv"), home.path().join("snowy-town-normals.csv")).unwrap();
    let text = fs::read_to_string(example("cross-gable.toml")).unwrap();
    job_in(
        home,
        "job.toml",
        &text.replacen("\nwinter = {", &format!("\nhard_winter = {{ file = \"{file}\" }}\nwinter = {{"), 1),
    )
}

/// The hard winter is that of the file: what it comes to is what the same file comes to where it is asked for as the typical year. Texts and JSON say which it was.
#[test]
fn a_hard_winter_that_was_goes_before_the_one_made_of_the_typical_year() {
    let home = TempDir::new().unwrap();
    let file = home.path().join("hard.csv");
    fs::copy(example("mountain-valley-normals.csv"), &file).unwrap();
    let job = with_hard_winter(&home, "hard.csv");
    let show = ["show", "winter", &job, "--runs", "0", "--json"];
    let both = json(&show);
    let alone = json(&[&show[..], &["--weather", file.to_str().unwrap()]].concat());
    for state in ["found", "plan"] {
        assert_eq!(both["hard"][state], alone["states"][state], "{state}");
        assert_ne!(both["states"][state], alone["states"][state], "{state}");
    }
    let read = &both["hard"]["read"];
    assert_eq!(read["file"], "hard.csv");
    assert_eq!(read["weather"], "MOUNTAIN VALLEY TOWN (INVENTED)");
    assert_eq!(read["sha256"].as_str().unwrap().len(), 64);
    assert!(both["hard"]["made"].as_str().unwrap().contains("read from hard.csv"));
    let (status, text, err) = run(&["show", "winter", &job, "--runs", "0"]);
    assert_eq!(status, 0, "{err}");
    assert!(
        text.contains("\nfilled in of the hard winter: temperature in 8760 hours drawn at random"),
        "{text}"
    );
    assert!(
        text.contains(
            "Hard winter: MOUNTAIN VALLEY TOWN (INVENTED), read from hard.csv (`site.hard_winter`); "
        )
    );
    assert!(!text.contains("Hard winter: the same year"));
}

/// A file of a hard winter that is not there or holds none is told at its place in the job, by its field, with what mends it; nothing is made of the typical year in its place.
#[test]
fn a_hard_winter_that_does_not_read_says_where_and_what_mends_it() {
    let home = TempDir::new().unwrap();
    let target = home.path().join("papers");
    let job = with_hard_winter(&home, "lost.epw");
    let plan = ["plan", &job, "-o", target.to_str().unwrap()];
    for (text, why) in
        [(None, "cannot be read"), (Some("STATION,DATE\nX,01\n"), "no column"), (Some("\u{0}"), "this is no")]
    {
        if let Some(text) = text {
            fs::write(home.path().join("lost.epw"), text).unwrap();
        }
        for args in [&["show", "winter", &job, "--runs", "0"][..], &plan] {
            let (status, out, err) = run(args);
            let err = err.replace('│', "").split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(status == 3 && out.is_empty() && err.contains(why), "{err}");
            for part in [
                "job.toml:19:24",
                "`site.hard_winter` names",
                "lost.epw",
                "without it the hard winter is made of the typical year",
            ] {
                assert!(err.contains(part), "{part}: {err}");
            }
        }
        assert!(!target.exists());
    }
}

/// A job without a year of weather, and one whose survey lacks what a winter needs, have every other paper and are told why they have none of the winter.
#[test]
fn plan_without_a_winter_says_so_and_makes_the_rest() {
    let home = TempDir::new().unwrap();
    fs::copy(example("snowy-town-normals.csv"), home.path().join("snowy-town-normals.csv")).unwrap();
    let text = fs::read_to_string(example("cross-gable.toml")).unwrap();
    let lacking = text.replace("leakage = \"2900 cfm50\"\n", "");
    let nameless: Vec<&str> = text.lines().filter(|line| !line.starts_with("winter = ")).collect();
    for (name, text, why) in [
        ("lacking", lacking, "the survey lacks what it needs"),
        ("nameless", nameless.join("\n"), "the job names no year of weather"),
    ] {
        let job = job_in(&home, &format!("{name}.toml"), &text);
        let target = home.path().join(name);
        let (status, _, err) = run(&["plan", &job, "-o", target.to_str().unwrap()]);
        assert!(status == 0 && err.contains(why), "{err}");
        assert_eq!(err.contains("`house.leakage` is not written"), name == "lacking", "{err}");
        assert!(target.join("diagnosis-sheet-a4.pdf").exists() && !target.join("winter.json").exists());
    }
}
