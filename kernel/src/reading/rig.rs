//! The readings of a rig's steering sweep, in one table.

use super::{Group, Reading, Unit};

const SWEEP: &str = "common practice of alignment rigs; derived for an axis that stays in kernel/src/axle/swept.rs";

/// Every reading that a rig takes by sweeping the wheel to 20° each way with the spring at its length, in the order of the table.
pub(super) const RIG: [Reading; 3] = [
    Reading {
        column: "caster_sweep_deg",
        name: "Caster by sweep",
        group: Group::Rig,
        unit: Unit::Degree,
        positive: "as caster: the top of the axis leans rearward",
        meaning: "Caster as a rig’s printout has it: from the wheel’s camber at 20° of steering each way. Caster above is the axis’ lean at this moment: of one real axis the two agree; with split arms, whose axis moves while steering, they differ by degrees. A dash where the rack does not reach 20°.",
        also: "measured caster; in German Nachlauf, über Lenkeinschlag gemessen",
        formula: "(γ(+20°) − γ(−20°))/(2 sin 20°), γ camber at that steer angle",
        source: SWEEP,
        value: |s| Some(s.swept()?.caster),
    },
    Reading {
        column: "kingpin_inclination_sweep_deg",
        name: "Inclination by sweep",
        group: Group::Rig,
        unit: Unit::Degree,
        positive: "as kingpin inclination: the top of the axis leans inward",
        meaning: "Kingpin inclination as a rig’s printout has it: from the wheel’s camber at 20° of steering each way and straight ahead. Kingpin inclination above is the axis’ lean at this moment: of one real axis the two nearly agree; with split arms they differ by degrees. A dash where the rack does not reach 20°.",
        also: "measured SAI or KPI; in German Spreizung, über Lenkeinschlag gemessen",
        formula: "(γ(+20°) + γ(−20°) − 2γ(0))/(2(1 − cos 20°))",
        source: SWEEP,
        value: |s| Some(s.swept()?.inclination),
    },
    Reading {
        column: "included_angle_sweep_deg",
        name: "Included angle",
        group: Group::Rig,
        unit: Unit::Degree,
        positive: "the axis leans inward from the wheel plane",
        meaning: "Angle between wheel plane and steering axis in front view: inclination by sweep plus camber with the rack at 0. Setting camber leaves it nearly alone; a bent knuckle or strut changes it. A dash where the rack does not reach 20°.",
        also: "SAI plus camber",
        formula: "inclination by sweep + camber",
        source: SWEEP,
        value: |s| Some(s.swept()?.included()),
    },
];
