//! The readings of what gives way under unit loads, in one table: both wheels loaded and held by pads, the steering wheel held.

use super::{Group, Reading, Snapshot, Unit};

const MODEL: &str = "one linear step about the rigid pose, kernel/src/compliance.rs; common practice for the names";

/// Shorthand for the table below.
const fn entry(
    column: &'static str,
    name: &'static str,
    unit: Unit,
    [positive, meaning, also, formula]: [&'static str; 4],
    value: fn(&Snapshot) -> Option<f64>,
) -> Reading {
    Reading { column, name, group: Group::Compliance, unit, positive, meaning, also, formula, source: MODEL, value }
}

/// Every reading of what gives way, in the order of the table.
pub(super) const ELASTIC: [Reading; 9] = [
    entry(
        "toe_side_force_deg_per_kn",
        "Toe, side force",
        Unit::DegreePerKilonewton,
        [
            "toe-in",
            "Toe under a side force of 1 kN at each contact point, both to the right, as on the outer left wheel of a bend.",
            "side force steer, lateral force compliance steer; in German Seitenkraftlenken",
            "d toe/dF",
        ],
        |s| Some(s.elastic()?.toe_side_force),
    ),
    entry(
        "camber_side_force_deg_per_kn",
        "Camber, side force",
        Unit::DegreePerKilonewton,
        [
            "the wheel’s top moves out",
            "Camber under a side force of 1 kN at each contact point, both to the right.",
            "lateral force compliance camber; in German Seitenkraftsturz",
            "d camber/dF",
        ],
        |s| Some(s.elastic()?.camber_side_force),
    ),
    entry(
        "axle_steer_side_force_deg_per_kn",
        "Axle steer, side force",
        Unit::DegreePerKilonewton,
        [
            "the axle steers left, out of the bend to the right",
            "Mean steer of both wheels, the steering wheel held still, under a side force of 1 kN at each contact point, both to the right.",
            "compliance steer of the axle",
            "mean of both wheels",
        ],
        |s| Some(s.elastic()?.axle_steer_side_force),
    ),
    entry(
        "contact_sideways_mm_per_kn",
        "Contact point, side force",
        Unit::MillimetrePerKilonewton,
        [
            "with the force",
            "Movement of the carrier’s point at the contact point under a side force of 1 kN at each contact point, both to the right.",
            "lateral compliance at the contact patch; in German Querfederung",
            "v_C·F/F",
        ],
        |s| Some(s.elastic()?.contact_sideways),
    ),
    entry(
        "toe_brake_force_deg_per_kn",
        "Toe, braking force",
        Unit::DegreePerKilonewton,
        [
            "toe-in",
            "Toe under a braking force of 1 kN at each contact point, brakes on the carriers.",
            "brake force compliance steer; in German Bremskraftlenken",
            "d toe/dF",
        ],
        |s| Some(s.elastic()?.toe_brake_force),
    ),
    entry(
        "toe_drive_force_deg_per_kn",
        "Toe, driving force",
        Unit::DegreePerKilonewton,
        [
            "toe-in",
            "Toe under a driving force of 1 kN at each wheel centre.",
            "drive force compliance steer; in German Antriebskraftlenken",
            "d toe/dF",
        ],
        |s| Some(s.elastic()?.toe_drive_force),
    ),
    entry(
        "wheel_centre_lengthwise_mm_per_kn",
        "Wheel centre, driving force",
        Unit::MillimetrePerKilonewton,
        [
            "with the force",
            "Movement of the wheel centre along the heading under a driving force of 1 kN at each wheel centre.",
            "longitudinal compliance, recession; in German Längsfederung",
            "v_W·e_x'",
        ],
        |s| Some(s.elastic()?.wheel_centre_lengthwise),
    ),
    entry(
        "toe_aligning_moment_deg_per_100_nm",
        "Toe, aligning moment",
        Unit::DegreePerHundredNewtonMetres,
        [
            "toe-in",
            "Toe under a moment of 100 N·m about the vertical on each wheel, both to the left.",
            "aligning torque compliance steer; in German Rückstellmomentlenken",
            "d toe/dM",
        ],
        |s| Some(s.elastic()?.toe_aligning_moment),
    ),
    entry(
        "side_force_no_steer_point_mm",
        "Side force without steer",
        Unit::Millimetre,
        [
            "behind the contact point",
            "Where a side force would have to act for no change of toe.",
            "",
            "−(toe by side force)/(toe by aligning moment)",
        ],
        |s| s.elastic()?.side_force_no_steer_point,
    ),
];
