//! A box that takes a number as people write it.

use super::page;
use crate::app::Message;
use crate::number::parse;
use leptos::html::Input;
use leptos::prelude::*;

/// Shows a number and takes a typed one, decimal comma or point. What is no number is said, and the box shows the old one.
#[component]
pub fn NumberBox(
    /// What it is, for the screen reader and the sentence.
    label: String,
    /// The number as shown.
    #[prop(into)]
    shown: Signal<String>,
    /// Takes a typed number.
    #[prop(into)]
    take: Callback<f64>,
    /// Called when the box gets the focus.
    #[prop(into, default = Callback::new(|()| ()))]
    entered: Callback<()>,
) -> impl IntoView {
    let page = page();
    let input = NodeRef::<Input>::new();
    let name = label.clone();
    let typed = move |_| {
        let Some(input) = input.get_untracked() else { return };
        let text = input.value();
        // A box left as it was must not round the number behind it to the decimals it shows.
        if text != shown.get_untracked() {
            match parse(&text) {
                Some(value) => take.run(value),
                None => {
                    let text: String = text.chars().take(40).collect();
                    page.send(Message::Say(format!("“{text}” is not a number for {name}.")));
                }
            }
        }
        input.set_value(&shown.get_untracked());
    };
    view! {
        <input class="box" node_ref=input inputmode="decimal" autocomplete="off" aria-label=label
            prop:value=shown on:change=typed on:focus=move |_| entered.run(())/>
    }
}
