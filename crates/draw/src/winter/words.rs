//! Amounts of a winter as papers write them, rounded to what is known of them.

use job::Units;
use study::winter::FREEZING_AIR;

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// A temperature, °C.
    Temperature,
    /// Ice on an eave, kg/m.
    Ice,
    /// Water, kg.
    Water,
    /// Air, kg/s.
    Air,
    /// Depth of snow, m.
    Depth,
    /// Water that falls as snow, kg/m².
    Fall,
    /// Heat, kWh.
    Heat,
    /// Days.
    Days,
}

impl Quantity {
    /// A value in the unit it is written in.
    pub fn shown(self, value: f64, units: Units) -> f64 {
        match (self, units) {
            (Self::Temperature, Units::Us) => value * 1.8 + 32.0,
            (Self::Ice, Units::Us) => value * 0.671_969,
            (Self::Water, Units::Us) => value * 0.264_172,
            (Self::Air, Units::Us) => value / FREEZING_AIR * 2118.88,
            (Self::Air, Units::Si) => value / FREEZING_AIR * 1000.0,
            (Self::Depth, Units::Us) => value / 0.0254,
            (Self::Depth, Units::Si) => value * 100.0,
            (Self::Fall, Units::Us) => value / 25.4,
            _ => value,
        }
    }

    /// That unit.
    pub const fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Self::Temperature, Units::Us) => "°F",
            (Self::Temperature, Units::Si) => "°C",
            (Self::Ice, Units::Us) => "lb/ft",
            (Self::Ice, Units::Si) => "kg/m",
            (Self::Water, Units::Us) => "gal",
            (Self::Water, Units::Si) => "L",
            (Self::Air, Units::Us) => "cfm",
            (Self::Air, Units::Si) => "L/s",
            (Self::Depth, Units::Us) => "in",
            (Self::Depth, Units::Si) => "cm",
            (Self::Fall, Units::Us) => "in of water",
            (Self::Fall, Units::Si) => "mm of water",
            (Self::Heat, _) => "kWh",
            (Self::Days, _) => "days",
        }
    }
}

/// A value with its unit, to two or three figures.
pub fn written(quantity: Quantity, value: f64, units: Units) -> String {
    format!("{} {}", number(quantity, value, units), quantity.unit(units))
}

/// A value without its unit.
pub fn number(quantity: Quantity, value: f64, units: Units) -> String {
    let shown = quantity.shown(value, units);
    // a degree Celsius is nearly two of Fahrenheit
    let is_whole = quantity == Quantity::Temperature && units == Units::Us;
    let is_fine = quantity == Quantity::Temperature && units == Units::Si;
    let text = if is_whole || shown.abs() >= 9.95 && !is_fine {
        format!("{shown:.0}")
    } else {
        format!("{shown:.1}")
    };
    if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') { "0".into() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_written_in_the_units_of_the_job() {
        // 12 kg/m · 2.20462 lb/kg · 0.3048 m/ft; 231 kg at 3.78541 kg a gallon
        assert_eq!(written(Quantity::Ice, 12.0, Units::Us), "8.1 lb/ft");
        assert_eq!(written(Quantity::Temperature, -50.0 / 9.0, Units::Si), "-5.6 °C");
        assert_eq!(written(Quantity::Water, 231.0, Units::Us), "61 gal");
        assert_eq!(written(Quantity::Temperature, -50.0 / 9.0, Units::Us), "22 °F");
        assert_eq!(written(Quantity::Water, 0.04, Units::Si), "0 L");
    }
}
