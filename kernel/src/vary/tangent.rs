//! Which way a pose and all that is read from it move when a parameter does.
//!
//! A wheel with travel and rack held stands where F(ξ, p) = 0, F being its five guides and its rise. Along p it moves by the exact
//! ```text
//! J ξ' = −∂F/∂p          J: the Jacobian of F at the pose, factored there already
//! ```
//! A reading f(ξ, p) can contain J itself (the steering axis is a motion), so its slope is not in the rows at one pose. But any curve that leaves
//! the pose along ξ' has the slope of the true one: f(exp(h ξ')·pose, p + h) is differenced over h at poses that are placed, not solved. What a
//! rig's sweep finds contains poses alone, and its slope no difference of poses at all. ∂F/∂p, at one pose, is a difference of the rows over p.

use super::{Parameter, Quantity};
use crate::axle::{NoAxle, Swept, linkage_of};
use crate::layout::{Built, Layout, LeftOrRight, Sides};
use crate::linkage::Linkage;
use crate::math::{Factored, Line, Pose, Twist};
use crate::pose::{Demand, Position, Solved, solve, steer_angle, steer_row};
use crate::reading::{Known, Snapshot};
use crate::state::{Attitude, State};

/// The equations of a wheel with a parameter moved by a step, by half of it, and back by as much; nothing is solved.
pub(super) struct Moved {
    linkages: [Linkage; 4],
    step: f64,
}

/// The parts of a step at which the equations are known.
const PARTS: [f64; 4] = [1.0, -1.0, 0.5, -0.5];

impl Moved {
    /// Of a layout, one side of which has a parameter moved by so much.
    pub fn of(layout: &Layout, side: LeftOrRight, parameter: Parameter, step: f64) -> Moved {
        let linkages = PARTS.map(|part| {
            let moved = parameter.added(layout, Sides::One(side), part * step);
            Linkage::drawn(&moved).stretched(&Built::of(&moved, side))
        });
        Moved { linkages, step }
    }

    /// The slope of what has these values at the parts of the step, by Richardson's rule: see [`STEP`](super::STEP).
    fn rule(&self, [up, down, half_up, half_down]: [f64; 4]) -> f64 {
        let [whole, half] = [(up - down) / (2.0 * self.step), (half_up - half_down) / self.step];
        (4.0 * half - whole) / 3.0
    }

    /// The slope of something read from the equations at a pose that stays.
    fn slope(&self, of: impl Fn(&Linkage) -> f64) -> f64 {
        self.rule(self.linkages.each_ref().map(of))
    }

    /// The slopes of the guides at a position that stays, negative: what a motion has to make up for.
    fn lacking(&self, at: &Position) -> [f64; 5] {
        let residuals = self.linkages.each_ref().map(|linkage| linkage.guides(&at.pose, at.rack).0);
        std::array::from_fn(|i| -self.rule(residuals.map(|all| all[i])))
    }

    /// The motion of the carrier per unit of the parameter, travel and rack held.
    fn motion(&self, at: &Solved) -> Twist {
        let [a, b, c, d, e] = self.lacking(&at.position);
        let rise = self.slope(|linkage| linkage.travel(&at.position.pose));
        solved(&at.jacobian, [a, b, c, d, e, -rise])
    }
}

/// A motion; none where the equations have lost a pivot, which no solved position has.
fn solved(jacobian: &Factored, wanted: [f64; 6]) -> Twist {
    jacobian.twist(&wanted).unwrap_or(Twist::NONE)
}

/// A wheel at a position, and turned as on a rig where the car stands.
pub(super) struct Wheel {
    here: Solved,
    rig: Option<Rig>,
}

impl Wheel {
    /// One of a layout, as a left one; or why it can't be there.
    pub fn at(layout: &Layout, side: LeftOrRight, travel: f64, rack: f64) -> Result<Wheel, NoAxle> {
        let linkage = linkage_of(layout, side)?;
        let here = solve(&linkage, Demand::new(travel, rack), &Position::at_rest(&linkage));
        let rig = layout.rack.as_ref().and_then(|rack| {
            let (stands, turned) = Swept::places(&linkage, rack, layout.changes.ride(), Swept::ANGLE)?;
            let pose = stands.position.pose;
            let spring = linkage.spring().evaluate(&pose).1;
            let attitude = Attitude::new(pose.r * linkage.spin, linkage.loaded_radius);
            Some(Rig { stands, spring, attitude, turned: turned.map(|place| Turned::at(&linkage, place)) })
        });
        Ok(Wheel { here: here.map_err(NoAxle::Unsolved)?, rig })
    }

    /// The slope of every quantity, in the order of [`Quantity::all`]; `None` where there is none.
    pub fn slopes(&self, moved: &Moved) -> Vec<Option<f64>> {
        let motion = moved.motion(&self.here);
        let Position { pose, rack } = self.here.position;
        let states: [State; 4] = std::array::from_fn(|i| {
            let pose = pose.moved(&motion.scaled(PARTS[i] * moved.step));
            let linkage = &moved.linkages[i];
            State::read(linkage, &Solved::at(linkage, Position { pose, rack }))
        });
        let seen = states.each_ref().map(Snapshot::of);
        let swept = self.rig.as_ref().map(|rig| rig.slopes(moved));
        // What is read of a sweep is linear in it: of the slopes it reads slopes.
        let known = Known::of_rig(swept);
        let rig = Snapshot::of(&states[0]).knowing(&known);
        let slope = |quantity: Quantity| {
            if quantity.is_swept() {
                return quantity.of(&rig);
            }
            let [a, b, c, d] = seen.each_ref().map(|seen| quantity.of(seen));
            Some(moved.rule([a?, b?, c?, d?]))
        };
        Quantity::all().map(|quantity| slope(quantity).filter(|slope| slope.is_finite())).collect()
    }
}

/// A wheel on a rig: standing, and turned left, ahead and right with the spring as long.
struct Rig {
    stands: Solved,
    /// The spring's line there.
    spring: Line,
    attitude: Attitude,
    turned: [Turned; 3],
}

impl Rig {
    /// The slopes of what the sweep finds. The spring's length that is held is that of the standing wheel, which moves with the parameter.
    fn slopes(&self, moved: &Moved) -> Swept {
        let (motion, pose) = (moved.motion(&self.stands), &self.stands.position.pose);
        let length = self.spring.rate(&motion) + length_slope(moved, pose);
        let camber = camber_slope(moved, pose, &self.attitude, &motion);
        Swept::of_cambers(camber, self.turned.each_ref().map(|turned| turned.camber_slope(moved, length)), Swept::ANGLE)
    }
}

/// The slope of camber, degrees, of a carrier that moves so.
fn camber_slope(moved: &Moved, pose: &Pose, attitude: &Attitude, motion: &Twist) -> f64 {
    let leans = moved.slope(|linkage| Attitude::new(pose.r * linkage.spin, linkage.loaded_radius).camber);
    attitude.camber_rate(motion).to_degrees() + leans
}

/// The slope of the spring's length at a pose that stays.
fn length_slope(moved: &Moved, pose: &Pose) -> f64 {
    moved.slope(|linkage| linkage.spring().evaluate(pose).0)
}

/// A wheel turned to a steer angle, with its equations factored: guides and spring.
struct Turned {
    place: Position,
    held: Factored,
    steer: Line,
    attitude: Attitude,
    /// The carrier's motion per mm of rack, the spring's length held.
    by_rack: Twist,
}

impl Turned {
    fn at(linkage: &Linkage, place: Position) -> Turned {
        let guides = linkage.guides(&place.pose, place.rack).1;
        let [a, b, c, d, e] = guides;
        let held = Factored::of(&[a, b, c, d, e, linkage.spring().evaluate(&place.pose).1]);
        let spin = place.pose.r * linkage.spin;
        Turned {
            by_rack: solved(&held, [0.0, 0.0, 0.0, 0.0, linkage.rack_rate(&guides), 0.0]),
            steer: steer_row(spin),
            attitude: Attitude::new(spin, linkage.loaded_radius),
            place,
            held,
        }
    }

    /// The slope of camber, degrees, with the steer angle held and the spring's length growing by so much. The rack makes up for what the steer angle
    /// would do: with a the motion at a rack that stays, b the one per mm of rack,
    /// ```text
    /// steer·(a + b q) + ∂steer/∂p = 0   ⇒   q = −(∂steer/∂p + steer·a)/(steer·b)
    /// ```
    fn camber_slope(&self, moved: &Moved, length: f64) -> f64 {
        let Turned { place, held, steer, attitude, by_rack } = self;
        let [a, b, c, d, e] = moved.lacking(place);
        let still = solved(held, [a, b, c, d, e, length - length_slope(moved, &place.pose)]);
        let turns = moved.slope(|linkage| steer_angle(place.pose.r * linkage.spin));
        let rack = -(turns + steer.rate(&still)) / steer.rate(by_rack);
        camber_slope(moved, &place.pose, attitude, &still.plus(rack, by_rack))
    }
}
