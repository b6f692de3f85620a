//! The readings of how near pieces come to each other, in one table.

use super::{Group, Reading, Unit};

const DISTANCES: &str = "definition, kernel/src/space.rs; the distances agree with meshes of manifold3d";

/// How near pieces are to each other, in the order of the table.
pub(super) const GAP: [Reading; 2] = [
    Reading {
        column: "wheel_gap_mm",
        name: "Least gap of the wheel",
        group: Group::Space,
        unit: Unit::Millimetre,
        positive: "apart; 0 where they meet",
        meaning: "Least distance of the wheel, tyre, rim and disc, from arms, track rod, strut, spring and the boxes of the layout. Brake and carrier are not modelled, the tyre is not flattened.",
        also: "tyre clearance; in German Freigang des Rades",
        formula: "min distance(wheel, piece)",
        source: DISTANCES,
        value: |s| s.gaps()?.wheel,
    },
    Reading {
        column: "least_gap_mm",
        name: "Least gap",
        group: Group::Space,
        unit: Unit::Millimetre,
        positive: "apart; 0 where they meet",
        meaning: "Least distance between any two of wheel, arms, track rod, strut, spring, half-shaft and boxes that are not connected. A spring or strut is taken to be built round what runs through it at rest.",
        also: "clearance; in German Freigang",
        formula: "min distance(piece, piece)",
        source: DISTANCES,
        value: |s| s.gaps()?.any,
    },
];
