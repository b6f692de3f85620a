//! The subframe on its mounts, and what it carries.

use super::bushes::{PLACES, code, name};
use super::short::{Kept, texts, values};
use crate::link::parameter::Parameter;
use serde_json::{Value, json};

/// Left mounts joined by `~`: x y z, N/mm along x y z.
const FRAME: Parameter = Parameter::optional("frame");

/// The codes of what it carries, joined by `.`, or 0 for nothing; without it, the usual.
const CARRY: Parameter = Parameter::optional("carry");

/// Nothing is carried.
const NOTHING: &str = "0";

/// The subframe.
pub const KEPT: Kept = Kept {
    part: "subframe",
    parameters: &[FRAME, CARRY],
    write: |frame| {
        let mount = |mount: &Value| Some(format!("{}_{}", texts(&mount["at"])?, texts(&mount["stiffness"])?));
        let mounts: Option<Vec<String>> = frame["mounts"].as_array()?.iter().map(mount).collect();
        let place = |place: &Value| code(&PLACES, place.as_str()?);
        let carries = frame["carries"].as_array().map(|places| places.iter().map(place).collect::<Option<Vec<_>>>());
        let carries = carries.map(|codes| codes.map(|codes| codes.join("."))).map_or(Some(None), |text| text.map(Some));
        let carries = carries?.map(|text| if text.is_empty() { NOTHING.into() } else { text });
        Some(vec![Some(mounts?.join("~")), carries])
    },
    read: |texts| {
        let [mounts, carries] = texts else { return None };
        let mounts: Option<Vec<Value>> = mounts.as_ref()?.split('~').map(read_mount).collect();
        let mut frame = json!({"mounts": mounts?});
        if let Some(text) = carries {
            let codes = text.split('.').filter(|code| *code != NOTHING);
            frame["carries"] = codes.map(|code| name(&PLACES, code)).collect::<Option<Vec<_>>>()?.into();
        }
        Some(frame)
    },
    wanted: "a subframe’s mounts, six numbers each, and what it carries",
};

fn read_mount(item: &str) -> Option<Value> {
    let parts: Vec<&str> = item.split('_').collect();
    let (at, stiffness) = parts.split_at_checked(3).filter(|(_, stiffness)| stiffness.len() == 3)?;
    Some(json!({"at": values(at)?, "stiffness": values(stiffness)?}))
}
