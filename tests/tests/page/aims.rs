//! Spread and goals, without a browser: work gives what the kernel gives however it is sliced.

use crate::work::answer;
use kernel::vary::spread::{Asked, Spread};
use kernel::vary::{Distribution, Errors, KINDS, Kind};
use kernel::{Change, Layout, LeftOrRight, PointId, Sides};
use tests::{DEMOS, demo};
use web::app::{App, Edit, Point, Step};
use web::content::demos::first;
use web::document::Document;
use web::study::Known;
use web::work::{Work, spread};

fn question(layout: Layout, kind: Kind) -> spread::Question {
    let points = vec![(PointId::LowerFrontInner, 2.0), (PointId::TrackRodOuter, 1.5)];
    let columns = vec!["toe_deg", "caster_deg", "kingpin_offset_wheel_centre_mm"];
    let known = Known { layout, side: LeftOrRight::Right, kind, distribution: Distribution::Uniform, points };
    spread::Question { known, columns }
}

#[test]
fn spread_is_the_kernel_s_to_the_last_digit() {
    for (name, (kind, _)) in DEMOS.iter().zip(KINDS.iter().cycle()) {
        let mut layout = demo(name);
        layout.changes.set(Sides::Both, Change::Ride, 12.5);
        let question = question(layout.clone(), *kind);
        let told = question.read(&answer(&question.task(60), 1)).expect("an axle");
        let errors = Errors::of_points(*kind, &question.known.points, Distribution::Uniform);
        let asked = Asked { errors, travels: vec![12.5], rack: 0.0 };
        let mut spread = Spread::new(&layout, LeftOrRight::Right, &asked, 1, |_| true).expect("an axle");
        (0..60).for_each(|_| spread.draw());
        assert_eq!(told.drawn, [60, spread.failed], "{name}");
        // An axle that does not steer has no steering axis to read.
        let has = |column: &&str| {
            let is = |i: &usize| spread.outcomes()[*i].quantity.column() == *column;
            (0..spread.outcomes().len()).find(is).and_then(|at| spread.off(at)).is_some()
        };
        assert_eq!(told.lines.len(), question.columns.iter().filter(|column| has(column)).count(), "{name}");
        for line in &told.lines {
            let is = |i: &usize| spread.outcomes()[*i].quantity.column() == line.column;
            let at = (0..spread.outcomes().len()).find(is).expect("an outcome");
            let off = spread.off(at).expect("a reading");
            let drawn = off.drawn.expect("drawn");
            let sample = line.sample.as_ref().expect("a sample");
            assert_eq!(line.linear, [off.value, off.sigma_linear, off.worst_linear]);
            assert_eq!(sample.numbers[..2], [drawn.mean, drawn.sigma]);
            assert_eq!(sample.numbers[2..5], drawn.percentiles.expect("kept"));
            if off.sigma_linear > 1e-3 {
                assert_eq!(line.shares, spread.shares(at));
                assert_eq!(sample.bars.iter().sum::<usize>(), 60 - spread.failed);
            }
        }
    }
}

/// Toe where it was measured is what it was measured to be: nothing but rounding is left, and that is no share of anything.
#[test]
fn rounding_has_no_shares_and_no_bars() {
    let question = question(demo("four-arm"), Kind::Design);
    let told = question.read(&answer(&question.task(100), 3)).expect("an axle");
    let line = &told.lines[0];
    assert!(line.column == "toe_deg" && line.shares.is_empty() && line.linear[1] < 1e-6, "{line:?}");
    assert!(line.sample.as_ref().expect("drawn").bars.iter().all(|bar| *bar == 0));
}

#[test]
fn slices_change_nothing_and_a_stop_keeps_what_has_come() {
    let question = question(demo("double-wishbone"), Kind::Build);
    let whole = answer(&question.task(1200), usize::MAX);
    for pieces in [1, 7, 25] {
        assert_eq!(answer(&question.task(1200), pieces), whole);
    }
    let blocks: Vec<&str> = whole.split_inclusive("\n#").collect();
    assert!(blocks.len() > 2, "it is told on the way");
    let early = question.read(blocks[..2].concat().trim_end_matches('#')).expect("what has come");
    assert!(0 < early.drawn[0] && early.drawn[0] < 1200, "{early:?}");
}

#[test]
fn an_axle_that_can_t_stand_there_says_so_in_a_sentence() {
    let mut layout = demo("strut");
    layout.changes.set(Sides::Both, Change::Ride, 119.0);
    layout.changes.set(Sides::Both, Change::Length(kernel::Member::TrackRod), -400.0);
    let question = question(layout, Kind::Design);
    let sentence = question.read(&answer(&question.task(100), 2)).expect_err("no axle");
    assert!(sentence.len() > 20 && !sentence.contains('!'), "{sentence}");
    assert!(question.read("").is_err());
    assert!(Work::start("spread\n10 left toe_deg\n{}\n{}").is_err());
}

#[test]
fn all_joints_get_their_tolerance_in_one_step() {
    let mut app = App::new(Document::of(first()), Vec::new());
    let before = app.document.clone();
    app.update(Edit::Point(Point::ErrorOfJoints(2.0)));
    let joints = before.layout.points().filter(|(id, _)| id.is_joint()).count();
    assert_eq!(app.document.errors.len(), joints);
    assert!(app.document.errors.iter().all(|(id, error)| id.is_joint() && *error == 2.0));
    assert_eq!(app.document.layout, before.layout, "no coordinate moves, not even by rounding");
    app.update(Step::Undo);
    assert_eq!(app.document, before);
}
