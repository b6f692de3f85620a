//! A line that a reading is to follow, drawn with the hand: its plot, in which points are set and dragged, and a small table of them to type in.

use super::boxed::Leaves;
use super::typing::{change_aim, kind, name, short, shown};
use super::{LENGTH, typed};
use crate::app::{App, Hand, Say};
use crate::browser::dom::{Listener, Shown, make, set};
use crate::browser::page::Page;
use crate::document::goal::{Aim, Line, Wanted};
use crate::drawing::P;
use crate::drawing::svg::svg;
use crate::input::pointer::reach;
use crate::panes::typed_box::TypedBox;
use crate::plot::WantedLine;
use crate::text::number::Units;
use kernel::Layout;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, PointerEvent};

/// The plot and the table of an aim's line.
pub(super) struct LineEditor {
    at: usize,
    plot: Rc<Drawn>,
    written: RefCell<String>,
    about: Shown,
    headings: [Shown; 2],
    body: Element,
    rows: RefCell<Vec<Row>>,
    _listeners: Vec<Listener>,
    /// Behind all that listens.
    _places: [Leaves; 3],
}

/// What a hand on the plot needs to know.
struct Drawn {
    place: Element,
    line: RefCell<Option<WantedLine>>,
    /// The point that a hand holds.
    held: Cell<Option<usize>>,
}

struct Row {
    numbers: [(TypedBox, Shown); 2],
    away: Shown,
    _remove: Listener,
    _row: Leaves,
}

/// Changes the line of an aim.
fn change(page: &Page, at: usize, with: impl FnOnce(&mut Line)) {
    change_aim(page, at, |aim| {
        if let Wanted::Line(line) = &mut aim.wanted {
            with(line);
        }
    });
}

/// How a value of an aim is shown: its decimals, and its factor.
fn digits(units: Units, aim: &Aim) -> (usize, f64) {
    aim.quantity().map_or((2, 1.0), |quantity| {
        let (decimals, factor, _) = units.shown(quantity.reading());
        (decimals, factor)
    })
}

impl LineEditor {
    /// Behind the other things of a row.
    pub fn new(page: &Page, row: &Element, at: usize) -> LineEditor {
        let place: Element = make(row, "div");
        set(&place, "class", "line-plot");
        set(&place, "role", "img");
        let key: Element = make(row, "p");
        set(&key, "class", "fine");
        key.set_text_content(Some(
            "Press for a point, drag it; dots mark by how much the line may be missed. Solid: now. Dashes: the way that is shown.",
        ));
        let table: Element = make(row, "table");
        set(&table, "class", "line-points");
        let head: Element = make(&make::<Element>(&table, "thead"), "tr");
        let headings = [0, 1].map(|_| {
            let heading: Element = make(&head, "th");
            set(&heading, "scope", "col");
            Shown::text(heading)
        });
        let more: Element = make(&make::<Element>(&head, "td"), "button");
        more.set_text_content(Some("Add a point"));
        let body: Element = make(&table, "tbody");
        let about = Shown::attribute(place.clone(), "aria-label");
        let plot = Rc::new(Drawn { place: place.clone(), line: RefCell::default(), held: Cell::default() });
        let mut listeners = listen(page, at, &plot);
        let adding = page.clone();
        listeners.push(Listener::new(&more, "click", move |_: Event| change(&adding, at, Line::fill)));
        LineEditor {
            at,
            plot,
            written: RefCell::default(),
            about,
            headings,
            body,
            rows: RefCell::default(),
            _listeners: listeners,
            _places: [Leaves(place), Leaves(key), Leaves(table)],
        }
    }

    /// Shows the line over what the reading does now and, if there is an answer, over what it does then.
    pub fn show(&self, page: &Page, app: &App, aim: &Aim, line: &Line, answer: Option<&Layout>) {
        let (units, at) = (app.document.units, self.at);
        let (decimals, factor) = digits(units, aim);
        let hidden = aim.quantity().is_none_or(|quantity| app.hides(quantity.column()));
        let follows = |layout: &Layout| match hidden {
            true => Vec::new(),
            false => app.followed(layout, aim).iter().map(|(x, y)| (*x, y * factor)).collect(),
        };
        let curves = [follows(&app.document.layout), answer.map_or(Vec::new(), follows)];
        let points = line.points.iter().map(|[x, y]| (*x, y * factor)).collect();
        // Twenty of the last digit shown: less is not worth a curve.
        let span = 20.0 * 10.0_f64.powi(-(decimals as i32));
        let before = self.plot.line.take().filter(|_| self.plot.held.get().is_some());
        let wanted = WantedLine::new(points, line.off * factor, curves, app.reach_of(line.rack), span, before.as_ref());
        let drawing = svg(&wanted.scene(), page.theme());
        if *self.written.borrow() != drawing {
            self.plot.place.set_inner_html(&drawing);
            self.written.replace(drawing);
        }
        self.plot.line.replace(Some(wanted));
        let over = if line.rack { "rack" } else { "travel" };
        self.about.show(&format!("{}: the line that is wanted over {over}; its points are in the table", name(aim)));
        let [unit, of] = [units.length_name(), kind(aim).name(units)];
        self.headings[0].show(&format!("{over}, {unit}"));
        self.headings[1].show(&format!("wanted, {of}"));
        let mut rows = self.rows.borrow_mut();
        rows.truncate(line.points.len());
        while rows.len() < line.points.len() {
            let row = Row::new(page, &self.body, at, rows.len());
            rows.push(row);
        }
        for (i, (row, [x, y])) in rows.iter().zip(&line.points).enumerate() {
            let texts = [short(units, *x), shown(units, aim, *y)];
            for (((number, label), text), what) in row.numbers.iter().zip(texts).zip([over, "wanted"]) {
                label.show(&format!("{}, point {}, {what}", name(aim), i + 1));
                number.show(&text);
            }
            row.away.show(&format!("remove point {} of {}", i + 1, name(aim)));
        }
    }
}

/// A hand on the plot: it takes the point under it, or sets one, and drags it; all of it is one step to undo.
fn listen(page: &Page, at: usize, plot: &Rc<Drawn>) -> Vec<Listener> {
    let (pressing, pressed) = (page.clone(), plot.clone());
    let down = Listener::new(&plot.place, "pointerdown", move |event: PointerEvent| {
        if event.button() != 0 || pressed.held.get().is_some() {
            return;
        }
        event.prevent_default();
        let _ = pressed.place.set_pointer_capture(event.pointer_id());
        let Some((place, width)) = pressed.under(&event) else { return };
        let within = reach(event.pointer_type() == "touch") / WantedLine::shown_as(width);
        let taken = pressed.line.borrow().as_ref().and_then(|line| line.point(place, within));
        pressing.send(Hand::Hold);
        if taken.is_some() {
            return pressed.held.set(taken);
        }
        let Some(value) = pressed.value(&pressing, at, place) else { return };
        let mut set = None;
        change(&pressing, at, |line| set = line.add(value));
        if set.is_none() {
            pressing.send(Say::Sentence(format!("A line has at most {} points.", Line::MOST)));
        }
        pressed.held.set(set);
    });
    let (moving, moved) = (page.clone(), plot.clone());
    let drag = Listener::new(&plot.place, "pointermove", move |event: PointerEvent| {
        let (Some(held), Some((place, _))) = (moved.held.get(), moved.under(&event)) else { return };
        if let Some(value) = moved.value(&moving, at, place) {
            change(&moving, at, |line| line.drag(held, value));
        }
    });
    let release = |event: &'static str| {
        let (page, plot) = (page.clone(), plot.clone());
        Listener::new(&plot.place.clone(), event, move |_: Event| {
            plot.held.set(None);
            page.send(Hand::Release);
        })
    };
    vec![down, drag, release("pointerup"), release("pointercancel")]
}

impl Drawn {
    /// Where a pointer is on the plot, and how wide that is on the page, px.
    fn under(&self, event: &PointerEvent) -> Option<(P, f64)> {
        let area = self.place.get_bounding_client_rect();
        let across = (f64::from(event.client_x()) - area.left()) / area.width();
        let down = (f64::from(event.client_y()) - area.top()) / area.height();
        (across.is_finite() && down.is_finite()).then(|| (WantedLine::at([across, down]), area.width()))
    }

    /// Travel or rack to the millimetre and the value to the digits that are shown, in the reading's own unit.
    fn value(&self, page: &Page, at: usize, place: P) -> Option<[f64; 2]> {
        let [x, y] = self.line.borrow().as_ref()?.value(place);
        let (decimals, factor) = page.with(|app| Some(digits(app.document.units, app.goal().aims.get(at)?)))?;
        let digits = 10.0_f64.powi(decimals as i32);
        Some([x.round(), (y * digits).round() / digits / factor])
    }
}

impl Row {
    fn new(page: &Page, body: &Element, at: usize, point: usize) -> Row {
        let row: Element = make(body, "tr");
        let along = TypedBox::new(page, &make(&row, "td"), "along", move |page, text| {
            if let Some(mm) = typed(page, LENGTH, text, "along") {
                // Typed past another point it takes its place behind that one.
                change(page, at, |line| {
                    if point < line.points.len() {
                        let [_, y] = line.points.remove(point);
                        line.add([mm, y]);
                    }
                });
            }
        });
        let wanted = TypedBox::new(page, &make(&row, "td"), "wanted", move |page, text| {
            let aim = page.with(|app| app.goal().aims.get(at).cloned());
            let Some(aim) = aim else { return };
            if let Some(value) = typed(page, kind(&aim), text, &name(&aim)) {
                change(page, at, |line| line.points.iter_mut().skip(point).take(1).for_each(|point| point[1] = value));
            }
        });
        let numbers = [along, wanted].map(|number| {
            let label = Shown::attribute(number.input.clone(), "aria-label");
            (number, label)
        });
        let button: Element = make(&make::<Element>(&row, "td"), "button");
        button.set_text_content(Some("×"));
        let page = page.clone();
        let _remove = Listener::new(&button, "click", move |_: Event| {
            change(&page, at, |line| super::without(&mut line.points, point));
        });
        Row { numbers, away: Shown::attribute(button, "aria-label"), _remove, _row: Leaves(row) }
    }
}
