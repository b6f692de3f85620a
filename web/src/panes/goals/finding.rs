//! The search: how far it is, until it is done or stopped; its answers as cards, which are shown over the drawing and taken.

use super::take;
use super::words::{Card, card, outcome};
use crate::app::App;
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::Page;
use crate::browser::work::Running;
use crate::work::Slice;
use crate::work::goals::{Found, Question, read, starts};
use kernel::Layout;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement};

/// The search and its answers.
pub(super) struct Finding {
    inner: Rc<Inner>,
    cards: Element,
    old: HtmlElement,
    written: RefCell<(bool, Option<usize>, Vec<Card>)>,
}

struct Inner {
    page: Page,
    words: Shown,
    stop: HtmlElement,
    of: RefCell<Option<Question>>,
    found: RefCell<Vec<Found>>,
    running: RefCell<Option<Running>>,
    /// Starts that are done, of so many.
    done: Cell<[usize; 2]>,
    /// The answer under the pointer or the keys, and the one that stays shown.
    over: Cell<Option<usize>>,
    shown: Cell<Option<usize>>,
}

impl Finding {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Finding {
        let inner = Rc::new(Inner {
            page: page.clone(),
            words: Shown::text(find::<Element>("goal-words")),
            stop: find("goal-stop"),
            of: RefCell::default(),
            found: RefCell::default(),
            running: RefCell::default(),
            done: Cell::default(),
            over: Cell::default(),
            shown: Cell::default(),
        });
        let begins = inner.clone();
        on(&find::<Element>("goal-find"), "click", move |_: Event| begins.begin());
        let stopped = inner.clone();
        on(&inner.stop, "click", move |_: Event| {
            // The button goes: whoever pressed it with a key goes on at the other.
            let _ = find::<HtmlElement>("goal-find").focus();
            stopped.end(&format!("Stopped after {} of {} starts.", stopped.done.get()[0], stopped.done.get()[1]));
        });
        let cards: Element = find("goal-answers");
        for event in ["pointerover", "focusin"] {
            let looked = inner.clone();
            on(&cards, event, move |event: Event| looked.look(answer_of(&event)));
        }
        for event in ["pointerleave", "focusout"] {
            let looked = inner.clone();
            on(&cards, event, move |_: Event| looked.look(None));
        }
        let clicked = inner.clone();
        on(&cards, "click", move |event: Event| clicked.click(&event));
        Finding { inner, cards, old: find("goal-old"), written: RefCell::default() }
    }

    /// Shows it; gives the axle of the answer that is looked at, and of that or else of the first one. Answers to another question than is asked now
    /// are pale and no offers.
    pub fn show(&self, app: &App, now: Option<&Question>) -> [Option<Layout>; 2] {
        let (of, found) = (self.inner.of.borrow(), self.inner.found.borrow());
        let Some(asked) = &*of else { return [None, None] };
        let old = now != Some(asked);
        self.old.set_hidden(!old || found.is_empty());
        let cards: Vec<Card> = (0..found.len()).map(|at| card(app.document.units, asked, &found, at)).collect();
        let shown = self.inner.shown.get().filter(|at| *at < found.len());
        let written = (old, shown, cards);
        if *self.written.borrow() != written {
            self.write(&written);
            self.written.replace(written);
        }
        let looked = self.inner.over.get().or(shown);
        [looked, looked.or(Some(0))]
            .map(|at| at.filter(|_| !old).and_then(|at| found.get(at)).map(|one| asked.layout(one)))
    }

    fn write(&self, (old, shown, cards): &(bool, Option<usize>, Vec<Card>)) {
        self.cards.set_class_name(if *old { "answers old" } else { "answers" });
        // What had the focus gets it back.
        let focus = focused();
        self.cards.set_text_content(None);
        for (at, Card { heading, lines }) in cards.iter().enumerate() {
            let section: Element = make(&self.cards, "section");
            set(&section, "data-answer", &at.to_string());
            set(&section, "class", if *shown == Some(at) { "shown" } else { "" });
            make::<Element>(&section, "h3").set_text_content(Some(heading));
            for (class, line) in lines {
                let line_of: Element = make(&section, "p");
                set(&line_of, "class", class);
                line_of.set_text_content(Some(line));
            }
            let buttons: Element = make(&section, "div");
            set(&buttons, "class", "plays");
            for (what, text) in [("take", "Take it"), ("show", "Show it on the drawing")] {
                let button: HtmlElement = make(&buttons, "button");
                button.set_text_content(Some(text));
                set(&button, "data-do", what);
                set(&button, "aria-label", &format!("{text}: {}", heading.to_ascii_lowercase()));
                if what == "show" {
                    set(&button, "aria-pressed", if *shown == Some(at) { "true" } else { "false" });
                }
                if *old {
                    set(&button, "disabled", "");
                }
                if focus.as_ref().is_some_and(|(of, did)| *of == at && did == what) {
                    let _ = button.focus();
                }
            }
        }
    }
}

/// The answer whose card an event happened in.
fn answer_of(event: &Event) -> Option<usize> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    target.closest("[data-answer]").ok()??.get_attribute("data-answer")?.parse().ok()
}

/// The button of a card that has the focus: of which answer, and what it does.
fn focused() -> Option<(usize, String)> {
    let button = crate::browser::dom::document().active_element()?;
    let did = button.get_attribute("data-do")?;
    let of = button.closest("[data-answer]").ok()??.get_attribute("data-answer")?.parse().ok()?;
    Some((of, did))
}

impl Inner {
    /// Begins with what is asked now, or says why not; then what was found before stays.
    fn begin(self: &Rc<Self>) {
        let question = match self.page.with(|app| Question::of(&app.document)) {
            Ok(question) => question,
            Err(sentence) => return self.end(&sentence),
        };
        let task = question.task();
        self.of.replace(Some(question));
        self.found.take();
        self.done.take();
        self.over.take();
        self.shown.take();
        self.words.show("Searching …");
        self.stop.set_hidden(false);
        let inner = self.clone();
        let running = Running::new(move |slice| inner.hear(slice));
        running.ask(&task);
        self.running.replace(Some(running));
        self.page.change();
    }

    fn hear(&self, slice: Result<Slice, String>) {
        let slice = match slice {
            Ok(slice) => slice,
            Err(sentence) => return self.end(&sentence),
        };
        let [done, of] = starts(&slice);
        self.done.set([done, of]);
        if !slice.news.is_empty() {
            match read(&slice.news) {
                Ok(found) => drop(self.found.replace(found)),
                Err(sentence) => return self.end(&sentence),
            }
        }
        if slice.last() {
            let outcome = outcome(&self.found.borrow());
            self.end(&outcome);
        } else {
            self.words.show(&format!("Searching: {done} of {of} starts."));
        }
        self.page.change();
    }

    /// Nothing more comes: says why.
    fn end(&self, why: &str) {
        self.running.take();
        self.stop.set_hidden(true);
        self.words.show(why);
        self.page.change();
    }

    fn look(&self, at: Option<usize>) {
        if self.over.replace(at) != at {
            self.page.change();
        }
    }

    fn click(&self, event: &Event) {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let does = target.and_then(|target| target.get_attribute("data-do"));
        let (Some(does), Some(at)) = (does, answer_of(event)) else { return };
        if does == "show" {
            self.shown.set(Some(at).filter(|at| self.shown.get() != Some(*at)));
            return self.page.change();
        }
        let taken = self.of.borrow().clone().zip(self.found.borrow().get(at).cloned());
        if let Some((question, found)) = taken {
            // The cards go pale: whoever pressed with a key goes on where one can.
            let _ = find::<HtmlElement>("goal-find").focus();
            self.shown.take();
            take(&self.page, &question, &found);
            self.page.say("Taken; undo brings the axle back as it was.");
        }
    }
}
