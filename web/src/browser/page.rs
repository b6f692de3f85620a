//! The page's live state, shared by the panes.

use super::{address, window};
use crate::app::{App, Document, Message};
use crate::drawing::{Axle, Fault, Picture, Sheet, Theme, View};
use crate::link;
use leptos::prelude::*;
use std::time::Duration;

/// Signals, copied into every pane.
#[derive(Clone, Copy)]
pub struct Page {
    /// What the page holds.
    pub app: RwSignal<App>,
    /// Light or dark.
    pub theme: RwSignal<Theme>,
    /// The paper: where the views stand and at what scale; `None` until the drawing has a size.
    pub sheet: RwSignal<Option<Sheet>>,
    /// The view that arrow keys move in, and that a small screen shows.
    pub view: RwSignal<View>,
    /// Counts what calls for the drawing to be fitted anew: opening something, a double click.
    pub fits: RwSignal<u32>,
    /// Short word of what has just been done, for the live region.
    pub said: RwSignal<String>,
    writing: StoredValue<Option<TimeoutHandle>>,
}

/// The address is written when nothing has changed for this long.
const IDLE: Duration = Duration::from_millis(500);

impl Page {
    /// The page as its address says, and from then on the address as the page says.
    pub fn open() -> Page {
        let (document, faults) =
            link::read(&address::parameters()).unwrap_or_else(|| (Document::of(crate::demos::first()), Vec::new()));
        let page = Page {
            app: RwSignal::new(App::new(document, faults)),
            theme: window::theme(),
            sheet: RwSignal::new(None),
            view: RwSignal::new(View::Front),
            fits: RwSignal::new(0),
            said: RwSignal::new(String::new()),
            writing: StoredValue::new(None),
        };
        let follow = move |_: &leptos::ev::HashChangeEvent| page.follow_address();
        window_event_listener(leptos::ev::hashchange, move |event| follow(&event));
        page
    }

    /// Lets a message take effect.
    pub fn send(self, message: Message) {
        let opens = matches!(message, Message::Open(..) | Message::Demo(_) | Message::BackToStart);
        self.app.update(|app| app.update(message));
        if opens {
            self.fits.update(|count| *count += 1);
        }
        self.write_soon();
    }

    /// Reads something off the state, tracked.
    pub fn with<T>(self, read: impl FnOnce(&App) -> T) -> T {
        self.app.with(read)
    }

    /// The parameters of the present document.
    pub fn parameters(self) -> String {
        self.app.with_untracked(|app| link::write(&app.document))
    }

    /// Writes the address once nothing changes any more.
    fn write_soon(self) {
        if let Some(handle) = self.writing.get_value() {
            handle.clear();
        }
        let write = move || address::show(&self.parameters());
        self.writing.set_value(set_timeout_with_handle(write, IDLE).ok());
    }

    /// Opens a link that was pasted into the address bar of the open page.
    fn follow_address(self) {
        let parameters = address::parameters();
        if parameters.trim_start_matches('#') == self.parameters() {
            return;
        }
        if let Some((document, faults)) = link::read(&parameters) {
            self.send(Message::Open(Box::new(document), faults));
        }
    }
}

/// What is to be drawn for the present state.
pub fn picture(app: &App) -> Picture<'_> {
    let good = &app.study.good;
    Picture {
        axle: Axle { layout: &good.layout, linkage: &good.linkage, rest: &good.rest, now: &good.now },
        compared: None,
        selected: app.selected,
        fault: app.study.trouble.as_ref().map(|trouble| Fault { joint: trouble.joint, member: trouble.member }),
    }
}
