//! A story being told: shot after shot, with transitions where the reader's system allows them.

use super::Page;
use crate::app::{App, Tell};
use crate::browser::window::matches;
use crate::content::story::shipped;
use crate::document::story::{Moves, Shot, TRANSITION};
use kernel::Layout;

/// A story under way.
pub(super) struct Telling {
    shots: Vec<Shot>,
    /// Where the transition to the present shot began.
    from: Shot,
    at: usize,
    /// Seconds since then, and the clock of the last frame, ms; 0 before the first.
    gone: f64,
    clock: f64,
    /// Goes on by itself.
    running: bool,
}

impl Telling {
    fn lasts(&self) -> f64 {
        self.shots.get(self.at).map_or(0.0, |shot| shot.lasts)
    }

    /// The shot has been shown as long as it lasts.
    fn ends(&self) -> bool {
        self.gone >= self.lasts()
    }

    /// Something of the shot moved after so many seconds.
    fn moves(&self, passed: f64) -> bool {
        self.shots.get(self.at).is_some_and(|shot| shot.moves != Moves::Nothing) && passed < self.lasts()
    }
}

impl Page {
    /// Begins to tell the document's story, or the one that comes with the page. The end of it brings back what was there.
    pub fn tell_story(&self) {
        self.stop();
        self.settle();
        let (from, own) = self.with(|app| (Shot::of(&app.document, None, String::new()), app.document.story.clone()));
        let shots = if own.is_empty() { shipped() } else { own };
        let running = !matches(super::STILL);
        self.0.telling.replace(Some(Telling { shots, from, at: 0, gone: 0.0, clock: 0.0, running }));
        self.refit();
        self.change();
    }

    /// Goes so many shots on, or back, and stays there.
    pub fn turn_to(&self, by: i32) {
        let from = self.with(|app| Shot::of(&app.document, None, String::new()));
        if let Some(telling) = &mut *self.0.telling.borrow_mut() {
            let at = telling.at.saturating_add_signed(by as isize).min(telling.shots.len().saturating_sub(1));
            (telling.from, telling.at, telling.gone, telling.running) = (from, at, 0.0, false);
        }
        self.change();
    }

    /// Stops, or goes on by itself.
    pub fn hold_story(&self) {
        if let Some(telling) = &mut *self.0.telling.borrow_mut() {
            telling.running = !telling.running;
        }
        self.change();
    }

    /// Ends the story and brings back what was there before.
    pub fn end_story(&self) {
        if self.0.telling.replace(None).is_some() {
            self.send(Tell::End);
            self.refit();
        }
    }

    /// The shot being told, of how many, and whether the story goes on by itself; `None` when no story is told.
    pub fn telling(&self) -> Option<(usize, usize, bool)> {
        self.0.telling.borrow().as_ref().map(|telling| (telling.at, telling.shots.len(), telling.running))
    }

    /// The next frame of the story.
    pub(super) fn go_on(&self, clock: f64) {
        let Some(mut telling) = self.0.telling.take() else { return };
        // Another command has ended it.
        if telling.clock > 0.0 && !self.with(App::tells) {
            return self.refit();
        }
        let (passed, still) = (telling.gone, matches(super::STILL));
        let since = if telling.clock == 0.0 { 0.0 } else { (clock - telling.clock).min(100.0) / 1000.0 };
        // Paused, a shot comes and stands.
        telling.gone =
            if telling.running { passed + since } else { f64::max(passed, (passed + since).min(TRANSITION)) };
        telling.clock = clock;
        if telling.running && telling.ends() && telling.at + 1 < telling.shots.len() {
            telling.from = self.with(|app| Shot::of(&app.document, None, String::new()));
            (telling.at, telling.gone) = (telling.at + 1, 0.0);
        }
        let part = if still { 1.0 } else { (telling.gone / TRANSITION).min(1.0) };
        let moves = passed < TRANSITION || telling.gone < TRANSITION || telling.moves(passed);
        if let Some(shot) = telling.shots.get(telling.at).filter(|_| moves) {
            let shot = match part < 1.0 {
                true => telling.from.towards(shot, part),
                false if still => shot.clone(),
                false => shot.after(telling.gone - TRANSITION),
            };
            let kind = |layout: &Layout, whole: bool| (layout.points().count(), whole);
            let before = self.with(|app| kind(&app.document.layout, app.document.whole));
            let other = kind(&shot.layout, shot.whole) != before;
            self.pass(Tell::Shot(Box::new(shot)));
            if other {
                self.0.fit.set(true);
            }
        }
        let last = telling.at + 1 >= telling.shots.len();
        let goes_on = telling.gone < TRANSITION || (telling.running && !(last && telling.ends()));
        self.0.telling.replace(Some(telling));
        if goes_on {
            self.change();
        }
    }
}
