//! What details measure on this house: lengths to cut, lines to saw, pieces to bend, place by place.
//!
//! What a detail says of itself (how far a layer reaches, what it laps) is the same on every house and stands in its section. Here stands what
//! follows from the house: how long, how many, where, at which angle.

mod edge;
mod kick_out;
mod opening;
mod site;
mod wall;

use book::{Act, Because, Book, Detail, Layer, LookupError, Reach, Role};
use detail::{At, Details, Place};
use job::{Job, Units};
use measure::{Area, Flow, Length, Pitch};
use roof::{EdgeId, Roof};
use water::Drainage;

use crate::Takeoff;
use crate::assumed::Of;
use crate::case::Case;
use crate::ice::IceBarrier;
use crate::line::{Quantity, because, computed};

/// One dimension of a detail at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// What is measured, such as `siding cut, above the deck`.
    pub what: String,
    /// How much.
    pub size: Size,
    /// What layers it says the reach of, that sections draw short.
    pub reach_of: Option<Role>,
    /// Whether a reading nobody took is behind it.
    pub is_assumed: bool,
    /// How it was reached.
    pub because: Because,
}

/// How much a dimension is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// A length.
    Length(Length),
    /// Pieces.
    Count(u64),
    /// A fall along a line.
    Pitch(Pitch),
    /// An area.
    Area(Area),
    /// An angle, degrees.
    Angle(f64),
    /// Water, at the design rain.
    Flow(Flow),
    /// All there is of it.
    Whole,
    /// No figure, and why.
    Refused(&'static str),
}

/// Lengths under this are written in inches or millimetres alone: 3 ft.
const SHORT: Length = Length::from_m(0.9144);

impl Size {
    /// The value in the units papers are written in, and the unit as programs read it.
    /// None where no figure is given.
    pub fn in_units(self, units: Units) -> Option<(f64, &'static str)> {
        Some(match self {
            Self::Length(length) => Quantity::Length(length).in_units(units),
            Self::Count(count) => Quantity::Count(count).in_units(units),
            Self::Area(area) => Quantity::Area(area).in_units(units),
            Self::Pitch(pitch) => (pitch.slope(), "rise_over_run"),
            Self::Angle(degrees) => (degrees, "degrees"),
            Self::Flow(flow) => match units {
                Units::Us => (flow.gpm(), "gpm"),
                Units::Si => (flow.l_s(), "l_s"),
            },
            Self::Whole => (1.0, "whole"),
            Self::Refused(_) => return None,
        })
    }

    /// As papers in these units write it: feet and inches to 1/8 in, or millimetres.
    pub fn written(self, units: Units) -> String {
        match self {
            Self::Length(length) if length.m().abs() < SHORT.m() => units.lap(length),
            Self::Length(length) => units.length(length),
            Self::Count(count) => count.to_string(),
            Self::Pitch(pitch) => units.pitch(pitch),
            Self::Area(area) => units.area(area),
            Self::Angle(degrees) => format!("{degrees:.0}°"),
            Self::Flow(flow) => units.water(flow),
            Self::Whole => "whole plane".to_owned(),
            Self::Refused(why) => why.to_owned(),
        }
    }
}

/// The least and the most that layers drawn short reach, of some dimensions; none where none of them tells it.
pub fn drawn_short<'d>(all: impl IntoIterator<Item = &'d Dimension>) -> Option<[Length; 2]> {
    let told = all.into_iter().filter(|one| one.reach_of.is_some()).filter_map(|one| match one.size {
        Size::Length(length) => Some([length; 2]),
        _ => None,
    });
    told.reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])])
}

/// Dimensions of every place of a house, in the order of [`Details::places`]; none where nothing is built.
///
/// # Errors
/// Rows the books do not have.
pub fn dimensions(
    details: &Details,
    takeoff: &Takeoff,
    drainage: &Drainage,
    roof: &Roof,
    job: &Job,
    book: &Book,
) -> Result<Vec<Vec<Dimension>>, LookupError> {
    let case = Case::assuming(roof, job, book, takeoff.assumed.clone())?;
    let bench = Bench { case: &case, ice: &takeoff.ice, drainage };
    details.places.iter().map(|place| bench.place(place)).collect()
}

/// Where dimensions are taken.
struct Bench<'c, 'a> {
    case: &'c Case<'a>,
    ice: &'c IceBarrier,
    drainage: &'c Drainage,
}

impl Bench<'_, '_> {
    fn place(&self, place: &Place) -> Result<Vec<Dimension>, LookupError> {
        let Some(fit) = place.chosen() else { return Ok(Vec::new()) };
        let detail = self.case.book.detail(&fit.detail)?;
        match place.at {
            At::Edge(edge) => self.along(edge, place, detail),
            At::End(edge, node) => self.foot(edge, node, detail),
            At::Opening(index) => self.around(index, place.spot, detail),
        }
    }

    /// A dimension that rests on the length of an edge.
    fn on_edge(
        &self,
        edge: EdgeId,
        what: impl Into<String>,
        size: Size,
        inputs: Vec<(String, String)>,
        rule: &str,
    ) -> Dimension {
        let is_assumed = self.case.assumed.touches(Of::Length(edge));
        Dimension { is_assumed, ..dimension(what, size, inputs, rule) }
    }
}

/// A dimension worked out from the measured roof and the layers of its detail.
fn dimension(what: impl Into<String>, size: Size, inputs: Vec<(String, String)>, rule: &str) -> Dimension {
    let what = what.into();
    Dimension {
        because: because(what.clone(), inputs, rule, computed()),
        what,
        size,
        reach_of: None,
        is_assumed: false,
    }
}

/// The part of a face that a layer covers.
fn reach(detail: &Detail, layer: &Layer, face: &str) -> Option<[Length; 2]> {
    match layer.covers.get(face)? {
        Reach::All => Some([Length::ZERO, *detail.face(face)?.shown]),
        Reach::Between([from, to]) => Some([**from, **to]),
    }
}

/// How wide the sheets of a layer are cut: over all faces it covers; none where it runs on past what is shown.
fn width(detail: &Detail, layer: &Layer) -> Option<Length> {
    let runs_on = |face: &String| {
        let shown = detail.face(face).map(|face| *face.shown);
        let at_end = detail.faces.first().is_some_and(|first| first.name == *face)
            || detail.faces.last().is_some_and(|last| last.name == *face);
        at_end && reach(detail, layer, face).map(|[_, to]| to) == shown
    };
    if layer.covers.keys().any(runs_on) {
        return None;
    }
    Some(layer.covers.keys().filter_map(|face| reach(detail, layer, face)).map(|[from, to]| to - from).sum())
}

/// Widths membranes are cut to.
fn sheets<'d>(detail: &'d Detail, book: &Book) -> impl Iterator<Item = Dimension> + use<'d> {
    let cut = |layer: &'d Layer| {
        let rule = "what it covers of all faces in the section";
        Some(dimension(
            format!("{}, cut width", layer.id),
            Size::Length(width(detail, layer)?),
            Vec::new(),
            rule,
        ))
    };
    membranes(detail, book).into_iter().filter_map(cut)
}

/// Layers that stick to what they lie on: membranes, cut from rolls to a width.
fn membranes<'d>(detail: &'d Detail, book: &Book) -> Vec<&'d Layer> {
    let bonds =
        |layer: &&Layer| book.material(&layer.material).is_ok_and(|material| material.does(Act::Bonds));
    detail.layers.iter().filter(bonds).collect()
}
