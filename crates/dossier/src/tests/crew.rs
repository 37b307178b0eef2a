//! What the crew sees: a page for each detail, large print, the sizes and hold points of the study.

use book::Book;
use job::Job;
use study::Study;
use typst_layout::PagedDocument;

use super::{runs, squeezed, text_of};
use crate::crew::compose_crew;
use crate::view::crew::contents;
use crate::*;

const CROSS_GABLE: &str = include_str!("../../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");
const DAY: Prepared = Prepared { year: 2026, month: 11, day: 25 };

fn study(text: &str) -> (Study, Book) {
    let books = Book::builtin();
    let (job, _) = Job::read(text, &books).unwrap();
    (Study::of(&job, &books).unwrap(), books)
}

fn laid_out(text: &str) -> (CrewBook, PagedDocument) {
    let (study, books) = study(text);
    let (book, key, sections) = contents(&study, &books, "5b3f", DAY).unwrap();
    let document = compose_crew(&book, &key, &sections, text).unwrap().pages().unwrap();
    (book, document)
}

fn texts(document: &PagedDocument) -> Vec<String> {
    document.pages().iter().map(|page| squeezed(&text_of(&page.frame))).collect()
}

#[test]
fn nothing_the_crew_reads_is_smaller_than_fourteen_point() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (_, document) = laid_out(text);
        for page in document.pages() {
            let words = text_of(&page.frame);
            let small: Vec<String> = runs(&page.frame)
                .into_iter()
                .filter(|(size, _)| *size < 13.99)
                .map(|(_, text)| text)
                .collect();
            // the strip of the frame alone: what the paper is, for whoever files it
            assert!(small.concat().starts_with("Crew book"), "{small:?} on {words}");
        }
    }
}

#[test]
fn every_detail_that_is_built_has_its_page_with_all_its_layers_and_hold_points() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (study, books) = study(text);
        let (book, document) = laid_out(text);
        let all = texts(&document).concat();
        for built in study.details.built() {
            let detail = books.detail(&built.fit.detail).unwrap();
            let page = book.pages.iter().find(|page| page.name == detail.name).unwrap();
            assert_eq!(page.layers.len(), detail.layers.len());
            let told =
                detail.hold.iter().map(|hold| &hold.photo).chain(detail.layers.iter().map(|layer| &layer.id));
            for words in told {
                assert!(all.contains(&squeezed(words)), "{words} of {}", detail.name);
            }
        }
        let holds = study.details.holds(&books);
        let numbers = book.pages.iter().flat_map(|page| &page.holds).map(|hold| hold.number).max();
        assert_eq!(numbers, Some(holds.len()), "each hold point has one number");
    }
}

#[test]
fn sizes_alike_at_all_places_stand_once_and_the_others_in_a_table() {
    let (book, _) = laid_out(CROSS_GABLE);
    let valley = book.pages.iter().find(|page| page.name == "open metal valley").unwrap();
    assert_eq!(valley.at, "edges 16, 17");
    assert_eq!((valley.heads.as_slice(), valley.places.len()), (["other".to_owned()].as_slice(), 2));
    let one = valley.sizes.iter().find(|fact| fact.label == "one (laid first)").unwrap();
    assert_eq!(one.value.text, "main S");
    let length = valley.sizes.iter().find(|fact| fact.label == "length").unwrap();
    assert_eq!(length.value.text, "17' 4 1/4\"");
    let ridge = book.pages.iter().find(|page| page.name == "ridge with continuous vent").unwrap();
    let column = ridge.heads.iter().position(|head| head == "slot, length").unwrap();
    let slots: Vec<&str> = ridge.places.iter().map(|row| row.sizes[column].text.as_str()).collect();
    assert_eq!(slots, ["20'", "38'"]);
}

#[test]
fn numbers_of_layers_are_those_of_the_details() {
    let (book, _) = laid_out(CROSS_GABLE);
    let end = book.pages.iter().find(|page| page.name.starts_with("roof end at a wall")).unwrap();
    let rain = &end.stands[0];
    assert_eq!(
        (rain.attack.as_str(), rain.found.text.as_str(), rain.built.as_str()),
        ("running rain", "0", "3")
    );
    let sill = book.pages.iter().find(|page| page.name == "skylight, sill").unwrap();
    assert_eq!(sill.stands[0].found.text, "new");
}

#[test]
fn markup_in_names_is_printed_as_typed_and_a_section_too_few_is_refused() {
    let (study, books) = study(CROSS_GABLE);
    let (mut book, key, mut sections) = contents(&study, &books, "5b3f", DAY).unwrap();
    let hostile = r#"#panic("x") *bold* $x$ <label> @ref [a]"#;
    book.pages[0].note = hostile.into();
    book.pages[0].layers[0].name = hostile.into();
    let document = compose_crew(&book, &key, &sections, "").unwrap().pages().unwrap();
    assert_eq!(texts(&document).concat().matches(&squeezed(hostile)).count(), 2);
    sections.pop();
    let refused = crew_book(&book, &key, &sections, "");
    assert!(matches!(refused, Err(DossierError::SectionDrawings { .. })));
}

/// Numbers on the plan, in the list and at the head of the pages are the same; the first detail of either house is the eave.
#[test]
fn numbers_of_details_lead_from_the_plan_to_the_page() {
    let (study, books) = study(CROSS_GABLE);
    let (book, key, _) = contents(&study, &books, "5b3f", DAY).unwrap();
    let count = |text: &str| key.svg.matches(&format!(">{text}</text>")).count();
    assert_eq!(count("4"), 2, "two valleys");
    let of_chimney = |page: &DetailPage| page.name.starts_with("chimney");
    let first = book.pages.iter().position(of_chimney).unwrap() + 1;
    let last = book.pages.iter().rposition(of_chimney).unwrap() + 1;
    assert!(last >= first + 2, "at least three sides of the chimney");
    assert_eq!(count(&format!("{first}–{last}")), 1);
    let (_, document) = laid_out(CROSS_GABLE);
    let pages = texts(&document);
    for (i, page) in book.pages.iter().enumerate() {
        let head = squeezed(&format!("{}{}", i + 1, page.name));
        assert!(pages[2..].iter().any(|text| text.contains(&head)), "{head}");
        assert!(pages[0].contains(&head), "{head}");
    }
}

#[test]
fn siding_nobody_wrote_down_is_marked_on_the_page_of_its_wall() {
    let known = laid_out(CROSS_GABLE).0;
    let unknown = CROSS_GABLE.replace("[walls.wing]\nsiding = \"cedar-bevel\"\n", "[walls.wing]\n");
    let (book, _) = laid_out(&unknown);
    let marked = |book: &CrewBook| {
        let sizes = book.pages.iter().flat_map(|page| &page.sizes);
        sizes
            .filter(|fact| fact.label.starts_with("siding at"))
            .map(|fact| fact.value.clone())
            .collect::<Vec<_>>()
    };
    assert_eq!(marked(&known), vec![]);
    let marked = marked(&book);
    assert!(!marked.is_empty() && marked.iter().all(|value| *value == Stated::assumed("lap")), "{marked:?}");
}

/// Roof vents stand by four hips; their distances are two columns, not one for each hip.
#[test]
fn distances_from_edges_share_a_column_whichever_edge_it_is() {
    let (book, _) = laid_out(SPLIT_LEVEL);
    let vents = book.pages.iter().find(|page| page.name == "roof vent").unwrap();
    let heads: Vec<&String> = vents.heads.iter().filter(|head| head.starts_with("centre")).collect();
    assert_eq!(heads, ["centre, down the slope", "centre, across"]);
    let north_west = vents.places.iter().find(|row| row.name == "vent north-west").unwrap();
    let told: Vec<&str> =
        north_west.sizes.iter().map(|size| size.text.as_str()).filter(|t| t.contains("from")).collect();
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(told.iter().all(|text| text.contains(" from edge ")), "{told:?}");
}

/// Whatever the roof, a valley has one pair of columns for its two sides, and each side the name of a plane beside it.
#[test]
fn the_sides_of_valleys_and_ridges_are_named() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let (study, _) = study(text);
        let (book, _) = laid_out(text);
        let sided = ["valley", "ridge", "hip"];
        let pages: Vec<&DetailPage> =
            book.pages.iter().filter(|page| sided.iter().any(|word| page.name.contains(word))).collect();
        assert!(!pages.is_empty());
        let planes: Vec<&str> = study.roof.planes.iter().map(|plane| plane.name.as_str()).collect();
        for page in pages {
            let names = |label: &str| -> Vec<String> {
                let same = page.sizes.iter().filter(|fact| fact.label == label).map(|fact| &fact.value.text);
                let column = page.heads.iter().position(|head| head == label);
                let own = page.places.iter().filter_map(|row| Some(&row.sizes[column?].text));
                same.chain(own).cloned().collect()
            };
            for label in ["one (laid first)", "other"] {
                let names = names(label);
                assert!(!names.is_empty(), "{label} of {}", page.name);
                assert!(names.iter().all(|name| planes.contains(&name.as_str())), "{names:?}");
            }
            let angles = page.heads.iter().filter(|head| head.starts_with("in plan off the eave")).count();
            assert!(angles <= 2, "{}: {:?}", page.name, page.heads);
        }
    }
}

/// A roll of 36 in with side laps of 3 1/2 in: one course covers 36 in, two 68 1/2 in; the underlayment laps 6 in over them (edges.toml).
#[test]
fn underlayment_begins_where_the_courses_of_this_house_end() {
    let (book, _) = laid_out(CROSS_GABLE);
    let eave = &book.pages[0];
    let row = eave.layers.iter().find(|row| row.name == "underlayment").unwrap();
    assert!(!row.told.contains("24 in to 36 in"), "{}", row.told);
    let told = |label: &str| -> Vec<Option<String>> {
        let same = eave.sizes.iter().find(|fact| fact.label == label).map(|fact| fact.value.text.clone());
        let column = eave.heads.iter().position(|head| head == label);
        let rows = eave.places.iter().map(|row| column.map(|column| row.sizes[column].text.clone()));
        rows.map(|own| own.or_else(|| same.clone()).filter(|text| text != "–")).collect()
    };
    let begins = told("underlayment begins, up the slope");
    let courses = told("ice barrier, courses");
    assert_eq!(begins.len(), 6);
    // where a plane is covered whole, no strip is laid at its eave
    for (begins, courses) in begins.iter().zip(&courses) {
        assert_eq!(begins.as_deref(), courses.as_ref().map(|_| "5' 2 1/2\""), "{courses:?}");
    }
    assert_eq!(courses.iter().flatten().count(), 5);
}
