//! Buttons of which one is pressed.

use crate::browser::dom::{Shown, find, on};
use crate::browser::page::Page;
use std::rc::Rc;
use web_sys::{Element, Event};

/// The buttons with what each stands for.
pub struct Pressed<T>(Vec<(T, Shown)>);

impl<T: Copy + PartialEq + 'static> Pressed<T> {
    /// Finds them on the page.
    pub fn new(page: &Page, buttons: &[(T, &str)], choose: impl Fn(&Page, T) + 'static) -> Pressed<T> {
        let choose = Rc::new(choose);
        let button = |&(value, id): &(T, &str)| {
            let (button, page, choose) = (find::<Element>(id), page.clone(), choose.clone());
            on(&button, "click", move |_: Event| choose(&page, value));
            (value, Shown::attribute(button, "aria-pressed"))
        };
        Pressed(buttons.iter().map(button).collect())
    }

    /// Shows which is.
    pub fn show(&self, chosen: T) {
        for (value, pressed) in &self.0 {
            pressed.show(if *value == chosen { "true" } else { "false" });
        }
    }
}
