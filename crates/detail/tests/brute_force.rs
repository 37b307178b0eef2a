//! The fewest failures that let water reach wood, found again by trying every set of failures, with a reading of the section's plain data that
//! shares nothing with the solver: neither its ways of water nor its search.
//!
//! Water is followed from room to room between the layers. Every shipped detail is tried beside every cladding it is chosen for, under every
//! attack. Sets are tried from the smallest up to the size of the answer: that none smaller lets water in is the proof. Where the answer is that no
//! number of failures suffices, all of them at once must leave the wood dry: a failure never keeps water out.

use std::collections::BTreeSet;

use book::{Act, Book, Cladding, Coming, Detail, Falls, Pond};
use detail::{Attack, Failure, Section, Setting, Sheet, Slopes, Span, Stand};
use measure::Pitch;

/// Rooms and the ways between them, each with the failures it needs as bits of a mask: at most one.
struct Rooms {
    ways: Vec<Vec<(usize, u64)>>,
    /// Rooms with water in them from the start.
    wet: Vec<usize>,
    /// Rooms on wood that is to stay dry.
    wood: Vec<bool>,
}

/// A room: its stretch, and the layers under and over it; none under the innermost, which is on the wood, and over the outermost.
#[derive(Clone, Copy, PartialEq)]
struct Room {
    stretch: usize,
    under: Option<usize>,
    over: Option<usize>,
}

struct Reading<'s, 'a> {
    section: &'s Section<'a>,
    attack: Attack,
    pond: Option<&'a Pond>,
    rooms: Vec<Room>,
}

fn shares(one: Span, other: Span) -> bool {
    one.to.min(other.to) - one.from.max(other.from) > 1e-6
}

fn does(sheet: &Sheet<'_>, act: Act) -> bool {
    !sheet.layer.spent && sheet.material.does(act)
}

impl<'s, 'a> Reading<'s, 'a> {
    fn of(section: &'s Section<'a>, attack: Attack) -> Self {
        let pond = match attack {
            Attack::Rain | Attack::Wind => None,
            Attack::Ice => section.detail.ice.as_ref(),
            Attack::Gutter => section.detail.gutter.as_ref(),
        };
        let mut rooms = Vec::new();
        for (stretch, laid) in section.stretches.iter().enumerate() {
            let mut under = None;
            for layer in &laid.layers {
                rooms.push(Room { stretch, under, over: Some(*layer) });
                under = Some(*layer);
            }
            rooms.push(Room { stretch, under, over: None });
        }
        Self { section, attack, pond, rooms }
    }

    fn sheet(&self, layer: usize) -> &Sheet<'a> {
        &self.section.sheets[layer]
    }

    /// Whether standing water covers a stretch.
    fn is_drowned(&self, stretch: usize) -> bool {
        let laid = &self.section.stretches[stretch];
        self.pond.is_some_and(|pond| {
            let on = self.section.spans(&pond.on);
            laid.height <= pond.height.m() && on.iter().any(|span| shares(*span, laid.span))
        })
    }

    /// The bit of a failure: layers first, then their fasteners.
    fn bit(&self, failure: Failure) -> u64 {
        match failure {
            Failure::Layer(layer) => 1 << layer,
            Failure::Fastener(layer) => 1 << (self.section.sheets.len() + layer),
        }
    }

    fn read(&self) -> Rooms {
        let falls_everywhere = matches!(self.attack, Attack::Rain | Attack::Wind);
        let wet = |room: &Room| room.over.is_none() && (falls_everywhere || self.is_drowned(room.stretch));
        let wood = |room: &Room| room.under.is_none() && self.section.stretches[room.stretch].guarded;
        let ways = |from: &Room| {
            let needs = |to: &Room| self.needs(*from, *to);
            let all = self.rooms.iter().enumerate();
            all.flat_map(|(at, to)| needs(to).into_iter().map(move |mask| (at, mask))).collect()
        };
        Rooms {
            ways: self.rooms.iter().map(ways).collect(),
            wet: (0..self.rooms.len()).filter(|at| wet(&self.rooms[*at])).collect(),
            wood: self.rooms.iter().map(wood).collect(),
        }
    }

    /// Every way from one room straight into another, by what must fail for it.
    fn needs(&self, from: Room, to: Room) -> Vec<u64> {
        if from.stretch == to.stretch {
            return self.through(from, to).into_iter().chain(self.along_fasteners(from, to)).collect();
        }
        let are_neighbours = from.stretch.abs_diff(to.stretch) == 1;
        (are_neighbours && self.is_one_room(from, to) && self.runs(from, to))
            .then_some(0)
            .into_iter()
            .collect()
    }

    /// Through the layer between two rooms.
    fn through(&self, from: Room, to: Room) -> Option<u64> {
        let layer = from.under.filter(|layer| to.over == Some(*layer))?;
        let (sheet, drowned) = (self.sheet(layer), self.is_drowned(from.stretch));
        let coming = match self.attack {
            Attack::Wind => Coming::Driven,
            Attack::Ice if drowned => Coming::Standing,
            _ => Coming::Running,
        };
        let is_gutter = self.attack == Attack::Gutter && does(sheet, Act::Gutters);
        let holds = !sheet.layer.spent && sheet.material.stops.contains(&coming) && !is_gutter;
        Some(if holds { self.bit(Failure::Layer(layer)) } else { 0 })
    }

    /// Down the fasteners of a layer whose heads are in one room, as far as the first layer that closes round them.
    fn along_fasteners(&self, from: Room, to: Room) -> Vec<u64> {
        let stretch = &self.section.stretches[from.stretch];
        let down = |layer: &usize| {
            let sheet = self.sheet(*layer);
            let is_here = sheet.fixings.iter().any(|(span, _)| shares(*span, stretch.span));
            let heads = if does(sheet, Act::Courses) { from.over } else { from.under };
            let inner = stretch.layers.iter().rev().filter(|other| **other < *layer);
            let closes = inner.copied().find(|other| does(self.sheet(*other), Act::Heals));
            let leads = heads == Some(*layer) && to.under == closes && to != from;
            (is_here && leads).then(|| {
                let zones = self.section.spans(&self.section.detail.no_fasteners);
                let forbidden = zones.iter().any(|zone| shares(*zone, stretch.span));
                if forbidden { 0 } else { self.bit(Failure::Fastener(*layer)) }
            })
        };
        stretch.layers.iter().filter_map(down).collect()
    }

    /// Whether two rooms beside one another are open to each other: no layer parts them and nothing sticks shut.
    fn is_one_room(&self, from: Room, to: Room) -> bool {
        let parts = |layer: usize| {
            let is_over = |room: Room| room.under.is_none_or(|under| under < layer);
            let is_under = |room: Room| room.over.is_none_or(|over| over > layer);
            // over one room and under the other
            [(from, to), (to, from)].iter().any(|(low, high)| {
                is_over(*low)
                    && low.over.is_some_and(|o| o <= layer)
                    && is_under(*high)
                    && high.under.is_some_and(|u| u >= layer)
            })
        };
        let sticks = |room: Room| room.over.is_some_and(|layer| does(self.sheet(layer), Act::Bonds));
        let is_let_in = to.over.is_some_and(|layer| {
            self.sheet(layer).layer.let_in && !self.section.stretches[from.stretch].layers.contains(&layer)
        });
        !(0..self.section.sheets.len()).any(parts) && !sticks(from) && !sticks(to) && !is_let_in
    }

    /// Whether water goes that way: down the fall, anywhere under standing water, up under a lap that is too short when wind drives it.
    fn runs(&self, from: Room, to: Room) -> bool {
        let falls = |room: Room| self.section.faces[self.section.stretches[room.stretch].face].face.falls;
        let is_down = match (falls(from), falls(to)) {
            (Falls::On, Falls::On | Falls::Along) => to.stretch > from.stretch,
            (Falls::Back, Falls::Back | Falls::Along) => to.stretch < from.stretch,
            _ => false,
        };
        let stands = self.is_drowned(from.stretch) && self.is_drowned(to.stretch);
        let is_short = to.under.zip(to.over).is_some_and(|(under, over)| {
            let [under, over] = [under, over].map(|layer| self.sheet(layer));
            let lap = over.span.to.min(under.span.to) - over.span.from.max(under.span.from);
            over.layer.over.get(&under.layer.id).is_some_and(|least| lap.max(0.0) < least.m() - 1e-6)
        });
        is_down || stands || (self.attack == Attack::Wind && is_short)
    }
}

impl Rooms {
    /// Whether water is on the wood once those of a mask have failed.
    fn wets(&self, failed: u64) -> bool {
        let mut seen = vec![false; self.ways.len()];
        let mut stack = self.wet.clone();
        while let Some(room) = stack.pop() {
            if std::mem::replace(&mut seen[room], true) {
                continue;
            }
            if self.wood[room] {
                return true;
            }
            let open = self.ways[room].iter().filter(|(to, needs)| needs & !failed == 0 && !seen[*to]);
            stack.extend(open.map(|(to, _)| *to));
        }
        false
    }
}

/// Calls with every set of so many bits.
fn for_each_set(bits: &[u64], size: usize, so_far: u64, each: &mut impl FnMut(u64)) {
    if size == 0 {
        return each(so_far);
    }
    for (at, bit) in bits.iter().enumerate() {
        for_each_set(&bits[at + 1..], size - 1, so_far | bit, each);
    }
}

/// All sets of failures of the least size that wets the wood; none where all failures at once do not.
fn least_by_trying(section: &Section<'_>, attack: Attack) -> Vec<BTreeSet<Failure>> {
    let reading = Reading::of(section, attack);
    let rooms = reading.read();
    let layers = (0..section.sheets.len()).map(Failure::Layer);
    let fixed = (0..section.sheets.len()).filter(|at| !section.sheets[*at].layer.fixed.is_empty());
    let all: Vec<Failure> = layers.chain(fixed.map(Failure::Fastener)).collect();
    let bits: Vec<u64> = all.iter().map(|failure| reading.bit(*failure)).collect();
    if !rooms.wets(bits.iter().sum()) {
        return Vec::new();
    }
    let mut wetting = BTreeSet::new();
    for size in 0.. {
        for_each_set(&bits, size, 0, &mut |failed| {
            if rooms.wets(failed) {
                let has_failed = |failure: &&Failure| reading.bit(**failure) & failed != 0;
                wetting.insert(all.iter().filter(has_failed).copied().collect());
            }
        });
        if !wetting.is_empty() {
            break;
        }
    }
    wetting.into_iter().collect()
}

/// The claddings a detail is chosen for; none known where it has no cladding.
fn claddings(detail: &Detail) -> Vec<Option<Cladding>> {
    let all = [Cladding::Lap, Cladding::Shingle, Cladding::Stucco, Cladding::Brick];
    let chosen =
        |cladding: &Cladding| detail.when.cladding.is_empty() || detail.when.cladding.contains(cladding);
    let clad = all.into_iter().filter(chosen).map(Some);
    std::iter::once(None).chain(clad.filter(|_| detail.is_clad())).collect()
}

#[test]
fn the_solver_finds_what_trying_every_set_of_failures_finds() {
    let book = Book::builtin();
    let pitch = |text: &str| text.parse::<Pitch>().expect("a pitch");
    let (mut compared, mut sizes) = (BTreeSet::new(), BTreeSet::new());
    for detail in book.details() {
        for cladding in claddings(detail) {
            for [first, then] in [["6/12", "6/12"], ["3/12", "12/12"]].map(|pair| pair.map(pitch)) {
                let at = Setting { cladding, ..Slopes { first, then }.into() };
                let section = Section::of(detail, at, &book).expect("materials of the books");
                for attack in Attack::ALL {
                    let Some(stand) = Stand::of(&section, attack) else { continue };
                    let tried = least_by_trying(&section, attack);
                    let place = format!("{} beside {cladding:?} at {first} under {attack}", detail.id);
                    assert_eq!(stand.sets, tried, "{place}");
                    assert_eq!(stand.failures, tried.first().map(BTreeSet::len), "{place}");
                    compared.insert((detail.id.as_str(), attack));
                    sizes.insert(stand.failures);
                }
            }
        }
    }
    let rained: BTreeSet<&str> =
        compared.iter().filter(|(_, a)| *a == Attack::Rain).map(|(id, _)| *id).collect();
    assert_eq!(rained.len(), book.details().count());
    assert!(Attack::ALL.iter().all(|attack| compared.iter().any(|(_, other)| other == attack)));
    assert!([0, 1, 2, 3].iter().all(|size| sizes.contains(&Some(*size))), "{sizes:?}");
}
