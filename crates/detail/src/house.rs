//! The details of a house: what is found and what is planned at every edge, edge end and opening.
//!
//! A place asks for details of its spot; what is known of it (*facts*: cladding, whether the weather barrier laps, whether the space
//! below is vented) says which of them fit. The usual one comes first, those that are allowed as well after it.
//!
//! # Limits
//! A wall nobody described is taken to have lap siding and a felt that does not lap: the worse reading. How a place is met with is surveyed
//! where the job tells all that the books' found details there ask after; else the books' usual case stands in, and says so.

mod desk;
mod short;
mod site;
mod tell;

use std::cmp::Reverse;

use book::{Book, Choice, Facts, Hold, LookupError, Spot};
use job::{Job, Problem};
use roof::{EdgeId, NodeId, Roof};

use crate::attack::Attack;
use crate::lap::Fault;
use crate::section::{Setting, Slopes};

use self::desk::Desk;
pub use self::short::listed;

/// The details of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Details {
    /// Every place that needs one: edges by number, roof ends at walls, openings in the order of the document.
    pub places: Vec<Place>,
    /// Places for which there is none to be built, faults of those that will be, wishes that cannot be met.
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
    /// Whether nobody wrote down what its wall is clad with: the worse reading stands in.
    pub is_wall_assumed: bool,
    /// Names of the planes its section's faces `one` and `other` are, where it has such: the flatter first.
    pub sides: Vec<String>,
    /// What is known of it as it is met with.
    pub facts_found: Facts,
    /// What is known of it as it will be.
    pub facts: Facts,
    /// Pitches its sections are cut through.
    pub slopes: Slopes,
    /// Whether anything is there yet.
    pub is_there: bool,
    /// Whether anything will be there: an opening that goes is closed and covered with the field.
    pub will_be: bool,
    /// How it is met with; none where nothing is there, or where the books do not know how such a place is met with.
    pub found: Option<Fit>,
    /// What can be built there, what will be unless something else is wished first.
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
    /// Where its section is cut; of no cladding where it has no layer of it.
    pub at: Setting,
    /// Whether its section depends on the pitches.
    pub is_pitched: bool,
    /// How readily it is chosen.
    pub choice: Choice,
    /// Whether the job wishes it.
    pub is_wished: bool,
    /// Whether it is the books' usual case for want of a survey; never of what is planned.
    pub is_assumed: bool,
    /// What is built with it at the same place, each with a section of its own.
    pub with: Vec<Fit>,
    /// How the place stands against each attack that can happen: the weaker of it and what is built with it.
    pub stands: Vec<Stood>,
    /// What is wrong with it.
    pub faults: Vec<Fault>,
}

/// How a detail stands against an attack, in names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stood {
    /// The attack.
    pub attack: Attack,
    /// The fewest failures that let water reach wood; none where nothing does.
    pub failures: Option<usize>,
    /// What fails in each of the least sets.
    pub sets: Vec<Vec<String>>,
}

/// A detail that will be built, with all the places at which its section is the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Built<'d> {
    /// The detail and how it stands.
    pub fit: &'d Fit,
    /// The places by index in [`Details::places`].
    pub places: Vec<usize>,
}

impl Place {
    /// What will be built there: what the job wishes, else the usual.
    pub fn chosen(&self) -> Option<&Fit> {
        self.planned
            .iter()
            .find(|fit| fit.choice != Choice::Refused && (fit.is_wished || fit.choice == Choice::Usual))
    }
}

impl Fit {
    /// It, and what is built with it.
    pub fn all(&self) -> impl Iterator<Item = &Self> {
        std::iter::once(self).chain(&self.with)
    }

    /// Whether it takes as many failures as another under each attack.
    pub fn stands_as(&self, other: &Self) -> bool {
        let counts =
            |fit: &Self| fit.stands.iter().map(|stood| (stood.attack, stood.failures)).collect::<Vec<_>>();
        counts(self) == counts(other)
    }

    /// What tells its section from those of other details and settings, in words.
    pub fn cut_name(&self) -> String {
        let pitches = self.is_pitched.then(|| self.at.slopes.to_string());
        let cladding = self.at.cladding.map(|cladding| cladding.name().to_owned());
        [Some(self.detail.clone()), pitches, cladding].into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    /// Failures it takes under an attack; none where it cannot happen or no failures suffice.
    pub fn failures(&self, attack: Attack) -> Option<usize> {
        self.stands.iter().find(|stood| stood.attack == attack)?.failures
    }
}

impl Details {
    /// The details of a house.
    ///
    /// # Errors
    /// Rows the books do not have.
    pub fn of(roof: &Roof, job: &Job, book: &Book) -> Result<Self, LookupError> {
        let mut desk = Desk::new(roof, job, book)?;
        let mut places = Vec::new();
        for site in desk.sites() {
            places.push(desk.place(site)?);
        }
        let problems = tell::problems(&places, roof, job, book);
        Ok(Self { places, problems })
    }

    /// What must be photographed before it is covered, with the places it is asked at, in the order of the places.
    pub fn holds<'b>(&self, book: &'b Book) -> Vec<(&'b Hold, Vec<&Place>)> {
        let mut holds: Vec<(&Hold, Vec<&Place>)> = Vec::new();
        for place in &self.places {
            let fits = place.chosen().into_iter().flat_map(Fit::all);
            let details = fits.filter_map(|fit| book.detail(&fit.detail).ok());
            for hold in details.flat_map(|detail| &detail.hold) {
                match holds.iter_mut().find(|(known, _)| *known == hold) {
                    Some((_, places)) if places.last().is_some_and(|last| *last == place) => {}
                    Some((_, places)) => places.push(place),
                    None => holds.push((hold, vec![place])),
                }
            }
        }
        holds
    }

    /// The details that will be built, each once for each setting, in the order of their first places.
    pub fn built(&self) -> Vec<Built<'_>> {
        let mut all: Vec<Built<'_>> = Vec::new();
        let chosen = self.places.iter().enumerate().filter_map(|(i, place)| Some((i, place.chosen()?)));
        for (index, fit) in chosen.flat_map(|(i, fit)| fit.all().map(move |one| (i, one))) {
            // by name: pitches that read alike are one, however they were worked out
            match all.iter_mut().find(|built| built.fit.cut_name() == fit.cut_name()) {
                Some(built) => built.places.push(index),
                None => all.push(Built { fit, places: vec![index] }),
            }
        }
        all
    }

    /// Places by how they stand as found, the worst first, of equals that which the work mends most; those where nothing is found last.
    pub fn worst_first(&self) -> Vec<&Place> {
        let strength = |fit: Option<&Fit>| fit.map_or_else(|| vec![usize::MAX], Fit::weakest_first);
        let mut places: Vec<&Place> = self.places.iter().collect();
        places.sort_by_key(|place| (strength(place.found.as_ref()), Reverse(strength(place.chosen()))));
        places
    }
}

impl Fit {
    /// Failures it takes under the attacks that can happen, the fewest first.
    fn weakest_first(&self) -> Vec<usize> {
        let failures = self.stands.iter().map(|stood| stood.failures.unwrap_or(usize::MAX));
        let mut all: Vec<usize> = failures.collect();
        all.sort_unstable();
        all
    }
}
