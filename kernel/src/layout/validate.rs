//! Everything that can be wrong with a layout before anybody tries to move it. All problems are listed, not the first.

use super::changed_check::changes;
use super::field::{BAR, DAMPER, Field, LIMIT, RACK, ROCKER, SHAFT, SPRING, STOPS, VEHICLE, WHEEL};
use super::lengths::lengths;
use super::yielding::yielding;
use super::{Guide, Layout, Problem, SpringOn};

/// Parts of the format that are kept as they are: some are not read yet, `papers` (what was typed beside the axle) are none of the kernel's business.
const KEPT: [&str; 3] = ["boxes", "papers", "solid"];

/// Longest name, characters.
pub const LONGEST_NAME: usize = 120;

/// Longest note, characters.
pub const LONGEST_NOTE: usize = 2_000;

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
    if problems.is_empty() && !layout.changes.is_empty() {
        changes(layout, &mut problems);
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
    ranges(&layout.spring, &SPRING, problems);
    if let Some(rocker) = &layout.spring.rocker {
        ranges(rocker, &ROCKER, problems);
    }
    if let Some(bar) = &layout.anti_roll_bar {
        ranges(bar, &BAR, problems);
    }
    // Without a joint of its own the right shaft mirrors the left one, whose joints are checked.
    if let Some(shaft) = layout.half_shaft.filter(|shaft| shaft.right_inner_y.is_some()) {
        ranges(&shaft, &SHAFT, problems);
    }
    if let Some(rack) = &layout.rack {
        ranges(rack, &RACK, problems);
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
