//! What a pane lays over the drawing: the page's own, in no document.

use super::Page;
use kernel::Layout;

/// What is laid over the drawing while a pane is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LaidOver {
    /// The boxes in which a search may move joints.
    pub boxes: bool,
    /// An axle that is offered in place of the present one.
    pub offered: Option<Box<Layout>>,
}

impl Page {
    /// Lays this over the drawing, in place of what was.
    pub fn lay_over(&self, over: LaidOver) {
        if *self.0.laid_over.borrow() != over {
            self.0.laid_over.replace(over);
            self.change();
        }
    }

    /// What is laid over it.
    pub fn laid_over(&self) -> LaidOver {
        self.0.laid_over.borrow().clone()
    }
}
