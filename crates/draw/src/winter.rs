//! Why ice comes, in pictures: the winter as a chart, the deck along a slope, each fix beside the others; and in few words for the owner.
//!
//! What is found is an open mark or a whole line, what is planned a full mark or a broken one, as in the chart of layers. Tones tell what is warm, what is
//! snow and what is ice; in grey they keep their order.

mod bands;
mod breath;
mod choices;
mod cut;
mod fixes;
mod house;
mod melt;
mod plot;
mod profile;
mod season;
mod words;

use job::Units;
use measure::Length;
use study::winter::{Ablation, Log, Slope, Winter};

pub use self::bands::{Band, BandRow, bands_chart, headline_bands};
pub use self::breath::owner_breath;
pub use self::choices::owner_choices;
pub use self::fixes::fixes_chart;
pub use self::house::owner_house;
pub use self::melt::owner_melt;
pub use self::profile::slope_profile;
pub use self::season::season_chart;
pub use self::words::{Quantity, number, written};

/// What a picture of a winter shows.
#[derive(Clone, Copy, Debug)]
pub struct WinterScene<'a> {
    /// What it came to.
    pub winter: &'a Winter,
    /// What it was hour by hour.
    pub log: &'a Log,
    /// How papers of the job are written.
    pub units: Units,
}

impl WinterScene<'_> {
    /// As found at 22 °F.
    fn found(&self) -> Option<&Ablation> {
        self.winter.ablation.first()
    }

    /// As planned.
    fn plan(&self) -> Option<&Ablation> {
        self.winter.ablation.last()
    }
}

/// Tones of snow, of what is warmer than freezing, of ice, of water that stands.
const SNOW: &str = "#e9e9e9";
const WARM: &str = "#8c8c8c";
const ICE: &str = "#7f9bb5";
const POND: &str = "#c9d6e3";

/// The lowest dam that a mass of ice on a metre of eave makes, in a cut along the slope: how thick it is, and how far up from the eave's edge water stands behind it; and
/// the highest.
fn dams(slope: &Slope, ice: f64) -> [(Length, Length); 2] {
    let dam = ::winter::dam::Dam { pitch: slope.pitch, cold: slope.cold };
    [1.0, ::winter::dam::MOST_SHAPED].map(|shaped| {
        let thickness = dam.thickness(ice) * shaped;
        (thickness, dam.reach(thickness).unwrap_or(slope.top).min(slope.top))
    })
}
