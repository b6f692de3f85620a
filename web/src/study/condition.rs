//! What a search has to keep at places: what it is called, and what it comes to.

use super::space::pair;
use crate::document::goal::{Condition, Goal, Kept};
use kernel::space::Piece;
use kernel::vary::goals;
use kernel::{LIMIT, Layout};

/// No gap is larger, mm.
pub const FAR: f64 = 2.0 * LIMIT;

/// What a condition is of, in words.
pub fn name(kept: &Kept, layout: &Layout) -> String {
    match kept {
        Kept::Swing(joint) => format!("swing of the {}", joint.name()),
        Kept::LeastGap => "smallest gap of all".into(),
        Kept::Gap([a, b]) => match [a, b].map(|name| Piece::named(name, layout)) {
            [Some(a), Some(b)] => format!("gap {}", pair([a, b], layout)),
            _ => format!("gap {a} – {b}"),
        },
    }
}

/// What a condition comes to on the present axle, degrees or mm, place by place; `None` where it can't be there or lacks it.
pub fn comes_to(one: &Condition, goal: &Goal, layout: &Layout) -> Option<Vec<f64>> {
    let kept = match &one.kept {
        Kept::Swing(joint) => goals::Kept::Swing(*joint),
        Kept::LeastGap => goals::Kept::Gap(None),
        Kept::Gap([a, b]) => goals::Kept::Gap(Some([Piece::named(a, layout)?, Piece::named(b, layout)?])),
    };
    let places = one.travel.iter().map(|travel| [*travel, one.rack]).collect();
    goals::Condition { kept, places, range: [0.0, FAR] }.values(layout, goal.side())
}
