//! Openings on random houses: chimneys, pipes, hoods, skylights and vents anywhere on the planes, of any size a job may have.
//!
//! What a job may not have is taken out again as `Roof::of` names it: openings over edges and on one another.

use book::Book;
use job::{Block, Cricket, Job, Opening, OpeningKind, Problem, State};
use measure::{Length, Pitch};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use roof::Roof;
use roof::plan::{P2, area, contains, flat};

const KINDS: [OpeningKind; 7] = [
    OpeningKind::Chimney,
    OpeningKind::Pipe,
    OpeningKind::Hood,
    OpeningKind::Skylight,
    OpeningKind::DaylightTube,
    OpeningKind::BoxVent,
    OpeningKind::PowerVent,
];
/// Points tried before a plane is taken to have no room, such as a sliver.
const TRIES: usize = 20;

/// Makes houses with openings.
pub struct Piercer {
    books: Book,
    job: Job,
}

impl Piercer {
    /// With a job for everything but blocks and openings.
    pub fn new() -> Self {
        let books = Book::builtin();
        let text = include_str!("../../../../examples/cross-gable.toml");
        let (mut job, _) = Job::read(text, &books).expect("the example reads");
        job.gutters.clear();
        job.walks.clear();
        job.windows.clear();
        Self { books, job }
    }

    /// A bare roof of blocks with openings.
    pub fn roof(&mut self, bare: Roof, blocks: &[Block], openings: &[Opening]) -> Result<Roof, Vec<Problem>> {
        self.job.blocks = blocks.to_vec();
        self.job.openings = openings.to_vec();
        bare.fitted(&self.job, &self.books)
    }

    /// A bare roof of blocks with openings at random, and these openings.
    pub fn pierced(&mut self, bare: &Roof, blocks: &[Block], seed: u64) -> (Roof, Vec<Opening>) {
        let mut openings = random_openings(bare, seed);
        loop {
            let problems = match self.roof(bare.clone(), blocks, &openings) {
                Ok(roof) => return (roof, openings),
                Err(problems) => problems,
            };
            let before = openings.len();
            let errors = problems.iter().filter(|p| p.is_error());
            let named: Vec<_> = errors.filter_map(|p| Some(p.places.first()?.range.clone())).collect();
            openings.retain(|o| !named.contains(&o.at_span));
            assert!(openings.len() < before, "seed {seed}: {problems:?}");
        }
    }
}

/// Up to two openings on every plane of a roof.
pub fn random_openings(roof: &Roof, seed: u64) -> Vec<Opening> {
    let mut rng = ChaCha8Rng::seed_from_u64(seed ^ 0x0b_e2);
    let mut all = Vec::new();
    for plane in &roof.planes {
        let ring: Vec<P2> = plane.outline.iter().map(|p| flat(*p)).collect();
        for _ in 0..rng.random_range(0..3) {
            all.extend(point_in(&ring, &mut rng).map(|at| opening(all.len(), at, &mut rng)));
        }
    }
    all
}

fn point_in(ring: &[P2], rng: &mut ChaCha8Rng) -> Option<P2> {
    assert!(area(ring).abs() > 0.0);
    let range = |axis: usize| {
        let on_axis = ring.iter().map(move |p| p[axis]);
        on_axis.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| [low.min(x), high.max(x)])
    };
    let [x, y] = [range(0), range(1)];
    let mut any = || [rng.random_range(x[0]..x[1]), rng.random_range(y[0]..y[1])];
    (0..TRIES).map(|_| any()).find(|p| contains(ring, *p))
}

fn opening(number: usize, at: P2, rng: &mut ChaCha8Rng) -> Opening {
    let kind = KINDS[rng.random_range(0..KINDS.len())];
    let mut inches = |from: f64, to: f64| Length::from_in(rng.random_range(from..to));
    let (across, along) = match kind {
        OpeningKind::Chimney => (inches(12.0, 72.0), inches(12.0, 60.0)),
        OpeningKind::Skylight => (inches(14.0, 60.0), inches(18.0, 96.0)),
        OpeningKind::BoxVent | OpeningKind::PowerVent => (inches(8.0, 24.0), inches(8.0, 24.0)),
        OpeningKind::Pipe | OpeningKind::Hood | OpeningKind::DaylightTube => {
            let wide = inches(1.0, 24.0);
            (wide, wide)
        }
    };
    let state = [State::Found, State::Found, State::Plan, State::Remove][rng.random_range(0..4)];
    let cricket = match rng.random_range(0..4) {
        0 => Cricket::Built(Some(Pitch::from_rise_per_12(rng.random_range(1.0..12.0)))),
        1 => Cricket::None,
        _ => Cricket::ByCode,
    };
    Opening {
        name: format!("opening {number}"),
        kind,
        at,
        across,
        along,
        state,
        serves: None,
        mount: None,
        cricket,
        net_free_area: None,
        framing: None,
        height: None,
        shaft: None,
        span: 0..0,
        at_span: number..number + 1, // tells one from another
    }
}
