//! Writes the pictures of the test houses' winters into a folder, to be looked at: `cargo run -p draw --example winters -- FOLDER [HOUSE]`.

#[path = "../tests/winters/mod.rs"]
mod winters;

use std::path::PathBuf;

use job::Units;

fn main() -> std::io::Result<()> {
    let folder = PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| ".".into()));
    let wanted = std::env::args().nth(2).unwrap_or_default();
    for house in winters::all().iter().filter(|house| house.name.contains(&wanted)) {
        for (name, figure) in house.charts(Units::Us).into_iter().chain(house.pictures(Units::Us)) {
            let file = format!("winter-{}-{name}.svg", house.name.replace(' ', "-"));
            std::fs::write(folder.join(file), &figure.svg)?;
        }
    }
    Ok(())
}
