//! The alignment sheet without a browser: what of it is asked of the kernel, what is answered, and in what words.

use crate::work::answer;
use kernel::repair::Found;
use kernel::vary::{Outcome, Parameter, Quantity, read};
use kernel::{Axle, Change, Layout, LeftOrRight, Member, PointId, Sides};
use tests::{demo, near};
use web::app::{App, Build, Paper, Step, Told};
use web::content::exercises;
use web::document::Document;
use web::document::alignment::{Alignment, Cell, Row};
use web::exchange::explained::{fits, further, summary, told};
use web::study::alignment::{Question, computed, diagnosis, spare};
use web::work::explain::{self, Answer};

const LEFT: LeftOrRight = LeftOrRight::Left;
const RIGHT: LeftOrRight = LeftOrRight::Right;
const TOE_SET: Question = Question { after: false, against: false, toe_set: true };

/// A sheet with what an axle has, to the hundredth of a degree that a printout gives.
fn printed(axle: &Axle) -> Alignment {
    let mut sheet = Alignment::default();
    for (row, _) in Row::ALL.into_iter().filter(|(row, _)| !matches!(row, Row::Height | Row::Included)) {
        for (side, value) in LeftOrRight::BOTH.into_iter().zip(computed(axle, row)) {
            sheet.set(row, Cell::Before(side), value.map(|value| (100.0 * value).round() / 100.0));
        }
    }
    sheet
}

/// A car with one fault, its left toe set again by the track rod: Newton's way with a slope by difference.
fn toe_set(design: &Layout, change: Change, by: f64) -> Layout {
    let longer = |layout: &Layout, change, by| Parameter::Change(change).added(layout, Sides::One(LEFT), by);
    let toe = |layout: &Layout| computed(&Axle::new(layout).expect("an axle"), Row::Toe)[0].expect("toe");
    let rod = Change::Length(Member::TrackRod);
    let mut car = longer(design, change, by);
    for _ in 0..4 {
        let slope = (toe(&longer(&car, rod, 0.01)) - toe(&car)) / 0.01;
        car = longer(&car, rod, (toe(design) - toe(&car)) / slope);
    }
    car
}

fn answered(found: &Found, layout: &Layout, pieces: usize) -> Answer {
    explain::read(&answer(&explain::task(found, layout), pieces)).expect("an answer")
}

/// A mechanic's printout of a car whose upper front arm is 1 mm long and whose toe has been set again: the arm is among what explains it, by its
/// millimetre; it is put into the car in one step, which then has what the printout says.
#[test]
fn an_arm_a_millimetre_long_is_found_on_paper() {
    let design = demo("four-arm");
    let arm = Change::Length(Member::UpperFront);
    let car = Axle::new(&toe_set(&design, arm, 1.0)).expect("an axle");
    let sheet = printed(&car);
    let found = TOE_SET.found(&sheet, &design, true).expect("values");
    assert_eq!((found.values.len(), found.adjusted.len(), spare(&found)), (8, 1, 5));
    let answer = answered(&found, &design, usize::MAX);
    assert_eq!(answer, answered(&found, &design, 3), "however it is sliced");
    assert!(answer.why_not.is_empty() && answer.causes.len() == explain::TOLD);
    let at = answer.causes.iter().position(|cause| cause.change == "length.upper.front" && cause.side == "left");
    let cause = &answer.causes[at.expect("the arm is told")];
    assert!(at < Some(answer.tied), "{answer:?}");
    // A hundredth of a degree of camber is a tenth of a millimetre of this arm, as `vary` has it.
    near(cause.amount, 1.0, 0.15, "its millimetre");
    assert_eq!(fits(cause, spare(&found))[0], "fits within the errors");
    let words = told(cause, &design, TOE_SET).expect("words");
    assert!(words.starts_with("upper front arm ") && words.ends_with(" mm too long, left"), "{words}");
    // Into the car, and back.
    let mut app = App::new(Document::of(design.clone()), Vec::new());
    app.update(Paper::Alignment(Box::new(sheet.clone())));
    app.update(Build::All(Box::new(cause.put_into(&design).changes)));
    assert_eq!(app.document.layout, cause.put_into(&design), "to the digits of a link");
    for row in [Row::Toe, Row::Camber, Row::Caster, Row::Inclination] {
        let Told::Value(Some(value)) = app.aligned(row)[0] else { panic!("{row:?}") };
        near(value, sheet.cell(row, Cell::Before(LEFT)).expect("typed"), 2.0 * sheet.error(row), "as on paper");
    }
    app.update(Step::Undo);
    assert_eq!(app.document.layout, design);
}

/// What would decide is said with what it would be for each of the causes that are tied.
#[test]
fn the_further_measurement_is_told() {
    let design = demo("strut");
    let car = Axle::new(&toe_set(&design, Change::Joint(PointId::StrutTop, 1), 5.0)).expect("an axle");
    // A rig that does not tell caster.
    let mut sheet = printed(&car);
    sheet.lines.remove(&Row::Caster);
    let found = TOE_SET.found(&sheet, &design, true).expect("values");
    let answer = answered(&found, &design, usize::MAX);
    assert!(answer.tied > 1, "{answer:?}");
    let says = further(&answer, &design, TOE_SET).expect("a measurement");
    assert!(says.matches(" if ").count() == answer.tied.min(explain::TOLD), "{says}");
    assert!(says.contains("usual error"), "{says}");
    let summary = summary(&answer, spare(&found));
    assert!(summary.starts_with(&format!("{} things explain it equally well", answer.tied)), "{summary}");
    // One cause alone needs none.
    assert_eq!(further(&Answer { tied: 1, ..answer }, &design, TOE_SET), None);
}

#[test]
fn a_sound_car_needs_no_explanation() {
    let design = demo("double-wishbone");
    let found = TOE_SET.found(&printed(&Axle::new(&design).expect("an axle")), &design, true).expect("values");
    let answer = answered(&found, &design, usize::MAX);
    assert!(summary(&answer, spare(&found)).starts_with("With these errors nothing needs to be wrong"), "{answer:?}");
}

/// Left against right: the difference, over both errors, is what remains of both values when what they share has taken its best value. The best
/// value is found by trying.
#[test]
fn a_difference_counts_with_both_errors() {
    let design = demo("strut");
    let mut sheet = Alignment::default();
    let [left, right] = [-1.1, -0.4];
    sheet.set(Row::Camber, Cell::Before(LEFT), Some(left));
    sheet.set(Row::Camber, Cell::Before(RIGHT), Some(right));
    sheet.set(Row::Camber, Cell::Error, Some(0.08));
    let question = Question { against: true, ..Question::default() };
    let found = question.found(&sheet, &design, true).expect("a difference");
    assert_eq!(found.values.len(), 1);
    let value = found.values[0];
    // The sound car has the same camber on both sides, c: left and right are measured as c + b.
    let squares = |b: f64| ((b - left) / 0.08).powi(2) + ((b - right) / 0.08).powi(2);
    let best = (0..20_000).map(|i| squares(-2.0 + f64::from(i) * 1e-4)).fold(f64::INFINITY, f64::min);
    near((value.value / value.error).powi(2), best, 1e-6, "the same squares");
    assert_eq!((value.outcome.side, value.less.map(|less| less.side)), (LEFT, Some(RIGHT)));
    // Without the other side there is no difference.
    sheet.set(Row::Camber, Cell::Before(RIGHT), None);
    assert!(question.found(&sheet, &design, true).is_none());
}

#[test]
fn only_what_is_typed_is_asked() {
    let design = demo("strut");
    let mut sheet = Alignment::default();
    assert!(TOE_SET.found(&sheet, &design, true).is_none());
    // One side only; without a toe value nothing can be said of a track rod.
    sheet.set(Row::Camber, Cell::Before(RIGHT), Some(-0.7));
    let found = TOE_SET.found(&sheet, &design, true).expect("a value");
    assert_eq!((found.values.len(), found.values[0].outcome.side, found.adjusted.len()), (1, RIGHT, 0));
    sheet.set(Row::Toe, Cell::Before(RIGHT), Some(0.1));
    assert_eq!(TOE_SET.found(&sheet, &design, true).expect("values").adjusted.len(), 1);
    assert!(Question { after: true, ..TOE_SET }.found(&sheet, &design, true).is_none(), "nothing after");
    // Included angle less camber is an inclination; one that is typed itself goes first.
    sheet.set(Row::Included, Cell::Before(RIGHT), Some(13.3));
    let (value, error) = TOE_SET.value(&sheet, Row::Inclination, RIGHT).expect("a value");
    near(value, 14.0, 1e-12, "the sum");
    near(error, 0.1_f64.hypot(0.03), 1e-12, "its error");
    sheet.set(Row::Inclination, Cell::Before(RIGHT), Some(14.2));
    assert_eq!(TOE_SET.value(&sheet, Row::Inclination, RIGHT), Some((14.2, 0.1)));
    assert_eq!(TOE_SET.found(&sheet, &design, false).expect("values").values.len(), 2, "no rack, no sweep");
    // Where it was measured: a lower car has a smaller distance from arch to hub.
    let travel = |sheet: &Alignment| TOE_SET.found(sheet, &design, true).expect("values").values[0].outcome.travel;
    assert_eq!(travel(&sheet), 0.0);
    sheet.set(Row::Height, Cell::Before(RIGHT), Some(340.0));
    sheet.arch = true;
    assert_eq!(travel(&sheet), 0.0, "nobody has said what it should be");
    sheet.arch_at_design = Some(365.0);
    assert_eq!(travel(&sheet), 25.0);
    assert_eq!(TOE_SET.found(&sheet, &design, true).expect("values").height_error, 2.0);
}

#[test]
fn total_toe_is_shared() {
    let mut sheet = Alignment::default();
    let cells = LeftOrRight::BOTH.map(Cell::Before);
    sheet.set_total_toe(cells, 0.3);
    assert_eq!(cells.map(|cell| sheet.cell(Row::Toe, cell)), [Some(0.15); 2]);
    sheet.set(Row::Toe, cells[0], Some(0.25));
    sheet.set_total_toe(cells, 0.2);
    let [left, right] = cells.map(|cell| sheet.cell(Row::Toe, cell).expect("a value"));
    near(left, 0.15, 1e-12, "left");
    near(right, 0.05, 1e-12, "right");
}

/// What the sheet shows of the axle is what the kernel reads on it.
#[test]
fn beside_the_cells_stands_what_this_axle_has() {
    let mut layout = demo("four-arm");
    layout.changes.set(Sides::One(RIGHT), Change::Length(Member::UpperFront), 2.0);
    layout.changes.set(Sides::Both, Change::Ride, 12.0);
    let app = App::new(Document::of(layout.clone()), Vec::new());
    for (row, column) in [
        (Row::Toe, "toe_deg"),
        (Row::Camber, "camber_deg"),
        (Row::Caster, "caster_sweep_deg"),
        (Row::Inclination, "kingpin_inclination_sweep_deg"),
    ] {
        let quantity = Quantity::named(column).expect("a reading");
        let places = LeftOrRight::BOTH.map(|side| Outcome { quantity, side, travel: 12.0, rack: 0.0 });
        let reads = read(&layout, &places).expect("an axle");
        for (told, read) in app.aligned(row).iter().zip(reads) {
            near(told.value().expect("a value"), read.expect("a reading"), 1e-9, column);
        }
    }
    let [sum, camber, inclination] =
        [Row::Included, Row::Camber, Row::Inclination].map(|row| app.aligned(row)[1].value().expect("a value"));
    near(sum, camber + inclination, 1e-12, "included angle");
    assert_eq!(app.aligned(Row::Height)[0], Told::Value(Some(12.0)));
}

/// What a lesson hides stays hidden here, and what tells it.
#[test]
fn a_lesson_s_hidden_readings_stay_hidden() {
    let mut document = exercises::all().remove(0).document;
    document.lesson.as_mut().expect("a lesson").hidden = vec!["camber_deg"];
    let camber = App::new(document, Vec::new());
    assert_eq!(camber.aligned(Row::Height)[0], Told::Value(Some(0.0)));
    assert_eq!([Row::Camber, Row::Included].map(|row| camber.aligned(row)[0]), [Told::Hidden; 2]);
}

/// The trade's table, by its lines; on split arms it is not offered.
#[test]
fn the_trade_s_table_is_read_by_the_line() {
    let [strut, wishbones, split] = ["strut", "double-wishbone", "four-arm"].map(demo);
    for (inclination, camber, strut_says, wishbones_say) in [
        (0.5, 9.0, Some("bent carrier or strut"), Some("bent carrier")),
        (-8.0, 8.0, Some("top mount too far out"), Some("upper one too long")),
        (8.0, -8.0, Some("top mount too far in"), Some("upper wishbone too short")),
        (8.0, 8.0, Some("more than one part"), Some("more than one part")),
        (1.0, -1.0, None, None),
    ] {
        for (layout, says) in [(&strut, strut_says), (&wishbones, wishbones_say), (&split, None)] {
            let line = diagnosis(layout, inclination, camber);
            assert_eq!(line.is_some(), says.is_some(), "{line:?}");
            assert!(line.unwrap_or_default().contains(says.unwrap_or_default()), "{line:?}");
        }
    }
}
