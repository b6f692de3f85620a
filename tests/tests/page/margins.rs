//! How far readings may be off, behind each reading and along its curve: the kernel's numbers, pale once they are of another axle, hidden with their reading.

use crate::work::answer;
use kernel::vary::spread::{Asked, Spread};
use kernel::vary::{Distribution, Errors, Kind};
use kernel::{Layout, LeftOrRight, PointId, Reading};
use tests::demo;
use web::app::{App, Edit, Margin, Point, Show, Stand};
use web::document::lesson::Lesson;
use web::document::{Document, Over};
use web::drawing::Theme;
use web::drawing::svg::svg;
use web::exchange::picture::picture;
use web::exchange::post::{Markup, post};
use web::plot::{Plot, scene};
use web::work::margins::{read, task};

fn reading(column: &str) -> &'static Reading {
    Reading::named(column).expect("a reading")
}

/// A measured axle at a place of its own, with its margins worked out.
fn measured(name: &str) -> App {
    let mut app = App::new(Document::of(demo(name)), Vec::new());
    app.update(Edit::Point(Point::ErrorOfJoints(2.0)));
    app.update(Stand::Travel(20.0));
    told(&mut app);
    app
}

/// The work is done, as the pane has it done.
fn told(app: &mut App) {
    let question = app.margins_question().expect("points with a ±");
    let margins = read(&question, &answer(&task(&question), 3));
    app.update(Margin::Told(Some(Box::new((question, margins)))));
}

/// Two deviations of the kernel's spread at a travel.
fn two_sigma(app: &App, kind: Kind, travel: f64, column: &str) -> Option<[f64; 2]> {
    let (layout, points) = (&app.document.layout, &app.document.errors);
    let errors = Errors::of_points(kind, points, Distribution::Uniform);
    let asked = Asked { errors, travels: vec![travel], rack: app.document.rack };
    let spread = Spread::new(layout, LeftOrRight::Left, &asked, 1, |_| false).expect("an axle");
    let at = spread.outcomes().iter().position(|outcome| outcome.quantity.column() == column)?;
    spread.off(at).map(|off| [off.value, 2.0 * off.sigma_linear])
}

#[test]
fn margins_are_two_deviations_of_the_kernel_s_here_and_along_the_travel() {
    for name in ["strut", "four-arm"] {
        let mut app = measured(name);
        for kind in [Kind::Design, Kind::Build] {
            app.update(Margin::Kind(kind));
            told(&mut app);
            for column in ["camber_deg", "caster_deg", "kingpin_offset_wheel_centre_mm"] {
                let [value, margin] = two_sigma(&app, kind, 20.0, column).expect("a reading");
                let (decimals, factor, sign) = app.document.units.shown(reading(column));
                let shown = app.plus_minus(reading(column)).expect("a margin");
                assert_eq!(shown.text, format!("± {:.decimals$}{sign}", margin * factor), "{name} {column}");
                assert!(!shown.stale && margin > 0.0);
                let [most, least] = app.band(reading(column)).expect("a band").lines;
                assert_eq!((most.len(), least.len()), (31, 31));
                let at = most.iter().position(|(travel, _)| *travel == 20.0).expect("a place of the band");
                assert!((most[at].1 - (value + margin) * factor).abs() < 1e-9, "{name} {column}");
                assert!((least[at].1 - (value - margin) * factor).abs() < 1e-9, "{name} {column}");
            }
        }
    }
}

#[test]
fn what_was_worked_out_before_a_change_is_pale_and_on_no_paper() {
    let mut app = measured("strut");
    let camber = reading("camber_deg");
    assert!(app.printed_plus_minus(camber).starts_with(" ± "));
    let line = |app: &App| {
        post(app, "https://example.org/#v=3", Markup::Plain)
            .lines()
            .find(|line| line.starts_with("Camber"))
            .map(String::from)
    };
    assert!(line(&app).expect("camber").contains(" ± "));
    let texts = |app: &App| svg(&picture(app, "link", None), Theme::LIGHT);
    assert!(texts(&app).contains("± is 2 σ"));
    let wrong = app.document.layout.point(PointId::LowerOuter).expect("a joint") + kernel::Vec3::new(0.0, 3.0, 0.0);
    app.update(Edit::Point(Point::Place(PointId::LowerOuter, wrong)));
    assert!(app.plus_minus(camber).expect("the old one").stale);
    assert!(app.band(camber).expect("the old one").stale);
    assert_eq!(app.printed_plus_minus(camber), "");
    assert!(!line(&app).expect("camber").contains('±'));
    // Nothing to ask: nothing to show.
    let joints: Vec<PointId> = app.document.errors.iter().map(|(id, _)| *id).collect();
    for id in joints {
        app.update(Edit::Point(Point::Error(id, 0.0)));
    }
    assert_eq!((app.margins_question(), app.plus_minus(camber), app.margins_mean()), (None, None, None));
}

#[test]
fn a_hidden_reading_hides_its_margin() {
    let mut app = measured("strut");
    let mut document = app.document.clone();
    document.lesson = Some(Lesson { task: "Guess.".into(), hidden: vec!["camber_deg"], begin: 1, ..Lesson::default() });
    app = App::new(document, Vec::new());
    told(&mut app);
    assert!(app.hides("camber_deg"));
    assert_eq!((app.plus_minus(reading("camber_deg")), app.band(reading("camber_deg"))), (None, None));
    assert!(app.plus_minus(reading("caster_deg")).is_some());
}

/// The band is drawn over travel, lies within the frame, and no curve is cut off for it.
#[test]
fn the_band_is_drawn_within_the_frame() {
    let mut app = measured("four-arm");
    let caster = reading("caster_deg");
    let bare = Plot::new(&app.study, &app.document, caster).expect("a curve");
    let plot =
        Plot::new(&app.study, &app.document, caster).expect("a curve").within(app.band(caster), app.document.over);
    let band = plot.band.clone().expect("a band");
    for (_, y) in band.lines.iter().flatten() {
        assert!((plot.y.from..=plot.y.to).contains(y), "{y}");
    }
    assert!(plot.y.from <= bare.y.from && plot.y.to >= bare.y.to);
    let [with, without] = [&plot, &bare].map(|plot| svg(&scene(plot, [300.0, 200.0]), Theme::LIGHT));
    assert_eq!(with.matches("1.5 2").count(), without.matches("1.5 2").count() + 2, "{with}");
    app.update(Show::Over(Over::Steering));
    let steering =
        Plot::new(&app.study, &app.document, caster).expect("a curve").within(app.band(caster), Over::Steering);
    assert_eq!(steering.band, None);
}

/// What does not come from a joint has no margin: layouts without any ± ask nothing.
#[test]
fn nothing_is_asked_without_a_tolerance() {
    let layout: Layout = demo("strut");
    assert_eq!(App::new(Document::of(layout), Vec::new()).margins_question(), None);
}
