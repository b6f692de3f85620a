//! A row of demands, each solved from the pose before it.

use super::{Demand, Position, Solved, Unsolved, solve};
use crate::linkage::Linkage;

/// Solves demand after demand; the first from rest, each further one from the pose before it. A demand that cannot be met
/// yields its report, and the next starts from the last good pose.
pub fn sweep<'a>(
    linkage: &'a Linkage,
    demands: impl IntoIterator<Item = Demand> + 'a,
) -> impl Iterator<Item = Result<Solved, Unsolved>> + 'a {
    let mut guess = Position { pose: linkage.rest(), rack: 0.0 };
    demands.into_iter().map(move |demand| {
        let solved = solve(linkage, demand, &guess)?;
        guess = solved.position;
        Ok(solved)
    })
}

/// More values than this in one range are refused: a slipped decimal point in the step, not a wish.
const MOST_VALUES: f64 = 100_000.0;

/// The values from one end to the other, both included where the step meets them; the step's sign is of no account.
/// The error completes a sentence about the range.
pub fn range(from: f64, to: f64, step: f64) -> Result<Vec<f64>, String> {
    if !(from.is_finite() && to.is_finite() && step.is_finite() && step != 0.0) {
        return Err("needs two numbers and a step that is not 0".into());
    }
    // A millionth of a step forgives the rounding of ends such as 0.3/0.1.
    let steps = ((to - from).abs() / step.abs() + 1e-6).floor();
    if steps >= MOST_VALUES {
        return Err(format!("makes more than {MOST_VALUES} values"));
    }
    // To the nanometre, so that 0.1 three times is 0.3.
    let value = |i: usize| from + (to - from).signum() * step.abs() * i as f64;
    Ok((0..=steps as usize).map(|i| (value(i) * 1e9).round() / 1e9).collect())
}
