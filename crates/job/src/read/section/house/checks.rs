//! Figures of the house that deny one another.

use super::{FLOOR_AREA, FUEL, FUEL_PRICE, HEATED_VOLUME, LEAKAGE, LEAKAGE_GOAL};
use crate::read::notation::FUEL_UNITS;
use crate::read::table::Table;
use crate::{Fuel, FuelUnit, House, Problem};

/// Mean height of heated rooms that is looked at twice outside of, feet.
const ROOM_HEIGHT: std::ops::RangeInclusive<f64> = 5.0..=30.0;

pub(super) fn check(table: &mut Table<'_, '_>, house: &House) {
    let found = [goal(table, house), volume(table, house), fuel(table, house)];
    found.into_iter().flatten().for_each(|problem| table.desk.report(problem));
}

fn goal(table: &Table<'_, '_>, house: &House) -> Option<Problem> {
    let leakage = house.leakage.as_ref()?.value;
    let goal = house.leakage_goal.filter(|goal| *goal > leakage)?;
    let message = format!(
        "`{}.leakage_goal`, {:.0} cfm50, is more than the house leaks now, {:.0} cfm50",
        table.path,
        goal.cfm(),
        leakage.cfm()
    );
    let problem = Problem::warning("goal-behind", message, "check the two: the goal is what is to be left");
    let (goal, now) = (table.span_of(LEAKAGE_GOAL.0.key), table.span_of(LEAKAGE.0.key));
    Some(problem.at(goal, "").at(now, "as it is now"))
}

fn volume(table: &Table<'_, '_>, house: &House) -> Option<Problem> {
    let (volume, area) = house.heated_volume.zip(house.floor_area)?;
    let height = volume.ft3() / area.ft2();
    if ROOM_HEIGHT.contains(&height) {
        return None;
    }
    let message = format!(
        "`{}` has heated rooms {height:.1} ft high on average, by its volume and floor area",
        table.path
    );
    let problem = Problem::warning("height-of-rooms", message, "check the two figures and their units");
    let (volume, area) = (table.span_of(HEATED_VOLUME.0.key), table.span_of(FLOOR_AREA.0.key));
    Some(problem.at(volume, "").at(area, "the floor area"))
}

fn fuel(table: &Table<'_, '_>, house: &House) -> Option<Problem> {
    let (fuel, price) = house.fuel.zip(house.fuel_price)?;
    if is_sold_by(fuel, price.per) {
        return None;
    }
    let unit = FUEL_UNITS.iter().find(|(_, unit)| *unit == price.per).map_or("", |(name, _)| *name);
    let message = format!("`{}` is not heated with anything that is sold by the {unit}", table.path);
    let problem = Problem::error(
        "price-of-another-fuel",
        message,
        "check `fuel`, and the unit after the slash of its price",
    );
    let (price, fuel) = (table.span_of(FUEL_PRICE.0.key), table.span_of(FUEL.0.key));
    Some(problem.at(price, "").at(fuel, "the fuel"))
}

/// Any fuel may be billed by the heat in it; else gas comes by the therm, liquids by the gallon, wood by the cord.
fn is_sold_by(fuel: Fuel, unit: FuelUnit) -> bool {
    match unit {
        FuelUnit::KilowattHour => true,
        FuelUnit::Therm => matches!(fuel, Fuel::NaturalGas | Fuel::Propane),
        FuelUnit::Gallon => matches!(fuel, Fuel::Propane | Fuel::Oil),
        FuelUnit::Cord => fuel == Fuel::Wood,
    }
}
