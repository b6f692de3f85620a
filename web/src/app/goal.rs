//! The goal that is searched for: what its readings are now, and an answer's axle where the car is shown.

use super::App;
use crate::document::Document;
use crate::document::goal::{Aim, Goal};
use crate::study::Solved;
use kernel::vary::{Outcome, read};
use kernel::{Layout, LeftOrRight};
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

/// What has been asked of the present state.
#[derive(Default)]
pub(super) struct AskedGoal {
    aimed: OnceCell<Vec<Vec<Option<f64>>>>,
    previewed: RefCell<Option<(Layout, Option<Rc<Solved>>)>>,
}

impl App {
    /// The goal; an empty one where none is kept.
    pub fn goal(&self) -> Goal {
        self.document.papers.goal.as_deref().cloned().unwrap_or_default()
    }

    /// What each aim's reading is now at each of its places, on the left wheel; nothing where the axle can't be at one of them.
    pub fn aimed(&self) -> &[Vec<Option<f64>>] {
        let layout = &self.document.layout;
        let now = |aim: &Aim| {
            let Some(quantity) = aim.quantity() else { return Vec::new() };
            let place = |travel: &f64| Outcome { quantity, side: LeftOrRight::Left, travel: *travel, rack: aim.rack };
            read(layout, &aim.travel.iter().map(place).collect::<Vec<_>>()).unwrap_or_default()
        };
        self.asked.goal.aimed.get_or_init(|| self.goal().aims.iter().map(now).collect())
    }

    /// Another axle in this one's place, to be drawn over it; `None` where it can't be there.
    pub fn previewed(&self, layout: &Layout) -> Option<Rc<Solved>> {
        let mut previewed = self.asked.goal.previewed.borrow_mut();
        if let Some((_, solved)) = previewed.as_ref().filter(|(of, _)| of == layout) {
            return solved.clone();
        }
        let document = Document { layout: layout.clone(), ..self.document.clone() };
        let solved = Solved::new(&document, None).ok().map(Rc::new);
        *previewed = Some((layout.clone(), solved.clone()));
        solved
    }
}
