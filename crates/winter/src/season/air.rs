//! Air that moves through attics.

/// Air through an attic, kg/s.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Through {
    /// From the rooms.
    pub leak: f64,
    /// From outdoors.
    pub vent: f64,
}

/// Air that passes from one attic to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passing {
    /// The attic it comes from, by number.
    pub from: usize,
    /// The attic it comes to.
    pub to: usize,
    /// kg/s, at least 0.
    pub flow: f64,
}

/// What moves air.
pub trait Airflow: std::fmt::Debug {
    /// Air through each attic at the temperatures of outdoors, rooms and attics, °C, and wind, m/s.
    fn through(&mut self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64], flows: &mut [Through]);

    /// What passed from attic to attic then; a way that is there is told also while nothing passes.
    fn between(&self) -> &[Passing] {
        &[]
    }
}

/// Air that moves alike in every hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Steady(pub Vec<Through>);

impl Airflow for Steady {
    fn through(&mut self, _: f64, _: f64, _: f64, _: &[f64], flows: &mut [Through]) {
        flows.copy_from_slice(&self.0);
    }
}
