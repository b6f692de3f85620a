//! The workshop: hands that keep lengths, parts that are changed, readings that are set, each one step to undo.

use kernel::{Adjusted, Adjuster, Change, LeftOrRight, Member, PointId, Sides, Vec3};
use web::app::{App, Build, Edit, Hand, Point, Show, Stand, Step};
use web::content::demos::{DEMOS, layout};
use web::document::{Document, Hands};
use web::drawing::{Arrangement, Item, Sheet, View, draw};
use web::study::setting::{SETTABLE, Wish};
use web::text::change::{changes, worked};

const ROD: Change = Change::Length(Member::TrackRod);
const LEFT: Sides = Sides::One(LeftOrRight::Left);
const RIGHT: Sides = Sides::One(LeftOrRight::Right);

fn demo(index: usize) -> App {
    App::new(Document::of(layout(index).expect("a demo")), Vec::new())
}

fn build(app: &mut App, build: Build) {
    app.update(Edit::Build(build));
}

fn stands(app: &App, side: LeftOrRight, column: &str) -> f64 {
    app.standing(Sides::One(side), column).expect("a reading")
}

/// A lowered car, left and right alike: one edit brings the design's toe back on both wheels, one undo takes that back.
#[test]
fn toe_is_reset_after_lowering() {
    for index in 0..DEMOS.len() {
        let mut app = demo(index);
        let design = app.document.layout.wheel.toe;
        build(&mut app, Build::Change(Sides::Both, Change::Ride, 30.0));
        let lowered = stands(&app, LeftOrRight::Left, "toe_deg");
        build(&mut app, Build::ResetToe);
        for side in LeftOrRight::BOTH {
            let toe = stands(&app, side, "toe_deg");
            // A link carries thousandths of a mm, which at an arm of 100 mm are 0.0006°.
            assert!((toe - design).abs() < 1e-3, "demo {index}, {}: {toe} for {design}", side.name());
        }
        let changes = &app.document.layout.changes;
        assert_eq!([LEFT, RIGHT].map(|side| changes.get(side, ROD)), [0.0; 2], "alike is said once");
        if (lowered - design).abs() > 1e-3 {
            app.update(Step::Undo);
            assert_eq!(app.document.layout.changes.iter().count(), 1, "one step");
            assert_eq!(stands(&app, LeftOrRight::Left, "toe_deg"), lowered);
        }
    }
}

/// Where the wheels differ each gets its own.
#[test]
fn toe_is_reset_on_either_wheel() {
    let mut app = demo(4);
    build(&mut app, Build::Change(LEFT, Change::Length(Member::UpperFront), 3.0));
    build(&mut app, Build::Change(RIGHT, Change::CarrierToe, 0.2));
    let design = app.document.layout.wheel.toe;
    build(&mut app, Build::ResetToe);
    for side in LeftOrRight::BOTH {
        assert!((stands(&app, side, "toe_deg") - design).abs() < 1e-3, "{}", side.name());
    }
    let changes = &app.document.layout.changes;
    assert!(changes.get(LEFT, ROD) * changes.get(RIGHT, ROD) != 0.0);
    assert_eq!(changes.get(Sides::Both, ROD), 0.0);
    // Rods that may go hardly anywhere: it is said, and nothing changes.
    let mut short = app.document.clone();
    short.layout.changes = short.layout.changes.taken_back();
    short.layout.changes.set(Sides::Both, Change::CarrierToe, 2.0);
    short.layout.changes.adjusters.push(Adjuster { range: [-0.5, 0.5], ..Adjuster::of(ROD) });
    let mut app = App::new(short.clone(), Vec::new());
    build(&mut app, Build::ResetToe);
    assert_eq!(app.document, short);
    assert!(app.notices[0].contains("don’t reach"), "{:?}", app.notices);
}

/// What is proposed is what then is: the reading, what is left over, and every reading beside it.
#[test]
fn a_proposal_is_told_before_it_is_taken() {
    for index in [0, 1, 4] {
        for column in SETTABLE {
            let mut app = demo(index);
            build(&mut app, Build::Change(Sides::Both, Change::Ride, 20.0));
            let tools = app.tools_for(column);
            assert!(!tools.is_empty(), "{column} of demo {index}");
            let now = stands(&app, LeftOrRight::Left, column);
            let wanted = now + if column == "bump_steer_deg_per_mm" { 0.001 } else { 0.1 };
            let mut met = 0;
            for tool in tools {
                let wish = Wish { sides: LEFT, column, wanted, by: tool.adjuster };
                let Some(proposal) = app.proposal(&wish) else { continue };
                assert_eq!(stands(&app, LeftOrRight::Left, column), now, "nothing is done yet");
                build(&mut app, Build::All(Box::new(proposal.set.changes.clone())));
                let then = stands(&app, LeftOrRight::Left, column);
                assert!((then - wanted + proposal.set.left_over).abs() < 1e-3, "{}: {then} for {wanted}", tool.name);
                for (quantity, [before, after]) in &proposal.effects {
                    let column = quantity.column;
                    let (before, after) = (before.expect("a reading"), after.expect("a reading"));
                    assert!((after - stands(&app, LeftOrRight::Left, column)).abs() < 2e-3, "{column}");
                    app.update(Step::Undo);
                    assert!((before - stands(&app, LeftOrRight::Left, column)).abs() < 1e-9, "{column} before");
                    app.update(Step::Redo);
                }
                met += usize::from(proposal.set.left_over.abs() < 1e-6);
                app.update(Step::Undo);
            }
            assert!(met > 0, "{column} of demo {index} can be set by something");
        }
    }
}

/// Whole shims go in, and no adjuster goes beyond its range.
#[test]
fn adjusters_keep_their_range_and_their_shims() {
    let mut document = Document::of(layout(4).expect("a demo"));
    let shims = Adjuster {
        set: Adjusted::Along(PointId::UpperFrontInner, Vec3::new(0.0, -1.0, 0.0)),
        range: [0.0, 8.0],
        pitch: None,
        step: Some(1.0),
    };
    document.layout.changes.adjusters.push(shims.clone());
    let mut app = App::new(document, Vec::new());
    assert_eq!(app.tools().len(), 6, "five members and an adjuster");
    build(&mut app, Build::Adjust(LEFT, shims.clone(), 2.3));
    assert_eq!(app.document.layout.changes.get(LEFT, Change::Joint(PointId::UpperFrontInner, 1)), -2.0);
    assert_eq!(worked(&shims, 2.0), "+2 × 1 mm");
    assert_eq!(worked(&Adjuster { step: None, pitch: Some(1.5), ..shims.clone() }, -3.0), "−2.00 turns");
    let before = app.document.clone();
    build(&mut app, Build::Adjust(LEFT, shims, 9.0));
    assert_eq!(app.document, before);
    assert!(app.notices[0].contains("from 0 to 8"), "{:?}", app.notices);
}

/// Lengths as a calliper finds them, and every change in words, taken back by itself.
#[test]
fn changes_are_listed_and_taken_back_one_by_one() {
    let mut app = demo(4);
    build(&mut app, Build::Change(Sides::Both, ROD, 1.5));
    build(&mut app, Build::Change(RIGHT, ROD, -0.5));
    build(&mut app, Build::Change(Sides::Both, Change::Ride, 30.0));
    build(&mut app, Build::Change(LEFT, Change::CarrierCamber, -0.25));
    let says = [
        "length of the track rod +1.50 mm, both wheels",
        "ride height +30.00 mm",
        "carrier’s camber −0.25°, left wheel",
        "length of the track rod −0.50 mm, right wheel",
    ];
    assert_eq!(changes(&app.document.layout), says);
    let rod = app.tools().iter().find(|tool| tool.name == "track rod").expect("it has one").clone();
    let at = |id| app.document.layout.point(id).expect("a joint");
    let design = (at(PointId::TrackRodOuter) - at(PointId::TrackRodInner)).norm();
    let [left, right] = rod.built(&app.document.layout).expect("a length");
    assert!((left - design - 1.5).abs() < 1e-9 && (right - design - 1.0).abs() < 1e-9, "{left} {right}");
    build(&mut app, Build::Change(RIGHT, ROD, 0.0));
    assert_eq!(changes(&app.document.layout), says[..3]);
    let all = app.document.layout.changes.taken_back();
    build(&mut app, Build::All(Box::new(all)));
    assert!(changes(&app.document.layout).is_empty());
}

/// An outer joint moved by 10 mm: the design keeps the wheel's camber at rest, a built car does not. The drawing shows where it was, and says it.
#[test]
fn hands_keep_alignment_or_lengths() {
    let ball = PointId::UpperFrontOuter;
    let moved = |hands| {
        let mut app = demo(4);
        app.update(Show::Hands(hands));
        let to = app.study.good.place(ball).expect("four arms have it") + Vec3::new(0.0, 10.0, 0.0);
        app.update(Hand::Drag(ball, to));
        app
    };
    let drawn = |app: &App| {
        let sheet = Sheet::fit([1024.0, 860.0], Arrangement::One(View::Front), &app.picture());
        draw(&app.picture(), &sheet).items
    };
    let (design, built) = (moved(Hands::Design), moved(Hands::Build));
    let rest = design.document.layout.wheel.camber;
    assert!((stands(&design, LeftOrRight::Left, "camber_deg") - rest).abs() < 1e-9);
    assert!((stands(&built, LeftOrRight::Left, "camber_deg") - rest).abs() > 0.3);
    let says = |app: &App| format!("{:?}", drawn(app)).contains("changed by");
    assert!(says(&built) && !says(&design));
    // The arrow goes when hands keep alignment: a line and its head.
    let mut other = moved(Hands::Build);
    other.update(Show::Hands(Hands::Design));
    let count = |app: &App| drawn(app).iter().map(inside).sum::<usize>();
    assert_eq!(count(&built), count(&other) + 2);
    other.update(Stand::AtRest);
    assert!(says(&other), "what a joint has different is said whatever hands keep");
}

/// A joint that is locked stays, whatever hands keep, and it is said; one locked coordinate stays alone.
#[test]
fn locks_hold_against_hands_that_keep_lengths() {
    let ball = PointId::UpperFrontOuter;
    let mut app = demo(4);
    app.update(Show::Hands(Hands::Build));
    let to = app.study.good.place(ball).expect("four arms have it") + Vec3::new(2.0, 5.0, 3.0);
    app.update(Point::Lock(ball, [true; 3]));
    let before = app.document.clone();
    app.update(Hand::Drag(ball, to));
    assert_eq!(app.document, before);
    assert!(app.notices.iter().any(|notice| notice.contains("locked")), "{:?}", app.notices);
    app.update(Point::Lock(ball, [false, true, false]));
    app.update(Hand::Drag(ball, to));
    let by = |axis| app.document.layout.changes.get(Sides::Both, Change::Joint(ball, axis));
    assert!(by(0) != 0.0 && by(1) == 0.0 && by(2) != 0.0);
}

fn inside(item: &Item) -> usize {
    if let Item::Clip { items, .. } = item { items.iter().map(inside).sum() } else { 1 }
}
