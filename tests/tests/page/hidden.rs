//! What a lesson hides is told at no door: post, picture, table, drawing, message, spoken line; and is told at all once it is shown.

use kernel::READINGS;
use web::app::Told;
use web::app::{About, App, Reply, Show};
use web::content::exercises::all;
use web::document::lesson::Answer;
use web::drawing::{Arrangement, Item, Sheet, Turn, View, draw};
use web::exchange::picture::picture;
use web::exchange::post::{Markup, post};
use web::exchange::tables::curves_csv;

/// The first exercise hides the offset at the wheel centre: these are it and its lever arm, as the page shows them.
const OFFSET: &str = "66.0";
const LEVER: &str = "63.9";

fn texts(items: &[Item]) -> Vec<String> {
    let of = |item: &Item| match item {
        Item::Text(text) => vec![text.text.clone()],
        Item::Clip { items, .. } => texts(items),
        Item::Path { .. } => Vec::new(),
    };
    items.iter().flat_map(of).collect()
}

/// All that leaves the page in words.
fn doors(app: &mut App) -> Vec<(&'static str, String)> {
    let link = "https://example.org/#v=2";
    let mut said = vec![("spoken", app.spoken()), ("csv", curves_csv(app))];
    for markup in [Markup::Plain, Markup::Markdown, Markup::BbCode] {
        said.push(("post", post(app, link, markup)));
    }
    for beside in [None, Some(Arrangement::Pictorial { turn: Turn::ISOMETRIC, tyre: true })] {
        said.push(("picture", texts(&picture(app, link, beside).items).join("\n")));
    }
    said.push(("message", format!("{:?}", app.readings().collect::<Vec<_>>())));
    for whole in [false, true] {
        app.update(Show::Whole(whole));
        let drawer = [416.0, 348.0];
        let all = [
            Arrangement::Cross { drawer },
            Arrangement::One(View::Front),
            Arrangement::One(View::Side),
            Arrangement::One(View::Plan),
        ];
        for arrangement in all {
            let sheet = Sheet::fit([1024.0, 860.0], arrangement, &app.picture());
            said.push(("drawing", texts(&draw(&app.picture(), &sheet).items).join("\n")));
        }
    }
    app.update(Show::Whole(false));
    said
}

#[test]
fn what_is_hidden_stays_hidden_at_every_door() {
    let mut app = App::new(all()[0].document.clone(), Vec::new());
    app.update(Show::Pin("drive_lever_arm_mm"));
    // As numbers: to three digits they stand in the table and the message.
    let exact = ["66.04", "63.8", "63.9"];
    for (door, text) in doors(&mut app) {
        for number in exact.into_iter().chain([OFFSET, LEVER]) {
            assert!(!text.contains(number), "{door} tells {number}: {text}");
        }
    }
    assert!(app.hides_levers(), "a moment under a load of one's own is a lever arm");
    app.update(Reply::Answer(Answer { guess: "3 mm".into(), ..app.document.answer.clone() }));
    app.update(Reply::Check);
    let told: Vec<&str> =
        doors(&mut app).into_iter().filter(|(_, text)| text.contains("66.0")).map(|(door, _)| door).collect();
    for door in ["spoken", "csv", "post", "picture", "message", "drawing"] {
        assert!(told.contains(&door), "{door} tells it now: {told:?}");
    }
    assert!(!app.hides_levers());
}

/// A lesson may hide any reading, of one wheel or of the axle: the drawing letters it no more, and what is one with it neither.
#[test]
fn the_drawing_letters_nothing_hidden() {
    let mut document = all()[2].document.clone();
    document.whole = true;
    let shown = |hidden: &[&'static str], whole: bool| {
        let mut document = document.clone();
        document.whole = whole;
        if let Some(lesson) = &mut document.lesson {
            lesson.hidden = hidden.to_vec();
        }
        let app = App::new(document, Vec::new());
        let sheet = Sheet::fit([1440.0, 1100.0], Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture());
        texts(&draw(&app.picture(), &sheet).items).join("\n")
    };
    for (column, words, whole) in [
        ("kingpin_inclination_deg", "kingpin inclination ?", false),
        ("caster_deg", "caster ?", false),
        ("side_lever_arm_mm", "caster offset at ground ?", false),
        ("steer_deg", "toe ?", false),
        ("track_change_mm", "half track ?", false),
        ("track_mm", "track ?", true),
        ("roll_centre_height_mm", "roll centre ? above the road", true),
    ] {
        let text = shown(&[column], whole);
        assert!(text.contains(words), "{column}: {text}");
        assert!(!shown(&[], whole).contains('?'), "nothing is hidden");
    }
    assert!(
        shown(&[], false).contains("Y ") && !shown(&["brake_lever_arm_mm"], false).contains("Y "),
        "the detail goes"
    );
    let mut app = App::new(document, Vec::new());
    for reading in &READINGS {
        assert_eq!(app.told(reading, Some(1.0)), Told::Value(Some(1.0)));
        app.document.lesson.iter_mut().for_each(|lesson| lesson.hidden = vec![reading.column]);
        assert_eq!(app.told(reading, Some(1.0)), Told::Hidden);
        app.document.lesson.iter_mut().for_each(|lesson| lesson.hidden.clear());
    }
}

/// Readings that tell each other are hidden together: caster and inclination at this moment and by sweep, and an included angle, of which the camber
/// is a part; each whichever of them the lesson names, at the message, the table and the setting of a wish.
#[test]
fn relatives_are_hidden_together() {
    let mut app = App::new(all()[0].document.clone(), Vec::new());
    let hide = |app: &mut App, hidden: &[&'static str]| {
        app.document.lesson.iter_mut().for_each(|lesson| lesson.hidden = hidden.to_vec());
    };
    let cell = |app: &App, column: &str| {
        let csv = curves_csv(app);
        let mut rows = csv.lines().map(|line| line.split(',').map(String::from).collect::<Vec<_>>());
        let at = rows.next().expect("a header").iter().position(|name| name == column).expect("a column");
        rows.next().expect("a row")[at].clone()
    };
    for (hidden, relatives, stranger) in [
        ("caster_deg", &["caster_deg", "caster_sweep_deg"][..], "kingpin_inclination_sweep_deg"),
        ("caster_sweep_deg", &["caster_deg", "caster_sweep_deg"], "camber_deg"),
        (
            "kingpin_inclination_deg",
            &["kingpin_inclination_deg", "kingpin_inclination_sweep_deg", "included_angle_sweep_deg"],
            "caster_sweep_deg",
        ),
        ("camber_deg", &["camber_deg", "included_angle_sweep_deg"], "kingpin_inclination_sweep_deg"),
        ("included_angle_sweep_deg", &["camber_deg", "kingpin_inclination_sweep_deg"], "caster_deg"),
    ] {
        hide(&mut app, &[hidden]);
        let told = |app: &App, column: &str| app.readings().find(|(name, _)| *name == column).expect("a reading").1;
        for relative in relatives {
            assert_eq!((told(&app, relative), cell(&app, relative)), (None, "?".into()), "{hidden}: {relative}");
        }
        assert!(told(&app, stranger).is_some() && cell(&app, stranger) != "?", "{hidden}: {stranger}");
    }
    for (a, b) in [
        ("toe_side_force_deg_per_kn", "axle_steer_side_force_deg_per_kn"),
        ("toe_aligning_moment_deg_per_100_nm", "side_force_no_steer_point_mm"),
    ] {
        for (hidden, relative) in [(a, b), (b, a)] {
            hide(&mut app, &[hidden]);
            assert!(app.hides(relative), "{hidden}: {relative}");
        }
    }
}

/// The whole axle's readings have two more doors while both wheels are shown: the table and the message. Toe, hidden, takes both steer angles and
/// the total with it; on one wheel's page nothing is told of the axle.
#[test]
fn the_whole_axle_is_hidden_too() {
    let mut document = all()[0].document.clone();
    document.lesson.iter_mut().for_each(|lesson| lesson.hidden = vec!["toe_deg"]);
    let mut app = App::new(document, Vec::new());
    let told = |app: &App, column: &str| app.readings().find(|(name, _)| *name == column).expect("a reading").1;
    assert!(told(&app, "camber_deg").is_some() && told(&app, "track_mm").is_none());
    assert!(!curves_csv(&app).contains("track_mm"));
    app.update(Show::Whole(true));
    assert!(told(&app, "track_mm").is_some_and(|track| track > 1000.0));
    let csv = curves_csv(&app);
    let mut rows = csv.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let header = rows.next().expect("a header");
    for row in rows {
        let cell = |column| row[header.iter().position(|name| *name == column).expect("a column")];
        for hidden in ["toe_deg", "steer_deg", "steer_left_deg", "steer_right_deg", "total_toe_deg"] {
            assert_eq!((cell(hidden), told(&app, hidden)), ("?", None), "{hidden}");
        }
        assert!(cell("track_mm").parse::<f64>().is_ok_and(|track| track > 1000.0));
        assert_eq!(
            cell("travel_left_mm").parse::<f64>().expect("a number").round(),
            cell("travel_mm").parse::<f64>().expect("a number")
        );
    }
}

/// The joints that a lesson frees have a ring, in every view; without a lesson no joint has one.
#[test]
fn free_joints_are_marked() {
    let rings = |app: &App| {
        let sheet = Sheet::fit([1440.0, 1100.0], Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture());
        let debug = format!("{:?}", draw(&app.picture(), &sheet).items);
        debug.matches("radius: 7.5").count()
    };
    let mut app = App::new(all()[2].document.clone(), Vec::new());
    assert_eq!(rings(&app), 2 * 3);
    app.update(About::Teach(None));
    assert_eq!(rings(&app), 0);
}
