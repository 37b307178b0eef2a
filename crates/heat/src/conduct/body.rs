//! What conducts: cells between upright lines and rows, and the surfaces they meet air at.

use thiserror::Error;

use super::solve::{Field, Surface, solve};

/// More cells than this are not taken: the factors would not fit.
const MOST_CELLS: usize = 250_000;
/// A cell is cut into no more than this each way.
const MOST_PARTS: usize = 1000;
/// Heat flow that changes by less than this share on doubling the cells is found (ISO 10211:2017, annex A.2).
const SETTLED: f64 = 0.01;
/// A side shorter than this is none, m.
const NOTHING: f64 = 1e-9;

/// What a cell is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cell {
    /// Something that conducts, W/(m·K).
    Solid(f64),
    /// Nothing of the body: air, or outside it.
    Out,
}

/// A side of a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// At its lower line.
    Left,
    /// At its higher line.
    Right,
    /// At its lower row.
    Below,
    /// At its upper row.
    Above,
}

/// A side of a solid cell with nothing of the body beyond it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Column of its cell, as the body was drawn up.
    pub column: usize,
    /// Row of its cell, likewise.
    pub row: usize,
    /// Which side.
    pub side: Side,
    /// Its middle, m.
    pub middle: [f64; 2],
}

/// Why a body cannot be solved.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum BodyError {
    /// Lines that do not go one way.
    #[error("line {0} does not lie beyond the one before it")]
    Lines(usize),
    /// Rows that cross, or do not say a height on each line.
    #[error("row {0} lies below the one before it, or does not give a height for each line")]
    Rows(usize),
    /// Another number of cells than lines and rows make.
    #[error("{has} cells are given; the lines and rows make {made}")]
    Cells {
        /// How many are given.
        has: usize,
        /// How many there are to be.
        made: usize,
    },
    /// A conductivity that is none.
    #[error("cell {0} conducts {1} W/(m·K); more than nothing is asked")]
    Conductivity(usize, f64),
    /// A film or temperature that is none.
    #[error("a surface has a film of {0} m²·K/W at {1} °C")]
    Surface(f64, f64),
    /// Nothing holds the temperature of a part.
    #[error("part of the body meets no surface: nothing holds its temperature")]
    Loose,
    /// Too many cells.
    #[error("more than {MOST_CELLS} cells")]
    TooMany,
}

/// Cells that conduct. Rows may slope and may close to nothing at a line: a cell is what lies between.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Where upright lines stand, m, rising.
    lines: Vec<f64>,
    /// Heights of each row on each line, m, rising or equal.
    rows: Vec<Vec<f64>>,
    /// Column by column, from below.
    cells: Vec<Cell>,
    /// Which column and row of the body as drawn up a column and row come from.
    origin: [Vec<usize>; 2],
}

impl Body {
    /// From upright lines, rows with their height on each line, and what lies in the cells, column by column and from below.
    ///
    /// # Errors
    /// Lines and rows out of order, cells that are not as many, a conductivity of nothing.
    pub fn new(lines: Vec<f64>, rows: Vec<Vec<f64>>, cells: Vec<Cell>) -> Result<Self, BodyError> {
        let rises = |pair: &[f64]| pair[1] - pair[0] > NOTHING;
        if let Some(i) = lines.windows(2).position(|pair| !rises(pair)) {
            return Err(BodyError::Lines(i + 2));
        }
        let is_whole = |row: &Vec<f64>| row.len() == lines.len() && row.iter().all(|y| y.is_finite());
        if let Some(i) = rows.iter().position(|row| !is_whole(row)) {
            return Err(BodyError::Rows(i + 1));
        }
        let falls = |pair: &[Vec<f64>]| pair[0].iter().zip(&pair[1]).any(|(low, high)| high < low);
        if let Some(i) = rows.windows(2).position(falls) {
            return Err(BodyError::Rows(i + 2));
        }
        let [columns, between] = [lines.len().saturating_sub(1), rows.len().saturating_sub(1)];
        if cells.len() != columns * between || cells.is_empty() {
            return Err(BodyError::Cells { has: cells.len(), made: columns * between });
        }
        for (i, cell) in cells.iter().enumerate() {
            if let Cell::Solid(k) = cell
                && !(*k > 0.0 && k.is_finite())
            {
                return Err(BodyError::Conductivity(i, *k));
            }
        }
        let origin = [(0..columns).collect(), (0..between).collect()];
        Ok(Self { lines, rows, cells, origin })
    }

    /// With rows that are level.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn level(lines: Vec<f64>, heights: &[f64], cells: Vec<Cell>) -> Result<Self, BodyError> {
        let rows = heights.iter().map(|height| vec![*height; lines.len()]).collect();
        Self::new(lines, rows, cells)
    }

    /// With each cell whose side is longer than `most` there cut across until it is not. `most` is asked with the middle of the column or row.
    #[must_use]
    pub fn cut(&self, most: impl Fn([f64; 2]) -> f64) -> Self {
        let parts = |length: f64, most: f64| {
            (1..MOST_PARTS).find(|of| length <= most * *of as f64).unwrap_or(MOST_PARTS)
        };
        let middle_row = |column: usize| {
            let row = &self.rows[self.rows.len() / 2];
            f64::midpoint(row[column], row[column + 1])
        };
        let columns: Vec<usize> = (0..self.columns())
            .map(|c| {
                let [a, b] = [self.lines[c], self.lines[c + 1]];
                parts(b - a, most([f64::midpoint(a, b), middle_row(c)]))
            })
            .collect();
        let rows: Vec<usize> = (0..self.rows_of_cells())
            .map(|r| {
                let high = |i: usize| self.rows[r + 1][i] - self.rows[r][i];
                let at = |i: usize| [self.lines[i], f64::midpoint(self.rows[r][i], self.rows[r + 1][i])];
                (0..self.lines.len()).map(|i| parts(high(i), most(at(i)))).max().unwrap_or(1)
            })
            .collect();
        self.divided(&columns, &rows)
    }

    /// With each column and row in two.
    #[must_use]
    pub fn doubled(&self) -> Self {
        self.divided(&vec![2; self.columns()], &vec![2; self.rows_of_cells()])
    }

    /// With each column and each row in so many.
    fn divided(&self, columns: &[usize], rows: &[usize]) -> Self {
        let share = |i: usize, of: usize| i as f64 / of as f64;
        // where each new line stands: its column, and how far across it
        let mut places: Vec<(usize, f64)> = Vec::new();
        for (c, of) in columns.iter().enumerate() {
            places.extend((0..*of).map(|i| (c, share(i, *of))));
        }
        places.push((self.columns() - 1, 1.0));
        let across = |row: &[f64], (c, at): (usize, f64)| row[c] + (row[c + 1] - row[c]) * at;
        let lines = places.iter().map(|place| across(&self.lines, *place)).collect();
        let widened: Vec<Vec<f64>> =
            self.rows.iter().map(|row| places.iter().map(|place| across(row, *place)).collect()).collect();
        let mut heights: Vec<Vec<f64>> = Vec::new();
        for (r, of) in rows.iter().enumerate() {
            let between = |i: usize| {
                let ends = widened[r].iter().zip(&widened[r + 1]);
                ends.map(|(low, high)| low + (high - low) * share(i, *of)).collect()
            };
            heights.extend((0..*of).map(between));
        }
        heights.extend(widened.last().cloned());
        let from = |counts: &[usize]| -> Vec<usize> {
            counts.iter().enumerate().flat_map(|(i, of)| std::iter::repeat_n(i, *of)).collect()
        };
        let (column_of, row_of) = (from(columns), from(rows));
        let cells = column_of.iter().flat_map(|c| row_of.iter().map(|r| self.cell(*c, *r))).collect();
        let origin = [
            column_of.iter().map(|c| self.origin[0][*c]).collect(),
            row_of.iter().map(|r| self.origin[1][*r]).collect(),
        ];
        Self { lines, rows: heights, cells, origin }
    }

    /// Temperatures and heat flows, with cells halved until heat flow settles. `surface` says what a face meets; none lets no heat through.
    ///
    /// # Errors
    /// A surface that is none, a part that meets none, more cells than can be taken.
    pub fn solved(&self, surface: impl Fn(&Face) -> Option<Surface>) -> Result<Field, BodyError> {
        let mut body = self.clone();
        let mut field = solve(&body, &surface)?;
        loop {
            body = body.doubled();
            if body.cells.len() > MOST_CELLS {
                return Err(BodyError::TooMany);
            }
            let finer = solve(&body, &surface)?;
            let change = (finer.throughflow() - field.throughflow()).abs();
            let is_settled = change <= SETTLED * finer.throughflow();
            field = finer;
            if is_settled {
                return Ok(field);
            }
        }
    }

    /// Temperatures and heat flows on the cells as they are.
    ///
    /// # Errors
    /// As [`Self::solved`].
    pub fn solved_as_cut(&self, surface: impl Fn(&Face) -> Option<Surface>) -> Result<Field, BodyError> {
        if self.cells.len() > MOST_CELLS {
            return Err(BodyError::TooMany);
        }
        solve(self, &surface)
    }

    pub(super) fn columns(&self) -> usize {
        self.lines.len() - 1
    }

    pub(super) fn rows_of_cells(&self) -> usize {
        self.rows.len() - 1
    }

    pub(super) fn cell(&self, column: usize, row: usize) -> Cell {
        self.cells[column * self.rows_of_cells() + row]
    }

    /// Where a line and a row meet.
    pub(super) fn point(&self, line: usize, row: usize) -> [f64; 2] {
        [self.lines[line], self.rows[row][line]]
    }

    /// Corners of a cell, round.
    pub(super) fn corners(column: usize, row: usize) -> [[usize; 2]; 4] {
        [[column, row], [column + 1, row], [column + 1, row + 1], [column, row + 1]]
    }

    /// What conducts in a cell that has some area.
    pub(super) fn conductivity(&self, column: usize, row: usize) -> Option<f64> {
        let Cell::Solid(k) = self.cell(column, row) else { return None };
        let high = |line: usize| self.rows[row + 1][line] - self.rows[row][line];
        (high(column) + high(column + 1) > NOTHING).then_some(k)
    }

    /// Solid cells' sides with nothing solid beyond, each with the ends of the side; what a row closes to nothing is passed through.
    pub(super) fn faces(&self) -> Vec<(Face, [[usize; 2]; 2])> {
        let mut faces = Vec::new();
        for column in 0..self.columns() {
            for row in 0..self.rows_of_cells() {
                if self.conductivity(column, row).is_none() {
                    continue;
                }
                let [a, b, c, d] = Self::corners(column, row);
                for (side, ends) in [
                    (Side::Below, [a, b]),
                    (Side::Right, [b, c]),
                    (Side::Above, [c, d]),
                    (Side::Left, [d, a]),
                ] {
                    let [p, q] = ends.map(|[line, row]| self.point(line, row));
                    let is_side = (p[0] - q[0]).hypot(p[1] - q[1]) > NOTHING;
                    if is_side && !self.is_solid_beyond(column, row, side) {
                        let middle = [f64::midpoint(p[0], q[0]), f64::midpoint(p[1], q[1])];
                        let [column, row] = [self.origin[0][column], self.origin[1][row]];
                        faces.push((Face { column, row, side, middle }, ends));
                    }
                }
            }
        }
        faces
    }

    fn is_solid_beyond(&self, column: usize, row: usize, side: Side) -> bool {
        let is_in = |c: usize, r: usize| c < self.columns() && r < self.rows_of_cells();
        // cells a row has closed to nothing have what is beyond them beyond
        let steps = |by: isize| {
            let mut at = row;
            loop {
                let next = at.checked_add_signed(by)?;
                at = next;
                if !is_in(column, at) {
                    return None;
                }
                let high = |line: usize| self.rows[at + 1][line] - self.rows[at][line];
                if high(column) + high(column + 1) > NOTHING {
                    return self.conductivity(column, at);
                }
            }
        };
        match side {
            Side::Below => steps(-1).is_some(),
            Side::Above => steps(1).is_some(),
            Side::Left => column.checked_sub(1).is_some_and(|c| self.conductivity(c, row).is_some()),
            Side::Right => is_in(column + 1, row) && self.conductivity(column + 1, row).is_some(),
        }
    }
}
