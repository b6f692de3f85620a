//! A show as a film: each frame by its number, drawn at its exact time, whatever the machine takes for it.

use crate::app::{App, Tell};
use crate::document::Document;
use crate::document::story::{Passing, Seen, Shot, at};
use crate::drawing::{Arrangement, P, Scene, Sheet, View, draw, letters};

/// Frames a second.
pub const RATE: f64 = 30.0;

/// Width and height of a level film; an upright one has them exchanged, px.
pub const LEVEL: [u32; 2] = [1920, 1080];

/// A film that can be drawn.
pub struct Film {
    shots: Vec<Shot>,
    size: [u32; 2],
    app: App,
    /// The last shot begun, its sheet, and that of the one before.
    sheets: Option<(usize, [Sheet; 2])>,
}

impl Film {
    /// A film of shots; units and whatever else a shot says nothing of are the document's.
    pub fn new(document: &Document, shots: Vec<Shot>, upright: bool) -> Film {
        let [width, height] = LEVEL;
        let app = App::new(Document { story: Vec::new(), ..document.clone() }, Vec::new());
        Film { shots, size: if upright { [height, width] } else { LEVEL }, app, sheets: None }
    }

    /// Width and height, px.
    pub fn size(&self) -> [u32; 2] {
        self.size
    }

    /// How many px of the film a px of its scenes is.
    pub fn ratio(&self) -> f64 {
        letters(self.size.map(f64::from))
    }

    /// How long it lasts, s: all its shots, the last one with its hold.
    pub fn lasts(&self) -> f64 {
        self.shots.iter().map(|shot| shot.lasts).sum()
    }

    /// How many frames it has.
    pub fn frames(&self) -> usize {
        (self.lasts() * RATE).round() as usize
    }

    /// When a frame is shown, ms.
    pub fn time(frame: usize) -> f64 {
        frame as f64 * 1000.0 / RATE
    }

    /// A frame's picture, and whether a shot begins with it; frames are asked for in their order. `None` for a film without shots.
    pub fn frame(&mut self, frame: usize) -> Option<(Scene, bool)> {
        let (which, passing) = at(&self.shots, Film::time(frame) / 1000.0)?;
        let begins = self.sheets.as_ref().is_none_or(|(before, _)| *before != which);
        if begins {
            let sheet = self.sheet(which);
            let before = self.sheets.take().map_or_else(|| sheet.clone(), |(_, [_, last])| last);
            self.sheets = Some((which, [before, sheet]));
        }
        let Passing { part, left, .. } = passing;
        self.app.update(Tell::Passing(Box::new(passing)));
        let (_, [before, sheet]) = self.sheets.as_ref()?;
        let sheet = if left { before } else { &before.towards(sheet, part) };
        Some((draw(&self.app.picture(), sheet), begins))
    }

    /// The sheet of a shot, fitted to it as it stands when it has come.
    fn sheet(&mut self, which: usize) -> Sheet {
        self.app.update(Tell::Shot(Box::new(self.shots[which].clone())));
        let ratio = self.ratio();
        let size: P = self.size.map(|px| f64::from(px) / ratio);
        Sheet::fit(size, Arrangement::Slide(view(self.shots[which].seen)), &self.app.picture())
    }
}

/// The view that a shot is seen in; `None` for all three.
pub fn view(seen: Seen) -> Option<View> {
    match seen {
        Seen::All => None,
        Seen::Front => Some(View::Front),
        Seen::Side => Some(View::Side),
        Seen::Plan => Some(View::Plan),
        Seen::Pictorial => Some(View::Pictorial),
    }
}
