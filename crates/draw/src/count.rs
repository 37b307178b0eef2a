//! From measures to counts.

/// The whole number in a value, from 0 to `most`; 0 for what is no number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the range just before"
)]
pub(crate) fn whole(value: f64, most: u32) -> u32 {
    value.clamp(0.0, f64::from(most)) as u32
}

#[cfg(test)]
mod tests {
    use super::whole;

    #[test]
    fn whole_number_is_cut_off_and_kept_in_range() {
        assert_eq!([2.9, -1.0, 1e12, f64::NAN].map(|value| whole(value, 7)), [2, 0, 7, 0]);
    }
}
