//! The table of points at rest, each coordinate to be typed.

use super::page;
use crate::app::Message;
use crate::number::{fixed, parse};
use kernel::PointId;
use leptos::prelude::*;

/// Every point of the layout, at rest.
#[component]
pub fn Points() -> impl IntoView {
    let page = page();
    let ids = Memo::new(move |_| page.with(|app| app.document.layout.points().map(|(id, _)| id).collect::<Vec<_>>()));
    view! {
        <div class="points">
            <table>
                <thead>
                    <tr><th scope="col">"At rest, mm"</th><th scope="col">"x"</th><th scope="col">"y"</th><th scope="col">"z"</th></tr>
                </thead>
                <tbody>
                    <For each=move || ids.get() key=|id| *id let:id><Row id/></For>
                </tbody>
            </table>
            <p>"Left wheel; x forward, y to the left, z up from the road."</p>
        </div>
    }
}

#[component]
fn Row(id: PointId) -> impl IntoView {
    let page = page();
    let selected = Memo::new(move |_| page.with(|app| app.selected == Some(id)));
    view! {
        <tr class:selected=move || selected.get()>
            <th scope="row"><button on:click=move |_| page.send(Message::Select(Some(id)))>{id.name()}</button></th>
            {[0, 1, 2].map(|axis| view! { <td><Coordinate id axis/></td> })}
        </tr>
    }
}

#[component]
fn Coordinate(id: PointId, axis: usize) -> impl IntoView {
    let page = page();
    let point = move || page.with(|app| app.document.layout.point(id));
    let shown = move || point().map_or(String::new(), |p| fixed(p[axis], 1));
    let typed = move |event: Targeted<leptos::ev::Event, leptos::web_sys::HtmlInputElement>| {
        let text = event.target().value();
        let name = ["x", "y", "z"][axis];
        match (parse(&text), page.app.with_untracked(|app| app.document.layout.point(id))) {
            (Some(value), Some(mut at)) => {
                at[axis] = value;
                page.send(Message::Place(id, at));
            }
            _ => page.send(Message::Say(format!(
                "“{}” is not a number for {name} of the {}.",
                text.chars().take(40).collect::<String>(),
                id.name()
            ))),
        }
        event.target().set_value(&untrack(shown));
    };
    view! {
        <input inputmode="decimal" aria-label=format!("{}, {}", id.name(), ["x", "y", "z"][axis]) prop:value=shown
            on:focus=move |_| page.send(Message::Select(Some(id))) on:change:target=typed/>
    }
}
