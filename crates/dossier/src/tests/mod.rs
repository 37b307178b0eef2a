//! Whole papers: what a reader sees, what a program reads back, what hostile text does.

mod fixture;

use fixture::{JOB, empty_sheet, figures, large_sheet, sheet};
use typst::layout::{Frame, FrameItem};

use crate::*;

/// Text of each page as laid out, spaces and break places left out.
fn pages(sheet: &RoofSheet, paper: Paper) -> Vec<String> {
    let compositor = compose(sheet, &figures(sheet, paper), JOB, paper).unwrap();
    let document = compositor.pages().unwrap();
    document.pages().iter().map(|page| squeezed(&text_of(&page.frame))).collect()
}

fn text_of(frame: &Frame) -> String {
    let text = |(_, item): &(_, FrameItem)| match item {
        FrameItem::Group(group) => text_of(&group.frame),
        FrameItem::Text(run) => run.text.to_string(),
        _ => String::new(),
    };
    frame.items().map(text).collect()
}

fn squeezed(text: &str) -> String {
    text.replace(|c: char| c.is_whitespace() || c == '\u{200B}', "")
}

fn pdf(sheet: &RoofSheet, paper: Paper) -> Vec<u8> {
    let bytes = roof_sheet(sheet, &figures(sheet, paper), JOB, paper).unwrap();
    leave_to_look_at(sheet, paper, &bytes);
    bytes
}

/// Writes the paper where a person wants to see it: `DOSSIER_LOOK=/tmp/look cargo test -p dossier`.
fn leave_to_look_at(sheet: &RoofSheet, paper: Paper, bytes: &[u8]) {
    let Some(folder) = std::env::var_os("DOSSIER_LOOK") else { return };
    let name = format!("{}-{}-{}.pdf", sheet.planes.len(), sheet.title.len(), paper.name());
    std::fs::write(std::path::Path::new(&folder).join(name), bytes).unwrap();
}

#[test]
fn plan_and_key_numbers_share_page_one_and_view_and_planes_page_two_on_both_sheets() {
    for paper in [Paper::Letter, Paper::A4] {
        let pages = pages(&sheet(), paper);
        for word in ["IRC2018", "17.50", "104′-25/8″", "valleys34′-81/2″", "1,543.9ft²"] {
            assert!(pages[0].contains(word), "{word} not on page 1 of {}: {}", paper.name(), pages[0]);
        }
        assert!(pages[1].contains("Allplanes"), "{}: {}", paper.name(), pages[1]);
        assert_eq!(pages.iter().filter(|p| p.contains("truelengths") || p.contains("Planewing")).count(), 2);
    }
}

#[test]
fn specimens_of_both_sheets_export() {
    for paper in [Paper::Letter, Paper::A4] {
        assert!(pdf(&sheet(), paper).starts_with(b"%PDF-1.7"));
    }
}
