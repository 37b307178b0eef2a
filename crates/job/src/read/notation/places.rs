//! References to blocks, their sides, their corners and their planes.

use serde_json::{Value as Json, json};

use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, shortened};
use crate::read::roll::{Entry, Shape};
use crate::schema::Definitions;
use crate::{Compass, PlaneName, Problem, Side};

/// Name of a block.
pub(crate) struct BlockName;

impl Notation for BlockName {
    type Value = String;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<String> {
        let Some(text) = node.text() else {
            return desk.refuse(node.wrong_kind("the name of a block", "\"main\""));
        };
        match desk.roll().block(text) {
            Ok(entry) => Some(entry.name.clone()),
            Err(lost) => desk.refuse(lost.at(node)),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "description": "the name of a block" })
    }
}

/// A block and one of its sides, such as `main south`.
pub(crate) struct BlockSide;

impl Notation for BlockSide {
    type Value = (String, Side);

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<(String, Side)> {
        let Some(text) = node.text() else {
            return desk.refuse(node.wrong_kind("a side of a block", "\"main south\""));
        };
        let problem = match desk.roll().block_and_side(text) {
            Ok((entry, Some(side))) => return Some((entry.name.clone(), side)),
            Ok((entry, None)) => {
                let message = format!("`{}` names the block `{}` but not which side", node.path, entry.name);
                let side = entry.sides().first().map_or_else(|| "south".to_owned(), Side::to_string);
                node.error("no-side", message, format!("add the side, like \"{} {side}\"", entry.name))
            }
            Err(lost) => lost.at(node),
        };
        desk.refuse(problem)
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "description": "the name of a block and its side: `main south`, `ell edge 3`" })
    }
}

/// A corner of a block, such as `main south-west` or `ell 3`: its number in the document's order, from 1.
pub(crate) struct BlockCorner;

/// Corners of a rectangle in the order of its contour.
const CORNERS: [&str; 4] = ["south-west", "south-east", "north-east", "north-west"];

impl Notation for BlockCorner {
    type Value = (String, usize);

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<(String, usize)> {
        let Some(text) = node.text() else {
            return desk.refuse(node.wrong_kind("a corner of a block", "\"main south-west\""));
        };
        let problem = match desk.roll().block_and_rest(text) {
            Ok((entry, rest)) => {
                if let Some(number) = corner(entry, rest) {
                    return Some((entry.name.clone(), number));
                }
                let message = format!("`{}` names no corner of `{}`: `{rest}`", node.path, entry.name);
                node.error("unknown-corner", message, corners_offered(entry))
            }
            Err(lost) => lost.at(node),
        };
        desk.refuse(problem)
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "description": "the name of a block and its corner: `main south-west`, `ell 3`" })
    }
}

fn corner(entry: &Entry, text: &str) -> Option<usize> {
    let named = CORNERS.iter().position(|corner| *corner == text && entry.shape == Shape::Rectangle);
    let number = text.strip_prefix("corner").unwrap_or(text).trim().parse().ok();
    let count = match &entry.shape {
        Shape::Rectangle => CORNERS.len(),
        Shape::Outline(counts) => counts.first().copied().unwrap_or_default(),
    };
    named.map(|index| index + 1).or(number).filter(|number| (1..=count).contains(number))
}

fn corners_offered(entry: &Entry) -> String {
    match &entry.shape {
        Shape::Rectangle => format!("a rectangle has the corners {}", CORNERS.join(", ")),
        Shape::Outline(counts) => {
            format!(
                "write the number of a point of its outline, 1 to {}",
                counts.first().copied().unwrap_or_default()
            )
        }
    }
}

/// A plane, such as `main S`: the block it rises from and the way it faces.
pub(crate) struct PlaneOf;

/// How the name of a plane ends, as a regular expression.
pub(crate) const PLANE_ENDING: &str = " (N|NE|E|SE|S|SW|W|NW)$";

impl PlaneOf {
    /// The plane of that name; none after reporting at `place` why there is none.
    pub(crate) fn named(text: &str, place: &Node<'_>, desk: &mut Desk<'_>) -> Option<PlaneName> {
        let problem = match desk.roll().block_and_rest(text) {
            Ok((entry, letter)) => match Compass::of_letter(letter) {
                Some(faces) => return Some(PlaneName { block: entry.name.clone(), faces }),
                None => no_letter(place, text),
            },
            Err(lost) => lost.at(place),
        };
        desk.refuse(problem)
    }

    /// The plane a text names, if it names one.
    pub(crate) fn find(text: &str, desk: &Desk<'_>) -> Option<PlaneName> {
        let (entry, letter) = desk.roll().block_and_rest(text).ok()?;
        Some(PlaneName { block: entry.name.clone(), faces: Compass::of_letter(letter)? })
    }
}

impl Notation for PlaneOf {
    type Value = PlaneName;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<PlaneName> {
        match node.text() {
            Some(text) => Self::named(text, node, desk),
            None => desk.refuse(node.wrong_kind("the name of a plane", "\"main S\"")),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "pattern": PLANE_ENDING, "description": "block and the way it faces: `main S`" })
    }
}

fn no_letter(place: &Node<'_>, text: &str) -> Problem {
    let message =
        format!("`{}` names no plane: `{}` does not end in a compass letter", place.path, shortened(text));
    place.error("unknown-plane", message, "call the plane by block and the way it faces, like \"main S\"")
}
