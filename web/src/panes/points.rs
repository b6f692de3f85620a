//! The table of points at rest, each coordinate to be typed.

use super::number_box::NumberBox;
use super::page;
use crate::app::Message;
use crate::number::fixed;
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
    let shown = move || page.with(|app| app.document.layout.point(id).map_or(String::new(), |p| fixed(p[axis], 1)));
    let take = move |value: f64| {
        if let Some(mut at) = page.app.with_untracked(|app| app.document.layout.point(id)) {
            at[axis] = value;
            page.send(Message::Place(id, at));
        }
    };
    let label = format!("{}, {}", id.name(), ["x", "y", "z"][axis]);
    view! { <NumberBox label shown=Signal::derive(shown) take entered=move || page.send(Message::Select(Some(id)))/> }
}
