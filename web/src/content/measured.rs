//! A prepared axle that was measured with plumb bob and tape: its steering axis can be trusted, its bump steer can't. What the note says in numbers is
//! proven by a test.

use super::demos;
use crate::document::Document;
use kernel::PointId;

/// What its link is called.
pub const NAME: &str = "a strut axle measured to ± 2 mm";

/// What a plumb bob and a tape leave open of a coordinate, mm (common practice).
const ERROR: f64 = 2.0;

/// The readings that it is about.
const PINNED: [&str; 5] =
    ["bump_steer_deg_per_mm", "toe_deg", "caster_deg", "kingpin_inclination_deg", "kingpin_offset_wheel_centre_mm"];

const NOTE: &str = "All joints are measured to ± 2 mm. The axis can be trusted: caster 3.50° ± 0.28°, inclination 14.11° ± 0.28°. Bump steer can’t: 0.002°/10 mm ± 0.051, whose very sign is open; 40 mm up toe is 0.10° ± 0.20°. Measure toe over travel instead, and let Fit find the joints.";

/// The document of its link; `None` only if its demo is none.
pub fn document() -> Option<Document> {
    let mut layout = demos::layout(0)?;
    layout.name = "Harbour shuttle, as measured".into();
    layout.note = NOTE.into();
    let joints: Vec<PointId> = layout.points().map(|(id, _)| id).filter(|id| id.is_joint()).collect();
    let mut document = Document { pinned: PINNED.to_vec(), ..Document::of(layout) };
    joints.into_iter().for_each(|id| document.set_error(id, ERROR));
    Some(document)
}
