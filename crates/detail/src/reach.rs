//! The ways water has in a section: from slot to slot, and what must fail on each way.
//!
//! A *slot* is the room between two layers on one stretch; slot 0 is the wood's own face, the last one is outdoors. Water moves
//! - from a slot to those beside it that it is open to: down the fall always, up only where it stands or where wind finds a lap shorter than
//!   its least; never along under a layer that bonds;
//! - inward through a layer that does not stop it, or that fails;
//! - inward along a fastener that fails, down to the first layer that heals round it; along one in a forbidden zone in any case.

use std::collections::BTreeSet;

use book::{Act, Falls};

use crate::attack::Attack;
use crate::lap::is_short;
use crate::section::{Section, Span};
use crate::stand::Failure;

/// Layer number of the wood, below all layers.
const WOOD: i64 = -1;
/// Layer number of the outdoors, above all layers.
const OUTDOORS: i64 = i64::MAX;

/// A slot: the stretch, and how many of its layers are below.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Slot {
    pub(crate) stretch: usize,
    pub(crate) depth: usize,
}

/// A step of water, and what must have failed for it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    pub(crate) to: Slot,
    pub(crate) needs: Option<Failure>,
}

/// Ways of one attack through one section.
pub(crate) struct Ways<'s, 'a> {
    section: &'s Section<'a>,
    attack: Attack,
    /// Of each stretch, whether it stands under water.
    drowned: Vec<bool>,
    forbidden: Vec<Span>,
}

impl<'s, 'a> Ways<'s, 'a> {
    pub(crate) fn of(section: &'s Section<'a>, attack: Attack) -> Self {
        let forbidden = section.spans(&section.detail.no_fasteners);
        Self { section, attack, drowned: attack.drowned(section), forbidden }
    }

    /// Where water is from the start.
    pub(crate) fn starts(&self) -> Vec<Slot> {
        let stretches = 0..self.section.stretches.len();
        let rains = matches!(self.attack, Attack::Rain | Attack::Wind);
        let wet = stretches.filter(|stretch| rains || self.drowned[*stretch]);
        wet.map(|stretch| Slot { stretch, depth: self.section.stretches[stretch].layers.len() }).collect()
    }

    /// Whether water here wets wood that is to stay dry.
    pub(crate) fn is_wood(&self, slot: Slot) -> bool {
        slot.depth == 0 && self.section.stretches[slot.stretch].guarded
    }

    /// Whether water gets to a slot once all layers have failed but these. Fasteners hold: a hole is no lap.
    pub(crate) fn reach(&self, wanted: Slot, sound: &[usize]) -> bool {
        let holds = |failure: Failure| match failure {
            Failure::Layer(layer) => sound.contains(&layer),
            Failure::Fastener(_) => true,
        };
        self.wet(|failure| !holds(failure)).contains(&wanted)
    }

    /// Slots that water gets to once what a test tells has failed.
    pub(crate) fn wet(&self, has_failed: impl Fn(Failure) -> bool) -> BTreeSet<Slot> {
        let mut waiting = self.starts();
        let mut wet: BTreeSet<Slot> = waiting.iter().copied().collect();
        while let Some(slot) = waiting.pop() {
            let open = self.steps(slot).into_iter().filter(|step| step.needs.is_none_or(&has_failed));
            waiting.extend(open.map(|step| step.to).filter(|to| wet.insert(*to)));
        }
        wet
    }

    /// Where water goes on to from a slot.
    pub(crate) fn steps(&self, slot: Slot) -> Vec<Step> {
        let mut steps: Vec<Step> = self.through(slot).into_iter().chain(self.along_fasteners(slot)).collect();
        let before = slot.stretch.checked_sub(1);
        let after = Some(slot.stretch + 1).filter(|next| *next < self.section.stretches.len());
        for beside in before.into_iter().chain(after) {
            steps.extend(self.beside(slot, beside).map(|to| Step { to, needs: None }));
        }
        steps
    }

    /// The layer directly below a slot.
    fn below(&self, slot: Slot) -> Option<usize> {
        Some(self.section.stretches[slot.stretch].layers[slot.depth.checked_sub(1)?])
    }

    /// The layer directly above a slot.
    fn above(&self, slot: Slot) -> Option<usize> {
        self.section.stretches[slot.stretch].layers.get(slot.depth).copied()
    }

    /// Inward through the layer below.
    fn through(&self, slot: Slot) -> Option<Step> {
        let layer = self.below(slot)?;
        let sheet = &self.section.sheets[layer];
        let is_passed = self.attack == Attack::Gutter && sheet.acts(Act::Gutters);
        let stops = sheet.stops(self.attack.coming(self.drowned[slot.stretch])) && !is_passed;
        let to = Slot { depth: slot.depth - 1, ..slot };
        Some(Step { to, needs: stops.then_some(Failure::Layer(layer)) })
    }

    /// Inward along fasteners, which go through all that lies under their layer. Their heads are on the layer's outside; where courses hide
    /// them, on its inside.
    fn along_fasteners(&self, slot: Slot) -> impl Iterator<Item = Step> {
        let stretch = self.section.stretches[slot.stretch].span;
        let fixed = move |layer: &usize| {
            self.section.sheets[*layer].fixings.iter().any(|(span, _)| span.touches(stretch))
        };
        let courses = |layer: &usize| self.section.sheets[*layer].acts(Act::Courses);
        let bare = self.below(slot).filter(|layer| !courses(layer));
        let hidden = self.above(slot).filter(courses);
        bare.into_iter().chain(hidden).filter(fixed).filter_map(move |layer| self.along_fastener(slot, layer))
    }

    /// Inward along a fastener of a layer, down to the first layer that heals round it.
    fn along_fastener(&self, slot: Slot, layer: usize) -> Option<Step> {
        let stretch = &self.section.stretches[slot.stretch];
        let heals = |index: &usize| self.section.sheets[stretch.layers[*index]].acts(Act::Heals);
        let under = stretch.layers.iter().position(|other| *other == layer)?;
        let depth = (0..under).rev().find(heals).map_or(0, |healing| healing + 1);
        let is_forbidden = self.forbidden.iter().any(|zone| zone.touches(stretch.span));
        let needs = (!is_forbidden).then_some(Failure::Fastener(layer));
        (depth < slot.depth).then_some(Step { to: Slot { depth, ..slot }, needs })
    }

    /// Slots of a stretch beside that water gets into from a slot.
    fn beside(&self, slot: Slot, stretch: usize) -> impl Iterator<Item = Slot> + use<'_, 's, 'a> {
        let depths = 0..=self.section.stretches[stretch].layers.len();
        let slots = depths.map(move |depth| Slot { stretch, depth });
        slots.filter(move |to| self.is_open(slot, *to) && (self.is_down(slot, *to) || self.climbs(slot, *to)))
    }

    /// The slot right on the outside of a layer, on a stretch that it lies on.
    pub(crate) fn outside(&self, layer: usize, stretch: usize) -> Option<Slot> {
        let layers = &self.section.stretches[stretch].layers;
        Some(Slot { stretch, depth: layers.iter().position(|other| *other == layer)? + 1 })
    }

    /// Whether nothing lies between two slots side by side.
    pub(crate) fn is_open(&self, slot: Slot, to: Slot) -> bool {
        let [(low, high), (to_low, to_high)] = [slot, to].map(|slot| self.bounds(slot));
        let is_closed = [slot, to].iter().any(|slot| self.is_bonded(*slot)) || self.is_let_in(slot, to);
        low.max(to_low) < high.min(to_high) && !is_closed
    }

    /// Whether the layer above the further slot begins there, its end let in.
    fn is_let_in(&self, slot: Slot, to: Slot) -> bool {
        let begins = |layer: &usize| !self.section.stretches[slot.stretch].layers.contains(layer);
        self.above(to).filter(begins).is_some_and(|layer| self.section.sheets[layer].layer.let_in)
    }

    /// Layer numbers below and above a slot.
    fn bounds(&self, slot: Slot) -> (i64, i64) {
        let number = |layer: usize| i64::try_from(layer).unwrap_or(OUTDOORS);
        (self.below(slot).map_or(WOOD, number), self.above(slot).map_or(OUTDOORS, number))
    }

    /// Whether the layer above sticks to what is below, so that there is no room in the slot.
    fn is_bonded(&self, slot: Slot) -> bool {
        self.above(slot).is_some_and(|layer| {
            let sheet = &self.section.sheets[layer];
            sheet.acts(Act::Bonds)
        })
    }

    /// Whether water runs that way of itself. Into a valley's far side or over a ridge it does not.
    fn is_down(&self, slot: Slot, to: Slot) -> bool {
        let (with, against) =
            if to.stretch > slot.stretch { (Falls::On, Falls::Back) } else { (Falls::Back, Falls::On) };
        self.section.falls(slot.stretch) == with && self.section.falls(to.stretch) != against
    }

    /// Whether water gets up that way.
    fn climbs(&self, slot: Slot, to: Slot) -> bool {
        let both_drown = [slot, to].iter().all(|slot| self.drowned[slot.stretch]);
        both_drown || (self.attack == Attack::Wind && self.is_short_lap(to))
    }

    fn is_short_lap(&self, slot: Slot) -> bool {
        let layers = self.below(slot).zip(self.above(slot));
        layers
            .is_some_and(|(below, above)| is_short(&self.section.sheets[above], &self.section.sheets[below]))
    }
}
