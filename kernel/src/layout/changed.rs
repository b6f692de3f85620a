//! Changes, adjusters and tightened bushes of a layout file: read and written.

use super::changes::SETS;
use super::entry::{Entry, Read};
use super::{Adjusted, Adjuster, Change, Changes, Guide, Layout, Member, PointId, Sides, clip};
use serde_json::{Map, Value, json};

/// The parts of a file that this reads.
pub(super) const PARTS: [&str; 3] = ["changes", "adjusters", "tightened"];

/// The changes that the file of an axle says.
pub(super) fn read(file: &Entry, layout: &Layout) -> Read<Changes> {
    let mut changes = Changes::default();
    if let Some(value) = file.find("changes") {
        let part = Entry::new("changes", value, &SETS)?;
        for (set, of) in SETS.into_iter().zip(Sides::ALL) {
            if let Some(value) = part.find(set) {
                read_set(&mut changes, of, &part.path(set), value, layout)?;
            }
        }
    }
    if let Some(value) = file.find("adjusters") {
        let items = value.as_array().ok_or("“adjusters” must be a list [ … ]")?;
        let read = |(i, value): (usize, &Value)| adjuster(&format!("adjusters[{i}]"), value, layout);
        changes.adjusters = items.iter().enumerate().map(read).collect::<Read<_>>()?;
    }
    if let Some(value) = file.find("tightened") {
        for (name, travel) in numbers("tightened", value)? {
            let bush = bushes(layout).into_iter().find(|member| member.path() == name);
            let bush = bush.ok_or_else(|| no_such("tightened", &name))?;
            changes.tightened.insert(bush, travel);
        }
    }
    Ok(changes)
}

/// The members whose inner joint is a bush.
fn bushes(layout: &Layout) -> Vec<Member> {
    let strut = matches!(layout.upper, Guide::Strut { .. });
    let upper = [Member::UpperFront, Member::UpperRear].into_iter().filter(|_| !strut);
    [Member::LowerFront, Member::LowerRear].into_iter().chain(upper).collect()
}

fn no_such(path: &str, name: &str) -> String {
    format!("“{path}” has an entry “{}”, which this axle does not have", clip(name))
}

/// An object of numbers.
fn numbers(path: &str, value: &Value) -> Read<Vec<(String, f64)>> {
    let fields = value.as_object().ok_or_else(|| format!("“{path}” must be an object {{ … }}"))?;
    let number = |(name, value): (&String, &Value)| {
        let number = value.as_f64().ok_or_else(|| format!("“{path}.{}” must be a number", clip(name)))?;
        Ok((name.clone(), number))
    };
    fields.iter().map(number).collect()
}

fn read_set(changes: &mut Changes, of: Sides, path: &str, value: &Value, layout: &Layout) -> Read<()> {
    for (name, by) in numbers(path, value)? {
        let change = Change::named(&name, layout).ok_or_else(|| no_such(path, &name))?;
        if change.of_both() && of != Sides::Both {
            return Err(format!("“{path}.{name}” is of the whole car; it can stand only in “changes.both”"));
        }
        changes.set(of, change, by);
    }
    Ok(())
}

fn adjuster(path: &str, value: &Value, layout: &Layout) -> Read<Adjuster> {
    let part = Entry::new(path, value, &["set", "along", "range", "pitch", "step"])?;
    let name = part.text("set")?;
    let set = match part.point_if("along")? {
        None => Adjusted::Change(Change::named(name, layout).ok_or_else(|| no_such(path, name))?),
        Some(along) => {
            let joint = joints(layout).find(|id| name == format!("build.{}", id.path(layout)));
            let along = along.try_normalize(0.0).ok_or_else(|| format!("“{path}.along” has no direction"))?;
            Adjusted::Along(joint.ok_or_else(|| no_such(path, name))?, along)
        }
    };
    let range = part.need("range")?.as_array().and_then(|items| match &items[..] {
        [least, most] => Some([least.as_f64()?, most.as_f64()?]),
        _ => None,
    });
    let range = range.filter(|[least, most]| least <= most);
    Ok(Adjuster {
        set,
        range: range.ok_or_else(|| format!("“{path}.range” must be two numbers [least, greatest]"))?,
        pitch: part.number_if("pitch")?,
        step: part.number_if("step")?,
    })
}

/// The joints that can sit elsewhere on their parts.
fn joints(layout: &Layout) -> impl Iterator<Item = PointId> + '_ {
    layout.points().map(|(id, _)| id).filter(|id| id.is_joint())
}

/// The parts of a file that say the changes; none without any.
pub(super) fn written(layout: &Layout) -> Map<String, Value> {
    let changes = &layout.changes;
    let mut sets = Map::new();
    for (of, change, by) in changes.iter() {
        let set = sets.entry(of.key()).or_insert_with(|| json!({}));
        set[change.name(layout)] = json!(by);
    }
    let adjusters: Vec<Value> = changes.adjusters.iter().map(|adjuster| write_adjuster(adjuster, layout)).collect();
    let mut tightened = Map::new();
    for (member, travel) in changes.tightened.iter() {
        tightened.insert(member.path().into(), json!(travel));
    }
    let mut parts = Map::new();
    let written = [
        (!sets.is_empty(), json!(sets)),
        (!adjusters.is_empty(), json!(adjusters)),
        (!tightened.is_empty(), json!(tightened)),
    ];
    for (name, (is_there, value)) in PARTS.into_iter().zip(written) {
        if is_there {
            parts.insert(name.into(), value);
        }
    }
    parts
}

fn write_adjuster(adjuster: &Adjuster, layout: &Layout) -> Value {
    let mut value = match &adjuster.set {
        Adjusted::Change(change) => json!({"set": change.name(layout)}),
        Adjusted::Along(id, along) => json!({"set": format!("build.{}", id.path(layout)), "along": along.as_slice()}),
    };
    value["range"] = json!(adjuster.range);
    for (key, number) in [("pitch", adjuster.pitch), ("step", adjuster.step)] {
        if let Some(number) = number {
            value[key] = json!(number);
        }
    }
    value
}
