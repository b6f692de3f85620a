//! Layout files → layouts. Read by hand, so that every sentence names the part it is about.

use super::field::{DAMPER, Field, STOPS, VEHICLE};
use super::{
    AntiRollBar, Changes, Damper, Drive, Guide, HalfShaft, Layout, Mount, Rack, Rocker, Rod, RollFrom, Spring,
    SpringOn, Stops, Vehicle, Wheel, changed, clean, clip, json,
};
use crate::frame::Vec3;
use serde_json::{Map, Value};

/// Reads a layout from JSON text of a bearable size.
pub fn read(text: &str) -> Result<Layout, String> {
    if text.len() > Layout::MAX_FILE {
        return Err(Layout::too_big(text.len()));
    }
    let value = json::parse(text).map_err(|what| format!("This is not a layout file: {what}."))?;
    from_value(&value)
}

/// Reads a layout from JSON that has been parsed.
pub fn from_value(value: &Value) -> Result<Layout, String> {
    layout(value).map_err(|what| format!("This is not a layout file: {what}."))
}

/// What is wrong, to end a sentence with.
pub(crate) type Read<T> = Result<T, String>;

/// An object of the file and where it stands in it.
pub(crate) struct Part<'a> {
    path: String,
    fields: &'a Map<String, Value>,
}

impl<'a> Part<'a> {
    /// The object at a path, which has no other fields than these.
    pub(crate) fn new(path: &str, value: &'a Value, known: &[&str]) -> Read<Part<'a>> {
        let fields = value.as_object().ok_or_else(|| format!("“{path}” must be an object {{ … }}"))?;
        if let Some(other) = fields.keys().find(|key| !known.contains(&key.as_str())) {
            return Err(format!("“{path}” has an unknown entry “{}”", clip(other)));
        }
        Ok(Part { path: path.into(), fields })
    }

    pub(crate) fn path(&self, key: &str) -> String {
        if self.path.is_empty() { key.into() } else { format!("{}.{key}", self.path) }
    }

    pub(crate) fn find(&self, key: &str) -> Option<&'a Value> {
        self.fields.get(key).filter(|value| !value.is_null())
    }

    pub(crate) fn need(&self, key: &str) -> Read<&'a Value> {
        self.find(key).ok_or_else(|| format!("“{}” is missing", self.path(key)))
    }

    pub(crate) fn number(&self, key: &str) -> Read<f64> {
        self.need(key)?.as_f64().ok_or_else(|| format!("“{}” must be a number", self.path(key)))
    }

    pub(crate) fn number_or(&self, key: &str, default: f64) -> Read<f64> {
        if self.find(key).is_some() { self.number(key) } else { Ok(default) }
    }

    /// A part's numbers, each the default's where the file has none.
    fn fields<P>(&self, mut part: P, fields: &[Field<P>]) -> Read<P> {
        for field in fields {
            if self.find(field.key).is_some() {
                (field.set)(&mut part, self.number(field.key)?);
            }
        }
        Ok(part)
    }

    pub(crate) fn text(&self, key: &str) -> Read<&'a str> {
        self.need(key)?.as_str().ok_or_else(|| format!("“{}” must be text in quotes", self.path(key)))
    }

    /// One of a few words.
    pub(crate) fn word<T: Copy>(&self, key: &str, words: &[(T, &str)]) -> Read<T> {
        let text = self.text(key)?;
        words.iter().find(|(_, word)| *word == text).map(|(meaning, _)| *meaning).ok_or_else(|| {
            let words: Vec<&str> = words.iter().map(|(_, word)| *word).collect();
            format!("“{}” must be one of: {}", self.path(key), words.join(", "))
        })
    }

    /// One of a few words, or the default.
    pub(crate) fn word_or<T: Copy + Default>(&self, key: &str, words: &[(T, &str)]) -> Read<T> {
        if self.find(key).is_some() { self.word(key, words) } else { Ok(T::default()) }
    }

    fn point(&self, key: &str) -> Read<Vec3> {
        let numbers = self.need(key)?.as_array().filter(|items| items.len() == 3);
        let numbers: Option<Vec<f64>> = numbers.and_then(|items| items.iter().map(Value::as_f64).collect());
        numbers
            .map(Vec3::from_vec)
            .ok_or_else(|| format!("“{}” must be three numbers in brackets [x, y, z]", self.path(key)))
    }

    pub(super) fn point_if(&self, key: &str) -> Read<Option<Vec3>> {
        self.find(key).map(|_| self.point(key)).transpose()
    }

    fn rod(&self, key: &str) -> Read<Rod> {
        let part = Part::new(&self.path(key), self.need(key)?, &["inner", "outer"])?;
        Ok(Rod { inner: part.point("inner")?, outer: part.point("outer")? })
    }

    /// An optional object, read by `read`.
    fn part_if<T>(&self, key: &str, known: &[&str], read: fn(&Part) -> Read<T>) -> Read<Option<T>> {
        self.find(key).map(|value| read(&Part::new(&self.path(key), value, known)?)).transpose()
    }
}

/// What the numbers of a part are called, and what else it has.
fn keys<P>(fields: &[Field<P>], others: &[&'static str]) -> Vec<&'static str> {
    fields.iter().map(|field| field.key).chain(others.iter().copied()).collect()
}

/// Parts of the format that this reads; others are kept.
const READ: [&str; 14] = [
    "anti_roll_bar",
    "stops",
    "layout",
    "name",
    "note",
    "wheel",
    "lower",
    "upper",
    "track_rod",
    "rack",
    "spring",
    "damper",
    "half_shaft",
    "vehicle",
];

fn layout(value: &Value) -> Read<Layout> {
    let fields = value.as_object().ok_or("it must be an object { … }")?;
    let file = Part { path: String::new(), fields };
    let version = file.need("layout")?.as_u64().and_then(|version| u32::try_from(version).ok());
    let mut layout = Layout {
        version: version.ok_or("“layout”, its version, must be a whole number")?,
        name: clean(file.text("name")?),
        note: if file.find("note").is_some() { clean(file.text("note")?) } else { String::new() },
        wheel: wheel(&file)?,
        lower: guide(&file, "lower")?,
        upper: guide(&file, "upper")?,
        track_rod: file.rod("track_rod")?,
        rack: file.part_if("rack", &["travel", "per_turn", "mount"], rack)?,
        spring: spring(&file)?,
        damper: file.part_if("damper", &keys(&DAMPER, &[]), |part| part.fields(Damper::default(), &DAMPER))?,
        anti_roll_bar: file.part_if("anti_roll_bar", &BAR, anti_roll_bar)?,
        half_shaft: file.part_if("half_shaft", &["inner", "outer", "right_inner_y"], half_shaft)?,
        vehicle: file.part_if("vehicle", &keys(&VEHICLE, &["drive", "roll_stiffness_from"]), vehicle)?,
        stops: file.part_if("stops", &keys(&STOPS, &[]), |part| {
            // Half a pair of stops is a slip.
            part.number("bump").and(part.number("rebound"))?;
            part.fields(Stops::default(), &STOPS)
        })?,
        other: fields
            .iter()
            .filter(|(key, _)| !READ.contains(&key.as_str()) && !changed::PARTS.contains(&key.as_str()))
            .map(|(k, v)| (k.clone(), v.clone()))
            .collect(),
        changes: Changes::default(),
    };
    layout.changes = changed::read(&file, &layout)?;
    Ok(layout)
}

fn wheel(file: &Part) -> Read<Wheel> {
    let known = ["centre", "camber", "toe", "loaded_radius", "free_radius", "width"];
    let part = Part::new("wheel", file.need("wheel")?, &known)?;
    Ok(Wheel {
        centre: part.point("centre")?,
        camber: part.number("camber")?,
        toe: part.number("toe")?,
        loaded_radius: part.number("loaded_radius")?,
        free_radius: part.number("free_radius")?,
        width: part.number("width")?,
    })
}

#[derive(Clone, Copy)]
enum Kind {
    Wishbone,
    Arms,
    Strut,
}

fn guide(file: &Part, key: &str) -> Read<Guide> {
    let value = file.need(key)?;
    let any = Part::new(key, value, &["kind", "front", "rear", "outer", "top", "foot"])?;
    let words = [(Kind::Wishbone, "wishbone"), (Kind::Arms, "arms"), (Kind::Strut, "strut")];
    Ok(match any.word("kind", &words)? {
        Kind::Wishbone => {
            let part = Part::new(key, value, &["kind", "front", "rear", "outer"])?;
            Guide::Wishbone { front: part.point("front")?, rear: part.point("rear")?, outer: part.point("outer")? }
        }
        Kind::Arms => {
            let part = Part::new(key, value, &["kind", "front", "rear"])?;
            Guide::Arms { front: part.rod("front")?, rear: part.rod("rear")? }
        }
        Kind::Strut => {
            let part = Part::new(key, value, &["kind", "top", "foot"])?;
            Guide::Strut { top: part.point("top")?, foot: part.point("foot")? }
        }
    })
}

fn rack(part: &Part) -> Read<Rack> {
    let mounts = [(Mount::Subframe, "subframe"), (Mount::Body, "body")];
    Ok(Rack {
        travel: part.number("travel")?,
        per_turn: part.number_or("per_turn", Rack::PER_TURN)?,
        mount: if part.find("mount").is_some() { part.word("mount", &mounts)? } else { Mount::default() },
    })
}

fn spring(file: &Part) -> Read<Spring> {
    let part = Part::new("spring", file.need("spring")?, &["on", "top", "foot", "rate", "rocker"])?;
    Ok(Spring {
        on: part.word("on", &SpringOn::ALL)?,
        top: part.point_if("top")?,
        foot: part.point_if("foot")?,
        rate: part.number("rate")?,
        rocker: part.part_if("rocker", &["pivot", "axis", "rod", "spring"], |part| {
            let [pivot, axis] = [part.point("pivot")?, part.point("axis")?];
            Ok(Rocker { pivot, axis, rod: part.point("rod")?, spring: part.point("spring")? })
        })?,
    })
}

fn half_shaft(part: &Part) -> Read<HalfShaft> {
    let right_inner_y = part.find("right_inner_y").map(|_| part.number("right_inner_y")).transpose()?;
    Ok(HalfShaft { inner: part.point("inner")?, outer: part.point("outer")?, right_inner_y })
}

const BAR: [&str; 6] = ["pivot", "lever", "link", "on", "stiffness", "diameter"];

fn anti_roll_bar(part: &Part) -> Read<AntiRollBar> {
    Ok(AntiRollBar {
        pivot: part.point("pivot")?,
        lever: part.point("lever")?,
        link: part.point("link")?,
        on: part.word("on", &SpringOn::ALL)?,
        stiffness: part.find("stiffness").map(|_| part.number("stiffness")).transpose()?,
        diameter: part.number_or("diameter", AntiRollBar::DIAMETER)?,
    })
}

fn vehicle(part: &Part) -> Read<Vehicle> {
    Ok(Vehicle {
        drive: part.word_or("drive", &Drive::ALL)?,
        roll_stiffness_from: part.word_or("roll_stiffness_from", &RollFrom::ALL)?,
        ..part.fields(Vehicle::default(), &VEHICLE)?
    })
}
