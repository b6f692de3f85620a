//! The steering axis: the screw of the carrier's motion when the rack moves and the spring keeps its length.
//!
//! One definition for every axle. Where ball joints or a strut define an axis, the carrier turns about that line; the screw is
//! that line and its pitch 0 where the spring's length holds a point of it, as a spring on the wishbone or along the strut
//! does. (A tilted spring on the strut, or one on the carrier, lets the carrier slide along the line as it turns: two independent
//! solvers, in `tests/reference`, give −0.24 mm/rad for the one and −4.9 for the other, and so does this.) Where arms
//! are split, the axis is virtual, wanders with travel and steering, and may have a pitch.

use super::Attitude;
use crate::frame::Vec3;
use crate::math::{Screw, Twist};

/// The steering axis of the left wheel at a state. Lengths mm, angles degrees; signs and formulas in [`READINGS`](crate::READINGS).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteeringAxis {
    /// The screw about the wheel centre, with k_z ≥ 0.
    pub screw: Screw,
    /// The steering motion per radian about k.
    pub twist: Twist,
    /// Turn about the axis per mm of rack, rad.
    pub turn_per_rack: f64,
    /// Where it meets the road, P, from the wheel centre; `None` for a level axis.
    pub at_road: Option<Vec3>,
    /// Where it passes hub height, Q, from the wheel centre; `None` for a level axis.
    pub at_hub: Option<Vec3>,
    /// Caster, atan2(−k_x, k_z).
    pub caster: f64,
    /// Kingpin inclination, atan2(−k_y, k_z).
    pub inclination: f64,
    /// −v_C·e_x'.
    pub brake_lever: f64,
    /// −v_W·e_x'.
    pub drive_lever: f64,
    /// −v_C·e_y'.
    pub side_lever: f64,
    /// v_C·e_z.
    pub load_lever: f64,
}

/// Why a state has no steering axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoAxis {
    /// The axle has no rack.
    NotSteered,
    /// The spring does not move with travel here, so it does not hold the wheel while the rack moves.
    SpringIdle,
    /// The rack moves the carrier without turning it.
    NoTurn,
}

impl std::fmt::Display for NoAxis {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            NoAxis::NotSteered => "The axle has no rack.",
            NoAxis::SpringIdle => {
                "The spring does not move with travel here, so it does not hold the wheel while the rack moves."
            }
            NoAxis::NoTurn => "The rack moves the carrier without turning it.",
        })
    }
}

impl SteeringAxis {
    /// The axis of a steering motion, given per mm of rack.
    pub fn new(motion: &Twist, attitude: &Attitude) -> Result<SteeringAxis, NoAxis> {
        let mut screw = motion.screw().ok_or(NoAxis::NoTurn)?;
        if screw.k.z < 0.0 {
            screw.k = -screw.k;
        }
        let turn_per_rack = motion.omega.dot(&screw.k);
        let twist = motion.scaled(1.0 / turn_per_rack);
        let at_contact = twist.velocity(attitude.contact);
        Ok(SteeringAxis {
            screw,
            twist,
            turn_per_rack,
            at_road: screw.at_height(attitude.contact.z),
            at_hub: screw.at_height(0.0),
            caster: (-screw.k.x).atan2(screw.k.z).to_degrees(),
            inclination: (-screw.k.y).atan2(screw.k.z).to_degrees(),
            brake_lever: -at_contact.dot(&attitude.heading),
            drive_lever: -twist.v.dot(&attitude.heading),
            side_lever: -at_contact.dot(&attitude.side),
            load_lever: at_contact.z,
        })
    }
}
