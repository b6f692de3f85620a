//! What a lesson changes on the drawing: what it hides is not lettered, what it frees is marked.

use super::scene::{Pen, Stroke};
use super::shapes::{add, length, scaled, sub, unit};
use super::{Ink, Paper, Picture};
use kernel::{PointId, Vec3};

/// The ring round a joint that may be moved, and how far its arrows go, px.
const RING: f64 = 7.5;
const ARROW: f64 = 22.0;

impl Picture<'_> {
    /// True while a lesson hides a reading.
    pub(super) fn hides(&self, column: &str) -> bool {
        self.lesson.is_some_and(|(lesson, answer)| lesson.hides(answer, column))
    }

    /// What is lettered of a reading's value.
    pub(super) fn told(&self, column: &str, text: String) -> String {
        if self.hides(column) { "?".into() } else { text }
    }

    /// The axes along which a lesson frees a joint, as unit vectors.
    pub(super) fn freed(&self, id: PointId) -> impl Iterator<Item = Vec3> + '_ {
        let free = self.lesson.into_iter().flat_map(|(lesson, _)| &lesson.free);
        free.filter(move |free| free.point == id).map(|free| Vec3::ith(free.axis.min(2), 1.0))
    }

    /// Marks a joint that may be moved as drawings do: a ring round it, and a double arrow along each axis seen in this view.
    pub(super) fn mark_freed(&self, pen: &mut Pen, paper: &Paper, id: PointId, point: Vec3) {
        let at = paper.at(point);
        for (nth, axis) in self.freed(id).enumerate() {
            if nth == 0 {
                pen.disc(at, RING, None, Some(Stroke::narrow(Ink::Selected)));
            }
            let along = sub(paper.at(point + axis), at);
            if length(along) > 0.0 {
                let [near, far] = [RING, ARROW].map(|px| scaled(unit(along), px));
                for [near, far] in [[near, far], [scaled(near, -1.0), scaled(far, -1.0)]] {
                    pen.line(&[add(at, near), add(at, far)], Stroke::narrow(Ink::Selected));
                    pen.arrowhead(add(at, far), far, Ink::Selected);
                }
            }
        }
    }
}
