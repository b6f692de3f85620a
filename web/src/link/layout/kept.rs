//! Parts of a layout file that are kept as they are: bushes, subframe, boxes, solid. Each has its short spelling; what it cannot say to the last
//! digit and letter stands in the link as the file has it.

use super::{boxes, bushes, solid, subframe};
use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::writer::Writer;
use crate::text::number::plain;
use kernel::{Layout, clip};
use serde_json::{Map, Value};

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

const PARTS: [Kept; 4] = [bushes::KEPT, subframe::KEPT, boxes::KEPT, solid::KEPT];

/// JSON as text: what the short spellings don't say.
const REST: Parameter = Parameter::optional("kept");

/// Longer than any file, characters.
const LONGEST: usize = Layout::MAX_FILE;

/// All of them.
pub const TOPIC: Topic<Layout> = Topic::new(write, read);

fn write(layout: &Layout, link: &mut Writer) {
    let mut rest = Map::new();
    for (part, value) in &layout.other {
        let kept = PARTS.iter().find(|kept| kept.part == part);
        match kept.and_then(|kept| Some((kept, short(kept, value)?))) {
            Some((kept, texts)) => {
                for (parameter, text) in kept.parameters.iter().zip(texts) {
                    text.iter().for_each(|text| link.joined(*parameter, text));
                }
            }
            None => drop(rest.insert(part.clone(), value.clone())),
        }
    }
    if !rest.is_empty() {
        link.text(REST, &Value::Object(rest).to_string());
    }
}

/// The short spelling, if it says all of a part.
fn short(kept: &Kept, value: &Value) -> Option<Vec<Option<String>>> {
    (kept.write)(value).filter(|texts| (kept.read)(texts).as_ref() == Some(&whole(value)))
}

fn read(link: &mut Reader, layout: &mut Layout) {
    for kept in &PARTS {
        let texts: Vec<Option<String>> = kept.parameters.iter().map(|parameter| link.take(*parameter)).collect();
        let Some((parameter, text)) =
            kept.parameters.iter().zip(&texts).find_map(|(p, text)| Some((p, text.as_ref()?)))
        else {
            continue;
        };
        match (kept.read)(&texts) {
            Some(value) => drop(layout.other.insert(kept.part.into(), value)),
            None => link.wrong(*parameter, text, kept.wanted),
        }
    }
    if let Some(text) = link.text(REST, LONGEST) {
        read_rest(link, &text, layout);
    }
}

fn read_rest(link: &mut Reader, text: &str, layout: &mut Layout) {
    let Ok(Value::Object(parts)) = serde_json::from_str(text) else {
        return link.wrong(REST, text, "parts of a layout file");
    };
    for (part, value) in parts {
        if PARTS.iter().any(|kept| kept.part == part) && !layout.other.contains_key(&part) {
            layout.other.insert(part, value);
        } else {
            let (key, part) = (link.key(REST), clip(&part));
            link.faults.push(format!("The link’s “{key}” has “{part}”, not a part of its own; it is left out."));
        }
    }
}

/// A value whose whole numbers are written as such: 25 for 25.0.
fn whole(value: &Value) -> Value {
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
