//! Everything that can be wrong with boxes and with the bends of arms.

use super::amount::Amount;
use super::field::LIMIT;
use super::{Guide, Layout, Member, Obstacle, Solid, clip};
use crate::frame::Vec3;
use std::fmt;

/// More bends than this of one arm are a slip.
const MOST_BENDS: usize = 8;

/// What stands in a list of clearances besides boxes.
const TAKEN: [&str; 9] =
    ["wheel", "lower.front", "lower.rear", "upper.front", "upper.rear", "track_rod", "strut", "spring", "half_shaft"];

/// One thing wrong with boxes or bends; its `Display` is a sentence for the user.
#[derive(Clone, Debug, PartialEq)]
pub enum Bulk {
    /// So many boxes are too many.
    Boxes(usize),
    /// A box's name is missing or too long: which box, from 1.
    Name(usize),
    /// A box has the name of another, or of a part of the axle.
    Taken(String),
    /// A corner's coordinate is out of its range: the box's name, `from` or `to`, axis, value, mm.
    Corner(String, &'static str, char, f64),
    /// A bend of an arm that the axle does not have.
    NoArm(Member),
    /// An arm has so many bends.
    Bends(Member, usize),
    /// A bend's coordinate is out of its range: member, which, from 1; axis, value, mm.
    Bend(Member, usize, char, f64),
}

impl fmt::Display for Bulk {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Bulk::Boxes(count) => {
                write!(f, "The layout has {count} boxes; it may have {} at most.", Obstacle::MOST)
            }
            Bulk::Name(which) => write!(f, "Box {which} needs a name of 1 to {} characters.", Obstacle::LONGEST_NAME),
            Bulk::Taken(name) => {
                write!(f, "A box is called “{name}” like another box or a part of the axle; give it a name of its own.")
            }
            Bulk::Corner(name, corner, axis, value) => {
                let (name, value) = (clip(name), Amount(*value));
                write!(
                    f,
                    "The {axis} coordinate of “{corner}” of the box “{name}” is {value}; it must be a number between −{LIMIT} and {LIMIT} mm."
                )
            }
            Bulk::NoArm(member) => {
                write!(f, "“via” gives bends of “{}”, which this axle does not have.", member.path())
            }
            Bulk::Bends(member, count) => {
                write!(f, "“via” gives {count} points for “{}”; an arm has between 1 and {MOST_BENDS}.", member.path())
            }
            Bulk::Bend(member, which, axis, value) => {
                let (name, value) = (member.path(), Amount(*value));
                write!(
                    f,
                    "The {axis} coordinate of bend {which} of “{name}” is {value}; it must be a number between −{LIMIT} and {LIMIT} mm."
                )
            }
        }
    }
}

/// Lists every problem of boxes and bends.
pub(super) fn bulk(layout: &Layout) -> Vec<Bulk> {
    let mut problems = Vec::new();
    boxes(&layout.boxes, &mut problems);
    if let Some(solid) = &layout.solid {
        bends(layout, solid, &mut problems);
    }
    problems
}

fn boxes(boxes: &[Obstacle], problems: &mut Vec<Bulk>) {
    if boxes.len() > Obstacle::MOST {
        problems.push(Bulk::Boxes(boxes.len()));
    }
    for (i, one) in boxes.iter().enumerate() {
        if one.name.trim().is_empty() || one.name.chars().count() > Obstacle::LONGEST_NAME {
            problems.push(Bulk::Name(i + 1));
        } else if TAKEN.contains(&one.name.as_str()) || boxes[..i].iter().any(|other| other.name == one.name) {
            problems.push(Bulk::Taken(one.name.clone()));
        }
        for (corner, at) in [("from", one.from), ("to", one.to)] {
            problems.extend(wrong(at).map(|(axis, value)| Bulk::Corner(one.name.clone(), corner, axis, value)));
        }
    }
}

fn bends(layout: &Layout, solid: &Solid, problems: &mut Vec<Bulk>) {
    for &(member, ref points) in solid.via.iter() {
        if !is_arm(layout, member) {
            problems.push(Bulk::NoArm(member));
        }
        if points.is_empty() || points.len() > MOST_BENDS {
            problems.push(Bulk::Bends(member, points.len()));
        }
        for (at, which) in points.iter().zip(1..) {
            problems.extend(wrong(*at).map(|(axis, value)| Bulk::Bend(member, which, axis, value)));
        }
    }
}

/// True for an arm or a wishbone's leg that the axle has.
fn is_arm(layout: &Layout, member: Member) -> bool {
    let guide = match member {
        Member::LowerFront | Member::LowerRear => &layout.lower,
        Member::UpperFront | Member::UpperRear => &layout.upper,
        Member::Strut | Member::TrackRod => return false,
    };
    !matches!(guide, Guide::Strut { .. })
}

/// The coordinates of a point that are out of their range.
fn wrong(at: Vec3) -> impl Iterator<Item = (char, f64)> {
    let axes = ['x', 'y', 'z'].into_iter().zip([at.x, at.y, at.z]);
    axes.filter(|(_, value)| !(-LIMIT..=LIMIT).contains(value))
}
