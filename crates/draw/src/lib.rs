//! Pictures of a measured roof as SVG text: how does it look?
//!
//! One drawing language for screen and paper. Lines are told apart by what they do to water (see
//! [`roof::Family`]): by weight, pattern and symbol first, so that a grey print says the same; colour only
//! supports. Planes are named by block and compass letter, edges by number. Numbers that rest on an assumption
//! are italic and carry `◊`.
//!
//! Every drawing is a pure function of its input and the same bytes each time. Its text names the family
//! `Source Sans 3`, which whoever shows the picture supplies. Texts are placed by the family's widths, so another
//! family may let them touch.

mod chart;
mod count;
mod figure;
mod ink;
mod letter;
mod line;
mod notation;
mod opening;
mod order;
mod paper;
mod place;
mod plan;
mod polygon;
mod scale;
mod section;
mod sheet;
mod sight;
mod survey;
mod svg;
mod symbol;
mod vector;
mod view;
mod winter;

#[cfg(test)]
extern crate self as draw; // test houses are shared with the example, which sees the crate from outside
#[cfg(test)]
mod tests;

pub use chart::{ChartOptions, layers_chart};
pub use figure::{Figure, file_name};
pub use plan::{PlanOptions, WaterScene, key_plan, meets_wall, owner_water, plan, water_plan};
pub use section::{
    Reader, SectionOptions, layer_covers, layer_held, layer_laps, laying_strip, laying_strips, section,
    sections,
};
pub use sheet::{SheetOptions, plane_sheet};
pub use survey::Survey;
pub use view::{ViewOptions, compass, view};
pub use winter::{
    Band, BandRow, Quantity, WinterScene, bands_chart, fixes_chart, headline_bands, number, owner_breath,
    owner_choices, owner_house, owner_melt, season_chart, slope_profile, written,
};
