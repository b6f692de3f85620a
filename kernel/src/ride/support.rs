//! Support: what the guides carry of braking's and driving's load transfer past the springs.

use crate::layout::Vehicle;

/// Anti-dive, or what a drive force lifts, in percent of what would hold the body level: share · tangent · wheelbase/height · 100.
/// `share` is the front axle's share of the force. Positive: against the dive or the lift.
pub fn support(share: f64, tangent: f64, vehicle: &Vehicle) -> f64 {
    share * tangent * vehicle.wheelbase / vehicle.cg_height.max(f64::MIN_POSITIVE) * 100.0
}
