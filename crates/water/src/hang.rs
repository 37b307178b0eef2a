//! Gutters of the job on the eaves of the roof.
//!
//! A gutter hangs at one whole eave. Its places count from the first end of the eave's edge; the document counts from the west end, or
//! from the south end where the eave runs north.

use job::{Along, Empties, Gutter, PlaneName, Problem, Span, State, Units};
use measure::Length;
use roof::plan::{P2, between, counts_along, distance, dot, edges, flat, runs_north, sub, to_segment, unit};
use roof::{EdgeId, EdgeKind, PlaneId, Roof};

/// How much of an eave's run must go toward one of its ends by name: a fifth of the way round a quarter.
const TOWARD: f64 = 0.3;
/// A downspout read this far past the end of an eave stands at it, metres: 1/4 in, what walls of a tape survey may miss by.
const PAST: f64 = 0.006_35;
/// Further in plan than this no downspout leads to the gutter or roof it empties on, metres (20 ft): a slip of the pen.
const FAR: f64 = 6.096;

/// Index of a gutter among those that hang.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct GutterId(pub usize);

/// A downspout: its gutter, and which of the gutter's it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DownspoutId {
    /// The gutter.
    pub gutter: GutterId,
    /// Index among the gutter's downspouts.
    pub index: usize,
}

/// What can be blocked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// A whole gutter.
    Gutter(GutterId),
    /// One downspout.
    Downspout(DownspoutId),
}

/// A gutter at its eave.
#[derive(Clone, Debug, PartialEq)]
pub struct HungGutter {
    /// Its name in the job.
    pub name: String,
    /// The eave it hangs at.
    pub edge: EdgeId,
    /// Its id in the books.
    pub kind: String,
    /// Fall in each foot of its length.
    pub fall: Length,
    /// How far its end stops short of a wall the eave ends at.
    pub wall_gap: Length,
    /// Its downspouts.
    pub downspouts: Vec<HungDownspout>,
}

/// A downspout at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct HungDownspout {
    /// Its name in the job.
    pub name: String,
    /// Distance in plan from the first end of the eave's edge.
    pub at: Length,
    /// Its id in the books.
    pub size: String,
    /// Where its water goes.
    pub to: Discharge,
}

/// Where the water of a downspout goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Discharge {
    /// Onto the ground.
    Ground,
    /// Into a drain.
    Drain,
    /// Into a lower gutter, where that is nearest.
    Gutter(GutterId),
    /// Onto a lower roof.
    Roof {
        /// The plane.
        plane: PlaneId,
        /// Where on it.
        at: [f64; 2],
    },
}

impl DownspoutId {
    /// What of it or over it keeps water from it when it is blocked.
    pub const fn parts(self) -> [Part; 2] {
        [Part::Gutter(self.gutter), Part::Downspout(self)]
    }
}

impl Part {
    /// The gutter or downspout of that name.
    pub fn named(name: &str, gutters: &[HungGutter]) -> Option<Self> {
        gutters.iter().enumerate().find_map(|(g, hung)| {
            let gutter = GutterId(g);
            let of = |index: usize| Self::Downspout(DownspoutId { gutter, index });
            if hung.name == name {
                return Some(Self::Gutter(gutter));
            }
            hung.downspouts.iter().position(|d| d.name == name).map(of)
        })
    }
}

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

/// The planes that rise from a block and face the way a name says.
fn planes_named(roof: &Roof, name: &PlaneName) -> Vec<PlaneId> {
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

fn eave(roof: &Roof, gutter: &Gutter, units: Units) -> Result<EdgeId, Problem> {
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
fn place(roof: &Roof, edge: EdgeId, downspout: &job::Downspout, units: Units) -> Result<Length, Problem> {
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

fn told(to: &Empties) -> String {
    match to {
        Empties::Ground => "the ground".to_owned(),
        Empties::Drain => "a drain".to_owned(),
        Empties::Gutter(name) => name.clone(),
        Empties::Roof(plane) => plane.to_string(),
    }
}

fn no_eave(gutter: &Gutter) -> Problem {
    let message = format!("`{}` hangs at `{}`, which has no eave", gutter.name, gutter.eave);
    let mend =
        "name the plane whose low edge it hangs at: block and the way it faces, as `show roof` lists them";
    Problem::error("no-eave", message, mend).at(gutter.eave_span.clone(), "")
}

fn which_eave(roof: &Roof, gutter: &Gutter, eaves: &[EdgeId], units: Units) -> Problem {
    let count = eaves.len();
    let which = gutter.part.map_or_else(|| "an eave".to_owned(), |part| format!("eave {part}"));
    let message =
        format!("`{}` hangs at {which} of `{}`, which has {count} of them", gutter.name, gutter.eave);
    let lengths: Vec<String> = eaves.iter().map(|id| units.length(roof.edge(*id).length)).collect();
    let mend = format!(
        "write part = 1 to {count}, counted from the west, from the south where they run north: they are {} long",
        lengths.join(", ")
    );
    Problem::error("which-eave", message, mend).at(gutter.eave_span.clone(), "")
}

fn taken(gutter: &Gutter, other: &Gutter) -> Problem {
    let message = format!("`{}` hangs at the eave of `{}`", gutter.name, other.name);
    let mend = "write state = \"remove\" for the one that goes, or name another eave";
    Problem::error("eave-taken", message, mend)
        .at(gutter.eave_span.clone(), "")
        .at(other.eave_span.clone(), "the other one")
}

fn off_eave(downspout: &job::Downspout, at: Length, whole: Length, units: Units) -> Problem {
    let [at, whole] = [at, whole].map(|length| units.length(length));
    let message = format!("`{}` is at {at}, but its eave is {whole} long", downspout.name);
    problem_at(
        "off-eave",
        message,
        "measure along the eave, or write the name of its end",
        &downspout.at_span,
    )
}

fn no_end(roof: &Roof, edge: EdgeId, downspout: &job::Downspout) -> Problem {
    let [from, to] = roof.ends(edge).map(flat);
    let ends = if runs_north(unit(from, to)) { "south and north" } else { "west and east" };
    let message = format!("`{}` is at an end its eave does not have", downspout.name);
    problem_at("no-end", message, &format!("its ends are {ends}"), &downspout.at_span)
}

fn no_roof(gutter: &Gutter, downspout: &job::Downspout) -> Problem {
    let message = format!(
        "`{}` of `{}` empties on `{}`, of which nothing is to be seen",
        downspout.name,
        gutter.name,
        told(&downspout.to)
    );
    problem_at("empties-nowhere", message, "name a plane as `show roof` lists them", &downspout.to_span)
}

fn uphill(gutter: &Gutter, downspout: &job::Downspout, to: &str) -> Problem {
    let message =
        format!("`{}` of `{}` empties on `{to}`, which is not below it", downspout.name, gutter.name);
    problem_at(
        "empties-uphill",
        message,
        "name a lower gutter or roof, or `ground` or `drain`",
        &downspout.to_span,
    )
}

fn far(gutter: &Gutter, downspout: &job::Downspout, to: &str, away: &str) -> Problem {
    let message = format!("`{}` of `{}` empties on `{to}`, {away} away", downspout.name, gutter.name);
    let mend = "name the gutter or roof right below it; where a pipe leads that far, write `drain`, or `ground` if it ends there";
    problem_at("empties-far", message, mend, &downspout.to_span)
}

fn problem_at(code: &'static str, message: String, mend: &str, span: &Span) -> Problem {
    Problem::error(code, message, mend).at(span.clone(), "")
}
