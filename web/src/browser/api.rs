//! The JavaScript interface for embedders and scripts: `main.rs` hands it out, `boot.js` puts it into the page as `ghostpin`.
//!
//! What is handed in may be a proxy or have getters, and those may throw. So it is touched only by functions that return what is thrown:
//! an exception that passes through this program never gives back the stack it stood on.

use js_sys::{JSON, Object, Reflect};
use kernel::{
    Axle, Demand, Guess, Layout, LeftOrRight, Linkage, READINGS, Reading, Snapshot, State, Subject, Unsolved, clip,
    range,
};
use serde::ser::{Serialize, SerializeMap, Serializer};
use std::rc::Rc;
use wasm_bindgen::prelude::*;

/// More rows than this would fill the page's memory.
const MOST_ROWS: usize = 100_000;

/// The options there are.
const OPTIONS: [&str; 7] = ["travel", "rack", "wheel", "axle", "rig", "elastic", "space"];

/// Readings by column name; `null` where the axle does not have one.
struct Readings(Vec<(&'static str, Option<f64>)>);

impl Serialize for Readings {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        self.0.iter().try_for_each(|(column, value)| map.serialize_entry(column, value))?;
        map.end()
    }
}

/// An error with a sentence.
fn error(sentence: &str) -> JsValue {
    JsError::new(sentence).into()
}

/// `ghostpin.solve(layout, {travel, rack, wheel, axle, rig, elastic, space})`: the readings of one state by name, those of one wheel and, behind
/// them, those of the whole axle: both wheels at this mean travel and rack, without roll; of a rig's steering sweep at this travel; of what gives way;
/// and of gaps. Each is left out if its option is `false`. `travel` and `rack` are mm and 0 if left out; `wheel`
/// is `"left"` or, as if it were a left one, `"right"`. The layout's `changes` are built in.
pub fn solve(layout: JsValue, options: JsValue) -> Result<JsValue, JsValue> {
    let rows = rows(layout, options, true)?;
    match rows.as_slice() {
        [row] => to_js(row),
        _ => Err(error("solve takes one travel and one rack; sweep takes ranges.")),
    }
}

/// `ghostpin.sweep(layout, {travel, rack, wheel, axle, rig, elastic, space})`: one object of readings a state, travel outside and rack inside. Each of the
/// two is a number or `{from, to, step}`. The whole axle's readings are there if `axle` is `true`: such a row takes about fifteen times as long; a
/// rig's, what gives way and gaps with `rig`, `elastic` and `space`.
pub fn sweep(layout: JsValue, options: JsValue) -> Result<JsValue, JsValue> {
    to_js(&rows(layout, options, false)?)
}

/// Solves `steps` neighbouring states, each from the one before, and reads everything of the wheel in each; gives the sum of all readings.
/// Not part of the interface: what a measurement of the solver calls, since handing rows to JavaScript takes far longer.
pub fn walk(file: &str, steps: u32) -> Result<f64, JsValue> {
    let layout = Layout::from_json(file).map_err(|sentence| error(&sentence))?;
    let linkage = Linkage::new(&layout).map_err(|_| error("This layout has problems."))?;
    let readings: Vec<_> = READINGS.iter().filter(|reading| reading.subject() == Subject::Wheel).collect();
    let (mut sum, mut guess) = (0.0, Guess::at_rest(&linkage));
    for i in 0..steps {
        // Up and down again, so that each is a millimetre from the one before.
        let at = f64::from((i % 100).abs_diff(50));
        let state = State::solve(&linkage, Demand::new(at, 0.3 * at), guess).map_err(|why| error(&why.to_string()))?;
        let snapshot = Snapshot::of(&state);
        sum += readings.iter().filter_map(|reading| (reading.value)(&snapshot)).sum::<f64>();
        guess = guess.onward(&state);
    }
    Ok(sum)
}

/// The rows of both functions; `all` tells whether more than one wheel is read where the options do not say.
fn rows(layout: JsValue, options: JsValue, all: bool) -> Result<Vec<Readings>, JsValue> {
    // By way of the file's text, so that both doors read alike and say the same. The browser writes it: an object that holds itself, or is
    // deeper than any layout, ends there.
    let text = JSON::stringify(&layout).ok().and_then(|text| text.as_string());
    let text = text.ok_or_else(|| error("This is not a layout: it can’t be written as JSON."))?;
    let layout = Layout::from_json(&text).map_err(|sentence| error(&sentence))?;
    let options = if options.is_null() || options.is_undefined() { Object::new().into() } else { options };
    check_names(&options)?;
    let (travel, rack) = (values(&options, "travel")?, values(&options, "rack")?);
    if travel.len() * rack.len() > MOST_ROWS {
        return Err(error(&format!("The two ranges make more than {MOST_ROWS} rows.")));
    }
    let mut subjects = vec![Subject::Wheel];
    let asked =
        [("axle", Subject::Axle), ("rig", Subject::Rig), ("elastic", Subject::Elastic), ("space", Subject::Space)];
    for (name, subject) in asked {
        subjects.extend(flag(&options, name)?.unwrap_or(all).then_some(subject));
    }
    let columns = columns(&subjects);
    let axle = Axle::new(&layout).map_err(|why| error(&why.to_string()))?;
    let axle = Rc::new(axle.looking_at(wheel(&options)?));
    let demands = travel.iter().flat_map(|&travel| rack.iter().map(move |&rack| Demand::new(travel, rack)));
    let row = |solved: Result<_, Unsolved>| {
        let state = State::read(axle.linkage(), &solved?);
        let snapshot = Snapshot::level(&axle, &state);
        Ok(Readings(columns.iter().map(|reading| (reading.column, (reading.value)(&snapshot))).collect()))
    };
    let rows: Result<Vec<Readings>, Unsolved> = kernel::sweep(axle.linkage(), demands).map(row).collect();
    rows.map_err(|why| error(&why.to_string()))
}

/// What a row has: what is read of each subject in its turn, by name.
fn columns(subjects: &[Subject]) -> Vec<&'static Reading> {
    let turn = |reading: &Reading| subjects.iter().position(|subject| *subject == reading.subject());
    let mut columns: Vec<&Reading> = READINGS.iter().filter(|reading| turn(reading).is_some()).collect();
    columns.sort_unstable_by_key(|reading| (turn(reading), reading.column));
    columns
}

/// An option that is yes or no; `None` where it is left out.
fn flag(options: &JsValue, what: &str) -> Result<Option<bool>, JsValue> {
    let given = Reflect::get(options, &what.into())?;
    if given.is_undefined() || given.is_null() {
        return Ok(None);
    }
    given.as_bool().map(Some).ok_or_else(|| error(&format!("The option {what} is neither true nor false.")))
}

/// The numbers that an option stands for: none is 0, a number itself, `{from, to, step}` a range.
fn values(options: &JsValue, what: &str) -> Result<Vec<f64>, JsValue> {
    let given = Reflect::get(options, &what.into())?;
    if given.is_undefined() || given.is_null() {
        return Ok(vec![0.0]);
    }
    if let Some(value) = given.as_f64().filter(|value| value.is_finite()) {
        return Ok(vec![value]);
    }
    let neither = || error(&format!("The option {what} is neither a number nor {{from, to, step}}."));
    if !given.is_object() {
        return Err(neither());
    }
    let bound = |key: &str| Reflect::get(&given, &key.into())?.as_f64().ok_or_else(neither);
    range(bound("from")?, bound("to")?, bound("step")?).map_err(|why| error(&format!("The range of {what} {why}.")))
}

/// The wheel that is asked for; the left one if none is.
fn wheel(options: &JsValue) -> Result<LeftOrRight, JsValue> {
    let given = Reflect::get(options, &"wheel".into())?;
    if given.is_undefined() || given.is_null() {
        return Ok(LeftOrRight::Left);
    }
    let named = LeftOrRight::BOTH.into_iter().find(|side| given.as_string().as_deref() == Some(side.name()));
    named.ok_or_else(|| error("The option wheel is neither “left” nor “right”."))
}

/// A mistyped name must not be lost.
fn check_names(options: &JsValue) -> Result<(), JsValue> {
    if !options.is_object() {
        return Err(error("The options are not an object {travel, rack, wheel, axle, rig, elastic, space}."));
    }
    // A symbol is nobody's mistyped name.
    for key in Reflect::own_keys(options)?.iter().filter_map(|key| key.as_string()) {
        if !OPTIONS.contains(&key.as_str()) {
            let known = OPTIONS.join(", ");
            return Err(error(&format!("The option “{}” is unknown; known options: {known}.", clip(&key))));
        }
    }
    Ok(())
}

fn to_js(value: &impl Serialize) -> Result<JsValue, JsValue> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value.serialize(&serializer).map_err(|why| error(&why.to_string()))
}
