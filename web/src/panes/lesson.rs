//! Lessons: the twelve exercises, a student's task and answer, a teacher's preparation, and the table of hand-ins. Long because it is
//! one pane for two people.

use super::number_box::NumberBox;
use super::rows::Rows;
use super::text_box::TextBox;
use crate::app::{App, Message};
use crate::browser::dom::{Shown, find, make, on, window};
use crate::browser::page::{Page, Pane};
use crate::document::{Document, Quantity};
use crate::exercises;
use crate::lesson::{Aim, Answer, Free, Lesson, Prediction, Verdict};
use crate::link;
use crate::number::plain;
use crate::study::Study;
use std::cell::Cell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlTextAreaElement};

/// A freed joint may go so far either way, mm.
const REACH: f64 = 20.0;

/// The pane.
pub struct LessonPane {
    whole: HtmlElement,
    parts: [HtmlElement; 3],
    task: Shown,
    guess: (HtmlElement, NumberBox),
    words: (HtmlElement, TextBox),
    by: TextBox,
    verdict: Shown,
    hint: Rc<Cell<bool>>,
    says: Shown,
    edit: [TextBox; 2],
    number: [NumberBox; 2],
}

/// Changes the lesson in preparation.
fn teach(page: &Page, change: impl FnOnce(&mut Lesson, &App)) {
    let lesson = page.with(|app| {
        let mut lesson = app.document.lesson.clone().unwrap_or_default();
        change(&mut lesson, app);
        lesson
    });
    page.send(Message::Teach(Some(Box::new(lesson))));
}

/// Changes the student's answer; what is changed is not yet checked.
fn answer(page: &Page, change: impl FnOnce(&mut Answer)) {
    let mut answer = page.with(|app| app.document.answer.clone());
    change(&mut answer);
    page.send(Message::Answer(answer));
}

fn click(page: &Page, id: &str, act: impl Fn(&Page) + 'static) {
    let page = page.clone();
    on(&find::<Element>(id), "click", move |_: Event| act(&page));
}

impl LessonPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> LessonPane {
        exercise_list(page);
        student(page);
        teacher(page);
        hand_ins();
        let guess: HtmlElement = find("ask-guess");
        let number =
            NumberBox::named(page, &guess, "Your number", |page, value| answer(page, |a| a.guess = Some(value)));
        let hint = Rc::new(Cell::new(false));
        let (shown, hinted) = (hint.clone(), page.clone());
        on(&find::<Element>("show-hint"), "click", move |_: Event| {
            shown.set(true);
            hinted.change();
        });
        let place: Element = find("edit-number");
        let edit = |name: &'static str, at: usize| {
            NumberBox::named(page, &place, name, move |page, value| {
                teach(page, |lesson, _| {
                    let mut number = lesson.number.unwrap_or([0.0, 0.1]);
                    number[at] = value;
                    lesson.number = Some(number);
                });
            })
        };
        let number_asked = [edit("ask for the number", 0), edit("±", 1)];
        LessonPane {
            whole: find("lesson"),
            parts: ["lesson-task", "lesson-edit", "lesson-none"].map(find),
            task: Shown::text(find::<Element>("task")),
            guess: (guess, number),
            words: (
                find("ask-words"),
                TextBox::new(page, "own-words", |page, words| answer(page, |answer| answer.words = words)),
            ),
            by: TextBox::new(page, "by", |page, by| answer(page, |answer| answer.by = by)),
            verdict: Shown::text(find::<Element>("verdict")),
            hint,
            says: Shown::text(find::<Element>("edit-says")),
            edit: [
                TextBox::new(page, "edit-task", |page, text| teach(page, |lesson, _| lesson.task = text)),
                TextBox::new(page, "edit-hint", |page, text| teach(page, |lesson, _| lesson.hint = text)),
            ],
            number: number_asked,
        }
    }
}

fn exercise_list(page: &Page) {
    let list: Element = find("exercises");
    for exercise in exercises::all() {
        let button: Element = make(&make::<Element>(&list, "li"), "button");
        button.set_text_content(Some(exercise.name));
        let (page, document) = (page.clone(), exercise.document);
        on(&button, "click", move |_: Event| {
            page.send(Message::Open(Box::new(document.clone()), Vec::new()));
            // On a small screen the task then stands first.
            window().scroll_to_with_x_and_y(0.0, 0.0);
        });
    }
}

fn student(page: &Page) {
    click(page, "check", |page| answer(page, |answer| answer.shown = true));
    click(page, "lesson-start", |page| page.send(Message::BackToStart));
    click(page, "hand-in", |page| page.copy(page.link(), "Link to hand in copied"));
}

fn teacher(page: &Page) {
    click(page, "teach", |page| teach(page, |lesson, _| lesson.begin = 0));
    click(page, "edit-drop", |page| page.send(Message::Teach(None)));
    click(page, "edit-copy", |page| page.copy(page.link(), "The lesson’s link copied"));
    click(page, "edit-hide", |page| {
        teach(page, |lesson, app| {
            lesson.hidden = if lesson.hidden.is_empty() { app.document.pinned.clone() } else { Vec::new() }
        });
    });
    click(page, "edit-predict", |page| {
        teach(page, |lesson, app| {
            let last = app.document.pinned.last().copied().filter(|_| lesson.predict.is_none());
            lesson.predict = last.and_then(|column| Prediction::of(column, &app.study.good));
            lesson.hidden.extend(last.filter(|column| !lesson.hidden.contains(column)));
        });
    });
    click(page, "edit-words", |page| teach(page, |lesson, _| lesson.words = !lesson.words));
    click(page, "edit-aims", |page| {
        teach(page, |lesson, app| {
            let aim = |column: &&'static str| {
                let quantity = Quantity::named(column)?;
                let (decimals, factor, _) = app.document.units.shown(quantity);
                // To five of the last digit shown.
                let tolerance = 5.0 * 10.0_f64.powi(-(decimals as i32)) / factor;
                Some(Aim { column, value: app.study.good.value(quantity)?, tolerance })
            };
            lesson.aims =
                if lesson.aims.is_empty() { app.document.pinned.iter().filter_map(aim).collect() } else { Vec::new() };
        });
    });
    click(page, "edit-free", |page| {
        teach(page, |lesson, app| {
            let Some((point, at)) = app.selected.and_then(|id| Some((id, app.document.layout.point(id)?))) else {
                return;
            };
            let before = lesson.free.len();
            lesson.free.retain(|free| free.point != point);
            if lesson.free.len() == before {
                lesson.free.extend((0..3).map(|axis| Free {
                    point,
                    axis,
                    range: [at[axis] - REACH, at[axis] + REACH],
                }));
            }
        });
    });
}

/// The table of what has been handed in: made anew when links are pasted.
fn hand_ins() {
    let area: HtmlTextAreaElement = find("hand-ins");
    let (text, table) = (area.clone(), Rows::new("handed"));
    on(&area, "input", move |_: Event| {
        let pasted = text.value();
        let rows = pasted.lines().take(200).filter_map(|line| {
            let parameters = line.trim().split_once(['#', '?']).map_or(line.trim(), |(_, rest)| rest);
            let (document, _) = link::read(parameters)?;
            Some(handed(&document))
        });
        let heading = ["name", "number", "verdict", "pinned readings", "words"].map(String::from).to_vec();
        table.show([heading].into_iter().chain(rows).collect());
    });
}

fn handed(document: &Document) -> Vec<String> {
    let study = Study::new(document);
    let verdict = document.lesson.as_ref().map(|lesson| judged(lesson, document, &study));
    let pinned = document.pinned.iter().filter_map(|column| Quantity::named(column));
    let values = pinned.map(|quantity| {
        format!("{} {}", quantity.full_name(), document.units.quantity(study.good.value(quantity), quantity))
    });
    vec![
        document.answer.by.clone(),
        document.answer.guess.map_or("–".into(), plain),
        verdict.map_or("no lesson".into(), |verdict| verdict.replace('\n', " ")),
        values.collect::<Vec<_>>().join(", "),
        document.answer.words.clone(),
    ]
}

/// The verdict, and what has come of a prediction, a sentence a line.
fn judged(lesson: &Lesson, document: &Document, study: &Study) -> String {
    let verdict = match lesson.verdict(document, &study.good) {
        Verdict::Unanswered => "Not answered yet.".into(),
        Verdict::Right => "Right.".into(),
        Verdict::Words => "Words are there; somebody has to read them.".into(),
        Verdict::Wrong(parts) => parts.join("\n"),
    };
    let outcome = lesson.outcome(document, &study.good);
    [verdict].into_iter().chain(outcome).collect::<Vec<_>>().join("\n")
}

impl Pane for LessonPane {
    fn show(&self, _: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let lesson = app.document.lesson.as_ref();
        let shown = match lesson {
            Some(lesson) if lesson.sealed() => 0,
            Some(_) => 1,
            None => 2,
        };
        for (i, part) in self.parts.iter().enumerate() {
            part.set_hidden(i != shown);
        }
        let Some(lesson) = lesson else { return };
        if lesson.sealed() { self.task(app, lesson) } else { self.preparation(app, lesson) }
    }
}

impl LessonPane {
    fn task(&self, app: &App, lesson: &Lesson) {
        let answer = &app.document.answer;
        let hint = if self.hint.get() { format!(" Hint: {}", lesson.hint) } else { String::new() };
        self.task.show(&format!("{}{hint}", lesson.task));
        self.guess.0.set_hidden(lesson.number.is_none() && lesson.predict.is_none());
        self.guess.1.show(&answer.guess.map_or(String::new(), plain));
        self.words.0.set_hidden(!lesson.words);
        self.words.1.show(&answer.words);
        self.by.show(&answer.by);
        let verdict = if answer.shown { judged(lesson, &app.document, &app.study) } else { String::new() };
        self.verdict.show(&verdict);
    }

    fn preparation(&self, app: &App, lesson: &Lesson) {
        self.edit[0].show(&lesson.task);
        self.edit[1].show(&lesson.hint);
        for (number, value) in self.number.iter().zip(lesson.number.unwrap_or_default()) {
            number.show(&plain(value));
        }
        let names = |columns: Vec<&str>| {
            let names: Vec<String> = columns.into_iter().filter_map(Quantity::named).map(Quantity::full_name).collect();
            if names.is_empty() { "nothing".into() } else { names.join(", ") }
        };
        let free: Vec<&str> = lesson.free.iter().filter(|free| free.axis == 0).map(|free| free.point.name()).collect();
        let right = lesson.aims.iter().all(|aim| {
            Quantity::named(aim.column)
                .and_then(|q| app.study.good.value(q))
                .is_some_and(|v| (v - aim.value).abs() <= aim.tolerance)
        });
        let already = if !lesson.aims.is_empty() && right {
            " The aims are reached here: move the axle to where the student begins."
        } else {
            ""
        };
        self.says.show(&format!(
            "To be reached: {}. To be predicted, its change: {}. Hidden: {}. May be moved: {}.{}{already}",
            names(lesson.aims.iter().map(|aim| aim.column).collect()),
            names(lesson.predict.iter().map(|prediction| prediction.column).collect()),
            names(lesson.hidden.clone()),
            if free.is_empty() { "everything".into() } else { free.join(", ") },
            if lesson.words { " Words are asked for." } else { "" }
        ));
    }
}
