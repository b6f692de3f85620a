//! What can't be searched for, and why: a sentence.

use super::members;
use crate::document::Document;
use crate::document::goal::{
    Aim, Condition, Freed, Goal, Kept, LengthKept, Line, MOST_AIMS, MOST_FREE, MOST_PLACES, Wanted,
};
use crate::document::place::MOST_TRAVEL;
use crate::study::condition::name;
use kernel::space::Piece;
use kernel::vary::Parameter;
use kernel::{Amount, LIMIT, Layout, clip};

/// Why what a document asks can't be searched for, in a sentence.
pub(super) fn check(document: &Document, goal: &Goal) -> Result<(), String> {
    if document.sealed() {
        return Err("In an exercise nothing is searched for: move the joints yourself.".into());
    }
    match (goal.free.len(), goal.aims.len(), goal.aims.iter().map(|aim| aim.places().len()).sum::<usize>()) {
        (0, ..) => return Err("Nothing may move yet: choose joints above.".into()),
        (_, 0, _) => return Err("No reading is aimed at yet: add one.".into()),
        (free, ..) if free > MOST_FREE => {
            return Err(format!("At most {MOST_FREE} coordinates may move; here are {free}."));
        }
        (_, aims, _) if aims > MOST_AIMS => {
            return Err(format!("At most {MOST_AIMS} aims can be searched for; here are {aims}."));
        }
        (.., places) if places > MOST_PLACES => {
            return Err(format!("The aims have {places} travels in all; at most {MOST_PLACES} can be searched for."));
        }
        _ => {}
    }
    for (at, freed) in goal.free.iter().enumerate() {
        check_freed(document, freed)?;
        if goal.free[..at].iter().any(|other| (other.point, other.axis) == (freed.point, freed.axis)) {
            return Err(format!("The {}, {}, is there twice.", freed.point.name(), freed.axis_name()));
        }
    }
    goal.aims.iter().try_for_each(|aim| check_aim(document, aim))?;
    goal.lengths.iter().try_for_each(|kept| check_length(&document.layout, kept))?;
    goal.conditions.iter().try_for_each(|kept| check_condition(document, kept))
}

fn check_freed(document: &Document, freed: &Freed) -> Result<(), String> {
    let (name, [least, most]) = (freed.point.name(), freed.range);
    let named = freed.axis < 3 && Parameter::all(&document.layout).contains(&freed.parameter());
    if !named {
        return Err(format!("This axle has no {name}, {}, that could move: remove its row.", freed.axis_name()));
    }
    if document.ranges(freed.point)[freed.axis].is_none() {
        return Err(format!(
            "The {name} is locked along {}; unlock it under Points, or remove its row.",
            freed.axis_name()
        ));
    }
    let within = |mm: f64| (-LIMIT..=LIMIT).contains(&mm);
    if !(within(least) && within(most) && least <= most) {
        let [least, most] = [Amount(least), Amount(most)];
        return Err(format!(
            "The {name}, {}, can’t be from {least} to {most} mm: the first must be less, and neither beyond ±{LIMIT} mm.",
            freed.axis_name()
        ));
    }
    Ok(())
}

fn check_aim(document: &Document, aim: &Aim) -> Result<(), String> {
    let Some(quantity) = aim.quantity() else {
        return Err(format!("There is no reading “{}” to aim at: remove its row.", clip(&aim.reading)));
    };
    let name = quantity.reading().full_name();
    let hidden = document.lesson.as_ref().is_some_and(|lesson| lesson.hides(&document.answer, quantity.column()));
    if hidden {
        return Err(format!("This lesson hides “{name}”, so it can’t be aimed at."));
    }
    if let Wanted::Line(line) = &aim.wanted
        && !line.is_sound()
    {
        return Err(format!(
            "The line of “{name}” must have from 2 to {} points, each further along than the one before.",
            Line::MOST
        ));
    }
    check_places(document, &format!("“{name}” can’t be aimed at"), &aim.places())?;
    let [a, b] = aim.wanted.numbers();
    if !(a.is_finite() && b.is_finite()) {
        return Err(format!("What “{name}” is to be is no number."));
    }
    match aim.wanted {
        Wanted::Value(_) | Wanted::Line(_) if b <= 0.0 => Err(format!("The ± of “{name}” must be more than 0.")),
        Wanted::Range(_) if b <= a => {
            Err(format!("“{name}” can’t be from more to less: its first number must be less."))
        }
        _ => Ok(()),
    }
}

/// Whether a wheel can be asked for at all of these places; `what` can’t be there otherwise.
fn check_places(document: &Document, what: &str, places: &[[f64; 2]]) -> Result<(), String> {
    let most = document.rack_travel();
    if places.is_empty() {
        return Err(format!("{what} at no travel: type one."));
    }
    for [travel, rack] in places {
        if travel.is_nan() || travel.abs() > MOST_TRAVEL {
            return Err(format!("{what} at travel {} mm: it must be within ±{MOST_TRAVEL} mm.", Amount(*travel)));
        }
        if rack.is_nan() || rack.abs() > most {
            return Err(format!("{what} at rack {} mm: this rack goes {} mm each way.", Amount(*rack), Amount(most)));
        }
    }
    Ok(())
}

/// At so many travels a condition can be kept.
const MOST_KEPT: usize = 50;

/// A joint does not swing further, degrees.
const MOST_SWING: f64 = 90.0;

fn check_condition(document: &Document, one: &Condition) -> Result<(), String> {
    let layout = &document.layout;
    let (what, limit) = (name(&one.kept, layout), Amount(one.limit));
    let there = match &one.kept {
        Kept::Swing(joint) => joint.is_joint() && layout.point(*joint).is_some(),
        Kept::Gap(between) => between.iter().all(|name| Piece::named(name, layout).is_some()),
        Kept::LeastGap => true,
    };
    if !there {
        return Err(format!("This axle has no {}: remove its row.", clip(&what)));
    }
    if one.travel.len() > MOST_KEPT {
        return Err(format!("The {what} can be kept at {MOST_KEPT} travels at most; here are {}.", one.travel.len()));
    }
    let places: Vec<[f64; 2]> = one.travel.iter().map(|travel| [*travel, one.rack]).collect();
    check_places(document, &format!("The {what} can’t be kept"), &places)?;
    match one.kept {
        Kept::Swing(_) if !(one.limit > 0.0 && one.limit <= MOST_SWING) => {
            Err(format!("The {what} can’t be kept below {limit}°: it must be more than 0 and at most {MOST_SWING}°."))
        }
        Kept::Gap(_) | Kept::LeastGap if !(0.0..=LIMIT).contains(&one.limit) => {
            Err(format!("The {what} can’t be kept above {limit} mm: it must be from 0 to {LIMIT} mm."))
        }
        _ => Ok(()),
    }
}

fn check_length(layout: &Layout, kept: &LengthKept) -> Result<(), String> {
    let member = members(layout).into_iter().find(|member| member.path() == kept.member);
    let Some(member) = member else {
        return Err(format!("This axle has no member “{}” with a length: remove its row.", clip(&kept.member)));
    };
    let [least, most] = kept.range;
    if least > 0.0 && least <= most && most <= 2.0 * LIMIT {
        return Ok(());
    }
    Err(format!("The length of the {} can’t be from {} to {} mm.", member.name(layout), Amount(least), Amount(most)))
}
