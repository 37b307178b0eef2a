//! Where the rain goes, on the plan: what runs along valleys, walls and gutters, where it leaves and how much, what to look at.
//!
//! A stream is as wide on paper as much flows in it, true to one gauge, which the legend shows. Found troubles are ringed and told in a list
//! below: those of the roof with its gutters in an unbroken ring, those that come when the gutters run over in a broken one. The ways of a
//! few drops, through the gutters that hang, are dotted.

mod current;
mod full;
mod gauge;
mod mark;
mod mouth;
mod owner;
mod stream;
mod trouble;

use std::collections::BTreeMap;

use measure::{Area, RainRate};
use roof::{PlaneId, Roof};
use takeoff::Of;
use water::{Drainage, Water};

pub use self::full::water_plan;
pub(crate) use self::mark::Mark;
pub use self::owner::{meets_wall, owner_water};
pub(crate) use self::stream::Stream;
use crate::notation::Basis;
use crate::survey::Survey;

/// What a picture of water shows.
#[derive(Clone, Copy, Debug)]
pub struct WaterScene<'a> {
    /// The roof.
    pub roof: &'a Roof,
    /// What the job document says of it besides.
    pub survey: &'a Survey,
    /// Its water were no gutter there, or all of them running over.
    pub bare: &'a Water,
    /// Its water with gutters and downspouts.
    pub drainage: &'a Drainage,
    /// The rain it is worked out for.
    pub rain: RainRate,
    /// Whether nobody looked that rain up.
    pub is_rain_assumed: bool,
}

impl WaterScene<'_> {
    /// What a flow rests on, by the planes its rain fell on.
    fn basis(&self, sources: &BTreeMap<PlaneId, Area>) -> Basis {
        let is_assumed = |plane: &PlaneId| self.survey.basis(Of::Area(*plane)) == Basis::Assumed;
        Basis::assumed_if(self.is_rain_assumed || sources.keys().any(is_assumed))
    }
}
