//! The sections of the document: for each, its description and how its fields become the model.

mod attic;
mod block;
mod covering;
mod crew;
mod edges;
mod fan;
mod footprint;
mod form;
mod framing;
mod gutter;
mod house;
mod opening;
mod outline;
mod overhangs;
mod reading;
mod site;
mod slopes;
mod storm;
mod symptom;
mod walk;
mod walls;

pub(crate) use attic::{ATTIC, AtticDraft, attic};
pub(crate) use block::{BLOCK, BlockDraft, block};
pub(crate) use covering::{COVERING, covering};
pub(crate) use crew::{CREW, crew};
pub(crate) use fan::{FAN, fan};
pub(crate) use gutter::{DownspoutDraft, GUTTER, GutterDraft, gutter};
pub(crate) use house::{HOUSE, house};
pub(crate) use opening::{OPENING, OpeningDraft, kind_word, opening};
pub(crate) use reading::READING;
pub(crate) use site::{SITE, site};
pub(crate) use storm::{STORM, storm};
pub(crate) use symptom::{SYMPTOM, symptom};
pub(crate) use walk::{WALK, walk};
pub(crate) use walls::{WALLS, walls};
