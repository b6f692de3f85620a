//! Everything that can be wrong with a layout before anybody tries to move it. All problems are listed, not the first.

use super::amount::Amount;
use super::field::{DAMPER, Field, LIMIT, STOPS, VEHICLE, WHEEL};
use super::yielding::{Yielding, yielding};
use super::{AntiRollBar, Guide, HalfShaft, Layout, PointId, Rocker, Rod, SpringOn, clip};
use crate::frame::Vec3;
use std::fmt;

/// Two joints closer than this, mm, do not make a member.
const SHORTEST: f64 = 1.0;

/// Parts of the format that are kept as they are and not read yet.
const KEPT: [&str; 1] = ["boxes"];

/// Longest name, characters.
const LONGEST_NAME: usize = 120;

/// Longest note, characters.
pub const LONGEST_NOTE: usize = 2_000;

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
    /// The spring keeps its length while the wheel rises.
    CarriesNothing,
    /// Something is wrong with what gives way.
    Yielding(Yielding),
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
            Problem::CarriesNothing => write!(
                f,
                "The spring does not shorten when the wheel rises, so it can’t carry the car. Either it acts at right angles to the wheel’s motion, or the track rod’s joint lies on the steering axis."
            ),
        }
    }
}

/// Lists every problem; an empty list means a [`Linkage`](crate::Linkage) can be made of it.
pub fn validate(layout: &Layout) -> Vec<Problem> {
    let mut problems = Vec::new();
    texts(layout, &mut problems);
    coordinates(layout, &mut problems);
    values(layout, &mut problems);
    spring(layout, &mut problems);
    problems.extend(yielding(layout).into_iter().map(Problem::Yielding));
    // Distances mean something only between points that are numbers.
    if !problems.iter().any(|problem| matches!(problem, Problem::Coordinate(..))) {
        lengths(layout, &mut problems);
    }
    problems
}

fn texts(layout: &Layout, problems: &mut Vec<Problem>) {
    if layout.version != 1 {
        problems.push(Problem::Version(layout.version));
    }
    let unknown: Vec<String> = layout.other.keys().filter(|key| !KEPT.contains(&key.as_str())).cloned().collect();
    if !unknown.is_empty() {
        problems.push(Problem::UnknownParts(unknown));
    }
    for (what, text, limit) in [("name", &layout.name, LONGEST_NAME), ("note", &layout.note, LONGEST_NOTE)] {
        let length = text.chars().count();
        if length > limit {
            problems.push(Problem::TooLong(what, length, limit));
        }
    }
}

fn coordinates(layout: &Layout, problems: &mut Vec<Problem>) {
    for (id, point) in layout.points() {
        for (axis, value) in ['x', 'y', 'z'].into_iter().zip(point.iter()) {
            if value.is_nan() || value.abs() > LIMIT {
                problems.push(Problem::Coordinate(id, axis, *value));
            }
        }
    }
    if layout.wheel.centre.y <= 0.0 {
        problems.push(Problem::NotLeft(layout.wheel.centre.y));
    }
}

/// The numbers of a part that are out of their range.
fn ranges<P>(part: &P, fields: &[Field<P>], problems: &mut Vec<Problem>) {
    for field in fields {
        let (value, [least, greatest]) = ((field.get)(part), field.range);
        if !(least..=greatest).contains(&value) {
            problems.push(Problem::Range(field.label, value, least, greatest, field.unit));
        }
    }
}

fn values(layout: &Layout, problems: &mut Vec<Problem>) {
    ranges(&layout.wheel, &WHEEL, problems);
    ranges(&layout.vehicle(), &VEHICLE, problems);
    ranges(&layout.damper(), &DAMPER, problems);
    if let Some(stops) = &layout.stops {
        ranges(stops, &STOPS, problems);
    }
    let mut check = |what, value: f64, least, greatest, unit| {
        if !(least..=greatest).contains(&value) {
            problems.push(Problem::Range(what, value, least, greatest, unit));
        }
    };
    check("spring rate", layout.spring.rate, 0.001, 1e6, "N/mm");
    for along in layout.spring.rocker.iter().flat_map(|rocker| rocker.axis.iter()) {
        check("direction of the rocker’s axis", *along, -LIMIT, LIMIT, "");
    }
    if let Some(bar) = &layout.anti_roll_bar {
        check("anti-roll bar’s diameter", bar.diameter, 1.0, 500.0, "mm");
        check("anti-roll bar’s stiffness", bar.stiffness.unwrap_or_default(), 0.0, 1e6, "N·m/°");
    }
    if let Some(y) = layout.half_shaft.and_then(|shaft| shaft.right_inner_y) {
        check("right half-shaft’s inner joint, y,", y, -LIMIT, LIMIT, "mm");
    }
    if let Some(rack) = &layout.rack {
        check("rack travel", rack.travel, 0.1, 1_000.0, "mm");
        check("rack stroke per turn", rack.per_turn, 0.1, 1_000.0, "mm");
    }
}

fn spring(layout: &Layout, problems: &mut Vec<Problem>) {
    let spring = &layout.spring;
    if !has_part(layout, spring.on) {
        problems.push(Problem::NothingUnder("spring", spring.on));
    }
    if let Some(bar) = layout.anti_roll_bar.filter(|bar| !has_part(layout, bar.on)) {
        problems.push(Problem::NothingUnder("anti-roll bar’s drop link", bar.on));
    }
    match (spring.top, spring.foot) {
        (Some(_), Some(_)) => {}
        (None, None) if spring.on == SpringOn::Strut && spring.rocker.is_none() => {}
        (Some(_), None) => problems.push(Problem::SpringEnd("foot")),
        (None, _) => problems.push(Problem::SpringEnd("top")),
    }
}

/// True if the axle has the part that something rides on.
fn has_part(layout: &Layout, on: SpringOn) -> bool {
    let arms = |guide: &Guide| matches!(guide, Guide::Arms { .. });
    let wishbone = |guide: &Guide| matches!(guide, Guide::Wishbone { .. });
    match on {
        SpringOn::Strut => matches!(layout.upper, Guide::Strut { .. }),
        SpringOn::Carrier => true,
        SpringOn::Lower => wishbone(&layout.lower),
        SpringOn::Upper => wishbone(&layout.upper),
        SpringOn::LowerFront | SpringOn::LowerRear => arms(&layout.lower),
        SpringOn::UpperFront | SpringOn::UpperRear => arms(&layout.upper),
    }
}

fn lengths(layout: &Layout, problems: &mut Vec<Problem>) {
    if matches!(layout.lower, Guide::Strut { .. }) {
        problems.push(Problem::StrutBelow);
    }
    guide(&layout.lower, ["lower front arm", "lower rear arm", "lower wishbone"], problems);
    guide(&layout.upper, ["upper front arm", "upper rear arm", "upper wishbone"], problems);
    rod("track rod", &layout.track_rod, problems);
    if let Some(HalfShaft { inner, outer, .. }) = layout.half_shaft {
        rod("half-shaft", &Rod { inner, outer }, problems);
    }
    if let Some(Rocker { pivot, axis, rod: joint, spring }) = layout.spring.rocker {
        let direction = axis.try_normalize(1e-9);
        let arm = |joint: Vec3| direction.map_or(0.0, |e| (joint - pivot).cross(&e).norm());
        for (what, length) in [("rocker’s arm to the rod", arm(joint)), ("rocker’s arm to the spring", arm(spring))]
        {
            if length < SHORTEST {
                problems.push(Problem::Short(what, length));
            }
        }
        if let (Some(top), Some(foot)) = (layout.spring.top, layout.spring.foot) {
            rod("rocker’s rod", &Rod { inner: joint, outer: foot }, problems);
            rod("spring", &Rod { inner: top, outer: spring }, problems);
        }
    } else if let (Some(inner), Some(outer)) = (layout.spring.top, layout.spring.foot) {
        rod("spring", &Rod { inner, outer }, problems);
    }
    if let Some(AntiRollBar { pivot, lever, link, .. }) = layout.anti_roll_bar {
        rod("anti-roll bar’s drop link", &Rod { inner: lever, outer: link }, problems);
        let arm = (lever - pivot).xz().norm();
        if arm < SHORTEST {
            problems.push(Problem::Short("anti-roll bar’s lever", arm));
        }
    }
}

fn rod(name: &'static str, rod: &Rod, problems: &mut Vec<Problem>) {
    let length = (rod.outer - rod.inner).norm();
    if length < SHORTEST {
        problems.push(Problem::Short(name, length));
    }
}

fn guide(guide: &Guide, [front_arm, rear_arm, wishbone]: [&'static str; 3], problems: &mut Vec<Problem>) {
    match guide {
        Guide::Arms { front, rear } => {
            rod(front_arm, front, problems);
            rod(rear_arm, rear, problems);
        }
        Guide::Strut { top, foot } => rod("strut", &Rod { inner: *top, outer: *foot }, problems),
        Guide::Wishbone { front, rear, outer } => {
            let base = (rear - front).norm();
            if base < SHORTEST {
                problems.push(Problem::Short(wishbone, base));
            } else {
                let arm: Vec3 = outer - front;
                let height = (rear - front).cross(&arm).norm() / base;
                if height < SHORTEST {
                    problems.push(Problem::OnItsAxis(wishbone, height));
                }
            }
        }
    }
}
