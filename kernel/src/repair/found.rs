//! What was found on a car: readings with their errors, and what somebody may have set since.

use crate::layout::{Change, Entry, Layout, LeftOrRight, Read, clip, parse};
use crate::vary::{Outcome, Parameter, Quantity};
use serde_json::json;

/// A reading that was found.
#[derive(Clone, Copy)]
pub struct Value {
    /// What was read, and where.
    pub outcome: Outcome,
    /// Where the same reading was taken off: then what was found is a difference, of left and right say. `None` for the reading itself.
    pub less: Option<Outcome>,
    /// What it was.
    pub value: f64,
    /// Its error, one standard deviation, in the reading's unit; more than 0.
    pub error: f64,
}

impl Value {
    /// Where it was read.
    pub fn places(&self) -> impl Iterator<Item = Outcome> + use<> {
        std::iter::once(self.outcome).chain(self.less)
    }
}

/// Everything that was found.
#[derive(Clone)]
pub struct Found {
    /// The readings.
    pub values: Vec<Value>,
    /// What somebody may have set since: fitted beside every cause, on each side of which there are values, without any expectation.
    pub adjusted: Vec<Change>,
    /// Error of each wheel's height, one standard deviation, mm; 0 for heights that are exact. It is one for all readings of a wheel at a travel.
    pub height_error: f64,
}

/// What a file says of a value.
const VALUE: [&str; 7] = ["reading", "side", "travel", "rack", "less", "value", "error"];

/// What it says of a place.
const PLACE: [&str; 3] = ["side", "travel", "rack"];

impl Found {
    /// Reads a file of what was found on this axle. The error is a sentence that says what is wrong with it and where.
    pub fn from_json(text: &str, layout: &Layout) -> Result<Found, String> {
        if text.len() > Layout::MAX_FILE {
            return Err(format!("This is no file of readings: it is longer than {} kB.", Layout::MAX_FILE / 1000));
        }
        read(text, layout).map_err(|what| format!("This is no file of readings: {what}."))
    }

    /// The file that [`Found::from_json`] reads, of the same axle.
    pub fn to_json(&self, layout: &Layout) -> String {
        let place = |at: &Outcome| json!({ "side": at.side.name(), "travel": at.travel, "rack": at.rack });
        let value = |value: &Value| {
            let mut json = place(&value.outcome);
            json["reading"] = value.outcome.quantity.column().into();
            json["value"] = value.value.into();
            json["error"] = value.error.into();
            value.less.iter().for_each(|less| json["less"] = place(less));
            json
        };
        let values: Vec<_> = self.values.iter().map(value).collect();
        let adjusted: Vec<String> = self.adjusted.iter().map(|change| change.name(layout)).collect();
        json!({ "values": values, "adjusted": adjusted, "height_error": self.height_error }).to_string()
    }

    /// What was found on one side.
    pub fn of(&self, side: LeftOrRight) -> Found {
        let values = self.values.iter().copied().filter(|value| value.outcome.side == side).collect();
        Found { values, ..self.clone() }
    }

    /// The sides of which there are values.
    pub fn sides(&self) -> impl Iterator<Item = LeftOrRight> + '_ {
        let has = |side: &LeftOrRight| self.values.iter().flat_map(Value::places).any(|at| at.side == *side);
        LeftOrRight::BOTH.into_iter().filter(has)
    }
}

fn read(text: &str, layout: &Layout) -> Read<Found> {
    let json = parse(text)?;
    let fields = json.as_object().ok_or("it must be an object { … }")?;
    let known = ["values", "adjusted", "height_error"];
    if let Some(other) = fields.keys().find(|key| !known.contains(&key.as_str())) {
        return Err(format!("it has an unknown entry “{}”", clip(other)));
    }
    let file = Entry::new("", &json, &known)?;
    let values = list(&file, "values")?;
    if values.is_empty() {
        return Err("“values” is empty".into());
    }
    let value = |(i, item)| value(&Entry::new(&format!("values[{i}]"), item, &VALUE)?);
    let adjusted = if file.find("adjusted").is_some() { list(&file, "adjusted")? } else { &[] };
    let set = |item: &serde_json::Value| {
        let name = item.as_str().ok_or("“adjusted” must be a list of names in quotes")?;
        match Parameter::named(name, layout) {
            Some(Parameter::Change(change)) => Ok(change),
            Some(Parameter::Design(_)) => {
                Err(format!("“adjusted” has “{name}”, which is of the design; nobody sets that on a car"))
            }
            None => Err(format!("“adjusted” has “{}”, which this axle does not have", clip(name))),
        }
    };
    Ok(Found {
        values: values.iter().enumerate().map(value).collect::<Read<_>>()?,
        adjusted: adjusted.iter().map(set).collect::<Read<_>>()?,
        height_error: positive_or_zero(&file, "height_error")?,
    })
}

fn list<'a>(file: &Entry<'a>, key: &str) -> Read<&'a [serde_json::Value]> {
    file.need(key)?.as_array().map(Vec::as_slice).ok_or_else(|| format!("“{key}” must be a list [ … ]"))
}

fn positive_or_zero(part: &Entry, key: &str) -> Read<f64> {
    let number = part.number_or(key, 0.0)?;
    if number >= 0.0 {
        Ok(number)
    } else {
        Err(format!("“{}” is {number}; it can’t be negative", part.path(key)))
    }
}

fn value(part: &Entry) -> Read<Value> {
    let name = part.text("reading")?;
    let quantity = Quantity::named(name).ok_or_else(|| {
        format!(
            "“{}” is “{}”; it must be the column of a reading, such as camber_deg",
            part.path("reading"),
            clip(name)
        )
    })?;
    let error = part.number("error")?;
    if error <= 0.0 {
        return Err(format!("“{}” is {error}; it must be more than 0", part.path("error")));
    }
    let less = part.find("less").map(|value| place(&Entry::new(&part.path("less"), value, &PLACE)?, quantity));
    Ok(Value { outcome: place(part, quantity)?, less: less.transpose()?, value: part.number("value")?, error })
}

fn place(part: &Entry, quantity: Quantity) -> Read<Outcome> {
    let sides = LeftOrRight::BOTH.map(|side| (side, side.name()));
    Ok(Outcome {
        quantity,
        side: part.word_or("side", &sides)?,
        travel: part.number_or("travel", 0.0)?,
        rack: part.number_or("rack", 0.0)?,
    })
}
