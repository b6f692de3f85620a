//! Where a search begins, and what is known there of where it leads.

use super::Position;
use crate::linkage::Linkage;
use crate::math::Twist;

/// Where a search begins: a position and, if it has been solved, the carrier's motions there, which tell where a demand near it is met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess {
    pub(crate) position: Position,
    /// Per mm of travel with the rack held, per mm of rack with the travel held.
    pub(crate) motions: Option<[Twist; 2]>,
    /// How they have changed on the way there, if one is known.
    pub(crate) bend: Option<Bend>,
}

/// How the motions have changed on the way to a position.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bend {
    /// The way: travel and rack, mm.
    way: [f64; 2],
    /// What the motions are now less what they were at its beginning.
    change: [Twist; 2],
}

/// A step longer than this many times the one before it says nothing of how the motions change on it.
const STRETCH: f64 = 2.0;

impl Bend {
    /// The change that the motions make by the middle of the next step, travel and rack, as part of what they made on the last one: half as much if
    /// the two are alike. `None` for a step that does not go on in about that measure.
    fn middle(&self, step: [f64; 2]) -> Option<f64> {
        let dot = |a: [f64; 2], b: [f64; 2]| a[0] * b[0] + a[1] * b[1];
        let part = dot(step, self.way) / dot(self.way, self.way);
        (part.abs() <= STRETCH).then_some(0.5 * part)
    }
}

impl Guess {
    /// The position at rest, which every demand is approached from.
    pub fn at_rest(linkage: &Linkage) -> Guess {
        Guess::from(&Position::at_rest(linkage))
    }

    /// A solved position for the one after it on a way on which this was the one before it.
    pub(crate) fn then(&self, position: Position, motions: [Twist; 2]) -> Guess {
        let bend = self.motions.map(|before| Bend {
            way: [position.pose.w.z - self.position.pose.w.z, position.rack - self.position.rack],
            change: [0, 1].map(|i| motions[i].plus(-1.0, &before[i])),
        });
        Guess { position, motions: Some(motions), bend }
    }

    /// Where a demand so much farther on, travel and rack in mm, is met: with the motions M at the guess and, if their change ΔM on the step before is
    /// known, those that the middle of the step will have (the second-order rule of J. C. Adams and F. Bashforth, where the steps are alike),
    /// ```text
    /// ξ = (M + k·ΔM)·step,   k = step·way/(2·way·way)
    /// ```
    /// which leaves an error of the third order in the step. `None` where the motions are not known.
    pub(super) fn leads(&self, step: [f64; 2]) -> Option<Twist> {
        let along = |[bump, steer]: &[Twist; 2]| bump.scaled(step[0]).plus(step[1], steer);
        let straight = along(self.motions.as_ref()?);
        let bent = self.bend.as_ref().and_then(|bend| Some((bend.middle(step)?, along(&bend.change))));
        Some(bent.map_or(straight, |(part, change)| straight.plus(part, &change)))
    }
}

impl From<&Position> for Guess {
    fn from(position: &Position) -> Guess {
        Guess { position: *position, motions: None, bend: None }
    }
}
