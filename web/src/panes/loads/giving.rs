//! What gives way under each load case: changes of toe, camber and caster against the rigid axle.

use crate::app::App;
use crate::browser::dom::find;
use crate::browser::page::Page;
use crate::panes::boxes::Fold;
use crate::panes::rows::Rows;
use crate::text::number::signed;
use kernel::UNDER_LOAD;
use web_sys::HtmlElement;

/// The table.
pub struct Giving {
    whole: HtmlElement,
    fold: Fold,
    rows: Rows,
}

/// The readings whose changes are told, in the order of [`UNDER_LOAD`], and the decimals that they need.
const CHANGES: [(&str, usize); 3] = [("toe_deg", 2), ("camber_deg", 2), ("caster_deg", 2)];

impl Giving {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Giving {
        Giving { whole: find("given"), fold: Fold::around(page, "given-rows"), rows: Rows::new("given-rows") }
    }

    /// Shows it: nothing for a rigid axle.
    pub fn show(&self, app: &App) {
        let layout = &app.document.layout;
        let soft = !layout.stiffness.is_empty() || layout.subframe.is_some();
        self.whole.set_hidden(!soft);
        if !soft || !self.fold.is_open() {
            return;
        }
        let cell = |given: &crate::study::giving::Given, at: usize| {
            let (column, digits) = CHANGES[at];
            let value = given.change.as_ref().filter(|_| !app.hides(column)).and_then(|u| (UNDER_LOAD[at].value)(u));
            value.map_or("–".into(), |value| signed(value, digits) + "°")
        };
        let row = |given: &crate::study::giving::Given| {
            vec![given.name.to_string(), cell(given, 0), cell(given, 1), cell(given, 2)]
        };
        self.rows.show(app.given().iter().map(row).collect());
    }
}
