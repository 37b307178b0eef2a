//! A finished picture, and its name as a file.

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

/// A name as part of a file name: lower case, words joined by `-`, nothing but letters and digits.
pub fn file_name(name: &str) -> String {
    let kept: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    kept.to_lowercase().split_whitespace().collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_hold_no_separators() {
        assert_eq!(file_name("main N"), "main-n");
        assert_eq!(file_name("../Büro: 2/1"), "büro-2-1");
    }
}
