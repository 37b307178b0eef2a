//! Where nothing is left.

/// Bounds this near to each other, K, have nothing between them.
const SHUT: f64 = 1e-6;

/// The search for a temperature at which an attic is left with no heat.
#[derive(Clone, Copy, Debug)]
pub(super) struct Search {
    /// Temperatures between which it lies.
    bounds: [f64; 2],
    /// The last one tried, and what was left there.
    last: Option<[f64; 2]>,
    /// How many times the slope that is known the true one was: air quickens much alike from hour to hour.
    steeper: f64,
}

impl Default for Search {
    fn default() -> Self {
        Self { bounds: [f64::NEG_INFINITY, f64::INFINITY], last: None, steeper: 1.0 }
    }
}

impl Search {
    /// A new search that has learnt from this one.
    pub(super) fn anew(self) -> Self {
        Self { steeper: self.steeper, ..Self::default() }
    }

    /// Where to look next: by the line through the last two, which has in it how air quickens, or by the slope that is known; halfway between the bounds
    /// where that leads out of them, or has led on long enough.
    pub(super) fn next(&mut self, at: f64, left: f64, slope: f64, may_lead: bool) -> f64 {
        let secant = self.last.map(|[other, over]| (over - left) / (at - other));
        let likely = secant.filter(|secant| *secant > 0.2 * slope && *secant < 20.0 * slope);
        self.steeper = likely.map_or(self.steeper, |secant| secant / slope);
        let slope = slope * self.steeper;
        self.last = Some([at, left]);
        self.led(at, left, at + left / slope, may_lead)
    }

    /// The place it is led to, where that lies within the bounds.
    pub(super) fn led(&mut self, at: f64, left: f64, next: f64, may_lead: bool) -> f64 {
        if self.bounds[1] - self.bounds[0] < SHUT {
            // one that was found beside others, which have moved since
            *self = self.anew();
        }
        self.bounds[usize::from(left <= 0.0)] = at;
        let is_in = may_lead && next > self.bounds[0] && next < self.bounds[1];
        if is_in || self.bounds.iter().any(|end| end.is_infinite()) {
            next
        } else {
            f64::midpoint(self.bounds[0], self.bounds[1])
        }
    }
}
