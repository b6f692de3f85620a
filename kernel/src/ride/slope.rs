//! How fast something changes as the wheel travels.

use crate::linkage::Linkage;
use crate::pose::Demand;
use crate::state::State;

/// Step of travel, mm.
const STEP: f64 = 0.5;

/// How fast something changes with travel, per mm, at the state's rack: from solved states at ±h, ±2h, extrapolated (Richardson).
pub(super) fn slope(linkage: &Linkage, state: &State, of: impl Fn(&State) -> Option<f64>) -> Option<f64> {
    let value = |step: f64| {
        let demand = Demand::new(state.travel + step, state.position.rack);
        of(&State::solve(linkage, demand, &state.position).ok()?)
    };
    let slope = |h: f64| Some((value(h)? - value(-h)?) / (2.0 * h));
    let (fine, coarse) = (slope(STEP)?, slope(2.0 * STEP)?);
    Some(fine + (fine - coarse) / 3.0)
}
