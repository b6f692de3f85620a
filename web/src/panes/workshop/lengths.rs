//! Every member with its length, and every adjuster, each with a box and steps.

use crate::app::{App, Build, Edit};
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::panes::number_box::NumberBox;
use crate::study::setting::Tool;
use crate::text::change::worked;
use crate::text::number::{fixed, signed};
use kernel::{Adjuster, Layout, Sides};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, MouseEvent};

/// The table.
pub struct Lengths {
    body: Element,
    sides: Rc<Cell<Sides>>,
    rows: RefCell<Vec<Row>>,
}

struct Row {
    /// Its tool's.
    name: String,
    adjuster: Adjuster,
    design: Shown,
    change: NumberBox,
    now: Shown,
    _listeners: [Listener; 2],
}

/// How far a click goes, mm: with Shift and with Alt further and less.
fn step(event: &MouseEvent) -> f64 {
    match (event.shift_key(), event.alt_key()) {
        (true, _) => 5.0,
        (_, true) => 0.1,
        _ => 0.5,
    }
}

/// Sets an adjuster.
fn adjust(page: &Page, sides: Sides, adjuster: &Adjuster, to: f64) {
    page.send(Edit::Build(Build::Adjust(sides, adjuster.clone(), to)));
}

impl Row {
    fn new(page: &Page, body: &Element, tool: &Tool, sides: &Rc<Cell<Sides>>) -> Row {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        heading.set_text_content(Some(&tool.name));
        let design = Shown::text(make::<Element>(&row, "td"));
        let cell: Element = make(&row, "td");
        let (chosen, adjuster) = (sides.clone(), tool.adjuster.clone());
        let label = format!("change of the {}, mm", tool.name);
        let change = NumberBox::new(page, &cell, &label, move |page, to| adjust(page, chosen.get(), &adjuster, to));
        let listeners = [(-1.0, "−"), (1.0, "+")].map(|(sign, text)| {
            let button: Element = make(&cell, "button");
            button.set_text_content(Some(text));
            set(&button, "aria-label", &format!("{} {text}", tool.name));
            set(&button, "title", "0.5 mm; with Shift 5, with Alt 0.1");
            let (page, chosen, adjuster) = (page.clone(), sides.clone(), tool.adjuster.clone());
            Listener::new(&button, "click", move |event: MouseEvent| {
                let by = sign * adjuster.step.unwrap_or_else(|| step(&event));
                let now = page.with(|app| adjuster.amount(&app.document.layout.changes, chosen.get()));
                adjust(&page, chosen.get(), &adjuster, now + by);
            })
        });
        let (name, adjuster) = (tool.name.clone(), tool.adjuster.clone());
        Row { name, adjuster, design, change, now: Shown::text(make::<Element>(&row, "td")), _listeners: listeners }
    }

    fn show(&self, layout: &Layout, tool: &Tool, sides: Sides) {
        let amount = tool.adjuster.amount(&layout.changes, sides);
        self.design.show(&tool.length.map_or("–".into(), |length| fixed(length, 1)));
        self.change.show(&signed(amount, 2));
        self.now.show(&match (tool.built(layout), sides) {
            (Some(both), Sides::One(side)) => fixed(both[side.index()], 1),
            (Some(both), Sides::Both) => {
                let [left, right] = both.map(|length| fixed(length, 1));
                if left == right { left } else { format!("{left} left, {right} right") }
            }
            (None, _) => worked(&tool.adjuster, amount),
        });
    }
}

impl Lengths {
    /// Finds it on the page.
    pub fn new(sides: &Rc<Cell<Sides>>) -> Lengths {
        Lengths { body: find("tools"), sides: sides.clone(), rows: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let tools = app.tools();
        let mut rows = self.rows.borrow_mut();
        let same = |(tool, row): (&Tool, &Row)| tool.name == row.name && tool.adjuster == row.adjuster;
        if rows.len() != tools.len() || !tools.iter().zip(rows.iter()).all(same) {
            // Before their boxes go: a browser takes what is typed in one for done when it goes.
            rows.clear();
            self.body.set_text_content(None);
            *rows = tools.iter().map(|tool| Row::new(page, &self.body, tool, &self.sides)).collect();
        }
        for (row, tool) in rows.iter().zip(tools) {
            row.show(&app.document.layout, tool, self.sides.get());
        }
    }
}
