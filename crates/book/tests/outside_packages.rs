//! Packages, vents and rules, against figures worked by hand and trade tables.

use book::{Book, FreeArea, LookupError};
use measure::{Length, Pitch};

fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected} within {within}");
}

/// Source: trade table of shingle formats; pieces per square is 14400 in² over exposure times length.
#[test]
fn shingle_formats_give_the_printed_cover_headlap_and_count() -> Result<(), LookupError> {
    let table = [
        ("shingle-three-tab", 1.250, 80.0, 2.00),
        ("shingle-laminated-metric", 1.538, 65.0, 2.00),
        ("shingle-laminated-38", 1.514, 66.1, 1.875),
        ("shingle-laminated-large", 1.667, 60.0, 2.00),
    ];
    let book = Book::builtin();
    for (id, cover_ft2, per_square, headlap_in) in table {
        let shingle = book.package(id)?.shingle()?;
        near(shingle.covers().ft2(), cover_ft2, 0.0005);
        near(100.0 / shingle.covers().ft2(), per_square, 0.05);
        near(shingle.headlap().inches(), headlap_in, 1e-9);
    }
    Ok(())
}

/// Worked by hand: 1749.74 ft² of roof and 10 % waste is 57.7 bundles of a third of a square.
#[test]
fn seventeen_and_a_half_squares_with_waste_take_58_bundles() -> Result<(), LookupError> {
    let book = Book::builtin();
    let waste: book::Share = book.rule("waste.shingle")?.get()?;
    let bundle = book.package("shingle-laminated-metric")?.shingle()?.bundle_covers();
    near(1749.74 * (1.0 + waste.of_one()) / bundle.ft2(), 57.74, 0.005);
    Ok(())
}

/// Rolls as sold: 36 in by 66' 8" is 200 ft², 48 in by 250 ft is 1000 ft², felt 432 and 216 ft².
#[test]
fn rolls_have_the_area_they_are_sold_by() -> Result<(), LookupError> {
    let book = Book::builtin();
    let table = [
        ("ice-barrier", 200.0),
        ("ice-barrier-75", 225.0),
        ("underlayment-synthetic", 1000.0),
        ("felt-15", 432.0),
        ("felt-30", 216.0),
    ];
    for (id, ft2) in table {
        near(book.package(id)?.roll()?.area().ft2(), ft2, 1e-9);
    }
    Ok(())
}

/// Two 36 in courses with a 3 1/2 in side lap cover 68.5 in.
#[test]
fn two_courses_of_ice_barrier_cover_68_and_a_half_inches() -> Result<(), LookupError> {
    let book = Book::builtin();
    let roll = book.package("ice-barrier")?.roll()?;
    near((*roll.width * 2.0 - *roll.side_lap).inches(), 68.5, 1e-9);
    Ok(())
}

/// Linear stock as sold; a 42 ft eave takes 5 pieces of drip edge lapped 2 in.
#[test]
fn sticks_and_runs_have_their_stock_lengths() -> Result<(), LookupError> {
    let book = Book::builtin();
    let lengths = [
        ("drip-edge", 10.0),
        ("valley-metal", 10.0),
        ("headwall-apron", 10.0),
        ("ridge-vent", 4.0),
        ("soffit-strip-vent", 8.0),
    ];
    for (id, ft) in lengths {
        near(book.package(id)?.stick()?.length.ft(), ft, 1e-9);
    }
    near(book.package("starter")?.run()?.covers.ft(), 105.0, 1e-9);
    near(book.package("ridge-cap")?.run()?.covers.ft(), 20.0, 1e-9);
    let drip = book.package("drip-edge")?.stick()?;
    let pieces = (Length::from_ft(42.0) - *drip.lap) / (*drip.length - *drip.lap);
    assert!(pieces > 4.0 && pieces <= 5.0, "{pieces}");
    Ok(())
}

/// IRC R905.2.8.2, R905.2.8.3 and R905.2.8.5: what is ordered must meet every edition.
#[test]
fn metal_as_sold_meets_every_edition() -> Result<(), LookupError> {
    let book = Book::builtin();
    let valley = book.package("valley-metal")?.stick()?.width.clone().expect("valley metal has a width");
    let step = book.package("step-flashing")?.step()?;
    let drip = book.package("drip-edge")?.stick()?;
    for edition in book.editions() {
        assert!(*valley >= *edition.valley_metal.least_width, "{}", edition.id);
        assert!(*step.wall_leg >= *edition.sidewall_flashing.least_height, "{}", edition.id);
        assert!(*step.roof_leg >= *edition.sidewall_flashing.least_width, "{}", edition.id);
        assert!(edition.drip_edge.as_ref().is_none_or(|asked| *drip.lap >= *asked.lap), "{}", edition.id);
    }
    Ok(())
}

/// Trade rule: a step piece is at least 2 in longer than the exposure.
#[test]
fn step_pieces_suit_their_exposures() -> Result<(), LookupError> {
    let book = Book::builtin();
    let more: Length = book.rule("step-flashing.over-exposure")?.get()?;
    for (step, shingle) in
        [("step-flashing", "shingle-laminated-metric"), ("step-flashing-7", "shingle-three-tab")]
    {
        let exposure = *book.package(shingle)?.shingle()?.exposure;
        assert!(*book.package(step)?.step()?.length >= exposure + more, "{step}");
    }
    Ok(())
}

/// Worked by hand: walls 40 ft apart leave 38 ft of vent; a ridge from a gable wall at y = -10 ft to its valley top at
/// y = 12 ft leaves 20 ft, the 12 in of rake overhang not counting.
#[test]
fn ridge_vents_stop_short_as_worked_by_hand() -> Result<(), LookupError> {
    let book = Book::builtin();
    let gable: Length = book.rule("ridge-vent.stop.gable-wall")?.get()?;
    let valley: Length = book.rule("ridge-vent.stop.valley-top")?.get()?;
    near((Length::from_ft(40.0) - gable * 2.0).ft(), 38.0, 1e-9);
    near((Length::from_ft(12.0 + 10.0) - gable - valley).ft(), 20.0, 1e-9);
    Ok(())
}

/// Worked by hand: 38 + 20 ft of ridge vent give 696 in², 79 ft of soffit strip 711 in², three box vents 150 in².
#[test]
fn vents_give_the_areas_worked_by_hand() -> Result<(), LookupError> {
    let book = Book::builtin();
    let per_foot = |id: &str| match &book.vent(id).unwrap().nfa {
        FreeArea::PerFoot(area) => area.in2(),
        other => panic!("{id} is {other:?}"),
    };
    near(58.0 * per_foot("ridge-vent"), 696.0, 1e-9);
    near(79.0 * per_foot("soffit-strip"), 711.0, 1e-9);
    let FreeArea::Each(box_vent) = &book.vent("box-vent")?.nfa else { panic!("box vents are counted") };
    near(3.0 * box_vent.in2(), 150.0, 1e-9);
    let FreeArea::Share(louver) = &book.vent("gable-louver")?.nfa else { panic!("louvers are a share") };
    near(2.0 * 14.0 * 18.0 * louver.of_one(), 201.6, 1e-9);
    Ok(())
}

/// A strip under the metal and one each side after it: 9 ft of material.
#[test]
fn valley_strips_add_up_to_their_material_width() -> Result<(), LookupError> {
    let book = Book::builtin();
    let under: Length = book.rule("valley.strip.under-metal")?.get()?;
    let side: Length = book.rule("valley.strip.each-side")?.get()?;
    let total: Length = book.rule("valley.strip.material-width")?.get()?;
    near((under + side * 2.0).ft(), total.ft(), 1e-9);
    Ok(())
}

/// IRC R905.2.2: the faces that are covered whole are those whose underlayment the code doubles.
#[test]
fn whole_faces_of_membrane_start_where_the_code_doubles_underlayment() -> Result<(), LookupError> {
    let book = Book::builtin();
    let below: Pitch = book.rule("ice-barrier.full-face-below")?.get()?;
    for edition in book.editions() {
        assert_eq!(below, *edition.asphalt_shingles.single_underlayment_from, "{}", edition.id);
    }
    Ok(())
}
