//! The alignment sheet on paper: a protocol of both wheels before and after, what is wanted, what was explained, and the link to the axle.

use crate::app::App;
use crate::browser::dom::{find, make, set};
use crate::document::alignment::{Alignment, Cell, Row};
use crate::drawing::Theme;
use crate::drawing::svg::svg;
use crate::exchange::as_built::changes;
use crate::exchange::code::qr;
use kernel::LeftOrRight;
use web_sys::Element;

/// Under a protocol, beside the page's own caution.
const CAUTION: &str = "Typed values, not checked. A part that would explain them is not proved bent by that: measure it before anything is replaced. What has to be aligned after which work stands in the maker’s data; have steering and brakes checked by a workshop.";

/// Puts a protocol on a sheet of paper. What was explained is taken as the page shows it.
pub fn fill(paper: &Element, app: &App, link: &str) {
    let sheet = app.alignment();
    let line = |tag: &str, text: &str| make::<Element>(paper, tag).set_text_content(Some(text));
    let car = if sheet.car.is_empty() { "" } else { ": " };
    line("h2", &format!("Alignment{car}{}", sheet.car));
    let date = if sheet.date.is_empty() { today() } else { sheet.date.clone() };
    let name = &app.document.layout.name;
    line("p", &format!("Date {date}. Axle on the page: {name}. {}", changes(&app.document.layout)));
    table(&make(paper, "table"), app, &sheet);
    // What was found for other values than those on the sheet is no part of it.
    let old = find::<Element>("causes").class_name() == "old";
    let explained = texts(if old { &["diagnosis"] } else { &["explain-says", "causes", "further", "diagnosis"] });
    if !explained.is_empty() {
        line("h3", "What explains it");
        explained.iter().for_each(|text| line("p", text));
    }
    line("p", CAUTION);
    if let Some(code) = qr(link) {
        let place: Element = make(paper, "div");
        set(&place, "class", "print-qr");
        place.set_inner_html(&svg(&code, Theme::LIGHT));
    }
    let place: Element = make(paper, "p");
    set(&place, "class", "print-link");
    place.set_text_content(Some(link));
}

/// What the page says in these places, a list by the item, each of whose parts follows a colon; those left out that say nothing.
fn texts(ids: &[&str]) -> Vec<String> {
    let parts = |of: &Element| {
        let all = of.children();
        (0..all.length()).filter_map(|at| all.item(at)).collect::<Vec<Element>>()
    };
    let words = |of: &Element| of.text_content().unwrap_or_default().trim().to_string();
    let item = |of: &Element| {
        let parts: Vec<String> = parts(of).iter().map(words).collect();
        if parts.is_empty() { words(of) } else { parts.join(": ") }
    };
    let place = |id: &&str| {
        let place: Element = find(id);
        let items = parts(&place);
        if items.is_empty() { vec![words(&place)] } else { items.iter().map(item).collect() }
    };
    ids.iter().flat_map(place).filter(|text| !text.is_empty()).collect()
}

fn today() -> String {
    let now = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

fn table(table: &Element, app: &App, sheet: &Alignment) {
    let row = |cells: &[String]| {
        let row: Element = make(table, "tr");
        cells.iter().for_each(|cell| make::<Element>(&row, "td").set_text_content(Some(cell)));
    };
    let heads = ["", "left, before", "left, after", "right, before", "right, after", "wanted", "±"];
    row(&heads.map(String::from));
    for (which, name) in Row::ALL {
        let scale = sheet.scale(which, app.document.units);
        let text = |value: Option<f64>| value.map_or("–".into(), |value| scale.text(value));
        let [left, right] = LeftOrRight::BOTH;
        let values = [Cell::Before(left), Cell::After(left), Cell::Before(right), Cell::After(right)];
        let wanted = match sheet.line(which).wanted {
            [None, None] => "–".into(),
            [least, most] => format!("{} … {}", text(least), text(most)),
        };
        let unit = scale.unit();
        let mut cells = vec![format!("{name}{}{unit}", if unit.is_empty() { "" } else { ", " })];
        cells.extend(values.map(|cell| text(sheet.cell(which, cell))));
        cells.extend([wanted, scale.text(sheet.error(which))]);
        row(&cells);
    }
}
