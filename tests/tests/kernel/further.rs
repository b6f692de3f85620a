//! Left against right, and the further measurement that decides between causes: what was found is made by building a fault in and reading the car.

use kernel::repair::{Cause, Causes, Found, Further, Gauge, Search, Value};
use kernel::vary::{Outcome, Parameter, Quantity, read};
use kernel::{Change, Layout, LeftOrRight, Member, PointId, Sides};
use tests::{demo, near};

const LEFT: Sides = Sides::One(LeftOrRight::Left);
const TRACK_ROD: Change = Change::Length(Member::TrackRod);

/// What a rig reads of a wheel, with its errors, degrees.
const RIG: [(&str, f64); 4] =
    [("camber_deg", 0.03), ("toe_deg", 0.03), ("caster_sweep_deg", 0.1), ("kingpin_inclination_sweep_deg", 0.1)];

fn at(column: &str, side: LeftOrRight, travel: f64) -> Outcome {
    Outcome { quantity: Quantity::named(column).expect("a reading"), side, travel, rack: 0.0 }
}

fn one(layout: &Layout, at: Outcome) -> f64 {
    read(layout, &[at]).expect("an axle")[0].expect("a reading")
}

/// What a rig finds on both wheels of a car whose toe somebody may have set.
fn found(car: &Layout) -> Found {
    let both = LeftOrRight::BOTH.into_iter().flat_map(|side| RIG.map(|(column, error)| (at(column, side, 0.0), error)));
    let values = both.map(|(outcome, error)| Value { outcome, less: None, value: one(car, outcome), error }).collect();
    Found { values, adjusted: vec![TRACK_ROD], height_error: 2.0 }
}

/// What it finds of the left wheel against the right one.
fn differences(car: &Layout, heights: [f64; 2]) -> Found {
    let value = |(column, error): (&str, f64)| {
        let [left, right] = LeftOrRight::BOTH.map(|side| at(column, side, heights[side.index()]));
        Value {
            outcome: left,
            less: Some(right),
            value: one(car, left) - one(car, right),
            error: error * 2.0_f64.sqrt(),
        }
    };
    Found { values: RIG.map(value).to_vec(), adjusted: Vec::new(), height_error: 0.0 }
}

fn tied(causes: &Causes) -> Vec<Cause> {
    causes.0[..1].iter().chain(causes.tied_with(0)).copied().collect()
}

fn of(causes: &Causes, change: Change, of: Sides) -> Cause {
    *causes.0.iter().find(|cause| (cause.change, cause.of) == (change, of)).expect("every part has its row")
}

/// Nobody has the design's numbers: this car's differ from the layout's by as much on the left as on the right, and its wheels stand at different
/// heights. The difference finds what is wrong all the same; of an arm it can't say on which side, of the subframe it can.
#[test]
fn left_against_right_needs_no_design_s_numbers() {
    let design = demo("double-wishbone");
    let mut car = design.clone();
    (car.wheel.camber, car.wheel.toe) = (car.wheel.camber - 0.4, car.wheel.toe + 0.2);
    for (change, by) in [(Change::Length(Member::UpperFront), 2.0), (Change::Subframe(1), -4.0)] {
        let of_it = if change.of_both() { Sides::Both } else { LEFT };
        let broken = Parameter::Change(change).added(&car, of_it, by);
        let found = differences(&broken, [0.0, 12.0]);
        let causes = Causes::of(&found, &design).expect("causes");
        let it = of(&causes, change, of_it);
        // The wheel that leans otherwise answers a little otherwise: a hundredth of the fault.
        near(it.amount, by, 0.05 * by.abs(), change.name(&design).as_str());
        assert!(it.chi2 < 0.1 && tied(&causes).contains(&it), "{it:?}, first {:?}", causes.0[0]);
        if !change.of_both() {
            let other = of(&causes, change, Sides::One(LeftOrRight::Right));
            near(other.amount, -by, 0.1 * by, "as much shorter on the other side");
        }
        let without = Search::new(&found, &design).expect("a search").with_nothing();
        let by_hand: f64 = found
            .values
            .iter()
            .map(|value| {
                let less = value.less.expect("a difference");
                ((one(&design, value.outcome) - one(&design, less) - value.value) / value.error).powi(2)
            })
            .sum();
        near(without, by_hand, 1e-9, "nothing wrong");
    }
}

#[test]
fn what_was_found_comes_back_from_its_file() {
    let design = demo("strut");
    for found in [found(&design), differences(&design, [3.5, -2.0])] {
        let text = found.to_json(&design);
        let back = Found::from_json(&text, &design).expect("a file");
        for (now, was) in back.values.iter().zip(&found.values) {
            // The reader of JSON is right to the last digit but one.
            near(now.value, was.value, 1e-14 * (1.0 + was.value.abs()), "a value");
            assert_eq!((now.error, now.outcome.quantity.column()), (was.error, was.outcome.quantity.column()));
        }
        let heights =
            |found: &Found| found.values.iter().flat_map(Value::places).map(|at| at.travel).collect::<Vec<_>>();
        assert_eq!(heights(&back), heights(&found));
        assert_eq!(back.adjusted, found.adjusted);
    }
    let less =
        |what: &str| format!(r#"{{"values": [{{"reading": "toe_deg", "value": 0, "error": 1, "less": {what}}}]}}"#);
    assert!(Found::from_json(&less(r#"{"side": "right"}"#), &design).is_ok());
    for (what, says) in
        [("3", "values[0].less"), (r#"{"side": "up"}"#, "values[0].less.side"), (r#"{"of": 1}"#, "“of”")]
    {
        let why = Found::from_json(&less(what), &design).map(|_| ()).expect_err(what);
        assert!(why.contains(says), "{why}");
    }
}

/// Cars with a fault and toe set again: what the search says is to be measured is measured on the car itself; the fault is still first or tied,
/// and fewer causes are tied with it.
#[test]
fn the_further_measurement_decides() {
    for (name, change, by) in [
        ("four-arm", Change::Length(Member::UpperFront), 1.0),
        ("double-wishbone", Change::Length(Member::LowerFront), -4.0),
        ("strut", Change::Joint(PointId::StrutTop, 1), 1.5),
    ] {
        let design = demo(name);
        let car = Parameter::Change(change).added(&design, LEFT, by);
        let toe = at("toe_deg", LeftOrRight::Left, 0.0);
        let longer = |layout: &Layout, by| Parameter::Change(TRACK_ROD).added(layout, LEFT, by);
        let slope = (one(&longer(&car, 0.01), toe) - one(&car, toe)) / 0.01;
        let car = longer(&car, (one(&design, toe) - one(&car, toe)) / slope);
        let mut found = found(&car);
        let search = Search::new(&found, &design).expect("a search");
        let before = tied(&Causes::of(&found, &design).expect("causes"));
        let further = Further::between(&before, &search).expect("cars");
        let further = further.unwrap_or_else(|| panic!("{name}: {before:?}"));
        assert!(further.pairs > 0 && !further.against, "{name}: {before:?}");
        assert_eq!(further.reads.len(), before.len().min(12));
        // What it promises to read on the fault is what is read on the car.
        let value = match further.gauge {
            Gauge::Reading(at) => one(&car, at),
            Gauge::Length(side, member) => car.changes.of(side).get(&Change::Length(member)).copied().unwrap_or(0.0),
            Gauge::RideHeight(_) => panic!("{name}: a spring decides nothing here"),
        };
        if let Some(i) = before.iter().take(12).position(|cause| (cause.change, cause.of) == (change, LEFT)) {
            near(further.reads[i], value, 0.02 * further.error, name);
        }
        let Gauge::Reading(outcome) = further.gauge else {
            // A rule finds the arm itself: what it does not find long is out.
            let out = further.reads.iter().filter(|read| ((*read - value) / further.error).abs() >= 2.0).count();
            assert!(out > 0, "{name}: {:?}", further.reads);
            continue;
        };
        found.values.push(Value { outcome, less: None, value, error: further.error });
        let causes = Causes::of(&found, &design).expect("causes");
        let after = tied(&causes);
        assert!(after.len() < before.len(), "{name}: {} before, {} after", before.len(), after.len());
        assert!(after.iter().any(|cause| (cause.change, cause.of) == (change, LEFT)), "{name}");
    }
}

/// Of two causes no reading where the car stands or 30 mm off it, with the same errors, lies further apart than the one that is named.
#[test]
fn no_reading_lies_further_apart() {
    let design = demo("strut");
    let car = Parameter::Change(Change::CarrierCamber).added(&design, LEFT, -0.8);
    let mut found = found(&car);
    found.values.retain(|value| value.outcome.quantity.column() == "camber_deg");
    (found.adjusted, found.height_error) = (Vec::new(), 0.0);
    let search = Search::new(&found, &design).expect("a search");
    let causes = Causes::of(&found, &design).expect("causes");
    let two = [of(&causes, Change::CarrierCamber, LEFT), of(&causes, Change::Joint(PointId::StrutTop, 1), LEFT)];
    assert!(two.iter().all(|cause| tied(&causes).contains(cause)), "camber alone does not tell them apart");
    let further = Further::between(&two, &search).expect("cars").expect("something to measure");
    assert_eq!(further.pairs, 1);
    let cars = two.map(|cause| search.built(&cause).expect("a car"));
    // The usual errors, and what a height set to 2 mm adds to them.
    let usual: [f64; 6] = [0.03, 0.02, 0.1, 0.1, 2.0, 2.0];
    let columns = RIG.map(|(column, _)| column).into_iter().chain(["track_change_mm", "wheelbase_change_mm"]);
    for (column, usual) in columns.zip(usual) {
        for travel in [0.0, 30.0, -30.0].into_iter().filter(|travel| (column, *travel) != ("camber_deg", 0.0)) {
            let there = |by| at(column, LeftOrRight::Left, travel + by);
            let [a, b] = cars.each_ref().map(|car| one(car, there(0.0)));
            let slope = (one(&design, there(30.0)) - one(&design, there(-30.0))) / 60.0;
            let apart = (a - b).abs() / usual.hypot(2.0 * slope);
            assert!(apart <= further.apart() + 1e-9, "{column} at {travel}: {a}, {b}");
        }
    }
    // One cause needs no further measurement.
    assert!(Further::between(&two[..1], &search).expect("cars").is_none());
}
