//! A teacher's table of targets: reading, value, tolerance, and where it is judged, all of it to be typed.

use super::acts::{click, teach};
use crate::app::{App, Say};
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::lesson::{Aim, Lesson};
use crate::panes::number_box::NumberBox;
use crate::text::number::{Units, plain};
use crate::text::typed::Kind;
use kernel::{READINGS, Reading};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlSelectElement};

/// The table.
pub(super) struct Targets {
    body: Element,
    rows: RefCell<Vec<Row>>,
}

/// A row: the reading, its unit, value and tolerance, travel and rack.
struct Row {
    reading: HtmlSelectElement,
    unit: Shown,
    boxes: [NumberBox; 4],
    _listeners: [Listener; 2],
}

/// Changes one target.
fn change(page: &Page, at: usize, change: impl FnOnce(&mut Aim, Units)) {
    teach(page, |lesson, app| {
        if let Some(aim) = lesson.aims.get_mut(at) {
            change(aim, app.document.units);
        }
    });
}

/// How many of what is shown one of the kernel's unit is.
fn factor(column: &str, units: Units) -> f64 {
    Reading::named(column).map_or(1.0, |reading| units.shown(reading).1)
}

impl Targets {
    /// Finds the table on the page.
    pub fn new(page: &Page) -> Targets {
        click(page, "edit-aim", |page| add(page, |app| app.document.pinned.last().copied().into_iter().collect()));
        click(page, "edit-aims", |page| {
            add(page, |app| {
                let aimed =
                    |column: &&&str| app.document.lesson.iter().flat_map(|l| &l.aims).all(|a| a.column != **column);
                app.document.pinned.iter().filter(aimed).copied().collect()
            });
        });
        Targets { body: find("aim-rows"), rows: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App, lesson: &Lesson) {
        let mut rows = self.rows.borrow_mut();
        if rows.len() != lesson.aims.len() {
            rows.clear();
            self.body.set_text_content(None);
            rows.extend((0..lesson.aims.len()).map(|at| Row::new(page, &self.body, at)));
        }
        for (row, aim) in rows.iter().zip(&lesson.aims) {
            row.show(aim, app.document.units);
        }
    }
}

/// Adds targets of these readings as they are here and now; what the axle has no value of is said.
fn add(page: &Page, columns: fn(&App) -> Vec<&'static str>) {
    let (columns, aims) = page.with(|app| {
        let mut columns = columns(app);
        if columns.is_empty() {
            columns.push("camber_deg");
        }
        let aims: Vec<Aim> = columns.iter().filter_map(|column| Aim::of(column, &app.document)).collect();
        (columns, aims)
    });
    if aims.len() < columns.len() {
        page.send(Say::Sentence("A pinned reading has no value here, so it can’t be a target.".into()));
    }
    teach(page, |lesson, _| lesson.aims.extend(aims));
}

impl Row {
    fn new(page: &Page, body: &Element, at: usize) -> Row {
        let row: Element = make(body, "tr");
        let cell = |tag: &str| make::<Element>(&row, tag);
        let reading: HtmlSelectElement = make(&cell("th"), "select");
        set(&reading, "aria-label", &format!("Target {}: reading", at + 1));
        for known in &READINGS {
            let option: Element = make(&reading, "option");
            option.set_text_content(Some(&known.full_name()));
        }
        let (choosing, chosen) = (page.clone(), reading.clone());
        let choose = Listener::new(&reading, "change", move |_: Event| {
            let known = usize::try_from(chosen.selected_index()).ok().and_then(|at| READINGS.get(at));
            let Some(known) = known else { return };
            // As it is here, until something else is typed.
            let aim = choosing.with(|app| Aim::of(known.column, &app.document));
            match aim {
                Some(aim) => change(&choosing, at, |old, _| *old = aim),
                None => {
                    choosing.change();
                    choosing.send(Say::Sentence(format!("{} has no value on this axle.", known.full_name())));
                }
            }
        });
        let number = |what: &str, take: fn(&mut Aim, f64, Units)| {
            let label = format!("Target {}: {what}", at + 1);
            NumberBox::new(page, &cell("td"), &label, move |page, value| {
                change(page, at, |aim, units| take(aim, value, units));
            })
        };
        let boxes = [
            number("value", |aim, value, units| aim.value = value / factor(aim.column, units)),
            number("±", |aim, value, units| aim.tolerance = value.abs() / factor(aim.column, units)),
            number("at travel", |aim, value, units| aim.place.travel = units.typed_length(value)),
            number("at rack", |aim, value, units| aim.place.rack = units.typed_length(value)),
        ];
        let unit = Shown::text(cell("td"));
        let button: Element = make(&cell("td"), "button");
        button.set_text_content(Some("×"));
        set(&button, "aria-label", &format!("Remove target {}", at + 1));
        let removing = page.clone();
        let remove = Listener::new(&button, "click", move |_: Event| {
            teach(&removing, |lesson, _| {
                if at < lesson.aims.len() {
                    lesson.aims.remove(at);
                }
            });
        });
        Row { reading, unit, boxes, _listeners: [choose, remove] }
    }

    fn show(&self, aim: &Aim, units: Units) {
        let at = READINGS.iter().position(|reading| reading.column == aim.column);
        let at = at.and_then(|at| i32::try_from(at).ok()).unwrap_or_default();
        if self.reading.selected_index() != at {
            self.reading.set_selected_index(at);
        }
        let factor = factor(aim.column, units);
        let place = [aim.place.travel, aim.place.rack].map(|mm| units.length(mm));
        let numbers = [aim.value, aim.tolerance].map(|value| plain((value * factor * 1e6).round() / 1e6));
        for (number, text) in self.boxes.iter().zip(numbers.iter().chain(&place)) {
            number.show(&text.replace('-', "\u{2212}"));
        }
        let kind = Reading::named(aim.column).map(|r| Kind { unit: r.unit, toe: r.column == "toe_deg" });
        self.unit.show(kind.map_or("", |kind| kind.name(units)));
    }
}
