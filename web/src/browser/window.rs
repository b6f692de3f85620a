//! The window: size, what is seen of it, theme, clipboard.

use super::dom::{Listener, window};
use crate::drawing::Theme;
use js_sys::{Array, Object, Promise, Reflect};
use std::cell::{Cell, OnceCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    ClipboardItem, Element, Event, IntersectionObserver, IntersectionObserverEntry, MediaQueryList, ResizeObserver,
};

/// Device pixels per CSS px.
pub fn pixel_ratio() -> f64 {
    window().device_pixel_ratio().max(1.0)
}

/// A media query, to be asked more than once.
pub fn media(query: &str) -> Option<MediaQueryList> {
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

/// The size of an element, followed for as long as this lives.
pub struct Size {
    element: Element,
    px: Rc<Cell<[f64; 2]>>,
    follows: Follows,
}

/// What tells that the size is another.
enum Follows {
    Observer(ResizeObserver, #[expect(dead_code, reason = "the observer calls it")] Closure<dyn Fn()>),
    /// Where the browser has no observers: the window's changes; between them the element is measured when it is asked for.
    Window(#[expect(dead_code, reason = "the window calls it")] Listener),
}

/// Nothing can be drawn in less, px.
const LEAST: f64 = 50.0;

fn measure(element: &Element) -> [f64; 2] {
    [element.client_width(), element.client_height()].map(f64::from)
}

impl Size {
    /// Follows an element's size and calls `changed` when it is another.
    pub fn of(element: &Element, changed: impl Fn() + 'static) -> Size {
        let px = Rc::<Cell<[f64; 2]>>::default();
        let (size, measured) = (px.clone(), element.clone());
        let act = Rc::new(move || {
            let now = measure(&measured);
            if size.replace(now) != now {
                changed();
            }
        });
        let observed = act.clone();
        let closure = Closure::<dyn Fn()>::new(move || observed());
        let follows = match ResizeObserver::new(closure.as_ref().unchecked_ref()) {
            Ok(observer) => {
                observer.observe(element);
                Follows::Observer(observer, closure)
            }
            Err(_) => Follows::Window(Listener::new(&window(), "resize", move |_: Event| act())),
        };
        Size { element: element.clone(), px, follows }
    }

    /// The size now, CSS px; `None` until it is one that can be drawn in.
    pub fn get(&self) -> Option<[f64; 2]> {
        let size = match self.follows {
            Follows::Observer(..) => self.px.get(),
            Follows::Window(_) => measure(&self.element),
        };
        Some(size).filter(|size| size.iter().all(|px| *px >= LEAST))
    }
}

impl Drop for Size {
    fn drop(&mut self) {
        if let Follows::Observer(observer, _) = &self.follows {
            observer.disconnect();
        }
    }
}

/// Whether an element is on the screen, followed for as long as this lives. Where the browser has no observers it is taken for seen.
pub struct Sight {
    seen: Rc<Cell<bool>>,
    observer: Option<IntersectionObserver>,
    _observed: Closure<dyn Fn(Array)>,
}

impl Sight {
    /// Follows an element and calls `came` when it comes onto the screen.
    pub fn of(element: &Element, came: impl Fn() + 'static) -> Sight {
        let seen = Rc::new(Cell::new(true));
        let told = seen.clone();
        let observed = Closure::<dyn Fn(Array)>::new(move |entries: Array| {
            // More than one where it went and came again in between.
            let last: IntersectionObserverEntry = entries.get(entries.length().saturating_sub(1)).unchecked_into();
            if !told.replace(last.is_intersecting()) && told.get() {
                came();
            }
        });
        let observer = IntersectionObserver::new(observed.as_ref().unchecked_ref()).ok();
        observer.iter().for_each(|observer| observer.observe(element));
        Sight { seen, observer, _observed: observed }
    }

    /// Whether it is seen.
    pub fn seen(&self) -> bool {
        self.seen.get()
    }
}

impl Drop for Sight {
    fn drop(&mut self) {
        self.observer.iter().for_each(IntersectionObserver::disconnect);
    }
}

/// Does something after so many ms. It can't be called off: what JavaScript is given for one call is let go by that call alone.
pub fn later(ms: i32, act: impl FnOnce() + 'static) {
    let act = Closure::once_into_js(act);
    let _ = window().set_timeout_with_callback_and_timeout_and_arguments_0(act.unchecked_ref(), ms);
}

/// What is done once nobody has asked for it again for a while. One timer at a time, which goes on for the rest when it has rung too early: a drag asks in
/// every frame, and to set a timer takes longer than to look at the clock.
pub struct Soon(Rc<Waiting>);

struct Waiting {
    ms: f64,
    act: Box<dyn Fn()>,
    /// When it is to be done, ms on the page's clock; `None` while nobody asks.
    due: Cell<Option<f64>>,
    /// The timer runs.
    runs: Cell<bool>,
    rings: OnceCell<Closure<dyn Fn()>>,
}

impl Soon {
    /// Of something to do once nobody has asked for it for so many ms. It lives as long as the page.
    pub fn new(ms: i32, act: impl Fn() + 'static) -> Soon {
        let (ms, act) = (f64::from(ms), Box::new(act));
        let waiting =
            Rc::new(Waiting { ms, act, due: Cell::new(None), runs: Cell::new(false), rings: OnceCell::new() });
        let rung = waiting.clone();
        let _ = waiting.rings.set(Closure::new(move || rung.ring()));
        Soon(waiting)
    }

    /// Asks for it.
    pub fn ask(&self) {
        self.0.due.set(Some(now() + self.0.ms));
        if !self.0.runs.get() {
            self.0.wind(self.0.ms);
        }
    }

    /// Nobody asks for it any more.
    pub fn call_off(&self) {
        self.0.due.set(None);
    }
}

impl Waiting {
    fn wind(&self, ms: f64) {
        let Some(rings) = self.rings.get() else { return };
        let set = window()
            .set_timeout_with_callback_and_timeout_and_arguments_0(rings.as_ref().unchecked_ref(), ms.ceil() as i32);
        self.runs.set(set.is_ok());
    }

    fn ring(&self) {
        self.runs.set(false);
        match self.due.get().map(|due| due - now()) {
            Some(rest) if rest > 0.0 => self.wind(rest),
            Some(_) => {
                self.due.set(None);
                (self.act)();
            }
            None => {}
        }
    }
}

/// The page's clock, ms, which never goes back; without one the day's.
fn now() -> f64 {
    window().performance().map_or_else(js_sys::Date::now, |clock| clock.now())
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
