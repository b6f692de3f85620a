//! In the browser's WebAssembly: the same numbers as natively, and the JavaScript interface.

#![cfg(target_arch = "wasm32")]

use kernel::{Demand, Layout, Linkage, Position, READINGS, State};
use wasm_bindgen::JsValue;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web::browser::api::{solve, sweep_js};

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
    let values: Vec<f64> = READINGS.iter().filter_map(|reading| (reading.value)(&state)).collect();
    assert_eq!(values.len(), READINGS.len());
    for (i, native) in NATIVE.into_iter().enumerate() {
        assert!((values[i] - native).abs() < 1e-9, "{}: {} and {native}", READINGS[i].column, values[i]);
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
    let rows = sweep_js(js(STRUT), js(r#"{"travel": {"from": -20, "to": 20, "step": 10}}"#)).expect("rows");
    let rows = js_sys::Array::from(&rows);
    assert_eq!(rows.length(), 5);
    assert_eq!(get(&rows.get(4), "travel_mm").as_f64(), Some(20.0));
}

#[wasm_bindgen_test]
fn errors_are_the_kernels_sentences() {
    let message = |layout: JsValue, options: &str| {
        let error = solve(layout, js(options)).expect_err("an error");
        get(&error, "message").as_string().expect("a sentence")
    };
    assert!(message(js(STRUT), r#"{"travel": -400}"#).contains("misses its top mount by"));
    assert!(message(js(STRUT), r#"{"wings": 2}"#).contains("wings"));
    assert!(message(js("[1]"), "{}").contains("not a layout"));
    let broken = STRUT.replace("562.0", "1e6");
    assert_ne!(broken, STRUT);
    assert!(message(js(&broken), "{}").contains("strut top mount"));
}
