//! A drawing read back: its texts with the room they take, and its paths.

use super::xml::{Element, elements};
use crate::Figure;
use crate::letter::{Anchor, Cut, Text};
use crate::place::Tilted;
use crate::vector::{P2, sub, turned};

/// A text of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Written {
    pub(super) class: String,
    pub(super) content: String,
    pub(super) room: Tilted,
    pub(super) text: Text,
}

/// A drawing read back.
pub(super) struct Page {
    pub(super) elements: Vec<Element>,
    pub(super) texts: Vec<Written>,
}

impl Page {
    pub(super) fn of(figure: &Figure) -> Self {
        let elements = elements(&figure.svg);
        let texts = elements.iter().filter(|e| e.name == "text").map(written).collect();
        Self { elements, texts }
    }

    /// Contents of the texts of a class, in order.
    pub(super) fn words(&self, class: &str) -> Vec<&str> {
        self.texts.iter().filter(|t| t.class == class).map(|t| t.content.as_str()).collect()
    }

    /// Elements of a class that are no text.
    pub(super) fn shapes<'a>(&'a self, class: &'a str) -> impl Iterator<Item = &'a Element> {
        self.elements.iter().filter(move |e| e.name == "path" && e.get("class") == Some(class))
    }
}

fn written(element: &Element) -> Written {
    let turn = element.get("transform").map_or(0.0, |t| {
        let inner = t.strip_prefix("rotate(").and_then(|t| t.split(' ').next()).expect("only turns");
        inner.parse().expect("a turn in degrees")
    });
    let size = element.number("font-size");
    let anchor = match element.get("text-anchor") {
        Some("start") => Anchor::Start,
        Some("middle") => Anchor::Middle,
        Some("end") => Anchor::End,
        other => panic!("anchor {other:?}"),
    };
    let cut = match (element.get("font-weight"), element.get("font-style")) {
        (Some("bold"), None) => Cut::Bold,
        (None, Some("italic")) => Cut::Italic,
        (None, None) => Cut::Regular,
        other => panic!("cut {other:?}"),
    };
    let baseline: P2 = [element.number("x"), element.number("y")];
    let at = sub(baseline, turned([0.0, 0.33 * size], turn));
    let text = Text::new(element.text.clone(), at, size).anchored(anchor).turned(turn).cut(cut);
    let class = element.get("class").unwrap_or_default().to_owned();
    Written { class, content: element.text.clone(), room: text.room(), text }
}
