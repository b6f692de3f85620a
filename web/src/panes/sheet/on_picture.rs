//! Hands on the picture under a view: they mark places in it, and move it while it is loose.

use super::{Contact, Hands, Interaction, P};
use crate::drawing::Sheet;

impl Hands {
    /// True if a hand that comes down there means the picture under a view, where there is no handle.
    pub(super) fn means_picture(&self, at: P) -> bool {
        let (Some(under), Some(sheet)) = (self.page.underlay(), self.page.sheet()) else { return false };
        under.is_loose(&sheet, at) || (under.marking.is_some() && under.at(&sheet, at).is_some())
    }

    /// A pointer comes down to mark a place in the picture, or to move it where it is loose and no handle lies on it.
    pub(super) fn take_picture(&self, contact: Contact, sheet: &Sheet) -> bool {
        let Some(mut under) = self.page.underlay().filter(|_| self.means_picture(contact.at)) else { return false };
        let busy = !matches!(*self.doing.borrow(), Interaction::Idle | Interaction::WheelTaken)
            || self.on_picture.get().is_some();
        if busy || (under.marking.is_none() && self.hit(contact.at, contact.touch)) {
            return false;
        }
        under.put(sheet, contact.at);
        self.page.set_underlay(under);
        self.on_picture.set(Some(contact));
        true
    }

    /// It moves: the mark, or the picture, follows.
    pub(super) fn move_picture(&self, contact: Contact, sheet: &Sheet) -> bool {
        let last = self.on_picture.get().filter(|last| last.id == contact.id);
        let (Some(last), Some(mut under)) = (last, self.page.underlay()) else { return false };
        if under.marking.is_some() {
            under.put(sheet, contact.at);
        } else {
            under.laid = under.laid.moved([0, 1].map(|i| (contact.at[i] - last.at[i]) / sheet.scale()));
        }
        self.page.set_underlay(under);
        self.on_picture.set(Some(contact));
        true
    }

    /// It goes up; true if it was the picture’s.
    pub(super) fn leave_picture(&self, pointer: i32) -> bool {
        let mine = self.on_picture.get().is_some_and(|last| last.id == pointer);
        if mine {
            self.on_picture.set(None);
            if let Some(mut under) = self.page.underlay() {
                under.marked();
                self.page.set_underlay(under);
            }
        }
        mine
    }
}
