//! A row of demands, each solved from the pose before it.

use super::newton::REACH;
use super::{Demand, Guess, Position, Solved, Unsolved, foreseen, solve, walk};
use crate::linkage::Linkage;

/// Solves demand after demand, each as if alone, and says of each whether it is connected with the row before it. A demand that
/// cannot be met yields its report and is passed over.
pub fn sweep<'a>(
    linkage: &'a Linkage,
    demands: impl IntoIterator<Item = Demand> + 'a,
) -> impl Iterator<Item = Result<Solved, Unsolved>> + 'a {
    let mut before = Guess::at_rest(linkage);
    demands.into_iter().map(move |demand| {
        let mut solved = solve(linkage, demand, before)?;
        let from = &before.position;
        // Without motions it is rest, from which every row is found.
        solved.connected = before.motions.is_none_or(|motions| {
            foreseen(from, &motions, &solved.position) || leads_to(linkage, from, &demand, &solved.position)
        });
        before = before.then(solved.position, solved.motions());
        Ok(solved)
    })
}

/// The steps from row to row, as part of the way, where it is in doubt whether the one leads to the other.
const SHORT: f64 = 1.0 / 16.0;

/// Positions of one demand nearer than this, mm, are one: rounding leaves a millionth, other branches lie millimetres away.
const SAME: f64 = 1e-3;

/// True if the straight way to a demand, in short steps, ends in this position.
fn leads_to(linkage: &Linkage, from: &Position, demand: &Demand, to: &Position) -> bool {
    walk(linkage, from, demand, SHORT).is_ok_and(|there| {
        let there = there.position.pose;
        (there.w - to.pose.w).norm() + REACH * there.r.angle_to(&to.pose.r) < SAME
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
