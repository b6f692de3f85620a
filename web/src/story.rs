//! A story: a row of shots, each an axle in a position with pinned readings and a caption, told one after another.

use crate::demos;
use crate::document::Document;
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
    /// What a document shows, with a caption.
    pub fn of(document: &Document, points_at: Option<PointId>, caption: String) -> Shot {
        let Document { layout, travel, rack, whole, pinned, .. } = document.clone();
        // One wheel alone does not roll.
        let roll = if whole { document.roll } else { 0.0 };
        Shot { layout, travel, rack, whole, roll, pinned, points_at, caption }
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

const HUB: &str = "kingpin_offset_wheel_centre_mm";

/// The story told first: from the strut over two wishbones to four arms.
pub fn shipped() -> Vec<Shot> {
    let shot = |demo: usize, travel: f64, rack: f64, points_at: Option<PointId>, caption: &str| {
        Some(Shot {
            layout: demos::layout(demo)?,
            travel,
            rack,
            whole: false,
            roll: 0.0,
            pinned: vec![HUB, "drive_lever_arm_mm", "kingpin_inclination_deg", "camber_deg"],
            points_at,
            caption: caption.into(),
        })
    };
    [
        shot(0, 0.0, 0.0, Some(PointId::StrutTop), "A strut: the steering axis runs from its top mount to the ball joint, 66 mm inboard of the wheel centre."),
        shot(0, 35.0, 0.0, None, "Bumps, drag and drive act at the wheel centre, with that long lever arm."),
        shot(1, 0.0, 0.0, Some(PointId::UpperOuter), "Double wishbones move the axis outward, through two ball joints, and it leans less."),
        shot(2, 0.0, 0.0, Some(PointId::LowerFrontOuter), "Split the lower wishbone, and the lower end of the axis is where the lines of its two arms come closest: there is no part at that point."),
        shot(4, 0.0, 0.0, None, "Split both: the whole axis is virtual. It passes 10 mm from the wheel centre."),
        shot(4, 0.0, 45.0, None, "As you steer, the axis moves: there is no fixed steering axis, only the one at this instant."),
        shot(4, 0.0, 0.0, Some(PointId::TrackRodInner), "The track rod is the fifth arm: what it is bolted to decides how the toe behaves."),
    ]
    .into_iter()
    .flatten()
    .collect()
}
