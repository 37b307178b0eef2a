//! Whole drawings of whole houses: are they documents, do they say what the roof says, can they be read?

#[path = "../tests/houses/mod.rs"]
mod houses;

mod hidden;
mod numbers;
mod page;
mod random;
mod readable;
mod same;
mod xml;

use job::Units;
use roof::PlaneId;

use self::houses::House;
use crate::{Figure, PlanOptions, SheetOptions, ViewOptions, plan, plane_sheet, view};

/// Room on a letter sheet.
const SIZE: (f64, f64) = (183.9, 160.0);

impl House {
    fn plan(&self) -> Figure {
        plan(&self.roof, &self.survey, &PlanOptions { size_mm: SIZE, units: self.job.units })
    }

    fn view(&self, azimuth_degrees: f64) -> Figure {
        view(&self.roof, &self.survey, &ViewOptions { size_mm: SIZE, azimuth_degrees })
    }

    fn sheet(&self, plane: usize) -> Figure {
        self.sheet_in(plane, self.job.units)
    }

    fn sheet_in(&self, plane: usize, units: Units) -> Figure {
        plane_sheet(&self.roof, &self.survey, PlaneId(plane), &SheetOptions { size_mm: SIZE, units })
    }

    /// A plan, views from two sides and some sheets.
    fn drawings(&self) -> Vec<Figure> {
        let sheets = (0..self.roof.planes.len().min(9)).map(|plane| self.sheet(plane));
        [self.plan(), self.view(225.0), self.view(70.0)].into_iter().chain(sheets).collect()
    }
}
