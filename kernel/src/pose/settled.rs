//! A side as it is built: where its wheel comes to rest.

use super::newton::newton;
use super::{Demand, Guess, MOST_STEPS, Position, SMALLEST_STEP, Unsolved, same_branch};
use crate::layout::{Built, Layout};
use crate::linkage::Linkage;

/// The linkage of one side as it is built, settled at its own rest: travel 0 and rack 0, where the straight way from the design leads, all changes
/// growing together. `design` is the layout's own linkage. Without changes it is the design's, to the last digit.
pub fn settled(design: &Linkage, layout: &Layout, built: &Built) -> Result<Linkage, Unsolved> {
    if built.is_design() {
        return Ok(design.clone());
    }
    let demand = Demand::new(0.0, 0.0);
    let (mut here, mut done, mut step) = (design.clone(), 0.0, 1.0);
    for _ in 0..MOST_STEPS {
        let next: f64 = f64::min(done + step, 1.0);
        let part = if next == 1.0 { built.clone() } else { built.part(layout, next) };
        let mut linkage = design.stretched(&part);
        let guess = Position { pose: linkage.with_gauge_at(&here, &here.rest()), rack: 0.0 };
        match newton(&linkage, &demand, &Guess::from(&guess)) {
            Some(solved) if same_branch(&linkage, &solved) => {
                linkage.settle(solved.position.pose);
                if next == 1.0 {
                    return Ok(linkage);
                }
                (here, done, step) = (linkage, next, 2.0 * step);
            }
            _ => step /= 2.0,
        }
        if step < SMALLEST_STEP {
            break;
        }
    }
    let linkage = design.stretched(built);
    let nearest = Position { pose: linkage.with_gauge_at(&here, &here.rest()), rack: 0.0 };
    Err(Unsolved { as_built: true, ..Unsolved::out_of_reach(&linkage, demand, demand, nearest) })
}
