//! Planes cut into columns along the fall, so that whatever is laid or flows along it can be followed exactly, column by
//! column.
//!
//! Fall lines through all corners of a plane cut it into trapezoids: each has one border of the plane at its foot, one at its
//! head and two fall lines for sides.
//!
//! # Validity
//! Any closed borders, holes included, and a fall that is not zero. A level plane has no fall and no columns.
//! # Degenerate cases
//! Columns narrower than 0.1 µm are rounding of borders that run along the fall, and are left out.
//! # Complexity
//! Square in the corners of a plane.
//! # Checks
//! property: columns add up to the area within the borders

use crate::model::{EdgeId, Plane, Roof};
use crate::plan::{P2, dot, flat};

/// Narrowest column, metres.
const NARROWEST: f64 = 1e-7;

/// A trapezoid between two neighbouring fall lines. `L` names the borders.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column<L> {
    /// Corners in plan: the foot's two, then the head's; sides along the fall from the third to the second and from the
    /// fourth to the first.
    pub quad: [P2; 4],
    /// The border at its low end.
    pub foot: L,
    /// The border at its high end.
    pub head: L,
}

/// A straight piece of a border, ends in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Border<L> {
    /// Both ends, either way round.
    pub ends: [P2; 2],
    /// What it is.
    pub label: L,
}

/// A plane's own axes: `across` the fall, and `up` against it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axes {
    /// Unit vector across the fall, to the right of one who looks up the slope.
    pub across: P2,
    /// Unit vector against the fall.
    pub up: P2,
}

impl Axes {
    /// Of a plane; both zero for a level one.
    pub fn of(plane: &Plane) -> Self {
        let fall = plane.fall();
        Self { across: [-fall[1], fall[0]], up: [-fall[0], -fall[1]] }
    }

    /// A point as distances across and up.
    pub fn local(&self, p: P2) -> P2 {
        [dot(p, self.across), dot(p, self.up)]
    }

    /// The point at distances across and up.
    pub fn plan(&self, [across, up]: P2) -> P2 {
        [self.across[0] * across + self.up[0] * up, self.across[1] * across + self.up[1] * up]
    }
}

/// The borders of a plane, one for each of its edges.
pub fn borders(roof: &Roof, plane: &Plane) -> Vec<Border<EdgeId>> {
    let border = |id: &EdgeId| Border { ends: roof.ends(*id).map(flat), label: *id };
    plane.edges.iter().map(border).collect()
}

/// Cuts what lies within borders into columns, along fall lines through all their ends and through `more` points.
pub fn columns<L: Copy>(axes: &Axes, borders: &[Border<L>], more: &[P2]) -> Vec<Column<L>> {
    let is_within = |below: &[L]| (below.len() % 2 == 1).then_some(());
    parted(axes, borders, more, is_within).into_iter().map(|(column, ())| column).collect()
}

/// Cuts into columns as [`columns`] does, borders that lie over one another and cross: `owner` tells whose a place is, by the labels of the
/// borders below it, lowest first; what is nobody's is left out. Where borders cross, `more` must have the point.
pub fn parted<L: Copy, O: PartialEq>(
    axes: &Axes,
    borders: &[Border<L>],
    more: &[P2],
    owner: impl Fn(&[L]) -> Option<O>,
) -> Vec<(Column<L>, O)> {
    let local: Vec<Border<L>> =
        borders.iter().map(|b| Border { ends: b.ends.map(|p| axes.local(p)), label: b.label }).collect();
    let mut lines: Vec<f64> = local.iter().flat_map(|b| b.ends).map(|p| p[0]).collect();
    lines.extend(more.iter().map(|p| axes.local(*p)[0]));
    lines.sort_by(f64::total_cmp);
    lines.dedup_by(|next, kept| *next - *kept < NARROWEST);
    lines.windows(2).flat_map(|pair| between_lines(axes, &local, [pair[0], pair[1]], &owner)).collect()
}

/// The columns between two neighbouring fall lines.
fn between_lines<L: Copy, O: PartialEq>(
    axes: &Axes,
    borders: &[Border<L>],
    lines: [f64; 2],
    owner: impl Fn(&[L]) -> Option<O>,
) -> Vec<(Column<L>, O)> {
    let middle = 0.5 * (lines[0] + lines[1]);
    let mut crossing: Vec<&Border<L>> =
        borders.iter().filter(|b| (b.ends[0][0] < middle) != (b.ends[1][0] < middle)).collect();
    crossing.sort_by(|s, t| height(s, middle).total_cmp(&height(t, middle)));
    let labels: Vec<L> = crossing.iter().map(|border| border.label).collect();
    let (mut columns, mut open) = (Vec::new(), None);
    for (k, border) in crossing.into_iter().enumerate() {
        let next = owner(&labels[..=k]);
        if open.as_ref().map(|(_, owner)| owner) == next.as_ref() {
            continue;
        }
        let ended: Option<(&Border<L>, O)> = open.take();
        columns.extend(ended.map(|(low, owner)| (column(axes, [low, border], lines), owner)));
        open = next.map(|owner| (border, owner));
    }
    columns
}

fn column<L: Copy>(axes: &Axes, [low, high]: [&Border<L>; 2], lines: [f64; 2]) -> Column<L> {
    let at = |border, line| axes.plan([line, height(border, line)]);
    let quad = [at(low, lines[0]), at(low, lines[1]), at(high, lines[1]), at(high, lines[0])];
    Column { quad, foot: low.label, head: high.label }
}

/// How far up a border is at a fall line.
fn height<L>(border: &Border<L>, line: f64) -> f64 {
    let [a, b] = border.ends;
    a[1] + (b[1] - a[1]) * ((line - a[0]) / (b[0] - a[0]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{area, edges};

    const SOUTHWARDS: Axes = Axes { across: [1.0, 0.0], up: [0.0, 1.0] };

    fn ring(points: &[P2], label: char) -> impl Iterator<Item = Border<char>> + '_ {
        edges(points).map(move |(a, b)| Border { ends: [a, b], label })
    }

    #[test]
    fn a_hole_parts_the_columns_above_from_those_below() {
        let outside = [[0.0, 0.0], [6.0, 0.0], [6.0, 4.0], [0.0, 4.0]];
        let hole = [[2.0, 1.0], [2.0, 2.0], [3.0, 2.0], [3.0, 1.0]];
        let borders: Vec<_> = ring(&outside, 'o').chain(ring(&hole, 'h')).collect();
        let cut = columns(&SOUTHWARDS, &borders, &[]);
        let ends: Vec<_> = cut.iter().map(|c| (c.foot, c.head)).collect();
        assert_eq!(ends, [('o', 'o'), ('o', 'h'), ('h', 'o'), ('o', 'o')]);
        let whole: f64 = cut.iter().map(|c| area(&c.quad)).sum();
        assert!((whole - 23.0).abs() < 1e-12);
    }

    /// A hole over the right border: 1 ft of its 3 lies outside, where nothing is anybody's.
    #[test]
    fn what_lies_over_a_border_is_parted_there() {
        let outside = [[0.0, 0.0], [6.0, 0.0], [6.0, 4.0], [0.0, 4.0]];
        let over = [[4.0, 1.0], [7.0, 1.0], [7.0, 2.0], [4.0, 2.0]];
        let borders: Vec<_> = ring(&outside, 'o').chain(ring(&over, 'h')).collect();
        let within = |below: &[char], what: char| below.iter().filter(|b| **b == what).count() % 2 == 1;
        let owner = |below: &[char]| within(below, 'o').then(|| within(below, 'h'));
        let cut = parted(&SOUTHWARDS, &borders, &[[6.0, 1.0], [6.0, 2.0]], owner);
        let whole =
            |of: bool| -> f64 { cut.iter().filter(|(_, o)| *o == of).map(|(c, _)| area(&c.quad)).sum() };
        assert!((whole(false) - 22.0).abs() < 1e-12 && (whole(true) - 2.0).abs() < 1e-12, "{cut:?}");
    }

    #[test]
    fn a_triangle_is_cut_through_its_top() {
        let borders: Vec<_> = ring(&[[0.0, 0.0], [4.0, 0.0], [1.0, 3.0]], 'o').collect();
        let areas: Vec<f64> = columns(&SOUTHWARDS, &borders, &[]).iter().map(|c| area(&c.quad)).collect();
        assert_eq!(areas, [1.5, 4.5]);
    }
}
