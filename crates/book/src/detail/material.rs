//! What layers and walls are made of, as far as water is concerned.

use measure::Length;
use serde::{Deserialize, Serialize};

use super::Role;
use crate::quantity::Text;
use crate::source::{Source, words};
use crate::table::Row;

/// How water comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Coming {
    /// Runs down over it.
    Running,
    /// Is driven against it by wind.
    Driven,
    /// Stands on it.
    Standing,
}

/// What a material does besides stopping water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Act {
    /// Closes round the fasteners that go through it.
    Heals,
    /// Sticks to what it lies on, so that no water runs along under it.
    Bonds,
    /// Is laid in courses, each hiding the fasteners of the one before.
    Courses,
    /// Carries water, which stands behind it when it is blocked.
    Gutters,
}

/// How a layer is drawn in a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Look {
    /// A sheet laid loose: dashed.
    Sheet,
    /// A sheet that sticks: heavy.
    Membrane,
    /// Metal or another stiff thin piece: a thin line, its ends marked.
    Metal,
    /// Courses or boards: a band.
    Band,
}

/// What layers are made of, as far as water is concerned.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Name in details, such as `ice-barrier`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// How its line looks in a section.
    pub drawn: Look,
    /// Water that a sound layer of it keeps out; its own joints count, sealant does not.
    pub stops: Vec<Coming>,
    /// What else it does.
    #[serde(default)]
    pub acts: Vec<Act>,
    /// What layers of it are for, unless they say otherwise.
    pub role: Option<Role>,
    /// The cladding it is, where layers of [`CLADDING`] become what the wall at hand is clad with.
    pub clads: Option<Cladding>,
    /// Where it comes from.
    pub source: Source,
}

impl Material {
    /// Whether it does that.
    pub fn does(&self, act: Act) -> bool {
        self.acts.contains(&act)
    }
}

impl Row for Material {
    const TABLE: &'static str = "material";

    fn id(&self) -> &str {
        &self.id
    }
}

/// The material that stands for what a wall is clad with, whatever that is.
pub const CLADDING: &str = "cladding";

/// What a wall is clad with, as far as details go by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cladding {
    /// Boards lapped over one another.
    Lap,
    /// Shingles.
    Shingle,
    /// Stucco or adhered stone.
    Stucco,
    /// Brick veneer.
    Brick,
}

impl Cladding {
    /// As tables write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lap => "lap",
            Self::Shingle => "shingle",
            Self::Stucco => "stucco",
            Self::Brick => "brick",
        }
    }
}

/// A siding.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Siding {
    /// Name in job documents, such as `cedar-bevel`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What details know it as.
    pub family: Cladding,
    /// How far above a roof it stays.
    pub clearance: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Siding {
    const TABLE: &'static str = "siding";

    fn id(&self) -> &str {
        &self.id
    }
}
