//! Random axles of all kinds, with bushes, subframes, shafts and boxes: a wheel never leaps, no reading is anything but a number, each refusal is a sentence.
//! Sixty of them in every run; `AXLES=10000 SEED=1 cargo test --release -p tests --test kernel endurance` tries so many others.

use kernel::vary::Random;
use kernel::{
    Axle, Bush, Demand, Guide, HalfShaft, Layout, Level, Linkage, Obstacle, PointId, READINGS, Snapshot, Solved,
    SpringOn, Subframe, SubframeMount, Vec3, solve, sweep,
};
use std::rc::Rc;
use tests::{DEMOS, demo, rest};

/// How far a point of the carrier may be from where its velocities lead over a step, mm: a step is halved until it is nearer, or too short.
const NEAR: f64 = 1e-3;
/// So often a step of a millimetre is halved: to a nanometre, in which even the root before a dead point moves by less than `NEAR`.
const HALVINGS: u32 = 20;

/// A number that a variable says, or another.
fn asked(variable: &str, otherwise: u64) -> u64 {
    std::env::var(variable).ok().and_then(|text| text.parse().ok()).unwrap_or(otherwise)
}

fn any(random: &mut Random, reach: f64) -> Vec3 {
    Vec3::new(random.uniform(), random.uniform(), random.uniform()) * reach
}

fn below(random: &mut Random, most: usize) -> usize {
    (random.unit() * most as f64) as usize
}

/// A demo of any kind with its joints moved, most of them by little and some by much, and with any of the optional parts.
fn drawn(random: &mut Random) -> Layout {
    let mut layout = demo(DEMOS[below(random, DEMOS.len())]);
    for level in Level::ALL {
        if random.unit() < 0.4 && !matches!(layout.guide(level), Guide::Strut { .. }) {
            layout = layout.other_kind(level);
        }
    }
    let reach = [5.0, 20.0, 60.0, 200.0][below(random, 4)];
    let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
    for id in ids {
        *layout.point_mut(id).expect("it has the point") += any(random, reach);
    }
    if random.unit() < 0.3 && layout.spring.foot.is_some() {
        layout.spring.on = SpringOn::Carrier;
    }
    if random.unit() < 0.5 {
        layout.half_shaft = Some(HalfShaft::usual(&layout));
    }
    if random.unit() < 0.5 {
        layout.stiffness = layout.usual_stiffness();
        layout.stiffness.values_mut().for_each(|bush: &mut Bush| {
            bush.radial = bush.radial.map(|rate| rate * 10.0_f64.powf(2.0 * random.uniform()));
        });
    }
    if random.unit() < 0.3 {
        layout.subframe = Some(Subframe::usual(&layout, SubframeMount::RUBBER));
    }
    for number in 0..below(random, 4) {
        let [from, to] = [any(random, 400.0), any(random, 400.0)].map(|corner| corner + Vec3::new(0.0, 500.0, 400.0));
        layout.boxes.push(Obstacle { name: format!("box {number}"), from, to, mirrored: None });
    }
    layout
}

fn sentence(text: &str) {
    assert!(text.ends_with('.') && !text.contains('\n') && !text.contains("NaN"), "{text:?}");
}

/// Three points of the carrier that tell where it is, and how fast they go per mm of travel (0) or rack (1).
fn places(solved: &Solved, of: usize) -> [[Vec3; 2]; 3] {
    let (pose, twist) = (&solved.position.pose, solved.motions()[of]);
    [Vec3::zeros(), Vec3::x() * 300.0, Vec3::z() * 300.0].map(|point| {
        let arm = pose.r * point;
        [pose.w + arm, twist.v + twist.omega.cross(&arm)]
    })
}

/// The farthest that a point is from where the mean of its velocities leads over a step.
fn leap(from: &Solved, to: &Solved, step: f64, of: usize) -> f64 {
    let ends = places(from, of).into_iter().zip(places(to, of));
    ends.map(|([a, va], [b, vb])| (b - a - (va + vb) * (step / 2.0)).norm()).fold(0.0, f64::max)
}

/// That the wheel gets from one demand to the other without a leap.
fn connected(
    linkage: &Linkage,
    [from, to]: [f64; 2],
    ends: [&Solved; 2],
    demand: &dyn Fn(f64) -> Demand,
    of: usize,
    left: u32,
    name: &str,
) {
    let leap = leap(ends[0], ends[1], to - from, of);
    if leap < NEAR {
        return;
    }
    assert!(left > 0, "{name}: a leap of {leap} mm between {from} and {to}");
    let middle = (from + to) / 2.0;
    // What can't be reached between two demands that can is a leap, too.
    let at =
        solve(linkage, demand(middle), &ends[0].position).unwrap_or_else(|why| panic!("{name}: at {middle}: {why}"));
    connected(linkage, [from, middle], [ends[0], &at], demand, of, left - 1, name);
    connected(linkage, [middle, to], [&at, ends[1]], demand, of, left - 1, name);
}

/// Goes along millimetre by millimetre, as far as the linkage goes; gives the rows that are connected with the row before them.
fn along(linkage: &Linkage, most: i32, demand: &dyn Fn(f64) -> Demand, of: usize, name: &str) -> usize {
    let mut rows = 0;
    for sign in [-1.0, 1.0] {
        let values: Vec<f64> = (0..=most).map(|mm| sign * f64::from(mm)).collect();
        let mut before: Option<(f64, Solved)> = None;
        for (value, solved) in values.iter().zip(sweep(linkage, values.iter().map(|value| demand(*value)))) {
            let solved = match solved {
                Ok(solved) => solved,
                Err(why) => {
                    sentence(&why.to_string());
                    before = None;
                    continue;
                }
            };
            if let (Some((from, last)), true) = (&before, solved.connected) {
                connected(linkage, [*from, *value], [last, &solved], demand, of, HALVINGS, name);
                rows += 1;
            }
            before = Some((*value, solved));
        }
    }
    rows
}

fn readings_are_numbers(axle: &Rc<Axle>, random: &mut Random, name: &str) {
    for _ in 0..3 {
        let demand = Demand::new(80.0 * random.uniform(), 60.0 * random.uniform());
        match axle.state(demand) {
            Err(why) => sentence(&why.to_string()),
            Ok(state) => {
                let snapshot = Snapshot::level(axle, &state);
                for reading in &READINGS {
                    let value = (reading.value)(&snapshot);
                    assert!(value.is_none_or(f64::is_finite), "{name}: {} is {value:?}", reading.column);
                }
            }
        }
    }
}

#[test]
fn random_axles_move_without_a_leap_and_refuse_in_sentences() {
    let (axles, seed) = (asked("AXLES", 60), asked("SEED", 2026));
    let (mut refused, mut rows) = (0, 0);
    for number in 0..axles {
        let mut random = Random::seeded(seed.wrapping_mul(1_000_000).wrapping_add(number));
        let layout = drawn(&mut random);
        let name = format!("SEED={seed}, axle {number}");
        let axle = match Axle::new(&layout) {
            Ok(axle) => Rc::new(axle),
            Err(why) => {
                sentence(&why.to_string());
                refused += 1;
                continue;
            }
        };
        let linkage = axle.linkage();
        rows += along(linkage, 90, &|travel| Demand::new(travel, 0.0), 0, &name);
        if axle.steered() {
            let travel = 50.0 * random.uniform();
            if solve(linkage, Demand::new(travel, 0.0), &rest(linkage)).is_ok() {
                rows += along(linkage, 75, &|rack| Demand::new(travel, rack), 1, &name);
            }
        }
        readings_are_numbers(&axle, &mut random, &name);
    }
    eprintln!("{axles} axles, {refused} of them refused, {rows} millimetres");
    assert!(
        refused < axles / 2 && rows as u64 > 50 * axles,
        "the axles that are drawn are of no use: {refused} refused, {rows} rows"
    );
}
