//! The story: told on the drawing, full screen if wanted, by key or by itself, recorded where the browser can; and prepared.

mod look;

use crate::app::Say;
use crate::app::{About, App};
use crate::browser::dom::{Listener, Shown, Veil, document, find, is_in, make, on, set, window};
use crate::browser::files;
use crate::browser::film::can_encode;
use crate::browser::page::{Page, Pane};
use crate::browser::window::later;
use crate::document::story::{LENGTHS, MOST_SHOTS, Shot};
use crate::text::number::{parse, plain};
use kernel::clip;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{
    BlobEvent, Element, Event, HtmlCanvasElement, HtmlDialogElement, HtmlElement, HtmlInputElement, KeyboardEvent,
    MediaRecorder, MouseEvent,
};

/// The bar under a story being told, and the dialog that prepares one.
pub struct Teller {
    bar: Veil,
    at: Shown,
    hold: Shown,
    list: Element,
    listed: Rc<RefCell<Vec<Shot>>>,
    buttons: RefCell<Vec<Listener>>,
    length: Shown,
}

type Recorder = Rc<RefCell<Option<MediaRecorder>>>;

fn click(page: &Page, id: &str, act: impl Fn(&Page) + 'static) {
    let page = page.clone();
    on(&find::<Element>(id), "click", move |_: Event| act(&page));
}

impl Teller {
    /// Finds bar and dialog on the page.
    pub fn new(page: &Page) -> Teller {
        let dialog = || find::<HtmlDialogElement>("story-page");
        // Fails only if it is open already.
        click(page, "story", move |_| drop(dialog().show_modal()));
        click(page, "story-tell", move |page| {
            dialog().close();
            page.tell_story();
        });
        click(page, "story-before", |page| page.turn_to(-1));
        click(page, "story-after", |page| page.turn_to(1));
        click(page, "story-hold", Page::hold_story);
        let recorder: Recorder = Rc::default();
        let ended = recorder.clone();
        click(page, "story-end", move |page| {
            stop(&ended);
            page.end_story();
        });
        // Fails where the browser shows nothing on a full screen.
        click(page, "story-full", |_| drop(find::<Element>("sheet").request_fullscreen()));
        find::<HtmlElement>("story-record").set_hidden(can_encode());
        let live = recorder.clone();
        super::film::furnish(page, move |page| {
            dialog().close();
            page.tell_story();
            record(page, &live);
        });
        click(page, "story-record", move |page| record(page, &recorder));
        click(page, "story-add", |page| {
            let caption = find::<HtmlInputElement>("story-caption");
            let text = caption.value();
            let mut shots = page.with(|app| app.document.story.clone());
            shots.push(page.with(|app| Shot::of(&app.document, app.selected, text)));
            shots.truncate(MOST_SHOTS);
            page.send(About::Story(shots.clone()));
            // A shot that is refused keeps its words.
            if page.with(|app| app.document.story == shots) {
                caption.set_value("");
            }
        });
        click(page, "story-drop", |page| page.send(About::Story(Vec::new())));
        click(page, "story-link", |page| page.copy(page.link(), "Slide-show link copied"));
        keys(page);
        Teller {
            bar: Veil::of("teller"),
            at: Shown::text(find::<Element>("story-at")),
            hold: Shown::text(find::<Element>("story-hold")),
            list: find("story-shots"),
            listed: Rc::default(),
            buttons: RefCell::default(),
            length: Shown::text(find::<Element>("story-length")),
        }
    }
}

/// Arrow keys turn the shots, the space bar holds, Escape ends.
fn keys(page: &Page) {
    let page = page.clone();
    on(&window(), "keydown", move |event: KeyboardEvent| {
        // An open dialog, the code for one, has the keys for itself.
        let dialog = document().query_selector("dialog[open]").is_ok_and(|open| open.is_some());
        if dialog || page.telling().is_none() || is_in(&event, "input, textarea, select") {
            return;
        }
        match event.key().as_str() {
            "ArrowRight" | "PageDown" => page.turn_to(1),
            "ArrowLeft" | "PageUp" => page.turn_to(-1),
            " " if !is_in(&event, "button") => page.hold_story(),
            "Escape" if document().fullscreen_element().is_none() => page.end_story(),
            _ => return,
        }
        event.prevent_default();
        event.stop_immediate_propagation();
    });
}

/// A button of a shot, and what it does to the row of shots, in which the shot has this place.
type ShotChange = (&'static str, fn(&mut Vec<Shot>, usize, &App));

const SHOT_CHANGES: [ShotChange; 3] = [
    ("Move up", |shots, at, _| shots.swap(at, at.saturating_sub(1))),
    ("Replace", |shots, at, app| {
        let Shot { caption, lasts, moves, by, seen, zoom, stress, .. } = shots[at].clone();
        shots[at] = Shot { lasts, moves, by, seen, zoom, stress, ..Shot::of(&app.document, app.selected, caption) };
    }),
    ("Remove", |shots, at, _| drop(shots.remove(at))),
];

/// Does it, unless the shots are others than those the list showed when it was asked for: its next frame is still to come.
fn change_shot(page: &Page, listed: &[Shot], at: usize, change: impl FnOnce(&mut Vec<Shot>, usize, &App)) {
    let changed = page.with(|app| {
        let mut shots = app.document.story.clone();
        (shots == listed && at < shots.len()).then(|| {
            change(&mut shots, at, app);
            shots
        })
    });
    if let Some(shots) = changed {
        page.send(About::Story(shots));
    }
}

/// Records the drawing from now on, or ends the recording and offers the film.
fn record(page: &Page, recorder: &Recorder) {
    if stop(recorder) {
        page.tell("Video saved");
        return;
    }
    let canvas: HtmlCanvasElement = find("drawing");
    let started = canvas.capture_stream_with_frame_request_rate(30.0).ok().and_then(|stream| {
        let recorder = MediaRecorder::new_with_media_stream(&stream).ok()?;
        on(&recorder, "dataavailable", |event: BlobEvent| {
            if let Some(film) = event.data() {
                files::offer("ghostpin.webm", &film);
            }
        });
        recorder.start().ok()?;
        Some(recorder)
    });
    page.tell(match &started {
        Some(_) => "Recording: press Record again to stop",
        None => "This browser can’t record video; save a PNG of each slide under Share",
    });
    recorder.replace(started);
    keep_painting(page, recorder);
}

/// A film has a frame whenever the drawing is painted: while it is recorded that is so even where nothing moves, so that a hold lasts.
fn keep_painting(page: &Page, recorder: &Recorder) {
    if page.telling().is_none() || page.has_told() {
        // However the story ended, so does its film.
        if stop(recorder) {
            page.tell("Video saved");
        }
    } else if recorder.borrow().is_some() {
        page.change();
        let (page, recorder) = (page.clone(), recorder.clone());
        later(FRAME, move || keep_painting(&page, &recorder));
    }
}

/// Time between two frames of what does not move, ms: few, so that a slow encoder catches up meanwhile.
const FRAME: i32 = 200;

/// Ends a recording; true if there was one.
fn stop(recorder: &Recorder) -> bool {
    let Some(recorder) = recorder.take() else { return false };
    // Fails only if it has ended by itself.
    later(LAG, move || drop(recorder.stop()));
    true
}

/// Until a slow encoder has put the frames painted so far into the film, ms.
const LAG: i32 = 1000;

impl Pane for Teller {
    fn show(&self, page: &Page, app: &App) {
        let telling = page.telling();
        self.bar.set_hidden(telling.is_none());
        let shots = &app.document.story;
        if let Some((at, all, running)) = telling {
            self.at.show(&format!("{} of {all}", at + 1));
            self.hold.show(if running { "Pause" } else { "Play" });
        }
        if *self.listed.borrow() != *shots {
            self.listed.replace(shots.clone());
            self.list_shots(page, shots);
            self.length.show(&match (shots.len(), page.link().len()) {
                (0, _) => String::new(),
                (_, length) if length > 2_000 => {
                    format!("The link has {length} characters: chats and forums may cut it. Slides of the demos make shorter links than your own axles.")
                }
                (_, length) => format!("The link has {length} characters."),
            });
        }
    }
}

impl Teller {
    /// The box of how long a shot is shown.
    fn lasts(&self, page: &Page, row: &Element, at: usize, shot: &Shot) -> Listener {
        let label: Element = make(row, "label");
        let field: HtmlInputElement = make(&label, "input");
        label.append_with_str_1(" s").unwrap_or_default();
        set(&field, "class", "box");
        set(&field, "aria-label", &format!("Slide {}, seconds", at + 1));
        field.set_value(&plain(shot.lasts));
        let (page, listed, typed) = (page.clone(), self.listed.clone(), field.clone());
        Listener::new(&field, "change", move |_: Event| {
            match parse(&typed.value()).filter(|seconds| (LENGTHS[0]..=LENGTHS[1]).contains(seconds)) {
                Some(seconds) => change_shot(&page, &listed.borrow(), at, |shots, at, _| shots[at].lasts = seconds),
                None => {
                    let [least, most] = LENGTHS;
                    let sentence = format!(
                        "Slide {} can’t last “{}”: a slide lasts {least} to {most} seconds.",
                        at + 1,
                        clip(&typed.value())
                    );
                    page.send(Say::Sentence(sentence));
                    listed.borrow().get(at).iter().for_each(|shot| typed.set_value(&plain(shot.lasts)));
                }
            }
        })
    }

    /// Every shot by its caption, with what can be done to it.
    fn list_shots(&self, page: &Page, shots: &[Shot]) {
        let mut buttons = self.buttons.borrow_mut();
        buttons.clear();
        self.list.set_text_content(None);
        for (at, shot) in shots.iter().enumerate() {
            let row: Element = make(&self.list, "li");
            make::<Element>(&row, "span").set_text_content(Some(&shot.caption));
            buttons.push(self.lasts(page, &row, at, shot));
            buttons.extend(look::boxes(page, &row, at, shot, &self.listed));
            for (name, change) in SHOT_CHANGES {
                let button: Element = make(&row, "button");
                button.set_text_content(Some(name));
                let (page, listed) = (page.clone(), self.listed.clone());
                buttons.push(Listener::new(&button, "click", move |event: MouseEvent| {
                    // The second click of a double click meets the row that has taken the place of the one meant.
                    if event.detail() < 2 {
                        change_shot(&page, &listed.borrow(), at, change);
                    }
                }));
            }
        }
    }
}
