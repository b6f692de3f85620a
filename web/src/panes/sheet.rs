//! The drawing: canvas, pointers, keys, and the drawer in its free quarter.

use super::{curves::Curves, page, points::Points};
use crate::app::Message;
use crate::browser::canvas::{context, paint};
use crate::browser::page::{Page, picture};
use crate::browser::window::{follow_size, pixel_ratio};
use crate::drawing::{Arrangement, Scene, Sheet as Paper, View, draw};
use crate::number::fixed;
use crate::pointer::{Contact, Interaction, Outcome, nudge, reach};
use leptos::ev::{KeyboardEvent, PointerEvent, TouchEvent, WheelEvent};
use leptos::html::{Canvas, Div};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// From this width the three views stand in their first-angle places; below it one is shown at a time.
const CROSS: f64 = 780.0;

/// The quarter that the drawer takes, px; the same as in the style sheet.
const DRAWER: [f64; 2] = [416.0, 348.0];

/// The drawing and the drawer.
#[component]
pub fn Sheet() -> impl IntoView {
    let page = page();
    let size = RwSignal::new([0.0, 0.0]);
    let (place, canvas) = (NodeRef::<Div>::new(), NodeRef::<Canvas>::new());
    let scene = StoredValue::new(None::<Scene>);
    Effect::new(move |_| {
        if let Some(place) = place.get() {
            follow_size(&place, size);
        }
    });
    Effect::new(move |_| fit(page, size.get()));
    let waiting = StoredValue::new(false);
    let redraw = move || {
        waiting.set_value(false);
        let Some(canvas) = canvas.get_untracked() else { return };
        let Some(sheet) = page.sheet.get_untracked() else { return };
        let drawn = page.app.with_untracked(|app| draw(&picture(app), &sheet));
        let ratio = pixel_ratio();
        if let Some(context) = context(&canvas, drawn.size, ratio) {
            paint(&context, &drawn, page.theme.get_untracked(), ratio);
        }
        scene.set_value(Some(drawn));
    };
    Effect::new(move |_| {
        page.app.track();
        page.sheet.track();
        page.theme.track();
        // However much changes, one drawing a frame.
        if !waiting.get_value() {
            waiting.set_value(true);
            request_animation_frame(redraw);
        }
    });
    let drop = move |event: leptos::ev::DragEvent| {
        event.prevent_default();
        if let Some(file) = event.data_transfer().and_then(|data| data.files()).and_then(|files| files.get(0)) {
            super::strip::open_file(page, file);
        }
    };
    view! {
        <div class="sheet" on:dragover=move |event| event.prevent_default() on:drop=drop>
            <div class="choice views" role="group" aria-label="View">
                {[(View::Front, "Front"), (View::Side, "Side"), (View::Plan, "Plan")].map(|(view, name)| view! {
                    <button aria-pressed=move || (page.view.get() == view).to_string() on:click=move |_| page.view.set(view)>{name}</button>
                })}
            </div>
            <div class="paper" node_ref=place>
                <Surface canvas scene/>
            </div>
            <Drawer/>
        </div>
    }
}

/// Fits the drawing to a size and to what it shows, when it is opened, resized or asked to.
fn fit(page: Page, size: [f64; 2]) {
    page.fits.track();
    let view = page.view.get();
    if size[0] < 50.0 || size[1] < 50.0 {
        return;
    }
    let arrangement = if size[0] >= CROSS { Arrangement::Cross { drawer: DRAWER } } else { Arrangement::One(view) };
    let sheet = page.app.with_untracked(|app| Paper::fit(size, arrangement, &picture(app)));
    page.sheet.set(Some(sheet));
}

/// The canvas and what hands do on it.
#[component]
fn Surface(canvas: NodeRef<Canvas>, scene: StoredValue<Option<Scene>>) -> impl IntoView {
    let page = page();
    let interaction = StoredValue::new(Interaction::Idle);
    let contact = |event: &PointerEvent| Contact {
        id: event.pointer_id(),
        at: [f64::from(event.offset_x()), f64::from(event.offset_y())],
        touch: event.pointer_type() == "touch",
    };
    let act = move |change: &dyn Fn(&mut Interaction, &Scene, &Paper) -> Outcome| {
        let Some(sheet) = page.sheet.get_untracked() else { return };
        let outcome = scene.with_value(|scene| {
            let scene = scene.as_ref()?;
            interaction.try_update_value(|interaction| change(interaction, scene, &sheet))
        });
        let Some(Outcome { messages, sheet }) = outcome else { return };
        messages.into_iter().for_each(|message| page.send(message));
        if let Some(sheet) = sheet {
            page.sheet.set(Some(sheet));
        }
    };
    let down = move |event: PointerEvent| {
        if event.button() != 0 {
            return;
        }
        if let Some(canvas) = canvas.get_untracked() {
            let _ = canvas.set_pointer_capture(event.pointer_id());
        }
        let contact = contact(&event);
        act(&|interaction, scene, sheet| page.app.with_untracked(|app| interaction.down(contact, scene, sheet, app)));
    };
    let moved = move |event: PointerEvent| {
        let contact = contact(&event);
        act(&|interaction, _, sheet| interaction.moved(contact, sheet));
    };
    let up = move |event: PointerEvent| act(&|interaction, _, _| interaction.up(event.pointer_id()));
    let hover = move |event: &PointerEvent| {
        let at = contact(event).at;
        let over = scene.with_value(|scene| scene.as_ref().and_then(|scene| scene.hit(at, reach(false))));
        if let Some(canvas) = canvas.get_untracked() {
            let _ = canvas.set_attribute("data-over", if over.is_some() { "handle" } else { "paper" });
        }
    };
    view! {
        <canvas
            node_ref=canvas
            tabindex="0"
            aria-label="Drawing. Tab walks the joints, arrow keys move the selected one."
            on:pointerdown=down
            on:pointermove=move |event| { hover(&event); moved(event) }
            on:pointerup=up
            on:pointercancel=up
            on:touchstart=move |event| keep_page_still(&event, scene)
            on:wheel=move |event| zoom(page, &event)
            on:dblclick=move |_| page.fits.update(|count| *count += 1)
            on:keydown=move |event| key(page, &event)
        ></canvas>
    }
}

/// A finger on a handle must not scroll the page; one on the paper may.
fn keep_page_still(event: &TouchEvent, scene: StoredValue<Option<Scene>>) {
    let Some(touch) = event.touches().get(0) else { return };
    let Some(canvas) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
    let corner = canvas.get_bounding_client_rect();
    let at = [f64::from(touch.client_x()) - corner.left(), f64::from(touch.client_y()) - corner.top()];
    let on_handle = scene.with_value(|scene| scene.as_ref().is_some_and(|scene| scene.hit(at, reach(true)).is_some()));
    if on_handle || event.touches().length() > 1 {
        event.prevent_default();
    }
}

/// Zooms with Ctrl, or while the drawing has the focus; otherwise the page scrolls.
fn zoom(page: Page, event: &WheelEvent) {
    let focused = document().active_element().is_some_and(|element| element.tag_name() == "CANVAS");
    if !(event.ctrl_key() || focused) {
        return;
    }
    event.prevent_default();
    // A wheel's notch is about 100 px; 1.1 a notch is a step one can follow.
    let factor = 1.1_f64.powf(-event.delta_y() / 100.0);
    let at = [f64::from(event.offset_x()), f64::from(event.offset_y())];
    page.sheet.update(|sheet| {
        if let Some(sheet) = sheet {
            *sheet = sheet.zoomed(at, factor);
        }
    });
}

/// Arrow keys nudge the joint in hand; Tab walks the joints and leaves after the last.
fn key(page: Page, event: &KeyboardEvent) {
    let key = event.key();
    if let Some(by) = nudge(page.view.get_untracked(), &key, event.shift_key(), event.alt_key()) {
        if page.app.with_untracked(|app| app.selected.is_some()) {
            event.prevent_default();
            page.send(Message::Nudge(by));
            say_joint(page);
        }
    } else if key == "Tab" {
        let next = page.app.with_untracked(|app| {
            let ids: Vec<_> = app.document.layout.points().map(|(id, _)| id).collect();
            let at = app.selected.and_then(|id| ids.iter().position(|other| *other == id));
            let next = match (at, event.shift_key()) {
                (None, false) => Some(0),
                (None, true) => None,
                (Some(at), false) => Some(at + 1),
                (Some(at), true) => at.checked_sub(1),
            };
            next.and_then(|next| ids.get(next).copied())
        });
        if next.is_some() {
            event.prevent_default();
        }
        page.send(Message::Select(next));
        say_joint(page);
    } else if key == "Escape" {
        page.send(Message::Select(None));
    }
}

/// Tells the live region the joint in hand and the chief reading.
fn say_joint(page: Page) {
    let said = page.app.with_untracked(|app| {
        let id = app.selected?;
        let at = app.document.layout.point(id)?;
        let offset = kernel::Reading::named("kingpin_offset_wheel_centre_mm")
            .and_then(|reading| (reading.value)(&app.study.good.now))
            .map_or(String::new(), |offset| format!("; kingpin offset at wheel centre {}", fixed(offset, 1)));
        Some(format!("{}: x {}, y {}, z {}{offset}", id.name(), fixed(at.x, 1), fixed(at.y, 1), fixed(at.z, 1)))
    });
    page.said.set(said.unwrap_or_default());
}

/// The drawer: one pane at a time.
#[component]
fn Drawer() -> impl IntoView {
    let points = RwSignal::new(false);
    let tab = move |this: bool, name: &'static str| {
        view! {
            <button role="tab" aria-selected=move || (points.get() == this).to_string() on:click=move |_| points.set(this)>{name}</button>
        }
    };
    view! {
        <section class="drawer" aria-label="Drawer">
            <div class="tabs" role="tablist">{tab(false, "Curves")}{tab(true, "Points")}</div>
            <div class="pane" role="tabpanel">
                <Show when=move || points.get() fallback=Curves><Points/></Show>
            </div>
        </section>
    }
}
