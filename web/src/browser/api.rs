//! The JavaScript interface for embedders and scripts; `boot.js` puts it into the page as `ghostpin`.

use super::dom::clip;
use kernel::{Demand, Layout, Linkage, READINGS, State, Unsolved, range, sweep};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use wasm_bindgen::prelude::*;

/// A number, or a range of them: `{from, to, step}`.
#[derive(Deserialize)]
#[serde(untagged)]
enum Values {
    One(f64),
    Range { from: f64, to: f64, step: f64 },
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Options {
    travel: Option<Values>,
    rack: Option<Values>,
}

/// More rows than this would fill the page's memory.
const MOST_ROWS: usize = 100_000;

/// Readings by column name; `null` where the axle does not have one.
type Readings = BTreeMap<&'static str, Option<f64>>;

/// `ghostpin.solve(layout, {travel, rack})`: the readings of one state by name. `travel` and `rack` are mm and 0 if left out.
#[wasm_bindgen]
pub fn solve(layout: JsValue, options: JsValue) -> Result<JsValue, JsError> {
    let rows = rows(layout, options)?;
    match rows.as_slice() {
        [row] => to_js(row),
        _ => Err(JsError::new("solve takes one travel and one rack; sweep takes ranges.")),
    }
}

/// `ghostpin.sweep(layout, {travel, rack})`: one object of readings a state, travel outside and rack inside. Each of the
/// two is a number or `{from, to, step}`.
#[wasm_bindgen(js_name = sweep)]
pub fn sweep_js(layout: JsValue, options: JsValue) -> Result<JsValue, JsError> {
    to_js(&rows(layout, options)?)
}

/// Solves `steps` neighbouring states, each from the one before, and reads everything of each; gives the sum of all readings.
/// Not part of the interface: what a measurement of the solver calls, since handing rows to JavaScript takes far longer.
#[wasm_bindgen]
pub fn walk(file: &str, steps: u32) -> Result<f64, JsError> {
    let layout = Layout::from_json(file).map_err(|sentence| JsError::new(&sentence))?;
    let linkage = Linkage::new(&layout).map_err(|_| JsError::new("This layout has problems."))?;
    let demands = (0..steps).map(|i| Demand::new(f64::from(i % 50), 0.3 * f64::from(i % 50)));
    let mut sum = 0.0;
    for solved in sweep(&linkage, demands) {
        let state = State::read(&linkage, &solved.map_err(|why| JsError::new(&why.to_string()))?);
        sum += READINGS.iter().filter_map(|reading| (reading.value)(&state)).sum::<f64>();
    }
    Ok(sum)
}

fn rows(layout: JsValue, options: JsValue) -> Result<Vec<Readings>, JsError> {
    // By way of the file format, so that both doors read alike and say the same; NaN and infinities have no place in it.
    let layout: serde_json::Value =
        serde_wasm_bindgen::from_value(layout).map_err(|e| JsError::new(&format!("This is not a layout: {e}.")))?;
    let layout = Layout::from_value(&layout).map_err(|sentence| JsError::new(&sentence))?;
    let options = read_options(options)?;
    let (travel, rack) = (values("travel", options.travel)?, values("rack", options.rack)?);
    if travel.len() * rack.len() > MOST_ROWS {
        return Err(JsError::new(&format!("The two ranges make more than {MOST_ROWS} rows.")));
    }
    let linkage = Linkage::new(&layout).map_err(|problems| {
        let sentences: Vec<String> = problems.iter().map(ToString::to_string).collect();
        JsError::new(&sentences.join(" "))
    })?;
    let demands = travel.iter().flat_map(|&travel| rack.iter().map(move |&rack| Demand::new(travel, rack)));
    let states = sweep(&linkage, demands).map(|solved| solved.map(|solved| State::read(&linkage, &solved)));
    let rows: Result<Vec<Readings>, Unsolved> = states.map(|state| state.map(|state| readings(&state))).collect();
    rows.map_err(|why| JsError::new(&why.to_string()))
}

fn read_options(options: JsValue) -> Result<Options, JsError> {
    if options.is_undefined() || options.is_null() {
        return Ok(Options::default());
    }
    // The deserialiser asks an object for what it knows and does not see the rest; a mistyped name must not be lost.
    for key in js_sys::Object::keys(&js_sys::Object::from(options.clone())) {
        let key = key.as_string().unwrap_or_default();
        if !["travel", "rack"].contains(&key.as_str()) {
            return Err(JsError::new(&format!("The option “{}” is not known; there are travel and rack.", clip(&key))));
        }
    }
    serde_wasm_bindgen::from_value(options)
        .map_err(|e| JsError::new(&format!("These are not options {{travel, rack}}: {e}.")))
}

fn values(what: &str, values: Option<Values>) -> Result<Vec<f64>, JsError> {
    match values {
        None => Ok(vec![0.0]),
        Some(Values::One(value)) => Ok(vec![value]),
        Some(Values::Range { from, to, step }) => {
            range(from, to, step).map_err(|why| JsError::new(&format!("The range of {what} {why}.")))
        }
    }
}

fn readings(state: &State) -> Readings {
    READINGS.iter().map(|reading| (reading.column, (reading.value)(state))).collect()
}

fn to_js(value: &impl Serialize) -> Result<JsValue, JsError> {
    Ok(value.serialize(&serde_wasm_bindgen::Serializer::json_compatible())?)
}
