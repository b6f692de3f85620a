//! Side conditions at places: how far a joint may swing, how near pieces may come to each other.

use crate::axle::Axle;
use crate::layout::{Layout, LeftOrRight, PointId};
use crate::loads::Swinging;
use crate::pose::{Demand, Position};
use crate::space::{Piece, Pieces};
use crate::state::State;

/// What is kept in a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// The swing of a joint of a rod or a wishbone from rest, degrees: at the carrier the tilt of its stud in its socket.
    Swing(PointId),
    /// The gap between two pieces, mm; `None` for the least one between pieces of the wheel, its members and the boxes.
    Gap(Option<[Piece; 2]>),
}

impl Kept {
    /// What counts as one unit off, degrees or mm: an arm of some 300 mm turns by about 0.2° a mm, so a tenth of a degree is worth a mm.
    pub(super) fn scale(self) -> f64 {
        if matches!(self, Kept::Gap(_)) { 1.0 } else { 0.1 }
    }
}

/// Something of a wheel that has to stay in a range at places.
#[derive(Clone, Debug, PartialEq)]
pub struct Condition {
    /// What.
    pub kept: Kept,
    /// Travel and rack of each place, mm.
    pub places: Vec<[f64; 2]>,
    /// The least and the greatest that it may be, degrees or mm.
    pub range: [f64; 2],
}

impl Condition {
    /// What it comes to on a wheel of a layout, degrees or mm, place by place; `None` where the axle can't be at one of them, or lacks what it is of.
    pub fn values(&self, layout: &Layout, side: LeftOrRight) -> Option<Vec<f64>> {
        values(layout, side, std::slice::from_ref(self))
    }
}

/// What conditions come to on a layout, each place by place; `None` where the axle can't be at one of them, or lacks what it is of.
pub(super) fn values(layout: &Layout, side: LeftOrRight, conditions: &[Condition]) -> Option<Vec<f64>> {
    if conditions.is_empty() {
        return Some(Vec::new());
    }
    let axle = Axle::new(layout).ok()?;
    let linkage = &axle.linkages()[side.index()];
    let swinging = Swinging::of(linkage);
    let pieces = conditions.iter().any(|one| matches!(one.kept, Kept::Gap(_))).then(|| Pieces::of(&axle, side));
    let mut guess = Position::at_rest(linkage);
    let mut values = Vec::new();
    for Condition { kept, places, .. } in conditions {
        for [travel, rack] in places {
            guess = State::solve(linkage, Demand::new(*travel, *rack), &guess).ok()?.position;
            values.push(match kept {
                Kept::Swing(joint) => swinging
                    .at(linkage, &guess)
                    .into_iter()
                    .find(|(other, _)| other == joint)
                    .map(|(_, angle)| angle)?,
                Kept::Gap(None) => pieces.as_ref()?.least_gap(&guess)?.value,
                Kept::Gap(Some(between)) => pieces.as_ref()?.gap(*between, &guess)?.value,
            });
        }
    }
    Some(values)
}
