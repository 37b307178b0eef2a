//! What a winter hangs on that nobody knows sharply, and how it is drawn.

use ::winter::sky::CLOUD;
use ::winter::snow::Conductivity;
use ::winter::year::above;
use book::Book;
use book::thermal::Unknown as Row;

/// Draws are cut where a thousandth lies beyond, so that no wild one stands for a house.
const CUT: f64 = 1e-3;
/// Laws of what snow conducts, the least first.
const LAWS: [Conductivity; 3] = [Conductivity::Sturm, Conductivity::Calonne, Conductivity::Yen];

/// An unknown: a row of the books, perhaps of one attic.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Unknown<'b> {
    pub(super) row: &'b Row,
    /// Its attic by number and name.
    attic: Option<(usize, String)>,
}

/// Unknowns as drawn.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Draw {
    /// Factor on the leakage of the house.
    pub(super) leakage: f64,
    /// By attic.
    pub(super) attics: Vec<OfAttic>,
    /// Rooms are this much warmer, K.
    pub(super) rooms: f64,
    /// Factors on what sealing reaches, and on what new insulation resists.
    pub(super) sealing: f64,
    pub(super) laying: f64,
    /// Factor on what fans take out.
    pub(super) exhaust: f64,
    /// What vents let through.
    pub(super) discharge: f64,
    /// Share of the wind at the station that reaches the house (0.4 to 0.8 in a suburb; from memory).
    pub(super) shelter: f64,
    /// Snow that falls on a roof, as a share of what falls on open ground (0.6 to 0.8 by wind; common practice).
    pub(super) catch: f64,
    /// Snow: factor on how dense it falls, what it throws back more, what it conducts.
    pub(super) denser: f64,
    pub(super) brighter: f64,
    pub(super) conductivity: Conductivity,
    /// What clouds make up of what a clear sky lacks.
    pub(super) clouds: f64,
}

/// Factors on what was found of an attic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct OfAttic {
    pub(super) leakage: f64,
    pub(super) insulation: f64,
    pub(super) low: f64,
    pub(super) high: f64,
}

impl Draw {
    /// As the job and the books have it.
    pub(super) fn as_written(attics: usize) -> Self {
        Self {
            leakage: 1.0,
            attics: vec![OfAttic { leakage: 1.0, insulation: 1.0, low: 1.0, high: 1.0 }; attics],
            rooms: 0.0,
            sealing: 1.0,
            laying: 1.0,
            exhaust: 1.0,
            discharge: ::winter::house_air::VENT_DISCHARGE,
            shelter: 0.6,
            catch: 0.8,
            denser: 1.0,
            brighter: 0.0,
            conductivity: Conductivity::default(),
            clouds: CLOUD,
        }
    }

    /// With each unknown at a share of its distribution, from 0 to 1.
    pub(super) fn at(unknowns: &[Unknown<'_>], shares: &[f64], attics: usize) -> Self {
        let mut draw = Self::as_written(attics);
        for (unknown, share) in unknowns.iter().zip(shares) {
            draw.set(unknown, *share);
        }
        draw
    }

    fn set(&mut self, unknown: &Unknown<'_>, share: f64) {
        let value = unknown.value(share);
        let number = unknown.attic.as_ref().map_or(0, |(number, _)| *number);
        let place = match (unknown.row.id.as_str(), self.attics.get_mut(number)) {
            ("ceiling-leakage", Some(attic)) => &mut attic.leakage,
            ("insulation", Some(attic)) => &mut attic.insulation,
            ("low-vents", Some(attic)) => &mut attic.low,
            ("high-vents", Some(attic)) => &mut attic.high,
            ("house-leakage", _) => &mut self.leakage,
            ("rooms", _) => &mut self.rooms,
            ("sealing", _) => &mut self.sealing,
            ("laying", _) => &mut self.laying,
            ("exhaust", _) => &mut self.exhaust,
            ("discharge", _) => &mut self.discharge,
            ("shelter", _) => &mut self.shelter,
            ("catch", _) => &mut self.catch,
            ("snow-density", _) => &mut self.denser,
            ("snow-albedo", _) => &mut self.brighter,
            ("clouds", _) => &mut self.clouds,
            ("snow-conductivity", _) => {
                self.conductivity = law(share);
                return;
            }
            _ => return,
        };
        *place = value;
    }
}

impl<'b> Unknown<'b> {
    /// Those of the books, for attics of these names.
    pub(super) fn all(book: &'b Book, attics: &[&str]) -> Vec<Self> {
        let of = |row: &'b Row| -> Vec<Self> {
            if ["ceiling-leakage", "insulation", "low-vents", "high-vents"].contains(&row.id.as_str()) {
                let each = attics.iter().enumerate();
                each.map(|(i, name)| Self { row, attic: Some((i, (*name).to_owned())) }).collect()
            } else {
                vec![Self { row, attic: None }]
            }
        };
        book.thermal().unknowns().flat_map(of).collect()
    }

    /// Its name, with that of its attic where there are others.
    pub(super) fn name(&self, attics: usize) -> String {
        match &self.attic {
            Some((_, attic)) if attics > 1 => format!("{}, attic {attic}", self.row.name),
            _ => self.row.name.clone(),
        }
    }

    /// The field of the job it is written to.
    pub(super) fn field(&self, attics: &[&str]) -> Option<String> {
        let own = self.attic.as_ref().map(|(_, name)| name.as_str()).or(attics.first().copied());
        Some(self.row.field.as_ref()?.replace("{attic}", own.unwrap_or("NAME")))
    }

    /// On a scale on which it is normal with deviation 1, or even with the same, or three laws as far apart.
    pub(super) fn score(&self, share: f64) -> f64 {
        let Row { between, one_of, .. } = self.row;
        if between.is_some() {
            12.0_f64.sqrt() * (share - 0.5)
        } else if let Some(count) = one_of {
            let most = f64::from(count - 1);
            let at = (share * f64::from(*count)).floor().min(most);
            (at - most / 2.0) / ((f64::from(count * count) - 1.0) / 12.0).sqrt()
        } else {
            above(share.clamp(CUT, 1.0 - CUT))
        }
    }

    /// What a measurement leaves of its deviation, on that scale; none where nothing measures it.
    pub(super) fn left_by_measuring(&self) -> Option<f64> {
        let Row { factor, kelvin, between, measured, .. } = self.row;
        let width = between.map(|ends| (ends.high - ends.low) / 12.0_f64.sqrt());
        Some(measured.as_ref()?.to / factor.or(*kelvin).or(width)?)
    }

    /// The factor, the kelvins or the value itself.
    fn value(&self, share: f64) -> f64 {
        let Row { factor, kelvin, between, .. } = self.row;
        match (factor, kelvin, between) {
            (Some(factor), ..) => (factor * self.score(share)).exp(),
            (_, Some(kelvin), _) => kelvin * self.score(share),
            (.., Some(ends)) => ends.low + share * (ends.high - ends.low),
            _ => share,
        }
    }
}

/// One of the laws of what snow conducts, each as likely.
fn law(share: f64) -> Conductivity {
    let place = LAWS.iter().zip(1..).find(|(_, k)| share * LAWS.len() as f64 <= f64::from(*k));
    place.map_or(LAWS[LAWS.len() - 1], |(law, _)| *law)
}
