//! A teacher's side of a lesson: everything of it can be typed, and taken back.

use super::acts::{Shelf, click, teach};
use super::free::{FreeRows, beyond};
use super::series::SeriesRows;
use super::targets::Targets;
use crate::app::{About, App};
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::lesson::{Lesson, MOST_VARIED, Number, Prediction};
use crate::panes::boxes::choice;
use crate::panes::number_box::NumberBox;
use crate::panes::text_box::TextBox;
use crate::text::number::plain;
use crate::text::typed::{CODES, Kind};
use kernel::{Reading, Unit};
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlSelectElement};

/// What a teacher sees.
pub(super) struct Teacher {
    texts: [TextBox; 2],
    targets: Targets,
    free: FreeRows,
    series: SeriesRows,
    vary: NumberBox,
    readings: (Element, RefCell<Vec<ReadingRow>>),
    number: [NumberBox; 2],
    unit: HtmlSelectElement,
    words: Shown,
    says: Shown,
}

/// A reading of the lesson, with its two switches.
struct ReadingRow {
    column: &'static str,
    pressed: [Shown; 2],
    _listeners: [Listener; 2],
}

/// A number's tolerance until one is typed.
const TOLERANCE: f64 = 0.1;

/// Asks for another number. One box takes one number: no prediction beside it.
fn ask(page: &Page, change: impl FnOnce(Number) -> Number) {
    teach(page, |lesson, _| {
        let old = lesson.number.unwrap_or(Number { value: 0.0, tolerance: TOLERANCE, unit: Unit::One });
        lesson.number = Some(change(old));
        lesson.predict = None;
    });
}

/// Hides a reading until an answer is checked, or shows it.
fn turn_hidden(lesson: &mut Lesson, column: &'static str) {
    match lesson.hidden.iter().position(|hidden| *hidden == column) {
        Some(at) => drop(lesson.hidden.remove(at)),
        None => lesson.hidden.push(column),
    }
}

/// Asks for a prediction of a reading's change, which is then hidden, or for none.
fn turn_predicted(lesson: &mut Lesson, app: &App, column: &'static str) {
    if lesson.predict.is_some_and(|prediction| prediction.column == column) {
        lesson.predict = None;
        return;
    }
    lesson.predict = Prediction::of(column, &app.document);
    lesson.number = None;
    if !lesson.hidden.contains(&column) {
        lesson.hidden.push(column);
    }
}

impl Teacher {
    /// Finds it on the page.
    pub fn new(page: &Page, shelf: &Rc<Shelf>) -> Teacher {
        click(page, "teach", |page| teach(page, |lesson, _| lesson.begin = 0));
        click(page, "edit-drop", |page| page.send(About::Teach(None)));
        click(page, "edit-words", |page| teach(page, |lesson, _| lesson.words = !lesson.words));
        click(page, "edit-copy", |page| {
            let empty =
                page.with(|app| app.document.lesson.as_ref().is_some_and(|lesson| lesson.task.trim().is_empty()));
            page.copy(
                page.link(),
                if empty { "Lesson link copied, but the task is empty" } else { "Lesson link copied" },
            );
        });
        let place: Element = find("edit-number");
        let label: Element = make(&place, "label");
        make::<Element>(&label, "span").set_text_content(Some("Ask for a number"));
        let value = NumberBox::blank(page, &label, "Ask for a number", |page, value| match value {
            Some(value) => ask(page, |number| Number { value: number.kernel(value), ..number }),
            None => teach(page, |lesson, _| lesson.number = None),
        });
        let tolerance = NumberBox::named(page, &place, "±", |page, value| {
            ask(page, |number| Number { tolerance: number.kernel(value.abs()), ..number });
        });
        let names: Vec<&str> = CODES.iter().map(|(unit, _)| name(*unit)).collect();
        let unit = choice(page, "edit-unit", &names, |page, at| {
            if let Some((unit, _)) = CODES.get(at) {
                // The digits stay.
                ask(page, |old| {
                    let other = Number { unit: *unit, ..old };
                    Number {
                        value: other.kernel(old.shown(old.value)),
                        tolerance: other.kernel(old.shown(old.tolerance)),
                        ..other
                    }
                });
            }
        });
        Teacher {
            texts: [
                TextBox::lines(page, "edit-task", |page, text| teach(page, |lesson, _| lesson.task = text)),
                TextBox::lines(page, "edit-hint", |page, text| teach(page, |lesson, _| lesson.hint = text)),
            ],
            targets: Targets::new(page),
            free: FreeRows::new(page),
            series: SeriesRows::new(page, shelf),
            vary: NumberBox::named(
                page,
                &find("edit-vary"),
                "Vary each student’s start by up to ±",
                |page, value| {
                    let most = page.with(|app| app.document.units.typed_length(value.abs()));
                    teach(page, |lesson, _| lesson.vary = most.min(MOST_VARIED));
                },
            ),
            readings: (find("taught-rows"), RefCell::default()),
            number: [value, tolerance],
            unit,
            words: Shown::attribute(find::<Element>("edit-words"), "aria-pressed"),
            says: Shown::text(find::<Element>("edit-says")),
        }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App, lesson: &Lesson) {
        self.texts[0].show(&lesson.task);
        self.texts[1].show(&lesson.hint);
        self.targets.show(page, app, lesson);
        self.free.show(page, app, lesson);
        self.series.show(page, app);
        self.vary.show(&app.document.units.length(lesson.vary));
        self.show_readings(page, app, lesson);
        let asked = |of: fn(&Number) -> f64| {
            lesson
                .number
                .as_ref()
                .map_or(String::new(), |number| plain(number.shown(of(number))).replace('-', "\u{2212}"))
        };
        self.number[0].show(&asked(|number| number.value));
        self.number[1].show(&asked(|number| number.tolerance));
        let unit = lesson.number.map_or(Unit::One, |number| number.unit);
        let at = CODES.iter().position(|(known, _)| *known == unit).and_then(|at| i32::try_from(at).ok());
        self.unit.set_selected_index(at.unwrap_or_default());
        self.words.show(if lesson.words { "true" } else { "false" });
        self.says.show(&remarks(app, lesson).join(" "));
    }

    /// The readings that students see pinned, and those hidden.
    fn show_readings(&self, page: &Page, app: &App, lesson: &Lesson) {
        let mut columns = app.document.pinned.clone();
        let others = lesson.hidden.iter().copied().chain(lesson.predict.map(|prediction| prediction.column));
        for column in others {
            if !columns.contains(&column) {
                columns.push(column);
            }
        }
        let (body, rows) = &self.readings;
        let mut rows = rows.borrow_mut();
        if !rows.iter().map(|row| row.column).eq(columns.iter().copied()) {
            rows.clear();
            body.set_text_content(None);
            rows.extend(columns.iter().map(|column| ReadingRow::new(page, body, column)));
        }
        for row in rows.iter() {
            let predicted = lesson.predict.is_some_and(|prediction| prediction.column == row.column);
            for (pressed, is) in row.pressed.iter().zip([lesson.hidden.contains(&row.column), predicted]) {
                pressed.show(if is { "true" } else { "false" });
            }
        }
    }
}

impl ReadingRow {
    fn new(page: &Page, body: &Element, column: &'static str) -> ReadingRow {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let name = Reading::named(column).map_or(String::new(), Reading::full_name);
        heading.set_text_content(Some(&name));
        let button = |text: &str| {
            let button: Element = make(&make::<Element>(&row, "td"), "button");
            button.set_text_content(Some(text));
            set(&button, "aria-label", &format!("{text}: {name}"));
            button
        };
        let [hide, predict] = ["Hidden until checked", "Predict its change"].map(button);
        let (hiding, predicting) = (page.clone(), page.clone());
        let listeners = [
            Listener::new(&hide, "click", move |_: Event| teach(&hiding, |lesson, _| turn_hidden(lesson, column))),
            Listener::new(&predict, "click", move |_: Event| {
                teach(&predicting, |lesson, app| turn_predicted(lesson, app, column));
            }),
        ];
        ReadingRow {
            column,
            pressed: [hide, predict].map(|b| Shown::attribute(b, "aria-pressed")),
            _listeners: listeners,
        }
    }
}

/// What the unit is called in the list.
fn name(unit: Unit) -> &'static str {
    match Kind::of(unit).name(Default::default()) {
        "" => "no unit",
        name => name,
    }
}

/// What there is to say of the lesson as it is, in sentences.
fn remarks(app: &App, lesson: &Lesson) -> Vec<String> {
    let asks = !lesson.aims.is_empty() || lesson.asks().is_some() || lesson.words;
    let sentences = [
        (lesson.task.trim().is_empty(), "The task is empty."),
        (!asks, "Nothing is asked for yet: no target, no number, no prediction, no written answer."),
        (app.reaches_aims(), "The targets are already met here: move the axle to the student’s starting position."),
    ];
    let varies = lesson.vary > 0.0 && lesson.free.is_empty();
    let sentences = sentences.into_iter().chain([(varies, "Starts vary only by what students may move: name it.")]);
    let said = sentences.into_iter().filter(|(is, _)| *is).map(|(_, sentence)| sentence.to_string());
    said.chain(Some(beyond(app, lesson)).filter(|sentence| !sentence.is_empty())).collect()
}
