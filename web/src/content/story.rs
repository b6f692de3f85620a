//! The story that comes with the page.

use super::demos;
use super::racks::{PREPARED, STEER};
use crate::document::story::{LASTS, Moves, Shot};
use kernel::{Layout, PointId};

/// A shot in which something moves lasts longer, s.
const SWEEP: f64 = 9.0;

const HUB: &str = "kingpin_offset_wheel_centre_mm";

/// The story told first: from the strut over two wishbones to four arms, and to what the rack is bolted to.
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
            lasts: LASTS,
            moves: Moves::Nothing,
        })
    };
    let moving = |moves, shot: Option<Shot>| Some(Shot { moves, lasts: SWEEP, ..shot? });
    let rack = |prepared: usize, caption: &str| {
        Some(Shot {
            // The caption says what its note would.
            layout: Layout { note: String::new(), ..PREPARED[prepared].layout()? },
            travel: 0.0,
            rack: 0.0,
            whole: false,
            roll: 0.0,
            pinned: vec![STEER, "toe_side_force_deg_per_kn", "camber_side_force_deg_per_kn"],
            points_at: Some(PointId::TrackRodInner),
            caption: caption.into(),
            lasts: LASTS,
            moves: Moves::Nothing,
        })
    };
    [
        shot(0, 0.0, 0.0, Some(PointId::StrutTop), "A strut: the steering axis runs from its top mount to the ball joint, 66 mm inboard of the wheel centre."),
        moving(Moves::Bump, shot(0, 35.0, 0.0, None, "Bumps, drag and drive act at the wheel centre, with that long lever arm.")),
        shot(1, 0.0, 0.0, Some(PointId::UpperOuter), "Double wishbones move the axis outward, through the two ball joints, and it leans less."),
        shot(2, 0.0, 0.0, Some(PointId::LowerFrontOuter), "Split the lower wishbone, and the lower end of the axis is where the lines of its two arms come closest: there is no part at that point."),
        shot(4, 0.0, 0.0, None, "Split both: the whole axis is virtual. It passes 10 mm from the wheel centre."),
        moving(Moves::Steer, shot(4, 0.0, 45.0, None, "As you steer, the axis moves: there is no fixed steering axis, only the one at this instant.")),
        shot(4, 0.0, 0.0, Some(PointId::TrackRodInner), "The track rod is the fifth arm: what it is bolted to decides how the toe behaves."),
        rack(0, "In a bend a soft subframe shifts with its arms, a rack on the body does not: ahead of the wheel centre it steers 0.24° per kN out of the bend, hands held still. Felt as vague."),
        rack(2, "The same with the rack behind the wheel centre: 0.07° per kN into the bend. Felt as nervous."),
        rack(1, "So the rack went onto the subframe, and the subframe was bolted to the body: of 0.24° per kN half is left, and that is of the bushes."),
    ]
    .into_iter()
    .flatten()
    .collect()
}
