//! A group of readings that begins folded.

use crate::app::{App, Fold};
use crate::browser::dom::{Shown, make, on, set};
use crate::browser::page::Page;
use kernel::Group;
use web_sys::{Element, Event};

/// A group whose readings take more to solve than the state has: its rows are shown, and solved, once its heading is pressed.
pub struct FoldedGroup {
    group: Group,
    body: Shown,
    expanded: Shown,
}

impl FoldedGroup {
    /// With its heading, and the sentence of a layout in which nothing gives way.
    pub fn new(page: &Page, body: &Element, heading: &Element, group: Group, name: &str) -> FoldedGroup {
        let button: Element = make(heading, "button");
        button.set_text_content(Some(name));
        let page = page.clone();
        on(&button, "click", move |_: Event| page.send(Fold(group)));
        if group == Group::Compliance {
            let cell: Element = make(&make::<Element>(body, "tr"), "td");
            set(&cell, "class", "rigid");
            set(&cell, "colspan", "6");
            cell.set_text_content(Some("Nothing in this layout gives way."));
        }
        FoldedGroup {
            group,
            body: Shown::attribute(body.clone(), "class"),
            expanded: Shown::attribute(button, "aria-expanded"),
        }
    }

    /// Shows whether it is open.
    pub fn show(&self, app: &App) {
        let open = app.unfolds(self.group);
        self.expanded.show(if open { "true" } else { "false" });
        self.body.show(match self.group {
            _ if !open => "folded",
            Group::Compliance if !app.study.good.axle.gives_way() => "stiff",
            _ => "",
        });
    }
}
