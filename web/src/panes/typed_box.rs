//! A box that takes what stands for a value, as people write it.

use crate::browser::dom::{Listener, document, make, set};
use crate::browser::page::Page;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlInputElement};

/// Shows a value as text and hands on what is typed over it. Whoever takes it says what is wrong with it; the box then shows the old one.
pub struct TypedBox {
    /// The box.
    pub input: HtmlInputElement,
    /// What stands in the box; `None` where that has to be written anew, for an empty box, too.
    shown: Rc<RefCell<Option<String>>>,
    _change: Listener,
}

impl TypedBox {
    /// A box at the end of `parent`; `label` tells the screen reader what it is.
    pub fn new(page: &Page, parent: &Element, label: &str, take: impl Fn(&Page, &str) + 'static) -> TypedBox {
        let input: HtmlInputElement = make(parent, "input");
        for (name, value) in
            [("class", "box"), ("inputmode", "decimal"), ("autocomplete", "off"), ("aria-label", label)]
        {
            set(&input, name, value);
        }
        let shown = Rc::new(RefCell::new(Some(String::new())));
        let (page, typed, before) = (page.clone(), input.clone(), shown.clone());
        let change = Listener::new(&input, "change", move |_: Event| {
            let text = typed.value();
            // A box left as it was must not round the number behind it to the decimals it shows.
            if before.borrow().as_deref() != Some(&*text) {
                take(&page, &text);
            }
            // What was refused or rounded shows what stands; if it changed, the next frame brings it.
            typed.set_value(before.take().as_deref().unwrap_or_default());
        });
        TypedBox { input, shown, _change: change }
    }

    /// Shows a value, unless somebody is typing.
    pub fn show(&self, text: &str) {
        let mut shown = self.shown.borrow_mut();
        if shown.as_deref() == Some(text) {
            return;
        }
        let before = shown.replace(text.into()).unwrap_or_default();
        let typing = document().active_element().as_ref() == Some(self.input.as_ref()) && self.input.value() != before;
        if !typing || before.is_empty() {
            self.input.set_value(text);
        }
    }
}
