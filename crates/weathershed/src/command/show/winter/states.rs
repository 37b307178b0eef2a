//! Found and planned side by side, through the typical winter and the hard one.

use comfy_table::Table;
use job::Units;
use study::winter::{Band, Bands, Damp, FREEZING_AIR, Spread, State, Winter, WoodState, design_words};

use super::whole::money;
use super::{Told, air, ice, melt, ranged, table, temperature};

const KG_PER_M2_TO_LB_PER_SQUARE: f64 = 20.4816;
const KG_TO_LB: f64 = 2.204_623;

/// Headline figures of the four.
pub(super) fn states(winter: &Winter, spread: Option<&Spread>, units: Units) -> String {
    let table = table(&["", "as found", "as planned", "hard, as found", "hard, as planned"], usize::MAX);
    let mut sheet = Sheet { winter, spread, units, table };
    sheet.ice();
    sheet.snow();
    sheet.cold();
    sheet.heat();
    sheet.damp();
    let ranges = if spread.is_some() {
        "\nthe middle of all houses drawn, and between which ends eight of ten of them lie"
    } else {
        ""
    };
    format!("{}{ranges}", sheet.table)
}

/// As found and as planned, then both in the hard winter.
fn four(winter: &Winter) -> impl Iterator<Item = &State> {
    [&winter.found, &winter.plan].into_iter().chain(winter.hard_states().into_iter().flatten())
}

/// The table as it grows.
struct Sheet<'w> {
    winter: &'w Winter,
    spread: Option<&'w Spread>,
    units: Units,
    table: Table,
}

impl Sheet<'_> {
    fn unit(&self, us: &'static str, si: &'static str) -> &'static str {
        if self.units == Units::Us { us } else { si }
    }

    /// A figure whose band the spread has, in the typical winter.
    fn ranged(&mut self, name: String, of: fn(&State) -> f64, band: fn(&Bands) -> &Band, told: Told) {
        let units = self.units;
        let cell = |state: &State, bands: Option<&Bands>| ranged(of(state), bands.map(band), units, told);
        let found = cell(&self.winter.found, self.spread.map(|spread| &spread.found));
        let planned = cell(&self.winter.plan, self.spread.map(|spread| &spread.plan));
        let hard = self.winter.hard_states().into_iter().flatten().map(|state| told(of(state), units));
        self.table.add_row([name, found, planned].into_iter().chain(hard));
    }

    /// A figure of the job as it is.
    fn single(&mut self, name: String, of: impl Fn(&State) -> String) {
        self.table.add_row(std::iter::once(name).chain(four(self.winter).map(of)));
    }

    fn ice(&mut self) {
        let (eave, water) = (self.unit("lb/ft", "kg/m"), self.unit("gal", "kg"));
        self.ranged(format!("ice on the eaves, {eave}"), |state| state.ice, |bands| &bands.ice, ice);
        let of_sun = format!("ice of the sun alone, {eave}");
        self.ranged(of_sun, |state| state.sun_ice, |bands| &bands.sun_ice, ice);
        self.ranged(format!("melted from below, {water}"), |state| state.melt, |bands| &bands.melt, melt);
        let icicles = format!("drips off in freezing air, for icicles, {water}");
        self.ranged(icicles, |state| state.icicles, |bands| &bands.icicles, melt);
    }

    /// What slides and what the wind takes, where any of the four has some.
    fn snow(&mut self) {
        let (unit, units) = (self.unit("lb", "kg"), self.units);
        let weight = move |kg: f64| format!("{:.0}", if units == Units::Us { kg * KG_TO_LB } else { kg });
        let mut moved = |name: &str, of: fn(&State) -> f64| {
            if four(self.winter).any(|state| weight(of(state)) != "0") {
                self.single(format!("{name}, {unit}"), |state| weight(of(state)));
            }
        };
        moved("snow that slides to the ground", |state| state.slid);
        moved("snow that the wind takes off the roof", |state| state.blown);
    }

    fn cold(&mut self) {
        let (degrees, flow) = (self.unit("°F", "°C"), self.unit("cfm", "L/s"));
        let pond = "days with a pond past the membrane".to_owned();
        self.ranged(pond, |state| state.pond_days, |bands| &bands.pond_days, |days, _| format!("{days:.1}"));
        let attic = format!("attic at {}, {degrees}", design_words(self.units));
        self.ranged(attic, |state| state.attic_at_design, |bands| &bands.attic_at_design, temperature);
        let deck = format!("deck there, {degrees}");
        self.ranged(deck, |state| state.deck_at_design, |bands| &bands.deck_at_design, temperature);
        let moved: Told = |m3_s, units| air(m3_s * FREEZING_AIR, units);
        let through = format!("air from outdoors through the attic, {flow}");
        self.ranged(through, State::vent_m3_s, |bands| &bands.vent, moved);
        let leaks = format!("air from the rooms into it, {flow}");
        self.ranged(leaks, State::leak_m3_s, |bands| &bands.leak, moved);
    }

    fn heat(&mut self) {
        let kwh: Told = |kwh, _| format!("{kwh:.0}");
        self.ranged("heat into the attic, kWh".into(), |state| state.heat, |bands| &bands.heat, kwh);
        let given = "heat for ceilings and air up, kWh".into();
        self.ranged(given, |state| state.heating, |bands| &bands.heating, kwh);
        let bill = &self.winter.bill;
        if let Some(lacks) = bill.lacks() {
            self.table.add_row([format!("its money: {lacks}")]);
        } else {
            self.single("its money, a winter".to_owned(), |state| money(state, bill));
        }
    }

    fn damp(&mut self) {
        let units = self.units;
        let frost = self.unit("lb/100 ft²", "kg/m²");
        for (i, Damp { attic, .. }) in self.winter.found.damp.iter().enumerate() {
            self.single(format!("attic {attic}: wettest wood of the deck, %"), |state| {
                let damp = &state.damp[i];
                format!("{:.0}, {}", 100.0 * damp.wood, stands(damp.stands))
            });
            self.single(format!("attic {attic}: most frost under it, {frost}"), |state| match units {
                Units::Us => format!("{:.0}", state.damp[i].frost * KG_PER_M2_TO_LB_PER_SQUARE),
                Units::Si => format!("{:.2}", state.damp[i].frost),
            });
            let water = self.unit("gal", "kg");
            self.single(format!("attic {attic}: drips from it, {water}"), |state| {
                melt(state.damp[i].dripped, units)
            });
            self.single(format!("attic {attic}: mold index, 0 to 6"), |state| {
                format!("{:.1}", state.damp[i].mold)
            });
        }
    }
}

/// How wood stands, by the highest moisture it came to.
const fn stands(wood: WoodState) -> &'static str {
    match wood {
        WoodState::Dry => "dry",
        WoodState::Watch => "watch it",
        WoodState::AtRisk => "at risk if it stays",
        WoodState::Decays => "ROTS if it stays",
    }
}

#[cfg(test)]
mod tests {
    use book::Book;
    use job::Job;
    use study::Study;

    use super::*;

    const JOB: &str = include_str!("../../../../../../examples/cross-gable.toml");
    const NORMALS: &[u8] = include_bytes!("../../../../../../examples/snowy-town-normals.csv");

    /// Old metal lets go of its snow, the shingles planned do not; in wind of 20 m/s from the south both lose some. Nothing is told of snow that stays. A pound is 0.453592 kg.
    #[test]
    fn snow_that_slides_and_drifts_off_is_told_where_there_is_any() {
        let book = &Book::builtin();
        let text = JOB.replacen("\nlayers = 1\n", "\nlayers = 1\nold = \"metal\"\n", 1);
        let (job, _) = Job::read(&text, book).expect("a job");
        let study = Study::of(&job, book).expect("a study");
        let mut year = exchange::weather::year(NORMALS, 1).expect("a year");
        year.hours.iter_mut().for_each(|hour| (hour.wind, hour.wind_from) = (20.0, Some(180.0)));
        let mut winter = Winter::of(&study, &year, book).expect("a winter");
        let told = |winter: &Winter, units: Units, what: &str| -> Option<Vec<f64>> {
            let text = states(winter, None, units);
            let row = text.lines().find_map(|line| line.trim().strip_prefix(what))?;
            Some(row.split_whitespace().map(|cell| cell.parse().expect("a number")).collect())
        };
        let slid: fn(&State) -> f64 = |state| state.slid;
        for (name, of) in [("slides to the ground", slid), ("the wind takes off the roof", |s| s.blown)] {
            let kg: Vec<f64> = four(&winter).map(of).collect();
            assert!(kg[0] > 1.0, "{name}: {kg:?}");
            let [pounds, kilograms] = [(Units::Us, "lb"), (Units::Si, "kg")].map(|(units, unit)| {
                told(&winter, units, &format!("snow that {name}, {unit}")).expect("a row")
            });
            for ((kg, pounds), kilograms) in kg.iter().zip(pounds).zip(kilograms) {
                assert!((kg - kilograms).abs() <= 0.5 && (kg / 0.453_592 - pounds).abs() <= 0.51, "{name}");
            }
        }
        assert!(winter.plan.slid < 1e-9 && winter.plan.blown > 1.0);
        winter.seasons.iter_mut().flatten().for_each(|state| (state.slid, state.blown) = (0.0, 0.4));
        (winter.found.slid, winter.found.blown, winter.plan.blown) = (0.0, 0.0, 0.0);
        assert_eq!(told(&winter, Units::Si, "snow that"), None);
    }
}
