//! Compliance under unit loads: what is read of a wheel at a position.

use super::{Bushes, Compliance, Held};
use crate::axle::Axle;
use crate::frame::{Vec3, mirror};
use crate::math::{Twist, Wrench};
use crate::state::{Attitude, State};

/// The unit loads: 1 kN in N, and 100 N·m in N·mm.
const FORCE: f64 = 1000.0;
const MOMENT: f64 = 100_000.0;

/// Below this turn per moment, ° per 100 N·m, a wheel's toe does not give way, and no place of a side force makes it.
const STIFF: f64 = 1e-9;

/// What gives way at one wheel of an axle per 1 kN, or 100 N·m, on each of both wheels; wheels held by pads, the steering wheel held. Angles
/// degrees, lengths mm. Signs for the left wheel; on the right one everything is mirrored, loads too.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Elastic {
    /// Toe, toe-in positive, under side forces at both contact points that point from this wheel to the other: as on the outer wheel of a bend.
    pub toe_side_force: f64,
    /// Camber under the same, positive when the top moves out.
    pub camber_side_force: f64,
    /// Mean steer of both wheels under the same, positive to the left: out of the bend to the right whose outer wheel is the left one.
    pub axle_steer_side_force: f64,
    /// The carrier's point at the contact point under the same, positive with the force.
    pub contact_sideways: f64,
    /// Toe, toe-in positive, under braking forces at both contact points against the headings, brakes on the carriers.
    pub toe_brake_force: f64,
    /// Toe, toe-in positive, under driving forces at both wheel centres along the headings.
    pub toe_drive_force: f64,
    /// The wheel centre under the same, positive with the force.
    pub wheel_centre_lengthwise: f64,
    /// Toe, toe-in positive, under moments about the vertical, to the left on both wheels.
    pub toe_aligning_moment: f64,
    /// Where a side force would have to act for no change of toe, positive behind the contact point; `None` where toe does not give way.
    pub side_force_no_steer_point: Option<f64>,
}

impl Elastic {
    /// Of one wheel (0 left, 1 right) of an axle at the states of both, each as a left one. `None` where the guides don't hold a wheel.
    pub fn at(bushes: &Bushes, axle: &Axle, states: [&State; 2], wheel: usize) -> Option<Elastic> {
        Compliance::at(bushes, axle.linkages(), states, Held::ByPads).map(|held| Elastic::of(&held, states, wheel))
    }

    /// Of a compliance with the wheels held by pads.
    pub fn of(compliance: &Compliance, states: [&State; 2], wheel: usize) -> Elastic {
        let [own, other] = [states[wheel], states[1 - wheel]];
        let (here, there) = (&own.attitude, &other.attitude);
        let both = |own: Wrench, other: Wrench| if wheel == 0 { [own, other] } else { [other, own] };
        let toe = |twist: &Twist| -here.steer_rate(twist).to_degrees();
        // The same way in the car: a vector seen from the other side is mirrored, and so is a moment, the other way round.
        let side = -here.side * FORCE;
        let sideways = both(Wrench::at(here.contact, side), Wrench::at(there.contact, mirror(side)));
        let sideways = compliance.twists(&sideways);
        let braking = |at: &Attitude| Wrench::at(at.contact, -at.heading * FORCE);
        let driving = |at: &Attitude| Wrench { force: at.heading * FORCE, moment: Vec3::zeros() };
        let aligning = |moment: f64| Wrench { force: Vec3::zeros(), moment: Vec3::z() * moment };
        let braked = compliance.twist(wheel, &both(braking(here), braking(there)));
        let driven = compliance.twist(wheel, &both(driving(here), driving(there)));
        let turned = compliance.twist(wheel, &both(aligning(MOMENT), aligning(-MOMENT)));
        let (moved, toe_aligning_moment) = (&sideways[wheel], toe(&turned));
        let other_steer = -there.steer_rate(&sideways[1 - wheel]).to_degrees();
        // A force of 1 kN that acts a mm behind the contact point turns by a N·m.
        let no_steer = -100.0 * toe(moved) / toe_aligning_moment;
        Elastic {
            toe_side_force: toe(moved),
            camber_side_force: here.camber_rate(moved).to_degrees(),
            axle_steer_side_force: f64::midpoint(-toe(moved), other_steer),
            contact_sideways: moved.velocity(here.contact).dot(&side) / FORCE,
            toe_brake_force: toe(&braked),
            toe_drive_force: toe(&driven),
            wheel_centre_lengthwise: driven.v.dot(&here.heading),
            toe_aligning_moment,
            side_force_no_steer_point: (toe_aligning_moment.abs() > STIFF).then_some(no_steer),
        }
    }
}
