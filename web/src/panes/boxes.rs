//! Furniture that panes share: boxes for the numbers of a part, a choice, a tick for a part, a place for a drawing.

use super::number_box::NumberBox;
use crate::app::{Message, Part};
use crate::browser::dom::{find, make, on};
use crate::browser::page::Page;
use crate::document::Document;
use kernel::Layout;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement};

/// A box with its name, for one number of a part of the document.
pub type Field<T> = (&'static str, fn(&T) -> f64, fn(&mut T, f64));

/// Boxes for the numbers of one part.
pub struct Boxes<T: 'static> {
    fields: &'static [Field<T>],
    boxes: Vec<NumberBox>,
}

impl<T: Copy + 'static> Boxes<T> {
    /// Furnishes a place with them.
    pub fn new<M: Into<Message> + 'static>(
        page: &Page,
        place: &str,
        fields: &'static [Field<T>],
        of: fn(&Document) -> T,
        message: fn(T) -> M,
    ) -> Boxes<T> {
        let place: Element = find(place);
        let boxes = fields.iter().map(|&(name, _, write)| {
            NumberBox::named(page, &place, name, move |page, value| {
                let mut part = page.with(|app| of(&app.document));
                write(&mut part, value);
                page.send(message(part));
            })
        });
        Boxes { fields, boxes: boxes.collect() }
    }

    /// Shows the numbers of a part.
    pub fn show(&self, part: &T) {
        for ((_, read, _), number) in self.fields.iter().zip(&self.boxes) {
            let text = format!("{:.4}", read(part));
            number.show(text.trim_end_matches('0').trim_end_matches('.'));
        }
    }
}

/// A section that folds: what it shows is worked out only while it is open.
pub struct Fold(Option<Element>);

impl Fold {
    /// The section that an element is in.
    pub fn around(page: &Page, id: &str) -> Fold {
        let section = find::<Element>(id).closest("details").ok().flatten();
        if let Some(section) = &section {
            let page = page.clone();
            on(section, "toggle", move |_: Event| page.change());
        }
        Fold(section)
    }

    /// True while it is open.
    pub fn is_open(&self) -> bool {
        self.0.as_ref().is_none_or(|section| section.has_attribute("open"))
    }
}

/// A choice from a list.
pub fn choice(page: &Page, id: &str, names: &[&str], choose: fn(&Page, usize)) -> HtmlSelectElement {
    let select: HtmlSelectElement = find(id);
    for name in names {
        make::<Element>(&select, "option").set_text_content(Some(name));
    }
    let (page, chosen) = (page.clone(), select.clone());
    on(&select, "change", move |_: Event| choose(&page, usize::try_from(chosen.selected_index()).unwrap_or_default()));
    select
}

/// A box to tick for a part that a layout can have or lack.
pub fn part(page: &Page, id: &str, make: fn(&Layout, bool) -> Part) -> HtmlInputElement {
    let tick: HtmlInputElement = find(id);
    let (page, ticked) = (page.clone(), tick.clone());
    on(&tick, "change", move |_: Event| {
        let message = page.with(|app| make(&app.document.layout, ticked.checked()));
        page.send(message);
    });
    tick
}

/// A place for a drawing, written anew only when it changes.
pub struct Markup {
    place: Element,
    last: RefCell<String>,
}

impl Markup {
    /// The place of this id.
    pub fn new(id: &str) -> Markup {
        Markup { place: find(id), last: RefCell::default() }
    }

    /// Shows a drawing.
    pub fn show(&self, svg: String) {
        if *self.last.borrow() != svg {
            self.place.set_inner_html(&svg);
            self.last.replace(svg);
        }
    }
}
