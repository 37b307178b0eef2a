//! What of a survey speaks: each fact held against the job, the roof and the winter.

use book::{Book, Evidence as Fact, LookupError, Share};
use job::{Basis, FanEnd, Figure, OpeningKind, State, Symptom};
use measure::Length;
use roof::EdgeKind;

use super::Held;
use crate::Study;
use crate::winter::Winter;

/// What is known when a symptom is looked at.
pub(super) struct Evidence<'a> {
    pub(super) study: &'a Study,
    pub(super) winter: Option<&'a Winter>,
    pub(super) book: &'a Book,
    pub(super) symptom: &'a Symptom,
}

/// Fields by whose lack a fact cannot be told.
const WEATHER: &str = "symptom.weather";
const AT: &str = "symptom.at";

fn told(holds: bool, yes: impl Into<String>, no: impl Into<String>) -> Held {
    if holds { Held::Yes(yes.into()) } else { Held::No(no.into()) }
}

/// What was surveyed; what the books filled in is no evidence.
fn surveyed<T>(figure: &Figure<T>) -> Option<&T> {
    (!matches!(figure.basis, Basis::Assumed { .. })).then_some(&figure.value)
}

impl Evidence<'_> {
    pub(super) fn of(&self, fact: Fact) -> Result<Held, LookupError> {
        Ok(match fact {
            Fact::Snow => self.weather(&["snow"], "snow"),
            Fact::Thaw => self.weather(&["thaw"], "a thaw"),
            Fact::Rain => self.weather(&["rain"], "rain"),
            Fact::Sun => self.weather(&["sun"], "sun"),
            Fact::IceHistory => {
                let Some(holds) = surveyed(&self.study.job.site.ice_history) else {
                    return Ok(Held::Unknown("site.ice_history"));
                };
                told(*holds, "ice has backed up on roofs of the place", "the place has no history of ice")
            }
            Fact::WarmDeck => self.warm_deck(),
            Fact::LeakyCeiling => self.leaky_ceiling()?,
            Fact::ThinInsulation => self.thin_insulation()?,
            Fact::Blackened => self.condition("black", "blackened insulation"),
            Fact::FrostSeen => self.condition("frost", "frost in the attic"),
            Fact::FanIntoAttic => self.fans(),
            Fact::Humid => self.humid()?,
            Fact::ShortIntake => self.short_intake()?,
            Fact::NearEave => self.near_edge("an eave", &[EdgeKind::Eave], false)?,
            Fact::NearValley => {
                self.near_edge("a valley", &[EdgeKind::Valley, EdgeKind::LevelValley], false)?
            }
            Fact::NearRoofEnd => self.near_edge(
                "the end of a roof at a wall",
                &[EdgeKind::Sidewall, EdgeKind::SkewWall],
                true,
            )?,
            Fact::NoKickOut => self.kick_outs(),
            Fact::NearOpening => self.near_opening("an opening in the roof", |_| true)?,
            Fact::NearSkylight => self.near_opening("a skylight", |kind| kind == OpeningKind::Skylight)?,
            Fact::OpenCantilever => self.cantilevers(),
            Fact::PowerVent => {
                let mut openings = self.study.job.openings.iter();
                let holds = openings
                    .any(|opening| opening.kind == OpeningKind::PowerVent && opening.state != State::Plan);
                told(holds, "a power ventilator is in the roof", "no power ventilator is in the roof")
            }
        })
    }

    fn weather(&self, words: &[&str], name: &str) -> Held {
        let Some(weather) = &self.symptom.weather else { return Held::Unknown(WEATHER) };
        let lower = weather.to_lowercase();
        let holds = words.iter().any(|word| lower.contains(word));
        told(holds, format!("it came with {name}"), format!("the weather told of was without {name}"))
    }

    fn warm_deck(&self) -> Held {
        let Some(found) = self.winter.and_then(|winter| winter.ablation.first()) else {
            return Held::Unknown("site.winter");
        };
        // as papers print it, no nearer to freezing than can be told
        let deck = |celsius: f64| match self.study.job.units {
            job::Units::Us => format!("{:.0} °F", 1.8 * celsius + 32.0),
            job::Units::Si => format!("{celsius:.1} °C"),
        };
        let design = crate::winter::design_words(self.study.job.units);
        let words = format!("deck at {} when it is {design}", deck(found.deck));
        told(found.deck > 0.0, words.clone(), words)
    }

    fn leaky_ceiling(&self) -> Result<Held, LookupError> {
        let Some(house) = self.study.job.house.leakage.as_ref().and_then(surveyed) else {
            return Ok(Held::Unknown("house.leakage"));
        };
        let leaks = self.study.job.attics.iter().map(|attic| attic.found.leakage);
        let Some(leaks) = leaks.collect::<Option<Vec<_>>>().filter(|leaks| !leaks.is_empty()) else {
            return Ok(Held::Unknown("attic.found.leakage"));
        };
        let limit: Share = self.book.rule("fact.leaky-ceiling")?.get()?;
        let share = leaks.iter().map(|leak| leak.m3_s()).sum::<f64>() / house.m3_s();
        let words = format!(
            "{:.0} % of the leaks of the house are in its ceilings (much: over {:.0} %)",
            100.0 * share,
            100.0 * limit.of_one()
        );
        Ok(told(share > limit.of_one(), words.clone(), words))
    }

    fn thin_insulation(&self) -> Result<Held, LookupError> {
        let found =
            self.study.job.attics.iter().filter_map(|attic| surveyed(attic.found.effective.as_ref()?));
        let Some(least) = found.map(|r| r.us()).min_by(f64::total_cmp) else {
            return Ok(Held::Unknown("attic.found.effective"));
        };
        let limit: f64 = self.book.rule("fact.thin-insulation")?.get()?;
        let words =
            format!("the least insulation of an attic resists R-{least:.0} (thin: under R-{limit:.0})");
        Ok(told(least < limit, words.clone(), words))
    }

    /// A word in the condition of an attic as found; one that nobody looked into tells nothing.
    fn condition(&self, word: &str, name: &str) -> Held {
        let conditions: Vec<&String> =
            self.study.job.attics.iter().filter_map(|attic| attic.found.condition.as_ref()).collect();
        if conditions.is_empty() {
            return Held::Unknown("attic.found.condition");
        }
        let holds = conditions.iter().any(|condition| condition.to_lowercase().contains(word));
        told(holds, format!("the survey found {name}"), format!("the survey tells of no {name}"))
    }

    fn fans(&self) -> Held {
        let ends: Vec<FanEnd> =
            self.study.job.fans.iter().filter_map(|fan| surveyed(&fan.ends)).copied().collect();
        if ends.is_empty() {
            return Held::Unknown("fan.ends");
        }
        let holds = ends.iter().any(|end| *end != FanEnd::Outdoors);
        told(holds, "a fan blows into attic or soffit", "every fan blows outdoors")
    }

    fn humid(&self) -> Result<Held, LookupError> {
        let Some(humidity) = self.study.job.house.humidity.as_ref().and_then(surveyed) else {
            return Ok(Held::Unknown("house.humidity"));
        };
        let limit: Share = self.book.rule("fact.humid")?.get()?;
        let words = format!(
            "{:.0} % humidity in the rooms (much: over {:.0} %)",
            100.0 * humidity.of_one(),
            100.0 * limit.of_one()
        );
        Ok(told(humidity.of_one() > limit.of_one(), words.clone(), words))
    }

    fn short_intake(&self) -> Result<Held, LookupError> {
        let limit: Share = self.book.rule("fact.short-intake")?.get()?;
        let vents = self.study.takeoff.vents.iter().map(|check| &check.found);
        let vented: Vec<f64> =
            vents.filter(|vent| vent.total.m2() > 0.0).map(|vent| vent.low.m2() / vent.total.m2()).collect();
        let Some(least) = vented.into_iter().min_by(f64::total_cmp) else {
            return Ok(Held::Unknown("attic.found.soffit_open"));
        };
        let words = format!(
            "{:.0} % of the vents of an attic are low (short: under {:.0} %)",
            100.0 * least,
            100.0 * limit.of_one()
        );
        Ok(told(least < limit.of_one(), words.clone(), words))
    }

    fn kick_outs(&self) -> Held {
        let found = self.study.job.walls.values().filter_map(|walls| surveyed(walls.kick_out.as_ref()?));
        let found: Vec<bool> = found.copied().collect();
        if found.is_empty() {
            return Held::Unknown("walls.kick_out");
        }
        told(
            found.contains(&false),
            "a roof end at a wall has no kick-out",
            "every roof end at a wall has its kick-out",
        )
    }

    fn cantilevers(&self) -> Held {
        let all = self.study.job.walls.values().flat_map(|walls| &walls.cantilevers);
        let blocked: Vec<bool> =
            all.filter_map(|cantilever| surveyed(cantilever.blocked.as_ref()?)).copied().collect();
        if blocked.is_empty() {
            return Held::Unknown("walls.cantilever.blocked");
        }
        told(
            blocked.contains(&false),
            "a floor hangs out over the wall below, its joist bays open",
            "joist bays are blocked over the wall below",
        )
    }

    fn near(&self) -> Result<Length, LookupError> {
        self.book.rule("fact.near")?.get()
    }

    /// Whether the place lies by an edge of some kinds, or by its low end.
    fn near_edge(&self, name: &str, kinds: &[EdgeKind], at_end: bool) -> Result<Held, LookupError> {
        let Some(at) = self.symptom.at else { return Ok(Held::Unknown(AT)) };
        let near = self.near()?.m();
        let roof = &self.study.roof;
        let far = |edge: &roof::Edge| {
            let [a, b] = [edge.from, edge.to].map(|node| roof.node(node).at);
            if at_end { (a[0] - at[0]).hypot(a[1] - at[1]) } else { away([a, b], at) }
        };
        let holds = roof.edges.iter().any(|edge| kinds.contains(&edge.kind) && far(edge) < near);
        Ok(told(holds, format!("it lies by {name}"), format!("it lies away from {name}")))
    }

    fn near_opening(&self, name: &str, is_it: impl Fn(OpeningKind) -> bool) -> Result<Held, LookupError> {
        let Some(at) = self.symptom.at else { return Ok(Held::Unknown(AT)) };
        let near = self.near()?.m();
        let openings = self.study.roof.openings.iter().filter(|opening| opening.state != State::Plan);
        let holds = openings
            .filter(|opening| is_it(opening.kind))
            .any(|opening| (opening.at[0] - at[0]).hypot(opening.at[1] - at[1]) < near);
        Ok(told(holds, format!("it lies by {name}"), format!("it lies away from {name}")))
    }
}

/// How far a point in plan lies from a line.
fn away([a, b]: [roof::Point3; 2], at: [f64; 2]) -> f64 {
    let (d, r) = ([b[0] - a[0], b[1] - a[1]], [at[0] - a[0], at[1] - a[1]]);
    let long = d[0].mul_add(d[0], d[1] * d[1]);
    let along = if long > 0.0 { ((d[0] * r[0] + d[1] * r[1]) / long).clamp(0.0, 1.0) } else { 0.0 };
    (r[0] - along * d[0]).hypot(r[1] - along * d[1])
}
