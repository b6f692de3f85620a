//! A box that takes a number as people write it.

use crate::app::Say;
use crate::browser::dom::{Listener, document, make, set};
use crate::browser::page::Page;
use crate::input::pointer::step;
use crate::text::number::parse;
use kernel::clip;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlInputElement, KeyboardEvent};

/// Shows a number and takes a typed one, decimal comma or point. What is no number is said, and the box shows the old one.
pub struct NumberBox {
    /// The box.
    pub input: HtmlInputElement,
    shown: Rc<RefCell<String>>,
    take: Rc<Take>,
    listeners: Vec<Listener>,
}

/// What is done with a typed number.
type Take = dyn Fn(&Page, Option<f64>);

impl NumberBox {
    /// A box at the end of `parent`; `label` tells the screen reader and the sentence what it is.
    pub fn new(page: &Page, parent: &Element, label: &str, take: impl Fn(&Page, f64) + 'static) -> NumberBox {
        let said = label.to_string();
        NumberBox::optional(page, parent, label, move |page, value| match value {
            Some(value) => take(page, value),
            None => page.send(Say::Sentence(format!("“” is not a number ({said})."))),
        })
    }

    /// The same for a number that there need not be: what is taken from an emptied box is `None`.
    pub fn optional(
        page: &Page,
        parent: &Element,
        label: &str,
        take: impl Fn(&Page, Option<f64>) + 'static,
    ) -> NumberBox {
        let input: HtmlInputElement = make(parent, "input");
        for (name, value) in
            [("class", "box"), ("inputmode", "decimal"), ("autocomplete", "off"), ("aria-label", label)]
        {
            set(&input, name, value);
        }
        let shown = Rc::new(RefCell::new(String::new()));
        let take: Rc<Take> = Rc::new(take);
        let (page, typed, before, label) = (page.clone(), input.clone(), shown.clone(), label.to_string());
        let taken = take.clone();
        let change = Listener::new(&input, "change", move |_: Event| {
            let text = typed.value();
            // A box left as it was must not round the number behind it to the decimals it shows.
            if text != *before.borrow() {
                match parse(&text) {
                    Some(value) => taken(&page, Some(value)),
                    None if text.trim().is_empty() => taken(&page, None),
                    None => page.send(Say::Sentence(format!("“{}” is not a number ({label}).", clip(&text)))),
                }
            }
            // What was refused or rounded shows what stands; if it changed, the next frame brings it.
            typed.set_value(&before.borrow());
            before.borrow_mut().clear();
        });
        NumberBox { input, shown, take, listeners: vec![change] }
    }

    /// The same box, in which the arrow keys step up and down by 1 mm (0.05 inch, 1°), with Shift 10, with Alt 0.1.
    pub fn stepped(mut self, page: &Page) -> NumberBox {
        let (page, typed, take) = (page.clone(), self.input.clone(), self.take.clone());
        self.listeners.push(Listener::new(&self.input, "keydown", move |event: KeyboardEvent| {
            let sign = match event.key().as_str() {
                "ArrowUp" => 1.0,
                "ArrowDown" => -1.0,
                _ => return,
            };
            if let Some(value) = parse(&typed.value()).filter(|_| !typed.read_only()) {
                event.prevent_default();
                let by = page.with(|app| app.document.units.step()) * step(event.shift_key(), event.alt_key());
                take(&page, Some(value + sign * by));
            }
        }));
        self
    }

    /// A box behind its name, in a label of its own.
    pub fn named(page: &Page, parent: &Element, name: &str, take: impl Fn(&Page, f64) + 'static) -> NumberBox {
        let place: Element = make(parent, "label");
        make::<Element>(&place, "span").set_text_content(Some(name));
        NumberBox::new(page, &place, name, take)
    }

    /// Shows a number, unless somebody is typing.
    pub fn show(&self, text: &str) {
        let mut shown = self.shown.borrow_mut();
        if *shown == text {
            return;
        }
        let typing = document().active_element().as_ref() == Some(self.input.as_ref()) && self.input.value() != *shown;
        if !typing || shown.is_empty() {
            self.input.set_value(text);
        }
        text.clone_into(&mut shown);
    }
}
