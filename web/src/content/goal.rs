//! A prepared goal: two wishbones, each split into two arms, whose steering axis is to leave the ball joints and pass near the wheel's centre.

use super::demos;
use crate::document::Document;
use crate::document::goal::{Aim, Goal, Preset, Wanted};
use kernel::Level;

/// Which demo has two wishbones.
const WISHBONES: usize = 1;

/// What is pinned for it.
const PINNED: [&str; 4] = ["kingpin_offset_wheel_centre_mm", "scrub_radius_mm", "caster_deg", "toe_deg"];

/// The document with its goal; nothing has moved yet, so the axis still runs through both ball joints.
pub fn prepared() -> Option<Document> {
    let mut layout = demos::layout(WISHBONES)?.other_kind(Level::Lower).other_kind(Level::Upper);
    layout.name = "Harbour shuttle, two wishbones split".into();
    layout.note = "Each wishbone is two arms that still meet at its ball joint. Spread their outer joints, and the axis leaves them.".into();
    let aim = |reading: &str, travel: &[f64], wanted: Wanted| Aim {
        reading: reading.into(),
        travel: travel.to_vec(),
        rack: 0.0,
        wanted,
    };
    let goal = Goal {
        free: Preset::OuterJoints.freed(&layout),
        aims: vec![
            aim(PINNED[0], &[0.0], Wanted::Value([10.0, 0.5])),
            aim(PINNED[1], &[0.0], Wanted::Range([-10.0, 10.0])),
            aim(PINNED[2], &[0.0], Wanted::Range([3.0, 6.0])),
            aim(PINNED[3], &[-40.0, -20.0, 0.0, 20.0, 40.0], Wanted::Range([0.05, 0.15])),
        ],
        ..Goal::default()
    };
    let mut document = Document { pinned: PINNED.to_vec(), ..Document::of(layout) };
    document.papers.goal = Some(Box::new(goal));
    Some(document)
}
