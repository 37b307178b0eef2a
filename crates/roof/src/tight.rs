//! Places where roofs, walls, windows and chimneys stand too close for a detail drawn along one line: a person should look.
//!
//! # Source
//! Each is a place where water gathers faster than it leaves and no hand reaches in, by common practice; the distances are in the books.

use book::{Book, LookupError};
use job::{Job, OpeningKind, Problem, State};
use measure::Length;

use crate::check::Told;
use crate::model::{Edge, EdgeId, EdgeKind, Node, NodeId, PlacedOpening, Roof, Window};
use crate::opening::top_plane;
use crate::plan::{P2, along, dot, flat, sub, to_segment, unit};

/// Walls that carry on up beside a roof.
const BESIDE: [EdgeKind; 2] = [EdgeKind::Sidewall, EdgeKind::Step];
/// Lines that gather the water of two planes.
const GATHERS: [EdgeKind; 2] = [EdgeKind::Valley, EdgeKind::LevelValley];

/// Valleys into walls, chimneys in valleys, pans between walls, corners of two roofs and a wall, sills too low.
pub(crate) fn warnings(roof: &Roof, job: &Job, books: &Book) -> Result<Vec<Problem>, Problem> {
    let rules = Rules::of(books, Told(job.units)).map_err(|lost| Problem::not_in_books(&lost))?;
    let mut all = valleys_at_walls(roof, &rules);
    all.extend(chimneys_in_valleys(roof, job));
    all.extend(pans(roof, &rules));
    all.extend(corners(roof));
    all.extend(low_sills(roof, job, &rules));
    Ok(all)
}

/// Distances of the trade.
struct Rules {
    /// How lengths are told.
    told: Told,
    throat: Length,
    membrane: Length,
    turn_up: Length,
    pan: Length,
    leg: Length,
    clear: Length,
}

impl Rules {
    fn of(books: &Book, told: Told) -> Result<Self, LookupError> {
        let length = |id: &str| books.rule(id)?.get();
        Ok(Self {
            told,
            throat: length("valley.throat.wall")?,
            membrane: length("dead-pocket.membrane")?,
            turn_up: length("dead-pocket.turn-up")?,
            pan: length("walls.pan-under")?,
            leg: length("sill.leg")?,
            clear: length("sill.clear")?,
        })
    }
}

impl Roof {
    /// The valley that an opening stands across, so that the water of two planes comes down on it.
    pub fn valley_under(&self, placed: &PlacedOpening) -> Option<EdgeId> {
        let gathers = |edge: EdgeId| GATHERS.contains(&self.edge(edge).kind);
        let crossed = placed.distances.iter().filter(|near| near.slope_from_rim <= Length::ZERO);
        crossed.map(|near| near.edge).find(|edge| gathers(*edge))
    }
}

fn all_edges<'r>(roof: &'r Roof, kinds: &'r [EdgeKind]) -> impl Iterator<Item = (EdgeId, &'r Edge)> + Clone {
    let edges = roof.edges.iter().enumerate().map(|(i, edge)| (EdgeId(i), edge));
    edges.filter(|(_, edge)| kinds.contains(&edge.kind))
}

/// Valleys whose foot is no further from a wall than the trade keeps it. Not the cheeks of a dormer whose own roof makes the valley:
/// there the water runs on along the cheek.
fn valleys_at_walls(roof: &Roof, rules: &Rules) -> Vec<Problem> {
    let valleys = all_edges(roof, &GATHERS);
    valleys.filter_map(|(id, valley)| valley_at_wall(roof, rules, id, valley)).collect()
}

fn valley_at_wall(roof: &Roof, rules: &Rules, id: EdgeId, valley: &Edge) -> Option<Problem> {
    let foot = flat(roof.node(valley.from).at);
    let planes = || valley.planes.iter().map(|plane| roof.plane(*plane));
    let is_own = |block: &String| planes().any(|plane| plane.blocks.contains(block));
    let walls = planes().flat_map(|plane| &plane.edges).map(|wall| (*wall, roof.edge(*wall)));
    let others = walls.filter(|(_, wall)| wall.kind.is_wall() && !wall.wall_of.as_ref().is_some_and(is_own));
    let away = |wall: EdgeId| {
        let [a, b] = roof.ends(wall).map(flat);
        to_segment(foot, a, b).0
    };
    let near = others.map(|(wall, _)| (wall, away(wall))).min_by(|a, b| a.1.total_cmp(&b.1))?;
    let (wall, gap) = near;
    if gap >= rules.throat.m() {
        return None;
    }
    let [number, at] = [id, wall].map(EdgeId::number);
    let of = roof.edge(wall).wall_of.as_deref().unwrap_or("the house");
    let message = format!(
        "the valley of edge {number} ends {} from the wall of `{of}` (edge {at}): its stream runs against the siding",
        rules.told.length(gap)
    );
    let mend = format!(
        "line the pocket as a dead valley: membrane on all of it and {} beyond, a wide metal pan turned {} up the wall, a kick-out sized for \
         the stream and a gutter outlet close by; or frame a cricket that moves the valley's end {} or more off the wall, which a framer decides",
        rules.told.length(rules.membrane.m()),
        rules.told.length(rules.turn_up.m()),
        rules.told.length(rules.throat.m())
    );
    Some(Problem::warning("valley-at-wall", message, mend))
}

/// Chimneys that stand across a valley, which a cricket on one plane does not keep dry.
fn chimneys_in_valleys(roof: &Roof, job: &Job) -> Vec<Problem> {
    let chimneys = job.openings.iter().filter(|opening| opening.kind == OpeningKind::Chimney);
    let stays = chimneys.filter(|chimney| chimney.state != State::Remove);
    let problem = |chimney: &job::Opening| {
        let placed = roof.openings.iter().find(|placed| placed.name == chimney.name)?;
        let valley = roof.valley_under(placed)?;
        let message = format!(
            "chimney `{}` stands in the valley of edge {}: the water of two planes comes down on it",
            chimney.name,
            valley.number()
        );
        let mend = "a cricket up the valley that parts it to both sides, its height from both planes (not half the width times one pitch), membrane \
                    all round, soldered metal: a mason and a sheet-metal shop decide; a chimney out of use is better taken down below the deck";
        Some(Problem::warning("chimney-in-valley", message, mend).at(chimney.at_span.clone(), "this chimney"))
    };
    stays.filter_map(problem).collect()
}

/// Strips of roof between two walls too close for shingles to be laid and reached.
fn pans(roof: &Roof, rules: &Rules) -> Vec<Problem> {
    let walls: Vec<(EdgeId, &Edge)> = all_edges(roof, &BESIDE).collect();
    let mut all = Vec::new();
    for (i, (one, edge)) in walls.iter().enumerate() {
        for (other, beside) in walls[i + 1..].iter().filter(|(_, beside)| beside.planes == edge.planes) {
            let gap = between(roof, *one, *other).filter(|gap| *gap < rules.pan.m());
            all.extend(gap.map(|gap| pan(roof, [(*one, edge), (*other, beside)], &rules.told.length(gap))));
        }
    }
    all
}

/// How far apart two walls along the fall stand, where the plane they bound lies between them.
fn between(roof: &Roof, one: EdgeId, other: EdgeId) -> Option<f64> {
    let [a, b] = roof.ends(one).map(flat);
    let direction = unit(a, b);
    let across: P2 = [-direction[1], direction[0]];
    let reach = |edge: EdgeId| {
        let [p, q] = roof.ends(edge).map(|p| dot(sub(flat(p), a), direction));
        [p.min(q), p.max(q)]
    };
    let ([from, to], [start, end]) = (reach(one), reach(other));
    let (low, high) = (from.max(start), to.min(end));
    let gap = dot(sub(flat(roof.ends(other)[0]), a), across);
    let middle = along(along(a, direction, 0.5 * (low + high)), across, 0.5 * gap);
    let plane = *roof.edge(one).planes.first()?;
    (high > low && top_plane(roof, middle) == Some(plane)).then_some(gap.abs())
}

fn pan(roof: &Roof, walls: [(EdgeId, &Edge); 2], gap: &str) -> Problem {
    let [one, other] = walls.map(|(id, _)| id.number());
    let plane = walls[0].1.planes.first().map_or("", |plane| &roof.plane(*plane).name);
    let message = format!(
        "between edge {one} and edge {other} the walls leave {gap} of plane `{plane}`: too narrow for shingles, and snow stays in it"
    );
    let mend = "no shingles there: one metal pan from wall to wall on membrane turned up both, over the shingles below it; leave a way to reach and \
                clear it, and let an engineer judge the snow it traps";
    Problem::warning("walls-close", message, mend)
}

/// Corners where two roofs and a wall come together.
fn corners(roof: &Roof) -> Vec<Problem> {
    let nodes = (0..roof.nodes.len()).map(NodeId);
    nodes.filter_map(|id| corner(roof, id, roof.node(id))).collect()
}

fn corner(roof: &Roof, id: NodeId, node: &Node) -> Option<Problem> {
    let comes_down = |edge: &EdgeId| GATHERS.contains(&roof.edge(*edge).kind) && roof.edge(*edge).from == id;
    let valley = node.edges.iter().find(|edge| comes_down(edge))?;
    let walls: Vec<EdgeId> =
        node.edges.iter().copied().filter(|edge| roof.edge(*edge).kind.is_wall()).collect();
    let [one, other, ..] = walls[..] else { return None };
    let [valley, one, other] = [*valley, one, other].map(EdgeId::number);
    let message = format!(
        "the valley of edge {valley} comes down in a corner of walls (edges {one} and {other}): flat pieces leave a hole where the three lines meet"
    );
    let mend = "a corner pan soldered or welded before it is brought up; laid in this order: a patch of membrane in the corner, the membranes over it, \
                the pan, then the steps";
    Some(Problem::warning("three-way-corner", message, mend))
}

/// Windows whose sill leaves too little height for the flashing's leg behind the siding.
fn low_sills(roof: &Roof, job: &Job, rules: &Rules) -> Vec<Problem> {
    let least = rules.leg + rules.clear;
    let low = roof.windows.iter().filter(|window| window.sill < least);
    let problem = |window: &Window| {
        let written = job.windows.iter().find(|written| written.name == window.name)?;
        let message = format!(
            "window `{}` has its sill {} above the roof of edge {}: the leg of the flashing ({}) and {} clear of the sill need {}, more where \
             snow drifts against the wall",
            window.name,
            rules.told.length(window.sill.m()),
            window.edge.number(),
            rules.told.length(rules.leg.m()),
            rules.told.length(rules.clear.m()),
            rules.told.length(least.m())
        );
        let mend = "the leg is not cut shorter: run it up under the sill pan, membrane turned up into the pan and the pan's ends dammed; or raise the sill \
                    or put in a shorter window; or lower the roof's top to a membrane roof of 1/4 in 12 or more, which a framer decides";
        Some(Problem::warning("low-sill", message, mend).at(written.name_span.clone(), "this window"))
    };
    low.filter_map(problem).collect()
}
