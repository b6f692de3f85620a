//! An answer that follows a question by work beside the page: the old one stays until the new one has come.

use crate::browser::page::Page;
use crate::browser::work::Running;
use std::cell::RefCell;
use std::rc::Rc;

/// The last question that was answered, with its answer.
type Known<Q, A> = Rc<RefCell<Option<(Q, Rc<A>)>>>;

/// A question, the last answer, and the work on the next one.
pub struct Followed<Q, A> {
    known: Known<Q, A>,
    doing: RefCell<Option<(Q, Running)>>,
    task: fn(&Q) -> String,
    read: fn(&Q, &str) -> A,
}

impl<Q: Clone + PartialEq + 'static, A: 'static> Followed<Q, A> {
    /// Nothing is asked yet. `task` writes a question's work, `read` what its answer means; no answer is an empty one.
    pub fn new(task: fn(&Q) -> String, read: fn(&Q, &str) -> A) -> Followed<Q, A> {
        Followed { known: Rc::default(), doing: RefCell::default(), task, read }
    }

    /// The last answer, and true if it answers this question. The work on it begins, unless a hand still changes what is asked.
    pub fn ask(&self, page: &Page, held: bool, question: &Q) -> Option<(Rc<A>, bool)> {
        let known = self.known.borrow().as_ref().map(|(of, answer)| (answer.clone(), of == question));
        let (mut doing, answered) = (self.doing.borrow_mut(), known.as_ref().is_some_and(|(_, new)| *new));
        if !answered && !held && doing.as_ref().is_none_or(|(of, _)| of != question) {
            *doing = self.begin(page, question).map(|running| (question.clone(), running));
        }
        known
    }

    /// Nothing is asked any more.
    pub fn forget(&self) {
        self.known.take();
        self.doing.take();
    }

    /// Begins the work on a question; where that fails, an empty answer is known at once.
    fn begin(&self, page: &Page, question: &Q) -> Option<Running> {
        let (known, page, asked, read) = (self.known.clone(), page.clone(), question.clone(), self.read);
        let mut text = String::new();
        let hear = move |told: Result<crate::work::Slice, &'static str>| {
            let last = match told {
                Ok(slice) => {
                    text += &slice.news;
                    slice.last()
                }
                Err(_) => true,
            };
            if last {
                known.replace(Some((asked.clone(), Rc::new(read(&asked, &text)))));
                page.change();
            }
        };
        match Running::start(&(self.task)(question), hear) {
            Ok(running) => Some(running),
            Err(_) => {
                self.known.replace(Some((question.clone(), Rc::new((self.read)(question, "")))));
                None
            }
        }
    }
}
