//! The projector: the drawing large beside the pinned readings, over the whole window. Shows are always told so.

use super::Page;
use crate::app::App;
use crate::drawing::{P, Picture, View, letters};
use std::cell::Cell;

/// What the page keeps of it.
#[derive(Default)]
pub(super) struct Projector {
    on: Cell<bool>,
    /// The view shown; `None` for all three, where there is room for them.
    view: Cell<Option<View>>,
}

impl Page {
    /// True while the drawing has the whole window.
    pub fn projects(&self) -> bool {
        self.0.projector.on.get() || self.telling().is_some()
    }

    /// Gives the drawing the whole window, or takes it back.
    pub fn project(&self, on: bool) {
        self.0.projector.on.set(on);
        self.refit();
    }

    /// The view that is projected.
    pub fn projected(&self) -> Option<View> {
        self.0.projector.view.get()
    }

    /// Chooses it; a second time, all three are shown again.
    pub fn set_projected(&self, view: View) {
        let chosen = Some(view).filter(|view| self.projected() != Some(*view));
        self.0.projector.view.set(chosen);
        self.refit();
    }

    /// The paper's size in px of its scene, each of which is as many CSS px as `magnified` says; `None` until it has one.
    pub(super) fn paper(&self, projects: bool) -> Option<P> {
        let size = self.0.size.get()?.get()?;
        Some(if projects { size.map(|px| px / letters(size)) } else { size })
    }

    /// How many CSS px a px of the scene is.
    pub fn magnified(&self) -> f64 {
        let size = self.0.size.get().and_then(super::Size::get).filter(|_| self.projects());
        size.map_or(1.0, letters)
    }

    /// What is to be drawn, with the pinned readings while it is projected.
    pub fn pictured<T>(&self, app: &App, act: impl FnOnce(&Picture) -> T) -> T {
        let own = (self.projects() && !app.tells()).then(|| app.slide_saying(String::new()));
        let picture = app.picture();
        act(&Picture { slide: picture.slide.or(own.as_ref()), ..picture })
    }
}
