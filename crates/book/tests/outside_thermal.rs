//! Heat, air and vapor of building parts, against the tables they come from.
//!
//! Sources: IECC R402.1 as a guidance page of a national laboratory tabulates it (seen); IRC R806.5 (from memory but for zone 1, seen) and R702.7 (seen);
//! limits of ceiling boards as pages of their makers have them (seen); heat of fuels as pages quote the national energy statistics (seen).

use book::Book;
use book::thermal::{Resists, Supply, perms};
use measure::{Length, RValue};

fn near(found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance, "{found} for {wanted}");
}

#[test]
fn ceilings_by_edition_and_zone() {
    let book = Book::builtin();
    let asked = [
        (2009, [30.0, 30.0, 30.0, 38.0, 38.0, 49.0, 49.0, 49.0]),
        (2012, [30.0, 38.0, 38.0, 49.0, 49.0, 49.0, 49.0, 49.0]),
        (2018, [30.0, 38.0, 38.0, 49.0, 49.0, 49.0, 49.0, 49.0]),
        (2021, [30.0, 49.0, 49.0, 60.0, 60.0, 60.0, 60.0, 60.0]),
    ];
    for (year, zones) in asked {
        for (zone, wanted) in zones.iter().enumerate() {
            let row = book.thermal().energy_code_in(year, &format!("{}A", zone + 1)).unwrap();
            near(row.ceiling.us(), *wanted, 1e-9);
        }
    }
    assert!(book.thermal().energy_code_in(2006, "6A").is_err(), "before the first edition");
    assert!(book.thermal().energy_code_in(2018, "9").is_err());
}

#[test]
fn walls_and_floors_by_edition_and_zone() {
    let book = Book::builtin();
    let told = |year, zone: &str| {
        let row = book.thermal().energy_code_in(year, zone).unwrap();
        let walls: Vec<String> = row
            .wall
            .iter()
            .map(|wall| {
                let over = wall.continuous.as_ref().map_or(String::new(), |r| format!("+{:.0}", r.us()));
                format!("{:.0}{over}", wall.cavity.us())
            })
            .collect();
        (walls.join(" or "), row.floor.as_ref().map_or(0.0, |r| r.us().round()))
    };
    for (year, zone, wall, floor) in [
        (2015, "3C", "20 or 13+5", 19.0),
        (2018, "4A", "20 or 13+5", 19.0),
        (2012, "4C", "20 or 13+5", 30.0),
        (2018, "6A", "20+5 or 13+10", 30.0),
        (2018, "7", "20+5 or 13+10", 38.0),
        (2021, "2A", "13 or 0+10", 13.0),
        (2021, "3A", "20 or 13+5 or 0+15", 19.0),
        (2024, "4c", "30 or 20+5 or 13+10 or 0+20", 30.0),
        (2021, "8", "30 or 20+5 or 13+10 or 0+20", 38.0),
    ] {
        assert_eq!(told(year, zone), (wall.to_owned(), floor), "{year} zone {zone}");
    }
}

#[test]
fn airtight_insulation_by_zone() {
    let book = Book::builtin();
    let wanted = [
        ("1A", 5.0),
        ("2A", 5.0),
        ("2B", 5.0),
        ("3A", 5.0),
        ("3B", 5.0),
        ("3C", 5.0),
        ("4C", 10.0),
        ("4A", 15.0),
        ("4B", 15.0),
        ("5A", 20.0),
        ("6A", 25.0),
        ("6", 25.0),
        ("7", 30.0),
        ("8", 35.0),
    ];
    for (zone, r) in wanted {
        near(book.thermal().airtight_in(zone).unwrap().resistance.us(), r, 1e-9);
    }
    let tile = book.thermal().airtight("airtight-tile-2b-3b").unwrap();
    assert!(tile.tile && tile.resistance.us() == 0.0);
    assert!(book.thermal().airtight_in("4").is_err(), "4A and 4C differ");
}

#[test]
fn retarders_by_class() {
    let book = Book::builtin();
    let class = |perms| book.thermal().retarder_of(perms).map(|row| row.id.as_str());
    for (perms, wanted) in [
        (0.06, Some("class-1")),
        (0.1, Some("class-1")),
        (0.11, Some("class-2")),
        (1.0, Some("class-2")),
        (1.1, Some("class-3")),
        (10.0, Some("class-3")),
        (10.1, None),
    ] {
        assert_eq!(class(perms), wanted, "{perms}");
    }
}

#[test]
fn ceilings_carry_what_their_makers_say() {
    let book = Book::builtin();
    for (id, psf) in [
        ("gypsum-1-2-at-24", 1.3),
        ("gypsum-1-2-at-16", 2.2),
        ("gypsum-1-2-sag-resistant-at-24", 2.2),
        ("gypsum-5-8-at-24", 2.2),
    ] {
        near(book.thermal().ceiling(id).unwrap().load.psf(), psf, 1e-9);
    }
}

#[test]
fn fuels_hold_what_the_statistics_say() {
    let book = Book::builtin();
    for (id, low, high) in [
        ("electricity", 3412.0, 3412.0),
        ("gas", 1e5, 1e5),
        ("propane", 91_333.0, 91_452.0),
        ("oil", 138_500.0, 138_500.0),
        ("kerosene", 135_000.0, 135_000.0),
        ("pellets", 16e6, 16.5e6),
    ] {
        let heat = book.thermal().fuel(id).unwrap().heat_btu;
        near(heat.low, low, 0.0);
        near(heat.high, high, 0.0);
    }
    let wood = book.thermal().fuel("cord-wood").unwrap().heat_btu;
    assert!(wood.low < 20e6 && wood.high > 20e6);
}

/// at 1/2 in and at 5/8 in of gypsum board, R-0.62 at 7/16 in of OSB, R-1.32 at 1/2 in of fiberboard: ASHRAE Handbook Fundamentals,
/// chapter 26, table 1 (from memory), which prints them beside what the row holds for each inch.
#[test]
fn a_material_resists_what_its_thickness_is_printed_with() {
    let book = Book::builtin();
    for (id, inches, r, tolerance) in [
        ("gypsum-board", 0.5, 0.45, 1e-9),
        ("gypsum-board", 0.625, 0.56, 0.01),
        ("osb", 7.0 / 16.0, 0.62, 0.02),
        ("osb", 0.5, 0.68, 0.01),
        ("fiberboard-sheathing", 0.5, 1.32, 1e-9),
        ("batt-r19", 6.25, 19.0, 0.05),
        ("batt-r38", 12.0, 38.0, 0.05),
        ("mineral-batt", 5.5, 23.0, 0.15),
        ("asphalt-shingles", 0.2, 0.44, 1e-9),
        ("house-wrap", 0.01, 0.0, 1e-9),
    ] {
        let found = book.thermal().material(id).unwrap().resistance(Length::from_in(inches));
        near(found.us(), r, tolerance);
    }
}

/// What stands as conductivity and what the same table prints for each inch are one: 0.1442279 W/(m·K) over R (exact conversion).
#[test]
fn conductivity_is_the_reciprocal_of_resistance_by_the_inch() {
    let book = Book::builtin();
    for row in book.thermal().materials() {
        let Some(conductivity) = row.conductivity() else {
            assert!(matches!(row.resists, Resists::Item(_) | Resists::Nothing {}), "{}", row.id);
            continue;
        };
        let inch = row.resistance(Length::from_in(1.0)).us();
        assert!((conductivity * inch / 0.144_227_9 - 1.0).abs() < 1e-6, "{}", row.id);
    }
    let lumber = book.thermal().material("spruce-pine-fir").unwrap();
    near(lumber.conductivity().unwrap(), 0.115, 0.001);
}

/// One perm is 3.4956 m of still air (2·10⁻¹⁰ over 5.7214·10⁻¹¹, ISO 13788 and the definition of the perm).
#[test]
fn vapor_meets_so_much_still_air() {
    let book = Book::builtin();
    let still = |id, inches| book.thermal().material(id).unwrap().still_air(Length::from_in(inches)).unwrap();
    near(still("polyethylene", 0.006), 2e-10 / 5.7214e-11 / 0.06, 0.01);
    near(still("foam-closed", 2.0), 60.0 * 0.0508, 1e-9);
    near(still("xps", 2.0), 2e-10 / 5.7214e-11 * 2.0 / 1.2, 0.01);
    assert!(still("glass", 0.1) > 1e4);
    near(perms(still("kraft", 0.01)), 0.7, 1e-9);
    assert_eq!(book.thermal().material("bevel-siding-thick").unwrap().still_air(Length::from_in(0.75)), None);
}

/// ISO 6946, table of unventilated air layers (from memory); straight between its rows.
#[test]
fn air_layers_lie_between_their_rows() {
    let book = Book::builtin();
    let at = |mm: f64| book.thermal().air_layer_of(Length::from_m(mm / 1000.0)).unwrap().map(RValue::si);
    let same = |found: [f64; 3], wanted: [f64; 3]| {
        found.iter().zip(wanted).for_each(|(found, wanted)| near(*found, wanted, 1e-9));
    };
    same(at(25.0), [0.16, 0.18, 0.19]);
    same(at(37.5), [0.16, 0.18, 0.20]);
    same(at(2.5), [0.055; 3]);
    same(at(1000.0), [0.16, 0.18, 0.23]);
    same(at(0.0), [0.0; 3]);
}

#[test]
fn what_is_blown_settles_and_what_is_sprayed_comes_in_lifts() {
    let book = Book::builtin();
    let rows: Vec<_> = book.thermal().insulations().collect();
    let blown = |supply: &Supply| matches!(supply, Supply::Blown { settles, .. } if settles.high < 0.25);
    let sprayed = |supply: &Supply| matches!(supply, Supply::Sprayed { lift, .. } if lift.inches() <= 10.0);
    assert_eq!(rows.iter().filter(|row| blown(&row.supply)).count(), 3);
    assert_eq!(rows.iter().filter(|row| sprayed(&row.supply)).count(), 2);
}

/// A product's own label goes over the book; what is wrong in it is told with its place.
#[test]
fn a_label_goes_over_the_book() {
    let source = "source = { text = \"label\", confidence = \"published\" }\n";
    let label = format!(
        "[[insulation]]\nid = \"cellulose\"\nname = \"ours\"\nper_inch = \"R-3.7\"\ndensity_kg_m3 = 24\n\
         supply.blown = {{ settles = 0.12, bag_kg = 12 }}\n{source}"
    );
    let book = Book::with_overlays(&[("ours.toml", &label)]).unwrap();
    near(book.thermal().insulation("cellulose").unwrap().per_inch.us(), 3.7, 1e-9);
    let wrong = label.replace("bag_kg = 12", "bag_kg = 0").replace("24", "[30, 20]");
    let told = Book::with_overlays(&[("ours.toml", &wrong)]).unwrap_err().to_string();
    assert!(told.contains("ours.toml:5:") && told.contains("ours.toml:6:"), "{told}");
    let no_zone = format!(
        "[[airtight_insulation]]\nid = \"a\"\nzones = [\"9\"]\nresistance = \"R-5\"\n{source}[[fuels]]\nid = \"b\"\n"
    );
    let told = Book::with_overlays(&[("ours.toml", &no_zone)]).unwrap_err().to_string();
    assert!(told.contains("climate zones") && told.contains("did you mean `fuel`?"), "{told}");
}
