//! Attics whose air passes from one to another are sought together.
//!
//! One by one they would creep toward each other the more slowly the more air passes, and bounds found for one would not hold once the other has moved. With all air
//! held as it is, what each is left with is a straight line in all of them: solved for all at once, then the air is asked again.

use heat::air::SPECIFIC_HEAT;

use super::{FINE, HALVED, Hour, PASSES, Season};

impl Season<'_> {
    /// Attics at which nothing would be left, air and all, if their strips went on along the slopes of the last pass; half the way there where that has led
    /// on long enough.
    pub(super) fn seek_together(&mut self, hour: &Hour, may_lead: bool) {
        let from = self.attics.clone();
        for turn in 0..PASSES {
            let steps = self.steps(&from, hour);
            // air that turns round at an opening may lead to and fro
            let share = match turn {
                0..HALVED => 1.0,
                _ if turn < 3 * HALVED => 0.5,
                _ => 0.25,
            };
            self.attics.iter_mut().zip(&steps).for_each(|(at, step)| *at += share * step);
            self.move_air(hour);
            if steps.iter().all(|step| step.abs() < FINE) {
                break;
            }
        }
        if !may_lead {
            self.attics.iter_mut().zip(&from).for_each(|(at, from)| *at = f64::midpoint(*at, *from));
            self.move_air(hour);
        }
    }

    /// How far each attic is from there, K, with the air as it is.
    fn steps(&self, from: &[f64], hour: &Hour) -> Vec<f64> {
        let count = self.attics.len();
        let mut rows: Vec<Vec<f64>> = (0..count).map(|_| vec![0.0; count + 1]).collect();
        for (i, row) in rows.iter_mut().enumerate() {
            let (left, slope) = self.left_over(i, from[i], hour);
            (row[i], row[count]) = (slope, left);
        }
        for passing in self.air.between() {
            let carries = passing.flow * SPECIFIC_HEAT;
            rows[passing.to][passing.to] += carries;
            rows[passing.to][passing.from] -= carries;
        }
        solved(rows)
    }
}

/// A few equations, each with its right side last. What stands on the diagonal outweighs the rest of its row, so that none needs to change places.
fn solved(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let count = rows.len();
    for i in 0..count {
        let (done, open) = rows.split_at_mut(i + 1);
        let pivot = &done[i];
        for row in open {
            let share = row[i] / pivot[i];
            row.iter_mut().zip(pivot).for_each(|(number, above)| *number -= share * above);
        }
    }
    let mut found = vec![0.0; count];
    for i in (0..count).rev() {
        let known: f64 = (i + 1..count).map(|j| rows[i][j] * found[j]).sum();
        found[i] = (rows[i][count] - known) / rows[i][i];
    }
    found
}
