//! `[[fan]]`: fans that blow moist air out of rooms.

use measure::{Flow, Length};

use super::block::PLAN;
use crate::read::field::{May, Must, Section};
use crate::read::notation::{Pair, Quantity, Survey, Words};
use crate::read::table::Table;
use crate::{Fan, FanEnd, Room};

/// The section.
pub(crate) const FAN: Section = Section {
    name: "fan",
    what: "a fan that blows moist air out of a room",
    fields: &[&ROOM, &AT, &FLOW, &ENDS],
};

const ROOM: Must<Words<Room>> = Must::new(
    "room",
    "room it serves",
    r#""bath""#,
    Words(&[
        ("bath", Room::Bath),
        ("kitchen", Room::Kitchen),
        ("laundry", Room::Laundry),
        ("dryer", Room::Dryer),
    ]),
);
const AT: May<Pair<Length>> = May::new("at", "where it hangs, plan x and y", r#"["30'", "19'"]"#, Pair(PLAN));
const FLOW_RANGE: Quantity<Flow> = Quantity::within("1 cfm", "3000 cfm");
const FLOW: May<Survey<Quantity<Flow>>> = of_room("house.bath_fan");
/// The same field for other rooms.
const KITCHEN_FLOW: May<Survey<Quantity<Flow>>> = of_room("house.kitchen_fan");
const LAUNDRY_FLOW: May<Survey<Quantity<Flow>>> = of_room("house.laundry_fan");
const DRYER_FLOW: May<Survey<Quantity<Flow>>> = of_room("house.dryer");

const fn of_room(default: &'static str) -> May<Survey<Quantity<Flow>>> {
    May::new("flow", "air it moves", r#""40 cfm""#, Survey(FLOW_RANGE, default))
}

const END_WORDS: Words<FanEnd> = Words(&[
    ("outdoors", FanEnd::Outdoors),
    ("attic", FanEnd::Attic),
    ("soffit", FanEnd::Soffit),
    ("ridge vent", FanEnd::RidgeVent),
]);
const ENDS: May<Survey<Words<FanEnd>>> =
    May::new("ends", "where its air goes", r#""attic""#, Survey(END_WORDS, "house.bath_fan_end"));
/// The same field for a dryer.
const DRYER_ENDS: May<Survey<Words<FanEnd>>> =
    May::new(ENDS.0.key, ENDS.0.what, ENDS.0.example, Survey(END_WORDS, "house.dryer_end"));

/// Reads a fan.
pub(crate) fn fan(table: &mut Table<'_, '_>) -> Option<Fan> {
    let (room, at) = (table.must(&ROOM), table.may(&AT));
    let flow = table.survey(match room {
        Some(Room::Kitchen) => &KITCHEN_FLOW,
        Some(Room::Laundry) => &LAUNDRY_FLOW,
        Some(Room::Dryer) => &DRYER_FLOW,
        Some(Room::Bath) | None => &FLOW,
    });
    let ends = if room == Some(Room::Dryer) { table.survey(&DRYER_ENDS) } else { table.survey(&ENDS) };
    let at = at.map(|at| at.map(Length::m));
    Some(Fan { room: room?, at, flow: flow?, ends: ends?, span: table.span.clone() })
}
