//! Movements that run by themselves: where the axle is after so many seconds.

use crate::document::place::{TRAVEL, swing};
use std::f64::consts::TAU;

/// A movement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Play {
    /// Through bump and droop, again and again.
    Bump,
    /// From lock to lock, again and again.
    Steer,
    /// One short demonstration movement, shown on a first visit.
    Greeting,
}

/// Seconds of one turn of a movement.
const TURN: f64 = 4.0;

/// The greeting reaches this part of travel and rack.
const GREETING: f64 = 0.4;

impl Play {
    /// Travel and rack, mm, after `seconds` that began at `from`; `None` when the movement is over. `stroke` is the rack's, mm
    /// each way. The movement begins where the axle stands: the sine is entered at that height.
    pub fn position(self, seconds: f64, from: [f64; 2], stroke: f64) -> Option<[f64; 2]> {
        let turns = seconds / TURN;
        match self {
            Play::Bump => Some([swing(TRAVEL, from[0], turns), from[1]]),
            Play::Steer => Some([from[0], swing(stroke, from[1], turns)]),
            Play::Greeting if seconds >= TURN => None,
            Play::Greeting => {
                let turn = TAU * turns;
                Some([GREETING * TRAVEL * turn.sin(), GREETING * stroke * turn.sin() * (0.5 * turn).sin()])
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn movements_begin_where_the_axle_stands_and_stay_in_range() {
        for play in [Play::Bump, Play::Steer] {
            for from in [[0.0, 0.0], [25.0, -12.0], [-60.0, 75.0], [200.0, 10.0]] {
                let start = play.position(0.0, from, 75.0).expect("it goes on");
                let clamped = [from[0].clamp(-TRAVEL, TRAVEL), from[1]];
                let expected = if play == Play::Bump { clamped } else { from };
                assert!((0..2).all(|i| (start[i] - expected[i]).abs() < 1e-9), "{play:?} from {from:?}: {start:?}");
                for tenth in 0..80 {
                    let [travel, rack] = play.position(f64::from(tenth) / 10.0, from, 75.0).expect("it goes on");
                    assert!(travel.abs() <= from[0].abs().max(TRAVEL) && rack.abs() <= 75.0 + 1e-9);
                }
            }
        }
    }

    #[test]
    fn the_greeting_ends_where_it_began_and_needs_no_rack() {
        assert_eq!(Play::Greeting.position(0.0, [0.0, 0.0], 75.0), Some([0.0, 0.0]));
        assert_eq!(Play::Greeting.position(TURN, [0.0, 0.0], 75.0), None);
        assert_eq!(Play::Steer.position(1.0, [5.0, 0.0], 0.0), Some([5.0, 0.0]));
    }
}
