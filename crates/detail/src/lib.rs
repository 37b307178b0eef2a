//! What stands between water and wood at every edge and opening: layers in order, laps, and how many must fail before wood gets wet.
//!
//! A detail is data (`books/details`). [`Section::of`] lays one out at the pitch of a roof; [`faults`] checks that every layer laps the
//! next one down and that water gets behind none, that turn-ups reach over standing water and that no fastener stands where it must not; [`Stand::of`] finds
//! the fewest failures that let water through, and which they are, under each [`Attack`].
//!
//! # Limits
//! A section is cut in one plane. What happens along the run (pieces lapping, corners, ends) enters as the laps of pieces and as details of
//! their own, such as the roof end at a wall, or built with another at the same place (`with`). Of what holds a layer only rows of
//! fasteners told with their place (`fixed`) are ways for water; `held` only tells. Sealant is no layer and counts nothing. A layer that lies over another without naming it in `over` is
//! held to lap it by enough.
//!
//! # Checks
//! property: the least failures against trying all sets of them, on every shipped detail under every attack

mod attack;
mod behind;
mod house;
mod lap;
mod reach;
mod section;
mod stand;

pub use attack::Attack;
pub use house::{At, Built, Details, Fit, Place, Stood, listed};
pub use lap::{Fault, faults};
pub use section::{Laid, Section, Setting, Sheet, Slopes, Span, Stretch};
pub use stand::{Failure, MOST_FAILURES, Stand, wets};
