//! What an owner's letter says: plain words, each text finished. Its pages are parts, so that others can be added.

use serde::Serialize;

use crate::{Caution, Head, WinterPage};

/// The contents of an owner's letter.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OwnerLetter {
    /// Title and where the letter comes from.
    #[serde(skip)]
    pub head: Head,
    /// Where the rain goes and what stands in its way.
    pub water: WaterPage,
    /// Why ice comes and which fix stops it; none where it was not worked out.
    pub winter: Option<WinterPage>,
    /// Why it was not.
    pub no_winter: String,
    /// What to leave alone and whom to ask.
    pub cautions: Vec<Caution>,
}

/// The part on water.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WaterPage {
    /// What the picture shows, and its number in words.
    pub picture: Vec<String>,
    /// What is counted, and how to read it.
    pub counting: String,
    /// The worst few places.
    pub places: Vec<WeakPlace>,
    /// What the work changes.
    pub changes: Vec<String>,
    /// What it does not promise.
    pub limits: Vec<String>,
}

/// A place where little stands between water and wood.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WeakPlace {
    /// In plain words.
    pub name: String,
    /// The water that gets in most easily today.
    pub by: String,
    /// What holds it today.
    pub today: String,
    /// What will hold it.
    pub after: String,
}
