//! What to turn: a misalignment made on purpose comes back, ranges and whole shims are kept, and nothing on a grid is better. The readings are
//! those of `read`, which other tests hold against outside witnesses; the search never sees the amounts that were made up.

use kernel::vary::{Aim, Answer, Outcome, Quantity, Turning, read, turn};
use kernel::{Adjusted, Adjuster, Change, Layout, LeftOrRight, Member, PointId, Sides, Vec3};
use tests::{DEMOS, demo, near};

const LEFT: LeftOrRight = LeftOrRight::Left;
const ONE: Sides = Sides::One(LEFT);

fn outcomes(layout: &Layout, columns: &[&str]) -> Vec<Outcome> {
    let named = columns.iter().map(|column| Quantity::named(column).expect("a quantity"));
    named.map(|quantity| Outcome { quantity, side: LEFT, travel: layout.changes.ride(), rack: 0.0 }).collect()
}

fn values(layout: &Layout, columns: &[&str]) -> Vec<f64> {
    let all = read(layout, &outcomes(layout, columns)).expect("an axle");
    all.into_iter().map(|value| value.expect("a value")).collect()
}

fn aims(columns: &[&str], wanted: &[f64]) -> Vec<Aim> {
    let quantities = columns.iter().map(|column| Quantity::named(column).expect("a quantity"));
    quantities.zip(wanted).map(|(quantity, wanted)| Aim { quantity, wanted: *wanted }).collect()
}

/// Every rod and leg of an axle, within 12 mm.
fn rods(layout: &Layout) -> Vec<Adjuster> {
    let lengths = Change::all(layout).into_iter().filter(|change| matches!(change, Change::Length(_)));
    lengths.map(|change| Adjuster { range: [-12.0, 12.0], ..Adjuster::of(change) }).collect()
}

/// A layout, one wheel of which has adjusters moved.
fn moved(layout: &Layout, adjusters: &[Adjuster], moves: &[(usize, f64)]) -> Layout {
    let mut new = layout.clone();
    for (at, by) in moves {
        new.changes = adjusters[*at].moved(&new.changes, Sides::One(LEFT), *by);
    }
    new
}

/// Σ ((reading − wanted)/tolerance)².
fn cost(layout: &Layout, aims: &[Aim]) -> f64 {
    let columns: Vec<&str> = aims.iter().map(|aim| aim.quantity.column()).collect();
    let miss = aims.iter().zip(values(layout, &columns));
    miss.map(|(aim, value)| ((value - aim.wanted) / aim.quantity.tolerance()).powi(2)).sum()
}

fn made(layout: &Layout, answer: &Answer) -> Layout {
    Layout { changes: answer.changes.clone(), ..layout.clone() }
}

/// Angles of a wheel that its sweep makes three different things.
fn angles(layout: &Layout) -> &'static [&'static str] {
    if layout.rack.is_some() { &["toe_deg", "camber_deg", "caster_sweep_deg"] } else { &["toe_deg", "camber_deg"] }
}

#[test]
fn what_one_adjuster_spoiled_it_mends() {
    for name in DEMOS {
        let mut design = demo(name);
        design.changes.set(Sides::Both, Change::Ride, 15.0);
        let adjusters = rods(&design);
        let columns = angles(&design);
        let wanted = values(&design, columns);
        for (at, adjuster) in adjusters.iter().enumerate() {
            let spoiled = moved(&design, &adjusters, &[(at, 1.7)]);
            let [one, two] = turn(&spoiled, ONE, aims(columns, &wanted), adjusters.clone());
            let one = one.expect("an answer");
            assert_eq!(one.moves.len(), 1, "{name}");
            assert_eq!(one.moves[0].adjuster, at, "{name} {adjuster:?}");
            near(one.moves[0].by, -1.7, 1e-6, name);
            assert!(two.is_none(), "{name}: a second one adds nothing");
            assert!(one.left_over.iter().all(|left| left.abs() < 1e-6), "{name}");
            assert_eq!(values(&made(&spoiled, &one), columns).len(), columns.len());
            assert!(cost(&made(&spoiled, &one), &aims(columns, &wanted)) < 1e-9);
        }
    }
}

#[test]
fn two_adjusters_find_a_pair_that_was_made_up() {
    for name in DEMOS {
        let design = demo(name);
        let adjusters = rods(&design);
        let columns = angles(&design);
        let wanted = aims(columns, &values(&design, columns));
        for pair in [[0, adjusters.len() - 1], [1, adjusters.len() - 1], [0, 1]] {
            let spoiled = moved(&design, &adjusters, &[(pair[0], 2.3), (pair[1], -1.1)]);
            let [one, two] = turn(&spoiled, ONE, wanted.clone(), adjusters.clone());
            let two = two.expect("two adjusters do better than one");
            assert!(cost(&made(&spoiled, &one.expect("one")), &wanted) > 1e-2);
            assert!(cost(&made(&spoiled, &two), &wanted) < 1e-9, "{name} {pair:?}");
            // With three angles the pair is the only one; two angles come right by any pair.
            if columns.len() > 2 {
                assert_eq!(two.moves.iter().map(|step| step.adjuster).collect::<Vec<_>>(), pair, "{name}");
                near(two.moves[0].by, -2.3, 1e-6, name);
                near(two.moves[1].by, 1.1, 1e-6, name);
            }
        }
    }
}

/// A car with a threaded track rod, a slotted top mount and shims: as a workshop has them.
fn adjustable() -> Layout {
    let mut layout = demo("double-wishbone");
    layout.changes.adjusters = vec![
        Adjuster { range: [-3.0, 3.0], pitch: Some(1.5), ..Adjuster::of(Change::Length(Member::TrackRod)) },
        Adjuster {
            set: Adjusted::Along(PointId::UpperFrontInner, Vec3::new(0.0, -1.0, 0.0)),
            range: [0.0, 8.0],
            pitch: None,
            step: Some(1.0),
        },
        Adjuster {
            set: Adjusted::Along(PointId::UpperRearInner, Vec3::new(0.0, -1.0, 0.0)),
            range: [0.0, 6.0],
            pitch: None,
            step: Some(1.5),
        },
    ];
    layout
}

#[test]
fn ranges_and_whole_shims_are_kept_and_a_grid_has_nothing_better() {
    let layout = adjustable();
    let adjusters = layout.changes.adjusters.clone();
    let columns = ["toe_deg", "camber_deg", "caster_sweep_deg"];
    let now = values(&layout, &columns);
    for (i, [toe, camber, caster]) in
        [[0.0, -0.4, 0.0], [0.2, -0.9, 0.5], [-0.6, 0.3, 0.0], [0.05, -0.15, -0.4], [3.0, -3.0, 0.0]]
            .into_iter()
            .enumerate()
    {
        let wanted = aims(&columns, &[now[0] + toe, now[1] + camber, now[2] + caster]);
        let answers = turn(&layout, ONE, wanted.clone(), adjusters.clone());
        for answer in answers.iter().flatten() {
            for step in &answer.moves {
                let adjuster = &adjusters[step.adjuster];
                let [least, most] = adjuster.range;
                assert!((least - 1e-9..=most + 1e-9).contains(&step.by), "{i}: {}", step.by);
                if let Some(shim) = adjuster.step {
                    near((step.by / shim).round() * shim, step.by, 1e-9, "a whole count");
                }
            }
            let told: Vec<f64> = values(&made(&layout, answer), &columns);
            for ((aim, left), is) in wanted.iter().zip(&answer.left_over).zip(told) {
                near(aim.wanted - is, *left, 1e-9, "what is left over");
            }
        }
        let [one, two] = answers.map(|answer| answer.map(|answer| cost(&made(&layout, &answer), &wanted)));
        let (one, two) = (one.expect("one"), two.or(one).expect("two"));
        let ways = |at: usize| {
            let [least, most] = adjusters[at].range;
            let step = adjusters[at].step.unwrap_or(0.25);
            (0..=((most - least) / step) as u32).map(move |n| least + f64::from(n) * step)
        };
        let mut looked = 0;
        for at in 0..3 {
            for by in ways(at) {
                let there = cost(&moved(&layout, &adjusters, &[(at, by)]), &wanted);
                assert!(one <= there + 2e-4, "{i}: {at} by {by}: {there} < {one}");
            }
        }
        for pair in [[0, 1], [0, 2], [1, 2]] {
            for first in ways(pair[0]) {
                for second in ways(pair[1]) {
                    let there = cost(&moved(&layout, &adjusters, &[(pair[0], first), (pair[1], second)]), &wanted);
                    assert!(two <= there + 1.1e-2, "{i}: {pair:?} by {first}, {second}: {there} < {two}");
                    looked += 1;
                }
            }
        }
        assert!(looked > 300, "{looked}");
    }
}

/// What one adjuster alone can do is taken where it moves least else, and what moves beside is told in order.
#[test]
fn of_equal_answers_the_one_that_moves_least_else_is_taken() {
    let layout = demo("four-arm");
    let toe = values(&layout, &["toe_deg"])[0];
    let adjusters = rods(&layout);
    let [one, two] = turn(&layout, ONE, aims(&["toe_deg"], &[toe + 0.2]), adjusters.clone());
    let one = one.expect("an answer");
    assert!(two.is_none());
    assert_eq!(adjusters[one.moves[0].adjuster].set, Adjusted::Change(Change::Length(Member::TrackRod)));
    let order: Vec<&str> = one.effects.iter().map(|effect| effect.quantity.column()).collect();
    assert!(!order.contains(&"toe_deg") && order.iter().all(|column| Quantity::named(column).is_some()));
    for effect in &one.effects {
        assert!((effect.after - effect.before).abs() > 0.1 * effect.quantity.tolerance());
        near(effect.after, values(&made(&layout, &one), &[effect.quantity.column()])[0], 1e-9, "an effect");
    }
}

/// Both wheels' changes count for a range, a subframe is the whole car's, and the right wheel is told as a left one.
#[test]
fn the_other_side_and_the_subframe() {
    let mut layout = demo("four-arm");
    let rod = Change::Length(Member::TrackRod);
    layout.changes.set(Sides::Both, rod, 2.5);
    let adjuster = vec![Adjuster { range: [-3.0, 3.0], ..Adjuster::of(rod) }];
    let toe = values(&layout, &["toe_deg"])[0];
    for side in LeftOrRight::BOTH {
        let answers =
            [-5.0, 5.0].map(|by| turn(&layout, Sides::One(side), aims(&["toe_deg"], &[toe + by]), adjuster.clone()));
        let ends = answers.map(|[one, _]| one.expect("an answer").moves.remove(0));
        assert!(ends.iter().all(|step| step.at_end));
        let mut ends = ends.map(|step| step.by);
        ends.sort_by(f64::total_cmp);
        near(ends[0], -5.5, 1e-9, "as far as it goes");
        near(ends[1], 0.5, 1e-9, "as far as it goes");
    }
    // Both wheels alike: as far as either of them goes.
    layout.changes.set(Sides::One(LeftOrRight::Right), rod, -1.0);
    for by in [-5.0, 5.0] {
        let answers = turn(&layout, Sides::Both, aims(&["toe_deg"], &[toe - by]), adjuster.clone());
        let step = answers[0].as_ref().expect("an answer").moves[0].clone();
        assert!(step.at_end && ([0.5, -4.5].iter().any(|end| (step.by - end).abs() < 1e-9)), "{}", step.by);
    }
    layout.changes.set(Sides::One(LeftOrRight::Right), rod, 0.0);
    layout.changes.set(Sides::Both, Change::Subframe(1), 1.0);
    let frame = vec![Adjuster { range: [-4.0, 4.0], ..Adjuster::of(Change::Subframe(1)) }];
    let mut straight = layout.clone();
    straight.changes.set(Sides::Both, Change::Subframe(1), 0.0);
    let right = |layout: &Layout| {
        let outcome = Outcome { side: LeftOrRight::Right, ..outcomes(layout, &["camber_deg"])[0] };
        read(layout, &[outcome]).expect("an axle")[0].expect("a value")
    };
    let wanted = aims(&["camber_deg"], &[right(&straight)]);
    let [one, _] = turn(&layout, Sides::One(LeftOrRight::Right), wanted, frame);
    let one = one.expect("an answer");
    near(one.moves[0].by, -1.0, 1e-6, "the subframe");
    assert_eq!(one.changes.get(Sides::One(LeftOrRight::Right), Change::Subframe(1)), 0.0);
    assert!(one.effects.iter().any(|effect| effect.side == LEFT), "the left wheel moves with it");
}

#[test]
fn what_is_not_there_is_no_answer() {
    let unsteered = demo("five-rod-unsteered");
    let wanted = aims(&["caster_sweep_deg"], &[3.0]);
    assert!(turn(&unsteered, ONE, wanted, rods(&unsteered)).iter().all(Option::is_none));
    let layout = demo("strut");
    assert!(turn(&layout, ONE, aims(&["toe_deg"], &[0.1]), Vec::new()).iter().all(Option::is_none));
    let mut turning = Turning::new(&layout, ONE, aims(&["toe_deg"], &[0.1]), rods(&layout));
    assert_eq!(turning.candidates(), 6);
    (0..20).for_each(|_| turning.step());
    assert!(turning.answers()[0].is_some());
}
