//! Where each drop goes: exact flow of rain over the planes of a roof, without a grid.
//!
//! Water runs straight down the fall of a plane until a border stops it. What the border does is its kind's
//! [`family`](roof::Family): pitch breaks pass it on, eaves let it go onto whatever roof lies below, valleys and walls gather it and carry
//! it to their lower end, where it goes on as one stream. Behind an opening it parts and runs round both sides. [`Water::of`]
//! sends all of the rain down at once, cut into strips within which every drop takes the same way (`run`; `route` knows where the water of an edge goes), and keeps what comes to each
//! edge ([`EdgeFlow`]), to each opening and to where it leaves ([`Outlet`]). [`Water::trace`] follows a single drop, [`Water::trace_with`] through
//! the gutters of the job.
//!
//! Amounts are catchments: square metres of roof in plan, to be multiplied by a rate of rain: 1 in/h on
//! 96.25 ft² is 1 US gallon per minute.
//!
//! Rain that wind drives against walls comes down on the roofs at their feet. [`WallWater`] keeps it in a ledger of its own, apart from the
//! rain on the roof; gutters are sized for both.
//!
//! # Rules
//! - Every plane takes rain on all of its area in plan, also where it runs in under another roof's overhang: driven rain reaches there.
//! - Along an edge that runs with the fall (within 2 degrees) no water leaves sideways: what comes to a rake or sidewall runs down along it.
//! - A stream that falls within 12 in of a wall runs on along the wall (common practice: splash wets that much); where two walls meet, along the
//!   one that falls more, or else the longer.
//! - A level valley or a wall across the foot of a plane gives its water to whichever ends can take it, halves to both; where neither
//!   can, it stands: a pond.
//! - An opening that is to go is gone. Water parts behind any other in the middle, whether or not a cricket turns it. A cricket's level ridge stands there, its two planes shed
//!   straight aside and its valleys end at the opening's corners, so what runs on at either side is what its valley on that side carries.
//!   Where an opening stands over an edge of its plane there is no plane beside it: what runs aside there comes onto the edge. Where that
//!   leads back under the opening, or another opening stands there, all goes round the other side; where there is none either, it comes out
//!   at the low side. Rain and streams that come onto an opening run off its low side; what of it lies past the plane takes none.
//! - A valley or wall whose low end is under an opening ends at its back, if it comes in over that; else its water comes out below.
//! - What an eave's gutter catches runs to the nearest outlet; one that is blocked is as if its length of gutter were not there
//!   ([`Water::with`]). A stream that ends where two eaves meet goes into the gutter of the longer.
//! - A walk is wet by what comes down on it from an eave or within 2 ft around it (the reach is in the books).
//!
//! # Checks
//! conservation: what leaves is what falls, to 1e-9 · property: unchanged by moving, turning and mirroring · outside: areas of catchments
//! worked by hand

mod below;
mod change;
mod channel;
mod descent;
mod desk;
mod drops;
mod eave;
mod finding;
mod flow;
mod gutter;
mod hang;
mod hung;
mod judge;
mod misplaced;
mod outfall;
mod packet;
mod rim;
mod route;
mod run;
mod spot;
mod tell;
mod trace;
mod walk;
mod wall;

pub use below::Layers;
pub use change::{Change, Place};
pub use channel::{Leg, legs};
pub use eave::{eave_of, place_along, point_at};
pub use finding::{Finding, Splash};
pub use flow::{
    DownspoutFlow, Drip, EdgeFlow, Fall, GutterFlow, Inflow, OpeningFlow, Outlet, OutletKind, Spill, Throat,
    Water,
};
pub use gutter::{Downspouts, Fitting, GutterNeed, gutters};
pub use hang::hang;
pub use hung::{Discharge, DownspoutId, GutterId, HungDownspout, HungGutter, Part};
pub use judge::{Bearing, Drainage, Load, SpoutBearing};
pub use trace::{Path, Step, Way};
pub use wall::{WallFace, WallWater};
