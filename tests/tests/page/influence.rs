//! The influence table and what to turn, without a browser: work gives what the kernel gives, rows say it in words, and a car's adjusters are edited.

use crate::work::answer;
use kernel::vary::{Aim, Parameter, Quantity, Sensitivity, turn};
use kernel::{Adjusted, Adjuster, Change, LeftOrRight, Linkage, Member, PointId, Sides, Vec3};
use tests::{DEMOS, demo, near};
use web::app::{App, Build, Edit, Step};
use web::content::demos;
use web::study::influence::{Kind, Row, rows, sort};
use web::work::{Work, influence, turn as job};

fn shims() -> Vec<Adjuster> {
    let along = Vec3::new(0.6, -0.8, 0.0);
    vec![
        Adjuster { range: [-3.0, 3.0], pitch: Some(1.5), ..Adjuster::of(Change::Length(Member::TrackRod)) },
        Adjuster {
            set: Adjusted::Along(PointId::UpperFrontInner, along),
            range: [0.0, 6.0],
            pitch: None,
            step: Some(2.0),
        },
    ]
}

#[test]
fn the_work_s_table_is_the_kernel_s_to_the_last_digit() {
    for name in DEMOS {
        let mut layout = demo(name);
        layout.changes.set(Sides::Both, Change::Ride, 12.5);
        layout.changes.set(Sides::One(LeftOrRight::Right), Change::Length(Member::LowerFront), 1.25);
        for side in LeftOrRight::BOTH {
            let slopes = influence::slopes(&layout, &answer(&influence::task(&layout, side), 1)).expect("slopes");
            let should = Sensitivity::at(&layout, side, 12.5, 0.0).expect("an axle").rows;
            assert_eq!(slopes, should, "{name}");
        }
    }
    assert!(influence::slopes(&demo("strut"), "").is_none());
    assert!(Work::start("influence\nleft\nnot a layout").is_err());
}

#[test]
fn rows_are_the_axle_s_parts_and_an_adjuster_s_are_per_turn_and_shim() {
    let mut layout = demo("double-wishbone");
    layout.changes.adjusters = shims();
    let linkage = Linkage::new(&layout).expect("a linkage");
    let slopes = Sensitivity::at(&layout, LeftOrRight::Left, 0.0, 0.0).expect("an axle").rows;
    let columns = ["camber_deg", "toe_deg"].map(|column| Quantity::named(column).expect("a quantity"));
    let of = |kind| rows(&linkage, &layout, &slopes, kind, &columns);
    let [length, build, design] = [Kind::Length, Kind::Build, Kind::Design].map(of);
    assert_eq!(length.len() + build.len() + design.len(), Parameter::all(&layout).len(), "each in one kind");
    let names: Vec<&str> = length.iter().map(|row| row.name.as_str()).collect();
    assert_eq!(names.last(), Some(&"track rod"));
    assert!(length.iter().chain(&build).chain(&design).all(|row| row.joint.is_some() && row.slopes.len() == 2));
    let adjusters = of(Kind::Adjuster);
    let slope = |rows: &[Row], name: &str, column: usize| {
        rows.iter().find(|row| row.name == name).and_then(|row| row.slopes[column]).expect("a number")
    };
    for column in 0..2 {
        let turn = slope(&adjusters, "length of the track rod", column);
        near(turn, 1.5 * slope(&length, "track rod", column), 1e-12, "a turn");
        let [x, y] = ["x", "y"].map(|axis| slope(&build, &format!("upper front, inner joint, {axis}"), column));
        near(adjusters[1].slopes[column].expect("a number"), 2.0 * (0.6 * x - 0.8 * y), 1e-12, "a shim");
    }
    assert_eq!(adjusters.iter().map(|row| row.per).collect::<Vec<_>>(), ["turn", "shim"]);
    let mut sorted = of(Kind::Build);
    sort(&mut sorted, 0);
    let sizes: Vec<f64> = sorted.iter().map(|row| row.slopes[0].map_or(-1.0, f64::abs)).collect();
    assert!(sizes.is_sorted_by(|a, b| a >= b) && sizes[0] > 0.0);
}

#[test]
fn what_to_turn_is_the_same_however_it_is_sliced() {
    let mut layout = demo("four-arm");
    layout.changes.set(Sides::One(LeftOrRight::Left), Change::Length(Member::UpperFront), 1.0);
    let aims = || {
        let aim = |(column, wanted)| Aim { quantity: Quantity::named(column).expect("a quantity"), wanted };
        [("toe_deg", 0.1), ("camber_deg", -0.9)].map(aim).to_vec()
    };
    let left = Sides::One(LeftOrRight::Left);
    let wanted = job::Wanted::of(&layout, left, aims()).expect("something wanted");
    assert_eq!(wanted.layout.changes.adjusters.len(), 5, "every member is offered");
    let whole = answer(&wanted.task(), usize::MAX);
    assert_eq!([1, 2, 7].map(|pieces| answer(&wanted.task(), pieces)), [whole.clone(), whole.clone(), whole.clone()]);
    let should = turn(&layout, left, aims(), job::adjusters(&layout));
    for (is, should) in wanted.answers(&whole).iter().zip(&should) {
        let moves = |answer: &Option<kernel::vary::Answer>| answer.as_ref().map(|answer| answer.moves.clone());
        assert_eq!(moves(is), moves(should));
        assert!(is.is_some());
    }
    assert!(job::Wanted::of(&layout, left, Vec::new()).is_none());
    layout.changes.adjusters = shims();
    assert_eq!(job::adjusters(&layout), shims(), "a car's own come first");
    for task in ["turn\n", "turn\nleft toe_deg=x\n{}", "turn\nnobody nothing=1\nno layout"] {
        assert!(Work::start(task).is_err(), "{task}");
    }
}

#[test]
fn a_car_is_given_adjusters_and_loses_them_step_by_step() {
    let mut app = App::new(demos::opening(), Vec::new());
    for adjuster in shims() {
        app.update(Edit::Build(Build::Fit(adjuster)));
    }
    assert_eq!(app.document.layout.changes.adjusters, shims());
    app.update(Edit::Build(Build::Unfit(0)));
    assert_eq!(app.document.layout.changes.adjusters, shims()[1..]);
    app.update(Step::Undo);
    assert_eq!(app.document.layout.changes.adjusters, shims());
    for _ in 0..30 {
        app.update(Edit::Build(Build::Fit(shims().remove(0))));
    }
    assert_eq!(app.document.layout.changes.adjusters.len(), 16);
    assert!(app.notices.iter().any(|notice| notice.contains("16 adjusters")));
    let mut endless = shims().remove(0);
    endless.pitch = Some(0.0);
    app.update(Edit::Build(Build::Unfit(0)));
    app.update(Edit::Build(Build::Fit(endless)));
    assert_eq!(app.document.layout.changes.adjusters.len(), 15, "a thread without pitch is none");
}
