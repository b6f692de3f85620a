//! A story: a row of shots, each an axle in a position with pinned readings and a caption, told one after another.

use kernel::{Layout, PointId};

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
}

/// A story has at most this many shots.
pub const MOST_SHOTS: usize = 12;

impl Shot {
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
