//! A picture under a view: the page's own, in no document.

use super::Page;
use crate::browser::underlay::lay;
use crate::drawing::{Sheet, Underlay, View};
use web_sys::{CanvasRenderingContext2d, ImageBitmap};

/// A picture with its pixels.
pub(super) struct Photo {
    pixels: ImageBitmap,
    under: Underlay,
}

impl Drop for Photo {
    fn drop(&mut self) {
        // Not left to whoever collects garbage: it is megabytes.
        self.pixels.close();
    }
}

impl Page {
    /// Lays a picture under a view, in place of the one before, and shows that view.
    pub fn lay_under(&self, pixels: ImageBitmap, view: View) {
        self.set_view(view);
        let Some(sheet) = self.sheet() else { return };
        let size = [pixels.width(), pixels.height()].map(f64::from);
        let under = Underlay::new(size, view, &sheet);
        self.0.underlay.replace(Some(Photo { pixels, under }));
        self.change();
    }

    /// The picture under a view.
    pub fn underlay(&self) -> Option<Underlay> {
        self.0.underlay.borrow().as_ref().map(|photo| photo.under)
    }

    /// Moves it, marks places in it, has it seen more or less.
    pub fn set_underlay(&self, under: Underlay) {
        if let Some(photo) = &mut *self.0.underlay.borrow_mut() {
            photo.under = under;
        }
        self.change();
    }

    /// Takes it away.
    pub fn take_underlay_away(&self) {
        self.0.underlay.replace(None);
        self.change();
    }

    /// Lays it on the drawn canvas. A story is told without it: a film of one would have it.
    pub fn paint_underlay(&self, context: &CanvasRenderingContext2d, sheet: &Sheet, ratio: f64) {
        if let (Some(photo), None) = (&*self.0.underlay.borrow(), self.telling()) {
            lay(context, &photo.pixels, &photo.under, sheet, self.theme(), ratio);
        }
    }
}
