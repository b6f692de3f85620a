//! A hand on the pictorial view, and keys: they turn it, or take a joint in hand.

use super::pointer::Contact;
use crate::drawing::{P, Turn};

/// What a hand does there.
#[derive(Clone, Copy, Debug, Default)]
pub struct Turning(Option<Held>);

#[derive(Clone, Copy, Debug)]
struct Held {
    pointer: i32,
    from: P,
    last: P,
    /// It has gone too far for a click.
    turns: bool,
}

/// Degrees for a px: half a turn across a phone.
const DEGREES: f64 = 0.5;

/// A hand that goes no farther than this, px, has clicked.
const CLICK: f64 = 4.0;

impl Turning {
    /// A pointer comes down; a second one does nothing.
    pub fn down(&mut self, contact: Contact) {
        let (pointer, at) = (contact.id, contact.at);
        self.0.get_or_insert(Held { pointer, from: at, last: at, turns: false });
    }

    /// It moves: what is nearest follows the hand.
    pub fn moved(&mut self, contact: Contact, turn: Turn) -> Option<Turn> {
        let held = self.0.as_mut().filter(|held| held.pointer == contact.id)?;
        let [x, y] = contact.at;
        held.turns |= f64::hypot(x - held.from[0], y - held.from[1]) > CLICK;
        let [before_x, before_y] =
            if held.turns { std::mem::replace(&mut held.last, contact.at) } else { return None };
        Some(turn.by((x - before_x) * DEGREES, (y - before_y) * DEGREES))
    }

    /// It goes up, or is taken away: where, if it was a click.
    pub fn up(&mut self, pointer: i32) -> Option<P> {
        self.0.take_if(|held| held.pointer == pointer).filter(|held| !held.turns).map(|held| held.from)
    }
}

/// The view that a key brings: arrows turn by 5°, with Shift 15, with Alt 1, the way they point; Home and End are the standard's two.
pub fn turned(turn: Turn, key: &str, shift: bool, alt: bool) -> Option<Turn> {
    let step = match (shift, alt) {
        (true, _) => 15.0,
        (false, true) => 1.0,
        _ => 5.0,
    };
    match key {
        "ArrowRight" => Some(turn.by(step, 0.0)),
        "ArrowLeft" => Some(turn.by(-step, 0.0)),
        "ArrowDown" => Some(turn.by(0.0, step)),
        "ArrowUp" => Some(turn.by(0.0, -step)),
        "Home" => Some(Turn::ISOMETRIC),
        "End" => Some(Turn::DIMETRIC),
        _ => None,
    }
}
