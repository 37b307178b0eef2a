//! Long waves from the sky against the published formulas, worked out apart from this code.

use proptest::prelude::*;
use winter::sky::{self, Air, Clear, Clouds, STEFAN_BOLTZMANN, Sky, clark_allen};

fn night(temperature: f64, dew_point: f64) -> Air {
    Air { temperature, dew_point, pressure: 101_325.0, cloud: 0.0, hours: 0.0 }
}

/// Berdahl and Martin 1984, Clark and Allen 1978, Brutsaert 1975, Prata 1996, Brunt 1932 (formulas from memory, closed forms worked out by themselves) at midnight
/// and 1013.25 hPa; emittances to 0.001. Radiation and temperature of the sky at the same relative step.
#[test]
fn clear_skies() {
    let rows = [
        (-10.0, -14.0, [0.6615, 0.747_22, 0.621_15, 0.700_17, 0.6138], [179.87, -35.829]),
        (0.0, -4.0, [0.704_36, 0.776_15, 0.690_86, 0.728_47, 0.658_68], [222.34, -22.914]),
        (20.0, 10.0, [0.788_89, 0.814_89, 0.787_92, 0.792_41, 0.7476], [330.36, 3.1265]),
    ];
    let formulas = [Clear::BerdahlMartin, Clear::ClarkAllen, Clear::Brutsaert, Clear::Prata, Clear::Brunt];
    for (temperature, dew_point, emittances, [down, cold]) in rows {
        let air = night(temperature, dew_point);
        for (formula, wanted) in formulas.into_iter().zip(emittances) {
            let found = formula.emittance(&air);
            assert!((found - wanted).abs() < 0.001, "{formula:?} at {temperature}: {found} for {wanted}");
        }
        let found = Sky::default().down(&air);
        assert!((found - down).abs() < 0.01, "{found} for {down}");
        assert!((sky::temperature(found) - cold).abs() < 0.001);
    }
}

/// The polynomial of Clark and Allen 1978 (from memory), closed form: 1.068 88 at six tenths, 1.154 at ten. To 1e-5.
#[test]
fn clouds_by_the_polynomial() {
    assert!((clark_allen(6.0) - 1.068_88).abs() < 1e-5);
    assert!((clark_allen(10.0) - 1.154).abs() < 1e-5);
}

/// A roof that loses nothing below, at −10 °C under a clear sky that sends 179.868 W/m², film 10 W/(m²·K), emittance 0.9: −16.094 °C by scipy 1.17.1 (`brentq`). To 0.01 K.
#[test]
fn a_roof_at_night_is_colder_than_the_air() {
    let down = Sky::default().down(&night(-10.0, -14.0));
    let into = |t: f64| {
        0.9 * (sky::on(0.0, down, 0.0) - STEFAN_BOLTZMANN * (t + 273.15).powi(4)) + 10.0 * (-10.0 - t)
    };
    let mut range = [-40.0, 0.0];
    for _ in 0..60 {
        let middle = f64::midpoint(range[0], range[1]);
        range[usize::from(into(middle) < 0.0)] = middle;
    }
    assert!((range[0] + 16.094).abs() < 0.01, "{}", range[0]);
}

proptest! {
    #[test]
    fn skies_are_grey_and_clouds_and_vapour_send_more(
        temperature in -45.0..40.0_f64, dry in 0.0..20.0_f64, cloud in 0.0..1.0_f64, hours in 0.0..24.0_f64,
    ) {
        let air = Air { cloud, hours, ..night(temperature, temperature - dry) };
        let wetter = Air { dew_point: temperature - 0.5 * dry, ..air };
        let cloudier = Air { cloud: f64::midpoint(cloud, 1.0), ..air };
        for clear in [Clear::BerdahlMartin, Clear::ClarkAllen, Clear::Brutsaert, Clear::Prata, Clear::Brunt] {
            for clouds in [Clouds::default(), Clouds::ClarkAllen] {
                let sky = Sky { clear, clouds };
                let found = sky.emittance(&air);
                prop_assert!((0.0..=1.0).contains(&found));
                // the parabola of Berdahl and Martin turns at −38 °C of dew point
                prop_assert!(sky.emittance(&wetter) >= found - 1e-12 || air.dew_point < -38.0);
                // the polynomial dips by less than a thousandth between 3.9 and 4.5 tenths
                prop_assert!(sky.emittance(&cloudier) >= found - 1e-3);
            }
        }
        let down = Sky::default().down(&air);
        prop_assert!(sky::temperature(down) <= temperature + 1e-9);
        // upright it sees half of each
        let upright = sky::on(90.0, down, temperature);
        let ground = sky::on(180.0, down, temperature);
        prop_assert!((2.0 * upright - down - ground).abs() < 1e-9);
    }
}
