//! Laps: whether every layer hands its water on to the outside of the next one down.
//!
//! A detail says which layers each of its layers hands water to, and by how much it must lap over them. Besides, wherever a layer ends in the
//! direction of the fall, what runs off it must land on another layer: never on wood. What water gets behind is found apart, from where layers lie.

use book::{Coming, Reach, Stands};
use job::Units;
use measure::Length;

use crate::attack::Attack;
use crate::behind::{self, End};
use crate::reach::{Slot, Ways};
use crate::section::{Laid, SAME, Section, Sheet};

/// What is wrong with the layers of a section.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A layer empties behind the next one down.
    Reverse {
        /// The layer whose water goes astray.
        upper: String,
        /// The layer it goes behind.
        lower: String,
    },
    /// A layer that is there to be rained on lies wholly behind one that is not.
    Hidden {
        /// The layer.
        layer: String,
        /// What lies over it.
        behind: String,
    },
    /// A layer empties onto wood.
    Bare {
        /// The layer.
        layer: String,
    },
    /// A lap shorter than it must be.
    Short {
        /// The layer that laps.
        upper: String,
        /// The layer it laps over; itself where its own pieces along the run are meant.
        lower: String,
        /// Metres it laps.
        lap: f64,
        /// Metres it must.
        least: f64,
    },
    /// A turn-up that ends below standing water.
    TurnUp {
        /// The layer that reaches highest of those that hold standing water.
        layer: Option<String>,
        /// Metres it reaches up.
        reach: f64,
        /// Metres the water stands.
        water: f64,
    },
    /// Fasteners where none may be.
    Fastener {
        /// The layer they hold.
        layer: String,
    },
    /// A layer fastened to two bodies that move apart.
    BothBodies {
        /// The layer.
        layer: String,
    },
}

impl Fault {
    /// In words, laps as they are marked on the piece.
    pub fn told(&self, units: Units) -> String {
        let lap = |metres: f64| units.lap(Length::from_m(metres));
        match self {
            Self::Reverse { upper, lower } => format!("reverse lap: {upper} empties behind {lower}"),
            Self::Hidden { layer, behind } => format!("reverse order: {layer} lies hidden behind {behind}"),
            Self::Bare { layer } => format!("{layer} empties onto wood"),
            Self::Short { upper, lower, lap: found, least } if upper == lower => {
                format!("pieces of {upper} lap by {}; {} at least", lap(*found), lap(*least))
            }
            Self::Short { upper, lower, lap: found, least } => {
                format!("{upper} laps over {lower} by {}; {} at least", lap(*found), lap(*least))
            }
            Self::TurnUp { layer: None, water, .. } => {
                format!("nothing that holds water turns up the wall; water stands {} high", lap(*water))
            }
            Self::TurnUp { layer: Some(layer), reach, water } => {
                format!("{layer} turns up {}; water stands {} high", lap(*reach), lap(*water))
            }
            Self::Fastener { layer } => format!("fasteners of {layer} stand where none may"),
            Self::BothBodies { layer } => format!("{layer} is fastened to two bodies that move apart"),
        }
    }
}

/// All that is wrong with a section: layer by layer what is wrong with it, then what water gets behind.
pub fn faults(section: &Section<'_>) -> Vec<Fault> {
    let mut faults = Vec::new();
    let ways = Ways::of(section, Attack::Rain);
    for (index, sheet) in section.sheets.iter().enumerate() {
        faults.extend(sheet.layer.over.keys().filter_map(|lower| lap_fault(section, index, lower)));
        faults.extend(
            behind::low_ends(section, sheet).filter_map(|end| bare_fault(section, &ways, index, end)),
        );
        faults.extend(piece_fault(sheet));
        faults.extend(fixing_faults(section, sheet));
    }
    for fault in behind::faults(section, &ways) {
        if !faults.contains(&fault) {
            faults.push(fault);
        }
    }
    faults.extend(turn_up_faults(section));
    faults
}

/// What is wrong with a lap as the detail means it.
fn lap_fault(section: &Section<'_>, upper: usize, lower: &str) -> Option<Fault> {
    let sheet = &section.sheets[upper];
    let index = section.sheets.iter().position(|other| other.layer.id == lower)?;
    let names = || (sheet.layer.id.clone(), lower.to_owned());
    if index > upper {
        let (upper, lower) = names();
        return Some(Fault::Reverse { upper, lower });
    }
    is_short(sheet, &section.sheets[index]).then(|| {
        let (upper, lower) = names();
        let lap = overlap(sheet, &section.sheets[index]);
        Fault::Short { lap, least: sheet.layer.over.get(&lower).map_or(0.0, |least| least.m()), upper, lower }
    })
}

/// Whether a layer laps over another by less than it must.
pub(crate) fn is_short(upper: &Sheet<'_>, lower: &Sheet<'_>) -> bool {
    let least = upper.layer.over.get(&lower.layer.id);
    least.is_some_and(|least| overlap(upper, lower) < least.m() - SAME)
}

fn overlap(upper: &Sheet<'_>, lower: &Sheet<'_>) -> f64 {
    upper.span.shared(lower.span).length().max(0.0)
}

/// Water of a layer that ends low must not land on wood that is to stay dry.
fn bare_fault(section: &Section<'_>, ways: &Ways<'_, '_>, index: usize, end: End) -> Option<Fault> {
    let slot = ways.outside(index, end.inside)?;
    let next = &section.stretches[end.beyond];
    let is_bare = next.guarded && next.layers.is_empty();
    (is_bare && ways.is_open(slot, Slot { stretch: end.beyond, depth: 0 }))
        .then(|| Fault::Bare { layer: section.sheets[index].layer.id.clone() })
}

fn piece_fault(sheet: &Sheet<'_>) -> Option<Fault> {
    let pieces = sheet.layer.pieces.as_ref()?;
    (*pieces.lap < *pieces.least).then(|| Fault::Short {
        upper: sheet.layer.id.clone(),
        lower: sheet.layer.id.clone(),
        lap: pieces.lap.m(),
        least: pieces.least.m(),
    })
}

/// Walls against which standing water is held by nothing that reaches over it.
fn turn_up_faults(section: &Section<'_>) -> Vec<Fault> {
    let Some(pond) = section.detail.ice.as_ref() else { return Vec::new() };
    let water = pond.height.m();
    let walls = section.faces.iter().filter(|laid| is_wall(laid) && pond.on.contains_key(&laid.face.name));
    let fault = |laid: &Laid<'_>| {
        let holding = section.sheets.iter().filter(|sheet| sheet.stops(Coming::Standing));
        let reaches = holding.map(|sheet| (turn_up(sheet, laid), &sheet.layer.id));
        let highest = reaches.filter(|(reach, _)| *reach > 0.0).max_by(|a, b| a.0.total_cmp(&b.0));
        let reach = highest.map_or(0.0, |(reach, _)| reach);
        let least = water.min(laid.span.length());
        (reach < least - SAME).then(|| Fault::TurnUp {
            layer: highest.map(|(_, id)| id.clone()),
            reach,
            water,
        })
    };
    walls.filter_map(fault).collect()
}

/// How far a layer reaches up a wall from its foot.
fn turn_up(sheet: &Sheet<'_>, wall: &Laid<'_>) -> f64 {
    match sheet.layer.covers.get(&wall.face.name) {
        Some(Reach::All) => wall.span.length(),
        Some(Reach::Between([from, to])) if from.m() < SAME => to.m(),
        _ => 0.0,
    }
}

/// Whether a face stands up from the roof, as a wall does and a fascia does not.
fn is_wall(laid: &Laid<'_>) -> bool {
    laid.face.stands == Stands::Upright && laid.heights.iter().any(|height| *height > SAME)
}

fn fixing_faults(section: &Section<'_>, sheet: &Sheet<'_>) -> Vec<Fault> {
    let forbidden = section.spans(&section.detail.no_fasteners);
    let is_forbidden = sheet.fixings.iter().any(|(span, _)| forbidden.iter().any(|zone| zone.touches(*span)));
    let holds_on = |wall: bool| {
        let on = |laid: &&Laid<'_>| sheet.layer.fixed.iter().any(|fixing| fixing.face == laid.face.name);
        section.faces.iter().filter(on).any(|laid| is_wall(laid) == wall)
    };
    let layer = || sheet.layer.id.clone();
    let forbidden = is_forbidden.then(|| Fault::Fastener { layer: layer() });
    let both = (holds_on(true) && holds_on(false)).then(|| Fault::BothBodies { layer: layer() });
    forbidden.into_iter().chain(both).collect()
}
