//! A box that takes words.

use crate::browser::dom::{find, on};
use crate::browser::page::Page;
use kernel::clean;
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement};

/// Shows a text and takes a typed one.
pub struct TextBox {
    input: HtmlInputElement,
    shown: RefCell<String>,
}

impl TextBox {
    /// The box or text area of this id. What is typed is cleaned as the words of files and links are.
    pub fn new(page: &Page, id: &str, take: impl Fn(&Page, String) + 'static) -> TextBox {
        // A text area is no input element, but has its text in a property of the same name.
        let input: HtmlInputElement = find::<Element>(id).unchecked_into();
        let (page, typed) = (page.clone(), input.clone());
        on(&input, "change", move |_: Event| {
            take(&page, clean(&typed.value()));
        });
        TextBox { input, shown: RefCell::default() }
    }

    /// Shows a text. One being typed stays until another than the last takes its place.
    pub fn show(&self, text: &str) {
        let mut shown = self.shown.borrow_mut();
        if *shown != text {
            self.input.set_value(text);
            text.clone_into(&mut shown);
        }
    }
}
