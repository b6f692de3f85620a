//! The curves of the pinned readings, over travel or over steering.

use super::page;
use crate::app::{Message, Over};
use crate::browser::chart::{Framed, draw_curves, draw_frame};
use crate::browser::window::{follow_size, pixel_ratio};
use crate::number::reading as shown;
use crate::plot::Plot;
use kernel::Reading;
use leptos::html::{Canvas, Div};
use leptos::prelude::*;

/// Small multiples, one a pinned reading.
#[component]
pub fn Curves() -> impl IntoView {
    let page = page();
    let columns = Memo::new(move |_| page.with(|app| app.document.pinned.clone()));
    let over = Memo::new(move |_| page.with(|app| app.document.over));
    let choice = move |this: Over, label: &'static str| {
        view! {
            <button aria-pressed=move || (over.get() == this).to_string() on:click=move |_| page.send(Message::Over(this))>{label}</button>
        }
    };
    let key = move |faint: bool| {
        page.with(|app| {
            let travel = crate::number::signed(app.document.travel, 1);
            let rack = crate::number::signed(app.document.rack, 1);
            match (app.document.over, faint) {
                (Over::Travel, false) => format!("rack {rack}"),
                (Over::Travel, true) => "rack 0".into(),
                (Over::Steering, false) => format!("travel {travel}"),
                (Over::Steering, true) => "travel 0".into(),
            }
        })
    };
    view! {
        <div class="curves">
            <div class="plots">
                <For each=move || columns.get() key=|column| *column let:column>
                    {Reading::named(column).map(|reading| view! { <Curve reading/> })}
                </For>
                {move || columns.get().is_empty().then_some("Click a reading to see its curve.")}
            </div>
            <div class="foot">
                <div class="choice" role="group" aria-label="Curves over">
                    {choice(Over::Travel, "over travel, mm")}
                    {choice(Over::Steering, "over steering, mm of rack")}
                </div>
                <span class="key">{move || key(false)}</span>
                <span class="key faint">{move || key(true)}</span>
            </div>
        </div>
    }
}

#[component]
fn Curve(reading: &'static Reading) -> impl IntoView {
    let page = page();
    let size = RwSignal::new([0.0, 0.0]);
    let place = NodeRef::<Div>::new();
    let (below, above) = (NodeRef::<Canvas>::new(), NodeRef::<Canvas>::new());
    let framed = StoredValue::new(None::<Framed>);
    Effect::new(move |_| {
        if let Some(place) = place.get() {
            follow_size(&place, size);
        }
    });
    Effect::new(move |_| {
        let (Some(below), Some(above), [width, height]) = (below.get(), above.get(), size.get()) else { return };
        if width < 20.0 || height < 20.0 {
            return;
        }
        let (theme, ratio) = (page.theme.get(), pixel_ratio().max(2.0));
        page.with(|app| {
            let Some(plot) = Plot::new(&app.study.good, &app.document, reading) else { return };
            let drawn = framed.with_value(|before| draw_frame(below, &plot, [width, height], ratio, theme, before.as_ref()));
            if let Some(drawn) = &drawn {
                draw_curves(&above, &plot, drawn);
            }
            framed.set_value(drawn);
        });
    });
    let now = move || page.with(|app| shown((reading.value)(&app.study.good.now), reading.unit));
    let missing = Memo::new(move |_| page.with(|app| Plot::new(&app.study.good, &app.document, reading).is_none()));
    view! {
        <figure class:missing=move || missing.get()>
            <figcaption>{reading.name}<output>{now}</output></figcaption>
            <div class="plot" node_ref=place>
                <canvas node_ref=below aria-hidden="true"></canvas>
                <canvas node_ref=above aria-hidden="true"></canvas>
            </div>
        </figure>
    }
}
