//! Writes a week of each season of two measured attics as plots, to be looked at: outdoors, attic as measured, attic as reckoned.
//! `WEATHERSHED_DATA=DATA cargo run -p draw --example attic_weeks -- FOLDER`; the data are not part of the project.

#![allow(clippy::print_stdout, reason = "how measured attics were met is to be read")]

#[path = "../../winter/tests/attics/mod.rs"]
mod attics;

use std::fmt::Write as _;
use std::path::PathBuf;

use attics::{Built, Row, TAMPERE, VALKEAKOSKI, attic, fitted, missed, rows};

/// Hours of a week, and weeks by their middle month of the second year: one a season.
const WEEK: usize = 168;
const SEASONS: [(&str, i32, u8); 4] =
    [("winter", 2012, 1), ("spring", 2011, 4), ("summer", 2011, 7), ("autumn", 2011, 10)];
/// Of a plot, mm.
const WIDE: f64 = 170.0;
const HIGH: f64 = 50.0;
const SIDE: f64 = 14.0;

fn main() -> std::io::Result<()> {
    let folder = PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| ".".into()));
    for (name, built) in [("tampere", TAMPERE), ("valkeakoski", VALKEAKOSKI)] {
        let Some(rows) = rows(&built) else { continue };
        let svg = weeks(&built, &rows);
        std::fs::write(folder.join(format!("attic-{name}.svg")), svg)?;
    }
    Ok(())
}

fn weeks(built: &Built, rows: &[Row]) -> String {
    let changes = fitted(built, rows);
    let found = attic(built, rows, changes);
    for (season, months) in
        [("winter", [12, 1, 2]), ("spring", [3, 4, 5]), ("summer", [6, 7, 8]), ("autumn", [9, 10, 11])]
    {
        let of = |is_day: Option<bool>| {
            missed(rows, &found, 0, |row| {
                let is_light = row.hour.sun.iter().sum::<f64>() > 50.0;
                row.year >= 2011 && months.contains(&row.month) && is_day.is_none_or(|day| day == is_light)
            })
        };
        let [all, day, night] = [None, Some(true), Some(false)].map(of);
        println!(
            "{} {season}: bias {:+.2} K, rms {:.2} K; in the sun {:+.2} K, rms {:.2}; without {:+.2} K, rms {:.2}",
            built.file, all[0], all[1], day[0], day[1], night[0], night[1]
        );
    }
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" viewBox=\"0 0 {} {}\" font-family=\"'Source Sans 3'\" font-size=\"3.2\"><rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
        WIDE + 2.0 * SIDE,
        4.0 * (HIGH + 12.0),
        WIDE + 2.0 * SIDE,
        4.0 * (HIGH + 12.0)
    );
    for (i, (season, year, month)) in SEASONS.into_iter().enumerate() {
        let from = rows.iter().position(|row| row.year == year && row.month == month).unwrap_or(0) + 10 * 24;
        let to = (from + WEEK).min(rows.len());
        let title = format!("{season} {year}-{month:02}: {changes} changes an hour");
        plot(&mut svg, &title, 6.0 + i as f64 * (HIGH + 12.0), &rows[from..to], &found[from..to]);
    }
    svg.push_str("</svg>\n");
    svg
}

/// A week: outdoors dotted, measured whole, reckoned broken.
fn plot(svg: &mut String, title: &str, top: f64, rows: &[Row], found: &[[f64; 2]]) {
    let lines: [(&str, Vec<Option<f64>>); 3] = [
        (
            "stroke-width=\"0.25\" stroke-dasharray=\"0.4 0.8\"",
            rows.iter().map(|row| Some(row.hour.sky.air)).collect(),
        ),
        ("stroke-width=\"0.5\"", rows.iter().map(|row| row.measured.map(|both| both[0])).collect()),
        (
            "stroke-width=\"0.5\" stroke-dasharray=\"1.6 0.9\"",
            found.iter().map(|both| Some(both[0])).collect(),
        ),
    ];
    let all = || lines.iter().flat_map(|(_, line)| line.iter().flatten().copied());
    let (low, high) =
        (all().fold(f64::INFINITY, f64::min).floor(), all().fold(f64::NEG_INFINITY, f64::max).ceil());
    let x = |hour: usize| SIDE + WIDE * hour as f64 / WEEK as f64;
    let y = |value: f64| top + HIGH * (high - value) / (high - low).max(1.0);
    let _ = writeln!(
        svg,
        "<text x=\"{SIDE}\" y=\"{}\">{title}; outdoors dotted, attic measured whole, reckoned broken</text>",
        top - 1.5
    );
    let mut tick = (low / 5.0).ceil() * 5.0 + 0.0;
    while tick <= high {
        let _ = writeln!(
            svg,
            "<path d=\"M{SIDE} {0}H{1}\" stroke=\"#ccc\" stroke-width=\"0.15\"/><text x=\"{2}\" y=\"{0}\" text-anchor=\"end\">{tick:.0}</text>",
            y(tick),
            SIDE + WIDE,
            SIDE - 1.5
        );
        tick += 5.0;
    }
    for (pen, line) in lines {
        let mut path = String::new();
        let mut is_down = false;
        for (hour, value) in line.iter().enumerate() {
            if let Some(value) = value {
                let _ = write!(path, "{}{:.2} {:.2}", if is_down { 'L' } else { 'M' }, x(hour), y(*value));
            }
            is_down = value.is_some();
        }
        let _ = writeln!(svg, "<path d=\"{path}\" fill=\"none\" stroke=\"#1c1c1c\" {pen}/>");
    }
}
