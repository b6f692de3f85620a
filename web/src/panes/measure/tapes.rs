//! The list of tape readings, what comes of it, and which reading does not fit.

use crate::app::{App, Measure};
use crate::browser::dom::{Shown, document, find, make, on};
use crate::browser::page::Page;
use crate::panes::rows::Rows;
use crate::text::number::fixed;
use kernel::tape::What;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlButtonElement, HtmlTextAreaElement};

/// The list and its tables.
pub struct TapeList {
    text: HtmlTextAreaElement,
    shown: RefCell<String>,
    says: Element,
    said: RefCell<Vec<String>>,
    take: HtmlButtonElement,
    label: Shown,
    places: Rows,
    readings: Rows,
}

impl TapeList {
    /// Finds it on the page.
    pub fn new(page: &Page) -> TapeList {
        let text: HtmlTextAreaElement = find("tapes");
        let (typed, from) = (page.clone(), text.clone());
        on(&text, "change", move |_: Event| typed.send(Measure::Tapes(from.value())));
        let (taking, take) = (page.clone(), find::<HtmlButtonElement>("take-tapes"));
        on(&take, "click", move |_: Event| taking.send(Measure::TakeTapes));
        TapeList {
            text,
            shown: RefCell::default(),
            says: find("tape-says"),
            said: RefCell::default(),
            label: Shown::text(take.clone()),
            take,
            places: Rows::new("tape-places"),
            readings: Rows::new("tape-readings"),
        }
    }

    /// Shows it.
    pub fn show(&self, app: &App) {
        let typed = &app.document.papers.measuring.tapes;
        let typing = document().active_element().as_ref() == Some(self.text.as_ref());
        if *self.shown.borrow() != *typed && (!typing || self.text.value() == *self.shown.borrow()) {
            self.text.set_value(typed);
        }
        typed.clone_into(&mut self.shown.borrow_mut());
        let says = app.told_tapes();
        if *self.said.borrow() != says {
            self.says.set_text_content(None);
            says.iter().for_each(|says| make::<Element>(&self.says, "li").set_text_content(Some(says)));
            self.said.replace(says);
        }
        let points = app.taped().measured().len();
        self.take.set_disabled(points == 0);
        self.label.show(&format!("Use these places ({points})"));
        self.places.show(places(app));
        self.readings.show(readings(app));
    }
}

fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(String::from).to_vec()
}

/// Every point with its coordinates, each with its ±.
fn places(app: &App) -> Vec<Vec<String>> {
    let taped = app.taped();
    let Some(found) = &taped.found else { return Vec::new() };
    let units = app.document.units;
    let cell = |at: usize, axis: usize| match taped.error(at, axis) {
        Some(error) => format!("{} ± {}", units.length(found.places[at][axis]), units.length(error)),
        None => "–".into(),
    };
    let line = |(at, spot): (usize, &crate::document::tapes::Spot)| {
        vec![spot.name().to_string(), cell(at, 0), cell(at, 1), cell(at, 2)]
    };
    let heading = row([&format!("Place, {}", units.length_name()), "x", "y", "z"]);
    std::iter::once(heading).chain(taped.tapes.spots.iter().enumerate().map(line)).collect()
}

/// Every distance with what is left of it; those that don't fit are marked.
fn readings(app: &App) -> Vec<Vec<String>> {
    let taped = app.taped();
    let Some(found) = &taped.found else { return Vec::new() };
    let line = |(at, (line, tape)): (usize, &(usize, kernel::tape::Tape))| {
        let What::Distance(ends) = tape.what else { return None };
        let [from, to] = ends.map(|end| taped.tapes.name(end));
        let off = if found.suspects.iter().any(|suspect| suspect.tape == at) { "!" } else { "" };
        let left = format!("{off}{}", fixed(found.checked[at].left, 1));
        Some(vec![format!("{line}: {from} to {to}"), fixed(tape.value, 1), left])
    };
    let heading = row(["Reading, mm", "typed", "typed − found"]);
    std::iter::once(heading).chain(taped.tapes.readings.iter().enumerate().filter_map(line)).collect()
}
