//! The one table of readings: page, curves, table, links and comparison all read it. Long because it is one table.

mod axle;
pub mod table;

pub use axle::{AXLE_READINGS, Whole};

use crate::state::State;

/// A quantity that can be read from a state, of one wheel or of what `S` says.
#[derive(Clone, Copy)]
pub struct Reading<S: 'static = State> {
    /// Name in tables, links and the JavaScript interface, with its unit.
    pub column: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// The group it stands in.
    pub group: Group,
    /// Its unit.
    pub unit: Unit,
    /// The sign rule: what a positive value says.
    pub positive: &'static str,
    /// What it is, in a sentence.
    pub meaning: &'static str,
    /// What else the trade calls it, in English and German (common practice); may be empty.
    pub also: &'static str,
    /// How it is computed. W wheel centre, C contact point, k axis, P axis at the road, Q axis at hub height, v velocities.
    pub formula: &'static str,
    /// Where the definition comes from, with its grade.
    pub source: &'static str,
    /// The value; `None` where the state has none (an unsteered axle has no steering axis, a level axis meets no road).
    pub value: fn(&S) -> Option<f64>,
}

/// Groups of readings, in the order of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Where the state is.
    Position,
    /// How the wheel stands.
    Wheel,
    /// Angles and offsets of the steering axis.
    SteeringAxis,
    /// What a unit force turns about the steering axis.
    LeverArms,
    /// Rates over travel.
    Bump,
    /// The half-shaft's joints.
    HalfShaft,
    /// The whole axle.
    Axle,
}

/// Units of readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// mm
    Millimetre,
    /// °
    Degree,
    /// mm/rad
    MillimetrePerRadian,
    /// °/mm
    DegreePerMillimetre,
    /// A ratio.
    One,
    /// %
    Percent,
    /// m
    Metre,
    /// N·m
    NewtonMetre,
    /// N/mm
    NewtonPerMillimetre,
    /// N·m/°
    NewtonMetrePerDegree,
    /// Hz
    Hertz,
    /// Standard gravity, g
    Gravity,
}

impl Reading {
    /// The reading of a column name.
    pub fn named(column: &str) -> Option<&'static Reading> {
        READINGS.iter().find(|reading| reading.column == column)
    }
}

/// What a column's name ends in, for its unit.
const UNITS: [&str; 10] =
    ["_mm_per_rad", "_deg_per_mm", "_nm_per_deg", "_n_per_mm", "_percent", "_deg", "_mm", "_nm", "_hz", "_g"];

impl<S> Reading<S> {
    /// What links call it: the column without its unit (`_m` stays: links have carried it since it came).
    pub fn short(&self) -> &'static str {
        UNITS.iter().find_map(|unit| self.column.strip_suffix(unit)).unwrap_or(self.column)
    }
}

const ISO: &str = "ISO 8855:2011 (wording not checked)";
const KINGPIN: &str = "Barton & Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 117";
const WORK: &str = "virtual work; common practice for the name";
const PRACTICE: &str = "common practice";

/// Every reading, in the order of the table.
pub static READINGS: [Reading; 28] = [
    Reading {
        column: "travel_mm",
        name: "Travel",
        group: Group::Position,
        unit: Unit::Millimetre,
        positive: "bump: the wheel is higher than at rest, relative to the body",
        meaning: "Rise of the wheel centre relative to the body.",
        also: "bump and droop, jounce and rebound; in German Federweg",
        formula: "W_z − W_z(rest)",
        source: ISO,
        value: |s| Some(s.travel),
    },
    Reading {
        column: "rack_mm",
        name: "Rack",
        group: Group::Position,
        unit: Unit::Millimetre,
        positive: "the rack moves to the left",
        meaning: "Displacement of the steering rack.",
        also: "rack travel; in German Zahnstangenweg",
        formula: "track rod inner joint, y − y(rest)",
        source: PRACTICE,
        value: |s| Some(s.position.rack),
    },
    Reading {
        column: "camber_deg",
        name: "Camber",
        group: Group::Wheel,
        unit: Unit::Degree,
        positive: "the wheel’s top leans out of the car",
        meaning: "Lean of the wheel plane against the vertical.",
        also: "in German Sturz",
        formula: "−asin(n_z), n the outward spin axis",
        source: ISO,
        value: |s| Some(s.attitude.camber),
    },
    Reading {
        column: "steer_deg",
        name: "Steer angle",
        group: Group::Wheel,
        unit: Unit::Degree,
        positive: "the wheel turns left",
        meaning: "Angle of the wheel plane against the car’s centre plane, seen from above.",
        also: "road-wheel angle; in German Lenkwinkel",
        formula: "atan2(−n_x, n_y)",
        source: ISO,
        value: |s| Some(s.attitude.steer),
    },
    Reading {
        column: "toe_deg",
        name: "Toe",
        group: Group::Wheel,
        unit: Unit::Degree,
        positive: "toe-in: the wheel’s front points to the centre plane",
        meaning: "Steer angle of this wheel, counted towards the car’s centre plane.",
        also: "toe-in, static toe; in German Vorspur",
        formula: "−steer (left wheel)",
        source: "ISO 8855:2011, 7.1.6 (published extract)",
        value: |s| Some(-s.attitude.steer),
    },
    Reading {
        column: "track_change_mm",
        name: "Half-track change",
        group: Group::Wheel,
        unit: Unit::Millimetre,
        positive: "the contact point has moved out",
        meaning: "Lateral movement of the contact point from rest.",
        also: "track change of one side, scrub in bump; in German Spurweitenänderung",
        formula: "C_y − C_y(rest)",
        source: PRACTICE,
        value: |s| Some(s.contact_shift.y),
    },
    Reading {
        column: "wheelbase_change_mm",
        name: "Wheelbase change",
        group: Group::Wheel,
        unit: Unit::Millimetre,
        positive: "the contact point has moved forward",
        meaning: "Longitudinal movement of the contact point from rest.",
        also: "in German Radstandsänderung",
        formula: "C_x − C_x(rest)",
        source: PRACTICE,
        value: |s| Some(s.contact_shift.x),
    },
    Reading {
        column: "caster_deg",
        name: "Caster",
        group: Group::SteeringAxis,
        unit: Unit::Degree,
        positive: "the top of the axis leans rearward",
        meaning: "Lean of the steering axis in side view.",
        also: "castor; in German Nachlaufwinkel",
        formula: "atan2(−k_x, k_z)",
        source: ISO,
        value: |s| s.axis.ok().map(|axis| axis.caster),
    },
    Reading {
        column: "kingpin_inclination_deg",
        name: "Kingpin inclination",
        group: Group::SteeringAxis,
        unit: Unit::Degree,
        positive: "the top of the axis leans inward",
        meaning: "Lean of the steering axis in front view.",
        also: "steering axis inclination, KPI; in German Spreizung",
        formula: "atan2(−k_y, k_z)",
        source: ISO,
        value: |s| s.axis.ok().map(|axis| axis.inclination),
    },
    Reading {
        column: "scrub_radius_mm",
        name: "Scrub radius",
        group: Group::SteeringAxis,
        unit: Unit::Millimetre,
        positive: "the axis meets the road inboard of the contact point",
        meaning: "Distance on the road from the axis to the contact point, across the wheel.",
        also: "kingpin offset at ground, steering offset; in German Lenkrollradius",
        formula: "(C − P)·e_y'",
        source: KINGPIN,
        value: |s| s.axis.ok()?.at_road.map(|p| (s.attitude.contact - p).dot(&s.attitude.side)),
    },
    Reading {
        column: "caster_offset_ground_mm",
        name: "Caster offset at ground",
        group: Group::SteeringAxis,
        unit: Unit::Millimetre,
        positive: "the axis meets the road ahead of the contact point",
        meaning: "Distance on the road from the contact point to the axis, along the wheel.",
        also: "caster trail, mechanical trail; in German Nachlaufstrecke",
        formula: "(P − C)·e_x'",
        source: ISO,
        value: |s| s.axis.ok()?.at_road.map(|p| (p - s.attitude.contact).dot(&s.attitude.heading)),
    },
    Reading {
        column: "kingpin_offset_wheel_centre_mm",
        name: "Kingpin offset at wheel centre",
        group: Group::SteeringAxis,
        unit: Unit::Millimetre,
        positive: "at hub height the axis passes inboard of the wheel centre",
        meaning: "Distance at hub height from the axis to the wheel centre, across the wheel.",
        also: "spindle offset, kingpin offset at hub",
        formula: "(W − Q)·e_y'",
        source: KINGPIN,
        value: |s| s.axis.ok()?.at_hub.map(|q| -q.dot(&s.attitude.side)),
    },
    Reading {
        column: "caster_offset_wheel_centre_mm",
        name: "Caster offset at wheel centre",
        group: Group::SteeringAxis,
        unit: Unit::Millimetre,
        positive: "at hub height the axis passes ahead of the wheel centre",
        meaning: "Distance at hub height from the wheel centre to the axis, along the wheel.",
        also: "in German Nachlaufversatz",
        formula: "(Q − W)·e_x'",
        source: PRACTICE,
        value: |s| s.axis.ok()?.at_hub.map(|q| q.dot(&s.attitude.heading)),
    },
    Reading {
        column: "screw_pitch_mm_per_rad",
        name: "Screw pitch",
        group: Group::SteeringAxis,
        unit: Unit::MillimetrePerRadian,
        positive: "the carrier rises along the axis while the wheel turns left",
        meaning: "How far the carrier slides along the axis per radian of turn about it; 0 where the axis passes through real joints and the spring holds one of them still.",
        also: "",
        formula: "ω·v/‖ω‖²",
        source: "Lynch & Park, Modern Robotics, sec. 3.3",
        value: |s| s.axis.ok().map(|axis| axis.screw.pitch),
    },
    Reading {
        column: "brake_lever_arm_mm",
        name: "Braking force",
        group: Group::LeverArms,
        unit: Unit::Millimetre,
        positive: "braking steers the wheel towards toe-out, as with the axis inboard",
        meaning: "Lever arm about the steering axis of a braking force at the contact point; outboard brake.",
        also: "in German Bremskrafthebelarm",
        formula: "−v_C·e_x' per radian of steering",
        source: WORK,
        value: |s| s.axis.ok().map(|axis| axis.brake_lever),
    },
    Reading {
        column: "drive_lever_arm_mm",
        name: "Drive force",
        group: Group::LeverArms,
        unit: Unit::Millimetre,
        positive: "drive steers the wheel towards toe-in, as with the axis inboard",
        meaning: "Lever arm about the steering axis of a longitudinal force at the wheel centre: half-shaft drive, drag, bumps, inboard brakes.",
        also: "disturbance force lever arm; in German Störkrafthebelarm",
        formula: "−v_W·e_x' per radian of steering",
        source: WORK,
        value: |s| s.axis.ok().map(|axis| axis.drive_lever),
    },
    Reading {
        column: "side_lever_arm_mm",
        name: "Lateral force",
        group: Group::LeverArms,
        unit: Unit::Millimetre,
        positive: "a lateral force to the left steers the wheel to the right, as with the axis ahead",
        meaning: "Lever arm about the steering axis of a lateral force at the contact point.",
        also: "side force; in German Seitenkrafthebelarm",
        formula: "−v_C·e_y' per radian of steering",
        source: WORK,
        value: |s| s.axis.ok().map(|axis| axis.side_lever),
    },
    Reading {
        column: "wheel_load_lever_arm_mm",
        name: "Wheel load",
        group: Group::LeverArms,
        unit: Unit::Millimetre,
        positive: "the contact point rises as the wheel turns left, so the wheel load steers it to the left",
        meaning: "Lever arm about the steering axis of the wheel load.",
        also: "in German Radlasthebelarm",
        formula: "v_C·e_z per radian of steering",
        source: WORK,
        value: |s| s.axis.ok().map(|axis| axis.load_lever),
    },
    Reading {
        column: "spring_length_mm",
        name: "Spring length",
        group: Group::Bump,
        unit: Unit::Millimetre,
        positive: "always",
        meaning: "Distance between the spring’s two ends.",
        also: "in German Federlänge",
        formula: "‖foot − top‖",
        source: PRACTICE,
        value: |s| Some(s.spring_length),
    },
    Reading {
        column: "motion_ratio",
        name: "Motion ratio",
        group: Group::Bump,
        unit: Unit::One,
        positive: "the spring shortens in bump",
        meaning: "Spring compression per wheel travel.",
        also: "installation ratio, spring ratio (some mean its inverse); in German Federübersetzung",
        formula: "−d(spring length)/d(travel)",
        source: PRACTICE,
        value: |s| Some(s.bump.motion_ratio),
    },
    Reading {
        column: "bump_steer_deg_per_mm",
        name: "Bump steer",
        group: Group::Bump,
        unit: Unit::DegreePerMillimetre,
        positive: "toe-in grows in bump",
        meaning: "Change of toe per wheel travel, with the rack held.",
        also: "toe change; in German Vorspuränderung",
        formula: "d toe/d travel",
        source: PRACTICE,
        value: |s| Some(s.bump.steer),
    },
    Reading {
        column: "bump_camber_deg_per_mm",
        name: "Bump camber",
        group: Group::Bump,
        unit: Unit::DegreePerMillimetre,
        positive: "the wheel’s top moves out in bump",
        meaning: "Change of camber per wheel travel, with the rack held.",
        also: "camber gain, camber change; in German Sturzänderung",
        formula: "d camber/d travel",
        source: PRACTICE,
        value: |s| Some(s.bump.camber),
    },
    Reading {
        column: "roll_centre_height_mm",
        name: "Roll centre height",
        group: Group::Bump,
        unit: Unit::Millimetre,
        positive: "above the road",
        meaning: "Height of the point where the normals to both contact points’ paths meet, for a symmetric axle.",
        also: "in German Rollzentrumshöhe, Momentanzentrum",
        formula: "C_y·v_C,y/v_C,z",
        source: PRACTICE,
        value: |s| s.bump.roll_centre,
    },
    Reading {
        column: "support_angle_brake_deg",
        name: "Anti-dive angle",
        group: Group::Bump,
        unit: Unit::Degree,
        positive: "the contact point moves forward in bump",
        meaning: "Angle of the contact point’s path from the vertical, in side view; for outboard brakes.",
        also: "brake support angle; in German Bremsnickabstützwinkel",
        formula: "atan2(v_C,x, v_C,z)",
        source: PRACTICE,
        value: |s| Some(s.bump.support_brake),
    },
    Reading {
        column: "support_angle_wheel_centre_deg",
        name: "Anti-lift angle",
        group: Group::Bump,
        unit: Unit::Degree,
        positive: "the wheel centre moves forward in bump",
        meaning: "Angle of the wheel centre’s path from the vertical, in side view; for drive and inboard brakes.",
        also: "drive support angle, anti-squat angle; in German Anfahr- und Schrägfederungswinkel",
        formula: "atan2(v_W,x, v_W,z)",
        source: PRACTICE,
        value: |s| Some(s.bump.support_wheel),
    },
    Reading {
        column: "half_shaft_inner_angle_deg",
        name: "Inner joint angle",
        group: Group::HalfShaft,
        unit: Unit::Degree,
        positive: "always",
        meaning: "Angle between the half-shaft and the car’s lateral axis, at its inner joint.",
        also: "articulation angle; in German Beugewinkel",
        formula: "acos(s_y), s along the shaft",
        source: PRACTICE,
        value: |s| s.half_shaft.map(|shaft| shaft.inner_angle),
    },
    Reading {
        column: "half_shaft_outer_angle_deg",
        name: "Outer joint angle",
        group: Group::HalfShaft,
        unit: Unit::Degree,
        positive: "always",
        meaning: "Angle between the half-shaft and the wheel’s spin axis, at its outer joint.",
        also: "articulation angle; in German Beugewinkel",
        formula: "acos(s·n)",
        source: PRACTICE,
        value: |s| s.half_shaft.map(|shaft| shaft.outer_angle),
    },
    Reading {
        column: "half_shaft_plunge_mm",
        name: "Plunge",
        group: Group::HalfShaft,
        unit: Unit::Millimetre,
        positive: "the shaft is longer than at rest",
        meaning: "Change in length taken up by the half-shaft’s plunging joint.",
        also: "in German Längenausgleich, Verschiebeweg",
        formula: "‖outer − inner‖ − its rest",
        source: PRACTICE,
        value: |s| s.half_shaft.map(|shaft| shaft.plunge),
    },
];
