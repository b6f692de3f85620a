//! Where the pictorial view stands on the page, and from where it is seen: kept while the page is open, in no link.

use super::{DRAWER, Page, shows_all};
use crate::app::App;
use crate::drawing::{Arrangement, P, Sheet, Turn};
use std::cell::{Cell, RefCell};

/// On a small screen the buttons that choose the view stand above it, px.
const SWITCH: f64 = 52.0;

/// What the page keeps of it.
pub(super) struct Pictorial {
    /// It has the other views' place.
    pub alone: Cell<bool>,
    turn: Cell<Turn>,
    tyre: Cell<bool>,
    /// Its corner on the sheet, px, and its own paper; `None` while it is not shown.
    place: RefCell<Option<(P, Sheet)>>,
}

impl Pictorial {
    pub fn new() -> Pictorial {
        Pictorial {
            alone: Cell::new(false),
            turn: Cell::new(Turn::ISOMETRIC),
            tyre: Cell::new(true),
            place: RefCell::default(),
        }
    }
}

impl Page {
    /// The pictorial view's corner on the sheet, px, and its paper, while it is shown.
    pub fn pictorial(&self) -> Option<(P, Sheet)> {
        self.0.pictorial.place.borrow().clone()
    }

    /// How it is seen, for pictures, prints and films of what the page shows; `None` while it is not shown.
    pub fn seen(&self) -> Option<Arrangement> {
        let (_, sheet) = self.pictorial()?;
        Some(Arrangement::Pictorial { turn: sheet.turn(), tyre: sheet.shows_tyre() })
    }

    /// True while it has the place of front and plan view, or on a small screen of the one view.
    pub fn is_alone(&self) -> bool {
        self.0.pictorial.alone.get()
    }

    /// Gives it that place, or takes it back.
    pub fn set_alone(&self, alone: bool) {
        self.0.pictorial.alone.set(alone);
        self.refit();
    }

    /// Turns, moves or zooms it; the page does not draw it yet.
    pub fn set_pictorial(&self, sheet: Sheet) {
        self.0.pictorial.turn.set(sheet.turn());
        self.0.pictorial.tyre.set(sheet.shows_tyre());
        if let Some((_, old)) = &mut *self.0.pictorial.place.borrow_mut() {
            *old = sheet;
        }
    }

    /// Fits it to its place as it is seen from there.
    pub fn fit_pictorial(&self, turn: Turn) {
        if let Some((_, sheet)) = self.pictorial() {
            let arrangement = Arrangement::Pictorial { turn, tyre: sheet.shows_tyre() };
            self.set_pictorial(self.with(|app| Sheet::fit(sheet.size, arrangement, &app.picture())));
        }
    }

    /// Finds its place on a sheet of a size, beside the views that have just been arranged there.
    pub(super) fn place_pictorial(&self, size: P, app: &App) {
        let kept = &self.0.pictorial;
        let area = match (kept.alone.get(), shows_all()) {
            // A slide has it among its views.
            _ if self.projects() => None,
            (false, _) => self.sheet().and_then(|sheet| sheet.cell()),
            (true, false) => Some([[0.0, SWITCH], size]),
            // The side view keeps its place over the drawer.
            (true, true) => {
                Some([[if self.0.large.get() { f64::max(DRAWER[0], size[0] / 2.0) } else { DRAWER[0] }, 0.0], size])
            }
        };
        let arrangement = Arrangement::Pictorial { turn: kept.turn.get(), tyre: kept.tyre.get() };
        let place = area.map(|[corner, end]| {
            (corner, Sheet::fit([end[0] - corner[0], end[1] - corner[1]], arrangement, &app.picture()))
        });
        kept.place.replace(place);
    }
}
