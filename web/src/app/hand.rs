//! What a hand does on the drawing: it takes, moves and leaves. What it moves changes the document by an edit.

use super::App;
use super::edit::Point;
use kernel::{Layout, PointId, Vec3};

/// What a hand does on the drawing.
#[derive(Clone, Copy, Debug)]
pub enum Hand {
    /// Takes a joint, or none.
    Select(Option<PointId>),
    /// A drag or a run of key presses begins: everything until [`Hand::Release`] is one undo step.
    Hold,
    /// It ends.
    Release,
    /// A joint is dragged to a place on the drawing, mm.
    Drag(PointId, Vec3),
    /// The joint in hand moves by this much at rest, mm.
    Nudge(Vec3),
    /// The joint in hand goes back to where it was when the page, link or file was opened.
    Reset,
}

impl App {
    /// Follows a hand.
    pub(super) fn hand(&mut self, hand: Hand) {
        match hand {
            Hand::Select(id) => self.selected = id,
            Hand::Hold => self.history.hold(),
            Hand::Release => self.release(),
            Hand::Drag(id, target) => {
                let at_rest = self.study.rest_point(&self.document, id, target);
                self.bring(at_rest.map(|at| (id, at)));
            }
            Hand::Nudge(by) => self.bring(self.in_hand(&self.document.layout).map(|(id, at)| (id, at + by))),
            Hand::Reset => self.bring(self.in_hand(&self.start.layout)),
        }
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
        self.history.release();
        if self.study.trouble.is_none() && self.document.reach() < self.study.good.reach {
            self.solve(None);
        } else {
            self.study.let_go();
        }
    }
}
