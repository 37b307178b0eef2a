//! What details measure on the two example houses, against the figures of their description and against hand-worked ones.

use book::{Book, Spot};
use detail::{Details, Place};
use job::Job;
use roof::Roof;
use takeoff::{Dimension, Size, Takeoff, dimensions};
use water::Drainage;

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../examples/hip-split-level.toml");

fn measured(text: &str) -> Vec<(Place, Vec<Dimension>)> {
    let book = Book::builtin();
    let (job, _) = Job::read(text, &book).expect("a sound job");
    let roof = Roof::of(&job, &book).expect("a roof");
    let details = Details::of(&roof, &job, &book).expect("details");
    let takeoff = Takeoff::of(&roof, &job, &book).expect("a takeoff");
    let hung = water::hang(&roof, &job.gutters, job.units).expect("gutters");
    let drainage = Drainage::of(&roof, &hung, &[], job.site.rain.value, &book).expect("drainage");
    let all = dimensions(&details, &takeoff, &drainage, &roof, &job, &book).expect("dimensions");
    assert_eq!(all.len(), details.places.len());
    details.places.into_iter().zip(all).collect()
}

/// The sizes so called at all places of a spot.
fn sizes(house: &[(Place, Vec<Dimension>)], spot: Spot, what: &str) -> Vec<Size> {
    let at = house.iter().filter(|(place, _)| place.spot == spot);
    at.flat_map(|(_, all)| all).filter(|one| one.what == what).map(|one| one.size).collect()
}

fn inches(size: Size) -> f64 {
    let Size::Length(length) = size else { panic!("{size:?}") };
    length.inches()
}

fn close(found: &[Size], wanted: &[f64]) {
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (size, wanted) in found.iter().zip(wanted) {
        assert!((inches(*size) - wanted).abs() < 0.005, "{size:?} is not {wanted} in");
    }
}

/// 20 steps along the porch, 5 a side at the chimney, 9 at the skylight; slots of 20 and 38 ft; 44.72 and 43.33 in of ice barrier in two courses: from
/// the description of the house.
#[test]
fn counts_and_lengths_are_those_of_the_description() {
    let house = measured(CROSS_GABLE);
    assert_eq!(sizes(&house, Spot::Sidewall, "step pieces"), [Size::Count(20)]);
    assert_eq!(sizes(&house, Spot::ChimneySide, "step pieces on each side"), [Size::Count(5)]);
    assert_eq!(sizes(&house, Spot::SkylightSide, "step pieces on each side"), [Size::Count(9)]);
    close(&sizes(&house, Spot::Ridge, "slot, length"), &[240.0, 456.0]);
    let asked = [43.333, 43.333, 44.721, 44.721, 44.721];
    let reaches = sizes(&house, Spot::Eave, "ice barrier up the slope, at least");
    assert_eq!(reaches[0], Size::Whole, "the porch at 3/12");
    close(&reaches[1..], &asked);
    assert_eq!(sizes(&house, Spot::Eave, "ice barrier, courses"), [Size::Count(2); 5]);
}

/// Worked by hand: an opening of 6 in and 1/8 in to each of 17.356 ft; the planes' normals (-1/2 across, 3/4 along) meet at
/// acos(1 / (1.118 × 1.25)) = 44.3°; 80 in of rise in 192.3 in of run falls 4.99/12.
#[test]
fn a_valley_widens_falls_and_bends_as_its_planes_meet() {
    let house = measured(CROSS_GABLE);
    close(&sizes(&house, Spot::Valley, "open at the top"), &[6.0; 2]);
    close(&sizes(&house, Spot::Valley, "open at the bottom"), &[6.0 + 17.356 / 8.0; 2]);
    for (size, fall) in sizes(&house, Spot::Valley, "bend of the metal").into_iter().zip(sizes(
        &house,
        Spot::Valley,
        "fall along the valley",
    )) {
        let (Size::Angle(degrees), Size::Pitch(pitch)) = (size, fall) else { panic!("{size:?} {fall:?}") };
        let wanted = (1.0 / (1.25_f64.sqrt() * 1.25)).acos().to_degrees();
        assert!((degrees - wanted).abs() < 1e-9, "{degrees}");
        assert!((pitch.slope() - 6.6667 / 16.025).abs() < 1e-4, "{pitch}");
    }
    close(&sizes(&house, Spot::Valley, "strip on one, cut width"), &[36.0; 2]);
}

/// The siding is cut 9 1/4 in square to the deck, as the trim board below it is wide; at 3/12 that is 9 1/4 × 1.0308 plumb. It is loosened up to
/// 14 in, for the wrap: 27 in of rise and that cross (27 + 14 × 1.0308) / 6 1/2 = 6.37 courses; over the porch, 14 / 6 1/2 = 2.15.
#[test]
fn siding_is_sawn_parallel_to_the_roof() {
    let house = measured(CROSS_GABLE);
    close(&sizes(&house, Spot::Sidewall, "siding cut, square to the deck"), &[9.25]);
    close(&sizes(&house, Spot::Sidewall, "siding cut, plumb above the deck"), &[9.25 * 1.030_776]);
    close(&sizes(&house, Spot::Sidewall, "siding off or loosened, up to"), &[14.0]);
    assert_eq!(
        sizes(&house, Spot::Sidewall, "courses of siding cut, loosened or taken off"),
        [Size::Count(7)]
    );
    close(&sizes(&house, Spot::Headwall, "siding cut, plumb above the deck"), &[9.25]);
    assert_eq!(
        sizes(&house, Spot::Headwall, "courses of siding cut, loosened or taken off"),
        [Size::Count(3)]
    );
}

/// Gutters of 5 in hang 1/2 in below the deck; 1/2 in below a back no higher than that is 6 in down the fascia. One of 6 in takes 7 in; and none goes on
/// past the fascia.
#[test]
fn the_metal_behind_a_gutter_goes_by_the_gutter_and_the_fascia() {
    let all = |gutter: &str, fascia: &str| {
        let text = SPLIT_LEVEL.replace("kind = \"k-style-6\"", "kind = \"k-style-5\"");
        let text = text.replace("kind = \"k-style-5\"", &format!("kind = \"{gutter}\""));
        let text = text.replace("fascia = \"6 in\"", &format!("fascia = \"{fascia}\""));
        sizes(&measured(&text), Spot::Eave, "flashing behind gutter, down the fascia")
    };
    let as_is = all("k-style-5", "6 in");
    assert!(!as_is.is_empty());
    for (gutter, fascia, down) in [
        ("k-style-5", "6 in", 6.0),
        ("k-style-6", "6 in", 6.0),
        ("k-style-6", "8 in", 7.0),
        ("k-style-5", "8 in", 6.0),
    ] {
        close(&all(gutter, fascia), &vec![down; as_is.len()]);
    }
}

/// 32 in of chimney at 6/12: height 32 / 4, level ridge 32 / 2, valleys of 16 in of run at 1.5 in to the inch (IRC Table R1003.20 for the height).
#[test]
fn the_cricket_is_a_quarter_of_the_chimneys_width_high_at_6_12() {
    let house = measured(CROSS_GABLE);
    close(&sizes(&house, Spot::ChimneyHigh, "cricket, height at the chimney"), &[8.0]);
    close(&sizes(&house, Spot::ChimneyHigh, "cricket, level ridge"), &[16.0]);
    close(&sizes(&house, Spot::ChimneyHigh, "cricket, each valley"), &[24.0]);
}

#[test]
fn kick_outs_stand_where_eaves_end_at_walls() {
    let house = measured(CROSS_GABLE);
    close(&sizes(&house, Spot::KickOut, "foot, east of the origin"), &[240.0]);
    close(&sizes(&house, Spot::KickOut, "foot, south of the origin"), &[108.0]);
    close(&sizes(&house, Spot::KickOut, "gutter ends short of the wall"), &[1.0]);
    let split = measured(SPLIT_LEVEL);
    assert_eq!(sizes(&split, Spot::KickOut, "kick-out up the wall's foot").len(), 2);
}

/// Schedule 40 pipe called 3 in is 3 1/2 in over all, 2 in is 2 3/8 in.
#[test]
fn boots_go_by_the_outside_of_the_pipe() {
    let house = measured(CROSS_GABLE);
    close(&sizes(&house, Spot::Pipe, "boot for an outside diameter of"), &[3.5, 2.375]);
}

/// A longer exposure makes the step pieces longer and fewer; a wider siding fewer courses to cut.
#[test]
fn dimensions_follow_the_job() {
    let text = CROSS_GABLE.replace("exposure = \"5 5/8 in\"", "exposure = \"6 in\"");
    let house = measured(&text);
    assert_eq!(sizes(&house, Spot::Sidewall, "step pieces"), [Size::Count(19)]);
    close(&sizes(&house, Spot::Sidewall, "step piece, length at least"), &[8.0]);
}

/// Worked by hand: the wall of the wing stands over the porch from 7 ft to 9 ft 3 in (9 ft of run at 3/12) up to its roof at 17 ft: 9 × 8 7/8 =
/// 79.9 ft², of which half counts (rule `wall.share`); 6 in/h on 96.25 ft² are 6 gpm. A low end 4 in out in 6 in of run turns aside by 33.7°.
#[test]
fn a_kick_out_has_its_sizes_and_the_water_it_must_pass() {
    let house = measured(CROSS_GABLE);
    close(&sizes(&house, Spot::KickOut, "wall leg high, at least"), &[6.0]);
    close(&sizes(&house, Spot::KickOut, "low end off the wall, at least"), &[4.0]);
    let [Size::Angle(turned)] = sizes(&house, Spot::KickOut, "turned off the wall by, at least")[..] else {
        panic!("an angle")
    };
    assert!((turned - 33.690_1).abs() < 1e-3, "{turned}");
    let what = "comes down the wall at the design rain";
    let [Size::Flow(flow)] = sizes(&house, Spot::KickOut, what)[..] else { panic!("a flow") };
    assert!((flow.gpm() - 0.5 * 79.875 * 6.0 / 96.25).abs() < 1e-3, "{flow:?}");
}

/// Worked by hand from the job: the chimney's middle is 4 ft in plan from the ridge and 13 ft from the rake, the stack 7 ft and 15 ft; √1.25 along the
/// slope at 6/12, less half of 24 in in plan, and half of 32 in across.
#[test]
fn openings_are_chalked_down_from_the_ridge_and_across_from_a_rake() {
    let house = measured(CROSS_GABLE);
    let factor = 1.25_f64.sqrt();
    let starting = |spot: Spot, start: &str| {
        let at = house.iter().filter(|(place, _)| place.spot == spot);
        let found = at.flat_map(|(_, all)| all).filter(|one| one.what.starts_with(start));
        found.map(|one| one.size).collect::<Vec<_>>()
    };
    close(&starting(Spot::ChimneyLow, "top, down the slope from edge"), &[(48.0 - 12.0) * factor]);
    close(&starting(Spot::ChimneyLow, "near side, across from edge"), &[13.0 * 12.0 - 16.0]);
    close(&starting(Spot::Pipe, "centre, down the slope from edge"), &[84.0 * factor, 66.0 * factor]);
    close(&starting(Spot::Pipe, "centre, across from edge"), &[180.0, 84.0]);
    close(&sizes(&house, Spot::SkylightHigh, "head saddle, across"), &[30.5 + 8.0]);
    close(&sizes(&house, Spot::ChimneyHigh, "metal at the back, across"), &[32.0 + 12.0]);
    close(
        &sizes(&house, Spot::Pipe, "boot, along the slope at least"),
        &[3.5 * factor + 11.0, 2.375 * factor + 11.0],
    );
}

/// A chimney moved into the valley has two planes above it: what one of them would give is not told.
#[test]
fn a_cricket_in_a_valley_has_no_sizes_of_one_plane() {
    let text = CROSS_GABLE.replace("at = [\"12'\", \"17'\"]", "at = [\"22'\", \"3'\"]");
    let house = measured(&text);
    let told = sizes(&house, Spot::ChimneyHigh, "cricket, height at the chimney");
    assert!(matches!(told[..], [Size::Refused(why)] if why.contains("two planes")), "{told:?}");
    assert_eq!(told[0].in_units(job::Units::Us), None);
    let (job, _) = Job::read(&text, &Book::builtin()).expect("a sound job");
    let roof = Roof::of(&job, &Book::builtin()).expect("a roof");
    let takeoff = Takeoff::of(&roof, &job, &Book::builtin()).expect("a takeoff");
    let line = takeoff.line("cricket").expect("a cricket");
    assert!(line.because[0].inputs[0].1.starts_with("no figure"), "{:?}", line.because[0]);
}

/// Over the old roof nothing is taken off and no underlayment laid; eaves, laid bare, keep their courses.
#[test]
fn a_roof_laid_over_the_old_one_takes_nothing_off() {
    let book = Book::builtin();
    let text = CROSS_GABLE.replace("[covering]", "[covering]\nover = true");
    let (job, _) = Job::read(&text, &book).expect("a sound job");
    let roof = Roof::of(&job, &book).expect("a roof");
    let takeoff = Takeoff::of(&roof, &job, &book).expect("a takeoff");
    assert!(takeoff.line("tear-off").is_none() && takeoff.line("underlayment").is_none());
    let house = measured(&text);
    assert_eq!(sizes(&house, Spot::Eave, "ice barrier, courses").len(), 5);
}
