//! Places water cannot leave by itself: no flashing is ordered for them, and what they need is told in the words of the books.

mod jobs;

use book::Book;
use jobs::made::{House, Made};
use jobs::{BOOKS, count_with};
use takeoff::Amount;

/// The books with another word for one rule.
fn saying(rule: &str, word: &str) -> Book {
    let row = format!(
        "[[rule]]\nid = \"{rule}\"\nwhat = \"what it needs\"\nvalue.word = \"{word}\"\n\
         source = {{ text = \"town practice\", confidence = \"common-practice\" }}\n"
    );
    Book::with_overlays(&[("town.toml", &row)]).expect("a sound overlay")
}

/// A tall block and a shed in front of its south wall that falls towards it.
fn falling_against_a_wall() -> String {
    let mut house = House::plain(r#"{ form = "gable", ridge = "x", pitch = "6/12" }"#, 1.0);
    house.blocks[0].plate = 20.0;
    let shed = r#"{ form = "shed", high = "south", pitch = "3/12" }"#;
    house.blocks.push(Made::new("lean", [10.0, -8.0], [12.0, 8.0], shed, 1.0, 1.0));
    house.document()
}

/// Two gables side by side with their eaves at one wall.
fn side_by_side() -> String {
    let gable = r#"{ form = "gable", ridge = "x", pitch = "6/12" }"#;
    let mut house = House::plain(gable, 1.0);
    house.blocks.push(Made::new("twin", [0.0, 28.0], [40.0, 28.0], gable, 1.0, 1.0));
    house.document()
}

#[test]
fn a_wall_at_the_foot_of_a_plane_is_refused_with_what_the_books_say_it_needs() {
    for (book, needs) in [
        (&*BOOKS, "a cricket or a lined gutter"),
        (&saying("back-wall.needs", "a saddle of sheet metal"), "a saddle of sheet metal"),
    ] {
        let house = count_with(&falling_against_a_wall(), book);
        let Amount::Refused(reason) = &house.line("back-wall").amount else { panic!("not refused") };
        assert!(reason.contains(needs), "{reason}");
        assert!(house.why("back-wall").contains("practice"), "{}", house.why("back-wall"));
    }
}

#[test]
fn a_level_valley_carries_a_caution_with_what_the_books_say_it_needs() {
    for (book, needs) in [
        (&*BOOKS, "a lined gutter or a cricket"),
        (&saying("level-valley.needs", "a tapered saddle"), "a tapered saddle"),
    ] {
        let why = count_with(&side_by_side(), book).why("valley-metal");
        assert!(why.contains("dead valley") && why.contains(needs), "{why}");
    }
}
