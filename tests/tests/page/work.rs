//! Long work: the answer is the same however it is sliced, what is done when it stops is kept, and no task stops the program.

use kernel::{LoadCase, PointId, READINGS, Reading};
use web::content::{demos, exercises};
use web::document::Document;
use web::document::lesson::Answer;
use web::exchange::marks;
use web::link::{read, write};
use web::study::marking::Mark;
use web::work::hand_ins::{Came, Row};
use web::work::{Slice, Work, hand_ins};

/// A class's hand-ins to the exercises, solved and not, with what a student may write: tabs, lines, percent signs.
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
        let kept: Vec<Row> = hand_ins::rows(&early).collect();
        assert_eq!(kept, hand_ins::rows(&whole[0].news).take(kept.len()).collect::<Vec<_>>());
    }
}

/// What the rows say is asked of the lesson itself, text comes through whole, and a line that can't be read is named.
#[test]
fn a_row_says_what_its_hand_in_says() {
    let slices = sliced(&hand_ins::task(&pasted()), &[1]);
    let rows: Vec<Row> = hand_ins::rows(&joined(&slices)).collect();
    let handed = handed();
    assert_eq!((rows.len(), slices[0].of), (handed.len() + 3, handed.len() + 3), "empty lines are none");
    for (row, document) in rows.iter().zip(&handed) {
        // As it arrives: a link carries six decimals.
        let (document, faults) = read(&write(document)).expect("a link");
        assert!(faults.is_empty(), "{faults:?}");
        let (lesson, answer) = (document.lesson.as_ref().expect("a lesson"), &document.answer);
        assert_eq!([&row.name, &row.words, &row.typed], [&answer.by, &answer.words, &answer.guess]);
        assert_eq!((&row.fault, row.title == lesson.title(), row.hinted), (&String::new(), true, answer.hinted));
        let marks = lesson.marking(&document);
        let came = |mark: &Option<Mark>| match mark {
            None => Came::Unasked,
            Some(Mark::Open(_)) => Came::Open,
            Some(Mark::Wrong(_)) => Came::No,
            Some(Mark::Right(_) | Mark::Read(_)) => Came::Yes,
        };
        assert_eq!([row.target, row.number], [came(&marks.targets), came(&marks.number)]);
        let sure = |came: Came| came == Came::Yes || came == Came::No;
        assert_eq!([row.sign, row.size].map(sure), [marks.guess.is_some(); 2]);
        assert!(lesson.aims.iter().zip(&row.readings).all(|(aim, (name, value))| {
            let reading = Reading::named(aim.column).expect("a reading");
            name.starts_with(&reading.full_name()) && value.parse::<f64>().is_ok()
        }));
    }
    let faults: Vec<(usize, &str)> = rows[handed.len()..].iter().map(|row| (row.line, row.fault.as_str())).collect();
    let first = 2 * handed.len() + 1;
    assert_eq!(faults[0], (first, "there is no link in it"));
    assert_eq!(
        (faults[1].0, faults[1].1.is_empty(), faults[2].0, faults[2].1.is_empty()),
        (first + 1, false, first + 2, false)
    );
    let cells = rows.iter().flat_map(|row| [&row.name, &row.words, &row.fault]);
    assert!(cells.into_iter().all(|cell| !cell.contains(char::is_control)), "nor would one break a row");
}

/// The sheet of a class: a column a mark, who handed in twice and what is of another lesson are named, and all are counted.
#[test]
fn a_class_is_overlooked() {
    let exercises = exercises::all();
    let answered = |at: usize, by: &str, solved: bool| {
        let exercise = &exercises[at];
        let mut document = exercise.document.clone();
        document.answer = Answer { by: by.into(), checked: true, ..exercise.solution.1.clone() };
        document.answer.first = Some(document.answer.guess.clone());
        for (point, place) in exercise.solution.0.iter().filter(|_| solved) {
            *document.layout.point_mut(*point).expect("a point") = *place;
        }
        write(&document)
    };
    let ada = answered(0, "Ada", true);
    let mut minus = exercises[0].document.clone();
    minus.answer =
        Answer { by: "=1+1".into(), guess: "−9 mm".into(), first: Some("−9 mm".into()), ..Answer::default() };
    *minus.layout.point_mut(PointId::StrutTop).expect("a mount") = exercises[0].solution.0[0].1;
    let lines = [
        format!("x#{ada}"),
        format!("x#{}", answered(0, "Bo", false)),
        String::new(),
        format!("x#{ada}"),
        format!("x#{}", &ada[..ada.len() - 20]),
        format!("x#{}", answered(2, "Cy", true)),
        "hello teacher I forgot".into(),
        format!("x#{}", write(&minus)),
        format!("x#{}", answered(0, "ada ", false)),
    ];
    let rows: Vec<Row> = hand_ins::rows(&answer(&hand_ins::task(&lines.join("\n")), 3)).collect();
    let table = marks::table(&rows);
    let texts: Vec<Vec<&str>> = table.iter().map(|row| row.iter().map(|cell| cell.text()).collect()).collect();
    let column = |name: &str| texts[0].iter().position(|head| *head == name).expect(name);
    let cells = |name: &str| texts[1..].iter().map(|row| row[column(name)]).collect::<Vec<_>>();
    assert_eq!(cells("line"), ["1", "2", "4", "5", "6", "7", "8", "9"]);
    assert_eq!(cells("name"), ["Ada", "Bo", "Ada", "Ada", "Cy", "", "=1+1", "ada "]);
    assert_eq!(cells("target reached"), ["yes", "open", "yes", "", "yes", "", "yes", "open"]);
    assert_eq!(cells("prediction: sign right"), ["yes", "open", "yes", "", "", "", "no", "open"]);
    assert_eq!(cells("prediction: size right")[6], "no");
    assert_eq!(cells("Kingpin offset at wheel centre (mm)")[..2], ["69.4", "66"]);
    assert_eq!(
        cells("remark"),
        [
            "",
            "",
            "the same as line 1",
            "line 5 can’t be read: the link was cut off",
            "another lesson",
            "line 7 can’t be read: there is no link in it",
            "",
            "handed in before, line 1"
        ]
    );
    assert!(!texts[0].contains(&"number right"), "nobody was asked for one");
    let says = marks::overview(&rows);
    for part in [
        "Hand-ins: 3.",
        "Target reached: 2 of 3.",
        "sign right: 1 of 3.",
        "again: line 4, 9.",
        "other lesson: line 6.",
        "Not readable: line 5, 7.",
    ] {
        assert!(says.contains(part), "{part}: {says}");
    }
    // For a spreadsheet, with either decimal sign; what came from outside is no formula.
    let [point, comma] = [false, true].map(|comma| marks::csv(&rows, comma));
    assert!(
        point.contains(",69.4,") && comma.contains(";69,4;") && comma.contains(";'=1+1;") && point.contains(",'=1+1,")
    );
    assert!(point.contains("\"The axis turns about the ball joint, and"), "{point}");
    for text in [&point, &comma] {
        assert_eq!(text.lines().count(), rows.len() + 1);
    }
    let tabs: Vec<usize> = marks::tabbed(&rows, true).lines().map(|line| line.matches('\t').count()).collect();
    assert_eq!(tabs, vec![texts[0].len() - 1; rows.len() + 1]);
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
