//! JSON Schema of the job document, written from the same descriptions the reader reads by.

use serde_json::{Map, Value as Json, json};
use toml::de::DeValue;

use crate::read::DOCUMENT;
use crate::read::field::{Described, Section};
use crate::read::notation::Written;

/// The JSON Schema (draft 2020-12) of the job document.
///
/// ```
/// assert_eq!(job::schema()["properties"]["title"]["type"], "string");
/// ```
pub fn schema() -> Json {
    let mut definitions = Definitions::default();
    let Json::Object(document) = object(&DOCUMENT, &mut definitions) else { return Json::Null };
    let mut schema = Map::new();
    schema.insert("$schema".into(), "https://json-schema.org/draft/2020-12/schema".into());
    schema.insert("title".into(), "weathershed job document".into());
    schema.extend(document);
    definitions.written.sort_keys();
    schema.insert("$defs".into(), Json::Object(definitions.written));
    Json::Object(schema)
}

/// Schemas that others refer to, by name.
#[derive(Default)]
pub(crate) struct Definitions {
    written: Map<String, Json>,
}

impl Definitions {
    /// A reference to a section.
    pub(crate) fn refer(&mut self, section: &'static Section) -> Json {
        self.define(section.name, |definitions| object(section, definitions));
        json!({ "$ref": format!("#/$defs/{}", section.name) })
    }

    /// A reference to a section that is told from its kin by a word at a key.
    pub(crate) fn refer_with(&mut self, section: &'static Section, key: &str, word: &str) -> Json {
        self.define(section.name, |definitions| {
            let mut schema = object(section, definitions);
            schema["properties"][key] = json!({ "const": word });
            if let Some(required) = schema["required"].as_array_mut() {
                required.insert(0, key.into());
            }
            schema
        });
        json!({ "$ref": format!("#/$defs/{}", section.name) })
    }

    /// A reference to the notation of a quantity.
    pub(crate) fn refer_to_written<Q: Written>(&mut self) -> String {
        self.define(Q::NAME, |_| {
            json!({ "type": "string", "description": format!("{}, such as {}", Q::NOUN, Q::EXAMPLE), "pattern": Q::PATTERN })
        });
        format!("#/$defs/{}", Q::NAME)
    }

    fn define(&mut self, name: &str, schema: impl FnOnce(&mut Self) -> Json) {
        if !self.written.contains_key(name) {
            self.written.insert(name.to_owned(), Json::Null); // holds the place while its parts are defined
            let schema = schema(self);
            self.written.insert(name.to_owned(), schema);
        }
    }
}

fn object(section: &Section, definitions: &mut Definitions) -> Json {
    let required: Vec<&str> =
        section.fields.iter().filter(|field| field.is_required()).map(|field| field.key()).collect();
    let mut properties = Map::new();
    for field in section.fields {
        properties.insert(field.key().to_owned(), property(*field, definitions));
    }
    json!({
        "type": "object",
        "description": section.what,
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

/// A field's schema with what it is, and an example of it.
fn property(field: &dyn Described, definitions: &mut Definitions) -> Json {
    let mut schema = field.schema(definitions);
    let detail = schema["description"].as_str().map(|detail| format!("; {detail}")).unwrap_or_default();
    schema["description"] = format!("{}{detail}", field.what()).into();
    if let Ok(example) = DeValue::parse(field.example()) {
        schema["examples"] = json!([json_of(example.get_ref())]);
    }
    schema
}

/// A TOML value as JSON: dates become text.
pub(crate) fn json_of(value: &DeValue<'_>) -> Json {
    match value {
        DeValue::String(text) => text.as_ref().into(),
        DeValue::Integer(number) => {
            i64::from_str_radix(number.as_str(), number.radix()).unwrap_or_default().into()
        }
        DeValue::Float(number) => number.as_str().parse::<f64>().unwrap_or_default().into(),
        DeValue::Boolean(yes) => (*yes).into(),
        DeValue::Datetime(date) => date.to_string().into(),
        DeValue::Array(items) => items.iter().map(|item| json_of(item.get_ref())).collect(),
        DeValue::Table(entries) => Json::Object(
            entries.iter().map(|(key, item)| (key.get_ref().to_string(), json_of(item.get_ref()))).collect(),
        ),
    }
}
