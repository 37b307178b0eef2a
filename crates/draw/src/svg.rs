//! SVG text: the few elements drawings need, and nothing that a strict content policy would refuse.
//!
//! Lengths are millimetres with two decimals, y down; looks are presentation attributes (no `style`). The same
//! calls give the same bytes.

use std::fmt::Write as _;

use crate::ink::{PAPER, Pen};
use crate::letter::{Anchor, Cut, FAMILY, Text};
use crate::vector::P2;

/// A drawing under way.
#[derive(Clone, Debug, Default)]
pub(crate) struct Svg {
    body: String,
}

impl Svg {
    /// Draws along a path.
    pub(crate) fn stroke(&mut self, class: &str, path: &Path, pen: &Pen) {
        self.shape(class, path, "none", pen);
    }

    /// Fills a path and draws along it.
    pub(crate) fn shape(&mut self, class: &str, path: &Path, fill: &str, pen: &Pen) {
        let (width, dash) = (number(pen.width), dashes(pen.dash));
        let _ = writeln!(
            self.body,
            r#"<path class="{class}" d="{}" fill="{fill}" stroke="{}" stroke-width="{width}"{dash}/>"#,
            path.0, pen.colour
        );
    }

    /// Fills a path.
    pub(crate) fn fill(&mut self, class: &str, path: &Path, fill: &str) {
        let _ = writeln!(self.body, r#"<path class="{class}" d="{}" fill="{fill}"/>"#, path.0);
    }

    /// Writes a line of text with a rim of paper around its letters.
    pub(crate) fn text(&mut self, class: &str, text: &Text) {
        let at = text.baseline();
        let _ = write!(
            self.body,
            r#"<text class="{class}" x="{}" y="{}" font-size="{}" text-anchor="{}"{}{}"#,
            number(at[0]),
            number(at[1]),
            number(text.size),
            anchor(text.anchor),
            cut(text.cut),
            turn(text.turn_degrees, at),
        );
        let _ = writeln!(
            self.body,
            r#" fill="{}" stroke="{PAPER}" stroke-width="{}" paint-order="stroke">{}</text>"#,
            text.colour,
            number(text.size * 0.22),
            escaped(&text.content)
        );
    }

    /// The document.
    pub(crate) fn finish(self, [width, height]: P2, title: &str, description: &str) -> String {
        let (w, h) = (number(width), number(height));
        let head = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" font-family="'{FAMILY}'" stroke-linejoin="round">"#
        );
        let (title, description) = (escaped(title), escaped(description));
        format!("{head}\n<title>{title}</title>\n<desc>{description}</desc>\n{}</svg>\n", self.body)
    }
}

/// Outline of a shape.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Path(String);

impl Path {
    /// Straight from point to point.
    pub(crate) fn open(points: &[P2]) -> Self {
        Self::default().and_open(points)
    }

    /// Straight from point to point and back to the first.
    pub(crate) fn closed(points: &[P2]) -> Self {
        Self::default().and_closed(points)
    }

    pub(crate) fn circle(center: P2, radius: f64) -> Self {
        Self::default().and_circle(center, radius)
    }

    pub(crate) fn and_open(mut self, points: &[P2]) -> Self {
        for (i, p) in points.iter().enumerate() {
            let _ = write!(self.0, "{}{} {}", if i == 0 { 'M' } else { 'L' }, number(p[0]), number(p[1]));
        }
        self
    }

    pub(crate) fn and_closed(self, points: &[P2]) -> Self {
        let mut path = self.and_open(points);
        path.0.push('Z');
        path
    }

    pub(crate) fn and_circle(mut self, [x, y]: P2, radius: f64) -> Self {
        let (left, right, y, r) = (number(x - radius), number(x + radius), number(y), number(radius));
        let _ = write!(self.0, "M{left} {y}A{r} {r} 0 1 1 {right} {y}A{r} {r} 0 1 1 {left} {y}Z");
        self
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// Two decimals; what rounds to zero has no sign.
pub(crate) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    if text == "-0.00" { "0.00".into() } else { text }
}

fn dashes(dash: &[f64]) -> String {
    if dash.is_empty() {
        return String::new();
    }
    let list: Vec<_> = dash.iter().map(|&d| number(d)).collect();
    format!(r#" stroke-dasharray="{}""#, list.join(" "))
}

const fn anchor(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    }
}

const fn cut(cut: Cut) -> &'static str {
    match cut {
        Cut::Regular => "",
        Cut::Bold => r#" font-weight="bold""#,
        Cut::Italic => r#" font-style="italic""#,
    }
}

fn turn(degrees: f64, at: P2) -> String {
    if degrees.abs() < 0.005 {
        return String::new();
    }
    format!(r#" transform="rotate({} {} {})""#, number(degrees), number(at[0]), number(at[1]))
}

/// Text as XML holds it between tags; characters XML 1.0 cannot hold become the replacement character.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            c if is_xml(c) => out.push(c),
            _ => out.push(char::REPLACEMENT_CHARACTER),
        }
    }
    out
}

/// XML 1.0 (fifth edition), production 2, `Char`; surrogates are no `char`.
const fn is_xml(c: char) -> bool {
    matches!(c, '\t' | '\n' | '\r' | ' '..='\u{fffd}' | '\u{10000}'..)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_two_decimals_and_no_negative_zero() {
        assert_eq!([-0.004, 1.0 / 3.0, -2.5].map(number), ["0.00", "0.33", "-2.50"]);
    }

    #[test]
    fn text_is_escaped_and_stripped_of_what_xml_cannot_hold() {
        assert_eq!(escaped("a<b & \"c\"\u{0}\u{ffff}"), "a&lt;b &amp; \"c\"\u{fffd}\u{fffd}");
    }

    #[test]
    fn path_closes_and_circles_by_two_arcs() {
        assert_eq!(Path::closed(&[[0.0, 0.0], [1.0, 0.0]]).0, "M0.00 0.00L1.00 0.00Z");
        assert_eq!(
            Path::circle([1.0, 0.0], 1.0).0,
            "M0.00 0.00A1.00 1.00 0 1 1 2.00 0.00A1.00 1.00 0 1 1 0.00 0.00Z"
        );
    }
}
