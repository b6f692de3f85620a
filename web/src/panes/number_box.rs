//! A box that takes a number as people write it.

use super::typed_box::TypedBox;
use crate::app::Say;
use crate::browser::dom::{Listener, make};
use crate::browser::page::Page;
use crate::input::pointer::step;
use crate::text::number::parse;
use crate::text::unbroken::unbroken;
use kernel::clip;
use std::rc::Rc;
use web_sys::{Element, HtmlInputElement, KeyboardEvent};

/// Shows a number and takes a typed one, decimal comma or point. What is no number is said, and the box shows the old one.
pub struct NumberBox {
    /// The box.
    pub input: HtmlInputElement,
    text: TypedBox,
    take: Rc<Take>,
    _steps: Option<Listener>,
}

/// What is done with a typed number; `None` where the box was emptied.
type Take = dyn Fn(&Page, Option<f64>);

impl NumberBox {
    /// A box at the end of `parent`; `label` tells the screen reader and the sentence what it is.
    pub fn new(page: &Page, parent: &Element, label: &str, take: impl Fn(&Page, f64) + 'static) -> NumberBox {
        NumberBox::with(page, parent, label, false, move |page, value| {
            if let Some(value) = value {
                take(page, value);
            }
        })
    }

    /// The same box, which may be empty.
    pub fn blank(page: &Page, parent: &Element, label: &str, take: impl Fn(&Page, Option<f64>) + 'static) -> NumberBox {
        NumberBox::with(page, parent, label, true, take)
    }

    fn with(
        page: &Page,
        parent: &Element,
        label: &str,
        blank: bool,
        take: impl Fn(&Page, Option<f64>) + 'static,
    ) -> NumberBox {
        let take: Rc<Take> = Rc::new(take);
        let (taken, name) = (take.clone(), label.to_string());
        let text = TypedBox::new(page, parent, label, move |page, text| match parse(text) {
            None if blank && text.trim().is_empty() => taken(page, None),
            Some(value) => taken(page, Some(value)),
            None => page.send(Say::Sentence(format!("“{}” is not a number ({name}).", clip(text)))),
        });
        NumberBox { input: text.input.clone(), text, take, _steps: None }
    }

    /// The same box, in which the arrow keys step up and down by 1 mm (0.05 inch, 1°), with Shift 10, with Alt 0.1.
    pub fn stepped(mut self, page: &Page) -> NumberBox {
        let (page, typed, take) = (page.clone(), self.input.clone(), self.take.clone());
        self._steps = Some(Listener::new(&self.input, "keydown", move |event: KeyboardEvent| {
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
        make::<Element>(&place, "span").set_text_content(Some(&unbroken(name)));
        NumberBox::new(page, &place, name, take)
    }

    /// Shows a number, unless somebody is typing.
    pub fn show(&self, text: &str) {
        self.text.show(text);
    }
}
