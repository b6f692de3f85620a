//! The drawing, natively: what is drawn is where it is, and is all numbers.

use crate::side_by_side::side_by_side;
use kernel::{LoadCase, PointId, Vec3};
use web::app::{App, Hand, Show, Stand};
use web::content::demos::{DEMOS, layout};
use web::content::racks::PREPARED;
use web::document::{Case, Document, Loads, Over};
use web::drawing::svg::svg;
use web::drawing::{Arrangement, Grab, Item, P, Scene, Sheet, Step, Text, Theme, Turn, View, draw, sketch};
use web::exchange::row::{Seen, row};

const ARRANGEMENTS: [([f64; 2], Arrangement); 8] = [
    ([983.0, 810.0], Arrangement::Cross { drawer: [416.0, 348.0] }),
    ([800.0, 600.0], Arrangement::Cross { drawer: [416.0, 348.0] }),
    ([390.0, 408.0], Arrangement::One(View::Front)),
    ([390.0, 408.0], Arrangement::One(View::Side)),
    ([320.0, 200.0], Arrangement::One(View::Plan)),
    ([606.0, 840.0], Arrangement::One(View::Pictorial)),
    ([390.0, 408.0], Arrangement::Pictorial { turn: Turn::DIMETRIC, tyre: false }),
    ([500.0, 400.0], Arrangement::Pictorial { turn: Turn { azimuth: -38.0, elevation: 24.0 }, tyre: true }),
];

/// Every demo in every arrangement at positions to the ends.
fn scenes(mut check: impl FnMut(&App, &Sheet, &Scene)) {
    for index in 0..DEMOS.len() {
        for (travel, rack) in [(0.0, 0.0), (25.0, 12.0), (60.0, -50.0), (-60.0, 50.0)] {
            let mut app = App::new(Document::of(layout(index).expect("a demo")), Vec::new());
            app.update(Stand::Travel(travel));
            app.update(Stand::Rack(rack));
            app.update(Hand::Select(Some(PointId::TrackRodOuter)));
            // Two of the four positions under a load.
            if travel == rack + 13.0 || travel < 0.0 {
                app.update(Show::Loads(Loads { case: Case::Of(5), ..Loads::default() }));
            }
            // One of the four shows both wheels, in roll.
            if travel == 25.0 {
                app.update(Show::Whole(true));
                app.update(Stand::Roll(2.0));
                app.update(Show::Over(Over::Roll));
            }
            for (size, arrangement) in ARRANGEMENTS {
                let sheet = Sheet::fit(size, arrangement, &app.picture());
                check(&app, &sheet, &draw(&app.picture(), &sheet));
            }
        }
    }
}

fn walk(items: &[Item], see: &mut impl FnMut(&Item)) {
    for item in items {
        see(item);
        if let Item::Clip { items, .. } = item {
            walk(items, see);
        }
    }
}

#[test]
fn every_number_on_paper_is_a_number() {
    scenes(|_, _, scene| {
        walk(&scene.items, &mut |item| match item {
            Item::Path { steps, .. } => assert!(steps.iter().all(|step| match step {
                Step::Move(p) | Step::Line(p) => p.iter().all(|x| x.is_finite()),
                Step::Circle { centre, radius } => centre.iter().all(|x| x.is_finite()) && *radius > 0.0,
                Step::Close => true,
            })),
            Item::Text(text) => assert!(text.at.iter().all(|x| x.is_finite()) && !text.text.contains("NaN")),
            Item::Clip { .. } => {}
        });
        let text = svg(scene, Theme::LIGHT);
        assert!(text.starts_with("<svg") && text.ends_with("</svg>") && !text.contains("NaN") && !text.contains("inf"));
    });
}

/// One transform for drawing and for hits: a point goes to paper and comes back.
#[test]
fn projection_and_its_inverse() {
    scenes(|_, sheet, _| {
        for view in [View::Front, View::Side, View::Plan] {
            let point = Vec3::new(-123.4, 567.8, 345.6);
            let back = sheet.unproject(view, sheet.project(view, point), point);
            assert!((back - point).norm() < 1e-9, "{view:?}: {back}");
        }
    });
}

/// First angle: side view left of the front view at the same height, plan below it at the same distance from the centre plane.
#[test]
fn the_views_stand_in_first_angle() {
    scenes(|_, sheet, _| {
        let [up, out, ahead] = [Vec3::z() * 100.0, Vec3::y() * 100.0, Vec3::x() * 100.0];
        let way = |view, by: Vec3| {
            let (a, b) = (sheet.project(view, Vec3::zeros()), sheet.project(view, by));
            [(b[0] - a[0]) / sheet.scale(), (b[1] - a[1]) / sheet.scale()].map(f64::round)
        };
        assert_eq!([way(View::Front, out), way(View::Front, up)], [[100.0, 0.0], [0.0, -100.0]]);
        assert_eq!([way(View::Side, ahead), way(View::Side, up)], [[-100.0, 0.0], [0.0, -100.0]]);
        assert_eq!([way(View::Plan, out), way(View::Plan, ahead)], [[100.0, 0.0], [0.0, 100.0]]);
        assert_eq!(sheet.project(View::Side, up)[1], sheet.project(View::Front, up)[1]);
        assert_eq!(sheet.project(View::Plan, out)[0], sheet.project(View::Front, out)[0]);
    });
}

/// Every joint can be taken where it is drawn, unless another lies within the symbol's width of it.
#[test]
fn every_joint_is_taken_where_it_is_drawn() {
    scenes(|_, _, scene| {
        for handle in &scene.handles {
            if let (Grab::Joint(id), [at]) = (handle.grab, &handle.outline[..]) {
                let hit = scene.hit(*at, 12.0).expect("something is there");
                let [x, y] = hit.outline[0];
                assert!(hit.grab == Grab::Joint(id) || (x - at[0]).hypot(y - at[1]) < 1e-9, "{id:?}");
            }
        }
    });
}

/// The wheel is taken inside its outline, front and side; the paper far outside holds nothing.
#[test]
fn the_wheel_is_taken_by_its_tyre() {
    scenes(|app, sheet, scene| {
        assert!(scene.hit([-500.0, -500.0], 12.0).is_none());
        let Some(view) = scene.handles.iter().find(|handle| handle.grab == Grab::Wheel).map(|handle| handle.view)
        else {
            return;
        };
        let tread = app.study.good.now.position.pose.w + Vec3::z() * 0.9 * app.study.good.layout().wheel.free_radius;
        let at = sheet.project(view, tread + Vec3::y() * 60.0);
        let hit = scene.hit(at, 1.0).expect("the tyre");
        assert!(matches!(hit.grab, Grab::Wheel | Grab::Joint(_)), "{:?}", hit.grab);
    });
}

/// Lettering never overlaps within a view.
#[test]
fn labels_do_not_collide() {
    scenes(|_, _, scene| {
        for item in &scene.items {
            let Item::Clip { items, .. } = item else { continue };
            let texts: Vec<&Text> =
                items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None }).collect();
            for (i, a) in texts.iter().enumerate() {
                for b in &texts[i + 1..] {
                    let ([l, t, r, d], [l2, t2, r2, d2]) = (a.bounds(), b.bounds());
                    assert!(l > r2 || l2 > r || t > d2 || t2 > d, "“{}” over “{}”", a.text, b.text);
                }
            }
        }
    });
}

/// Leaders, which end in a dot on what they name, never cross each other.
#[test]
fn leaders_do_not_cross() {
    let mut most = 0;
    scenes(|_, _, scene| {
        for item in &scene.items {
            let Item::Clip { items, .. } = item else { continue };
            let mut leaders: Vec<[P; 2]> = Vec::new();
            for pair in items.windows(2) {
                let [Item::Path { steps: line, .. }, Item::Path { steps: dot, .. }] = pair else { continue };
                if let ([Step::Move(a), Step::Line(b)], [Step::Circle { centre, radius: 1.8 }]) = (&line[..], &dot[..])
                    && centre == b
                {
                    leaders.push([*a, *b]);
                }
            }
            let side = |[a, b]: [P; 2], p: P| (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
            for (i, a) in leaders.iter().enumerate() {
                for b in &leaders[i + 1..] {
                    let parted = side(*a, b[0]) * side(*a, b[1]) >= 0.0 || side(*b, a[0]) * side(*b, a[1]) >= 0.0;
                    assert!(parted, "{a:?} crosses {b:?}");
                }
            }
            most = most.max(leaders.len());
        }
    });
    assert!(most >= 3, "there are leaders to cross");
}

/// A joint that does not close is drawn where it was put, and can be taken there again.
#[test]
fn a_fault_is_drawn_where_the_hand_is() {
    let mut app = App::new(Document::of(layout(4).expect("a demo")), Vec::new());
    app.update(Stand::Travel(60.0));
    let target = Vec3::new(0.0, 650.0, 660.0);
    app.update(Hand::Drag(PointId::UpperFrontInner, target));
    let picture = app.picture();
    assert!(picture.fault.is_some());
    let (size, arrangement) = ARRANGEMENTS[0];
    let sheet = Sheet::fit(size, arrangement, &picture);
    let scene = draw(&picture, &sheet);
    let at: P = sheet.project(View::Front, target);
    let hit = scene.hit(at, 12.0).expect("it can be taken");
    assert_eq!(hit.grab, Grab::Joint(PointId::UpperFrontInner));
}

#[test]
fn names_are_text_in_svg() {
    let mut document = Document::of(layout(0).expect("a demo"));
    document.layout.name = "<script>alert(1)</script> & \"x\"".into();
    let app = App::new(document, Vec::new());
    let mut picture = app.picture();
    picture.compared = Some(picture.axle);
    let sheet = Sheet::fit([983.0, 810.0], ARRANGEMENTS[0].1, &picture);
    let text = svg(&draw(&picture, &sheet), Theme::DARK);
    assert!(!text.contains("<script"));
}

/// The drawings of all demos, as they were when somebody last looked at them. After a change that is meant,
/// `GOLDEN=write cargo test -p tests --test page drawings` writes them anew; look at them before committing.
#[test]
fn drawings_are_as_they_were_looked_at() {
    for (index, (name, _)) in DEMOS.iter().enumerate() {
        let mut app = App::new(Document::of(layout(index).expect("a demo")), Vec::new());
        app.update(Stand::Travel(25.0));
        app.update(Stand::Rack(12.0));
        app.update(Hand::Select(Some(PointId::TrackRodOuter)));
        let name = name.to_lowercase().replace([' ', ','], "-");
        is_as_it_was(&app, ARRANGEMENTS[0], &name);
        is_as_it_was(&app, ARRANGEMENTS[5], &format!("{name}-pictorial"));
    }
}

/// An axle with bushes and a subframe: its rack on the body, at rest; on the subframe, both wheels under a side force.
#[test]
fn what_gives_way_is_drawn_as_it_was_looked_at() {
    let [body, _, _, subframe] = PREPARED.each_ref().map(|axle| axle.layout().expect("an axle"));
    is_as_it_was(&App::new(Document::of(body), Vec::new()), ARRANGEMENTS[0], "gives-way-at-rest");
    let mut app = App::new(Document::of(subframe), Vec::new());
    app.update(Show::Whole(true));
    let bend = LoadCase::all().iter().position(|case| case.key == "outer").expect("a bend");
    app.update(Show::Loads(Loads { case: Case::Of(bend), ..Loads::default() }));
    is_as_it_was(&app, ARRANGEMENTS[0], "gives-way-under-load");
}

/// Three axles side by side, off rest, from ahead and in space, one of them at its end; as the picture has them.
#[test]
fn axles_side_by_side_are_drawn_as_they_were_looked_at() {
    let app = side_by_side();
    for (view, name) in [(View::Front, "side-by-side"), (View::Pictorial, "side-by-side-pictorial")] {
        let seen = Seen { view, turn: Turn::ISOMETRIC };
        looks_as_it_did(&row(&app, seen, [1190.0, 900.0], "https://example.org/ghostpin/#v=3&of=strut.1&end=1"), name);
    }
}

fn is_as_it_was(app: &App, (size, arrangement): ([f64; 2], Arrangement), name: &str) {
    looks_as_it_did(&draw(&app.picture(), &Sheet::fit(size, arrangement, &app.picture())), name);
}

/// A scene as somebody last looked at it.
fn looks_as_it_did(scene: &Scene, name: &str) {
    // A line each, so that a difference can be read.
    let drawn = svg(scene, Theme::LIGHT).replace('>', ">\n");
    let path = format!("{}/golden/{name}.svg", env!("CARGO_MANIFEST_DIR"));
    if std::env::var_os("GOLDEN").is_some() {
        std::fs::write(&path, &drawn).expect("it can be written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    let other = kept.lines().zip(drawn.lines()).find(|(a, b)| a != b);
    assert!(kept == drawn, "{path} was {other:?}");
}

/// Every reading of a wheel has a sketch, inside its frame.
#[test]
fn every_reading_has_a_sketch() {
    for reading in kernel::READINGS.iter().filter(|reading| reading.subject() == kernel::Subject::Wheel) {
        let scene = sketch(reading.short()).unwrap_or_else(|| panic!("no sketch of {}", reading.column));
        walk(&scene.items, &mut |item| {
            let Item::Path { steps, .. } = item else { panic!("a sketch has no text") };
            for step in steps {
                let (Step::Move([x, y]) | Step::Line([x, y]) | Step::Circle { centre: [x, y], .. }) = step else {
                    continue;
                };
                let [width, height] = scene.size;
                assert!((0.0..=width).contains(x) && (0.0..=height).contains(y), "{}: {x} {y}", reading.column);
            }
        });
    }
}
