//! Which sheet is seen where: the union of the sheets' solids, cell by cell.
//!
//! All lines on which anything can change (sides of sheets, lines where two sheets are at one height, lines where a sheet
//! meets another's underside) go into one planar subdivision. In each cell of it the answer is the same everywhere, so one point
//! decides: a sheet is seen there unless that point of it lies inside another sheet's solid.

use crate::arrangement::{Arrangement, MERGE, join, root};
use crate::plan::{
    Bounds, P2, Rise, along, area, common, contains, height, inside_stretches, same_plane, zero_line,
};
use crate::sheet::{Extent, Sheet};
use crate::topology::{Pieces, Speck, is_speck};

/// Heights closer than this are equal when asking what buries what, metres.
const LEVEL: f64 = 1e-7;
/// Rounds of looking for specks; one is the rule.
const ROUNDS: usize = 8;
/// Slopes closer than this may belong to one plane.
pub(crate) const SAME_SLOPE: f64 = 1e-3;

/// The subdivision and what is seen in each of its cells.
#[derive(Debug)]
pub(crate) struct Surface {
    pub(crate) arrangement: Arrangement,
    pub(crate) sheets: Vec<Sheet>,
    /// One plane per group; sheets of one group are one plane of the roof, whichever blocks they come from.
    pub(crate) group_rise: Vec<Rise>,
    pub(crate) group_of: Vec<usize>,
    /// Sheets over each cell, seen or not.
    pub(crate) over_cell: Vec<Vec<usize>>,
    /// Groups seen in each cell.
    pub(crate) seen: Vec<Vec<usize>>,
    /// Plan area over the walls of each block.
    pub(crate) block_area: Vec<f64>,
}

impl Surface {
    pub(crate) fn of(mut sheets: Vec<Sheet>) -> Self {
        sheets.retain(|s| area(&s.polygon) > MERGE * MERGE);
        let (group_rise, group_of) = groups(&sheets);
        for (sheet, &g) in sheets.iter_mut().zip(&group_of) {
            sheet.rise = group_rise[g];
        }
        let mut segments: Vec<(P2, P2)> = sheets.iter().flat_map(Sheet::sides).collect();
        segments.extend(meeting_lines(&sheets, &group_of));
        let arrangement = Arrangement::of(&segments);
        let over_cell = within_extents(&over_cells(&arrangement, &sheets), &sheets);
        let seen = (arrangement.samples.iter().zip(&over_cell))
            .map(|(p, over)| p.map_or_else(Vec::new, |p| seen_at(p, over, &sheets, &group_of)))
            .collect();
        let block_area = block_areas(&sheets);
        let mut surface = Self { arrangement, sheets, group_rise, group_of, over_cell, seen, block_area };
        if surface.arrangement.cell_sizes().into_iter().skip(1).any(is_speck) {
            surface.absorb_specks();
        }
        surface
    }

    /// Lets specks go to what is beside them, until there are none: what one leaves behind may be another.
    fn absorb_specks(&mut self) {
        for _ in 0..ROUNDS {
            let specks = Pieces::of(self).specks();
            if specks.is_empty() {
                return;
            }
            for Speck { cell, group, to } in specks {
                let seen = &mut self.seen[cell];
                seen.retain(|g| *g != group);
                seen.extend(to.filter(|to| !seen.contains(to)));
            }
        }
    }

    pub(crate) fn sees(&self, cell: usize, group: usize) -> bool {
        self.seen[cell].contains(&group)
    }

    /// Height of a group's plane at a point.
    pub(crate) fn height(&self, group: usize, p: P2) -> f64 {
        height(self.group_rise[group], p)
    }
}

fn block_areas(sheets: &[Sheet]) -> Vec<f64> {
    let mut areas = vec![0.0; sheets.iter().map(|s| s.block + 1).max().unwrap_or_default()];
    for sheet in sheets.iter().filter(|s| s.is_inside() && s.extent == Extent::Whole) {
        areas[sheet.block] += area(&sheet.polygon);
    }
    areas
}

/// Sheets that lie in one plane where they can meet get one group and one plane.
fn groups(sheets: &[Sheet]) -> (Vec<Rise>, Vec<usize>) {
    let mut planes: Vec<(usize, Rise, Bounds)> = Vec::new();
    let mut plane_of = Vec::with_capacity(sheets.len());
    for sheet in sheets {
        let bounds = sheet.bounds.grown(2.0 * MERGE);
        let known =
            planes.iter().position(|(block, rise, _)| *block == sheet.block && same_plane(*rise, sheet.rise));
        match known {
            Some(k) => planes[k].2 = planes[k].2.joined(&bounds),
            None => planes.push((sheet.block, sheet.rise, bounds)),
        }
        plane_of.push(known.unwrap_or(planes.len() - 1));
    }
    let mut leader: Vec<usize> = (0..planes.len()).collect();
    for (k, (_, p, a)) in planes.iter().enumerate() {
        for (j, (_, q, b)) in planes[..k].iter().enumerate() {
            if a.meets(b) && are_one_plane(*p, *q, a, b) {
                join(&mut leader, j, k);
            }
        }
    }
    let group_of = plane_of.iter().map(|&k| root(&mut leader, k)).collect();
    (planes.into_iter().map(|(_, rise, _)| rise).collect(), group_of)
}

/// Whether two planes agree to within [`MERGE`] where both sheets can be.
fn are_one_plane(p: Rise, q: Rise, a: &Bounds, b: &Bounds) -> bool {
    if (p[0] - q[0]).abs() > SAME_SLOPE || (p[1] - q[1]).abs() > SAME_SLOPE {
        return false;
    }
    let shared = Bounds {
        min: [a.min[0].max(b.min[0]), a.min[1].max(b.min[1])],
        max: [a.max[0].min(b.max[0]), a.max[1].min(b.max[1])],
    };
    shared.corners().iter().all(|c| (height(p, *c) - height(q, *c)).abs() < MERGE)
}

/// Lines inside pairs of overlapping sheets where one passes through the other's surface or underside.
fn meeting_lines(sheets: &[Sheet], group_of: &[usize]) -> Vec<(P2, P2)> {
    let mut order: Vec<usize> = (0..sheets.len()).collect();
    order.sort_by(|&a, &b| sheets[a].bounds.min[0].total_cmp(&sheets[b].bounds.min[0]));
    let mut lines = Vec::new();
    for (k, &s) in order.iter().enumerate() {
        let s_max = sheets[s].bounds.max[0];
        for &t in order[k + 1..].iter().take_while(|&&t| sheets[t].bounds.min[0] <= s_max) {
            if group_of[s] != group_of[t] && sheets[s].bounds.meets(&sheets[t].bounds) {
                pair_lines(&sheets[s], &sheets[t], &mut lines);
            }
        }
    }
    lines
}

fn pair_lines(s: &Sheet, t: &Sheet, lines: &mut Vec<(P2, P2)>) {
    for (p, q) in [(s.rise, t.rise), (s.rise, t.underside()), (t.rise, s.underside())] {
        if !q[2].is_finite() {
            continue;
        }
        let Some((origin, direction)) = zero_line([p[0] - q[0], p[1] - q[1], p[2] - q[2]]) else { continue };
        let own = inside_stretches(&s.polygon, origin, direction);
        if own.is_empty() {
            continue;
        }
        let shared = common(&own, &inside_stretches(&t.polygon, origin, direction));
        lines
            .extend(shared.iter().map(|[a, b]| (along(origin, direction, *a), along(origin, direction, *b))));
    }
}

/// Sheets over each cell.
fn over_cells(arrangement: &Arrangement, sheets: &[Sheet]) -> Vec<Vec<usize>> {
    let mut order: Vec<(P2, usize)> =
        arrangement.samples.iter().enumerate().filter_map(|(c, p)| p.map(|p| (p, c))).collect();
    order.sort_by(|a, b| a.0[0].total_cmp(&b.0[0]));
    let mut over = vec![Vec::new(); arrangement.cell_count()];
    for (s, sheet) in sheets.iter().enumerate() {
        let start = order.partition_point(|(p, _)| p[0] < sheet.bounds.min[0]);
        for (p, cell) in order[start..].iter().take_while(|(p, _)| p[0] <= sheet.bounds.max[0]) {
            if sheet.bounds.holds(*p) && contains(&sheet.polygon, *p) {
                over[*cell].push(s);
            }
        }
    }
    over
}

/// Leaves out, cell by cell, sheets that are not there within their polygons.
fn within_extents(over: &[Vec<usize>], sheets: &[Sheet]) -> Vec<Vec<usize>> {
    let is_wall_of =
        |hosts: &[usize], t: &Sheet| hosts.contains(&t.block) && t.is_inside() && t.extent == Extent::Whole;
    let is_there = |s: usize, over: &[usize]| match &sheets[s].extent {
        Extent::Whole => true,
        Extent::Over(hosts) => over.iter().any(|&t| is_wall_of(hosts, &sheets[t])),
    };
    over.iter().map(|over| over.iter().copied().filter(|&s| is_there(s, over)).collect()).collect()
}

/// Groups seen at a point, of the sheets over it.
fn seen_at(p: P2, over: &[usize], sheets: &[Sheet], group_of: &[usize]) -> Vec<usize> {
    let mut seen: Vec<usize> = Vec::new();
    for &s in over {
        let z = sheets[s].height(p);
        let buried = over.iter().any(|&t| group_of[t] != group_of[s] && sheets[t].buries(p, z, LEVEL));
        if !buried && !seen.contains(&group_of[s]) {
            seen.push(group_of[s]);
        }
    }
    seen
}
