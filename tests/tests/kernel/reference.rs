//! Every number against two general-purpose libraries that share no code with the kernel: SciPy (root finding and
//! differences of re-solved poses) and MuJoCo (a rigid-body engine). `reference/*.py` wrote the JSON; `run.sh` has them
//! regenerate and compare it. Grade: computed.

use kernel::{
    Corner, Demand, HalfShaft, Height, Joint, Layout, Linkage, Member, MemberForces, PointId, READINGS, Snapshot,
    State, Statics, Steering, Vec3, Wrench, sweep,
};
use serde_json::Value;
use tests::{linkage, near, rest, state};

fn load(file: &str) -> Value {
    let path = format!("{}/reference/{file}", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).expect("the reference file")).expect("JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn numbers<const N: usize>(value: &Value) -> [f64; N] {
    std::array::from_fn(|i| number(&value[i]))
}

/// The scripts write 12 significant digits: half a unit of the last of a coordinate of a metre is 5e-10 mm.
const POSITION: f64 = 1e-8;
const ROTATION: f64 = 1e-10;

fn same_pose(state: &State, expected: &Value, what: &str) -> usize {
    let centre: [f64; 3] = numbers(&expected["centre"]);
    let matrix = state.position.pose.r.to_rotation_matrix();
    for i in 0..3 {
        near(state.position.pose.w[i], centre[i], POSITION, &format!("{what}, centre"));
        let row: [f64; 3] = numbers(&expected["rotation"][i]);
        for j in 0..3 {
            near(matrix[(i, j)], row[j], ROTATION, &format!("{what}, rotation"));
        }
    }
    12
}

/// Compares a table row; `accuracy` tells how good a column is there. Columns the reference leaves out must be absent here
/// too, unless it does not compute them at all.
fn same_row(state: &State, row: &Value, accuracy: impl Fn(&str) -> f64, partial: bool, what: &str) -> usize {
    let mut count = 0;
    for (reading, expected) in READINGS.iter().zip(row.as_array().expect("a row")) {
        let value = (reading.value)(&Snapshot::of(state));
        match (value, expected.as_f64()) {
            (Some(value), Some(expected)) => {
                let tolerance = accuracy(reading.column) * expected.abs().max(1.0);
                near(value, expected, tolerance, &format!("{what}, {}", reading.column));
                count += 1;
            }
            (None, None) => {}
            _ => assert!(partial && expected.is_null(), "{what}, {}: {value:?}, not {expected}", reading.column),
        }
    }
    count
}

const FORCES: [(Member, &str); 5] = [
    (Member::LowerFront, "force_lower_front_n"),
    (Member::LowerRear, "force_lower_rear_n"),
    (Member::UpperFront, "force_upper_front_n"),
    (Member::UpperRear, "force_upper_rear_n"),
    (Member::TrackRod, "force_track_rod_n"),
];

/// Newton of 4000: the scripts' differences are good to 4e-8 N.
const FORCE: f64 = 1e-6;

fn same_forces(linkage: &Linkage, axle: &Value, what: &str) -> usize {
    let mut count = 0;
    for at in axle["forces"].as_array().into_iter().flatten() {
        let demand = Demand::new(number(&at["travel_mm"]), number(&at["rack_mm"]));
        let state = state(linkage, demand);
        for case in at["members"].as_array().expect("cases") {
            let force = Vec3::from(numbers::<3>(&case["force"]));
            let forces = MemberForces::under_road_force(&state, force).expect("held");
            let mut compare = |column: &str, value: Option<f64>| {
                if let Some(expected) = case.get(column).and_then(Value::as_f64) {
                    near(value.expect("a member"), expected, FORCE, &format!("{what}, {demand}, {column}"));
                    count += 1;
                }
            };
            for (member, column) in FORCES {
                compare(column, forces.tension(linkage, member));
            }
            compare("force_spring_n", Some(forces.spring));
            compare("force_strut_side_n", forces.strut_side(linkage));
        }
    }
    count
}

/// Solves every axle's states in the order of the file, from pose to pose, and compares. Returns what was compared.
fn compare(file: &str, layouts: &Value, accuracy: impl Fn(&str) -> f64 + Copy, partial: bool) -> (usize, usize, usize) {
    let reference = load(file);
    let (mut axles, mut states, mut values) = (0, 0, 0);
    for (name, axle) in reference["axles"].as_object().expect("axles") {
        let layout: Layout = Layout::from_value(&layouts["axles"][name]["layout"]).expect("a layout");
        let linkage = linkage(&layout);
        let expected = axle["states"].as_array().expect("states");
        let demands: Vec<_> =
            expected.iter().map(|s| Demand::new(number(&s["travel_mm"]), number(&s["rack_mm"]))).collect();
        for (solved, expected) in sweep(&linkage, demands).zip(expected) {
            let solved = solved.unwrap_or_else(|why| panic!("{name}: {why}"));
            let what = format!("{file}, {name} at {}, {}", expected["travel_mm"], expected["rack_mm"]);
            let state = State::read(&linkage, &solved);
            values += same_pose(&state, expected, &what) + same_row(&state, &expected["row"], accuracy, partial, &what);
            states += 1;
        }
        values += same_forces(&linkage, axle, &format!("{file}, {name}"));
        axles += 1;
    }
    (axles, states, values)
}

/// All twelve kinds of guides, steered or not, and every place a spring can stand.
#[test]
fn scipy_says_the_same() {
    let reference = load("scipy.json");
    let accuracy = |column: &str| match reference["accuracy"].get(column).and_then(Value::as_f64) {
        // Ten times the script's own estimate: its worst case over a few hundred states.
        Some(bound) => 10.0 * bound,
        None => panic!("no accuracy of {column}"),
    };
    let (axles, states, values) = compare("scipy.json", &reference, accuracy, false);
    assert!(axles >= 17 && states >= 285 && values >= 10_000, "{axles} axles, {states} states, {values} values");
}

#[test]
fn mujoco_says_the_same() {
    // Rates come from its constraint Jacobian, good to rounding; written with 12 digits.
    let (axles, states, values) = compare("mujoco.json", &load("scipy.json"), |_| 1e-8, true);
    assert!(axles >= 17 && states >= 285 && values >= 9_000, "{axles} axles, {states} states, {values} values");
}

/// Spring length in place of travel, steer angle in place of rack.
#[test]
fn other_demands_lead_to_the_same_poses() {
    let mut count = 0;
    for (name, axle) in load("scipy.json")["axles"].as_object().expect("axles") {
        let layout: Layout = Layout::from_value(&axle["layout"]).expect("a layout");
        let linkage = linkage(&layout);
        for expected in axle["demands"].as_array().expect("demands") {
            let held = |key: &str| expected["hold"].as_array().is_some_and(|keys| keys.iter().any(|k| k == key));
            let height = if held("spring") {
                Height::SpringLength(number(&expected["spring_length_mm"]))
            } else {
                Height::Travel(number(&expected["travel_mm"]))
            };
            let steering = if held("steer") {
                Steering::Steer(number(&expected["steer_deg"]))
            } else {
                Steering::Rack(number(&expected["rack_mm"]))
            };
            let state = State::solve(&linkage, Demand { height, steering }, &rest(&linkage)).expect("a pose");
            // The held value itself is written with 12 digits, and a spring or a steer angle can be a weak hold.
            let centre = Vec3::from(numbers::<3>(&expected["centre"]));
            near((state.position.pose.w - centre).norm(), 0.0, 1e-7, &format!("{name}, {expected}"));
            count += 1;
        }
    }
    assert!(count >= 40, "only {count} demands");
}

/// The name a joint on the carrier has in the file of loads.
fn joint_named(name: &str) -> PointId {
    match name {
        "lower" => PointId::LowerOuter,
        "lower_front" => PointId::LowerFrontOuter,
        "lower_rear" => PointId::LowerRearOuter,
        "upper" => PointId::UpperOuter,
        "upper_front" => PointId::UpperFrontOuter,
        "upper_rear" => PointId::UpperRearOuter,
        "strut_top" => PointId::StrutTop,
        "track_rod" => PointId::TrackRodOuter,
        other => panic!("no joint {other}"),
    }
}

fn vector(value: &Value) -> Vec3 {
    Vec3::from(numbers::<3>(value))
}

fn force(joints: &[Joint], id: PointId) -> Vec3 {
    joints.iter().find(|joint| joint.id == id).unwrap_or_else(|| panic!("no force at {id:?}")).force
}

/// Forces of 1e4 N from arms of 1e2 mm and poses good to 1e-11 mm.
const JOINT: f64 = 1e-5;

fn same_corner(corner: &Corner, expected: &Value, what: &str) -> usize {
    let mut count = 0;
    let mut same = |is: Vec3, should: Vec3, joint: &str| {
        near((is - should).norm(), 0.0, JOINT, &format!("{what}, {joint}: {is}, not {should}"));
        count += 3;
    };
    for (name, value) in expected["carrier"].as_object().expect("joints") {
        same(force(&corner.carrier, joint_named(name)), vector(value), name);
    }
    same(force(&corner.body, PointId::TrackRodInner), vector(&expected["track_rod_inner"]), "rack");
    for (place, ids) in [
        ("lower_inner", [PointId::LowerFrontInner, PointId::LowerRearInner]),
        ("upper_inner", [PointId::UpperFrontInner, PointId::UpperRearInner]),
    ] {
        let at = &expected[place];
        if at["across"].is_array() {
            let [a, b] = ids.map(|id| corner.body.iter().find(|joint| joint.id == id).expect("a body joint"));
            let line = (b.at - a.at).normalize();
            for (i, joint) in [a, b].into_iter().enumerate() {
                same(joint.force - line * line.dot(&joint.force), vector(&at["across"][i]), place);
            }
            near(line.dot(&(a.force + b.force)), number(&at["along"]), JOINT, &format!("{what}, {place} along"));
        } else if at.is_object() {
            for (side, id) in ["front", "rear"].into_iter().zip(ids) {
                same(force(&corner.body, id), vector(&at[side]), place);
            }
        }
    }
    if expected["bush"].is_array() {
        near((corner.bush - vector(&expected["bush"])).norm(), 0.0, 1e-2, &format!("{what}, couple in the bush, N·mm"));
    }
    near(corner.members.spring, number(&expected["spring_n"]), JOINT, &format!("{what}, spring"));
    count
}

/// Every body cut free and solved at once by NumPy (computed): forces at every joint of 17 axles, and half-shafts.
#[test]
fn free_bodies_say_the_same() {
    let reference = load("loads.json");
    let (mut states, mut values) = (0, 0);
    for (name, axle) in reference["axles"].as_object().expect("axles") {
        let mut layout = Layout::from_value(&axle["layout"]).expect("a layout");
        let shaft = &reference["shaft"];
        layout.half_shaft =
            Some(HalfShaft { inner: vector(&shaft["inner"]), outer: vector(&shaft["outer"]), right_inner_y: None });
        let linkage = linkage(&layout);
        for expected in axle["states"].as_array().expect("states") {
            let demand = Demand::new(number(&expected["travel_mm"]), number(&expected["rack_mm"]));
            let state = state(&linkage, demand);
            let what = format!("{name} at {demand}");
            for case in expected["cases"].as_array().expect("cases") {
                let road = Wrench::at(state.attitude.contact, state.attitude.along(vector(&case["road"])));
                let hub = Wrench { force: vector(&case["hub"]), moment: vector(&case["couple"]) };
                let corner = Corner::under(&linkage, &state, &Statics::at(&state), &road.plus(&hub)).expect("held");
                values += same_corner(&corner, case, &what);
            }
            let (is, should) = (state.half_shaft.expect("a shaft"), &expected["half_shaft"]);
            near(is.inner_angle, number(&should["inner_angle_deg"]), 1e-7, &format!("{what}, inner joint"));
            near(is.outer_angle, number(&should["outer_angle_deg"]), 1e-7, &format!("{what}, outer joint"));
            near(is.plunge, number(&should["plunge_mm"]), 1e-8, &format!("{what}, plunge"));
            let wrench = is.wrench(number(&reference["torque"])).expect("not folded");
            // The reference has the couple alone; the shaft's radial force is in `edges.rs`.
            let outer = state.position.pose.r * (vector(&shaft["outer"]) - layout.wheel.centre);
            let couple = wrench.moment - outer.cross(&wrench.force);
            near((couple - vector(&should["couple"])).norm(), 0.0, 1e-4, &format!("{what}, couple, N·mm"));
            states += 1;
        }
    }
    assert!(states == 51 && values > 3000, "{states} states, {values} values");
}
