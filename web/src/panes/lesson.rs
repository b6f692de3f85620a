//! Lessons: the list of exercises, a student's task and answer, a teacher's preparation.

mod acts;
mod free;
mod series;
mod student;
mod targets;
mod teacher;

use super::hand_ins;
use crate::app::{App, Course};
use crate::browser::dom::{find, make, on};
use crate::browser::page::{Page, Pane};
use crate::content::exercises;
use acts::{Shelf, begin, click};
use std::rc::Rc;
use student::Student;
use teacher::Teacher;
use web_sys::{Element, Event, HtmlElement};

/// The pane.
pub struct LessonPane {
    whole: HtmlElement,
    parts: [HtmlElement; 3],
    student: Student,
    teacher: Teacher,
}

impl LessonPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> LessonPane {
        let shelf = Rc::new(Shelf(exercises::all().into_iter().map(|e| (e.name, e.document)).collect()));
        list(page, &shelf);
        hand_ins::furnish(page);
        for (id, course) in [
            ("copy-lesson", Course::Copy),
            ("edit-try", Course::Try),
            ("back-to-lesson", Course::Back),
            ("leave-lesson", Course::Leave),
        ] {
            click(page, id, move |page| page.send(course.clone()));
        }
        LessonPane {
            whole: find("lesson"),
            parts: ["lesson-task", "lesson-edit", "lesson-none"].map(find),
            teacher: Teacher::new(page, &shelf),
            student: Student::new(page, shelf),
        }
    }
}

fn list(page: &Page, shelf: &Rc<Shelf>) {
    let list: Element = find("exercises");
    for (at, (name, _)) in shelf.0.iter().enumerate() {
        let button: Element = make(&make::<Element>(&list, "li"), "button");
        button.set_text_content(Some(name));
        let (page, shelf) = (page.clone(), shelf.clone());
        on(&button, "click", move |_: Event| begin(&page, &shelf.0[at].1));
    }
}

impl Pane for LessonPane {
    fn show(&self, page: &Page, app: &App) {
        let lesson = app.document.lesson.as_ref();
        let shown = match lesson {
            Some(lesson) if lesson.sealed() => 0,
            Some(_) => 1,
            None => 2,
        };
        for (i, part) in self.parts.iter().enumerate() {
            part.set_hidden(i != shown);
        }
        if self.whole.hidden() {
            return;
        }
        match lesson {
            Some(lesson) if lesson.sealed() => self.student.show(page, app, lesson),
            Some(lesson) => self.teacher.show(page, app, lesson),
            None => self.student.away(),
        }
    }
}
