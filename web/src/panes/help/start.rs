//! The page of help that stands in the document: its words are in `help.html`, its pictures and its glossary are made by the program.

use crate::app::App;
use crate::browser::dom::{find, make, on, set};
use crate::browser::page::Page;
use crate::content::demos;
use crate::document::Document;
use crate::drawing::svg::svg;
use crate::drawing::{Arrangement, Sheet, View, draw};
use crate::link;
use kernel::READINGS;
use web_sys::{Element, Event, HtmlDialogElement};

/// Size of a picture, px.
const PICTURE: [f64; 2] = [340.0, 330.0];

/// The demos shown: a strut and four arms.
const SHOWN: [(usize, &str); 2] = [(0, "A strut over one wishbone, front view"), (4, "Four arms, front view")];

/// Gives it its content when it is first opened.
pub fn furnish(page: &Page) {
    if find::<Element>("help-words").child_element_count() == 0 {
        find::<Element>("help-version").set_text_content(Some(concat!("Ghostpin ", env!("CARGO_PKG_VERSION"))));
        words();
        prepared();
        pictures(page);
    }
}

/// Every reading: name, meaning, sign, other names.
fn words() {
    let table: Element = find("help-words");
    for reading in &READINGS {
        let row: Element = make(&table, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        heading.set_text_content(Some(reading.name));
        let text = format!("{} Positive: {}.", reading.meaning, reading.positive);
        for text in [text.as_str(), reading.also] {
            make::<Element>(&row, "td").set_text_content(Some(text));
        }
    }
}

/// The lowered car and its correction, a link each.
fn prepared() {
    let list: Element = find("help-prepared");
    for (name, document) in demos::lowered() {
        let anchor: Element = make(&make::<Element>(&list, "li"), "a");
        anchor.set_text_content(Some(name));
        set(&anchor, "href", &format!("#{}", link::write(&document)));
        on(&anchor, "click", |_: Event| find::<HtmlDialogElement>("help-page").close());
    }
}

fn pictures(page: &Page) {
    let place: Element = find("help-pictures");
    for (layout, name) in SHOWN.iter().filter_map(|(index, name)| Some((demos::layout(*index)?, name))) {
        let app = App::new(Document::of(layout), Vec::new());
        let sheet = Sheet::fit(PICTURE, Arrangement::One(View::Front), &app.picture());
        let figure: Element = make(&place, "figure");
        set(&figure, "role", "img");
        set(&figure, "aria-label", name);
        figure.set_inner_html(&svg(&draw(&app.picture(), &sheet), page.theme()));
    }
}
