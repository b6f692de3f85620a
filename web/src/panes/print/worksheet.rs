//! Worksheets of exercises, two a sheet: the task, a drawing, a table of the readings with blanks, a line for the number, lines for words, and
//! the link as a QR code; for a teacher a page with the key.

use super::{foot, sheet};
use crate::app::App;
use crate::browser::dom::{make, set};
use crate::document::Document;
use crate::document::lesson::{Lesson, Number};
use crate::drawing::svg::svg;
use crate::drawing::{Arrangement, Sheet, Theme, View, draw};
use crate::exchange::code::qr;
use crate::text::number::{Units, plain};
use crate::text::typed::Kind;
use kernel::Reading;
use web_sys::Element;

/// Size of a task's drawing, px.
const VIEW: [f64; 2] = [300.0, 250.0];

/// Lines to write on.
const LINES: usize = 4;

/// Puts the sheets together: of each document one exercise, with the link to all of them.
pub(super) fn fill(documents: &[Document], link: &str, key: bool) {
    for (nth, two) in documents.chunks(2).enumerate() {
        let page = sheet();
        set(&page, "class", "print-sheet print-worksheet");
        for (at, document) in two.iter().enumerate() {
            let number = 2 * nth + at + 1;
            let title = if documents.len() == 1 { String::new() } else { format!("Exercise {number}. ") };
            // One code leads to all.
            task(&page, document, &title, (number == 1).then_some(link));
        }
        foot(&page, "Lengths in mm, angles in degrees, left wheel; signs to ISO 8855.");
    }
    if key {
        keys(documents);
    }
}

/// The readings that count in an exercise, each once: those aimed at, predicted and pinned.
fn readings(document: &Document, lesson: &Lesson) -> Vec<&'static Reading> {
    let aims = lesson.aims.iter().map(|aim| aim.column);
    let all = aims.chain(lesson.predict.map(|prediction| prediction.column)).chain(document.pinned.iter().copied());
    let mut columns: Vec<&str> = Vec::new();
    for column in all {
        if !columns.contains(&column) {
            columns.push(column);
        }
    }
    columns.into_iter().filter_map(Reading::named).collect()
}

fn task(page: &Element, document: &Document, title: &str, link: Option<&str>) {
    let Some(lesson) = &document.lesson else { return };
    let app = App::new(document.clone(), Vec::new());
    let (place, units) = (make::<Element>(page, "div"), document.units);
    set(&place, "class", "print-task print-answer");
    let line = |tag: &str, text: &str| make::<Element>(&place, tag).set_text_content(Some(text));
    if let Some(code) = link.and_then(qr) {
        let corner: Element = make(&place, "div");
        set(&corner, "class", "print-code");
        corner.set_inner_html(&svg(&code, Theme::LIGHT));
    }
    line("b", &format!("{title}{}", lesson.task));
    line("p", &format!("Name: {}", written(&document.answer.by)));
    let movable = lesson.movable();
    if !movable.is_empty() {
        line("p", &format!("You may move: {movable}."));
    }
    if lesson.asks().is_some() {
        line("p", &format!("{}: {}", lesson.label(units), written(&document.answer.guess)));
    }
    let paper = Sheet::fit(VIEW, Arrangement::One(View::Front), &app.picture());
    make::<Element>(&place, "div").set_inner_html(&svg(&draw(&app.picture(), &paper), Theme::LIGHT));
    let table: Element = make(&place, "table");
    let row = |cells: [&str; 3]| {
        let row: Element = make(&table, "tr");
        cells.iter().for_each(|cell| make::<Element>(&row, "td").set_text_content(Some(cell)));
    };
    row(["", "at the start", "my value"]);
    for reading in readings(document, lesson) {
        let told = app.told_now(reading);
        // What is hidden is to be filled in, too.
        row([&reading.full_name(), if told == "?" { "" } else { &told }, ""]);
    }
    line("p", &document.answer.words);
    (0..LINES).for_each(|_| line("hr", ""));
}

/// What has been typed, or a line to write on.
fn written(typed: &str) -> &str {
    if typed.trim().is_empty() { "______________________" } else { typed }
}

/// The page for the teacher.
fn keys(documents: &[Document]) {
    let page = sheet();
    make::<Element>(&page, "h2").set_text_content(Some("Key, for the teacher"));
    let table: Element = make(&page, "table");
    for (at, document) in documents.iter().enumerate() {
        let Some(lesson) = &document.lesson else { continue };
        let row: Element = make(&table, "tr");
        for cell in [format!("{}", at + 1), lesson.title(), key(lesson, document.units)] {
            make::<Element>(&row, "td").set_text_content(Some(&cell));
        }
    }
    foot(&page, "Targets are judged where they say, whatever is shown.");
}

/// What counts as right, in words.
fn key(lesson: &Lesson, units: Units) -> String {
    let aims = lesson.aims.iter().filter_map(|aim| {
        let reading = Reading::named(aim.column)?;
        let [value, tolerance] = [aim.value, aim.tolerance].map(|value| units.with_unit(Some(value), reading));
        Some(format!("{} {value} ± {tolerance} {}", reading.full_name(), aim.place.words(units)))
    });
    let number = |number: Number| {
        let [value, tolerance] = [number.value, number.tolerance].map(|value| plain(number.shown(value)));
        format!("{value} ± {tolerance} {}", Kind::of(number.unit).name(Units::default()))
    };
    let predicted = lesson.predict.and_then(|prediction| {
        let aim = lesson.aims.iter().find(|aim| aim.column == prediction.column)?;
        let reading = Reading::named(prediction.column)?;
        Some(format!("prediction {}", units.with_unit(Some(aim.value - prediction.before), reading)))
    });
    let words = lesson.words.then(|| "a written answer, to be read".to_string());
    let parts = aims.chain(lesson.number.map(number)).chain(predicted).chain(words);
    parts.collect::<Vec<_>>().join("; ")
}
