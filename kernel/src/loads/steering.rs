//! What a load turns about the steering axis, and what rack and driver feel of it.
//!
//! By virtual work, with ξ the steering motion per radian about the axis (rack moves, spring keeps its length) and ξ_r the same per
//! mm of rack: the moment about the axis is w·ξ, and the force the wheel puts on the rack is w·ξ_r — which the track rod's tension
//! along the rack must equal. Each part of the load has its own share; shares add up.

use super::Load;
use crate::frame::Vec3;
use crate::layout::{Rack, Vehicle};
use crate::linkage::Linkage;
use crate::math::Wrench;
use crate::state::{Attitude, ShaftState, State};
use std::f64::consts::TAU;

/// A part of a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// Longitudinal force at the wheel centre: drive, drag, a bump's blow.
    Drive,
    /// What the half-shaft's bent joints put on the carrier.
    Shaft,
    /// Longitudinal force at the road: braking.
    Brake,
    /// Side force.
    Side,
    /// The load of the wheel, less its own weight.
    WheelLoad,
    /// The tyre's own moment about the vertical.
    Aligning,
}

impl Share {
    /// Every share with its name.
    pub const ALL: [(Share, &'static str); 6] = [
        (Share::Drive, "drive, at the wheel centre"),
        (Share::Shaft, "drive-joint angles"),
        (Share::Brake, "braking, at the road"),
        (Share::Side, "lateral force"),
        (Share::WheelLoad, "wheel load, less the wheel’s own weight"),
        (Share::Aligning, "tyre’s own moment"),
    ];
}

/// Moments about the steering axis of the left wheel, N·mm, positive turning the wheel to the left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteeringMoment {
    /// In the order of [`Share::ALL`].
    pub shares: [f64; 6],
    /// What the wheel puts on the rack, N, positive to the left; holding the rack takes its negative.
    pub rack_force: f64,
    /// Turn of the wheel per mm of rack, rad, which says to which side the rack steers.
    turn_per_rack: f64,
}

impl SteeringMoment {
    /// The moment of a load at a state; `None` where there is no steering axis.
    pub fn of(load: &Load, state: &State) -> Option<SteeringMoment> {
        let axis = state.axis.ok()?;
        let Attitude { contact, .. } = state.attitude;
        let about = |at: Vec3, force: Vec3| Wrench::at(at, state.attitude.along(force)).power(&axis.twist);
        let (road, hub) = (load.road, load.centre);
        let (x, y) = (|v: Vec3| Vec3::new(v.x, 0.0, 0.0), |v: Vec3| Vec3::new(0.0, v.y, 0.0));
        let origin = Vec3::zeros();
        let shares = [
            about(origin, x(hub)),
            load.shaft_wrench(state).power(&axis.twist),
            about(contact, x(road)),
            about(contact, y(road)) + about(origin, y(hub)),
            load.weight_power(state, &axis.twist),
            load.aligning * axis.twist.omega.z,
        ];
        let rack_force = shares.iter().sum::<f64>() * axis.turn_per_rack;
        Some(SteeringMoment { shares, rack_force, turn_per_rack: axis.turn_per_rack })
    }

    /// Net steering moment of half-shafts of unequal length, N·mm (left less right), both wheels straight ahead at this travel under equal
    /// torque. `None` where the shafts are alike.
    pub fn shaft_difference(load: &Load, linkage: &Linkage, state: &State) -> Option<f64> {
        let axis = state.axis.ok()?;
        let left = load.shaft_wrench(state);
        let right = ShaftState::right(linkage, &state.position)?.wrench(load.drive_torque)?;
        Some(left.power(&axis.twist) - right.power(&axis.twist))
    }

    /// The whole moment, N·mm.
    pub fn total(&self) -> f64 {
        self.shares.iter().sum()
    }

    /// What this wheel alone asks of the driver's hands. Rack and pinion do the same work but for the gear's friction, so without it the torque
    /// is −F·c/2π, c the rack's stroke per turn, to the left where the rack steers to the left.
    pub fn hands(&self, rack: &Rack, vehicle: &Vehicle) -> Hands {
        let smooth = -self.rack_force * rack.per_turn / TAU * self.turn_per_rack.signum();
        Hands { hold: smooth * vehicle.steering_efficiency, turn: smooth / vehicle.steering_efficiency }
    }
}

/// Torques at the steering wheel, N·mm, positive to the left (ISO 8855:2011, 7.1.8).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hands {
    /// The least that holds the wheel still: the gear's friction helps.
    pub hold: f64,
    /// What turns the wheel against the load: the gear's friction is overcome too.
    pub turn: f64,
}
