//! Eaves by the names the job has for them, and places along them.
//!
//! Places count from the first end of the eave's edge; the document counts from the west end, or from the south end where the eave runs north.

use job::{Along, Gutter, PlaneName, Problem, Units};
use measure::Length;
use roof::plan::{P2, between, counts_along, distance, dot, flat, runs_north, sub, unit};
use roof::{EdgeId, EdgeKind, PlaneId, Roof};

use crate::misplaced::{no_eave, no_end, off_eave, which_eave};

/// How much of an eave's run must go toward one of its ends by name: a fifth of the way round a quarter.
const TOWARD: f64 = 0.3;
/// A downspout read this far past the end of an eave stands at it, metres: 1/4 in, what walls of a tape survey may miss by.
const PAST: f64 = 0.006_35;

/// Height of an eave.
pub(crate) fn height_of(roof: &Roof, edge: EdgeId) -> f64 {
    let [from, to] = roof.ends(edge);
    0.5 * (from[2] + to[2])
}

/// A place along an edge from its first end, in plan.
pub fn point_at(roof: &Roof, edge: EdgeId, at: Length) -> P2 {
    let [from, to] = roof.ends(edge).map(flat);
    between(from, to, at.m() / distance(from, to))
}

/// Distance in plan from an edge's first end to the place on it nearest to a point.
pub fn place_along(roof: &Roof, edge: EdgeId, p: P2) -> Length {
    let [from, to] = roof.ends(edge).map(flat);
    let run = sub(to, from);
    Length::from_m((dot(sub(p, from), run) / dot(run, run).sqrt()).clamp(0.0, distance(from, to)))
}

/// The planes that rise from a block and face the way a name says.
pub(crate) fn planes_named(roof: &Roof, name: &PlaneName) -> Vec<PlaneId> {
    let planes = roof.planes.iter().enumerate();
    let named =
        planes.filter(|(_, p)| p.blocks.contains(&name.block) && name.faces.may_name(p.azimuth_degrees));
    named.map(|(i, _)| PlaneId(i)).collect()
}

/// Whether an edge counts from its first end: whether that is its west end, or its south end where it runs north.
fn is_in_order(roof: &Roof, edge: EdgeId) -> bool {
    let [from, to] = roof.ends(edge).map(flat);
    counts_along(unit(from, to))
}

/// The eaves of a plane by name, counted from the west or south.
fn eaves_of(roof: &Roof, name: &PlaneName) -> Vec<EdgeId> {
    let planes = planes_named(roof, name);
    let is_eave = |id: &EdgeId| {
        let edge = roof.edge(*id);
        edge.kind == EdgeKind::Eave && edge.planes.iter().any(|p| planes.contains(p))
    };
    let mut eaves: Vec<EdgeId> = (0..roof.edges.len()).map(EdgeId).filter(is_eave).collect();
    let middle = |id: &EdgeId| {
        let [from, to] = roof.ends(*id).map(flat);
        let at = between(from, to, 0.5);
        if runs_north(unit(from, to)) { [at[1], at[0]] } else { at }
    };
    eaves.sort_by(|a, b| {
        let (a, b) = (middle(a), middle(b));
        a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1]))
    });
    eaves
}

/// The eave a gutter of the job hangs at.
///
/// # Errors
/// A [`Problem`] where its plane has no eave, or several and the gutter does not say which.
pub fn eave_of(roof: &Roof, gutter: &Gutter) -> Result<EdgeId, Problem> {
    eave(roof, gutter, Units::Us)
}

pub(crate) fn eave(roof: &Roof, gutter: &Gutter, units: Units) -> Result<EdgeId, Problem> {
    let eaves = eaves_of(roof, &gutter.eave);
    match (eaves.as_slice(), gutter.part) {
        ([], _) => Err(no_eave(gutter)),
        ([only], None) => Ok(*only),
        (_, None) => Err(which_eave(roof, gutter, &eaves, units)),
        (_, Some(part)) => {
            let index = usize::try_from(part).ok().and_then(|part| part.checked_sub(1));
            let eave = index.and_then(|index| eaves.get(index).copied());
            eave.ok_or_else(|| which_eave(roof, gutter, &eaves, units))
        }
    }
}

/// Where along an edge a downspout stands, from the edge's first end.
pub(crate) fn place(
    roof: &Roof,
    edge: EdgeId,
    downspout: &job::Downspout,
    units: Units,
) -> Result<Length, Problem> {
    let whole = roof.edge(edge).plan_length;
    let [from, to] = roof.ends(edge).map(flat);
    match downspout.at {
        Along::Distance(at) if at.m() > whole.m() + PAST => Err(off_eave(downspout, at, whole, units)),
        Along::Distance(at) if is_in_order(roof, edge) => Ok(at.min(whole)),
        Along::Distance(at) => Ok((whole - at).max(Length::ZERO)),
        Along::End(end) => {
            let (sin, cos) = end.degrees().to_radians().sin_cos();
            let toward = dot(unit(from, to), [sin, cos]);
            match toward {
                _ if toward > TOWARD => Ok(whole),
                _ if toward < -TOWARD => Ok(Length::ZERO),
                _ => Err(no_end(roof, edge, downspout)),
            }
        }
    }
}
