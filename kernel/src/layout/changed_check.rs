//! What can be wrong with the changes of a layout.

use super::lengths::lengths;
use super::problem::SHORTEST;
use super::{Built, Change, LIMIT, Layout, LeftOrRight, Problem};

/// What is wrong with the changes of a layout that is sound without them.
pub(super) fn changes(layout: &Layout, problems: &mut Vec<Problem>) {
    let beyond = |value: f64, [least, most]: [f64; 2]| !(least..=most).contains(&value);
    for (_, change, by) in layout.changes.iter().filter(|(_, change, by)| beyond(*by, change.range())) {
        problems.push(Problem::Change(change.label(layout), by, change.range(), change.unit()));
    }
    let ends = layout.changes.adjusters.iter().flat_map(|adjuster| adjuster.range);
    for end in ends.filter(|end| beyond(*end, [-LIMIT, LIMIT])) {
        problems.push(Problem::Change("end of an adjuster’s range".into(), end, [-LIMIT, LIMIT], "mm"));
    }
    let steps = layout.changes.adjusters.iter().flat_map(|adjuster| [adjuster.pitch, adjuster.step]).flatten();
    for step in steps.filter(|step| beyond(*step, [LEAST_STEP, LIMIT])) {
        problems.push(Problem::Change("pitch or step of an adjuster".into(), step, [LEAST_STEP, LIMIT], "mm"));
    }
    let tightened = layout.changes.tightened.iter().map(|(_, travel)| *travel);
    for travel in tightened.filter(|travel| beyond(*travel, Change::Ride.range())) {
        problems.push(Problem::Change(
            "travel at which a bush was tightened".into(),
            travel,
            Change::Ride.range(),
            "mm",
        ));
    }
    if problems.is_empty() {
        LeftOrRight::BOTH.into_iter().for_each(|side| changed_sizes(layout, side, problems));
    }
}

/// What a side's changes leave too small to be a part.
fn changed_sizes(layout: &Layout, side: LeftOrRight, problems: &mut Vec<Problem>) {
    let built = Built::of(layout, side);
    let drawn = built.layout(layout);
    let mut least = |what: String, size: f64, least| {
        if size < least {
            problems.push(Problem::Changed(what, side, size, least));
        }
    };
    for (member, length) in built.lengths(layout) {
        least(member.name(layout).into(), length, SHORTEST);
    }
    for (what, size) in [
        ("loaded radius", drawn.wheel.loaded_radius),
        ("free radius", drawn.wheel.free_radius),
        ("tyre width", drawn.wheel.width),
        ("distance of the wheel from the centre plane", drawn.wheel.centre.y),
    ] {
        least(what.into(), size, 1.0);
    }
    // Members have other lengths than drawn here; a wishbone's body axis and a strut's line are as they are.
    let mut found = Vec::new();
    lengths(&drawn, &mut found);
    problems.extend(found.into_iter().filter(|problem| matches!(problem, Problem::Short(..) | Problem::OnItsAxis(..))));
}

/// An adjuster's smallest pitch or step, mm.
const LEAST_STEP: f64 = 0.01;
