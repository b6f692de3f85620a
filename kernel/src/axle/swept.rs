//! Caster and kingpin inclination as a rig finds them: from camber over a steering sweep.
//!
//! A rig sees no steering axis. It turns the wheel and reads camber γ at the steer angles δ = +A, 0, −A of that wheel, spring length held. Turned
//! about an axis k that stays, the spin axis n keeps its angle to it. With caster τ, inclination σ and k ∥ (−tan τ, −tan σ, 1) on a left wheel,
//! n = (−sin δ cos γ, cos δ cos γ, −sin γ):
//! ```text
//! n·k ∥ const   ⇒   cos γ (sin δ tan τ − cos δ tan σ) − sin γ = const   ⇒   γ ≈ const + τ sin δ − σ cos δ     (small angles)
//! τ ≈ (γ(+A) − γ(−A))/(2 sin A),     σ ≈ (γ(+A) + γ(−A) − 2 γ(0))/(2 (1 − cos A))
//! ```
//! These are what a printout calls caster and inclination; with split arms, whose axis moves with the steering, they are not the momentary ones.

use crate::layout::Rack;
use crate::linkage::Linkage;
use crate::math::Pose;
use crate::pose::{Demand, Height, Position, Steering, solve};
use crate::state::Attitude;

/// What a rig's sweep finds on one wheel, as a left one. Degrees, signs as of the steering axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swept {
    /// Caster by sweep: positive when the axis' top leans rearward.
    pub caster: f64,
    /// Kingpin inclination by sweep: positive when the axis' top leans inward.
    pub inclination: f64,
    /// Camber at that travel with rack 0, which a printout has beside them: positive when the wheel's top leans out.
    pub camber: f64,
}

impl Swept {
    /// Included angle: between steering axis, as the sweep finds it, and wheel plane, in front view. A bent knuckle
    /// changes it; an inner joint that is moved leans wheel and axis alike.
    pub fn included(&self) -> f64 {
        self.inclination + self.camber
    }

    /// The angle to which a rig turns the wheel each way, unless said otherwise, degrees; others turn it to 10°.
    pub const ANGLE: f64 = 20.0;

    /// The smallest angle that is swept to, degrees: less turns nothing but noise.
    pub const LEAST: f64 = 1.0;

    /// The sweep of a wheel to steer angles ±`angle`, degrees, with the spring as long as at this travel, mm, and rack 0. `None` where the rack's
    /// stroke ends before, or the members can't follow, or the angle is less than [`Swept::LEAST`].
    pub fn of(linkage: &Linkage, rack: &Rack, travel: f64, angle: f64) -> Option<Swept> {
        if angle < Swept::LEAST {
            return None;
        }
        let stands = solve(linkage, Demand::new(travel, 0.0), &Position::at_rest(linkage)).ok()?.position;
        let height = Height::SpringLength(linkage.spring().evaluate(&stands.pose).0);
        let camber_at = |pose: &Pose| Attitude::new(pose.r * linkage.spin, linkage.loaded_radius).camber;
        let camber = |steer| {
            let demand = Demand { height, steering: Steering::Steer(steer) };
            let Position { pose, rack: way } = solve(linkage, demand, &stands).ok()?.position;
            (way.abs() <= rack.travel).then(|| camber_at(&pose))
        };
        let (left, ahead, right) = (camber(angle)?, camber(0.0)?, camber(-angle)?);
        let (sin, cos) = angle.to_radians().sin_cos();
        Some(Swept {
            caster: (left - right) / (2.0 * sin),
            inclination: (left + right - 2.0 * ahead) / (2.0 * (1.0 - cos)),
            camber: camber_at(&stands.pose),
        })
    }
}
