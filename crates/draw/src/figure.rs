//! A finished picture.

/// A picture as an SVG document, to be shown at its own size.
///
/// Its scale holds only at that size: `width` and `height` of the document are in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The document.
    pub svg: String,
    /// Width on paper.
    pub width_mm: f64,
    /// Height on paper.
    pub height_mm: f64,
    /// What it shows, in words, for a reader who cannot see it.
    pub alt: String,
}

/// The size asked for, or the least that a drawing needs, whichever is larger, in each direction.
pub(crate) fn sheet_size((width, height): (f64, f64)) -> [f64; 2] {
    /// Room for a legend, two dimension lines and a small roof.
    const LEAST: f64 = 110.0;
    const MOST: f64 = 5000.0;
    [width, height].map(|mm| if mm.is_nan() { LEAST } else { mm.clamp(LEAST, MOST) })
}
