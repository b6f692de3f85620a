//! A load on one carrier, and why a vehicle may have none.

use crate::frame::Vec3;
use crate::layout::Vehicle;
use crate::math::{Twist, Wrench};
use crate::state::State;

/// What acts on one carrier. Forces N, torque N·mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// At the contact point, along (e_x', e_y', e_z), wheel locked to the carrier.
    pub road: Vec3,
    /// At the wheel centre, along (e_x', e_y', e_z).
    pub centre: Vec3,
    /// Torque that the half-shaft brings to the wheel about its spin axis, driving forward; its force on the road is in `centre`.
    pub drive_torque: f64,
    /// Moment of the road on the tyre about the vertical at the contact point, N·mm, positive to the left: a side force's pneumatic trail,
    /// the friction of a tyre that is turned on the spot.
    pub aligning: f64,
    /// Weight of what moves with the wheel, at the wheel centre, downward.
    pub weight: f64,
}

impl Load {
    /// What a vehicle braking with `a` g, brakes at the wheels, puts on each front wheel; standing at 0.
    pub fn braking(vehicle: &Vehicle, a: f64) -> Load {
        vehicle.on_road(-vehicle.braking(a), 0.0, vehicle.standing() + vehicle.dive(a))
    }

    /// The wrench on the carrier about the wheel centre, with what a bent drive joint adds.
    pub fn wrench(&self, state: &State) -> Wrench {
        let attitude = &state.attitude;
        let force = attitude.along(self.centre - Vec3::z() * self.weight);
        let moment = Vec3::z() * self.aligning;
        let road = Wrench::at(attitude.contact, attitude.along(self.road));
        road.plus(&Wrench { force, moment }).plus(&self.shaft_wrench(state))
    }

    /// What the half-shaft's bent joints add; nothing without a half-shaft.
    pub fn shaft_wrench(&self, state: &State) -> Wrench {
        let none = Wrench { force: Vec3::zeros(), moment: Vec3::zeros() };
        state.half_shaft.and_then(|shaft| shaft.wrench(self.drive_torque)).unwrap_or(none)
    }

    /// Work of the wheel's load, less its own weight, in a motion, N·mm per unit of the motion.
    pub(super) fn weight_power(&self, state: &State, twist: &Twist) -> f64 {
        let up = |at: Vec3, force: f64| Wrench::at(at, Vec3::z() * force).power(twist);
        up(state.attitude.contact, self.road.z) + up(Vec3::zeros(), self.centre.z - self.weight)
    }

    /// Friction between tyre and road that the load asks for: force along the road by force square to it. `None` for a wheel in the air.
    pub fn friction(&self) -> Option<f64> {
        (self.road.z > 0.0).then(|| (self.road + self.centre).xy().norm() / self.road.z)
    }
}

/// Why a vehicle has no such load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoLoad {
    /// The body falls over: its roll stiffness, N·m/°, is less than this, which its weight over the roll axis asks for.
    Soft {
        /// Roll stiffness of both axles, N·m/°.
        stiffness: f64,
        /// What it must exceed.
        least: f64,
    },
    /// Two wheels are heavier than what their axle carries: kg.
    Unsprung {
        /// Of both wheels of the axle.
        unsprung: f64,
        /// What the axle carries.
        axle: f64,
        /// The front axle; else the rear one.
        front: bool,
    },
}

impl std::fmt::Display for NoLoad {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NoLoad::Soft { stiffness, least } => write!(
                f,
                "With a roll stiffness of {stiffness:.0} N·m/° the body falls over in a bend; it must be more than {least:.0} N·m/°."
            ),
            NoLoad::Unsprung { unsprung, axle, front } => {
                let which = if *front { "front" } else { "rear" };
                write!(
                    f,
                    "Both {which} wheels weigh {unsprung:.0} kg, but the {which} axle carries only {axle:.0} kg: nothing is left for the springs."
                )
            }
        }
    }
}

/// Friction of a tyre turned on the spot, and its pressure on the road, N/mm²; with 4 kN the round patch has a radius of 71 mm (of the usual size).
const TURNED: f64 = 0.8;
const PRESSURE: f64 = 0.25;

/// Moment, N·mm, that turns a tyre about the middle of a round patch of uniform pressure: ∫ µ p r dA = ⅔ µ F R with π R² p = F (statics of a
/// disc, any textbook; parking torque of cars: R. S. Sharp, R. Granger, Proc. IMechE D 217, 2003).
pub fn turning_friction(load: f64) -> f64 {
    let radius = (load / (std::f64::consts::PI * PRESSURE)).sqrt();
    2.0 / 3.0 * TURNED * load * radius
}
