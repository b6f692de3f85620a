//! Answers in words.

use super::kept;
use crate::document::goal::{Aim, Condition, Kept, Wanted};
use crate::study::condition;
use crate::text::number::Units;
use crate::text::sentence::capital;
use crate::work::goals::{Found, Question};
use kernel::vary::Quantity;
use kernel::{Layout, Member};

/// An answer in words: its heading, and lines with what each is for the style.
#[derive(PartialEq)]
pub(super) struct Card {
    pub heading: String,
    pub lines: Vec<(&'static str, String)>,
}

/// A coordinate that moves less than this, mm, rounds to nothing.
const NOTHING: f64 = 0.05;

/// Values of a reading: one, or from the least to the greatest.
pub(super) fn told(units: Units, quantity: Quantity, values: &[f64]) -> String {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let [low, high] = [least, most].map(|value| units.reading(Some(value), quantity.reading()));
    let values = if low == high { low } else { format!("{low} to {high}") };
    let unit = units.with_unit(Some(most), quantity.reading());
    format!("{values}{}", unit.strip_prefix(&high).unwrap_or_default())
}

/// An aim with what it is to be.
fn aimed(units: Units, aim: &Aim) -> String {
    let Some(quantity) = aim.quantity() else { return aim.reading.clone() };
    let [a, b] = aim.wanted.numbers();
    let (name, text) = (quantity.reading().full_name(), |value| told(units, quantity, &[value]));
    match &aim.wanted {
        Wanted::Value(_) => format!("{name}, {} ± {}", text(a), text(b)),
        Wanted::Range(range) => format!("{name}, {}", told(units, quantity, range)),
        Wanted::Line(line) => {
            format!("{name}, on its line over {} ± {}", if line.rack { "the rack" } else { "travel" }, text(b))
        }
    }
}

/// What came of an aim: its values; of a line how far it is missed at most.
fn came(units: Units, quantity: Quantity, aim: &Aim, values: &[f64]) -> String {
    if !matches!(aim.wanted, Wanted::Line(_)) {
        return told(units, quantity, values);
    }
    let off = values.iter().zip(aim.ranges()).map(|(value, [least, most])| (value - f64::midpoint(least, most)).abs());
    format!("at most {} off", told(units, quantity, &[off.fold(0.0, f64::max)]))
}

/// What has to be kept at places, with its limit; what came of it, at its worst place; and the limit alone.
fn kept_at(units: Units, layout: &Layout, one: &Condition, values: &[f64]) -> [String; 3] {
    let swing = matches!(one.kept, Kept::Swing(_));
    let worst = values.iter().copied().reduce(if swing { f64::max } else { f64::min });
    let limit = kept::told(units, &one.kept, one.limit);
    let wanted = format!(
        "{}, {} {limit}",
        capital(&condition::name(&one.kept, layout)),
        if swing { "at most" } else { "at least" }
    );
    [wanted, worst.map_or("–".into(), |worst| kept::told(units, &one.kept, worst)), limit]
}

/// How far along from the middle of what is wanted to its end an aim is, at its worst place; beyond 1 it is missed.
fn used(aim: &Aim, values: &[f64]) -> f64 {
    let part = |(value, [least, most]): (&f64, [f64; 2])| (value - (least + most) / 2.0).abs() / ((most - least) / 2.0);
    values.iter().zip(aim.ranges()).map(part).fold(0.0, f64::max)
}

/// How it ends, in a sentence.
pub(super) fn outcome(found: &[Found]) -> String {
    match (found.len(), found.iter().all(Found::all_met)) {
        (0, _) => "No way was found: the axle can’t be assembled from any of the starts.".into(),
        (_, false) => "Not everything can be met in these boxes; this is the nearest.".into(),
        (1, true) => "One way meets everything.".into(),
        (ways, true) => format!("{ways} ways meet everything."),
    }
}

/// An answer, the one of this number.
pub(super) fn card(units: Units, asked: &Question, all: &[Found], at: usize) -> Card {
    let found = &all[at];
    let (layout, goal) = (&asked.layout, &asked.goal);
    let mut lines: Vec<(&'static str, String)> =
        moves(units, asked, found).into_iter().map(|line| ("turn", line)).collect();
    if lines.is_empty() {
        lines.push(("turn", "Nothing has to move.".into()));
    }
    for ((aim, values), met) in goal.aims.iter().zip(&found.values).zip(&found.met) {
        let Some(quantity) = aim.quantity() else { continue };
        lines.push(line(*met, &came(units, quantity, aim, values), &aimed(units, aim), &[]));
    }
    for ((kept, length), met) in goal.lengths.iter().zip(asked.lengths(found)).zip(&found.kept) {
        let [least, most] = kept.range.map(|mm| units.length(mm));
        let wanted = format!("{} long, {least} to {most} {}", member(layout, &kept.member), units.length_name());
        lines.push(line(*met, &length.map_or("–".into(), |mm| units.length(mm)), &wanted, &[least, most]));
    }
    let met = found.kept.iter().skip(goal.lengths.len());
    for ((one, values), met) in goal.kept().zip(&found.conditions).zip(met) {
        let [wanted, is, limit] = kept_at(units, layout, one, values);
        lines.push(line(*met, &is, &wanted, &[limit]));
    }
    lines.extend(limits(units, asked, found).into_iter().map(|line| ("fine", line)));
    let heading = match (found.all_met(), all.len()) {
        (false, _) => "The nearest".into(),
        (true, 1) => "The way".into(),
        (true, ways) => format!("Way {} of {ways}", at + 1),
    };
    Card { heading, lines }
}

/// A line of a card; what misses a limit by less than the digits show would look like what meets it.
fn line(met: bool, is: &str, wanted: &str, limits: &[String]) -> (&'static str, String) {
    let missed = if limits.iter().any(|limit| limit == is) { "missed by less than its last digit" } else { "not met" };
    if met { ("met", format!("{wanted}: {is}, met")) } else { ("over", format!("{wanted}: {is}, {missed}")) }
}

fn member<'a>(layout: &Layout, path: &'a str) -> &'a str {
    Member::RODS.iter().find(|member| member.path() == path).map_or(path, |member| member.name(layout))
}

/// Which joints move how far, a line each.
fn moves(units: Units, asked: &Question, found: &Found) -> Vec<String> {
    let places = asked.places(found);
    let line = |row: &crate::document::Measured| {
        let (from, axes) = (asked.layout.point(row.point)?, ["x", "y", "z"]);
        let by = axes.iter().enumerate().filter_map(|(axis, name)| {
            let by = row.at[axis]? - from[axis];
            (by.abs() >= NOTHING).then(|| format!("{name} {}", units.signed_length(by)))
        });
        let by: Vec<String> = by.collect();
        (!by.is_empty()).then(|| format!("{}: {} {}", capital(row.point.name()), by.join(", "), units.length_name()))
    };
    places.iter().filter_map(line).collect()
}

/// What limits an answer: boxes at whose ends it is, the aim that uses most of what it is allowed, two that pull against each other.
fn limits(units: Units, asked: &Question, found: &Found) -> Vec<String> {
    let (goal, mut lines) = (&asked.goal, Vec::new());
    let ends = found.at_the_end.iter().filter_map(|at| goal.free.get(*at));
    let ends: Vec<String> = ends.map(|freed| format!("{}, {}", freed.point.name(), freed.axis_name())).collect();
    if !ends.is_empty() {
        lines.push(format!("At an end of its box: {}.", ends.join("; ")));
    }
    let uses = goal.aims.iter().zip(&found.values).map(|(aim, values)| (aim, used(aim, values)));
    let most = uses.max_by(|a, b| a.1.total_cmp(&b.1)).filter(|_| goal.aims.len() > 1);
    if let Some((aim, used)) = most {
        let how = if used > 1.0 + MET { "Furthest off" } else { "Nearest to its limit" };
        lines.push(format!("{how}: {}.", aimed(units, aim)));
    }
    if let Some([a, b]) = found.against.and_then(|pair| Some([goal.aims.get(pair[0])?, goal.aims.get(pair[1])?])) {
        lines.push(format!("These two pull against each other: {}; and {}.", aimed(units, a), aimed(units, b)));
    }
    lines
}

/// A range counts as met if it is missed by a hundredth of its scale, a tenth of its width: of its half width, so much.
const MET: f64 = 0.01 * 0.1 * 2.0;
