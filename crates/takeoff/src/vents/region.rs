//! Which part of the plan a space lies under: its own rectangle of the blocks, or what no other space has a rectangle of.

use job::{Attic, Job};
use measure::Area;
use roof::plan::{P2, between, clip};

type Rectangle = [P2; 2];

/// The part of its blocks a space lies under.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Region {
    own: Option<Rectangle>,
    others: Vec<Rectangle>,
}

impl Region {
    /// Of a space of a job.
    pub fn of(job: &Job, attic: &Attic) -> Self {
        let is_beside = |other: &&Attic| {
            other.name != attic.name && other.under.iter().any(|block| attic.under.contains(block))
        };
        let others = || job.attics.iter().filter(is_beside).filter_map(|other| other.part).collect();
        Self { own: attic.part, others: if attic.part.is_some() { Vec::new() } else { others() } }
    }

    /// Whether a point in plan lies in it.
    pub fn holds(&self, p: P2) -> bool {
        let is_in = |[from, to]: &Rectangle| (0..2).all(|axis| from[axis] <= p[axis] && p[axis] <= to[axis]);
        self.own.as_ref().is_none_or(is_in) && !self.others.iter().any(is_in)
    }

    /// How much of a line lies in it, 0 to 1.
    pub fn share(&self, a: P2, b: P2) -> f64 {
        if let Some(own) = &self.own {
            let [from, to] = stretch(own, a, b);
            return to - from;
        }
        let mut taken: Vec<[f64; 2]> = self.others.iter().map(|other| stretch(other, a, b)).collect();
        taken.sort_by(|one, other| one[0].total_cmp(&other[0]));
        let (mut left, mut up_to) = (1.0, 0.0_f64);
        for [from, to] in taken {
            left -= (to - from.max(up_to)).max(0.0);
            up_to = up_to.max(to);
        }
        left
    }

    /// Area of a polygon that lies in it.
    pub fn area(&self, polygon: &[P2]) -> Area {
        if let Some(own) = &self.own {
            return inside(polygon, own);
        }
        let taken: Area = self.others.iter().map(|other| inside(polygon, other)).sum();
        (crate::plan::area(polygon) - taken).max(Area::ZERO)
    }
}

/// Where a line from `a` to `b` runs inside a rectangle, as shares of it; from 0 to 0 where it does not.
fn stretch([from, to]: &Rectangle, a: P2, b: P2) -> [f64; 2] {
    let mut all = [0.0_f64, 1.0_f64];
    for axis in 0..2 {
        let run = b[axis] - a[axis];
        let [low, high] = [from[axis] - a[axis], to[axis] - a[axis]];
        if run.abs() < f64::EPSILON {
            if low > 0.0 || high < 0.0 {
                return [0.0; 2];
            }
            continue;
        }
        let (enters, leaves) = if run > 0.0 { (low / run, high / run) } else { (high / run, low / run) };
        all = [all[0].max(enters), all[1].min(leaves)];
    }
    if all[1] > all[0] { all } else { [0.0; 2] }
}

/// Area of a polygon inside a rectangle; what `clip` leaves of one that is not convex joins along lines without area.
fn inside(polygon: &[P2], [from, to]: &Rectangle) -> Area {
    let kept = (0..2).fold(polygon.to_vec(), |kept, axis| {
        let beyond = clip(&kept, |p| p[axis] - from[axis]);
        clip(&beyond, |p| to[axis] - p[axis])
    });
    crate::plan::area(&kept)
}

/// The part of a line without a length at each of its ends.
pub(crate) fn trimmed(a: P2, b: P2, [from, to]: [f64; 2]) -> [P2; 2] {
    [between(a, b, from), between(a, b, 1.0 - to)]
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const BLOCK: [P2; 4] = [[0.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]];

    fn spaces(rectangle: Rectangle) -> [Region; 2] {
        let own = Region { own: Some(rectangle), others: Vec::new() };
        [own, Region { own: None, others: vec![rectangle] }]
    }

    #[test]
    fn an_eave_of_10_m_lies_6_m_over_one_space_and_4_m_over_the_other() {
        let [own, rest] = spaces([[6.0, -1.0], [12.0, 9.0]]);
        assert!((own.share([0.0, 0.0], [10.0, 0.0]) - 0.4).abs() < 1e-12);
        assert!((rest.share([10.0, 0.0], [0.0, 0.0]) - 0.6).abs() < 1e-12);
        assert!(
            (own.area(&BLOCK).m2() - 32.0).abs() < 1e-12 && own.holds([7.0, 1.0]) && !rest.holds([7.0, 1.0])
        );
        let whole = Region::default();
        assert!((whole.share([0.0, 0.0], [10.0, 0.0]) - 1.0).abs() < 1e-12 && whole.holds([99.0, 0.0]));
    }

    proptest! {
        /// A space and the rest beside it have every line and every area between them.
        #[test]
        fn two_spaces_are_the_whole(
            x in -2.0..9.0_f64, y in -2.0..7.0_f64, wide in 0.1..9.0_f64, deep in 0.1..9.0_f64,
            a in prop::array::uniform2(-1.0..11.0_f64), b in prop::array::uniform2(-1.0..11.0_f64),
        ) {
            let [own, rest] = spaces([[x, y], [x + wide, y + deep]]);
            prop_assert!((own.share(a, b) + rest.share(a, b) - 1.0).abs() < 1e-9);
            prop_assert!(((own.area(&BLOCK) + rest.area(&BLOCK)).m2() - 80.0).abs() < 1e-9);
            prop_assert!(own.holds(a) != rest.holds(a));
        }
    }
}
