//! The title strip: name, demos, commands, and the keys that do the same.

use super::text_box::TextBox;
use crate::app::{About, App, Message, Open, Say, Step};
use crate::browser::address::embedded;
use crate::browser::dom::{Shown, document, find, is_in, make, on, window};
use crate::browser::files;
use crate::browser::page::{Page, Pane, STILL};
use crate::browser::window::matches;
use crate::content::demos::{self, DEMOS};
use crate::document::Document;
use crate::input::play::Play;
use kernel::Layout;
use std::cell::Cell;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, File, HtmlButtonElement, HtmlInputElement, KeyboardEvent};

/// The strip.
pub struct Strip {
    name: TextBox,
    undo: HtmlButtonElement,
    redo: HtmlButtonElement,
    /// Which of the two can be pressed.
    can: Cell<Option<[bool; 2]>>,
    demos: Vec<(Option<Layout>, Shown)>,
}

/// A command of the strip: its button, its key, what it does.
type Command = (&'static str, &'static str, fn(&Page));

const COMMANDS: [Command; 6] = [
    ("undo", "z", |page| page.send(Step::Undo)),
    ("redo", "y", |page| page.send(Step::Redo)),
    ("copy-link", "l", copy_link),
    ("open", "o", |_| find::<HtmlInputElement>("file").click()),
    ("save", "s", save),
    ("back-to-start", "", |page| page.send(Open::Start)),
];

impl Strip {
    /// Finds the strip on the page and gives its parts their work.
    pub fn new(page: &Page) -> Strip {
        for (id, _, act) in COMMANDS {
            let page = page.clone();
            on(&find::<Element>(id), "click", move |_: Event| act(&page));
        }
        let keyed = page.clone();
        on(&window(), "keydown", move |event: KeyboardEvent| {
            if let Some(act) = command(&event) {
                event.prevent_default();
                take_typed(&event);
                act(&keyed);
            }
        });
        let name = TextBox::new(page, "name", |page, name| page.send(About::Rename(name)));
        let (opened, file) = (page.clone(), find::<HtmlInputElement>("file"));
        let picked = file.clone();
        on(&file, "change", move |_: Event| {
            if let Some(file) = picked.files().and_then(|files| files.get(0)) {
                open_file(&opened, file);
            }
            // The same file can be picked again.
            picked.set_value("");
        });
        let demos = DEMOS.iter().enumerate().map(|(index, (name, _))| demo(page, index, name)).collect();
        Strip { name, undo: find("undo"), redo: find("redo"), can: Cell::default(), demos }
    }
}

/// One demo, one click away.
fn demo(page: &Page, index: usize, name: &str) -> (Option<Layout>, Shown) {
    let button: Element = make(&find::<Element>("demos"), "button");
    button.set_text_content(Some(name));
    let page = page.clone();
    on(&button, "click", move |_: Event| page.send(Open::Demo(index)));
    (demos::layout(index), Shown::attribute(button, "aria-pressed"))
}

impl Pane for Strip {
    fn show(&self, _: &Page, app: &App) {
        let layout = &app.document.layout;
        self.name.show(&layout.name);
        let can = [app.can_undo(), app.can_redo()];
        if self.can.replace(Some(can)) != Some(can) {
            self.undo.set_disabled(!can[0]);
            self.redo.set_disabled(!can[1]);
        }
        for (demo, pressed) in &self.demos {
            pressed.show(if demo.as_ref() == Some(layout) { "true" } else { "false" });
        }
    }
}

/// What a key does: a letter alone outside text boxes, where it is text, unless the reader has switched letters off (WCAG 2.2,
/// 2.1.4); with Ctrl as everywhere.
fn command(event: &KeyboardEvent) -> Option<fn(&Page)> {
    // Embedded, the page takes no key until it has been given one.
    let given = document().active_element().is_some_and(|element| element.tag_name() != "BODY");
    if embedded() && !given {
        return None;
    }
    let control = event.ctrl_key() || event.meta_key();
    let mut key = event.key().to_ascii_lowercase();
    if key == " " && !control && on_nothing(event) {
        return Some(|page| page.play(Play::Bump));
    }
    if !control && !find::<HtmlInputElement>("letters").checked() {
        return None;
    }
    if in_text(event) || event.alt_key() || (control && !["z", "y", "s"].contains(&key.as_str())) {
        return None;
    }
    if control && key == "z" && event.shift_key() {
        key = "y".into();
    }
    if key == "?" || key == "c" {
        return Some(if key == "c" {
            |_| find::<HtmlButtonElement>("compare").click()
        } else {
            |_| find::<HtmlButtonElement>("help").click()
        });
    }
    COMMANDS.iter().find(|(_, letter, _)| *letter == key).map(|(_, _, act)| *act)
}

/// True while no button or box has the key: the space bar presses those.
fn on_nothing(event: &KeyboardEvent) -> bool {
    !is_in(event, "button, input, textarea, select, summary, [tabindex='0']:not(canvas)") && !matches(STILL)
}

/// True while the key belongs to a box that takes text: there, undo is text undo. No command is a letter of a number.
fn in_text(event: &KeyboardEvent) -> bool {
    is_in(event, "textarea, select, input:not([type=range], [inputmode=decimal])")
}

/// What stands in a number box is taken before a command acts on it; the box keeps the keyboard.
fn take_typed(event: &KeyboardEvent) {
    let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
    if let Some(input) = input.filter(|input| input.type_() != "range") {
        // Fail only on an element that can't have the keyboard.
        let _ = input.blur().and_then(|()| input.focus());
    }
}

fn copy_link(page: &Page) {
    page.write_address();
    page.copy(page.link(), "Link copied");
}

fn save(page: &Page) {
    let (name, json) = page.with(|app| (app.document.layout.name.clone(), app.document.to_file()));
    let stem: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    files::save(&format!("{}.json", stem.trim_matches('-')), "application/json", &json);
    page.tell("File saved");
}

/// Opens a layout file; one that is none leaves the page as it is, with a sentence.
pub fn open_file(page: &Page, file: File) {
    let page = page.clone();
    spawn_local(async move {
        page.send(match read_file(file).await {
            Ok((document, mut says)) => {
                let kept: Vec<String> = document.layout.other.keys().map(|key| format!("“{key}”")).collect();
                let kept = kept.join(", ");
                if !kept.is_empty() {
                    says.push(format!("This page does not use {kept} yet; files, links and drafts keep it."));
                }
                Message::from(Open::Document(Box::new(document), says))
            }
            Err(sentence) => Say::Sentence(sentence).into(),
        });
    });
}

/// What a file holds, its layout sound, with what there is to say about it; or what is wrong with it.
pub async fn read_file(file: File) -> Result<(Document, Vec<String>), String> {
    let layout = files::read(file).await?;
    let problems: Vec<String> = kernel::validate(&layout).iter().map(ToString::to_string).collect();
    if problems.is_empty() { Ok(Document::of_file(layout)) } else { Err(problems.join("\n")) }
}
