//! What gives way under a load, at the lengths that the springs have in the rigid state.
//!
//! A layout is drawn as the car stands, its bushes at ease. So what gives way under a load case answers to the case's load less that of the case
//! `standing`, at the same position; a force at the road is taken as it is.

use super::{Bushes, axis, deflection};
use crate::axle::Axle;
use crate::frame::{Vec3, mirror};
use crate::loads::{LoadCase, NoLoad, Setting};
use crate::math::{Twist, Wrench};
use crate::state::State;

/// Changes at one wheel against the rigid state. Angles degrees, of a left wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnderLoad {
    /// Of toe, toe-in positive.
    pub toe: f64,
    /// Of camber, positive when the top moves out.
    pub camber: f64,
    /// Of caster, positive when the steering axis' top moves rearward; `None` without an axis.
    pub caster: Option<f64>,
    /// The wheel centre's movement, mm, in the axes of a left wheel's car: forward, outward, up.
    pub wheel_centre: Vec3,
}

impl UnderLoad {
    /// Of both wheels under a wrench on each about its wheel centre, at the states of both, all as of left wheels. `None` where guides and springs
    /// don't hold a wheel.
    pub fn wrenches(
        bushes: &Bushes,
        axle: &Axle,
        states: [&State; 2],
        wrenches: &[Wrench; 2],
    ) -> Option<[UnderLoad; 2]> {
        let (wheels, moves) = deflection::both(bushes, axle.linkages(), states, wrenches)?;
        Some([0, 1].map(|i| {
            let caster = axis::caster(&axle.linkages()[i], &bushes.ends[i], states[i], &wheels[i], &moves[i]);
            UnderLoad::of(states[i], &moves[i].carrier, caster)
        }))
    }

    fn of(state: &State, twist: &Twist, caster: Option<f64>) -> UnderLoad {
        UnderLoad {
            toe: -state.attitude.steer_rate(twist).to_degrees(),
            camber: state.attitude.camber_rate(twist).to_degrees(),
            caster,
            wheel_centre: twist.v,
        }
    }
}

/// The wrenches of a load case on both wheels, less those of `standing`; each wheel bears its own share of the case.
pub fn case_wrenches(case: &LoadCase, setting: &Setting, states: [&State; 2]) -> Result<[Wrench; 2], NoLoad> {
    let standing = LoadCase::standing().both(setting)?;
    let case = case.both(setting)?;
    Ok([0, 1].map(|i| {
        let [loaded, stands] = [case[i].wrench(states[i]), standing[i].wrench(states[i])];
        Wrench { force: loaded.force - stands.force, moment: loaded.moment - stands.moment }
    }))
}

/// The wrenches of a force at both contact points, N, given along the left wheel's (e_x', e_y', e_z) and the same in the car on the right wheel.
pub fn force_wrenches(force: Vec3, states: [&State; 2]) -> [Wrench; 2] {
    let force = states[0].attitude.along(force);
    [Wrench::at(states[0].attitude.contact, force), Wrench::at(states[1].attitude.contact, mirror(force))]
}

/// A quantity under a load, as tables tell it.
#[derive(Clone, Copy)]
pub struct Column {
    /// Name in tables, with its unit.
    pub column: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// What it is, in a sentence.
    pub meaning: &'static str,
    /// What a positive value says, of the left wheel.
    pub positive: &'static str,
    /// The value; `None` where there is none.
    pub value: fn(&UnderLoad) -> Option<f64>,
}

/// Every column, in the order of the table.
pub static UNDER_LOAD: [Column; 5] = [
    Column {
        column: "toe_under_load_deg",
        unit: "°",
        meaning: "Change of toe under the load, against the rigid axle.",
        positive: "toe-in",
        value: |u| Some(u.toe),
    },
    Column {
        column: "camber_under_load_deg",
        unit: "°",
        meaning: "Change of camber under the load, against the rigid axle.",
        positive: "the wheel’s top moves out",
        value: |u| Some(u.camber),
    },
    Column {
        column: "caster_under_load_deg",
        unit: "°",
        meaning: "Change of caster under the load, against the rigid axle.",
        positive: "the top of the axis moves rearward",
        value: |u| u.caster,
    },
    Column {
        column: "wheel_centre_x_under_load_mm",
        unit: "mm",
        meaning: "Movement of the wheel centre along the car under the load, against the rigid axle.",
        positive: "forward",
        value: |u| Some(u.wheel_centre.x),
    },
    Column {
        column: "wheel_centre_y_under_load_mm",
        unit: "mm",
        meaning: "Movement of the wheel centre across the car under the load, against the rigid axle.",
        positive: "outward",
        value: |u| Some(u.wheel_centre.y),
    },
];
