//! How wide a flow is on paper.

use job::Units;
use measure::{Area, Flow, RainRate};

/// Least width of a stream, mm.
const LEAST: f64 = 0.35;

/// Widths of flows, all in proportion.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gauge {
    rain: RainRate,
    units: Units,
    /// For one of the units that flows are written in.
    mm: f64,
}

impl Gauge {
    /// With which the largest of some flows is so wide.
    pub(super) fn new(
        rain: RainRate,
        units: Units,
        flows: impl Iterator<Item = Area>,
        widest_mm: f64,
    ) -> Self {
        let unsized_ = Self { rain, units, mm: 1.0 };
        let largest = flows.map(|flow| unsized_.value(flow)).fold(0.0, f64::max);
        Self { mm: if largest > 0.0 { widest_mm / largest } else { 1.0 }, ..unsized_ }
    }

    /// Units amounts are written in.
    pub(super) fn units(&self) -> Units {
        self.units
    }

    /// Width on paper.
    pub(super) fn width(&self, catchment: Area) -> f64 {
        (self.value(catchment) * self.mm).max(LEAST)
    }

    pub(super) fn told(&self, catchment: Area) -> String {
        self.units.water(self.rain * catchment)
    }

    /// Whether it is written as more than nothing.
    pub(super) fn is_told(&self, catchment: Area) -> bool {
        self.value(catchment) >= 0.005
    }

    fn value(&self, catchment: Area) -> f64 {
        counted(self.rain * catchment, self.units)
    }

    /// Round flows for a legend, from the largest that does not pass a width, each with its own.
    pub(super) fn samples(&self, widest_mm: f64) -> Vec<(f64, String)> {
        let rounds = (-2..5).flat_map(|power| [1.0, 2.0, 5.0].map(|step| step * 10f64.powi(power)));
        let mut fitting: Vec<f64> = rounds.filter(|value| value * self.mm <= widest_mm * 1.001).collect();
        let skipped = fitting.len().saturating_sub(3);
        fitting.drain(..skipped);
        let told = |value: f64| match self.units {
            Units::Us => format!("{value} gpm"),
            Units::Si => format!("{value} L/s"),
        };
        fitting.into_iter().map(|value| ((value * self.mm).max(LEAST), told(value))).collect()
    }
}

/// A flow in the unit it is written in.
pub(super) fn counted(flow: Flow, units: Units) -> f64 {
    match units {
        Units::Us => flow.gpm(),
        Units::Si => flow.l_s(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 in/h on 96.25 ft² is 1 gpm: 231 in³ to the gallon, 60 min to the hour, 144 in² to the square foot.
    #[test]
    fn widths_are_in_proportion_and_the_largest_is_as_wide_as_asked() {
        let flows = [96.25, 385.0].map(Area::from_ft2);
        let gauge = Gauge::new(RainRate::from_in_per_h(6.0), Units::Us, flows.into_iter(), 4.0);
        assert!((gauge.width(flows[1]) - 4.0).abs() < 1e-9 && (gauge.width(flows[0]) - 1.0).abs() < 1e-9);
        assert_eq!(gauge.told(flows[0]), "6.00 gpm");
        let samples = gauge.samples(4.0);
        assert_eq!(
            samples.iter().map(|(_, words)| words.as_str()).collect::<Vec<_>>(),
            ["5 gpm", "10 gpm", "20 gpm"]
        );
        assert!((samples[2].0 - 20.0 / 6.0).abs() < 1e-9);
    }
}
