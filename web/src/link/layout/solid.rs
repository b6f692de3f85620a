//! How thick parts are, and where bent arms run.

use super::bushes::{PLACES, code, name};
use super::short::{Kept, text, texts, value, values};
use crate::link::parameter::Parameter;
use serde_json::{Map, Value};

/// Code`_`mm of what is given; then `~` and, for each bent arm, its code and points x y z at rest: `ar_30_sp_110~lr_-120_600_205`.
const KEY: Parameter = Parameter::optional("solid");

/// What is given in mm, with its code.
const SIZES: [(&str, &str); 6] = [
    ("arm", "ar"),
    ("track_rod", "tr"),
    ("strut", "st"),
    ("spring", "sp"),
    ("spring_seat", "ss"),
    ("half_shaft", "hs"),
];

/// The points of bent arms.
const VIA: &str = "via";

/// All of it.
pub const KEPT: Kept = Kept {
    part: "solid",
    parameters: &[KEY],
    write: |solid| {
        let sizes = solid.as_object()?.iter().filter(|(key, _)| *key != VIA);
        let size = |(key, value): (&String, &Value)| Some(format!("{}_{}", code(&SIZES, key)?, text(value)?));
        let mut items = vec![sizes.map(size).collect::<Option<Vec<_>>>()?.join("_")];
        for (arm, points) in solid[VIA].as_object().into_iter().flatten() {
            let points: Option<Vec<String>> = points.as_array()?.iter().map(texts).collect();
            items.push(format!("{}_{}", code(&PLACES, arm)?, points?.join("_")));
        }
        Some(vec![Some(items.join("~"))])
    },
    read: |texts| {
        let mut items = texts.first()?.as_ref()?.split('~');
        let mut solid = Map::new();
        let sizes: Vec<&str> = items.next()?.split('_').filter(|part| !part.is_empty()).collect();
        for size in sizes.chunks(2) {
            let [code, mm] = size else { return None };
            solid.insert(name(&SIZES, code)?.into(), value(mm)?);
        }
        let via: Map<String, Value> = items.map(read_arm).collect::<Option<_>>()?;
        if !via.is_empty() {
            solid.insert(VIA.into(), via.into());
        }
        Some(solid.into())
    },
    wanted: "sizes of parts and points of bent arms",
};

fn read_arm(item: &str) -> Option<(String, Value)> {
    let parts: Vec<&str> = item.split('_').collect();
    let (arm, numbers) = parts.split_first()?;
    let points: Option<Value> = numbers.chunks(3).map(|point| values(point).filter(|_| point.len() == 3)).collect();
    Some((name(&PLACES, arm)?.into(), points?))
}
