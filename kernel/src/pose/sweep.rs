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
