//! What a car has different from its design, and what it can be adjusted with.

use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::writer::{Writer, numbers};
use crate::text::number::plain;
use kernel::{Adjusted, Adjuster, Change, Changes, LIMIT, Layout, Member, PointId, Sides, Vec3, clip};

/// Of both sides, of the left one, of the right one: code`_`amount (mm, °), joined by `~`: `rh_30~ltr_-2.1`; a right one as if it were a left one.
const SETS: [(Sides, Parameter); 3] = [
    (Sides::ALL[0], Parameter::optional("c")),
    (Sides::ALL[1], Parameter::optional("cl")),
    (Sides::ALL[2], Parameter::optional("cr")),
];

/// What a workshop can set, joined by `~`: a change's code, or a joint's with `_d_` and a direction x`_`y`_`z; least`_`greatest, mm; then, where
/// it is a thread, `_p_` and mm a turn; where only whole shims go in, `_s_` and mm a shim: `ltr_-10_10_p_1.5~st_d_0_1_0_-6_6`.
const ADJUST: Parameter = Parameter::optional("adj");

/// Travel at which a member's bush was tightened, mm, joined by `~`: `lf_-60`.
const TIGHT: Parameter = Parameter::optional("tight");

/// All of a layout. Version 2 has its ride height alone, as one of the document's.
pub const TOPIC: Topic<Layout> = Topic::last(
    |layout, link| {
        if link.version >= 3 {
            write(&layout.changes, link);
        }
    },
    |link, layout| layout.changes = read(link, layout),
);

/// Writes changes.
pub fn write(changes: &Changes, link: &mut Writer) {
    for (sides, parameter) in SETS {
        let of = changes.iter().filter(|(of, ..)| *of == sides);
        put(link, parameter, of.map(|(_, change, by)| format!("{}_{}", change.code(), plain(by))).collect());
    }
    put(link, ADJUST, changes.adjusters.iter().map(write_adjuster).collect());
    let tight = changes.tightened.iter().map(|(member, travel)| format!("{}_{}", bush_code(*member), plain(*travel)));
    put(link, TIGHT, tight.collect());
}

/// Items, if there are any.
fn put(link: &mut Writer, parameter: Parameter, items: Vec<String>) {
    link.put_if(parameter, Some(items.join("~")).filter(|text| !text.is_empty()));
}

/// Reads the changes of an axle.
pub fn read(link: &mut Reader, layout: &Layout) -> Changes {
    let mut changes = Changes::default();
    for (sides, parameter) in SETS {
        each(link, parameter, "a change of this axle and how much, once", |item| {
            let (change, by) = read_change(item, sides, layout)?;
            let new = changes.get(sides, change) == 0.0;
            new.then(|| changes.set(sides, change, by))
        });
    }
    each(link, ADJUST, "what this axle can be adjusted with, and how far", |item| {
        changes.adjusters.push(read_adjuster(item, layout)?);
        Some(())
    });
    each(link, TIGHT, "a bush of this axle and a travel, once", |item| {
        let (code, travel) = item.split_once('_')?;
        let travel = number(travel, Change::Ride.range())?;
        let bush = bush(code, layout)?;
        let new = !changes.tightened.contains_key(&bush);
        changes.tightened.insert(bush, travel);
        new.then_some(())
    });
    changes
}

/// Takes a parameter's items; those that `read` does not know are told and left out.
fn each(link: &mut Reader, parameter: Parameter, wanted: &str, mut read: impl FnMut(&str) -> Option<()>) {
    let text = link.take(parameter).unwrap_or_default();
    for item in text.split('~').filter(|item| !item.is_empty()) {
        if read(item).is_none() {
            let (key, item) = (link.key(parameter), clip(item));
            link.faults.push(format!("The link’s “{key}” has “{item}”, which is not {wanted}; it is left out."));
        }
    }
}

fn number(text: &str, [least, most]: [f64; 2]) -> Option<f64> {
    text.parse().ok().filter(|number| (least..=most).contains(number))
}

/// A change that sides can have, and its amount to the digits of a link.
fn read_change(item: &str, sides: Sides, layout: &Layout) -> Option<(Change, f64)> {
    let (code, by) = item.split_once('_')?;
    let change = Change::coded(code, layout).filter(|change| sides == Sides::Both || !change.of_both())?;
    let by = number(by, change.range())?;
    Some((change, if plain(by) == "0" { 0.0 } else { by }))
}

fn write_adjuster(adjuster: &Adjuster) -> String {
    let set = match &adjuster.set {
        Adjusted::Change(change) => change.code(),
        // To the last digit: a direction read again is of length 1 as before.
        Adjusted::Along(joint, along) => format!("{}_d_{}_{}_{}", joint.code(), along.x, along.y, along.z),
    };
    let more = [("p", adjuster.pitch), ("s", adjuster.step)];
    let more = more.into_iter().filter_map(|(key, mm)| Some(format!("_{key}_{}", plain(mm?))));
    format!("{set}_{}{}", numbers(&adjuster.range), more.collect::<String>())
}

fn read_adjuster(item: &str, layout: &Layout) -> Option<Adjuster> {
    let parts: Vec<&str> = item.split('_').collect();
    let (set, rest) = match &parts[..] {
        [code, "d", x, y, z, rest @ ..] => (Adjusted::Along(joint(code, layout)?, direction([x, y, z])?), rest),
        [code, rest @ ..] => (Adjusted::Change(Change::coded(code, layout)?), rest),
        [] => return None,
    };
    let mm = |text: &str| number(text, [-LIMIT, LIMIT]);
    let [least, most, rest @ ..] = rest else { return None };
    let range = [mm(least)?, mm(most)?];
    let (pitch, step) = match rest {
        [] => (None, None),
        ["p", pitch] => (Some(mm(pitch)?), None),
        ["s", step] => (None, Some(mm(step)?)),
        ["p", pitch, "s", step] => (Some(mm(pitch)?), Some(mm(step)?)),
        _ => return None,
    };
    (range[0] <= range[1]).then_some(Adjuster { set, range, pitch, step })
}

/// A joint that can sit elsewhere on its part.
fn joint(code: &str, layout: &Layout) -> Option<PointId> {
    PointId::coded(code).filter(|id| id.is_joint() && layout.points().any(|(of, _)| of == *id))
}

/// The squared length of a direction that is of length 1 but for rounding is no further off it.
const ROUNDING: f64 = 1e-12;

/// A direction, made of length 1 unless it is already.
fn direction(texts: [&str; 3]) -> Option<Vec3> {
    let [x, y, z] = texts.map(|text| number(text, [-LIMIT, LIMIT]));
    let along = Vec3::new(x?, y?, z?);
    if (along.norm_squared() - 1.0).abs() < ROUNDING { Some(along) } else { along.try_normalize(0.0) }
}

/// The code of a bush: that of its member's length without its first letter.
fn bush_code(member: Member) -> String {
    Change::Length(member).code().split_off(1)
}

/// The member of this axle whose inner joint is the bush of a code.
fn bush(code: &str, layout: &Layout) -> Option<Member> {
    let members = Change::all(layout).into_iter().filter_map(|change| match change {
        Change::Length(member) => Some(member).filter(|member| *member != Member::TrackRod),
        _ => None,
    });
    members.into_iter().find(|member| bush_code(*member) == code)
}
