//! The axles side by side: whether they are shown, how they are seen and on which sheet; kept while the page is open, in no link.

use super::{Page, address};
use crate::app::App;
use crate::drawing::{P, Picture, Sheet, Turn, View};
use crate::exchange::row::Seen;
use std::cell::{Cell, RefCell};

/// What the page keeps of them.
pub(super) struct Row {
    /// The drawing has its place back.
    put_away: Cell<bool>,
    view: Cell<View>,
    turn: Cell<Turn>,
    /// Where there is room for two only: which of the others is shown.
    chosen: Cell<usize>,
    /// The paper that all are drawn on; `None` until it is fitted.
    sheet: RefCell<Option<Sheet>>,
}

impl Row {
    pub fn new() -> Row {
        Row {
            put_away: Cell::new(false),
            view: Cell::new(View::Front),
            turn: Cell::new(Turn::ISOMETRIC),
            chosen: Cell::new(0),
            sheet: RefCell::default(),
        }
    }
}

impl Page {
    /// True while axles stand side by side in the place of the drawing: not while slides are shown, nor in another page.
    pub fn shows_row(&self, app: &App) -> bool {
        !app.document.beside.is_empty() && !self.0.row.put_away.get() && !self.projects() && !address::embedded()
    }

    /// Shows them, or gives the drawing its place back.
    pub fn show_row(&self, shown: bool) {
        self.0.row.put_away.set(!shown);
        self.refit();
    }

    /// How all of them are seen.
    pub fn row_seen(&self) -> Seen {
        let row = &self.0.row;
        Seen { view: row.view.get(), turn: row.turn.get() }
    }

    /// Shows them all in another view.
    pub fn set_row_view(&self, view: View) {
        self.0.row.view.set(view);
        self.refit();
    }

    /// Turns the pictorial views, all alike.
    pub fn turn_row(&self, turn: Turn) {
        self.0.row.turn.set(turn);
        let turned = self.row_sheet().map(|sheet| sheet.turned(turn));
        self.0.row.sheet.replace(turned);
        self.change();
    }

    /// Which of the others is shown where there is room for two only.
    pub fn chosen_in_row(&self) -> usize {
        self.0.row.chosen.get()
    }

    /// Chooses it.
    pub fn choose_in_row(&self, which: usize) {
        self.0.row.chosen.set(which);
        self.refit();
    }

    /// The paper that all are drawn on.
    pub fn row_sheet(&self) -> Option<Sheet> {
        self.0.row.sheet.borrow().clone()
    }

    /// Moves, zooms or turns it.
    pub fn set_row_sheet(&self, sheet: Sheet) {
        let row = &self.0.row;
        if row.view.get() == View::Pictorial {
            row.turn.set(sheet.turn());
        }
        row.sheet.replace(Some(sheet));
        self.change();
    }

    /// The paper, fitted to these if it is not yet.
    pub fn fit_row(&self, size: P, pictures: &[Picture]) -> Sheet {
        let Seen { view, turn } = self.row_seen();
        let kept = self.row_sheet().filter(|sheet| sheet.size == size);
        let sheet = kept.unwrap_or_else(|| Sheet::shared(size, view, turn, pictures));
        self.0.row.sheet.replace(Some(sheet.clone()));
        sheet
    }

    /// Its paper is to be fitted anew.
    pub(super) fn unfit_row(&self) {
        self.0.row.sheet.replace(None);
    }
}
