//! From cells to planes and their borders.
//!
//! Connected cells that see the same plane are one piece of roof. Along each half-edge on the border of a piece the question is what ends
//! it there: another piece at the same height, a wall, another roof's overhang, or nothing. Half-edges that go straight on
//! with the same answer are one edge.

use std::collections::BTreeMap;

use crate::arrangement::{MERGE, twin};
use crate::plan::{P2, midpoint, to_segment};
use crate::sheet::Zone;
use crate::surface::Surface;

/// Two surfaces this close in height at a point meet there, metres. Merging points moves them by at most half a millimetre, on
/// slopes up to 24/12.
pub(crate) const MEETS: f64 = 0.003;

/// What ends a piece of roof along a border.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Beyond {
    /// Another piece at the same height.
    Piece(usize),
    /// A wall of that block.
    Wall(usize),
    /// The overhang of that block's roof.
    Overhang(usize),
    /// Nothing: a free edge.
    Nothing,
}

/// A straight run of half-edges on the border of a piece, all with the same answer.
#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) piece: usize,
    pub(crate) beyond: Beyond,
    pub(crate) half_edges: Vec<usize>,
}

/// A connected piece of one plane.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    pub(crate) group: usize,
    /// Blocks whose sheets it is made of, in document order.
    pub(crate) blocks: Vec<usize>,
    /// Closed borders as runs, the outer one first.
    pub(crate) borders: Vec<Vec<Run>>,
}

/// The pieces of a surface.
pub(crate) struct Pieces<'a> {
    surface: &'a Surface,
    /// Piece of each group seen in each cell.
    piece_of: BTreeMap<(usize, usize), usize>,
    pub(crate) all: Vec<Piece>,
}

impl<'a> Pieces<'a> {
    pub(crate) fn of(surface: &'a Surface) -> Self {
        let mut pieces = Self { surface, piece_of: BTreeMap::new(), all: Vec::new() };
        pieces.flood();
        for i in 0..pieces.all.len() {
            pieces.all[i].borders = pieces.borders(i);
        }
        pieces
    }

    /// Gives every cell's every seen group its piece.
    fn flood(&mut self) {
        let s = self.surface;
        let mut of_cell: Vec<Vec<usize>> = vec![Vec::new(); s.arrangement.cell_count()];
        for (h, e) in s.arrangement.half_edges.iter().enumerate() {
            of_cell[e.cell].push(h);
        }
        for cell in 1..s.arrangement.cell_count() {
            for &group in &s.seen[cell] {
                if !self.piece_of.contains_key(&(cell, group)) {
                    self.flood_from(cell, group, &of_cell);
                }
            }
        }
    }

    fn flood_from(&mut self, cell: usize, group: usize, of_cell: &[Vec<usize>]) {
        let s = self.surface;
        let piece = self.all.len();
        let mut blocks = Vec::new();
        let mut waiting = vec![cell];
        self.piece_of.insert((cell, group), piece);
        while let Some(cell) = waiting.pop() {
            let own = s.over_cell[cell].iter().filter(|&&t| s.group_of[t] == group);
            blocks.extend(own.map(|&t| s.sheets[t].block));
            for &h in &of_cell[cell] {
                let beside = s.arrangement.half_edges[twin(h)].cell;
                if s.sees(beside, group) && self.piece_of.insert((beside, group), piece).is_none() {
                    waiting.push(beside);
                }
            }
        }
        blocks.sort_unstable();
        blocks.dedup();
        self.all.push(Piece { group, blocks, borders: Vec::new() });
    }

    /// Piece of a group in a cell.
    pub(crate) fn at(&self, cell: usize, group: usize) -> Option<usize> {
        self.piece_of.get(&(cell, group)).copied()
    }

    fn cell(&self, h: usize) -> usize {
        self.surface.arrangement.half_edges[h].cell
    }

    fn is_border(&self, h: usize, group: usize) -> bool {
        self.surface.sees(self.cell(h), group) && !self.surface.sees(self.cell(twin(h)), group)
    }

    fn borders(&self, piece: usize) -> Vec<Vec<Run>> {
        let a = &self.surface.arrangement;
        let group = self.all[piece].group;
        let mut todo: Vec<usize> = (0..a.half_edges.len())
            .filter(|&h| self.at(self.cell(h), group) == Some(piece) && self.is_border(h, group))
            .collect();
        let mut seen = vec![false; a.half_edges.len()];
        let mut borders = Vec::new();
        for start in std::mem::take(&mut todo) {
            let mut border = Vec::new();
            let mut h = start;
            while !seen[h] {
                seen[h] = true;
                border.push(h);
                h = self.next_on_border(h, group);
            }
            if !border.is_empty() {
                borders.push(border);
            }
        }
        borders.sort_by(|x, y| self.signed_area(y).total_cmp(&self.signed_area(x)));
        borders.iter().map(|b| self.runs(piece, b)).collect()
    }

    fn next_on_border(&self, h: usize, group: usize) -> usize {
        let half_edges = &self.surface.arrangement.half_edges;
        let mut next = half_edges[h].next;
        while !self.is_border(next, group) {
            next = half_edges[twin(next)].next;
        }
        next
    }

    fn signed_area(&self, border: &[usize]) -> f64 {
        let points: Vec<P2> = border.iter().map(|&h| self.surface.arrangement.from(h)).collect();
        crate::plan::area(&points)
    }

    /// Joins the half-edges of a border that go straight on with the same answer, starting at a corner.
    fn runs(&self, piece: usize, border: &[usize]) -> Vec<Run> {
        let answers: Vec<Beyond> = border.iter().map(|&h| self.beyond(piece, h)).collect();
        let n = border.len();
        let joins = |i: usize| {
            let before = (i + n - 1) % n;
            answers[i] == answers[before] && self.goes_straight(border[before], border[i], answers[i])
        };
        let first = (0..n).find(|&i| !joins(i)).unwrap_or(0);
        let mut runs: Vec<Run> = Vec::new();
        for k in 0..n {
            let i = (first + k) % n;
            match runs.last_mut() {
                Some(run) if k > 0 && joins(i) && self.stays_straight(run, border[i]) => {
                    run.half_edges.push(border[i]);
                }
                _ => runs.push(Run { piece, beyond: answers[i], half_edges: vec![border[i]] }),
            }
        }
        runs
    }

    /// Whether two following half-edges are one line, and, shared, follow each other on the other piece's border too.
    fn goes_straight(&self, g: usize, h: usize, beyond: Beyond) -> bool {
        let a = &self.surface.arrangement;
        let straight = to_segment(a.to(g), a.from(g), a.to(h)).0 < 2.0 * MERGE;
        straight
            && match beyond {
                Beyond::Piece(other) => self.next_on_border(twin(h), self.all[other].group) == twin(g),
                _ => true,
            }
    }

    /// Whether all corners of a run stay on the line to the end of one more half-edge.
    fn stays_straight(&self, run: &Run, h: usize) -> bool {
        let a = &self.surface.arrangement;
        let start = a.from(run.half_edges[0]);
        run.half_edges.iter().all(|&g| to_segment(a.to(g), start, a.to(h)).0 < 4.0 * MERGE)
    }

    /// What ends a piece along a half-edge of its border.
    fn beyond(&self, piece: usize, h: usize) -> Beyond {
        let s = self.surface;
        let a = &s.arrangement;
        let (here, there) = (self.cell(h), self.cell(twin(h)));
        let group = self.all[piece].group;
        let [p, q] = [a.from(h), a.to(h)];
        let meets = |other: usize| [p, q].iter().all(|v| (s.height(group, *v) - s.height(other, *v)).abs() < MEETS);
        let same_height = (s.seen[there].iter()).filter(|&&g| !s.sees(here, g) && meets(g));
        if let Some(other) = same_height.min_by_key(|&&g| g).and_then(|&g| self.at(there, g)) {
            return Beyond::Piece(other);
        }
        self.buried_by(group, midpoint(p, q), there)
    }

    /// What buries a group's plane beyond a border: walls before overhangs.
    fn buried_by(&self, group: usize, edge: P2, cell: usize) -> Beyond {
        let s = self.surface;
        let z = s.height(group, edge);
        let others = s.over_cell[cell].iter().filter(|&&t| s.group_of[t] != group).map(|&t| &s.sheets[t]);
        let burying = others.filter(|t| t.buries(edge, z, -MEETS));
        let found = burying.map(|t| match t.zone {
            Zone::Inside { .. } => Beyond::Wall(t.block),
            Zone::Eave { .. } | Zone::Rake { .. } => Beyond::Overhang(t.block),
        });
        found.min().unwrap_or(Beyond::Nothing)
    }
}
