//! The dialog of earlier visits: each can be opened, or laid over the present axle.

use crate::app::{About, Message, Open};
use crate::browser::dom::{Listener, find, make, on};
use crate::browser::page::Page;
use crate::browser::storage;
use crate::exchange::drafts;
use web_sys::{Element, Event, HtmlDialogElement};

/// Gives the dialog its work: its list is made each time it is opened.
pub fn furnish(page: &Page) {
    let page = page.clone();
    let mut listed = Vec::new();
    on(&find::<Element>("mine"), "click", move |_: Event| {
        listed.clear();
        listed = list(&page);
        // Fails only if it is open already.
        let _ = find::<HtmlDialogElement>("mine-page").show_modal();
    });
}

/// Makes the list; what hears its buttons.
fn list(page: &Page) -> Vec<Listener> {
    let rows: Element = find("mine-rows");
    rows.set_text_content(None);
    let mut listeners = Vec::new();
    let drafts = drafts::read(&storage::kept());
    let none = match (drafts.is_empty(), storage::works()) {
        (false, _) => "",
        (true, true) => "No drafts yet. Whatever you change will be saved here.",
        (true, false) => "This browser does not save drafts for this page; copy the link to keep your work.",
    };
    find::<Element>("mine-none").set_text_content(Some(none));
    for draft in drafts {
        let Some((document, says)) = draft.open() else { continue };
        let row: Element = make(&rows, "tr");
        let when = js_sys::Date::new(&draft.began.into()).to_locale_string("default", &js_sys::Object::new());
        make::<Element>(&row, "td").set_text_content(when.as_string().as_deref());
        let task = document.lesson.as_ref().map_or(String::new(), |lesson| format!(": {}", lesson.title()));
        make::<Element>(&row, "td").set_text_content(Some(&format!("{}{task}", document.layout.name)));
        let cell: Element = make(&row, "td");
        let layout = document.layout.clone();
        for (name, message) in [
            ("Open", Message::from(Open::Document(Box::new(document), says))),
            ("Compare", About::Compare(Some(Box::new(layout))).into()),
        ] {
            let button: Element = make(&cell, "button");
            button.set_text_content(Some(name));
            let page = page.clone();
            listeners.push(Listener::new(&button, "click", move |_: Event| {
                page.send(message.clone());
                find::<HtmlDialogElement>("mine-page").close();
                page.refit();
            }));
        }
    }
    listeners
}
