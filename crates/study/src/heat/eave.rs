//! The eave in section, solved in two dimensions: how warm the deck is along the slope, what goes out at the heel.
//!
//! # Method
//! Wall with its plate, ceiling board, insulation under the deck as the heel lets it lie, deck with shingles under a foot of settled snow, per metre of eave. Air between
//! insulation and deck is as cold as outdoors where it comes in at the soffit and as warm as the attic where the insulation is whole; without soffit vents it is the
//! attic's everywhere. Where the snow's underside would be above 0 °C it is held there: it melts. Temperatures of rooms, attic and outdoors are those at 22 °F.
//!
//! # Range
//! Steady. Air that washes through insulation is not in it, nor heat along the deck's length.

mod form;

use job::{Attic, Block, EdgeSlope, SpaceKind};
use measure::{Length, Pitch, RValue, Temperature};
use roof::EdgeKind;

use super::desk::Desk;
use super::heel::measured;
use crate::winter::model::Model;
use crate::winter::{DESIGN, Fixes, steady};
use form::Form;

/// The eave of a block at a pitch.
#[derive(Clone, Debug, PartialEq)]
pub struct Eave {
    /// Attic over it.
    pub attic: String,
    /// Block and pitch.
    pub at: String,
    /// As found and as planned.
    pub states: [Option<Section>; 2],
}

/// One state of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Middle of the deck, by distance inward of the outside of the wall; outward is below nothing.
    pub deck: Vec<(Length, Temperature)>,
    /// Strips of floor inward from the outside of the wall: from, to, and from air to air what lies between.
    pub floor: Vec<(Length, Length, RValue)>,
    /// Up from the strips of floor drawn, W for each metre of eave.
    pub up: f64,
    /// What the field would let up through as much floor, W/m.
    pub field: f64,
    /// Inward over which snow melts on it; none where none does.
    pub melts: Option<[Length; 2]>,
    /// What did not close, as a share of what went through.
    pub closure: f64,
}

/// Of every eave with a measured heel over an attic whose temperatures are known.
pub(super) fn eaves(desk: &Desk<'_>, spaces: &[super::Space], model: &Model<'_>) -> Vec<Eave> {
    let attics = [Fixes::default(), Fixes::ALL].map(|fixes| steady(model, "", fixes, DESIGN).attics);
    let mut all: Vec<Eave> = Vec::new();
    let is_attic = |(_, (attic, _)): &(usize, (&Attic, &super::Space))| attic.kind == SpaceKind::Attic;
    for (i, (attic, space)) in desk.job.attics.iter().zip(spaces).enumerate().filter(is_attic) {
        for block in desk.blocks(attic) {
            let Some(heel) = measured(block) else { continue };
            for (pitch, overhang) in pitches(desk, block) {
                let at = format!("{} at {}", block.name, desk.job.units.pitch(pitch));
                if all.iter().any(|eave| eave.at == at && eave.attic == attic.name) {
                    continue;
                }
                let of = |state: usize| {
                    let ceiling = space.states[state].as_ref()?;
                    let form =
                        Form::of(desk, (attic, block), (heel, pitch, overhang), (ceiling, state == 1))?;
                    form.section([model.rooms, attics[state][i][0], DESIGN]).ok()
                };
                all.push(Eave { attic: attic.name.clone(), at, states: [of(0), of(1)] });
            }
        }
    }
    all
}

/// Pitches over a block's eaves, with how far they stand out.
fn pitches(desk: &Desk<'_>, block: &Block) -> Vec<(Pitch, Length)> {
    let of_side = |edge: &job::BlockEdge| {
        let EdgeSlope::Pitch(pitch) = &edge.slope else { return None };
        let is_its = |own: &&roof::Edge| {
            own.kind == EdgeKind::Eave
                && own.planes.iter().any(|plane| {
                    let plane = desk.roof.plane(*plane);
                    plane.blocks.contains(&block.name)
                        && (plane.pitch.slope() - pitch.value.slope()).abs() < 1e-6
                })
        };
        let eave = desk.roof.edges.iter().find(is_its)?;
        (pitch.value.slope() > 0.0).then_some((pitch.value, eave.overhang))
    };
    block.edges.iter().flatten().filter_map(of_side).collect()
}
