//! The dialog of all that can be passed on.

use crate::app::App;
use crate::browser::address;
use crate::browser::dom::{find, on};
use crate::browser::files;
use crate::browser::page::Page;
use crate::browser::window::copy_png;
use crate::drawing::Theme;
use crate::drawing::svg::svg;
use crate::exchange::code::qr;
use crate::exchange::picture::picture;
use crate::exchange::post::{Markup, post, reply, snippet};
use crate::exchange::tables::{curves_csv, dxf, for_spreadsheet, points_csv};
use crate::link;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlDialogElement, HtmlInputElement};

/// A button, the file it offers, its kind, and what is in it.
type Saved = (&'static str, &'static str, &'static str, fn(&App, &Page) -> String);

const SAVED: [Saved; 4] = [
    ("pass-svg", "ghostpin.svg", "image/svg+xml", |app, page| {
        svg(&picture(app, &page.link(), page.seen()), Theme::LIGHT)
    }),
    ("pass-curves", "curves.csv", "text/csv", |app, _| table(&curves_csv(app))),
    ("pass-points", "points.csv", "text/csv", |app, _| table(&points_csv(&app.document.layout))),
    ("pass-dxf", "joints.dxf", "application/dxf", |app, _| dxf(app)),
];

/// A table as the reader's spreadsheet takes it.
fn table(csv: &str) -> String {
    for_spreadsheet(csv, find::<HtmlInputElement>("pass-comma").checked())
}

/// A button and the text it copies.
type Copied = (&'static str, fn(&App, &str) -> String);

const COPIED: [Copied; 5] = [
    ("pass-link", |_, link| link.to_string()),
    ("pass-plain", |app, link| post(app, link, Markup::Plain)),
    ("pass-markdown", |app, link| post(app, link, Markup::Markdown)),
    ("pass-bbcode", |app, link| post(app, link, Markup::BbCode)),
    ("pass-embed", |_, link| snippet(link)),
];

/// Gives the dialog its work.
pub fn furnish(page: &Page) {
    let opened = page.clone();
    on(&find::<Element>("pass-on"), "click", move |_: Event| {
        let link = opened.link();
        let code = qr(&link).map_or(String::new(), |scene| svg(&scene, Theme::LIGHT));
        find::<Element>("pass-qr").set_inner_html(&code);
        let length = format!(
            "The link has {} characters{}",
            link.len(),
            if code.is_empty() { ", too many for a QR code." } else { "." }
        );
        find::<Element>("pass-length").set_text_content(Some(&length));
        // Fails only if it is open already.
        let _ = find::<HtmlDialogElement>("pass-page").show_modal();
    });
    for (id, name, kind, make) in SAVED {
        let page = page.clone();
        on(&find::<Element>(id), "click", move |_: Event| {
            let text = page.with(|app| make(app, &page));
            files::save(name, kind, &text);
        });
    }
    let png = |page: &Page| page.with(|app| files::png(&picture(app, &page.link(), page.seen()), Theme::LIGHT));
    let saved = page.clone();
    on(&find::<Element>("pass-png"), "click", move |_: Event| {
        if let Some(png) = png(&saved) {
            spawn_local(async {
                let _ = files::save_png("ghostpin.png", png).await;
            });
        }
    });
    let drawn = page.clone();
    on(&find::<Element>("copy-png"), "click", move |_: Event| {
        let (page, png) = (drawn.clone(), png(&drawn));
        spawn_local(async move {
            let done = match png {
                Some(png) => copy_png(png).await,
                None => false,
            };
            page.tell(if done {
                "Picture copied"
            } else {
                "This browser can’t copy pictures; save the picture instead"
            });
        });
    });
    let copied = page.clone();
    on(&find::<Element>("pass-offline"), "click", move |_: Event| {
        let page = copied.clone();
        let shown = page.with(|app| link::write(&app.document));
        spawn_local(async move {
            match files::offline_copy(&shown).await {
                Some(copy) => drop(files::save("ghostpin.html", "text/html", &copy)),
                None => page.tell("An offline copy can’t be made from an offline copy; use the online page"),
            }
        });
    });
    let answered = page.clone();
    on(&find::<Element>("pass-reply"), "click", move |_: Event| match answered.with(reply) {
        Some(document) => answered.copy(address::link(&link::write(&document)), "Reply copied"),
        None => answered.tell("Nothing to reply with yet: the axle is as it was opened"),
    });
    for (id, make) in COPIED {
        let page = page.clone();
        on(&find::<Element>(id), "click", move |_: Event| {
            page.copy(page.with(|app| make(app, &page.link())), "Copied");
        });
    }
}
