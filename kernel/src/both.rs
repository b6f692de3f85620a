//! Both wheels: the right one is the left one's mirror image, one rack steers both, and both stand on one road.
//!
//! Everything is said in the body's axes; it is the road that tilts. With the body rolled by φ (ISO 8855: about x, positive when it
//! leans to the right) the road's normal is N = (0, sin φ, cos φ). A wheel touches the road where its plane's steepest line, seen from N,
//! leaves it: u = (N − (N·n)n)/‖…‖, C = W − R_l·u. Both touch it when C_left·N = C_right·N.
//!
//! A rack displacement r is −r in the right wheel's mirrored layout.

mod turning;

pub use turning::{Turn, ideal_outer, lift, single_track_radius, steering_ratio, toe_out_on_turns};

use crate::axle::Axle;
use crate::frame::{Vec3, mirror};
use crate::pose::{Demand, Guess, Unsolved};
use crate::state::State;

/// How an axle stands on the road.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stance {
    /// Roll of the body, degrees, positive when it leans to the right.
    pub roll: f64,
    /// Mean travel of both wheels, mm.
    pub travel: f64,
    /// Displacement of the rack, mm.
    pub rack: f64,
}

/// One wheel of the axle, in the car's axes.
#[derive(Clone, Debug)]
pub struct Side {
    /// The state: of a left wheel, also for the right one, whose mirror image it is.
    pub state: State,
    /// The wheel centre.
    pub centre: Vec3,
    /// Outward spin axis.
    pub spin: Vec3,
    /// Where it touches the road.
    pub contact: Vec3,
    /// Velocity of the carrier's point there per mm of this wheel's travel.
    pub velocity: Vec3,
    /// Velocity of the wheel centre per mm of this wheel's travel.
    pub centre_velocity: Vec3,
    /// The wheel's heading along the road.
    pub heading: Vec3,
    /// Lean of the wheel plane against the road's normal, degrees, positive when the top leans out.
    pub camber_to_road: f64,
    /// Steer angle, degrees, positive to the left for both wheels.
    pub steer: f64,
}

/// Both wheels on one road.
#[derive(Clone, Debug)]
pub struct AxleState {
    /// Left and right.
    pub sides: [Side; 2],
    /// Roll of the body against the road, degrees.
    pub roll: f64,
    /// The road's normal in the body's axes.
    pub normal: Vec3,
    /// Rack displacement, mm.
    pub rack: f64,
}

/// Where a longitudinal force acts on the carrier.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// At the contact point: brakes at the wheels.
    Road,
    /// At the wheel centre: through half-shafts.
    Centre,
}

/// The roll centre of an axle, seen from ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollCentre {
    /// The place in the body's axes, at the wheel centres' x.
    pub at: Vec3,
    /// Over the road, square to it, mm.
    pub height: f64,
    /// Along the road from the middle between the contact points, to the left, mm.
    pub sideways: f64,
}

/// Newton steps to put both wheels on the road; three are usual.
const MOST: u32 = 20;

/// The wheels are on the road when this near it, mm.
const TOUCH: f64 = 1e-10;

/// Two normals within this angle of each other, rad, are one direction.
const PARALLEL: f64 = 1e-9;

/// One line where they lie this near each other, mm.
const ONE_LINE: f64 = 1e-6;

/// Beyond this distance, mm, an intersection has no practical meaning and counts as none.
const FAR: f64 = 50_000.0;

impl AxleState {
    /// The axle at two travels and a rack displacement, mm; the road is where both wheels stand. `guess` holds one for each wheel.
    pub fn at(axle: &Axle, travels: [f64; 2], rack: f64, guess: &[Guess; 2]) -> Result<AxleState, Unsolved> {
        let states = solve_both(axle, travels, rack, guess)?;
        let mut roll = 0.0_f64;
        for _ in 0..MOST {
            let now = AxleState::on_road(axle, states.clone(), roll, rack);
            let [l, r] = [now.sides[0].contact, now.sides[1].contact];
            let next = (r.z - l.z).atan2(l.y - r.y);
            let change = (next - roll).abs();
            roll = next;
            if change < 1e-14 {
                break;
            }
        }
        Ok(AxleState::on_road(axle, states, roll, rack))
    }

    /// The axle with the body rolled by so many degrees over wheels that keep the road, at a mean travel and rack displacement, mm.
    ///
    /// Newton's method on half the difference d of the travels, with f = C_left·N − C_right·N and f' = v_left·N + v_right·N: the rate of
    /// the lowest point of a circle is that of the carrier's point there.
    pub fn rolled(axle: &Axle, stance: Stance, guess: &[Guess; 2]) -> Result<AxleState, Unsolved> {
        let Stance { roll, travel, rack } = stance;
        let angle = roll.to_radians();
        let mut difference = -angle.tan() * axle.layout().wheel.centre.y;
        let mut guess = *guess;
        let mut before = f64::INFINITY;
        for _ in 0..MOST {
            let states = solve_both(axle, [travel + difference, travel - difference], rack, &guess)?;
            guess = states.each_ref().map(Guess::from);
            let now = AxleState::on_road(axle, states, angle, rack);
            let [left, right] = &now.sides;
            let gap = (left.contact - right.contact).dot(&now.normal);
            if gap.abs() < TOUCH || gap.abs() >= before && gap.abs() < 1e-8 {
                return Ok(AxleState { roll, ..now });
            }
            before = gap.abs();
            difference -= gap / (left.velocity + right.velocity).dot(&now.normal);
        }
        // A wheel whose contact point does not rise with travel cannot be put on a road: the positions left are what there is.
        AxleState::at(axle, [travel + difference, travel - difference], rack, &guess)
    }

    fn on_road(axle: &Axle, states: [State; 2], roll: f64, rack: f64) -> AxleState {
        let normal = Vec3::new(0.0, roll.sin(), roll.cos());
        let [left, right] = states;
        let sides = [(left, false), (right, true)].map(|(state, is_right)| {
            let to_car = |v: Vec3| if is_right { mirror(v) } else { v };
            let seen = to_car(normal);
            let n = state.attitude.spin;
            let across = (seen - n * n.dot(&seen)).try_normalize(0.0).unwrap_or_else(Vec3::z);
            let contact = -across * axle.linkages()[usize::from(is_right)].loaded_radius;
            let side = if is_right { -1.0 } else { 1.0 };
            Side {
                centre: to_car(state.position.pose.w),
                spin: to_car(n),
                contact: to_car(state.position.pose.w + contact),
                velocity: to_car(state.bump.twist.velocity(contact)),
                centre_velocity: to_car(state.bump.twist.v),
                heading: to_car(n.cross(&seen).try_normalize(0.0).unwrap_or_else(Vec3::x)),
                camber_to_road: -n.dot(&seen).clamp(-1.0, 1.0).asin().to_degrees(),
                steer: side * state.attitude.steer,
                state,
            }
        });
        AxleState { sides, roll: roll.to_degrees(), normal, rack }
    }

    /// Along the road, to the left.
    pub fn leftward(&self) -> Vec3 {
        Vec3::new(0.0, self.normal.z, -self.normal.y)
    }

    /// Mean of both travels, mm.
    pub fn travel(&self) -> f64 {
        f64::midpoint(self.sides[0].state.travel, self.sides[1].state.travel)
    }

    /// From contact point to contact point along the road, mm.
    pub fn track(&self) -> f64 {
        (self.sides[0].contact - self.sides[1].contact).dot(&self.leftward())
    }

    /// Toe of both wheels together, degrees, toe-in positive.
    pub fn total_toe(&self) -> f64 {
        self.sides[1].steer - self.sides[0].steer
    }

    /// What the axle steers, degrees, to the left: the mean of both wheels.
    pub fn axle_steer(&self) -> f64 {
        f64::midpoint(self.sides[0].steer, self.sides[1].steer)
    }

    /// Vertical force that the guides of both wheels carry past the springs per longitudinal force of the axle, each wheel's force along its own
    /// heading: the tangent of the support angle, for both wheels. By virtual work in bump a wheel with a force F carries F·(v·h)/(v_C·N), v the
    /// velocity of the place where F acts, h the heading; the car feels F·h_x of it lengthwise. `None` where a contact point does not rise.
    pub fn carried(&self, at: Place) -> Option<f64> {
        let carried = |side: &Side| {
            let rises = side.velocity.dot(&self.normal);
            let acts = if at == Place::Road { side.velocity } else { side.centre_velocity };
            (rises.abs() > 1e-6).then(|| acts.dot(&side.heading) / rises)
        };
        let [left, right] = &self.sides;
        let tangent = (carried(left)? + carried(right)?) / (left.heading.x + right.heading.x);
        tangent.is_finite().then_some(tangent)
    }

    /// Where the normals of both contact points' paths meet, seen from ahead: exact for the unsymmetric axle too. `None` where they
    /// meet far away. Two normals in one line, as of level parallel arms, meet everywhere on it: the middle is given.
    pub fn roll_centre(&self) -> Option<RollCentre> {
        let [left, right] = &self.sides;
        // Normals of the paths, in the yz plane: a quarter turn of the velocity.
        let [a, b] = [left, right].map(|side| Vec3::new(0.0, -side.velocity.z, side.velocity.y).try_normalize(1e-9));
        let (a, b) = (a?, b?);
        let sine = a.y * b.z - a.z * b.y;
        let between = right.contact - left.contact;
        let middle = (left.contact + right.contact) / 2.0;
        let one_line = sine.abs() <= PARALLEL && (between.y * a.z - between.z * a.y).abs() < ONE_LINE;
        let along = if one_line { (middle - left.contact).dot(&a) } else { (between.y * b.z - between.z * b.y) / sine };
        let at = Vec3::new(left.centre.x, left.contact.y, left.contact.z) + a * along;
        let near = along.abs() < FAR;
        near.then(|| RollCentre {
            at,
            height: (at - left.contact).dot(&self.normal),
            sideways: (at - middle).dot(&self.leftward()),
        })
    }
}

/// Left and right at their travels; the right one as a left wheel.
fn solve_both(axle: &Axle, travels: [f64; 2], rack: f64, guess: &[Guess; 2]) -> Result<[State; 2], Unsolved> {
    let right_rack = if rack == 0.0 { 0.0 } else { -rack };
    let left = State::solve(&axle.linkages()[0], Demand::new(travels[0], rack), guess[0])?;
    let right = State::solve(&axle.linkages()[1], Demand::new(travels[1], right_rack), guess[1])?;
    Ok([left, right])
}
