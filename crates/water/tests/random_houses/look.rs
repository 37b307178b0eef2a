//! One pass over all houses.

use std::collections::BTreeMap;
use std::sync::LazyLock;
use std::thread;

use book::Book;
use job::{Block, Opening, OpeningKind};
use roof::Roof;
use water::{HungGutter, Part, Water};

use crate::hanging::{random_blocked, random_gutters};
use crate::houses::pierced::Piercer;
use crate::houses::random::{blocks, house};
use crate::houses::told::{MIRRORED, TURNED, Telling};
use crate::{hung, rain};

pub(crate) const HOUSES: u64 = 10_000;

/// What one way of looking found, by seed.
#[derive(Default)]
pub(crate) struct Look(pub(crate) Vec<(u64, String)>);

/// What all ways of looking found.
#[derive(Default)]
pub(crate) struct Seen {
    pub(crate) bare: Look,
    pub(crate) pierced: Look,
    pub(crate) hung: Look,
    pub(crate) blocked: Look,
    pub(crate) unhung: Look,
    pub(crate) walls: Look,
    pub(crate) circles: Look,
    pub(crate) pierced_circles: Look,
    pub(crate) turned: Look,
    pub(crate) mirrored: Look,
    /// Openings that water comes to from above.
    pub(crate) openings: BTreeMap<OpeningKind, usize>,
    pub(crate) with_gutters: usize,
    pub(crate) with_walls: usize,
}

/// A house as it is looked at.
pub(crate) struct House<'a> {
    /// With its openings.
    pub(crate) roof: &'a Roof,
    pub(crate) gutters: &'a [HungGutter],
    pub(crate) blocked: &'a [Part],
    pub(crate) book: &'a Book,
    /// Its water without gutters.
    pub(crate) water: &'a Water,
}

impl Look {
    pub(crate) fn note(&mut self, seed: u64, what: Option<String>) {
        self.0.extend(what.map(|what| (seed, what)));
    }

    fn and(&mut self, other: Self) {
        self.0.extend(other.0);
        self.0.sort();
    }
}

impl Seen {
    fn of(seeds: impl Iterator<Item = u64>) -> Self {
        let (mut seen, mut pier, book) = (Self::default(), Piercer::new(), Book::builtin());
        for seed in seeds {
            let written = blocks(&house(seed));
            let Ok(bare) = Roof::of_blocks(&written) else { continue };
            let (roof, openings) = pier.pierced(&bare, &written, seed);
            let gutters = random_gutters(&roof, seed);
            let blocked = random_blocked(&gutters, seed);
            let water = Water::of(&roof);
            let looked_at =
                House { roof: &roof, gutters: &gutters, blocked: &blocked, book: &book, water: &water };
            seen.look(seed, &bare, &looked_at);
            let figures = rain::figures(&roof, &water);
            let mut told = |telling: &Telling| {
                let other = retold(&mut pier, &written, &openings, telling);
                other.map_or_else(Some, |other| {
                    rain::difference(&figures, &rain::figures(&other, &Water::of(&other)))
                })
            };
            seen.turned.note(seed, told(&TURNED));
            seen.mirrored.note(seed, told(&MIRRORED));
        }
        seen
    }

    fn look(&mut self, seed: u64, bare: &Roof, house: &House<'_>) {
        let (fault, goes_round) = rain::faults(bare, &Water::of(bare));
        self.bare.note(seed, fault);
        self.circles.note(seed, goes_round);
        let (fault, goes_round) = rain::faults(house.roof, house.water);
        self.pierced.note(seed, fault.or_else(|| rain::parting_fault(house, &mut self.openings)));
        self.pierced_circles.note(seed, goes_round);
        self.hung.note(seed, hung::fault(house));
        self.blocked.note(seed, hung::blocked_fault(house));
        self.unhung.note(seed, hung::unhung_fault(house));
        let (fault, has_walls) = hung::wall_fault(house);
        self.walls.note(seed, fault);
        self.with_gutters += usize::from(!house.gutters.is_empty());
        self.with_walls += usize::from(has_walls);
    }

    fn and(mut self, other: Self) -> Self {
        for (kind, count) in other.openings {
            *self.openings.entry(kind).or_insert(0) += count;
        }
        let pairs = [
            (&mut self.bare, other.bare),
            (&mut self.pierced, other.pierced),
            (&mut self.hung, other.hung),
            (&mut self.blocked, other.blocked),
            (&mut self.unhung, other.unhung),
            (&mut self.walls, other.walls),
            (&mut self.circles, other.circles),
            (&mut self.pierced_circles, other.pierced_circles),
            (&mut self.turned, other.turned),
            (&mut self.mirrored, other.mirrored),
        ];
        for (look, other) in pairs {
            look.and(other);
        }
        self.with_gutters += other.with_gutters;
        self.with_walls += other.with_walls;
        self
    }
}

/// The roof of a house told otherwise, or why there is none.
fn retold(
    pier: &mut Piercer,
    written: &[Block],
    openings: &[Opening],
    telling: &Telling,
) -> Result<Roof, String> {
    let written: Vec<Block> = written.iter().map(telling.block).collect();
    let moved = |o: &Opening| Opening { at: (telling.point)(o.at), ..o.clone() };
    let openings: Vec<Opening> = openings.iter().map(moved).collect();
    let roof = Roof::of_blocks(&written).and_then(|bare| pier.roof(bare, &written, &openings));
    roof.map_err(|problems| format!("{problems:?}"))
}

/// What is seen of all houses.
pub(crate) fn seen() -> &'static Seen {
    static SEEN: LazyLock<Seen> = LazyLock::new(|| {
        let [even, odd] = thread::scope(|scope| {
            let halves = [0, 1].map(|half| scope.spawn(move || Seen::of((half..HOUSES).step_by(2))));
            halves.map(|half| half.join().expect("no panic"))
        });
        even.and(odd)
    });
    &SEEN
}
