//! The projector's buttons and keys, and the link as a QR code over the whole window.

use crate::app::App;
use crate::browser::dom::{Shown, Veil, document, find, is_in, on, window};
use crate::browser::page::{Page, Pane};
use crate::drawing::svg::svg;
use crate::drawing::{Theme, View};
use crate::exchange::code::{MOST_QR, qr};
use web_sys::{Element, Event, HtmlDialogElement, HtmlInputElement, KeyboardEvent};

/// The projector.
pub struct Projector {
    on: Shown,
    views: [(View, Shown); 4],
    pressed: Shown,
    bar: Veil,
}

/// The buttons that choose what is projected; while none is pressed, all three views are.
const VIEWS: [(View, &str); 4] = [
    (View::Front, "project-front"),
    (View::Side, "project-side"),
    (View::Plan, "project-plan"),
    (View::Pictorial, "project-space"),
];

impl Projector {
    /// Finds its buttons on the page.
    pub fn new(page: &Page) -> Projector {
        let click = |id: &str, act: fn(&Page)| {
            let page = page.clone();
            on(&find::<Element>(id), "click", move |_: Event| act(&page));
        };
        click("project", |page| page.project(!page.projects()));
        click("project-end", |page| page.project(false));
        // Fails where the browser shows nothing on a full screen.
        click("project-full", |_| drop(find::<Element>("sheet").request_fullscreen()));
        click("project-code", show_code);
        click("story-code", show_code);
        click("pass-qr", show_code);
        let views = VIEWS.map(|(view, id)| {
            let (button, page) = (find::<Element>(id), page.clone());
            on(&button, "click", move |_: Event| page.set_projected(view));
            (view, Shown::attribute(button, "aria-pressed"))
        });
        let wall: HtmlDialogElement = find("code-wall");
        let closed = wall.clone();
        on(&wall, "click", move |_: Event| closed.close());
        keys(page);
        Projector {
            views,
            on: Shown::attribute(find::<Element>("sheet"), "data-projects"),
            pressed: Shown::attribute(find::<Element>("project"), "aria-pressed"),
            bar: Veil::of("projector"),
        }
    }
}

impl Pane for Projector {
    fn show(&self, page: &Page, _: &App) {
        let words = |is: bool| if is { "true" } else { "false" };
        self.on.show(words(page.projects()));
        self.pressed.show(words(page.projects()));
        for (view, pressed) in &self.views {
            pressed.show(words(page.projected() == Some(*view)));
        }
        self.bar.set_hidden(!page.projects() || page.telling().is_some());
    }
}

/// P gives the drawing the whole window and takes it back, Q shows the code; Escape ends either.
fn keys(page: &Page) {
    let page = page.clone();
    on(&window(), "keydown", move |event: KeyboardEvent| {
        let held = event.ctrl_key() || event.meta_key() || event.alt_key();
        let wall: HtmlDialogElement = find("code-wall");
        if held || is_in(&event, "textarea, select, input:not([type=range], [inputmode=decimal])") {
            return;
        }
        let letters = find::<HtmlInputElement>("letters").checked();
        match event.key().to_ascii_lowercase().as_str() {
            "q" if letters && wall.open() => wall.close(),
            "q" if letters => show_code(&page),
            "p" if letters && page.telling().is_none() && !dialog_open() => page.project(!page.projects()),
            // An open dialog has the key for itself.
            "escape"
                if page.projects()
                    && page.telling().is_none()
                    && !dialog_open()
                    && document().fullscreen_element().is_none() =>
            {
                page.project(false);
            }
            _ => {}
        }
    });
}

fn dialog_open() -> bool {
    document().query_selector("dialog[open]").is_ok_and(|open| open.is_some())
}

/// Shows the link as a code as large as the window, or says that it is too long for one.
fn show_code(page: &Page) {
    let link = page.link();
    match qr(&link) {
        Some(code) => {
            find::<Element>("code-wall-code").set_inner_html(&svg(&code, Theme::LIGHT));
            // Fails only if it is open already.
            let _ = find::<HtmlDialogElement>("code-wall").show_modal();
        }
        None => page.tell(&format!("The link has {} characters; a QR code holds {MOST_QR} at most", link.len())),
    }
}
