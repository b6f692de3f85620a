//! A story being told: shot after shot, with transitions where the reader's system allows them.

use super::Page;
use crate::app::{App, Tell};
use crate::browser::window::matches;
use crate::content::story::shipped;
use crate::document::story::{Moves, Passing, Shot, TRANSITION};
use crate::drawing::{Arrangement, Sheet};
use crate::exchange::film::view;

/// A story under way.
pub(super) struct Telling {
    shots: Vec<Shot>,
    /// What was shown where the transition to the present shot began, and what is shown.
    from: Shot,
    shown: Shot,
    at: usize,
    /// Seconds since then, and the clock of the last frame, ms; 0 before the first.
    gone: f64,
    clock: f64,
    /// Goes on by itself.
    running: bool,
    /// The sheets of the shot before and of this one, and whether they are to be found anew.
    sheets: Option<[Sheet; 2]>,
    stale: bool,
}

impl Telling {
    fn lasts(&self) -> f64 {
        self.shots.get(self.at).map_or(0.0, |shot| shot.lasts)
    }

    /// The shot has been shown as long as it lasts.
    fn ends(&self) -> bool {
        self.gone >= self.lasts()
    }

    /// Until the present shot has come, s.
    fn comes(&self) -> f64 {
        self.shots.get(self.at).map_or(TRANSITION, Shot::comes)
    }

    /// Something of the shot moved after so many seconds.
    fn moves(&self, passed: f64) -> bool {
        let moves = |shot: &Shot| !matches!(shot.moves, Moves::Nothing | Moves::Change);
        self.shots.get(self.at).is_some_and(moves) && passed < self.lasts()
    }

    /// Goes to another shot, from what is shown.
    fn turn_to(&mut self, at: usize) {
        (self.from, self.at, self.gone, self.stale) = (self.shown.clone(), at, 0.0, true);
    }
}

impl Page {
    /// The shots of the document's own show, or of the one that comes with the page.
    pub fn shots(&self) -> Vec<Shot> {
        let own = self.with(|app| app.document.show());
        if own.is_empty() { shipped() } else { own }
    }

    /// Begins to tell the document's story, or the one that comes with the page. The end of it brings back what was there.
    pub fn tell_story(&self) {
        self.stop();
        self.settle();
        let shots = self.shots();
        // The first one is there from the beginning.
        let from =
            shots.first().cloned().unwrap_or_else(|| self.with(|app| Shot::of(&app.document, None, String::new())));
        let running = !matches(super::STILL);
        let shown = from.clone();
        let telling = Telling { shots, from, shown, at: 0, gone: 0.0, clock: 0.0, running, sheets: None, stale: true };
        self.0.telling.replace(Some(telling));
        self.refit();
    }

    /// Goes so many shots on, or back, and stays there.
    pub fn turn_to(&self, by: i32) {
        if let Some(telling) = &mut *self.0.telling.borrow_mut() {
            telling.turn_to(telling.at.saturating_add_signed(by as isize).min(telling.shots.len().saturating_sub(1)));
            telling.running = false;
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

    /// True once all of a story has been told by itself.
    pub fn has_told(&self) -> bool {
        let last = |telling: &Telling| telling.running && telling.at + 1 >= telling.shots.len() && telling.ends();
        self.0.telling.borrow().as_ref().is_some_and(last)
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
        let comes = telling.comes();
        telling.gone = if telling.running { passed + since } else { f64::max(passed, (passed + since).min(comes)) };
        telling.clock = clock;
        if telling.running && telling.ends() && telling.at + 1 < telling.shots.len() {
            telling.turn_to(telling.at + 1);
        }
        let stale = telling.stale || self.0.fit.get();
        let moves = stale || passed < comes || telling.gone < comes || telling.moves(passed);
        if let Some(shot) = telling.shots.get(telling.at).cloned().filter(|_| moves) {
            if stale {
                self.fit_slide(&mut telling, &shot);
            }
            let passing = match still {
                true => Passing { shot, part: 1.0, paper: 0.0, left: false },
                false => shot.passing(&telling.from, telling.gone),
            };
            telling.shown.clone_from(&passing.shot);
            let Passing { part, left, .. } = passing;
            self.pass(Tell::Passing(Box::new(passing)));
            if let Some([before, sheet]) = &telling.sheets {
                self.0.sheet.replace(Some(if left { before.clone() } else { before.towards(sheet, part) }));
            }
        }
        let last = telling.at + 1 >= telling.shots.len();
        let goes_on = telling.gone < telling.comes() || (telling.running && !(last && telling.ends()));
        self.0.telling.replace(Some(telling));
        if goes_on {
            self.change();
        }
    }

    /// Fits the paper to a shot as it stands when it has come.
    fn fit_slide(&self, telling: &mut Telling, shot: &Shot) {
        let Some(size) = self.paper(true) else { return };
        self.pass(Tell::Shot(Box::new(shot.clone())));
        let sheet = self.with(|app| Sheet::fit(size, Arrangement::Slide(view(shot.seen)), &app.picture()));
        let before = match telling.sheets.take() {
            Some([_, last]) if telling.stale && last.size == size => last,
            _ => sheet.clone(),
        };
        telling.sheets = Some([before, sheet]);
        telling.stale = false;
        self.0.fit.set(false);
    }
}
