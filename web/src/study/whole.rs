//! What is solved for the whole axle: now, at rest, and along what the curves run over.

use crate::document::place::ROLL;
use crate::document::{Document, Over};
use crate::text::quantity::Quantity;
use kernel::{Axle, Stance, Unsolved, Whole};
use std::rc::Rc;

/// The whole axle now and at rest.
pub fn now_and_at_rest(document: &Document, axle: &Rc<Axle>) -> Result<[Whole; 2], Unsolved> {
    Ok([Whole::at(axle, stance(document), &axle.at_rest())?, Whole::standing(axle)?])
}

fn stance(document: &Document) -> Stance {
    Stance { roll: document.roll, travel: document.travel, rack: document.rack }
}

/// Steps of the whole axle's curves, each way: half of one wheel's, since each is two wheels and more.
const WHOLE_STEPS: i32 = 15;

/// The whole axle over travel (`travel` mm each way), rack or roll, where a pinned reading or the choice of roll asks for it.
pub fn along(document: &Document, axle: &Rc<Axle>, travel: f64) -> Vec<(f64, Whole)> {
    let asked = |column: &&'static str| matches!(Quantity::named(column), Some(Quantity::Axle(_)));
    if !document.whole || !(document.over == Over::Roll || document.pinned.iter().any(asked)) {
        return Vec::new();
    }
    let here = stance(document);
    let (reach, put): (f64, fn(Stance, f64) -> Stance) = match document.over {
        Over::Roll => (ROLL, |here, roll| Stance { roll, ..here }),
        Over::Travel | Over::TravelUpright => (travel, |here, travel| Stance { travel, ..here }),
        Over::Steering => (document.rack_travel(), |here, rack| Stance { rack, ..here }),
    };
    let mut guess = axle.at_rest();
    let step = |i: i32| {
        let at = reach * f64::from(i) / f64::from(WHOLE_STEPS);
        let whole = Whole::at(axle, put(here, at), &guess).ok()?;
        guess = whole.axle.sides.each_ref().map(|side| side.state.position);
        Some((at, whole))
    };
    (-WHOLE_STEPS..=WHOLE_STEPS).filter_map(step).collect()
}
