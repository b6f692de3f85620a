//! The pictorial view: its projection against ISO 5456-3, what is painted before what, both wheels, and hands on it. Long because each of these is a
//! story of its own.

use kernel::{PointId, Vec3};
use web::app::{App, Hand, Show, Stand};
use web::content::demos::{DEMOS, layout};
use web::document::Document;
use web::drawing::{Arrangement, Grab, Item, P, Scene, Sheet, Step, Turn, View, draw};
use web::input::pointer::Contact;
use web::input::turning::{Turning, turned};

fn app(index: usize) -> App {
    App::new(Document::of(layout(index).expect("a demo")), Vec::new())
}

fn sheet(app: &App, turn: Turn, tyre: bool) -> Sheet {
    Sheet::fit([606.0, 840.0], Arrangement::Pictorial { turn, tyre }, &app.picture())
}

/// What is left on paper of 1 mm along each axis of the car, and which way it points: degrees from level, counter-clockwise.
fn axes_on_paper(sheet: &Sheet) -> [(f64, f64); 3] {
    let origin = sheet.project(View::Pictorial, Vec3::zeros());
    [Vec3::x(), Vec3::y(), Vec3::z()].map(|axis| {
        let at = sheet.project(View::Pictorial, axis);
        let [dx, dy] = [at[0] - origin[0], origin[1] - at[1]];
        (dx.hypot(dy) / sheet.scale(), dy.atan2(dx).to_degrees())
    })
}

/// Isometric (ISO 5456-3): three axes foreshortened alike, to √(2/3) in the projection itself, 120° apart, the upright one upright.
#[test]
fn isometric_foreshortens_the_three_axes_alike() {
    let sheet = sheet(&app(4), Turn::ISOMETRIC, true);
    let axes = axes_on_paper(&sheet);
    for (length, _) in axes {
        assert!((length - (2.0_f64 / 3.0).sqrt()).abs() < 1e-12, "{length}");
    }
    for ((_, angle), expected) in axes.into_iter().zip([-30.0, 30.0, 90.0]) {
        assert!((angle - expected).abs() < 1e-9, "{angle} instead of {expected}");
    }
    assert_eq!(Turn::ISOMETRIC.name(), "isometric");
}

/// Dimetric (ISO 5456-3): the scales along the axes are as 1/2 : 1 : 1, the halved one at 42° and the other at 7° to the level. The standard's whole
/// degrees are rounded ones of what the ratio gives, 41.4° and 7.2°.
#[test]
fn dimetric_has_the_ratio_and_the_angles_of_the_standard() {
    let sheet = sheet(&app(4), Turn::DIMETRIC, true);
    let [(x, forward), (y, left), (z, up)] = axes_on_paper(&sheet);
    assert!((y - z).abs() < 1e-12 && (x - y / 2.0).abs() < 1e-12, "{x} : {y} : {z}");
    // Forward points down to the left, left up to the right by the smaller angle.
    assert!((left.abs() - 7.0).abs() < 0.5, "{left}");
    assert!((forward.abs() - 42.0).abs() < 1.0 || (180.0 - forward.abs() - 42.0).abs() < 1.0, "{forward}");
    assert!((up - 90.0).abs() < 1e-9);
    assert_eq!(Turn::DIMETRIC.name(), "dimetric");
    assert_eq!(Turn::DIMETRIC.from_the_other_side().name(), "dimetric");
    assert_eq!(Turn { azimuth: 38.0, elevation: 24.0 }.name(), "parallel projection");
}

/// From ahead, from the left and from above it is the front, side and plan view.
#[test]
fn the_three_other_views_are_turns_of_it() {
    let app = app(0);
    let cross = Sheet::fit([983.0, 810.0], Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture());
    for (view, azimuth, elevation) in [(View::Front, 0.0, 0.0), (View::Side, -90.0, 0.0), (View::Plan, 0.0, 90.0)] {
        let space = sheet(&app, Turn { azimuth, elevation }, true);
        let way = |sheet: &Sheet, view, by: Vec3| {
            let (a, b): (P, P) = (sheet.project(view, Vec3::zeros()), sheet.project(view, by));
            [0, 1].map(|i| (b[i] - a[i]) / sheet.scale())
        };
        for axis in [Vec3::x(), Vec3::y(), Vec3::z()] {
            let (flat, turned) = (way(&cross, view, axis), way(&space, View::Pictorial, axis));
            assert!((0..2).all(|i| (flat[i] - turned[i]).abs() < 1e-9), "{view:?} {axis}: {flat:?} {turned:?}");
        }
    }
}

/// A place on paper goes back to the point it came from, from anywhere.
#[test]
fn projection_and_its_inverse_from_anywhere() {
    let app = app(3);
    let point = Vec3::new(-123.4, 567.8, 345.6);
    for (azimuth, elevation) in [(0.0, 0.0), (45.0, 35.0), (-120.0, -20.0), (170.0, 90.0)] {
        let sheet = sheet(&app, Turn { azimuth, elevation }, true);
        let back = sheet.unproject(View::Pictorial, sheet.project(View::Pictorial, point), point);
        assert!((back - point).norm() < 1e-9, "{back}");
    }
}

/// Turning keeps the scale, and the whole axle on paper for both of the standard's projections from both sides.
#[test]
fn every_demo_is_on_paper_as_the_standard_has_it() {
    for index in 0..DEMOS.len() {
        let app = app(index);
        for turn in [Turn::ISOMETRIC, Turn::DIMETRIC].into_iter().flat_map(|turn| [turn, turn.from_the_other_side()]) {
            let fitted = sheet(&app, turn, true);
            for handle in draw(&app.picture(), &fitted).handles {
                let [x, y] = handle.outline[0];
                assert!((0.0..606.0).contains(&x) && (0.0..840.0).contains(&y), "{:?} {x} {y}", handle.grab);
            }
            assert_eq!(fitted.turned(turn.by(20.0, -5.0)).scale(), fitted.scale());
        }
    }
}

/// Every joint is taken where it is drawn, and nothing but joints: there is no plane in which to drag.
#[test]
fn a_joint_is_picked_from_anywhere() {
    for index in 0..DEMOS.len() {
        let app = app(index);
        let joints = app.document.layout.points().filter(|(id, _)| *id != PointId::WheelCentre).count();
        for (azimuth, elevation) in [(45.0, 35.0), (-60.0, 10.0), (150.0, 70.0)] {
            let scene = draw(&app.picture(), &sheet(&app, Turn { azimuth, elevation }, true));
            assert_eq!(scene.handles.len(), joints);
            for handle in &scene.handles {
                let hit = scene.hit(handle.outline[0], 12.0).expect("something is there");
                let [a, b] = [hit.outline[0], handle.outline[0]];
                assert!(hit.grab == handle.grab || f64::hypot(a[0] - b[0], a[1] - b[1]) < 1e-9, "{:?}", handle.grab);
                assert!(matches!(hit.grab, Grab::Joint(_)));
            }
        }
    }
}

/// Dashed lines of hidden edges, with their dashes as the pen has them.
fn hidden(scene: &Scene) -> usize {
    fn count(items: &[Item]) -> usize {
        let one = |item: &Item| match item {
            Item::Path { stroke: Some(stroke), .. } => usize::from(stroke.dash == [4.2, 2.2]),
            Item::Clip { items, .. } => count(items),
            _ => 0,
        };
        items.iter().map(one).sum()
    }
    count(&scene.items)
}

/// From outboard the wheel disc hides what guides the wheel; with rings alone nothing is hidden, and from inboard the inner ends never are.
#[test]
fn what_the_wheel_hides_is_dashed() {
    let app = app(4);
    let outboard = Turn { azimuth: -60.0, elevation: 10.0 };
    let dashed = |turn, tyre| hidden(&draw(&app.picture(), &sheet(&app, turn, tyre)));
    assert!(dashed(outboard, true) > 5, "{}", dashed(outboard, true));
    assert_eq!(dashed(outboard, false), 0);
    assert!(dashed(outboard.from_the_other_side(), true) < dashed(outboard, true));
}

/// Where two lines on paper cross between their ends, as parts of their lengths.
fn crossing([a, b]: [P; 2], [c, d]: [P; 2]) -> Option<(f64, f64)> {
    let (u, v, w) = ([b[0] - a[0], b[1] - a[1]], [d[0] - c[0], d[1] - c[1]], [c[0] - a[0], c[1] - a[1]]);
    let area = u[0] * v[1] - u[1] * v[0];
    let (s, t) = ((w[0] * v[1] - w[1] * v[0]) / area, (w[0] * u[1] - w[1] * u[0]) / area);
    [s, t].iter().all(|part| (0.02..0.98).contains(part)).then_some((s, t))
}

/// Of two arms that cross on paper the one that is nearer there is painted later.
#[test]
fn the_nearer_rod_is_painted_over_the_farther() {
    use PointId::*;
    let arms = [
        (LowerFrontInner, LowerFrontOuter),
        (LowerRearInner, LowerRearOuter),
        (UpperFrontInner, UpperFrontOuter),
        (UpperRearInner, UpperRearOuter),
        (TrackRodInner, TrackRodOuter),
    ];
    let app = app(4);
    let mut crossings = 0;
    for turn in (0..24).flat_map(|i| [10.0, 40.0].map(|elevation| Turn { azimuth: f64::from(i) * 15.0, elevation })) {
        let sheet = sheet(&app, turn, false);
        let scene = draw(&app.picture(), &sheet);
        let Some(Item::Clip { items, .. }) = scene.items.first() else { panic!("one view") };
        let place = |id| app.study.good.place(id).expect("a joint");
        let rods = arms.map(|(inner, outer)| [place(inner), place(outer)]);
        let on_paper = |rod: [Vec3; 2]| rod.map(|end| sheet.project(View::Pictorial, end));
        // Its bar is the filled outline that reaches both its ends, and no farther than its rounding.
        let painted = |rod: [Vec3; 2]| {
            let reaches = |item: &Item| match item {
                Item::Path { steps, fill: Some(_), .. } => on_paper(rod).iter().all(|end| {
                    steps.iter().any(|step| match step {
                        Step::Move(p) | Step::Line(p) => f64::hypot(p[0] - end[0], p[1] - end[1]) < 3.2,
                        _ => false,
                    })
                }),
                _ => false,
            };
            items.iter().position(reaches).expect("its bar")
        };
        let depth = |[from, to]: [Vec3; 2], part: f64| turn.axes()[2].dot(&(from + (to - from) * part));
        for (i, a) in rods.iter().enumerate() {
            for b in &rods[i + 1..] {
                let Some((s, t)) = crossing(on_paper(*a), on_paper(*b)) else { continue };
                let nearer = depth(*a, s) - depth(*b, t);
                if nearer.abs() > 5.0 {
                    crossings += 1;
                    assert_eq!(painted(*a) > painted(*b), nearer > 0.0, "{turn:?}: {a} over {b}", a = a[0], b = b[0]);
                }
            }
        }
    }
    assert!(crossings >= 10, "{crossings} crossings: too few to tell");
}

fn contact(id: i32, at: P) -> Contact {
    Contact { id, at, touch: false }
}

/// A hand that goes far turns, about the upright as far as it goes across; one that stays has clicked.
#[test]
fn a_drag_turns_and_a_click_does_not() {
    let (mut hand, sheet) = (Turning::default(), sheet(&app(4), Turn::ISOMETRIC, true));
    hand.down(contact(1, [100.0, 100.0]));
    assert_eq!(hand.moved(contact(1, [102.0, 101.0]), &sheet), None);
    assert_eq!(hand.up(1), Some([100.0, 100.0]));
    hand.down(contact(1, [100.0, 100.0]));
    assert_eq!(hand.moved(contact(2, [400.0, 100.0]), &sheet), None, "one that is not down does nothing");
    let turned = hand.moved(contact(1, [140.0, 90.0]), &sheet).expect("it turns");
    let turn = turned.turn();
    assert!((turn.azimuth - 65.0).abs() < 1e-9 && (turn.elevation - Turn::ISOMETRIC.elevation + 5.0).abs() < 1e-9);
    assert_eq!(turned.scale(), sheet.scale());
    assert_eq!(hand.up(1), None);
}

/// Two fingers that part enlarge the view as they part, what lies between them stays between them, and it is not turned; when one goes up the other
/// does nothing more, and neither has clicked.
#[test]
fn two_fingers_pinch() {
    let (mut hand, sheet) = (Turning::default(), sheet(&app(4), Turn::ISOMETRIC, true));
    hand.down(contact(1, [200.0, 400.0]));
    hand.down(contact(2, [300.0, 400.0]));
    let under = |sheet: &Sheet| sheet.unproject(View::Pictorial, [250.0, 400.0], Vec3::zeros());
    let one = hand.moved(contact(1, [150.0, 400.0]), &sheet).expect("it is pinched");
    let both = hand.moved(contact(2, [350.0, 400.0]), &one).expect("it is pinched");
    assert!((both.scale() / sheet.scale() - 2.0).abs() < 1e-9, "{}", both.scale() / sheet.scale());
    assert!((under(&both) - under(&sheet)).norm() < 1e-9);
    assert_eq!(both.turn(), sheet.turn());
    assert_eq!(hand.up(2), None);
    assert_eq!(hand.moved(contact(1, [100.0, 100.0]), &both), None);
    assert_eq!(hand.up(1), None);
}

/// With both wheels shown the right one is in the view too, the left one's image at rest; seen from straight ahead it is where the front view has it,
/// and nothing of it can be taken.
#[test]
fn both_wheels_are_drawn_and_stand_on_one_road() {
    let mut app = app(4);
    let one = draw(&app.picture(), &sheet(&app, Turn::ISOMETRIC, true));
    app.update(Show::Whole(true));
    let ahead = Turn { azimuth: 0.0, elevation: 0.0 };
    let paper = sheet(&app, ahead, true);
    let scene = draw(&app.picture(), &paper);
    assert_eq!(scene.handles.len(), one.handles.len());
    // Outlines that are filled: those of the right wheel's bars are the left one's, mirrored on the centre plane.
    let middle = paper.project(View::Pictorial, Vec3::zeros())[0];
    fn filled(items: &[Item], found: &mut Vec<Vec<P>>) {
        for item in items {
            match item {
                Item::Path { steps, fill: Some(_), .. } => found.push(
                    steps
                        .iter()
                        .filter_map(|step| if let Step::Move(p) | Step::Line(p) = step { Some(*p) } else { None })
                        .collect(),
                ),
                Item::Clip { items, .. } => filled(items, found),
                _ => {}
            }
        }
    }
    let mut all = Vec::new();
    filled(&scene.items, &mut all);
    let span = |points: &Vec<P>, way: f64| {
        let x = |p: &P| way * (p[0] - middle);
        [points.iter().map(x).fold(f64::INFINITY, f64::min), points.iter().map(x).fold(f64::NEG_INFINITY, f64::max)]
    };
    let whole = |points: &&Vec<P>| points.len() > 6;
    let spans = |way: f64| {
        let mut spans: Vec<[f64; 2]> =
            all.iter().filter(whole).map(|points| span(points, way)).filter(|[from, _]| *from > 0.0).collect();
        spans.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
        spans
    };
    let (left, right) = (spans(1.0), spans(-1.0));
    assert!(left.len() > 4 && left.len() == right.len(), "{} and {}", left.len(), right.len());
    for (a, b) in left.iter().zip(&right) {
        assert!((a[0] - b[0]).abs() < 1e-6 && (a[1] - b[1]).abs() < 1e-6, "{a:?} {b:?}");
    }
    for turn in [Turn::ISOMETRIC, Turn::DIMETRIC] {
        let paper = sheet(&app, turn, true);
        let [x, y] = paper.project(View::Pictorial, Vec3::new(0.0, -765.0, 305.0));
        assert!((0.0..606.0).contains(&x) && (0.0..840.0).contains(&y), "{x} {y}");
    }
}

/// Keys turn the way they point, no farther than straight above, and bring the standard's two.
#[test]
fn keys_turn() {
    let start = Turn { azimuth: 178.0, elevation: 88.0 };
    assert_eq!(turned(start, "ArrowRight", false, false), Some(Turn { azimuth: -177.0, ..start }));
    assert_eq!(turned(start, "ArrowDown", true, false), Some(Turn { elevation: 90.0, ..start }));
    assert_eq!(turned(start, "ArrowUp", false, true), Some(Turn { elevation: 87.0, ..start }));
    assert_eq!(turned(start, "Home", false, false), Some(Turn::ISOMETRIC));
    assert_eq!(turned(start, "End", false, false), Some(Turn::DIMETRIC));
    assert_eq!(turned(start, "a", false, false), None);
}

/// Beside the plan view there is room for it on a large screen, and on a smaller one it is switched to.
#[test]
fn a_wide_sheet_leaves_a_cell_and_a_small_one_does_not() {
    let mut app = app(4);
    app.update(Stand::Travel(20.0));
    app.update(Hand::Select(Some(PointId::UpperFrontOuter)));
    let fit = |size| Sheet::fit(size, Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture());
    let wide = fit([1500.0, 1018.0]);
    let [corner, end] = wide.cell().expect("room at 1920 × 1080");
    assert_eq!(end, [1500.0, 1018.0]);
    let [_, plan] = wide.area(View::Plan).expect("the plan view");
    assert!(plan[0] <= corner[0] && corner[1] > 0.0);
    assert_eq!(fit([1020.0, 838.0]).cell(), None, "none at 1440 × 900");
}
