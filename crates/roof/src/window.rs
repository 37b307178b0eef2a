//! Windows above the roofs that meet their walls.

use job::{Problem, Window as Written};
use measure::Length;

use crate::check::Told;
use crate::contact::TOUCH;
use crate::model::{EdgeId, PlaneId, Roof, Wall, Window};
use crate::opening::top_plane;
use crate::plan::{P2, along, counts_along, dot, flat, midpoint, outward, sub, unit};

/// Places every window on the wall edges below it; problems where there is none.
pub(crate) fn place(roof: &Roof, windows: &[Written], told: Told) -> Result<Vec<Window>, Vec<Problem>> {
    let (mut placed, mut problems) = (Vec::new(), Vec::new());
    for (i, window) in windows.iter().enumerate() {
        match parts(roof, window, told) {
            Ok(parts) => placed.extend(parts),
            Err(problem) => problems.push(problem),
        }
        problems
            .extend(windows[..i].iter().find(|other| is_in(window, other)).map(|other| taken(window, other)));
    }
    if problems.is_empty() { Ok(placed) } else { Err(problems) }
}

fn parts(roof: &Roof, window: &Written, told: Told) -> Result<Vec<Window>, Problem> {
    let (block, side) = &window.wall;
    let wall = roof.wall(block, *side).ok_or_else(|| over_no_roof(window))?;
    let (first, run, length) = from_west_or_south(wall);
    let [from, to] = [window.at.m(), (window.at + window.width).m()];
    if to > length + TOUCH {
        return Err(off_wall(window, length, told));
    }
    let ends = [from, to].map(|at| along(first, run, at));
    let edges = roof
        .edges
        .iter()
        .enumerate()
        .filter(|(_, edge)| edge.kind.is_wall() && edge.wall_of.as_ref() == Some(block));
    let parts: Vec<Window> = edges.filter_map(|(id, _)| above(roof, window, EdgeId(id), ends)).collect();
    // the sill was measured where a roof comes nearest: from the highest below it
    let top = |part: &Window| {
        part.span.map(|at| height_on(roof, part.edge, at)).into_iter().fold(f64::MIN, f64::max)
    };
    let highest = parts.iter().map(top).fold(f64::MIN, f64::max);
    if let Some(above) = above_wall(roof, wall, ends, highest + window.sill.m()).filter(|_| !parts.is_empty())
    {
        return Err(over_wall(window, &told.length(above)));
    }
    let nearest: Vec<Window> = parts.into_iter().filter(|part| top(part) > highest - TOUCH).collect();
    if nearest.is_empty() { Err(over_no_roof(window)) } else { Ok(nearest) }
}

/// The least height of a window, metres (12 in): of two sills closer than this, in one place, none is of a window over the other.
const LOWEST: f64 = 0.3048;

/// Whether two windows take the same place in a wall.
fn is_in(one: &Written, other: &Written) -> bool {
    let shared = (one.at + one.width).min(other.at + other.width) - one.at.max(other.at);
    one.wall == other.wall && shared.m() > TOUCH && (one.sill - other.sill).m().abs() < LOWEST
}

/// How far a height is over the top of a wall between two places on it: its plate, under a gable the roof; none where it is not.
fn above_wall(roof: &Roof, wall: &Wall, ends: [P2; 2], height: f64) -> Option<f64> {
    let out = outward(unit(ends[0], ends[1]));
    let on_wall = ends.into_iter().chain([midpoint(ends[0], ends[1])]);
    let of_block = |id: &PlaneId| roof.plane(*id).blocks.contains(&wall.block);
    let over = |p: P2| [TOUCH, -TOUCH].map(|by| top_plane(roof, along(p, out, by)).filter(of_block));
    let tops = on_wall.flat_map(|p| over(p).into_iter().flatten().map(move |id| roof.plane(id).height_at(p)));
    let above = height - tops.fold(wall.plate.m(), f64::max);
    (above > TOUCH).then_some(above)
}

/// The end a wall's places count from, its direction from there and its length.
fn from_west_or_south(wall: &Wall) -> (P2, P2, f64) {
    let run = unit(wall.from, wall.to);
    let length = dot(sub(wall.to, wall.from), run);
    if counts_along(run) { (wall.from, run, length) } else { (wall.to, run.map(|v| -v), length) }
}

/// The part of a window above an edge; none where the edge runs elsewhere.
fn above(roof: &Roof, window: &Written, id: EdgeId, ends: [P2; 2]) -> Option<Window> {
    let [a, b] = roof.ends(id).map(flat);
    let run = unit(a, b);
    let off = |p: P2| dot(sub(p, a), [-run[1], run[0]]).abs();
    if ends.iter().any(|end| off(*end) > 2.0 * TOUCH) {
        return None;
    }
    let [p, q] = ends.map(|end| dot(sub(end, a), run));
    let (from, to) = (p.min(q).max(0.0), p.max(q).min(roof.edge(id).plan_length.m()));
    (to - from > TOUCH).then(|| Window {
        name: window.name.clone(),
        edge: id,
        span: [from, to].map(Length::from_m),
        sill: window.sill,
    })
}

/// Height of an edge at a place along it.
fn height_on(roof: &Roof, id: EdgeId, at: Length) -> f64 {
    let [a, b] = roof.ends(id);
    a[2] + (b[2] - a[2]) * (at / roof.edge(id).plan_length)
}

fn off_wall(window: &Written, length: f64, told: Told) -> Problem {
    let message = format!(
        "window `{}` reaches {} along a wall of {}",
        window.name,
        told.length((window.at + window.width).m()),
        told.length(length)
    );
    let mend = "measure `at` from the wall's west end to the frame, from its south end where it runs north";
    Problem::error("window-off-wall", message, mend).at(window.name_span.clone(), "this window")
}

fn over_wall(window: &Written, over: &str) -> Problem {
    let (block, side) = &window.wall;
    let message =
        format!("window `{}` begins {over} above the top of the wall `{block} {side}`", window.name);
    let mend =
        "measure `sill` from the roof below up to the underside of the sill; check the plate of the wall";
    Problem::error("window-over-wall", message, mend).at(window.name_span.clone(), "this window")
}

fn taken(window: &Written, other: &Written) -> Problem {
    let message = format!("windows `{}` and `{}` overlap in their wall", other.name, window.name);
    let mend = "check `at` and `width` of both; write windows that stand close together as one";
    Problem::error("windows-overlap", message, mend)
        .at(window.name_span.clone(), "this window")
        .at(other.name_span.clone(), "and this one")
}

fn over_no_roof(window: &Written) -> Problem {
    let (block, side) = &window.wall;
    let message = format!("no roof meets the wall `{block} {side}` below window `{}`", window.name);
    let mend = "write only windows that stand above a roof; check its wall and how far along that it is";
    Problem::error("window-over-no-roof", message, mend).at(window.name_span.clone(), "this window")
}
