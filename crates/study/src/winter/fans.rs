//! Fans of a house: what they take out of its rooms, and which attic it ends in.

use ::winter::house_air::HouseAir;
use book::{Book, LookupError};
use heat::air::density;
use job::{Fan, FanEnd, Job, OpeningKind, State};

/// Hours of a day in which the fans of a job run, as shares, in its order.
pub(crate) fn shares(job: &Job, book: &Book) -> Result<Vec<f64>, LookupError> {
    let of = |fan: &Fan| Ok(book.thermal().fan_use(fan.room.name())?.hours_a_day.middle() / 24.0);
    job.fans.iter().map(of).collect()
}

/// A fan in the network.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Blows {
    /// Air it moves, m³/s.
    flow: f64,
    /// Share of the hours it runs.
    share: f64,
    /// Attic it ends in, by number, as found and when the job is done; none outdoors.
    into: [Option<usize>; 2],
}

/// When fans run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Running {
    /// As long as is usual, so many times: their mean over the hours.
    Usual(f64),
    /// All at once.
    All,
    /// None.
    None,
}

/// The fans of a job.
#[derive(Clone, Debug)]
pub(super) struct Fans(Vec<Blows>);

impl Fans {
    /// What ends at a soffit or a ridge vent is taken as outdoors: how much of it is drawn in again nobody knows. A new hood for each fan that does not end
    /// outdoors leads it there.
    pub(super) fn of(
        job: &Job,
        shares: &[f64],
        attic_at: impl Fn(Option<[f64; 2]>) -> Option<usize>,
    ) -> Self {
        let is_new =
            |opening: &&job::Opening| opening.kind == OpeningKind::Hood && opening.state == State::Plan;
        let hoods = job.openings.iter().filter(is_new).count();
        let astray = job.fans.iter().filter(|fan| fan.ends.value != FanEnd::Outdoors).count();
        let of = |(fan, share): (&Fan, &f64)| {
            let found = (fan.ends.value == FanEnd::Attic).then(|| attic_at(fan.at)).flatten();
            let done = found.filter(|_| hoods < astray);
            Blows { flow: fan.flow.value.m3_s(), share: *share, into: [found, done] }
        };
        Self(job.fans.iter().zip(shares).map(of).collect())
    }

    /// Whether the work that is planned changes where one ends.
    pub(super) fn change(&self) -> bool {
        self.0.iter().any(|fan| fan.into[0] != fan.into[1])
    }

    /// Lets them run in the air of a house, in a state.
    pub(super) fn run(&self, air: &mut HouseAir, state: usize, running: Running, rooms: f64) {
        let density = density(air.pressure, rooms);
        for fan in &self.0 {
            let share = match running {
                Running::Usual(times) => (fan.share * times).min(1.0),
                Running::All => 1.0,
                Running::None => 0.0,
            };
            let blown = match fan.into[state] {
                Some(attic) => &mut air.attics[attic].blown,
                None => &mut air.exhaust,
            };
            *blown += fan.flow * density * share;
        }
    }
}

#[cfg(test)]
mod tests {
    use ::winter::house_air::{AtticAir, Last};
    use heat::air::{Leak, density};
    use job::Job;
    use measure::{Area, Flow, Length};

    use super::*;

    const HOUSE: &str = include_str!("../../../../examples/hip-split-level.toml");

    fn fans(text: &str) -> Fans {
        let book = Book::builtin();
        let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
        let shares = shares(&job, &book).expect("rows of the books");
        Fans::of(&job, &shares, |at| Some(usize::from(at.is_some())))
    }

    fn run(fans: &Fans, state: usize, running: Running) -> [f64; 3] {
        let attic = AtticAir {
            ceiling: Leak::at_50_pa(Flow::from_cfm(500.0)),
            low: Area::ZERO,
            high: Area::ZERO,
            heights: [Length::ZERO; 2],
            ceiling_at: Length::ZERO,
            blown: 0.0,
            bays: None,
        };
        let mut air = HouseAir {
            shell: attic.ceiling,
            height: Length::ZERO,
            attics: vec![attic.clone(), attic],
            passages: Vec::new(),
            pressure: 101_325.0,
            exhaust: 0.0,
            shelter: 0.6,
            last: Last::default(),
        };
        fans.run(&mut air, state, running, 20.0);
        let m3_s = 1.0 / density(101_325.0, 20.0);
        [air.exhaust, air.attics[0].blown, air.attics[1].blown].map(|kg_s| kg_s * m3_s)
    }

    fn close(found: [f64; 3], cfm: [f64; 3]) {
        for (found, cfm) in found.into_iter().zip(cfm) {
            assert!((found - Flow::from_cfm(cfm).m3_s()).abs() < 1e-12, "{found} for {cfm} cfm");
        }
    }

    /// Two bath fans nobody measured: 40 cfm each by the books, 1 1/4 hours a day (half way from 0.5 to 2). The house ends them at the soffit.
    #[test]
    fn bath_fans_run_for_a_twentieth_of_the_hours() {
        let fans = fans(HOUSE);
        close(run(&fans, 0, Running::All), [80.0, 0.0, 0.0]);
        close(run(&fans, 0, Running::Usual(1.0)), [80.0 * 1.25 / 24.0, 0.0, 0.0]);
        close(run(&fans, 0, Running::Usual(2.0)), [80.0 * 2.5 / 24.0, 0.0, 0.0]);
        close(run(&fans, 0, Running::None), [0.0; 3]);
    }

    /// One that ends in the attic blows into that over its place, or else into the first told; once a new hood hangs for each fan that ends astray, outdoors.
    #[test]
    fn a_fan_blows_into_its_attic_until_a_hood_is_planned() {
        let first = "room = \"bath\"\nflow = \"unknown\"\nends = \"soffit\"";
        let text = HOUSE.replacen(
            first,
            "room = \"bath\"\nflow = \"60 cfm\"\nat = [\"10'\", \"10'\"]\nends = \"attic\"",
            1,
        );
        let text = text.replacen(first, "room = \"dryer\"\nflow = \"100 cfm\"\nends = \"attic\"", 1);
        assert_ne!(text, HOUSE);
        let astray = fans(&text);
        for state in [0, 1] {
            close(run(&astray, state, Running::All), [0.0, 100.0, 60.0]);
        }
        let hood = |x: u32| {
            format!(
                "[[opening]]\nkind = \"hood\"\nname = \"hood {x}\"\nat = [\"{x}'\", \"12'\"]\nsize = [\"8 in\", \"8 in\"]\nstate = \"plan\"\n\n"
            )
        };
        let one = fans(&(text.clone() + "\n" + &hood(8)));
        close(run(&one, 1, Running::All), [0.0, 100.0, 60.0]);
        let both = fans(&(text + "\n" + &hood(8) + &hood(11)));
        close(run(&both, 0, Running::All), [0.0, 100.0, 60.0]);
        close(run(&both, 1, Running::All), [160.0, 0.0, 0.0]);
    }
}
