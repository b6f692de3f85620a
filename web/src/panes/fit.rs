//! Fit: a table of readings measured at several heights, and the joints that have them. Brought up to date only while it is shown.

mod columns;

use super::rows::Rows;
use crate::app::{App, Edit, Measure, Paper, Point, Say};
use crate::browser::dom::{Shown, document, find, on};
use crate::browser::page::{Page, Pane};
use crate::browser::work::Running;
use crate::document::fitting::{Fitting, LONGEST, Value};
use crate::exchange::fitted::{moved, question, residuals, summary, taken, untouched};
use crate::work::Slice;
use crate::work::fit::{Answer, Question, read};
use columns::Columns;
use kernel::vary::Kind;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement, HtmlTextAreaElement};

/// The pane.
pub struct FitPane {
    whole: HtmlElement,
    text: HtmlTextAreaElement,
    written: RefCell<String>,
    columns: Columns,
    says: Shown,
    all: HtmlElement,
    told: HtmlElement,
    age: Shown,
    words: [Shown; 2],
    tables: [Rows; 2],
    side: (HtmlElement, HtmlSelectElement),
    fitted: Rc<Fitted>,
}

/// What was asked last, and what has come of it.
#[derive(Default)]
struct Fitted {
    asked: RefCell<Option<(Question, Vec<Value>)>>,
    answer: RefCell<Option<Answer>>,
    running: RefCell<Option<Running>>,
}

/// What the button gives every joint, mm: plumb bob and tape (common practice).
const USUAL: f64 = 2.0;

/// Changes the table: a step to undo.
fn change(page: &Page, change: impl FnOnce(&mut Fitting)) {
    let mut table = page.with(|app| app.document.papers.fitting());
    change(&mut table);
    page.send(Paper::Fitting(Box::new(table)));
}

impl FitPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> FitPane {
        let text: HtmlTextAreaElement = find("fit-text");
        let (typing, typed) = (page.clone(), text.clone());
        on(&text, "change", move |_: Event| {
            let text: String = typed.value().chars().take(LONGEST).collect();
            change(&typing, |table| {
                let width = table.columns().len();
                table.text = text;
                // Another table has other columns.
                if table.columns().len() != width {
                    table.columns.clear();
                }
            });
        });
        let side: HtmlSelectElement = find("fit-side");
        let (asked, chosen) = (page.clone(), side.clone());
        on(&side, "change", move |_: Event| change(&asked, |table| table.right = chosen.selected_index() == 1));
        let fitted = Rc::new(Fitted::default());
        let click = |id, act: fn(&Page, &Rc<Fitted>)| {
            let (page, fitted) = (page.clone(), fitted.clone());
            on(&find::<Element>(id), "click", move |_: Event| act(&page, &fitted));
        };
        click("fit-go", |page, fitted| fitted.begin(page));
        click("fit-take", |page, fitted| fitted.take(page));
        click("fit-all", |page, _| page.send(Edit::Point(Point::ErrorOfJoints(USUAL))));
        click("fit-empty", |page, _| page.send(Paper::Fitting(Box::default())));
        FitPane {
            whole: find("fit"),
            text,
            written: RefCell::default(),
            columns: Columns::new(page),
            says: Shown::text(find::<Element>("fit-says")),
            all: find("fit-all"),
            told: find("fit-told"),
            age: Shown::attribute(find::<Element>("fit-told"), "class"),
            words: ["fit-summary", "fit-untouched"].map(|id| Shown::text(find::<Element>(id))),
            tables: ["fit-residuals", "fit-moved"].map(Rows::new),
            side: (find("fit-left"), side),
            fitted,
        }
    }

    /// The text, unless somebody is typing.
    fn write(&self, table: &Fitting) {
        let typing = document().active_element().as_ref() == Some(self.text.as_ref());
        let mut written = self.written.borrow_mut();
        if *written != table.text && (!typing || self.text.value() == *written) {
            self.text.set_value(&table.text);
        }
        table.text.clone_into(&mut written);
    }
}

impl Fitted {
    fn begin(self: &Rc<Self>, page: &Page) {
        let asked = match page.with(question) {
            Ok(asked) => asked,
            Err(sentence) => return page.send(Say::Sentence(sentence)),
        };
        let task = asked.0.task();
        self.asked.replace(Some(asked));
        self.answer.take();
        let mut running = self.running.borrow_mut();
        running
            .get_or_insert_with(|| {
                let (hears, told) = (self.clone(), page.clone());
                Running::new(move |slice: Result<Slice, String>| {
                    let answer = match slice {
                        Ok(slice) if !slice.last() => return,
                        Ok(slice) => read(&slice.news),
                        Err(why_not) => Answer { why_not, ..Answer::default() },
                    };
                    hears.answer.replace(Some(answer));
                    told.change();
                })
            })
            .ask(&task);
        page.change();
    }

    /// The joints become part of the axle: one step to undo.
    fn take(&self, page: &Page) {
        let (asked, answer) = (self.asked.borrow(), self.answer.borrow());
        let (Some((question, _)), Some(answer)) = (&*asked, &*answer) else { return };
        let (joints, wheel) = taken(&question.layout, answer);
        page.send(Measure::TakeFit(joints, wheel));
        page.say("The joints are as fitted.");
    }
}

impl Pane for FitPane {
    fn show(&self, _: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let table = app.document.papers.fitting();
        self.write(&table);
        self.columns.show(&table);
        let either = table.right || app.study.good.axle.sides_differ();
        self.side.0.set_hidden(either);
        self.side.1.set_hidden(!either);
        self.side.1.set_selected_index(i32::from(table.right));
        let now = question(app);
        self.all.set_hidden(!app.errors_of(Kind::Design).is_empty());
        let (asked, answer) = (self.fitted.asked.borrow(), self.fitted.answer.borrow());
        let fresh = asked.as_ref() == now.as_ref().ok();
        self.says.show(match (&now, &*asked, &*answer) {
            _ if table.text.trim().is_empty() => "",
            (Err(sentence), ..) => sentence,
            (_, Some(_), None) => "Fitting …",
            (_, _, Some(answer)) if fresh => &answer.why_not,
            (_, _, Some(_)) => "The table, the joints or their ± have changed since this was fitted; fit again.",
            _ => "",
        });
        let (Some((question, values)), Some(answer)) = (&*asked, &*answer) else { return self.told.set_hidden(true) };
        self.told.set_hidden(!answer.why_not.is_empty());
        self.age.show(if fresh { "" } else { "old" });
        self.words[0].show(&summary(answer));
        self.words[1].show(&untouched(&question.layout, answer));
        self.tables[0].show(residuals(app.document.units, values, answer));
        self.tables[1].show(moved(&question.layout, answer));
    }
}
