//! A hand on the pictorial view, and keys: they turn it, or take a joint in hand; two fingers pinch it.

use super::pointer::{Contact, pinched};
use crate::drawing::{P, Sheet, Turn};

/// What a hand does there.
#[derive(Clone, Copy, Debug, Default)]
pub enum Turning {
    /// Nothing.
    #[default]
    Idle,
    /// One pointer turns it, or clicks.
    Held(Held),
    /// Two fingers pinch the paper, where they were last.
    Pinching([(i32, P); 2]),
}

/// A pointer that is down.
#[derive(Clone, Copy, Debug)]
pub struct Held {
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
    /// A pointer comes down; a second one pinches, a third does nothing.
    pub fn down(&mut self, contact: Contact) {
        let (pointer, at) = (contact.id, contact.at);
        *self = match *self {
            Turning::Idle => Turning::Held(Held { pointer, from: at, last: at, turns: false }),
            Turning::Held(held) if held.pointer != pointer => {
                Turning::Pinching([(held.pointer, held.last), (pointer, at)])
            }
            other => other,
        };
    }

    /// It moves: what is nearest follows the hand, or the paper two fingers.
    pub fn moved(&mut self, contact: Contact, sheet: &Sheet) -> Option<Sheet> {
        match self {
            Turning::Held(held) if held.pointer == contact.id => {
                let [x, y] = contact.at;
                held.turns |= f64::hypot(x - held.from[0], y - held.from[1]) > CLICK;
                let [before_x, before_y] =
                    if held.turns { std::mem::replace(&mut held.last, contact.at) } else { return None };
                Some(sheet.turned(sheet.turn().by((x - before_x) * DEGREES, (y - before_y) * DEGREES)))
            }
            Turning::Pinching(fingers) => {
                let before = fingers.map(|(_, at)| at);
                fingers.iter_mut().find(|(id, _)| *id == contact.id)?.1 = contact.at;
                Some(pinched(sheet, before, fingers.map(|(_, at)| at)))
            }
            _ => None,
        }
    }

    /// It goes up, or is taken away: where, if it was a click. After a pinch the finger that stays does nothing.
    pub fn up(&mut self, pointer: i32) -> Option<P> {
        match *self {
            Turning::Held(held) if held.pointer == pointer => {
                *self = Turning::Idle;
                (!held.turns).then_some(held.from)
            }
            Turning::Pinching(fingers) if fingers.iter().any(|(id, _)| *id == pointer) => {
                *self = Turning::Idle;
                None
            }
            _ => None,
        }
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
