//! Windows above the roofs that meet their walls.

use job::{Problem, Window as Written};
use measure::Length;

use crate::check::trade;
use crate::contact::TOUCH;
use crate::model::{EdgeId, Roof, Wall, Window};
use crate::plan::{P2, along, counts_along, dot, flat, sub, unit};

/// Places every window on the wall edges below it; problems where there is none.
pub(crate) fn place(roof: &Roof, windows: &[Written]) -> Result<Vec<Window>, Vec<Problem>> {
    let (mut placed, mut problems) = (Vec::new(), Vec::new());
    for window in windows {
        match parts(roof, window) {
            Ok(parts) => placed.extend(parts),
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(placed) } else { Err(problems) }
}

fn parts(roof: &Roof, window: &Written) -> Result<Vec<Window>, Problem> {
    let (block, side) = &window.wall;
    let wall = roof.wall(block, *side).ok_or_else(|| over_no_roof(window))?;
    let (first, run, length) = from_west_or_south(wall);
    let [from, to] = [window.at.m(), (window.at + window.width).m()];
    if to > length + TOUCH {
        return Err(off_wall(window, length));
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
    let nearest: Vec<Window> = parts.into_iter().filter(|part| top(part) > highest - TOUCH).collect();
    if nearest.is_empty() { Err(over_no_roof(window)) } else { Ok(nearest) }
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

fn off_wall(window: &Written, length: f64) -> Problem {
    let message = format!(
        "window `{}` reaches {} along a wall of {}",
        window.name,
        trade((window.at + window.width).m()),
        trade(length)
    );
    let mend = "measure `at` from the wall's west end to the frame, from its south end where it runs north";
    Problem::error("window-off-wall", message, mend).at(window.name_span.clone(), "this window")
}

fn over_no_roof(window: &Written) -> Problem {
    let (block, side) = &window.wall;
    let message = format!("no roof meets the wall `{block} {side}` below window `{}`", window.name);
    let mend = "write only windows that stand above a roof; check its wall and how far along that it is";
    Problem::error("window-over-no-roof", message, mend).at(window.name_span.clone(), "this window")
}
