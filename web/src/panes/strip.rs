//! The title strip: name, demos, commands.

use super::page;
use crate::app::Message;
use crate::browser::page::Page;
use crate::browser::{address, files, window};
use crate::demos::{self, DEMOS};
use leptos::ev::KeyboardEvent;
use leptos::html::Input;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// The title strip, and the keys that do the same.
#[component]
pub fn Strip() -> impl IntoView {
    let page = page();
    let file = NodeRef::<Input>::new();
    let open = move || {
        if let Some(input) = file.get_untracked() {
            input.click();
        }
    };
    let picked = move |_| {
        if let Some(input) = file.get_untracked() {
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                open_file(page, file);
            }
            // The same file can be picked again.
            input.set_value("");
        }
    };
    window_event_listener(leptos::ev::keydown, move |event| {
        if let Some(command) = command(&event) {
            event.prevent_default();
            command(page, &open);
        }
    });
    let name = move || page.with(|app| app.document.layout.name.clone());
    view! {
        <header class="strip">
            <h1>
                <input class="name" aria-label="Name of the layout" maxlength="120" prop:value=name
                    on:change=move |event| page.send(Message::Rename(event_target_value(&event)))/>
            </h1>
            <nav class="demos" aria-label="Demo layouts">
                {DEMOS.iter().enumerate().map(|(index, (name, _))| view! { <Demo index name/> }).collect_view()}
            </nav>
            <div class="commands">
                <button disabled=move || page.with(|app| !app.can_undo()) on:click=move |_| page.send(Message::Undo)>"Undo"<kbd>"Z"</kbd></button>
                <button disabled=move || page.with(|app| !app.can_redo()) on:click=move |_| page.send(Message::Redo)>"Redo"<kbd>"Y"</kbd></button>
                <button on:click=move |_| copy_link(page)>"Copy link"<kbd>"L"</kbd></button>
                <button on:click=move |_| open()>"Open"<kbd>"O"</kbd></button>
                <button on:click=move |_| save(page)>"Save"<kbd>"S"</kbd></button>
                <input node_ref=file type="file" accept=".json,application/json" class="hidden" tabindex="-1"
                    aria-label="Layout file" on:change=picked/>
            </div>
        </header>
    }
}

/// One demo, one click away; marked while the page shows its joints.
#[component]
fn Demo(index: usize, name: &'static str) -> impl IntoView {
    let page = page();
    let layout = demos::layout(index);
    let shown = Memo::new(move |_| page.with(|app| Some(&app.document.layout) == layout.as_ref()));
    view! {
        <button aria-pressed=move || shown.get().to_string() on:click=move |_| page.send(Message::Demo(index))>{name}</button>
    }
}

/// What a key outside a number box does.
fn command(event: &KeyboardEvent) -> Option<fn(Page, &dyn Fn())> {
    if event.ctrl_key() || event.meta_key() {
        return match (in_box(event), event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
            (false, "z", false) => Some(|page, _| page.send(Message::Undo)),
            (false, "z", true) | (false, "y", _) => Some(|page, _| page.send(Message::Redo)),
            (_, "s", false) => Some(|page, _| save(page)),
            _ => None,
        };
    }
    match event.key().to_ascii_lowercase().as_str() {
        _ if in_box(event) || event.alt_key() => None,
        "z" => Some(|page, _| page.send(Message::Undo)),
        "y" => Some(|page, _| page.send(Message::Redo)),
        "l" => Some(|page, _| copy_link(page)),
        "o" => Some(|_, open| open()),
        "s" => Some(|page, _| save(page)),
        _ => None,
    }
}

/// True while the key belongs to a box that takes text.
fn in_box(event: &KeyboardEvent) -> bool {
    let target: Option<web_sys::HtmlInputElement> = event.target().and_then(|t| t.dyn_into().ok());
    target.is_some_and(|input| input.type_() != "range")
}

/// Copies the link; where the browser does not allow it, says where the link stands.
fn copy_link(page: Page) {
    let parameters = page.parameters();
    address::show(&parameters);
    let lost = page.app.with_untracked(|app| !app.document.layout.other.is_empty());
    spawn_local(async move {
        let copied = window::copy(address::link(&parameters)).await;
        if !copied {
            page.send(Message::Say("The browser does not let the page use the clipboard; the link stands in the address bar.".into()));
        } else if lost {
            page.send(Message::Say("Link copied, without the parts of the layout that this page keeps but does not read; a saved file has them.".into()));
        } else {
            page.said.set("Link copied".into());
        }
    });
}

fn save(page: Page) {
    let (name, json) = page.app.with_untracked(|app| (app.document.layout.name.clone(), app.document.layout.to_json()));
    let stem: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    files::save(&format!("{}.json", stem.trim_matches('-')), "application/json", &json);
    page.said.set("Layout saved".into());
}

/// Opens a layout file; one that is none leaves the page as it is, with a sentence.
pub fn open_file(page: Page, file: web_sys::File) {
    spawn_local(async move {
        let read = files::read(file).await.and_then(|layout| {
            let problems: Vec<String> = kernel::validate(&layout).iter().map(ToString::to_string).collect();
            if problems.is_empty() { Ok(layout) } else { Err(problems.join(" ")) }
        });
        page.send(match read {
            Ok(layout) => Message::Open(Box::new(crate::app::Document::of(layout)), Vec::new()),
            Err(sentence) => Message::Say(sentence),
        });
    });
}
