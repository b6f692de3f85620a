//! A real car: the measuring sheet, and what is typed back from it.

use kernel::{LIMIT, PointId, Vec3};
use web::app::{App, Edit, Measure, Point, Step};
use web::content::demos::{DEMOS, layout};
use web::document::{Document, Lock, Measured};
use web::drawing::{Arrangement, Item, Sheet, Text, numbered};
use web::link;

fn demo(index: usize) -> App {
    App::new(Document::of(layout(index).expect("a demo")), Vec::new())
}

fn texts(items: &[Item]) -> Vec<Text> {
    let of = |item: &Item| match item {
        Item::Text(text) => vec![text.clone()],
        Item::Clip { items, .. } => texts(items),
        Item::Path { .. } => Vec::new(),
    };
    items.iter().flat_map(of).collect()
}

/// On the measuring sheet every point has its number in every view, and no number lies on another.
#[test]
fn every_point_is_numbered_in_every_view() {
    for (index, (name, _)) in DEMOS.iter().enumerate() {
        let app = demo(index);
        let picture = app.picture();
        let sheet = Sheet::fit([690.0, 692.0], Arrangement::Cross { drawer: [290.0, 268.0] }, &picture);
        let points = app.document.layout.points().count();
        let views = numbered(&picture, &sheet).items;
        assert_eq!(views.len(), 3);
        for view in &views {
            let texts = texts(std::slice::from_ref(view));
            let numbers: Vec<&Text> = texts.iter().filter(|text| text.text.parse::<usize>().is_ok()).collect();
            let said: Vec<usize> = numbers.iter().filter_map(|text| text.text.parse().ok()).collect();
            assert_eq!(said, (1..=points).collect::<Vec<_>>(), "{name}");
            for (at, number) in numbers.iter().enumerate() {
                let [left, top, right, bottom] = number.bounds();
                let over = numbers[..at].iter().find(|other| {
                    let [l, t, r, b] = other.bounds();
                    left < r && right > l && top < b && bottom > t
                });
                assert!(over.is_none(), "{name}: {} lies on {}", number.text, over.expect("one").text);
            }
        }
        for plane in ["x = 0", "y = 0", "z = 0"] {
            assert!(texts(&views).iter().any(|text| text.text.contains(plane)), "{name}: {plane}");
        }
    }
}

/// What is typed back changes nothing until it is taken; then it does in one step, and blank cells leave what they stand for as it is.
#[test]
fn a_sheet_filled_in_in_part_is_taken_in_one_step() {
    let mut app = demo(4);
    let before = app.document.clone();
    let (rod, ball) = (PointId::TrackRodOuter, PointId::UpperFrontOuter);
    let at = before.layout.point(rod).expect("it has one");
    for (point, column, value) in [(rod, 0, -131.5), (rod, 2, 299.25), (rod, 3, 2.5), (ball, 1, 671.0)] {
        app.update(Edit::Measure(Measure::Cell(point, column, Some(value))));
    }
    assert_eq!(app.document.layout, before.layout, "not taken yet");
    assert_eq!(link::write(&app.document), link::write(&before), "in no link");
    let typed = app.document.clone();
    app.update(Edit::Measure(Measure::Take));
    assert_eq!(app.document.layout.point(rod), Some(Vec3::new(-131.5, at.y, 299.25)));
    assert_eq!(app.document.layout.point(ball).map(|at| at.y), Some(671.0));
    assert_eq!((app.document.error(rod), app.document.error(ball)), (2.5, 0.0));
    assert_eq!(app.document.papers.measuring.points, [], "they are needed no more");
    app.update(Step::Undo);
    assert_eq!(app.document, typed, "one step");
    app.update(Edit::Measure(Measure::Blank));
    assert_eq!(app.document.papers.measuring.points, []);
}

/// What can't be is said, and is not taken; what is locked stays, and is named only if it was measured.
#[test]
fn what_cannot_be_measured_is_said() {
    let mut app = demo(4);
    let point = PointId::TrackRodOuter;
    for (column, value, words) in
        [(0, LIMIT + 1.0, "a coordinate of the track rod, outer joint"), (3, 51.0, "between 0 and 50")]
    {
        app.update(Edit::Measure(Measure::Cell(point, column, Some(value))));
        assert!(app.notices[0].contains(words), "{:?}", app.notices);
        assert_eq!(app.document.papers.measuring.points, []);
    }
    app.update(Point::Lock(point, [true, false, false]));
    app.notices.clear();
    app.update(Measure::Fill(vec![Measured::nothing(point).with(1, Some(691.0))]));
    app.update(Measure::Take);
    assert_eq!((app.notices.len(), app.document.layout.point(point).map(|at| at.y)), (0, Some(691.0)));
    app.update(Measure::Fill(vec![Measured::nothing(point).with(0, Some(5.0)).with(2, Some(300.0))]));
    app.update(Measure::Take);
    let at = app.document.layout.point(point).expect("it has one");
    assert_eq!([at.x, at.z], [-130.0, 300.0]);
    assert!(app.notices[0].contains("Locked points were not moved: track rod, outer joint"), "{:?}", app.notices);
    assert_eq!(app.document.locks, [Lock { point, axes: [true, false, false] }]);
}

/// Lines of tapes from each joint of a demo to four marks on the floor, and from a joint to its own mark; one of them `wrong` mm too long.
fn list(app: &App, wrong: f64) -> String {
    let marks = [("A", 500.0, 0.0), ("B", -600.0, 0.0), ("C", 450.0, 900.0), ("D", -550.0, 950.0)];
    let mut text: String = marks.iter().map(|(name, x, y)| format!("{name} at {x} {y} 0\n")).collect();
    for (at, (_, p)) in app.document.layout.points().enumerate().take(4) {
        let number = at + 1;
        for (name, x, y) in marks {
            let by = if (number, name) == (3, "B") { wrong } else { 0.0 };
            let length = (p - Vec3::new(x, y, 0.0)).norm() + by;
            text += &format!("{number} {name} {}, 2\n", format!("{length:.2}").replace('.', ","));
        }
        text += &format!("{number}f\t{number}\t{:.2}\n", p.z);
    }
    text
}

/// A list of tapes gives the points with their ±, in one step; the list stays, in the document and not in its link.
#[test]
fn tapes_give_points_in_one_step() {
    let mut app = demo(0);
    let truth = app.document.layout.clone();
    for (id, at) in truth.points().take(4) {
        app.update(Point::Place(id, at + Vec3::new(20.0, -15.0, 10.0)));
    }
    app.update(Measure::Tapes(list(&app_of(&truth), 0.0)));
    assert_eq!(app.told_tapes(), ["The readings agree within their ±; there are 8 more than needed."]);
    assert!(!link::write(&app.document).contains("at%20") && !link::write(&app.document).contains("tapes"));
    let before = app.document.clone();
    app.update(Measure::TakeTapes);
    for (id, at) in truth.points().take(4) {
        let is = app.document.layout.point(id).expect("it has it");
        assert!((is - at).norm() < 0.05, "{}: {is} for {at}", id.name());
        assert!((0.5..3.0).contains(&app.document.error(id)), "{}", app.document.error(id));
    }
    app.update(Step::Undo);
    assert_eq!(app.document, before, "one step");
    // A file carries the list and the rows of the sheet.
    app.update(Measure::Cell(PointId::StrutTop, 2, Some(851.0)));
    let file = kernel::Layout::from_json(&app.document.to_file()).expect("a file");
    let (again, says) = Document::of_file(file);
    assert_eq!((&again.papers, says.len()), (&app.document.papers, 0));
}

fn app_of(layout: &kernel::Layout) -> App {
    App::new(Document::of(layout.clone()), Vec::new())
}

/// The reading that is wrong is named by its line; what is left open is said; lines that are none are told.
#[test]
fn tapes_that_do_not_fit_are_named() {
    let mut app = demo(0);
    app.update(Measure::Tapes(list(&app, 20.0)));
    let says = app.told_tapes();
    let point = app.document.layout.points().nth(2).expect("a third").0.name();
    assert_eq!(says.len(), 1, "{says:?}");
    assert!(says[0].starts_with(&format!("Line 16, {point} to B, is ")) && says[0].contains("mm longer"), "{says:?}");
    for (text, words) in [
        ("1 A 300\nhello", "Line 2, “hello”, is no reading"),
        ("1 A 300", "Nothing ties these points to the car"),
        ("1 1 300", "is no reading"),
        ("99 1 300", "is no reading"),
        ("1 2 -5", "is no reading"),
        ("1 2 5 51", "is no reading"),
        ("1 2 5 1 1", "is no reading"),
        ("A at 1 2", "is no reading"),
        ("1f x 5", "is no reading"),
        ("1 x 10 1\n1 y 300 1", "Not determined: the height of "),
        ("1 x 10 1\n1 y 300 1\n1 z 200 1", "No reading is checked by another"),
        ("1 z 100 1\n1 z 300 1\n1 x 0\n1 y 0", "One of these does not fit"),
    ] {
        app.update(Measure::Tapes(text.into()));
        let says = app.told_tapes().join(" ");
        assert!(says.contains(words), "{text}: {says}");
    }
    app.update(Measure::Tapes(String::new()));
    assert_eq!(app.told_tapes(), Vec::<String>::new());
}
