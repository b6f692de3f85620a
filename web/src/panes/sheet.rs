//! The drawing: canvas, pointers, keys and the choice of view.

mod keys;
mod laid_over;
mod on_picture;

use crate::app::{App, Say};
use crate::browser::canvas::{context, paint};
use crate::browser::dom::{Shown, document, find, on, window};
use crate::browser::page::{Page, Pane, shows_all};
use crate::browser::window::pixel_ratio;
use crate::drawing::{P, Scene, View, draw};
use crate::input::pointer::{Contact, Interaction, Outcome, reach};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{
    DragEvent, Element, Event, HtmlCanvasElement, HtmlElement, KeyboardEvent, PointerEvent, TouchEvent, WheelEvent,
};

/// The drawing.
pub struct Drawing {
    canvas: HtmlCanvasElement,
    scene: Rc<RefCell<Option<Scene>>>,
    views: [(View, Shown); 3],
    /// Where the joint in hand stands on the canvas, px: for scripts and stories, which cannot see it.
    joint: Shown,
    /// Where the picture under a view lies, as six numbers of a matrix: for stories.
    under: Shown,
    /// What is laid over it: for stories, too.
    over: Shown,
    /// Where the squares of the box in hand are in the view of the keys, px.
    squares: Shown,
    /// It has been said that nothing can be drawn.
    blank: Cell<bool>,
}

impl Drawing {
    /// Finds the canvas on the page and gives it hands.
    pub fn new(page: &Page) -> Drawing {
        let canvas: HtmlCanvasElement = find("drawing");
        let over = Rc::new(Shown::attribute(canvas.clone(), "data-over"));
        let hands = Hands {
            page: page.clone(),
            canvas,
            over,
            scene: Rc::default(),
            doing: Rc::default(),
            on_picture: Rc::default(),
        };
        hands.listen();
        drop_files(page);
        let views =
            [(View::Front, "view-front"), (View::Side, "view-side"), (View::Plan, "view-plan")].map(|(view, id)| {
                let (button, page) = (find::<Element>(id), page.clone());
                on(&button, "click", move |_: Event| page.set_view(view));
                (view, Shown::attribute(button, "aria-pressed"))
            });
        Drawing {
            joint: Shown::attribute(hands.canvas.clone(), "data-joint"),
            under: Shown::attribute(hands.canvas.clone(), "data-under"),
            over: Shown::attribute(hands.canvas.clone(), "data-laid-over"),
            squares: Shown::attribute(hands.canvas.clone(), "data-squares"),
            canvas: hands.canvas,
            scene: hands.scene,
            views,
            blank: Cell::new(false),
        }
    }
}

/// What is said when a finger has taken the wheel.
pub const TAKEN: &str = "Wheel selected: drag it. Tap beside it to let it go.";

const BLANK: &str = "This browser provides nothing to draw on, so drawing and curves stay blank; readings, tables and printing still work.";

impl Pane for Drawing {
    fn show(&self, page: &Page, app: &App) {
        // On a small screen the pictorial view lies over the one that this canvas shows; axles side by side, everywhere.
        let covered = page.is_alone() && !shows_all() && !page.projects() || page.shows_row(app);
        for (view, pressed) in &self.views {
            pressed.show(if *view == page.view() && !covered { "true" } else { "false" });
        }
        self.canvas.set_hidden(covered);
        if covered {
            return;
        }
        let Some(sheet) = page.sheet() else { return };
        let joint = app.selected.and_then(|id| app.study.good.place(id));
        let place = joint.or(app.mount_in_hand().map(|(_, at)| at)).map(|point| sheet.project(page.view(), point));
        let magnified = page.magnified();
        let place = place.map(|px| px.map(|px| px * magnified));
        self.joint.show(&place.map_or(String::new(), |[x, y]| format!("{x:.1} {y:.1}")));
        let mut scene = page.pictured(app, |picture| draw(picture, &sheet));
        let under = page.underlay().filter(|_| !page.projects());
        scene.items.extend(under.and_then(|under| under.drawn_marks(&sheet)));
        let matrix = under.map(|under| under.matrix(&sheet).map(|number| format!("{number:.4}")).join(" "));
        self.under.show(&matrix.unwrap_or_default());
        self.lay_over(page, app, &sheet, &mut scene);
        let ratio = pixel_ratio() * magnified;
        match context(&self.canvas, scene.size, ratio) {
            Some(context) => {
                paint(&context, &scene, page.theme(), ratio);
                if under.is_some() {
                    page.paint_underlay(&context, &sheet, ratio);
                }
            }
            None if self.blank.replace(true) => {}
            None => page.send(Say::Sentence(BLANK.into())),
        }
        self.scene.replace(Some(scene));
    }
}

/// What hands do on the canvas.
#[derive(Clone)]
struct Hands {
    page: Page,
    canvas: HtmlCanvasElement,
    /// Whether the pointer is over what can be taken.
    over: Rc<Shown>,
    scene: Rc<RefCell<Option<Scene>>>,
    doing: Rc<RefCell<Interaction>>,
    /// The pointer that moves or marks the picture under a view.
    on_picture: Rc<Cell<Option<Contact>>>,
}

impl Hands {
    fn listen(&self) {
        let canvas = self.canvas.clone();
        let hands = self.clone();
        on(&canvas, "pointerdown", move |event: PointerEvent| hands.down(&event));
        let hands = self.clone();
        on(&canvas, "pointermove", move |event: PointerEvent| hands.moved(&event));
        for name in ["pointerup", "pointercancel"] {
            let hands = self.clone();
            on(&canvas, name, move |event: PointerEvent| {
                let Some(sheet) = hands.page.sheet() else { return };
                if hands.leave_picture(event.pointer_id()) {
                    return;
                }
                // What the browser makes a scroll of was no tap.
                let scrolls =
                    matches!(*hands.doing.borrow(), Interaction::Tapping { .. } | Interaction::Swiping { .. });
                if name == "pointercancel" && scrolls {
                    hands.doing.replace(Interaction::Idle);
                    return;
                }
                let outcome = hands.doing.borrow_mut().up(event.pointer_id(), &sheet);
                hands.follow(outcome);
            });
        }
        let hands = self.clone();
        on(&canvas, "touchstart", move |event: TouchEvent| hands.keep_page_still(&event));
        let hands = self.clone();
        on(&canvas, "wheel", move |event: WheelEvent| hands.zoom(&event));
        let page = self.page.clone();
        // The browser may take the drawing away, for want of memory say, and then gives back an empty canvas.
        on(&canvas, "contextrestored", move |_: Event| page.change());
        let page = self.page.clone();
        on(&canvas, "dblclick", move |_: Event| page.refit());
        let hands = self.clone();
        on(&canvas, "keydown", move |event: KeyboardEvent| hands.key(&event));
    }

    fn down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        // Fails only for a pointer that is already gone.
        let _ = self.canvas.set_pointer_capture(event.pointer_id());
        let (Some(sheet), Some(scene)) = (self.page.sheet(), &*self.scene.borrow()) else { return };
        if self.take_picture(self.contact(event), &sheet) {
            return;
        }
        let outcome = self.page.with(|app| self.doing.borrow_mut().down(self.contact(event), scene, &sheet, app));
        if let Interaction::Dragging { view, .. } = *self.doing.borrow()
            && view != self.page.view()
            && view != View::Pictorial
        {
            // Arrow keys go on in the view where the joint was taken.
            self.page.set_view(view);
        }
        if matches!(*self.doing.borrow(), Interaction::Dragging { .. } | Interaction::Tapping { .. }) {
            // What can be dragged has been found.
            find::<HtmlElement>("first-hint").set_hidden(true);
        }
        self.follow(outcome);
    }

    fn moved(&self, event: &PointerEvent) {
        let over = self.hit(self.contact(event).at, false);
        self.over.show(if over { "handle" } else { "paper" });
        let Some(sheet) = self.page.sheet() else { return };
        if self.move_picture(self.contact(event), &sheet) {
            return;
        }
        let outcome = self.doing.borrow_mut().moved(self.contact(event), &sheet);
        self.follow(outcome);
    }

    fn follow(&self, outcome: Outcome) {
        outcome.messages.into_iter().for_each(|message| self.page.send(message));
        if let Some(sheet) = outcome.sheet {
            self.page.set_sheet(sheet);
        }
        if let Some(view) = outcome.view {
            self.page.set_view(view);
        }
        if outcome.takes_wheel {
            self.page.tell(TAKEN);
        }
    }

    /// Where a pointer touches the scene.
    fn contact(&self, event: &PointerEvent) -> Contact {
        let at = [event.offset_x(), event.offset_y()];
        Contact { id: event.pointer_id(), at: self.on_scene(at.map(f64::from)), touch: event.pointer_type() == "touch" }
    }

    /// A place on the canvas, CSS px, in px of the scene.
    fn on_scene(&self, at: P) -> P {
        at.map(|px| px / self.page.magnified())
    }

    fn hit(&self, at: P, touch: bool) -> bool {
        self.scene.borrow().as_ref().is_some_and(|scene| scene.hit(at, reach(touch)).is_some())
    }

    /// A finger on a handle must not scroll the page; one on the paper may, two pinch the paper.
    fn keep_page_still(&self, event: &TouchEvent) {
        let Some(touch) = event.touches().get(0) else { return };
        let corner = self.canvas.get_bounding_client_rect();
        let at = [f64::from(touch.client_x()) - corner.left(), f64::from(touch.client_y()) - corner.top()];
        let tapping = matches!(*self.doing.borrow(), Interaction::Tapping { .. });
        let at = self.on_scene(at);
        if event.touches().length() > 1 || (self.hit(at, true) && !tapping) || self.means_picture(at) {
            event.prevent_default();
        }
    }

    /// Zooms with Ctrl, or while the drawing has the focus; otherwise the page scrolls.
    fn zoom(&self, event: &WheelEvent) {
        let focused = document().active_element().is_some_and(|element| &element == self.canvas.as_ref() as &Element);
        let (true, Some(sheet)) = (event.ctrl_key() || focused, self.page.sheet()) else { return };
        event.prevent_default();
        // A wheel's notch is about 100 px; a tenth a notch is a step one can follow.
        let factor = 1.1_f64.powf(-event.delta_y() / 100.0);
        let at = [event.offset_x(), event.offset_y()].map(f64::from);
        self.page.set_sheet(sheet.zoomed(self.on_scene(at), factor));
    }
}

/// A layout file or a picture dropped anywhere on the page is opened; beside the drawing the browser would leave the page for it.
fn drop_files(page: &Page) {
    let page = page.clone();
    on(&window(), "dragover", move |event: DragEvent| event.prevent_default());
    on(&window(), "drop", move |event: DragEvent| {
        event.prevent_default();
        if let Some(file) = event.data_transfer().and_then(|data| data.files()).and_then(|files| files.get(0)) {
            // A browser tells a picture by the file's name.
            if file.type_().starts_with("image/") {
                super::measure::open_picture(&page, file, page.view());
            } else {
                super::strip::open_file(&page, file);
            }
        }
    });
}
