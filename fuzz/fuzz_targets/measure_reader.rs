//! Any text read as any quantity: no panic, nothing that is not a number, and what is read can be written and read again.
#![no_main]

use libfuzzer_sys::fuzz_target;
use measure::{Area, Flow, Fraction, Length, Load, Money, Pitch, Pressure, RValue, RainRate, Temperature, UValue, Volume};

fuzz_target!(|text: &str| {
    if let Ok(length) = text.parse::<Length>() {
        assert!(length.m().is_finite());
        let written = length.trade(Fraction::Sixteenth).to_string();
        let again: Length = written.parse().expect("what is written can be read");
        assert_eq!(again.trade(Fraction::Sixteenth).to_string(), written);
    }
    if let Ok(pitch) = text.parse::<Pitch>() {
        assert!(pitch.slope().is_finite() && pitch.slope() >= 0.0);
    }
    for value in [
        text.parse::<Area>().map(|v| v.m2()),
        text.parse::<Volume>().map(|v| v.m3()),
        text.parse::<Load>().map(|v| v.pa()),
        text.parse::<Pressure>().map(|v| v.pa()),
        text.parse::<RValue>().map(|v| v.si()),
        text.parse::<UValue>().map(|v| v.si()),
        text.parse::<Flow>().map(|v| v.cfm()),
        text.parse::<RainRate>().map(|v| v.in_per_h()),
        text.parse::<Temperature>().map(|v| v.k()),
    ] {
        match value {
            Ok(value) => assert!(value.is_finite()),
            Err(error) => assert!(!error.to_string().is_empty() && error.at().end <= text.len()),
        }
    }
    let _money = text.parse::<Money>();
});
