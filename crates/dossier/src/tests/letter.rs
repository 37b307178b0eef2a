//! What an owner sees: large letters, plain words, the numbers of the study.

use book::Book;
use detail::Attack;
use job::Job;
use study::Study;
use typst_layout::PagedDocument;

use super::{runs, squeezed, text_of};
use crate::view::letter::{letter, picture};
use crate::*;

const CROSS_GABLE: &str = include_str!("../../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");
const DAY: Prepared = Prepared { year: 2026, month: 11, day: 25 };

fn study(text: &str) -> Study {
    let books = Book::builtin();
    let (job, _) = Job::read(text, &books).unwrap();
    Study::of(&job, &books).unwrap()
}

fn laid_out(letter: &OwnerLetter, picture: &Drawing) -> PagedDocument {
    compose_letter(letter, picture, &[], CROSS_GABLE).unwrap().pages().unwrap()
}

fn texts(document: &PagedDocument) -> Vec<String> {
    document.pages().iter().map(|page| squeezed(&text_of(&page.frame))).collect()
}

#[test]
fn nothing_an_owner_reads_is_smaller_than_twelve_point() {
    for text in [CROSS_GABLE, SPLIT_LEVEL] {
        let study = study(text);
        let document = laid_out(&letter(&study, "5b3f", DAY), &picture(&study));
        let sizes = document.pages().iter().flat_map(|page| runs(&page.frame)).map(|(size, _)| size);
        let smallest = sizes.fold(f64::INFINITY, f64::min);
        assert!(smallest >= 12.0 - 1e-9, "{smallest} pt");
    }
}

#[test]
fn picture_stands_on_the_first_page_and_the_count_on_the_second() {
    let study = study(CROSS_GABLE);
    let pages = texts(&laid_out(&letter(&study, "5b3f", DAY), &picture(&study)));
    assert!(pages[0].contains("Wheretheraingoes") && pages[0].contains("Aringmarks"), "{}", pages[0]);
    assert!(pages[1].starts_with("Whatstandsbetweenwaterandwood"), "{}", pages[1]);
    for words in ["Whattheworkchanges", "Whatitdoesnotpromise", "Stayontheground", "Whodecides"] {
        assert!(pages[1..].concat().contains(words), "{words}");
    }
    for (i, page) in pages.iter().enumerate() {
        assert!(page.contains(&format!("{}of{}", i + 1, pages.len())), "page {}", i + 1);
    }
}

#[test]
fn numbers_of_the_letter_are_those_of_the_details() {
    let study = study(CROSS_GABLE);
    let water = letter(&study, "5b3f", DAY).water;
    let open = study.details.places.iter().filter(|place| {
        let found = place.found.as_ref();
        found.is_some_and(|fit| Attack::ALL.iter().any(|attack| fit.failures(*attack) == Some(0)))
    });
    let told = format!("at {} of the", open.count());
    assert!(water.changes[0].contains(&told), "{told}: {}", water.changes[0]);
    let end = water.places.iter().find(|place| place.name.contains("ends at the wall of “wing”")).unwrap();
    // Without a kick-out rain runs in behind the siding; steps, membrane and wrap or patch then hold it three deep. Behind ice the membrane is alone.
    let after = "3 layers; 1 layer against water that ice keeps back";
    assert_eq!((end.today.as_str(), end.after.as_str()), ("nothing", after));
}

#[test]
fn house_without_ring_is_not_told_of_one() {
    let study = study(SPLIT_LEVEL);
    let water = letter(&study, "5b3f", DAY).water;
    assert!(!water.picture.iter().any(|words| words.contains("ring")));
}

#[test]
fn markup_in_names_is_printed_as_typed_and_the_letter_exports() {
    let study = study(CROSS_GABLE);
    let mut letter = letter(&study, "5b3f", DAY);
    let hostile = r#"#panic("x") *bold* $x$ <label> @ref [a]"#;
    letter.head.title = hostile.into();
    letter.water.places[0].name = hostile.into();
    letter.water.changes.push(hostile.into());
    let picture = picture(&study);
    let pages = texts(&laid_out(&letter, &picture)).concat();
    assert_eq!(pages.matches(&squeezed(hostile)).count(), 3, "{pages}");
    let (once, again) = (0..2)
        .map(|_| owner_letter(&letter, &picture, &[], CROSS_GABLE).unwrap().pdf(Paper::A4).unwrap())
        .fold((None, None), |(_, last), bytes| (last, Some(bytes)));
    assert_eq!(once, again, "the same bytes");
}

#[test]
fn picture_that_is_too_large_is_refused() {
    let study = study(CROSS_GABLE);
    let mut picture = picture(&study);
    picture.svg = picture.svg.replacen("height=\"", "height=\"9", 1);
    let refused = owner_letter(&letter(&study, "5b3f", DAY), &picture, &[], CROSS_GABLE);
    assert!(matches!(refused, Err(DossierError::FigureTooLarge { .. })));
}

/// The same house in rain so hard that its gutters cannot take it; each is told with how many times too much it gets, by its own margin.
#[test]
fn gutters_that_are_too_small_are_told_and_others_are_not() {
    let mild = letter(&study(CROSS_GABLE), "5b3f", DAY).water.changes.concat();
    assert!(mild.contains("lead the water off the roof.") && !mild.contains("carries"), "{mild}");
    let study = study(&CROSS_GABLE.replace("rain = \"6.0 in/h\"", "rain = \"16.0 in/h\""));
    let hard = letter(&study, "5b3f", DAY).water.changes.concat();
    let mut over = 0;
    for (gutter, bearing) in study.drainage.gutters.iter().zip(&study.drainage.bearings) {
        let spouts = gutter.downspouts.iter().zip(&bearing.downspouts);
        let loads = spouts.map(|(spout, bearing)| (&spout.name, bearing.load));
        for (name, load) in std::iter::once((&gutter.name, bearing.load)).chain(loads) {
            let is_over = load.comes > load.rating;
            over += usize::from(is_over);
            let times = load.comes / load.rating;
            let much =
                if times < 1.05 { "a little more than".to_owned() } else { format!("{times:.1} times what") };
            let told = hard.contains(&format!("“{name}” gets {much} it carries"));
            assert_eq!(told, is_over, "{name}: {load:?} in {hard}");
        }
    }
    assert!(over > 0);
}

/// The steps lie under the one eave of the hip split level without a gutter.
#[test]
fn walk_under_a_free_eave_is_told_to_the_owner() {
    let changes = |text: &str| letter(&study(text), "5b3f", DAY).water.changes.concat();
    assert!(changes(SPLIT_LEVEL).contains("comes down on “front steps”"));
    assert!(!changes(CROSS_GABLE).contains("comes down on"));
}
