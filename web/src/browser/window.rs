//! The window: sizes, frames, theme, clipboard.

use crate::drawing::Theme;
use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Element, MediaQueryList, ResizeObserver};

/// Device pixels per CSS px.
pub fn pixel_ratio() -> f64 {
    window().device_pixel_ratio().max(1.0)
}

/// True if a media query holds.
pub fn matches(query: &str) -> bool {
    media(query).is_some_and(|media| media.matches())
}

fn media(query: &str) -> Option<MediaQueryList> {
    window().match_media(query).ok().flatten()
}

const DARK: &str = "(prefers-color-scheme: dark)";

/// The theme the reader's system asks for, followed as it changes.
pub fn theme() -> RwSignal<Theme> {
    let now = || if matches(DARK) { Theme::Dark } else { Theme::Light };
    let theme = RwSignal::new(now());
    if let Some(media) = media(DARK) {
        let changed = Closure::<dyn Fn()>::new(move || theme.set(now()));
        media.set_onchange(Some(changed.as_ref().unchecked_ref()));
        // The page lives as long as its window.
        changed.forget();
    }
    theme
}

/// The size of an element in CSS px, followed as it changes.
pub fn follow_size(element: &Element, size: RwSignal<[f64; 2]>) {
    let measured = element.clone();
    let measure = Closure::<dyn Fn()>::new(move || {
        let now = [f64::from(measured.client_width()), f64::from(measured.client_height())];
        if size.get_untracked() != now {
            size.set(now);
        }
    });
    if let Ok(observer) = ResizeObserver::new(measure.as_ref().unchecked_ref()) {
        observer.observe(element);
    }
    measure.forget();
}

/// Puts text into the clipboard; `false` where the browser does not allow it.
pub async fn copy(text: String) -> bool {
    JsFuture::from(window().navigator().clipboard().write_text(&text)).await.is_ok()
}
