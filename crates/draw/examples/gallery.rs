//! Writes all drawings of the test houses into a folder, to be looked at: `cargo run -p draw --example gallery
//! -- FOLDER`.

#[path = "../tests/houses/mod.rs"]
mod houses;

use std::path::{Path, PathBuf};

use book::Book;
use detail::Section;
use draw::{
    Figure, PlanOptions, Reader, SectionOptions, SheetOptions, ViewOptions, laying_strip, owner_water, plan,
    plane_sheet, section, view, water_plan,
};
use houses::House;
use job::Units;
use measure::Pitch;
use roof::PlaneId;

fn main() -> std::io::Result<()> {
    let folder = PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| ".".into()));
    let wanted = std::env::args().nth(2).unwrap_or_default();
    houses::all()
        .iter()
        .filter(|house| house.name.contains(&wanted))
        .try_for_each(|house| draw_all(house, &folder))?;
    draw_details(&folder, &wanted)
}

/// Every detail of the books, cut at 6/12.
fn draw_details(folder: &Path, wanted: &str) -> std::io::Result<()> {
    let book = Book::builtin();
    for detail in book.details().filter(|detail| detail.id.contains(wanted)) {
        let cut = Section::of(detail, "6/12".parse::<Pitch>().expect("a pitch"), &book)
            .expect("materials of the books");
        let figure = section(
            &cut,
            &SectionOptions { size_mm: (183.9, 225.0), units: Units::Us, reader: Reader::Desk, short: None },
        );
        std::fs::write(folder.join(format!("detail-{}.svg", detail.id)), &figure.svg)?;
        let options =
            SectionOptions { size_mm: (180.0, 216.0), units: Units::Us, reader: Reader::Desk, short: None };
        for (i, sheet) in laying_strip(&cut, &options).iter().enumerate() {
            std::fs::write(folder.join(format!("laying-{}-{}.svg", detail.id, i + 1)), &sheet.svg)?;
        }
    }
    Ok(())
}

fn draw_all(house: &House, folder: &Path) -> std::io::Result<()> {
    let House { name, job, roof, survey, .. } = house;
    let write = |what: &str, figure: &Figure| {
        std::fs::write(folder.join(format!("{}-{what}.svg", name.replace(' ', "-"))), &figure.svg)
    };
    write("plan", &plan(roof, survey, &PlanOptions { size_mm: (183.9, 163.4), units: job.units }))?;
    let options = |size_mm| PlanOptions { size_mm, units: job.units };
    write("water", &water_plan(&house.water(), &options((180.0, 216.0))))?;
    write("water-owner", &owner_water(&house.water(), &options((180.0, 125.0))))?;
    for azimuth_degrees in [225.0, 60.0] {
        let options = ViewOptions { size_mm: (183.9, 143.4), azimuth_degrees };
        write(&format!("view-{azimuth_degrees}"), &view(roof, survey, &options))?;
    }
    for i in 0..roof.planes.len().min(10) {
        let options = SheetOptions { size_mm: (183.9, 153.4), units: job.units };
        write(&format!("sheet-{i}"), &plane_sheet(roof, survey, PlaneId(i), &options))?;
    }
    Ok(())
}
