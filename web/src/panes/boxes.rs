//! Furniture that panes share: boxes for the numbers of a part, a choice, a tick for a part, a place for a drawing.

use super::number_box::NumberBox;
use crate::app::{Message, Part};
use crate::browser::dom::{find, make, on};
use crate::browser::page::Page;
use crate::document::Document;
use kernel::Layout;
use kernel::field::Field;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement};

/// A number that is no layout's, so that no table has it: its box's title, how it is read and how it is written.
pub type Number<T> = (&'static str, fn(&T) -> f64, fn(&mut T, f64));

/// What reads a number, and its box.
type Boxed<T> = (fn(&T) -> f64, NumberBox);

/// Boxes for the numbers of one part.
pub struct Boxes<T>(Vec<Boxed<T>>);

impl<T: 'static> Boxes<T> {
    /// Furnishes a place with them: for a layout's part, by its table. Without a part they take nothing.
    pub fn new<M: Into<Message> + 'static>(
        page: &Page,
        place: &str,
        fields: impl IntoIterator<Item = &'static Field<T>>,
        of: fn(&Document) -> Option<T>,
        message: fn(T) -> M,
    ) -> Boxes<T> {
        let place: Element = find(place);
        let boxes = fields
            .into_iter()
            .map(|field| (field.get, number_box(page, &place, &field.title(), field.set, of, message)));
        Boxes(boxes.collect())
    }

    /// The same for other numbers of the document.
    pub fn of_numbers<M: Into<Message> + 'static>(
        page: &Page,
        place: &str,
        numbers: &[Number<T>],
        of: fn(&Document) -> Option<T>,
        message: fn(T) -> M,
    ) -> Boxes<T> {
        let place: Element = find(place);
        let boxes = numbers.iter().map(|(name, get, set)| (*get, number_box(page, &place, name, *set, of, message)));
        Boxes(boxes.collect())
    }

    /// Shows the numbers of a part; zeros without one.
    pub fn show(&self, part: Option<&T>) {
        for (get, number) in &self.0 {
            let text = format!("{:.4}", part.map_or(0.0, get));
            number.show(text.trim_end_matches('0').trim_end_matches('.'));
        }
    }
}

/// One box: what is typed is written into the part that the document then has.
fn number_box<T: 'static, M: Into<Message> + 'static>(
    page: &Page,
    place: &Element,
    title: &str,
    set: fn(&mut T, f64),
    of: fn(&Document) -> Option<T>,
    message: fn(T) -> M,
) -> NumberBox {
    NumberBox::named(page, place, title, move |page, value| {
        if let Some(mut part) = page.with(|app| of(&app.document)) {
            set(&mut part, value);
            page.send(message(part));
        }
    })
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
pub fn choice(page: &Page, id: &str, names: &[&str], choose: impl Fn(&Page, usize) + 'static) -> HtmlSelectElement {
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
