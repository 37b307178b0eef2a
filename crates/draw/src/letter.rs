//! How much room text takes.
//!
//! # Source
//! Advance widths of Source Sans 3 (release 3.052), read from the fonts' horizontal metrics, in thousandths of the
//! size.
//! # Valid range
//! ASCII and the few signs drawings use; other Latin, Greek and Cyrillic letters as the width of a wide one, so
//! that the room is rather too large than too small. Kerning is left out.
//! # Checks
//! outside: `font`, against the font files

/// A name cut off where it would be wider than a room.
pub(crate) fn shortened(name: &str, size: f64, room: f64) -> String {
    let first = |count: usize| name.chars().take(count).collect::<String>();
    let fits = |count: &usize| Text::new(first(*count), [0.0; 2], size).width() < room;
    let all = name.chars().count();
    if fits(&all) { name.into() } else { first((0..all).rev().find(fits).unwrap_or(0)) + "…" }
}

/// Text in lines no wider than a room.
pub(crate) fn wrapped(text: &str, width: f64, size: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let fits = |line: &String| Text::new(format!("{line} {word}"), [0.0; 2], size).width() <= width;
        match lines.last_mut().filter(|line| fits(line)) {
            Some(line) => line.extend([" ", word]),
            None => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod font;

use crate::ink::INK;
use crate::place::Tilted;
use crate::vector::{P2, add, turned};

/// The family; CSS wants a name with a number in it quoted.
pub(crate) const FAMILY: &str = "Source Sans 3";

/// Height of capitals and figures, in sizes.
const CAP: f64 = 0.66;
/// Room above and below the figures' box that tall letters and tails take, in sizes.
const ABOVE: f64 = 0.08;
const BELOW: f64 = 0.2;

/// A cut of the family.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Cut {
    Regular,
    Bold,
    Italic,
}

/// Where on the line of text its position is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

/// One line of text on paper; millimetres, y down.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Text {
    pub(crate) content: String,
    /// On the line's own axis, half the height of a capital above the baseline.
    pub(crate) at: P2,
    pub(crate) size: f64,
    pub(crate) anchor: Anchor,
    /// Clockwise on paper.
    pub(crate) turn_degrees: f64,
    pub(crate) cut: Cut,
    pub(crate) colour: &'static str,
}

impl Text {
    /// Upright ink centred on a point.
    pub(crate) fn new(content: impl Into<String>, at: P2, size: f64) -> Self {
        let (anchor, cut) = (Anchor::Middle, Cut::Regular);
        Self { content: content.into(), at, size, anchor, turn_degrees: 0.0, cut, colour: INK }
    }

    pub(crate) fn cut(self, cut: Cut) -> Self {
        Self { cut, ..self }
    }

    pub(crate) fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    pub(crate) fn turned(self, turn_degrees: f64) -> Self {
        Self { turn_degrees, ..self }
    }

    pub(crate) fn width(&self) -> f64 {
        width(&self.content, self.cut) * self.size
    }

    /// Where the baseline meets the anchor.
    pub(crate) fn baseline(&self) -> P2 {
        add(self.at, turned([0.0, CAP / 2.0 * self.size], self.turn_degrees))
    }

    /// The room it takes.
    pub(crate) fn room(&self) -> Tilted {
        let width = self.width();
        let shift = match self.anchor {
            Anchor::Start => width / 2.0,
            Anchor::Middle => 0.0,
            Anchor::End => -width / 2.0,
        };
        let drop = (BELOW - ABOVE) / 2.0 * self.size;
        Tilted {
            center: add(self.at, turned([shift, drop], self.turn_degrees)),
            half: [width / 2.0, (CAP + ABOVE + BELOW) / 2.0 * self.size],
            along: turned([1.0, 0.0], self.turn_degrees),
        }
    }
}

/// Width of a line of text in sizes.
pub(crate) fn width(content: &str, cut: Cut) -> f64 {
    let table = match cut {
        Cut::Regular => &REGULAR,
        Cut::Bold => &BOLD,
        Cut::Italic => &ITALIC,
    };
    content.chars().map(|c| f64::from(advance(c, table))).sum::<f64>() / 1000.0
}

fn advance(c: char, table: &[u16; 95]) -> u16 {
    match c {
        '\u{a0}' => 200,
        '°' | '²' | '′' | '·' => 376,
        '″' => 537,
        '×' | '±' | '–' => 528,
        '◊' => 550,
        _ => (c as usize).checked_sub(' ' as usize).and_then(|i| table.get(i)).copied().unwrap_or(OTHER),
    }
}

/// For letters outside ASCII: the widest of Latin Extended is 847, of Greek and Cyrillic 929.
const OTHER: u16 = 930;

/// Space to tilde.
const REGULAR: [u16; 95] = [
    200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497,
    497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 544, 588, 571, 615, 527, 494, 617, 652, 263,
    480, 579, 486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497,
    500, 542, 504, 553, 456, 555, 496, 292, 504, 544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419,
    338, 544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
];

/// Space to tilde.
const BOLD: [u16; 95] = [
    200, 340, 537, 528, 528, 857, 667, 300, 344, 344, 457, 528, 300, 332, 300, 339, 528, 528, 528, 528, 528,
    528, 528, 528, 528, 528, 300, 300, 528, 528, 528, 463, 902, 573, 605, 582, 635, 548, 524, 638, 674, 301,
    509, 614, 518, 762, 665, 684, 596, 684, 613, 556, 556, 665, 556, 813, 567, 525, 541, 344, 339, 344, 528,
    500, 555, 527, 573, 467, 573, 518, 341, 534, 571, 276, 278, 548, 286, 857, 572, 555, 573, 573, 398, 443,
    383, 568, 523, 776, 514, 521, 460, 344, 268, 344, 528,
];

/// Space to tilde.
const ITALIC: [u16; 95] = [
    200, 282, 407, 479, 480, 791, 582, 242, 291, 293, 403, 480, 242, 299, 242, 340, 480, 480, 480, 480, 480,
    480, 480, 480, 480, 480, 242, 242, 480, 480, 480, 409, 814, 510, 569, 550, 594, 502, 473, 588, 622, 249,
    456, 555, 462, 705, 619, 633, 550, 633, 555, 506, 510, 616, 496, 756, 490, 461, 512, 292, 340, 292, 479,
    483, 517, 537, 536, 435, 535, 480, 282, 531, 523, 237, 238, 476, 248, 799, 525, 514, 535, 534, 342, 402,
    325, 522, 448, 707, 429, 448, 410, 290, 231, 293, 480,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn width_adds_the_advances_of_the_font() {
        // Advances of `1`, `'`, space in the font: 497, 249, 200.
        assert!((width("11' 1", Cut::Regular) - (3.0 * 0.497 + 0.249 + 0.2)).abs() < 1e-12);
        assert!(width("ridge", Cut::Bold) > width("ridge", Cut::Regular));
    }

    #[test]
    fn room_of_anchored_text_lies_on_the_side_it_runs_to() {
        let text = Text::new("ridge", [10.0, 10.0], 3.0).anchored(Anchor::Start);
        assert!(text.room().center[0] > 10.0);
        let down = text.turned(90.0);
        assert!(down.room().center[1] > 10.0 && (down.room().center[0] - 10.0).abs() < 1.0);
    }
}
