//! Long work: the answer is the same however it is sliced, what is done when it stops is kept, and no task stops the program.

use kernel::{LoadCase, READINGS, Reading};
use web::content::{demos, exercises};
use web::document::Document;
use web::document::lesson::Answer;
use web::link::{read, write};
use web::work::{Slice, Work, hand_ins};

/// A class's hand-ins to the twelve exercises, solved and not, with what a student may write: tabs, lines, percent signs.
fn handed() -> Vec<Document> {
    let both = exercises::all().into_iter().enumerate().flat_map(|(at, exercise)| {
        let begun = exercise.document.clone();
        let mut done = exercise.document;
        done.answer = Answer { by: format!("Ada {at} %09"), checked: true, hinted: at % 2 == 0, ..exercise.solution.1 };
        done.answer.words = "50\u{a0}%\tof it,\r\n“and” more".into();
        for (point, place) in exercise.solution.0 {
            if let Some(joint) = done.layout.point_mut(point) {
                *joint = place;
            }
        }
        [begun, done]
    });
    both.collect()
}

/// The links of those, between lines that are none.
fn pasted() -> String {
    let links =
        handed().iter().map(|document| format!("  https://example.org/#{}\n\n", write(document))).collect::<String>();
    links + "nonsense\nhttps://example.org/#\nhttps://example.org/?v=2"
}

/// Does a task in slices of so many pieces each, over and over.
fn sliced(task: &str, pieces: &[usize]) -> Vec<Slice> {
    let mut work = Work::start(task).expect("work");
    let mut sizes = pieces.iter().cycle().copied();
    let mut slices = Vec::new();
    while !slices.last().is_some_and(Slice::last) {
        let mut left = 0..sizes.next().unwrap_or(1);
        slices.push(work.slice(|| left.next().is_some()));
    }
    slices
}

/// The answer to a task that is done in slices of so many pieces.
pub fn answer(task: &str, pieces: usize) -> String {
    joined(&sliced(task, &[pieces]))
}

fn joined(slices: &[Slice]) -> String {
    slices.iter().map(|slice| slice.news.as_str()).collect()
}

#[test]
fn an_answer_is_the_same_however_it_is_sliced() {
    let task = hand_ins::task(&pasted());
    let whole = sliced(&task, &[usize::MAX]);
    assert_eq!(whole.len(), 1);
    for pieces in [&[1][..], &[0, 2], &[5, 1, 0, 3], &[26], &[7, 11]] {
        let slices = sliced(&task, pieces);
        assert_eq!(joined(&slices), whole[0].news, "slices of {pieces:?}");
        let mut done = 0;
        for (slice, asked) in slices.iter().zip(pieces.iter().cycle()) {
            assert!(slice.last() || slice.done == done + asked, "no more than there is time for");
            done = slice.done;
        }
        // Whoever drops the work here keeps the rows that are done.
        let early = joined(&slices[..slices.len() / 2]);
        let kept: Vec<_> = hand_ins::rows(&early).collect();
        assert_eq!(kept, hand_ins::rows(&whole[0].news).take(kept.len()).collect::<Vec<_>>());
    }
}

/// What the rows say is asked of the lesson itself, and text comes through whole.
#[test]
fn a_row_says_what_its_hand_in_says() {
    let slices = sliced(&hand_ins::task(&pasted()), &[1]);
    let rows: Vec<Vec<String>> = hand_ins::rows(&joined(&slices)).collect();
    let handed = handed();
    assert!(rows.len() >= handed.len() && slices[0].of == handed.len() + 3, "empty lines are none");
    for (row, document) in rows.iter().zip(&handed) {
        // As it arrives: a link carries six decimals.
        let (document, faults) = read(&write(document)).expect("a link");
        assert!(faults.is_empty(), "{faults:?}");
        let (lesson, answer) = (document.lesson.as_ref().expect("a lesson"), &document.answer);
        assert_eq!(row.len(), 5);
        assert_eq!([&row[0], &row[4]], [&answer.by, &answer.words]);
        let lines = lesson.marking(&document).lines().join(" ").replace('\n', " ");
        let hinted = if answer.hinted { " The hint was used." } else { "" };
        assert_eq!(row[2], lines + hinted);
        assert!(row[1] == "–" || row[1].contains(&answer.guess));
    }
    assert!(rows.iter().flatten().all(|cell| !cell.contains(char::is_control)), "nor would one break a row");
}

#[test]
fn no_task_stops_the_program() {
    assert_eq!(Work::start("").err().as_deref(), Some("There is no work of the name “”."));
    assert!(Work::start("supper\nnow").is_err());
    for nothing in ["hand-ins", "hand-ins\n", &hand_ins::task(" \n\t\n")] {
        assert_eq!(sliced(nothing, &[1]), [Slice::default()]);
    }
    let many = "?v=2\n".repeat(300);
    assert_eq!(sliced(&hand_ins::task(&many), &[40])[0].of, 200);
}

/// The page changes the case of its own names by ASCII alone: the tables of all the world's letters would weigh 12 kB.
#[test]
fn names_change_their_case_by_ascii() {
    let names = READINGS.iter().map(Reading::full_name);
    let cases = LoadCase::all().iter().map(|case| case.name.to_string());
    let demos = (0..demos::DEMOS.len()).filter_map(demos::layout).map(|layout| layout.name);
    for name in names.chain(cases).chain(demos) {
        assert_eq!(name.to_lowercase(), name.to_ascii_lowercase());
    }
}
