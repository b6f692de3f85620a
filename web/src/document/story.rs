//! A story: a row of shots, each an axle in a position with pinned readings and a caption, told one after another.

use super::place::{TRAVEL, swing};
use kernel::{Layout, PointId};

/// What moves while a shot is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Moves {
    /// Nothing.
    #[default]
    Nothing,
    /// The wheel, through bump and droop.
    Bump,
    /// The rack, from lock to lock.
    Steer,
}

impl Moves {
    /// Every choice with its name in links and on the page.
    pub const ALL: [(Moves, &'static str, &'static str); 3] = [
        (Moves::Nothing, "nothing", "Still"),
        (Moves::Bump, "bump", "Bump sweep"),
        (Moves::Steer, "steer", "Lock to lock"),
    ];
}

/// Seconds that a shot lasts.
pub const LASTS: f64 = 6.0;

/// The first of them, in which the axle is on its way to it.
pub const TRANSITION: f64 = 1.2;

/// The shortest and the longest shot, s.
pub const LENGTHS: [f64; 2] = [2.0, 30.0];

/// A movement takes about so long from its start back to it, s.
const TURN: f64 = 4.0;

/// One shot.
#[derive(Clone, Debug, PartialEq)]
pub struct Shot {
    /// The axle.
    pub layout: Layout,
    /// Rise of the wheel centre, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// Both wheels are shown, not the left one alone.
    pub whole: bool,
    /// Roll of the body, degrees.
    pub roll: f64,
    /// Pinned readings.
    pub pinned: Vec<&'static str>,
    /// The joint that is pointed at.
    pub points_at: Option<PointId>,
    /// What is said.
    pub caption: String,
    /// How long it is shown, s.
    pub lasts: f64,
    /// What moves meanwhile.
    pub moves: Moves,
}

/// A story has at most this many shots.
pub const MOST_SHOTS: usize = 12;

impl Shot {
    /// The shot so many seconds after its transition: its movement is entered where it stands, comes back there, as often as there is time, and ends with it.
    pub fn after(&self, seconds: f64) -> Shot {
        let held = self.lasts - TRANSITION;
        let turns = (held / TURN).round().max(1.0) * (seconds / held).clamp(0.0, 1.0);
        let mut shot = self.clone();
        match self.moves {
            Moves::Nothing => {}
            Moves::Bump => shot.travel = swing(TRAVEL.max(self.travel.abs()), self.travel, turns),
            Moves::Steer => {
                let stroke = self.layout.rack.as_ref().map_or(0.0, |rack| rack.travel);
                shot.rack = swing(stroke, self.rack, turns);
            }
        }
        shot
    }

    /// Part of the way to another shot: positions always, joints where both axles are of one kind; else the other axle at once.
    pub fn towards(&self, other: &Shot, part: f64) -> Shot {
        // Slow at both ends.
        let eased = part * part * (3.0 - 2.0 * part);
        let mix = |a: f64, b: f64| a + (b - a) * eased;
        let mut shot = Shot {
            travel: mix(self.travel, other.travel),
            rack: mix(self.rack, other.rack),
            roll: mix(self.roll, other.roll),
            ..other.clone()
        };
        let same = self.layout.points().map(|(id, _)| id).eq(other.layout.points().map(|(id, _)| id));
        if same {
            for (id, from) in self.layout.points() {
                if let Some(point) = shot.layout.point_mut(id) {
                    *point = from + (*point - from) * eased;
                }
            }
        }
        shot
    }
}
