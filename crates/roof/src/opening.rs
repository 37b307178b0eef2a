//! Openings on their planes, and crickets behind wide ones.
//!
//! An opening belongs to the plane that is on top at its plan position. Things that stand upright (chimney, pipe, hood) are sized in
//! plan along the slope, things that lie in the roof (skylight, daylight tube, vents) on the slope.
//!
//! # Source
//! Cricket on the ridge side of what is wider than the adopted code's limit: IRC R903.2.2, the width being in the books. Its height
//! makes its slope that of the roof unless the job says otherwise: IRC Table R1003.20, whose rows all equal half the width
//! times the slope (12/12 row published, others from memory).

use book::Book;
use job::{Cricket as Wish, FramingKind, Job, Opening, OpeningKind, Problem, State};
use measure::{Area, Length, Pitch};

use crate::check::Told;
use crate::model::{Cricket, EdgeDistance, EdgeId, PlacedOpening, Plane, PlaneId, Point3, Roof};
use crate::overlap;
use crate::plan::{P2, along, contains, dot, edges, flat, segments_cross, to_segment};

/// Thickness of a dressed 2x member, inches (American Softwood Lumber Standard PS 20).
const CHORD: f64 = 1.5;

/// Places every opening of the job on the roof and adds crickets; problems where one does not fit.
pub(crate) fn place(roof: &mut Roof, job: &Job, books: &Book) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    let mut on_roof: Vec<&Opening> = Vec::new();
    let cricket_over = books.edition(&job.site.code).ok().map(|e| *e.cricket.wider_than);
    for opening in &job.openings {
        let Some(plane) = top_plane(roof, opening.at) else {
            problems.push(off_roof(opening, Told(job.units)));
            continue;
        };
        let placed = placed(roof, plane, opening);
        problems.extend(crossing(roof, opening, &placed));
        problems.extend(cuts_truss(roof.plane(plane), opening, job));
        let wide = cricket_over.is_some_and(|limit| needs_cricket(opening, limit));
        if let Some(cricket) = cricket(roof.plane(plane), opening, &placed, roof.openings.len(), wide) {
            roof.warnings.extend(cricket_off_plane(roof, plane, opening, &cricket));
            roof.crickets.push(cricket);
        }
        roof.openings.push(placed);
        on_roof.push(opening);
    }
    problems.extend(overlap::errors(roof, &on_roof));
    let (errors, warnings): (Vec<_>, Vec<_>) = problems.into_iter().partition(Problem::is_error);
    roof.warnings.extend(warnings);
    if errors.is_empty() { Ok(()) } else { Err(errors) }
}

/// The highest plane over a plan point.
pub(crate) fn top_plane(roof: &Roof, p: P2) -> Option<PlaneId> {
    let over = (0..roof.planes.len()).map(PlaneId).filter(|id| covers(roof.plane(*id), p));
    over.max_by(|a, b| roof.plane(*a).height_at(p).total_cmp(&roof.plane(*b).height_at(p)))
}

fn covers(plane: &Plane, p: P2) -> bool {
    let in_plan = |ring: &[Point3]| ring.iter().map(|q| flat(*q)).collect::<Vec<P2>>();
    contains(&in_plan(&plane.outline), p) && !plane.holes.iter().any(|h| contains(&in_plan(h), p))
}

/// Whether the thing stands upright, so that its size along the slope is a plan size.
fn is_upright(kind: OpeningKind) -> bool {
    matches!(kind, OpeningKind::Chimney | OpeningKind::Pipe | OpeningKind::Hood)
}

/// Fall of a plane and the direction across it; a level plane is taken to fall south.
fn axes(plane: &Plane) -> (P2, P2) {
    let fall = match plane.fall() {
        [0.0, 0.0] => [0.0, -1.0],
        fall => fall,
    };
    (fall, [-fall[1], fall[0]])
}

fn on_plane(plane: &Plane, p: P2) -> Point3 {
    [p[0], p[1], plane.height_at(p)]
}

fn placed(roof: &Roof, id: PlaneId, opening: &Opening) -> PlacedOpening {
    let plane = roof.plane(id);
    let (fall, across) = axes(plane);
    let factor = if is_upright(opening.kind) { 1.0 } else { plane.pitch.slope_factor() };
    let (w, h) = (0.5 * opening.across.m(), 0.5 * opening.along.m() / factor);
    let corner =
        |down: f64, over: f64| on_plane(plane, along(along(opening.at, fall, down * h), across, over * w));
    let rim = [corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0), corner(-1.0, -1.0)];
    let mut distances: Vec<EdgeDistance> =
        plane.edges.iter().map(|&e| edge_distance(roof, plane, e, opening.at, &rim)).collect();
    distances.sort_by(|a, b| a.plan_from_centre.m().total_cmp(&b.plan_from_centre.m()));
    PlacedOpening {
        name: opening.name.clone(),
        kind: opening.kind,
        state: opening.state,
        plane: id,
        at: on_plane(plane, opening.at),
        rim,
        distances,
    }
}

fn edge_distance(roof: &Roof, plane: &Plane, edge: EdgeId, centre: P2, rim: &[Point3; 4]) -> EdgeDistance {
    let [a, b] = roof.ends(edge).map(flat);
    let (fall, across) = axes(plane);
    let flat = |p: P2| [dot(p, across), dot(p, fall) * plane.pitch.slope_factor()];
    let rim: Vec<P2> = rim.iter().map(|p| flat([p[0], p[1]])).collect();
    EdgeDistance {
        edge,
        plan_from_centre: Length::from_m(to_segment(centre, a, b).0),
        slope_from_rim: Length::from_m(ring_to_segment(&rim, flat(a), flat(b))),
    }
}

/// Distance from a convex ring to a segment, zero when they touch.
fn ring_to_segment(ring: &[P2], a: P2, b: P2) -> f64 {
    if contains(ring, a) || edges(ring).any(|(p, q)| segments_cross(p, q, a, b)) {
        return 0.0;
    }
    let from_ring = ring.iter().map(|p| to_segment(*p, a, b).0);
    let from_ends = edges(ring).flat_map(|(p, q)| [to_segment(a, p, q).0, to_segment(b, p, q).0]);
    from_ring.chain(from_ends).fold(f64::INFINITY, f64::min)
}

fn off_roof(opening: &Opening, told: Told) -> Problem {
    let [x, y] = opening.at.map(|metres| told.length(metres));
    let message = format!("opening `{}` at {x} east, {y} north is off the roof", opening.name);
    Problem::error(
        "opening-off-roof",
        message,
        "check its `at`: plan x to the east, y to the north, from the job's origin",
    )
    .at(opening.at_span.clone(), "no roof plane here")
}

/// The first edge an opening crosses, as a problem: an error, but only a warning for a chimney or for what is to be removed.
fn crossing(roof: &Roof, opening: &Opening, placed: &PlacedOpening) -> Option<Problem> {
    let crossed = placed.distances.iter().find(|d| d.slope_from_rim.m() <= 0.0)?;
    let edge = roof.edge(crossed.edge);
    let planes: Vec<&str> = edge.planes.iter().map(|p| roof.plane(*p).name.as_str()).collect();
    let message = format!(
        "opening `{}` on plane `{}` crosses the {} of {} (edge {})",
        opening.name,
        roof.plane(placed.plane).name,
        edge.kind.name(),
        planes.join(" and "),
        crossed.edge.number()
    );
    let mend = "move it clear of the edge, or check its `at` and `size`";
    let may_stand = opening.state == State::Remove || opening.kind == OpeningKind::Chimney;
    let problem = if may_stand {
        Problem::warning("opening-crosses-edge", message, mend)
    } else {
        Problem::error("opening-crosses-edge", message, mend)
    };
    Some(problem.at(opening.at_span.clone(), "centre of the opening"))
}

/// What comes and is wider than the bay between two trusses: no truss is cut.
fn cuts_truss(plane: &Plane, opening: &Opening, job: &Job) -> Option<Problem> {
    let blocks = job.blocks.iter().filter(|block| plane.blocks.contains(&block.name));
    let framings = blocks.filter_map(|block| Some((block, block.framing.as_ref()?)));
    let trusses =
        framings.filter(|(_, f)| f.kind.as_ref().is_some_and(|kind| kind.value == FramingKind::Truss));
    let bays =
        trusses.filter_map(|(block, f)| Some((block, f.spacing.as_ref()?.value - Length::from_in(CHORD))));
    let (block, bay) = bays.min_by(|a, b| a.1.m().total_cmp(&b.1.m()))?;
    (opening.state == State::Plan && opening.across > bay).then(|| {
        let [across, bay] = [opening.across, bay].map(|length| job.units.length(length));
        let message = format!(
            "opening `{}` is {across} across, more than the {bay} between the trusses of block `{}`: it would cut a truss",
            opening.name, block.name
        );
        let mend = "no part of a truss is cut: choose one that fits between two, or ask an engineer for a repair design first";
        Problem::error("opening-cuts-truss", message, mend).at(opening.at_span.clone(), "this opening")
    })
}

fn needs_cricket(opening: &Opening, limit: Length) -> bool {
    let kinds = [OpeningKind::Chimney, OpeningKind::Pipe, OpeningKind::Hood];
    kinds.contains(&opening.kind) && opening.across > limit
}

fn cricket(
    plane: &Plane,
    opening: &Opening,
    placed: &PlacedOpening,
    index: usize,
    wide: bool,
) -> Option<Cricket> {
    let slope = match opening.cricket {
        _ if opening.state == State::Remove => return None,
        Wish::ByCode if wide => plane.pitch.slope(),
        Wish::Built(pitch) => pitch.map_or(plane.pitch.slope(), Pitch::slope),
        Wish::None | Wish::ByCode => return None,
    };
    if plane.pitch.slope() <= 0.0 || slope <= 0.0 {
        return None;
    }
    let (fall, across) = axes(plane);
    let half = 0.5 * opening.across.m();
    let (height, run) = (half * slope, half * slope / plane.pitch.slope());
    let [low, other] = [placed.rim[3], placed.rim[2]];
    let back = along([low[0], low[1]], across, half);
    let z = plane.height_at(back) + height;
    let top = [back[0], back[1], z];
    let end_at = along(back, fall, -run);
    let end = [end_at[0], end_at[1], z];
    Some(Cricket {
        opening: index,
        planes: [[low, top, end], [other, top, end]],
        slope_area: Area::from_m2(half * run * slope.hypot(1.0)),
        height: Length::from_m(height),
        ridge: Length::from_m(run),
        valley: Length::from_m(half.hypot(run).hypot(height)),
        pitch: Pitch::from_slope(slope),
    })
}

fn cricket_off_plane(roof: &Roof, plane: PlaneId, opening: &Opening, cricket: &Cricket) -> Option<Problem> {
    let end = cricket.planes[0][2];
    let fits = top_plane(roof, [end[0], end[1]]) == Some(plane);
    (!fits).then(|| {
        let message = format!(
            "the cricket behind `{}` would run past the edge of plane `{}`",
            opening.name,
            roof.plane(plane).name
        );
        Problem::warning(
            "cricket-off-plane",
            message,
            "give it a lower pitch, or have it drawn by hand where planes meet",
        )
        .at(opening.at_span.clone(), "this opening")
    })
}
