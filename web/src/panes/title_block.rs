//! The title block, in the manner of ISO 7200, in the lower right corner.

use super::page;
use crate::drawing::{projection_symbol, scale_bar};
use crate::svg::svg;
use kernel::Guide;
use leptos::prelude::*;

/// Title, kind, projection, scale, and what the drawing is not.
#[component]
pub fn TitleBlock() -> impl IntoView {
    let page = page();
    let kind = Memo::new(move |_| {
        page.with(|app| {
            let layout = &app.document.layout;
            let guide = |guide: &Guide| match guide {
                Guide::Wishbone { .. } => "wishbone",
                Guide::Arms { .. } => "two arms",
                Guide::Strut { .. } => "strut",
            };
            let steered = if layout.rack.is_some() { "" } else { ", unsteered" };
            format!("Upper {}, lower {}{steered}", guide(&layout.upper), guide(&layout.lower))
        })
    });
    let symbol = move || svg(&projection_symbol(), page.theme.get());
    let bar = move || page.sheet.get().map(|sheet| svg(&scale_bar(&sheet), page.theme.get()));
    view! {
        <section class="title-block" aria-label="Title block">
            <div class="wide"><small>"Title"</small><b>{move || page.with(|app| app.document.layout.name.clone())}</b><span>{move || kind.get()}</span></div>
            <div><small>"Projection"</small><span inner_html=symbol></span></div>
            <div class="wide"><small>"Note"</small><span>"A geometry study for learning; not a design approval. Steering and suspension changes may need official approval where you live."</span></div>
            <div><small>"Scale, all views"</small><span inner_html=bar></span></div>
        </section>
    }
}
