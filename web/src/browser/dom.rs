//! Elements of the page: finding, making, listening, and writing only what has changed.

use crate::text::unbroken::unbroken;
use std::cell::{Cell, RefCell};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::convert::FromWasmAbi;
use web_sys::{Document, Element, Event, EventTarget, HtmlElement, Node, Window};

/// The window. A page without one is no page, and nothing could be shown.
#[allow(clippy::expect_used, reason = "this program runs in a page or not at all")]
pub fn window() -> Window {
    web_sys::window().expect("a window")
}

/// The document.
#[allow(clippy::expect_used, reason = "this program runs in a page or not at all")]
pub fn document() -> Document {
    window().document().expect("a document")
}

/// An element of `index.html` by its id.
pub fn find<T: JsCast>(id: &str) -> T {
    let element = document().get_element_by_id(id).and_then(|element| element.dyn_into().ok());
    // The file and the program are built together; a story in a browser opens every build.
    element.unwrap_or_else(|| panic!("index.html has no fitting #{id}"))
}

/// Brings the page's notices in front of an open dialog, behind which they could be neither seen nor closed, and back.
pub fn words_in_front() {
    let words: Element = find("words");
    let dialog = document().query_selector("dialog[open]").ok().flatten();
    if let Some(place) = dialog.or_else(|| document().body().map(Element::from))
        && words.parent_element().as_ref() != Some(&place)
    {
        let _ = place.append_child(&words);
    }
}

/// A new element at the end of `parent`.
pub fn make<T: JsCast>(parent: &Element, tag: &str) -> T {
    let namespace = if ["svg", "path", "circle"].contains(&tag) { SVG } else { HTML };
    let element = document().create_element_ns(Some(namespace), tag).and_then(|element| {
        parent.append_child(&element)?;
        Ok(element)
    });
    element.ok().and_then(|element| element.dyn_into().ok()).unwrap_or_else(|| panic!("no <{tag}> can be made"))
}

const HTML: &str = "http://www.w3.org/1999/xhtml";
const SVG: &str = "http://www.w3.org/2000/svg";

/// Sets an attribute. Only a name that is none fails; ours are literals.
pub fn set(element: &Element, name: &str, value: &str) {
    let _ = element.set_attribute(name, value);
}

/// Calls `act` on every event of a kind, for as long as the page lives.
pub fn on<E: FromWasmAbi + 'static>(target: &EventTarget, event: &str, act: impl FnMut(E) + 'static) {
    let closure = Closure::<dyn FnMut(E)>::new(act);
    let _ = target.add_event_listener_with_callback(event, closure.as_ref().unchecked_ref());
    closure.forget();
}

/// The same, before the event comes to any element within the target.
pub fn on_first<E: FromWasmAbi + 'static>(target: &EventTarget, event: &str, act: impl FnMut(E) + 'static) {
    let closure = Closure::<dyn FnMut(E)>::new(act);
    let _ = target.add_event_listener_with_callback_and_bool(event, closure.as_ref().unchecked_ref(), true);
    closure.forget();
}

/// A listener that ends with its owner: for elements that come and go. Dropped before its element is taken away, it hears nothing of that.
pub struct Listener {
    target: EventTarget,
    event: &'static str,
    act: Closure<dyn FnMut(Event)>,
}

impl Listener {
    /// Calls `act` on every event of a kind.
    pub fn new<E: JsCast>(target: &EventTarget, event: &'static str, mut act: impl FnMut(E) + 'static) -> Listener {
        let act = Closure::<dyn FnMut(Event)>::new(move |event: Event| act(event.unchecked_into()));
        let _ = target.add_event_listener_with_callback(event, act.as_ref().unchecked_ref());
        Listener { target: target.clone(), event, act }
    }
}

impl Drop for Listener {
    fn drop(&mut self) {
        let _ = self.target.remove_event_listener_with_callback(self.event, self.act.as_ref().unchecked_ref());
    }
}

/// True if an event happened in an element that fits a selector.
pub fn is_in(event: &Event, selector: &str) -> bool {
    let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    target.is_some_and(|element| element.closest(selector).is_ok_and(|found| found.is_some()))
}

/// An element that comes and goes: written only when it does, for a browser works out the styles of an element that is hidden once more.
pub struct Veil {
    element: HtmlElement,
    hidden: Cell<Option<bool>>,
}

impl Veil {
    /// Of an element of `index.html` by its id.
    pub fn of(id: &str) -> Veil {
        Veil { element: find(id), hidden: Cell::default() }
    }

    /// Hides it, or shows it again.
    pub fn set_hidden(&self, hidden: bool) {
        if self.hidden.replace(Some(hidden)) != Some(hidden) {
            self.element.set_hidden(hidden);
        }
    }
}

/// A place on the page that shows one value: written only when it changes, since most do not in most frames.
pub struct Shown {
    element: Element,
    attribute: Option<&'static str>,
    /// The text's own node, while there is one: to write into it costs less than to put another in its place.
    node: RefCell<Option<Node>>,
    last: RefCell<String>,
}

impl Shown {
    /// The text of an element.
    pub fn text(element: impl Into<Element>) -> Shown {
        Shown { element: element.into(), attribute: None, node: RefCell::default(), last: RefCell::default() }
    }

    /// An attribute of an element.
    pub fn attribute(element: impl Into<Element>, name: &'static str) -> Shown {
        Shown { element: element.into(), attribute: Some(name), node: RefCell::default(), last: RefCell::default() }
    }

    /// Shows a value.
    pub fn show(&self, value: &str) {
        let mut last = self.last.borrow_mut();
        if *last != value {
            match (self.attribute, &mut *self.node.borrow_mut()) {
                (Some(name), _) => set(&self.element, name, value),
                (None, Some(node)) if !value.is_empty() => node.set_node_value(Some(&unbroken(value))),
                (None, node) => {
                    self.element.set_text_content(Some(&unbroken(value)));
                    *node = self.element.first_child();
                }
            }
            value.clone_into(&mut last);
        }
    }
}
