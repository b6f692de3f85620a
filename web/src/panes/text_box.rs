//! A box that takes words.

use crate::browser::dom::{document, find, on};
use crate::browser::page::Page;
use kernel::{clean, clean_lines};
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement};

/// Shows a text and takes a typed one.
pub struct TextBox {
    input: HtmlInputElement,
    shown: RefCell<String>,
    /// Every letter is taken, and what stands in the box is left alone while somebody types.
    live: bool,
}

/// What becomes of typed text.
type Clean = fn(&str) -> String;

impl TextBox {
    /// The box or text area of this id. What is typed is cleaned as the words of files and links are.
    pub fn new(page: &Page, id: &str, take: impl Fn(&Page, String) + 'static) -> TextBox {
        TextBox::on_event(page, id, "change", clean, take)
    }

    /// The same box, in which line breaks stay.
    pub fn lines(page: &Page, id: &str, take: impl Fn(&Page, String) + 'static) -> TextBox {
        TextBox::on_event(page, id, "change", clean_lines, take)
    }

    /// The same box, of which every letter is taken as it is typed, not only what stands in it when it is left.
    pub fn live(page: &Page, id: &str, take: impl Fn(&Page, String) + 'static) -> TextBox {
        let left = page.clone();
        on(&find::<Element>(id), "change", move |_: Event| left.change());
        TextBox { live: true, ..TextBox::on_event(page, id, "input", clean, take) }
    }

    fn on_event(page: &Page, id: &str, event: &str, clean: Clean, take: impl Fn(&Page, String) + 'static) -> TextBox {
        // A text area is no input element, but has its text in a property of the same name.
        let input: HtmlInputElement = find::<Element>(id).unchecked_into();
        let (page, typed) = (page.clone(), input.clone());
        on(&input, event, move |_: Event| {
            take(&page, clean(&typed.value()));
        });
        TextBox { input, shown: RefCell::default(), live: false }
    }

    /// Shows a text. One being typed stays until another than the last takes its place.
    pub fn show(&self, text: &str) {
        let typing = self.live && document().active_element().as_ref() == Some(self.input.as_ref());
        let mut shown = self.shown.borrow_mut();
        if *shown != text && !typing {
            self.input.set_value(text);
            text.clone_into(&mut shown);
        }
    }
}
