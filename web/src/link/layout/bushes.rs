//! What gives way where the guides are held, and along members.

use super::short::{Kept, text, texts, value, values};
use crate::link::parameter::Parameter;
use serde_json::{Map, Value};

/// Bushes joined by `~`: where, then letter`_`number for what it has: `lf_r_9000_a_900_x_1_0_0`.
const KEY: Parameter = Parameter::optional("bush");

/// Where the guides are held: names in files and codes in links.
pub const PLACES: [(&str, &str); 7] = [
    ("lower.front", "lf"),
    ("lower.rear", "lr"),
    ("upper.front", "uf"),
    ("upper.rear", "ur"),
    ("strut.top", "st"),
    ("track_rod", "tr"),
    ("rack", "rk"),
];

/// What a bush has, each with its letter: N/mm across and along its axis, the axis x y z, N·m/° about it, N/mm along the member.
const HAS: [(&str, &str); 5] = [("radial", "r"), ("axial", "a"), (AXIS, "x"), ("torsion", "t"), ("along", "l")];

/// The one that is three numbers.
const AXIS: &str = "axis";

/// The bushes.
pub const KEPT: Kept = Kept {
    part: "stiffness",
    parameters: &[KEY],
    write: |value| {
        let bushes: Option<Vec<String>> = value.as_object()?.iter().map(|(place, bush)| write(place, bush)).collect();
        Some(vec![Some(bushes?.join("~"))])
    },
    read: |texts| {
        let mut bushes = Map::new();
        for item in texts.first()?.as_ref()?.split('~') {
            let (place, bush) = read(item)?;
            bushes.insert(place.into(), bush);
        }
        Some(Value::Object(bushes))
    },
    wanted: "bushes of an axle joined by ~",
};

/// The code of a name.
pub fn code<'a>(table: &[(&str, &'a str)], name: &str) -> Option<&'a str> {
    table.iter().find(|(known, _)| *known == name).map(|(_, code)| *code)
}

/// The name of a code.
pub fn name<'a>(table: &[(&'a str, &str)], code: &str) -> Option<&'a str> {
    table.iter().find(|(_, known)| *known == code).map(|(name, _)| *name)
}

fn write(place: &str, bush: &Value) -> Option<String> {
    let has = |(key, value): (&String, &Value)| {
        let numbers = if key == AXIS { texts(value) } else { text(value) };
        Some(format!("_{}_{}", code(&HAS, key)?, numbers?))
    };
    let all: Option<String> = bush.as_object()?.iter().map(has).collect();
    Some(format!("{}{}", code(&PLACES, place)?, all?))
}

fn read(item: &str) -> Option<(&'static str, Value)> {
    let parts: Vec<&str> = item.split('_').collect();
    let (place, mut rest) = parts.split_first()?;
    let mut bush = Map::new();
    while let Some((letter, behind)) = rest.split_first() {
        let key = name(&HAS, letter)?;
        let (numbers, others) = behind.split_at_checked(if key == AXIS { 3 } else { 1 })?;
        bush.insert(key.into(), if key == AXIS { values(numbers)? } else { value(numbers[0])? });
        rest = others;
    }
    Some((name(&PLACES, place)?, Value::Object(bush)))
}
