//! Travel and rack: a handle and a number box each.

use super::number_box::NumberBox;
use crate::app::{App, Message};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::number::{fixed, parse, signed};
use crate::study::{MOST_TRAVEL, TRAVEL};
use std::cell::Cell;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement};

/// Both freedoms, and the ways back.
pub struct Position([Axis; 2]);

/// One freedom: how far its handle goes and how far its box, mm each way.
struct Freedom {
    id: &'static str,
    name: &'static str,
    value: fn(&App) -> f64,
    reach: fn(&App) -> f64,
    most: fn(&App) -> f64,
    message: fn(f64) -> Message,
}

const TRAVEL_AXIS: Freedom = Freedom {
    id: "travel",
    name: "Travel",
    value: |app| app.document.travel,
    reach: |_| TRAVEL,
    most: |_| MOST_TRAVEL,
    message: Message::Travel,
};

const RACK_AXIS: Freedom = Freedom {
    id: "rack",
    name: "Rack",
    value: |app| app.document.rack,
    reach: |app| app.document.rack_travel(),
    most: |app| app.document.rack_travel(),
    message: Message::Rack,
};

struct Axis {
    freedom: &'static Freedom,
    whole: HtmlElement,
    handle: HtmlInputElement,
    spoken: Shown,
    number: NumberBox,
    ticks: Vec<Element>,
    reach: Cell<f64>,
}

impl Position {
    /// Finds the place on the page and furnishes it.
    pub fn new(page: &Page) -> Position {
        for (id, message) in [("at-rest", Message::AtRest), ("back-to-start", Message::BackToStart)] {
            let page = page.clone();
            on(&find::<Element>(id), "click", move |_: Event| page.send(message.clone()));
        }
        Position([Axis::new(page, &TRAVEL_AXIS), Axis::new(page, &RACK_AXIS)])
    }
}

impl Axis {
    fn new(page: &Page, freedom: &'static Freedom) -> Axis {
        let whole: HtmlElement = find(freedom.id);
        let label: Element = make(&whole, "label");
        label.set_text_content(Some(freedom.name));
        set(&label, "for", &format!("{}-handle", freedom.id));
        let track: Element = make(&whole, "div");
        set(&track, "class", "track");
        let handle = handle(page, &track, freedom);
        let scale: Element = make(&track, "div");
        set(&scale, "class", "ticks");
        set(&scale, "aria-hidden", "true");
        let ticks = (0..5).map(|_| make(&scale, "span")).collect();
        let number =
            NumberBox::new(page, &whole, &format!("{}, mm", freedom.name), |page, value| take(page, freedom, value));
        let unit: Element = make(&whole, "span");
        unit.set_text_content(Some("mm"));
        let spoken = Shown::attribute(handle.clone(), "aria-valuetext");
        Axis { freedom, whole, handle, spoken, number, ticks, reach: Cell::new(0.0) }
    }

    fn show(&self, app: &App) {
        let reach = (self.freedom.reach)(app);
        self.whole.set_hidden(reach == 0.0);
        if self.reach.replace(reach) != reach {
            set(&self.handle, "min", &(-reach).to_string());
            set(&self.handle, "max", &reach.to_string());
            for (tick, part) in self.ticks.iter().zip([-1.0, -0.5, 0.0, 0.5, 1.0]) {
                let value: f64 = part * reach;
                tick.set_text_content((value.fract() == 0.0).then(|| fixed(value, 0)).as_deref());
            }
        }
        let value = (self.freedom.value)(app);
        self.handle.set_value_as_number(value);
        let text = signed(value, 1);
        self.spoken.show(&format!("{text} mm"));
        self.number.show(&text);
    }
}

/// The handle: a drag is one undo step, and so is each key.
fn handle(page: &Page, track: &Element, freedom: &'static Freedom) -> HtmlInputElement {
    let handle: HtmlInputElement = make(track, "input");
    set(&handle, "type", "range");
    set(&handle, "step", "0.5");
    set(&handle, "id", &format!("{}-handle", freedom.id));
    for (event, message) in
        [("pointerdown", Message::Hold), ("pointerup", Message::Release), ("pointercancel", Message::Release)]
    {
        let page = page.clone();
        on(&handle, event, move |_: Event| page.send(message.clone()));
    }
    let (page, moved) = (page.clone(), handle.clone());
    on(&handle, "input", move |_: Event| {
        if let Some(value) = parse(&moved.value()) {
            page.send((freedom.message)(value));
        }
    });
    handle
}

/// Takes a typed value; one beyond the range is said and not taken.
fn take(page: &Page, freedom: &Freedom, value: f64) {
    let most = page.with(freedom.most);
    if value.abs() <= most {
        page.send((freedom.message)(value));
    } else {
        let (name, value) = (freedom.name, signed(value, 1));
        page.send(Message::Say(format!("{name} {value} mm is beyond what can be asked for here, ±{most} mm.")));
    }
}

impl Pane for Position {
    fn show(&self, _: &Page, app: &App) {
        self.0.iter().for_each(|axis| axis.show(app));
    }
}
