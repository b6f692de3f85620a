//! What can be wrong with a layout, and the sentence that says so.

use super::bulk::Bulk;
use super::yielding::Yielding;
use super::{Amount, LIMIT, LeftOrRight, PointId, SpringOn, clip};
use std::fmt;

/// Two joints closer than this, mm, do not make a member.
pub(super) const SHORTEST: f64 = 1.0;

/// One thing wrong with a layout; its `Display` is a sentence for the user.
#[derive(Clone, Debug, PartialEq)]
pub enum Problem {
    /// The file is of a format version this program does not know.
    Version(u32),
    /// The file has parts that the format does not know: their names.
    UnknownParts(Vec<String>),
    /// A text is longer than it may be: which, its length, the limit, characters.
    TooLong(&'static str, usize, usize),
    /// A point has a coordinate that is not a number within ±[`LIMIT`]: point, axis, value.
    Coordinate(PointId, char, f64),
    /// A value is outside its range: name, value, least, greatest, unit.
    Range(&'static str, f64, f64, f64, &'static str),
    /// The wheel centre lies on or beyond the centre plane: y.
    NotLeft(f64),
    /// Two ends of one member are (nearly) the same point: member, distance in mm.
    Short(&'static str, f64),
    /// A wishbone's ball joint lies on the line through its body joints: member, distance in mm.
    OnItsAxis(&'static str, f64),
    /// The lower guide is a strut.
    StrutBelow,
    /// The spring, or the anti-roll bar's drop link, rides on a part the axle does not have.
    NothingUnder(&'static str, SpringOn),
    /// The spring lacks an end: "top" or "foot".
    SpringEnd(&'static str),
    /// Something is wrong with what gives way.
    Yielding(Yielding),
    /// Something is wrong with boxes or bends.
    Bulk(Bulk),
    /// A change is outside its range: its name, value, least, greatest, unit.
    Change(String, f64, [f64; 2], &'static str),
    /// A part of one side would be too small with its changes: what, the side, its size, the least, mm.
    Changed(String, LeftOrRight, f64, f64),
    /// The spring keeps its length while the wheel rises.
    CarriesNothing,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Problem::Version(v) => write!(f, "The file says layout format {v}; this page reads format 1."),
            Problem::UnknownParts(names) => {
                let first: Vec<String> = names.iter().take(3).map(|name| format!("“{}”", clip(name))).collect();
                let more = names.len() - first.len();
                let more = if more > 0 { format!(" and {more} more") } else { String::new() };
                write!(f, "The file has {}{more}, which is not part of the layout format.", first.join(", "))
            }
            Problem::TooLong(what, is, limit) => write!(f, "The {what} has {is} characters; the limit is {limit}."),
            Problem::Coordinate(point, axis, value) => write!(
                f,
                "The {} coordinate of “{}” is {}; it must be a number between −{LIMIT} and {LIMIT} mm.",
                axis,
                point.name(),
                Amount(*value)
            ),
            Problem::Range(what, value, least, greatest, unit) => {
                let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
                write!(f, "The {what} is {}{unit}; it must be between {least} and {greatest}{unit}.", Amount(*value))
            }
            Problem::NotLeft(y) => {
                let y = Amount(*y);
                write!(f, "The wheel centre is at y = {y} mm; a layout describes the left wheel, whose y is positive.")
            }
            Problem::Short(member, by) => {
                write!(
                    f,
                    "The two ends of the {member} are {by:.3} mm apart; they must be at least {SHORTEST} mm apart."
                )
            }
            Problem::OnItsAxis(member, by) => write!(
                f,
                "The ball joint of the {member} lies {by:.3} mm from the axis through its body joints; it must be at least {SHORTEST} mm away."
            ),
            Problem::StrutBelow => write!(f, "The lower guide is a strut; a strut can only be the upper guide."),
            Problem::NothingUnder(what, on) => {
                write!(f, "The {what} is mounted on “{}”, which this axle does not have.", on.name())
            }
            Problem::SpringEnd(end) => {
                write!(
                    f,
                    "The spring has no {end}; a spring that is not on the strut’s own line needs both “top” and “foot”."
                )
            }
            Problem::Yielding(what) => what.fmt(f),
            Problem::Bulk(what) => what.fmt(f),
            Problem::Change(what, value, [least, most], unit) => {
                write!(f, "The {what} is {} {unit}; it must be between {least} and {most} {unit}.", Amount(*value))
            }
            Problem::Changed(what, side, size, least) => write!(
                f,
                "With its changes the {what} on the {} is {size:.1} mm; it must be at least {least} mm.",
                side.name()
            ),
            Problem::CarriesNothing => write!(
                f,
                "The spring does not shorten when the wheel rises, so it can’t carry the car. Either it acts at right angles to the wheel’s motion, or the track rod’s joint lies on the steering axis."
            ),
        }
    }
}
