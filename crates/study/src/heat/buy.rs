//! Insulation to buy: how deep, how many bags or feet, what it weighs, how many baffles, what fits at the heels.
//!
//! # Source
//! Coverage, weight and limits of ceilings: rows of the books, common practice unless they say otherwise; the label of the bag governs.

use book::LookupError;
use book::thermal::Supply;
use heat::energy::{Blown, Foam, board_feet};
use job::{Attic, Basis, EdgeSlope, SpaceKind};
use measure::{Area, Length, Load, RValue};

use super::desk::Desk;
use super::heel::{Short, measured, short};
use super::{Ceiling, Kind};

/// What an attic takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Buy {
    /// Name of the insulation in the books.
    pub kind: String,
    /// What is wanted of all of it.
    pub wanted: RValue,
    /// What stays and counts.
    pub stays: RValue,
    /// Area it covers.
    pub area: Area,
    /// Depth that lasts.
    pub settled: Length,
    /// How it is bought.
    pub how: How,
    /// Load on the ceiling with what stays, and the most the board carries there.
    pub load: (Load, Load),
    /// Which board and spacing that limit is of, and whether the job says the spacing.
    pub board: (String, bool),
    /// Baffles, one to each bay that takes air in; none where the spacing of the rafters is not known.
    pub baffles: Option<u32>,
    /// By block and pitch: what its heel leaves.
    pub heels: Vec<(String, Short)>,
    /// What is to be looked at first.
    pub cautions: Vec<&'static str>,
}

/// How insulation is bought.
#[derive(Clone, Debug, PartialEq)]
pub enum How {
    /// Blown so deep, so many bags of so many kilograms, waste included.
    Bags {
        /// Depth to blow.
        blown: Length,
        /// Whole bags.
        bags: u32,
        /// Weight of one, kg.
        each: f64,
    },
    /// Batts over the area.
    Batts,
    /// Sprayed in lifts.
    Foam {
        /// A square foot an inch deep.
        board_feet: f64,
        /// Passes.
        lifts: u32,
        /// What is sprayed from, kg, with what is lost.
        weight: f64,
    },
}

impl Buy {
    /// Of a space that is to be insulated.
    pub(super) fn of(
        desk: &Desk<'_>,
        attic: &Attic,
        area: Area,
        found: Option<&Ceiling>,
    ) -> Result<Option<Self>, LookupError> {
        let Some(wanted) = desk.target(attic)? else { return Ok(None) };
        let kind = desk.kind(attic)?;
        let ceiling = RValue::from_us(super::CEILING);
        let goes = attic.found.condition.as_deref().is_some_and(is_to_go);
        let stays = found
            .filter(|_| !goes)
            .map_or(RValue::ZERO, |found| (found.reckoned - ceiling).max(RValue::ZERO));
        let old = found.filter(|_| !goes).map_or(Load::ZERO, |found| weight(desk, found));
        let waste: book::Share = desk.book.rule("blown.waste")?.get()?;
        let Some((how, added)) = how(kind, [wanted, stays], area, waste.of_one()) else { return Ok(None) };
        let (board, limit, is_said) = board(desk, attic)?;
        Ok(Some(Self {
            kind: kind.row.name.clone(),
            wanted,
            stays,
            area,
            settled: kind.depth((wanted - stays).max(RValue::ZERO)),
            how,
            load: (added + old, limit),
            board: (board, is_said),
            baffles: baffles(desk, attic),
            heels: heels(desk, attic, wanted, kind),
            cautions: cautions(attic),
        }))
    }
}

/// How what lacks of a resistance is bought over an area, and its load.
fn how(kind: Kind<'_>, [wanted, stays]: [RValue; 2], area: Area, waste: f64) -> Option<(How, Load)> {
    let new = (wanted - stays).max(RValue::ZERO);
    Some(match &kind.row.supply {
        Supply::Blown { bag_kg, .. } => {
            let fill = Blown::of(kind.row)?.fill(wanted, stays);
            let bags = whole(fill.bags(area, waste));
            (How::Bags { blown: fill.blown, bags, each: *bag_kg }, fill.load())
        }
        Supply::Batts {} => (How::Batts, load(kind, kind.depth(new))),
        Supply::Sprayed { .. } => {
            let foam = Foam::of(kind.row)?;
            let depth = foam.depth(new);
            let (board_feet, lifts) = (board_feet(area, depth), foam.lifts(depth));
            (How::Foam { board_feet, lifts, weight: foam.weight(area, depth) }, load(kind, depth))
        }
    })
}

/// Whether what lies there is taken out first.
fn is_to_go(condition: &str) -> bool {
    let said = condition.to_lowercase();
    ["wet", "mold", "mould", "rodent", "mice", "droppings", "remove"].iter().any(|word| said.contains(word))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "at least 0, and capped by the cast"
)]
fn whole(count: f64) -> u32 {
    (count - 1e-9).ceil().max(0.0) as u32
}

fn load(kind: Kind<'_>, depth: Length) -> Load {
    Load::from_pa(depth.m() * kind.row.density_kg_m3.middle() * heat::air::GRAVITY)
}

/// Load of what was found.
fn weight(desk: &Desk<'_>, found: &Ceiling) -> Load {
    let row = desk.book.thermal().insulations().find(|row| row.name == found.kind);
    row.map_or(Load::ZERO, |row| load(Kind { row, is_named: true }, found.depth))
}

/// The limit of half-inch board, the usual one, at the spacing of the joists.
fn board(desk: &Desk<'_>, attic: &Attic) -> Result<(String, Load, bool), LookupError> {
    let spacing = widest(desk, attic);
    let is_wide = spacing.is_some_and(|spacing| spacing.inches() > 20.0);
    let row = desk.book.thermal().ceiling(if is_wide { "gypsum-1-2-at-24" } else { "gypsum-1-2-at-16" })?;
    Ok((format!("{}, {} apart", row.name, row.spacing.text()), *row.load, spacing.is_some()))
}

/// The widest spacing of what carries its blocks.
fn widest(desk: &Desk<'_>, attic: &Attic) -> Option<Length> {
    let spacing = |block: &job::Block| {
        let spacing = block.framing.as_ref()?.spacing.as_ref()?;
        (spacing.basis == Basis::Measured).then_some(spacing.value)
    };
    desk.blocks(attic).filter_map(spacing).max_by(|a, b| a.m().total_cmp(&b.m()))
}

/// One to each bay along the soffits that open into it.
fn baffles(desk: &Desk<'_>, attic: &Attic) -> Option<u32> {
    let check = desk.takeoff.vents_of(attic)?;
    let spacing_over = |eave: roof::EdgeId| {
        let planes = &desk.roof.edge(eave).planes;
        let blocks = planes.iter().flat_map(|plane| &desk.roof.plane(*plane).blocks);
        let mut all = blocks.filter_map(|name| desk.job.blocks.iter().find(|block| block.name == *name));
        all.find_map(|block| block.framing.as_ref()?.spacing.as_ref().map(|spacing| spacing.value))
    };
    let bays: Option<Vec<u32>> =
        check.soffits.iter().map(|(eave, along)| Some(whole(*along / spacing_over(*eave)?))).collect();
    bays.map(|bays| bays.iter().sum())
}

/// What each measured heel leaves, by block and pitch.
fn heels(desk: &Desk<'_>, attic: &Attic, wanted: RValue, kind: Kind<'_>) -> Vec<(String, Short)> {
    let mut all: Vec<(String, Short)> = Vec::new();
    // bays are as deep at the wall as elsewhere
    for block in desk.blocks(attic).filter(|_| attic.kind == SpaceKind::Attic) {
        let Some(height) = measured(block) else { continue };
        for edge in block.edges.iter().flatten() {
            let EdgeSlope::Pitch(pitch) = &edge.slope else { continue };
            let name = format!("{} at {}", block.name, desk.job.units.pitch(pitch.value));
            if all.iter().all(|(known, _)| *known != name) {
                all.extend(short(height, pitch.value, desk.clear, wanted, kind).map(|short| (name, short)));
            }
        }
    }
    all
}

/// Before insulation covers it.
fn cautions(attic: &Attic) -> Vec<&'static str> {
    let said = format!(
        "{} {}",
        attic.found.insulation.as_deref().unwrap_or_default(),
        attic.found.condition.as_deref().unwrap_or_default()
    )
    .to_lowercase();
    let asbestos = said
        .contains("vermiculite")
        .then_some("vermiculite may hold asbestos: leave it, and have it tested before anybody stirs it");
    let wires = "look for knob-and-tube wiring, lights not made for contact with insulation (3 in clear), flues (2 in clear of B-vent) and chimneys (as the code asks) before anything is covered";
    let order = "seal first, insulate after: what is covered cannot be sealed";
    [asbestos, Some(order), Some(wires)].into_iter().flatten().collect()
}
