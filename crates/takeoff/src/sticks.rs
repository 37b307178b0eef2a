//! Straight pieces laid end to end: how many a run takes, and how many many runs take when offcuts are used again.
//!
//! # Formula
//! One run: 1 up to a piece's length, then one more for each length less lap; that is ceil((run − lap) / (piece − lap)).
//! Many runs: each run takes its whole pieces and a last one cut to fit; the last ones are cut from as few pieces as first-fit
//! by falling length finds.
//! # Bound
//! First-fit decreasing takes at most 11/9 of the fewest pieces and 6/9 of a piece more (Dósa 2007, published, from
//! memory); never more than run by run.
//! # Determinism
//! Equal lengths are cut in the order of the runs; the count does not depend on it.

use book::Stick;
use measure::Length;

use crate::line::packages;

/// A length that is rounding of the arithmetic, not need.
pub(crate) const HAIR: Length = Length::from_m(1e-9);

/// Pieces of one run.
pub(crate) fn pieces(run: Length, stick: &Stick) -> u64 {
    packages((run - *stick.lap).m(), (*stick.length - *stick.lap).m()).max(u64::from(run > Length::ZERO))
}

/// Pieces of many runs, each by itself.
pub(crate) fn pieces_by_run(runs: &[Length], stick: &Stick) -> u64 {
    runs.iter().map(|run| pieces(*run, stick)).sum()
}

/// Pieces of many runs, offcuts of one used in another.
pub(crate) fn pieces_pooled(runs: &[Length], stick: &Stick) -> u64 {
    let runs = runs.iter().copied().filter(|run| *run > Length::ZERO);
    let (mut whole, mut last) = (0, Vec::new());
    for run in runs {
        let before = pieces(run, stick).saturating_sub(1);
        whole += before;
        last.push(run - (*stick.length - *stick.lap) * (before as f64));
    }
    whole + cut_from(last, *stick.length)
}

/// Pieces from which all the lengths can be cut, first-fit by falling length.
fn cut_from(mut lengths: Vec<Length>, piece: Length) -> u64 {
    lengths.sort_by(|a, b| b.m().total_cmp(&a.m()));
    let mut left: Vec<Length> = Vec::new();
    for length in lengths {
        match left.iter_mut().find(|rest| **rest >= length - HAIR) {
            Some(rest) => *rest -= length,
            None => left.push((piece - length).max(Length::ZERO)),
        }
    }
    left.len() as u64
}

#[cfg(test)]
mod tests {
    use book::Book;

    use super::*;

    fn stick(id: &str) -> Stick {
        Book::builtin().package(id).unwrap().stick().unwrap().clone()
    }

    fn ft(feet: &[f64]) -> Vec<Length> {
        feet.iter().copied().map(Length::from_ft).collect()
    }

    /// Source: trade rule, worked: a 42 ft eave in 10 ft pieces with 2 in laps takes 5.
    #[test]
    fn a_42_ft_eave_takes_5_pieces_of_10_ft() {
        assert_eq!(pieces(Length::from_ft(42.0), &stick("drip-edge")), 5);
    }

    #[test]
    fn a_run_as_long_as_its_pieces_less_laps_takes_no_piece_more() {
        let drip = stick("drip-edge");
        let two = Length::from_ft(20.0) - Length::from_in(2.0);
        assert_eq!(pieces(Length::from_ft(10.0), &drip), 1);
        assert_eq!(pieces(two, &drip), 2);
        assert_eq!(pieces(two + Length::from_in(0.1), &drip), 3);
        assert_eq!(pieces(Length::from_in(1.0), &drip), 1);
        assert_eq!(pieces(Length::ZERO, &drip), 0);
    }

    #[test]
    fn offcuts_of_one_run_serve_another() {
        let vent = stick("ridge-vent");
        assert_eq!(pieces_by_run(&ft(&[5.0, 5.0, 5.0]), &vent), 6);
        assert_eq!(pieces_pooled(&ft(&[5.0, 5.0, 5.0]), &vent), 4);
        assert_eq!(pieces_pooled(&ft(&[2.0, 2.0]), &vent), 1);
        assert_eq!(pieces_pooled(&[], &vent), 0);
    }

    #[test]
    fn an_offcut_that_just_fits_is_used() {
        let third = Length::from_ft(10.0) / 3.0;
        assert_eq!(cut_from(vec![third; 6], Length::from_ft(10.0)), 2);
    }

    #[test]
    fn whole_pieces_have_no_offcuts() {
        assert_eq!(pieces_pooled(&ft(&[4.0, 8.0, 12.0]), &stick("ridge-vent")), 6);
    }
}
