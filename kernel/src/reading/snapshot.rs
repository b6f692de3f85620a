//! What readings are read from.

use super::known::{Gaps, Known};
use super::whole::Whole;
use crate::axle::{Axle, Swept};
use crate::both::Stance;
use crate::compliance::{Bushes, Elastic};
use crate::frame::Vec3;
use crate::layout::LeftOrRight;
use crate::pose::Demand;
use crate::state::State;
use std::cell::OnceCell;
use std::rc::Rc;

/// An axle in one place: its left wheel, and the rest of it as far as it is looked at.
pub struct Snapshot<'a> {
    /// The left wheel.
    pub wheel: &'a State,
    /// From where the contact point's shift counts, mm from the design's rest.
    from: Vec3,
    /// The axle, and which of its wheels this one is.
    of: Option<(&'a Axle, LeftOrRight)>,
    /// The other wheel, as a left one, where it is solved already.
    other: Option<&'a State>,
    both: Both<'a>,
    /// What somebody keeps beside the wheel's state; without it, this snapshot's own.
    kept: Option<&'a Known>,
    own: OnceCell<Known>,
}

/// What is known of both wheels.
enum Both<'a> {
    /// One wheel alone is looked at.
    Unseen,
    /// They are solved.
    Solved(&'a Whole),
    /// They are solved when the first reading asks for them; `None` inside where they can't get there.
    Asked(&'a Rc<Axle>, OnceCell<Option<Box<Whole>>>),
}

impl<'a> Snapshot<'a> {
    /// One wheel alone, of an axle that nothing is known of, counted from the design's rest.
    pub fn of(wheel: &'a State) -> Snapshot<'a> {
        Snapshot {
            wheel,
            from: Vec3::zeros(),
            of: None,
            other: None,
            both: Both::Unseen,
            kept: None,
            own: OnceCell::new(),
        }
    }

    /// The wheel of an axle that is looked at; what is read of both wheels has no value.
    pub fn alone(axle: &'a Axle, wheel: &'a State) -> Snapshot<'a> {
        Snapshot::either(axle, axle.shown(), wheel)
    }

    /// Either wheel of an axle.
    pub fn either(axle: &'a Axle, side: LeftOrRight, wheel: &'a State) -> Snapshot<'a> {
        Snapshot { from: axle.counts_from(), of: Some((axle, side)), ..Snapshot::of(wheel) }
    }

    /// The wheel of an axle that is looked at; both wheels, at its travel in the mean, its rack and no roll, are solved when a reading asks for them.
    pub fn level(axle: &'a Rc<Axle>, wheel: &'a State) -> Snapshot<'a> {
        Snapshot { both: Both::Asked(axle, OnceCell::new()), ..Snapshot::alone(axle, wheel) }
    }

    /// Both wheels.
    pub fn both(whole: &'a Whole) -> Snapshot<'a> {
        let [left, right] = whole.axle.sides.each_ref().map(|side| &side.state);
        Snapshot {
            other: Some(right),
            both: Both::Solved(whole),
            kept: Some(&whole.known),
            ..Snapshot::either(whole.of(), LeftOrRight::Left, left)
        }
    }

    /// The same, with the contact point's shift counted from the design's rest.
    pub fn from_design(self) -> Snapshot<'a> {
        Snapshot { from: Vec3::zeros(), ..self }
    }

    /// The same beside the other wheel, as a left one.
    pub fn beside(self, other: &'a State) -> Snapshot<'a> {
        Snapshot { other: Some(other), ..self }
    }

    /// The same with what is kept beside the wheel's state.
    pub fn knowing(self, known: &'a Known) -> Snapshot<'a> {
        Snapshot { kept: Some(known), ..self }
    }

    /// Both wheels, where they are looked at and get there.
    pub fn axle(&self) -> Option<&Whole> {
        match &self.both {
            Both::Unseen => None,
            Both::Solved(whole) => Some(whole),
            Both::Asked(axle, solved) => {
                let State { travel, position, .. } = self.wheel;
                // A right wheel is told as a left one, its rack the other way.
                let rack = if axle.shown() == LeftOrRight::Left { position.rack } else { -position.rack };
                let level = || Stance { roll: 0.0, travel: *travel, rack };
                let solve = || Whole::at(axle, level(), &axle.at_rest()).ok().map(Box::new);
                solved.get_or_init(solve).as_deref()
            }
        }
    }

    /// Movement of the contact point from where it is when the car of the design stands, mm.
    pub fn contact_shift(&self) -> Vec3 {
        self.wheel.contact_shift - self.from
    }

    /// What is known beside the wheel's state; `None` where nothing is known of its axle, and nothing kept.
    fn known(&self) -> Option<&Known> {
        self.kept.or_else(|| self.of.map(|_| self.own.get_or_init(Known::default)))
    }

    /// What a rig finds on this wheel at this travel; `None` where the rack does not reach so far.
    pub fn swept(&self) -> Option<Swept> {
        *self.known()?.swept.get_or_init(|| {
            let (axle, side) = self.of?;
            axle.swept(side, self.wheel.travel, Swept::ANGLE)
        })
    }

    /// What gives way at this wheel, the other one at the same travel if it is not looked at; `None` where nothing does.
    pub fn elastic(&self) -> Option<&Elastic> {
        let elastic = self.known()?.elastic.get_or_init(|| {
            let (axle, side) = self.of?;
            let bushes = Bushes::of(axle)?;
            let solved = if self.other.is_none() { Some(self.neighbour(axle, side)?) } else { None };
            let other = self.other.or(solved.as_ref())?;
            Elastic::at(&bushes, axle, side.left_first(self.wheel, other), side.index())
        });
        elastic.as_ref()
    }

    /// How near the pieces of this wheel are to each other.
    pub fn gaps(&self) -> Option<Gaps> {
        *self.known()?.gaps.get_or_init(|| {
            let (axle, side) = self.of?;
            Some(Gaps::of(axle, side, self.wheel))
        })
    }

    /// The other wheel at the same travel: one rack steers both.
    fn neighbour(&self, axle: &Axle, side: LeftOrRight) -> Option<State> {
        let rack = self.wheel.position.rack;
        if rack == 0.0 && !axle.sides_differ() {
            return Some(self.wheel.clone());
        }
        axle.state_of(LeftOrRight::BOTH[1 - side.index()], Demand::new(self.wheel.travel, -rack)).ok()
    }
}
