//! An answer that follows a question by work beside the page: the old one stays until the new one has come.

use crate::browser::page::Page;
use crate::browser::work::Running;
use crate::work::Slice;
use std::cell::RefCell;
use std::rc::Rc;

/// A question, the last answer, and the work on the next one, which is done by one labourer after another question.
pub struct Followed<Q, A> {
    known: Rc<Known<Q, A>>,
    running: RefCell<Option<Running>>,
    task: fn(&Q) -> String,
    read: fn(&Q, &str) -> A,
}

struct Known<Q, A> {
    answer: RefCell<Option<(Q, Rc<A>)>>,
    /// What is being worked on, and what has come of it so far.
    asked: RefCell<Option<(Q, String)>>,
}

impl<Q: Clone + PartialEq + 'static, A: 'static> Followed<Q, A> {
    /// Nothing is asked yet. `task` writes a question's work, `read` what its answer means; no answer is an empty one.
    pub fn new(task: fn(&Q) -> String, read: fn(&Q, &str) -> A) -> Followed<Q, A> {
        let known = Known { answer: RefCell::default(), asked: RefCell::default() };
        Followed { known: Rc::new(known), running: RefCell::default(), task, read }
    }

    /// The last answer, and true if it answers this question. The work on it begins, unless a hand still changes what is asked.
    pub fn ask(&self, page: &Page, held: bool, question: &Q) -> Option<(Rc<A>, bool)> {
        let known = self.known.answer.borrow().as_ref().map(|(of, answer)| (answer.clone(), of == question));
        let answered = known.as_ref().is_some_and(|(_, new)| *new);
        let under_way = self.known.asked.borrow().as_ref().is_some_and(|(of, _)| of == question);
        if !answered && !held && !under_way {
            self.known.asked.replace(Some((question.clone(), String::new())));
            let mut running = self.running.borrow_mut();
            running.get_or_insert_with(|| self.labourer(page)).ask(&(self.task)(question));
        }
        known
    }

    /// Nothing is asked any more.
    pub fn forget(&self) {
        self.running.take();
        self.known.answer.take();
        self.known.asked.take();
    }

    /// Does what it is asked; where that fails, what has come so far, or nothing, is the answer.
    fn labourer(&self, page: &Page) -> Running {
        let (known, page, read) = (self.known.clone(), page.clone(), self.read);
        Running::new(move |told: Result<Slice, String>| {
            let last = told.as_ref().map_or(true, Slice::last);
            let Some((question, mut text)) = known.asked.take() else { return };
            text += &told.unwrap_or_default().news;
            if last {
                known.answer.replace(Some((question.clone(), Rc::new(read(&question, &text)))));
                page.change();
            } else {
                known.asked.replace(Some((question, text)));
            }
        })
    }
}
