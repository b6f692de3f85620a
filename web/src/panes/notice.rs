//! One place for what there is to say: what can't be assembled, what was wrong with a link or a file.

use crate::app::{App, Course, Message, Say, Step};
use crate::browser::dom::{Shown, Veil, find, on, words_in_front};
use crate::browser::page::{Page, Pane};
use web_sys::{Element, Event, HtmlElement};

/// A fault stays until it is mended, a notice until it is closed.
pub struct Notices {
    fault: Notice,
    notice: Notice,
    /// Back to the lesson that was left.
    back: Veil,
}

struct Notice {
    veil: Veil,
    text: Shown,
}

impl Notice {
    fn new(page: &Page, id: &str, button: impl Into<Message>) -> Notice {
        let whole: HtmlElement = find(id);
        let child = |i: u32| whole.children().item(i).unwrap_or_else(|| panic!("#{id} lacks a part"));
        let (page, button) = (page.clone(), button.into());
        on(&child(1), "click", move |_: Event| page.send(button.clone()));
        let text: Element = child(0);
        Notice { text: Shown::text(text), veil: Veil::of(id) }
    }

    fn show(&self, text: Option<&str>) {
        self.veil.set_hidden(text.is_none());
        self.text.show(text.unwrap_or_default());
    }
}

/// What can stand in front of them.
const DIALOGS: [&str; 5] = ["pass-page", "story-page", "mine-page", "compare-page", "help-page"];

impl Notices {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Notices {
        for dialog in DIALOGS {
            on(&find::<Element>(dialog), "close", |_: Event| words_in_front());
        }
        let returning = page.clone();
        on(&find::<Element>("return"), "click", move |_: Event| returning.send(Course::Return));
        let (fault, notice) = (Notice::new(page, "fault", Step::Undo), Notice::new(page, "notice", Say::Nothing));
        Notices { fault, notice, back: Veil::of("return") }
    }
}

impl Pane for Notices {
    fn show(&self, _: &Page, app: &App) {
        let fault = app.study.trouble.as_ref();
        self.fault.show(fault.map(|trouble| trouble.sentence.as_str()));
        let notices = app.notices.join("\n");
        if fault.is_some() || !notices.is_empty() {
            words_in_front();
        }
        self.back.set_hidden(!app.has_left());
        self.notice.show((!notices.is_empty()).then_some(notices.as_str()));
    }
}
