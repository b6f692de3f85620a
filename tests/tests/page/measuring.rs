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
    assert_eq!(app.document.measuring.points, [], "they are needed no more");
    app.update(Step::Undo);
    assert_eq!(app.document, typed, "one step");
    app.update(Edit::Measure(Measure::Blank));
    assert_eq!(app.document.measuring.points, []);
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
        assert_eq!(app.document.measuring.points, []);
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
