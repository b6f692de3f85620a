//! What readings are read from.

use super::Whole;
use crate::axle::Axle;
use crate::both::Stance;
use crate::frame::Vec3;
use crate::layout::LeftOrRight;
use crate::state::State;
use std::cell::OnceCell;
use std::rc::Rc;

/// An axle in one place: its left wheel, and both wheels as far as they are looked at.
pub struct Snapshot<'a> {
    /// The left wheel.
    pub wheel: &'a State,
    /// From where the contact point's shift counts, mm from the design's rest.
    from: Vec3,
    both: Both<'a>,
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
    /// One wheel alone, counted from the design's rest.
    pub fn of(wheel: &'a State) -> Snapshot<'a> {
        Snapshot { wheel, from: Vec3::zeros(), both: Both::Unseen }
    }

    /// One wheel of an axle; what is read of both wheels has no value.
    pub fn alone(axle: &'a Axle, wheel: &'a State) -> Snapshot<'a> {
        Snapshot { wheel, from: axle.counts_from(), both: Both::Unseen }
    }

    /// One wheel of an axle; both wheels, at its travel in the mean, its rack and no roll, are solved when a reading asks for them.
    pub fn level(axle: &'a Rc<Axle>, wheel: &'a State) -> Snapshot<'a> {
        Snapshot { wheel, from: axle.counts_from(), both: Both::Asked(axle, OnceCell::new()) }
    }

    /// Both wheels.
    pub fn both(whole: &'a Whole) -> Snapshot<'a> {
        let wheel = &whole.axle.sides[0].state;
        Snapshot { wheel, from: whole.counts_from(), both: Both::Solved(whole) }
    }

    /// The same, with the contact point's shift counted from the design's rest.
    pub fn from_design(self) -> Snapshot<'a> {
        Snapshot { from: Vec3::zeros(), ..self }
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
}
