//! Answers to what to turn, in words.

use crate::app::App;
use crate::study::influence::{heading, told};
use crate::text::change::{label, moved};
use crate::text::sentence::capital;
use crate::work::turn::Wanted;
use kernel::vary::Answer;
use kernel::{LeftOrRight, Sides};

/// An answer in words: its heading, what to do, what is left over, what else moves.
#[derive(PartialEq)]
pub(super) struct Card {
    pub heading: &'static str,
    pub lines: Vec<(&'static str, String)>,
}

/// The aims that an answer does not meet, by their places.
pub(super) fn missed(asked: &Wanted, answer: &Answer) -> Vec<usize> {
    let lefts = asked.aims.iter().zip(&answer.left_over).enumerate();
    lefts.filter(|(_, (aim, left))| left.abs() > aim.quantity.tolerance()).map(|(at, _)| at).collect()
}

/// So many adjusters.
fn counted(adjusters: usize) -> &'static str {
    if adjusters == 1 { "one adjuster" } else { "two adjusters" }
}

/// Why the best answer is not what is wanted.
pub(super) fn nearest(asked: &Wanted, answer: &Answer) -> String {
    let adjusters = &asked.layout.changes.adjusters;
    let ended =
        answer.moves.iter().filter(|step| step.at_end).map(|step| label(&asked.layout, &adjusters[step.adjuster]));
    let ended: Vec<String> = ended.collect();
    match (&ended[..], answer.moves.iter().any(|step| adjusters[step.adjuster].step.is_some())) {
        ([], true) => "This is the nearest that whole shims come.".into(),
        ([], false) if answer.moves.len() < asked.aims.len() => {
            format!(
                "This is the nearest: {} can’t meet {} readings at once.",
                counted(answer.moves.len()),
                asked.aims.len()
            )
        }
        ([], false) => "This is the nearest: these adjusters move the readings only together.".into(),
        (ended, _) => format!("This is the nearest: at the end of its range is the {}.", ended.join(", and the ")),
    }
}

/// An answer in words.
pub(super) fn card(app: &App, asked: &Wanted, heading_of: &'static str, answer: &Answer) -> Card {
    let (units, adjusters) = (app.document.units, &asked.layout.changes.adjusters);
    let wheel = if asked.sides == Sides::Both { ", each wheel" } else { "" };
    let mut lines: Vec<(&'static str, String)> = answer
        .moves
        .iter()
        .map(|step| {
            let adjuster = &adjusters[step.adjuster];
            let end = if step.at_end { " (the end of its range)" } else { "" };
            ("turn", format!("{}: {}{wheel}{end}", capital(&label(&asked.layout, adjuster)), moved(adjuster, step.by)))
        })
        .collect();
    let left = asked.aims.iter().zip(&answer.left_over);
    let left =
        left.map(|(aim, left)| format!("{} {}", heading(aim.quantity, units).0, told(aim.quantity, units, *left)));
    lines.push(("left", format!("Left over: {}.", left.collect::<Vec<_>>().join("; "))));
    let effects = answer.effects.iter().filter(|effect| !app.hides(effect.quantity.column())).map(|effect| {
        let [before, after] = [effect.before, effect.after].map(|value| told(effect.quantity, units, value));
        let other = if effect.side == LeftOrRight::Right && asked.sides != Sides::One(effect.side) {
            " of the right wheel"
        } else {
            ""
        };
        format!("{}{other} {before} → {after}", heading(effect.quantity, units).0)
    });
    let effects: Vec<String> = effects.collect();
    let beside = if effects.is_empty() { "nothing that a workshop would notice".into() } else { effects.join("; ") };
    lines.push(("fine", format!("Also moved: {beside}.")));
    Card { heading: heading_of, lines }
}
