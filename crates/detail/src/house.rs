//! The details of a house: what is found and what is planned at every edge, edge end and opening.
//!
//! A place asks for details of its spot; what is known of it (*facts*: cladding, whether the weather barrier laps, whether the space
//! below is vented) says which of them fit. The usual one comes first, those that are allowed as well after it.
//!
//! # Limits
//! A wall nobody described is taken to have lap siding and a felt that does not lap: the worse reading.

use std::collections::BTreeMap;

use book::{Book, Choice, Detail, Hold, LookupError, Spot, Stage};
use job::{Job, Opening, OpeningKind, Problem, State};
use measure::Pitch;
use roof::{Edge, EdgeId, EdgeKind, NodeId, NodeKind, Roof};

use crate::lap::{Fault, faults};
use crate::section::{Section, Slopes};
use crate::stand::Stand;

/// Flatter than this a roof takes no shingles, rise over run.
const LEAST_FOR_SHINGLES: f64 = 2.0 / 12.0;

/// The details of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Details {
    /// Every place that needs one: edges by number, roof ends at walls, openings in the order of the document.
    pub places: Vec<Place>,
    /// Places for which there is none to be built.
    pub problems: Vec<Problem>,
}

/// A place of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Which.
    pub at: At,
    /// What sort of place.
    pub spot: Spot,
    /// In words.
    pub name: String,
    /// What is known of it, by name.
    pub facts: BTreeMap<&'static str, String>,
    /// Pitches its sections are cut through.
    pub slopes: Slopes,
    /// How it is met with; none where nothing is there yet.
    pub found: Option<Fit>,
    /// What can be built there, the usual first; none where what is there goes.
    pub planned: Vec<Fit>,
}

/// What a place is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum At {
    /// Along an edge.
    Edge(EdgeId),
    /// At the end of an edge.
    End(EdgeId, NodeId),
    /// At an opening, by its index in [`Roof::openings`].
    Opening(usize),
}

/// A detail at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Id in the books.
    pub detail: String,
    /// Name for papers.
    pub name: String,
    /// How readily it is chosen.
    pub choice: Choice,
    /// How it stands against each attack that can happen.
    pub stands: Vec<Stood>,
    /// What is wrong with it.
    pub faults: Vec<Fault>,
}

/// How a detail stands against an attack, in names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stood {
    /// The attack.
    pub attack: crate::Attack,
    /// The fewest failures that let water reach wood; none where nothing does.
    pub failures: Option<usize>,
    /// What fails in each of the least sets.
    pub sets: Vec<Vec<String>>,
}

impl Place {
    /// What will be built there unless something else is wished.
    pub fn usual(&self) -> Option<&Fit> {
        self.planned.iter().find(|fit| fit.choice == Choice::Usual)
    }
}

impl Fit {
    /// Failures it takes under an attack; none where it cannot happen or no failures suffice.
    pub fn failures(&self, attack: crate::Attack) -> Option<usize> {
        self.stands.iter().find(|stood| stood.attack == attack)?.failures
    }
}

impl Details {
    /// The details of a house.
    ///
    /// # Errors
    /// Materials the books do not have.
    pub fn of(roof: &Roof, job: &Job, book: &Book) -> Result<Self, LookupError> {
        let mut desk = Desk { roof, job, book, fits: BTreeMap::new() };
        let mut places = Vec::new();
        for site in desk.sites() {
            places.push(desk.place(site)?);
        }
        let problems = places.iter().filter_map(|place| lacking(place, roof)).collect();
        Ok(Self { places, problems })
    }

    /// What must be photographed before it is covered, with the places it is asked at, in the order of the places.
    pub fn holds<'b>(&self, book: &'b Book) -> Vec<(&'b Hold, Vec<&Place>)> {
        let mut holds: Vec<(&Hold, Vec<&Place>)> = Vec::new();
        for place in &self.places {
            let detail = place.usual().and_then(|fit| book.detail(&fit.detail).ok());
            for hold in detail.into_iter().flat_map(|detail| &detail.hold) {
                match holds.iter_mut().find(|(known, _)| *known == hold) {
                    Some((_, places)) => places.push(place),
                    None => holds.push((hold, vec![place])),
                }
            }
        }
        holds
    }

    /// Places by how they stand as found, the worst first; those where nothing is found last.
    pub fn worst_first(&self) -> Vec<&Place> {
        let mut places: Vec<&Place> = self.places.iter().collect();
        places.sort_by_key(|place| {
            let failures =
                |fit: &Fit| fit.stands.iter().filter_map(|stood| stood.failures).collect::<Vec<_>>();
            let found = place.found.as_ref().map(failures).unwrap_or_default();
            (found.is_empty(), found.iter().min().copied(), found.iter().sum::<usize>())
        });
        places
    }
}

/// A place before details are looked up.
struct Site {
    at: At,
    spot: Spot,
    name: String,
    facts: BTreeMap<&'static str, String>,
    slopes: Slopes,
    is_there: bool,
    will_be: bool,
}

/// What the work takes; sections are worked out once for each detail and pitch.
struct Desk<'a> {
    roof: &'a Roof,
    job: &'a Job,
    book: &'a Book,
    fits: BTreeMap<(String, [u64; 2]), Fit>,
}

impl Desk<'_> {
    fn sites(&self) -> Vec<Site> {
        let edges = (0..self.roof.edges.len()).filter_map(|index| self.along(EdgeId(index)));
        let ends = (0..self.roof.nodes.len()).filter_map(|index| self.end(NodeId(index)));
        let openings = (0..self.roof.openings.len()).flat_map(|index| self.around(index));
        edges.chain(ends).chain(openings).collect()
    }

    fn along(&self, id: EdgeId) -> Option<Site> {
        let edge = self.roof.edge(id);
        let spot = self.spot(edge)?;
        Some(Site {
            at: At::Edge(id),
            spot,
            name: format!("edge {}, {}", id.number(), edge.kind.name()),
            facts: self.facts(edge),
            slopes: self.slopes(edge),
            is_there: true,
            will_be: true,
        })
    }

    fn spot(&self, edge: &Edge) -> Option<Spot> {
        let lower =
            edge.planes.iter().map(|plane| self.roof.plane(*plane).pitch.slope()).fold(f64::MAX, f64::min);
        Some(match edge.kind {
            EdgeKind::Eave => Spot::Eave,
            EdgeKind::Rake | EdgeKind::SkewRake => Spot::Rake,
            EdgeKind::HighEave => Spot::HighEave,
            EdgeKind::Ridge => Spot::Ridge,
            EdgeKind::Hip => Spot::Hip,
            EdgeKind::Valley => Spot::Valley,
            EdgeKind::LevelValley => Spot::LevelValley,
            EdgeKind::PitchBreakConcave if lower < LEAST_FOR_SHINGLES => Spot::LowSlope,
            EdgeKind::PitchBreakConcave => Spot::PitchBreakIn,
            EdgeKind::PitchBreakConvex => Spot::PitchBreakOut,
            EdgeKind::Sidewall | EdgeKind::SkewWall => Spot::Sidewall,
            EdgeKind::Headwall if self.is_under_cantilever(edge) => Spot::Cantilever,
            EdgeKind::Headwall => Spot::Headwall,
            EdgeKind::BackWall => Spot::BackWall,
            EdgeKind::Step => Spot::Step,
            EdgeKind::Soffit => return None,
        })
    }

    /// Whether the floor of the block behind a wall edge stands out over it.
    fn is_under_cantilever(&self, edge: &Edge) -> bool {
        let walls = edge.wall_of.as_ref().and_then(|block| self.job.walls.get(block));
        walls.is_some_and(|walls| !walls.cantilevers.is_empty())
    }

    /// The pitches that meet at an edge; where the pitch changes, that of the upper plane first.
    fn slopes(&self, edge: &Edge) -> Slopes {
        let mut pitches: Vec<Pitch> = edge.planes.iter().map(|plane| self.roof.plane(*plane).pitch).collect();
        match edge.kind {
            EdgeKind::PitchBreakConcave => pitches.sort_by(|a, b| b.slope().total_cmp(&a.slope())),
            _ => pitches.sort_by(|a, b| a.slope().total_cmp(&b.slope())),
        }
        let first = pitches[0];
        Slopes { first, then: pitches.last().copied().unwrap_or(first) }
    }

    fn facts(&self, edge: &Edge) -> BTreeMap<&'static str, String> {
        let mut facts = BTreeMap::new();
        if edge.kind.is_wall() {
            facts.extend(self.wall_facts(edge));
        }
        if edge.kind == EdgeKind::Ridge {
            facts.insert("vented", yes_no(self.is_vented(edge)));
        }
        facts
    }

    fn wall_facts(&self, edge: &Edge) -> [(&'static str, String); 3] {
        let walls = edge.wall_of.as_ref().and_then(|block| self.job.walls.get(block));
        let siding = walls.and_then(|walls| walls.siding.as_deref());
        let family = siding.and_then(|id| self.book.siding(id).ok()).map_or("lap", |siding| &siding.family);
        let is = |figure: Option<&job::Figure<bool>>| yes_no(figure.is_some_and(|figure| figure.value));
        [
            ("cladding", family.to_owned()),
            ("lapped", is(walls.and_then(|walls| walls.lapped.as_ref()))),
            ("kick_out", is(walls.and_then(|walls| walls.kick_out.as_ref()))),
        ]
    }

    /// Whether a ridge vent is planned over the space under an edge.
    fn is_vented(&self, edge: &Edge) -> bool {
        let blocks = || edge.planes.iter().flat_map(|plane| &self.roof.plane(*plane).blocks);
        let vents = |attic: &&job::Attic| attic.plan.ridge_vent.is_some();
        self.job.attics.iter().filter(vents).any(|attic| blocks().any(|block| attic.under.contains(block)))
    }

    /// The lower end of a wall where the eave stops.
    fn end(&self, id: NodeId) -> Option<Site> {
        let node = self.roof.node(id);
        let wall = node.edges.iter().find(|edge| self.roof.edge(**edge).kind.is_wall());
        let edge = *wall.filter(|_| node.kind == NodeKind::WallFoot)?;
        Some(Site {
            at: At::End(edge, id),
            spot: Spot::KickOut,
            name: format!("lower end of edge {}, {}", edge.number(), self.roof.edge(edge).kind.name()),
            facts: self.facts(self.roof.edge(edge)),
            slopes: self.slopes(self.roof.edge(edge)),
            is_there: true,
            will_be: true,
        })
    }

    fn around(&self, index: usize) -> Vec<Site> {
        let placed = &self.roof.openings[index];
        let Some(opening) = self.job.openings.iter().find(|opening| opening.name == placed.name) else {
            return Vec::new();
        };
        let cricket = self.roof.crickets.iter().any(|cricket| cricket.opening == index);
        let site = |(spot, side): &(Spot, &str)| Site {
            at: At::Opening(index),
            spot: *spot,
            name: if side.is_empty() { opening.name.clone() } else { format!("{}, {side}", opening.name) },
            facts: BTreeMap::from([("cricket", yes_no(cricket))]),
            slopes: self.roof.plane(placed.plane).pitch.into(),
            is_there: opening.state != State::Plan,
            will_be: opening.state != State::Remove,
        };
        sides(opening).iter().map(site).collect()
    }

    fn place(&mut self, site: Site) -> Result<Place, LookupError> {
        let found = if site.is_there { self.fitting(&site, Stage::Found)?.into_iter().next() } else { None };
        let planned = if site.will_be { self.fitting(&site, Stage::Planned)? } else { Vec::new() };
        let Site { at, spot, name, facts, slopes, .. } = site;
        Ok(Place { at, spot, name, facts, slopes, found, planned })
    }

    /// Details of a stage that fit, the usual first; the more a detail asks of the place, the earlier.
    fn fitting(&mut self, site: &Site, stage: Stage) -> Result<Vec<Fit>, LookupError> {
        let holds = |(fact, words): (&String, &Vec<String>)| {
            site.facts.get(fact.as_str()).is_some_and(|known| words.contains(known))
        };
        let fits = |detail: &&Detail| {
            detail.at == site.spot && detail.stage == stage && detail.when.iter().all(holds)
        };
        let mut details: Vec<&Detail> = self.book.details().filter(fits).collect();
        details.sort_by_key(|detail| (detail.choice, usize::MAX - detail.when.len()));
        details.into_iter().map(|detail| self.fit(detail, site.slopes)).collect()
    }

    fn fit(&mut self, detail: &Detail, slopes: Slopes) -> Result<Fit, LookupError> {
        let key = (detail.id.clone(), [slopes.first, slopes.then].map(|pitch| pitch.slope().to_bits()));
        if let Some(known) = self.fits.get(&key) {
            return Ok(known.clone());
        }
        let section = Section::of(detail, slopes, self.book)?;
        let fit = Fit {
            detail: detail.id.clone(),
            name: detail.name.clone(),
            choice: detail.choice,
            stands: Stand::all(&section).iter().map(|stand| stood(stand, &section)).collect(),
            faults: faults(&section),
        };
        self.fits.insert(key, fit.clone());
        Ok(fit)
    }
}

fn stood(stand: &Stand, section: &Section<'_>) -> Stood {
    let names =
        |set: &std::collections::BTreeSet<crate::Failure>| set.iter().map(|one| one.name(section)).collect();
    Stood { attack: stand.attack, failures: stand.failures, sets: stand.sets.iter().map(names).collect() }
}

/// The spots round an opening, each with the side it is on.
fn sides(opening: &Opening) -> &'static [(Spot, &'static str)] {
    match opening.kind {
        OpeningKind::Pipe => &[(Spot::Pipe, "")],
        OpeningKind::Hood => &[(Spot::Hood, "")],
        OpeningKind::BoxVent | OpeningKind::PowerVent => &[(Spot::BoxVent, "")],
        OpeningKind::DaylightTube => &[(Spot::DaylightTube, "")],
        OpeningKind::Chimney => {
            &[(Spot::ChimneyLow, "low side"), (Spot::ChimneySide, "flanks"), (Spot::ChimneyHigh, "high side")]
        }
        OpeningKind::Skylight => {
            &[(Spot::SkylightLow, "sill"), (Spot::SkylightSide, "jambs"), (Spot::SkylightHigh, "head")]
        }
    }
}

fn yes_no(is: bool) -> String {
    if is { "yes" } else { "no" }.to_owned()
}

/// What a place lacks that will be built on but has no detail to build.
fn lacking(place: &Place, roof: &Roof) -> Option<Problem> {
    if place.usual().is_some() || (place.planned.is_empty() && matches!(place.at, At::Opening(_))) {
        return None;
    }
    if let (Spot::KickOut, At::End(edge, _)) = (place.spot, place.at) {
        let wall = roof.edge(edge).wall_of.as_deref().unwrap_or("the house");
        let message = format!(
            "edge {}, the roof's end at the wall of {wall}, has no kick-out: its water runs down behind the siding",
            edge.number()
        );
        let mend = "plan a kick-out there; without one this program plans no roof end at a wall";
        return Some(Problem::error("no-kick-out", message, mend));
    }
    let message = format!("{} has no detail to be built", place.name);
    Some(Problem::error(
        "no-detail",
        message,
        "add one to the books, or take back the overlay that refuses it",
    ))
}
