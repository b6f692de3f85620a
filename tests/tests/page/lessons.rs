//! The exercises prove themselves: the start is not right, the solution is, every key is what the solver reads where the task says,
//! and a link carries it all. Marks, and what is kept of an answer. Long because every key is proven singly.

use kernel::{
    Axle, Bushes, Change, Demand, Layout, Linkage, Load, Member, PointId, Position, Reading, Sides, Snapshot, State,
    SteeringMoment, UnderLoad, Vec3, force_wrenches,
};
use web::app::{About, App, Course, Hand, Open, Point, Reply, Show, Stand, Step};
use web::content::demos;
use web::content::exercises::{Exercise, all};
use web::document::Document;
use web::document::lesson::{Answer, Lesson, Prediction, mark};
use web::drawing::{Arrangement, Item, Sheet, View, draw};
use web::exchange::drafts::{self, Draft};
use web::exchange::marks;
use web::link::{read, write};
use web::study::marking::{Mark, Marking};
use web::text::number::Units;
use web::work::hand_ins::{self, Came};

const HUB: &str = "kingpin_offset_wheel_centre_mm";

fn marking(app: &App) -> Marking {
    app.document.lesson.as_ref().expect("a lesson").marking(&app.document)
}

fn lines(app: &App) -> String {
    marking(app).lines().join("\n")
}

fn begun(exercise: &Exercise) -> App {
    App::new(exercise.document.clone(), Vec::new())
}

fn type_number(app: &mut App, guess: &str) {
    app.update(Reply::Answer(Answer { guess: guess.into(), ..app.document.answer.clone() }));
}

/// The answer given, the joints put where they belong, and checked.
fn solve(exercise: &Exercise) -> App {
    let mut app = begun(exercise);
    let (moves, answer) = &exercise.solution;
    app.update(Reply::Answer(answer.clone()));
    app.update(Reply::Check);
    for (id, at) in moves {
        app.update(Point::Place(*id, *at));
        let there = app.document.layout.point(*id).map(|p| (p - at).norm() < 0.01);
        assert_eq!(there, Some(true), "{}: it may be moved", exercise.name);
    }
    app
}

/// A state of a layout, by the kernel alone: nothing of the page's.
fn state(layout: &Layout, travel: f64) -> State {
    let linkage = Linkage::new(layout).expect("a linkage");
    let rest = Position { pose: linkage.rest(), rack: 0.0 };
    State::solve(&linkage, Demand::new(travel, 0.0), &rest).expect("a state")
}

fn reads(layout: &Layout, travel: f64, column: &str) -> f64 {
    let reading = Reading::named(column).expect("a reading");
    (reading.value)(&Snapshot::of(&state(layout, travel))).expect("a value")
}

fn moved(demo: usize, point: PointId, by: Vec3) -> Layout {
    let mut layout = demos::layout(demo).expect("a demo");
    *layout.point_mut(point).expect("a point") += by;
    layout
}

fn near(value: f64, key: f64, by: f64) {
    assert!((value - key).abs() <= by, "{value}, not {key} ± {by}");
}

#[test]
fn there_are_fourteen_and_each_begins_unanswered() {
    let exercises = all();
    assert_eq!(exercises.len(), 14);
    for exercise in &exercises {
        let app = begun(exercise);
        assert_eq!(app.study.trouble, None, "{}", exercise.name);
        let marking = marking(&app);
        assert!(!marking.answered && marking.all().all(|mark| matches!(mark, Mark::Open(_))), "{}", exercise.name);
        let lesson = exercise.document.lesson.as_ref().expect("a lesson");
        assert!(lesson.hint.len() > 20 && lesson.task.len() > 40, "{}", exercise.name);
        // Touched, but not solved: moving along and back would not do.
        let reached = lesson.aims.iter().filter(|aim| aim.reached(&app.document)).count();
        assert!(lesson.aims.is_empty() || reached < lesson.aims.len(), "{}: the start is right", exercise.name);
    }
}

#[test]
fn every_solution_passes() {
    for exercise in all() {
        let app = solve(&exercise);
        assert!(marking(&app).passed(), "{}: {}", exercise.name, lines(&app));
    }
}

/// A reading to be reached: the exercise, the words of its task, and what they say: column, value, tolerance, travel.
type Target = (usize, &'static str, (&'static str, f64, f64), f64);

const TARGETS: [Target; 8] = [
    (2, "a scrub radius of 0 ± 1 mm", ("scrub_radius_mm", 0.0, 1.0), 0.0),
    (2, "a kingpin inclination of 10 ± 0.2°", ("kingpin_inclination_deg", 10.0, 0.2), 0.0),
    (3, "make the caster 7 ± 0.1°", ("caster_deg", 7.0, 0.1), 0.0),
    (3, "caster offset at the wheel centre 0 ± 1 mm", ("caster_offset_wheel_centre_mm", 0.0, 1.0), 0.0),
    (8, "scrub radius −4 ± 1 mm", ("scrub_radius_mm", -4.0, 1.0), 0.0),
    (9, "bump steer at rest to 0 ± 0.01° per 10 mm", ("bump_steer_deg_per_mm", 0.0, 0.001), 0.0),
    (6, "at travel +40 mm: 0.32°", ("toe_deg", 0.32, 0.02), 40.0),
    (6, "at travel −40 mm: −0.12°", ("toe_deg", -0.12, 0.02), -40.0),
];

/// Every target is the task's own, and the solution's layout, solved by the kernel, has it there.
#[test]
fn targets_are_what_the_task_says_and_the_solver_reads() {
    let exercises = all();
    let mut told = 0;
    for (at, words, (column, value, tolerance), travel) in TARGETS {
        let exercise = &exercises[at];
        let lesson = exercise.document.lesson.as_ref().expect("a lesson");
        assert!(lesson.task.contains(words), "{}: {words}", exercise.name);
        let aim = lesson.aims.iter().find(|aim| aim.column == column && aim.place.travel == travel).expect("an aim");
        assert_eq!((aim.value, aim.tolerance, aim.place.travel), (value, tolerance, travel), "{}", exercise.name);
        assert_eq!((aim.place.rack, aim.place.roll), (0.0, 0.0));
        let mut layout = exercise.document.layout.clone();
        for (id, put) in &exercise.solution.0 {
            *layout.point_mut(*id).expect("a point") = *put;
        }
        near(reads(&layout, travel, column), value, tolerance);
        told += 1;
    }
    // The faulty arm: what the other axle has. The prediction: what the asked move gives.
    let sound = demos::layout(4).expect("a demo");
    let faulty = exercises[5].document.lesson.as_ref().expect("a lesson");
    for aim in &faulty.aims {
        near(reads(&sound, 0.0, aim.column), aim.value, 0.005);
        told += 1;
    }
    let asked = moved(0, PointId::StrutTop, Vec3::new(0.0, -20.0, 0.0));
    let aim = exercises[0].document.lesson.as_ref().expect("a lesson").aims[0];
    near(reads(&asked, 0.0, HUB), aim.value, 0.05);
    let aims: usize = exercises.iter().filter_map(|e| Some(e.document.lesson.as_ref()?.aims.len())).sum();
    assert_eq!(told + 1, aims, "every target of every exercise");
}

fn key(exercise: &Exercise) -> (f64, f64) {
    let lesson = exercise.document.lesson.as_ref().expect("a lesson");
    let number = lesson.number.expect("a number");
    (number.value, number.tolerance)
}

/// Every number asked for, found by solving what the task describes.
#[test]
fn keys_are_what_the_solver_reads() {
    let exercises = all();
    // 1: the change by the move.
    let asked = moved(0, PointId::StrutTop, Vec3::new(0.0, -20.0, 0.0));
    let strut = demos::layout(0).expect("a demo");
    let change = reads(&asked, 0.0, HUB) - reads(&strut, 0.0, HUB);
    assert_eq!(exercises[0].solution.1.guess, "3.4 mm");
    near(change, 3.4, 0.05);
    // Its hint: a sixth of the way.
    let [top, ball] = [PointId::StrutTop, PointId::LowerOuter].map(|id| strut.point(id).expect("a point"));
    near((strut.wheel.centre.z - ball.z) / (top.z - ball.z), 1.0 / 6.0, 0.02);
    // 2: the camber there is −1.00°, and nowhere else further off than the tolerance.
    let arms = demos::layout(4).expect("a demo");
    let (travel, within) = key(&exercises[1]);
    near(reads(&arms, travel, "camber_deg"), -1.0, 0.005);
    assert_eq!(within, 2.0, "an answer within 2 mm counts");
    for other in -60..=60 {
        let camber = reads(&arms, f64::from(other), "camber_deg");
        assert!((camber + 1.0).abs() > 0.02 || (f64::from(other) - travel).abs() <= within, "{camber} at {other}");
    }
    // 5: a rearward kilonewton at the wheel centre, by virtual work; offsets alone would not do.
    let load = Load { centre: Vec3::new(-1000.0, 0.0, 0.0), ..Load::default() };
    let moment = |layout: &Layout| SteeringMoment::of(&load, &state(layout, 0.0)).expect("an axis").total() / 1000.0;
    let (larger, within) = key(&exercises[4]);
    near(moment(&strut).abs() - moment(&arms).abs(), larger, 0.05);
    assert_eq!(within, 1.0, "an answer within 1 N·m counts");
    assert!((reads(&strut, 0.0, HUB) - reads(&arms, 0.0, HUB) - larger).abs() > within);
    // 8: between 2 mm up and 2 mm down.
    let steer = |z: f64| reads(&moved(0, PointId::TrackRodOuter, Vec3::new(0.0, 0.0, z)), 0.0, "bump_steer_deg_per_mm");
    let (difference, _) = key(&exercises[7]);
    near((steer(2.0) - steer(-2.0)).abs(), difference, 0.0005);
    // 7: the sheet is that of an axle whose joint is 5 mm low; a mm more or less is another sheet.
    let sheet =
        |low: f64, travel: f64| reads(&moved(0, PointId::TrackRodOuter, Vec3::new(0.0, 0.0, -low)), travel, "toe_deg");
    let (low, within) = key(&exercises[6]);
    assert!(exercises[6].document.lesson.as_ref().is_some_and(|lesson| lesson.task.contains("at travel 0: 0.10°")));
    for (travel, toe) in [(40.0, 0.32), (0.0, 0.10), (-40.0, -0.12)] {
        near(sheet(low, travel), toe, 0.005);
    }
    assert!([low - 2.0 * within, low + 2.0 * within].iter().all(|other| (sheet(*other, 40.0) - 0.32).abs() > 0.02));
    // 12: what its model answer says.
    assert!(exercises[11].solution.1.words.starts_with("66 against 10 mm"));
    near(reads(&strut, 0.0, HUB), 66.0, 0.5);
    near(reads(&arms, 0.0, HUB), 10.0, 0.5);
}

/// A layout with another track rod, mm, as the kernel builds it: the toe of the left wheel where the car stands.
fn toe_with(rod: f64) -> f64 {
    let mut layout = demos::layout(0).expect("a demo");
    layout.changes.set(Sides::Both, Change::Length(Member::TrackRod), rod);
    let axle = Axle::new(&layout).expect("an axle");
    // To the left is outward on the left wheel.
    -axle.stands().attitude.steer
}

/// The keys that take more than one wheel at rest: a rod turned, a braked wheel, bushes.
#[test]
fn keys_of_the_workshop_of_braking_and_of_bushes() {
    let exercises = all();
    // 13: from −0.20° to 0.10° by the built axle: the rod as it is, and by the key's turns longer.
    let (turns, within) = key(&exercises[12]);
    let built = &exercises[12].document.layout;
    let rod = built.changes.get(Sides::Both, Change::Length(Member::TrackRod));
    near(toe_with(rod), -0.20, 0.005);
    near(toe_with(rod + 1.5 * turns), 0.10, 0.005);
    assert!((toe_with(rod + 1.5 * (turns - 2.0 * within)) - 0.10).abs() > 0.05);
    assert_eq!((built.points().eq(demos::layout(0).expect("a demo").points()), within), (true, 0.05));
    // 14: the moment of 3000 N rearward at the road, by virtual work; positive turns the wheel to the left, which is outward on the left.
    let braked = |layout: &Layout| {
        let load = Load { road: Vec3::new(-3000.0, 0.0, 0.0), ..Load::default() };
        SteeringMoment::of(&load, &state(layout, 0.0)).expect("an axis").total() / 1000.0
    };
    let (moment, within) = key(&exercises[13]);
    let [strut, wishbones] = [0, 1].map(|at| braked(&demos::layout(at).expect("a demo")));
    near(-strut, moment, 0.05);
    assert!(strut < 0.0 && wishbones > 0.0 && within == 1.0, "inward here, outward there: {strut}, {wishbones}");
    // 11: 2 kN on each contact patch, both axles solved under that load. Both wheels turn to the same side: the mean is the axle's steer.
    let steer = |layout: &Layout| {
        let axle = Axle::new(layout).expect("an axle");
        let states = axle.both_stand().each_ref();
        let bushes = Bushes::of(&axle).expect("bushes");
        let wrenches = force_wrenches(Vec3::new(0.0, 2000.0, 0.0), states);
        let under = UnderLoad::wrenches(&bushes, &axle, states, &wrenches).expect("it gives way");
        (under[0].toe - under[1].toe) / 2.0
    };
    let (more, within) = key(&exercises[10]);
    let document = &exercises[10].document;
    let other = document.compared.as_ref().expect("the other axle");
    near(steer(&document.layout).abs() - steer(other).abs(), more, 0.02);
    assert!(within == 0.03 && document.layout.note.is_empty() && other.note.is_empty(), "the notes would tell");
}

/// What the hints say is so: none but the right arm will do.
#[test]
fn hints_are_true() {
    let exercises = all();
    let faulty = &exercises[5];
    let lesson = faulty.document.lesson.as_ref().expect("a lesson");
    for free in lesson.free.iter().filter(|free| free.point != PointId::UpperRearInner) {
        for step in 0..=80 {
            let mut document = faulty.document.clone();
            let y = free.range[0] + 0.25 * f64::from(step);
            document.layout.point_mut(free.point).expect("a point").y = y;
            assert!(!lesson.aims.iter().all(|aim| aim.reached(&document)), "{} at {y}", free.point.name());
        }
    }
}

/// A wrong number, or an axle moved elsewhere, is said to be wrong; with several aims, one reached is not enough.
#[test]
fn wrong_answers_are_said_to_be_wrong() {
    for exercise in all() {
        let lesson = exercise.document.lesson.clone().expect("a lesson");
        let mut app = solve(&exercise);
        for free in &lesson.free {
            let mut at = app.document.layout.point(free.point).expect("a point");
            at[free.axis] = free.range[1];
            app.update(Point::Place(free.point, at));
        }
        if lesson.number.is_some() {
            type_number(&mut app, "99");
        }
        let marking = marking(&app);
        let wrong = |mark: &Option<Mark>| matches!(mark, Some(Mark::Wrong(_)));
        assert_eq!(wrong(&marking.targets), !lesson.aims.is_empty(), "{}: {}", exercise.name, lines(&app));
        assert_eq!(wrong(&marking.number), lesson.number.is_some(), "{}: {}", exercise.name, lines(&app));
    }
}

/// Where the axle happens to be shown makes nothing right or wrong; the verdict says where it was judged.
#[test]
fn targets_are_judged_where_they_belong() {
    let exercises = all();
    let mut app = begun(&exercises[6]);
    let at = app.document.layout.point(PointId::TrackRodOuter).expect("a point");
    app.update(Point::Place(PointId::TrackRodOuter, at + Vec3::z() * 3.0));
    let said = lines(&app);
    assert!(
        said.contains("\nToe is ") && said.contains(" at travel +40.0, rack 0.0; wanted: 0.32° ± 0.02°."),
        "{said}"
    );
    let mut app = solve(&exercises[2]);
    assert_eq!(lines(&app), "Targets reached.");
    app.update(Stand::Travel(60.0));
    app.update(Stand::Rack(20.0));
    assert_eq!(lines(&app), "Targets reached at travel 0.0, rack 0.0.");
    app.update(Show::Whole(true));
    app.update(Stand::Roll(2.0));
    assert_eq!(lines(&app), "Targets reached at travel 0.0, rack 0.0.");
}

/// A student moves what is free, within its range, and nothing else; everybody else's page has no such bounds.
#[test]
fn a_lesson_bounds_what_can_be_moved() {
    let exercise = &all()[2];
    let mut app = begun(exercise);
    let before = app.document.layout.clone();
    app.update(Point::Place(PointId::TrackRodOuter, Vec3::zeros()));
    assert_eq!(app.document.layout, before);
    assert!(app.notices[0].contains("is fixed in this exercise"), "{:?}", app.notices);
    let at = before.point(PointId::LowerOuter).expect("a ball joint");
    app.update(Point::Place(PointId::LowerOuter, at + Vec3::y() * 500.0));
    assert_eq!(app.document.layout, before);
    assert!(app.notices[0].contains("it must be between 701.2 and 761.2 mm here"), "typed: {:?}", app.notices);
    app.update(Hand::Drag(PointId::LowerOuter, at + Vec3::new(0.0, 25.0, 0.0)));
    app.update(Hand::Nudge(Vec3::new(9.0, 20.0, 9.0)));
    assert_eq!(app.document.layout.point(PointId::LowerOuter), Some(at + Vec3::y() * 30.0), "by hand, to its end");
    let lesson = app.document.lesson.as_ref().expect("a lesson");
    assert_eq!(lesson.movable(), "lower ball joint (y); upper ball joint (y)");
}

/// A prediction has a mark of its own, by sign and size, against the change that was asked for, whatever has been done since.
#[test]
fn a_prediction_is_marked_by_itself() {
    let exercise = &all()[0];
    let top = exercise.document.layout.point(PointId::StrutTop).expect("a mount");
    for (guess, said, right) in [
        (
            "3.3",
            "right sign, right size. Kingpin offset at wheel centre changes by 3.4 mm; you predicted 3.3 mm.",
            true,
        ),
        ("0.134 in", "right sign, right size", true),
        ("9", "right sign, wrong size", false),
        ("−3.4", "wrong sign, right size", false),
        ("−9", "wrong sign, wrong size", false),
        ("0", "wrong sign, wrong size", false),
    ] {
        let mut app = begun(exercise);
        type_number(&mut app, guess);
        app.update(Reply::Check);
        assert!(matches!(marking(&app).prediction, Some(Mark::Open(_))), "nothing has moved: {}", lines(&app));
        for by in [12.0, -20.0] {
            // Outward by mistake, then as asked.
            app.update(Point::Place(PointId::StrutTop, top + Vec3::y() * by));
            let prediction = marking(&app).prediction.expect("a mark");
            assert!(prediction.sentence().contains(said), "{guess}: {}", prediction.sentence());
            assert_eq!(matches!(prediction, Mark::Right(_)), right, "{guess}");
        }
        assert!(lines(&app).starts_with("Target reached.\nPrediction: "), "{}", lines(&app));
        let again = App::new(read(&write(&app.document)).expect("a link").0, Vec::new());
        assert_eq!(lines(&again), lines(&app));
    }
}

/// With nothing but a prediction to answer, a wrong one is wrong; a travel can be the move.
#[test]
fn a_lesson_with_a_prediction_only_is_not_right_by_any_guess() {
    let mut app = App::new(Document::of(demos::first()), Vec::new());
    let predict = Prediction::of("camber_deg", &app.document);
    app.update(About::Teach(Some(Box::new(Lesson { predict, task: "Lift it".into(), ..Lesson::default() }))));
    app.update(Stand::Travel(10.0));
    let prediction = app.document.lesson.as_ref().and_then(|lesson| lesson.predict).expect("a prediction");
    assert!((prediction.before - app.study.good.now.attitude.camber).abs() < 1e-6, "counted from where the axle is");
    assert_eq!(prediction.place.travel, 10.0);
    let mut app = App::new(read(&write(&app.document)).expect("a link").0, Vec::new());
    type_number(&mut app, "99");
    app.update(Reply::Check);
    assert!(!marking(&app).passed() && lines(&app).contains("once you have made the move"), "{}", lines(&app));
    app.update(Stand::Travel(40.0));
    assert!(lines(&app).starts_with("Prediction: wrong sign, wrong size. Camber changes by −0."), "{}", lines(&app));
    assert!(!marking(&app).passed());
}

/// What is hidden is shown once there is an answer, and what was answered then stays, whatever is undone.
#[test]
fn the_first_answer_is_kept() {
    let mut app = begun(&all()[0]);
    for refused in ["", "about three", "3 °"] {
        type_number(&mut app, refused);
        app.update(Reply::Check);
        assert!(app.hides(HUB), "“{refused}” is no answer");
        assert!(!marking(&app).answered, "{}", lines(&app));
    }
    assert!(lines(&app).contains("“3 °” can’t be read as the number asked for"), "{}", lines(&app));
    type_number(&mut app, "9 mm");
    assert!(app.hides(HUB), "not checked yet");
    app.update(Reply::Check);
    assert!(!app.hides(HUB));
    type_number(&mut app, "3.4 mm");
    app.update(Reply::Check);
    app.update(Reply::Answer(Answer { hinted: true, ..app.document.answer.clone() }));
    app.update(Hand::Nudge(Vec3::zeros()));
    app.update(Stand::Travel(5.0));
    app.update(Step::Undo);
    app.update(Open::Start);
    let answer = app.document.answer.clone();
    assert_eq!((answer.first.as_deref(), answer.guess.as_str(), answer.hinted), (Some("9 mm"), "3.4 mm", true));
    assert!(app.edited(), "an answer alone is kept in the browser");
    assert_eq!(read(&write(&app.document)).expect("a link").0.answer, answer, "and handed in");
    app.update(Open::Document(Box::new(all()[1].document.clone()), Vec::new()));
    assert_eq!(app.document.answer, Answer::default(), "another lesson, another answer: no hint is shown there");
}

/// A number is read in the unit in which it was typed, whatever is shown when it is marked.
#[test]
fn units_of_answers() {
    let inches = Units { inches: true, ..Units::default() };
    for (guess, right) in [("28", true), ("27,5 mm", true), ("2.8 cm", true), ("1.1 in", true), ("20.5", false)] {
        let mut app = begun(&all()[1]);
        let kind = app.document.lesson.as_ref().and_then(Lesson::asks).expect("a number");
        let typed = kind.with_unit(guess, app.document.units);
        type_number(&mut app, &typed);
        for units in [Units::default(), inches] {
            app.update(Show::Units(units));
            assert_eq!(marking(&app).passed(), right, "{guess}: {}", lines(&app));
        }
    }
    let mut app = begun(&all()[1]);
    assert_eq!(app.document.lesson.as_ref().map(|l| l.label(app.document.units)), Some("Your answer (mm)".into()));
    type_number(&mut app, "28 °");
    assert!(lines(&app).contains("nothing is marked"), "{}", lines(&app));
    let labels = |at: usize| all()[at].document.lesson.as_ref().map(|lesson| lesson.label(inches));
    assert_eq!(labels(0), Some("Your prediction: change of kingpin offset at wheel centre (in)".into()));
    assert_eq!(labels(7), Some("Your answer (°/10 mm)".into()));
}

/// The lesson, and the hand-in with name, number and words, travel in a link; the mark of the start stays.
#[test]
fn lessons_and_hand_ins_are_links() {
    for exercise in all() {
        for mut app in [begun(&exercise), solve(&exercise)] {
            let mut answer = app.document.answer.clone();
            answer.by = "Ada & <b>Bo</b>".into();
            app.update(Reply::Answer(answer));
            let link = write(&app.document);
            let (back, faults) = read(&link).expect("a link");
            assert_eq!(faults, Vec::<String>::new(), "{}", exercise.name);
            assert_eq!(back, app.document, "{}", exercise.name);
            assert!(link.bytes().all(|b| b.is_ascii_alphanumeric() || b"-_.~=&%".contains(&b)), "{link}");
        }
    }
    assert_ne!(mark(&all()[0].document.layout), mark(&all()[2].document.layout));
}

/// Before aims had a place they were judged, and numbers read, as the link shows the axle; what was checked had been shown.
#[test]
fn older_lessons_open_as_before() {
    let links = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/links/v2.txt")).expect("the links");
    let old = |words: &str| links.lines().find(|line| line.contains(words)).and_then(|line| line.split(' ').next());
    let link = old("aims=toe~0.105_0.02&").expect("an old link");
    let (document, faults) = read(link).expect("a link");
    assert_eq!(faults, Vec::<String>::new());
    assert_eq!(document.lesson.expect("a lesson").aims[0].place.travel, -60.0);
    let link = old("predict=kingpin_offset_wheel_centre~66.041&").expect("an old link");
    let (document, faults) = read(&link.replace("&begin=", "&guess=3.4&shown=1&begin=")).expect("a link");
    assert_eq!(faults, Vec::<String>::new());
    assert_eq!((document.answer.guess.as_str(), document.answer.first.as_deref()), ("3.4 mm", Some("3.4 mm")));
    assert!(document.answer.checked && document.answer.words.is_empty());
    for wrong in ["caster~7_0.1_0", "caster~7_-0.1", "caster~7_1_0_0_nan", "caster~7_1_0_0_1e9"] {
        let (document, faults) = read(&link.replace("aims=", &format!("aims={wrong}~"))).expect("a link");
        assert!(faults.len() == 1 && faults[0].contains("where it is judged"), "{wrong}: {faults:?}");
        assert_eq!(document.lesson.map(|lesson| lesson.aims.len()), Some(1), "the rest opens");
    }
}

/// A teacher gets back into any lesson, own or shipped; tries it; nobody loses one by a click on a demo.
#[test]
fn a_lesson_is_copied_tried_left_and_come_back_to() {
    let exercise = &all()[2];
    let mut app = solve(exercise);
    app.update(Course::Copy);
    let lesson = app.document.lesson.clone().expect("a lesson");
    assert!(!lesson.sealed() && app.notices.is_empty());
    assert_eq!(app.document.layout, exercise.document.layout, "on the axle that students begin with");
    assert_eq!(app.document.answer, Answer::default());
    app.update(About::Teach(Some(Box::new(Lesson { task: "Other words\nin two lines".into(), ..lesson }))));
    let prepared = app.document.clone();
    app.update(Course::Try);
    assert!(app.document.sealed() && app.tries());
    let (id, at) = exercise.solution.0[0];
    app.update(Point::Place(id, at));
    type_number(&mut app, "5");
    assert!(app.answered());
    app.update(Course::Back);
    assert!(app.document == prepared && !app.tries() && app.notices.is_empty());
    let (student, faults) = read(&write(&prepared)).expect("a link");
    assert_eq!((student.lesson.expect("a lesson").task.as_str(), faults.len()), ("Other words\nin two lines", 0));
    // A click on a demo.
    app.update(Open::Demo(0));
    assert!(app.document.lesson.is_none() && app.has_left());
    assert!(app.notices[0].contains("the lesson you were preparing (“Other words”)"), "{:?}", app.notices);
    app.update(Course::Return);
    assert!(app.document == prepared && !app.has_left());
    // While answering; what was compared was the exercise's.
    let mut app = begun(&all()[4]);
    type_number(&mut app, "5 N·m");
    let answered = app.document.clone();
    app.update(Open::Demo(2));
    assert!(app.notices[0].contains("left the exercise") && app.document.compared.is_none());
    app.update(Course::Return);
    assert_eq!(app.document, answered);
    app.update(Course::Leave);
    assert!(app.document.lesson.is_none() && app.document.answer == Answer::default() && app.has_left());
    // Who has done nothing loses nothing, and is told nothing.
    let mut app = begun(&all()[4]);
    app.update(Open::Document(Box::new(all()[5].document.clone()), Vec::new()));
    assert!(app.notices.is_empty() && !app.has_left());
}

/// An answer of earlier to the same lesson is found among what is kept, and gone on with; the axle goes back to the lesson's own start.
#[test]
fn an_answer_of_earlier_is_gone_on_with() {
    let exercise = &all()[2];
    let done = solve(exercise).document;
    let kept = drafts::with(&drafts::with("", &Draft::of(1.0, &done)), &Draft::of(2.0, &all()[3].document));
    assert_eq!(drafts::earlier(&kept, &all()[3].document), None, "opened is not answered");
    let mut app = begun(exercise);
    let (found, _) = drafts::earlier(&kept, &app.document).and_then(|draft| draft.open()).expect("a draft");
    app.update(Course::Resume(Box::new(found)));
    assert_eq!(lines(&app), "Targets reached.");
    app.update(Open::Start);
    assert_eq!(app.document.layout, exercise.document.layout);
}

/// Coordinates are freed one by one; what an exercise keeps says what may be moved instead.
#[test]
fn coordinates_are_freed_singly() {
    let mut lesson = Lesson { task: "Move it".into(), ..Lesson::default() };
    lesson.turn_free(PointId::LowerOuter, 1, 731.234, 20.0);
    lesson.turn_free(PointId::UpperOuter, 2, 500.0, 5.0);
    lesson.turn_free(PointId::LowerOuter, 0, 0.0, 10.0);
    assert_eq!(lesson.movable(), "lower ball joint (x, y); upper ball joint (z)");
    assert_eq!(lesson.range(PointId::LowerOuter, 1), Some([711.23, 751.23]));
    lesson.turn_free(PointId::LowerOuter, 0, 0.0, 10.0);
    assert_eq!(lesson.movable(), "lower ball joint (y); upper ball joint (z)");
    let mut app = begun(&all()[2]);
    app.update(Point::Place(PointId::TrackRodOuter, Vec3::zeros()));
    assert!(app.notices[0].ends_with("You may move: lower ball joint (y); upper ball joint (y)."), "{:?}", app.notices);
}

/// Who listens hears the pinned readings of the exercise, and what is hidden is said to be.
#[test]
fn the_spoken_line_says_the_pinned_readings() {
    let mut app = begun(&all()[9]);
    app.update(Hand::Select(Some(PointId::TrackRodInner)));
    let said = app.spoken_joint();
    assert!(
        said.starts_with("track rod, inner joint: x ") && said.contains("; toe 0.") && said.contains("; bump steer "),
        "{said}"
    );
    assert!(begun(&all()[0]).spoken().contains("; kingpin offset at wheel centre is hidden; kingpin inclination "));
}

fn count(items: &[Item]) -> usize {
    let of = |item: &Item| if let Item::Clip { items, .. } = item { count(items) } else { 1 };
    items.iter().map(of).sum()
}

/// What may be moved is marked: a ring round the joint in every view, arrows along its free axis where the view shows it.
#[test]
fn what_may_be_moved_is_marked_on_the_drawing() {
    let exercise = &all()[2];
    let items = |view: View, free: bool| {
        let mut app = begun(exercise);
        if !free {
            app.document.lesson = None;
        }
        let paper = Sheet::fit([1024.0, 860.0], Arrangement::One(view), &app.picture());
        count(&draw(&app.picture(), &paper).items)
    };
    let more = [View::Front, View::Side].map(|view| items(view, true) - items(view, false));
    // Two joints, free along y: a ring each; from the front two lines and two heads more each.
    assert_eq!(more, [10, 2]);
}

/// Several exercises in one link: each keeps its answer and its start, one hand-in tells them all, and the name is typed once.
#[test]
fn a_series_is_one_link_and_one_hand_in() {
    let exercises = all();
    let mut app = App::new(exercises[2].document.clone(), Vec::new());
    app.update(Course::Copy);
    for at in [1, 10, 6] {
        app.update(Course::Add(Box::new(exercises[at].document.clone())));
    }
    assert_eq!((app.document.series.before.len(), app.document.series.count()), (3, 4));
    app.update(Course::Remove(2));
    app.update(Step::Undo);
    app.update(Course::Remove(2));
    app.update(Course::Turn(0));
    let titles = |app: &App| app.document.lessons().iter().map(|lesson| lesson.title()).collect::<Vec<_>>();
    let prepared = titles(&app);
    assert_eq!(prepared.len(), 3);
    let (student, faults) = read(&write(&app.document)).expect("a link");
    assert_eq!(faults, Vec::<String>::new());
    let begun =
        |exercise: usize| (exercises[exercise].document.layout.clone(), exercises[exercise].document.pinned.clone());
    let (each, at) = student.exercises();
    assert_eq!((at, each.iter().all(Document::sealed)), (0, true));
    for (document, exercise) in each.iter().zip([2, 1, 6]) {
        assert_eq!((document.layout.clone(), document.pinned.clone()), begun(exercise));
        assert_eq!(document.compared, exercises[exercise].document.compared);
        let own = exercises[exercise].document.lesson.as_ref().expect("a lesson");
        assert!(document.lesson.as_ref().is_some_and(|lesson| lesson == own), "{}", exercises[exercise].name);
    }
    // A student answers, goes on, comes back, hands in.
    let mut app = App::new(student, Vec::new());
    app.update(Reply::Answer(Answer { by: "Ada".into(), ..Answer::default() }));
    for (place, exercise) in [2, 1, 6].into_iter().enumerate() {
        app.update(Course::Turn(place));
        let (moves, answer) = &exercises[exercise].solution;
        assert_eq!(app.document.answer.by, "Ada");
        app.update(Reply::Answer(Answer { by: "Ada".into(), ..answer.clone() }));
        moves.iter().for_each(|(id, at)| app.update(Point::Place(*id, *at)));
        app.update(Reply::Check);
        assert!(marking(&app).passed(), "{}", lines(&app));
    }
    app.update(Step::Undo);
    app.update(Step::Redo);
    app.update(Course::Turn(1));
    assert!(!app.can_undo() && app.edited() && app.answered());
    app.update(Open::Start);
    let handed = write(&app.document);
    let rows: Vec<_> = hand_ins::rows(&crate::work::answer(&hand_ins::task(&format!("x#{handed}")), 1)).collect();
    assert_eq!(rows.iter().map(|row| row.title.clone()).collect::<Vec<_>>(), prepared);
    assert_eq!(rows.iter().map(|row| row.name.as_str()).collect::<Vec<_>>(), ["Ada"; 3]);
    assert_eq!(
        rows.iter().map(|row| (row.target, row.number)).collect::<Vec<_>>(),
        [(Came::Yes, Came::Unasked), (Came::Unasked, Came::Yes), (Came::Yes, Came::Yes)]
    );
    assert!(
        marks::overview(&rows).starts_with("Hand-ins: 1. Target reached: 2 of 2. Number right: 2 of 2."),
        "{}",
        marks::overview(&rows)
    );
    // Opened anew it is what it was; damaged it says so.
    let (again, faults) = read(&handed).expect("a link");
    assert_eq!((again == app.document, faults.len()), (true, 0));
    let (_, faults) = read(&handed.replace("&nth=1&", "&nth=7&")).expect("a link");
    assert!(faults.len() == 1 && faults[0].contains("“nth” is “7”"), "{faults:?}");
    let (short, faults) = read(&handed[..handed.len() / 2]).expect("a link");
    assert!(!faults.is_empty() && short.series.count() <= 3);
    // A draft of it is found by its lessons, whichever exercise it was left at; a preparation is one again.
    let kept = drafts::with("", &Draft::of(1.0, &app.document));
    assert!(drafts::earlier(&kept, &each_again(&app)).is_some());
    app.update(Course::Copy);
    assert!(
        app.document.exercises().0.iter().all(|document| !document.sealed() && document.answer == Answer::default())
    );
    let kept = drafts::with("", &Draft::of(1.0, &app.document));
    let (prepared, _) = drafts::open(&kept, &write(&app.document)).expect("a draft");
    assert!(prepared.exercises().0.iter().all(|document| !document.sealed()));
}

/// The series as it was opened, at its first exercise.
fn each_again(app: &App) -> Document {
    app.opened().turned(0)
}

/// Each student's start is another, by number or name, the same each time; what is asked for is the same, and is marked alike.
#[test]
fn starts_vary_and_are_marked_alike() {
    let mut document = all()[2].document.clone();
    document.lesson.as_mut().expect("a lesson").vary = 15.0;
    let (document, faults) = read(&write(&document)).expect("a link");
    assert_eq!((faults.len(), document.lesson.as_ref().map(|lesson| lesson.vary)), (0, Some(15.0)));
    let mut starts: Vec<Layout> = Vec::new();
    for variant in ["1", "2", "3", "Ada"] {
        let mut app = App::new(document.clone(), Vec::new());
        app.update(Course::Vary(variant.into()));
        let lesson = app.document.lesson.clone().expect("a lesson");
        assert!(lesson.sealed() && app.document.answer.variant == variant && app.study.trouble.is_none());
        assert!(!lesson.aims.iter().all(|aim| aim.reached(&app.document)), "{variant}: the start is right");
        for free in &lesson.free {
            let [now, before] =
                [&app.document.layout, &document.layout].map(|l| l.point(free.point).expect("a point")[free.axis]);
            assert!(
                (now - before).abs() <= 15.05 && (free.range[0]..=free.range[1]).contains(&now),
                "{now} of {before}"
            );
        }
        assert!(starts.iter().all(|other| *other != app.document.layout), "{variant}");
        starts.push(app.document.layout.clone());
        app.update(Reply::Check);
        assert!(lines(&app).starts_with("Not answered yet."), "{}", lines(&app));
        for (id, at) in &all()[2].solution.0 {
            app.update(Point::Place(*id, *at));
        }
        assert_eq!(lines(&app), "Targets reached.");
        let (again, faults) = read(&write(&app.document)).expect("a link");
        assert_eq!((again == app.document, faults.len()), (true, 0));
        app.update(Open::Start);
        assert_eq!(starts.last(), Some(&app.document.layout), "back to one's own start");
    }
    let mut app = App::new(document, Vec::new());
    app.update(Course::Vary(" ada".into()));
    assert_eq!(starts.last(), Some(&app.document.layout), "in whatever letters");
    app.update(Course::Vary(" ".into()));
    assert!(app.notices[0].starts_with("Type your number in class"), "{:?}", app.notices);
}
