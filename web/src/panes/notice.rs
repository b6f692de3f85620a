//! One place for what there is to say: what can't be assembled, what was wrong with a link or a file.

use super::page;
use crate::app::Message;
use leptos::prelude::*;

/// The notice; nothing where there is nothing to say. A fault stays until it is mended, a notice until it is closed.
#[component]
pub fn Notice() -> impl IntoView {
    let page = page();
    let fault = Memo::new(move |_| page.with(|app| app.study.trouble.as_ref().map(|trouble| trouble.sentence.clone())));
    let notices = Memo::new(move |_| page.with(|app| app.notices.clone()));
    view! {
        <div class="notices" aria-live="polite">
            {move || fault.get().map(|sentence| view! {
                <p class="notice fault">
                    {sentence}" The readings are those of the last position that closes. "
                    <button on:click=move |_| page.send(Message::Undo)>"Undo"</button>
                </p>
            })}
            {move || (!notices.get().is_empty()).then(|| view! {
                <div class="notice">
                    {notices.get().into_iter().map(|sentence| view! { <p>{sentence}</p> }).collect_view()}
                    <button on:click=move |_| page.send(Message::Hush)>"Close"</button>
                </div>
            })}
        </div>
    }
}
