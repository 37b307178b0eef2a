//! Two-dimensional steady conduction.
//!
//! A [`Body`] is a sheet of cells between vertical lines and rows that may slope: enough for a wall, a joist in loose fill and the eave section of a
//! house, where a deck runs down over the plate. Each cell is cut into four triangles round its middle, on which temperature is linear (finite
//! elements); what conducts out through a face goes into the [`Surface`] there through its film. The system is symmetric and positive definite, and is
//! factored exactly (Cholesky).
//!
//! [`Body::solved`] divides cells in two until heat flow stops changing, as ISO 10211:2017 (annex A: less than 1 % on doubling) asks.
//!
//! # Checks
//! outside: ISO 10211 cases 1 and 2 · closed form: layers in series · conservation: flows over all surfaces add to nothing

mod body;
mod solve;

pub use body::{Body, BodyError, Cell, Face, Side};
pub use solve::{Field, Surface};
