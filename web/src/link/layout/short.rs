//! A part of a layout file and its short spelling in links.

use crate::link::parameter::Parameter;
use crate::text::number::plain;
use serde_json::Value;

/// A part of a file and its short spelling.
pub struct Kept {
    /// What files call it.
    pub part: &'static str,
    /// The parameters that say it; the first is there where the part is.
    pub parameters: &'static [Parameter],
    /// The text of each parameter. What it does not understand it may leave out: that is noticed.
    pub write: fn(&Value) -> Option<Vec<Option<String>>>,
    /// The part that such texts say.
    pub read: fn(&[Option<String>]) -> Option<Value>,
    /// What the parameters should say, for a sentence.
    pub wanted: &'static str,
}

/// A value whose whole numbers are written as such: 25 for 25.0.
pub fn whole(value: &Value) -> Value {
    match value {
        Value::Number(number) => number.as_f64().and_then(of_number).unwrap_or_else(|| value.clone()),
        Value::Array(items) => items.iter().map(whole).collect(),
        Value::Object(fields) => Value::Object(fields.iter().map(|(key, value)| (key.clone(), whole(value))).collect()),
        _ => value.clone(),
    }
}

/// Numbers of these parts are within this.
const MOST: f64 = 1e9;

fn of_number(number: f64) -> Option<Value> {
    // Whole and no more than `MOST`, so the cast is exact.
    let value = if number.fract() == 0.0 { Value::from(number as i64) } else { Value::from(number) };
    (number.abs() <= MOST).then_some(value)
}

/// A number of a file as a link has it.
pub fn text(value: &Value) -> Option<String> {
    value.as_f64().map(plain)
}

/// Numbers of a file, joined by `_`.
pub fn texts(value: &Value) -> Option<String> {
    let numbers: Option<Vec<String>> = value.as_array()?.iter().map(text).collect();
    Some(numbers?.join("_"))
}

/// A number of a link as a file has it.
pub fn value(text: &str) -> Option<Value> {
    of_number(text.parse().ok()?)
}

/// Numbers of a link as a list.
pub fn values(texts: &[&str]) -> Option<Value> {
    texts.iter().map(|text| value(text)).collect()
}
