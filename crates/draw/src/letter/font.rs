//! Outside check: the widths against the font files that papers embed.
//!
//! # Source
//! OpenType 1.9: table directory, `hhea`, `hmtx`, `cmap` format 4.

use super::{Cut, width};

const REGULAR: &[u8] = include_bytes!("../../../dossier/fonts/SourceSans3-Regular.otf");
const BOLD: &[u8] = include_bytes!("../../../dossier/fonts/SourceSans3-Bold.otf");
const ITALIC: &[u8] = include_bytes!("../../../dossier/fonts/SourceSans3-It.otf");

const CUTS: [(&[u8], Cut); 3] = [(REGULAR, Cut::Regular), (BOLD, Cut::Bold), (ITALIC, Cut::Italic)];

fn u16_at(data: &[u8], at: usize) -> usize {
    usize::from(u16::from_be_bytes([data[at], data[at + 1]]))
}

fn u32_at(data: &[u8], at: usize) -> usize {
    u16_at(data, at) << 16 | u16_at(data, at + 2)
}

fn table(font: &[u8], tag: [u8; 4]) -> &[u8] {
    let entry = (0..u16_at(font, 4))
        .map(|i| 12 + 16 * i)
        .find(|&at| font[at..at + 4] == tag)
        .expect("the font has it");
    &font[u32_at(font, entry + 8)..]
}

/// Glyph of a character of the basic plane.
fn glyph(font: &[u8], c: char) -> usize {
    let cmap = table(font, *b"cmap");
    let subtables = (0..u16_at(cmap, 2)).map(|i| &cmap[u32_at(cmap, 8 + 8 * i)..]);
    let map = subtables.into_iter().find(|map| u16_at(map, 0) == 4).expect("a map of format 4");
    let (code, twice) = (c as usize, u16_at(map, 6));
    let segment =
        (0..twice / 2).find(|i| u16_at(map, 14 + 2 * i) >= code).expect("the last segment ends at 0xFFFF");
    let [start, delta, offset] = [16 + twice, 16 + 2 * twice, 16 + 3 * twice].map(|base| base + 2 * segment);
    // a code before the segment that ends after it is in no segment: the font has no such character
    let Some(into) = code.checked_sub(u16_at(map, start)) else { return 0 };
    match (u16_at(map, offset), into) {
        (0, _) => (code + u16_at(map, delta)) % 65536,
        (range, into) => u16_at(map, offset + range + 2 * into),
    }
}

fn advance(font: &[u8], c: char) -> f64 {
    let last = u16_at(table(font, *b"hhea"), 34) - 1;
    u16_at(table(font, *b"hmtx"), 4 * glyph(font, c).min(last)) as f64 / 1000.0
}

fn printable() -> impl Iterator<Item = char> {
    ' '..='~'
}

#[test]
fn widths_of_ascii_are_those_of_the_font_files() {
    for (font, cut) in CUTS {
        for c in printable() {
            assert!((width(&c.to_string(), cut) - advance(font, c)).abs() < 1e-9, "{c} {cut:?}");
        }
    }
}

#[test]
fn room_for_signs_and_other_letters_is_never_too_small() {
    for (font, cut) in CUTS {
        for c in "°²′″·×±–◊\u{a0}".chars() {
            assert!(width(&c.to_string(), cut) >= advance(font, c), "{c} {cut:?}");
        }
    }
    for c in ('À'..='ÿ').chain('А'..='я').chain('Α'..='ω').filter(|&c| glyph(REGULAR, c) > 0) {
        assert!(
            width(&c.to_string(), Cut::Regular) >= advance(REGULAR, c),
            "{c} is {} wide",
            advance(REGULAR, c)
        );
    }
}
