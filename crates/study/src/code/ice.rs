//! Ice barrier at eaves: what the takeoff reaches for, against what it lays.

use book::{Act, Because, IceBarrier, LookupError, Stage};
use detail::At;
use job::{Basis, WallLine};
use measure::Length;
use roof::EdgeId;
use takeoff::{EaveStrip, Why};

use super::desk::{Ask, Desk, because, input, length, of_job};
use super::judge::{Check, Demand, Held, Need};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn ice_barrier(&mut self) -> Result<(), LookupError> {
        let (clause, ice) = (&self.edition.ice_barrier, &self.takeoff.ice);
        if !ice.asked {
            let why = "the job says ice has not backed up on roofs of the place";
            self.unasked(&clause.clause, "ice barrier at eaves", why);
            return Ok(());
        }
        for strip in &ice.eaves {
            self.strip(clause, strip)?;
        }
        for spared in &ice.spared {
            let name = spared.edge.to_string();
            match spared.why {
                Why::CoveredWhole => self.whole(clause, name),
                Why::OnPosts | Why::Detached => {
                    let why = format!("{name}: {}; ask the building department", spared.why.words());
                    self.unasked(&clause.clause, "ice barrier at eaves", why);
                }
            }
        }
        Ok(())
    }

    fn ice_ask(clause: &IceBarrier) -> Ask<'_> {
        let steep = clause.steep.as_ref().map_or(String::new(), |steep| {
            format!(", from {} at least {} along the slope", steep.from.text(), steep.along_slope.text())
        });
        Ask {
            part: Part::IceBarrier,
            rule: "ice_barrier",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "self-adhered sheet, or two underlayments cemented, from the roof edge to {} inside the exterior wall line, level{steep}",
                clause.inside_wall_line.text()
            ),
        }
    }

    /// One eave, by both readings of the wall line.
    fn strip(&mut self, clause: &IceBarrier, strip: &EaveStrip) -> Result<(), LookupError> {
        let [found, planned] =
            [self.barrier(strip.edge, Stage::Found)?, self.barrier(strip.edge, Stage::Planned)?];
        // what the takeoff counts protects nothing where the detail that is built does not have it
        let laid = if planned == Some(false) { Length::ZERO } else { strip.cover };
        let check = |what: &str, along: Length| {
            let held = |is_there: bool| {
                if is_there {
                    Held::Missing("how far the old ice barrier reaches (survey)".to_owned())
                } else {
                    length(Length::ZERO)
                }
            };
            Check::new(what, Demand::AtLeast(Figure::Length(along)), found.map(held), length(laid)).usual()
        };
        let checks = vec![
            check("wall line at the outside face", strip.outside.along),
            check("wall line at the inside face", strip.inside.along),
        ];
        let taken = match self.takeoff.ice.taken {
            WallLine::Outside => 0,
            WallLine::Inside => 1,
        };
        let reasons = self.reach(clause, strip);
        let site = &self.job.site;
        let is_guessed = matches!(site.wall_line.basis, Basis::Assumed { .. });
        let need = if is_guessed && checks[0].planned.verdict != checks[1].planned.verdict {
            Need::Any
        } else {
            Need::Taken(taken)
        };
        let checks = if need == Need::Any { either(checks) } else { checks };
        self.row(&Self::ice_ask(clause), strip.edge.to_string(), checks, need, reasons);
        Ok(())
    }

    /// Whether the eave in a state of it has a sheet that sticks and stops standing water on its deck.
    fn barrier(&self, edge: EdgeId, stage: Stage) -> Result<Option<bool>, LookupError> {
        let place = self.details.places.iter().find(|place| place.at == At::Edge(edge));
        let Some(place) = place else { return Ok(None) };
        let laid = self.laid(place, stage)?;
        Ok(laid.map(|laid| laid.sheet(|sheet| sheet.material.does(Act::Heals)).is_some()))
    }

    fn reach(&self, clause: &IceBarrier, strip: &EaveStrip) -> Vec<Because> {
        let edge = self.roof.edge(strip.edge);
        let units = self.job.units;
        let written = |length: Length| Figure::Length(length).written(units);
        let pitch = edge.planes.first().map(|plane| units.pitch(self.roof.plane(*plane).pitch));
        let reading = self.takeoff.ice.taken;
        let taken = match reading {
            WallLine::Outside => "outside face",
            WallLine::Inside => "inside face",
        };
        let mut inputs = vec![
            input("overhang", written(edge.overhang)),
            input("inside the wall line", clause.inside_wall_line.text()),
            input("wall thickness, inside face only", written(self.job.site.wall_thickness.value)),
            input("level", written(strip.asked(reading).level)),
        ];
        inputs.extend(pitch.map(|pitch| input("pitch", pitch)));
        inputs.push(input("reading taken", taken));
        let rule = "level reach times the slope factor; the takeoff lays whole courses";
        let mut reasons = vec![because("required along the slope", inputs, rule, &clause.source)];
        let courses = [input("courses", strip.courses.to_string())];
        let rule = if self.job.covering.over {
            "what those courses cover from the edge, the old roof torn off to the deck for them"
        } else {
            "what those courses cover from the edge"
        };
        reasons.push(because("as planned", courses, rule, &of_job()));
        for path in ["site.ice_history", "site.wall_line", "site.wall_thickness"] {
            reasons.extend(self.assumed(path));
        }
        reasons
    }

    /// A plane covered whole reaches as far as there is roof.
    fn whole(&mut self, clause: &IceBarrier, name: String) {
        let check = Check::new("its whole plane is covered", Demand::Yes, None, Held::yes_no(true));
        let rule = if self.job.covering.over {
            "self-adhered membrane on the whole plane, the old roof torn off it to the deck"
        } else {
            "self-adhered membrane on the whole plane"
        };
        let said = because("as planned", [], rule, &of_job());
        self.one(&Self::ice_ask(clause), name, check, vec![said]);
    }
}

/// Where nobody asked which reading the official takes and they differ, the one that fails cannot be told.
fn either(mut checks: Vec<Check>) -> Vec<Check> {
    use super::Verdict;
    for check in &mut checks {
        check.planned.verdict = match check.planned.verdict {
            Verdict::Pass | Verdict::Fail => Verdict::CannotTell { missing: "site.wall_line".to_owned() },
            ref told @ Verdict::CannotTell { .. } => told.clone(),
        };
    }
    checks
}
