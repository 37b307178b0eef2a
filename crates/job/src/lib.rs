//! The job document: the one thing a person enters. Everything else is a pure function of it and of the books.
//!
//! [`Job::read`] takes the text and the books and gives either the checked [`Job`] or every [`Problem`] found in the
//! text, each with its place, its cause and what would mend it.

pub mod edit;
pub mod model;
mod position;
pub mod problem;
mod read;
mod schema;
mod starter;
mod suggest;

pub use model::*;
pub use position::{Position, Positions};
pub use problem::{Place, Problem, Severity};
pub use schema::schema;
pub use starter::starter;
