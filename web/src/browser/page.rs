//! The live page: state, paper, theme; one frame for however much has changed. Long because every change, every frame and every way to keep
//! the state meet here.

mod embedding;
mod laid_over;
mod messages;
mod pictorial;
mod playing;
mod projector;
mod row;
mod telling;
mod underlay;

use super::address;
use super::dom::{find, on, on_first, window, words_in_front};
use super::storage;
use super::window::{Size, Soon, copy, later, matches, media, theme};
use crate::app::{App, Message, Open, Say};
use crate::drawing::{Arrangement, Sheet, Theme, View};
use crate::exchange::drafts::{self, Draft};
use crate::input::play::Play;
use crate::link;
pub use laid_over::LaidOver;
use std::cell::{Cell, OnceCell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Event, HtmlElement, MediaQueryList};

/// A part of the page that shows the state.
pub trait Pane {
    /// Brings what the pane shows up to date; called once a frame when something has changed.
    fn show(&self, page: &Page, app: &App);
}

/// The page; clones are handles to the same one.
#[derive(Clone)]
pub struct Page(Rc<Inner>);

struct Inner {
    app: RefCell<App>,
    /// Messages that came while the state was read.
    waiting: RefCell<VecDeque<Message>>,
    /// A message is taking effect.
    taking: Cell<bool>,
    sheet: RefCell<Option<Sheet>>,
    size: OnceCell<Size>,
    view: Cell<View>,
    theme: Cell<Theme>,
    panes: OnceCell<Vec<Box<dyn Pane>>>,
    frame: OnceCell<Closure<dyn FnMut(f64)>>,
    hovered: Cell<Option<f64>>,
    /// A picture under a view.
    underlay: RefCell<Option<underlay::Photo>>,
    /// What a pane lays over the drawing.
    laid_over: RefCell<LaidOver>,
    pictorial: pictorial::Pictorial,
    row: row::Row,
    playing: Cell<Option<playing::Playing>>,
    telling: RefCell<Option<telling::Telling>>,
    projector: projector::Projector,
    speed: Cell<f64>,
    /// A frame is asked for.
    asked: Cell<bool>,
    fit: Cell<bool>,
    /// The drawer is large.
    large: Cell<bool>,
    writing: OnceCell<Soon>,
    /// The parameters that the address bar showed when the page last read or wrote it.
    address: RefCell<String>,
    /// When the work on what was opened last began, ms since 1970: what it is kept under.
    began: Cell<f64>,
    /// True once the user has been told that drafts can't be saved.
    unkept: Cell<bool>,
}

/// The address is written when nothing has changed for this long, ms.
pub const IDLE: i32 = 500;

/// How long a word of what has been done is shown, ms.
const MOMENT: i32 = 2500;

/// From this width the three views stand in their first-angle places; below it one is shown at a time. The same as in the
/// style sheet.
const CROSS: &str = "(min-width: 1200px)";

/// Asks for as little movement as can be.
pub const STILL: &str = "(prefers-reduced-motion: reduce)";

/// The quarter that the drawer takes, px; the same as in the style sheet.
const DRAWER: [f64; 2] = [416.0, 348.0];

/// True if there is room for the three views; in another page's low strip there never is.
pub fn shows_all() -> bool {
    // Every frame asks.
    thread_local!(static WIDE: Option<MediaQueryList> = media(CROSS));
    WIDE.with(|wide| wide.as_ref().is_some_and(MediaQueryList::matches)) && !address::embedded()
}

impl Page {
    /// The page as its address says.
    pub fn open() -> Page {
        // Without a link, the last visit goes on; the first one begins with the first demo. What a visitor has kept is none of an
        // embedding page's business.
        let kept = if address::embedded() { String::new() } else { storage::kept() };
        let parameters = address::parameters();
        let given = drafts::open(&kept, &parameters);
        let last = || drafts::read(&kept).first()?.open();
        let (document, faults) = given.or_else(last).unwrap_or_else(|| (crate::content::demos::opening(), Vec::new()));
        Page(Rc::new(Inner {
            app: RefCell::new(App::new(document, faults)),
            waiting: RefCell::default(),
            taking: Cell::new(false),
            sheet: RefCell::new(None),
            size: OnceCell::new(),
            view: Cell::new(View::Front),
            theme: Cell::new(theme()),
            panes: OnceCell::new(),
            frame: OnceCell::new(),
            hovered: Cell::new(None),
            underlay: RefCell::default(),
            laid_over: RefCell::default(),
            pictorial: pictorial::Pictorial::new(),
            row: row::Row::new(),
            playing: Cell::new(None),
            telling: RefCell::default(),
            projector: projector::Projector::default(),
            speed: Cell::new(1.0),
            asked: Cell::new(false),
            fit: Cell::new(true),
            large: Cell::new(false),
            writing: OnceCell::new(),
            address: RefCell::new(parameters),
            began: Cell::new(js_sys::Date::now()),
            unkept: Cell::new(false),
        }))
    }

    /// Starts showing: with the panes, from now on, whenever something changes.
    pub fn start(&self, panes: Vec<Box<dyn Pane>>) {
        self.embed();
        let _ = self.0.panes.set(panes);
        let page = self.clone();
        let _ = self.0.frame.set(Closure::new(move |clock| page.draw(clock)));
        let page = self.clone();
        let _ = self.0.size.set(Size::of(&find::<HtmlElement>("paper"), move || page.refit()));
        let page = self.clone();
        super::window::on_theme(move || {
            page.0.theme.set(theme());
            page.change();
        });
        let page = self.clone();
        on(&window(), "hashchange", move |_: Event| page.follow_address());
        let page = self.clone();
        on(&window(), "pagehide", move |_: Event| page.settle());
        // Before anything is done with the greeting axle, it is back where it stood.
        for event in ["pointerdown", "keydown", "click"] {
            let page = self.clone();
            on_first(&window(), event, move |_: Event| page.end_greeting());
        }
        let page = self.clone();
        // Whatever is touched, a movement stops: the hand goes first.
        on(&window(), "pointerdown", move |event: Event| {
            if !super::dom::is_in(&event, ".plays") {
                page.stop();
            }
        });
        self.change();
        let newcomer = address::parameters().is_empty() && address::help().is_none() && storage::kept().is_empty();
        if newcomer && !matches(STILL) {
            self.play(Play::Greeting);
        }
    }

    /// The paper; `None` until the drawing has a size.
    pub fn sheet(&self) -> Option<Sheet> {
        self.0.sheet.borrow().clone()
    }

    /// Moves or zooms the paper.
    pub fn set_sheet(&self, sheet: Sheet) {
        self.0.sheet.replace(Some(sheet));
        self.change();
    }

    /// The view that arrow keys move in, and that a small screen shows.
    pub fn view(&self) -> View {
        self.0.view.get()
    }

    /// Chooses it; the pictorial one, in which no key moves a joint, takes the place of the others.
    pub fn set_view(&self, view: View) {
        if view == View::Pictorial {
            return self.set_alone(true);
        }
        self.0.view.set(view);
        if !shows_all() {
            self.0.pictorial.alone.set(false);
            self.0.fit.set(true);
        }
        self.change();
    }

    /// Tells whether the drawer is large: the left half of the sheet instead of a quarter of it.
    pub fn set_large(&self, large: bool) {
        if self.0.large.replace(large) != large {
            self.refit();
        }
    }

    /// Light or dark.
    pub fn theme(&self) -> Theme {
        self.0.theme.get()
    }

    /// Fits the drawing anew.
    pub fn refit(&self) {
        self.0.fit.set(true);
        self.change();
    }

    /// Tells the live region what has been done.
    pub fn say(&self, what: &str) {
        words_in_front();
        find::<HtmlElement>("said").set_text_content(Some(what));
    }

    /// The same, and shows it for a moment.
    pub fn tell(&self, what: &str) {
        self.say(what);
        find::<HtmlElement>("said").set_class_name("told");
        later(MOMENT, || find::<HtmlElement>("said").set_class_name("hidden"));
    }

    /// Copies a text and tells what it was; where the browser does not allow it, the text is shown to be taken by hand.
    pub fn copy(&self, text: String, done: &'static str) {
        let page = self.clone();
        spawn_local(async move {
            if copy(&text).await {
                page.tell(done);
            } else {
                let sentence = format!("This browser does not allow copying. Copy the text from here: {text}");
                page.send(Say::Sentence(sentence));
            }
        });
    }

    /// The link to what the page shows.
    pub fn link(&self) -> String {
        address::link(&self.with(|app| link::write(&app.document)))
    }

    /// Writes the address now; but not over a link that somebody has just put there and that the browser is about to tell of.
    pub fn write_address(&self) {
        if *self.0.address.borrow() == address::parameters() {
            address::show(&address::own(self.with(|app| link::write(&app.document))));
            self.0.address.replace(address::parameters());
        }
    }

    /// Something has changed: one frame shows it, however much it is.
    pub fn change(&self) {
        if let (false, Some(frame)) = (self.0.asked.get(), self.0.frame.get()) {
            self.0.asked.set(window().request_animation_frame(frame.as_ref().unchecked_ref()).is_ok());
        }
    }

    /// Where the pointer is along the curves, mm of travel or rack.
    pub fn hovered(&self) -> Option<f64> {
        self.0.hovered.get()
    }

    /// Tells it.
    pub fn set_hovered(&self, at: Option<f64>) {
        if self.0.hovered.replace(at) != at {
            self.change();
        }
    }

    fn draw(&self, clock: f64) {
        self.0.asked.set(false);
        self.advance(clock);
        self.go_on(clock);
        self.with(|app| self.show(app));
    }

    fn show(&self, app: &App) {
        let fit = self.0.fit.replace(false);
        if fit {
            self.unfit_row();
        }
        if fit && let Some(size) = self.paper(self.projects()) {
            let arrangement = match (shows_all(), self.0.large.get()) {
                _ if self.projects() => Arrangement::Slide(self.projected()),
                (false, _) => Arrangement::One(self.view()),
                (true, false) => Arrangement::Cross { drawer: DRAWER },
                (true, true) => Arrangement::Two { left: f64::max(DRAWER[0], size[0] / 2.0) },
            };
            self.0.sheet.replace(Some(self.pictured(app, |picture| Sheet::fit(size, arrangement, picture))));
            self.place_pictorial(size, app);
        }
        for pane in self.0.panes.get().into_iter().flatten() {
            pane.show(self, app);
        }
    }

    /// Writes the address once nothing changes any more.
    fn write_soon(&self) {
        let page = self.clone();
        self.0.writing.get_or_init(|| Soon::new(IDLE, move || page.settle())).ask();
    }

    /// Writes the address, keeps the state and tells the embedding page, unless a story passes over it.
    fn settle(&self) {
        if let Some(soon) = self.0.writing.get() {
            soon.call_off();
        }
        if !self.with(App::tells) {
            self.write_address();
            self.keep();
            self.tell_parent();
        }
    }

    /// Keeps the state in the browser, once something has been done to what was opened.
    fn keep(&self) {
        if !self.with(App::edited) || self.with(App::tells) {
            return;
        }
        let draft = self.with(|app| Draft::of(self.0.began.get(), &app.document));
        if !storage::keep(&drafts::with(&storage::kept(), &draft)) && !self.0.unkept.replace(true) {
            let sentence = "This browser does not save drafts for this page; copy the link to keep your work.";
            self.send(Say::Sentence(sentence.into()));
        }
    }

    /// Opens a link that was put into the address bar of the open page.
    fn follow_address(&self) {
        let parameters = address::parameters();
        self.0.address.replace(parameters.clone());
        let same = self.with(|app| link::write(&app.document) == parameters);
        if let (false, Some((document, faults))) = (same, drafts::open(&storage::kept(), &parameters)) {
            self.send(Open::Document(Box::new(document), faults));
        }
    }
}
