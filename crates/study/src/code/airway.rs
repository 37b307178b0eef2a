//! How air goes through an attic: in and out of it, and past the insulation at the eaves.
//!
//! # Formula
//! clear way = (heel height − depth of insulation over the plate) / slope factor: what is left between insulation and deck over the outer
//! face of the wall, square to the deck. In bays over a sloped ceiling: depth of the rafters − depth of insulation.
//!
//! # Limits
//! Baffles are taken to keep the way the clause asks; their count is held against the bays of the eaves that take air in.

use job::{Attic, Basis, Block, FreeArea, SpaceKind};
use measure::{Area, Length};
use roof::EdgeId;
use takeoff::{Place, VentCheck, Vented};

use super::desk::{Ask, Desk, because, input, length, of_job};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};
use crate::heat::dressed;

impl Desk<'_> {
    pub(super) fn crossing(&mut self, attic: &Attic, check: &VentCheck, name: &str) {
        let asked = "air goes through each separate space: in and out";
        let ask = Ask::of(Part::Attic, "cross_vents", &self.edition.cross_vents, asked);
        let found = self.crosses(attic, check, &check.found, ("found", attic.found.opposite_louvers));
        let opposite = attic.plan.opposite_louvers.or(attic.found.opposite_louvers);
        let planned = self.crosses(attic, check, &check.plan, ("plan", opposite));
        let ways = "low and above, or through louvers in opposite gables";
        let check = Check::new("in and out", Demand::Yes, Some(found), planned);
        self.one(&ask, name.to_owned(), check, vec![because("as planned", [], ways, &of_job())]);
    }

    /// Whether air that comes in can leave elsewhere. `louvers` is the state asked of, and whether its gable louvers are opposite.
    fn crosses(
        &self,
        attic: &Attic,
        check: &VentCheck,
        vented: &Vented,
        (state, opposite): (&str, Option<bool>),
    ) -> Held {
        let louvers = vented.at(Place::Unknown);
        let on_roof = vented.total - vented.low - louvers;
        let [soffits, louvers, on_roof] = [vented.low, louvers, on_roof].map(is_open);
        let ways = [soffits, louvers, on_roof].into_iter().filter(|is| *is).count();
        match opposite {
            _ if ways > 1 => Held::yes_no(true),
            Some(true) if louvers => Held::yes_no(true),
            None if louvers => Held::Missing(format!("attic.{}.{state}.opposite_louvers", attic.name)),
            _ if !attic.says_soffits() => Held::Missing(format!("attic.{}.found.soffit_open", attic.name)),
            _ if soffits && self.face_apart(check) => {
                Held::Missing("whether the official takes soffits alone as cross ventilation".to_owned())
            }
            _ => Held::yes_no(false),
        }
    }

    /// Whether soffits of an attic lie under eaves that face away from one another.
    fn face_apart(&self, check: &VentCheck) -> bool {
        let planes = || check.soffits.iter().flat_map(|(eave, _)| &self.roof.edge(*eave).planes);
        let rises = || planes().map(|plane| self.roof.plane(*plane).rise);
        rises().any(|one| rises().any(|other| one[0] * other[0] + one[1] * other[1] < 0.0))
    }

    pub(super) fn clear_way(&mut self, attic: &Attic, check: &VentCheck, name: &str) {
        let clause = &self.edition.vent_clearance;
        if attic.says_soffits() && !is_open(check.plan.low) {
            let why = format!("{name} takes no air in at its eaves");
            self.unasked(&clause.clause, "clear way at eave vents", why);
            return;
        }
        let ask = Ask {
            part: Part::Attic,
            rule: "vent_clearance",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!("{} clear between insulation and deck at the eave vents", clause.least.text()),
        };
        let found = self.found_way(attic, check);
        let baffles = attic.plan.baffles.as_ref().filter(|baffles| baffles.basis == Basis::Measured);
        let (what, demand, found, planned, rule) = match (attic.plan.clear_way, baffles) {
            (None, Some(baffles)) if baffles.value > 0 => {
                let held = self.baffled(attic, check, baffles.value);
                (
                    "baffles in all bays",
                    Demand::Yes,
                    None,
                    held,
                    "baffles keep the way open, if no bay lacks one",
                )
            }
            (written, _) => {
                let planned = written.map_or_else(|| self.planned_way(attic, check), length);
                let least = Demand::AtLeast(Figure::Length(*clause.least));
                let rule =
                    "as written; else heel height less the insulation over the plate, square to the deck";
                ("clear way", least, Some(found), planned, rule)
            }
        };
        let depth = attic.plan.insulation_depth.or(attic.found.insulation_depth);
        let inputs = [
            depth
                .map(|depth| input("insulation over the plate", Figure::Length(depth).written(self.units()))),
            baffles.map(|baffles| input("baffles", baffles.value.to_string())),
        ];
        let said = because("as planned", inputs.into_iter().flatten(), rule, &of_job());
        self.one(&ask, name.to_owned(), Check::new(what, demand, found, planned), vec![said]);
    }

    fn found_way(&self, attic: &Attic, check: &VentCheck) -> Held {
        match (attic.found.clear_way, attic.found.insulation_depth) {
            (Some(way), _) => length(way),
            (None, Some(depth)) => self.room(attic, check, depth),
            (None, None) => Held::Missing(format!("attic.{}.found.clear_way", attic.name)),
        }
    }

    /// The way left by what is planned. New insulation takes from it: what was found before it decides only where none comes.
    fn planned_way(&self, attic: &Attic, check: &VentCheck) -> Held {
        let plan = &attic.plan;
        match plan.insulation_depth {
            Some(depth) => self.room(attic, check, depth),
            None if plan.insulation.is_none() && plan.effective.is_none() => self.found_way(attic, check),
            None => Held::Missing(format!(
                "attic.{0}.plan.baffles or attic.{0}.plan.insulation_depth",
                attic.name
            )),
        }
    }

    /// The least way over insulation of a depth at any eave.
    fn room(&self, attic: &Attic, check: &VentCheck, depth: Length) -> Held {
        if attic.kind == SpaceKind::Cathedral {
            return self.room_in_bays(attic, depth);
        }
        let mut least: Option<Length> = None;
        for (eave, _) in &check.soffits {
            for plane in &self.roof.edge(*eave).planes {
                let factor = self.roof.plane(*plane).pitch.slope_factor();
                for block in self.blocks(*plane) {
                    let heel = block.framing.as_ref().and_then(|framing| framing.heel.as_ref());
                    let Some(heel) = heel.filter(|heel| heel.basis == Basis::Measured) else {
                        return Held::Missing(format!("block.{}.framing.heel", block.name));
                    };
                    let way = ((heel.value - depth) / factor).max(Length::ZERO);
                    least = Some(least.map_or(way, |known| known.min(way)));
                }
            }
        }
        Held::or_missing(least.map(Figure::Length), "eaves that take air in (survey)")
    }

    /// The least way over insulation of a depth between rafters.
    fn room_in_bays(&self, attic: &Attic, depth: Length) -> Held {
        let mut least: Option<Length> = None;
        for block in self.job.blocks.iter().filter(|block| attic.under.contains(&block.name)) {
            let Some(size) = block.framing.as_ref().and_then(|framing| framing.size) else {
                return Held::Missing(format!("block.{}.framing.size", block.name));
            };
            let way = (dressed(size) - depth).max(Length::ZERO);
            least = Some(least.map_or(way, |known| known.min(way)));
        }
        Held::or_missing(least.map(Figure::Length), "rafters over the bays (survey)")
    }

    /// Whether so many baffles do for the bays that take air in.
    fn baffled(&self, attic: &Attic, check: &VentCheck, baffles: u32) -> Held {
        let mut bays = 0.0;
        let mut narrowest = f64::INFINITY;
        for (eave, along) in &check.soffits {
            match self.spacing(*eave) {
                Ok(spacing) => {
                    bays += (*along / spacing).ceil();
                    narrowest = narrowest.min(spacing.m());
                }
                Err(missing) => return Held::Missing(missing),
            }
        }
        let soffit = attic.plan.soffit.as_ref().or(attic.found.soffit.as_ref());
        if let Some(FreeArea::PerLengthOver(_, over)) = soffit {
            bays = f64::min(bays, (over.m() / narrowest).ceil());
        }
        Held::yes_no(f64::from(baffles) >= bays)
    }

    /// Distance of the rafters or trusses over an eave.
    fn spacing(&self, eave: EdgeId) -> Result<Length, String> {
        let mut narrowest: Option<Length> = None;
        for block in self.roof.edge(eave).planes.iter().flat_map(|plane| self.blocks(*plane)) {
            let spacing = spacing_of(block).ok_or_else(|| format!("block.{}.framing.spacing", block.name))?;
            narrowest = Some(narrowest.map_or(spacing, |known| known.min(spacing)));
        }
        narrowest.ok_or_else(|| format!("spacing of the rafters over {eave} (survey)"))
    }
}

fn spacing_of(block: &Block) -> Option<Length> {
    let spacing = block.framing.as_ref()?.spacing.as_ref()?;
    (spacing.basis == Basis::Measured).then_some(spacing.value)
}

fn is_open(area: Area) -> bool {
    area.in2() > 1e-9
}
