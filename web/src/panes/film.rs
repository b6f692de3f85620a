//! The show as a film: frame by frame where the browser can encode, else recorded while it is told.

use crate::browser::dom::{find, on};
use crate::browser::files;
use crate::browser::film::{NoFilm, can_encode, make};
use crate::browser::page::Page;
use crate::exchange::film::Film;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlButtonElement, HtmlElement, HtmlSelectElement};

const EXACT: &str = "30 pictures a second, each drawn and encoded at its exact time; without sound. The page can stay in the background meanwhile.";
const LIVE: &str = "This browser can’t encode single pictures: the show is recorded while it plays, as the screen shows it, so keep this page in front.";

/// Gives the buttons their work; `record` tells the show from its beginning and records it.
pub fn furnish(page: &Page, record: impl Fn(&Page) + 'static) {
    let record = Rc::new(record);
    let wanted = Rc::<Cell<bool>>::default();
    says(if can_encode() { EXACT } else { LIVE });
    find::<HtmlElement>("film-size").set_hidden(!can_encode());
    let stopped = wanted.clone();
    on(&find::<Element>("film-stop"), "click", move |_: Event| stopped.set(false));
    let page = page.clone();
    on(&find::<Element>("film-make"), "click", move |_: Event| {
        // The second click of a double click finds it begun.
        if !can_encode() {
            record(&page);
        } else if !wanted.replace(true) {
            let (page, wanted, record) = (page.clone(), wanted.clone(), record.clone());
            spawn_local(async move {
                under_way(true);
                let upright = find::<HtmlSelectElement>("film-size").selected_index() == 1;
                let film = page.with(|app| Film::new(&app.document, page.shots(), upright));
                let frames = film.frames();
                let made = make(film, &wanted, |done| progress(done, frames)).await;
                wanted.set(false);
                under_way(false);
                match made {
                    Ok(film) => {
                        files::offer("ghostpin.webm", &film);
                        says("Video saved.");
                    }
                    Err(NoFilm::Stopped) => says("Stopped; no video was saved."),
                    Err(NoFilm::Broken) => {
                        says("The browser stopped encoding; no video was saved. Try again, with fewer pages open.")
                    }
                    Err(NoFilm::Unable) => {
                        says(LIVE);
                        record(&page);
                    }
                }
            });
        }
    });
}

fn says(what: &str) {
    find::<HtmlElement>("film-says").set_text_content(Some(what));
}

fn progress(done: usize, of: usize) {
    says(&format!("Picture {done} of {of}"));
    crate::browser::dom::set(&find::<Element>("film-done"), "value", &format!("{:.4}", done as f64 / of.max(1) as f64));
}

fn under_way(is: bool) {
    find::<HtmlButtonElement>("film-make").set_disabled(is);
    find::<HtmlElement>("film-stop").set_hidden(!is);
    find::<HtmlElement>("film-done").set_hidden(!is);
}
