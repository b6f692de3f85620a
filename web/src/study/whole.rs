//! What is solved for the whole axle: now, at rest, and along what the curves run over.

use crate::document::place::ROLL;
use crate::document::{Document, Over};
use crate::text::quantity::Quantity;
use kernel::{Linkage, State, Unsolved, Whole, at_rest};

/// The whole axle now and at rest.
pub fn now_and_at_rest(document: &Document, linkage: &Linkage, rest: &State) -> Result<[Whole; 2], Unsolved> {
    let layout = &document.layout;
    let standing = Whole::rest(layout, linkage, rest, document.ride)?;
    let at = [document.roll, document.travel, document.rack];
    Ok([Whole::at(layout, linkage, rest, at, &at_rest(linkage))?, standing])
}

/// Steps of the whole axle's curves, each way: half of one wheel's, since each is two wheels and more.
const WHOLE_STEPS: i32 = 15;

/// The whole axle over travel (`travel` mm each way), rack or roll, where a pinned reading or the choice of roll asks for it.
pub fn along(document: &Document, linkage: &Linkage, rest: &State, travel: f64) -> Vec<(f64, Whole)> {
    let asked = |column: &&'static str| matches!(Quantity::named(column), Some(Quantity::Axle(_)));
    if !document.whole || !(document.over == Over::Roll || document.pinned.iter().any(asked)) {
        return Vec::new();
    }
    let here = [document.roll, document.travel, document.rack];
    let (which, reach) = match document.over {
        Over::Roll => (0, ROLL),
        Over::Travel | Over::TravelUpright => (1, travel),
        Over::Steering => (2, document.rack_travel()),
    };
    let mut guess = at_rest(linkage);
    let step = |i: i32| {
        let mut at = here;
        at[which] = reach * f64::from(i) / f64::from(WHOLE_STEPS);
        let whole = Whole::at(&document.layout, linkage, rest, at, &guess).ok()?;
        guess = [whole.axle.sides[0].state.position, whole.axle.sides[1].state.position];
        Some((at[which], whole))
    };
    (-WHOLE_STEPS..=WHOLE_STEPS).filter_map(step).collect()
}
