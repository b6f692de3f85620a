//! The page's furniture. No mathematics: every pane shows what the state says and sends messages.

mod curves;
mod notice;
mod number_box;
mod points;
mod position;
mod readings;
mod sheet;
mod strip;
mod title_block;

use crate::browser::page::Page;
use leptos::prelude::*;

/// The whole page.
#[component]
pub fn Ghostpin() -> impl IntoView {
    let page = Page::open();
    provide_context(page);
    view! {
        <strip::Strip/>
        <main>
            <sheet::Sheet/>
            <div class="side">
                <position::Position/>
                <readings::Readings/>
                <title_block::TitleBlock/>
            </div>
        </main>
        <notice::Notice/>
        <p class="hidden" role="status">{move || page.said.get()}</p>
    }
}

/// The page's state, in every pane.
fn page() -> Page {
    expect_context()
}
