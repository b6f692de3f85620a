//! Asked, not told: how little is solved while a joint is dragged, whatever of the page is open. What is counted are the runs of Newton's method:
//! every call of the pose solver is one, or more where the way takes steps.

use kernel::{
    Change, LeftOrRight, Member, PointId, READINGS, Reading, Sides, Snapshot, Stance, Subject, Vec3, Whole, newton_runs,
};
use web::app::{App, FOLDED, Fold, Hand};
use web::content::demos::{first, layout};
use web::document::{Case, Document, Hands, Loads, Over};
use web::drawing::{Arrangement, Sheet, draw};
use web::plot::{Plot, sparkline};
use web::study::loaded;

/// The drawing, the table of readings and the curves: what the panes of the sheet ask of the state.
fn sheet(app: &App) {
    let paper = Sheet::fit([1440.0, 900.0], Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture());
    assert!(!draw(&app.picture(), &paper).items.is_empty());
    let good = &app.study.good;
    for reading in READINGS.iter().filter(|reading| app.unfolds(reading.group)) {
        let _ = (good.value(reading), app.study.beside(reading, app.document.compared.is_some()));
        if reading.subject() != Subject::Axle {
            let _ = sparkline(good, reading, [40.0, 16.0]);
        }
    }
    for column in &app.document.pinned {
        let reading = Reading::named(column).expect("a pinned reading");
        assert!(Plot::new(&app.study, &app.document, reading).is_some(), "{column}");
    }
    let _ = good.whole.as_ref().map(|[now, _]| now.braking());
}

/// What the pane of loads asks with all of it open.
fn loads(app: &App) {
    assert!(app.told_load().is_some());
    let _ = loaded::remarks(&app.study.good, &app.document);
    assert!(!app.moments_elsewhere().is_empty());
    let _ = (app.members(), app.side_over_travel(), app.shaft_difference());
    assert!(!app.study.good.swings().is_empty());
    let spring = app.riding().expect("it carries").spring;
    let _ = app.settles_on(spring);
}

/// The most that one event of a drag solves, with what is asked for once it has taken effect.
fn most(mut app: App, ask: impl Fn(&App)) -> u64 {
    ask(&app);
    let id = PointId::UpperFrontOuter;
    let at = app.study.good.place(id).expect("four arms have it");
    app.update(Hand::Hold);
    let mut most = 0;
    for step in 1..=20 {
        let before = newton_runs();
        app.update(Hand::Drag(id, at + Vec3::new(0.1, 0.5, -0.3) * f64::from(step)));
        ask(&app);
        assert_eq!(app.study.trouble, None);
        most = most.max(newton_runs() - before);
    }
    most
}

/// The first visit's axle at a place off the middle, where nothing is one and the same.
fn app(change: impl FnOnce(&mut Document)) -> App {
    let mut document = Document { travel: 20.0, rack: 15.0, ..Document::of(first()) };
    change(&mut document);
    App::new(document, Vec::new())
}

/// Of the first visit, less than 150; with all that can be open at once, less than three times as much.
#[test]
fn an_event_solves_what_is_shown_and_no_more() {
    let first_visit = most(App::new(Document::of(first()), Vec::new()), sheet);
    assert!(first_visit < 150, "first visit: {first_visit}");
    let moved = most(app(|_| ()), sheet);
    assert!(moved < 150, "first visit, with travel and rack: {moved}");
    let everything = |document: &mut Document| {
        (document.whole, document.roll, document.compared) = (true, 1.0, layout(1));
        document.pinned.extend(["kingpin_inclination_deg", "axle_roll_centre_height_mm"]);
    };
    let everything = most(app(everything), sheet);
    assert!(everything < 400, "whole axle, compared axle, all curves: {everything}");
    let both = most(app(|document| (document.whole, document.over) = (true, Over::Roll)), sheet);
    assert!(both < 400, "both wheels over roll: {both}");
    // Hands that keep lengths on a car whose sides differ: both wheels settle anew.
    let built = |document: &mut Document| {
        (document.whole, document.hands) = (true, Hands::Build);
        document.layout.changes.set(Sides::One(LeftOrRight::Right), Change::Length(Member::TrackRod), 2.0);
    };
    let built = most(app(built), sheet);
    assert!(built < 400, "lengths kept, both wheels, sides that differ: {built}");
    let loaded = app(|document| document.loads = Loads { case: Case::Of(1), ..document.loads });
    let under_load = most(loaded, |app| {
        sheet(app);
        loads(app);
    });
    assert!(under_load < 300, "Loads, all of it open: {under_load}");
}

/// What a rig finds and what gives way is solved once its group is opened, and once for table and curve; a group that is folded again costs nothing.
#[test]
fn a_folded_group_solves_nothing() {
    let first_visit = || App::new(Document::of(first()), Vec::new());
    let folded = most(first_visit(), sheet);
    let mut again = first_visit();
    for group in FOLDED {
        again.update(Fold(group));
        assert!(again.unfolds(group));
        again.update(Fold(group));
    }
    assert_eq!(most(again, sheet), folded);
    let opened = |document: &mut Document, groups: &[kernel::Group]| {
        let mut app = App::new(document.clone(), Vec::new());
        groups.iter().for_each(|group| app.update(Fold(*group)));
        most(app, sheet)
    };
    let mut document = Document::of(first());
    let rig = opened(&mut document, &[kernel::Group::Rig]);
    // Now, at rest and 13 places along the curve, each swept in about ten runs.
    assert!(rig > folded + 15 * 4 && rig < folded + 15 * 15, "{rig} and {folded}");
    assert_eq!(opened(&mut document, &[kernel::Group::Compliance]), folded, "nothing of it gives way");
    document.pinned.push("caster_sweep_deg");
    assert_eq!(opened(&mut document, &[kernel::Group::Rig]), rig, "table and curve share");
    // Over steering one sweep serves a whole curve: now, along the curve and along the faint one.
    document.over = Over::Steering;
    let with = most(App::new(document.clone(), Vec::new()), sheet);
    document.pinned.pop();
    let without = most(App::new(document, Vec::new()), sheet);
    assert!(with > without && with < without + 3 * 15, "{with} and {without}");
}

/// What is solved coarsely under a hand is solved as ever once it lets go, also where the last place can't be assembled.
#[test]
fn a_hand_that_lets_go_leaves_fine_curves() {
    for target in [Vec3::new(1.3, 671.0, 655.0), Vec3::new(0.0, -9_000.0, 0.0)] {
        let mut app = app(|document| (document.whole, document.over) = (true, Over::Roll));
        app.update(Hand::Hold);
        app.update(Hand::Drag(PointId::UpperFrontOuter, Vec3::new(1.3, 670.5, 655.0)));
        assert_eq!(app.study.good.over_whole().len(), 13);
        let held = app.study.good.swings().to_vec();
        app.update(Hand::Drag(PointId::UpperFrontOuter, target));
        app.update(Hand::Release);
        let good = &app.study.good;
        let document = Document { layout: good.layout().clone(), ..app.document.clone() };
        let alone = App::new(document, Vec::new());
        let read = |app: &App| -> Vec<(f64, Option<f64>)> {
            let camber = Reading::named("camber_road_left_deg").expect("a reading").value;
            app.study.good.over_whole().iter().map(|(x, whole)| (*x, camber(&Snapshot::both(whole)))).collect()
        };
        assert_eq!(read(&app).len(), 31);
        assert_eq!(read(&app), read(&alone));
        assert_eq!(good.swings(), alone.study.good.swings());
        assert_ne!(good.swings(), held);
    }
}

/// What stances share because it depends on the rack alone is what each would find alone.
#[test]
fn readings_along_a_curve_are_those_of_each_place_alone() {
    for over in [Over::Roll, Over::Steering] {
        let app = app(|document| {
            (document.whole, document.over) = (true, over);
            document.pinned = vec!["kerb_circle_m"];
        });
        let (good, document) = (&app.study.good, &app.document);
        for (x, whole) in good.over_whole() {
            let stance = match over {
                Over::Roll => Stance { roll: *x, travel: document.travel, rack: document.rack },
                _ => Stance { roll: document.roll, travel: document.travel, rack: *x },
            };
            let alone = Whole::at(&good.axle, stance, &good.axle.at_rest()).expect("a position");
            for reading in READINGS.iter().filter(|reading| reading.subject() == Subject::Axle) {
                let [along, alone] = [whole, &alone].map(|whole| (reading.value)(&Snapshot::both(whole)));
                let same = along.zip(alone).map_or(along == alone, |(a, b)| (a - b).abs() <= SAME * b.abs().max(1.0));
                assert!(same, "{} at {x}: {along:?}, alone {alone:?}", reading.column);
            }
        }
    }
}

/// Two ways to one position differ by the noise of a solved one (1e-11 mm), which the slope of the motion ratio and far centres multiply.
const SAME: f64 = 1e-6;
