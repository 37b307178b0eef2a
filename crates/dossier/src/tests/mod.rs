//! Whole papers: what a reader sees, what a program reads back, what is refused.

mod code;
mod crew;
mod file;
mod fixture;
mod letter;
mod reading;
mod refusal;
mod winter;

use fixture::{JOB, figures};
use typst::layout::{Frame, FrameItem};

use crate::*;

/// Text of each page as laid out, spaces left out.
fn pages(sheet: &RoofSheet) -> Vec<String> {
    let compositor = compose(sheet, &figures(sheet), JOB).unwrap();
    let document = compositor.pages().unwrap();
    document.pages().iter().map(|page| squeezed(&text_of(&page.frame))).collect()
}

fn text_of(frame: &Frame) -> String {
    runs(frame).into_iter().map(|(_, text)| text).collect()
}

/// Runs of text with their size in points.
fn runs(frame: &Frame) -> Vec<(f64, String)> {
    let run = |(_, item): &(_, FrameItem)| match item {
        FrameItem::Group(group) => runs(&group.frame),
        FrameItem::Text(run) => vec![(run.size.to_pt(), run.text.to_string())],
        _ => vec![],
    };
    frame.items().flat_map(run).collect()
}

/// Widths and heights of the drawings on a page, mm.
fn image_sizes(frame: &Frame) -> Vec<(f64, f64)> {
    let size = |(_, item): &(_, FrameItem)| match item {
        FrameItem::Group(group) => image_sizes(&group.frame),
        FrameItem::Image(_, size, _) => vec![(size.x.to_mm(), size.y.to_mm())],
        _ => vec![],
    };
    frame.items().flat_map(size).collect()
}

fn squeezed(text: &str) -> String {
    text.replace(char::is_whitespace, "")
}

fn pdf(sheet: &RoofSheet, paper: Paper) -> Vec<u8> {
    let bytes = roof_sheet(sheet, &figures(sheet), JOB).unwrap().pdf(paper).unwrap();
    leave_to_look_at(sheet, paper, &bytes);
    bytes
}

/// Writes the paper where a person wants to see it: `DOSSIER_LOOK=<folder> cargo test -p dossier`.
fn leave_to_look_at(sheet: &RoofSheet, paper: Paper, bytes: &[u8]) {
    let Some(folder) = std::env::var_os("DOSSIER_LOOK") else { return };
    let name = format!("{}-{}-{}.pdf", sheet.planes.len(), sheet.head.title.len(), paper.name());
    std::fs::write(std::path::Path::new(&folder).join(name), bytes).unwrap();
}
