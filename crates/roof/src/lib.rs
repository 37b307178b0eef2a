//! From the blocks of a job to a measured roof: planes, edges with their kind, openings placed on planes.
//!
//! [`Roof::of`] is the one entry. On the way down, each step in its own module:
//! `true_up` (readings that miss each other by a hair brought to one) · `overhang` (how far each edge reaches out) · `form` (faces over the walls; [`skeleton`] for outlines that are not convex) ·
//! `contact` (where a roof runs on into another block) · `cover` (sheets: faces and overhangs, each with the solid under it) ·
//! `surface` (which sheet is seen where, by a planar `arrangement`) · `topology` (pieces of roof and what ends them) ·
//! `assemble` and `classify` (planes, edges, nodes and their kinds) · `opening` and `overlap` (openings and crickets) · `check`, `buried`, `dormer` and `tight` (what
//! a person should look at). What is laid or flows along the fall of a plane is followed in its columns ([`mod@column`]).
//!
//! Invariant: a shared edge has exactly two planes, every other edge one; the borders of a plane are closed; no coordinate is
//! ever NaN or infinite.

mod arrangement;
mod assemble;
mod build;
mod buried;
mod check;
mod classify;
pub mod column;
mod contact;
mod cover;
mod dormer;
mod form;
mod model;
mod opening;
mod overhang;
mod overlap;
pub mod plan;
mod sheet;
pub mod skeleton;
mod surface;
mod tight;
mod topology;
mod true_up;
mod window;

pub use classify::{ALONG_FALL, LEVEL};
pub use contact::TOUCH;
pub use model::*;
