//! Sheet sizes, margins, and the room each drawing has. Lengths in millimeters.
//!
//! Sizes: ANSI/ASME Y14.1 size A (8.5 in by 11 in) and ISO 216 A4.

use std::fmt;

use serde_json::{Value, json};

/// Distance of the frame line from the edge of the sheet.
const FRAME: f64 = 9.0;
/// Height of the strip inside the frame that carries job, page and hash.
const STRIP: f64 = 10.0;
/// Text to frame line, at the sides.
const SIDE: f64 = 7.0;
/// Text to frame line at the top, text to strip at the bottom.
const TOP: f64 = 6.0;
/// What heading, site facts and key numbers take of the first page.
const PLAN_PAGE_TEXT: f64 = 76.0;
/// What the heading and a table of half a dozen planes take of the second page.
const VIEW_PAGE_TEXT: f64 = 96.0;
/// What heading, facts and a table of half a dozen edges take of a plane's page.
const PLANE_PAGE_TEXT: f64 = 86.0;

/// Most height of a section in the crew book.
const CREW_SECTION: f64 = 95.0;
/// What title, heading and the words under the picture take of the owner's first page.
const OWNER_PAGE_TEXT: f64 = 84.0;

/// The sheet a paper is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// US letter, 8.5 in by 11 in.
    Letter,
    /// ISO A4, 210 mm by 297 mm.
    A4,
}

/// A width and a height on paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
}

impl Paper {
    /// Largest roof plan that shares the first page with the heading and the key numbers.
    pub fn plan_room(self) -> Room {
        self.text_area().less_height(PLAN_PAGE_TEXT)
    }

    /// Largest axonometric view that leaves room for a table of planes below it.
    pub fn view_room(self) -> Room {
        self.text_area().less_height(VIEW_PAGE_TEXT)
    }

    /// Largest true-length figure of one plane that leaves room for its edges below it.
    pub fn plane_room(self) -> Room {
        self.text_area().less_height(PLANE_PAGE_TEXT)
    }

    /// Largest section of a detail that leaves room for its layers and sizes in 14 pt.
    pub fn crew_room(self) -> Room {
        Room { height_mm: CREW_SECTION, ..self.text_area() }
    }

    /// Largest picture on the owner's first page.
    pub fn owner_room(self) -> Room {
        self.text_area().less_height(OWNER_PAGE_TEXT)
    }

    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Letter => "us-letter",
            Self::A4 => "a4",
        }
    }

    /// What the template needs to know about the sheet.
    pub(crate) fn page(self) -> Value {
        json!({
            "paper": self.name(), "frame_mm": FRAME, "strip_mm": STRIP,
            "side_mm": FRAME + SIDE, "top_mm": FRAME + TOP, "bottom_mm": FRAME + STRIP + TOP,
        })
    }

    fn size(self) -> Room {
        match self {
            Self::Letter => Room { width_mm: 215.9, height_mm: 279.4 },
            Self::A4 => Room { width_mm: 210.0, height_mm: 297.0 },
        }
    }

    fn text_area(self) -> Room {
        let Room { width_mm, height_mm } = self.size();
        Room { width_mm: width_mm - 2.0 * (FRAME + SIDE), height_mm: height_mm - 2.0 * (FRAME + TOP) - STRIP }
    }
}

impl Room {
    pub(crate) fn holds(self, size: Self) -> bool {
        // The SVG states its size to a few decimals: half a tenth of a millimeter is rounding, not overflow.
        const ROUNDING: f64 = 0.05;
        size.width_mm <= self.width_mm + ROUNDING && size.height_mm <= self.height_mm + ROUNDING
    }

    fn less_height(self, taken: f64) -> Self {
        Self { height_mm: self.height_mm - taken, ..self }
    }
}

impl fmt::Display for Room {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.1} mm by {:.1} mm", self.width_mm, self.height_mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_room_is_smaller_than_the_text_area_and_large_enough_to_read() {
        for paper in [Paper::Letter, Paper::A4] {
            for room in [paper.plan_room(), paper.view_room(), paper.plane_room(), paper.owner_room()] {
                assert!(paper.text_area().holds(room), "{room}");
                assert!(room.width_mm > 170.0 && room.height_mm > 135.0, "{room}");
            }
        }
    }

    #[test]
    fn room_holds_a_drawing_of_its_own_size_but_not_one_a_millimeter_larger() {
        let room = Paper::Letter.plan_room();
        assert!(room.holds(room));
        assert!(!room.holds(Room { width_mm: room.width_mm + 1.0, ..room }));
        assert!(!room.holds(Room { height_mm: room.height_mm + 1.0, ..room }));
    }
}
