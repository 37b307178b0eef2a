//! Where a figure comes from, and how a result was reached.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, de};

/// How much a figure can be leaned on; later variants are weaker.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Confidence {
    /// Worked out from stated inputs by a stated formula.
    Computed,
    /// Read in the published source.
    Published,
    /// The published source is known, the figure was recalled and not read again.
    PublishedFromMemory,
    /// A rule of the trade without a single source.
    CommonPractice,
    /// Taken because something had to be.
    Assumed,
}

impl Confidence {
    /// One word for papers.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Computed => "computed",
            Self::Published => "published",
            Self::PublishedFromMemory => "recalled",
            Self::CommonPractice => "practice",
            Self::Assumed => "assumed",
        }
    }
}

impl fmt::Display for Confidence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Where a figure comes from.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// The work and clause, the practice or the reasoning, in words.
    #[serde(deserialize_with = "words")]
    pub text: String,
    /// How much it can be leaned on.
    pub confidence: Confidence,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} [{}]", self.text, self.confidence)
    }
}

/// How a number was reached.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Because {
    /// What the number is, such as `ice barrier width on slope`.
    pub what: String,
    /// Name and value, as printed, of everything it was reached from.
    pub inputs: Vec<(String, String)>,
    /// Formula or clause, in words.
    pub rule: String,
    /// Where the rule comes from.
    pub source: Source,
}

/// Reads a text that says something.
pub(crate) fn words<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    let text = String::deserialize(from)?;
    if text.trim().is_empty() { Err(de::Error::custom("empty text; say something here")) } else { Ok(text) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weakest_of_two_confidences_is_the_larger() {
        assert_eq!(Confidence::Published.max(Confidence::Assumed), Confidence::Assumed);
        assert_eq!(
            Confidence::CommonPractice.max(Confidence::PublishedFromMemory),
            Confidence::CommonPractice
        );
    }

    #[test]
    fn a_source_prints_its_text_and_one_word() {
        let source =
            Source { text: "IRC 2012 R905.2.8.5".into(), confidence: Confidence::PublishedFromMemory };
        assert_eq!(source.to_string(), "IRC 2012 R905.2.8.5 [recalled]");
    }
}
