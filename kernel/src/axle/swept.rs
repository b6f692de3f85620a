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
use crate::pose::{Demand, Height, Position, Solved, Steering, solve};
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
        let (stands, turned) = Swept::places(linkage, rack, travel, angle)?;
        let camber = |place: Position| Attitude::new(place.pose.r * linkage.spin, linkage.loaded_radius).camber;
        Some(Swept::of_cambers(camber(stands.position), turned.map(camber), angle))
    }

    /// What a sweep finds from the cambers of the wheel that stands, and at +`angle`, 0 and −`angle`: linear, so that it serves for their rates too.
    pub(crate) fn of_cambers(camber: f64, [left, ahead, right]: [f64; 3], angle: f64) -> Swept {
        let (sin, cos) = angle.to_radians().sin_cos();
        let inclination = (left + right - 2.0 * ahead) / (2.0 * (1.0 - cos));
        Swept { caster: (left - right) / (2.0 * sin), inclination, camber }
    }

    /// Where the carrier is in a sweep: standing at the travel, and at steer angles +`angle`, 0, −`angle` with the spring as long.
    pub(crate) fn places(linkage: &Linkage, rack: &Rack, travel: f64, angle: f64) -> Option<(Solved, [Position; 3])> {
        if angle < Swept::LEAST {
            return None;
        }
        let stands = solve(linkage, Demand::new(travel, 0.0), &Position::at_rest(linkage)).ok()?;
        let height = Height::SpringLength(linkage.spring().evaluate(&stands.position.pose).0);
        let turned = |steer| {
            let demand = Demand { height, steering: Steering::Steer(steer) };
            let place = solve(linkage, demand, &stands.position).ok()?.position;
            (place.rack.abs() <= rack.travel).then_some(place)
        };
        let all = [turned(angle)?, turned(0.0)?, turned(-angle)?];
        Some((stands, all))
    }
}
