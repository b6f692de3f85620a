//! What the browser keeps: the last state of whatever was opened and changed, newest first, as lines of a time, a link's parameters
//! and, where something was typed beside the axle, the papers, which no link carries, as JSON; `teach` before them says that its lesson is in
//! preparation, which no link says either: whoever else opens that is a student.
//! None writes over another one's line, so opening a link costs nobody their work; and what has a name of its own outlives demos tried out.

use crate::content::demos;
use crate::document::{Document, Papers};
use crate::link;

/// So many are kept.
const MOST: usize = 12;

/// So many characters are kept: browsers give a page five million, some half of that.
const ROOM: usize = 2_000_000;

/// Dates end here in a browser, ms since 1970.
const LATEST: f64 = 8.64e15;

/// The last state of one layout that was opened and changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// When work on it began, ms since 1970.
    pub began: f64,
    /// The link's parameters.
    pub parameters: String,
    /// The papers as text; empty for none.
    pub papers: String,
    /// Its lesson is in preparation.
    pub teaches: bool,
}

/// Says that a lesson is in preparation.
const TEACH: &str = "teach";

impl Draft {
    /// A document's state, as work on it that began then.
    pub fn of(began: f64, document: &Document) -> Draft {
        let teaches = document.lesson.is_some() && !document.sealed();
        Draft { began, parameters: link::write(document), papers: document.papers.text(), teaches }
    }

    /// The document, with what there is to say about it.
    pub fn open(&self) -> Option<(Document, Vec<String>)> {
        let (mut document, mut says) = link::read(&self.parameters)?;
        match Papers::read(&self.papers) {
            Ok(papers) => document.papers = papers,
            Err(sentence) => says.push(sentence),
        }
        if self.teaches {
            document = document.each(&|mut exercise| {
                exercise.lesson.iter_mut().for_each(|lesson| lesson.begin = 0);
                exercise
            });
            says.push("This is your lesson in preparation. Whoever else opens its link gets the task.".into());
        }
        Some((document, says))
    }

    fn length(&self) -> usize {
        self.parameters.len() + self.papers.len()
    }
}

/// What a link's parameters open: of one's own work with its papers, which the address of a page that is loaded again does not carry.
pub fn open(kept: &str, parameters: &str) -> Option<(Document, Vec<String>)> {
    let own = read(kept).into_iter().find(|draft| draft.parameters == parameters);
    own.and_then(|draft| draft.open()).or_else(|| link::read(parameters))
}

/// The newest answer of one's own to a document's exercise, on which work began earlier.
pub fn earlier(kept: &str, document: &Document) -> Option<Draft> {
    let own = |draft: &Draft| {
        let answered = draft.open().map(|(other, _)| other).filter(Document::answered);
        answered.is_some_and(|other| other.same_lessons(document))
    };
    read(kept).into_iter().find(own)
}

/// Reads what is kept; lines that are none are passed over.
pub fn read(text: &str) -> Vec<Draft> {
    let line = |line: &str| {
        let (began, rest) = line.split_once(' ')?;
        let began = began.parse().ok().filter(|began| (0.0..LATEST).contains(began))?;
        // No link has a space in it.
        let (parameters, rest) = rest.split_once(' ').unwrap_or((rest, ""));
        let papers = rest.strip_prefix(TEACH);
        let teaches = papers.is_some();
        let papers = papers.unwrap_or(rest).trim_start();
        Some(Draft { began, parameters: parameters.into(), papers: papers.into(), teaches })
    };
    text.lines().filter_map(line).take(MOST).collect()
}

/// What is to be kept after work has come to a state. What is too much goes: the oldest that still bears a demo's name, else the oldest.
pub fn with(kept: &str, draft: &Draft) -> String {
    let mut drafts = read(kept);
    drafts.retain(|other| other.began != draft.began);
    drafts.insert(0, draft.clone());
    let length = |drafts: &[Draft]| drafts.iter().map(Draft::length).sum::<usize>();
    while drafts.len() > 1 && (drafts.len() > MOST || length(&drafts) > ROOM) {
        let demo = drafts.iter().rposition(bears_a_demos_name).filter(|at| *at > 0);
        drafts.remove(demo.unwrap_or(drafts.len() - 1));
    }
    let line = |draft: &Draft| {
        let teaches = if draft.teaches { TEACH } else { "" };
        let parts = [&draft.began.to_string(), &draft.parameters, teaches, &draft.papers];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ") + "\n"
    };
    drafts.iter().map(line).collect()
}

/// A link to a story or lesson is somebody's work, whatever its name.
fn bears_a_demos_name(draft: &Draft) -> bool {
    let document = link::read(&draft.parameters).map(|(document, _)| document);
    document.is_some_and(|d| d.story.is_empty() && d.lesson.is_none() && demos::names(&d.layout.name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_work_has_its_own_line_and_the_newest_stands_first() {
        let draft = |began: f64, parameters: &str| Draft {
            began,
            parameters: parameters.into(),
            papers: String::new(),
            teaches: false,
        };
        let mut kept = String::new();
        for (began, parameters) in [(1.0, "a"), (2.0, "b"), (1.0, "c")] {
            kept = with(&kept, &draft(began, parameters));
        }
        assert_eq!(read(&kept), [draft(1.0, "c"), draft(2.0, "b")]);
        for visit in 10..40 {
            kept = with(&kept, &draft(f64::from(visit), "x"));
        }
        assert_eq!(read(&kept).len(), MOST);
        assert_eq!(read(&kept)[0].began, 39.0);
    }

    /// One stay on the page, and no end of demos tried out, leaves what has a name of its own.
    #[test]
    fn named_work_outlives_demos_that_are_tried_out() {
        let draft = |began: f64, name: Option<&str>| {
            let mut document = demos::opening();
            name.into_iter().for_each(|name| document.layout.name = name.into());
            Draft::of(began, &document)
        };
        let own = draft(1.0, Some("My own work"));
        let mut kept = with("", &own);
        for began in 2..40 {
            kept = with(&kept, &draft(f64::from(began), None));
        }
        let drafts = read(&kept);
        assert_eq!((drafts.len(), drafts[0].began, &drafts[MOST - 1]), (MOST, 39.0, &own));
        // Of own works only, the oldest goes; what is worked on now never does.
        for began in 40..60 {
            kept = with(&kept, &draft(f64::from(began), Some("Another")));
        }
        kept = with(&kept, &draft(60.0, None));
        let began: Vec<f64> = read(&kept).iter().map(|draft| draft.began).collect();
        assert_eq!((began.len(), began[0], began[MOST - 1]), (MOST, 60.0, 49.0));
    }

    /// A lesson in preparation is one again, whoever else opens its link; with papers and without.
    #[test]
    fn a_lesson_in_preparation_stays_one() {
        let mut document = demos::opening();
        document.lesson = Some(crate::document::lesson::Lesson { task: "Do\nit".into(), ..Default::default() });
        let draft = Draft::of(5.0, &document);
        for papers in ["", "{\"measuring\":{}}"] {
            let draft = Draft { papers: papers.into(), ..draft.clone() };
            let kept = with("", &draft);
            assert_eq!(read(&kept).as_slice(), std::slice::from_ref(&draft));
            let (again, says) = open(&kept, &draft.parameters).expect("a draft");
            assert_eq!((again.lesson, says.len()), (document.lesson.clone(), 1));
            let (student, says) = open("", &draft.parameters).expect("a link");
            assert_eq!((student.sealed(), says.len()), (true, 0));
        }
    }

    /// A browser that keeps five million characters keeps all of it.
    #[test]
    fn what_is_kept_has_its_limit() {
        let mut kept = String::new();
        for began in 1..=MOST {
            kept = with(
                &kept,
                &Draft {
                    began: began as f64,
                    parameters: "x".repeat(225_000),
                    papers: "y".repeat(225_000),
                    teaches: false,
                },
            );
        }
        assert_eq!(read(&kept).len(), 4);
        assert_eq!(read(&kept)[0].began, MOST as f64);
    }

    #[test]
    fn what_is_no_draft_is_passed_over() {
        assert_eq!(
            read("\n\nx y\nNaN z\n5 v=2\ninf 3\n1e300 4\n-1 5"),
            [Draft { began: 5.0, parameters: "v=2".into(), papers: String::new(), teaches: false }]
        );
    }
}
