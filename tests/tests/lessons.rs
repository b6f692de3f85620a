//! The exercises prove themselves: the start is not right, the solution is, a hint is there, and a link carries it all.

use kernel::{PointId, Vec3};
use web::app::{App, Message};
use web::document::Document;
use web::exercises::{Exercise, all};
use web::lesson::{Answer, Lesson, Prediction, Verdict, mark};
use web::link::{read, write};

fn verdict(app: &App) -> Verdict {
    app.document.lesson.as_ref().expect("a lesson").verdict(&app.document, &app.study.good)
}

fn solve(exercise: &Exercise) -> App {
    let mut app = App::new(exercise.document.clone(), Vec::new());
    let (moves, answer) = &exercise.solution;
    for (id, at) in moves {
        app.update(Message::Place(*id, *at));
        assert_eq!(
            app.document.layout.point(*id).map(|p| (p - at).norm() < 0.01),
            Some(true),
            "{}: it may be moved",
            exercise.name
        );
    }
    app.update(Message::Answer(answer.clone()));
    app
}

#[test]
fn there_are_twelve_and_each_begins_unanswered() {
    let exercises = all();
    assert_eq!(exercises.len(), 12);
    for exercise in &exercises {
        let app = App::new(exercise.document.clone(), Vec::new());
        assert_eq!(app.study.trouble, None, "{}", exercise.name);
        assert_eq!(verdict(&app), Verdict::Unanswered, "{}", exercise.name);
        let lesson = exercise.document.lesson.as_ref().expect("a lesson");
        assert!(lesson.hint.len() > 20 && lesson.task.len() > 40, "{}", exercise.name);
        // Touched, but not solved: moving along and back would not do.
        for aim in &lesson.aims {
            let reading = kernel::Reading::named(aim.column).expect("a reading");
            let start = (reading.value)(&app.study.good.now).expect("a value");
            assert!(
                lesson.aims.len() > 1 || (start - aim.value).abs() > aim.tolerance,
                "{}: the start is right",
                exercise.name
            );
        }
    }
}

#[test]
fn every_solution_passes() {
    for exercise in all() {
        let app = solve(&exercise);
        let verdict = verdict(&app);
        assert!(matches!(verdict, Verdict::Right | Verdict::Words), "{}: {verdict:?}", exercise.name);
    }
}

/// A wrong number, or an axle moved elsewhere, is said to be wrong; with several aims, one reached is not enough.
#[test]
fn wrong_answers_are_said_to_be_wrong() {
    for exercise in all() {
        let lesson = exercise.document.lesson.clone().expect("a lesson");
        let mut app = solve(&exercise);
        if !lesson.free.is_empty() {
            for free in &lesson.free {
                let mut at = app.document.layout.point(free.point).expect("a point");
                at[free.axis] = free.range[1];
                app.update(Message::Place(free.point, at));
            }
        } else if lesson.number.is_some() {
            let answer = Answer { guess: Some(99.0), ..app.document.answer.clone() };
            app.update(Message::Answer(answer));
        } else {
            continue;
        }
        assert!(matches!(verdict(&app), Verdict::Wrong(_)), "{}: {:?}", exercise.name, verdict(&app));
    }
}

/// A student moves what is free, within its range, and nothing else; everybody else's page has no such bounds.
#[test]
fn a_lesson_bounds_what_can_be_moved() {
    let exercise = &all()[2];
    let mut app = App::new(exercise.document.clone(), Vec::new());
    let before = app.document.layout.clone();
    app.update(Message::Place(PointId::TrackRodOuter, Vec3::zeros()));
    assert_eq!(app.document.layout, before);
    assert!(app.notices[0].contains("can’t be moved in this lesson"), "{:?}", app.notices);
    let at = before.point(PointId::LowerOuter).expect("a ball joint");
    app.update(Message::Place(PointId::LowerOuter, at + Vec3::y() * 500.0));
    assert_eq!(app.document.layout, before);
    assert!(app.notices[0].contains("it must be between 701.2 and 761.2 mm here"), "typed: {:?}", app.notices);
    app.update(Message::Drag(PointId::LowerOuter, at + Vec3::new(0.0, 25.0, 0.0)));
    app.update(Message::Nudge(Vec3::new(9.0, 20.0, 9.0)));
    assert_eq!(app.document.layout.point(PointId::LowerOuter), Some(at + Vec3::y() * 30.0), "by hand, to its end");
}

/// A prediction is marked by sign and size, in the unit it was typed in; while the lesson is prepared it counts from where the axle is.
#[test]
fn a_prediction_is_marked_by_sign_and_size() {
    let exercise = &all()[0];
    for (inches, guess, words) in [
        (false, 3.3, "predicted was 3.3: the sign is right, so is the size"),
        (false, 9.0, "the sign is right, but the size is off"),
        (false, -3.4, "the sign is not right, but so is the size"),
        (false, -9.0, "the sign is not right, the size is off"),
        (false, 0.0, "the sign is not right, the size is off"),
        (true, 0.133, "has changed by 0.133; predicted was 0.133: the sign is right, so is the size"),
    ] {
        let mut app = solve(exercise);
        app.update(Message::Show(web::number::Units { inches, ..app.document.units }));
        app.update(Message::Answer(Answer { guess: Some(guess), shown: true, ..app.document.answer.clone() }));
        let outcome = |document: &Document| document.lesson.as_ref().and_then(|l| l.outcome(document, &app.study.good));
        let said = outcome(&app.document).expect("an outcome");
        assert!(said.contains(words), "{said}");
        assert_eq!(outcome(&read(&write(&app.document)).expect("a link").0), Some(said));
        app.update(Message::Answer(Answer { shown: false, ..app.document.answer.clone() }));
        assert_eq!(app.document.lesson.as_ref().and_then(|l| l.outcome(&app.document, &app.study.good)), None);
    }
    let mut app = App::new(Document::of(web::demos::first()), Vec::new());
    let prediction = Prediction::of("camber_deg", &app.study.good);
    app.update(Message::Teach(Some(Box::new(Lesson { predict: prediction, ..Lesson::default() }))));
    app.update(Message::Travel(30.0));
    let before = app.document.lesson.as_ref().and_then(|lesson| lesson.predict).expect("a prediction").before;
    assert!((before - app.study.good.now.attitude.camber).abs() < 1e-6, "{before}");
}

/// The lesson, and the hand-in with name, number and words, travel in a link; the mark of the start stays.
#[test]
fn lessons_and_hand_ins_are_links() {
    for exercise in all() {
        for mut app in [App::new(exercise.document.clone(), Vec::new()), solve(&exercise)] {
            let mut answer = app.document.answer.clone();
            answer.by = "Ada & <b>Bo</b>".into();
            app.update(Message::Answer(answer));
            let link = write(&app.document);
            let (back, faults) = read(&link).expect("a link");
            assert_eq!(faults, Vec::<String>::new(), "{}", exercise.name);
            assert_eq!(back, app.document, "{}", exercise.name);
            assert!(link.bytes().all(|b| b.is_ascii_alphanumeric() || b"-_.~=&%".contains(&b)), "{link}");
        }
    }
    assert_ne!(mark(&all()[0].document.layout), mark(&all()[2].document.layout));
}
