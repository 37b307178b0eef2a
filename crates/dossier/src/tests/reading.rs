//! What a reader sees on the laid-out pages.

use super::fixture::{empty_sheet, figures, large_sheet, sheet};
use super::{pages, pdf, squeezed};
use crate::*;

#[test]
fn plan_and_key_numbers_share_page_one_and_view_and_planes_page_two() {
    let pages = pages(&sheet());
    for word in ["IRC2018", "17.50", "104′-25/8″", "valleys34′-81/2″", "1,543.9ft²"] {
        assert!(pages[0].contains(word), "{word} not on page 1: {}", pages[0]);
    }
    assert!(pages[1].contains("Allplanes"), "{}", pages[1]);
}

#[test]
fn each_plane_has_a_page_with_its_edges() {
    let pages = pages(&sheet());
    let of = |name: &str| {
        pages.iter().filter(|p| p.contains(&squeezed(&format!("Plane {name}")))).collect::<Vec<_>>()
    };
    for plane in sheet().planes {
        assert_eq!(of(&plane.name).len(), 1, "{}", plane.name);
    }
    assert!(of("porch")[0].contains("headwall") && !of("main N")[0].contains("headwall"));
}

#[test]
fn every_page_carries_the_strip() {
    let pages = pages(&sheet());
    for (i, page) in pages.iter().enumerate() {
        for word in ["Re-roofandicecure", "5b3f0c1d", "verifyonsite", &format!("{}of{}", i + 1, pages.len())]
        {
            assert!(page.contains(word), "{word} not on page {}", i + 1);
        }
    }
}

#[test]
fn assumed_values_carry_the_mark_and_measured_ones_do_not() {
    let pages = pages(&sheet());
    assert!(pages[0].contains("1964◊"));
    assert!(!pages[0].contains("60psf◊"));
}

#[test]
fn markup_in_texts_is_printed_as_typed() {
    let hostile = r#"#panic("x") $x^2$ *bold* _it_ [a] #let \ `raw` <label> @ref ~ -- "q" 'q' // /* {{}} = #pdf.attach("/job.toml")"#;
    let mut sheet = sheet();
    sheet.head.title = hostile.into();
    sheet.planes[0].name = hostile.into();
    sheet.edges[0].from = hostile.into();
    sheet.quantities[0].because[0].inputs = hostile.into();
    sheet.cautions[0].text = hostile.into();
    sheet.site[0].value.text = hostile.into();
    let pages = pages(&sheet);
    let printed = pages.concat().matches(&squeezed(hostile)).count();
    assert!(printed >= 6, "printed {printed} times: {}", pages.concat());
    assert!(pdf(&sheet, Paper::Letter).len() > 10_000);
}

#[test]
fn long_and_foreign_names_are_printed_whole() {
    let mut sheet = sheet();
    sheet.head.title = "Żółć, Åse & naïve façade 屋根 🏠 \u{202E}gnp.exe\u{0} ".repeat(6);
    sheet.planes[0].name = "m".repeat(200);
    sheet.edges[0].planes = "Donaudampfschifffahrtsgesellschaft".repeat(4);
    let pages = pages(&sheet);
    let title = "Żółć,Åse&naïvefaçade⟨U+5C4B⟩⟨U+6839⟩⟨U+1F3E0⟩⟨U+202E⟩gnp.exe⟨U+0000⟩";
    assert!(pages[0].contains(&title.repeat(6)), "{}", pages[0]);
    assert!(pages.concat().contains(&"m".repeat(200)));
    assert!(pdf(&sheet, Paper::A4).len() > 10_000);
}

#[test]
fn empty_tables_say_so_and_export() {
    let sheet = empty_sheet();
    let text = pages(&sheet).concat();
    for words in ["Noedges.", "Noopeningsrecorded.", "Noquantities.", "None:everyvaluewasmeasured."] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(pdf(&sheet, Paper::Letter).len() > 10_000);
}

#[test]
fn sixty_planes_and_three_hundred_edges_run_over_many_pages_with_heads_repeated() {
    let sheet = large_sheet(60, 300);
    let pages = pages(&sheet);
    assert!(pages.len() > 60 + 5, "{} pages", pages.len());
    let edges: Vec<&String> = pages.iter().filter(|p| p.contains("SlopeBetween")).collect();
    assert!(edges.len() > 60 + 5, "{} pages with the head of the edge table", edges.len());
    assert!(pages.concat().contains("300valley") || pages.concat().contains("300eave"));
    assert!(pdf(&sheet, Paper::Letter).len() > 10_000);
}

#[test]
fn page_one_still_holds_plan_and_numbers_with_a_two_line_title_and_two_rows_of_facts() {
    let mut sheet = sheet();
    sheet.head.title =
        "Re-roof, ice cure and new porch roof at the house with the long name, second survey".into();
    sheet.site.extend(sheet.site.clone());
    assert!(pages(&sheet)[0].contains("eaves104′-25/8″"));
}

#[test]
fn drawings_are_printed_at_the_size_they_state() {
    let sheet = sheet();
    let room = Room::PLAN;
    let compositor = compose(&sheet, &figures(&sheet), "").unwrap();
    let page = compositor.pages().unwrap().pages()[0].frame.clone();
    let sizes = super::image_sizes(&page);
    assert_eq!(sizes.len(), 1);
    assert!(
        (sizes[0].0 - room.width_mm).abs() < 0.05 && (sizes[0].1 - room.height_mm).abs() < 0.05,
        "{sizes:?} {room}"
    );
}

#[test]
fn no_page_of_ours_says_safe() {
    let text = pages(&sheet()).concat().to_lowercase();
    assert!(!text.contains("safe"));
}

#[test]
fn nothing_is_set_smaller_than_its_place_allows() {
    let sheet = sheet();
    let compositor = compose(&sheet, &figures(&sheet), "").unwrap();
    for page in compositor.pages().unwrap().pages() {
        // Labels of the strip are 7.5 pt; everything that informs is 8.5 pt or more.
        let small =
            super::runs(&page.frame).into_iter().filter(|(size, _)| *size < 8.49).map(|(_, text)| text);
        let labels = ["Roof sheet", "prepared", "job document", "before you cut or order", "page"];
        for text in small {
            assert!(labels.contains(&text.as_str()), "{text} is set too small");
        }
    }
}
