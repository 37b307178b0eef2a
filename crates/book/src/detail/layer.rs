//! Layers: what they are for, where they lie, how they are held.

use std::collections::BTreeMap;

use measure::Length;
use serde::{Deserialize, Deserializer, Serialize, de};

use crate::quantity::Text;
use crate::source::words;

/// What a layer is for, where sizes, clauses or papers ask after it: names of layers and materials are the books' own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// The roofing, laid in courses.
    Covering,
    /// Roofing that was there before and stays under the new.
    OldCovering,
    /// The loose sheet under the roofing.
    Underlayment,
    /// The ice barrier at an eave, as far up as the adopted edition asks.
    EaveBarrier,
    /// The metal at eaves and rakes.
    DripEdge,
    /// What turns water off a wall where a roof ends at it.
    KickOut,
}

impl Role {
    /// As tables write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Covering => "covering",
            Self::OldCovering => "old-covering",
            Self::Underlayment => "underlayment",
            Self::EaveBarrier => "eave-barrier",
            Self::DripEdge => "drip-edge",
            Self::KickOut => "kick-out",
        }
    }
}

/// What holds a layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Means {
    SelfAdhered,
    Adhesive,
    Nails,
    CapNails,
    Staples,
    Screws,
    Clips,
    Hangers,
    /// Driven into the reglet beside it.
    Wedges,
    Mortar,
    Lath,
    /// As the cladding at hand is.
    AsClad,
    /// Nothing but its weight.
    Loose,
}

impl Means {
    /// For papers.
    pub const fn words(self) -> &'static str {
        match self {
            Self::SelfAdhered => "self-adhered",
            Self::Adhesive => "glued down",
            Self::Nails => "nails",
            Self::CapNails => "cap nails",
            Self::Staples => "staples",
            Self::Screws => "screws",
            Self::Clips => "clips",
            Self::Hangers => "hangers",
            Self::Wedges => "wedges in its reglet",
            Self::Mortar => "laid in mortar",
            Self::Lath => "lath",
            Self::AsClad => "as this cladding is",
            Self::Loose => "laid loose",
        }
    }

    /// Whether it holds the whole of a sheet to what it lies on.
    pub(crate) const fn bonds(self) -> bool {
        matches!(self, Self::SelfAdhered | Self::Adhesive)
    }
}

/// How a layer is held where no row of fasteners through it is told: by a means (`"self-adhered"`), every so far
/// (`{ by = "hangers", apart = "12 in" }`), or by another layer that holds it down (`{ layer = "siding" }`).
#[derive(Clone, Debug, PartialEq)]
pub enum Held {
    /// By a means of its own.
    By {
        /// Which.
        means: Means,
        /// How far apart they stand at most.
        apart: Option<Text<Length>>,
    },
    /// By the layer of that id.
    Layer(String),
}

impl<'de> Deserialize<'de> for Held {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(
            untagged,
            expecting = "expected what holds it, such as `self-adhered` or `nails`, { by = .., apart = .. } or { layer = .. }"
        )]
        enum Written {
            Word(Means),
            By(By),
            Layer(ByLayer),
        }
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct By {
            by: Means,
            apart: Option<Text<Length>>,
        }
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct ByLayer {
            layer: String,
        }
        Ok(match Written::deserialize(from)? {
            Written::Word(means) => Self::By { means, apart: None },
            Written::By(By { by: means, apart }) => Self::By { means, apart },
            Written::Layer(ByLayer { layer }) => Self::Layer(layer),
        })
    }
}

/// A layer.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// Name within the detail, such as `steps`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Id of its material.
    pub material: String,
    /// What it is for; where it does not say, what its material is for.
    pub role: Option<Role>,
    /// The stretch of each face it covers.
    pub covers: BTreeMap<String, Reach>,
    /// The layers it hands its water to, each with how much it must at least lap over it.
    #[serde(default)]
    pub over: BTreeMap<String, Text<Length>>,
    /// Its pieces along the run.
    pub pieces: Option<Pieces>,
    /// Where fasteners go through it, which are ways for water.
    #[serde(default)]
    pub fixed: Vec<Fixing>,
    /// How it is held, where `fixed` does not tell.
    pub held: Option<Held>,
    /// The face on which it goes on further than is drawn: how far is the house's own.
    pub drawn_short: Option<String>,
    /// How far it stands out past the first joint, where it ends there: as shingles do past the metal of an edge.
    pub past: Option<Text<Length>>,
    /// How far it turns up round what goes through the detail.
    pub up: Option<Text<Length>>,
    /// The layer after which it is laid, where that one lies over it: a gutter is hung last, behind the drip edge.
    pub laid_after: Option<String>,
    /// Whether its high end is let into a reglet or a wall, so that nothing runs in behind it; sealant does not make it so.
    #[serde(default)]
    pub let_in: bool,
    /// Whether it is past service, holed or torn, so that it stops nothing.
    #[serde(default)]
    pub spent: bool,
    /// Whether it stays from the old roof and is used again.
    #[serde(default)]
    pub reused: bool,
    /// What a mechanic would add.
    #[serde(default)]
    pub note: String,
}

/// Pieces along the run, each lapping over the next one down.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pieces {
    /// Length of one; none where it is cut to the run.
    pub length: Option<Text<Length>>,
    /// How much each laps over the next.
    pub lap: Text<Length>,
    /// How much it must at least.
    pub least: Text<Length>,
}

/// A row of fasteners.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fixing {
    /// The face they go into.
    pub face: String,
    /// Between which two places on it.
    pub between: [Text<Length>; 2],
    /// What they are.
    pub by: String,
    /// How far apart they stand along the run, at most.
    pub apart: Option<Text<Length>>,
}

/// A stretch of a face: from the joint to a place (`"8 in"`), between two (`["2 in", "8 in"]`), or `"all"` that is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Reach {
    /// Between two places.
    Between([Text<Length>; 2]),
    /// All of it.
    All,
}

impl<'de> Deserialize<'de> for Reach {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged, expecting = "expected `8 in`, [`2 in`, `8 in`] or `all`")]
        enum Written {
            One(String),
            Two([String; 2]),
        }
        let place = |text: &str| text.parse::<Text<Length>>().map_err(de::Error::custom);
        match Written::deserialize(from)? {
            Written::One(word) if word == "all" => Ok(Self::All),
            Written::One(text) => Ok(Self::Between([place("0 in")?, place(&text)?])),
            Written::Two([from, to]) => Ok(Self::Between([place(&from)?, place(&to)?])),
        }
    }
}
