//! One axle of the row: name, drawing, readings, and where it can't follow.

use super::super::sheet::TAKEN;
use crate::app::{InRow, Stand};
use crate::browser::canvas::{context, paint};
use crate::browser::dom::{Shown, document, make, on, set};
use crate::browser::page::Page;
use crate::browser::window::pixel_ratio;
use crate::document::place::Place;
use crate::drawing::{Grab, P, Scene, Sheet, View, draw};
use crate::exchange::as_built::changes;
use crate::input::pointer::{Contact, Interaction, reach, step};
use crate::input::turning::{Turning, turned};
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlCanvasElement, HtmlElement, KeyboardEvent, PointerEvent, TouchEvent, WheelEvent};

/// One axle of the row.
pub struct Cell {
    /// All of it.
    pub place: HtmlElement,
    /// What the canvas fills.
    pub drawing: Element,
    name: Shown,
    label: Shown,
    canvas: HtmlCanvasElement,
    readings: Element,
    /// Name and value of each.
    values: RefCell<Vec<[Shown; 2]>>,
    says: Shown,
    built: Shown,
    /// For stories, which cannot see it: where the wheel's centre stands on the canvas, px.
    wheel: Shown,
    hands: Rc<Hands>,
}

impl Cell {
    /// A new column, empty.
    pub fn new(page: &Page, axles: &Element, at: usize) -> Cell {
        let place: HtmlElement = make(axles, "article");
        place.set_class_name("row-axle");
        let part = |tag: &str, class: &str| {
            let part: Element = make(&place, tag);
            part.set_class_name(class);
            part
        };
        let head = part("div", "row-name");
        let name = Shown::text(make::<Element>(&head, "h3"));
        if let Some(other) = at.checked_sub(1) {
            let (button, page): (Element, Page) = (make(&head, "button"), page.clone());
            button.set_text_content(Some("Take out"));
            on(&button, "click", move |_: Event| super::take_out(&page, other));
        } else {
            make::<Element>(&head, "small").set_text_content(Some("yours"));
        }
        let drawing = part("div", "row-drawing");
        let canvas: HtmlCanvasElement = make(&drawing, "canvas");
        canvas.set_tab_index(0);
        set(&canvas, "role", "application");
        let readings = part("dl", "row-readings");
        let words = part("p", "row-says");
        let says = Shown::text(make::<Element>(&words, "b"));
        let built = Shown::text(make::<Element>(&words, "span"));
        let hands = Rc::new(Hands {
            page: page.clone(),
            canvas: canvas.clone(),
            over: Shown::attribute(canvas.clone(), "data-over"),
            scene: RefCell::default(),
            doing: RefCell::default(),
            turning: RefCell::default(),
        });
        hands.listen();
        Cell {
            label: Shown::attribute(canvas.clone(), "aria-label"),
            wheel: Shown::attribute(canvas.clone(), "data-wheel"),
            place,
            drawing,
            name,
            canvas,
            readings,
            values: RefCell::default(),
            says,
            built,
            hands,
        }
    }

    /// Draws the axle on the sheet that all share.
    pub fn draw(&self, page: &Page, axle: &InRow, sheet: &Sheet) {
        let mut scene = axle.picture.map_or(Scene::new(sheet.size), |picture| draw(&picture, sheet));
        // Joints are moved in the drawing.
        scene.handles.retain(|handle| matches!(handle.grab, Grab::Wheel | Grab::Rack));
        let ratio = pixel_ratio();
        if let Some(context) = context(&self.canvas, scene.size, ratio) {
            paint(&context, &scene, page.theme(), ratio);
        }
        self.hands.scene.replace(Some(scene));
        let centre = axle.picture.map(|picture| picture.axle.now.position.pose.w);
        let centre = centre.map(|centre| sheet.project(page.row_seen().view, centre));
        self.wheel.show(&centre.map_or(String::new(), |[x, y]| format!("{x:.1} {y:.1}")));
    }

    /// Writes what stands above and below.
    pub fn write(&self, axle: &InRow) {
        self.name.show(&axle.layout.name);
        self.label.show(&format!(
            "Drawing of {}: arrow keys up and down move every wheel by 1 mm, left and right every rack, with Shift 10, with Alt 0.1; in the pictorial view they turn it",
            axle.layout.name
        ));
        let mut values = self.values.borrow_mut();
        if values.len() != axle.readings.len() {
            self.readings.set_text_content(None);
            let item = |_| {
                let item: Element = make(&self.readings, "div");
                ["dt", "dd"].map(|tag| Shown::text(make::<Element>(&item, tag)))
            };
            *values = axle.readings.iter().map(item).collect();
        }
        for ([name, value], (reading, text)) in values.iter().zip(&axle.readings) {
            name.show(&reading.full_name());
            value.show(text);
        }
        self.says.show(&axle.says);
        self.built.show(&changes(axle.layout));
    }
}

/// What hands do on one canvas; what they do, all axles follow.
struct Hands {
    page: Page,
    canvas: HtmlCanvasElement,
    over: Shown,
    scene: RefCell<Option<Scene>>,
    doing: RefCell<Interaction>,
    turning: RefCell<Turning>,
}

impl Hands {
    fn listen(self: &Rc<Hands>) {
        let hands = self.clone();
        on(&self.canvas, "pointerdown", move |event: PointerEvent| hands.down(&event));
        let hands = self.clone();
        on(&self.canvas, "pointermove", move |event: PointerEvent| hands.moved(&event));
        for name in ["pointerup", "pointercancel"] {
            let hands = self.clone();
            on(&self.canvas, name, move |event: PointerEvent| hands.up(event.pointer_id()));
        }
        let hands = self.clone();
        on(&self.canvas, "touchstart", move |event: TouchEvent| hands.keep_page_still(&event));
        let hands = self.clone();
        on(&self.canvas, "wheel", move |event: WheelEvent| hands.zoom(&event));
        let page = self.page.clone();
        on(&self.canvas, "dblclick", move |_: Event| page.refit());
        let page = self.page.clone();
        on(&self.canvas, "contextrestored", move |_: Event| page.change());
        let hands = self.clone();
        on(&self.canvas, "keydown", move |event: KeyboardEvent| hands.key(&event));
    }

    fn turns(&self) -> bool {
        self.page.row_seen().view == View::Pictorial
    }

    fn down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        // Fails only for a pointer that is already gone.
        let _ = self.canvas.set_pointer_capture(event.pointer_id());
        if self.turns() {
            return self.turning.borrow_mut().down(contact(event));
        }
        let (Some(sheet), Some(scene)) = (self.page.row_sheet(), &*self.scene.borrow()) else { return };
        let outcome = self.page.with(|app| self.doing.borrow_mut().down(contact(event), scene, &sheet, app));
        outcome.messages.into_iter().for_each(|message| self.page.send(message));
    }

    fn moved(&self, event: &PointerEvent) {
        let contact = contact(event);
        if self.turns() {
            let Some(sheet) = self.page.row_sheet() else { return };
            let moved = self.turning.borrow_mut().moved(contact, &sheet);
            return moved.into_iter().for_each(|sheet| self.page.set_row_sheet(sheet));
        }
        self.over.show(if self.hit(contact.at, false) { "handle" } else { "paper" });
        let Some(sheet) = self.page.row_sheet() else { return };
        let outcome = self.doing.borrow_mut().moved(contact, &sheet);
        outcome.messages.into_iter().for_each(|message| self.page.send(message));
        outcome.sheet.into_iter().for_each(|sheet| self.page.set_row_sheet(sheet));
    }

    fn up(&self, pointer: i32) {
        self.turning.borrow_mut().up(pointer);
        let Some(sheet) = self.page.row_sheet() else { return };
        let outcome = self.doing.borrow_mut().up(pointer, &sheet);
        outcome.messages.into_iter().for_each(|message| self.page.send(message));
        outcome.view.into_iter().for_each(|view| self.page.set_row_view(view));
        if outcome.takes_wheel {
            self.page.tell(TAKEN);
        }
    }

    fn hit(&self, at: P, touch: bool) -> bool {
        self.scene.borrow().as_ref().is_some_and(|scene| scene.hit(at, reach(touch)).is_some())
    }

    /// A finger on a wheel must not scroll the page; one on the paper may, two pinch the paper.
    fn keep_page_still(&self, event: &TouchEvent) {
        let Some(touch) = event.touches().get(0) else { return };
        let corner = self.canvas.get_bounding_client_rect();
        let at = [f64::from(touch.client_x()) - corner.left(), f64::from(touch.client_y()) - corner.top()];
        let tapping = matches!(*self.doing.borrow(), Interaction::Tapping { .. });
        if event.touches().length() > 1 || (self.hit(at, true) && !tapping) {
            event.prevent_default();
        }
    }

    /// Zooms all with Ctrl, or while the drawing has the focus; otherwise the page scrolls.
    fn zoom(&self, event: &WheelEvent) {
        let focused = document().active_element().is_some_and(|element| &element == self.canvas.as_ref() as &Element);
        let (true, Some(sheet)) = (event.ctrl_key() || focused, self.page.row_sheet()) else { return };
        event.prevent_default();
        // As in the drawing: a tenth a notch.
        let factor = 1.1_f64.powf(-event.delta_y() / 100.0);
        self.page.set_row_sheet(sheet.zoomed([f64::from(event.offset_x()), f64::from(event.offset_y())], factor));
    }

    fn key(&self, event: &KeyboardEvent) {
        let (key, page) = (event.key(), &self.page);
        if self.turns() {
            if let Some(turn) = turned(page.row_seen().turn, &key, event.shift_key(), event.alt_key()) {
                event.prevent_default();
                page.turn_row(turn);
            }
            return;
        }
        let by = step(event.shift_key(), event.alt_key());
        let Place { travel, rack, .. } = page.with(|app| Place::of(&app.document));
        page.send(match key.as_str() {
            "ArrowUp" => Stand::Travel(travel + by),
            "ArrowDown" => Stand::Travel(travel - by),
            "ArrowRight" => Stand::Rack(rack + by),
            "ArrowLeft" => Stand::Rack(rack - by),
            _ => return,
        });
        event.prevent_default();
        page.say(&page.with(|app| Place::of(&app.document).words(app.document.units) + &app.spoken()));
    }
}

fn contact(event: &PointerEvent) -> Contact {
    Contact {
        id: event.pointer_id(),
        at: [f64::from(event.offset_x()), f64::from(event.offset_y())],
        touch: event.pointer_type() == "touch",
    }
}
