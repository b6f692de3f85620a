//! A car that differs from its design, against poses of a general root finder and rates by re-solving
//! (`tests/reference/changes_reference.py`, SciPy; computed, no published source), and what must hold for every change without any source.
//! Long because every law of changes stands here.

use kernel::{
    Adjusted, Adjuster, Axle, AxleState, BarState, Change, Changes, Demand, Layout, LeftOrRight, Level, Member,
    PointId, READINGS, Reading, Sides, Snapshot, Stance, State, Swept, Vec3, validate,
};
use serde_json::{Value, json};
use tests::{DEMOS, axle, demo, near, read};

fn reference() -> Value {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/changes.json");
    serde_json::from_str(&std::fs::read_to_string(file).expect("the file")).expect("JSON")
}

fn list<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key].as_array().expect("a list")
}

fn numbers(value: &Value) -> Vec<Option<f64>> {
    value.as_array().expect("a row").iter().map(Value::as_f64).collect()
}

/// The layout of an entry, with its changes.
fn changed(reference: &Value, entry: &Value) -> Layout {
    let mut file = reference["layouts"][entry["layout"].as_str().expect("a name")].clone();
    file["changes"] = entry["changes"].clone();
    Layout::from_value(&file).expect("a layout")
}

/// What the witness reads of a wheel, by its column.
fn value(axle: &Axle, state: &State, column: &str) -> Option<f64> {
    let (centre, contact) = (state.position.pose.w, state.position.pose.w + state.attitude.contact);
    Some(match column {
        "wheel_centre_x_mm" => centre.x,
        "wheel_centre_y_mm" => centre.y,
        "wheel_centre_z_mm" => centre.z,
        "contact_x_mm" => contact.x,
        "contact_y_mm" => contact.y,
        "contact_z_mm" => contact.z,
        "bar_turn_deg" => BarState::at(axle.layout(), axle.linkage(), state)?.turn,
        _ => (Reading::named(column).expect("a reading").value)(&Snapshot::of(state))?,
    })
}

/// Angles, lengths and rates of every change, alone and together, on either side.
#[test]
fn a_changed_car_stands_as_the_witness_says() {
    let reference = reference();
    let columns: Vec<&str> =
        list(&reference, "columns").iter().map(|column| column.as_str().expect("a name")).collect();
    let mut compared = 0;
    for entry in list(&reference, "cases") {
        let layout = changed(&reference, entry);
        assert_eq!(validate(&layout), []);
        for side in LeftOrRight::BOTH {
            let axle = axle(&layout).looking_at(side);
            for row in list(entry, side.name()) {
                let row = numbers(row);
                let demand = Demand::new(row[0].expect("a travel"), row[1].expect("a rack"));
                let state = axle.state(demand).unwrap_or_else(|why| panic!("{}: {why}", entry["changes"]));
                for (column, should) in columns.iter().zip(row) {
                    let what = format!("{} {} {} {column}", entry["layout"], entry["changes"], side.name());
                    match (value(&axle, &state, column), should) {
                        (Some(is), Some(should)) => near(is, should, 1e-7 * should.abs().max(1.0), &what),
                        (is, should) => assert_eq!(is, should, "{what}"),
                    }
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 5_000);
}

/// Both wheels of a car whose sides differ, on one road.
#[test]
fn different_sides_stand_on_one_road() {
    let reference = reference();
    let cases = list(&reference, "cases");
    let roads = list(&reference, "roads");
    assert!(roads.len() > 10);
    for road in roads {
        let number = |key: &str| road[key].as_f64().expect("a number");
        let case = &cases[usize::try_from(road["case"].as_u64().expect("an index")).expect("small")];
        let axle = axle(&changed(&reference, case));
        let stance = Stance { roll: number("roll_deg"), travel: number("travel_mm"), rack: number("rack_mm") };
        let both = AxleState::rolled(&axle, stance, &axle.at_rest()).expect("a stance");
        let what = format!("{} {} {stance:?}", road["layout"], case["changes"]);
        for (side, i) in both.sides.iter().zip(0..) {
            near(side.state.travel, road["travels_mm"][i].as_f64().expect("a travel"), 1e-8, &what);
            near(side.steer, road["steer_deg"][i].as_f64().expect("an angle"), 1e-8, &what);
            near(side.camber_to_road, road["camber_road_deg"][i].as_f64().expect("an angle"), 1e-8, &what);
            for axis in 0..3 {
                near(side.contact[axis], road["contacts_mm"][i][axis].as_f64().expect("a place"), 1e-7, &what);
            }
        }
        let centre = both.roll_centre().expect("a roll centre");
        near(centre.height, number("roll_centre_height_mm"), 1e-6, &what);
        near(centre.sideways, number("roll_centre_sideways_mm"), 1e-6, &what);
    }
}

/// Caster and inclination by steering sweep, of both wheels, by 20° and by 10°, at several heights.
#[test]
fn a_rig_finds_what_the_witness_finds() {
    let reference = reference();
    let sweeps = list(&reference, "sweeps");
    assert!(sweeps.len() >= 130);
    let mut read = 0;
    for sweep in sweeps {
        let case = sweep["case"].as_u64().map(|case| usize::try_from(case).expect("small"));
        let none = json!({"layout": sweep["layout"], "changes": {}});
        let axle = axle(&changed(&reference, case.map_or(&none, |case| &list(&reference, "cases")[case])));
        let side = LeftOrRight::BOTH.into_iter().find(|side| sweep["side"] == side.name()).expect("a side");
        let number = |key: &str| sweep[key].as_f64().expect("a number");
        let swept = axle.swept(side, number("travel_mm"), number("angle_deg")).expect("the rack reaches");
        near(swept.caster, number("caster_sweep_deg"), 1e-7, &sweep.to_string());
        near(swept.inclination, number("kingpin_inclination_sweep_deg"), 1e-7, &sweep.to_string());
        if number("angle_deg") == Swept::ANGLE {
            is_read(&axle, side, sweep);
            read += 1;
        }
    }
    assert!(read >= 60, "{read}");
}

/// The readings have the witness's values whatever the rack; the included angle is inclination plus camber with the rack at 0.
fn is_read(axle: &Axle, side: LeftOrRight, sweep: &Value) {
    let number = |key: &str| sweep[key].as_f64().expect("a number");
    let value = |column: &str, rack| {
        let state = axle.state_of(side, Demand::new(number("travel_mm"), rack)).expect("a pose");
        (Reading::named(column).expect("a reading").value)(&Snapshot::either(axle, side, &state)).expect("a value")
    };
    for rack in [0.0, 25.0] {
        for column in ["caster_sweep_deg", "kingpin_inclination_sweep_deg"] {
            near(value(column, rack), number(column), 1e-7, &format!("{column}, rack {rack}, {sweep}"));
        }
        let included = number("kingpin_inclination_sweep_deg") + value("camber_deg", 0.0);
        near(value("included_angle_sweep_deg", rack), included, 1e-7, &format!("included, rack {rack}, {sweep}"));
    }
}

/// A rack whose stroke ends before the wheel is turned so far, and an axle without one, give a rig nothing to read.
#[test]
fn a_rack_that_does_not_reach_gives_no_sweep() {
    let mut layout = demo("double-wishbone");
    let with = |layout: &Layout, angle| axle(layout).swept(LeftOrRight::Left, 0.0, angle);
    let stroke = |layout: &mut Layout, travel| layout.rack.as_mut().expect("a rack").travel = travel;
    stroke(&mut layout, 43.0);
    assert!(with(&layout, 20.0).is_none() && with(&layout, 10.0).is_some(), "20° takes 43.56 mm");
    stroke(&mut layout, 44.0);
    assert!(with(&layout, 20.0).is_some());
    assert!(with(&demo("five-rod-unsteered"), 10.0).is_none());
    assert!([120.0, 0.0, f64::NAN].into_iter().all(|angle| with(&layout, angle).is_none()));
}

/// Every change of an axle has a name of its own in files and a code of its own in links, and a file brings all of them back.
#[test]
fn files_bring_changes_back() {
    for name in DEMOS {
        let mut layout = demo(name);
        let all = Change::all(&layout);
        for (change, by) in all.iter().zip(1..) {
            let sides = if by % 3 == 0 { Sides::One(LeftOrRight::Right) } else { Sides::ALL[by % 2] };
            layout.changes.set(sides, *change, by as f64 / 16.0);
            assert_eq!(Change::named(&change.name(&layout), &layout), Some(*change));
            assert_eq!(Change::coded(&change.code(), &layout), Some(*change));
            assert!(!change.label(&layout).is_empty());
        }
        layout.changes.tightened.insert(Member::LowerFront, -60.0);
        assert_eq!(Layout::from_json(&layout.to_json()).as_ref(), Ok(&layout), "{name}");
        layout.changes = Changes::default();
        assert!(!layout.to_json().contains("changes"), "a layout without changes says nothing of them");
    }
}

/// The same parts on both sides make mirror images; on the right alone the left stays the design's.
#[test]
fn a_change_is_of_its_side() {
    let demand = Demand::new(12.0, 7.0);
    for name in DEMOS {
        let design = demo(name);
        let demand = if design.rack.is_some() { demand } else { Demand::new(12.0, 0.0) };
        let still = axle(&design);
        for change in Change::all(&design).into_iter().filter(|change| *change != Change::Ride) {
            let with = |sides| {
                let mut layout = design.clone();
                layout.changes.set(sides, change, 1.5);
                axle(&layout)
            };
            let read_all = |axle: &Axle, side| {
                let state = axle.state_of(side, demand).unwrap_or_else(|why| panic!("{}: {why}", change.name(&design)));
                READINGS.iter().map(|reading| (reading.value)(&Snapshot::of(&state))).collect::<Vec<_>>()
            };
            if change.of_both() {
                continue;
            }
            let [left, right, both] =
                [Sides::One(LeftOrRight::Left), Sides::One(LeftOrRight::Right), Sides::Both].map(with);
            assert_eq!(read_all(&left, LeftOrRight::Left), read_all(&both, LeftOrRight::Right));
            assert_eq!(read_all(&right, LeftOrRight::Right), read_all(&both, LeftOrRight::Left));
            assert_eq!(read_all(&right, LeftOrRight::Left), read_all(&still, LeftOrRight::Left));
            assert!(left.sides_differ() && !both.sides_differ());
        }
    }
}

/// What a workshop says without any number: a longer upper arm leans the wheel out, a spacer moves it out and the scrub radius with it, a lower car
/// stands where its ride says (common practice).
#[test]
fn changes_do_what_the_trade_expects() {
    let with = |name: &str, change, by| {
        let mut layout = demo(name);
        layout.changes.set(Sides::Both, change, by);
        axle(&layout)
    };
    let at_rest = |axle: &Axle, column| read(&axle.state(Demand::new(0.0, 0.0)).expect("a state"), column);
    let [plain, longer, spaced] = [
        with("double-wishbone", Change::Ride, 0.0),
        with("double-wishbone", Change::Length(Member::UpperFront), 2.0),
        with("double-wishbone", Change::Spacer, 20.0),
    ];
    assert!(at_rest(&longer, "camber_deg") > at_rest(&plain, "camber_deg") + 0.1);
    near(at_rest(&spaced, "camber_deg"), at_rest(&plain, "camber_deg"), 1e-9, "a spacer leaves camber");
    let wider = at_rest(&spaced, "track_change_mm");
    assert!((19.9..20.0).contains(&wider), "{wider}: the spin axis is a little off level");
    let grown = at_rest(&spaced, "scrub_radius_mm") - at_rest(&plain, "scrub_radius_mm");
    assert!((19.0..20.5).contains(&grown), "{grown}");
    near(with("strut", Change::Ride, 30.0).stands().travel, 30.0, 1e-9, "ride");
}

/// Changes that no axle can have: one sentence that names the part and the amount.
#[test]
fn bad_changes_are_told() {
    let file = |changes: &str| {
        let text = demo("strut").to_json();
        Layout::from_json(&format!("{}, {changes}}}", text.trim_end().trim_end_matches('}')))
    };
    for (changes, says) in [
        (r#""changes": {"both": {"length.upper.front": 1}}"#, "length.upper.front"),
        (r#""changes": {"left": {"subframe.x": 3}}"#, "subframe.x"),
        (r#""changes": {"middle": {}}"#, "middle"),
        (r#""changes": {"left": {"length.track_rod": "long"}}"#, "length.track_rod"),
        (r#""changes": 5"#, "changes"),
        (r#""adjusters": [{"set": "length.track_rod"}]"#, "range"),
        (r#""adjusters": [{"set": "build.lower.front.inner", "along": [0,0,0], "range": [0, 1]}]"#, "along"),
        (r#""tightened": {"upper.front": 3}"#, "upper.front"),
    ] {
        let why = file(changes).expect_err(changes);
        assert!(why.contains(says) && why.ends_with('.'), "{why}");
    }
    for (changes, says) in [
        (r#""changes": {"left": {"length.track_rod": -1000}}"#, "-1000"),
        (r#""changes": {"both": {"wheel.loaded_radius": -299.9}}, "wheel": 3"#, "“wheel”"),
        (r#""changes": {"right": {"carrier.toe": 50}}"#, "50"),
    ] {
        let told = match file(changes) {
            Err(why) => why,
            Ok(layout) => validate(&layout).first().expect("a problem").to_string(),
        };
        assert!(told.contains(says), "{told}");
    }
    // Far beyond what closes: told with the part and the amount.
    let mut layout = demo("double-wishbone");
    layout.changes.set(Sides::Both, Change::Length(Member::TrackRod), -100.0);
    layout.changes.set(Sides::Both, Change::Joint(PointId::TrackRodInner, 1), -100.0);
    let why = Axle::new(&layout).map(|_| ()).expect_err("it does not close").to_string();
    assert!(why.starts_with("With these changes the axle can’t be assembled: the ") && why.contains(" mm"), "{why}");
}

/// Setting up: toe by the track rod is met exactly and moves camber hardly; shims go in whole; an adjuster at its end leaves something over.
#[test]
fn adjusters_meet_what_is_wanted() {
    let toe = |axle: &Axle| Some(-axle.stands().attitude.steer);
    let camber = |axle: &Axle| Some(axle.stands().attitude.camber);
    for name in DEMOS {
        let mut layout = demo(name);
        layout.changes.set(Sides::Both, Change::Ride, 25.0);
        layout.changes.set(Sides::Both, Change::Spacer, 15.0);
        let before = axle(&layout);
        let set =
            Adjuster::of(Change::Length(Member::TrackRod)).set_for(&layout, Sides::Both, toe, 0.1).expect("it turns");
        let after = axle(&Layout { changes: set.changes.clone(), ..layout.clone() });
        near(toe(&after).expect("a toe"), 0.1, 1e-9, name);
        near(set.left_over, 0.0, 1e-9, name);
        let moved = camber(&after).expect("a camber") - camber(&before).expect("a camber");
        assert!(moved.abs() < 0.25 * (toe(&before).expect("a toe") - 0.1).abs(), "{name}: {moved}");
    }
    let layout = demo("double-wishbone");
    // Shims of 1 mm between body and upper wishbone, both joints alike would be two; here one, and what one can do.
    let shims = Adjuster {
        set: Adjusted::Along(PointId::UpperFrontInner, -Vec3::y()),
        range: [0.0, 8.0],
        pitch: None,
        step: Some(1.0),
    };
    let set = shims.set_for(&layout, Sides::Both, camber, -0.9).expect("it leans");
    near(set.by, set.by.round(), 1e-9, "whole shims");
    assert!(set.by > 0.0 && set.left_over.abs() > 1e-6);
    for by in [set.by - 1.0, set.by + 1.0].into_iter().filter(|by| (0.0..=8.0).contains(by)) {
        let other = axle(&Layout { changes: shims.moved(&layout.changes, Sides::Both, by), ..layout.clone() });
        assert!((camber(&other).expect("a camber") + 0.9).abs() >= set.left_over.abs(), "no other count is nearer");
    }
    let far = Adjuster { range: [-2.0, 2.0], ..Adjuster::of(Change::Length(Member::TrackRod)) };
    let set = far.set_for(&layout, Sides::Both, toe, 5.0).expect("as far as it goes");
    near(set.by.abs(), 2.0, 1e-9, "its end");
    assert!(set.left_over > 3.0);
}

/// What a wheel reads at a position, with these changes on both sides.
fn with(design: &Layout, changes: &[(Change, f64)], demand: Demand) -> Vec<f64> {
    let mut layout = design.clone();
    changes.iter().for_each(|(change, by)| layout.changes.set(Sides::Both, *change, *by));
    let axle = axle(&layout);
    let state = axle.state(demand).unwrap_or_else(|why| panic!("{why}"));
    READINGS.iter().filter_map(|reading| (reading.value)(&Snapshot::of(&state))).collect()
}

/// Small changes superpose: what two do together is what each does, but for what is of second order.
#[test]
fn small_changes_superpose() {
    const SMALL: f64 = 1e-3;
    for name in DEMOS {
        let design = demo(name);
        let demand = Demand::new(15.0, 0.0);
        let all = Change::all(&design);
        let none = with(&design, &[], demand);
        for (i, a) in all.iter().enumerate().filter(|(_, change)| **change != Change::Ride) {
            let b = all[(7 * i + 3) % all.len()];
            if b == *a || b == Change::Ride {
                continue;
            }
            let [only_a, only_b, both] = [&[(*a, SMALL)][..], &[(b, SMALL)], &[(*a, SMALL), (b, SMALL)]]
                .map(|changes| with(&design, changes, demand));
            for (reading, value) in none.iter().enumerate() {
                let sum = only_a[reading] + only_b[reading] - value;
                // A change of a thousandth moves readings by less than a tenth; the product of two is a thousandth of that.
                near(both[reading], sum, 1e-4, &format!("{name}: {} and {}", a.name(&design), b.name(&design)));
            }
        }
    }
}

/// A spacer moves no joint of the carrier, wherever the wheel is; it moves the wheel's centre out by itself.
#[test]
fn a_spacer_moves_no_joint() {
    for name in DEMOS {
        let plain = demo(name);
        let mut spaced = plain.clone();
        spaced.changes.set(Sides::Both, Change::Spacer, 25.0);
        for travel in [-40.0, 0.0, 30.0] {
            let demand = Demand::new(travel, 0.0);
            let [without, with] = [&plain, &spaced].map(|layout| {
                let axle = axle(layout);
                let state = axle.state(demand).expect("a state");
                let place = |(id, drawn): (PointId, Vec3)| axle.linkage().place(&state.position.pose, 0.0, id, drawn);
                let joints = axle.built().points().filter(|(id, _)| *id != PointId::WheelCentre).map(place);
                (joints.collect::<Vec<_>>(), state.position.pose.w)
            });
            for (a, b) in without.0.iter().zip(&with.0) {
                near((a - b).norm(), 0.0, 1e-9, name);
            }
            near((with.1 - without.1).norm(), 25.0, 1e-9, name);
        }
    }
}

/// The same length on both legs of a wishbone and on the two arms that it is split into.
#[test]
fn legs_and_arms_have_the_same_lengths() {
    let bone = demo("double-wishbone");
    let arms = bone.other_kind(Level::Upper);
    let changes = [(Change::Length(Member::UpperFront), 1.5), (Change::Length(Member::UpperRear), -0.7)];
    for travel in [-30.0, 0.0, 40.0] {
        let demand = Demand::new(travel, 10.0);
        for (a, b) in with(&bone, &changes, demand).iter().zip(with(&arms, &changes, demand)) {
            near(*a, b, 1e-8, "arm for leg");
        }
    }
}
