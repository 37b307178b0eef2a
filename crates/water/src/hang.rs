//! Gutters of the job on the eaves of the roof: each at one whole eave, its downspouts along it.

use job::{Empties, Gutter, Problem, State, Units};
use measure::Length;
use roof::plan::{P2, between, distance, edges, flat, to_segment};
use roof::{EdgeId, PlaneId, Roof};

use crate::eave::{eave, height_of, place, place_along, planes_named, point_at};
use crate::hung::{Discharge, GutterId, HungDownspout, HungGutter};
use crate::misplaced::{far, no_roof, taken, told, uphill};

/// Further in plan than this no downspout leads to the gutter or roof it empties on, metres (20 ft): a slip of the pen.
const FAR: f64 = 6.096;

/// The gutters of a job that will hang when it is done: those that stay and those that come, in document order.
///
/// # Errors
/// Every [`Problem`] of a gutter that has no eave of its own, and of a downspout off its eave, above what it empties on or far from it; lengths are
/// told in the units given.
pub fn hang(roof: &Roof, gutters: &[Gutter], units: Units) -> Result<Vec<HungGutter>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut found = |gutter| eave(roof, gutter, units).map_err(|problem| problems.push(problem)).ok();
    let at: Vec<(&Gutter, EdgeId)> =
        gutters.iter().filter_map(|gutter| Some((gutter, found(gutter)?))).collect();
    let staying: Vec<(&Gutter, EdgeId)> =
        at.into_iter().filter(|(gutter, _)| gutter.state != State::Remove).collect();
    for (i, (gutter, edge)) in staying.iter().enumerate() {
        let other = staying[..i].iter().find(|(_, other)| other == edge);
        problems.extend(other.map(|(other, _)| taken(gutter, other)));
    }
    let desk = Desk { roof, staying: &staying, units };
    let mut hung = Vec::new();
    for (gutter, edge) in &staying {
        let found: Vec<_> = gutter.downspouts.iter().map(|d| desk.downspout(gutter, *edge, d)).collect();
        let mut downspouts = Vec::new();
        for one in found {
            match one {
                Ok(downspout) => downspouts.push(downspout),
                Err(problem) => problems.push(problem),
            }
        }
        hung.push(HungGutter {
            name: gutter.name.clone(),
            edge: *edge,
            kind: gutter.kind.clone(),
            fall: gutter.fall.value,
            wall_gap: gutter.wall_gap.unwrap_or(Length::ZERO),
            downspouts,
        });
    }
    if problems.is_empty() { Ok(hung) } else { Err(problems) }
}

/// What placing downspouts takes.
struct Desk<'a> {
    roof: &'a Roof,
    staying: &'a [(&'a Gutter, EdgeId)],
    units: Units,
}

impl Desk<'_> {
    fn downspout(
        &self,
        gutter: &Gutter,
        edge: EdgeId,
        downspout: &job::Downspout,
    ) -> Result<HungDownspout, Problem> {
        let at = place(self.roof, edge, downspout, self.units)?;
        let to = self.discharge(gutter, edge, downspout, point_at(self.roof, edge, at))?;
        let (name, size) = (downspout.name.clone(), downspout.size.clone());
        Ok(HungDownspout { name, at, size, to })
    }

    fn discharge(
        &self,
        gutter: &Gutter,
        edge: EdgeId,
        downspout: &job::Downspout,
        p: P2,
    ) -> Result<Discharge, Problem> {
        let from = height_of(self.roof, edge);
        let (to, height, reached) = match &downspout.to {
            Empties::Ground => return Ok(Discharge::Ground),
            Empties::Drain => return Ok(Discharge::Drain),
            Empties::Gutter(name) => {
                let lower = self.staying.iter().enumerate().find(|(_, (other, _))| other.name == *name);
                let (i, (_, edge)) = lower.ok_or_else(|| uphill(gutter, downspout, name))?;
                let reached = point_at(self.roof, *edge, place_along(self.roof, *edge, p));
                (Discharge::Gutter(GutterId(i)), height_of(self.roof, *edge), reached)
            }
            Empties::Roof(name) => {
                let planes = planes_named(self.roof, name);
                let near = planes.iter().map(|id| (*id, nearest_on(self.roof, *id, p)));
                let nearest = near.min_by(|(_, a), (_, b)| distance(*a, p).total_cmp(&distance(*b, p)));
                let (plane, at) = nearest.ok_or_else(|| no_roof(gutter, downspout))?;
                (Discharge::Roof { plane, at }, self.roof.plane(plane).height_at(at), at)
            }
        };
        let named = match &downspout.to {
            Empties::Gutter(name) => name.clone(),
            _ => told(&downspout.to),
        };
        let away = distance(reached, p);
        match to {
            _ if height >= from => Err(uphill(gutter, downspout, &named)),
            _ if away > FAR => Err(far(gutter, downspout, &named, &self.units.length(Length::from_m(away)))),
            to => Ok(to),
        }
    }
}

/// The point of a plane nearest to one in plan.
fn nearest_on(roof: &Roof, id: PlaneId, p: P2) -> P2 {
    let plane = roof.plane(id);
    let rings: Vec<Vec<P2>> = std::iter::once(&plane.outline)
        .chain(&plane.holes)
        .map(|ring| ring.iter().map(|q| flat(*q)).collect())
        .collect();
    let crossings =
        rings.iter().flat_map(|ring| edges(ring)).filter(|(a, b)| roof::plan::crosses_ray(*a, *b, p));
    if crossings.count() % 2 == 1 {
        return p;
    }
    let sides = rings.iter().flat_map(|ring| edges(ring)).map(|(a, b)| {
        let (off, part) = to_segment(p, a, b);
        (off, between(a, b, part))
    });
    sides.min_by(|a, b| a.0.total_cmp(&b.0)).map_or(p, |(_, at)| at)
}
