//! What is solved for the whole axle: now, at rest, and along what the curves run over.

use crate::document::place::ROLL;
use crate::document::{Document, Over};
use kernel::{Axle, Guess, Reading, Stance, Subject, Unsolved, Whole};
use std::rc::Rc;

/// The whole axle now and at rest.
pub fn now_and_at_rest(document: &Document, axle: &Rc<Axle>) -> Result<[Whole; 2], Unsolved> {
    Ok([Whole::at(axle, stance(document), &axle.at_rest())?, Whole::standing(axle)?])
}

fn stance(document: &Document) -> Stance {
    Stance { roll: document.roll, travel: document.travel, rack: document.rack }
}

/// What the whole axle's curves run along.
pub struct Along {
    /// A pinned reading or the choice of roll asks for them.
    asked: bool,
    over: Over,
    here: Stance,
    /// How far they go each way.
    reach: f64,
}

impl Along {
    /// What a document asks for; over travel they go so many mm each way.
    pub fn of(document: &Document, travel: f64) -> Along {
        let of_axle = |column: &&str| Reading::named(column).is_some_and(|reading| reading.subject() == Subject::Axle);
        Along {
            asked: document.whole && (document.over == Over::Roll || document.pinned.iter().any(of_axle)),
            over: document.over,
            here: stance(document),
            reach: match document.over {
                Over::Roll => ROLL,
                Over::Travel | Over::TravelUpright => travel,
                Over::Steering => document.rack_travel(),
            },
        }
    }

    /// The axle that stands here along it, in so many steps each way.
    pub fn solve(&self, here: &Whole, steps: i32) -> Vec<(f64, Whole)> {
        if !self.asked {
            return Vec::new();
        }
        let mut guess = here.at_rest();
        let step = |i: i32| {
            let at = self.reach * f64::from(i) / f64::from(steps);
            let stance = match self.over {
                Over::Roll => Stance { roll: at, ..self.here },
                Over::Travel | Over::TravelUpright => Stance { travel: at, ..self.here },
                Over::Steering => Stance { rack: at, ..self.here },
            };
            let whole = here.moved(stance, &guess).ok()?;
            guess = whole.axle.sides.each_ref().map(|side| Guess::from(&side.state));
            Some((at, whole))
        };
        (-steps..=steps).filter_map(step).collect()
    }
}
