//! The slide show and its film, without a browser: what is shown when, what its links hold, where everything stands, and that what it tells is solved. Long because
//! it goes through them all.

use kernel::{Guide, Layout, Member, PointId, Reading, Vec3};
use tests::near;
use web::app::{App, Tell};
use web::content::demos::{first, layout};
use web::content::story::{dragged, rod_in_a_bend, shipped, strut_outward};
use web::document::place::Place;
use web::document::story::{MOST_SHOTS, Moves, Passing, Seen, Shot, Stress, TRANSITION, at};
use web::document::{Case, Document};
use web::drawing::{Arrangement, Item, Sheet, Step, View, draw};
use web::exchange::film::{Film, LEVEL, RATE, view};
use web::link;
use web::study::value::value_at;

fn demo(index: usize) -> Layout {
    layout(index).expect("a demo")
}

fn at_rest(layout: &Layout, column: &str) -> f64 {
    let reading = Reading::named(column).expect("a reading");
    value_at(&Document::of(layout.clone()), Place::default(), reading).expect("a value")
}

#[test]
fn every_moment_has_its_shot() {
    let shot = |lasts: f64, travel: f64| Shot { lasts, travel, ..Shot::at_rest(demo(4), "so".into()) };
    let shots = [shot(3.0, 0.0), shot(4.0, 30.0), shot(5.0, -10.0)];
    let travel = |seconds: f64| {
        let (which, Passing { shot, part, paper, left }) = at(&shots, seconds).expect("a shot");
        assert_eq!((paper, left), (0.0, false));
        (which, shot.travel, part)
    };
    assert_eq!(travel(0.0), (0, 0.0, 1.0), "the first is there from the beginning");
    assert_eq!(travel(2.999).0, 0);
    assert_eq!(travel(3.0), (1, 0.0, 0.0), "the second begins where the first ended");
    let (which, half, part) = travel(3.0 + TRANSITION / 2.0);
    assert!(which == 1 && (half - 15.0).abs() < 1e-9 && (part - 0.5).abs() < 1e-9, "{which} {half} {part}");
    assert_eq!(travel(3.0 + TRANSITION), (1, 30.0, 1.0));
    assert_eq!(travel(7.0), (2, 30.0, 0.0));
    assert_eq!([11.9, 12.0, 99.0].map(travel), [(2, -10.0, 1.0); 3], "the last one holds");
    assert_eq!(at(&[], 1.0), None);
}

#[test]
fn a_wishbone_parts_into_arms_and_a_strut_gives_way_to_what_comes() {
    let [strut, bones, over_arms] = [0, 1, 3].map(|index| Shot::at_rest(demo(index), String::new()));
    let change = Shot { moves: Moves::Change, lasts: 8.0, ..over_arms };
    assert!(change.comes() > 5.0, "slowly");
    let half = change.passing(&bones, change.comes() / 2.0);
    assert_eq!((half.part, half.paper), (0.5, 0.0));
    let ball = bones.layout.point(PointId::LowerOuter).expect("a ball joint");
    let (Guide::Arms { front, rear }, Guide::Arms { front: to, .. }) = (&half.shot.layout.lower, &change.layout.lower)
    else {
        panic!("two arms")
    };
    near((front.outer - (ball + to.outer) / 2.0).norm(), 0.0, 1e-9, "half the way from the ball joint");
    assert!((front.outer - rear.outer).norm() > 1.0, "they part");
    let begun = change.passing(&bones, 0.0).shot.layout;
    let Guide::Arms { front, rear } = begun.lower else { panic!("two arms") };
    assert_eq!([front.outer, rear.outer], [ball; 2], "at first both arms end at the ball joint");
    // No arm of a wishbone is a strut: one goes under paper, then the other comes.
    let seen = |part: f64| {
        let passing = bones.passing(&strut, part * TRANSITION);
        (passing.shot.layout == bones.layout, passing.paper)
    };
    assert_eq!([0.0, 0.5, 1.0].map(seen), [(false, 0.0), (true, 1.0), (true, 0.0)]);
    assert!(!seen(0.49).0 && seen(0.25).1 > 0.0 && seen(0.25).1 < 1.0);
}

#[test]
fn a_dragged_joint_goes_as_far_as_the_shot_says_and_comes_back() {
    let by = Vec3::new(0.0, -5.0, 20.0);
    let shot = Shot {
        points_at: Some(PointId::TrackRodInner),
        moves: Moves::Drag,
        by,
        lasts: 4.0 + TRANSITION,
        ..Shot::at_rest(first(), String::new())
    };
    let place = |seconds: f64| shot.after(seconds).layout.point(PointId::TrackRodInner).expect("a joint");
    let from = place(0.0);
    assert_eq!(from, first().point(PointId::TrackRodInner).expect("a joint"));
    near((place(2.0) - from - by).norm(), 0.0, 1e-9, "there");
    near((place(4.0) - from).norm(), 0.0, 1e-9, "and back");
}

#[test]
fn links_hold_how_a_shot_is_looked_at_and_say_what_they_do_not_know() {
    let look = Shot {
        over: Some(demo(0)),
        zoom: 2.5,
        seen: Seen::Pictorial,
        stress: Some(Stress::Member(Member::Strut)),
        case: Case::Of(4),
        moves: Moves::Drag,
        by: Vec3::new(1.0, -2.5, 0.0),
        ..Shot::at_rest(demo(4), "so".into())
    };
    let others =
        [Stress::Axis, Stress::Room, Stress::Joint, Stress::Member(Member::TrackRod), Stress::Reading("camber_deg")];
    let others = others.map(|stress| Shot { stress: Some(stress), ..Shot::at_rest(demo(1), "and".into()) });
    let mut document = Document::of(first());
    document.story = [look].into_iter().chain(others).collect();
    for side in [kernel::LeftOrRight::Left, kernel::LeftOrRight::Right] {
        // Of version 2, then of version 3.
        document.side = side;
        let text = link::write(&document);
        assert_eq!(link::read(&text), Some((document.clone(), Vec::new())), "{text}");
        for (from, to) in [
            ("s0.zoom=2.5", "s0.zoom=9"),
            ("s0.view=space", "s0.view=moon"),
            ("s0.stress=strut", "s0.stress=moon"),
            ("s0.case=", "s0.case=moon"),
            ("s0.by=1_-2.5_0", "s0.by=1_-2.5_900"),
        ] {
            assert!(text.contains(from), "{from}: {text}");
            let (_, faults) = link::read(&text.replace(from, to)).expect("a link");
            assert_eq!(faults.len(), 1, "{to}: {faults:?}");
        }
    }
    assert_eq!(Stress::choices(&demo(0), &["toe_deg"]).len(), 3 + 3 + 1 + 1, "a strut has no upper arms");
    for stress in Stress::choices(&demo(4), &["toe_deg"]) {
        assert_eq!(Stress::keyed(stress.key()), Some(stress));
        assert!(!stress.name(&demo(4)).is_empty());
    }
}

/// Shots of older links, which say nothing of it, are shown as they were: from three sides, with what is laid over the document, under its load.
#[test]
fn an_older_show_is_told_under_what_the_document_has() {
    let mut document =
        Document { compared: Some(demo(0)), story: vec![Shot::at_rest(demo(1), "so".into())], ..Document::of(first()) };
    document.loads.case = Case::Of(2);
    let shown = document.show();
    assert_eq!(
        (&shown[0].over, shown[0].case, shown[0].seen, shown[0].zoom),
        (&Some(demo(0)), Case::Of(2), Seen::All, 1.0)
    );
    document.story.push(Shot { over: Some(demo(3)), case: Case::Of(1), ..document.story[0].clone() });
    let shown = document.show();
    assert_eq!(
        (&shown[0].over, shown[0].case),
        (&None, Case::None),
        "one shot says it, so the others say there is none"
    );
}

/// All points that are painted, of items inside a clip what the clip leaves.
fn reach(items: &[Item], see: &mut impl FnMut([f64; 2])) {
    for item in items {
        match item {
            Item::Path { steps, .. } => steps.iter().for_each(|step| match step {
                Step::Move(p) | Step::Line(p) => see(*p),
                Step::Circle { centre: [x, y], radius } => {
                    [-1.0, 1.0].iter().for_each(|k| see([x + k * radius, y + k * radius]))
                }
                Step::Close => {}
            }),
            Item::Text(text) => {
                let [left, top, right, bottom] = text.bounds();
                see([left, top]);
                see([right, bottom]);
            }
            Item::Clip { .. } => {}
        }
    }
}

/// On every slide of the show at every shape of paper: the drawing is clipped to its own place, panel and strip have theirs, nothing overlaps; the contact
/// patch and all joints of a slide that is not zoomed are in the drawing's place.
#[test]
fn nothing_lies_over_the_drawing() {
    let mut app = App::new(Document::of(first()), Vec::new());
    for (number, shot) in shipped().into_iter().enumerate() {
        app.update(Tell::Shot(Box::new(shot.clone())));
        assert_eq!(app.study.trouble, None, "slide {number}");
        for size in [[923.0, 520.0], [692.0, 400.0], [480.0, 853.0], [390.0, 780.0], [1000.0, 520.0]] {
            let picture = app.picture();
            let sheet = Sheet::fit(size, Arrangement::Slide(view(shot.seen)), &picture);
            let places = sheet.places().expect("a slide");
            let (drawing, panel, strip) = (places.drawing, places.panel, places.strip);
            assert!(drawing.iter().all(|px| *px > 150.0), "slide {number} at {size:?}: {drawing:?} is left of it");
            assert!(drawing[0] <= panel[0][0] || drawing[1] <= panel[0][1]);
            assert!(panel[1][1] <= strip[0][1] && drawing[1] <= strip[0][1] && strip[1] == size);
            let scene = draw(&picture, &sheet);
            for item in &scene.items {
                if let Item::Clip { area: web::drawing::Area::Rect { max, .. }, .. } = item {
                    assert!(max[0] <= drawing[0] + 0.1 && max[1] <= drawing[1] + 0.1, "slide {number} at {size:?}");
                }
            }
            reach(&scene.items, &mut |[x, y]| {
                let inside = x < drawing[0] - 1.0 && y < drawing[1] - 1.0 && x > 1.0 && y > 1.0;
                let out = x > size[0] + 1.0 || y > size[1] + 1.0;
                // Lines that project from view to view are the drawing's own.
                assert!(!out && (!inside || picture.selected.is_some()), "slide {number} at {size:?}: {x} {y}");
            });
            let contact = app.study.good.now.position.pose.w + app.study.good.now.attitude.contact;
            let joints = shot.layout.points().filter_map(|(id, _)| app.study.good.place(id));
            for point in joints.chain([contact]).filter(|_| shot.zoom == 1.0) {
                let [x, y] = sheet.project(view(shot.seen).unwrap_or(View::Front), point);
                assert!(
                    (0.0..=drawing[0]).contains(&x) && (0.0..=drawing[1]).contains(&y),
                    "slide {number} at {size:?}: {x} {y}"
                );
            }
        }
    }
}

/// A zoom is about the joint pointed at, which stays in sight.
#[test]
fn a_zoomed_slide_shows_what_it_is_about() {
    let mut app = App::new(Document::of(first()), Vec::new());
    for id in [PointId::TrackRodOuter, PointId::SpringTop, PointId::LowerRearInner] {
        let shot = |zoom: f64| Shot { points_at: Some(id), zoom, ..Shot::at_rest(first(), "so".into()) };
        let mut fit = |zoom: f64, view: View| {
            app.update(Tell::Shot(Box::new(shot(zoom))));
            Sheet::fit([923.0, 520.0], Arrangement::Slide(Some(view)), &app.picture())
        };
        for view in View::ALL {
            let (plain, near_to) = (fit(1.0, view), fit(4.0, view));
            near(near_to.scale() / plain.scale(), 4.0, 1e-9, "four times as large");
            let [x, y] = near_to.project(view, first().point(id).expect("a joint"));
            let [right, low] = near_to.places().expect("a slide").drawing;
            assert!(
                (0.2 * right..0.8 * right).contains(&x) && (0.2 * low..0.8 * low).contains(&y),
                "{view:?}: {x} {y}"
            );
        }
    }
}

/// As many frames as it lasts, whatever the machine; the same frame whoever comes to it, the last hold with the rest; every shot passes without trouble.
#[test]
fn a_film_has_every_frame_at_its_time() {
    let shots = shipped();
    assert!(shots.len() <= MOST_SHOTS);
    let lasts: f64 = shots.iter().map(|shot| shot.lasts).sum();
    let document = Document::of(first());
    let mut film = Film::new(&document, shots.clone(), false);
    assert_eq!((film.size(), film.frames()), (LEVEL, (lasts * RATE).round() as usize));
    let mut begins = Vec::new();
    let mut last = String::new();
    let frames = film.frames();
    // Every tenth frame, and all round the changes.
    for number in (0..frames).filter(|number| number % 10 == 0 || *number + 1 == frames) {
        let (scene, begin) = film.frame(number).expect("a frame");
        near(scene.size[0] * film.ratio(), 1920.0, 1e-6, "width");
        near(scene.size[1] * film.ratio(), 1080.0, 1e-6, "height");
        if begin {
            begins.push(number);
        }
        last = web::drawing::svg::svg(&scene, web::drawing::Theme::LIGHT);
    }
    assert_eq!(begins.len(), shots.len());
    let mut again = Film::new(&document, vec![shots.last().expect("a shot").clone()], false);
    let hold = again.frame(again.frames() - 1).expect("a frame").0;
    assert_eq!(
        web::drawing::svg::svg(&hold, web::drawing::Theme::LIGHT),
        last,
        "the last frame is the last shot, held"
    );
    let upright = Film::new(&document, shots, true);
    assert_eq!(upright.size(), [1080, 1920]);
    assert!(Film::new(&document, Vec::new(), true).frame(0).is_none());
}

/// On the way from one slide to the next every pose is met: nothing on screen is a mistake.
#[test]
fn every_moment_of_the_show_can_be_solved() {
    let shots = shipped();
    let lasts: f64 = shots.iter().map(|shot| shot.lasts).sum();
    let mut app = App::new(Document::of(first()), Vec::new());
    for fifth in 0..(lasts * 5.0) as u32 {
        let (which, passing) = at(&shots, f64::from(fifth) / 5.0).expect("a shot");
        app.update(Tell::Passing(Box::new(passing)));
        assert_eq!(app.study.trouble, None, "slide {which}, {fifth} fifths of a second");
    }
}

/// What the captions claim in words is so by the solver, and each number in them is the one that is solved.
#[test]
fn the_show_tells_what_is_solved() {
    let shots = shipped();
    let said = |part: &str| {
        shots.iter().find(|shot| shot.caption.contains(part)).unwrap_or_else(|| panic!("no slide says “{part}”"))
    };
    let hub = |index: usize| at_rest(&demo(index), "kingpin_offset_wheel_centre_mm");
    let (strut, bones, arms) = (hub(0), hub(1), hub(4));
    assert!(strut > 60.0 && bones < strut && arms < 12.0 && arms < bones, "{strut} {bones} {arms}");
    said(&format!("passes {strut:.1} mm inboard"));
    assert!(at_rest(&demo(1), "kingpin_inclination_deg") < at_rest(&demo(0), "kingpin_inclination_deg"));
    // Moved outward, the strut has the offset of four arms and stands in the wheel.
    let outward = strut_outward().expect("a strut");
    near(at_rest(&outward, "kingpin_offset_wheel_centre_mm"), arms, 0.5, "as near as four arms");
    assert!(at_rest(&demo(0), "wheel_gap_mm") > 0.0, "{}", at_rest(&demo(0), "wheel_gap_mm"));
    assert!(at_rest(&outward, "wheel_gap_mm") <= 0.0, "{}", at_rest(&outward, "wheel_gap_mm"));
    let scale = said("Both at one scale");
    assert!(
        scale.caption.contains(&format!("{arms:.1} mm with four arms, and {strut:.1} mm with the strut")),
        "{}",
        scale.caption
    );
    assert_eq!(scale.over, layout(0), "one sheet, one scale");
    let rod = rod_in_a_bend().expect("a rod");
    said(&format!("side force of {:.0} N", rod.side));
    assert!(rod.side > 100.0);
    let spared = said("nothing bends its rod");
    let mut app = App::new(Document::of(first()), Vec::new());
    app.update(Tell::Shot(Box::new(spared.clone())));
    assert!(app.study.loaded.as_ref().is_some_and(|loaded| loaded.rod.is_none()), "no rod that is bent");
    let [before, after] = [demo(4), dragged().expect("a demo")].map(|layout| at_rest(&layout, "bump_steer_deg_per_mm"));
    assert!(after.abs() > 3.0 * before.abs(), "{before} {after}");
    for bump in [before, after] {
        said(&format!("{:.3}", bump.abs() * 10.0));
    }
    let room = said("bent round it");
    let gap = at_rest(&room.layout, "wheel_gap_mm");
    assert!(gap > 0.0 && room.caption.contains(&format!("{gap:.1} mm")), "{gap}: {}", room.caption);
    // The whole way from the strut to the rack, in this order.
    let order = [
        "A strut",
        "Why not",
        "Two wishbones",
        "The price",
        "Split the lower",
        "Split both",
        "one scale",
        "bends its rod",
        "nothing bends",
        "bent round",
        "fifth arm",
        "°",
    ];
    let mut rest = shots.iter();
    for part in order {
        assert!(rest.any(|shot| shot.caption.contains(part)), "“{part}” in its place");
    }
    assert!(shots.iter().all(|shot| shot.caption.chars().count() <= 300), "as long as a caption can be typed");
}
