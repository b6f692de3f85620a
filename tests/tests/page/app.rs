//! What the page does with what people do, without a browser. Long because people do much.

use kernel::{PointId, Stops, Vec3, Vehicle};
use web::app::{About, App, Edit, Hand, Message, Open, Part, Point, Refusal, Say, Show, Stand, Step, Tell};
use web::content::demos::{DEMOS, first, layout};
use web::document::story::{LASTS, Moves, Shot, TRANSITION};
use web::document::{Case, Document, Freedom, Loads, Over};
use web::plot::Plot;

fn app() -> App {
    App::new(Document::of(first()), Vec::new())
}

fn outer(app: &App) -> Vec3 {
    app.document.layout.point(PointId::UpperFrontOuter).expect("four arms have it")
}

/// A drag to a place on the drawing puts the joint there, in any position of the axle, on body, rack, carrier and spring.
#[test]
fn a_dragged_joint_is_where_the_pointer_is() {
    for index in 0..DEMOS.len() {
        for (travel, rack) in [(0.0, 0.0), (35.0, 20.0), (-50.0, -60.0)] {
            let mut app = App::new(Document::of(layout(index).expect("a demo")), Vec::new());
            app.update(Stand::Travel(travel));
            app.update(Stand::Rack(rack));
            let ids: Vec<PointId> = app.document.layout.points().map(|(id, _)| id).collect();
            for id in ids.into_iter().filter(|id| *id != PointId::WheelCentre) {
                let target = app.study.good.place(id).expect("it has the point") + Vec3::new(2.0, -3.0, 1.5);
                app.update(Hand::Drag(id, target));
                assert_eq!(app.study.trouble, None, "{id:?} of demo {index} at {travel}, {rack}");
                let now = app.study.good.place(id).expect("it has the point");
                // Kept to the hundredth of a mm at rest, which the linkage near full lock can multiply by ten; a line is 0.75 mm wide.
                assert!((now - target).norm() < 0.1, "{id:?} at {travel}, {rack}: {:?}", now - target);
                app.update(Step::Undo);
            }
        }
    }
}

#[test]
fn one_drag_is_one_undo_step() {
    let mut app = app();
    let before = app.document.clone();
    app.update(Hand::Hold);
    for step in 1..=20 {
        app.update(Hand::Drag(PointId::UpperFrontOuter, Vec3::new(1.3, 670.0 + f64::from(step), 655.0)));
    }
    app.update(Hand::Release);
    let after = app.document.clone();
    assert_ne!(before, after);
    app.update(Step::Undo);
    assert_eq!(app.document, before);
    assert!(!app.can_undo());
    app.update(Step::Redo);
    assert_eq!(app.document, after);
}

#[test]
fn a_click_without_a_move_is_no_undo_step_and_keeps_redo() {
    let mut app = app();
    app.update(Stand::Travel(10.0));
    app.update(Step::Undo);
    app.update(Hand::Hold);
    app.update(Hand::Release);
    assert!(!app.can_undo() && app.can_redo());
}

/// A joint put where the linkage can't be assembled stays there, says which member can't reach and by how much, keeps the
/// last good readings, and undo brings everything back.
#[test]
fn an_impossible_drag_loses_nothing() {
    let mut app = app();
    app.update(Stand::Travel(60.0));
    let (document, camber) = (app.document.clone(), app.study.good.now.attitude.camber);
    // An arm of a few centimetres can't follow 60 mm of travel.
    let target = Vec3::new(0.0, 650.0, 660.0);
    app.update(Hand::Drag(PointId::UpperFrontInner, target));
    let trouble = app.study.trouble.clone().expect("it can't be assembled");
    assert!(trouble.sentence.contains(" mm"), "{}", trouble.sentence);
    let (id, at) = trouble.joint.expect("the joint in hand");
    assert_eq!(id, PointId::UpperFrontInner);
    assert!((at - target).norm() < 0.05, "{at}");
    assert_eq!(app.study.good.now.attitude.camber, camber);
    app.update(Step::Undo);
    assert_eq!(app.document, document);
    assert_eq!(app.study.trouble, None);
}

#[test]
fn nudges_move_the_joint_in_hand_at_rest() {
    let mut app = app();
    app.update(Hand::Nudge(Vec3::y()));
    assert!(!app.can_undo(), "nothing is in hand");
    app.update(Hand::Select(Some(PointId::UpperFrontOuter)));
    app.update(Hand::Nudge(Vec3::new(0.0, 1.0, -0.1)));
    assert_eq!(outer(&app), Vec3::new(1.3, 671.0, 654.9));
}

#[test]
fn numbers_out_of_range_stay_in_range_and_nan_changes_nothing() {
    let mut app = app();
    for (message, travel, rack) in
        [(Stand::Travel(1e9), 200.0, 0.0), (Stand::Travel(f64::NAN), 0.0, 0.0), (Stand::Rack(-1e9), 0.0, -75.0)]
    {
        app.update(message);
        assert_eq!([app.document.travel, app.document.rack], [travel, rack]);
    }
    let before = outer(&app);
    app.update(Point::Place(PointId::UpperFrontOuter, Vec3::new(f64::NAN, 0.0, 0.0)));
    app.update(Hand::Drag(PointId::UpperFrontOuter, Vec3::new(f64::INFINITY, 0.0, 0.0)));
    assert_eq!(outer(&app), before);
}

/// Opening something is undone like anything else; "back to the start" is where the last thing opened began.
#[test]
fn opening_can_be_undone_and_the_start_is_kept() {
    let mut app = app();
    let mine = app.document.clone();
    app.update(Open::Demo(0));
    let start = app.document.clone();
    app.update(Stand::Travel(22.0));
    app.update(Open::Start);
    assert_eq!(app.document, start);
    for _ in 0..3 {
        app.update(Step::Undo);
    }
    assert_eq!(app.document, mine);
}

#[test]
fn an_unsteered_axle_has_no_rack_to_move() {
    let mut app = app();
    app.update(Stand::Rack(30.0));
    app.update(Open::Demo(5));
    app.update(Stand::Rack(10.0));
    assert_eq!((app.document.rack, app.study.trouble.clone()), (0.0, None));
    app.update(Show::Over(Over::Steering));
    assert!(app.study.good.over_rack().points.is_empty());
}

#[test]
fn readings_are_pinned_and_taken_off() {
    let mut app = app();
    let count = app.document.pinned.len();
    app.update(Show::Pin("camber_deg"));
    assert_eq!(app.document.pinned.len(), count - 1);
    let of_the_axis = |reading: &&kernel::Reading| reading.group == kernel::Group::SteeringAxis;
    assert!(kernel::READINGS.iter().filter(of_the_axis).count() + count > web::document::MOST_PINNED);
    for reading in kernel::READINGS.iter().filter(of_the_axis) {
        app.update(Show::Pin(reading.column));
    }
    assert!(app.document.pinned.len() <= web::document::MOST_PINNED);
}

/// Curves reach both ends at the demos' ranges, and the state now lies on them.
#[test]
fn curves_run_through_the_state_now() {
    for index in 0..DEMOS.len() {
        let mut app = App::new(Document::of(layout(index).expect("a demo")), Vec::new());
        app.update(Stand::Travel(30.0));
        let curve = &app.study.good.over_travel().points;
        assert_eq!((curve.len(), curve[0].0, curve[60].0), (61, -60.0, 60.0));
        let on_curve = curve.iter().find(|(x, _)| *x == 30.0).expect("a state at 30");
        assert!((on_curve.1.attitude.camber - app.study.good.now.attitude.camber).abs() < 1e-12);
    }
}

/// The lowered car: the curves do not change, the operating point does, and changes count from there.
#[test]
fn a_lowered_car_stands_elsewhere_on_the_same_curves() {
    let mut app = app();
    let camber = |app: &App| -> Vec<f64> {
        app.study.good.over_travel().points.iter().map(|(_, s)| s.attitude.camber).collect()
    };
    let before = camber(&app);
    app.update(Stand::Ride(40.0));
    assert_eq!(camber(&app), before);
    let good = &app.study.good;
    let standing = &good.over_travel().points.iter().find(|(x, _)| *x == 40.0).expect("a state at 40").1;
    for column in ["track_change_mm", "wheelbase_change_mm"] {
        let reading = kernel::Reading::named(column).expect("a reading");
        let value = |wheel| (reading.value)(&good.alone(wheel)).expect("a value");
        assert_eq!((good.rest.travel, value(&good.rest)), (40.0, 0.0));
        assert!(value(standing).abs() < 1e-9);
        assert_ne!(good.value(reading), Some(0.0));
    }
    app.update(Stand::Rack(10.0));
    app.update(Stand::AtRest);
    assert_eq!((app.document.travel, app.document.rack), (40.0, 0.0));
}

/// Over roll, too, movements count from where the car stands: the curve runs through the value now.
#[test]
fn a_lowered_car_rolls_along_its_curve() {
    let mut app = app();
    let track = kernel::Reading::named("track_change_mm").expect("a reading");
    app.update(Stand::Ride(40.0));
    app.update(Show::Whole(true));
    app.update(Show::Over(Over::Roll));
    app.update(Stand::Roll(1.0));
    let plot = Plot::new(&app.study, &app.document, track).expect("it has the reading");
    let (roll, now) = plot.now.expect("a value");
    assert!((plot.at(roll).expect("on the curve") - now).abs() < 1e-6, "{:?}, not {now}", plot.at(roll));
}

#[test]
fn a_locked_point_is_moved_by_nothing() {
    let mut app = app();
    let before = outer(&app);
    app.update(Point::Lock(PointId::UpperFrontOuter, [true; 3]));
    app.update(Hand::Drag(PointId::UpperFrontOuter, before + Vec3::y() * 9.0));
    app.update(Hand::Select(Some(PointId::UpperFrontOuter)));
    app.update(Hand::Nudge(Vec3::y()));
    app.update(Point::Place(PointId::UpperFrontOuter, Vec3::zeros()));
    assert_eq!(outer(&app), before);
    assert!(app.notices[0].contains("locked"), "{:?}", app.notices);
    app.update(Point::Lock(PointId::UpperFrontOuter, [false, true, false]));
    app.update(Point::Place(PointId::UpperFrontOuter, before + Vec3::new(1.0, 2.0, 3.0)));
    assert_eq!(outer(&app), before + Vec3::new(1.0, 0.0, 3.0), "only y is locked");
    app.update(Point::Lock(PointId::UpperFrontOuter, [false; 3]));
    app.update(Hand::Nudge(Vec3::y()));
    assert_eq!(outer(&app), before + Vec3::new(1.0, 1.0, 3.0));
}

/// A load shown on the page: its forces hold the wheel, follow the position, and are one step to undo.
#[test]
fn a_load_follows_the_axle() {
    let mut app = App::new(Document::of(layout(0).expect("a demo")), Vec::new());
    assert!(app.study.loaded.is_none());
    app.update(Show::Loads(Loads { case: Case::Of(1), ..app.document.loads }));
    let rod = |app: &App| app.study.loaded.as_ref().and_then(|loaded| loaded.rod).expect("a strut's rod").side;
    let at_rest = rod(&app);
    app.update(Stand::Travel(40.0));
    assert!((rod(&app) - at_rest).abs() > 1.0);
    let rows = web::study::loaded::members(&app.study.good, &app.document);
    assert_eq!(
        rows.iter().map(|row| row.name).collect::<Vec<_>>(),
        ["lower front", "lower rear", "track rod", "spring", "strut side force (magnitude)"]
    );
    assert!(
        rows.iter().all(|row| row.cases.len() == 12 && row.cases.iter().all(|force| force.is_some_and(f64::is_finite)))
    );
    // What a case takes for granted is said where it matters.
    let remarks = |app: &App| web::study::loaded::remarks(&app.study.good, &app.document);
    let cornering = kernel::LoadCase::all().iter().position(|case| case.key == "outer").map(Case::Of).expect("a case");
    app.update(Show::Loads(Loads { case: cornering, ..app.document.loads }));
    assert!(remarks(&app).contains("600 N·m/°, typed under Vehicle") && remarks(&app).contains("No pneumatic trail"));
    let own_springs = Vehicle { roll_stiffness_from: kernel::RollFrom::Axle, ..Default::default() };
    app.update(Part::Vehicle(own_springs));
    assert!(remarks(&app).contains("springs and anti-roll bar"), "{}", remarks(&app));
    app.update(Part::Vehicle(Vehicle { roll_stiffness: 100.0, ..Default::default() }));
    assert!(remarks(&app).contains("falls over") && app.study.loaded.is_none());
    app.update(Step::Undo);
    app.update(Step::Undo);
    app.update(Step::Undo);
    let mut own = Loads { case: Case::Own, ..app.document.loads };
    own.own = [-1000.0, 0.0, 0.0, 0.0, 0.0, 0.0];
    app.update(Show::Loads(own));
    let [strut, arms] = [0, 4].map(|demo| {
        web::study::loaded::moment_on(&layout(demo).expect("a demo"), &app.study.good, &app.document)
            .expect("it is steered")
    });
    assert!(strut.is_finite() && arms.is_finite() && strut != arms);
    app.update(Step::Undo);
    app.update(Step::Undo);
    assert_eq!(rod(&app), at_rest);
}

/// Both wheels: roll moves them apart, the left one is what the readings and the drawing show, and all of it is undone and linked.
#[test]
fn the_whole_axle_rolls() {
    let mut app = App::new(Document::of(layout(0).expect("a demo")), Vec::new());
    app.update(Show::Whole(true));
    app.update(Stand::Roll(3.0));
    let good = &app.study.good;
    let [now, rest] = good.whole.as_ref().expect("both wheels");
    assert_eq!(rest.axle.roll, 0.0);
    assert!((now.axle.roll - 3.0).abs() < 1e-9);
    let travels = [0, 1].map(|i| now.axle.sides[i].state.travel);
    assert!(travels[0] < -30.0 && travels[1] > 30.0, "{travels:?}");
    assert_eq!(good.now.travel, travels[0]);
    assert!(good.over_whole().is_empty(), "no curve asks for it");
    app.update(Show::Pin("axle_steer_deg"));
    app.update(Show::Over(Over::Roll));
    assert_eq!(app.study.good.over_whole().len(), 31);
    for reading in &kernel::READINGS {
        let value = app.study.good.value(reading);
        assert!(value.is_none_or(f64::is_finite), "{}", reading.column);
    }
    // A joint is dragged in roll and is where the hand is.
    let target = app.study.good.place(PointId::StrutTop).expect("a strut") + Vec3::new(2.0, -3.0, 1.5);
    app.update(Hand::Drag(PointId::StrutTop, target));
    assert!((app.study.good.place(PointId::StrutTop).expect("a strut") - target).norm() < 0.1);
    // One wheel alone in bump: the other one stays where it is.
    app.update(Stand::Travels(50.0, 0.0));
    let travels = [0, 1].map(|i| app.study.good.whole.as_ref().expect("both")[0].axle.sides[i].state.travel);
    assert!((travels[0] - 50.0).abs() < 0.01 && travels[1].abs() < 0.01, "{travels:?}");
    app.update(Stand::Travels(200.0, -200.0));
    assert!(app.notices[0].contains("body roll") || app.notices[0].contains("mm"), "{:?}", app.notices);
    app.update(Stand::Roll(99.0));
    assert_eq!(app.document.roll, 5.0);
    app.update(Stand::AtRest);
    assert_eq!(app.document.roll, 0.0);
}

/// The lowered strut: its roll centre sinks; the ball joint alone brings it back and spoils the bump steer; both mend both.
#[test]
fn lowering_is_corrected_in_two_parts() {
    let read = |document: &Document, column: &str| {
        let study = web::study::Study::new(document, web::content::demos::opening);
        assert_eq!(study.trouble, None);
        let reading = kernel::Reading::named(column).expect("a reading");
        study.good.value(reading).expect("a value")
    };
    let built = Document::of(layout(0).expect("a demo"));
    let prepared = web::content::demos::lowered();
    let values = |column: &str| prepared.iter().map(|(_, document)| read(document, column)).collect::<Vec<_>>();
    let (height, slope) = (values("roll_centre_height_mm"), values("bump_steer_deg_per_mm"));
    let (old_height, old_slope) = (read(&built, "roll_centre_height_mm"), read(&built, "bump_steer_deg_per_mm"));
    assert!(height[0] < old_height - 100.0);
    assert!((height[1] - old_height).abs() < 15.0 && slope[1].abs() > 20.0 * slope[0].abs());
    assert!((height[2] - old_height).abs() < 1.0 && (slope[2] - old_slope).abs() < 1e-4);
}

/// Another axle laid over: solved in the same position, drawn, in one link, swapped, taken off; each a step to undo.
#[test]
fn two_axles_are_compared() {
    let mut app = app();
    app.update(Stand::Travel(20.0));
    app.update(About::Compare(layout(0).map(Box::new)));
    let offset = |solved: &web::study::Solved| {
        let reading = kernel::Reading::named("kingpin_offset_wheel_centre_mm").expect("a reading");
        solved.value(reading).expect("a value")
    };
    let both = |app: &App| (offset(&app.study.good), offset(app.study.compared.as_ref().expect("compared")));
    let (own, other) = both(&app);
    assert!(own < 15.0 && other > 60.0, "{own}, {other}");
    assert_eq!(app.study.compared.as_ref().expect("compared").now.travel, 20.0);
    assert!(app.picture().compared.is_some());
    let (back, faults) = web::link::read(&web::link::write(&app.document)).expect("a link");
    assert_eq!((back, faults), (app.document.clone(), Vec::new()));
    app.update(About::Swap);
    assert_eq!(both(&app), (other, own));
    app.update(Step::Undo);
    assert_eq!(both(&app), (own, other));
    app.update(About::Compare(Some(Box::new(app.opened().layout.clone()))));
    assert!((both(&app).1 - own).abs() < 1e-9);
    app.update(About::Compare(None));
    assert!(app.study.compared.is_none());
    // A broken one is said and not laid over.
    let mut broken = layout(0).expect("a demo");
    broken.wheel.width = -1.0;
    app.update(About::Compare(Some(Box::new(broken))));
    assert!(app.document.compared.is_none() && app.notices[0].contains("tyre width is -1"), "{:?}", app.notices);
}

/// A shot in which something moves begins and ends where it stands, goes through both ends between, and its length and movement are in its link; a
/// movement or a length that is none is said.
#[test]
fn what_moves_in_a_shot_comes_back() {
    let mut shot = web::content::story::shipped()[7].clone();
    assert_eq!(shot.moves, Moves::Steer);
    let stroke = shot.layout.rack.as_ref().expect("steered").travel;
    let held = shot.lasts - TRANSITION;
    for (seconds, _) in [(0.0, "start"), (held, "end"), (held + 5.0, "after")] {
        let there = shot.after(seconds);
        assert!((there.rack - shot.rack).abs() < 1e-9 && there.travel == shot.travel, "{}", there.rack);
    }
    let racks: Vec<f64> = (0..200).map(|i| shot.after(held * f64::from(i) / 200.0).rack).collect();
    let ends = [racks.iter().copied().fold(0.0, f64::min), racks.iter().copied().fold(0.0, f64::max)];
    assert!(ends[0] < -0.99 * stroke && ends[1] > 0.99 * stroke && ends[1] <= stroke + 1e-9, "{ends:?}");
    (shot.moves, shot.lasts) = (Moves::Bump, 12.5);
    let mut document = Document::of(shot.layout.clone());
    document.story = vec![shot.clone(), Shot { moves: Moves::Nothing, lasts: LASTS, ..shot }];
    let link = web::link::write(&document);
    let (back, faults) = web::link::read(&link).expect("a link");
    assert_eq!((back.story, faults), (document.story, Vec::new()));
    let (back, faults) =
        web::link::read(&link.replace("moves=bump", "moves=jump").replace("lasts=12.5", "lasts=99")).expect("a link");
    assert_eq!((back.story[0].moves, back.story[0].lasts, faults.len()), (Moves::Nothing, 30.0, 2), "{faults:?}");
}

/// A story: told in passing, one step to undo, pointing and saying; shots of one kind pass into each other; a link carries it.
#[test]
fn a_story_is_told() {
    let mut app = app();
    let before = app.document.clone();
    let shots = web::content::story::shipped();
    assert!((5..=web::document::story::MOST_SHOTS).contains(&shots.len()));
    app.update(About::Story(shots.clone()));
    for (at, shot) in shots.iter().enumerate() {
        app.update(Tell::Shot(Box::new(shot.clone())));
        assert_eq!(app.study.trouble, None, "shot {at}");
        let slide = app.picture().slide.expect("a slide");
        assert_eq!((slide.said.as_str(), slide.readings.len()), (shot.caption.as_str(), shot.pinned.len()));
        assert_eq!(app.selected, shot.points_at);
        assert_eq!(app.document.layout, shot.layout);
    }
    let (back, faults) = web::link::read(&web::link::write(&app.document)).expect("a link");
    assert_eq!((back.story, faults), (shots.clone(), Vec::new()));
    let length = web::link::write(&app.document).len();
    assert!(length < 9_000, "{length}: fifteen shots, three of them with bushes and a subframe");
    let a = Shot::at_rest(shots[7].layout.clone(), String::new());
    let b = &Shot { rack: 45.0, ..a.clone() };
    assert_eq!(a.towards(b, 0.5).rack, 22.5);
    assert_eq!((a.towards(b, 0.0).rack, a.towards(b, 1.0)), (0.0, b.clone()));
    let mut other = a.clone();
    other.layout.point_mut(PointId::TrackRodOuter).expect("a point").y += 10.0;
    let half = a.towards(&other, 0.5).layout.point(PointId::TrackRodOuter).expect("a point");
    assert!((half.y - 695.0).abs() < 1e-9);
    app.update(Tell::End);
    app.update(Step::Undo);
    assert_eq!(app.document, before, "the telling is no step; putting it into the document is one");
}

/// A name and a note that come with line breaks or signs that turn the writing are what the link gives back.
#[test]
fn names_and_notes_are_cleaned_at_the_door() {
    let mut app = App::new(Document::of(first()), Vec::new());
    app.update(About::Rename("two\nlines\u{202e}".into()));
    app.update(About::Note("\n".into()));
    let (again, faults) = web::link::read(&web::link::write(&app.document)).expect("a link");
    assert_eq!((faults, &*app.document.layout.name), (Vec::new(), "two lines"));
    assert_eq!((again.layout.name, again.layout.note), (app.document.layout.name, app.document.layout.note));
}

/// What is told passes over the reader's document: hands move a shot only, undo ends the telling, other commands end it first.
#[test]
fn a_story_costs_nobody_their_work() {
    let mut app = app();
    app.update(Point::Place(PointId::TrackRodOuter, Vec3::new(-130.0, 690.0, 300.0)));
    let own = app.document.clone();
    let shot = || Tell::Shot(Box::new(web::content::story::shipped()[2].clone()));
    for command in [Message::from(Step::Undo), Step::Redo.into(), Tell::End.into()] {
        app.update(shot());
        app.update(Stand::Travel(30.0));
        assert!(app.tells() && app.document != own);
        app.update(command);
        assert_eq!((app.document.clone(), app.tells(), app.picture().slide), (own.clone(), false, None));
    }
    app.update(shot());
    app.update(About::Rename("mine".into()));
    assert_eq!(app.document.layout.points().collect::<Vec<_>>(), own.layout.points().collect::<Vec<_>>());
    app.update(Step::Undo);
    assert_eq!(app.document, own);
    app.update(shot());
    app.update(Open::Demo(1));
    app.update(Step::Undo);
    assert_eq!(app.document, own);
}

/// Undo while a hand still drags: what the hand does after it is a step of its own; so is what a link brings meanwhile.
#[test]
fn undo_in_the_middle_of_a_drag() {
    let mut app = app();
    let before = app.document.clone();
    let drag = |app: &mut App, z: f64| app.update(Point::Place(PointId::TrackRodOuter, Vec3::new(-130.0, 690.0, z)));
    app.update(Hand::Hold);
    drag(&mut app, 300.0);
    app.update(Step::Undo);
    assert_eq!(app.document, before);
    drag(&mut app, 301.0);
    drag(&mut app, 302.0);
    assert!(!app.can_redo(), "no stale half of a drag");
    app.update(Hand::Release);
    app.update(Step::Undo);
    assert_eq!(app.document, before);
    app.update(Hand::Hold);
    drag(&mut app, 303.0);
    let dragged = app.document.clone();
    app.update(Open::Document(Box::new(Document::of(layout(0).expect("a demo"))), Vec::new()));
    app.update(Step::Undo);
    assert_eq!(app.document, dragged);
}

/// A typed number beyond its range is said, with the part, the amount and the range, and nothing changes.
#[test]
fn what_is_typed_out_of_range_is_said_and_not_taken() {
    let mut app = app();
    let (before, vehicle) = (app.document.clone(), app.document.layout.vehicle());
    let loads = app.document.loads;
    let far = Vec3::new(-130.0, 1e300, 300.0);
    let tube = kernel::Section::Tube { outer: 30.0, wall: 1e7 };
    for (message, words) in [
        (Message::from(Point::Place(PointId::TrackRodOuter, far)), "y of the track rod, outer joint can’t be 1e300 mm"),
        (Point::PlaceAll(vec![(PointId::TrackRodOuter, far).into()]).into(), "it must be between -10000 and 10000 mm"),
        (Point::Error(PointId::TrackRodOuter, 1e5).into(), "can’t be 100000 mm"),
        (Point::Error(PointId::TrackRodOuter, -1.0).into(), "can’t be -1 mm"),
        (Part::Vehicle(Vehicle { wheelbase: 1e300, ..vehicle }).into(), "wheelbase is 1e300 mm"),
        (Part::Vehicle(Vehicle { front_share: 7.0, ..vehicle }).into(), "front axle’s share of the weight is 7"),
        (Part::Vehicle(Vehicle { cg_height: 1e-6, ..vehicle }).into(), "centre of gravity is 1e-6 mm"),
        (Part::Stops(Some(Stops { bump: -1.0, rebound: 10.0 })).into(), "bump stop is -1 mm"),
        (
            Show::Loads(Loads { section: tube, ..loads }).into(),
            "wall can’t be 1e7 mm: it must be between 0.1 and 15 mm",
        ),
        (Show::Loads(Loads { stress: 1e5, ..loads }).into(), "allowed stress can’t be 100000 N/mm²"),
        (Stand::Typed(Freedom::Travel, 1e4).into(), "Travel can’t be 10000 mm: it must be within ±200 mm."),
        (Stand::Typed(Freedom::Rack, -75.01).into(), "Rack can’t be -75.01 mm: it must be within ±75 mm."),
        (Stand::Typed(Freedom::Roll, 12.0).into(), "Roll can’t be 12 °"),
        (Stand::Braking(12.0).into(), "12 g"),
        (Stand::Braking(-0.1).into(), "-0.1 g"),
    ] {
        app.update(Say::Nothing);
        app.update(message);
        assert_eq!(app.document, before, "{words}");
        assert!(app.notices.len() == 1 && app.notices[0].contains(words), "{words}: {:?}", app.notices);
        assert!(app.notices[0].len() < 200);
    }
    app.update(Point::Lock(PointId::TrackRodOuter, [true, false, false]));
    app.update(Point::PlaceAll(vec![(PointId::TrackRodOuter, Vec3::new(-100.0, 690.0, 300.0)).into()]));
    assert!(app.notices[0].contains("points were not moved: track rod, outer joint"), "{:?}", app.notices);
    let point = app.document.layout.point(PointId::TrackRodOuter).expect("a point");
    assert_eq!((point.x, point.z), (-130.0, 300.0));
}

/// Curves and handle reach as far as the travel shown, and no further than asked; while a hand holds something they do not shrink under it.
#[test]
fn curves_reach_the_travel_shown() {
    let mut app = app();
    let ends = |app: &App| {
        let points = &app.study.good.over_travel().points;
        (points[0].0, points[points.len() - 1].0, app.study.good.reach)
    };
    assert_eq!(ends(&app), (-60.0, 60.0, 60.0));
    app.update(Stand::Travel(90.0));
    assert_eq!(app.study.trouble, None);
    assert_eq!(ends(&app), (-100.0, 100.0, 100.0));
    let camber = kernel::Reading::named("camber_deg").expect("a reading");
    let plot = Plot::new(&app.study, &app.document, camber).expect("it has camber");
    let (x, y) = plot.now.expect("it has camber");
    assert_eq!((x, plot.x.to), (90.0, 100.0));
    assert!((plot.at(x).expect("the curve goes there") - y).abs() < 1e-3);
    app.update(Hand::Hold);
    app.update(Stand::Travel(50.0));
    assert_eq!(ends(&app).2, 100.0);
    app.update(Hand::Release);
    assert_eq!(ends(&app), (-60.0, 60.0, 60.0));
    app.update(Part::Stops(Some(Stops { bump: 70.0, rebound: 85.0 })));
    assert_eq!(ends(&app).2, 100.0);
}

/// A swing arm's curve is broken at its pole, whose height does not set the scale.
#[test]
fn no_curve_is_drawn_through_a_pole() {
    let arm = kernel::Reading::named("side_swing_arm_mm").expect("a reading");
    let mut poles = 0;
    for index in 0..DEMOS.len() {
        let mut app = App::new(Document::of(layout(index).expect("a demo")), Vec::new());
        app.update(Show::Whole(true));
        app.update(Show::Pin(arm.column));
        let Some(plot) = Plot::new(&app.study, &app.document, arm) else { continue };
        for piece in &plot.line {
            let crossing =
                piece.windows(2).any(|ends| ends[0].1 * ends[1].1 < 0.0 && (ends[0].1 - ends[1].1).abs() > 1000.0);
            assert!(!crossing, "demo {index}");
        }
        if plot.line.len() > 1 {
            let mut sizes: Vec<f64> = plot.line.iter().flatten().map(|(_, y)| y.abs()).collect();
            sizes.sort_by(f64::total_cmp);
            let (usual, most) = (sizes[sizes.len() / 2], sizes[sizes.len() - 1]);
            let shown = plot.y.to.max(-plot.y.from);
            assert!(shown <= 2.0 * usual + plot.y.step, "demo {index}: {usual} in {:?}", plot.y);
            poles += usize::from(most > shown);
        }
    }
    assert!(poles > 0, "a demo with a pole beyond its scale");
}

/// A shot shows one wheel or both and its roll, whatever the page showed before; older links tell of one wheel.
#[test]
fn a_shot_sets_roll_and_wheels() {
    let mut app = app();
    app.update(Show::Whole(true));
    app.update(Stand::Roll(3.0));
    let rolled = Shot::of(&app.document, None, "rolled".into());
    let before = app.document.clone();
    let hub =
        |app: &App| app.study.good.value(kernel::Reading::named("kingpin_offset_wheel_centre_mm").expect("a reading"));
    app.update(Tell::Shot(Box::new(web::content::story::shipped()[0].clone())));
    assert_eq!((app.document.whole, app.document.roll), (false, 0.0));
    assert!((hub(&app).expect("a strut has it") - 66.0).abs() < 0.05, "{:?}", hub(&app));
    app.update(Tell::Shot(Box::new(rolled.clone())));
    assert_eq!((app.document.whole, app.document.roll), (true, 3.0));
    app.update(Tell::End);
    assert_eq!(app.document, before);
    app.update(About::Story(vec![rolled.clone(), web::content::story::shipped()[0].clone()]));
    let link = web::link::write(&app.document);
    let (back, faults) = web::link::read(&link).expect("a link");
    assert_eq!((back.story, faults), (app.document.story.clone(), Vec::new()));
    let old = link.replace("&s0.axle=both_3", "");
    assert_ne!(old, link);
    let (back, faults) = web::link::read(&old).expect("a link");
    assert_eq!((back.story[0].whole, back.story[0].roll, faults), (false, 0.0, Vec::new()));
}

/// A note as long as a file may have is not cut by being edited.
#[test]
fn a_long_note_can_be_edited() {
    let mut app = app();
    let note = "é".repeat(1_999);
    app.update(About::Note(note.clone()));
    assert_eq!(app.document.layout.note, note);
    assert_eq!(kernel::validate(&app.document.layout), []);
    let markup = include_str!("../../../web/parts/title_block.html");
    let area = markup.split("<textarea id=\"note\"").nth(1).expect("a note").split('>').next().expect("its end");
    assert!(area.contains(&format!("maxlength=\"{}\"", kernel::LONGEST_NOTE)), "{area}");
}

/// An edit is a function of the document: it leaves the one it is given as it is, and what it refuses is a value, not a sentence.
#[test]
fn an_edit_gives_another_document_or_a_refusal() {
    let mut app = app();
    app.update(Point::Lock(PointId::UpperFrontOuter, [true; 3]));
    let (before, good) = (app.document.clone(), &app.study.good);
    let on = |edit: Edit| edit.on(&app.document, good);
    let moved = on(Point::Move(PointId::TrackRodOuter, Vec3::new(-131.0, 690.0, 300.0)).into()).expect("it may move");
    assert_eq!((moved.moved, moved.kept), (Some(PointId::TrackRodOuter), Vec::new()));
    assert_eq!(moved.document.layout.point(PointId::TrackRodOuter), Some(Vec3::new(-131.0, 690.0, 300.0)));
    let refused = |edit: Edit| on(edit).err().expect("a refusal");
    assert!(matches!(
        refused(Point::Move(PointId::UpperFrontOuter, Vec3::zeros()).into()),
        Refusal::Fixed { point: PointId::UpperFrontOuter, exercise: None }
    ));
    let Refusal::Coordinates(beyond) = refused(Point::Place(PointId::TrackRodOuter, Vec3::y() * 1e5).into()) else {
        panic!("it lies beyond")
    };
    let [one] = beyond[..] else { panic!("one coordinate") };
    assert_eq!((one.point, one.axis, one.value, one.range), (PointId::TrackRodOuter, 1, 1e5, [-1e4, 1e4]));
    let Refusal::Problems(problems) = refused(Part::Stops(Some(Stops { bump: -1.0, rebound: 10.0 })).into()) else {
        panic!("the layout has a problem")
    };
    assert!(matches!(problems[..], [kernel::Problem::Range(_, -1.0, ..)]), "{problems:?}");
    let Refusal::Freedom { freedom, value, most } = refused(Stand::Typed(Freedom::Ride, 500.0).into()) else {
        panic!("it goes not so far")
    };
    assert_eq!((freedom, value, most), (Freedom::Ride, 500.0, 200.0));
    let Refusal::Roll(roll) = refused(Stand::Travels(200.0, -200.0).into()) else { panic!("it rolls too far") };
    assert!(roll.abs() > 5.0, "{roll}");
    assert_eq!(app.document, before);
}

/// What panes ask for is worked out once, and forgotten when anything happens.
#[test]
fn what_is_asked_is_of_the_present_state() {
    let mut app = app();
    app.update(Show::Loads(Loads { case: Case::Of(1), ..app.document.loads }));
    let force = |app: &App| app.members()[0].now.expect("a force");
    let standing = force(&app);
    assert!(std::ptr::eq(app.members(), app.members()), "not worked out again");
    app.update(Show::Loads(Loads { case: Case::Of(2), ..app.document.loads }));
    assert_ne!(force(&app), standing);
    let here = app.riding().expect("a spring carries it");
    let travel = app.settles_on(here.spring).expect("it stands");
    assert!(
        (travel - app.study.good.rest.travel).abs() < 0.01,
        "its own spring carries the car where it stands: {travel}"
    );
    let softer = kernel::Springing { rate: 0.8 * here.spring.rate, ..here.spring };
    assert!(app.settles_on(softer).is_some_and(|travel| travel > 1.0), "the car sits lower");
    app.update(Stand::Travel(40.0));
    assert_ne!(app.riding().expect("it does there").rate, here.rate);
}
