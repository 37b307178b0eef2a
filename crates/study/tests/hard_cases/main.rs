//! Hard cases of the trade, each as a small job with the right answer named: the finding, warning, refusal, detail, dimension or verdict,
//! by its key and the edge or opening it is about. Then the two example houses with one figure changed.
//!
//! # Source
//! The cases and their answers are common practice in re-roofing; figures carry their source beside the test.
//!
//! # Left out, since what they need is not part of the program
//! Framing that changes from trusses to rafters, but for trusses that are not cut: framing. The minimum charge of a small repair: price; here it is only
//! told.

#[path = "../sheets/mod.rs"]
mod sheets;

mod heat;
mod ice;
mod old_roof;
mod perturbed;
mod shape;
mod support;
mod vents;
mod walls;
mod water;
