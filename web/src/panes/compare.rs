//! The dialog that lays another axle over the present one: a demo, the start, a file, a link; swaps them, or takes it off.

use super::strip::read_file;
use crate::app::{About, Build, Message, Say};
use crate::browser::dom::{find, make, on};
use crate::browser::page::Page;
use crate::content::demos::{self, DEMOS};
use crate::link;
use kernel::Layout;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlDialogElement, HtmlInputElement};

/// Gives the dialog its work.
pub fn furnish(page: &Page) {
    let opened = page.clone();
    on(&find::<Element>("compare"), "click", move |_: Event| {
        // Fails only if it is open already.
        let _ = find::<HtmlDialogElement>("compare-page").show_modal();
        // Its table is filled while it is open.
        opened.change();
    });
    for (index, (name, _)) in DEMOS.iter().enumerate() {
        let button: Element = make(&find::<Element>("compare-demos"), "button");
        button.set_text_content(Some(name));
        let page = page.clone();
        on(&button, "click", move |_: Event| lay(&page, demos::layout(index)));
    }
    let start = page.clone();
    on(&find::<Element>("compare-start"), "click", move |_: Event| {
        lay(&start, Some(start.with(|app| app.opened().layout.clone())));
    });
    for (id, message) in [
        ("compare-now", Message::from(Build::CompareNow)),
        ("compare-swap", About::Swap.into()),
        ("compare-none", About::Compare(None).into()),
    ] {
        let page = page.clone();
        on(&find::<Element>(id), "click", move |_: Event| {
            page.send(message.clone());
            done(&page);
        });
    }
    let file: HtmlInputElement = find("file-compared");
    let picker = file.clone();
    on(&find::<Element>("compare-file"), "click", move |_: Event| picker.click());
    let (picked, opened) = (file.clone(), page.clone());
    on(&file, "change", move |_: Event| {
        if let Some(file) = picked.files().and_then(|files| files.get(0)) {
            let page = opened.clone();
            spawn_local(async move {
                match read_file(file).await {
                    Ok((document, _)) => lay(&page, Some(document.layout)),
                    Err(sentence) => page.send(Say::Sentence(sentence)),
                }
            });
        }
        picked.set_value("");
    });
    let (field, linked) = (find::<HtmlInputElement>("compare-link"), page.clone());
    let typed = field.clone();
    on(&field, "change", move |_: Event| {
        let text = typed.value();
        // Of a whole address, what stands behind # or ?.
        let parameters = text.split_once(['#', '?']).map_or(text.as_str(), |(_, rest)| rest);
        match link::read(parameters) {
            Some((document, faults)) if faults.is_empty() => lay(&linked, Some(document.layout)),
            Some((_, faults)) if parameters.contains("wheel=") => {
                linked.send(Say::Sentence(format!("This link can’t be compared. {}", faults.join("\n"))));
            }
            _ => linked.send(Say::Sentence("This link contains no axle: there is nothing usable after its #.".into())),
        }
        typed.set_value("");
    });
}

fn lay(page: &Page, layout: Option<Layout>) {
    page.send(About::Compare(layout.map(Box::new)));
    done(page);
}

fn done(page: &Page) {
    find::<HtmlDialogElement>("compare-page").close();
    page.refit();
}
