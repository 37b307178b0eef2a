//! Reference tables of the trade as data: each row with its source and confidence.
//!
//! What does the trade say? The tables are TOML files in `books/` that a contractor can read and overlay; this crate
//! carries them in the program and reads them into typed rows:
//!
//! - [`Edition`]: what each edition of the code asks, clause by clause;
//! - [`Package`] and [`Vent`]: materials as they are sold, and the free area of vents;
//! - [`Gutter`], [`Downspout`] and [`RainFactor`]: what carries roof water away;
//! - [`Detail`], [`Material`] and [`Siding`]: what lies on the wood at each edge and opening;
//! - [`thermal`]: what heat, air and vapor meet, fuels, insulation and what energy codes ask;
//! - [`Rule`]: rules of the trade that no clause fixes;
//! - [`DefaultValue`]: what stands in for a survey field left `unknown`.
//!
//! Invariant: every row says where it comes from; a [`Book`] cannot hold one that does not.
//!
//! ```
//! let book = book::Book::builtin();
//! let barrier = &book.edition("irc-2018")?.ice_barrier;
//! assert_eq!(barrier.inside_wall_line.inches(), 24.0);
//! assert_eq!(barrier.clause, "R905.1.2");
//! # Ok::<(), book::LookupError>(())
//! ```

mod cause;
mod clause;
mod detail;
mod edition;
mod gutter;
mod lookup;
mod package;
mod problem;
mod quantity;
mod rule;
mod shelf;
mod source;
mod table;
pub mod thermal;
mod wording;

pub use cause::{Cause, Evidence, Sign, SymptomKind};
pub use clause::{
    AtticAccess, ChimneyHeight, Clause, ClosedValley, Discharge, Fasteners, LeftToOthers, LotLine, NailCount,
    PlumbingVent, Recover, Replacement, SkylightCurb, VentClearance,
};
pub use detail::{
    Act, CLADDING, Choice, Cladding, Coming, Detail, Face, Fact, Facts, Falls, Fixing, Held, Hold, Layer,
    Look, Material, Means, Pieces, Pond, Reach, Role, Siding, Spot, Stage, Stands, Through, When,
};
pub use edition::{
    AsphaltShingles, AtticVents, Cricket, DripEdge, Edition, FlashingMetal, HighPlace, IceBarrier, KickOut,
    Needs, Retarder, ShareRange, SidewallFlashing, SteepIceBarrier, ValleyMetal,
};
pub use gutter::{Downspout, Drains, Gutter, RainFactor};
pub use lookup::{LookupError, nearest};
pub use package::{Form, FreeArea, Nail, Package, Roll, Run, Shingle, Step, Stick, Vent, VentPlace};
pub use problem::{Problem, Problems};
pub use quantity::{Kind, NotAShare, Quantity, Share, Text};
pub use rule::{DefaultValue, Rule};
pub use shelf::Book;
pub use source::{Because, Confidence, Source};
