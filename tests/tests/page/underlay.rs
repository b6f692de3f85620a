//! A picture under a view: where its places come to lie. What is expected is a picture made by hand of known places: the camera's scale and turn are
//! chosen here, and found again.

use kernel::Vec3;
use web::app::App;
use web::content::demos::layout;
use web::document::Document;
use web::drawing::{Arrangement, Laid, P, Placed, Sheet, Underlay, Unfit, View, seen};

/// Rounding of numbers of a few thousand.
const ROUNDING: f64 = 1e-9;

fn sheet() -> Sheet {
    let app = App::new(Document::of(layout(0).expect("a demo")), Vec::new());
    Sheet::fit([1440.0, 900.0], Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture())
}

/// Where a camera that is `turn` degrees off level (its picture then turned clockwise) and sees 4 px a mm finds a place of a view.
fn photographed([right, down]: P, turn: f64) -> P {
    let (sin, cos) = turn.to_radians().sin_cos();
    [4.0 * (cos * right + sin * down) + 900.0, 4.0 * (cos * down - sin * right) + 2500.0]
}

fn near(a: P, b: P) -> bool {
    (0..2).all(|i| (a[i] - b[i]).abs() < ROUNDING * 1e3)
}

/// What a view shows of a point is where the sheet draws it, at its scale, from where it draws the origin.
#[test]
fn a_view_shows_a_point_where_the_sheet_draws_it() {
    let sheet = sheet();
    let point = Vec3::new(-131.0, 690.0, 297.0);
    for view in View::PLANE {
        let (origin, at, shown) = (sheet.project(view, Vec3::zeros()), sheet.project(view, point), seen(view, point));
        assert!((0..2).all(|i| (origin[i] + sheet.scale() * shown[i] - at[i]).abs() < ROUNDING), "{view:?}");
    }
}

/// Two known places bring every other place of the picture to where it is.
#[test]
fn two_places_lay_the_whole_picture() {
    let (a, b, other) = ([340.0, -188.0], [690.0, -297.0], [120.0, -760.0]);
    for turn in [0.0, 3.5, -90.0, 178.0] {
        let laid = Laid::by_pairs([a, b].map(|q| photographed(q, turn)), [a, b]).expect("two places");
        assert!(near(laid.in_view(photographed(other, turn)), other), "{turn}°");
        assert!(near(laid.in_picture(other), photographed(other, turn)), "{turn}°");
        let numbers = laid.numbers([4000.0, 3000.0]);
        assert!(
            (numbers.width - 1000.0).abs() < ROUNDING * 1e3 && (numbers.turn - turn).abs() < ROUNDING * 1e3,
            "{numbers:?}"
        );
    }
}

/// Numbers typed are the numbers read, and a turn goes clockwise: the picture's right edge comes down.
#[test]
fn numbers_are_what_was_typed() {
    let placed = Placed { right: 500.0, up: 300.0, turn: 10.0, width: 1200.0 };
    let laid = Laid::placed([2048.0, 1536.0], placed);
    let is = laid.numbers([2048.0, 1536.0]);
    for (is, was) in [(is.right, 500.0), (is.up, 300.0), (is.turn, 10.0), (is.width, 1200.0)] {
        assert!((is - was).abs() < ROUNDING * 1e3, "{is} for {was}");
    }
    assert!(near(laid.in_view([1024.0, 768.0]), [500.0, -300.0]));
    assert!(laid.in_view([2048.0, 768.0])[1] > laid.in_view([0.0, 768.0])[1]);
}

/// A distance gives the scale alone: the turn stays, and so does the middle between the two places.
#[test]
fn a_distance_gives_the_scale_alone() {
    let size = [2048.0, 1536.0];
    let before = Laid::placed(size, Placed { right: 500.0, up: 300.0, turn: 10.0, width: 1200.0 });
    let marks = [[200.0, 300.0], [1400.0, 900.0]];
    let after = before.by_distance(marks, 480.0).expect("two places");
    let ends = marks.map(|mark| after.in_view(mark));
    assert!((f64::hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]) - 480.0).abs() < ROUNDING * 1e3);
    assert!(near(after.in_view([800.0, 600.0]), before.in_view([800.0, 600.0])));
    assert!((after.numbers(size).turn - 10.0).abs() < ROUNDING * 1e3);
}

/// Places too near each other, no distance and missing marks are refused, and the picture stays where it is.
#[test]
fn what_says_nothing_of_a_turn_is_refused() {
    let sheet = sheet();
    let mut under = Underlay::new([2048.0, 1536.0], View::Front, &sheet);
    let was = under;
    let points = [Vec3::new(0.0, 340.0, 188.0), Vec3::new(0.0, 690.0, 297.0)];
    assert_eq!(under.lay(points), Err(Unfit::Unmarked));
    under.marks = [Some([100.0, 100.0]), Some([104.0, 103.0])];
    assert_eq!(under.lay(points), Err(Unfit::Near));
    under.marks[1] = Some([900.0, 800.0]);
    // These two differ along the car only, which the front view does not show.
    assert_eq!(under.lay([Vec3::new(0.0, 340.0, 188.0), Vec3::new(300.0, 340.0, 188.0)]), Err(Unfit::Near));
    for distance in [0.0, -5.0, f64::NAN] {
        assert_eq!(under.stretch(distance), Err(Unfit::Near), "{distance}");
    }
    assert_eq!(under.laid, was.laid);
    assert_eq!(under.lay(points), Ok(()));
    assert!(under.locked, "laid by its places it is not moved by accident");
}

/// The picture lies in its view's own part of the sheet, follows paper that is moved and enlarged, and is met where it shows.
#[test]
fn it_follows_the_paper() {
    let sheet = sheet();
    for view in View::PLANE {
        let mut under = Underlay::new([2048.0, 1536.0], view, &sheet);
        let [min, max] = sheet.area(view).expect("all views");
        let middle = [f64::midpoint(min[0], max[0]), f64::midpoint(min[1], max[1])];
        assert!(near(under.at(&sheet, middle).expect("in the middle"), [1024.0, 768.0]), "{view:?}");
        for paper in [sheet.clone(), sheet.panned([30.0, -20.0]), sheet.zoomed(middle, 1.7)] {
            let [a, b, c, d, e, f] = under.matrix(&paper);
            let at = [a * 700.0 + c * 500.0 + e, b * 700.0 + d * 500.0 + f];
            if let Some(p) = under.at(&paper, at) {
                assert!(near(p, [700.0, 500.0]), "{view:?}");
            }
            let point = Vec3::new(-131.0, 690.0, 297.0);
            let [x, y] = under.laid.in_picture(seen(view, point));
            assert!(near([a * x + c * y + e, b * x + d * y + f], paper.project(view, point)), "{view:?}");
        }
        assert_eq!(under.at(&sheet, [max[0] + 1.0, middle[1]]), None, "{view:?}: in the view beside it");
        under.marking = Some(0);
        under.put(&sheet, middle);
        under.marked();
        assert_eq!(under.marking, Some(1), "B comes after A");
        under.put(&sheet, [middle[0] + 40.0, middle[1]]);
        under.marked();
        assert_eq!(under.marking, None);
        assert!((under.distance().expect("both") - 40.0 / sheet.scale()).abs() < ROUNDING * 1e3);
    }
}
