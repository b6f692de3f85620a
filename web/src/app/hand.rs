//! What a hand does on the drawing: it takes, moves and leaves. What it moves changes the document by an edit.

use super::App;
use super::edit::{Build, Bulk, Edit, Paper, Point, Soften, movable};
use super::refusal::Refusal;
use crate::document::goal::Ends;
use crate::document::{Document, Hands};
use crate::study::space::Held;
use kernel::frame::mirror;
use kernel::{Axle, Change, Layout, LeftOrRight, NoAxle, PointId, Rotation, Sides, Vec3};

/// What a hand does on the drawing.
#[derive(Clone, Copy, Debug)]
pub enum Hand {
    /// Takes a joint, or none.
    Select(Option<PointId>),
    /// Takes a mount of the subframe.
    SelectMount(usize),
    /// A drag or a run of key presses begins: everything until [`Hand::Release`] is one undo step.
    Hold,
    /// It ends.
    Release,
    /// A joint is dragged to a place on the drawing, mm. Where lengths are kept, a joint on the carrier does not follow: it is shifted on the carrier
    /// by the hand's movement, and the wheel moves against it.
    Drag(PointId, Vec3),
    /// A mount of the subframe is dragged to a place, mm.
    Mount(usize, Vec3),
    /// A box, by its middle or a corner, is dragged to a place, mm, seen from the wheel shown as a left one.
    Box(usize, Held, Vec3),
    /// Ends of the box in which a search may move a joint are dragged to a place, mm.
    Bound(PointId, Ends, Vec3),
    /// Keys take ends of the box of the joint in hand, or let go of them.
    HoldBound(Option<Ends>),
    /// The joint in hand moves by this much at rest, or the mount, or the ends of its box that keys hold, mm.
    Nudge(Vec3),
    /// The joint in hand goes back to where it was when the page, link or file was opened.
    Reset,
}

/// How a hand that keeps lengths holds a joint.
pub(super) struct Grip {
    point: PointId,
    /// Where it was taken, mm.
    from: Vec3,
    /// How far it was from its place on its part in the design then, mm.
    shift: Vec3,
    /// From the car's axes to those of its part.
    turn: Rotation,
}

impl App {
    /// Follows a hand.
    pub(super) fn hand(&mut self, hand: Hand) {
        let build = self.document.hands == Hands::Build;
        match hand {
            Hand::Select(id) => (self.selected, self.mount, self.bound) = (id, None, None),
            Hand::SelectMount(which) => (self.selected, self.mount, self.bound) = (None, Some(which), None),
            Hand::HoldBound(ends) => self.bound = ends.filter(|_| self.selected.is_some()),
            Hand::Bound(id, ends, to) => self.edit(Paper::Goal(Box::new(self.with_box(id, ends, to))).into()),
            Hand::Nudge(by) if self.bound.is_some() => {
                let held = self.selected.zip(self.bound);
                if let Some(((id, ends), at)) = held.and_then(|held| Some((held, self.end_of_box(held.0, held.1)?))) {
                    self.edit(Paper::Goal(Box::new(self.with_box(id, ends, at + by))).into());
                }
            }
            Hand::Hold => self.history.hold(),
            Hand::Release => self.release(),
            Hand::Drag(id, target) if build && id.is_joint() => {
                let held = self.grip.take().filter(|grip| grip.point == id).or_else(|| self.grip(id));
                if let Some(grip) = held {
                    self.shift(id, grip.shift + grip.turn * (target - grip.from));
                    self.grip = Some(grip);
                }
            }
            Hand::Nudge(by) if build && self.selected.is_some_and(PointId::is_joint) => {
                if let Some(id) = self.selected {
                    self.shift(id, shift_of(&self.document, id) + by);
                }
            }
            Hand::Reset if build && self.selected.is_some_and(PointId::is_joint) => {
                if let Some(id) = self.selected {
                    self.shift(id, shift_of(&self.start, id));
                }
            }
            Hand::Box(which, held, to) => {
                let right = self.study.good.axle.shown() == LeftOrRight::Right;
                self.edit(Bulk::BoxAt(which, held, if right { mirror(to) } else { to }).into());
            }
            Hand::Mount(which, to) => self.edit(Soften::MountAt(which, to).into()),
            Hand::Drag(id, target) => {
                let at_rest = self.study.rest_point(&self.document, id, target);
                self.bring(at_rest.map(|at| (id, at)));
            }
            Hand::Nudge(by) => match self.mount_in_hand() {
                Some((which, at)) => self.edit(Soften::MountAt(which, at + by).into()),
                None => self.bring(self.in_hand(&self.document.layout).map(|(id, at)| (id, at + by))),
            },
            Hand::Reset => self.bring(self.in_hand(&self.start.layout)),
        }
    }

    /// Takes a joint.
    fn grip(&self, id: PointId) -> Option<Grip> {
        let carrier = self.study.good.now.position.pose.r.inverse();
        let turn = if id.on_carrier() { carrier } else { Rotation::identity() };
        Some(Grip { point: id, from: self.study.good.place(id)?, shift: shift_of(&self.document, id), turn })
    }

    /// Puts a joint elsewhere on its part, mm from its place there in the design. Where nothing goes together so, the hand stops, and it is said why.
    fn shift(&mut self, id: PointId, shift: Vec3) {
        self.selected = Some(id);
        let sides = self.document.changed_sides();
        let ranges = match movable(&self.document, id) {
            Ok(ranges) => ranges,
            Err(why) => return self.refuse(&why),
        };
        let mut after = self.document.layout.clone();
        for axis in (0..3).filter(|axis| ranges[*axis].is_some()) {
            let change = Change::Joint(id, axis);
            let [least, most] = change.range();
            after.changes.set(sides, change, shift[axis].clamp(least, most));
        }
        match Axle::new(&after) {
            Ok(_) => self.edit(Edit::Build(Build::All(Box::new(after.changes)))),
            Err(NoAxle::Unsolved(why)) => self.refuse(&Refusal::Unsolved(why)),
            Err(NoAxle::Problems(problems)) => self.refuse(&Refusal::Problems(problems)),
        }
    }

    /// The mount of the subframe in hand, counted from 0, and where it is, mm; none while a joint is.
    pub fn mount_in_hand(&self) -> Option<(usize, Vec3)> {
        let which = self.mount.filter(|_| self.selected.is_none())?;
        Some((which, self.document.layout.subframe.as_ref()?.mounts.get(which)?.at))
    }

    /// The joint in hand, and where a layout has it at rest, mm.
    fn in_hand(&self, layout: &Layout) -> Option<(PointId, Vec3)> {
        self.selected.and_then(|id| Some((id, layout.point(id)?)))
    }

    fn bring(&mut self, joint: Option<(PointId, Vec3)>) {
        if let Some((id, at_rest)) = joint {
            self.edit(Point::Move(id, at_rest).into());
        }
    }

    /// The hand lets go; the scales fit again, and the curves are fine ones.
    fn release(&mut self) {
        self.grip = None;
        self.history.release();
        if self.study.trouble.is_none() && self.document.reach() < self.study.good.reach {
            self.solve(None);
        } else {
            self.study.let_go();
        }
    }
}

/// How far a joint sits from its place on its part in the design, by the changes of the sides that a hand changes, mm.
fn shift_of(document: &Document, id: PointId) -> Vec3 {
    let sides: Sides = document.changed_sides();
    Vec3::from_fn(|axis, _| document.layout.changes.get(sides, Change::Joint(id, axis)))
}
