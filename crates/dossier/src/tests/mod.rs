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
    }
}

#[test]
fn each_plane_has_a_page_with_its_edges_and_openings() {
    let pages = pages(&sheet(), Paper::Letter);
    let of = |name: &str| {
        pages.iter().filter(|p| p.contains(&squeezed(&format!("Plane {name}")))).collect::<Vec<_>>()
    };
    for plane in sheet().planes {
        assert_eq!(of(&plane.name).len(), 1, "{}", plane.name);
    }
    assert!(of("main N")[0].contains("brickchimney"));
    assert!(of("porch")[0].contains("headwall") && !of("porch")[0].contains("chimney"));
}

#[test]
fn every_page_carries_the_strip() {
    let pages = pages(&sheet(), Paper::A4);
    for (i, page) in pages.iter().enumerate() {
        for word in ["Re-roofandicecure", "5b3f0c1d", "verifyonsite", &format!("{}of{}", i + 1, pages.len())]
        {
            assert!(page.contains(word), "{word} not on page {}", i + 1);
        }
    }
}

#[test]
fn assumed_values_carry_the_mark_and_measured_ones_do_not() {
    let pages = pages(&sheet(), Paper::Letter);
    assert!(pages[0].contains("1964◊"));
    assert!(!pages[0].contains("60psf◊"));
}

#[test]
fn markup_in_texts_is_printed_as_typed() {
    let hostile = r##"#panic("x") $x^2$ *bold* _it_ [a] #let \ `raw` <label> @ref ~ -- "q" 'q' // /* {{}} = #pdf.attach("/job.toml")"##;
    let mut sheet = sheet();
    sheet.title = hostile.into();
    sheet.planes[0].name = hostile.into();
    sheet.edges[0].from = hostile.into();
    sheet.quantities[0].because[0].inputs = hostile.into();
    sheet.cautions[0].text = hostile.into();
    sheet.site[0].value.text = hostile.into();
    let pages = pages(&sheet, Paper::Letter);
    let printed = pages.concat().matches(&squeezed(hostile)).count();
    assert!(printed >= 6, "printed {printed} times: {}", pages.concat());
    assert!(pdf(&sheet, Paper::Letter).len() > 10_000);
}

#[test]
fn long_and_foreign_names_are_printed_whole() {
    let mut sheet = sheet();
    sheet.title = "Żółć, Åse & naïve façade 屋根 🏠 \u{202E}gnp.exe\u{0} ".repeat(6);
    sheet.planes[0].name = "m".repeat(200);
    sheet.edges[0].planes = "Donaudampfschifffahrtsgesellschaft".repeat(4);
    sheet.edition = "e".repeat(300);
    sheet.author = "A. N. Author ".repeat(30);
    let pages = pages(&sheet, Paper::A4);
    let title = "Żółć,Åse&naïvefaçade⟨U+5C4B⟩⟨U+6839⟩⟨U+1F3E0⟩⟨U+202E⟩gnp.exe⟨U+0000⟩";
    assert!(pages[0].contains(&title.repeat(6)), "{}", pages[0]);
    assert!(pages.concat().contains(&"m".repeat(200)));
    assert!(pdf(&sheet, Paper::A4).len() > 10_000);
}

#[test]
fn empty_tables_say_so_and_export() {
    let sheet = empty_sheet();
    let text = pages(&sheet, Paper::Letter).concat();
    for words in ["Noedges.", "Noopeningsrecorded.", "Noquantities.", "None:everyvaluewasmeasured."] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(pdf(&sheet, Paper::Letter).len() > 10_000);
}

#[test]
fn sixty_planes_and_three_hundred_edges_run_over_many_pages_with_heads_repeated() {
    let sheet = large_sheet(60, 300);
    let pages = pages(&sheet, Paper::Letter);
    assert!(pages.len() > 60 + 5, "{} pages", pages.len());
    let edges: Vec<&String> = pages.iter().filter(|p| p.contains("From→to")).collect();
    assert!(edges.len() > 60 + 5, "{} pages with the head of the edge table", edges.len());
    assert!(pages.concat().contains("300valley") || pages.concat().contains("300eave"));
    assert!(pdf(&sheet, Paper::Letter).len() > 10_000);
}

#[test]
fn specimens_of_both_sheets_are_the_same_bytes_twice() {
    for paper in [Paper::Letter, Paper::A4] {
        assert!(pdf(&sheet(), paper) == pdf(&sheet(), paper), "{}", paper.name());
    }
}
