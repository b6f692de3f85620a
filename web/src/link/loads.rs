//! What loads the axle, and what its arms are taken to be.

use super::parameter::Parameter;
use super::reader::Reader;
use super::topic::Topic;
use super::words::{choice, word};
use super::writer::{Writer, numbers};
use crate::document::{Case, Document, Loads};
use kernel::{Material, Section};

/// Case (`none`, `standing`, …, `own`), `steel` or `aluminium`, with `-given` for a given section in place of a tube, own load at the road x y z and
/// at the wheel centre x y z (N), outer diameter and wall (mm) or area and second moment (mm², mm⁴), allowed stress of the rod (N/mm²), greatest
/// swing (°), and, unless it is 0, own driving torque (N·m).
const KEY: Parameter = Parameter::since(2, "load");

/// What stands behind the material if the section is given.
const GIVEN: &str = "-given";

/// Numbers are all within this: more than a section's second moment can be.
const MOST: f64 = 1e9;

/// The loads.
pub const TOPIC: Topic<Document> = Topic::new(write, |link, document| document.loads = read(link).unwrap_or_default());

fn write(document: &Document, link: &mut Writer) {
    let loads = &document.loads;
    let case = Case::all().find(|(case, _)| *case == loads.case).map_or("", |(_, name)| name);
    let material = word(Material::ALL, loads.material);
    let (kind, a, b) = match loads.section {
        Section::Tube { outer, wall } => ("", outer, wall),
        Section::Given { area, inertia } => (GIVEN, area, inertia),
    };
    let torque = Some(loads.own_torque).filter(|torque| *torque != 0.0);
    let values = [&loads.own[..], &[a, b, loads.stress, loads.swing], torque.as_slice()].concat();
    link.put(KEY, format!("{case}_{material}{kind}_{}", numbers(&values)));
}

fn read(link: &mut Reader) -> Option<Loads> {
    let text = link.take(KEY)?;
    let parts: Vec<&str> = text.splitn(3, '_').collect();
    let (case, material, rest) =
        if let [case, material, rest] = parts[..] { (case, material, rest) } else { ("", "", "") };
    let (material, given) = material.strip_suffix(GIVEN).map_or((material, false), |material| (material, true));
    let case = Case::all().find(|(_, name)| *name == case).map(|(case, _)| case);
    let (Some(case), Some(material)) = (case, choice(Material::ALL, material)) else {
        link.wrong(KEY, &text, "a case, a material and ten numbers");
        return None;
    };
    // Ten numbers, or eleven.
    let count = if rest.split('_').count() == 11 { 11 } else { 10 };
    let values = link.list(KEY, rest, count, MOST)?;
    let [x, y, z, cx, cy, cz, a, b, stress, swing, ..] = values[..] else { return None };
    let section = if given { Section::Given { area: a, inertia: b } } else { Section::Tube { outer: a, wall: b } };
    let own_torque = values.get(10).copied().unwrap_or_default();
    let loads = Loads { case, material, section, own: [x, y, z, cx, cy, cz], own_torque, stress, swing };
    let problem = loads.problem();
    let sound = problem.is_none();
    link.faults.extend(problem.map(|problem| problem.to_string()));
    sound.then_some(loads)
}
