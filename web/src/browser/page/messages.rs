//! Messages on their way to the state. An event can come while the state is read or drawn, from an element that a pane takes off the
//! page, say: its message then waits, and takes effect right after.

use super::Page;
use crate::app::{App, Message};
use crate::document::place::Place;

impl Page {
    /// Lets a message take effect.
    pub fn send(&self, message: impl Into<Message>) {
        self.0.waiting.borrow_mut().push_back(message.into());
        self.take_waiting();
    }

    /// Reads something off the state.
    pub fn with<T>(&self, read: impl FnOnce(&App) -> T) -> T {
        let result = read(&self.0.app.borrow());
        self.take_waiting();
        result
    }

    /// Lets a step of a movement or a story take effect: no command, so neither address nor drafts wait for its end. One that comes while
    /// the state is read is left out; the next frame brings the next.
    pub(super) fn pass(&self, message: impl Into<Message>) {
        if let Ok(mut app) = self.0.app.try_borrow_mut() {
            app.update(message);
        }
    }

    /// Takes what waits, in order; what comes of one message waits behind it.
    fn take_waiting(&self) {
        if self.0.taking.replace(true) {
            return;
        }
        while let Some(message) = self.next() {
            self.take(message);
        }
        self.0.taking.set(false);
    }

    /// The message that has waited longest, unless the state is being read.
    fn next(&self) -> Option<Message> {
        self.0.app.try_borrow_mut().ok()?;
        self.0.waiting.borrow_mut().pop_front()
    }

    fn take(&self, message: Message) {
        self.end_greeting();
        if matches!(message, Message::Open(_) | Message::Course(_)) {
            // What was there before keeps its own place among the visits.
            self.stop();
            self.keep();
            self.0.began.set(js_sys::Date::now());
            self.0.fit.set(true);
        }
        let place = || Place::of(&self.0.app.borrow().document);
        let before = place();
        self.0.app.borrow_mut().update(message);
        if [before.travel, before.rack] != [place().travel, place().rack] {
            // Whoever else moves the axle takes it from the movement under way.
            self.stop();
        }
        self.write_soon();
        self.change();
    }
}
