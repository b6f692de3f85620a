//! The page in another page: little chrome, and messages in and out, version 1.
//!
//! In: `{ghostpin: 1, open: "<a link's parameters>"}` opens a state. Out, to the embedding page, whenever the drawing comes to rest:
//! `{ghostpin: 1, parameters: "…", readings: {camber_deg: …, …}}`, `null` for what the axle does not have, for what a lesson hides, and for the whole
//! axle's readings while one wheel is shown. In an exercise also `result: {task, checked, passed, by, marks: ["…", …]}`, its marks in sentences once
//! they have been asked for; the parameters are then the hand-in. A state is all that can be
//! sent, and it passes the reader of links, so the sender need not be trusted; what is told is no secret of anybody's.

use super::{Page, address, link};
use crate::app::Open;
use crate::browser::dom::{document, find, on, set, window};
use crate::browser::window::later;
use crate::study::marking::Marking;
use js_sys::{Array, Object, Reflect};
use wasm_bindgen::JsValue;
use web_sys::{Element, MessageEvent};

/// The version of the messages.
const VERSION: f64 = 1.0;

impl Page {
    /// Shows little, and listens, if the page is embedded.
    pub(super) fn embed(&self) {
        if !address::embedded() {
            return;
        }
        if let Some(body) = document().body() {
            body.set_class_name("embedded");
        }
        let page = self.clone();
        on(&window(), "message", move |event: MessageEvent| page.hear(&event.data()));
        self.show_way_out();
        let page = self.clone();
        later(0, move || page.tell_parent());
    }

    fn hear(&self, data: &JsValue) {
        let get = |name: &str| Reflect::get(data, &name.into()).ok();
        if get("ghostpin").and_then(|version| version.as_f64()) != Some(VERSION) {
            return;
        }
        if let Some((document, faults)) =
            get("open").and_then(|open| open.as_string()).and_then(|open| link::read(&open))
        {
            self.send(Open::Document(Box::new(document), faults));
        }
    }

    /// Tells the embedding page what is shown.
    pub(super) fn tell_parent(&self) {
        if !address::embedded() {
            return;
        }
        self.show_way_out();
        let (message, readings) = (Object::new(), Object::new());
        let put = |object: &Object, name: &str, value: &JsValue| {
            // Fails only on frozen objects.
            let _ = Reflect::set(object, &name.into(), value);
        };
        self.with(|app| {
            for (column, value) in app.readings() {
                put(&readings, column, &value.map_or(JsValue::NULL, JsValue::from_f64));
            }
            put(&message, "ghostpin", &VERSION.into());
            put(&message, "parameters", &link::write(&app.document).into());
            put(&message, "readings", &readings);
            if let Some(lesson) = app.document.lesson.as_ref().filter(|lesson| lesson.sealed()) {
                let (result, marking) = (Object::new(), app.marking());
                let marks = Array::new();
                for line in marking.map_or(Vec::new(), Marking::lines) {
                    marks.push(&line.into());
                }
                put(&result, "task", &lesson.title().into());
                put(&result, "checked", &marking.is_some().into());
                put(&result, "passed", &marking.is_some_and(Marking::passed).into());
                put(&result, "by", &app.document.answer.by.as_str().into());
                put(&result, "marks", &marks);
                put(&message, "result", &result);
            }
        });
        if let Ok(Some(parent)) = window().parent() {
            let _ = parent.post_message(&message, "*");
        }
    }

    /// *Open full* leads to the same state on a page of its own.
    fn show_way_out(&self) {
        set(&find::<Element>("open-full"), "href", &self.link());
    }
}
