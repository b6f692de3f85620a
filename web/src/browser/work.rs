//! Has long work done by a program of its own (`bin/work.rs`), which is fetched when there is some: in a worker beside the page or, where none can be or
//! none comes, on the page between two of its turns. The offline copy has no files beside it and does without workers.

use super::dom::{Listener, document};
use crate::work::Slice;
use js_sys::Array;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Event, MessageChannel, MessageEvent, MessagePort, Worker, WorkerOptions, WorkerType};

const MISSING: &str = "What does this work can’t be fetched: is the network there? Then try again.";
const BROKEN: &str = "The work broke down; what it had done so far is kept.";

/// What is heard of work under way: slices, the last of them being the end; or why nothing more comes, in a sentence.
type Hear = RefCell<Box<dyn FnMut(Result<Slice, String>)>>;

/// Somebody who is asked for work and heard of it; when this is dropped, the work ends. A pane that asks often keeps it: a worker that is there begins the
/// next task some tens of ms sooner than a new one.
pub struct Running(Rc<Doing>);

struct Doing {
    hear: Hear,
    task: RefCell<String>,
    /// How many tasks there have been: what comes of an older one is not heard.
    number: Cell<f64>,
    labourer: RefCell<Option<Labourer>>,
    /// Something has come of the task.
    begun: Cell<bool>,
}

/// A worker, or the page: told and heard at a port, as `worker.js` says.
struct Labourer {
    port: MessagePort,
    worker: Option<Worker>,
    _heard: Listener,
    _failed: Option<Listener>,
}

#[wasm_bindgen]
extern "C" {
    /// Brings the program onto the page, where it does what is asked for at the other end of this port (`boot.js`, `offline.mjs`).
    #[wasm_bindgen(catch)]
    async fn labour(port: &MessagePort) -> Result<(), JsValue>;
}

impl Running {
    /// Will tell what comes of what it is asked for. Nothing is fetched before.
    pub fn new(hear: impl FnMut(Result<Slice, String>) + 'static) -> Running {
        Running(Rc::new(Doing {
            hear: RefCell::new(Box::new(hear)),
            task: RefCell::default(),
            number: Cell::default(),
            labourer: RefCell::default(),
            begun: Cell::default(),
        }))
    }

    /// Begins what a task asks for, in place of what is under way.
    pub fn ask(&self, task: &str) {
        let doing = &self.0;
        doing.task.replace(task.into());
        doing.number.set(doing.number.get() + 1.0);
        doing.begun.set(false);
        if doing.labourer.borrow().is_none() {
            doing.hire(worker());
        }
        doing.post();
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.0.labourer.take();
    }
}

impl Drop for Labourer {
    fn drop(&mut self) {
        // On the page only this ends what is under way.
        let _ = self.port.post_message(&Array::new());
        self.port.close();
        if let Some(worker) = &self.worker {
            worker.terminate();
        }
    }
}

impl Doing {
    /// From now on this worker does the work, or, if there is none, the page.
    fn hire(self: &Rc<Self>, worker: Option<Worker>) {
        let Ok(channel) = MessageChannel::new() else { return };
        let (port, other) = (channel.port1(), channel.port2());
        let doing = Rc::downgrade(self);
        let heard = Listener::new(&port, "message", move |event: MessageEvent| {
            if let Some(doing) = doing.upgrade() {
                doing.receive(event.data().unchecked_ref());
            }
        });
        port.start();
        let doing = Rc::downgrade(self);
        let failed = move || {
            if let Some(doing) = doing.upgrade() {
                doing.failed();
            }
        };
        let failed = match &worker {
            Some(worker) => {
                let _ = worker.post_message_with_transfer(&other, &Array::of1(&other));
                Some(Listener::new(worker, "error", move |_: Event| failed()))
            }
            None => {
                spawn_local(async move {
                    if labour(&other).await.is_err() {
                        failed();
                    }
                });
                None
            }
        };
        self.labourer.replace(Some(Labourer { port, worker, _heard: heard, _failed: failed }));
    }

    /// Tells the labourer the task.
    fn post(&self) {
        if let Some(labourer) = &*self.labourer.borrow() {
            let message = Array::of2(&self.number.get().into(), &(&*self.task.borrow()).into());
            let _ = labourer.port.post_message(&message);
        }
    }

    fn tell(&self, what: Result<Slice, String>) {
        (self.hear.borrow_mut())(what);
    }

    fn receive(self: &Rc<Self>, told: &Array) {
        let number = |at| told.get(at).as_f64().unwrap_or_default();
        if number(0) != self.number.get() {
            return;
        }
        if told.length() == 1 {
            return self.failed();
        }
        self.begun.set(true);
        let text = |at| told.get(at).as_string();
        self.tell(match text(1) {
            Some(sentence) => Err(sentence),
            None => Ok(Slice { done: number(1) as usize, of: number(2) as usize, news: text(3).unwrap_or_default() }),
        });
    }

    /// The labourer did not come, or broke down. Nobody hears of work that has begun twice, so the page takes over only what has not.
    fn failed(self: &Rc<Self>) {
        let labourer = self.labourer.take();
        if self.begun.get() {
            self.tell(Err(BROKEN.into()));
        } else if labourer.is_some_and(|labourer| labourer.worker.is_some()) {
            self.hire(None);
            self.post();
        } else {
            self.tell(Err(MISSING.into()));
        }
    }
}

/// A new worker, if there can be one.
fn worker() -> Option<Worker> {
    let script = document().query_selector("script[data-work]").ok().flatten()?;
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    Worker::new_with_options(&script.get_attribute("data-work")?, &options).ok()
}
