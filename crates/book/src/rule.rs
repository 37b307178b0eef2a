//! Rules of the trade as single figures, and defaults for survey fields left `unknown`.

use serde::Deserialize;

use crate::lookup::LookupError;
use crate::quantity::{Kind, Quantity};
use crate::source::{Source, words};
use crate::table::Row;

/// A figure that practice fixes, not a clause.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    /// Name, such as `ridge-vent.stop.hip`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// The rule in words.
    #[serde(deserialize_with = "words")]
    pub what: String,
    /// The figure.
    pub value: Quantity,
    /// Where it comes from.
    pub source: Source,
}

impl Rule {
    /// The figure as a quantity of one kind.
    pub fn get<T: Kind>(&self) -> Result<T, LookupError> {
        T::of(&self.value)
            .ok_or_else(|| LookupError::Kind { row: format!("rule `{}`", self.id), wanted: T::KIND })
    }
}

impl Row for Rule {
    const TABLE: &'static str = "rule";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        number_fault("value", &self.value).into_iter().collect()
    }

    fn replaces(&self, old: &Self) -> bool {
        self.value.kind() == old.value.kind()
    }
}

/// What stands in for a survey field left `unknown`.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DefaultValue {
    /// Path of the field in the job document, such as `block.overhang.eave`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// The field in words.
    #[serde(deserialize_with = "words")]
    pub what: String,
    /// The value taken; prints as the job document would write it.
    pub value: Quantity,
    /// One standard deviation of it, of the same kind; none where nothing is known of it.
    pub spread: Option<Quantity>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for DefaultValue {
    const TABLE: &'static str = "default";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let kinds_differ =
            self.spread.as_ref().filter(|spread| spread.kind() != self.value.kind()).map(|spread| {
                format!(
                    "`value` is a {} and `spread` a {}; write both as the same kind",
                    self.value.kind(),
                    spread.kind()
                )
            });
        let numbers = [("value", Some(&self.value)), ("spread", self.spread.as_ref())];
        let not_finite = numbers.into_iter().filter_map(|(name, quantity)| number_fault(name, quantity?));
        not_finite.chain(kinds_differ).collect()
    }

    fn replaces(&self, old: &Self) -> bool {
        self.value.kind() == old.value.kind()
    }
}

fn number_fault(name: &str, quantity: &Quantity) -> Option<String> {
    f64::of(quantity)
        .filter(|number| !number.is_finite())
        .map(|number| format!("`{name}` is {number}; write a finite number"))
}
