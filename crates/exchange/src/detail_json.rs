//! What stands between water and wood, as JSON.

use book::{Because, Book, Choice, Facts};
use detail::{At, Details, Fit, Place, Stood};
use job::Units;
use measure::Pitch;
use serde::Serialize;
use serde_json::Value;
use takeoff::Dimension;

use crate::VERSION;
use crate::number::tidy;

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    places: Vec<PlaceOut<'a>>,
    holds: Vec<HoldOut<'a>>,
}

#[derive(Serialize)]
struct HoldOut<'a> {
    photo: &'a str,
    passes: &'a str,
    prevents: &'a str,
    at: Vec<&'a str>,
}

#[derive(Serialize)]
struct PlaceOut<'a> {
    name: &'a str,
    spot: book::Spot,
    edge: Option<usize>,
    node: Option<usize>,
    opening: Option<usize>,
    slopes: [f64; 2],
    is_wall_assumed: bool,
    facts_found: Facts,
    facts: Facts,
    is_there: bool,
    will_be: bool,
    dimensions: Vec<DimensionOut<'a>>,
    found: Option<FitOut<'a>>,
    chosen: Option<&'a str>,
    planned: Vec<FitOut<'a>>,
}

#[derive(Serialize)]
struct DimensionOut<'a> {
    what: &'a str,
    value: Option<f64>,
    unit: Option<&'static str>,
    written: String,
    assumed: bool,
    because: &'a Because,
}

#[derive(Serialize)]
struct FitOut<'a> {
    detail: &'a str,
    choice: Choice,
    assumed: bool,
    with: Vec<&'a str>,
    stands: Vec<StoodOut<'a>>,
    faults: Vec<String>,
}

#[derive(Serialize)]
struct StoodOut<'a> {
    attack: &'static str,
    failures: Option<usize>,
    sets: &'a [Vec<String>],
}

/// Every place with its details: what they measure there, how many failures each takes under each attack, and which; then the hold points.
/// `dimensions` are those of the places, in their order; quantities in the units of the job.
pub fn details(details: &Details, dimensions: &[Vec<Dimension>], units: Units, book: &Book) -> Value {
    let none = Vec::new();
    let dimensions = dimensions.iter().chain(std::iter::repeat(&none));
    let places = details.places.iter().zip(dimensions).map(|(place, sizes)| self::place(place, sizes, units));
    let holds = details.holds(book).into_iter().map(|(hold, places)| HoldOut {
        photo: &hold.photo,
        passes: &hold.passes,
        prevents: &hold.prevents,
        at: places.iter().map(|place| place.name.as_str()).collect(),
    });
    let document = Document { version: VERSION, places: places.collect(), holds: holds.collect() };
    serde_json::to_value(document).unwrap_or_default()
}

fn place<'a>(place: &'a Place, dimensions: &'a [Dimension], units: Units) -> PlaceOut<'a> {
    let (edge, node, opening) = match place.at {
        At::Edge(edge) => (Some(edge.number()), None, None),
        At::End(edge, node) => (Some(edge.number()), Some(node.number()), None),
        At::Opening(index) => (None, None, Some(index)),
    };
    PlaceOut {
        name: &place.name,
        spot: place.spot,
        edge,
        node,
        opening,
        slopes: [place.slopes.first, place.slopes.then].map(Pitch::slope),
        is_wall_assumed: place.is_wall_assumed,
        facts_found: place.facts_found,
        facts: place.facts,
        is_there: place.is_there,
        will_be: place.will_be,
        dimensions: dimensions.iter().map(|size| dimension(size, units)).collect(),
        found: place.found.as_ref().map(|one| fit(one, units)),
        chosen: place.chosen().map(|fit| fit.detail.as_str()),
        planned: place.planned.iter().map(|one| fit(one, units)).collect(),
    }
}

fn dimension(dimension: &Dimension, units: Units) -> DimensionOut<'_> {
    let (value, unit) = dimension.size.in_units(units).unzip();
    DimensionOut {
        what: &dimension.what,
        value: value.map(tidy),
        unit,
        written: dimension.size.written(units),
        assumed: dimension.is_assumed,
        because: &dimension.because,
    }
}

fn fit(fit: &Fit, units: Units) -> FitOut<'_> {
    FitOut {
        detail: &fit.detail,
        choice: fit.choice,
        assumed: fit.is_assumed,
        with: fit.with.iter().map(|one| one.detail.as_str()).collect(),
        stands: fit.stands.iter().map(stood).collect(),
        faults: fit.all().flat_map(|one| &one.faults).map(|fault| fault.told(units)).collect(),
    }
}

fn stood(stood: &Stood) -> StoodOut<'_> {
    StoodOut { attack: stood.attack.name(), failures: stood.failures, sets: &stood.sets }
}
