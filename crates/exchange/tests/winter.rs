//! The shape of a winter as JSON: names are never changed, ranges are in order. The town and its climate are invented.

use book::Book;
use job::Job;
use serde_json::Value;
use study::Study;
use study::winter::{Sampling, Spread, Winter};
use winter::weather::{Site, Weather};
use winter::year::{Month, Normals};

const FIGURES: [&str; 10] = [
    "ice_kg_per_m_eave",
    "sun_ice_kg_per_m_eave",
    "melt_kg",
    "pond_days_over_membrane",
    "deck_at_design_C",
    "attic_at_design_C",
    "vent_flow_m3_s",
    "leak_flow_m3_s",
    "heat_kwh",
    "heating_kwh",
];

/// A winter of one month, so that few hours are run through.
fn weather() -> Weather {
    let means = [-8.0, 11.0, 12.0, 13.0, 14.0, 17.0, 20.0, 19.0, 15.0, 13.0, 12.0, 11.0];
    let months = means.map(|mean| Month {
        mean,
        high: mean + 5.0,
        low: mean - 5.0,
        precipitation: 80.0,
        ..Month::default()
    });
    let site = Site { name: "town".into(), latitude: 46.9, longitude: -92.0, zone: -6.0, height: 350.0 };
    Normals { site, months }.year(5).expect("a year")
}

#[test]
fn figures_of_both_states_have_their_names_and_ranges() {
    let book = Book::builtin();
    let text = include_str!("../../../examples/cross-gable.toml");
    let (job, _) = Job::read(text, &book).expect("a job");
    let study = Study::of(&job, &book).expect("a study");
    let weather = weather();
    let winter = Winter::of(&study, &weather, &book).expect("a winter");
    let spread = Spread::of(&study, &weather, &book, Sampling { runs: 48, seed: 1 }).expect("a spread");
    let alone = exchange::winter(&winter, None);
    let ranged = exchange::winter(&winter, Some(&spread));
    let number = |value: &Value| value.as_f64().unwrap_or_else(|| panic!("{value}"));
    for state in ["found", "plan"] {
        for figure in FIGURES {
            let [single, of] = [&alone, &ranged].map(|all| &all["states"][state][figure]);
            assert_eq!(single["p50"], of["as_written"], "{state} {figure}");
            let [p10, p50, p90] = ["p10", "p50", "p90"].map(|name| number(&of[name]));
            assert!(p10 <= p50 && p50 <= p90, "{state} {figure}: {of}");
        }
    }
    for row in ranged["ablation"].as_array().expect("rows") {
        assert!(row["fix"].is_string() && row["deck_at_design_C"].is_f64(), "{row}");
        assert!(number(&row["melt_kg_day_at_design"]) >= 0.0);
        assert!(number(&row["spread"]["melt_kg_day_at_design"]["p90"]) >= 0.0);
        for winter in ["typical", "hard"] {
            for figure in
                ["ice_kg_per_m_eave", "melt_kg", "pond_days_over_membrane", "heating_kwh", "deck_moisture"]
            {
                assert!(number(&row[winter][figure]).is_finite(), "{winter} {figure}: {row}");
            }
            assert!(
                row[winter]["heating_money"].as_str().is_some_and(|money| money.starts_with('$')),
                "{row}"
            );
        }
        assert_eq!(row["why"].is_string(), row["fix"] != "as found", "{row}");
    }
    for state in ["found", "plan"] {
        let [soft, hard] =
            [&alone["states"][state], &alone["hard"][state]].map(|of| number(&of["heating_kwh"]["p50"]));
        assert!(hard > soft, "{state}: {hard} for {soft}");
    }
    assert!(alone["fuel"]["unit"] == "therm" && alone["fuel"]["lacks"].is_null());
    assert!(number(&ranged["closure"]["energy_rel"]) < 1e-9 && number(&ranged["closure"]["mass_rel"]) < 1e-9);
    let told = &ranged["spread"];
    assert!(told["runs"] == 48 && told["seed"] == 1 && alone.get("spread").is_none());
    assert!((0.0..=1.0).contains(&number(&told["plan_near_zero_probability"])));
    let saved = &told["heating_saved_money"];
    assert!(saved["p10"].as_str().is_some_and(|money| money.starts_with('$')), "{saved}");
    // what is told of the ice is told by the surface that is good enough, and sorted
    let is_told = told["surface_told"].as_f64().is_some_and(|share| share >= 0.8);
    for (list, by) in [("sensitivity", "total"), ("measure_next", "narrows")] {
        let rows = told[list].as_array().expect("a list");
        assert_eq!(rows.is_empty(), !is_told, "{list}");
        assert!(list != "measure_next" || rows.iter().all(|row| row["narrows_heating"].is_number()));
        assert!(rows.windows(2).all(|pair| number(&pair[0][by]) >= number(&pair[1][by])), "{list}");
    }
}
