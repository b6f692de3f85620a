//! Load cases: the usual questions put to an axle, each a load on the left front wheel from the vehicle's data.
//!
//! A member's forces belong to the load, not to the travel they are shown at: what of a load the spring can't give there, the wheel's
//! inertia or a stop does.

use super::load::{Load, NoLoad, turning_friction};
use super::transfer::G;
use super::vehicle::Setting;
use crate::frame::Vec3;

/// One of the usual questions put to an axle.
#[derive(Clone, Copy)]
pub struct LoadCase {
    /// Its name in tables, links and on the command line.
    pub key: &'static str,
    /// Its name on the page.
    pub name: &'static str,
    /// What is assumed, in a sentence.
    pub assumes: &'static str,
    /// Both front wheels bear it alike.
    pub even: bool,
    /// Its forces along the road come from friction between tyre and road.
    pub by_friction: bool,
    /// How hard the car slows and corners, g, for the friction that its rear axle needs; 0 where that is not asked.
    pub rear: [f64; 2],
    /// The load on the left wheel.
    on_left: fn(&Setting) -> Result<Load, NoLoad>,
    /// The load on the right wheel at the same time, as a left one's, unless both bear it alike.
    on_right: fn(&Setting) -> Result<Load, NoLoad>,
}

/// Accelerations of the cases, in g.
const BRAKING: f64 = 0.8;
const CORNERING: f64 = 0.8;
const HARD_CORNERING: f64 = 1.0;
const DRIVING: f64 = 0.4;
const BOTH: f64 = 0.5;
const REVERSE: f64 = 0.5;

/// More friction than this a tyre finds on no ordinary road: about 1 on dry asphalt (common practice, no source).
pub const MOST_FRICTION: f64 = 1.0;

/// A case; the load is filled in by each.
const CASE: LoadCase = LoadCase {
    key: "",
    name: "",
    assumes: "",
    even: false,
    by_friction: true,
    rear: [0.0; 2],
    on_left: |at| Ok(Load::braking(&at.vehicle, 0.0)),
    // It stands.
    on_right: |at| Ok(Load::braking(&at.vehicle, 0.0)),
};

/// The cases, in the order of the page; new ones are added at the end. Lateral forces point to the left (+) where the left wheel is the
/// inner one.
pub static CASES: [LoadCase; 12] = [
    LoadCase {
        key: "standing",
        name: "Standing",
        assumes: "The front axle’s share of the weight, half on each wheel.",
        even: true,
        ..CASE
    },
    LoadCase {
        key: "braking",
        name: "Braking 0.8 g",
        assumes: "Brakes at the wheels, with the given front share; load transfers to the front according to the height of the centre of gravity.",
        even: true,
        rear: [BRAKING, 0.0],
        on_left: |at| Ok(Load::braking(&at.vehicle, BRAKING)),
        ..CASE
    },
    LoadCase {
        key: "outer",
        name: "Cornering 0.8 g, outer wheel",
        assumes: "A right-hand bend. Load transfers to the outer wheel according to roll centres, roll stiffness and heights of the masses; each tyre’s lateral force is proportional to its load. The spring alone holds the wheel: what an anti-roll bar would carry is not deducted.",
        rear: [0.0, CORNERING],
        on_left: |at| at.in_bend(CORNERING, 0.0, 1.0),
        on_right: |at| at.in_bend(CORNERING, 0.0, -1.0),
        ..CASE
    },
    LoadCase {
        key: "inner",
        name: "Cornering 0.8 g, inner wheel",
        assumes: "A left-hand bend; otherwise as for the outer wheel. A wheel that lifts carries nothing.",
        rear: [0.0, CORNERING],
        on_left: |at| at.in_bend(CORNERING, 0.0, -1.0),
        on_right: |at| at.in_bend(CORNERING, 0.0, 1.0),
        ..CASE
    },
    LoadCase {
        key: "driving",
        name: "Driving 0.4 g",
        assumes: "Through the half-shafts, so the force acts at the wheel centre: all of it with front-wheel drive, the front share of the weight with all-wheel drive, none with rear-wheel drive; load transfers to the rear.",
        even: true,
        on_left: |Setting { vehicle: v, radius, .. }| {
            let force = v.mass * DRIVING * G * v.drive_share() / 2.0;
            let load = v.on_road(0.0, 0.0, v.standing() - v.dive(DRIVING));
            Ok(Load { centre: Vec3::x() * force, drive_torque: force * radius, ..load })
        },
        ..CASE
    },
    LoadCase {
        key: "bend",
        name: "Braking in a bend, outer wheel",
        assumes: "0.5 g of braking and 0.5 g of cornering in a right-hand bend; forces and loads as in the two separate cases.",
        rear: [BOTH, BOTH],
        on_left: |at| at.in_bend(BOTH, BOTH, 1.0),
        on_right: |at| at.in_bend(BOTH, BOTH, -1.0),
        ..CASE
    },
    LoadCase {
        key: "one-sided",
        name: "One-sided braking",
        assumes: "This wheel brakes as at 0.8 g, the other one is on ice; the car decelerates at half that.",
        on_left: |Setting { vehicle: v, .. }| {
            Ok(v.on_road(-v.braking(BRAKING), 0.0, v.standing() + v.dive(BRAKING / 2.0)))
        },
        on_right: |Setting { vehicle: v, .. }| Ok(v.on_road(0.0, 0.0, v.standing() + v.dive(BRAKING / 2.0))),
        ..CASE
    },
    LoadCase {
        key: "kerb",
        name: "Kerb, side impact",
        assumes: "A lateral force of twice the static wheel load, acting inwards at the contact point, with the static wheel load (assumed values).",
        by_friction: false,
        on_left: |Setting { vehicle: v, .. }| Ok(v.on_road(0.0, -2.0 * v.standing(), v.standing())),
        ..CASE
    },
    LoadCase {
        key: "pothole",
        name: "Pothole 3 g",
        assumes: "Three times the static wheel load upwards at the road, and once the static wheel load rearwards at the wheel centre (assumed values).",
        by_friction: false,
        on_left: |Setting { vehicle: v, .. }| {
            let load = v.on_road(0.0, 0.0, 3.0 * v.standing());
            Ok(Load { centre: Vec3::new(-v.standing(), 0.0, 0.0), ..load })
        },
        ..CASE
    },
    LoadCase {
        key: "reverse",
        name: "Braking in reverse 0.5 g",
        assumes: "Rolling backward, brakes at the wheels with the given front share: the force at the road points forward and load transfers to the rear.",
        even: true,
        on_left: |at| Ok(Load::braking(&at.vehicle, -REVERSE)),
        ..CASE
    },
    LoadCase {
        key: "outer-hard",
        name: "Cornering 1 g, outer wheel",
        assumes: "As cornering with 0.8 g, at the limit of a dry road.",
        rear: [0.0, HARD_CORNERING],
        on_left: |at| at.in_bend(HARD_CORNERING, 0.0, 1.0),
        on_right: |at| at.in_bend(HARD_CORNERING, 0.0, -1.0),
        ..CASE
    },
    LoadCase {
        key: "standstill",
        name: "Steering at a standstill",
        assumes: "To the left, brakes off. The tyre turns on a round contact patch (pressure 0.25 N/mm², friction µ = 0.8): a moment of ⅔ µ F R, R its radius.",
        by_friction: false,
        on_left: |at| {
            let load = Load::braking(&at.vehicle, 0.0);
            Ok(Load { aligning: -turning_friction(load.road.z), ..load })
        },
        // To the left there too, which is the other way round on a left wheel.
        on_right: |at| {
            let load = Load::braking(&at.vehicle, 0.0);
            Ok(Load { aligning: turning_friction(load.road.z), ..load })
        },
        ..CASE
    },
];

impl LoadCase {
    /// Every case, in the order of the page.
    pub fn all() -> &'static [LoadCase] {
        &CASES
    }

    /// The load on the left wheel, or why the vehicle has none.
    pub fn load(&self, setting: &Setting) -> Result<Load, NoLoad> {
        setting.vehicle.trouble().map_or_else(|| (self.on_left)(setting), Err)
    }

    /// The loads on both wheels, each as on a left one, or why the vehicle has none. Beside the inner wheel there is the outer one; beside a
    /// wheel that hits something the other one stands.
    pub fn both(&self, setting: &Setting) -> Result<[Load; 2], NoLoad> {
        let left = self.load(setting)?;
        Ok([left, if self.even { left } else { (self.on_right)(setting)? }])
    }

    /// The first of the cases: the car stands.
    pub fn standing() -> &'static LoadCase {
        &CASES[0]
    }

    /// Friction that the case needs at the front wheel and at the rear axle where it is more than a road has; none where it is not
    /// friction that acts.
    pub fn friction_missing(&self, setting: &Setting, load: &Load) -> [Option<f64>; 2] {
        let front = load.friction().filter(|_| self.by_friction);
        let rear = setting.vehicle.rear_friction(self.rear).filter(|_| self.by_friction);
        [front, rear].map(|friction| friction.filter(|friction| *friction > MOST_FRICTION))
    }

    /// The case of a key.
    pub fn named(key: &str) -> Option<&'static LoadCase> {
        CASES.iter().find(|case| case.key == key)
    }
}
