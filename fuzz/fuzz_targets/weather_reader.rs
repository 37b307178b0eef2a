//! Any bytes read as any weather file: no panic; what reads has the hours of a year, each in the range of weather, and an error names its line.
#![no_main]

use exchange::weather::{epw, normals, tmy3};
use libfuzzer_sys::fuzz_target;
use winter::weather::Weather;

fn is_sound(weather: &Weather) {
    assert_eq!(weather.hours.len(), 8760);
    for hour in &weather.hours {
        assert!(hour.temperature.is_finite() && hour.wind >= 0.0 && hour.pressure > 0.0);
        assert!(hour.snow >= 0.0 && hour.rain >= 0.0 && hour.vapour() >= 0.0);
    }
}

fuzz_target!(|bytes: &[u8]| {
    for read in [epw(bytes, None), tmy3(bytes, None)] {
        match read {
            Ok(weather) => is_sound(&weather),
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    }
    match normals(bytes) {
        Ok(normals) => {
            if let Ok(weather) = normals.year(1) {
                is_sound(&weather);
            }
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
});
