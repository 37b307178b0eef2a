//! Down a plane: from any point or line on it to the border at the foot of the fall.
//!
//! A plane is cut into lanes, columns along the fall with one border at the foot and one at the head; openings cut lanes like holes.

use roof::column::{Axes, Border, Column, borders, parted};
use roof::plan::{P2, distance, flat, line_crossing, segments_cross, sub};
use roof::{EdgeId, EdgeKind, Plane, Roof};

use crate::packet::{Flow, Line, SHORT, Stream};

/// What ends the way down a plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stop {
    /// An edge of the plane.
    Edge(EdgeId),
    /// The uphill side of an opening.
    Opening(usize),
    /// The downhill side of an opening, from on it: the way goes on below.
    LowSide,
}

/// A point this little above a border is on it, metres.
const ON_BORDER: f64 = 2e-6;

/// A column in the plane's own axes: heights at its two sides.
#[derive(Clone, Copy, Debug)]
struct Lane {
    across: [f64; 2],
    foot: [f64; 2],
    head: [f64; 2],
    foot_on: Stop,
    /// Which of two borders that end in one point a drop on their point goes to: the lesser.
    rank: usize,
}

/// One plane, ready for water. A level plane has no lanes, nor has one that openings cover.
#[derive(Clone, Debug)]
pub(crate) struct Descent {
    axes: Axes,
    lanes: Vec<Lane>,
    /// What openings cover of the plane: past its borders rain on them is none of its own.
    covered: Vec<Lane>,
}

impl Descent {
    /// Of a plane with the openings on it, each by its index.
    pub(crate) fn of(roof: &Roof, plane: &Plane, openings: &[usize]) -> Self {
        let axes = Axes::of(plane);
        let mut around: Vec<Border<Stop>> = borders(roof, plane)
            .into_iter()
            .map(|b| Border { ends: b.ends, label: Stop::Edge(b.label) })
            .collect();
        for &i in openings {
            let rim = roof.openings[i].rim.map(flat);
            around
                .extend((0..4).map(|k| Border { ends: [rim[k], rim[(k + 1) % 4]], label: Stop::Opening(i) }));
        }
        let within =
            |below: &[Stop], is: &dyn Fn(&Stop) -> bool| below.iter().filter(|s| is(s)).count() % 2 == 1;
        let owner = |below: &[Stop]| {
            let over = |i: &&usize| within(below, &|stop| *stop == Stop::Opening(**i));
            let on_plane = within(below, &|stop| matches!(stop, Stop::Edge(_)));
            on_plane.then(|| openings.iter().find(over).is_some())
        };
        let (covered, lanes): (Vec<_>, Vec<_>) =
            parted(&axes, &around, &crossings(&around), owner).into_iter().partition(|(_, covered)| *covered);
        let [lanes, mut covered]: [Vec<Lane>; 2] =
            [lanes, covered].map(|all| all.iter().map(|(column, _)| lane(roof, &axes, column)).collect());
        for lane in &mut covered {
            if matches!(lane.foot_on, Stop::Opening(_)) {
                lane.foot_on = Stop::LowSide;
            }
        }
        Self { axes, lanes, covered }
    }

    /// Whether water on it has nowhere to run.
    pub(crate) fn is_level(&self) -> bool {
        self.lanes.is_empty()
    }

    /// Whether the plane falls.
    pub(crate) fn falls(&self) -> bool {
        self.axes.up.iter().any(|part| part.abs() > 0.0)
    }

    /// Whether an opening is over a point.
    pub(crate) fn is_covered(&self, p: P2) -> bool {
        self.covered.iter().any(|lane| lane.off(self.local(p)) <= 0.0)
    }

    /// A point as distances across the fall and against it.
    pub(crate) fn local(&self, p: P2) -> P2 {
        self.axes.local(p)
    }

    /// The rain on every lane, as it comes to the foot: also what falls on openings, as it comes to their low sides, or to an edge where
    /// they lie over one.
    pub(crate) fn rain(&self) -> impl Iterator<Item = (Stop, Flow)> + '_ {
        self.all_lanes().map(|lane| {
            let width = lane.across[1] - lane.across[0];
            let ends = [0, 1].map(|k| self.axes.plan([lane.across[k], lane.foot[k]]));
            let length = distance(ends[0], ends[1]);
            let per_m = [0, 1].map(|k| (lane.head[k] - lane.foot[k]) * width / length);
            (lane.foot_on, Flow::Line(Line { ends, per_m }))
        })
    }

    /// Where water on the plane comes to.
    pub(crate) fn down(&self, flow: &Flow) -> Vec<(Stop, Flow)> {
        match flow {
            Flow::Stream(s) => {
                let (stop, at) = self.foot_below(s.at);
                vec![(stop, Flow::Stream(Stream { at, amount: s.amount }))]
            }
            Flow::Line(line) => self.line_down(line),
        }
    }

    fn line_down(&self, line: &Line) -> Vec<(Stop, Flow)> {
        let [from, to] = line.ends.map(|p| self.local(p)[0]);
        if (to - from).abs() < SHORT {
            return self.down(&Flow::Stream(Stream { at: line.middle(), amount: line.amount() }));
        }
        let mut cuts: Vec<f64> =
            self.all_lanes().flat_map(|l| l.across).map(|s| (s - from) / (to - from)).collect();
        cuts.retain(|t| *t > 0.0 && *t < 1.0);
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        cuts.windows(2).map(|w| self.piece_down(&line.part(w[0], w[1]))).collect()
    }

    fn piece_down(&self, piece: &Line) -> (Stop, Flow) {
        let lane = self.lane_at(piece.middle());
        let ends = piece.ends.map(|p| self.axes.plan(lane.foot_at(self.local(p)[0])));
        (lane.foot_on, Flow::along(piece.carried_to(ends), piece.amount()))
    }

    /// The border straight down the fall from a point, and where on it.
    pub(crate) fn foot_below(&self, p: P2) -> (Stop, P2) {
        let lane = self.lane_at(p);
        (lane.foot_on, self.axes.plan(lane.foot_at(self.local(p)[0])))
    }

    fn all_lanes(&self) -> impl Iterator<Item = &Lane> {
        self.lanes.iter().chain(&self.covered)
    }

    /// The lane a point is in: on a border between two, the lower one; between two side by side, the one that stops it sooner; nearest
    /// where rounding put it beside the plane.
    fn lane_at(&self, p: P2) -> &Lane {
        let local = self.local(p);
        let choice = |l: &Lane| {
            let off = l.off(local);
            let at = local[0].clamp(l.across[0], l.across[1]);
            (steps(off.max(ASIDE)), -steps(l.foot_at(at)[1]), l.rank)
        };
        self.all_lanes().min_by_key(|l| choice(l)).expect("a plane with a fall has lanes")
    }
}

/// Two lanes are both at hand within this distance, metres.
const ASIDE: f64 = 1e-6;

/// A distance in whole micrometres, so that rounding does not order what is equal.
#[expect(clippy::cast_possible_truncation, reason = "saturates far outside any house")]
pub(crate) fn steps(x: f64) -> i64 {
    (x / ASIDE).round() as i64
}

impl Lane {
    fn part(&self, s: f64) -> f64 {
        (s - self.across[0]) / (self.across[1] - self.across[0])
    }

    /// How far a point is outside.
    fn off(&self, [s, up]: P2) -> f64 {
        let beside = (self.across[0] - s).max(s - self.across[1]).max(0.0);
        let at = s.clamp(self.across[0], self.across[1]);
        let above = (self.foot_at(at)[1] + ON_BORDER - up).max(up - self.head_at(at) - ON_BORDER).max(0.0);
        beside + above
    }

    fn foot_at(&self, s: f64) -> P2 {
        [s, self.foot[0] + (self.foot[1] - self.foot[0]) * self.part(s)]
    }

    fn head_at(&self, s: f64) -> f64 {
        self.head[0] + (self.head[1] - self.head[0]) * self.part(s)
    }
}

/// Where openings lie over edges or over one another.
fn crossings(borders: &[Border<Stop>]) -> Vec<P2> {
    let openings = borders.iter().filter(|b| matches!(b.label, Stop::Opening(_)));
    let with = |b: &Border<Stop>| {
        let ([p, q], label) = (b.ends, b.label);
        let others = borders.iter().filter(move |other| other.label != label).map(|other| other.ends);
        let crossed = others.filter(move |[a, b]| segments_cross(p, q, *a, *b));
        crossed.filter_map(move |[a, b]| line_crossing(p, sub(q, p), a, sub(b, a))).collect::<Vec<P2>>()
    };
    openings.flat_map(with).collect()
}

fn lane(roof: &Roof, axes: &Axes, column: &Column<Stop>) -> Lane {
    let [a, b, c, d] = column.quad.map(|p| axes.local(p));
    let rank = match column.foot {
        Stop::Opening(_) | Stop::LowSide => 0,
        Stop::Edge(id) => 1 + EdgeKind::ALL.iter().position(|k| *k == roof.edge(id).kind).unwrap_or_default(),
    };
    Lane { across: [a[0], b[0]], foot: [a[1], b[1]], head: [d[1], c[1]], foot_on: column.foot, rank }
}
