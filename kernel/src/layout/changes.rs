//! Changes: what a car has different from its design, per side; and with what it can be adjusted.
//!
//! In a layout every joint is given at rest, so whatever joint is moved, camber and toe at rest stay as they were: right at a drawing board, wrong
//! under a car. A change says what was done to a part; lengths are kept and the wheel follows. No change at all gives the design back to the last
//! digit. The right wheel's changes are written as if it were a left one: +y outboard, toe-in positive; those of `both` are mirrored, and left and
//! right add up with `both`.

use super::{Change, Few, Member, PointId};
use crate::frame::Vec3;

/// A wheel of the car.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum LeftOrRight {
    /// The left one, which a layout describes.
    #[default]
    Left,
    /// The right one, told as if it were a left one.
    Right,
}

impl LeftOrRight {
    /// Left and right.
    pub const BOTH: [LeftOrRight; 2] = [LeftOrRight::Left, LeftOrRight::Right];

    /// “left” or “right”.
    pub fn name(self) -> &'static str {
        if self == LeftOrRight::Left { "left" } else { "right" }
    }

    /// 0 for left, 1 for right.
    pub fn index(self) -> usize {
        usize::from(self == LeftOrRight::Right)
    }

    /// This side's and the other side's as the left one's and the right one's.
    pub fn left_first<T>(self, own: T, other: T) -> [T; 2] {
        if self == LeftOrRight::Left { [own, other] } else { [other, own] }
    }
}

/// What a set of changes is called in files.
pub(super) const SETS: [&str; 3] = ["both", "left", "right"];

/// What a car has different from the design, and what it can be adjusted with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// Of both sides alike, of the left one, of the right one; a change that is none is left out.
    sets: [Few<Change, f64>; 3],
    /// What a workshop can set.
    pub adjusters: Vec<Adjuster>,
    /// The travel at which the bush at a member's inner joint was tightened, mm, where it is not that at which the car stands.
    pub tightened: Few<Member, f64>,
}

/// Something that a workshop can set.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjuster {
    /// What it changes.
    pub set: Adjusted,
    /// The least and the greatest that it goes to, mm from the design.
    pub range: [f64; 2],
    /// mm per turn, where it is a thread.
    pub pitch: Option<f64>,
    /// mm of a shim, where only whole ones go in.
    pub step: Option<f64>,
}

/// What an adjuster changes.
#[derive(Clone, Debug, PartialEq)]
pub enum Adjusted {
    /// One change.
    Change(Change),
    /// A joint moved along a direction in the rest axes of its part: a slot, or shims under it. The direction has length 1.
    Along(PointId, Vec3),
}

/// Which sides a change is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Sides {
    /// Both, mirrored.
    Both,
    /// One.
    One(LeftOrRight),
}

impl Sides {
    /// Both, left, right.
    pub const ALL: [Sides; 3] = [Sides::Both, Sides::One(LeftOrRight::Left), Sides::One(LeftOrRight::Right)];

    /// What it is called in files.
    pub fn key(self) -> &'static str {
        SETS[self.index()]
    }

    fn index(self) -> usize {
        match self {
            Sides::Both => 0,
            Sides::One(side) => 1 + side.index(),
        }
    }
}

impl Changes {
    /// True without any change, adjuster or tightened bush.
    pub fn is_empty(&self) -> bool {
        *self == Changes::default()
    }

    /// A change of both sides, or of one over them; 0 for none.
    pub fn get(&self, of: Sides, change: Change) -> f64 {
        self.sets[of.index()].get(&change).copied().unwrap_or_default()
    }

    /// Sets a change; 0 takes it back. What the whole car has is of both sides.
    pub fn set(&mut self, of: Sides, change: Change, by: f64) {
        let of = if change.of_both() { Sides::Both } else { of };
        if by == 0.0 {
            self.sets[of.index()].remove(&change);
        } else {
            self.sets[of.index()].insert(change, by);
        }
    }

    /// The same without any change; adjusters and what was said of bushes stay.
    pub fn taken_back(&self) -> Changes {
        Changes { sets: Default::default(), ..self.clone() }
    }

    /// Every change, those of both sides first.
    pub fn iter(&self) -> impl Iterator<Item = (Sides, Change, f64)> + '_ {
        Sides::ALL.into_iter().flat_map(|of| self.sets[of.index()].iter().map(move |(change, by)| (of, *change, *by)))
    }

    /// What one side has different, both sides' share included, as if it were a left one: what the whole car has is mirrored for the right.
    pub fn of(&self, side: LeftOrRight) -> Few<Change, f64> {
        let mut all = Few::default();
        for (change, by) in self.sets[0].iter() {
            let mirrored = side == LeftOrRight::Right && matches!(change, Change::Subframe(1) | Change::SubframeYaw);
            all.insert(*change, if mirrored { -by } else { *by });
        }
        for (change, by) in self.sets[1 + side.index()].iter() {
            match by + all.get(change).copied().unwrap_or_default() {
                0.0 => all.remove(change),
                sum => all.insert(*change, sum),
            }
        }
        all
    }

    /// The travel at which the car stands, mm.
    pub fn ride(&self) -> f64 {
        self.get(Sides::Both, Change::Ride)
    }
}
