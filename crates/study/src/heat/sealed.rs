//! Bays and decks that insulation touches: what condenses in them by the method of ISO 13788, and what the code asks of insulation no air goes through.
//!
//! # Range
//! Vapor alone, in layers without gaps: air that goes through them carries far more.

use book::{Book, LookupError};
use heat::moist::{AirtightPart, Month, Sheet, Wall, Year, iso_saturation};
use job::{Attic, Job, SpaceKind};
use measure::{Length, RValue};

use super::climate::{Climate, DAYS};
use super::desk::Desk;
use super::kind::Kind;
use super::vapor::{humidity, perms};

/// A roof without an attic's air between insulation and deck, as planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealed {
    /// The space.
    pub space: String,
    /// Whether air goes over its insulation.
    pub is_vented: bool,
    /// Layers from the room out.
    pub layers: Vec<String>,
    /// Water on a square metre at its most, all interfaces together, kg, and the month at whose end, January as 1; none without a climate.
    pub most: Option<(f64, u8)>,
    /// Whether it is dry again within a year.
    pub dries: Option<bool>,
    /// Whether it runs off and drips.
    pub runs: Option<bool>,
    /// What the code asks of its airtight part; none where it is vented, or the zone is not written.
    pub airtight: Option<AirtightPart>,
    /// Where it asks that.
    pub clause: String,
}

/// Insulation that touches the deck, as planned.
pub(crate) struct Touching<'b> {
    kind: Kind<'b>,
    target: RValue,
    is_foam: bool,
    /// Whether air goes over it.
    pub(crate) is_vented: bool,
}

impl<'b> Touching<'b> {
    /// In a space; none where an attic's air lies between, or nobody says what is planned.
    pub(crate) fn of(desk: &Desk<'b>, space: &Attic) -> Result<Option<Self>, LookupError> {
        let (kind, Some(target)) = (desk.kind(space)?, desk.target(space)?) else { return Ok(None) };
        let is_foam = kind.row.id.starts_with("foam");
        let check = desk.takeoff.vents_of(space);
        let is_vented =
            check.is_some_and(|check| check.plan.low.m2() > 0.0 && check.plan.total > check.plan.low);
        let touches = space.kind == SpaceKind::Cathedral || is_foam;
        Ok(touches.then_some(Self { kind, target, is_foam, is_vented }))
    }

    /// The part no air goes through against what the code asks of it; none where it is vented, or the zone is not written.
    pub(crate) fn airtight(&self, desk: &Desk<'_>) -> Result<Option<AirtightPart>, LookupError> {
        let zone = desk.job.site.climate_zone.as_deref().filter(|_| !self.is_vented);
        let (has, open) =
            if self.is_foam { (self.target, RValue::ZERO) } else { (RValue::ZERO, self.target) };
        zone.map(|zone| AirtightPart::of(zone, has, open, desk.book)).transpose()
    }
}

/// Layers are cut into no more resistance each (ISO 13788:2012).
const PART: f64 = 0.25;
/// A perm is so much still air, m (exact to what is printed).
const STILL_AIR_OF_PERM: f64 = 3.4956;
/// Membrane or felt under shingles, m of still air; OSB of 1/2 in (ISO 10456:2007, from memory: 50 times still air).
const ROOFING: f64 = 10.0;
const PANEL: (f64, f64) = (0.62, 0.635);

/// Of bays, and of attics with foam under the deck.
pub(super) fn of(desk: &Desk<'_>, climate: Option<&Climate>) -> Result<Vec<Sealed>, LookupError> {
    let mut all = Vec::new();
    for space in &desk.job.attics {
        if let Some(touching) = Touching::of(desk, space)? {
            all.extend(sealed(desk, space, &touching, climate)?);
        }
    }
    Ok(all)
}

fn sealed(
    desk: &Desk<'_>,
    space: &Attic,
    touching: &Touching<'_>,
    climate: Option<&Climate>,
) -> Result<Option<Sealed>, LookupError> {
    let sheets = sheets(perms(space, desk.book)?, touching);
    let layers = sheets.iter().map(|sheet| sheet.name.clone()).collect();
    let film = [RValue::from_si(0.10), RValue::from_si(0.04)];
    let Ok(wall) = Wall::new(film, sheets) else { return Ok(None) };
    let divided = wall.divided(RValue::from_si(PART));
    let year = climate.and_then(|climate| Year::of(&divided, &months(desk.job, desk.book, climate)).ok());
    let runs = year.as_ref().map(|year| year.runs(desk.book)).transpose()?;
    #[expect(clippy::cast_possible_truncation, reason = "one of twelve")]
    let most = year.as_ref().map(Year::most).map(|(month, kg)| (kg, month as u8 + 1));
    Ok(Some(Sealed {
        space: space.name.clone(),
        is_vented: touching.is_vented,
        layers,
        most,
        dries: year.as_ref().map(Year::dries),
        runs,
        airtight: touching.airtight(desk)?,
        clause: desk.edition.unvented.clause.clone(),
    }))
}

/// Gypsum with its retarder, insulation; deck and roofing where no air goes between.
fn sheets(perms: f64, touching: &Touching<'_>) -> Vec<Sheet> {
    let Touching { kind, target, is_vented, .. } = *touching;
    let depth: Length = kind.depth(target);
    let factor = if kind.row.id == "foam-closed" {
        60.0
    } else if kind.row.id == "foam-open" {
        4.0
    } else {
        1.0
    };
    let sheet =
        |name: &str, r: RValue, still_air: f64| Sheet { name: name.to_owned(), resistance: r, still_air };
    let mut all = vec![
        sheet("gypsum board, painted or with its retarder", RValue::from_us(0.45), STILL_AIR_OF_PERM / perms),
        sheet(&kind.row.name, target, depth.m() * factor),
    ];
    if !is_vented {
        all.push(sheet("deck", RValue::from_us(PANEL.0), PANEL.1));
        all.push(sheet("underlayment and shingles", RValue::from_us(0.44), ROOFING));
    }
    all
}

/// Rooms as damp as read, or as the air outdoors where that is damper.
fn months(job: &Job, book: &Book, climate: &Climate) -> Vec<Month> {
    let rooms = job.house.indoor_temperature.as_ref().map_or(ROOMS, |rooms| rooms.value.c());
    let indoors = humidity(job, book) * iso_saturation(rooms);
    let month = |(outdoors, days): (&f64, f64)| {
        let vapor = climate.humidity * iso_saturation(*outdoors);
        let inside = outdoors.max(rooms);
        Month {
            days,
            temperatures: [inside, *outdoors],
            vapors: [indoors.max(vapor).min(iso_saturation(inside)), vapor],
        }
    };
    climate.means.iter().zip(DAYS).map(month).collect()
}

/// Rooms nobody read, °C (70 °F).
const ROOMS: f64 = 190.0 / 9.0;
