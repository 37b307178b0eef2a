//! The rest of the survey: the house below the roof, what goes wrong in it, the storm, the crew.

use book::{Share, SymptomKind};
use measure::{Area, Flow, Length, Money, Temperature, Volume};

use super::{Figure, PlaneName, Span};

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// Year.
    pub year: u16,
    /// 1 to 12.
    pub month: u8,
    /// 1 to 31.
    pub day: u8,
}

/// The house below the roof. None where it was not written.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct House {
    /// Heated floor area.
    pub floor_area: Option<Area>,
    /// Heated volume.
    pub heated_volume: Option<Volume>,
    /// Air leakage with the house at 50 Pa.
    pub leakage: Option<Figure<Flow>>,
    /// Leakage to reach.
    pub leakage_goal: Option<Flow>,
    /// Indoor temperature in a cold spell.
    pub indoor_temperature: Option<Figure<Temperature>>,
    /// Indoor relative humidity in a cold spell.
    pub humidity: Option<Figure<Share>>,
    /// People who live there.
    pub occupants: Option<u32>,
    /// Bedrooms, by which the air a house needs is reckoned.
    pub bedrooms: Option<Figure<u32>>,
    /// What it is heated with.
    pub fuel: Option<Fuel>,
    /// What that costs.
    pub fuel_price: Option<FuelPrice>,
    /// Share of the fuel's heat that reaches the rooms.
    pub efficiency: Option<Share>,
    /// Whether heat cables lie on the roof.
    pub heat_cables: Option<Figure<bool>>,
    /// Whatever burns fuel.
    pub appliances: Vec<Appliance>,
}

/// What a house is heated with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "plain names")]
pub enum Fuel {
    NaturalGas,
    Propane,
    Oil,
    Electricity,
    Wood,
}

/// What fuel is sold by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "plain names")]
pub enum FuelUnit {
    Therm,
    Gallon,
    KilowattHour,
    Cord,
}

/// Price of fuel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FuelPrice {
    /// Price of one unit.
    pub amount: Money,
    /// The unit.
    pub per: FuelUnit,
}

/// How a fuel-burning appliance gets rid of its smoke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VentClass {
    /// By its own warmth: the one a tight house can turn round.
    Atmospheric,
    /// Driven by a fan.
    FanAssisted,
    /// Air from outdoors and smoke to outdoors in sealed pipes.
    Sealed,
    /// Into the room.
    Unvented,
}

/// Something that burns fuel.
#[derive(Clone, Debug, PartialEq)]
pub struct Appliance {
    /// What it is, as written.
    pub kind: String,
    /// How its smoke leaves.
    pub vent: Figure<VentClass>,
    /// Where it stands, as written.
    pub place: Option<String>,
    /// Where it stands in the document.
    pub span: Span,
}

/// Room a fan serves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "plain names")]
pub enum Room {
    Bath,
    Kitchen,
    Laundry,
    Dryer,
}

impl Room {
    /// As jobs and books write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bath => "bath",
            Self::Kitchen => "kitchen",
            Self::Laundry => "laundry",
            Self::Dryer => "dryer",
        }
    }
}

/// Where the air of a fan goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "plain names")]
pub enum FanEnd {
    Outdoors,
    Attic,
    Soffit,
    RidgeVent,
}

/// A fan that blows moist air out of a room.
#[derive(Clone, Debug, PartialEq)]
pub struct Fan {
    /// Room it serves.
    pub room: Room,
    /// Plan place, metres.
    pub at: Option<[f64; 2]>,
    /// Air it moves.
    pub flow: Figure<Flow>,
    /// Where the air goes.
    pub ends: Figure<FanEnd>,
    /// Where it stands in the document.
    pub span: Span,
}

/// What the owner saw.
#[derive(Clone, Debug, PartialEq)]
pub struct Symptom {
    /// What it was.
    pub kind: SymptomKind,
    /// Where, as written.
    pub place: String,
    /// Plan place, metres.
    pub at: Option<[f64; 2]>,
    /// When.
    pub date: Option<Date>,
    /// Weather then and before, as written.
    pub weather: Option<String>,
    /// Where it stands in the document.
    pub span: Span,
}

/// Direction of the compass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "plain names")]
pub enum Compass {
    North,
    NorthEast,
    East,
    SouthEast,
    South,
    SouthWest,
    West,
    NorthWest,
}

impl Compass {
    /// In turn from north, clockwise, 45 degrees apart.
    pub const ALL: [Self; 8] = [
        Self::North,
        Self::NorthEast,
        Self::East,
        Self::SouthEast,
        Self::South,
        Self::SouthWest,
        Self::West,
        Self::NorthWest,
    ];

    /// As names of planes end: `main S`.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::North => "N",
            Self::NorthEast => "NE",
            Self::East => "E",
            Self::SouthEast => "SE",
            Self::South => "S",
            Self::SouthWest => "SW",
            Self::West => "W",
            Self::NorthWest => "NW",
        }
    }

    /// The direction of that letter.
    pub fn of_letter(letter: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|compass| compass.letter() == letter)
    }

    /// Clockwise from north.
    pub fn degrees(self) -> f64 {
        f64::from(self as u8) * 45.0
    }

    /// Angle between this direction and another, degrees clockwise from north; 0 to 180.
    pub fn apart(self, azimuth_degrees: f64) -> f64 {
        let between = (azimuth_degrees - self.degrees()).rem_euclid(360.0);
        between.min(360.0 - between)
    }

    /// Whether a plane that faces this way may be called by the direction: by either letter beside its own, but not by the next.
    pub fn may_name(self, azimuth_degrees: f64) -> bool {
        /// Degrees; a full 45 would let either of two names stand for a plane right between others.
        const NEAR: f64 = 44.0;
        self.apart(azimuth_degrees) <= NEAR
    }
}

/// A storm and what it did.
#[derive(Clone, Debug, PartialEq)]
pub struct Storm {
    /// Day.
    pub date: Date,
    /// Largest hailstone across.
    pub hail: Option<Length>,
    /// Strongest gust, metres per second.
    pub gust_m_s: Option<f64>,
    /// Where it came from.
    pub from: Option<Compass>,
    /// Hailstone hits in a 10 ft by 10 ft square, by plane.
    pub hits: Vec<PlaneCount>,
    /// Creased or missing shingles, by plane.
    pub creased: Vec<PlaneCount>,
    /// Dents in soft metal and plastic, as written.
    pub soft_metals: Vec<String>,
    /// Where it stands in the document.
    pub span: Span,
}

/// A count on one plane.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlaneCount {
    /// The plane.
    pub plane: PlaneName,
    /// The count.
    pub count: u32,
    /// Where it stands in the document.
    pub span: Span,
}

/// Who does the work and what it costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Crew {
    /// People who lead.
    pub leads: u32,
    /// Roofers.
    pub roofers: u32,
    /// Carpenters.
    pub carpenters: u32,
    /// Hours of a working day.
    pub day_hours: f64,
    /// Share of those hours that is work on the job.
    pub productive: Share,
    /// Cost of one hour of one worker, burden included.
    pub rate_per_hour: Money,
    /// Overhead on direct cost.
    pub overhead: Share,
    /// Profit on direct cost and overhead.
    pub profit: Share,
}
