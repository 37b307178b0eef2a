//! The straight skeleton against outside references, closed forms and brute force.

mod errors;
mod gables;
mod in_line;
mod outlines;
mod random;
mod roofs;
mod vectors;
