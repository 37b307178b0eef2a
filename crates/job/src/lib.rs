//! The job document: the one thing a person enters. Everything else is a pure function of it and of the books.
//!
//! [`Job::read`](model::Job) takes the text and the books and gives either the checked [`model::Job`] or every
//! [`problem::Problem`] found in it, each with its place, its cause and what would mend it.

pub mod model;
pub mod problem;

pub use model::*;
pub use problem::{Place, Problem, Severity};
