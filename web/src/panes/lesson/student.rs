//! A student's side of a lesson: the task, what may be moved, the answer, the marks, the hand-in.

use super::acts::{Shelf, begin, click};
use super::free::FreeBoxes;
use crate::app::{App, Course, Reply};
use crate::browser::address::embedded;
use crate::browser::dom::{Shown, find, on};
use crate::browser::page::Page;
use crate::browser::storage;
use crate::document::lesson::{Answer, Lesson};
use crate::exchange::drafts;
use crate::panes::text_box::TextBox;
use crate::study::marking::Marking;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement};

/// What a student sees.
pub(super) struct Student {
    task: (HtmlElement, Shown),
    hint: Shown,
    movable: Shown,
    free: FreeBoxes,
    guess: (HtmlElement, Shown, TextBox),
    words: (HtmlElement, TextBox),
    by: TextBox,
    verdict: Shown,
    first: Shown,
    missing: Shown,
    /// *Edit a copy*, *Back to editing*.
    edit: [HtmlElement; 2],
    shelf: Rc<Shelf>,
    next: HtmlElement,
    previous: HtmlElement,
    /// Which exercise of a series it is.
    place: Shown,
    /// Asks whose start it is, where starts vary; and says so.
    vary: HtmlElement,
    variant: Shown,
    /// An answer of earlier to go on with.
    earlier: (HtmlElement, Shown, Rc<RefCell<Option<drafts::Draft>>>),
    /// What the lesson shown begins with; `None` while there is none.
    opened: Cell<Option<u32>>,
}

/// Turns so many exercises of the series on, or back.
fn turn(page: &Page, by: isize) {
    let at = page.with(|app| app.document.series.before.len());
    page.send(Course::Turn(at.saturating_add_signed(by)));
}

/// Where starts vary, one's own is asked for.
fn vary(page: &Page) {
    let (page, name) = (page.clone(), find::<HtmlInputElement>("vary-name"));
    on(&find::<Element>("vary-form"), "submit", move |event: Event| {
        event.prevent_default();
        page.send(Course::Vary(name.value()));
    });
}

/// Changes the student's answer.
fn answer(page: &Page, change: impl FnOnce(&mut Answer)) {
    let mut answer = page.with(|app| app.document.answer.clone());
    change(&mut answer);
    page.send(Reply::Answer(answer));
}

impl Student {
    /// Finds it on the page.
    pub fn new(page: &Page, shelf: Rc<Shelf>) -> Student {
        click(page, "check", |page| page.send(Reply::Check));
        click(page, "show-hint", |page| answer(page, |answer| answer.hinted = true));
        click(page, "hand-in", hand_in);
        let shelved = shelf.clone();
        click(page, "previous-exercise", |page| turn(page, -1));
        vary(page);
        click(page, "next-exercise", move |page| {
            if page.with(|app| !app.document.series.is_empty()) {
                return turn(page, 1);
            }
            let lesson = page.with(|app| app.document.lesson.clone());
            if let Some(next) = lesson.and_then(|lesson| shelved.after(&lesson).cloned()) {
                begin(page, &next);
            }
        });
        let earlier = Rc::new(RefCell::new(None::<drafts::Draft>));
        let offered = earlier.clone();
        click(page, "go-on", move |page| {
            let document = offered.borrow().as_ref().and_then(|draft| draft.open());
            if let Some((document, _)) = document {
                page.send(Course::Resume(Box::new(document)));
            }
        });
        let guess = TextBox::live(page, "guess", |page, text| {
            let asked = page.with(|app| app.document.lesson.as_ref().and_then(Lesson::asks));
            let units = page.with(|app| app.document.units);
            // With the unit it was typed in, it stays the same number whatever is shown later.
            answer(page, |a| a.guess = asked.map_or(text.clone(), |kind| kind.with_unit(&text, units)));
        });
        Student {
            task: (find("task"), Shown::text(find::<Element>("task"))),
            hint: Shown::text(find::<Element>("hint")),
            movable: Shown::text(find::<Element>("movable")),
            free: FreeBoxes::new(),
            guess: (find("ask-guess"), Shown::text(find::<Element>("guess-label")), guess),
            words: (
                find("ask-words"),
                TextBox::live(page, "own-words", |page, words| answer(page, |answer| answer.words = words)),
            ),
            by: TextBox::live(page, "by", |page, by| answer(page, |answer| answer.by = by)),
            verdict: Shown::text(find::<Element>("verdict")),
            first: Shown::text(find::<Element>("first-answer")),
            missing: Shown::text(find::<Element>("still-missing")),
            edit: ["copy-lesson", "back-to-lesson"].map(find),
            shelf,
            next: find("next-exercise"),
            previous: find("previous-exercise"),
            place: Shown::text(find::<Element>("series-place")),
            vary: find("vary-form"),
            variant: Shown::text(find::<Element>("variant")),
            earlier: (find("go-on"), Shown::text(find::<Element>("go-on")), earlier),
            opened: Cell::default(),
        }
    }

    /// No lesson is shown.
    pub fn away(&self) {
        self.opened.set(None);
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App, lesson: &Lesson) {
        let (answer, units) = (&app.document.answer, app.document.units);
        self.task.1.show(&lesson.task);
        self.hint.show(&if answer.hinted { format!("Hint: {}", lesson.hint) } else { String::new() });
        let movable = lesson.movable();
        self.movable.show(&if movable.is_empty() { movable } else { format!("You may move: {movable}.") });
        self.free.show(page, app, lesson);
        self.guess.0.set_hidden(lesson.asks().is_none());
        self.guess.1.show(&lesson.label(units));
        self.guess.2.show(&answer.guess);
        self.words.0.set_hidden(!lesson.words);
        self.words.1.show(&answer.words);
        self.by.show(&answer.by);
        let lines = app.marking().map_or(Vec::new(), Marking::lines);
        self.verdict.show(&lines.join("\n"));
        let later = answer.first.as_ref().filter(|first| **first != answer.guess);
        self.first
            .show(&later.map_or(String::new(), |first| format!("Your first answer, {first}, is handed in as well.")));
        self.missing.show(missing(answer));
        let tries = app.tries();
        self.edit[0].set_hidden(tries);
        self.edit[1].set_hidden(!tries);
        let series = &app.document.series;
        let last =
            if series.is_empty() { tries || self.shelf.after(lesson).is_none() } else { series.after.is_empty() };
        self.next.set_hidden(last);
        self.previous.set_hidden(series.before.is_empty());
        self.place.show(&match series.count() {
            1 => String::new(),
            all => format!("Exercise {} of {all}. All are handed in together.", series.before.len() + 1),
        });
        self.vary.set_hidden(lesson.vary == 0.0 || !answer.variant.is_empty());
        self.variant.show(&match answer.variant.as_str() {
            "" => String::new(),
            variant => format!("The start is that of “{variant}”."),
        });
        if self.opened.replace(Some(lesson.begin)) != Some(lesson.begin) {
            self.begin(app);
        }
        self.earlier.0.set_hidden(self.earlier.2.borrow().is_none() || app.answered());
    }

    /// A lesson has been opened: whoever reads or listens begins with its task; an answer of earlier is looked for.
    fn begin(&self, app: &App) {
        if !embedded() {
            // Fails only on what can't have the keyboard.
            let _ = self.task.0.focus();
        }
        let earlier = if app.answered() { None } else { drafts::earlier(&storage::kept(), &app.document) };
        let when = earlier.as_ref().map_or(String::new(), |draft| clock(draft.began));
        self.earlier.1.show(&format!("Go on with your answer from {when}"));
        self.earlier.2.replace(earlier);
    }
}

/// A time, ms since 1970: of today the hour alone.
fn clock(began: f64) -> String {
    let date = js_sys::Date::new(&began.into());
    let today = js_sys::Date::new_0().to_date_string() == date.to_date_string();
    let hour = format!("{:02}:{:02}", date.get_hours(), date.get_minutes());
    if today { hour } else { format!("{}, {hour}", date.to_locale_date_string("default", &js_sys::Object::new())) }
}

fn hand_in(page: &Page) {
    let answer = page.with(|app| app.document.answer.clone());
    let done = match (answer.by.trim().is_empty(), answer.checked) {
        (false, true) => "Copied. Send it to your teacher.",
        (true, true) => "Copied, but without your name. Type it and copy again.",
        (false, false) => "Copied, but you have not pressed Check.",
        (true, false) => "Copied, but without your name, and you have not pressed Check.",
    };
    page.copy(page.link(), done);
}

/// What is still to be done before an answer is handed in.
fn missing(answer: &Answer) -> &'static str {
    match (answer.by.trim().is_empty(), answer.checked) {
        (false, true) => "",
        (true, true) => "Before you hand in: type your name.",
        (false, false) => "Before you hand in: press Check.",
        (true, false) => "Before you hand in: press Check and type your name.",
    }
}
