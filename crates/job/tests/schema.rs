//! The JSON Schema and the reader agree on the examples, and on what is broken about keys and kinds.

use std::cell::RefCell;
use std::collections::BTreeMap;

use book::Book;
use job::Job;
use regex::Regex;
use serde_json::{Value as Json, json};
use toml::Value as Toml;

/// Whether `value` is valid against `schema`, for the words the schema of the job document uses.
fn is_valid(value: &Json, schema: &Json, root: &Json) -> bool {
    let Some(schema) = schema.as_object() else { return schema != &Json::Bool(false) };
    schema.iter().all(|(word, rule)| match word.as_str() {
        "$ref" => is_valid(
            value,
            root.pointer(&rule.as_str().unwrap_or_default()[1..]).unwrap_or(&Json::Null),
            root,
        ),
        "type" => is_of_type(value, rule),
        "const" => value == rule,
        "enum" => rule.as_array().is_some_and(|known| known.contains(value)),
        "pattern" => value.as_str().is_none_or(|text| matches(rule, text)),
        "maxLength" => {
            value.as_str().is_none_or(|text| text.chars().count() as u64 <= rule.as_u64().unwrap_or(0))
        }
        "minimum" => value.as_f64() >= rule.as_f64() || value.as_f64().is_none(),
        "maximum" => value.as_f64() <= rule.as_f64() || value.as_f64().is_none(),
        "minItems" => value.as_array().is_none_or(|items| items.len() as u64 >= rule.as_u64().unwrap_or(0)),
        "maxItems" => value.as_array().is_none_or(|items| items.len() as u64 <= rule.as_u64().unwrap_or(0)),
        "items" => value.as_array().is_none_or(|items| items.iter().all(|item| is_valid(item, rule, root))),
        "anyOf" => any_of(value, rule, root) > 0,
        "oneOf" => any_of(value, rule, root) == 1,
        "required" => value.as_object().is_none_or(|table| {
            rule.as_array().is_some_and(|keys| {
                keys.iter().all(|key| table.contains_key(key.as_str().unwrap_or_default()))
            })
        }),
        "properties" | "patternProperties" | "additionalProperties" => value
            .as_object()
            .is_none_or(|table| table.iter().all(|(key, item)| allows(key, item, schema, root))),
        "description" | "title" | "examples" | "format" | "$schema" | "$defs" => true,
        unexpected => panic!("this test does not know the word `{unexpected}`"),
    })
}

fn is_of_type(value: &Json, rule: &Json) -> bool {
    match rule.as_str() {
        Some("string") => value.is_string(),
        Some("number") => value.is_number(),
        Some("integer") => value.is_i64() || value.is_u64(),
        Some("boolean") => value.is_boolean(),
        Some("array") => value.is_array(),
        Some("object") => value.is_object(),
        other => panic!("this test does not know the type {other:?}"),
    }
}

fn matches(pattern: &Json, text: &str) -> bool {
    thread_local! { static COMPILED: RefCell<BTreeMap<String, Regex>> = const { RefCell::new(BTreeMap::new()) } }
    let pattern = pattern.as_str().unwrap_or_default().to_owned();
    COMPILED.with_borrow_mut(|compiled| {
        let regex = compiled
            .entry(pattern)
            .or_insert_with_key(|pattern| Regex::new(pattern).expect("a regular expression"));
        regex.is_match(text)
    })
}

fn any_of(value: &Json, rules: &Json, root: &Json) -> usize {
    rules.as_array().map_or(0, |rules| rules.iter().filter(|rule| is_valid(value, rule, root)).count())
}

fn allows(key: &str, item: &Json, schema: &serde_json::Map<String, Json>, root: &Json) -> bool {
    if let Some(rule) = schema.get("properties").and_then(|properties| properties.get(key)) {
        return is_valid(item, rule, root);
    }
    let patterns = schema.get("patternProperties").and_then(Json::as_object);
    if let Some((_, rule)) =
        patterns.and_then(|rules| rules.iter().find(|(rule, _)| matches(&json!(rule), key)))
    {
        return is_valid(item, rule, root);
    }
    schema.get("additionalProperties").is_none_or(|rule| is_valid(item, rule, root))
}

fn json_of(value: &Toml) -> Json {
    match value {
        Toml::String(text) => json!(text),
        Toml::Integer(number) => json!(number),
        Toml::Float(number) => json!(number),
        Toml::Boolean(yes) => json!(yes),
        Toml::Datetime(date) => json!(date.to_string()),
        Toml::Array(items) => items.iter().map(json_of).collect(),
        Toml::Table(table) => {
            Json::Object(table.iter().map(|(key, item)| (key.clone(), json_of(item))).collect())
        }
    }
}

fn accepts(text: &str) -> bool {
    let schema = job::schema();
    let document: toml::Table = text.parse().expect("TOML");
    is_valid(&json_of(&Toml::Table(document)), &schema, &schema)
}

#[test]
fn the_schema_accepts_the_examples_and_the_starter() {
    assert!(accepts(include_str!("../../../examples/cross-gable.toml")));
    assert!(accepts(include_str!("../../../examples/hip-split-level.toml")));
    assert!(accepts(job::starter()));
}

#[test]
fn the_schema_refuses_what_the_reader_refuses_of_keys_and_kinds() {
    for (document, name) in [
        (include_str!("broken/keys-misspelt-or-misplaced.toml"), "keys misspelt"),
        (include_str!("broken/keys-missing.toml"), "keys missing"),
        (include_str!("broken/kinds-of-value.toml"), "kinds"),
        (include_str!("broken/numbers-without-units.toml"), "bare numbers"),
        (include_str!("broken/words-misspelt.toml"), "words"),
        (include_str!("broken/gutters.toml"), "gutters"),
        (include_str!("broken/version-newer.toml"), "version"),
        (include_str!("broken/unknown-where-it-must-be-measured.toml"), "unknown"),
        (include_str!("broken/outline-of-two-points.toml"), "outline"),
    ] {
        assert!(!accepts(document), "{name}");
    }
}

#[test]
fn every_single_change_the_schema_refuses_the_reader_refuses_too() {
    let (starter, book) = (job::starter(), Book::builtin());
    let values =
        ["12", "\"x\"", "true", "[]", "{}", "\"6/12\"", "\"16 in\"", "\"unknown\"", "2026-01-12", "\"main\""];
    let paths = [
        "title",
        "units",
        "site.code",
        "site.rain",
        "site.ice_history",
        "site.wall_line",
        "covering.exposure",
        "block.main.at",
        "block.main.size",
        "block.main.plate",
        "block.main.roof",
        "block.main.roof.ridge",
        "block.main.roof.pitch",
        "block.main.overhang",
        "block.main.overhang.eave",
        "opening.stack.size",
        "opening.stack.state",
        "opening.stack.kind",
        "gutter.south gutter.eave",
        "gutter.south gutter.part",
        "gutter.south gutter.kind",
        "gutter.south gutter.fall",
        "gutter.south gutter.downspouts",
        "gutter.south gutter.wall_gap",
        "walls.main.clearance",
        "attic.main.under",
        "attic.main.vapor_retarder",
    ];
    for (path, value) in paths.into_iter().flat_map(|path| values.map(|value| (path, value))) {
        let text = job::edit::set(starter, path, value).expect("a place to write it");
        assert!(
            accepts(&text) || Job::read(&text, &book).is_err(),
            "{path} = {value}: read, but refused by the schema"
        );
    }
}

#[test]
fn the_schema_says_which_draft_it_follows_and_explains_every_key() {
    let schema = job::schema();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    let sections = schema["$defs"].as_object().into_iter().flatten().map(|(_, section)| section);
    for section in sections.chain([&schema]) {
        for (key, property) in section["properties"].as_object().into_iter().flatten() {
            assert!(property["const"].is_string() || property["description"].is_string(), "{key}");
        }
    }
}
