//! Turning: both wheels' angles over the rack, where their axes meet, and the circle the car drives.
//!
//! Ackermann's condition for wheels that roll without slip (ISO 8855:2011, 7.1.9: the axes meet in the centre of rotation), with t the
//! distance of the steering axes at the road and l the wheelbase: cot(outer) − cot(inner) = t/l. An axle's share of it is the difference of
//! its angles in parts of the difference that the condition asks for at the same inner angle. Angles count from straight ahead.

use super::{AxleState, Stance};
use crate::axle::Axle;
use crate::frame::Vec3;
use crate::layout::{LeftOrRight, Rack, Vehicle};
use crate::pose::{Demand, Height, Steering, Unsolved};

/// The axle steered, both wheels at one travel.
#[derive(Clone, Debug)]
pub struct Turn {
    /// Both wheels.
    pub axle: AxleState,
    /// Angle of the inner wheel from straight ahead, degrees, as a size.
    pub inner: f64,
    /// Angle of the outer wheel.
    pub outer: f64,
    /// Share of Ackermann's difference; `None` below a degree, where both differences are too small for a meaningful ratio.
    pub ackermann: Option<f64>,
    /// Where the two wheels' axes meet in plan, (x, y); `None` where they are parallel, or meet far away.
    pub meet: Option<[f64; 2]>,
    /// y where each wheel's axis crosses the rear axle's line; `None` for a wheel that points ahead.
    pub on_rear_line: [Option<f64>; 2],
}

/// Inner angles below this, degrees, give no share.
const LEAST: f64 = 1.0;

/// Farther than this, mm, is "far away".
const FAR: f64 = 200_000.0;

/// The angle of the outer wheel at which both axes meet on the rear axle's line, degrees, for an inner angle, degrees.
pub fn ideal_outer(inner: f64, pins: f64, wheelbase: f64) -> f64 {
    let inner = inner.to_radians();
    inner.sin().atan2(inner.cos() + pins / wheelbase * inner.sin()).to_degrees()
}

/// The radius of a car with one steered wheel in its centre plane, mm.
pub fn single_track_radius(steer: f64, wheelbase: f64) -> f64 {
    wheelbase / steer.to_radians().tan()
}

impl Turn {
    /// The axle at the travel at which the car stands and a rack displacement, mm.
    pub fn at(axle: &Axle, rack: f64) -> Result<Turn, Unsolved> {
        let (guess, vehicle, travels) = (axle.at_rest(), axle.vehicle(), standing_travels(axle)?);
        let ahead = AxleState::at(axle, travels, 0.0, &guess)?;
        let axle = AxleState::at(axle, travels, rack, &guess)?;
        let angles = [0, 1].map(|i| axle.sides[i].steer - ahead.sides[i].steer);
        let left_turn = angles[0] + angles[1] >= 0.0;
        let [inner, outer] = if left_turn { angles } else { [-angles[1], -angles[0]] };
        let ideal = ideal_outer(inner, pins(&ahead), vehicle.wheelbase);
        let ackermann = (inner > LEAST).then(|| (inner - outer) / (inner - ideal)).filter(|share| share.is_finite());
        let lines = [0, 1].map(|i| {
            let side = &axle.sides[i];
            (side.centre, Vec3::new(side.spin.x, side.spin.y, 0.0))
        });
        let on_rear_line = lines.map(|(centre, along)| {
            let part = (-vehicle.wheelbase - centre.x) / along.x;
            let y = centre.y + part * along.y;
            (y.abs() < FAR).then_some(y)
        });
        Ok(Turn { inner, outer, ackermann, meet: meeting(lines), on_rear_line, axle })
    }

    /// The centre of rotation: on the rear axle's line, in the middle of where both wheels' axes cross it. y, mm; `None` ahead, and where the
    /// wheels point to different sides.
    pub fn centre(&self) -> Option<f64> {
        let [Some(left), Some(right)] = self.on_rear_line else { return None };
        (left.signum() == right.signum()).then(|| f64::midpoint(left, right))
    }

    /// Radius of the outermost tyre's path, mm: to the edge of a tyre of this width, kerb to kerb; to its middle for a width of 0.
    pub fn kerb_radius(&self, vehicle: &Vehicle, tyre: f64) -> Option<f64> {
        let centre = Vec3::new(-vehicle.wheelbase, self.centre()?, 0.0);
        let reach = |side: &super::Side| {
            let outer = side.contact + Vec3::new(side.spin.x, side.spin.y, 0.0) * (tyre / 2.0);
            (outer - centre).xy().norm()
        };
        Some(self.axle.sides.iter().map(reach).fold(0.0, f64::max))
    }

    /// Radius of the outermost front corner of the body, wall to wall, mm.
    pub fn wall_radius(&self, vehicle: &Vehicle) -> Option<f64> {
        let across = self.centre()?.abs() + vehicle.width / 2.0;
        Some(across.hypot(vehicle.wheelbase + vehicle.front_overhang))
    }
}

/// From steering axis to steering axis at the road, mm; from contact to contact where there is none.
fn pins(ahead: &AxleState) -> f64 {
    let [left, right] = [0, 1].map(|i| {
        let side = &ahead.sides[i];
        let at_road = side.state.axis.ok().and_then(|axis| axis.at_road);
        at_road.map_or(side.contact.y.abs(), |p| side.state.position.pose.w.y + p.y)
    });
    left + right
}

/// Where two level lines meet in plan.
fn meeting([(a, u), (b, v)]: [(Vec3, Vec3); 2]) -> Option<[f64; 2]> {
    let area = u.x * v.y - u.y * v.x;
    let part = ((b.x - a.x) * v.y - (b.y - a.y) * v.x) / area;
    let at = a + u * part;
    (at.x.abs() < FAR && at.y.abs() < FAR).then_some([at.x, at.y])
}

/// Toe-out on turns: how much less the outer wheel turns, degrees, when the inner one has turned by `inner` degrees from straight ahead,
/// to the left, at the travel at which the car stands. The inner wheel's angle is met exactly.
pub fn toe_out_on_turns(axle: &Axle, inner: f64) -> Result<f64, Unsolved> {
    let left = &axle.both_stand()[0];
    let demand = Demand { height: Height::Travel(left.travel), steering: Steering::Steer(left.attitude.steer + inner) };
    let turn = Turn::at(axle, axle.state_of(LeftOrRight::Left, demand)?.position.rack)?;
    Ok(turn.inner - turn.outer)
}

/// The travels at which both wheels stand on one road, the body level: that at which the car stands, or its mean where the sides differ.
fn standing_travels(axle: &Axle) -> Result<[f64; 2], Unsolved> {
    let travel = axle.standing_travel();
    if !axle.sides_differ() {
        return Ok([travel; 2]);
    }
    let level = AxleState::rolled(axle, Stance { travel, ..Stance::default() }, &axle.at_rest())?;
    Ok(level.sides.map(|side| side.state.travel))
}

/// Degrees of the steering wheel per degree of the mean road wheel, at an axle state; `None` where the rack does not steer.
pub fn steering_ratio(axle: &AxleState, rack: &Rack) -> Option<f64> {
    let per_mm = |side: &super::Side| {
        let axis = side.state.axis.ok()?;
        // The rate of the steer angle while the rack moves and the spring keeps its length.
        Some(side.state.attitude.steer_rate(&axis.twist.scaled(axis.turn_per_rack)).to_degrees())
    };
    let mean = f64::midpoint(per_mm(&axle.sides[0])?, per_mm(&axle.sides[1])?);
    let wheel = 360.0 / rack.per_turn;
    (mean.abs() > 1e-9).then(|| wheel / mean.abs())
}

/// How far steering lifts the car at each wheel, mm, with both springs at the length that they have at the travel at which the car stands: the
/// contact point's fall against the body. Left and right.
pub fn lift(axle: &Axle, rack: f64) -> Result<[f64; 2], Unsolved> {
    let fall = |side: LeftOrRight, rack: f64| {
        let stands = &axle.both_stand()[side.index()];
        let height = Height::SpringLength(stands.spring_length);
        let state = axle.state_of(side, Demand { height, steering: Steering::Rack(rack) })?;
        Ok(-(state.contact_shift.z - stands.contact_shift.z))
    };
    Ok([fall(LeftOrRight::Left, rack)?, fall(LeftOrRight::Right, if rack == 0.0 { 0.0 } else { -rack })?])
}
