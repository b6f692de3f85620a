//! A story: a row of shots, each an axle in a position with pinned readings and a caption, told one after another.

mod look;

pub use look::{Moves, Seen, Stress};

use super::Case;
use super::place::{TRAVEL, swing};
use kernel::{Guide, Layout, Level, PointId, Vec3};
use std::f64::consts::TAU;

/// Seconds that a shot lasts.
pub const LASTS: f64 = 6.0;

/// The first of them, in which the axle is on its way to it.
pub const TRANSITION: f64 = 1.2;

/// The shortest and the longest shot, s.
pub const LENGTHS: [f64; 2] = [2.0, 30.0];

/// How many times larger than to fit a shot may be drawn.
pub const ZOOMS: [f64; 2] = [1.0, 8.0];

/// A joint is dragged this far at most along each axis, mm.
pub const MOST_DRAGGED: f64 = 200.0;

/// A movement takes about so long from its start back to it, s.
const TURN: f64 = 4.0;

/// One shot.
#[derive(Clone, Debug, PartialEq)]
pub struct Shot {
    /// The axle.
    pub layout: Layout,
    /// The axle that is laid over it, to the same scale.
    pub over: Option<Layout>,
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
    /// How far the joint pointed at is dragged, mm, if it is.
    pub by: Vec3,
    /// From where it is seen.
    pub seen: Seen,
    /// How many times larger than to fit it is drawn, about what is pointed at.
    pub zoom: f64,
    /// What is emphasised.
    pub stress: Option<Stress>,
    /// What loads the axle.
    pub case: Case,
}

/// A shot as it is at some moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Passing {
    /// What is shown.
    pub shot: Shot,
    /// How far it has come from the shot before, 0 to 1.
    pub part: f64,
    /// How much the drawing is covered by paper, 0 to 1: one axle that can't become another goes, then the other comes.
    pub paper: f64,
    /// What is shown is still the shot before, on its way out.
    pub left: bool,
}

/// A story has at most this many shots.
pub const MOST_SHOTS: usize = 15;

impl Shot {
    /// An axle at rest, told in a caption.
    pub fn at_rest(layout: Layout, caption: String) -> Shot {
        Shot {
            layout,
            over: None,
            travel: 0.0,
            rack: 0.0,
            whole: false,
            roll: 0.0,
            pinned: Vec::new(),
            points_at: None,
            caption,
            lasts: LASTS,
            moves: Moves::Nothing,
            by: Vec3::zeros(),
            seen: Seen::All,
            zoom: 1.0,
            stress: None,
            case: Case::None,
        }
    }

    /// How long the axle is on its way to it, s.
    pub fn comes(&self) -> f64 {
        if self.moves == Moves::Change { f64::max(TRANSITION, self.lasts - 2.0 * TRANSITION) } else { TRANSITION }
    }

    /// The shot so many seconds after the one before was left.
    pub fn passing(&self, before: &Shot, seconds: f64) -> Passing {
        let part = (seconds / self.comes()).clamp(0.0, 1.0);
        if part >= 1.0 {
            return Passing { shot: self.after(seconds - self.comes()), part, paper: 0.0, left: false };
        }
        // Slow at both ends.
        let eased = part * part * (3.0 - 2.0 * part);
        if self.seen == before.seen && alike(&before.layout, &self.layout).is_some() {
            return Passing { shot: before.towards(self, part), part: eased, paper: 0.0, left: false };
        }
        let paper = 1.0 - (1.0 - 2.0 * eased).abs();
        let left = eased < 0.5;
        let (shot, part) = if left { (before.clone(), 0.0) } else { (self.clone(), 1.0) };
        Passing { shot, part, paper, left }
    }

    /// The shot so many seconds after its transition: its movement is entered where it stands, comes back there, as often as there is time, and ends with it.
    pub fn after(&self, seconds: f64) -> Shot {
        let held = self.lasts - TRANSITION;
        let turns = (held / TURN).round().max(1.0) * (seconds / held).clamp(0.0, 1.0);
        let mut shot = self.clone();
        match self.moves {
            Moves::Nothing | Moves::Change => {}
            Moves::Bump => shot.travel = swing(TRAVEL.max(self.travel.abs()), self.travel, turns),
            Moves::Steer => {
                let stroke = self.layout.rack.as_ref().map_or(0.0, |rack| rack.travel);
                shot.rack = swing(stroke, self.rack, turns);
            }
            Moves::Drag => {
                if let Some(point) = self.points_at.and_then(|id| shot.layout.point_mut(id)) {
                    *point += self.by * (0.5 - 0.5 * (TAU * turns).cos());
                }
            }
        }
        shot
    }

    /// Part of the way to another shot: positions always, joints where one axle can become the other; else the other axle at once.
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
        if part < 1.0
            && let Some([from, mut to]) = alike(&self.layout, &other.layout)
        {
            for (id, from) in from.points() {
                if let Some(point) = to.point_mut(id) {
                    *point = from + (*point - from) * eased;
                }
            }
            shot.layout = to;
        }
        shot
    }
}

/// Two axles with the same joints, which move their wheels as these two do: a wishbone that is two arms in the other is split, its arms ending at its
/// ball joint. `None` where a strut is in the other's place.
fn alike(a: &Layout, b: &Layout) -> Option<[Layout; 2]> {
    let (mut a, mut b) = (a.clone(), b.clone());
    for level in Level::ALL {
        match (a.guide(level), b.guide(level)) {
            (Guide::Wishbone { .. }, Guide::Arms { .. }) => a = a.other_kind(level),
            (Guide::Arms { .. }, Guide::Wishbone { .. }) => b = b.other_kind(level),
            _ => {}
        }
    }
    a.points().map(|(id, _)| id).eq(b.points().map(|(id, _)| id)).then_some([a, b])
}

/// What is shown so many seconds after the first shot began: which shot, and as it then is. The first one stands there from the beginning; after the
/// end the last one stays. `None` without shots.
pub fn at(shots: &[Shot], seconds: f64) -> Option<(usize, Passing)> {
    let mut began = 0.0;
    let ends = |shot: &Shot| {
        began += shot.lasts;
        began
    };
    let which = shots.iter().map(ends).position(|end| seconds < end).unwrap_or(shots.len().checked_sub(1)?);
    let shot = &shots[which];
    let before: f64 = shots[..which].iter().map(|shot| shot.lasts).sum();
    let gone = f64::min(seconds - before, shot.lasts);
    let passing = match which.checked_sub(1).map(|at| &shots[at]) {
        Some(left) => shot.passing(&left.after(f64::INFINITY), gone),
        None => Passing { shot: shot.after(gone - TRANSITION), part: 1.0, paper: 0.0, left: false },
    };
    Some((which, passing))
}
