//! Heights of a block's roof as functions of the unknowns: ridge, eave, and the rafter between.
//!
//! # Formula
//! From each wall line a plane rises: z = h + m t, with t the run from that line. Two planes that face each other over a
//! width w meet at z = (h1 m2 + h2 m1 + m1 m2 w) / (m1 + m2); a plane with none opposite ends at z = h + m w. A section of a
//! rectangular block is topped by the least of these over its planes; the ridge is the lower of the tops of its two sections.
//! A rafter from plate h to ridge z at slope m is (z - h) sqrt(1 + m²) / m long.
//! # Symbols and units
//! z, h, t, w metres; m rise over run.
//! # Valid range
//! Rectangular blocks of every form whose ridge lies between the walls; slopes above zero. A shed's ridge is its high wall
//! line. Heights are those of the roof surface the blocks describe, through the plate's top outer edge.
//! # Checks
//! unit: hand-worked sections; outside: the framing square's rafter lengths; property: against the measured roof,
//! `tests/readings.rs`.

use job::{Block, BlockEdge, EdgeSlope, Form, Overhang, Side};

use crate::figure::Kind;
use crate::network::{Corner, Network, Place};
use crate::term::Term;

/// A plane that rises from a wall line.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Rise {
    /// From the plate.
    Plain { plate: Place, pitch: Place },
    /// From a height above the plate: a half-hip.
    Above { plate: Place, start: Place, pitch: Place },
    /// From a break in a lower slope.
    Upper { plate: Place, lower: Place, run: Place, pitch: Place },
}

impl Rise {
    /// Height at the wall line and slope.
    fn terms(self, values: &[f64]) -> (Term, Term) {
        let term = |place: Place| place.term(values);
        match self {
            Self::Plain { plate, pitch } => (term(plate), term(pitch)),
            Self::Above { plate, start, pitch } => (term(plate) + term(start), term(pitch)),
            Self::Upper { plate, lower, run, pitch } => {
                (term(plate) + term(run) * (term(lower) - term(pitch)), term(pitch))
            }
        }
    }
}

/// Two facing wall lines of a rectangle and the planes that rise from each.
#[derive(Clone, Debug, PartialEq)]
struct Section {
    ends: [Corner; 2],
    low: Vec<Rise>,
    high: Vec<Rise>,
}

impl Section {
    /// Heights at which planes of this section meet or end.
    fn tops(&self, values: &[f64]) -> Vec<Term> {
        let width = distance(self.ends, values);
        let terms =
            |rises: &[Rise]| -> Vec<(Term, Term)> { rises.iter().map(|rise| rise.terms(values)).collect() };
        let (low, high) = (terms(&self.low), terms(&self.high));
        if low.is_empty() || high.is_empty() {
            let alone = low.into_iter().chain(high);
            return alone.map(|(height, slope)| height + slope * width.clone()).collect();
        }
        let pairs = low.iter().flat_map(|one| high.iter().map(move |other| (one, other)));
        pairs.map(|(one, other)| meeting(one, other, &width)).collect()
    }
}

/// Height at which two planes that face each other over a width meet.
fn meeting((h1, m1): &(Term, Term), (h2, m2): &(Term, Term), width: &Term) -> Term {
    let rise = m1.clone() * m2.clone() * width.clone();
    (h1.clone() * m2.clone() + h2.clone() * m1.clone() + rise) / (m1.clone() + m2.clone())
}

/// Distance in plan.
pub(crate) fn distance([from, to]: [Corner; 2], values: &[f64]) -> Term {
    let along = |axis: usize| to[axis].term(values) - from[axis].term(values);
    along(0).hypot(&along(1))
}

/// The ridge of a rectangular block.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Ridge {
    sections: [Section; 2],
}

impl Ridge {
    /// The ridge of a block; none unless it is a rectangle.
    pub(crate) fn of(block: &Block, network: &Network) -> Option<Self> {
        let [edges] = block.edges.as_slice() else { return None };
        let [south, east, north, west] = edges.as_slice() else { return None };
        if [south, east, north, west].map(|edge| edge.side) != Side::COMPASS {
            return None;
        }
        let ends = |other: usize| Some([network.corner(block, 0, 0)?, network.corner(block, 0, other)?]);
        let section = |ends, low, high| {
            let rises = |edge| rises(edge, &block.form, network);
            Section { ends, low: rises(low), high: rises(high) }
        };
        Some(Self { sections: [section(ends(3)?, south, north), section(ends(1)?, west, east)] })
    }

    /// Height above the datum.
    pub(crate) fn height(&self, values: &[f64]) -> Term {
        let tops = self.sections.iter().flat_map(|section| section.tops(values)).collect();
        Term::least(tops).unwrap_or_else(|| Term::held(f64::NAN, values.len())) // a block has a sloping side
    }
}

/// The planes over one wall line.
fn rises(edge: &BlockEdge, form: &Form, network: &Network) -> Vec<Rise> {
    let plate = network.place(Kind::Plate, edge.plate.value.m());
    match (&edge.slope, form) {
        (EdgeSlope::Pitch(_), Form::HipSkirt { ends, .. }) if ends.contains(&edge.side) => Vec::new(),
        (EdgeSlope::Pitch(pitch), Form::Broken { run, upper }) => {
            let lower = network.place(Kind::Pitch, pitch.value.slope());
            let run = network.place(Kind::Break, run.value.m());
            let upper = network.place(Kind::Pitch, upper.value.slope());
            vec![Rise::Plain { plate, pitch: lower }, Rise::Upper { plate, lower, run, pitch: upper }]
        }
        (EdgeSlope::Pitch(pitch), _) => {
            vec![Rise::Plain { plate, pitch: network.place(Kind::Pitch, pitch.value.slope()) }]
        }
        (EdgeSlope::Gable, Form::HalfHip { from, pitch }) => {
            let start = network.place(Kind::Start, from.value.m());
            vec![Rise::Above { plate, start, pitch: network.place(Kind::Pitch, pitch.value.slope()) }]
        }
        (EdgeSlope::Gable, _) => Vec::new(),
    }
}

/// The roof edge over a sloping wall line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Eave {
    plate: Place,
    pitch: Place,
    overhang: Place,
}

impl Eave {
    /// The eave of a side, through `level with` where the overhang says so; none on a side without slope.
    pub(crate) fn of(block: &Block, side: Side, blocks: &[Block], network: &Network) -> Option<Self> {
        Self::followed(block, side, blocks, network, blocks.len())
    }

    fn followed(
        block: &Block,
        side: Side,
        blocks: &[Block],
        network: &Network,
        turns: usize,
    ) -> Option<Self> {
        let edge = sloping(block, side)?;
        let EdgeSlope::Pitch(pitch) = &edge.slope else { return None };
        match &edge.overhang {
            Overhang::Run(run) => Some(Self {
                plate: network.place(Kind::Plate, edge.plate.value.m()),
                pitch: network.place(Kind::Pitch, pitch.value.slope()),
                overhang: network.place(Kind::Overhang, run.value.m()),
            }),
            Overhang::LevelWith { block: name, side, .. } => {
                let other = blocks.iter().find(|block| block.name == *name)?;
                let mut sides = other.edges.iter().flatten().map(|edge| edge.side);
                let side = side.or_else(|| sides.find(|side| sloping(other, *side).is_some()))?;
                Self::followed(other, side, blocks, network, turns.checked_sub(1)?)
            }
        }
    }

    /// Height above the datum.
    pub(crate) fn height(self, values: &[f64]) -> Term {
        self.plate.term(values) - self.pitch.term(values) * self.overhang.term(values)
    }
}

/// A rafter from wall line to ridge.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Rafter {
    ridge: Ridge,
    plate: Place,
    pitch: Place,
    /// Run to the break and pitch above it.
    broken: Option<[Place; 2]>,
}

impl Rafter {
    /// The rafter from a side; none unless the block is a rectangle, the side slopes and its plane reaches the ridge.
    pub(crate) fn of(block: &Block, side: Side, network: &Network) -> Option<Self> {
        let edge = sloping(block, side)?;
        let ridge = Ridge::of(block, network)?;
        let rafter = |plate, pitch, broken| Some(Self { ridge, plate, pitch, broken });
        match *rises(edge, &block.form, network).as_slice() {
            [Rise::Plain { plate, pitch }] => rafter(plate, pitch, None),
            [Rise::Plain { plate, pitch }, Rise::Upper { run, pitch: upper, .. }] => {
                rafter(plate, pitch, Some([run, upper]))
            }
            _ => None,
        }
    }

    /// Length on the slope.
    pub(crate) fn length(&self, values: &[f64]) -> Term {
        let [plate, pitch] = [self.plate, self.pitch].map(|place| place.term(values));
        let ridge = self.ridge.height(values);
        let Some([run, upper]) = self.broken.map(|places| places.map(|place| place.term(values))) else {
            return up(ridge - plate, pitch);
        };
        let lower = run.clone() * pitch.clone().slope_factor();
        lower + up(ridge - plate - run * pitch, upper)
    }
}

/// Length on a slope that rises so far.
fn up(rise: Term, slope: Term) -> Term {
    rise * slope.clone().slope_factor() / slope
}

/// The edge of a side, if a plane rises from it.
fn sloping(block: &Block, side: Side) -> Option<&BlockEdge> {
    let slopes =
        |edge: &&BlockEdge| matches!(&edge.slope, EdgeSlope::Pitch(pitch) if pitch.value.slope() > 0.0);
    block.edges.iter().flatten().find(|edge| edge.side == side).filter(slopes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(plate: f64, pitch: f64) -> Rise {
        Rise::Plain { plate: Place::Held(plate), pitch: Place::Held(pitch) }
    }

    /// A section over so many feet.
    fn section(width: f64, low: Vec<Rise>, high: Vec<Rise>) -> Section {
        let ends = [0.0, width].map(|x| [Place::Held(x), Place::Held(0.0)]);
        Section { ends, low, high }
    }

    fn ridge(across: Section, along: Section) -> Ridge {
        Ridge { sections: [across, along] }
    }

    fn none(width: f64) -> Section {
        section(width, Vec::new(), Vec::new())
    }

    fn check(ridge: &Ridge, wanted: f64) {
        let found = ridge.height(&[]).value;
        assert!((found - wanted).abs() < 1e-12, "{found}, not {wanted}");
    }

    #[test]
    fn a_gable_rises_over_half_its_width() {
        check(&ridge(section(26.0, vec![plain(17.0, 0.5)], vec![plain(17.0, 0.5)]), none(40.0)), 17.0 + 6.5);
    }

    #[test]
    fn unequal_pitches_and_plates_meet_where_the_planes_do() {
        // 8 + t/2 = 10 + (21 - t)/4 at t = 29/3
        check(
            &ridge(section(21.0, vec![plain(8.0, 0.5)], vec![plain(10.0, 0.25)]), none(40.0)),
            8.0 + 29.0 / 6.0,
        );
    }

    #[test]
    fn a_hip_roof_is_topped_by_its_shorter_section() {
        let four = || vec![plain(8.0, 1.0 / 3.0)];
        check(&ridge(section(20.0, four(), four()), section(28.0, Vec::new(), four())), 8.0 + 10.0 / 3.0);
        check(&ridge(section(20.0, four(), four()), section(8.0, Vec::new(), four())), 8.0 + 8.0 / 3.0);
    }

    #[test]
    fn a_shed_ends_at_its_high_wall() {
        check(&ridge(section(8.0, vec![plain(7.25, 0.25)], Vec::new()), none(18.0)), 9.25);
    }

    #[test]
    fn a_gambrel_goes_on_at_its_upper_pitch_above_the_break() {
        let upper = Rise::Upper {
            plate: Place::Held(9.0),
            lower: Place::Held(2.0),
            run: Place::Held(4.0),
            pitch: Place::Held(0.5),
        };
        let side = || vec![plain(9.0, 2.0), upper];
        check(&ridge(section(24.0, side(), side()), none(30.0)), 9.0 + 8.0 + 4.0);
    }

    /// Lengths of common rafters per foot of run as stamped on framing squares: 12.65 in at 4/12, 13.42 at 6/12, 15.00 at 9/12
    /// (published, from memory; square root of 144 and the pitch squared).
    #[test]
    fn rafters_are_as_long_as_the_framing_square_says() {
        for (pitch, per_foot) in [(4.0, 12.65), (6.0, 13.42), (9.0, 15.0), (12.0, 16.97)] {
            let slope = vec![plain(8.0, pitch / 12.0)];
            let ridge = ridge(section(20.0, slope.clone(), slope), none(30.0));
            let rafter =
                Rafter { ridge, plate: Place::Held(8.0), pitch: Place::Held(pitch / 12.0), broken: None };
            let found = rafter.length(&[]).value;
            assert!((found * 12.0 - 10.0 * per_foot).abs() < 0.05, "{pitch}/12: {found}");
        }
    }
}
