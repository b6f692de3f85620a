//! Boxes: what stands in the way of the wheel.

use super::short::{Kept, texts, values};
use crate::link::parameter::Parameter;
use serde_json::{Value, json};

/// Boxes joined by `~`: from x y z, to x y z, one of [`MIRRORED`], name: `-200_0_300_250_350_800_m_engine`.
const KEY: Parameter = Parameter::optional("box");

/// Whether there is its mirror image too: yes, no, not said.
const MIRRORED: [(Option<bool>, &str); 3] = [(Some(true), "m"), (Some(false), "o"), (None, "u")];

/// The boxes.
pub const KEPT: Kept = Kept {
    part: "boxes",
    parameters: &[KEY],
    write: |boxes| {
        let boxes: Option<Vec<String>> = boxes.as_array()?.iter().map(write).collect();
        Some(vec![Some(boxes?.join("~"))])
    },
    read: |texts| texts.first()?.as_ref()?.split('~').map(read).collect(),
    wanted: "boxes, each with six numbers, m, o or u, and its name",
};

fn write(one: &Value) -> Option<String> {
    let mirrored = MIRRORED.iter().find(|(mirrored, _)| *mirrored == one["mirrored"].as_bool())?.1;
    let name = one["name"].as_str()?.replace(' ', "_");
    Some(format!("{}_{}_{mirrored}_{name}", texts(&one["from"])?, texts(&one["to"])?))
}

fn read(item: &str) -> Option<Value> {
    let parts: Vec<&str> = item.splitn(8, '_').collect();
    let [from @ .., a, b, c, mirrored, name] = &parts[..] else { return None };
    let name = kernel::clean(&name.replace('_', " "));
    let mut one = json!({"name": name, "from": values(from)?, "to": values(&[a, b, c])?});
    if let Some(mirrored) = MIRRORED.iter().find(|(_, word)| word == mirrored)?.0 {
        one["mirrored"] = mirrored.into();
    }
    (from.len() == 3).then_some(one)
}
