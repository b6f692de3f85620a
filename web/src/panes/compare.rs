//! The dialog that compares the present axle with others: a demo, the start, a file, a link, laid over it or put beside it.

use super::strip::read_file;
use crate::app::{About, Beside, Build, Message, Say};
use crate::browser::dom::{find, make, on, set};
use crate::browser::page::Page;
use crate::content::demos::{self, DEMOS};
use crate::link;
use kernel::Layout;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlDialogElement, HtmlElement, HtmlInputElement};

/// The button of each way to compare, its words, and whether it puts axles beside the present one.
const WAYS: [(&str, &str, bool); 2] =
    [("compare-over", "compare-over-says", false), ("compare-beside", "compare-beside-says", true)];

/// What only one way has: a button, and whether it is the way of axles side by side.
const ONLY: [(&str, bool); 3] = [("compare-swap", false), ("compare-none", false), ("compare-three", true)];

/// The three that tell the story, by their places among the demos: strut, two wishbones, four arms.
const THREE: [usize; 3] = [0, 1, 4];

/// Gives the dialog its work.
pub fn furnish(page: &Page) {
    let opened = page.clone();
    on(&find::<Element>("compare"), "click", move |_: Event| open(&opened));
    for (button, _, beside) in WAYS {
        on(&find::<Element>(button), "click", move |_: Event| choose(beside));
    }
    choose(false);
    for (index, (name, _)) in DEMOS.iter().enumerate() {
        let button: Element = make(&find::<Element>("compare-demos"), "button");
        button.set_text_content(Some(name));
        let page = page.clone();
        on(&button, "click", move |_: Event| put(&page, demos::layout(index)));
    }
    let start = page.clone();
    on(&find::<Element>("compare-start"), "click", move |_: Event| {
        put(&start, Some(start.with(|app| app.opened().layout.clone())));
    });
    let now = page.clone();
    on(&find::<Element>("compare-now"), "click", move |_: Event| {
        done(&now, if beside() { Beside::Now.into() } else { Build::CompareNow.into() });
    });
    let three = page.clone();
    on(&find::<Element>("compare-three"), "click", move |_: Event| {
        let own = three.with(|app| app.document.layout.clone());
        let others = THREE.into_iter().filter_map(demos::layout).filter(|layout| *layout != own);
        done(&three, Beside::Add(others.collect()).into());
    });
    for (id, message) in [("compare-swap", About::Swap), ("compare-none", About::Compare(None))] {
        let page = page.clone();
        on(&find::<Element>(id), "click", move |_: Event| done(&page, message.clone().into()));
    }
    take_file(page);
    take_link(page);
}

fn take_file(page: &Page) {
    let file: HtmlInputElement = find("file-compared");
    let picker = file.clone();
    on(&find::<Element>("compare-file"), "click", move |_: Event| picker.click());
    let (picked, opened) = (file.clone(), page.clone());
    on(&file, "change", move |_: Event| {
        if let Some(file) = picked.files().and_then(|files| files.get(0)) {
            let page = opened.clone();
            spawn_local(async move {
                match read_file(file).await {
                    Ok((document, _)) => put(&page, Some(document.layout)),
                    Err(sentence) => page.send(Say::Sentence(sentence)),
                }
            });
        }
        picked.set_value("");
    });
}

fn take_link(page: &Page) {
    let (field, linked) = (find::<HtmlInputElement>("compare-link"), page.clone());
    let typed = field.clone();
    on(&field, "change", move |_: Event| {
        let text = typed.value();
        // Of a whole address, what stands behind # or ?.
        let parameters = text.split_once(['#', '?']).map_or(text.as_str(), |(_, rest)| rest);
        match link::read(parameters) {
            Some((document, faults)) if faults.is_empty() => put(&linked, Some(document.layout)),
            Some((_, faults)) if parameters.contains("wheel=") => {
                linked.send(Say::Sentence(format!("This link can’t be compared. {}", faults.join("\n"))));
            }
            _ => linked.send(Say::Sentence("This link contains no axle: there is nothing usable after its #.".into())),
        }
        typed.set_value("");
    });
}

fn open(page: &Page) {
    // Fails only if it is open already.
    let _ = find::<HtmlDialogElement>("compare-page").show_modal();
    // Its table is filled while it is open.
    page.change();
}

/// Opens it to put one more axle beside the others.
pub fn open_beside(page: &Page) {
    choose(true);
    open(page);
}

/// Chooses the way to compare.
fn choose(to_be_beside: bool) {
    for (button, says, beside) in WAYS {
        let chosen = beside == to_be_beside;
        set(&find::<Element>(button), "aria-pressed", if chosen { "true" } else { "false" });
        find::<HtmlElement>(says).set_hidden(!chosen);
    }
    for (button, beside) in ONLY {
        find::<HtmlElement>(button).set_hidden(beside != to_be_beside);
    }
}

/// True if axles are to stand side by side.
fn beside() -> bool {
    find::<Element>("compare-beside").get_attribute("aria-pressed").is_some_and(|pressed| pressed == "true")
}

/// Lays an axle over the present one, or puts it beside, as is chosen.
fn put(page: &Page, layout: Option<Layout>) {
    let message: Message = match beside() {
        true => Beside::Add(layout.into_iter().collect()).into(),
        false => About::Compare(layout.map(Box::new)).into(),
    };
    done(page, message);
}

/// What is laid over is seen on the drawing, what is beside in the row.
fn done(page: &Page, message: Message) {
    page.send(message);
    find::<HtmlDialogElement>("compare-page").close();
    page.show_row(beside());
}
