//! What an eave looks like in section, and the heat through it.

use std::collections::BTreeSet;

use heat::conduct::{Body, BodyError, Cell, Face, Field, Side, Surface};
use job::{Attic, Block};
use measure::{Length, Pitch, RValue, Temperature};

use super::Section;
use crate::heat::desk::Desk;
use crate::heat::{CEILING, Ceiling};

/// Conductivities: plates and deck of softwood, gypsum (ASHRAE Handbook Fundamentals, chapter 26, from memory), W/(m·K).
const WOOD: f64 = 0.115;
const GYPSUM: f64 = 0.16;
/// A wall of 2x4 with batts, from air to air (common practice).
const WALL: RValue = RValue::from_us(11.0);
/// Films: still air up, still air at a wall, outdoors (ASHRAE Handbook Fundamentals, chapter 26, from memory), h·ft²·°F/Btu; sheathing and siding.
const UP: f64 = 0.61;
const ACROSS: f64 = 0.68;
const SIDING: f64 = 0.17 + 1.4;
const SHINGLES: f64 = 0.44;
/// A foot of settled snow of 250 kg/m³ (Yen 1981: 2.224·0.25^1.885 = 0.163 W/(m·K)) and the film over it, m²·K/W.
const SNOW: f64 = 0.3048 / 0.163 + 0.04;
/// Board, plates and the wall below them that are drawn, m.
const BOARD: f64 = 0.0127;
const PLATES: f64 = 0.0762;
const BELOW: f64 = 0.3;
/// Strips of floor, m, and how far past the insulation's whole depth is drawn.
const STRIP: f64 = 0.3048;
const BEYOND: f64 = 0.6;
/// Cells are first cut to this, m.
const CELL: f64 = 0.04;
/// Numbers of surfaces: rooms, outdoors, the deck's top, the deck's underside; then the insulation's top by column.
const ROOMS: usize = 0;
const OUTDOORS: usize = 1;
const TOP: usize = 2;
const UNDER: usize = 3;
const ABOVE: usize = 10;

/// What an eave looks like in section, metres and W/(m·K).
pub(super) struct Form {
    heel: f64,
    slope: f64,
    factor: f64,
    overhang: f64,
    wall: f64,
    /// Insulation over the outside of the wall, and where it is whole.
    at_wall: f64,
    full: f64,
    conductivity: f64,
    deck: f64,
    is_vented: bool,
}

impl Form {
    pub(super) fn of(
        desk: &Desk<'_>,
        (attic, block): (&Attic, &Block),
        (heel, pitch, overhang): (Length, Pitch, Length),
        (ceiling, is_plan): (&Ceiling, bool),
    ) -> Option<Self> {
        let insulation = (ceiling.reckoned - RValue::from_us(CEILING)).si();
        let kind = desk.book.thermal().insulations().find(|row| row.name == ceiling.kind)?;
        // what is read of a planned R is laid as deep as its kind takes for it
        let depth = if is_plan {
            insulation / (kind.per_inch.si() / Length::from_in(1.0).m())
        } else {
            ceiling.depth.m()
        };
        let check = desk.takeoff.vents_of(attic)?;
        let is_vented = if is_plan { check.plan.low } else { check.found.low }.m2() > 0.0;
        let way = if is_plan { desk.clear.m() * pitch.slope_factor() } else { 0.0 };
        let thickness = block.deck.as_ref().and_then(|deck| deck.thickness).unwrap_or(Length::from_in(0.5));
        (insulation > 0.0 && depth > 0.0).then(|| Self {
            heel: heel.m(),
            slope: pitch.slope(),
            factor: pitch.slope_factor(),
            overhang: overhang.m().max(0.05),
            wall: desk.job.site.wall_thickness.value.m().max(0.09),
            at_wall: (heel.m() - way).clamp(0.0, depth),
            full: depth,
            conductivity: depth / insulation,
            deck: thickness.m(),
            is_vented,
        })
    }

    /// Inward, the insulation is whole from here.
    fn reach(&self) -> f64 {
        (self.full - self.at_wall) / self.slope
    }

    /// Upright lines: the edge of the eave, both faces of the wall, then strips of floor; one where the insulation is whole.
    fn lines(&self) -> Vec<f64> {
        let end = self.reach().max(self.wall) + BEYOND;
        let strips = (1..40).map(|i| f64::from(i) * STRIP).filter(|x| *x < end);
        let mut lines: Vec<f64> =
            [-self.overhang, 0.0, self.wall, self.reach(), end].into_iter().chain(strips).collect();
        lines.sort_by(f64::total_cmp);
        lines.dedup_by(|b, a| *b - *a < 0.01);
        lines
    }

    /// Rows from below: foot of the drawn wall, plates, underside of the board, its top, top of the insulation, underside and top of the deck.
    fn rows(&self, lines: &[f64]) -> Vec<Vec<f64>> {
        let deck = |x: f64| self.heel + x * self.slope;
        let level = |y: f64| -> Vec<f64> { lines.iter().map(|x| y.min(deck(*x))).collect() };
        let insulation = lines.iter().map(|x| {
            let top = if *x < 0.0 { 0.0 } else { (self.at_wall + x * self.slope).min(self.full) };
            top.min(deck(*x))
        });
        vec![
            level(-PLATES - BELOW),
            level(-PLATES),
            level(-BOARD),
            level(0.0),
            insulation.collect(),
            lines.iter().map(|x| deck(*x)).collect(),
            lines.iter().map(|x| deck(*x) + self.deck * self.factor).collect(),
        ]
    }

    fn cells(&self, lines: &[f64]) -> Vec<Cell> {
        let wall = self.wall / (WALL.si() - RValue::from_us(ACROSS + SIDING).si());
        let out = Cell::Out;
        let column = |pair: &[f64]| {
            let [cavity, plate, board, insulation] = if pair[1] <= 1e-9 {
                [out; 4]
            } else if pair[1] <= self.wall + 1e-9 {
                [Cell::Solid(wall), Cell::Solid(WOOD), Cell::Solid(WOOD), Cell::Solid(self.conductivity)]
            } else {
                [out, out, Cell::Solid(GYPSUM), Cell::Solid(self.conductivity)]
            };
            [cavity, plate, board, insulation, out, Cell::Solid(WOOD)]
        };
        lines.windows(2).flat_map(column).collect()
    }

    /// Air between insulation and deck.
    fn air(&self, x: f64, [_, attic, outdoors]: [f64; 3]) -> f64 {
        let share = if self.is_vented { (x / self.reach().max(BEYOND)).clamp(0.0, 1.0) } else { 1.0 };
        if x < 0.0 { outdoors } else { outdoors + (attic - outdoors) * share }
    }

    /// What a face meets, with the columns on which snow melts.
    fn surface(
        &self,
        face: &Face,
        lines: &[f64],
        temperatures: [f64; 3],
        melting: &BTreeSet<usize>,
    ) -> Option<Surface> {
        let us = |r: f64| RValue::from_us(r).si();
        let [rooms, _, outdoors] = temperatures;
        let meets = |id: usize, film: f64, temperature: f64| Some(Surface { id, film, temperature });
        let is_wall = face.column == 1;
        match (face.row, face.side) {
            (5, Side::Above) if melting.contains(&face.column) => meets(TOP, us(SHINGLES), 0.0),
            (5, Side::Above) => meets(TOP, us(SHINGLES) + SNOW, outdoors),
            (5, Side::Below) => meets(UNDER, us(UP), self.air(face.middle[0], temperatures)),
            (5, _) => (face.middle[0] < 0.0).then_some(Surface {
                id: OUTDOORS,
                film: us(SIDING),
                temperature: outdoors,
            }),
            (3, Side::Above) => meets(ABOVE + face.column, us(UP), self.air(face.middle[0], temperatures)),
            (_, Side::Left) if is_wall => meets(OUTDOORS, us(SIDING), outdoors),
            (0 | 1, Side::Right) if is_wall => meets(ROOMS, us(ACROSS), rooms),
            (2, Side::Below) if face.middle[0] > lines[2] => meets(ROOMS, us(UP), rooms),
            _ => None,
        }
    }

    fn solved(
        &self,
        temperatures: [f64; 3],
        melting: &BTreeSet<usize>,
    ) -> Result<(Field, Vec<f64>), BodyError> {
        let lines = self.lines();
        let body = Body::new(lines.clone(), self.rows(&lines), self.cells(&lines))?.cut(|_| CELL);
        let field = body.solved(|face| self.surface(face, &lines, temperatures, melting))?;
        Ok((field, lines))
    }

    /// Middle of the deck at a distance inward.
    fn deck_at(&self, field: &Field, x: f64) -> Option<f64> {
        field.at([x, self.heel + x * self.slope + self.deck * self.factor / 2.0])
    }

    /// Columns whose snow's underside would be above 0 °C, beyond those that are held there.
    fn too_warm(&self, field: &Field, lines: &[f64], outdoors: f64) -> BTreeSet<usize> {
        let under_snow = |pair: &[f64]| {
            let x = f64::midpoint(pair[0], pair[1]);
            let deck = field
                .at([x, self.heel + x * self.slope + self.deck * self.factor * 0.999])
                .unwrap_or(outdoors);
            let shingles = RValue::from_us(SHINGLES).si();
            deck - (deck - outdoors) * shingles / (shingles + SNOW)
        };
        lines
            .windows(2)
            .enumerate()
            .filter(|(_, pair)| under_snow(pair) > 0.0)
            .map(|(column, _)| column)
            .collect()
    }

    pub(super) fn section(&self, temperatures: [f64; 3]) -> Result<Section, BodyError> {
        let [.., outdoors] = temperatures;
        let (dry, lines) = self.solved(temperatures, &BTreeSet::new())?;
        let melting = self.too_warm(&dry, &lines, outdoors);
        let (field, _) =
            if melting.is_empty() { (dry, Vec::new()) } else { self.solved(temperatures, &melting)? };
        // one kelvin between rooms and all else tells what lies between, whatever air is where
        let (unit, _) = self.solved([1.0, 0.0, 0.0], &BTreeSet::new())?;
        let floor: Vec<(usize, f64, f64)> =
            lines.windows(2).enumerate().skip(1).map(|(column, pair)| (column, pair[0], pair[1])).collect();
        let field_r = self.full / self.conductivity + RValue::from_us(CEILING).si();
        let flow = |column: usize| -field.flow(ABOVE + column);
        let lost = |(_, from, to): &(usize, f64, f64)| {
            (to - from) * (temperatures[0] - self.air(f64::midpoint(*from, *to), temperatures)) / field_r
        };
        let deck = lines.windows(2).filter_map(|pair| {
            let x = f64::midpoint(pair[0], pair[1]);
            Some((Length::from_m(x), Temperature::from_c(self.deck_at(&field, x)?)))
        });
        let ends = melting.first().zip(melting.last());
        Ok(Section {
            deck: deck.collect(),
            floor: strips(&floor, &unit),
            up: floor.iter().map(|(column, ..)| flow(*column)).sum(),
            field: floor.iter().map(lost).sum(),
            melts: ends.map(|(first, last)| [lines[*first], lines[last + 1]].map(Length::from_m)),
            closure: field.closure(),
        })
    }
}

/// Strips of floor a foot wide, of columns and what goes up through each for a kelvin.
fn strips(columns: &[(usize, f64, f64)], unit: &Field) -> Vec<(Length, Length, RValue)> {
    let foot = |x: f64| (x / STRIP + 1e-6).floor();
    columns
        .chunk_by(|a, b| (foot(a.1) - foot(b.1)).abs() < 0.5)
        .filter_map(|strip| {
            let (from, to) = (strip.first()?.1, strip.last()?.2);
            let up: f64 = strip.iter().map(|(column, ..)| -unit.flow(ABOVE + column)).sum();
            Some((Length::from_m(from), Length::from_m(to), RValue::from_si((to - from) / up)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn form(heel_in: f64, full_in: f64) -> Form {
        let inch = 0.0254;
        let factor = 1.25_f64.sqrt();
        let at_wall = (heel_in - factor).clamp(0.0, full_in) * inch;
        Form {
            heel: heel_in * inch,
            slope: 0.5,
            factor,
            overhang: 0.4,
            wall: 0.14,
            at_wall,
            full: full_in * inch,
            conductivity: 0.0544,
            deck: 0.0127,
            is_vented: true,
        }
    }

    const AT_22_F: [f64; 3] = [21.1, -3.5, -5.56];

    /// What comes in goes out; inward the strips come to films, board and insulation in series, outward they resist less the lower the heel.
    #[test]
    fn strips_come_to_the_field_inward_and_heat_closes() {
        let high = form(20.0, 15.0).section(AT_22_F).expect("solved");
        let low = form(5.25, 15.0).section(AT_22_F).expect("solved");
        let series = 15.0 * 0.0254 / 0.0544 + RValue::from_us(2.0 * UP).si() + BOARD / GYPSUM;
        for section in [&high, &low] {
            assert!(section.closure < 1e-6, "{}", section.closure);
            let last = section.floor.last().expect("strips").2.si();
            assert!((last / series - 1.0).abs() < 0.02, "{last} {series}");
        }
        assert!(low.up > 1.1 * low.field && low.up > high.up * 0.9, "{} {}", low.up, low.field);
        for (low, high) in low.floor.iter().zip(&high.floor).take(2) {
            assert!(low.2.si() < high.2.si(), "{low:?} {high:?}");
        }
    }

    /// Lines that let no heat across can only lower what goes through: the closed form of the taper, beyond the wall, is less than what the section lets up and out.
    #[test]
    fn more_goes_through_the_section_than_through_slices_side_by_side() {
        for (heel, full) in [(5.25, 15.0), (5.25, 3.5), (9.0, 12.0)] {
            let form = form(heel, full);
            let section = form.section(AT_22_F).expect("solved");
            let films = RValue::from_us(2.0 * UP).si() + BOARD / GYPSUM;
            let depth = |x: f64| (form.at_wall + x * form.slope).min(form.full);
            let end = form.lines().last().copied().expect("lines");
            let slices = 1000_u32;
            let width = (end - form.wall) / f64::from(slices);
            let at = |i: u32| form.wall + (f64::from(i) + 0.5) * width;
            let beside: f64 = (0..slices).map(|i| width / (films + depth(at(i)) / form.conductivity)).sum();
            let up: f64 = section.floor.iter().map(|(from, to, r)| (*to - *from).m() / r.si()).sum();
            assert!(up > beside, "{heel} {full}: {up} {beside}");
        }
    }

    #[test]
    fn a_warm_attic_melts_snow_inward_of_the_wall_and_not_over_the_soffit() {
        let mut form = form(5.25, 3.5);
        form.is_vented = false;
        let warm = form.section([21.1, 4.0, -5.56]).expect("solved");
        let [from, _] = warm.melts.expect("melts");
        assert!(from.m() >= -1e-9);
        let at = |x: f64| {
            warm.deck
                .iter()
                .min_by(|a, b| (a.0.m() - x).abs().total_cmp(&(b.0.m() - x).abs()))
                .expect("deck")
                .1
                .c()
        };
        assert!(at(-0.2) < 0.0 && at(0.8) > 0.0, "{:?}", warm.deck);
        assert!(form.section([-5.0, -5.3, -5.56]).expect("solved").melts.is_none());
    }
}
