//! Everything that can be wrong with what gives way: stiffnesses and subframe.

use super::amount::Amount;
use super::field::LIMIT;
use super::{Anchor, Bush, Guide, Layout, Subframe};
use crate::frame::{Vec3, mirror};
use std::fmt;

/// A stiffness is at least `SOFTEST` and at most `STIFFEST`, N/mm: beyond these a joint gives way by metres or is as good as rigid, and a slipped
/// sign, unit or digit shows.
const SOFTEST: f64 = 1e-3;
const STIFFEST: f64 = 1e12;

/// The greatest torsional stiffness, N·m/°.
const MOST_TORSION: f64 = 1e6;

/// Mounts within this of one line, mm, leave the subframe free to turn about it.
const IN_LINE: f64 = 1.0;

/// One thing wrong with stiffnesses or subframe; its `Display` is a sentence for the user.
#[derive(Clone, Debug, PartialEq)]
pub enum Yielding {
    /// A stiffness is out of its range, or not a number: anchor, its entry, value, N/mm.
    Stiffness(Anchor, &'static str, f64),
    /// A torsional stiffness is out of its range: anchor, value, N·m/°.
    Torsion(Anchor, f64),
    /// A bush's axis has no direction, or is not made of numbers: anchor, its length.
    Axis(Anchor, f64),
    /// A stiffness at an anchor that the axle does not have.
    NotThere(Anchor),
    /// A bush lacks one of its two stiffnesses: anchor, the missing entry.
    Half(Anchor, &'static str),
    /// An entry without a stiffness.
    Empty(Anchor),
    /// A bush where there is none: at the rack, or where a steered track rod has its ball joint.
    NoBush(Anchor),
    /// `along` where there is no member of that kind.
    NoMember(Anchor),
    /// The subframe has so many mounts on the left.
    FewMounts(usize),
    /// A mount's coordinate is out of its range: which mount, from 1; axis; value, mm.
    MountAt(usize, char, f64),
    /// A mount is right of the centre plane: which, from 1; y, mm.
    NotLeft(usize, f64),
    /// A mount's stiffness is out of its range: which, from 1; axis; value, N/mm.
    MountStiffness(usize, char, f64),
    /// All mounts lie on one line but for so many mm.
    InLine(f64),
    /// The subframe carries what the axle does not have.
    Carries(Anchor),
    /// The subframe carries the inner joint of a steered track rod, which is on the rack.
    CarriesTrackRod,
    /// A wishbone has one rigid joint on the subframe and another on the body: those two.
    Braced(Anchor, Anchor),
}

impl fmt::Display for Yielding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let range = |unit| format!("it must be between {} and {} {unit}", Amount(SOFTEST), Amount(STIFFEST));
        match self {
            Yielding::Stiffness(at, what, value) => {
                let (name, range) = (at.name(), range("N/mm"));
                write!(f, "The stiffness “{what}” of “{name}” is {} N/mm; {range}. ", Amount(*value))?;
                f.write_str("Leave the entry out for a rigid one.")
            }
            Yielding::Torsion(at, value) => {
                let (name, value) = (at.name(), Amount(*value));
                write!(f, "The torsional stiffness of the bush “{name}” is {value} N·m/°; it must be between 0 and {MOST_TORSION} N·m/°.")
            }
            Yielding::Axis(at, length) => {
                let (name, length) = (at.name(), Amount(*length));
                write!(f, "The axis of the bush “{name}” has the length {length}; it must be three numbers that give a direction.")
            }
            Yielding::NotThere(at) => {
                write!(f, "There is a stiffness for “{}”, which this axle does not have.", at.name())
            }
            Yielding::Half(at, missing) => {
                write!(f, "The bush “{}” has no stiffness “{missing}”; a bush needs both “radial” and “axial”.", at.name())
            }
            Yielding::Empty(at) => write!(f, "The entry “{}” of the stiffnesses gives no stiffness.", at.name()),
            Yielding::NoBush(Anchor::Rack) => f.write_str("The rack has a bush; its only stiffness is “along”."),
            Yielding::NoBush(at) => {
                let name = at.name();
                write!(f, "“{name}” has a bush, but its inner joint is on the rack; on a steered axle its only stiffness is “along”.")
            }
            Yielding::NoMember(at) => {
                write!(f, "“{}” has a stiffness “along”; only an arm, the track rod and the rack have one.", at.name())
            }
            Yielding::FewMounts(count) => {
                let mounts = if *count == 1 { "mount" } else { "mounts" };
                write!(f, "The subframe has {count} {mounts} on the left; it needs two at least, or it could turn about them.")
            }
            Yielding::MountAt(which, axis, value) => {
                let value = Amount(*value);
                write!(f, "The {axis} coordinate of the subframe’s mount {which} is {value}; it must be a number between −{LIMIT} and {LIMIT} mm.")
            }
            Yielding::NotLeft(which, y) => {
                let y = Amount(*y);
                write!(f, "The subframe’s mount {which} is at y = {y} mm; only the left mounts are given, whose y is not negative.")
            }
            Yielding::MountStiffness(which, axis, value) => {
                let value = Amount(*value);
                write!(f, "The stiffness along {axis} of the subframe’s mount {which} is {value} N/mm; {}.", range("N/mm"))
            }
            Yielding::InLine(by) => {
                write!(f, "All mounts of the subframe, left and right, lie within {by:.3} mm of one line; it could turn about that line.")
            }
            Yielding::Carries(at) => write!(f, "The subframe carries “{}”, which this axle does not have.", at.name()),
            Yielding::CarriesTrackRod => f.write_str(
                "The subframe carries “track_rod”, but on a steered axle that joint is on the rack; name “rack” instead.",
            ),
            Yielding::Braced(held, other) => write!(
                f,
                "The wishbone’s joint “{}” is on the subframe and its joint “{}” on the body, and neither has a bush: it would brace the subframe rigidly. Give one a bush.",
                held.name(),
                other.name()
            ),
        }
    }
}

/// Lists every problem of what gives way.
pub(super) fn yielding(layout: &Layout) -> Vec<Yielding> {
    let mut problems = Vec::new();
    for &(anchor, ref bush) in layout.stiffness.iter() {
        if anchor.is_in(layout) {
            kind(layout, anchor, bush, &mut problems);
            values(anchor, bush, &mut problems);
        } else {
            problems.push(Yielding::NotThere(anchor));
        }
    }
    if let Some(subframe) = &layout.subframe {
        mounts(subframe, &mut problems);
        carried(layout, subframe, &mut problems);
    }
    problems
}

/// Entries that don't belong to this kind of anchor, and those that are missing.
fn kind(layout: &Layout, at: Anchor, bush: &Bush, problems: &mut Vec<Yielding>) {
    let is_bush = bush.radial.is_some() || bush.axial.is_some() || bush.axis.is_some() || bush.torsion.is_some();
    let (has_bush, has_member) = (at.has_bush(layout), at.has_member(layout));
    if is_bush && !has_bush {
        problems.push(Yielding::NoBush(at));
    } else if is_bush {
        let missing = [("radial", bush.radial), ("axial", bush.axial)].into_iter().filter(|(_, value)| value.is_none());
        problems.extend(missing.map(|(what, _)| Yielding::Half(at, what)));
    }
    if bush.along.is_some() && !has_member {
        problems.push(Yielding::NoMember(at));
    }
    if !is_bush && bush.along.is_none() {
        problems.push(Yielding::Empty(at));
    }
}

fn values(at: Anchor, bush: &Bush, problems: &mut Vec<Yielding>) {
    for (what, value) in [("radial", bush.radial), ("axial", bush.axial), ("along", bush.along)] {
        if let Some(value) = value.filter(|value| !stiff(*value)) {
            problems.push(Yielding::Stiffness(at, what, value));
        }
    }
    if let Some(torsion) = bush.torsion.filter(|torsion| !(0.0..=MOST_TORSION).contains(torsion)) {
        problems.push(Yielding::Torsion(at, torsion));
    }
    if let Some(length) = bush.axis.map(|axis| axis.norm()).filter(|length| !(SHORTEST_AXIS..=LIMIT).contains(length)) {
        problems.push(Yielding::Axis(at, length));
    }
}

/// A shorter axis than this is a slip, not a direction.
const SHORTEST_AXIS: f64 = 1e-6;

fn stiff(value: f64) -> bool {
    (SOFTEST..=STIFFEST).contains(&value)
}

fn mounts(subframe: &Subframe, problems: &mut Vec<Yielding>) {
    let before = problems.len();
    for (mount, which) in subframe.mounts.iter().zip(1..) {
        for (axis, (at, stiffness)) in ['x', 'y', 'z'].into_iter().zip(mount.at.iter().zip(mount.stiffness.iter())) {
            if !(-LIMIT..=LIMIT).contains(at) {
                problems.push(Yielding::MountAt(which, axis, *at));
            }
            if !stiff(*stiffness) {
                problems.push(Yielding::MountStiffness(which, axis, *stiffness));
            }
        }
        if mount.at.y < 0.0 {
            problems.push(Yielding::NotLeft(which, mount.at.y));
        }
    }
    if subframe.mounts.len() < 2 {
        problems.push(Yielding::FewMounts(subframe.mounts.len()));
    } else if problems.len() == before {
        let off = off_one_line(subframe);
        if off < IN_LINE {
            problems.push(Yielding::InLine(off));
        }
    }
}

/// How far the mounts and their mirror images are off the line through the two of them that lie furthest apart, mm.
fn off_one_line(subframe: &Subframe) -> f64 {
    let all: Vec<Vec3> = subframe.mounts.iter().flat_map(|mount| [mount.at, mirror(mount.at)]).collect();
    let furthest = |from: Vec3| {
        let far = all.iter().copied().max_by(|a, b| (a - from).norm().total_cmp(&(b - from).norm()));
        far.unwrap_or(from)
    };
    // From any point the furthest one is an end; the furthest from there is far enough away to give the line.
    let end = furthest(all[0]);
    let line = (furthest(end) - end).try_normalize(f64::MIN_POSITIVE).unwrap_or_else(Vec3::zeros);
    all.iter().map(|at| (at - end).cross(&line).norm()).fold(0.0, f64::max)
}

fn carried(layout: &Layout, subframe: &Subframe, problems: &mut Vec<Yielding>) {
    for &anchor in subframe.carries.iter().flatten() {
        if !anchor.is_in(layout) {
            problems.push(Yielding::Carries(anchor));
        } else if anchor == Anchor::TrackRod && layout.rack.is_some() {
            problems.push(Yielding::CarriesTrackRod);
        }
    }
    for [a, b] in [[Anchor::LowerFront, Anchor::LowerRear], [Anchor::UpperFront, Anchor::UpperRear]] {
        let wishbone = matches!(a.guide(layout), Some(Guide::Wishbone { .. }));
        let rigid = [a, b].iter().all(|anchor| !layout.stiffness.contains_key(anchor));
        match [a, b].map(|anchor| layout.subframe_carries(anchor)) {
            [true, false] if wishbone && rigid => problems.push(Yielding::Braced(a, b)),
            [false, true] if wishbone && rigid => problems.push(Yielding::Braced(b, a)),
            _ => {}
        }
    }
}
