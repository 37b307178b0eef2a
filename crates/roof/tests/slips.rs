//! Slips of the pen in jobs: what cannot be is refused, what hardly can be is told.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod houses;

use book::Book;
use houses::Rect;
use job::Job;
use roof::Roof;

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");

/// What is said of the cross-gable with windows in the wall over its porch, whose roof meets it at 9' 3" under a plate at 17 ft.
fn said(windows: &[(&str, &str, &str, &str)]) -> Vec<String> {
    let books = Book::builtin();
    let (mut job, _) = Job::read(CROSS_GABLE, &books).unwrap();
    let written: Vec<String> = windows
        .iter()
        .map(|(name, at, width, sill)| {
            format!("[[window]]\nname = \"{name}\"\nwall = \"main south\"\nat = \"{at}\"\nwidth = \"{width}\"\nsill = \"{sill}\"\n")
        })
        .collect();
    let (with, _) = Job::read(&format!("{CROSS_GABLE}\n{}", written.concat()), &books).unwrap();
    job.windows =
        with.windows.into_iter().filter(|w| windows.iter().any(|(name, ..)| w.name == *name)).collect();
    let problems = Roof::of(&job, &books).err().unwrap_or_default();
    problems.into_iter().map(|p| format!("{}: {}", p.code, p.message)).collect()
}

#[test]
fn a_window_begins_below_the_top_of_its_wall() {
    assert_eq!(said(&[("hall", "4'", "3'", "7' 8\\\"")]), [""; 0]);
    let wanted = "window-over-wall: window `hall` begins 3\" above the top of the wall `main south`";
    assert_eq!(said(&[("hall", "4'", "3'", "8'")]), [wanted]);
}

#[test]
fn windows_take_no_place_twice() {
    let wanted = "windows-overlap: windows `one` and `two` overlap in their wall";
    assert_eq!(said(&[("one", "4'", "3'", "2'"), ("two", "6'", "3'", "2'")]), [wanted]);
    assert_eq!(said(&[("one", "4'", "3'", "2'"), ("two", "7'", "3'", "2'")]), [""; 0]);
    // one above the other
    assert_eq!(said(&[("one", "4'", "3'", "2'"), ("two", "6'", "3'", "5'")]), [""; 0]);
}

fn warned(rects: &[Rect]) -> Vec<String> {
    let blocks: Vec<_> = rects.iter().map(Rect::block).collect();
    let roof = Roof::of_blocks(&blocks).unwrap();
    let doubled = roof.warnings.iter().filter(|w| ["block-doubled", "block-buried"].contains(&w.code));
    doubled.map(|w| w.message.clone()).collect()
}

#[test]
fn a_block_that_is_another_ones_double_is_told() {
    let main = Rect::new("main", [0.0, 0.0], [40.0, 26.0], 9.0).pitches([Some(6.0), None, Some(6.0), None]);
    let twin = Rect { name: "twin", ..main.clone() };
    let wanted = "block `twin` adds nothing: what shows of its roof is the roof of `main` too";
    assert_eq!(warned(&[main.clone(), twin]), [wanted]);
    // a part of the house written again, whichever comes first
    let part = Rect { name: "part", size: [20.0, 26.0], ..main.clone() };
    let wanted = "block `part` adds nothing: what shows of its roof is the roof of `main` too";
    assert_eq!(warned(&[main.clone(), part.clone()]), [wanted]);
    assert_eq!(warned(&[part, main.clone()]), [wanted]);
    let longer = Rect { name: "longer", at: [20.0, 0.0], ..main.clone() };
    assert_eq!(warned(&[main.clone(), longer]), [""; 0]);
    let low = Rect::new("low", [5.0, 5.0], [10.0, 10.0], 6.0).pitches([Some(2.0), None, Some(2.0), None]);
    let buried = warned(&[main, low]);
    assert!(buried[0].starts_with("nothing of block `low` shows"), "{buried:?}");
}
