//! Drawings as they are handed over, and the checks that keep their scale true on paper.
//!
//! # Validity
//! The root element of an SVG states `width` and `height` in millimeters; its texts name [`crate::FONT_FAMILY`] and are
//! written as characters, not as numbered references. Every drawing has a description that can be read aloud.

use serde_json::{Value, json};

use crate::{DossierError, Room, printable};

/// One drawing, printed at the size it states.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The SVG document.
    pub svg: String,
    /// What the drawing shows, for a reader who cannot see it.
    pub alt: String,
    /// Line printed under the drawing: scale, how to read it.
    pub caption: String,
}

/// The drawings of a roof sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// Dimensioned roof plan.
    pub plan: Drawing,
    /// Axonometric view.
    pub view: Drawing,
    /// One true-length figure for each plane, in the order of [`crate::RoofSheet::planes`].
    pub planes: Vec<Drawing>,
}

impl Figures {
    pub(crate) fn check(&self, planes: usize) -> Result<(), DossierError> {
        if self.planes.len() != planes {
            return Err(DossierError::PlaneDrawings { planes, drawings: self.planes.len() });
        }
        self.plan.check("roof plan", Room::PLAN)?;
        self.view.check("axonometric view", Room::VIEW)?;
        for (i, drawing) in self.planes.iter().enumerate() {
            drawing.check(&format!("drawing of plane {}", i + 1), Room::PLANE)?;
        }
        Ok(())
    }

    /// Every drawing with the name the template knows it by. Names are fixed: the typesetter keeps each name it has
    /// ever seen, so they must not grow with the number of jobs.
    pub(crate) fn files(&self) -> impl Iterator<Item = (String, &Drawing)> {
        let planes = self.planes.iter().enumerate().map(|(i, d)| (plane_path(i), d));
        [(PLAN.to_owned(), &self.plan), (VIEW.to_owned(), &self.view)].into_iter().chain(planes)
    }

    /// Where the template finds each drawing and what it writes beside it.
    pub(crate) fn index(&self) -> Value {
        let planes = self.planes.iter().enumerate().map(|(i, d)| d.entry(&plane_path(i)));
        json!({
            "plan": self.plan.entry(PLAN), "view": self.view.entry(VIEW), "planes": planes.collect::<Vec<_>>(),
        })
    }
}

const PLAN: &str = "/figure/plan.svg";
const VIEW: &str = "/figure/view.svg";

fn plane_path(i: usize) -> String {
    format!("/figure/plane-{}.svg", i + 1)
}

impl Drawing {
    pub(crate) fn check(&self, figure: &str, room: Room) -> Result<(), DossierError> {
        let figure = || figure.to_owned();
        let size = stated_size(&self.svg).ok_or_else(|| DossierError::FigureUnsized { figure: figure() })?;
        if !room.holds(size) {
            return Err(DossierError::FigureTooLarge { figure: figure(), size, room });
        }
        if self.alt.trim().is_empty() {
            return Err(DossierError::FigureUndescribed { figure: figure() });
        }
        Ok(())
    }

    pub(crate) fn entry(&self, path: &str) -> Value {
        json!({ "path": path, "alt": printable::metadata(&self.alt), "caption": printable::line(&self.caption) })
    }
}

fn stated_size(svg: &str) -> Option<Room> {
    let (_, root) = svg.split_once("<svg")?;
    let (tag, _) = root.split_once('>')?;
    Some(Room { width_mm: millimeters(tag, "width")?, height_mm: millimeters(tag, "height")? })
}

fn millimeters(tag: &str, attribute: &str) -> Option<f64> {
    let value =
        |token: &str| token.strip_prefix(attribute)?.strip_prefix("=\"")?.strip_suffix("mm\"")?.parse().ok();
    tag.split_whitespace().find_map(value).filter(|mm: &f64| mm.is_finite() && *mm > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(tag: &str) -> Option<(f64, f64)> {
        stated_size(tag).map(|r| (r.width_mm, r.height_mm))
    }

    #[test]
    fn size_in_millimeters_is_read_from_the_root_element_only() {
        let svg =
            "<?xml version=\"1.0\"?>\n<svg\n width=\"120.5mm\" height=\"80mm\"><rect width=\"3mm\"/></svg>";
        assert_eq!(size(svg), Some((120.5, 80.0)));
    }

    #[test]
    fn size_missing_unitless_nonpositive_or_not_finite_is_no_size() {
        for tag in [
            "<svg><rect width=\"3mm\" height=\"3mm\"/>",
            "<svg width=\"120\" height=\"80\">",
            "<svg width=\"120mm\">",
            "<svg width=\"-1mm\" height=\"80mm\">",
            "<svg width=\"NaNmm\" height=\"80mm\">",
            "<svg stroke-width=\"1mm\" height=\"80mm\">",
            "no drawing",
        ] {
            assert_eq!(size(tag), None, "{tag}");
        }
    }
}
