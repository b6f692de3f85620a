//! What can't be searched for, and why: a sentence.

use super::members;
use crate::document::Document;
use crate::document::goal::{Aim, Freed, Goal, LengthKept, MOST_AIMS, MOST_FREE, MOST_PLACES, Wanted};
use crate::document::place::MOST_TRAVEL;
use kernel::vary::{Design, Parameter};
use kernel::{Amount, LIMIT, Layout, clip};

/// Why what a document asks can't be searched for, in a sentence.
pub(super) fn check(document: &Document, goal: &Goal) -> Result<(), String> {
    if document.sealed() {
        return Err("In an exercise nothing is searched for: move the joints yourself.".into());
    }
    match (goal.free.len(), goal.aims.len(), goal.aims.iter().map(|aim| aim.travel.len()).sum::<usize>()) {
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
            return Err(format!("The {}, {}, is there twice.", freed.point.name(), axis(freed)));
        }
    }
    goal.aims.iter().try_for_each(|aim| check_aim(document, aim))?;
    goal.lengths.iter().try_for_each(|kept| check_length(&document.layout, kept))
}

fn axis(freed: &Freed) -> &'static str {
    ["x", "y", "z"].get(freed.axis).copied().unwrap_or("?")
}

fn check_freed(document: &Document, freed: &Freed) -> Result<(), String> {
    let (name, [least, most]) = (freed.point.name(), freed.range);
    let named =
        Parameter::all(&document.layout).contains(&Parameter::Design(Design::Coordinate(freed.point, freed.axis)));
    if !named {
        return Err(format!("This axle has no {name}, {}, that could move: remove its row.", axis(freed)));
    }
    if document.ranges(freed.point)[freed.axis].is_none() {
        return Err(format!("The {name} is locked along {}; unlock it under Points, or remove its row.", axis(freed)));
    }
    let within = |mm: f64| (-LIMIT..=LIMIT).contains(&mm);
    if !(within(least) && within(most) && least <= most) {
        let [least, most] = [Amount(least), Amount(most)];
        return Err(format!(
            "The {name}, {}, can’t be from {least} to {most} mm: the first must be less, and neither beyond ±{LIMIT} mm.",
            axis(freed)
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
    if aim.travel.is_empty() {
        return Err(format!("“{name}” is aimed at at no travel: type one."));
    }
    if let Some(travel) = aim.travel.iter().find(|travel| travel.is_nan() || travel.abs() > MOST_TRAVEL) {
        let travel = Amount(*travel);
        return Err(format!("“{name}” can’t be aimed at at travel {travel} mm: it must be within ±{MOST_TRAVEL} mm."));
    }
    let most = document.rack_travel();
    if aim.rack.is_nan() || aim.rack.abs() > most {
        let rack = Amount(aim.rack);
        return Err(format!(
            "“{name}” can’t be aimed at at rack {rack} mm: this rack goes {} mm each way.",
            Amount(most)
        ));
    }
    let [a, b] = aim.wanted.numbers();
    if !(a.is_finite() && b.is_finite()) {
        return Err(format!("What “{name}” is to be is no number."));
    }
    match aim.wanted {
        Wanted::Value(_) if b <= 0.0 => Err(format!("The ± of “{name}” must be more than 0.")),
        Wanted::Range(_) if b <= a => {
            Err(format!("“{name}” can’t be from more to less: its first number must be less."))
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
