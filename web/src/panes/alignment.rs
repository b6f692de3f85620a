//! The alignment sheet: what a printout says, before and after, beside what this axle has; and what single thing explains it.
//! Brought up to date only while it is shown.

mod cells;
mod explain;

use super::boxes::choice;
use super::text_box::TextBox;
use super::typed_box::TypedBox;
use crate::app::{App, Paper, Say};
use crate::browser::dom::{find, make, on};
use crate::browser::page::{Page, Pane};
use crate::document::alignment::{Alignment, Cell, Row};
use crate::text::printout::Scale;
use kernel::{LONGEST_NAME, LeftOrRight, clip};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement};

/// The pane.
pub struct AlignmentPane {
    whole: HtmlElement,
    car: TextBox,
    date: TextBox,
    choices: [HtmlSelectElement; 3],
    rim: (HtmlElement, TypedBox),
    arch: (HtmlElement, TypedBox),
    cells: cells::Cells,
    explain: Rc<explain::Explaining>,
}

/// The rim at which toe is told until another is typed, mm: a usual rim's flange (an assumed, typical value).
const RIM: f64 = 400.0;

/// The smallest and the greatest rim, mm.
const RIMS: [f64; 2] = [200.0, 1000.0];

/// The greatest distance from arch to hub, mm.
const MOST_ARCH: f64 = 1000.0;

/// Changes the sheet: a step to undo.
fn change(page: &Page, change: impl FnOnce(&mut Alignment)) {
    let mut sheet = page.with(App::alignment);
    change(&mut sheet);
    page.send(Paper::Alignment(Box::new(sheet)));
}

/// A typed length in a range, mm; else a sentence.
fn length(page: &Page, text: &str, what: &str, [least, most]: [f64; 2]) -> Option<f64> {
    let units = page.with(|app| app.document.units);
    let value = Scale::Length(units).read(text).filter(|value| (least..=most).contains(value));
    if value.is_none() {
        let (text, scale) = (clip(text), Scale::Length(units));
        let [least, most] = [least, most].map(|end| scale.text(end));
        let unit = scale.unit();
        page.send(Say::Sentence(format!(
            "“{text}” is not a possible {what}: it must be a length from {least} to {most} {unit}."
        )));
    }
    value
}

impl AlignmentPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> AlignmentPane {
        let opening = page.clone();
        on(&find::<Element>("tab-alignment"), "click", move |_: Event| opening.change());
        let text = |id, write: fn(&mut Alignment, String)| {
            TextBox::new(page, id, move |page, text| {
                change(page, |sheet| write(sheet, text.chars().take(LONGEST_NAME).collect()));
            })
        };
        let pick = |id, names: &[&str], write: fn(&mut Alignment, bool)| {
            choice(page, id, names, move |page, at| change(page, |sheet| write(sheet, at == 1)))
        };
        let place = |id, name, take: fn(&Page, &str)| {
            let place: HtmlElement = find(id);
            let label: Element = make(&place, "label");
            make::<Element>(&label, "span").set_text_content(Some(name));
            (place, TypedBox::new(page, &label, name, take))
        };
        fill_from_axle(page);
        let empty = page.clone();
        on(&find::<Element>("align-empty"), "click", move |_: Event| empty.send(Paper::Alignment(Box::default())));
        AlignmentPane {
            whole: find("alignment"),
            car: text("align-car", |sheet, text| sheet.car = text),
            date: text("align-date", |sheet, text| sheet.date = text),
            choices: [
                pick("align-angles", &["degrees", "degrees and minutes"], |sheet, on| sheet.minutes = on),
                pick("align-toe", &["angle", "mm at the rim"], |sheet, on| sheet.rim = on.then_some(RIM)),
                pick("align-height", &["travel, + lower", "arch to hub"], |sheet, on| sheet.arch = on),
            ],
            rim: place("align-rim", "rim diameter", |page, text| {
                if let Some(mm) = length(page, text, "rim diameter", RIMS) {
                    change(page, |sheet| sheet.rim = Some(mm));
                }
            }),
            arch: place("align-arch", "arch to hub at travel 0", |page, text| {
                let mm = if text.trim().is_empty() {
                    None
                } else {
                    let Some(mm) = length(page, text, "distance from arch to hub", [0.0, MOST_ARCH]) else { return };
                    Some(mm)
                };
                change(page, |sheet| sheet.arch_at_design = mm);
            }),
            cells: cells::Cells::new(page),
            explain: explain::Explaining::new(page),
        }
    }
}

/// The buttons that fill cells with what this axle has, each in one step. What a lesson hides is left as it is.
fn fill_from_axle(page: &Page) {
    let filled = page.clone();
    on(&find::<Element>("align-before"), "click", move |_: Event| {
        let axle = filled.with(told);
        change(&filled, |sheet| {
            for (row, both) in axle {
                for side in LeftOrRight::BOTH {
                    let value = both[side.index()].and_then(|value| height(sheet, row, value));
                    if value.is_some() {
                        sheet.set(row, Cell::Before(side), value);
                    }
                }
            }
        });
    });
    let page = page.clone();
    on(&find::<Element>("align-wanted"), "click", move |_: Event| {
        let axle = page.with(told);
        change(&page, |sheet| {
            for (row, both) in axle {
                let values = both.map(|value| value.and_then(|value| height(sheet, row, value)));
                if let [Some(left), Some(right)] = values {
                    let error = sheet.error(row);
                    sheet.set(row, Cell::Wanted(0), Some(f64::min(left, right) - error));
                    sheet.set(row, Cell::Wanted(1), Some(f64::max(left, right) + error));
                }
            }
        });
    });
}

/// What may be told of every row.
fn told(app: &App) -> Vec<(Row, [Option<f64>; 2])> {
    Row::ALL.iter().map(|(row, _)| (*row, app.aligned(*row).map(|told| told.value()))).collect()
}

/// A value of the axle as the sheet has it: a height may be from the arch.
fn height(sheet: &Alignment, row: Row, value: f64) -> Option<f64> {
    if row == Row::Height { sheet.travel(value) } else { Some(value) }
}

impl Pane for AlignmentPane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let sheet = app.alignment();
        self.car.show(&sheet.car);
        self.date.show(&sheet.date);
        for (choice, on) in self.choices.iter().zip([sheet.minutes, sheet.rim.is_some(), sheet.arch]) {
            choice.set_selected_index(i32::from(on));
        }
        let lengths = Scale::Length(app.document.units);
        self.rim.0.set_hidden(sheet.rim.is_none());
        self.rim.1.show(&sheet.rim.map_or(String::new(), |mm| lengths.text(mm)));
        self.arch.0.set_hidden(!sheet.arch);
        self.arch.1.show(&sheet.arch_at_design.map_or(String::new(), |mm| lengths.text(mm)));
        self.cells.show(app, &sheet);
        self.explain.show(page, app, &sheet);
    }
}
