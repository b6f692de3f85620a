//! What a load turns about the steering axis, and what rack and driver feel of it.
//!
//! By virtual work, with ξ the steering motion per radian about the axis (rack moves, spring keeps its length) and ξ_r the same per
//! mm of rack: the moment about the axis is w·ξ, and the force the wheel puts on the rack is w·ξ_r — which the track rod's tension
//! along the rack must equal. Each part of the load has its own share; shares add up.

use super::Load;
use crate::attitude::Attitude;
use crate::frame::Vec3;
use crate::half_shaft::ShaftState;
use crate::layout::{Rack, Vehicle};
use crate::linkage::Linkage;
use crate::screw::Wrench;
use crate::state::State;
use std::f64::consts::TAU;

/// A part of a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// Lengthwise force at the wheel centre: drive, drag, a bump's blow.
    Drive,
    /// The couple of the bent drive joint.
    Shaft,
    /// Lengthwise force at the road: braking.
    Brake,
    /// Side force.
    Side,
    /// The load of the wheel, less its own weight.
    WheelLoad,
}

impl Share {
    /// Every share with its name.
    pub const ALL: [(Share, &'static str); 5] = [
        (Share::Drive, "drive, at the wheel centre"),
        (Share::Shaft, "bent drive joint"),
        (Share::Brake, "braking, at the road"),
        (Share::Side, "side force"),
        (Share::WheelLoad, "wheel load"),
    ];
}

/// Moments about the steering axis of the left wheel, N·mm, positive turning the wheel to the left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteeringMoment {
    /// In the order of [`Share::ALL`].
    pub shares: [f64; 5],
    /// What the wheel puts on the rack, N, positive to the left; holding the rack takes its negative.
    pub rack_force: f64,
}

impl SteeringMoment {
    /// The moment of a load at a state; `None` where there is no steering axis.
    pub fn of(load: &Load, state: &State) -> Option<SteeringMoment> {
        let axis = state.axis.ok()?;
        let Attitude { contact, .. } = state.attitude;
        let about = |at: Vec3, force: Vec3| Wrench::at(at, state.attitude.along(force)).power(&axis.twist);
        let (road, hub) = (load.road, load.centre);
        let (x, y, z) = (
            |v: Vec3| Vec3::new(v.x, 0.0, 0.0),
            |v: Vec3| Vec3::new(0.0, v.y, 0.0),
            |v: Vec3| Vec3::new(0.0, 0.0, v.z),
        );
        let origin = Vec3::zeros();
        let shares = [
            about(origin, x(hub)),
            load.shaft_couple(state).dot(&axis.twist.omega),
            about(contact, x(road)),
            about(contact, y(road)) + about(origin, y(hub)),
            about(contact, z(road)) + about(origin, z(hub) - Vec3::z() * load.weight),
        ];
        let rack_force = shares.iter().sum::<f64>() * axis.turn_per_rack;
        Some(SteeringMoment { shares, rack_force })
    }

    /// What the bent joints of unequal half-shafts leave over, N·mm, both wheels ahead at this travel and drawing alike: the left
    /// one's moment less the right one's. `None` where the shafts are alike.
    pub fn shaft_difference(load: &Load, linkage: &Linkage, state: &State) -> Option<f64> {
        let axis = state.axis.ok()?;
        let left = load.shaft_couple(state);
        let right = ShaftState::right(linkage, &state.position)?.couple(load.drive_torque)?;
        Some((left - right).dot(&axis.twist.omega))
    }

    /// The whole moment, N·mm.
    pub fn total(&self) -> f64 {
        self.shares.iter().sum()
    }

    /// The torque, N·mm, that this wheel alone asks of the driver's hands to hold or move the rack against it.
    pub fn at_the_wheel(&self, rack: &Rack, vehicle: &Vehicle) -> f64 {
        -self.rack_force * rack.per_turn / TAU / vehicle.steering_efficiency
    }
}
