//! What readings do when a number of the layout is varied. A [`Parameter`] is such a number, an [`Outcome`] a reading at a position of a wheel;
//! every question is about outcomes as functions of parameters.

mod aim;
mod errors;
pub mod fit;
pub mod goals;
mod no_search;
mod outcome;
mod parameter;
mod sensitivity;
pub mod spread;
mod tangent;
mod turn;
mod varied;

pub use crate::math::{Random, Stopped};
pub use aim::{Aim, Answer, Effect, Move};
pub use errors::{DISTRIBUTIONS, Distribution, Errors, KINDS, Kind};
pub use no_search::NoSearch;
pub use outcome::{Outcome, Quantity, read};
pub use parameter::{Design, Parameter, is_of_a_part};
pub use sensitivity::{STEP, Sensitivity};
pub use turn::{Turning, turn};
pub use varied::Varied;

use crate::layout::{Entry, Layout, Read, clip, parse};
use serde_json::Value;

/// Reads a file of one of these questions; the error is a sentence that says which.
fn file<T>(text: &str, what: &str, read: impl Fn(&Value) -> Read<T>) -> Result<T, String> {
    if text.len() > Layout::MAX_FILE {
        return Err(format!("This is no file of {what}: it is longer than {} kB.", Layout::MAX_FILE / 1000));
    }
    let read = parse(text).and_then(|json| match json.is_object() {
        true => read(&json),
        false => Err("it must be an object { … }".into()),
    });
    read.map_err(|wrong| format!("This is no file of {what}: {wrong}."))
}

/// A number, or a list of numbers.
fn numbers(part: &Entry, key: &str) -> Read<Vec<f64>> {
    let wrong = || format!("“{}” must be a number or a list of numbers", part.path(key));
    let value = part.need(key)?;
    match value.as_array() {
        Some(items) => items.iter().map(Value::as_f64).collect::<Option<_>>().ok_or_else(wrong),
        None => Ok(vec![value.as_f64().ok_or_else(wrong)?]),
    }
}

/// The quantity that an entry names.
fn quantity(part: &Entry) -> Read<Quantity> {
    let name = part.text("reading")?;
    let said = || {
        format!(
            "“{}” is “{}”; it must be the column of a reading, such as camber_deg",
            part.path("reading"),
            clip(name)
        )
    };
    Quantity::named(name).ok_or_else(said)
}
