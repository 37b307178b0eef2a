//! Ridges that carry a ridge vent: how long the slot is once it has stopped short at both ends.
//!
//! # Formula
//! true length − stop at each end − for each chimney that stands across the ridge, its extent along it and a stop on both
//! sides. A stop at a gable counts from the wall line: rake overhang and the books' distance inside. At a valley top or
//! another ridge, a hip, a wall: the books' distance. Where several meet, the longest.
//! # What it does not judge
//! Ridges flatter than the books allow get no vent. Whether a slot would cut a ridge beam is for framing.

use book::LookupError;
use job::OpeningKind;
use measure::{Length, Pitch};
use roof::plan::{P2, dot, flat, sub};
use roof::{ALONG_FALL, Edge, EdgeId, EdgeKind, NodeId, PlacedOpening};

use crate::case::{Case, Ruled};
use crate::line::input;
use crate::plan::ends;
use crate::vents::{Region, trimmed};

/// A ridge over an attic.
pub(crate) struct VentRidge {
    pub(crate) edge: EdgeId,
    /// Length of the slot.
    pub(crate) slot: Length,
    /// Height above the datum.
    pub(crate) height: Length,
    /// How the slot's length was reached, as an input of a because.
    pub(crate) input: (String, String),
}

/// The ridges over some blocks, each with its slot; also which are too flat, as inputs of a because.
pub(crate) struct VentRidges {
    pub(crate) ridges: Vec<VentRidge>,
    pub(crate) too_flat: Vec<(String, String)>,
}

impl VentRidges {
    pub(crate) fn over(case: &Case<'_>, blocks: &[String], region: &Region) -> Result<Self, LookupError> {
        let least: Ruled<Pitch> = case.rule("ridge-vent.least-pitch")?;
        let stops = Stops::of(case)?;
        let (mut ridges, mut too_flat) = (Vec::new(), Vec::new());
        let is_over = |edge: &Edge| edge.planes.iter().all(|plane| case.is_over(*plane, blocks));
        for (id, edge) in case.edges(&[EdgeKind::Ridge]).into_iter().filter(|(_, edge)| is_over(edge)) {
            let flat = edge
                .planes
                .iter()
                .map(|plane| case.roof.plane(*plane).pitch)
                .find(|p| p.is_flatter_than(least.value));
            match flat {
                Some(pitch) => {
                    too_flat.push(input(id.to_string(), format!("{pitch}: too flat for a ridge vent")));
                }
                None => ridges.extend(slot(case, &stops, id, (edge, region))),
            }
        }
        Ok(Self { ridges, too_flat })
    }

    pub(crate) fn length(&self) -> Length {
        self.ridges.iter().map(|ridge| ridge.slot).sum()
    }
}

/// How far a slot stops short of what ends a ridge.
struct Stops {
    gable_wall: Length,
    valley_top: Length,
    hip: Length,
    wall: Length,
    chimney: Length,
}

impl Stops {
    fn of(case: &Case<'_>) -> Result<Self, LookupError> {
        let stop = |end: &str| Ok(case.rule(&format!("ridge-vent.stop.{end}"))?.value);
        Ok(Self {
            gable_wall: stop("gable-wall")?,
            valley_top: stop("valley-top")?,
            hip: stop("hip")?,
            wall: stop("wall")?,
            chimney: stop("chimney")?,
        })
    }

    /// The longest stop any edge at a ridge's end asks.
    fn at(&self, case: &Case<'_>, ridge: EdgeId, end: NodeId) -> Length {
        let others = case.roof.node(end).edges.iter().filter(|other| **other != ridge);
        others.map(|other| self.before(case, ridge, *other)).fold(Length::ZERO, Length::max)
    }

    fn before(&self, case: &Case<'_>, ridge: EdgeId, other: EdgeId) -> Length {
        let edge = case.roof.edge(other);
        match edge.kind {
            EdgeKind::Rake | EdgeKind::SkewRake | EdgeKind::HighEave => edge.overhang + self.gable_wall,
            EdgeKind::Valley | EdgeKind::LevelValley => self.valley_top,
            EdgeKind::Hip => self.hip,
            EdgeKind::Ridge if !run_on(case, ridge, other) => self.valley_top,
            EdgeKind::Soffit => self.wall,
            kind if kind.is_wall() => self.wall,
            _ => Length::ZERO,
        }
    }
}

/// Whether two edges lie in one line in plan.
fn run_on(case: &Case<'_>, a: EdgeId, b: EdgeId) -> bool {
    let [u, v] = [a, b].map(|id| {
        let [from, to] = ends(case.roof, id);
        sub(to, from)
    });
    let cross = u[0] * v[1] - u[1] * v[0];
    cross.abs() <= ALONG_FALL * dot(u, u).sqrt() * dot(v, v).sqrt()
}

/// The slot over a space; none of a ridge that lies over others only.
fn slot(case: &Case<'_>, stops: &Stops, id: EdgeId, (edge, region): (&Edge, &Region)) -> Option<VentRidge> {
    let [from, to] = [edge.from, edge.to].map(|end| stops.at(case, id, end));
    let chimneys = chimneys_on(case, id).filter(|(_, middle)| region.holds(*middle));
    let chimneys: Length = chimneys.map(|(along, _)| along + stops.chimney * 2.0).sum();
    let between = (edge.length - from - to).max(Length::ZERO);
    let [a, b] = ends(case.roof, id);
    let [a, b] = trimmed(a, b, [from, to].map(|stop| stop / edge.length));
    let over = region.share(a, b);
    let slot = (between * over - chimneys).max(Length::ZERO);
    let run = |length| case.words.run(length);
    let of_space =
        if over < 1.0 { format!(", {} of it over this space", run(between * over)) } else { String::new() };
    let at_chimneys =
        if chimneys > Length::ZERO { format!(", less {} at chimneys", run(chimneys)) } else { String::new() };
    let value = format!(
        "{} less {} and {} at its ends{of_space}{at_chimneys} = {}",
        run(edge.length),
        run(from),
        run(to),
        run(slot)
    );
    let [a, b] = case.roof.ends(id);
    let height = Length::from_m(a[2].max(b[2]));
    (over > 0.0).then(|| VentRidge { edge: id, slot, height, input: input(id.to_string(), value) })
}

/// Extent along a ridge of each chimney that stands across it, and its middle.
fn chimneys_on<'a>(case: &'a Case<'_>, ridge: EdgeId) -> impl Iterator<Item = (Length, P2)> + 'a {
    let stands_across = move |placed: &PlacedOpening| {
        placed.distances.iter().any(|near| near.edge == ridge && near.slope_from_rim <= Length::ZERO)
    };
    let [from, to] = ends(case.roof, ridge);
    let direction = sub(to, from);
    let length = dot(direction, direction).sqrt();
    let along = move |p: P2| dot(sub(p, from), direction) / length;
    let chimneys = case.openings().into_iter().filter(|(opening, _)| opening.kind == OpeningKind::Chimney);
    chimneys.filter(move |(_, placed)| stands_across(placed)).map(move |(_, placed)| {
        let places = placed.rim.map(|corner| along(flat(corner)));
        let most = places.into_iter().fold(f64::NEG_INFINITY, f64::max);
        let least = places.into_iter().fold(f64::INFINITY, f64::min);
        (Length::from_m(most - least), flat(placed.at))
    })
}
