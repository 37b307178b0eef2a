//! A winter hour by hour as a table that any program reads: commas between columns, a point in numbers, units in the names of columns.

use std::fmt::Write as _;

use study::winter::{Log, LoggedState, Outdoors, Slope};

/// The table: one row an hour, headings first.
pub fn hours(log: &Log) -> String {
    let mut table = headings(log).join(",");
    table.push('\n');
    for (outdoors, (found, plan)) in log.weather.iter().zip(log.found.iter().zip(&log.plan)) {
        table.push_str(&begins(outdoors, log.zone));
        let Outdoors { temperature, wind, snow, rain, .. } = outdoors;
        let sky = [*temperature, *wind, *snow, *rain];
        for value in sky.into_iter().chain(values(found)).chain(values(plan)) {
            // a thousandth is far below what is known of any of them
            let _ = write!(table, ",{}", (value * 1e3).round() / 1e3 + 0.0);
        }
        table.push('\n');
    }
    table
}

fn headings(log: &Log) -> Vec<String> {
    let sky = ["hour_begins", "outdoors_C", "wind_m_s", "snow_kg_m2", "rain_kg_m2"];
    let attics = log.attics.iter().map(|name| format!("attic_{}_C", word(name)));
    let bands = log.slope.iter().flat_map(bands);
    let of_state: Vec<String> = ["snow_depth_m", "snow_water_kg_m2"]
        .map(str::to_owned)
        .into_iter()
        .chain(attics)
        .chain(bands)
        .chain(["ice_kg_m", "sun_ice_kg_m", "pond_m"].map(str::to_owned))
        .collect();
    let states = ["found", "plan"].into_iter();
    let states = states.flat_map(|state| of_state.iter().map(move |name| format!("{state}_{name}")));
    sky.map(str::to_owned).into_iter().chain(states).collect()
}

/// Bands by where they begin and end along the slope from the eave's edge.
fn bands(slope: &Slope) -> impl Iterator<Item = String> {
    slope.bands.iter().map(|band| format!("deck_{:.2}_to_{:.2}_m_C", band.from.m(), band.to.m()))
}

fn values(state: &LoggedState) -> impl Iterator<Item = f64> {
    let LoggedState { snow_depth, snow_water, attics, decks, ice, sun_ice, pond } = state;
    [*snow_depth, *snow_water]
        .into_iter()
        .chain(attics.iter().chain(decks).copied())
        .chain([*ice, *sun_ice, *pond])
}

/// ISO 8601 with how far the clock of the place is ahead of universal time.
fn begins(outdoors: &Outdoors, zone: f64) -> String {
    let Outdoors { date, hour, .. } = outdoors;
    let minutes = (zone.abs() * 60.0).round();
    let (hours, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    let sign = if zone < 0.0 { '-' } else { '+' };
    let (year, month, day) = (date.year(), date.month(), date.day());
    format!("{year:04}-{month:02}-{day:02}T{hour:02}:00{sign}{hours:02}:{rest:02}")
}

/// A name without what would end a column.
fn word(name: &str) -> String {
    name.chars().map(|c| if c.is_alphanumeric() { c } else { '_' }).collect()
}

#[cfg(test)]
mod tests {
    use measure::{Length, Pitch};
    use study::winter::Slope;
    use winter::calendar::Date;

    use super::*;

    fn log() -> Log {
        let outdoors = |hour, temperature| Outdoors {
            date: Date::new(1999, 1, 31).expect("a day"),
            hour,
            temperature,
            wind: 2.5,
            snow: 0.1,
            rain: 0.0,
        };
        let state = |ice| LoggedState {
            snow_depth: 0.25,
            snow_water: 40.0,
            attics: vec![3.21],
            decks: vec![],
            ice,
            sun_ice: 0.0,
            pond: 0.0,
        };
        Log {
            zone: -3.5,
            attics: vec!["over, the \"hall\"".into()],
            slope: Some(Slope {
                plane: "main N".into(),
                eaves: vec![1],
                pitch: Pitch::from_rise_per_12(6.0),
                cold: Length::from_m(0.4),
                top: Length::from_m(4.0),
                plate: Length::from_m(5.0),
                is_ridged: true,
                membrane: Length::from_m(1.0),
                bands: vec![],
            }),
            weather: vec![outdoors(0, -5.0), outdoors(23, -5.000_04)],
            found: vec![state(1.0), state(2.0)],
            plan: vec![state(-1e-12), state(0.5)],
        }
    }

    #[test]
    fn every_row_has_the_columns_of_the_headings() {
        let table = hours(&log());
        let rows: Vec<&str> = table.lines().collect();
        assert_eq!(rows.len(), 3);
        let columns = rows[0].split(',').count();
        assert!(rows.iter().all(|row| row.split(',').count() == columns));
        assert!(rows[0].contains(",found_attic_over__the__hall__C,") && rows[0].ends_with(",plan_pond_m"));
    }

    #[test]
    fn times_are_of_the_place_and_numbers_are_rounded() {
        let table = hours(&log());
        let rows: Vec<&str> = table.lines().collect();
        assert_eq!(rows[1], "1999-01-31T00:00-03:30,-5,2.5,0.1,0,0.25,40,3.21,1,0,0,0.25,40,3.21,0,0,0");
        assert!(rows[2].starts_with("1999-01-31T23:00-03:30,-5,2.5,"));
    }
}
