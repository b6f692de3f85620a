//! Every place where something can give way, with its boxes.

use super::name;
use crate::app::{App, Soften};
use crate::browser::dom::{Listener, Shown, find, make, on, set};
use crate::browser::page::Page;
use crate::panes::number_box::NumberBox;
use crate::text::number::plain;
use kernel::{Anchor, Bush, Layout, Vec3};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlInputElement};

/// The table.
pub struct Bushes {
    usual: HtmlInputElement,
    body: Element,
    rows: RefCell<Vec<Row>>,
}

/// What a place can have.
type Place = (Anchor, bool, bool, bool);

struct Row {
    place: Place,
    numbers: Vec<(Number, NumberBox)>,
    add: Shown,
    _listener: Listener,
}

/// A number of a bush.
#[derive(Clone, Copy, PartialEq)]
enum Number {
    Radial,
    Axial,
    Along,
    Torsion,
    Axis(usize),
}

/// The places of an axle, with what each can have: a bush, a member, a turn.
fn places(layout: &Layout) -> Vec<Place> {
    let place = |at: Anchor| (at, at.has_bush(layout), at.has_member(layout), at.turns(layout));
    Anchor::all(layout).into_iter().map(place).collect()
}

impl Number {
    fn get(self, bush: &Bush) -> Option<f64> {
        match self {
            Number::Radial => bush.radial,
            Number::Axial => bush.axial,
            Number::Along => bush.along,
            Number::Torsion => bush.torsion,
            Number::Axis(at) => bush.axis.map(|axis| axis[at]),
        }
    }

    /// The same with this number, or none. A bush has both its stiffnesses or neither; an axis all three numbers or none.
    fn set(self, bush: Bush, value: Option<f64>) -> Bush {
        match (self, value) {
            (Number::Radial, Some(_)) => Bush { radial: value, axial: bush.axial.or(value), ..bush },
            (Number::Axial, Some(_)) => Bush { axial: value, radial: bush.radial.or(value), ..bush },
            (Number::Radial | Number::Axial, None) => Bush { along: bush.along, ..Bush::default() },
            (Number::Along, _) => Bush { along: value, ..bush },
            (Number::Torsion, _) => Bush { torsion: value, ..bush },
            (Number::Axis(_), None) => Bush { axis: None, ..bush },
            (Number::Axis(at), Some(part)) => {
                let mut axis = bush.axis.unwrap_or_else(Vec3::zeros);
                axis[at] = part;
                Bush { axis: Some(axis), ..bush }
            }
        }
    }

    fn label(self, anchor: Anchor) -> String {
        let what = match self {
            Number::Radial => "radial, N/mm",
            Number::Axial => "axial, N/mm",
            Number::Along => "along, N/mm",
            Number::Torsion => "torsion, N·m/°",
            Number::Axis(at) => ["axis, x", "axis, y", "axis, z"][at],
        };
        format!("{}, {what}", name(anchor))
    }
}

/// Sends what gives way at a place; nothing is left of one without a stiffness.
fn soften(page: &Page, anchor: Anchor, bush: Bush) {
    let any = bush.radial.is_some() || bush.along.is_some();
    page.send(Soften::Bush(anchor, any.then_some(bush)));
}

impl Row {
    fn new(page: &Page, body: &Element, place: Place) -> Row {
        let (anchor, has_bush, has_member, turns) = place;
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        heading.set_text_content(Some(&format!("{} ", name(anchor))));
        let button: Element = make(&heading, "button");
        let number = |cell: &Element, number: Number| {
            let taken = NumberBox::blank(page, cell, &number.label(anchor), move |page, value| {
                let bush = page.with(|app| app.document.layout.stiffness.get(&anchor).copied());
                soften(page, anchor, number.set(bush.unwrap_or_default(), value));
            });
            (number, taken)
        };
        let mut numbers = Vec::new();
        for (of, there) in [
            (Number::Radial, has_bush),
            (Number::Axial, has_bush),
            (Number::Along, has_member),
            (Number::Torsion, turns),
        ] {
            let cell: Element = make(&row, "td");
            if there {
                numbers.push(number(&cell, of));
            }
        }
        if has_bush {
            let row: Element = make(body, "tr");
            set(&row, "class", "bush-axis");
            let heading: Element = make(&row, "th");
            set(&heading, "scope", "row");
            heading.set_text_content(Some("axis x y z"));
            numbers.extend([0, 1, 2].map(|at| number(&make(&row, "td"), Number::Axis(at))));
        }
        let clicked = page.clone();
        let listener = Listener::new(&button, "click", move |_: Event| {
            let (there, usual) = clicked.with(|app| {
                let layout = &app.document.layout;
                (layout.stiffness.contains_key(&anchor), Bush::usual(layout, anchor))
            });
            clicked.send(Soften::Bush(anchor, usual.filter(|_| !there)));
        });
        Row { place, numbers, add: Shown::text(button), _listener: listener }
    }

    fn show(&self, layout: &Layout) {
        let bush = layout.stiffness.get(&self.place.0);
        self.add.show(if bush.is_some() { "remove" } else { "add" });
        for (number, shown) in &self.numbers {
            shown.show(&bush.and_then(|bush| number.get(bush)).map_or(String::new(), plain));
        }
    }
}

impl Bushes {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Bushes {
        let usual: HtmlInputElement = find("usual-bushes");
        let (page, tick) = (page.clone(), usual.clone());
        on(&usual, "change", move |_: Event| page.send(Soften::Usual(tick.checked())));
        Bushes { usual, body: find("bush-rows"), rows: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let layout = &app.document.layout;
        self.usual.set_checked(!layout.stiffness.is_empty() && layout.stiffness == layout.usual_stiffness());
        let places = places(layout);
        let mut rows = self.rows.borrow_mut();
        if !rows.iter().map(|row| row.place).eq(places.iter().copied()) {
            // Before their boxes go: a browser takes what is typed in one for done when it goes.
            rows.clear();
            self.body.set_text_content(None);
            *rows = places.into_iter().map(|place| Row::new(page, &self.body, place)).collect();
        }
        rows.iter().for_each(|row| row.show(layout));
    }
}
