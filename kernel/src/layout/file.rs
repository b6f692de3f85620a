//! Layout files → layouts. Read by hand, so that every sentence names the part it is about.

use super::changed;
use super::entry::{Entry, Read};
use super::field::{DAMPER, Field, SOLID, STOPS, VEHICLE};
use super::{
    Anchor, AntiRollBar, Bush, Changes, Damper, Drive, Few, Guide, HalfShaft, Layout, Member, Mount, Obstacle, Rack,
    Rocker, RollFrom, Solid, Spring, SpringOn, Stops, Subframe, SubframeMount, Vehicle, Wheel, clean, json,
};
use serde_json::Value;
use std::collections::BTreeMap;

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

/// What the numbers of a part are called, and what else it has.
fn keys<P>(fields: &[Field<P>], others: &[&'static str]) -> Vec<&'static str> {
    fields.iter().map(|field| field.key).chain(others.iter().copied()).collect()
}

/// Parts of the format that this reads; others are kept.
const READ: [&str; 18] = [
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
    "stiffness",
    "subframe",
    "boxes",
    "solid",
];

fn layout(value: &Value) -> Read<Layout> {
    let fields = value.as_object().ok_or("it must be an object { … }")?;
    let file = Entry::file(fields);
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
        stiffness: stiffness(&file)?,
        subframe: file.part_if("subframe", &SUBFRAME, subframe)?,
        boxes: boxes(&file)?,
        solid: read_solid(&file)?,
        other: BTreeMap::new(),
        changes: Changes::default(),
    };
    let read = |key: &String| READ.contains(&key.as_str()) || changed::PARTS.contains(&key.as_str());
    for (key, value) in fields.iter().filter(|(key, _)| !read(key)) {
        layout.other.insert(key.clone(), value.clone());
    }
    layout.changes = changed::read(&file, &layout)?;
    Ok(layout)
}

fn wheel(file: &Entry) -> Read<Wheel> {
    let known = ["centre", "camber", "toe", "loaded_radius", "free_radius", "width", "rim_radius"];
    let part = Entry::new("wheel", file.need("wheel")?, &known)?;
    Ok(Wheel {
        centre: part.point("centre")?,
        camber: part.number("camber")?,
        toe: part.number("toe")?,
        loaded_radius: part.number("loaded_radius")?,
        free_radius: part.number("free_radius")?,
        width: part.number("width")?,
        rim_radius: part.number_if("rim_radius")?,
    })
}

#[derive(Clone, Copy)]
enum Kind {
    Wishbone,
    Arms,
    Strut,
}

fn guide(file: &Entry, key: &str) -> Read<Guide> {
    let value = file.need(key)?;
    let any = Entry::new(key, value, &["kind", "front", "rear", "outer", "top", "foot"])?;
    let words = [(Kind::Wishbone, "wishbone"), (Kind::Arms, "arms"), (Kind::Strut, "strut")];
    Ok(match any.word("kind", &words)? {
        Kind::Wishbone => {
            let part = Entry::new(key, value, &["kind", "front", "rear", "outer"])?;
            Guide::Wishbone { front: part.point("front")?, rear: part.point("rear")?, outer: part.point("outer")? }
        }
        Kind::Arms => {
            let part = Entry::new(key, value, &["kind", "front", "rear"])?;
            Guide::Arms { front: part.rod("front")?, rear: part.rod("rear")? }
        }
        Kind::Strut => {
            let part = Entry::new(key, value, &["kind", "top", "foot"])?;
            Guide::Strut { top: part.point("top")?, foot: part.point("foot")? }
        }
    })
}

fn rack(part: &Entry) -> Read<Rack> {
    Ok(Rack {
        travel: part.number("travel")?,
        per_turn: part.number_or("per_turn", Rack::PER_TURN)?,
        mount: part.word_or("mount", &Mount::ALL)?,
    })
}

fn spring(file: &Entry) -> Read<Spring> {
    let part = Entry::new("spring", file.need("spring")?, &["on", "top", "foot", "rate", "rocker"])?;
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

fn half_shaft(part: &Entry) -> Read<HalfShaft> {
    let right_inner_y = part.number_if("right_inner_y")?;
    Ok(HalfShaft { inner: part.point("inner")?, outer: part.point("outer")?, right_inner_y })
}

const BAR: [&str; 6] = ["pivot", "lever", "link", "on", "stiffness", "diameter"];

fn anti_roll_bar(part: &Entry) -> Read<AntiRollBar> {
    Ok(AntiRollBar {
        pivot: part.point("pivot")?,
        lever: part.point("lever")?,
        link: part.point("link")?,
        on: part.word("on", &SpringOn::ALL)?,
        stiffness: part.number_if("stiffness")?,
        diameter: part.number_or("diameter", AntiRollBar::DIAMETER)?,
    })
}

fn vehicle(part: &Entry) -> Read<Vehicle> {
    Ok(Vehicle {
        drive: part.word_or("drive", &Drive::ALL)?,
        roll_stiffness_from: part.word_or("roll_stiffness_from", &RollFrom::ALL)?,
        ..part.fields(Vehicle::default(), &VEHICLE)?
    })
}

fn stiffness(file: &Entry) -> Read<Few<Anchor, Bush>> {
    let Some(value) = file.find("stiffness") else { return Ok(Few::default()) };
    let part = Entry::new("stiffness", value, &Anchor::ALL.map(|(_, name)| name))?;
    let mut read = Few::default();
    for (anchor, name) in Anchor::ALL {
        if let Some(bush) = part.part_if(name, &["radial", "axial", "axis", "torsion", "along"], bush)? {
            read.insert(anchor, bush);
        }
    }
    Ok(read)
}

/// Puts a part into a layout that a file may have beside the others.
pub fn put(layout: &mut Layout, name: &str, value: Value) -> Result<(), String> {
    let mut fields = serde_json::Map::new();
    fields.insert(name.into(), value);
    let file = Entry::file(&fields);
    match name {
        "stiffness" => layout.stiffness = stiffness(&file)?,
        "subframe" => layout.subframe = file.part_if("subframe", &SUBFRAME, subframe)?,
        // Links have carried these two in any shape: one that is not the format's is carried on.
        "boxes" => match boxes(&file) {
            Ok(boxes) if !boxes.is_empty() => layout.boxes = boxes,
            _ => layout.other.extend(fields),
        },
        "solid" => match read_solid(&file) {
            Ok(Some(solid)) => layout.solid = Some(solid),
            _ => layout.other.extend(fields),
        },
        _ => layout.other.extend(fields),
    }
    Ok(())
}

fn boxes(file: &Entry) -> Read<Vec<Obstacle>> {
    if file.find("boxes").is_none() {
        return Ok(Vec::new());
    }
    let read = |(value, which): (&Value, usize)| {
        let part = Entry::new(&format!("boxes, {which}"), value, &["name", "from", "to", "mirrored"])?;
        let [from, to] = [part.point("from")?, part.point("to")?];
        Ok(Obstacle { name: clean(part.text("name")?), from, to, mirrored: part.flag_if("mirrored")? })
    };
    file.list("boxes")?.iter().zip(1..).map(read).collect()
}

fn read_solid(file: &Entry) -> Read<Option<Solid>> {
    file.part_if("solid", &keys(&SOLID, &["via"]), solid)
}

fn solid(part: &Entry) -> Read<Solid> {
    let mut solid = part.fields(Solid::default(), &SOLID)?;
    if let Some(value) = part.find("via") {
        let via = Entry::new("solid.via", value, &Solid::BENT.map(Member::path))?;
        for member in Solid::BENT {
            if via.find(member.path()).is_some() {
                solid.via.insert(member, via.points(member.path())?);
            }
        }
    }
    Ok(solid)
}

/// What a subframe has.
const SUBFRAME: [&str; 2] = ["mounts", "carries"];

fn bush(part: &Entry) -> Read<Bush> {
    Ok(Bush {
        radial: part.number_if("radial")?,
        axial: part.number_if("axial")?,
        axis: part.point_if("axis")?,
        torsion: part.number_if("torsion")?,
        along: part.number_if("along")?,
    })
}

fn subframe(part: &Entry) -> Read<Subframe> {
    let mounts = part.list("mounts")?.iter().zip(1..).map(|(value, which)| {
        let mount = Entry::new(&format!("{}, {which}", part.path("mounts")), value, &["at", "stiffness"])?;
        Ok(SubframeMount { at: mount.point("at")?, stiffness: mount.point("stiffness")? })
    });
    let named = |value: &Value| {
        let anchor = Anchor::ALL.into_iter().find(|(_, name)| value.as_str() == Some(name));
        let names = Anchor::ALL.map(|(_, name)| name).join(", ");
        anchor.map(|(anchor, _)| anchor).ok_or_else(|| format!("“{}” may list: {names}", part.path("carries")))
    };
    let carries = part.find("carries").map(|_| part.list("carries")?.iter().map(named).collect()).transpose()?;
    Ok(Subframe { mounts: mounts.collect::<Read<_>>()?, carries })
}
