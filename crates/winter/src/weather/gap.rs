//! Holes in a row of readings.

/// Fills each hole of up to so many hours along a straight line between its ends, from the last hour of the year on to the first; gives back how many hours it filled.
pub(super) fn bridge(values: &mut [Option<f64>], longest: usize) -> Vec<usize> {
    let count = values.len();
    let Some(start) = values.iter().position(Option::is_some) else { return Vec::new() };
    let mut filled = Vec::new();
    let mut last = start;
    for step in 1..=count {
        let here = (start + step) % count;
        let (Some(before), Some(after)) = (values[last], values[here]) else { continue };
        let hole = (here + count - last - 1) % count;
        if hole <= longest {
            for k in 1..=hole {
                let at = (last + k) % count;
                values[at] = Some(before + (after - before) * k as f64 / (hole + 1) as f64);
                filled.push(at);
            }
        }
        last = here;
    }
    filled
}

/// The longest run of hours without a value, around the turn of the year too, and where it begins.
pub(super) fn longest(values: &[Option<f64>]) -> (usize, usize) {
    let count = values.len();
    let Some(start) = values.iter().position(Option::is_some) else { return (0, count) };
    let mut longest = (0, 0);
    let mut run = 0;
    for step in 1..=count {
        let here = (start + step) % count;
        if values[here].is_some() {
            if run > longest.1 {
                longest = ((here + count - run) % count, run);
            }
            run = 0;
        } else {
            run += 1;
        }
    }
    longest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_holes_are_bridged_and_long_ones_stay() {
        let mut values = vec![None, Some(1.0), None, Some(3.0), None, None, None, Some(0.0), None];
        let filled = bridge(&mut values, 2);
        assert_eq!(filled.len(), 3);
        assert_eq!(values[2], Some(2.0));
        // the hole around the turn of the year: from 0 at index 7 over 8 and 0 to 1 at index 1
        assert!(
            (values[8].unwrap() - 1.0 / 3.0).abs() < 1e-12 && (values[0].unwrap() - 2.0 / 3.0).abs() < 1e-12
        );
        assert_eq!(values[5], None);
        assert_eq!(longest(&values), (4, 3));
    }

    #[test]
    fn nothing_read_stays_nothing_and_one_value_does_not_go_round() {
        assert!(bridge(&mut [None, None], 5).is_empty());
        let mut one = [None, Some(4.0), None];
        assert_eq!(bridge(&mut one, 5).len(), 2);
        assert_eq!(one, [Some(4.0); 3]);
        assert_eq!(longest(&[None, None]), (0, 2));
    }
}
