//! How long the kernel takes: `cargo bench -p kernel`.

#![allow(clippy::expect_used, clippy::print_stdout, reason = "a demo that fails ends the run; times are printed")]

use kernel::space::{Grid, Seen, Space};
use kernel::vary::Sensitivity;
use kernel::vary::goals::{Goals, Search};
use kernel::vary::spread::{Asked, Spread};
use kernel::{
    Anchor, Axle, Bush, Bushes, Corner, Demand, Elastic, Layout, LeftOrRight, Linkage, LoadCase, MemberForces,
    Position, READINGS, Setting, Snapshot, State, Statics, SteeringMoment, Subframe, SubframeMount, Subject, Vec3,
    sweep,
};
use std::hint::black_box;
use std::time::{Duration, Instant};

/// How long one sample lasts at least.
const SAMPLE: Duration = Duration::from_millis(100);

/// Prints how long it takes: the least, median and longest mean of 15 samples, µs.
fn time<T>(name: &str, mut act: impl FnMut() -> T) {
    let mut sample = || {
        let start = Instant::now();
        let mut turns = 0;
        while start.elapsed() < SAMPLE {
            black_box(act());
            turns += 1;
        }
        start.elapsed().as_secs_f64() * 1e6 / f64::from(turns)
    };
    // What it finds in no cache yet does not count.
    sample();
    let mut means: Vec<f64> = (0..15).map(|_| sample()).collect();
    means.sort_by(f64::total_cmp);
    println!("{name}: {:.2} {:.2} {:.2}", means[0], means[7], means[14]);
}

fn benches() {
    let layout = Layout::from_json(include_str!("../../demo-layouts/four-arm.json")).expect("a layout");
    let linkage = Linkage::new(&layout).expect("a linkage");
    let rest = Position { pose: linkage.rest(), rack: 0.0 };
    let at = |travel, rack| State::solve(&linkage, Demand::new(travel, rack), &rest).expect("a pose");
    let near = at(24.0, 11.7);
    let readings: Vec<_> = READINGS.iter().filter(|reading| reading.subject() == Subject::Wheel).collect();
    time("warm solve with all readings of the wheel", || {
        let state = State::solve(&linkage, black_box(Demand::new(25.0, 12.0)), &near).expect("a pose");
        let snapshot = Snapshot::of(&state);
        for reading in &readings {
            black_box((reading.value)(&snapshot));
        }
    });
    time("solve from rest", || at(black_box(25.0), 12.0));
    time("sweep of 121 states", || {
        for solved in sweep(&linkage, (-60..=60).map(|travel| Demand::new(f64::from(travel), 12.0))) {
            black_box(State::read(&linkage, &solved.expect("a pose")));
        }
    });
    time("linkage of a layout", || Linkage::new(black_box(&layout)));
    let setting = Setting::of(&Axle::new(&layout).expect("an axle"));
    time("all load cases at one position", || {
        let statics = Statics::at(black_box(&near));
        for case in LoadCase::all() {
            let load = case.load(&setting).expect("a sound vehicle");
            black_box(Corner::under(&linkage, &near, &statics, &load.wrench(&near)));
            black_box(SteeringMoment::of(&load, &near));
        }
    });
    time("every reading by every parameter", || {
        Sensitivity::at(black_box(&layout), LeftOrRight::Left, 25.0, 12.0).expect("an axle")
    });
    time("member forces", || MemberForces::under_road_force(black_box(&near), Vec3::new(-3000.0, 500.0, 4000.0)));
}

fn compliance() {
    let mut layout = Layout::from_json(include_str!("../../demo-layouts/four-arm.json")).expect("a layout");
    let rubber = Bush { radial: Some(4_000.0), axial: Some(700.0), along: Some(30_000.0), ..Bush::default() };
    let arms = [Anchor::LowerFront, Anchor::LowerRear, Anchor::UpperFront, Anchor::UpperRear];
    layout.stiffness = arms.into_iter().map(|anchor| (anchor, rubber)).collect();
    layout.stiffness.insert(Anchor::Rack, Bush { along: Some(8_000.0), ..Bush::default() });
    let mount = |x| SubframeMount { at: Vec3::new(x, 400.0, 250.0), stiffness: Vec3::new(3_000.0, 4_000.0, 2_500.0) };
    layout.subframe = Some(Subframe { mounts: vec![mount(180.0), mount(-380.0)], carries: None });
    let axle = Axle::new(&layout).expect("an axle");
    let [left, right] = [12.0, -12.0].map(|rack| axle.state(Demand::new(25.0, rack)).expect("a pose"));
    let bushes = Bushes::of(&axle).expect("bushes");
    time("all that gives way at one position", || {
        black_box(Elastic::at(&bushes, &axle, black_box([&left, &right]), 0).expect("held"))
    });
    time("what gives way, of a layout", || Bushes::of(black_box(&axle)));
}

/// Wheel space: over the usual grid, with the litres; at one position; and its outlines.
fn wheel_space() {
    let layout = Layout::from_json(include_str!("../../demo-layouts/four-arm.json")).expect("a layout");
    let axle = Axle::new(&layout).expect("an axle");
    let (left, grid) = (LeftOrRight::Left, Grid::usual(&layout));
    time("wheel space over 143 positions", || {
        let space = Space::over(&axle, left, black_box(&grid));
        black_box((space.turning_litres(space.pieces().side_plane()), space.clearances()));
    });
    let space = Space::over(&axle, left, &grid);
    let state = axle.state(Demand::new(25.0, 12.0)).expect("a pose");
    time("clearances at one position", || space.pieces().gaps(black_box(&state.position)));
    time("three outlines of 143 positions", || {
        [Seen::Front, Seen::Side, Seen::Plan].map(|seen| black_box(&space).outlines(seen, 0.0))
    });
}

/// 100 of the drawn axles and one start of the search that `examples/long.rs` times whole.
fn vary() {
    let layout = Layout::from_json(include_str!("../../demo-layouts/four-arm.json")).expect("a layout");
    let errors = Asked::from_json(include_str!("../../tests/reference/timed_errors.json"), &layout).expect("errors");
    let goals = Goals::from_json(include_str!("../../tests/reference/timed_goals.json"), &layout).expect("goals");
    let mut spread = Spread::new(&layout, LeftOrRight::Left, &errors, 1, |_| false).expect("an axle");
    time("100 drawn axles at 13 travels", || (0..100).for_each(|_| spread.draw()));
    time("a start of a search with 8 freedoms and 6 aims", || {
        Search::new(black_box(&layout), goals.clone()).expect("an axle").step()
    });
}

fn main() {
    benches();
    compliance();
    wheel_space();
    vary();
}
