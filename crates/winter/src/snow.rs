//! Properties of snow.

/// Specific heat of ice, J/(kg·K).
pub const ICE_HEAT: f64 = 2100.0;
/// Heat that melts ice, J/kg.
pub const FUSION: f64 = 333_550.0;
