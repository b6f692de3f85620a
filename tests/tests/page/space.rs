//! Wheel space on the page, without a browser: work gives what the kernel gives, and a position is gone to in one step; gaps, boxes and the depth
//! of the arch are drawn, boxes edited, prepared pairs checked. Long because each of these is a story of its own.

use crate::work::answer;
use kernel::space::{Envelope, Grid, Pieces, Seen, Space};
use kernel::{Axle, Change, Group, Layout, LeftOrRight, Member, Obstacle, PointId, Reading, Sides, Solid, Vec3};
use std::rc::Rc;
use tests::{DEMOS, demo, near};
use web::app::{App, Bulk, Fold, Hand, Room, Show, Stand, Step};
use web::content::arches::PAIRS;
use web::content::bends;
use web::content::boxes::BEGINNINGS;
use web::content::demos;
use web::document::Document;
use web::document::lesson::Lesson;
use web::drawing::{Arrangement, Grab, Ink, Item, Scene, Sheet, Stroke, Text, View, depth, draw};
use web::input::pointer::{Contact, Interaction};
use web::link;
use web::plot::Plot;
use web::study::space::{Held, pair, saved};
use web::work::{Work, outlines, space};

/// The drawing of one view.
fn scene(app: &App, view: View) -> Scene {
    let sheet = Sheet::fit([900.0, 900.0], Arrangement::One(view), &app.picture());
    draw(&app.picture(), &sheet)
}

/// All texts and strokes of a drawing.
fn drawn(scene: &Scene) -> (Vec<Text>, Vec<(usize, Stroke)>) {
    fn walk(items: &[Item], texts: &mut Vec<Text>, strokes: &mut Vec<(usize, Stroke)>) {
        for item in items {
            match item {
                Item::Text(text) => texts.push(text.clone()),
                Item::Clip { items, .. } => walk(items, texts, strokes),
                Item::Path { steps, stroke, .. } => strokes.extend(stroke.map(|stroke| (steps.len(), stroke))),
            }
        }
    }
    let mut all = (Vec::new(), Vec::new());
    walk(&scene.items, &mut all.0, &mut all.1);
    all
}

fn lettered(scene: &Scene, words: &str) -> bool {
    drawn(scene).0.iter().any(|text| text.text == words)
}

fn strokes(scene: &Scene, like: impl Fn(&Stroke) -> bool) -> usize {
    drawn(scene).1.iter().filter(|(_, stroke)| like(stroke)).count()
}

/// The same layout with parts so thin that nothing of the demo meets anything.
fn thin(layout: Layout) -> Layout {
    Layout { solid: Some(Solid { spring: Some(20.0), half_shaft: Some(8.0), ..Solid::default() }), ..layout }
}

/// A layout with a box above the wheel, as far out as `y`: at 300 clear of the four arms, at 690 not.
fn with_box(name: &str, y: f64) -> Layout {
    let [from, to] = [Vec3::new(-100.0, y - 120.0, 650.0), Vec3::new(100.0, y, 800.0)];
    Layout { boxes: vec![Obstacle { name: "crate".into(), from, to, mirrored: None }], ..demo(name) }
}

#[test]
fn the_outlines_are_the_kernel_s_however_the_work_is_sliced() {
    // To the hundredth of a millimetre that an answer carries.
    const CARRIED: f64 = 0.0051;
    for name in ["strut", "five-rod-unsteered"] {
        let layout = demo(name);
        let task = outlines::task(&layout, LeftOrRight::Left, 15.0);
        let text = answer(&task, usize::MAX);
        assert_eq!(answer(&task, 1), text, "{name}");
        let read = outlines::read(&text);
        let should = Space::over(&Axle::new(&layout).expect("an axle"), LeftOrRight::Left, &Grid::usual(&layout));
        let views = [Seen::Front, Seen::Side, Seen::Plan];
        let all = views.map(|seen| (seen, 0.0)).into_iter().chain(views.map(|seen| (seen, 15.0)));
        for (lines, (seen, margin)) in read.tyre.iter().chain(&read.margin).zip(all) {
            let expected = should.outlines(seen, margin);
            assert_eq!(
                lines.iter().map(Vec::len).collect::<Vec<_>>(),
                expected.iter().map(Vec::len).collect::<Vec<_>>()
            );
            for (p, q) in lines.iter().flatten().zip(expected.iter().flatten()) {
                (0..3).for_each(|axis| near(p[axis], q[axis], CARRIED, name));
            }
        }
        let mut wide = Envelope::default();
        should.envelope().tyres().iter().for_each(|tyre| wide.add(&tyre.with_margin(15.0)));
        let litres = read.litres.expect("with the margin");
        near(litres, wide.litres(should.pieces().side_plane()), 1e-9, name);
        assert!(litres > should.litres(should.pieces().side_plane()) + 1.0, "{name}: {litres}");
    }
    assert!(Work::start("outlines\nleft 0\nnot a layout").is_err());
    let layout = demo("strut");
    let bare = outlines::read(&answer(&outlines::task(&layout, LeftOrRight::Left, 0.0), usize::MAX));
    assert!(bare.litres.is_none() && bare.margin.iter().all(Vec::is_empty));
}

/// While the pane is shown the smallest gap is dimensioned where it is to be seen, and where the tyre goes is drawn in the line of extreme positions,
/// paler while it is another car's; nothing of it stays when the pane is left.
#[test]
fn gap_and_outlines_are_drawn_while_the_pane_is_shown() {
    let mut app = App::new(Document::of(thin(demo("four-arm"))), Vec::new());
    let extreme = |opacity: f64| {
        move |stroke: &Stroke| {
            stroke.dash == Stroke::compared().dash && stroke.ink == Ink::Ink && stroke.opacity == opacity
        }
    };
    let bare = View::PLANE.map(|view| drawn(&scene(&app, view)).0.len());
    app.update(Room::Open(None));
    let gap = app.space().gaps[0].value;
    let [a, b] = app.space().nearest.expect("nothing meets at rest");
    near((a - b).norm(), gap, 0.1, "its ends");
    let words = format!("gap {}", app.document.units.length((a - b).norm()));
    assert!(View::PLANE.iter().any(|view| lettered(&scene(&app, *view), &words)), "{words}");
    assert_eq!(View::PLANE.map(|view| strokes(&scene(&app, view), extreme(1.0))), [0; 3]);
    let read = Rc::new(outlines::read(&answer(&outlines::task(&app.document.layout, LeftOrRight::Left, 0.0), 9)));
    for (old, opacity) in [(false, 1.0), (true, 0.35)] {
        app.update(Room::Open(Some((read.clone(), old))));
        for view in View::PLANE {
            assert!(strokes(&scene(&app, view), extreme(opacity)) >= 1, "{view:?}");
        }
    }
    assert!(!app.can_undo(), "what is drawn is no step");
    app.update(Room::Closed);
    assert_eq!(View::PLANE.map(|view| drawn(&scene(&app, view)).0.len()), bare);
}

/// Boxes are drawn with their names whatever is open, where the kernel has them; what meets is in the fault style while the pane is shown.
#[test]
fn boxes_are_drawn_and_what_meets_in_the_fault_style() {
    let fault = |stroke: &Stroke| stroke.ink == Ink::Fault;
    let mut app = App::new(Document::of(thin(with_box("four-arm", 300.0))), Vec::new());
    for view in View::PLANE {
        assert!(lettered(&scene(&app, view), "crate"), "{view:?}");
    }
    app.update(Room::Open(None));
    assert!(app.space().meeting.is_empty());
    assert_eq!(strokes(&scene(&app, View::Front), fault), 0);
    let mut app = App::new(Document::of(thin(with_box("four-arm", 690.0))), Vec::new());
    assert_eq!(strokes(&scene(&app, View::Front), fault), 0, "the pane is not shown");
    app.update(Room::Open(None));
    assert_eq!(app.space().nearest, None);
    let pieces = Pieces::of(&app.study.good.axle, LeftOrRight::Left);
    let least = pieces.least_gap(&app.study.good.now.position).expect("a gap");
    assert!(least.value <= 0.0);
    assert!(strokes(&scene(&app, View::Front), fault) >= 2, "both that meet");
}

#[test]
fn the_work_s_room_is_the_kernel_s_to_the_last_digit_however_it_is_sliced() {
    for name in DEMOS {
        let mut layout = demo(name);
        layout.changes.set(Sides::One(LeftOrRight::Right), Change::Length(Member::LowerFront), 1.25);
        for side in LeftOrRight::BOTH {
            let task = space::task(&layout, side);
            let text = answer(&task, usize::MAX);
            assert_eq!(answer(&task, 7), text, "{name}");
            let room = space::room(&layout, &text).expect("a room");
            let should = Space::over(&Axle::new(&layout).expect("an axle"), side, &Grid::usual(&layout));
            let plane = should.pieces().side_plane();
            assert_eq!([room.litres, room.turning], [should.litres(plane), should.turning_litres(plane)], "{name}");
            let through = should.pieces().through();
            let apart: Vec<_> = should.clearances().into_iter().filter(|one| !through.contains(&one.between)).collect();
            assert_eq!(room.clearances, apart, "{name}");
            assert_eq!(room.unreached, should.unreached().len(), "{name}");
            let reach: Vec<_> = should.reach().named().map(|(name, extreme)| (name.to_string(), extreme)).collect();
            assert_eq!(room.reach, reach, "{name}");
        }
    }
    assert_eq!(space::room(&demo("strut"), ""), None);
    assert!(Work::start("space\nleft\nnot a layout").is_err());
}

#[test]
fn where_a_gap_is_least_is_one_step_away_and_back() {
    let mut app = App::new(demos::opening(), Vec::new());
    let before = app.space().gaps.clone();
    assert!(before.windows(2).all(|two| two[0].value <= two[1].value), "the least first");
    app.update(Stand::At(20.0, 10.0));
    assert_eq!([app.document.travel, app.document.rack, app.document.roll], [20.0, 10.0, 0.0]);
    assert_ne!(app.space().gaps, before);
    app.update(Step::Undo);
    assert_eq!(app.space().gaps, before);
}

/// Each kind of box that can be added stands clear of everything at rest on every demo, under a name of its own, and goes through links and undo.
#[test]
fn boxes_to_begin_with_stand_clear_of_every_demo() {
    for name in DEMOS {
        let mut app = App::new(Document::of(demo(name)), Vec::new());
        let before = app.document.clone();
        for beginning in BEGINNINGS.iter().chain(&BEGINNINGS[..1]) {
            let count = app.document.layout.boxes.len();
            let one = beginning.on(&app.document.layout);
            app.update(Bulk::Box(count, Some(one)));
            assert!(app.notices.is_empty(), "{name}: {:?}", app.notices);
        }
        let boxes = &app.document.layout.boxes;
        let names: Vec<&str> = boxes.iter().map(|one| one.name.as_str()).collect();
        assert_eq!(names, ["engine", "gearbox", "body rail", "engine 2"]);
        let met = app.space().gaps.iter().find(|gap| {
            gap.between.iter().any(|piece| matches!(piece, kernel::space::Piece::Box(_))) && gap.value <= 5.0
        });
        assert_eq!(met, None, "{name}: {boxes:?}");
        let (read, faults) = link::read(&link::write(&app.document)).expect("a link");
        assert_eq!((&read, faults.as_slice()), (&app.document, &[][..]), "{name}");
        let file = Layout::from_json(&app.document.layout.to_json()).expect("a file");
        assert_eq!(file.boxes, *boxes);
        for _ in 0..4 {
            app.update(Step::Undo);
        }
        assert_eq!(app.document, before);
    }
}

/// A bend is added on the arm's own line, which changes no gap, moved, and taken away, a step each; it goes through links and files, is drawn while the
/// pane is shown, and one too many is refused.
#[test]
fn arms_are_bent_by_points() {
    for name in DEMOS {
        let mut app = App::new(Document::of(demo(name)), Vec::new());
        app.update(Room::Open(None));
        let before = app.document.clone();
        for member in bends::arms(&before.layout).collect::<Vec<_>>() {
            let straight = app.space().gaps.clone();
            let lines = drawn(&scene(&app, View::Plan)).1.len();
            app.update(Bulk::Bend(member, usize::MAX, bends::next(&app.document.layout, member)));
            assert!(app.notices.is_empty(), "{name}: {:?}", app.notices);
            // To the whole millimetre on its line, which bends it by half of one at most.
            for gap in &app.space().gaps {
                let was = straight.iter().find(|other| other.between == gap.between).expect("the same pairs");
                near(gap.value, was.value, 1.0, name);
            }
            assert!(drawn(&scene(&app, View::Plan)).1.len() > lines, "{name}");
            let at = app.document.layout.solid().via.get(&member).expect("a bend")[0];
            let away = at + Vec3::new(40.004, 0.0, -25.0);
            app.update(Bulk::Bend(member, 0, Some(away)));
            assert_eq!(app.document.layout.solid().via.get(&member), Some(&vec![at + Vec3::new(40.0, 0.0, -25.0)]));
            assert!(app.space().gaps != straight);
            let (read, faults) = link::read(&link::write(&app.document)).expect("a link");
            assert_eq!((&read, faults.as_slice()), (&app.document, &[][..]), "{name}");
            app.update(Bulk::Bend(member, 0, None));
            assert_eq!(app.document, before, "{name}: none left is none given");
        }
    }
    let mut app = App::new(Document::of(demo("four-arm")), Vec::new());
    for _ in 0..8 {
        app.update(Bulk::Bend(Member::LowerRear, usize::MAX, bends::next(&app.document.layout, Member::LowerRear)));
    }
    assert!(app.notices.is_empty(), "{:?}", app.notices);
    app.update(Bulk::Bend(Member::LowerRear, usize::MAX, bends::next(&app.document.layout, Member::LowerRear)));
    assert_eq!(app.document.layout.solid().via.get(&Member::LowerRear).map(Vec::len), Some(8));
    assert_eq!(app.notices.len(), 1);
}

/// A hand takes the whole box by its middle or a corner of it, in every view: one step, in hundredths. Seen from the right wheel, which is drawn as a left
/// one, the same hand moves the mirror image.
#[test]
fn boxes_are_dragged_by_their_middle_and_corners() {
    let mut app = App::new(Document::of(with_box("strut", 300.0)), Vec::new());
    let held = |app: &App, view| {
        scene(app, view).handles.iter().filter(|handle| matches!(handle.grab, Grab::Box(0, _))).count()
    };
    assert_eq!(
        View::PLANE.map(|view| held(&app, view)),
        [0; 3],
        "while the pane is not shown nothing of it is in the way"
    );
    app.update(Room::Open(None));
    assert_eq!(View::PLANE.map(|view| held(&app, view)), [3; 3]);
    let before = app.document.clone();
    let corners = |app: &App| [app.document.layout.boxes[0].from, app.document.layout.boxes[0].to];
    let [from, to] = corners(&app);
    let by = Vec3::new(10.001, -20.0, 5.0);
    app.update(Hand::Hold);
    app.update(Hand::Box(0, Held::Middle, from.lerp(&to, 0.5) + by * 0.5));
    app.update(Hand::Box(0, Held::Middle, from.lerp(&to, 0.5) + by));
    app.update(Hand::Release);
    let moved = Vec3::new(10.0, -20.0, 5.0);
    assert_eq!(corners(&app), [from + moved, to + moved]);
    app.update(Step::Undo);
    assert_eq!(app.document, before);
    app.update(Hand::Box(0, Held::To, to + moved));
    assert_eq!(corners(&app), [from, to + moved]);
    app.update(Step::Undo);
    app.update(Hand::Box(0, Held::From, from + moved));
    assert_eq!(corners(&app), [from + moved, to]);
    let mut right = App::new(Document { side: LeftOrRight::Right, ..before }, Vec::new());
    let image = |p: Vec3| Vec3::new(p.x, -p.y, p.z);
    right.update(Hand::Box(0, Held::To, image(to) + moved));
    assert_eq!(corners(&right), [from, to + image(moved)]);
}

/// A pointer takes a box by the square in its middle and carries it along in that view, pixel by pixel; what is not seen there stays.
#[test]
fn a_pointer_carries_a_box() {
    let mut app = App::new(Document::of(with_box("strut", 300.0)), Vec::new());
    app.update(Room::Open(None));
    let before = app.document.layout.boxes[0].clone();
    let sheet = Sheet::fit([900.0, 900.0], Arrangement::One(View::Front), &app.picture());
    let scene = draw(&app.picture(), &sheet);
    let middle = scene.handles.iter().find(|handle| handle.grab == Grab::Box(0, Held::Middle)).expect("a handle");
    let [x, y] = middle.outline[0];
    let at = |at| Contact { id: 1, at, touch: false };
    let mut hand = Interaction::default();
    let mut messages = hand.down(at([x + 2.0, y + 1.0]), &scene, &sheet, &app).messages;
    messages.extend(hand.moved(at([x + 32.0, y + 1.0]), &sheet).messages);
    messages.extend(hand.up(1, &sheet).messages);
    messages.into_iter().for_each(|message| app.update(message));
    let after = &app.document.layout.boxes[0];
    // To the hundredth that a hand leaves.
    near((after.from - before.from).y, 30.0 / sheet.scale(), 0.0051, "outward");
    near((after.to - before.to).y, 30.0 / sheet.scale(), 0.0051, "outward");
    assert_eq!([after.from.x, after.from.z, after.to.x], [before.from.x, before.from.z, before.to.x]);
    app.update(Step::Undo);
    assert_eq!(app.document.layout.boxes[0], before);
}

/// What is no box or no size is said and not taken; the usual size needs no number; in an exercise the axle is what was set.
#[test]
fn sizes_are_typed_and_slips_are_said() {
    let mut app = App::new(Document::of(with_box("strut", 300.0)), Vec::new());
    let before = app.document.clone();
    let one = before.layout.boxes[0].clone();
    let named = |name: &str| Obstacle { name: name.into(), ..one.clone() };
    for (edit, words) in [
        (Bulk::Box(0, Some(named(""))), "needs a name"),
        (Bulk::Box(0, Some(named("wheel"))), "a name of its own"),
        (Bulk::Box(1, Some(named("crate"))), "a name of its own"),
        (Bulk::Box(0, Some(Obstacle { to: Vec3::new(1e6, 0.0, 0.0), ..one.clone() })), "must be a number between"),
        (Bulk::Solid(Solid { arm: Some(-3.0), ..Solid::default() }), "-3"),
        (Bulk::Rim(Some(900.0)), "900"),
    ] {
        app.notices.clear();
        app.update(edit);
        assert_eq!(app.document, before, "{words}");
        assert!(app.notices.len() == 1 && app.notices[0].contains(words), "{:?}: {words}", app.notices);
    }
    app.notices.clear();
    let thin = app.space().gaps.clone();
    app.update(Bulk::Solid(Solid { arm: Some(44.0), strut: Some(55.0), ..Solid::default() }));
    assert_eq!(app.document.layout.solid, Some(Solid { arm: Some(44.0), ..Solid::default() }), "55 is usual");
    assert_ne!(app.space().gaps, thin);
    app.update(Bulk::Rim(Some(200.004)));
    assert_eq!(app.document.layout.wheel.rim_radius, Some(200.0));
    let (read, faults) = link::read(&link::write(&app.document)).expect("a link");
    assert_eq!((&read, faults.as_slice()), (&app.document, &[][..]));
    app.update(Bulk::Rim(None));
    app.update(Bulk::Solid(Solid { arm: Some(30.0), ..Solid::default() }));
    assert_eq!(app.document, before);
    app.update(Bulk::Box(0, None));
    assert!(app.document.layout.boxes.is_empty());
    let lesson = Some(Lesson { begin: 1, ..Lesson::default() });
    let mut exercise = App::new(Document { lesson, ..before.clone() }, Vec::new());
    exercise.update(Bulk::Box(0, None));
    assert!(exercise.document.layout == before.layout && !exercise.notices.is_empty());
}

fn value(app: &App, column: &str) -> f64 {
    app.study.good.value(Reading::named(column).expect("a reading")).expect("a value")
}

/// The least gap is a reading with a curve; what meets where the car is is a remark once somebody has said what is in the way; a lesson that hides the
/// reading hides all of it.
#[test]
fn a_gap_is_a_reading_and_meeting_a_remark() {
    let mut app = App::new(Document::of(thin(with_box("four-arm", 300.0))), Vec::new());
    near(value(&app, "least_gap_mm"), app.space().gaps[0].value, 0.0, "the least");
    app.update(Fold(Group::Space));
    assert!(app.unfolds(Group::Space));
    app.update(Show::Pin("least_gap_mm"));
    let least = Reading::named("least_gap_mm").expect("a reading");
    let plot = Plot::new(&app.study, &app.document, least).expect("a curve over travel");
    let [low, high] = app.study.good.range(least).expect("values");
    assert!(low < value(&app, "least_gap_mm") && high >= value(&app, "least_gap_mm"), "{low} to {high}");
    assert!(plot.line.iter().map(Vec::len).sum::<usize>() > 20);
    app.update(Show::Over(web::document::Over::Steering));
    assert!(Plot::new(&app.study, &app.document, least).is_some(), "a curve over rack");
    let quiet = app.remarks().to_vec();
    let before = app.document.clone();
    // Up to the upper arms.
    app.update(Hand::Box(0, Held::To, Vec3::new(100.0, 690.0, 800.0)));
    let [words] = &app.remarks()[quiet.len()..] else { panic!("{:?}", app.remarks()) };
    assert!(words.starts_with("Here meet ") && words.contains("crate"), "{words}");
    assert_eq!(value(&app, "least_gap_mm"), 0.0);
    app.update(Step::Undo);
    assert_eq!((app.remarks(), &app.document), (&quiet[..], &before));
    // At full lock the demo's straight arms meet its wheel; nobody has asked.
    let mut demo = App::new(Document::of(demo("four-arm")), Vec::new());
    demo.update(Stand::At(0.0, 75.0));
    assert!(demo.space().gaps[0].value < 0.0);
    assert!(!demo.remarks().iter().any(|words| words.starts_with("Here meet ")), "{:?}", demo.remarks());
    let lesson = Some(Lesson { begin: 1, hidden: vec!["wheel_gap_mm"], ..Lesson::default() });
    let mut exercise = App::new(Document { lesson, ..before }, Vec::new());
    exercise.update(Room::Open(None));
    assert!(exercise.hides_gaps() && exercise.picture().space.is_none());
}

/// Each contour of the depth is where the kernel's field has that depth: nothing is deeper than the deepest line, every point lies within the edge.
#[test]
fn the_depth_of_the_arch_is_drawn() {
    // mm; places are carried to the tenth, and the edge is a chord of a column's side at most from the tyre's.
    const BESIDE: f64 = 8.0;
    let layout = demo("strut");
    let text = answer(&space::task(&layout, LeftOrRight::Left), usize::MAX);
    let room = space::room(&layout, &text).expect("a room");
    let least = room.extreme("reach_y_least_mm").expect("reach");
    let depths: Vec<f64> = room.depth.iter().map(|line| line.y).collect();
    assert!(depths.len() > 6 && depths.iter().all(|y| *y >= least && y.rem_euclid(20.0) == 0.0), "{depths:?}");
    assert!(depths[0] < least + 20.0, "the deepest");
    let ends = |name: &str| room.extreme(name).expect("reach");
    let [x, to_x, to_z] = [ends("reach_x_least_mm"), ends("reach_x_most_mm"), ends("reach_z_most_mm")];
    for [px, pz] in room.depth.iter().flat_map(|line| &line.points) {
        assert!((x - BESIDE..=to_x + BESIDE).contains(px) && *pz <= to_z + BESIDE, "{px}, {pz}");
    }
    let edge = room.arch.iter().flatten().map(|p| p[1]).fold(f64::NEG_INFINITY, f64::max);
    near(edge, to_z, 1.0, "the edge's top");
    let scene = depth(&room);
    let (texts, strokes) = drawn(&scene);
    assert!(texts.len() >= 4, "{texts:?}");
    assert_eq!(strokes.len(), room.depth.len() + room.arch.len());
}

/// What the prepared pairs say is what the kernel has; the links open as they were made.
#[test]
fn prepared_pairs_tell_what_is_so() {
    let documents = PAIRS.each_ref().map(|pair| {
        let document = pair.document().expect("demos");
        let (read, faults) = link::read(&link::write(&document)).expect("a link");
        assert_eq!((&read, faults.as_slice()), (&document, &[][..]), "{}", pair.name);
        document
    });
    let [arms, strut, high, low] = [&documents[0], &documents[1]]
        .into_iter()
        .flat_map(|document| [document.layout.clone(), document.compared.clone().expect("laid over")])
        .map(|layout| {
            let text = answer(&space::task(&layout, LeftOrRight::Left), usize::MAX);
            (space::room(&layout, &text).expect("a room"), layout)
        })
        .collect::<Vec<_>>()
        .try_into()
        .expect("four axles");
    let (arms, note) = (&arms.0, &arms.1.note);
    for litres in [arms.litres, strut.0.litres] {
        assert!(note.contains(&format!("{litres:.1}")), "{litres}: {note}");
    }
    let inboard = |room: &web::study::space::Room| room.extreme("reach_y_least_mm").expect("reach");
    assert!(note.contains(&format!("comes {:.0} mm further inboard", inboard(arms) - inboard(&strut.0))), "{note}");
    let words = saved(arms, &strut.0);
    assert!(words.contains(&format!("this axle saves {:.1} litres", strut.0.litres - arms.litres)), "{words}");
    assert!(saved(&strut.0, arms).contains("litres more") && saved(arms, arms).contains("as much"));
    // The one clears its gearbox everywhere, and all else; of the other only track rod and gearbox meet.
    assert!(high.0.unreached == 0 && high.0.clearances.iter().all(|one| one.value > 0.0), "{:?}", high.0.clearances);
    let of_box = |room: &web::study::space::Room, layout: &Layout| {
        let named = |words: &str| words == "track rod – “gearbox”";
        room.clearances.iter().find(|one| named(&pair(one.between, layout))).copied().expect("the pair")
    };
    let clear = of_box(&high.0, &high.1);
    assert!(high.1.note.contains(&format!("by {:.0} mm", clear.value)), "{clear:?}");
    let meets: Vec<_> = low.0.clearances.iter().filter(|one| one.value <= 0.0).collect();
    assert_eq!(meets, [&of_box(&low.0, &low.1)]);
    let stroke = low.1.rack.as_ref().expect("a rack").travel;
    assert_eq!(meets[0].at.rack.abs(), stroke, "at full lock");
    let bump = |layout: &Layout| value(&App::new(Document::of(layout.clone()), Vec::new()), "bump_steer_deg_per_mm");
    near(bump(&high.1), 0.0, 5e-4, "the rack above has little bump steer");
}

/// Pushing the ball joint and the strut of the strut axle outward closes the gap to the tyre, step by step, until the pane says that they meet.
#[test]
fn a_strut_pushed_outward_meets_the_tyre() {
    let mut app = App::new(Document::of(demo("strut")), Vec::new());
    app.update(Room::Open(None));
    let gap = |app: &App| {
        let layout = &app.document.layout;
        let of_spring = |words: &str| words == "wheel – spring";
        app.space().gaps.iter().find(|gap| of_spring(&pair(gap.between, layout))).expect("the pair").value
    };
    let mut last = gap(&app);
    assert!(last > 10.0, "{last}");
    let fault = |app: &App| strokes(&scene(app, View::Front), |stroke| stroke.ink == Ink::Fault);
    let before = fault(&app);
    for step in 1..=20 {
        app.update(Hand::Hold);
        for id in [PointId::LowerOuter, PointId::StrutTop, PointId::StrutFoot] {
            let at = app.document.layout.point(id).expect("a joint");
            app.update(Hand::Drag(id, at + Vec3::y() * 2.0));
        }
        app.update(Hand::Release);
        let now = gap(&app);
        assert!(now < last, "{now} after {last}");
        last = now;
        if now <= 0.0 {
            assert!((4..=15).contains(&step), "{step}");
            assert!(fault(&app) > before, "wheel and spring are in the fault style");
            return;
        }
    }
    panic!("they never meet: {last}");
}
