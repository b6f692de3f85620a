//! In the browser's WebAssembly: the same numbers as natively, and the JavaScript interface.

#![cfg(target_arch = "wasm32")]

use kernel::{Axle, Demand, Layout, Linkage, Position, READINGS, Snapshot, Stance, State, Subject, Whole};
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web::browser::api::{solve, sweep};

wasm_bindgen_test_configure!(run_in_browser);

const STRUT: &str = include_str!("../../demo-layouts/strut.json");

fn js(json: &str) -> JsValue {
    js_sys::JSON::parse(json).expect("JSON")
}

fn get(object: &JsValue, key: &str) -> JsValue {
    js_sys::Reflect::get(object, &key.into()).expect("a property")
}

/// What `cargo run --example sweep -- demo-layouts/strut.json --travel=25 --rack=12` printed natively on 2026-11-25.
/// Libraries of sines may differ in the last digit; a wrong branch or unit differs at once.
const NATIVE: [f64; 25] = [
    25.0,
    12.0,
    -0.9996498653950617,
    -5.205180492840233,
    5.205180492840233,
    2.0862938014305428,
    7.430248050843199,
    3.7702575191529095,
    14.649428168290855,
    -9.04596405284634,
    12.258228472313395,
    66.84279612454739,
    -0.5229036865914374,
    -0.0000000000000009383120514125216,
    -8.734158435352875,
    64.53878969705701,
    11.835699212208374,
    -2.7858118192307026,
    499.25050636815337,
    0.9760165855904549,
    -0.003230689260572597,
    -0.007308812352615374,
    -2.9052620898854324,
    5.250808134029571,
    2.2008481227734333,
];

#[wasm_bindgen_test]
fn the_same_numbers_as_natively() {
    let layout = Layout::from_json(STRUT).expect("a layout");
    let linkage = Linkage::new(&layout).expect("a linkage");
    let rest = Position { pose: linkage.rest(), rack: 0.0 };
    let state = State::solve(&linkage, Demand::new(25.0, 12.0), &rest).expect("a pose");
    for (reading, native) in READINGS.iter().zip(NATIVE) {
        let value = (reading.value)(&Snapshot::of(&state)).expect("a value");
        assert!((value - native).abs() < 1e-9, "{}: {value} and {native}", reading.column);
    }
}

#[wasm_bindgen_test]
fn solve_gives_readings_by_name() {
    let readings = solve(js(STRUT), js(r#"{"travel": 25, "rack": 12}"#)).expect("readings");
    let camber = get(&readings, "camber_deg").as_f64().expect("a number");
    assert!((camber - NATIVE[2]).abs() < 1e-9);
}

#[wasm_bindgen_test]
fn sweep_gives_rows() {
    let rows = sweep(js(STRUT), js(r#"{"travel": {"from": -20, "to": 20, "step": 10}}"#)).expect("rows");
    let rows = js_sys::Array::from(&rows);
    assert_eq!(rows.length(), 5);
    assert_eq!(get(&rows.get(4), "travel_mm").as_f64(), Some(20.0));
}

/// The columns of a row of JavaScript, in its order.
fn names(row: &JsValue) -> Vec<String> {
    let keys = js_sys::Object::keys(row.unchecked_ref::<js_sys::Object>());
    keys.iter().map(|key| key.as_string().expect("a name")).collect()
}

/// The whole axle's readings stand behind a wheel's: always where one state is solved, on demand in a sweep; the same as natively.
#[wasm_bindgen_test]
fn the_whole_axle_is_read_too() {
    let count = |subject| READINGS.iter().filter(|reading| reading.subject() == subject).count();
    let (wheel, axle) = (count(Subject::Wheel), count(Subject::Axle));
    let behind = count(Subject::Rig) + count(Subject::Elastic) + count(Subject::Space);
    let row = solve(js(STRUT), js(r#"{"travel": 25, "rack": 12}"#)).expect("readings");
    let all = names(&row);
    assert_eq!((all.len(), &*all[0], &*all[wheel]), (wheel + axle + behind, "brake_lever_arm_mm", "ackermann_percent"));
    let layout = Layout::from_json(STRUT).expect("a layout");
    let of = Rc::new(Axle::new(&layout).expect("an axle"));
    let stance = Stance { roll: 0.0, travel: 25.0, rack: 12.0 };
    let whole = Whole::at(&of, stance, &of.at_rest()).expect("it goes there");
    for reading in READINGS.iter().filter(|reading| reading.subject() == Subject::Axle) {
        let native = (reading.value)(&Snapshot::both(&whole));
        let value = get(&row, reading.column).as_f64();
        let same = native.zip(value).map_or(native == value, |(a, b)| (a - b).abs() < 1e-6 * a.abs().max(1.0));
        assert!(same, "{}: {value:?} and {native:?}", reading.column);
    }
    let [left, right] = ["travel_left_mm", "travel_right_mm"].map(|name| get(&row, name).as_f64().expect("a number"));
    assert!((f64::midpoint(left, right) - 25.0).abs() < 1e-9);
    let first = |options: &str| js_sys::Array::from(&sweep(js(STRUT), js(options)).expect("rows")).get(0);
    let few = names(&first(r#"{"rack": {"from": 0, "to": 10, "step": 10}}"#));
    assert_eq!(few, all[..wheel]);
    assert_eq!(names(&first(r#"{"rack": {"from": 0, "to": 10, "step": 10}, "axle": true}"#)), all[..wheel + axle]);
    let everything =
        r#"{"rack": {"from": 0, "to": 10, "step": 10}, "axle": true, "rig": true, "elastic": true, "space": true}"#;
    assert_eq!(names(&first(everything)), all);
    let nothing = r#"{"axle": false, "rig": false, "elastic": false, "space": false}"#;
    assert_eq!(names(&solve(js(STRUT), js(nothing)).expect("readings")), few);
    assert!(get(&row, "caster_sweep_deg").as_f64().is_some() && get(&row, "toe_side_force_deg_per_kn").is_null());
}

/// Where one wheel gets and the other does not, the wheel is read and the axle is not.
#[wasm_bindgen_test]
fn a_wheel_that_gets_there_alone_is_read_alone() {
    let row = solve(js(STRUT), js(r#"{"rack": 150}"#)).expect("readings");
    assert!(get(&row, "camber_deg").as_f64().is_some() && get(&row, "track_mm").is_null());
}

#[wasm_bindgen_test]
fn errors_are_the_kernels_sentences() {
    let message = |layout: JsValue, options: &str| {
        let error = solve(layout, js(options)).expect_err("an error");
        get(&error, "message").as_string().expect("a sentence")
    };
    assert!(message(js(STRUT), r#"{"travel": -400}"#).contains("misses its top mount by"));
    assert!(message(js(STRUT), r#"{"wings": 2}"#).contains("wings"));
    assert!(message(js(STRUT), r#"{"axle": 2}"#).contains("axle is neither true nor false"));
    assert!(message(js("[1]"), "{}").contains("not a layout"));
    let broken = STRUT.replace("562.0", "1e6");
    assert_ne!(broken, STRUT);
    assert!(message(js(&broken), "{}").contains("strut top mount"));
}

#[path = "../../tests/reference/samples.rs"]
mod samples;

/// As natively (`tests/tests/kernel/aims_witness.rs`).
#[wasm_bindgen_test]
fn a_seed_draws_the_same_axles_as_natively() {
    let reference = include_str!("../../tests/reference/vary.json");
    samples::same_samples(&serde_json::from_str(reference).expect("JSON"));
}
