//! What a winter comes to, found and planned, each with how far it may lie off.
//!
//! A row each with a scale of its own: a bar from the tenth to the ninetieth of a hundred winters as likely as each other, a mark at the middle one. Where only the middle is known, the mark
//! stands alone.

use super::WinterScene;
use super::plot::{LINE, told};
use super::words::{Quantity, number};
use crate::chart::ChartOptions;
use crate::figure::{Figure, sheet_size};
use crate::ink::{FAINT, FINE, INK, MARK, PAPER, Pen};
use crate::letter::{Anchor, Cut, Text, wrapped};
use crate::svg::{Path, Svg};
use crate::symbol::SMALL;
use study::winter::{Bands, Spread, State, design_words};

/// A figure with its spread, where that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// The middle one: as many lie above as below.
    pub middle: f64,
    /// What one in ten lies below, and what one in ten lies above.
    pub ends: Option<[f64; 2]>,
}

impl Band {
    /// A figure whose spread nobody worked out.
    pub const fn lone(middle: f64) -> Self {
        Self { middle, ends: None }
    }
}

impl From<study::winter::Band> for Band {
    fn from(band: study::winter::Band) -> Self {
        Self { middle: band.p50, ends: Some([band.p10, band.p90]) }
    }
}

/// A figure as found and as planned.
#[derive(Clone, Debug, PartialEq)]
pub struct BandRow {
    /// What it is.
    pub name: String,
    /// What is measured.
    pub quantity: Quantity,
    /// As found.
    pub found: Band,
    /// As planned.
    pub plan: Band,
}

/// The headline figures of a winter, with their spread where it was worked out.
pub fn headline_bands(scene: &WinterScene<'_>, spread: Option<&Spread>) -> Vec<BandRow> {
    let winter = scene.winter;
    let row = |name: &str, quantity, lone: fn(&State) -> f64, of: fn(&Bands) -> study::winter::Band| {
        let band = |state, bands: fn(&Spread) -> &Bands| {
            spread.map_or_else(|| Band::lone(lone(state)), |spread| Band::from(of(bands(spread))))
        };
        BandRow {
            name: name.to_owned(),
            quantity,
            found: band(&winter.found, |spread| &spread.found),
            plan: band(&winter.plan, |spread| &spread.plan),
        }
    };
    vec![
        row(
            "ice of the building on the eaves, at its most",
            Quantity::Ice,
            |state| state.ice,
            |bands| bands.ice,
        ),
        row("snow melted from below", Quantity::Water, |state| state.melt, |bands| bands.melt),
        row(
            "days with water past the ice barrier",
            Quantity::Days,
            |state| state.pond_days,
            |bands| bands.pond_days,
        ),
        row(
            &format!("deck at {}", design_words(scene.units)),
            Quantity::Temperature,
            |state| state.deck_at_design,
            |bands| bands.deck_at_design,
        ),
        row(
            &format!("attic at {}", design_words(scene.units)),
            Quantity::Temperature,
            |state| state.attic_at_design,
            |bands| bands.attic_at_design,
        ),
        row(
            "heat of the winter for ceilings and the air up through them",
            Quantity::Heat,
            |state| state.heating,
            |bands| bands.heating,
        ),
    ]
}

const BORDER: f64 = 2.0;
/// Shares of the width that names and numbers take.
const NAMES: f64 = 0.3;
const NUMBERS: f64 = 0.2;
const ROW: f64 = 9.6;
const RING: f64 = 1.75;
const DOT: f64 = 1.0;
const TONE: &str = "#d4d4d4";
const READING: &str = "Ring and upper bar: as found; dot and lower bar: as planned. Each row has its own scale; the fine upright line is nought, or freezing. A bar reaches from what one \
    in ten lies below to what one in ten lies above, by all that nobody measured; where there is no bar, the spread is not reckoned: expect half to twice the amounts.";

/// Draws the rows.
pub fn bands_chart(scene: &WinterScene<'_>, rows: &[BandRow], options: &ChartOptions) -> Figure {
    let [width, _] = sheet_size(options.size_mm);
    let mut svg = Svg::default();
    super::plot::heading(&mut svg, "Found and planned", [BORDER, BORDER + LINE * 0.6]);
    let mut top = BORDER + LINE * 1.6;
    for row in rows {
        draw_row(&mut svg, row, scene, width, top);
        top += ROW;
    }
    svg.stroke("row", &Path::open(&[[BORDER, top], [width - BORDER, top]]), &FINE);
    let height = told(&mut svg, "reading", READING, [BORDER, top + LINE], width - 2.0 * BORDER) + 1.0;
    let told: Vec<String> = rows
        .iter()
        .map(|row| {
            let [found, plan] = [&row.found, &row.plan].map(|band| words(row.quantity, band, scene.units));
            format!("{}: {found} found, {plan} planned.", row.name)
        })
        .collect();
    let alt = format!("Found and planned. {}", told.join(" "));
    Figure {
        svg: svg.finish([width, height], "Found and planned", &alt),
        width_mm: width,
        height_mm: height,
        alt,
    }
}

/// Middle, and the ends around it where they are known.
fn words(quantity: Quantity, band: &Band, units: job::Units) -> String {
    let one = |value| number(quantity, value, units);
    let unit = quantity.unit(units);
    match band.ends {
        Some([low, high]) => format!("{} ({} to {}) {unit}", one(band.middle), one(low), one(high)),
        None => format!("{} {unit}", one(band.middle)),
    }
}

fn draw_row(svg: &mut Svg, row: &BandRow, scene: &WinterScene<'_>, width: f64, top: f64) {
    svg.stroke("row", &Path::open(&[[BORDER, top], [width - BORDER, top]]), &FINE);
    let names = wrapped(&row.name, NAMES * width - 2.0 * BORDER, SMALL);
    let first = top + ROW / 2.0 - LINE * (names.len() as f64 - 1.0) / 2.0;
    for (i, line) in names.iter().enumerate() {
        let at = [BORDER, first + LINE * i as f64];
        svg.text("name", &Text::new(line.clone(), at, SMALL).anchored(Anchor::Start));
    }
    let bands = [(&row.found, 0.3, true), (&row.plan, 0.7, false)];
    let values = bands.iter().flat_map(|(band, ..)| band.ends.into_iter().flatten().chain([band.middle]));
    let [low, high] =
        values.chain([0.0]).fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], v| [a.min(v), b.max(v)]);
    let span = (high - low).max(1e-9);
    let (left, right) = (NAMES * width + 3.0, width * (1.0 - NUMBERS) - 6.0);
    let x = |value: f64| left + (value - low) / span * (right - left);
    let nought = x(0.0);
    let pen = Pen { width: 0.12, dash: &[], colour: FAINT };
    svg.stroke("nought", &Path::open(&[[nought, top + 0.6], [nought, top + ROW - 0.6]]), &pen);
    for (band, share, is_found) in bands {
        let y = top + ROW * share;
        if let Some(ends) = band.ends {
            let [a, b] = ends.map(x);
            let corners = [[a, y - 1.2], [b, y - 1.2], [b, y + 1.2], [a, y + 1.2]];
            svg.shape("spread", &Path::closed(&corners), if is_found { PAPER } else { TONE }, &FINE);
        }
        let at = [x(band.middle), y];
        if is_found {
            svg.shape("found", &Path::circle(at, RING), PAPER, &Pen { width: 0.4, ..MARK });
        } else {
            svg.fill("planned", &Path::circle(at, DOT), INK);
        }
        let cut = if is_found { Cut::Regular } else { Cut::Bold };
        let text = Text::new(words(row.quantity, band, scene.units), [width - BORDER, y], SMALL);
        svg.text("figure", &text.anchored(Anchor::End).cut(cut));
    }
}
