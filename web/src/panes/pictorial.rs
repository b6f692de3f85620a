//! The pictorial view: a canvas of its own, which alone is drawn anew while the view is turned.

use crate::app::{App, Hand};
use crate::browser::canvas::{context, paint};
use crate::browser::dom::{Shown, Veil, document, find, on, window};
use crate::browser::page::{Page, Pane};
use crate::browser::window::pixel_ratio;
use crate::drawing::{Grab, P, Scene, Sheet, Turn, draw};
use crate::input::pointer::{Contact, reach};
use crate::input::turning::{Turning, turned};
use std::cell::{Cell, OnceCell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event, HtmlCanvasElement, HtmlElement, KeyboardEvent, PointerEvent, TouchEvent, WheelEvent};

/// The view.
pub struct Pictorial(Rc<Space>);

struct Space {
    page: Page,
    place: HtmlElement,
    veil: Veil,
    canvas: HtmlCanvasElement,
    scene: RefCell<Option<Scene>>,
    hand: RefCell<Turning>,
    frame: OnceCell<Closure<dyn FnMut()>>,
    /// A frame is asked for.
    asked: Cell<bool>,
    /// Its width beside the other views, px, as the style sheet knows it.
    cell: Cell<Option<f64>>,
    alone: [Shown; 2],
    tyre: Shown,
    presets: [(Turn, Shown); 2],
    /// For scripts and stories, which cannot see it: azimuth and elevation, where the joint in hand stands on the canvas, px, and the scale, px/mm.
    seen: Shown,
    joint: Shown,
    scale: Shown,
}

const PRESETS: [(Turn, &str); 2] = [(Turn::ISOMETRIC, "turn-isometric"), (Turn::DIMETRIC, "turn-dimetric")];

impl Pictorial {
    /// Finds it on the page and gives it hands.
    pub fn new(page: &Page) -> Pictorial {
        let canvas: HtmlCanvasElement = find("pictorial-drawing");
        let pressed = |id: &str| Shown::attribute(find::<Element>(id), "aria-pressed");
        let space = Rc::new(Space {
            page: page.clone(),
            place: find("pictorial"),
            veil: Veil::of("pictorial"),
            scene: RefCell::default(),
            hand: RefCell::default(),
            frame: OnceCell::new(),
            asked: Cell::new(false),
            cell: Cell::default(),
            alone: [pressed("view-pictorial"), Shown::attribute(find::<Element>("sheet"), "data-pictorial")],
            tyre: pressed("turn-tyre"),
            presets: PRESETS.map(|(turn, id)| (turn, pressed(id))),
            seen: Shown::attribute(canvas.clone(), "data-turn"),
            joint: Shown::attribute(canvas.clone(), "data-joint"),
            scale: Shown::attribute(canvas.clone(), "data-scale"),
            canvas,
        });
        let drawn = Rc::downgrade(&space);
        let _ = space.frame.set(Closure::new(move || {
            if let Some(space) = drawn.upgrade() {
                space.asked.set(false);
                space.page.with(|app| space.draw(app));
            }
        }));
        space.listen();
        space.buttons();
        Pictorial(space)
    }
}

impl Pane for Pictorial {
    fn show(&self, page: &Page, app: &App) {
        let place = page.pictorial().filter(|_| !page.shows_row(app));
        let alone = if page.is_alone() { "true" } else { "false" };
        self.0.alone.iter().for_each(|shown| shown.show(alone));
        self.0.veil.set_hidden(place.is_none());
        let cell = place.as_ref().filter(|_| !page.is_alone()).map_or(0.0, |(_, sheet)| sheet.size[0]);
        if self.0.cell.replace(Some(cell)) != Some(cell) {
            let _ = find::<HtmlElement>("sheet").style().set_property("--cell", &format!("{cell}px"));
        }
        if let Some(([left, top], sheet)) = place {
            let [wide, high] = sheet.size;
            for (name, px) in [("--left", left), ("--top", top), ("--wide", wide), ("--high", high)] {
                let _ = self.0.place.style().set_property(name, &format!("{px}px"));
            }
            self.0.draw(app);
        }
    }
}

impl Space {
    fn draw(&self, app: &App) {
        let Some((_, sheet)) = self.page.pictorial() else { return };
        let scene = draw(&app.picture(), &sheet);
        let ratio = pixel_ratio();
        if let Some(context) = context(&self.canvas, scene.size, ratio) {
            paint(&context, &scene, self.page.theme(), ratio);
        }
        let turn = sheet.turn();
        self.seen.show(&format!("{:.1} {:.1}", turn.azimuth, turn.elevation));
        self.scale.show(&format!("{:.4}", sheet.scale()));
        let joint = |handle: &&crate::drawing::Handle| app.selected.is_some_and(|id| handle.grab == Grab::Joint(id));
        let at = scene.handles.iter().find(joint).map(|handle| handle.outline[0]);
        self.joint.show(&at.map_or(String::new(), |[x, y]| format!("{x:.1} {y:.1}")));
        for (preset, pressed) in &self.presets {
            pressed.show(if *preset == turn { "true" } else { "false" });
        }
        self.tyre.show(if sheet.shows_tyre() { "true" } else { "false" });
        self.scene.replace(Some(scene));
    }

    /// Draws it in the next frame, and nothing else.
    fn change(&self) {
        if let (false, Some(frame)) = (self.asked.get(), self.frame.get()) {
            self.asked.set(window().request_animation_frame(frame.as_ref().unchecked_ref()).is_ok());
        }
    }

    fn set(&self, sheet: Sheet) {
        self.page.set_pictorial(sheet);
        self.change();
    }

    fn sheet(&self) -> Option<Sheet> {
        self.page.pictorial().map(|(_, sheet)| sheet)
    }

    /// Fits it, seen from there, and says so.
    fn fit(&self, turn: Turn) {
        self.page.fit_pictorial(turn);
        self.change();
        self.say(turn);
    }

    fn say(&self, turn: Turn) {
        self.page.say(&format!("Pictorial view: {}, {}", turn.name(), turn.from()));
    }

    fn buttons(self: &Rc<Space>) {
        let click = |id: &str, act: fn(&Space)| {
            let space = self.clone();
            on(&find::<Element>(id), "click", move |_: Event| act(&space));
        };
        click("view-pictorial", |space| {
            space.page.set_alone(!(space.page.is_alone() && crate::browser::page::shows_all()));
        });
        click("turn-isometric", |space| space.fit(Turn::ISOMETRIC));
        click("turn-dimetric", |space| space.fit(Turn::DIMETRIC));
        click("turn-side", |space| {
            if let Some(sheet) = space.sheet() {
                space.fit(sheet.turn().from_the_other_side());
            }
        });
        click("turn-tyre", |space| {
            if let Some(sheet) = space.sheet() {
                space.set(sheet.with_tyre(!sheet.shows_tyre()));
            }
        });
    }

    fn listen(self: &Rc<Space>) {
        let space = self.clone();
        on(&self.canvas, "pointerdown", move |event: PointerEvent| {
            if event.button() == 0 {
                // Fails only for a pointer that is already gone.
                let _ = space.canvas.set_pointer_capture(event.pointer_id());
                space.hand.borrow_mut().down(contact(&event));
            }
        });
        let space = self.clone();
        on(&self.canvas, "pointermove", move |event: PointerEvent| {
            let Some(sheet) = space.sheet() else { return };
            let moved = space.hand.borrow_mut().moved(contact(&event), &sheet);
            if let Some(sheet) = moved {
                space.set(sheet);
            }
        });
        let space = self.clone();
        on(&self.canvas, "pointerup", move |event: PointerEvent| {
            let clicked = space.hand.borrow_mut().up(event.pointer_id());
            if let Some(at) = clicked {
                space.select(at, event.pointer_type() == "touch");
            }
        });
        let space = self.clone();
        on(&self.canvas, "pointercancel", move |event: PointerEvent| {
            space.hand.borrow_mut().up(event.pointer_id());
        });
        on(&self.canvas, "touchstart", |event: TouchEvent| {
            // Two fingers pinch the view, not the page.
            if event.touches().length() > 1 {
                event.prevent_default();
            }
        });
        let space = self.clone();
        on(&self.canvas, "wheel", move |event: WheelEvent| space.zoom(&event));
        let space = self.clone();
        on(&self.canvas, "dblclick", move |_: Event| {
            if let Some(sheet) = space.sheet() {
                space.fit(sheet.turn());
            }
        });
        let space = self.clone();
        on(&self.canvas, "contextrestored", move |_: Event| space.change());
        let space = self.clone();
        on(&self.canvas, "keydown", move |event: KeyboardEvent| space.key(&event));
    }

    /// A click takes the joint there in hand; beside all joints it puts it down.
    fn select(&self, at: P, touch: bool) {
        let grab = self.scene.borrow().as_ref().and_then(|scene| scene.hit(at, reach(touch)).map(|handle| handle.grab));
        let id = match grab {
            Some(Grab::Joint(id)) => Some(id),
            _ => None,
        };
        self.page.send(Hand::Select(id));
        self.page.say(id.map_or("", |id| id.name()));
    }

    /// As the drawing: with Ctrl, or while it has the focus; otherwise the page scrolls.
    fn zoom(&self, event: &WheelEvent) {
        let focused = document().active_element().is_some_and(|element| &element == self.canvas.as_ref() as &Element);
        let (true, Some(sheet)) = (event.ctrl_key() || focused, self.sheet()) else { return };
        event.prevent_default();
        let factor = 1.1_f64.powf(-event.delta_y() / 100.0);
        self.set(sheet.zoomed([f64::from(event.offset_x()), f64::from(event.offset_y())], factor));
    }

    fn key(&self, event: &KeyboardEvent) {
        let key = event.key();
        let Some(sheet) = self.sheet() else { return };
        if let Some(turn) = turned(sheet.turn(), &key, event.shift_key(), event.alt_key()) {
            event.prevent_default();
            if key.starts_with("Arrow") {
                self.set(sheet.turned(turn));
                self.say(turn);
            } else {
                self.fit(turn);
            }
        } else if key == "Escape" {
            self.page.send(Hand::Select(None));
        }
    }
}

fn contact(event: &PointerEvent) -> Contact {
    Contact {
        id: event.pointer_id(),
        at: [f64::from(event.offset_x()), f64::from(event.offset_y())],
        touch: event.pointer_type() == "touch",
    }
}
