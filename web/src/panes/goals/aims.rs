//! The readings that are aimed at, a row each: at which travels and rack, and what it is to be there.

use super::boxed::Leaves;
use super::line::LineEditor;
use super::typing::{change_aim, kind, name, short, shown, travel_box};
use super::{LENGTH, change, typed, without};
use crate::app::App;
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::goal::{Aim, Manner, Wanted};
use crate::panes::typed_box::TypedBox;
use kernel::Layout;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement};

/// The rows.
pub(super) struct Aims {
    page: Page,
    list: Element,
    rows: RefCell<Vec<Row>>,
}

struct Row {
    /// Which of the goal's aims it is.
    at: usize,
    name: Shown,
    now: Shown,
    /// With their labels, which go where a line has its own places.
    travel: (HtmlElement, TypedBox),
    rack: (HtmlElement, TypedBox),
    manner: HtmlSelectElement,
    numbers: [(TypedBox, Shown); 2],
    between: Shown,
    unit: Shown,
    away: Shown,
    line: RefCell<Option<LineEditor>>,
    _listeners: [Listener; 2],
    /// Behind all that listens.
    row: Leaves,
}

impl Aims {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Aims {
        Aims { page: page.clone(), list: find("goal-aims"), rows: RefCell::default() }
    }

    /// Shows them; beside lines what an answer makes of the readings, if there is one.
    pub fn show(&self, app: &App, aims: &[Aim], answer: Option<&Layout>) {
        let mut rows = self.rows.borrow_mut();
        rows.truncate(aims.len());
        while rows.len() < aims.len() {
            let row = Row::new(&self.page, &self.list, rows.len());
            rows.push(row);
        }
        for ((row, aim), now) in rows.iter().zip(aims).zip(app.aimed()) {
            row.show(app, aim, now);
            row.show_line(&self.page, app, aim, answer);
        }
    }
}

impl Row {
    fn new(page: &Page, list: &Element, at: usize) -> Row {
        let row: Element = make(list, "li");
        let heading: Element = make(&row, "b");
        let name_of = Shown::text(make::<Element>(&heading, "span"));
        let now: Element = make(&heading, "span");
        set(&now, "class", "now");
        let labelled = |text: &str| {
            let label: HtmlElement = make(&row, "label");
            make::<Element>(&label, "span").set_text_content(Some(text));
            label
        };
        let label = labelled("at travel");
        let travel = travel_box(page, &label, move |page, travels| change_aim(page, at, |aim| aim.travel = travels));
        let travel = (label, travel);
        let label = labelled("rack");
        let rack = TypedBox::new(page, &label, "rack", move |page, text| {
            if let Some(mm) = typed(page, LENGTH, text, "rack") {
                change_aim(page, at, |aim| aim.rack = mm);
            }
        });
        let rack = (label, rack);
        let manner: HtmlSelectElement = make(&row, "select");
        set(&manner, "aria-label", "what is wanted");
        for text in ["is", "from", "follows a line over travel", "follows a line over the rack"] {
            make::<Element>(&manner, "option").set_text_content(Some(text));
        }
        let number_box = |which: usize| {
            let typed_box = TypedBox::new(page, &row, "wanted", move |page, text| {
                let aim = page.with(|app| app.goal().aims.get(at).cloned());
                let Some(aim) = aim else { return };
                if let Some(value) = typed(page, kind(&aim), text, &name(&aim)) {
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
        let (page_of, chosen) = (page.clone(), manner.clone());
        let said = Listener::new(&manner, "change", move |_: Event| {
            let chosen = usize::try_from(chosen.selected_index()).unwrap_or_default();
            let Some(manner) = Manner::ALL.get(chosen) else { return };
            let reach = page_of.with(|app| app.reach_of(*manner == Manner::OverRack));
            change_aim(&page_of, at, |aim| aim.wanted = aim.wanted.said_as(*manner, reach));
        });
        let clicked = page.clone();
        let removed =
            Listener::new(&button, "click", move |_: Event| change(&clicked, |goal| without(&mut goal.aims, at)));
        Row {
            at,
            name: name_of,
            now: Shown::text(now),
            travel,
            rack,
            manner,
            numbers: [first, second],
            between,
            unit,
            away: Shown::attribute(button, "aria-label"),
            line: RefCell::default(),
            _listeners: [said, removed],
            row: Leaves(row),
        }
    }

    fn show(&self, app: &App, aim: &Aim, now: &[Option<f64>]) {
        let (units, name) = (app.document.units, name(aim));
        self.name.show(&name);
        self.now.show(&format!(" now {}", told(app, aim, now)));
        let manner = aim.wanted.manner();
        self.travel.1.show(&aim.travel.iter().map(|mm| short(units, *mm)).collect::<Vec<_>>().join(" "));
        self.travel.0.set_hidden(manner == Manner::OverTravel);
        self.rack.1.show(&short(units, aim.rack));
        self.rack.0.set_hidden(manner == Manner::OverRack);
        let at = Manner::ALL.iter().position(|other| *other == manner).unwrap_or_default();
        self.manner.set_selected_index(at as i32);
        let range = manner == Manner::Range;
        let labels = if range { ["from", "to"] } else { ["is", "±"] };
        self.numbers[0].0.input.set_hidden(matches!(aim.wanted, Wanted::Line(_)));
        for (((number, label), said), value) in self.numbers.iter().zip(labels).zip(aim.wanted.numbers()) {
            label.show(&format!("{name}, {said}"));
            number.show(&shown(units, aim, value));
        }
        self.between.show(if range { "to" } else { "±" });
        self.unit.show(kind(aim).name(units));
        self.away.show(&format!("remove {name}"));
    }
}

impl Row {
    /// The line of an aim that has one.
    fn show_line(&self, page: &Page, app: &App, aim: &Aim, answer: Option<&Layout>) {
        let mut editor = self.line.borrow_mut();
        let Wanted::Line(line) = &aim.wanted else { return drop(editor.take()) };
        editor.get_or_insert_with(|| LineEditor::new(page, &self.row.0, self.at)).show(page, app, aim, line, answer);
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
