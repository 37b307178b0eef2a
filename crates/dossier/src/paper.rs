//! Sheet sizes, margins, and the room each drawing has. Lengths in millimeters.
//!
//! A paper is laid out once, on what the two sheets have in common, and printed in the middle of either: page 5 is page 5 for whoever
//! has letter in the printer and whoever has A4, and typesetting, which is most of the work, is done once.
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
/// What the cautions take of the page with the plan of the details.
const KEY_PAGE_TEXT: f64 = 128.0;
/// What heading and reading take of a page with the winter day by day.
const SEASON_PAGE_TEXT: f64 = 14.0;
/// Most height of other charts of the winter, and of a picture of it in the owner's letter: two share a page with their words.
const WINTER_CHART: f64 = 150.0;
const WINTER_PICTURE: f64 = 78.0;
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
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Letter => "us-letter",
            Self::A4 => "a4",
        }
    }

    pub(crate) const fn size(self) -> Room {
        match self {
            Self::Letter => Room { width_mm: 215.9, height_mm: 279.4 },
            Self::A4 => Room { width_mm: 210.0, height_mm: 297.0 },
        }
    }
}

/// What the template needs to know about the page it lays out.
pub(crate) fn page() -> Value {
    let Room { width_mm, height_mm } = Room::COMMON;
    json!({
        "width_mm": width_mm, "height_mm": height_mm, "frame_mm": FRAME, "strip_mm": STRIP,
        "side_mm": FRAME + SIDE, "top_mm": FRAME + TOP, "bottom_mm": FRAME + STRIP + TOP,
    })
}

impl Room {
    /// What both sheets have: the width of A4, the height of letter.
    const COMMON: Self =
        Self { width_mm: Paper::A4.size().width_mm, height_mm: Paper::Letter.size().height_mm };
    const TEXT: Self = Self {
        width_mm: Self::COMMON.width_mm - 2.0 * (FRAME + SIDE),
        height_mm: Self::COMMON.height_mm - 2.0 * (FRAME + TOP) - STRIP,
    };

    /// Of the largest roof plan that shares the first page with the heading and the key numbers.
    pub const PLAN: Self = Self::TEXT.less_height(PLAN_PAGE_TEXT);
    /// Of the largest axonometric view that leaves room for a table of planes below it.
    pub const VIEW: Self = Self::TEXT.less_height(VIEW_PAGE_TEXT);
    /// Of the largest true-length figure of one plane that leaves room for its edges below it.
    pub const PLANE: Self = Self::TEXT.less_height(PLANE_PAGE_TEXT);
    /// Of the largest section of a detail that leaves room for its layers and sizes in 14 pt.
    pub const CREW: Self = Self { height_mm: CREW_SECTION, ..Self::TEXT };
    /// Of the plan of the details, which shares a page with the cautions.
    pub const KEY: Self = Self::TEXT.less_height(KEY_PAGE_TEXT);
    /// Of the largest picture on the owner's first page.
    pub const OWNER: Self = Self::TEXT.less_height(OWNER_PAGE_TEXT);

    /// Of the chart of the winter day by day.
    pub const SEASON: Self = Self::TEXT.less_height(SEASON_PAGE_TEXT);
    /// Of other charts of the winter.
    pub const CHART: Self = Self { height_mm: WINTER_CHART, ..Self::TEXT };
    /// Of a picture of the winter in the owner's letter.
    pub const WINTER: Self = Self { height_mm: WINTER_PICTURE, ..Self::TEXT };

    /// Width and height, mm.
    pub const fn size_mm(self) -> (f64, f64) {
        (self.width_mm, self.height_mm)
    }

    pub(crate) fn holds(self, size: Self) -> bool {
        // The SVG states its size to a few decimals: half a tenth of a millimeter is rounding, not overflow.
        const ROUNDING: f64 = 0.05;
        size.width_mm <= self.width_mm + ROUNDING && size.height_mm <= self.height_mm + ROUNDING
    }

    const fn less_height(self, taken: f64) -> Self {
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
        for room in [Room::PLAN, Room::VIEW, Room::PLANE, Room::OWNER] {
            assert!(Room::TEXT.holds(room), "{room}");
            assert!(room.width_mm > 170.0 && room.height_mm > 135.0, "{room}");
        }
    }

    #[test]
    fn what_is_laid_out_fits_either_sheet() {
        for paper in [Paper::Letter, Paper::A4] {
            assert!(paper.size().holds(Room::COMMON), "{}", paper.name());
        }
    }

    #[test]
    fn room_holds_a_drawing_of_its_own_size_but_not_one_a_millimeter_larger() {
        let room = Room::PLAN;
        assert!(room.holds(room));
        assert!(!room.holds(Room { width_mm: room.width_mm + 1.0, ..room }));
        assert!(!room.holds(Room { height_mm: room.height_mm + 1.0, ..room }));
    }
}
