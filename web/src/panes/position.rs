//! Travel and rack: a handle and a number box each.

use super::number_box::NumberBox;
use super::page;
use crate::app::{App, Message};
use crate::number::{parse, signed};
use crate::study::{MOST_TRAVEL, TRAVEL};
use leptos::prelude::*;

/// Travel and rack, and the way back to rest.
#[component]
pub fn Position() -> impl IntoView {
    let page = page();
    let steered = Memo::new(move |_| page.with(|app| app.document.layout.rack.is_some()));
    view! {
        <section class="position" aria-label="Position">
            <Axis name="Travel" value=|app| app.document.travel reach=|_| TRAVEL most=|_| MOST_TRAVEL message=Message::Travel/>
            <Show when=move || steered.get() fallback=|| view! { <p class="unsteered">"This axle has no rack."</p> }>
                <Axis name="Rack" value=|app| app.document.rack reach=|app| app.document.rack_travel()
                    most=|app| app.document.rack_travel() message=Message::Rack/>
            </Show>
            <div class="buttons">
                <button on:click=move |_| page.send(Message::AtRest)>"At rest"</button>
                <button on:click=move |_| page.send(Message::BackToStart)>"Back to the start"</button>
            </div>
        </section>
    }
}

/// One freedom: `reach` is how far its handle goes, `most` how far its box does, mm each way.
#[component]
fn Axis(
    name: &'static str,
    value: fn(&App) -> f64,
    reach: fn(&App) -> f64,
    most: fn(&App) -> f64,
    message: fn(f64) -> Message,
) -> impl IntoView {
    let page = page();
    let reach = Memo::new(move |_| page.with(reach));
    let shown = move || page.with(|app| signed(value(app), 1));
    let slide = move |event| {
        if let Some(value) = parse(&event_target_value(&event)) {
            page.send(message(value));
        }
    };
    let take = move |value: f64| {
        let most = page.app.with_untracked(most);
        if value.abs() <= most {
            page.send(message(value));
        } else {
            let value = signed(value, 1);
            page.send(Message::Say(format!("{name} {value} mm is beyond what can be asked for here, ±{most} mm.")));
        }
    };
    view! {
        <div class="axis">
            <label for=name>{name}</label>
            <div class="track">
                <input type="range" id=name step="0.5" min=move || -reach.get() max=move || reach.get()
                    prop:value=move || page.with(value).to_string()
                    aria-valuetext=move || shown() + " mm"
                    on:pointerdown=move |_| page.send(Message::Hold)
                    on:pointerup=move |_| page.send(Message::Release)
                    on:pointercancel=move |_| page.send(Message::Release)
                    on:input=slide/>
                <div class="ticks" aria-hidden="true">
                    {[-1.0, -0.5, 0.0, 0.5, 1.0].map(|part| view! { <span>{move || tick(part * reach.get())}</span> })}
                </div>
            </div>
            <NumberBox label=format!("{name}, mm") shown=Signal::derive(shown) take/>
            <span class="unit">"mm"</span>
        </div>
    }
}

/// A tick's label, left out where it is no whole number.
fn tick(value: f64) -> String {
    if value.fract() == 0.0 { crate::number::fixed(value, 0) } else { String::new() }
}
