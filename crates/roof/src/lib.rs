//! From the blocks of a job to a measured roof: planes, edges with their kind, openings placed on planes.

pub mod model;

pub use model::*;
