//! Keys on the drawing.

use super::Hands;
use crate::app::{App, Hand};
use crate::input::pointer::nudge;
use kernel::PointId;
use web_sys::KeyboardEvent;

impl Hands {
    /// Arrow keys nudge the joint or mount in hand; Tab selects the next joint, then the subframe’s mounts, and leaves after the last. While the boxes
    /// of a search are laid over, B takes one end after the other of that of the joint in hand, for arrow keys to move.
    pub(super) fn key(&self, event: &KeyboardEvent) {
        let page = &self.page;
        let key = event.key();
        let boxed = page.laid_over().boxes && page.telling().is_none();
        if page.with(|app| app.bound.is_some()) && (!boxed || key == "Escape") {
            page.send(Hand::HoldBound(None));
            if key == "Escape" {
                return self.say_joint();
            }
        }
        if let Some(by) = nudge(page.view(), &key, event.shift_key(), event.alt_key()) {
            if page.with(|app| app.selected.is_some() || app.mount_in_hand().is_some()) {
                event.prevent_default();
                let before = page.with(App::spoken_joint);
                page.send(Hand::Nudge(by));
                page.say(&page.with(|app| app.spoken_step(&before)));
            }
        } else if key == "Tab" {
            let next = page.with(|app| neighbour(app, event.shift_key()));
            if next.is_some() {
                event.prevent_default();
            }
            page.send(next.unwrap_or(Hand::Select(None)));
            self.say_joint();
        } else if key == "Escape" {
            page.send(Hand::Select(None));
        } else if let ("b" | "B", true, Some(axes)) = (key.as_str(), boxed, page.view().axes()) {
            page.send(Hand::HoldBound(page.with(|app| app.next_end(axes))));
            self.say_joint();
        }
    }

    /// Tells the live region the joint or mount in hand and the pinned readings, or what keys hold of the joint's box.
    fn say_joint(&self) {
        self.page.say(&self.page.with(|app| app.spoken_bound().unwrap_or_else(|| app.spoken_joint())));
    }
}

/// Takes the joint or mount after, or before, the one in hand; `None` past the ends.
fn neighbour(app: &App, backwards: bool) -> Option<Hand> {
    let layout = &app.document.layout;
    let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
    let mounts = layout.subframe.as_ref().map_or(0, |subframe| subframe.mounts.len());
    let joint = app.selected.and_then(|id| ids.iter().position(|other| *other == id));
    let at = joint.or(app.mount_in_hand().map(|(which, _)| ids.len() + which));
    let next = match (at, backwards) {
        (None, false) => 0,
        (None, true) => return None,
        (Some(at), false) => at + 1,
        (Some(at), true) => at.checked_sub(1)?,
    };
    let joint = ids.get(next).map(|id| Hand::Select(Some(*id)));
    joint.or((ids.len()..ids.len() + mounts).contains(&next).then(|| Hand::SelectMount(next - ids.len())))
}
