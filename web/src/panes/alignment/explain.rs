//! What single thing explains the sheet: asked for by a button, worked out beside the page, told as a list; a click puts a cause into the car.

use crate::app::{App, Build, Say};
use crate::browser::dom::{Listener, Shown, find, make, on, set};
use crate::browser::page::Page;
use crate::browser::work::Running;
use crate::document::alignment::Alignment;
use crate::exchange::explained::{fits, further, summary, told};
use crate::panes::boxes::choice;
use crate::study::alignment::{Question, spare};
use crate::text::sentence::capital;
use crate::work::Slice;
use crate::work::explain::{Answer, Told, read, task};
use kernel::{Changes, Layout};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlInputElement};

/// The question and its answer.
pub struct Explaining {
    question: Cell<Question>,
    says: Shown,
    further: Shown,
    diagnosis: Shown,
    list: Element,
    old: Shown,
    running: RefCell<Option<Running>>,
    asked: RefCell<Option<Asked>>,
    /// The causes' buttons, and what hears them.
    causes: RefCell<Vec<(Changes, Shown, Listener)>>,
}

/// What has been asked, and what has come of it.
struct Asked {
    sheet: Alignment,
    question: Question,
    /// The car as it should be.
    layout: Layout,
    spare: i32,
    /// What has been heard of the answer so far.
    news: String,
    answer: Option<Answer>,
    /// The answer's list has been made.
    listed: bool,
}

impl Explaining {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Rc<Explaining> {
        let list: Element = find("causes");
        let explaining = Rc::new(Explaining {
            question: Cell::new(Question { toe_set: true, ..Question::default() }),
            says: Shown::text(find::<Element>("explain-says")),
            further: Shown::text(find::<Element>("further")),
            diagnosis: Shown::text(find::<Element>("diagnosis")),
            old: Shown::attribute(list.clone(), "class"),
            list,
            running: RefCell::default(),
            asked: RefCell::default(),
            causes: RefCell::default(),
        });
        let pick = |id, names: &[&str], set: fn(&mut Question, bool)| {
            let explaining = explaining.clone();
            choice(page, id, names, move |page, at| explaining.ask_for(page, |question| set(question, at == 1)));
        };
        pick("explain-when", &["before", "after"], |question, after| question.after = after);
        pick("explain-against", &["this axle", "the right wheel"], |question, against| question.against = against);
        let (toe, ticked, asking) = (find::<HtmlInputElement>("explain-toe"), page.clone(), explaining.clone());
        let tick = toe.clone();
        on(&toe, "change", move |_: Event| asking.ask_for(&ticked, |question| question.toe_set = tick.checked()));
        let (asking, page) = (explaining.clone(), page.clone());
        on(&find::<Element>("explain"), "click", move |_: Event| asking.begin(&page));
        explaining
    }

    fn ask_for(&self, page: &Page, change: impl FnOnce(&mut Question)) {
        let mut question = self.question.get();
        change(&mut question);
        self.question.set(question);
        page.change();
    }

    fn begin(self: &Rc<Self>, page: &Page) {
        let question = self.question.get();
        let asked = page.with(|app| {
            let (sheet, layout) = (app.alignment(), app.document.layout.clone());
            let found = (!app.document.sealed()).then(|| question.found(&sheet, &layout, app.steered())).flatten()?;
            let spare = spare(&found);
            let asked = Asked { sheet, question, spare, news: String::new(), answer: None, listed: false, layout };
            Some((task(&found, &asked.layout), asked))
        });
        let Some((task, asked)) = asked else {
            let sealed = page.with(|app| app.document.sealed());
            return page.send(Say::Sentence(String::from(match (sealed, question.against) {
                (true, _) => "In this exercise you find it yourself.",
                (false, true) => "There is nothing to explain: type a value of both wheels first.",
                (false, false) => "There is nothing to explain: type a value first.",
            })));
        };
        self.asked.replace(Some(asked));
        self.running.borrow_mut().get_or_insert_with(|| self.labourer(page)).ask(&task);
        page.change();
    }

    /// Does what it is asked, and keeps what comes of it beside the question.
    fn labourer(self: &Rc<Self>, page: &Page) -> Running {
        let (hears, told) = (self.clone(), page.clone());
        Running::new(move |slice: Result<Slice, String>| {
            if let Some(asked) = hears.asked.borrow_mut().as_mut() {
                match slice {
                    Ok(slice) => {
                        asked.news += &slice.news;
                        if !slice.last() {
                            return hears.says.show(&format!("Tried {} of {}.", slice.done, slice.of));
                        }
                        asked.answer = read(&asked.news);
                    }
                    Err(why_not) => asked.answer = Some(Answer { why_not, ..Answer::default() }),
                }
            }
            told.change();
        })
    }

    /// Shows what is known.
    pub fn show(&self, page: &Page, app: &App, sheet: &Alignment) {
        let question = self.question.get();
        self.diagnosis.show(&if question.against { String::new() } else { app.diagnoses(question).join(" ") });
        let mut asked = self.asked.borrow_mut();
        let Some(asked) = asked.as_mut() else { return };
        let Some(answer) = &asked.answer else { return };
        if !asked.listed {
            self.list(page, asked, answer);
            self.further.show(&further(answer, &asked.layout, asked.question).unwrap_or_default());
            asked.listed = true;
        }
        let now = &app.document.layout;
        let causes = self.causes.borrow();
        let known = now.changes == asked.layout.changes || causes.iter().any(|(built, ..)| *built == now.changes);
        let design = |layout: &Layout| Layout { changes: Changes::default(), ..layout.clone() };
        let typed = (sheet, question) == (&asked.sheet, asked.question);
        let same = known && typed && design(now) == design(&asked.layout);
        let summary = summary(answer, asked.spare);
        self.says.show(&if same {
            summary
        } else {
            "The sheet or the axle has changed since this was asked; ask again.".into()
        });
        self.old.show(if same { "" } else { "old" });
        for (built, pressed, _) in causes.iter() {
            pressed.show(if *built == now.changes { "true" } else { "false" });
        }
    }

    /// Makes the list: tied causes have the same place.
    fn list(&self, page: &Page, asked: &Asked, answer: &Answer) {
        self.causes.borrow_mut().clear();
        self.list.set_text_content(None);
        for (at, cause) in answer.causes.iter().enumerate() {
            let Some(words) = told(cause, &asked.layout, asked.question) else { continue };
            let item: Element = make(&self.list, "li");
            let button: Element = make(&item, "button");
            let place = if at < answer.tied { "1".into() } else { (at + 1).to_string() };
            let equal = if at < answer.tied && answer.tied > 1 { "=" } else { "" };
            button.set_text_content(Some(&format!("{place}{equal} {}", capital(&words))));
            set(&button, "title", "Puts it into the car, to be seen on the drawing; a second click takes it back");
            let [fit, squares] = fits(cause, asked.spare);
            make::<Element>(&item, "small").set_text_content(Some(&format!(" {fit} ({squares})")));
            self.causes.borrow_mut().push(self.hear(page, asked, cause, &button));
        }
        if answer.tied > answer.causes.len() {
            let more = answer.tied - answer.causes.len();
            make::<Element>(&self.list, "li").set_text_content(Some(&format!("and {more} more that fit as well")));
        }
    }

    fn hear(&self, page: &Page, asked: &Asked, cause: &Told, button: &Element) -> (Changes, Shown, Listener) {
        let built = cause.put_into(&asked.layout).changes;
        let (page, put, before) = (page.clone(), built.clone(), asked.layout.changes.clone());
        let listener = Listener::new(button, "click", move |_: Event| {
            let there = page.with(|app| app.document.layout.changes == put);
            page.send(Build::All(Box::new(if there { before.clone() } else { put.clone() })));
        });
        (built, Shown::attribute(button.clone(), "aria-pressed"), listener)
    }
}
