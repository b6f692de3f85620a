//! Changes of what is shown of the axle.

use crate::app::refusal::Refusal;
use crate::document::{Document, Hands, Loads, MOST_PINNED, Over};
use crate::text::number::Units;
use kernel::LeftOrRight;

/// A change of what is shown.
#[derive(Clone, Copy, Debug)]
pub enum Show {
    /// What lengths, angles and toe are shown in.
    Units(Units),
    /// One wheel or the whole axle.
    Whole(bool),
    /// The wheel that is shown where one is.
    Side(LeftOrRight),
    /// What a hand on a joint keeps.
    Hands(Hands),
    /// What the curves run over.
    Over(Over),
    /// Pins a reading to the curves, or takes it off.
    Pin(&'static str),
    /// What loads the axle and what its arms are.
    Loads(Loads),
}

impl Show {
    /// The document after it.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        let mut after = document.clone();
        match self {
            Show::Units(units) => after.units = units,
            Show::Whole(whole) => after.whole = whole,
            Show::Side(side) => after.side = side,
            Show::Hands(hands) => after.hands = hands,
            Show::Over(over) => after.over = over,
            Show::Pin(column) => pin(&mut after.pinned, column),
            Show::Loads(loads) => match loads.problem() {
                Some(beyond) => return Err(Refusal::Loads(beyond)),
                None => after.loads = loads,
            },
        }
        Ok(after)
    }
}

/// Pins a reading, or takes it off; the oldest makes room.
fn pin(pinned: &mut Vec<&'static str>, column: &'static str) {
    if let Some(at) = pinned.iter().position(|c| *c == column) {
        pinned.remove(at);
    } else {
        pinned.push(column);
        if pinned.len() > MOST_PINNED {
            pinned.remove(0);
        }
    }
}
