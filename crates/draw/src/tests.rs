//! Whole drawings of whole houses: are they documents, do they say what the roof says, can they be read?

#[path = "../tests/houses/mod.rs"]
mod houses;
#[path = "../tests/winters/mod.rs"]
mod winters;

mod chart;
mod hidden;
mod key;
mod laying;
mod numbers;
mod page;
mod random;
mod readable;
mod same;
mod section;
mod water;
mod winter;
mod xml;

use job::Units;
use roof::PlaneId;

use self::houses::House;
use crate::{
    Figure, PlanOptions, SheetOptions, ViewOptions, owner_water, plan, plane_sheet, view, water_plan,
};

/// Room on a letter sheet.
const SIZE: (f64, f64) = (183.9, 160.0);

impl House {
    fn plan(&self) -> Figure {
        plan(&self.roof, &self.survey, &PlanOptions { size_mm: SIZE, units: self.job.units })
    }

    fn view(&self, azimuth_degrees: f64) -> Figure {
        view(&self.roof, &self.survey, &ViewOptions { size_mm: SIZE, azimuth_degrees })
    }

    fn water_plan(&self) -> Figure {
        water_plan(&self.water(), &PlanOptions { size_mm: (180.0, 216.0), units: self.job.units })
    }

    fn owner_water(&self) -> Figure {
        owner_water(&self.water(), &PlanOptions { size_mm: (180.0, 125.0), units: self.job.units })
    }

    fn sheet(&self, plane: usize) -> Figure {
        self.sheet_in(plane, self.job.units)
    }

    fn sheet_in(&self, plane: usize, units: Units) -> Figure {
        plane_sheet(&self.roof, &self.survey, PlaneId(plane), &SheetOptions { size_mm: SIZE, units })
    }

    /// A plan, views from two sides, pictures of water and some sheets.
    fn drawings(&self) -> Vec<Figure> {
        let sheets = (0..self.roof.planes.len().min(9)).map(|plane| self.sheet(plane));
        let views = [self.view(225.0), self.view(70.0)];
        let water = [self.water_plan(), self.owner_water()];
        [self.plan()].into_iter().chain(views).chain(water).chain(sheets).collect()
    }
}
