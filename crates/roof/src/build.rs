//! The one entry: a job to its roof.

use book::Book;
use job::{Block, Job, Problem, Units};
use measure::Length;

use crate::assemble::{Parts, parts};
use crate::check::Told;
use crate::cover::{self, Stretch};
use crate::form::Shape;
use crate::model::{Passage, Roof, Walk, Wall};
use crate::plan::height;
use crate::sheet::{Sheet, Zone};
use crate::surface::Surface;
use crate::topology::{MEETS, Pieces};
use crate::{buried, check, contact, dormer, form, opening, overhang, tight, true_up, window};

impl Roof {
    /// Measures the roof of a job.
    ///
    /// Exact up to the arithmetic: areas and lengths follow from plane intersections, not from a raster. Points closer than
    /// 0.5 mm are merged, after the blocks were trued up: walls up to 1/4 in apart touch.
    ///
    /// # Errors
    /// Every [`Problem`] that keeps the blocks from making one roof: overhangs that cannot be resolved, outlines without a
    /// roof, blocks that do not touch, openings off the roof, across an edge, on one another or too wide
    /// for the trusses; windows over no roof.
    pub fn of(job: &Job, books: &Book) -> Result<Self, Vec<Problem>> {
        Self::measured(&job.blocks, Told(job.units))?.fitted(job, books)
    }

    /// The bare roof of a job's blocks, fitted with everything else the job has on it, in its walls and below it.
    ///
    /// # Errors
    /// As [`Roof::of`], for what is not of blocks.
    pub fn fitted(mut self, job: &Job, books: &Book) -> Result<Self, Vec<Problem>> {
        opening::place(&mut self, job, books)?;
        self.windows = window::place(&self, &job.windows, Told(job.units))?;
        let tight = tight::warnings(&self, job, books).map_err(|problem| vec![problem])?;
        self.warnings.extend(tight);
        self.walks = walks(&job.walks, books)?;
        Ok(self)
    }

    /// Measures the bare roof of blocks, without openings.
    ///
    /// # Errors
    /// As [`Roof::of`], openings aside.
    pub fn of_blocks(blocks: &[Block]) -> Result<Self, Vec<Problem>> {
        Self::measured(blocks, Told(Units::Us))
    }

    fn measured(blocks: &[Block], told: Told) -> Result<Self, Vec<Problem>> {
        let problems = check::outlines(blocks, told);
        if !problems.is_empty() {
            return Err(problems);
        }
        let apart = check::apart(blocks, told);
        let blocks = &true_up::blocks(blocks);
        let frame = Frame::of(blocks, apart, told)?;
        let names: Vec<&str> = blocks.iter().map(|b| b.name.as_str()).collect();
        let surface = Surface::of(frame.sheets(blocks));
        let pieces = Pieces::of(&surface);
        let walls = frame.walls(blocks);
        let found = parts(&surface, &pieces, &names, &walls);
        let passages = passages(&surface, &pieces, &found, &names);
        let mut warnings = check::fascias(blocks, &frame.overhangs, told);
        warnings.extend(buried::warnings(blocks, &surface, &pieces, told));
        let Parts { planes, edges, nodes, .. } = found;
        let mut roof = Self {
            planes,
            edges,
            nodes,
            walls,
            openings: Vec::new(),
            crickets: Vec::new(),
            walks: Vec::new(),
            windows: Vec::new(),
            passages,
            warnings,
        };
        roof.warnings.extend(dormer::warnings(blocks, &frame.shapes, &frame.sides, &roof, told));
        Ok(roof)
    }
}

/// The walks of a job, each with how far splash reaches.
fn walks(walks: &[job::Walk], books: &Book) -> Result<Vec<Walk>, Vec<Problem>> {
    let reach = books.rule("walk.reach").and_then(book::Rule::get);
    let reach: Length = reach.map_err(|lost| vec![Problem::not_in_books(&lost)])?;
    let placed = |walk: &job::Walk| Walk { name: walk.name.clone(), from: walk.from, to: walk.to, reach };
    Ok(walks.iter().map(placed).collect())
}

/// The blocks with their shapes, overhangs and reaches worked out.
struct Frame {
    shapes: Vec<Shape>,
    overhangs: Vec<Vec<Vec<f64>>>,
    sides: Vec<Vec<Vec<cover::Side>>>,
    reaches: Vec<Vec<Vec<Vec<Stretch>>>>,
}

impl Frame {
    /// Of blocks trued up, with the problems found before.
    fn of(blocks: &[Block], mut problems: Vec<Problem>, told: Told) -> Result<Self, Vec<Problem>> {
        let mut shapes = Vec::new();
        for block in blocks {
            match form::shape(block) {
                Ok(shape) => shapes.push(shape),
                Err(problem) => problems.push(problem),
            }
        }
        let mut overhangs = overhang::resolve(blocks, told).unwrap_or_else(|found| {
            problems.extend(found);
            Vec::new()
        });
        if !problems.is_empty() {
            return Err(problems);
        }
        true_up::overhangs(blocks, &mut overhangs);
        let sides: Vec<_> = blocks.iter().zip(&shapes).map(|(b, s)| cover::sides(b, s)).collect();
        let over_walls = contact::over_walls(blocks, &shapes);
        let reach = |i: usize, c: usize, e: usize| {
            contact::stretches(i, &sides[i][c][e], overhangs[i][c][e], blocks, &over_walls)
        };
        let reaches = (sides.iter().enumerate())
            .map(|(i, b)| {
                b.iter().enumerate().map(|(c, s)| (0..s.len()).map(|e| reach(i, c, e)).collect()).collect()
            })
            .collect();
        Ok(Self { shapes, overhangs, sides, reaches })
    }

    fn sheets(&self, blocks: &[Block]) -> Vec<Sheet> {
        (blocks.iter().enumerate())
            .flat_map(|(i, b)| cover::sheets(i, b, &self.shapes[i], &self.sides[i], &self.reaches[i]))
            .collect()
    }

    fn walls(&self, blocks: &[Block]) -> Vec<Wall> {
        let mut walls = Vec::new();
        for ((block, sides), overhangs) in blocks.iter().zip(&self.sides).zip(&self.overhangs) {
            for ((edges, sides), overhangs) in block.edges.iter().zip(sides).zip(overhangs) {
                for ((edge, side), overhang) in edges.iter().zip(sides).zip(overhangs) {
                    walls.push(Wall {
                        block: block.name.clone(),
                        side: edge.side.to_string(),
                        from: side.a,
                        to: side.b,
                        plate: edge.plate.value,
                        overhang: Length::from_m(*overhang),
                        open: block.open,
                    });
                }
            }
        }
        walls
    }
}

/// Where planes pass under overhangs, with the least gap for each plane and overhanging block.
fn passages(surface: &Surface, pieces: &Pieces, found: &Parts, names: &[&str]) -> Vec<Passage> {
    let mut all: Vec<Passage> = Vec::new();
    let a = &surface.arrangement;
    for (h, e) in a.half_edges.iter().enumerate() {
        let p = a.from(h);
        for &group in &surface.seen[e.cell] {
            let z = surface.height(group, p);
            let overhangs = surface.over_cell[e.cell].iter().map(|&t| &surface.sheets[t]);
            for sheet in overhangs.filter(|t| matches!(t.zone, Zone::Eave { .. } | Zone::Rake { .. })) {
                let gap = height(sheet.underside(), p) - z;
                let Some(piece) = pieces.at(e.cell, group).filter(|_| gap > -MEETS) else { continue };
                let passage = Passage {
                    plane: found.plane_of[piece],
                    under: names[sheet.block].to_string(),
                    gap: Length::from_m(gap.max(0.0)),
                    at: [p[0], p[1], z],
                };
                keep_least(&mut all, passage);
            }
        }
    }
    all.sort_by(|a, b| a.plane.cmp(&b.plane).then_with(|| a.under.cmp(&b.under)));
    all
}

fn keep_least(all: &mut Vec<Passage>, passage: Passage) {
    match all.iter_mut().find(|p| p.plane == passage.plane && p.under == passage.under) {
        Some(known) if passage.gap < known.gap => *known = passage,
        Some(_) => {}
        None => all.push(passage),
    }
}
