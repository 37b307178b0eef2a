//! Two measured attics in Finland, hour by hour from November 2010 to July 2012: outdoor and indoor air, air in the middle of the attic (TRH database, Tampere
//! University, CC BY 4.0; weather of the Finnish Meteorological Institute).
//!
//! The files are not part of the project. Their folder is named by `WEATHERSHED_DATA`; without it the tests say so and are skipped. One number for each
//! house, the changes of its air in an hour, is fitted to the first winter; the second judges.

#![allow(clippy::print_stdout, reason = "how measured attics were met is to be read")]

mod attics;

use attics::{Built, DAMP, TAMPERE, VALKEAKOSKI, WARMTH, attic, fitted, is_winter, missed, rows};

/// Fitted on the winter of 2010, judged on that of 2011: attic air to 2.0 K from November to March and 3.5 K over the year, relative humidity with a bias under
/// 7 points over both.
fn judged(built: &Built) {
    let Some(rows) = rows(built) else { return };
    let best = fitted(built, &rows);
    let found = attic(built, &rows, best);
    let winter = |which| missed(&rows, &found, which, |row| is_winter(row, 2011));
    let year = |which| missed(&rows, &found, which, |row| row.year == 2011);
    println!("{}: {best} changes an hour", built.file);
    for (name, [warmth, damp]) in [("second winter", [winter(0), winter(1)]), ("2011", [year(0), year(1)])] {
        println!(
            "  {name}: bias {:+.2} K, root mean square {:.2} K; humidity bias {:+.1}, root mean square {:.1} points",
            warmth[0], warmth[1], damp[0], damp[1]
        );
    }
    assert!(winter(0)[1] < WARMTH[0] && year(0)[1] < WARMTH[1]);
    assert!(winter(1)[0].abs() < DAMP && year(1)[0].abs() < DAMP);
}

#[test]
fn a_weakly_vented_attic_under_tiles() {
    judged(&TAMPERE);
}

/// Its readings begin on the last of January; what snow lay on it by then comes of the weather at Tampere, some 30 km off.
#[test]
fn a_high_attic_under_sheet_metal() {
    judged(&VALKEAKOSKI);
}
