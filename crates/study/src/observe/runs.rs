//! The runs a person taped along the walls, as observations.
//!
//! # Method
//! A rectangle gives two runs, its size along its x and along its y; an outline those of its edges, one after the other, and one
//! to each hole. A run is left out where the ones before it already join the two lines it goes between: the last edge of
//! an outline follows from the rest. A block whose walls all stand clear of the lines of the blocks before it gives the run
//! from the datum to its first corner as well.

use std::collections::BTreeSet;

use job::{Block, Side};

use super::{Equation, Observation, Origin};
use crate::network::{Network, Station};
use crate::value::Value;

/// A wall line: an unknown, or none for the datum.
type Line = Option<usize>;
/// A corner of a block: contour and number in it.
type At = (usize, usize);

const AXES: [&str; 2] = ["x", "y"];

/// Runs between the wall lines of all blocks that move by their lines.
pub(super) fn observations(blocks: &[Block], network: &Network, tape: Value) -> Vec<Observation> {
    let mut runs = Vec::new();
    let mut known = [BTreeSet::new(), BTreeSet::new()];
    let mut datum = None;
    for block in blocks.iter().filter(|block| network.holds(block)) {
        let mut taped = Taped { block, stations: network.stations(block), tape, runs: &mut runs };
        let Some(&first) = taped.stations.iter().flatten().next() else { continue };
        let datum = datum.get_or_insert(first);
        for (axis, known) in known.iter_mut().enumerate() {
            let lines = taped.lines(axis);
            if known.is_disjoint(&lines) && !known.is_empty() {
                let name = format!("place of {} along the house's {}", block.name, AXES[axis]);
                taped.run(axis, [*datum, first], name);
            }
            taped.sizes(axis);
            known.extend(lines);
        }
    }
    runs
}

/// Takes down the runs of one block.
struct Taped<'a> {
    block: &'a Block,
    stations: Vec<Vec<Station>>,
    tape: Value,
    runs: &'a mut Vec<Observation>,
}

impl Taped<'_> {
    fn lines(&self, axis: usize) -> BTreeSet<Line> {
        self.stations.iter().flatten().map(|station| station.lines[axis].unknown()).collect()
    }

    /// The runs of the block's edges, as far as each joins lines the ones before do not.
    fn sizes(&mut self, axis: usize) {
        let mut joined = Joined::default();
        for (from, to) in self.steps() {
            let ends = [from, to].map(|(contour, corner)| self.stations[contour][corner]);
            let [a, b] = ends.map(|station| station.lines[axis].unknown());
            if joined.join(a, b) {
                let name = self.name(axis, from, to);
                self.run(axis, ends, name);
            }
        }
    }

    /// Edge by edge round each contour; from the first corner of the outline to that of each hole.
    fn steps(&self) -> Vec<(At, At)> {
        let counts: Vec<usize> = self.stations.iter().map(Vec::len).collect();
        let round = counts.iter().enumerate().flat_map(|(contour, count)| {
            (0..*count).map(move |corner| ((contour, corner), (contour, (corner + 1) % count)))
        });
        let holes = (1..counts.len()).map(|hole| ((0, 0), (hole, 0)));
        round.chain(holes).collect()
    }

    fn name(&self, axis: usize, (contour, corner): At, to: At) -> String {
        let block = &self.block.name;
        if to.0 != contour {
            return format!("place of hole {} of {block} along the house's {}", to.0, AXES[axis]);
        }
        match self.block.edges.get(contour).and_then(|edges| edges.get(corner)).map(|edge| edge.side) {
            Some(side @ Side::Edge { .. }) => format!("{side} of {block} along the house's {}", AXES[axis]),
            _ => format!("size of {block} along its {}", AXES[corner % 2]),
        }
    }

    fn run(&mut self, axis: usize, [from, to]: [Station; 2], name: String) {
        let forward = to.at[axis] >= from.at[axis];
        let [from, to] = if forward { [from, to] } else { [to, from] };
        self.runs.push(Observation {
            name,
            span: self.block.span.clone(),
            origin: Origin::Block,
            equation: Equation::Run([from.lines[axis], to.lines[axis]]),
            read: self.tape.with_si(to.at[axis] - from.at[axis]),
            spread: self.tape,
        });
    }
}

/// Sets of lines that runs join.
#[derive(Default)]
struct Joined(Vec<BTreeSet<Line>>);

impl Joined {
    /// Joins two lines; says whether they were not joined before.
    fn join(&mut self, a: Line, b: Line) -> bool {
        if a == b || self.0.iter().any(|set| set.contains(&a) && set.contains(&b)) {
            return false;
        }
        let mut both = BTreeSet::from([a, b]);
        self.0.retain(|set| {
            let touched = set.contains(&a) || set.contains(&b);
            if touched {
                both.extend(set);
            }
            !touched
        });
        self.0.push(both);
        true
    }
}

#[cfg(test)]
mod tests {
    use super::Joined;

    #[test]
    fn lines_joined_through_others_are_joined() {
        let mut joined = Joined::default();
        assert!(joined.join(Some(1), Some(2)) && joined.join(Some(3), None) && joined.join(Some(2), None));
        assert!(!joined.join(Some(1), Some(3)) && !joined.join(Some(1), Some(1)));
        assert!(joined.join(Some(4), Some(1)));
    }
}
