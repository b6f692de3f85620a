//! Work: long work in slices, so that the page, or a worker beside it, has its turn between them.
//!
//! A job is asked for by a text, its *task*, and its *answer* is a text: it is done by a program of its own (`bin/work.rs`), which a page fetches
//! when it has work to do, and the page's program holds nothing of a job but how its task is written and its answer read. It is done piece by
//! piece; how many pieces make a slice is for whoever does it (`worker.js`) and must not matter: the answer is what the pieces bring, one
//! after another. Work that is dropped has ended, and what it had brought stays with whoever heard it. No web types, and no clock.

pub mod explain;
pub mod fit;
pub mod goals;
pub mod hand_ins;
pub mod influence;
pub mod margins;
pub mod outlines;
pub mod space;
pub mod spread;
pub mod turn;

/// A kind of long work.
///
/// To add one, write a file in `work/` beside `hand_ins.rs`, the model of all:
/// - a function `task(…) -> String` that writes all the job needs to know: its name, a line break, then text of the job's own. A job that
///   draws numbers takes the seed among them, so that the same task always has the same answer;
/// - a function `start(&str) -> Result<Box<dyn Job>, String>` that reads what stands behind the line break, and does no more: it must
///   be quick. What can't be read is an error in a sentence for the user;
/// - the two methods below. A piece (a link, an axle of ten thousand, one start of a search) should take some milliseconds. It may use
///   what earlier pieces left in `self`, but no clock and nothing from outside;
/// - a function that reads the answer, or a part of it, back into what a pane shows;
///
/// and a line in `JOBS`. A pane makes a `browser::work::Running::new(hear)`, asks it for a task (`ask`) and stops it by dropping it. Where
/// short answers are wanted again and again it keeps it, and asks for the next task, whether or not the one before is done.
pub trait Job {
    /// How many pieces there are in all; it must not change.
    fn pieces(&self) -> usize;

    /// Does the next piece and gives what it adds to the answer: nothing, where the answer comes with the last piece only.
    fn step(&mut self) -> String;
}

/// Reads what a task says behind its name.
type Start = fn(&str) -> Result<Box<dyn Job>, String>;

/// All jobs, by the names their tasks begin with.
const JOBS: [(&str, Start); 10] = [
    (hand_ins::NAME, hand_ins::start),
    (influence::NAME, influence::start),
    (spread::NAME, spread::start),
    (margins::NAME, margins::start),
    (turn::NAME, turn::start),
    (explain::NAME, explain::start),
    (fit::NAME, fit::start),
    (space::NAME, space::start),
    (outlines::NAME, outlines::start),
    (goals::NAME, goals::start),
];

/// A job under way.
pub struct Work {
    job: Box<dyn Job>,
    done: usize,
}

/// What a slice of work has brought.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Slice {
    /// Pieces done so far.
    pub done: usize,
    /// Pieces in all.
    pub of: usize,
    /// What this slice adds to the answer.
    pub news: String,
}

impl Slice {
    /// Nothing is left to do.
    pub fn last(&self) -> bool {
        self.done == self.of
    }
}

impl Work {
    /// Begins what a task asks for; an error is a sentence.
    pub fn start(task: &str) -> Result<Work, String> {
        let (name, rest) = task.split_once('\n').unwrap_or((task, ""));
        let start = JOBS.iter().find(|(known, _)| *known == name).map(|(_, start)| start);
        let job = start.ok_or_else(|| format!("There is no work of the name “{name}”."))?(rest)?;
        Ok(Work { job, done: 0 })
    }

    /// Does piece after piece for as long as there is `time`, which is asked before each, or something to do.
    pub fn slice(&mut self, mut time: impl FnMut() -> bool) -> Slice {
        let of = self.job.pieces();
        let mut news = String::new();
        while self.done < of && time() {
            news += &self.job.step();
            self.done += 1;
        }
        Slice { done: self.done, of, news }
    }
}
