//! The readings that are aimed at, a row each: at which travels and rack, and what it is to be there.

use super::boxed::Leaves;
use super::{LENGTH, change, number, typed, without};
use crate::app::{App, Say};
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::goal::Aim;
use crate::panes::typed_box::TypedBox;
use crate::text::number::{Units, plain};
use crate::text::typed::Kind;
use kernel::clip;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlSelectElement};

/// The rows.
pub(super) struct Aims {
    page: Page,
    list: Element,
    rows: RefCell<Vec<Row>>,
}

struct Row {
    name: Shown,
    now: Shown,
    travel: TypedBox,
    rack: TypedBox,
    range: HtmlSelectElement,
    numbers: [(TypedBox, Shown); 2],
    between: Shown,
    unit: Shown,
    away: Shown,
    _listeners: [Listener; 2],
    /// Behind all that listens.
    _row: Leaves,
}

impl Aims {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Aims {
        Aims { page: page.clone(), list: find("goal-aims"), rows: RefCell::default() }
    }

    /// Shows them.
    pub fn show(&self, app: &App, aims: &[Aim]) {
        let mut rows = self.rows.borrow_mut();
        rows.truncate(aims.len());
        while rows.len() < aims.len() {
            let row = Row::new(&self.page, &self.list, rows.len());
            rows.push(row);
        }
        for ((row, aim), now) in rows.iter().zip(aims).zip(app.aimed()) {
            row.show(app, aim, now);
        }
    }
}

/// What is typed of an aim's reading.
fn kind(aim: &Aim) -> Kind {
    aim.quantity()
        .map_or(Kind::PLAIN, |quantity| Kind { unit: quantity.reading().unit, toe: quantity.column() == "toe_deg" })
}

/// What a row's aim is called.
fn name(aim: &Aim) -> String {
    aim.quantity().map_or(clip(&aim.reading), |quantity| quantity.reading().full_name())
}

/// A number of an aim as it is typed.
fn shown(units: Units, aim: &Aim, value: f64) -> String {
    let factor = aim.quantity().map_or(1.0, |quantity| units.shown(quantity.reading()).1);
    plain(value * factor).replace('-', "\u{2212}")
}

/// A length without the zeros that say nothing.
fn short(units: Units, mm: f64) -> String {
    let text = units.length(mm);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').into() } else { text }
}

/// Lengths apart by blanks or semicolons; a unit behind the last is that of all.
fn travels(page: &Page, text: &str) -> Option<Vec<f64>> {
    let unit = text.find(|letter: char| letter.is_alphabetic() || letter == '"').unwrap_or(text.len());
    let (list, unit) = text.split_at(unit);
    let cells =
        list.split(|letter: char| letter.is_whitespace() || letter == ';').map(|cell| cell.trim_end_matches(','));
    let all: Option<Vec<f64>> =
        cells.filter(|cell| !cell.is_empty()).map(|cell| number(page, LENGTH, &format!("{cell} {unit}"))).collect();
    all.filter(|all| !all.is_empty())
}

/// Changes the aim of a row.
fn change_aim(page: &Page, at: usize, with: impl FnOnce(&mut Aim)) {
    change(page, |goal| {
        if let Some(aim) = goal.aims.get_mut(at) {
            with(aim);
        }
    });
}

impl Row {
    fn new(page: &Page, list: &Element, at: usize) -> Row {
        let row: Element = make(list, "li");
        let heading: Element = make(&row, "b");
        let name = Shown::text(make::<Element>(&heading, "span"));
        let now: Element = make(&heading, "span");
        set(&now, "class", "now");
        let labelled = |text: &str| {
            let label: Element = make(&row, "label");
            make::<Element>(&label, "span").set_text_content(Some(text));
            label
        };
        let travel =
            TypedBox::new(page, &labelled("at travel"), "at travel", move |page, text| match travels(page, text) {
                Some(travels) => change_aim(page, at, |aim| aim.travel = travels),
                None => page.send(Say::Sentence(format!(
                    "“{}” is no list of travels: type one or several, with blanks between, such as −40 0 40.",
                    clip(text)
                ))),
            });
        set(&travel.input, "class", "box travels");
        let rack = TypedBox::new(page, &labelled("rack"), "rack", move |page, text| {
            if let Some(mm) = typed(page, LENGTH, text, "rack") {
                change_aim(page, at, |aim| aim.rack = mm);
            }
        });
        let range: HtmlSelectElement = make(&row, "select");
        set(&range, "aria-label", "what is wanted");
        for text in ["is", "from"] {
            make::<Element>(&range, "option").set_text_content(Some(text));
        }
        let number_box = |which: usize| {
            let typed_box = TypedBox::new(page, &row, "wanted", move |page, text| {
                let aim = page.with(|app| app.goal().aims.get(at).cloned());
                let Some(aim) = aim else { return };
                if let Some(value) = typed(page, kind(&aim), text, &super::aims::name(&aim)) {
                    change_aim(page, at, |aim| aim.wanted = aim.wanted.with(which, value));
                }
            });
            let label = Shown::attribute(typed_box.input.clone(), "aria-label");
            (typed_box, label)
        };
        let first = number_box(0);
        let between = Shown::text(make::<Element>(&row, "span"));
        let second = number_box(1);
        let unit = Shown::text(make::<Element>(&row, "span"));
        let button: Element = make(&row, "button");
        button.set_text_content(Some("×"));
        let (page_of, chosen) = (page.clone(), range.clone());
        let said = Listener::new(&range, "change", move |_: Event| {
            let range = chosen.selected_index() == 1;
            change_aim(&page_of, at, |aim| aim.wanted = aim.wanted.said_as(range));
        });
        let clicked = page.clone();
        let removed =
            Listener::new(&button, "click", move |_: Event| change(&clicked, |goal| without(&mut goal.aims, at)));
        Row {
            name,
            now: Shown::text(now),
            travel,
            rack,
            range,
            numbers: [first, second],
            between,
            unit,
            away: Shown::attribute(button, "aria-label"),
            _listeners: [said, removed],
            _row: Leaves(row),
        }
    }

    fn show(&self, app: &App, aim: &Aim, now: &[Option<f64>]) {
        let (units, name) = (app.document.units, name(aim));
        self.name.show(&name);
        self.now.show(&format!(" now {}", told(app, aim, now)));
        self.travel.show(&aim.travel.iter().map(|mm| short(units, *mm)).collect::<Vec<_>>().join(" "));
        self.rack.show(&short(units, aim.rack));
        let range = aim.wanted.is_range();
        self.range.set_selected_index(i32::from(range));
        let labels = if range { ["from", "to"] } else { ["is", "±"] };
        for (((number, label), said), value) in self.numbers.iter().zip(labels).zip(aim.wanted.numbers()) {
            label.show(&format!("{name}, {said}"));
            number.show(&shown(units, aim, value));
        }
        self.between.show(if range { "to" } else { "±" });
        self.unit.show(kind(aim).name(units));
        self.away.show(&format!("remove {name}"));
    }
}

/// What a reading is at the places of its aim, if it may be told.
fn told(app: &App, aim: &Aim, now: &[Option<f64>]) -> String {
    let Some(quantity) = aim.quantity() else { return "–".into() };
    if app.hides(quantity.column()) {
        return "hidden".into();
    }
    let values: Option<Vec<f64>> = now.iter().copied().collect();
    let values = values.filter(|values| !values.is_empty());
    values.map_or("–".into(), |values| super::words::told(app.document.units, quantity, &values))
}
