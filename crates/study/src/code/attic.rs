//! Attics: free area of vents, the way in. How air goes through stands in `airway`.

use book::{AtticVents, Because, HighPlace, LookupError, Needs};
use job::{Attic, Basis, SpaceKind};
use measure::{Area, Length};
use takeoff::{Applies, Place, VentCheck, VentPart, Vented};

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held, Judged, Need, Verdict};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn attics(&mut self) -> Result<(), LookupError> {
        let (takeoff, job) = (self.takeoff, self.job);
        for check in &takeoff.vents {
            let Some(attic) = job.attics.iter().find(|attic| attic.name == check.attic) else { continue };
            let name = format!("attic {}", attic.name);
            if self.goes_without(attic)? {
                let why = format!("{name} goes without, by {}", self.edition.unvented.clause);
                self.unasked(&self.edition.attic_vents.clause, "vents of attics", why);
            } else {
                self.free_area(attic, check, &name);
                self.crossing(attic, check, &name);
                self.clear_way(attic, check, &name);
            }
            self.access(attic, check, &name);
        }
        if takeoff.vents.is_empty() {
            let clause = &self.edition.attic_vents.clause;
            self.unasked(clause, "attics", "the job describes no attic; describe it, and this is judged");
        }
        Ok(())
    }

    fn free_area(&mut self, attic: &Attic, check: &VentCheck, name: &str) {
        let clause = &self.edition.attic_vents;
        let ask = Ask {
            part: Part::Attic,
            rule: "attic_vents",
            clause: &clause.clause,
            source: &clause.source,
            asked: asked(clause),
        };
        let by = |divisor: u32, needed: Area, judge: &dyn Fn(&Vented) -> Judged| Check {
            what: if divisor == clause.divisor.get() {
                format!("1/{divisor}")
            } else {
                format!("1/{divisor} under conditions")
            },
            demand: Demand::AtLeast(Figure::FreeArea(needed)),
            found: Some(judge(&check.found)),
            is_usual: check.found.parts.iter().any(|part| self.assumed_part(attic, part).is_some()),
            planned: judge(&check.plan),
        };
        let plain = |vented: &Vented| self.enough(attic, vented, check.required);
        let excepted = |vented: &Vented| self.excepted(attic, vented, check.reduced);
        let checks = vec![
            by(clause.divisor.get(), check.required, &plain),
            by(clause.reduced_divisor.get(), check.reduced, &excepted),
        ];
        let reasons = self.vent_reasons(attic, check);
        self.row(&ask, name.to_owned(), checks, Need::Any, reasons);
    }

    /// Whether the free area is enough; what is assumed of it must not decide.
    fn enough(&self, attic: &Attic, vented: &Vented, needed: Area) -> Judged {
        let demand = Demand::AtLeast(Figure::FreeArea(needed));
        let held = |area: Area| Held::Is(Figure::FreeArea(area));
        let judged = demand.judge(held(vented.total));
        if !attic.says_soffits() {
            let missing = format!("attic.{}.found.soffit_open", attic.name);
            return Judged { verdict: demand.judge(Held::Missing(missing)).verdict, ..judged };
        }
        let (mut sure, mut fields) = (vented.total, Vec::new());
        for part in &vented.parts {
            if let Some(field) = self.assumed_part(attic, part) {
                sure -= part.area;
                fields.push(field);
            }
        }
        let hangs = !fields.is_empty() && judged.verdict != demand.judge(held(sure)).verdict;
        if hangs {
            Judged { verdict: Verdict::CannotTell { missing: fields.join("; ") }, ..judged }
        } else {
            judged
        }
    }

    /// The field behind a part whose area nobody read off a label.
    fn assumed_part(&self, attic: &Attic, part: &VentPart) -> Option<String> {
        let opening = self.job.openings.iter().find(|opening| opening.name == part.name);
        if let Some(opening) = opening {
            let area = opening.net_free_area.as_ref()?;
            let is_assumed = matches!(area.basis, Basis::Assumed { .. });
            return is_assumed.then(|| format!("opening.{}.free_area", opening.name));
        }
        let paths = ["found", "plan"].map(|state| format!("attic.{}.{state}.ridge_vent", attic.name));
        let is_ridge = part.name.starts_with("ridge vent");
        paths.into_iter().find(|path| is_ridge && self.is_assumed(path))
    }

    /// Whether the reduced area is enough: the conditions must hold as well.
    fn excepted(&self, attic: &Attic, vented: &Vented, needed: Area) -> Judged {
        let judged = self.enough(attic, vented, needed);
        if judged.verdict != Verdict::Pass || vented.excepted {
            return judged;
        }
        let unknown = self.unknown(attic, vented);
        let verdict = if unknown.is_empty() {
            Verdict::Fail
        } else {
            Verdict::CannotTell { missing: unknown.join("; ") }
        };
        Judged { verdict, ..judged }
    }

    /// What is not known of conditions that are not met; empty where knowing it would change nothing.
    fn unknown(&self, attic: &Attic, vented: &Vented) -> Vec<String> {
        let needs = self.edition.attic_vents.reduced_needs;
        let retarder = format!("attic.{}.vapor_retarder", attic.name);
        let [high, warm_side] = vented.conditions.as_slice() else { return Vec::new() };
        let heights = (vented.at(Place::Unknown) > Area::ZERO)
            .then(|| format!("how high the gable louvers of attic {} sit (survey)", attic.name));
        let zone = (warm_side.applies == Applies::ZoneUnknown).then(|| "site.climate_zone".to_owned());
        let retarder = self.is_assumed(&retarder).then_some(retarder);
        let high = if high.met { Some(None) } else { heights.map(Some) };
        let warm_side = match (warm_side.met, warm_side.applies, needs) {
            (true, Applies::Yes, _) | (true, _, Needs::All) | (_, Applies::No, Needs::All) => Some(None),
            (_, Applies::No, Needs::Any) => None,
            (true, Applies::ZoneUnknown, Needs::Any) => zone.map(Some),
            (false, _, _) => retarder.or(zone).map(Some),
        };
        match (needs, high, warm_side) {
            (Needs::All, Some(one), Some(other)) => one.into_iter().chain(other).collect(),
            (Needs::All, _, _) => Vec::new(),
            (Needs::Any, one, other) => one.into_iter().chain(other).flatten().collect(),
        }
    }

    fn vent_reasons(&self, attic: &Attic, check: &VentCheck) -> Vec<Because> {
        let area = |area: Area| Figure::FreeArea(area).written(self.units());
        let state = |what: &str, vented: &Vented| {
            let parts = vented.parts.iter().map(|part| input(&part.name, area(part.area)));
            let inputs: Vec<_> = parts.chain([input("in all", area(vented.total))]).collect();
            because(what, inputs, "free areas added up", &of_job())
        };
        let space = input("vented space", self.units().area(check.space));
        let mut reasons = vec![
            because(
                "required",
                [space],
                "area of the vented space over the divisor",
                &self.edition.attic_vents.source,
            ),
            state("as found", &check.found),
            state("as planned", &check.plan),
        ];
        let met = |condition: &takeoff::Condition| match (condition.applies, condition.met) {
            (Applies::No, _) => "not asked in this zone",
            (_, true) => "met",
            (_, false) => "not met",
        };
        let inputs: Vec<_> = check.plan.conditions.iter().map(|c| input(&c.what, met(c))).collect();
        reasons.push(because(
            "conditions, as planned",
            inputs,
            "as the edition asks",
            &self.edition.attic_vents.source,
        ));
        reasons.extend(self.assumed(&format!("attic.{}.vapor_retarder", attic.name)));
        reasons
    }

    fn access(&mut self, attic: &Attic, check: &VentCheck, name: &str) {
        let clause = &self.edition.attic_access;
        if attic.kind == SpaceKind::Cathedral {
            let why = format!("{name} is bays over a sloped ceiling: there is nothing to go into");
            self.unasked(&clause.clause, "way into an attic", why);
            return;
        }
        if check.space < *clause.from_area || self.headroom(attic) < *clause.from_height {
            let why = format!(
                "{name} is smaller or lower than {} and {}",
                clause.from_area.text(),
                clause.from_height.text()
            );
            self.unasked(&clause.clause, "way into an attic", why);
            return;
        }
        let [short, long] = &clause.opening;
        let ask = Ask {
            part: Part::Attic,
            rule: "attic_access",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "a way into attics of {} and {} height: rough opening {} by {}",
                clause.from_area.text(),
                clause.from_height.text(),
                short.text(),
                long.text()
            ),
        };
        let sides = attic.access.map(|[a, b]| [a.min(b), a.max(b)]);
        let side = |index: usize| {
            let figure = sides.map(|sides| Figure::Length(sides[index]));
            Held::or_missing(figure, format!("attic.{}.access", attic.name))
        };
        let least = |figure: Length| Demand::AtLeast(Figure::Length(figure));
        let checks = vec![
            Check::new("short side", least(**short), Some(side(0)), side(0)),
            Check::new("long side", least(**long), Some(side(1)), side(1)),
        ];
        let said = because("as planned", [], "as the job writes it; the work does not change it", &of_job());
        self.row(&ask, name.to_owned(), checks, Need::All, vec![said]);
    }

    /// From the highest plate to the highest point of the roof above an attic.
    fn headroom(&self, attic: &Attic) -> Length {
        let blocks = || self.job.blocks.iter().filter(|block| attic.under.contains(&block.name));
        let plates = blocks().flat_map(|block| block.edges.iter().flatten()).map(|edge| edge.plate.value.m());
        let plate = plates.fold(f64::NEG_INFINITY, f64::max);
        let is_over = |plane: &&roof::Plane| plane.blocks.iter().any(|block| attic.under.contains(block));
        let corners = self.roof.planes.iter().filter(is_over).flat_map(|plane| &plane.outline);
        let top = corners.map(|corner| corner[2]).fold(f64::NEG_INFINITY, f64::max);
        Length::from_m((top - plate).max(0.0))
    }
}

fn asked(clause: &AtticVents) -> String {
    let (least, most) = (clause.high_share.least.text(), clause.high_share.most.text());
    let place = match &clause.high_place {
        HighPlace::AboveEaveVents(height) => format!("at least {} above the eave vents", height.text()),
        HighPlace::BelowRidge(depth) => format!("within {} of the ridge", depth.text()),
    };
    let rest = if clause.rest_low { ", the rest in the bottom third" } else { "" };
    let zone = clause.retarder.from_zone.map_or(String::new(), |zone| format!(" in zone {zone} and colder"));
    let how_many = match clause.reduced_needs {
        Needs::Any => "one of",
        Needs::All => "both of",
    };
    format!(
        "net free area of 1/{} of the vented space; 1/{} with {how_many}: {least} to {most} of it {place}{rest}; a vapor retarder of class {} or tighter on the warm side{zone}",
        clause.divisor, clause.reduced_divisor, clause.retarder.class
    )
}
