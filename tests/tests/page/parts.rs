//! Wheel, rack, spring and kinds of guides as the page changes them: each a step to undo, and what is said of slips.

use kernel::{Change, Guide, LeftOrRight, Level, Mount, PointId, Rack, Sides, Spring, SpringOn, TyreSize, Wheel};
use tests::{demo, near};
use web::app::{App, Build, Part, Point, Show, Step};
use web::document::Document;
use web::document::lesson::Lesson;

fn app(name: &str) -> App {
    App::new(Document::of(demo(name)), Vec::new())
}

fn size(text: &str) -> TyreSize {
    TyreSize::parse(text).expect("a size")
}

fn reading(app: &App, column: &str) -> f64 {
    app.study.good.value(kernel::Reading::named(column).expect("a reading")).expect("a value")
}

#[test]
fn a_tyre_is_taken_into_the_design_or_fitted_to_the_car() {
    let mut app = app("four-arm");
    let before = app.document.clone();
    app.update(Part::Tyre(size("225/45 R17")));
    let wheel = app.document.layout.wheel.clone();
    assert_eq!([wheel.width, wheel.free_radius, wheel.loaded_radius], [225.0, 317.15, 304.46]);
    app.update(Step::Undo);
    assert_eq!(app.document, before);

    app.update(Build::Tyre(size("225/45 R17")));
    assert_eq!(app.document.layout.wheel, before.layout.wheel, "the design stays");
    let built = app.study.good.layout().wheel.clone();
    near(built.free_radius, 317.15, 1e-9, "free radius");
    near(built.loaded_radius, 304.464, 1e-9, "loaded radius");
    assert_eq!(built.width, 225.0);
    // Another on the left wheel alone: what both have counts once.
    app.document.layout.changes.set(Sides::One(LeftOrRight::Left), Change::Width, 1.0);
    app.update(Build::Tyre(size("205/55 R16")));
    near(app.study.good.layout().wheel.free_radius, 315.95, 1e-9, "of the left one");
    assert_eq!(app.document.layout.changes.get(Sides::Both, Change::Width), 20.0);
}

/// A spacer of 20 mm moves the wheel out, so the wheel plane meets the axis 20 mm further out: both arms grow outward by nearly as much.
#[test]
fn the_levers_are_told_before_and_after() {
    let mut app = app("double-wishbone");
    for (quantity, [before, after]) in app.levers() {
        assert_eq!(before, after, "{}", quantity.name);
    }
    app.update(Build::Change(Sides::Both, Change::Spacer, 20.0));
    let levers: Vec<_> = app.levers().to_vec();
    assert_eq!(levers.len(), 4);
    for (quantity, [before, after]) in levers {
        let [before, after] = [before, after].map(|told| told.value().expect("a value"));
        near((after - before).abs(), 20.0, 0.6, quantity.name);
        near(after, reading(&app, quantity.column), 1e-9, "what the car has now");
    }
    let lesson = Lesson { begin: 1, hidden: vec!["scrub_radius_mm"], ..Lesson::default() };
    let document = Document { lesson: Some(lesson), ..app.document.clone() };
    let hidden = App::new(document, Vec::new());
    assert_eq!(hidden.levers()[0].1.map(|told| told.value()), [None, None], "what a lesson hides stays hidden");
}

#[test]
fn wheel_rack_and_spring_have_no_number_that_only_a_file_has() {
    let mut app = app("strut");
    let wheel = Wheel { camber: -1.5, toe: 0.3, ..app.document.layout.wheel.clone() };
    app.update(Part::Wheel(wheel.clone()));
    assert_eq!(app.document.layout.wheel, wheel);
    near(reading(&app, "camber_deg"), -1.5, 1e-9, "camber");
    let rack = Rack { travel: 60.0, per_turn: 44.0, mount: Mount::Body };
    app.document.rack = 70.0;
    app.update(Part::Rack(Some(rack.clone())));
    assert_eq!((app.document.layout.rack.clone(), app.document.rack), (Some(rack), 60.0), "no further than it goes");
    app.update(Part::Rack(None));
    assert_eq!((app.document.layout.rack.is_none(), app.document.rack), (true, 0.0));
    assert_eq!(app.study.trouble, None);

    let spring = app.document.layout.spring.clone();
    let own = spring.on_own_line(&app.document.layout);
    assert_eq!(own.top, app.document.layout.point(PointId::StrutTop));
    assert_eq!(own.along_strut(), spring);
    let carried = spring.riding_on(SpringOn::Lower, &app.document.layout);
    app.update(Part::Spring(Box::new(Spring { rate: 31.0, ..carried })));
    assert_eq!((app.document.layout.spring.on, app.document.layout.spring.rate), (SpringOn::Lower, 31.0));
    app.notices.clear();
    let before = app.document.clone();
    app.update(Part::Spring(Box::new(Spring { on: SpringOn::UpperRear, ..before.layout.spring.clone() })));
    assert_eq!(app.document, before, "there is no such arm");
    assert_eq!(app.notices.len(), 1);
}

#[test]
fn a_guide_becomes_the_other_kind_in_one_step_with_what_was_said_of_its_joints() {
    let mut app = app("double-wishbone");
    let ball = PointId::LowerOuter;
    app.update(Point::Lock(ball, [false, true, false]));
    app.update(Point::Error(ball, 2.0));
    app.update(Build::Change(Sides::Both, Change::Joint(ball, 1), 1.5));
    app.update(Build::Freeze("wider".into()));
    let (before, toe) = (app.document.clone(), reading(&app, "toe_deg"));
    app.update(Part::OtherKind(Level::Lower));
    let after = app.document.clone();
    assert!(matches!(after.layout.lower, Guide::Arms { .. }));
    near(reading(&app, "toe_deg"), toe, 1e-6, "toe");
    for id in Level::Lower.outer_joints() {
        assert_eq!((after.locked(id), after.error(id)), ([false, true, false], 2.0));
        assert_eq!(after.variants[0].changes.get(Sides::Both, Change::Joint(id, 1)), 1.5);
    }
    assert_eq!((after.locked(ball), after.error(ball)), ([false; 3], 0.0));
    app.update(Part::OtherKind(Level::Lower));
    assert_eq!(app.document, before);
    app.update(Step::Undo);
    assert_eq!(app.document, after);
}

#[test]
fn an_exercise_keeps_wheel_rack_and_kinds() {
    let document = Document { lesson: Some(Lesson { begin: 1, ..Lesson::default() }), ..Document::of(demo("strut")) };
    let mut app = App::new(document.clone(), Vec::new());
    for part in [Part::OtherKind(Level::Lower), Part::Rack(None), Part::Tyre(size("185/65 R14"))] {
        app.update(part);
        assert_eq!(app.document, document);
    }
    assert!(!app.notices.is_empty());
}

#[test]
fn slips_are_said_quietly() {
    let mut app = app("double-wishbone");
    assert!(app.remarks().is_empty());
    let mut at = app.document.layout.point(PointId::LowerOuter).expect("a joint");
    at.z = -at.z;
    app.update(Point::Place(PointId::LowerOuter, at));
    let said = app.remarks().join("\n");
    assert!(said.contains("lower ball joint lies 175.0 mm below the road. Probably z = 175.0 is meant."), "{said}");
    assert!(app.notices.is_empty(), "nothing covers anything");
    app.update(Part::Wheel(Wheel { loaded_radius: 250.0, ..app.document.layout.wheel.clone() }));
    let said = app.remarks().join("\n");
    assert!(said.contains("the wheel centre’s height 305.0 and the loaded radius 250.0 do not agree"), "{said}");
    let lesson = Some(Lesson { begin: 1, ..Lesson::default() });
    let exercise = App::new(Document { lesson, ..app.document.clone() }, Vec::new());
    assert!(exercise.remarks().is_empty(), "an exercise may be made of a slip");
    app.update(Show::Whole(true));
    assert!(!app.remarks().is_empty());
}
