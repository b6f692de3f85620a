//! Does long work: in a worker, where there can be one, else between two turns of the page.
//!
//! The worker runs the page's own program once more (`worker.js` hands it over, compiled already), so nothing else is fetched. The
//! offline copy has no files beside it and does without; so does a page whose worker does not come.

use super::dom::document;
use super::window::later;
use crate::work::{Slice, Work};
use js_sys::{Array, Date, Function};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Event, MessageEvent};

/// A slice on the page, ms: there is time left for a frame.
const SHORT: f64 = 8.0;

/// A slice in a worker, ms: what comes of it is shown so often.
const LONG: f64 = 50.0;

/// What is heard of work under way: slices, the last of them being the end; or a sentence, if it broke down.
type Hear = RefCell<Box<dyn FnMut(Result<Slice, &'static str>)>>;

/// Work under way: it goes on while this lives.
pub struct Running(Rc<Doing>);

struct Doing {
    hear: Hear,
    /// Until a worker has begun, the page may have to do it.
    work: RefCell<Option<Work>>,
    worker: RefCell<Option<Worker>>,
    /// Whoever started it is not there any more.
    dropped: Cell<bool>,
}

/// A worker and what listens to it.
struct Worker {
    worker: web_sys::Worker,
    _heard: Closure<dyn FnMut(MessageEvent)>,
    _failed: Closure<dyn FnMut(Event)>,
}

impl Running {
    /// Begins what a task asks for, and tells what comes of it; an error is a sentence.
    pub fn start(task: &str, hear: impl FnMut(Result<Slice, &'static str>) + 'static) -> Result<Running, String> {
        let work = RefCell::new(Some(Work::start(task)?));
        let hear: Hear = RefCell::new(Box::new(hear));
        let doing = Rc::new(Doing { hear, work, worker: RefCell::default(), dropped: Cell::new(false) });
        match Worker::start(task, &doing) {
            Some(worker) => {
                doing.worker.replace(Some(worker));
            }
            None => doing.go_on_soon(),
        }
        Ok(Running(doing))
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.0.dropped.set(true);
        self.0.worker.take();
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

impl Doing {
    fn tell(&self, what: Result<Slice, &'static str>) {
        if !self.dropped.get() {
            (self.hear.borrow_mut())(what);
        }
    }

    /// Does a slice on the page once it has had its turn.
    fn go_on_soon(self: &Rc<Self>) {
        let doing = self.clone();
        later(0, move || doing.go_on());
    }

    fn go_on(self: &Rc<Self>) {
        if self.dropped.get() {
            return;
        }
        let slice = self.work.borrow_mut().as_mut().map(|work| work.slice(time(SHORT)));
        let Some(slice) = slice else { return };
        let last = slice.last();
        self.tell(Ok(slice));
        if !last {
            self.go_on_soon();
        }
    }

    /// Hears a slice from the worker.
    fn receive(&self, data: &Array) {
        self.work.take();
        let number = |at| data.get(at).as_f64().unwrap_or_default() as usize;
        let slice = Slice { done: number(0), of: number(1), news: data.get(2).as_string().unwrap_or_default() };
        if slice.last() {
            self.worker.take();
        }
        self.tell(Ok(slice));
    }

    /// The worker did not come, or broke down.
    fn failed(self: &Rc<Self>) {
        self.worker.take();
        if self.work.borrow().is_some() {
            self.go_on_soon();
        } else {
            self.tell(Err("The work broke down; what it had done so far is kept."));
        }
    }
}

impl Worker {
    /// Starts one; `None` where there can be none.
    fn start(task: &str, doing: &Rc<Doing>) -> Option<Worker> {
        let script = document().query_selector("script[data-js]").ok().flatten()?;
        let worker = web_sys::Worker::new("worker.js").ok()?;
        let (hears, fails) = (Rc::downgrade(doing), Rc::downgrade(doing));
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            if let Some(doing) = hears.upgrade() {
                doing.receive(event.data().unchecked_ref());
            }
        });
        let failed = Closure::<dyn FnMut(Event)>::new(move |_: Event| {
            if let Some(doing) = fails.upgrade() {
                doing.failed();
            }
        });
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        let message = Array::of3(&script.get_attribute("data-js")?.into(), &wasm_bindgen::module(), &task.into());
        worker.post_message(&message).ok()?;
        Some(Worker { worker, _heard: heard, _failed: failed })
    }
}

/// True for so many ms from now.
fn time(ms: f64) -> impl FnMut() -> bool {
    let begin = Date::now();
    // A clock that was put back ends it, too.
    move || (0.0..ms).contains(&(Date::now() - begin))
}

/// What a worker does: a task from beginning to end, telling each slice; the first one tells that it has begun. Whoever has heard enough
/// ends the worker.
#[wasm_bindgen]
pub fn work(task: &str, tell: &Function) -> Result<(), JsValue> {
    let mut work = Work::start(task)?;
    let mut slice = work.slice(|| false);
    loop {
        let last = slice.last();
        let told = Array::of3(&(slice.done as f64).into(), &(slice.of as f64).into(), &slice.news.into());
        tell.call1(&JsValue::NULL, &told)?;
        if last {
            return Ok(());
        }
        slice = work.slice(time(LONG));
    }
}
