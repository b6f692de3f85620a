//! Goals as a file says them.

use super::{Aim, Condition, Freedom, Goals, Kept, LengthKept, Wanted};
use crate::layout::{Change, Entry, Layout, LeftOrRight, Member, PointId, Read, clip};
use crate::space::Piece;
use crate::vary::{self, Parameter};
use serde_json::Value;

/// So many aims can be had.
const MOST_AIMS: usize = 100;

/// At so many places in all.
const MOST_PLACES: usize = 1000;

/// At so many places a condition can be kept.
const MOST_KEPT: usize = 50;

/// So many numbers can be free.
const MOST_FREE: usize = 60;

/// So many starts can be asked for.
const MOST_STARTS: usize = 200;

impl Goals {
    /// Reads a file of goals for this axle. The error is a sentence.
    pub fn from_json(text: &str, layout: &Layout) -> Result<Goals, String> {
        vary::file(text, "goals", |json| read(json, layout))
    }
}

fn read(json: &Value, layout: &Layout) -> Read<Goals> {
    let file = Entry::new("", json, &["free", "aims", "lengths", "swings", "gaps", "side", "starts", "seed"])?;
    let free = entries(&file, "free", MOST_FREE, &["parameter", "range"], |part| freedom(part, layout))?;
    let aims = entries(&file, "aims", MOST_AIMS, &["reading", "travel", "rack", "value", "range", "tolerance"], aim)?;
    if aims.iter().map(|aim| aim.places.len()).sum::<usize>() > MOST_PLACES {
        return Err(format!("“aims” have more than {MOST_PLACES} places"));
    }
    let lengths = match file.find("lengths") {
        Some(_) => entries(&file, "lengths", MOST_FREE, &["member", "range"], |part| length(part, layout))?,
        None => Vec::new(),
    };
    let some = |key: &str, known: &[&str], read: &dyn Fn(&Entry) -> Read<Condition>| match file.find(key) {
        Some(_) => entries(&file, key, MOST_FREE, known, read),
        None => Ok(Vec::new()),
    };
    let mut conditions = some("swings", &["joint", "travel", "rack", "range"], &|part| swing(part, layout))?;
    conditions.extend(some("gaps", &["between", "travel", "rack", "range"], &|part| gap(part, layout))?);
    let twice = |i: &usize| free[..*i].iter().any(|other| other.parameter == free[*i].parameter);
    if let Some(i) = (0..free.len()).find(twice) {
        return Err(format!("“free” has {} twice", free[i].parameter.name(layout)));
    }
    let starts = whole(&file, "starts", 16.0)? as usize;
    if !(1..=MOST_STARTS).contains(&starts) {
        return Err(format!("“starts” must be from 1 to {MOST_STARTS}"));
    }
    let side = file.word_or("side", &LeftOrRight::BOTH.map(|side| (side, side.name())))?;
    Ok(Goals { free, aims, lengths, conditions, side, starts, seed: whole(&file, "seed", 1.0)? as u64 })
}

/// A list of objects, not empty and not longer than `most`.
fn entries<T>(file: &Entry, key: &str, most: usize, known: &[&str], read: impl Fn(&Entry) -> Read<T>) -> Read<Vec<T>> {
    let items = file.need(key)?.as_array().ok_or_else(|| format!("“{key}” must be a list [ … ]"))?;
    if items.is_empty() || items.len() > most {
        return Err(format!("“{key}” must have from 1 to {most} entries; it has {}", items.len()));
    }
    items.iter().enumerate().map(|(i, item)| read(&Entry::new(&format!("{key}[{i}]"), item, known)?)).collect()
}

fn whole(file: &Entry, key: &str, default: f64) -> Read<f64> {
    let number = file.number_or(key, default)?;
    let is = number >= 0.0 && number.fract() == 0.0 && number < 2.0_f64.powi(53);
    is.then_some(number).ok_or_else(|| format!("“{key}” must be a whole number"))
}

fn freedom(part: &Entry, layout: &Layout) -> Read<Freedom> {
    let name = part.text("parameter")?;
    let no_such = || format!("“{}” is “{}”, which this axle does not have", part.path("parameter"), clip(name));
    Ok(Freedom { parameter: Parameter::named(name, layout).ok_or_else(no_such)?, range: range(part)? })
}

/// The range of an entry.
fn range(part: &Entry) -> Read<[f64; 2]> {
    let wrong = || format!("“{}” must be two numbers [least, greatest]", part.path("range"));
    match vary::numbers(part, "range").map_err(|_| wrong())?[..] {
        [least, most] if least <= most => Ok([least, most]),
        _ => Err(wrong()),
    }
}

fn length(part: &Entry, layout: &Layout) -> Read<LengthKept> {
    let name = part.text("member")?;
    let has = |member: &&Member| member.path() == name && Change::all(layout).contains(&Change::Length(**member));
    let no_such = || format!("“{}” is “{}”, which this axle does not have", part.path("member"), clip(name));
    Ok(LengthKept { member: *Member::RODS.iter().find(has).ok_or_else(no_such)?, range: range(part)? })
}

fn swing(part: &Entry, layout: &Layout) -> Read<Condition> {
    let name = part.text("joint")?;
    let has = |(id, _): &(PointId, _)| id.path(layout) == name && id.is_joint() && *id != PointId::StrutTop;
    let no_such = || format!("“{}” is “{}”, which is no joint of an arm of this axle", part.path("joint"), clip(name));
    let (joint, _) = layout.points().find(has).ok_or_else(no_such)?;
    kept_at(part, Kept::Swing(joint))
}

/// The gap between two pieces, or the least of all.
fn gap(part: &Entry, layout: &Layout) -> Read<Condition> {
    let Some(value) = part.find("between") else { return kept_at(part, Kept::Gap(None)) };
    let path = part.path("between");
    let names: Option<Vec<&str>> = value.as_array().and_then(|names| names.iter().map(Value::as_str).collect());
    let Some([a, b]) = names.as_deref() else { return Err(format!("“{path}” must be two names [ …, … ]")) };
    let piece = |name: &str| {
        let no_such = || format!("“{path}” has “{}”, which this axle does not have", clip(name));
        Piece::named(name, layout).ok_or_else(no_such)
    };
    kept_at(part, Kept::Gap(Some([piece(a)?, piece(b)?])))
}

/// A range that is kept at the places of an entry.
fn kept_at(part: &Entry, kept: Kept) -> Read<Condition> {
    let places = places(part)?;
    if places.is_empty() || places.len() > MOST_KEPT {
        return Err(format!("“{}” must be one number or a list of at most {MOST_KEPT}", part.path("travel")));
    }
    Ok(Condition { kept, places, range: range(part)? })
}

/// Travel and rack of each place of an entry, mm: of both as many, or one of the one with every one of the other; 0 where it has none.
fn places(part: &Entry) -> Read<Vec<[f64; 2]>> {
    let list = |key: &str| if part.find(key).is_some() { vary::numbers(part, key) } else { Ok(vec![0.0]) };
    let (travels, racks) = (list("travel")?, list("rack")?);
    match (&travels[..], &racks[..]) {
        (travels, [rack]) => Ok(travels.iter().map(|travel| [*travel, *rack]).collect()),
        ([travel], racks) => Ok(racks.iter().map(|rack| [*travel, *rack]).collect()),
        _ if travels.len() == racks.len() => {
            Ok(travels.iter().zip(&racks).map(|(travel, rack)| [*travel, *rack]).collect())
        }
        _ => Err(format!("“{}” must be one number, or as many as “travel” has", part.path("rack"))),
    }
}

fn aim(part: &Entry) -> Read<Aim> {
    let quantity = vary::quantity(part)?;
    let places = places(part)?;
    let wanted = match (part.find("value"), part.find("range")) {
        (Some(_), None) => vary::numbers(part, "value")?.into_iter().map(Wanted::Value).collect(),
        (None, Some(_)) => vec![Wanted::Range(range(part)?)],
        _ => return Err(format!("“{}” or “range” must be given, and not both", part.path("value"))),
    };
    let wanted: Vec<Wanted> = match wanted[..] {
        [one] => vec![one; places.len()],
        _ if wanted.len() == places.len() => wanted,
        _ => {
            return Err(format!("“{}” must be one number, or as many as “travel” has, or “rack”", part.path("value")));
        }
    };
    let usual = match wanted.first() {
        Some(Wanted::Range([least, most])) if most > least => (most - least) / 10.0,
        _ => 0.0,
    };
    let tolerance = part.number_or("tolerance", usual)?;
    if tolerance <= 0.0 {
        return Err(format!("“{}” must be more than 0", part.path("tolerance")));
    }
    Ok(Aim { quantity, places: places.into_iter().zip(wanted).collect(), tolerance })
}
