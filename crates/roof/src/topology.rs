//! From cells to planes and their borders.
//!
//! Connected cells that see the same plane are one piece of roof. Along each half-edge on the border of a piece the question is what ends
//! it there: another piece at the same height, a wall, another roof's overhang, or nothing. Half-edges that go straight on
//! with the same answer are one edge.

use crate::arrangement::{MERGE, twin};
use crate::plan::{P2, distance, midpoint, to_segment};
use crate::sheet::Sheet;
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
    /// Piece of each group seen in each cell, in the order of [`Surface::seen`].
    piece_of: Vec<Vec<usize>>,
    pub(crate) all: Vec<Piece>,
}

/// Pieces smaller than this are none, square metres (1/8 in square).
const SPECK: f64 = 1e-5;

/// Whether something of this area and length all round is too small or too thin to be roof: thinner than its own borders may wobble.
pub(crate) fn is_speck((area, around): (f64, f64)) -> bool {
    area < SPECK || area < MERGE * around
}

/// A cell in which a group gives way to another, or to nothing.
pub(crate) struct Speck {
    pub(crate) cell: usize,
    pub(crate) group: usize,
    pub(crate) to: Option<usize>,
}

/// A group in a cell that has no piece yet.
const NONE: usize = usize::MAX;

impl<'a> Pieces<'a> {
    pub(crate) fn of(surface: &'a Surface) -> Self {
        let piece_of = surface.seen.iter().map(|seen| vec![NONE; seen.len()]).collect();
        let mut pieces = Self { surface, piece_of, all: Vec::new() };
        pieces.flood();
        for (i, borders) in pieces.all_borders().into_iter().enumerate() {
            pieces.all[i].borders = borders;
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
            for (k, &group) in s.seen[cell].iter().enumerate() {
                if self.piece_of[cell][k] == NONE {
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
        self.claim(cell, group, piece);
        while let Some(cell) = waiting.pop() {
            let own = s.over_cell[cell].iter().filter(|&&t| s.group_of[t] == group);
            blocks.extend(own.map(|&t| s.sheets[t].block));
            for &h in &of_cell[cell] {
                let beside = s.arrangement.half_edges[twin(h)].cell;
                if self.claim(beside, group, piece) {
                    waiting.push(beside);
                }
            }
        }
        blocks.sort_unstable();
        blocks.dedup();
        self.all.push(Piece { group, blocks, borders: Vec::new() });
    }

    /// Gives a group in a cell to a piece, if it is seen there and not given yet.
    fn claim(&mut self, cell: usize, group: usize, piece: usize) -> bool {
        let place = self.surface.seen[cell].iter().position(|&g| g == group);
        let free = place.filter(|&k| self.piece_of[cell][k] == NONE);
        free.map(|k| self.piece_of[cell][k] = piece).is_some()
    }

    /// Pieces too small to be roof, which rounding left where lines all but meet in one point: in which cell which group is to give way,
    /// and to which, if a piece goes on beside it.
    pub(crate) fn specks(&self) -> Vec<Speck> {
        let mut specks = Vec::new();
        for (cell, pieces) in self.piece_of.iter().enumerate() {
            let found = pieces.iter().filter(|p| **p != NONE && is_speck(self.size(**p)));
            specks.extend(found.map(|&p| Speck { cell, group: self.all[p].group, to: self.beside(p) }));
        }
        specks
    }

    /// Area of a piece and length all round it.
    fn size(&self, piece: usize) -> (f64, f64) {
        let a = &self.surface.arrangement;
        let borders = &self.all[piece].borders;
        let around =
            borders.iter().flatten().flat_map(|run| &run.half_edges).map(|&h| distance(a.from(h), a.to(h)));
        (borders.iter().map(|border| self.area_within(border)).sum(), around.sum())
    }

    fn area_within(&self, border: &[Run]) -> f64 {
        let around: Vec<usize> = border.iter().flat_map(|run| run.half_edges.iter().copied()).collect();
        self.signed_area(&around)
    }

    /// The group of the piece, itself no speck, with which a piece has its longest line in common.
    fn beside(&self, piece: usize) -> Option<usize> {
        let a = &self.surface.arrangement;
        let length = |run: &Run| run.half_edges.iter().map(|&h| distance(a.from(h), a.to(h))).sum::<f64>();
        let shared = self.all[piece].borders.iter().flatten().filter_map(|run| match run.beyond {
            Beyond::Piece(other) if !is_speck(self.size(other)) => Some((length(run), self.all[other].group)),
            _ => None,
        });
        shared.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, group)| group)
    }

    /// Piece of a group in a cell.
    pub(crate) fn at(&self, cell: usize, group: usize) -> Option<usize> {
        self.surface.seen[cell].iter().position(|&g| g == group).map(|k| self.piece_of[cell][k])
    }

    fn cell(&self, h: usize) -> usize {
        self.surface.arrangement.half_edges[h].cell
    }

    fn is_border(&self, h: usize, group: usize) -> bool {
        self.surface.sees(self.cell(h), group) && !self.surface.sees(self.cell(twin(h)), group)
    }

    /// The closed borders of every piece.
    fn all_borders(&self) -> Vec<Vec<Vec<Run>>> {
        let a = &self.surface.arrangement;
        let mut on_border: Vec<Vec<usize>> = vec![Vec::new(); self.all.len()];
        for h in 0..a.half_edges.len() {
            let cell = self.cell(h);
            for (k, &group) in self.surface.seen[cell].iter().enumerate() {
                if self.is_border(h, group) {
                    on_border[self.piece_of[cell][k]].push(h);
                }
            }
        }
        let mut taken = vec![NONE; a.half_edges.len()];
        on_border.iter().enumerate().map(|(piece, on)| self.borders(piece, on, &mut taken)).collect()
    }

    /// The closed borders of a piece, the outer one first. `taken` says which piece last went along a half-edge.
    fn borders(&self, piece: usize, on_border: &[usize], taken: &mut [usize]) -> Vec<Vec<Run>> {
        let group = self.all[piece].group;
        let mut borders = Vec::new();
        for &start in on_border {
            let mut border = Vec::new();
            let mut h = start;
            while taken[h] != piece {
                taken[h] = piece;
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

    /// Divides a border into runs: first where the answer changes, then at the corners in between.
    fn runs(&self, piece: usize, border: &[usize]) -> Vec<Run> {
        let answers: Vec<Beyond> = border.iter().map(|&h| self.beyond(piece, h)).collect();
        let n = border.len();
        let goes_on = |i: usize| {
            let before = (i + n - 1) % n;
            answers[i] == answers[before] && self.follows(border[before], border[i], answers[i])
        };
        let first = (0..n).find(|&i| !goes_on(i)).unwrap_or_else(|| self.outermost(border));
        let mut chains: Vec<(Beyond, Vec<usize>)> = Vec::new();
        for k in 0..n {
            let i = (first + k) % n;
            match chains.last_mut() {
                Some((_, chain)) if k > 0 && goes_on(i) => chain.push(border[i]),
                _ => chains.push((answers[i], vec![border[i]])),
            }
        }
        let mut runs = Vec::new();
        for (beyond, chain) in &chains {
            runs.extend(self.straight_parts(chain).into_iter().map(|half_edges| Run {
                piece,
                beyond: *beyond,
                half_edges,
            }));
        }
        runs
    }

    /// A chain as its straight parts.
    fn straight_parts(&self, chain: &[usize]) -> Vec<Vec<usize>> {
        let mut parts: Vec<Vec<usize>> = Vec::new();
        self.at_corners(chain, &mut |part| match parts.last_mut() {
            // a chord along a side can make a split in the middle of that side
            Some(last) if self.furthest_off(&[last, part].concat()).is_none() => last.extend(part),
            _ => parts.push(part.to_vec()),
        });
        parts
    }

    /// Whether two half-edges that follow each other on one border do so on the other piece's border too, where it is shared.
    fn follows(&self, g: usize, h: usize, beyond: Beyond) -> bool {
        match beyond {
            Beyond::Piece(other) => self.next_on_border(twin(h), self.all[other].group) == twin(g),
            _ => true,
        }
    }

    /// Where to start going round a border that has one answer all along: at the corner furthest from its middle.
    fn outermost(&self, border: &[usize]) -> usize {
        let a = &self.surface.arrangement;
        let n = border.len() as f64;
        let middle =
            border.iter().map(|&h| a.from(h)).fold([0.0; 2], |m, p| [m[0] + p[0] / n, m[1] + p[1] / n]);
        let away = |i: &usize| distance(a.from(border[*i]), middle);
        (0..border.len()).max_by(|i, j| away(i).total_cmp(&away(j))).unwrap_or_default()
    }

    /// Splits a chain at the point furthest from its chord, as long as there is one.
    fn at_corners(&self, chain: &[usize], found: &mut impl FnMut(&[usize])) {
        match self.furthest_off(chain) {
            Some(k) => {
                self.at_corners(&chain[..k], found);
                self.at_corners(&chain[k..], found);
            }
            None => found(chain),
        }
    }

    /// Where a chain is furthest from its chord, if that is a corner and no wobble of merging.
    fn furthest_off(&self, chain: &[usize]) -> Option<usize> {
        let a = &self.surface.arrangement;
        let (start, end) = (a.from(chain[0]), a.to(chain[chain.len() - 1]));
        let off = |k: usize| to_segment(a.to(chain[k - 1]), start, end).0;
        let furthest = (1..chain.len()).max_by(|j, k| off(*j).total_cmp(&off(*k)))?;
        (off(furthest) > 2.0 * MERGE).then_some(furthest)
    }

    /// What ends a piece along a half-edge of its border.
    fn beyond(&self, piece: usize, h: usize) -> Beyond {
        let s = self.surface;
        let a = &s.arrangement;
        let (here, there) = (self.cell(h), self.cell(twin(h)));
        let group = self.all[piece].group;
        let [p, q] = [a.from(h), a.to(h)];
        let gap = |other: usize| {
            let at = |v: P2| (s.height(group, v) - s.height(other, v)).abs();
            at(p).max(at(q))
        };
        let begins_here = s.seen[there].iter().copied().filter(|&g| !s.sees(here, g) && gap(g) < MEETS);
        let nearest = begins_here.min_by(|&g, &h| gap(g).total_cmp(&gap(h)));
        if let Some(other) = nearest.and_then(|g| self.at(there, g)) {
            return Beyond::Piece(other);
        }
        self.buried_by(group, midpoint(p, q), here, there)
    }

    /// What buries a group's plane beyond a border: a wall that stands on the border before any other solid, a solid over walls
    /// before an overhang, the higher before the lower, the larger block before the smaller.
    fn buried_by(&self, group: usize, edge: P2, here: usize, there: usize) -> Beyond {
        let s = self.surface;
        let z = s.height(group, edge);
        let others = s.over_cell[there].iter().filter(|&&t| s.group_of[t] != group).map(|&t| &s.sheets[t]);
        let stands_here = |block: usize| {
            !s.over_cell[here].iter().any(|&t| s.sheets[t].block == block && s.sheets[t].is_inside())
        };
        let rank = |t: &Sheet| (t.is_inside(), t.is_inside() && stands_here(t.block));
        let level = |t: &Sheet| quantized(t.height(edge), MEETS);
        let stronger = |a: &&Sheet, b: &&Sheet| {
            let by_size = s.block_area[a.block].total_cmp(&s.block_area[b.block]);
            rank(a).cmp(&rank(b)).then(level(a).cmp(&level(b))).then(by_size)
        };
        let strongest = others.filter(|t| t.buries(edge, z, -MEETS)).max_by(stronger);
        strongest.map_or(Beyond::Nothing, |t| {
            if t.is_inside() { Beyond::Wall(t.block) } else { Beyond::Overhang(t.block) }
        })
    }
}

/// A figure in whole steps, so that rounding does not order what is equal.
#[expect(clippy::cast_possible_truncation, reason = "saturates far outside any house")]
fn quantized(x: f64, step: f64) -> i64 {
    (x / step).round() as i64
}
