//! Axles that are drawn for a question: how many have been, until it is done or stopped.

use crate::browser::dom::{Shown, find, on};
use crate::browser::page::Page;
use crate::browser::work::Running;
use crate::work::Slice;
use crate::work::spread::{Question, Told};
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement};

/// The drawing.
pub(super) struct Drawn(Rc<Inner>);

struct Inner {
    page: Page,
    words: Shown,
    stop: HtmlElement,
    of: RefCell<Option<Question>>,
    told: RefCell<Option<Told>>,
    running: RefCell<Option<Running>>,
}

impl Drawn {
    /// Finds its words and its button on the page.
    pub fn new(page: &Page) -> Drawn {
        let inner = Rc::new(Inner {
            page: page.clone(),
            words: Shown::text(find::<Element>("spread-words")),
            stop: find("spread-stop"),
            of: RefCell::default(),
            told: RefCell::default(),
            running: RefCell::default(),
        });
        let stopped = inner.clone();
        on(&inner.stop, "click", move |_: Event| {
            // The button goes: whoever pressed it with a key goes on at the other.
            let _ = find::<HtmlElement>("spread-draw").focus();
            stopped.end("Stopped.");
        });
        Drawn(inner)
    }

    /// Draws so many axles for a question.
    pub fn begin(&self, question: Question, count: usize) {
        let task = question.task(count);
        self.0.of.replace(Some(question));
        self.0.told.take();
        self.0.words.show("Drawing …");
        self.0.stop.set_hidden(false);
        let inner = self.0.clone();
        let running = Running::new(move |slice| inner.hear(slice));
        running.ask(&task);
        self.0.running.replace(Some(running));
    }

    /// What has come so far of the question that was asked last.
    pub fn told(&self) -> Option<Told> {
        self.0.told.borrow().clone()
    }

    /// What was drawn for another question is forgotten.
    pub fn keep(&self, question: &Question) {
        let other = self.0.of.borrow().as_ref().is_some_and(|of| of != question);
        if other {
            self.forget();
        }
    }

    /// Nothing is drawn any more.
    pub fn forget(&self) {
        self.0.running.take();
        self.0.of.take();
        self.0.told.take();
        self.0.stop.set_hidden(true);
        self.0.words.show("");
    }
}

impl Inner {
    fn hear(&self, slice: Result<Slice, String>) {
        let slice = match slice {
            Ok(slice) => slice,
            Err(sentence) => return self.end(&sentence),
        };
        let read = self.of.borrow().as_ref().filter(|_| !slice.news.is_empty()).map(|of| of.read(&slice.news));
        match read {
            Some(Ok(told)) => drop(self.told.replace(Some(told))),
            Some(Err(sentence)) => return self.end(&sentence),
            None => {}
        }
        if slice.last() {
            self.end("")
        } else {
            self.words.show(&self.so_far())
        }
        self.page.change();
    }

    fn so_far(&self) -> String {
        match self.told.borrow().as_ref().map(|told| told.drawn) {
            None | Some([0, _]) => "Drawing …".into(),
            Some([drawn, 0]) => format!("{drawn} random axles solved; all of them can be assembled."),
            Some([drawn, 1]) => format!("{drawn} random axles solved; 1 of them can’t be assembled and is left out."),
            Some([drawn, failed]) => {
                format!("{drawn} random axles solved; {failed} of them can’t be assembled and are left out.")
            }
        }
    }

    /// Nothing more comes: says why, and how far it went.
    fn end(&self, why: &str) {
        self.running.take();
        self.stop.set_hidden(true);
        let words = format!("{} {why}", self.so_far());
        self.words.show(words.trim());
        self.page.say(words.trim());
        self.page.change();
    }
}
