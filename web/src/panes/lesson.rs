//! Lessons: the twelve exercises, a student's task and answer, a teacher's preparation. Long because it is one pane for two
//! people.

use super::hand_ins;
use super::number_box::NumberBox;
use super::text_box::TextBox;
use crate::app::{About, App, Open, Reply};
use crate::browser::dom::{Shown, find, make, on, window};
use crate::browser::page::{Page, Pane};
use crate::content::exercises;
use crate::document::lesson::{Aim, Answer, Free, Lesson, Number, Prediction};
use crate::study::marking::Marking;
use crate::text::number::plain;
use kernel::{Reading, Unit};
use web_sys::{Element, Event, HtmlElement};

/// A freed joint may go so far either way, mm.
const REACH: f64 = 20.0;

/// The pane.
pub struct LessonPane {
    whole: HtmlElement,
    parts: [HtmlElement; 3],
    task: Shown,
    hint: Shown,
    movable: Shown,
    guess: (HtmlElement, Shown, TextBox),
    words: (HtmlElement, TextBox),
    by: TextBox,
    verdict: Shown,
    first: Shown,
    missing: Shown,
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
    page.send(About::Teach(Some(Box::new(lesson))));
}

/// Changes the student's answer.
fn answer(page: &Page, change: impl FnOnce(&mut Answer)) {
    let mut answer = page.with(|app| app.document.answer.clone());
    change(&mut answer);
    page.send(Reply::Answer(answer));
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
        hand_ins::furnish(page);
        let guess = TextBox::live(page, "guess", |page, text| {
            let asked = page.with(|app| app.document.lesson.as_ref().and_then(Lesson::asks));
            let units = page.with(|app| app.document.units);
            // With the unit it was typed in, it stays the same number whatever is shown later.
            answer(page, |a| a.guess = asked.map_or(text.clone(), |kind| kind.with_unit(&text, units)));
        });
        let place: Element = find("edit-number");
        let edit = |name: &'static str, at: usize| {
            NumberBox::named(page, &place, name, move |page, value| {
                teach(page, |lesson, _| {
                    let old = lesson.number.unwrap_or(Number { value: 0.0, tolerance: 0.1, unit: Unit::One });
                    lesson.number = Some(match at {
                        0 => Number { value, ..old },
                        _ => Number { tolerance: value, ..old },
                    });
                    // One box takes one number.
                    lesson.predict = None;
                });
            })
        };
        let number_asked = [edit("Ask for a number", 0), edit("±", 1)];
        LessonPane {
            whole: find("lesson"),
            parts: ["lesson-task", "lesson-edit", "lesson-none"].map(find),
            task: Shown::text(find::<Element>("task")),
            hint: Shown::text(find::<Element>("hint")),
            movable: Shown::text(find::<Element>("movable")),
            guess: (find("ask-guess"), Shown::text(find::<Element>("guess-label")), guess),
            words: (
                find("ask-words"),
                TextBox::live(page, "own-words", |page, words| answer(page, |answer| answer.words = words)),
            ),
            by: TextBox::live(page, "by", |page, by| answer(page, |answer| answer.by = by)),
            verdict: Shown::text(find::<Element>("verdict")),
            first: Shown::text(find::<Element>("first-answer")),
            missing: Shown::text(find::<Element>("still-missing")),
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
            page.send(Open::Document(Box::new(document.clone()), Vec::new()));
            // On a small screen the task then stands first.
            window().scroll_to_with_x_and_y(0.0, 0.0);
        });
    }
}

fn student(page: &Page) {
    click(page, "check", |page| page.send(Reply::Check));
    click(page, "show-hint", |page| answer(page, |answer| answer.hinted = true));
    click(page, "hand-in", |page| {
        let answer = page.with(|app| app.document.answer.clone());
        let done = match (answer.by.trim().is_empty(), answer.checked) {
            (false, true) => "Copied. Send it to your teacher.",
            (true, true) => "Copied, but without your name. Type it and copy again.",
            (false, false) => "Copied, but you have not pressed Check.",
            (true, false) => "Copied, but without your name, and you have not pressed Check.",
        };
        page.copy(page.link(), done);
    });
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

fn teacher(page: &Page) {
    click(page, "teach", |page| teach(page, |lesson, _| lesson.begin = 0));
    click(page, "edit-drop", |page| page.send(About::Teach(None)));
    click(page, "edit-copy", |page| page.copy(page.link(), "Lesson link copied"));
    click(page, "edit-hide", |page| {
        teach(page, |lesson, app| {
            lesson.hidden = if lesson.hidden.is_empty() { app.document.pinned.clone() } else { Vec::new() }
        });
    });
    click(page, "edit-predict", |page| {
        teach(page, |lesson, app| {
            let last = app.document.pinned.last().copied().filter(|_| lesson.predict.is_none());
            lesson.predict = last.and_then(|column| Prediction::of(column, &app.document));
            // One box takes one number.
            lesson.number = lesson.number.filter(|_| lesson.predict.is_none());
            lesson.hidden.extend(last.filter(|column| !lesson.hidden.contains(column)));
        });
    });
    click(page, "edit-words", |page| teach(page, |lesson, _| lesson.words = !lesson.words));
    click(page, "edit-aims", |page| {
        teach(page, |lesson, app| {
            let aims = app.document.pinned.iter().filter_map(|column| Aim::of(column, &app.document));
            lesson.aims = if lesson.aims.is_empty() { aims.collect() } else { Vec::new() };
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
        let (answer, units) = (&app.document.answer, app.document.units);
        self.task.show(&lesson.task);
        self.hint.show(&if answer.hinted { format!("Hint: {}", lesson.hint) } else { String::new() });
        let movable = lesson.movable();
        self.movable.show(&if movable.is_empty() { movable } else { format!("You may move: {movable}.") });
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
    }

    fn preparation(&self, app: &App, lesson: &Lesson) {
        self.edit[0].show(&lesson.task);
        self.edit[1].show(&lesson.hint);
        let number = lesson.number.map_or([0.0; 2], |number| [number.value, number.tolerance]);
        for (shown, value) in self.number.iter().zip(number) {
            shown.show(&plain(value));
        }
        let names = |columns: Vec<&str>| {
            let names: Vec<String> = columns.into_iter().filter_map(Reading::named).map(Reading::full_name).collect();
            if names.is_empty() { "none".into() } else { names.join(", ") }
        };
        let movable = lesson.movable();
        let already = if app.reaches_aims() {
            " The targets are already met here: move the axle to the student’s starting position."
        } else {
            ""
        };
        self.says.show(&format!(
            "Targets: {}. Prediction asked for (change of): {}. Hidden readings: {}. Students may move: {}.{}{already}",
            names(lesson.aims.iter().map(|aim| aim.column).collect()),
            names(lesson.predict.iter().map(|prediction| prediction.column).collect()),
            names(lesson.hidden.clone()),
            if movable.is_empty() { "all joints".into() } else { movable },
            if lesson.words { " A written answer is asked for." } else { "" }
        ));
    }
}
