//! The window: size, theme, clipboard.

use super::dom::window;
use crate::drawing::Theme;
use js_sys::{Array, Object, Promise, Reflect};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::JsFuture;
use web_sys::{ClipboardItem, Element, MediaQueryList, ResizeObserver};

/// Device pixels per CSS px.
pub fn pixel_ratio() -> f64 {
    window().device_pixel_ratio().max(1.0)
}

fn media(query: &str) -> Option<MediaQueryList> {
    window().match_media(query).ok().flatten()
}

/// True if a media query holds.
pub fn matches(query: &str) -> bool {
    media(query).is_some_and(|media| media.matches())
}

const DARK: &str = "(prefers-color-scheme: dark)";

const CONTRAST: &str = "(prefers-contrast: more)";

/// The theme the reader's system asks for.
pub fn theme() -> Theme {
    Theme { dark: matches(DARK), contrast: matches(CONTRAST) }
}

/// Calls `changed` when the system asks for another.
pub fn on_theme(changed: impl Fn() + 'static) {
    let closure = Closure::<dyn Fn()>::new(changed);
    for media in [DARK, CONTRAST].into_iter().filter_map(media) {
        media.set_onchange(Some(closure.as_ref().unchecked_ref()));
        // A list that nothing holds can be collected, and its listener with it.
        std::mem::forget(media);
    }
    closure.forget();
}

/// The size of an element in CSS px; `None` until it has one that can be drawn on.
#[derive(Clone, Default)]
pub struct Size(Rc<Cell<[f64; 2]>>);

/// Nothing can be drawn in less, px.
const LEAST: f64 = 50.0;

impl Size {
    /// The size now.
    pub fn get(&self) -> Option<[f64; 2]> {
        Some(self.0.get()).filter(|size| size.iter().all(|px| *px >= LEAST))
    }

    /// Follows an element's size and calls `changed` when it is another.
    pub fn follow(&self, element: &Element, changed: impl Fn() + 'static) {
        let (size, measured) = (self.0.clone(), element.clone());
        let measure = Closure::<dyn Fn()>::new(move || {
            let now = [f64::from(measured.client_width()), f64::from(measured.client_height())];
            if size.replace(now) != now {
                changed();
            }
        });
        if let Ok(observer) = ResizeObserver::new(measure.as_ref().unchecked_ref()) {
            observer.observe(element);
        }
        measure.forget();
    }
}

/// Does something after so many ms; the number that calls it off.
pub fn later(ms: i32, act: impl FnOnce() + 'static) -> i32 {
    let act = Closure::once_into_js(act);
    let timer = window().set_timeout_with_callback_and_timeout_and_arguments_0(act.unchecked_ref(), ms);
    timer.unwrap_or_default()
}

/// Puts text into the clipboard; `false` where the browser does not allow it.
pub async fn copy(text: &str) -> bool {
    let clipboard = window().navigator().clipboard();
    // A page that did not come over a secure connection has none.
    !clipboard.is_undefined() && JsFuture::from(clipboard.write_text(text)).await.is_ok()
}

/// Puts a PNG that is being made into the clipboard; `false` where the browser does not allow it. Some want to be asked at once, so the
/// picture may come later.
pub async fn copy_png(png: Promise) -> bool {
    let clipboard = window().navigator().clipboard();
    let parts = Object::new();
    let set = Reflect::set(&parts, &"image/png".into(), &png);
    match ClipboardItem::new_with_record_from_str_to_blob_promise(&parts) {
        Ok(item) if set.is_ok() && !clipboard.is_undefined() => {
            JsFuture::from(clipboard.write(&Array::of1(&item))).await.is_ok()
        }
        _ => false,
    }
}
