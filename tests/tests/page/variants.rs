//! Variants of one design, and its two sides: frozen, told apart, built again, laid over, passed on.

use kernel::{Axle, Change, LeftOrRight, Member, PointId, Reading, Sides, Stance, Whole};
use std::rc::Rc;
use web::app::{About, App, Build, Open, Show, Stand, Step};
use web::content::demos::{first, layout};
use web::document::Document;
use web::document::lesson::Lesson;
use web::document::variant::MOST_VARIANTS;
use web::drawing::{Arrangement, Ink, Item, Scene, Sheet, View, draw};
use web::exchange::picture::picture;
use web::exchange::post::{Markup, post};
use web::exchange::tables::{curves_csv, dxf};

const RIGHT: LeftOrRight = LeftOrRight::Right;

fn app() -> App {
    App::new(Document::of(first()), Vec::new())
}

/// An axle whose right track rod is 3 mm longer than the left one.
fn uneven() -> App {
    let mut app = app();
    app.update(Build::Change(Sides::One(RIGHT), Change::Length(Member::TrackRod), 3.0));
    app
}

fn quantity(column: &str) -> &'static Reading {
    Reading::named(column).expect("a reading")
}

fn number(text: &str) -> f64 {
    text.replace('−', "-").parse().expect(text)
}

/// Stock, lowered, and lowered with a spacer: each is told where it stands, as the axle itself reads there; a name builds it again.
#[test]
fn variants_are_told_where_each_stands() {
    let mut app = app();
    app.update(Build::Freeze(" stock ".into()));
    app.update(Stand::Ride(30.0));
    app.update(Build::Freeze("lowered".into()));
    app.update(Build::Change(Sides::Both, Change::Spacer, 20.0));
    app.update(Build::Freeze(String::new()));
    app.update(Stand::AtRest);
    let names: Vec<&str> = app.document.variants.iter().map(|variant| variant.name.as_str()).collect();
    assert_eq!(names, ["stock", "lowered", "Variant 3"]);
    let told = app.told_variants();
    assert_eq!((told.len(), &told[0]), (4, &told[3]), "the present axle is the last that was frozen");
    let scrub = app.document.pinned.iter().position(|column| *column == "scrub_radius_mm").expect("pinned");
    for (at, stands) in [(0, 0.0), (1, 30.0), (2, 30.0)] {
        app.update(Build::Take(at));
        assert_eq!((app.document.ride(), app.document.travel), (stands, stands));
        let now: Vec<String> = app.document.pinned.iter().map(|column| app.told_now(quantity(column))).collect();
        assert_eq!(now, told[at + 1], "variant {at}");
    }
    // 20 mm further out along a spin axis nearly level.
    let [plain, spaced] = [2, 3].map(|at: usize| number(&told[at][scrub]));
    assert!((spaced - plain).abs() > 19.0 && (spaced - plain).abs() < 21.0, "{plain}, {spaced}");
    app.update(Build::Drop(1));
    assert_eq!(app.document.variants.len(), 2);
    app.update(Step::Undo);
    assert_eq!(app.document.variants.len(), 3);
}

/// Readings of the whole axle are told too, and what counts against rest counts from the design's.
#[test]
fn variants_of_a_whole_axle() {
    let mut app = app();
    app.document.pinned = vec!["axle_roll_centre_height_mm", "track_change_mm"];
    app.update(Show::Whole(true));
    app.update(Stand::Ride(30.0));
    app.update(Build::Freeze("lowered".into()));
    let told = app.told_variants();
    let axle = Rc::new(Axle::new(&app.document.layout).expect("an axle"));
    let stance = Stance { travel: 30.0, ..Stance::default() };
    let whole = Whole::at(&axle, stance, &axle.at_rest()).expect("it stands");
    let centre = whole.axle.roll_centre().expect("near").height;
    assert!((number(&told[1][0]) - centre).abs() < 0.051, "{told:?}, {centre}");
    assert!(number(&told[1][1]).abs() > 0.1, "{told:?}");
}

/// Six at most; none in an exercise; what is hidden is told by no table.
#[test]
fn variants_have_their_limits() {
    let mut app = app();
    for at in 0..=MOST_VARIANTS {
        app.update(Build::Freeze(format!("number {at}")));
    }
    assert_eq!(app.document.variants.len(), MOST_VARIANTS);
    assert!(app.notices[0].contains("6 variants already"), "{:?}", app.notices);
    let hides = app.document.pinned[0];
    let lesson = Lesson { hidden: vec![hides], task: "Look".into(), begin: 1, ..Lesson::default() };
    app.document.lesson = Some(lesson);
    app.update(Build::Drop(0));
    assert!(app.document.variants.len() == MOST_VARIANTS && app.notices[0].contains("stays as it is built"));
    let told = app.told_variants();
    assert!(told.iter().all(|row| row[0] == "?" && row[1] != "?"), "{told:?}");
}

/// Any two are compared: one is built, another laid over under its own name, where it stands; as is the axle as it is now.
#[test]
fn a_variant_is_laid_over_another() {
    let mut app = app();
    app.update(Build::Freeze("stock".into()));
    app.update(Stand::Ride(30.0));
    app.update(Build::Lay(0));
    let compared = app.document.compared.as_ref().expect("laid over");
    assert_eq!((compared.name.as_str(), compared.changes.ride()), ("stock", 0.0), "it stands where it was frozen");
    // Each is shown as far from where it stands: at rest the difference is what lowering does.
    app.update(Stand::AtRest);
    let (own, other) = (&app.study.good.now, &app.study.compared.as_ref().expect("solved").now);
    assert_eq!((own.travel, other.travel), (30.0, 0.0));
    assert!(app.study.beside(quantity("camber_deg"), true)[1].expect("a value").abs() > 0.3);
    app.update(About::Swap);
    assert_eq!((app.document.ride(), app.document.travel), (0.0, 0.0));
    app.update(Step::Undo);
    app.update(Build::CompareNow);
    let now = app.document.compared.clone().expect("laid over");
    assert_eq!(now, app.document.layout);
    app.update(Build::Change(Sides::Both, Change::Spacer, 20.0));
    assert_eq!(app.document.compared, Some(now), "frozen");
    let [offset, difference, _] =
        app.study.beside(quantity("scrub_radius_mm"), true).map(|value| value.expect("a value"));
    assert!(difference.abs() > 19.0, "{offset}, {difference}");
}

/// An axle that says nothing of changes is compared where this car stands; one that does where it says.
#[test]
fn a_silent_axle_stands_where_this_car_does() {
    let mut app = app();
    app.update(Stand::Ride(30.0));
    app.update(About::Compare(layout(0).map(Box::new)));
    assert_eq!(app.document.compared.as_ref().expect("laid over").changes.ride(), 30.0);
    assert_eq!(app.study.compared.as_ref().expect("solved").rest.travel, 30.0);
    let mut raised = layout(0).expect("a demo");
    raised.changes.set(Sides::Both, Change::Ride, -10.0);
    app.update(About::Compare(Some(Box::new(raised))));
    assert_eq!(app.document.compared.as_ref().expect("laid over").changes.ride(), -10.0);
}

/// Changing places keeps what the other design can be built as; another demo has no variants yet.
#[test]
fn variants_are_of_their_design() {
    let mut app = app();
    app.update(Stand::Ride(30.0));
    app.update(Build::Freeze("lowered".into()));
    let front = Change::Joint(PointId::UpperFrontOuter, 2);
    app.update(Build::Change(Sides::Both, front, 5.0));
    app.update(Build::Freeze("higher joint".into()));
    assert_eq!(app.document.variants.len(), 2, "{:?}", app.notices);
    app.update(Build::CompareNow);
    app.update(About::Swap);
    assert_eq!(app.document.variants.len(), 2, "the same design");
    app.update(About::Compare(layout(0).map(Box::new)));
    app.update(About::Swap);
    let names: Vec<&str> = app.document.variants.iter().map(|variant| variant.name.as_str()).collect();
    assert_eq!(names, ["lowered"], "a strut has no such joint");
    app.update(Open::Demo(1));
    assert!(app.document.variants.is_empty());
    app.update(Step::Undo);
    assert_eq!(app.document.variants.len(), 1);
}

/// The lines of a kind in a drawing.
fn paths(scene: &Scene, ink: Ink) -> Vec<String> {
    fn within(items: &[Item], ink: Ink, found: &mut Vec<String>) {
        for item in items {
            match item {
                Item::Clip { items, .. } => within(items, ink, found),
                Item::Path { steps, stroke: Some(stroke), .. } if stroke.ink == ink => found.push(format!("{steps:?}")),
                _ => {}
            }
        }
    }
    let mut found = Vec::new();
    within(&scene.items, ink, &mut found);
    found
}

fn fitted(app: &App) -> Sheet {
    Sheet::fit([900.0, 700.0], Arrangement::One(View::Front), &app.picture())
}

/// The other axle's tyre is drawn too: with another width of it another line.
#[test]
fn the_compared_tyre_is_drawn() {
    let mut app = app();
    app.update(Build::CompareNow);
    let sheet = fitted(&app);
    let own = paths(&draw(&app.picture(), &sheet), Ink::Compared);
    let mut wider = app.document.layout.clone();
    wider.wheel.width += 40.0;
    app.update(About::Compare(Some(Box::new(wider))));
    let other = paths(&draw(&app.picture(), &sheet), Ink::Compared);
    assert_eq!(own.len(), other.len());
    assert_eq!(own.iter().zip(&other).filter(|(own, other)| own != other).count(), 1, "one outline differs");
}

/// From ahead each side of the whole axle is drawn from its own parts: a change of the right one alone moves nothing of the left.
#[test]
fn each_side_is_drawn_as_it_is_built() {
    let mut app = app();
    app.update(Show::Whole(true));
    let sheet = fitted(&app);
    let shoulders = |app: &App| paths(&draw(&app.picture(), &sheet), Ink::Ink2);
    let even = shoulders(&app);
    app.update(Build::Change(Sides::One(RIGHT), Change::FreeRadius, -20.0));
    let uneven = shoulders(&app);
    assert_eq!(even.len(), uneven.len());
    let differ = even.iter().zip(&uneven).filter(|(even, uneven)| even != uneven).count();
    assert!(differ > 0 && differ < even.len() / 2 + 1, "{differ} of {}", even.len());
}

/// Where left and right differ the table has a column for each, and the difference; which side is shown is the reader's.
#[test]
fn readings_have_a_column_for_each_side() {
    let mut app = app();
    let toe = quantity("toe_deg");
    let [usual, ..] = app.study.beside(toe, false);
    assert_eq!(usual, (quantity("toe_deg").value)(&app.study.good.alone(&app.study.good.rest)));
    assert!(app.study.good.other().is_none(), "a mirror image");
    app = uneven();
    let left = app.study.good.value(toe).expect("a value");
    let [right, difference, _] = app.study.beside(toe, false).map(|value| value.expect("a value"));
    assert!((left - right).abs() > 0.5 && (difference - (left - right)).abs() < 1e-12, "{left}, {right}");
    app.update(Stand::Rack(10.0));
    let steered = app.study.beside(toe, false)[0].expect("a value");
    app.update(Show::Whole(true));
    let both = app.study.beside(toe, false)[0].expect("a value");
    // Level, a longer track rod lifts no wheel by more than a tenth of a mm.
    assert!((steered - both).abs() < 0.01, "one rack steers both: {steered}, {both}");
    app.update(Show::Whole(false));
    app.update(Stand::Rack(0.0));
    app.update(Show::Side(RIGHT));
    assert!((app.study.good.value(toe).expect("a value") - right).abs() < 1e-9);
    assert!((app.study.beside(toe, false)[0].expect("a value") - left).abs() < 1e-9);
    // Beside an axle laid over the other side comes last.
    app.update(Build::CompareNow);
    assert!((app.study.beside(toe, true)[2].expect("a value") - left).abs() < 1e-9);
}

/// Tables, posts, pictures and DXF are of the wheel shown, and say which it is and what was changed.
#[test]
fn what_is_passed_on_says_side_and_changes() {
    let mut app = uneven();
    let texts = |app: &App| {
        let mut all = String::new();
        for item in &picture(app, "link", None).items {
            if let Item::Text(text) = item {
                all += &format!("{} ", text.text);
            }
        }
        all
    };
    let left = (curves_csv(&app), dxf(&app));
    assert!(texts(&app).contains("Left wheel;"), "{}", texts(&app));
    app.update(Show::Side(RIGHT));
    let right = (curves_csv(&app), dxf(&app));
    assert!(left.0 != right.0 && left.1 != right.1);
    let changes = "Changes: length of the track rod +3.00 mm, right wheel.";
    assert!(texts(&app).contains("Right wheel, as if it were a left one;"), "{}", texts(&app));
    let said = post(&app, "link", Markup::Plain);
    assert!(said.contains(changes) && said.contains("Right wheel"), "{said}");
    assert!(right.1.starts_with("999\nRight wheel") && right.1.contains(changes), "{}", right.1);
    // The ball joint of the longer rod sits elsewhere, its inner one does not; what is a design has the design's joints.
    let joint = |dxf: &str, id: PointId| {
        let layer = id.name().split(',').next().expect("a part").to_uppercase().replace(' ', "_");
        let found = dxf.split("0\nPOINT\n8\n").filter(|point| point.starts_with(&layer)).map(str::to_string);
        found.collect::<Vec<String>>()
    };
    let rod = [&left.1, &right.1].map(|dxf| joint(dxf, PointId::TrackRodOuter));
    assert_eq!(rod[0].iter().zip(&rod[1]).filter(|(left, right)| left != right).count(), 1, "{rod:?}");
    app.update(Build::All(Box::default()));
    app.update(Show::Side(LeftOrRight::Left));
    assert!(dxf(&app).starts_with("999\nLeft wheel.\n0\nSECTION"));
    assert!(!post(&app, "link", Markup::Plain).contains("wheel."), "nothing to add");
}

/// A layout file carries the changes, and opens with them.
#[test]
fn a_file_carries_changes() {
    let mut app = uneven();
    app.update(Stand::Ride(20.0));
    let file = app.document.layout.to_json();
    assert_eq!(kernel::Layout::from_json(&file).expect("a layout"), app.document.layout);
}
