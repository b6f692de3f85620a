//! What the table's columns mean: a choice, a unit and an error each, and what heights and mm of toe are counted from.

use super::change;
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::fitting::{ARCH, Fitting, In, RACK, TRAVEL};
use crate::panes::number_box::NumberBox;
use crate::text::number::plain;
use kernel::Unit;
use kernel::vary::Quantity;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement};

/// The list, made anew when there are more columns or fewer.
pub struct Columns {
    page: Page,
    place: Element,
    rows: RefCell<Vec<Row>>,
    rim: (HtmlElement, NumberBox),
    arch: (HtmlElement, NumberBox),
}

struct Row {
    name: Shown,
    means: HtmlSelectElement,
    unit: HtmlSelectElement,
    error: NumberBox,
    _listeners: [Listener; 2],
}

/// What plain numbers of an angle can be in.
const UNITS: [(In, &str); 3] = [(In::Degrees, "degrees"), (In::Minutes, "minutes"), (In::Rim, "mm at the rim")];

/// Every meaning with its name.
fn meanings() -> Vec<(&'static str, String)> {
    let places =
        [("", "not used"), (TRAVEL, "wheel travel, + up, mm"), (ARCH, "arch to hub, mm"), (RACK, "rack, + left, mm")];
    let plain = |quantity: &Quantity| matches!(quantity.reading().unit, Unit::Degree | Unit::Millimetre);
    let readings = Quantity::all().filter(plain).map(|quantity| (quantity.column(), quantity.reading().full_name()));
    places.into_iter().map(|(means, name)| (means, name.to_string())).chain(readings).collect()
}

impl Columns {
    /// Finds their place on the page.
    pub fn new(page: &Page) -> Columns {
        let place = |id, name, write: fn(&mut Fitting, Option<f64>)| {
            let place: HtmlElement = find(id);
            let label: Element = make(&place, "label");
            make::<Element>(&label, "span").set_text_content(Some(name));
            (place, NumberBox::blank(page, &label, name, move |page, value| change(page, |table| write(table, value))))
        };
        Columns {
            page: page.clone(),
            place: find("fit-columns"),
            rows: RefCell::default(),
            rim: place("fit-rim", "rim diameter, mm", |table, value| table.rim = value.filter(|mm| *mm > 0.0)),
            arch: place("fit-arch", "arch to hub at travel 0, mm", |table, value| table.arch_at_design = value),
        }
    }

    /// Shows them.
    pub fn show(&self, table: &Fitting) {
        let columns = table.columns();
        let mut rows = self.rows.borrow_mut();
        if rows.len() != columns.len() {
            self.place.set_text_content(None);
            *rows = (0..columns.len()).map(|at| Row::new(&self.page, &self.place, at)).collect();
        }
        let meanings = meanings();
        for (at, (row, column)) in rows.iter().zip(&columns).enumerate() {
            row.name.show(&table.heading(at));
            choose(&row.means, meanings.iter().position(|(means, _)| *means == column.means));
            choose(&row.unit, UNITS.iter().position(|(unit, _)| *unit == column.unit));
            row.unit.set_hidden(!column.is_angle());
            row.error.input.set_hidden(column.quantity().is_none());
            row.error.show(&plain(column.shown_error(table.rim())));
        }
        self.rim.0.set_hidden(!columns.iter().any(|column| column.is_angle() && column.unit == In::Rim));
        self.rim.1.show(&plain(table.rim()));
        self.arch.0.set_hidden(!columns.iter().any(|column| column.means == ARCH));
        self.arch.1.show(&table.arch_at_design.map_or(String::new(), plain));
    }
}

fn choose(select: &HtmlSelectElement, at: Option<usize>) {
    select.set_selected_index(at.and_then(|at| i32::try_from(at).ok()).unwrap_or_default());
}

/// Changes what is said of a column; what was guessed of all is said then.
fn say(page: &Page, at: usize, write: impl FnOnce(&mut crate::document::fitting::Column)) {
    change(page, |table| {
        table.columns = table.columns();
        if let Some(column) = table.columns.get_mut(at) {
            write(column);
        }
    });
}

impl Row {
    fn new(page: &Page, place: &Element, at: usize) -> Row {
        let row: Element = make(place, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let select = |names: Vec<String>, label: &str| {
            let select: HtmlSelectElement = make(&make::<Element>(&row, "td"), "select");
            set(&select, "aria-label", &format!("{label} of column {}", at + 1));
            for name in names {
                make::<Element>(&select, "option").set_text_content(Some(&name));
            }
            select
        };
        let means = select(meanings().into_iter().map(|(_, name)| name).collect(), "Meaning");
        let unit = select(UNITS.iter().map(|(_, name)| (*name).into()).collect(), "Unit");
        let index = |select: &HtmlSelectElement| usize::try_from(select.selected_index()).unwrap_or_default();
        let (meaning, chosen) = (page.clone(), means.clone());
        let of_means = Listener::new(&means, "change", move |_: Event| {
            let means = meanings().get(index(&chosen)).map_or("", |(means, _)| means);
            say(&meaning, at, |column| (column.means, column.error) = (means.into(), None));
        });
        let (counting, chosen) = (page.clone(), unit.clone());
        let of_unit = Listener::new(&unit, "change", move |_: Event| {
            let unit = UNITS.get(index(&chosen)).map_or(In::Degrees, |(unit, _)| *unit);
            say(&counting, at, |column| (column.unit, column.error) = (unit, None));
        });
        let label = format!("Error of column {}", at + 1);
        let error = NumberBox::blank(page, &make::<Element>(&row, "td"), &label, move |page, value| {
            say(page, at, |column| column.error = value);
        });
        Row { name: Shown::text(heading), means, unit, error, _listeners: [of_means, of_unit] }
    }
}
