//! What gives way on the page: edits and their refusals, what the prepared axles and the story tell, what is drawn and told of loads.

use kernel::{Anchor, Bush, Member, Mount, PointId, Reading, Subframe, SubframeMount, Vec3};
use tests::{DEMOS, demo, near};
use web::app::{App, Hand, Part, Show, Soften, Step};
use web::content::racks::{PREPARED, STEER};
use web::content::story::shipped;
use web::document::lesson::Lesson;
use web::document::{Case, Document, Loads};
use web::drawing::{Arrangement, Grab, Item, Sheet, Stroke, View, draw};
use web::exchange::picture::picture;
use web::link;

fn app(name: &str) -> App {
    App::new(Document::of(demo(name)), Vec::new())
}

fn steer(app: &App) -> f64 {
    app.study.good.value(Reading::named(STEER).expect("a reading")).expect("it gives way")
}

/// The numbers told are the solver's: their sign by the words, their size to the digits told, and what is left of them.
#[test]
fn the_prepared_axles_and_the_story_tell_what_is_solved() {
    let solved = PREPARED.each_ref().map(|axle| {
        let document = axle.document().expect("an axle");
        let text = link::write(&document);
        let (read, faults) = link::read(&text).expect("a link");
        assert_eq!((&read, faults.as_slice()), (&document, &[][..]), "{}", axle.name);
        steer(&App::new(read, Vec::new()))
    });
    let told = |words: &str, value: f64| {
        let degrees = format!("{:.2}°", value.abs());
        assert!(words.contains(&degrees), "{words}: {value}");
        if words.contains("out of the bend") {
            assert!(value > 0.0);
        }
        if words.contains("into the bend") {
            assert!(value < 0.0);
        }
    };
    for (axle, value) in PREPARED.iter().zip(solved) {
        told(&axle.layout().expect("an axle").note, value);
    }
    let shots = shipped();
    let [.., ahead, behind, bolted] = &shots[..] else { panic!("shots") };
    told(&ahead.caption, solved[0]);
    told(&behind.caption, solved[2]);
    told(&bolted.caption, solved[0]);
    told(&bolted.caption, solved[1]);
    near(solved[1] / solved[0], 0.5, 0.05, "half is left");
    assert_eq!(bolted.layout.subframe, PREPARED[1].layout().expect("an axle").subframe);
    assert!(solved[3].abs() < 0.2 * solved[2].abs(), "little is left behind");
}

#[test]
fn bushes_come_and_go_in_steps_to_undo() {
    for name in DEMOS {
        let mut app = app(name);
        let before = app.document.clone();
        app.update(Soften::Usual(true));
        let usual = before.layout.usual_stiffness();
        assert_eq!(app.document.layout.stiffness, usual, "{name}");
        assert!(app.notices.is_empty());
        app.update(Soften::Bush(Anchor::LowerRear, None));
        assert_eq!(app.document.layout.stiffness.get(&Anchor::LowerRear), None);
        app.update(Step::Undo);
        app.update(Soften::Usual(false));
        assert_eq!(app.document, before);
    }
}

#[test]
fn bad_values_are_said_and_not_taken() {
    let mut app = app("four-arm");
    app.update(Soften::Subframe(Some(Subframe::usual(&app.document.layout, SubframeMount::RUBBER))));
    let before = app.document.clone();
    let rubber = |radial| Bush { radial: Some(radial), axial: Some(900.0), ..Bush::default() };
    let mount = before.layout.subframe.as_ref().expect("one").mounts[0];
    for (edit, words) in [
        (Soften::Bush(Anchor::LowerFront, Some(rubber(-5.0))), "-5 N/mm"),
        (Soften::Bush(Anchor::LowerFront, Some(rubber(0.0))), "is 0 N/mm"),
        (Soften::Bush(Anchor::LowerFront, Some(rubber(f64::INFINITY))), "must be between"),
        (Soften::Bush(Anchor::StrutTop, Some(rubber(900.0))), "does not have"),
        (Soften::Mount(1, None), "it needs two at least"),
        (Soften::Mount(1, Some(SubframeMount { at: mount.at + Vec3::y() * 50.0, ..mount })), "one line"),
        (Soften::Mount(0, Some(SubframeMount { stiffness: Vec3::new(3e3, 3e3, 0.0), ..mount })), "is 0 N/mm"),
        (Soften::Tightened(Member::LowerFront, Some(900.0)), "900"),
    ] {
        app.notices.clear();
        app.update(edit);
        assert_eq!(app.document, before, "{words}");
        assert_eq!(app.notices.len(), 1, "{words}");
        assert!(app.notices[0].contains(words), "{}: {words}", app.notices[0]);
    }
    let lesson = Some(Lesson { begin: 1, ..Lesson::default() });
    let mut exercise = App::new(Document { lesson, ..before.clone() }, Vec::new());
    exercise.update(Soften::Usual(true));
    assert!(exercise.document.layout.stiffness.is_empty() && !exercise.notices.is_empty());
}

/// The rack goes with its housing and what carries it; the track rod keeps what it then can have.
#[test]
fn an_axle_without_a_rack_has_none_that_gives_way() {
    let mut app = app("four-arm");
    app.update(Soften::Usual(true));
    app.update(Soften::Subframe(Some(Subframe::usual(&app.document.layout, SubframeMount::RUBBER))));
    app.update(Soften::Carry(Anchor::UpperFront, true));
    let steered = app.document.layout.clone();
    app.update(Part::Rack(None));
    assert!(app.document.layout.rack.is_none(), "{:?}", app.notices);
    assert_eq!(app.document.layout.stiffness.get(&Anchor::Rack), None);
    assert!(!app.document.layout.subframe_carries(Anchor::Rack));
    app.update(Part::Rack(steered.rack.clone()));
    assert!(app.document.layout.rack.is_some(), "{:?}", app.notices);
}

#[test]
fn what_the_subframe_carries_and_where_the_rack_is() {
    let mut app = app("wishbone-over-arms");
    app.update(Soften::Usual(true));
    app.update(Soften::Subframe(Some(Subframe::usual(&app.document.layout, SubframeMount::RUBBER))));
    let on = steer(&app);
    app.update(Soften::RackOn(Mount::Body));
    assert!(!app.document.layout.subframe_carries(Anchor::Rack));
    assert!(steer(&app) > on + 0.05, "{} after {on}", steer(&app));
    app.update(Soften::Carry(Anchor::UpperFront, true));
    assert!(app.document.layout.subframe_carries(Anchor::UpperFront));
    app.update(Soften::RackOn(Mount::Subframe));
    assert!(app.document.layout.subframe_carries(Anchor::Rack), "also with a list of its own");
    app.update(Soften::Carry(Anchor::UpperFront, false));
    let subframe = app.document.layout.subframe.as_ref().expect("one");
    assert_eq!(subframe.carries, None, "what it carries anyway needs no list");
}

/// Mounts are dragged like joints: one step, in hundredths, not across the centre plane; drawn with a handle in each view.
#[test]
fn mounts_are_dragged_in_every_view() {
    let mut app = app("four-arm");
    app.update(Soften::Subframe(Some(Subframe::usual(&app.document.layout, SubframeMount::RUBBER))));
    let before = app.document.clone();
    for view in View::PLANE {
        let sheet = Sheet::fit([600.0, 600.0], Arrangement::One(view), &app.picture());
        let scene = draw(&app.picture(), &sheet);
        let mounts = scene.handles.iter().filter(|handle| matches!(handle.grab, Grab::Mount(_)));
        assert_eq!(mounts.count(), 2, "{view:?}");
    }
    app.update(Hand::Hold);
    app.update(Hand::Mount(0, Vec3::new(150.004, 300.0, 260.0)));
    app.update(Hand::Mount(0, Vec3::new(151.004, -3.0, 261.0)));
    app.update(Hand::Release);
    let at = |app: &App| app.document.layout.subframe.as_ref().expect("one").mounts[0].at;
    assert_eq!(at(&app), Vec3::new(151.0, 0.0, 261.0));
    app.update(Step::Undo);
    assert_eq!(app.document, before);
}

/// All that is lettered in the front view, a line each.
fn words(app: &App) -> String {
    fn texts(items: &[Item], all: &mut String) {
        for item in items {
            match item {
                Item::Text(text) => *all += &format!("{}\n", text.text),
                Item::Clip { items, .. } => texts(items, all),
                Item::Path { .. } => {}
            }
        }
    }
    let sheet = Sheet::fit([700.0, 700.0], Arrangement::One(View::Front), &app.picture());
    let mut all = String::new();
    texts(&draw(&app.picture(), &sheet).items, &mut all);
    all
}

/// Under a load the axle is drawn as it gives way, by a factor that is said; a rigid one is not.
#[test]
fn a_load_deflects_the_drawing_and_is_told() {
    let mut app = app("wishbone-over-arms");
    let mut loads = app.document.loads;
    loads.case = Case::Of(2);
    app.update(Show::Loads(loads));
    assert!(app.given().is_empty() && !words(&app).contains("gives way"));
    app.update(Soften::Usual(true));
    assert!(words(&app).contains("gives way ×"), "{}", words(&app));
    let given = app.given();
    assert!(given.len() >= 12);
    assert_eq!(given[0].change.as_ref().expect("standing").toe, 0.0, "standing changes nothing");
    assert!(given.iter().skip(1).any(|given| given.change.as_ref().is_some_and(|change| change.toe.abs() > 0.01)));
}

/// A mount in hand is ringed and lettered, moves by arrow keys in steps to undo, and is spoken of by what hands feel; a joint taken lets it go, and
/// so does a subframe that goes.
#[test]
fn a_mount_is_taken_and_moved_like_a_joint() {
    let mut app = app("wishbone-over-arms");
    app.update(Soften::Usual(true));
    app.update(Soften::Subframe(Some(Subframe::usual(&app.document.layout, SubframeMount::RUBBER))));
    let before = app.document.clone();
    app.update(Hand::Select(Some(PointId::LowerFrontInner)));
    app.update(Hand::SelectMount(1));
    assert_eq!(app.selected, None);
    let at = before.layout.subframe.as_ref().expect("one").mounts[1].at;
    app.update(Hand::Nudge(Vec3::new(0.0, 10.0, 0.0)));
    app.update(Hand::Nudge(Vec3::new(0.0, 0.0, -0.1)));
    assert_eq!(app.mount_in_hand(), Some((1, at + Vec3::new(0.0, 10.0, -0.1))));
    assert!(app.spoken().contains("steer"), "{}", app.spoken());
    assert!(words(&app).contains("mount 2\n"), "{}", words(&app));
    app.update(Step::Undo);
    app.update(Step::Undo);
    assert_eq!(app.document, before);
    app.update(Hand::Select(Some(PointId::LowerFrontInner)));
    assert_eq!(app.mount_in_hand(), None);
    app.update(Hand::SelectMount(1));
    app.update(Soften::Subframe(None));
    assert_eq!(app.mount_in_hand(), None);
    app.update(Hand::Nudge(Vec3::y()));
    assert!(app.notices.is_empty() && app.document.layout.subframe.is_none());
}

/// The rods of a drawing, from what lies behind: where each is, whether it is filled, and how wide its line is.
fn rods(items: &[Item]) -> Vec<(String, bool, f64)> {
    let mut all = Vec::new();
    for item in items {
        match item {
            Item::Path { steps, fill, stroke: Some(stroke) } if steps.len() == 19 => {
                all.push((format!("{steps:?}"), fill.is_some(), stroke.width));
            }
            Item::Clip { items, .. } => all.append(&mut rods(items)),
            _ => {}
        }
    }
    all
}

/// While a load deflects the axle, each rod lies in a narrow line, unfilled, where it was, beneath one in full that has moved: in every view, of both
/// wheels, in the picture that is passed on.
#[test]
fn beneath_what_gives_way_the_rigid_axle_lies_in_narrow_lines() {
    let mut app = app("wishbone-over-arms");
    app.update(Soften::Usual(true));
    let mut loads = app.document.loads;
    loads.case = Case::Of(2);
    for whole in [false, true] {
        app.update(Show::Whole(whole));
        let scenes = |app: &App| {
            let one = View::ALL.map(Arrangement::One).into_iter();
            let all = one.chain([Arrangement::Cross { drawer: [416.0, 348.0] }]);
            let mut scenes: Vec<_> = all
                .map(|arrangement| draw(&app.picture(), &Sheet::fit([900.0, 800.0], arrangement, &app.picture())))
                .collect();
            scenes.push(picture(app, "link", None));
            scenes.into_iter().map(|scene| rods(&scene.items)).collect::<Vec<_>>()
        };
        app.update(Show::Loads(Loads { case: Case::None, ..loads }));
        let rigid = scenes(&app);
        app.update(Show::Loads(loads));
        for (at, (rigid, under)) in rigid.into_iter().zip(scenes(&app)).enumerate() {
            assert!(rigid.len() >= 5 && rigid.iter().all(|(_, filled, width)| *filled && *width > Stroke::NARROW));
            for (rod, ..) in &rigid {
                let found: Vec<_> = under.iter().filter(|(steps, ..)| steps == rod).collect();
                assert!(
                    !found.is_empty() && found.iter().all(|(_, filled, width)| !filled && *width <= Stroke::NARROW),
                    "{found:?}"
                );
            }
            // From the side one wheel hides the other.
            let least = if whole && View::ALL.get(at) != Some(&View::Side) { 10 } else { 5 };
            assert!(under.iter().filter(|(_, filled, width)| *filled && *width > Stroke::NARROW).count() >= least);
            // One view alone; of several each has its own order.
            if at < View::ALL.len() {
                assert!(under.is_sorted_by_key(|(_, filled, _)| *filled), "all narrow ones first");
            }
        }
    }
}

/// A bush tightened in droop lifts the car; the pane's table has the twist where it was tightened as none.
#[test]
fn a_bush_tightened_in_droop_is_told() {
    let mut app = app("double-wishbone");
    assert!(app.twisted().is_none());
    app.update(Soften::Usual(true));
    let at_ease = app.twisted().expect("bushes").clone();
    near(at_ease.settles.expect("it stands"), 0.0, 1e-6, "tightened where the car stands");
    app.update(Soften::Tightened(Member::LowerFront, Some(-60.0)));
    let twisted = app.twisted().expect("bushes");
    let front = twisted.all.iter().find(|bush| bush.anchor == Anchor::LowerFront).expect("it");
    assert_eq!((front.tightened, front.along[0]), (-60.0, Some(0.0)));
    assert!(front.stands.expect("known").twist > 3.0);
    assert!(front.most() > Some(front.stands.expect("known").twist));
    assert!(twisted.settles.expect("it stands") < -0.1, "it stands higher");
    app.update(Step::Undo);
    assert_eq!(app.twisted(), Some(&at_ease));
}
