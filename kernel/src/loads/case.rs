//! Load cases: what road, drive and weight put on the left front wheel, from the vehicle's data.
//!
//! Quasi-static transfer of load (textbook statics), with m the mass, h the height of the centre of gravity, l the wheelbase, t the track, a the acceleration:
//! ```text
//! standing      F_z = m g·share/2
//! lengthwise    ΔF_z per axle = m a h/l                       braking loads the front, driving unloads it
//! sideways      see `transfer`
//! braking       F_x = −m a·brake_share/2 per front wheel, at the road (the brake is on the carrier)
//! cornering     F_y = a/g·F_z of each wheel                   assumption: every tyre takes its part of its own load
//! ```
//! A wheel's load never falls below 0. The weight of what moves with the wheel hangs on the carrier at the wheel centre.

use super::LateralTransfer;
use crate::frame::Vec3;
use crate::layout::{Drive, Layout, Vehicle};
use crate::screw::Wrench;
use crate::state::State;

/// Standard gravity, m/s² (ISO 80000-3), so that a force in N comes of a mass in kg.
pub(super) const G: f64 = 9.80665;

/// What acts on one carrier. Forces N, torque N·mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// At the contact point, along (e_x', e_y', e_z), wheel locked to the carrier.
    pub road: Vec3,
    /// At the wheel centre, along (e_x', e_y', e_z).
    pub centre: Vec3,
    /// Torque that the half-shaft brings to the wheel about its spin axis, driving forward; its force on the road is in `centre`.
    pub drive_torque: f64,
    /// Weight of what moves with the wheel, at the wheel centre, downward.
    pub weight: f64,
}

impl Load {
    /// What a vehicle braking with `a` g, brakes at the wheels, puts on each front wheel; standing at 0.
    pub fn braking(vehicle: &Vehicle, a: f64) -> Load {
        vehicle.on_road(-vehicle.braking(a), 0.0, vehicle.standing() + vehicle.dive(a))
    }

    /// The wrench on the carrier about the wheel centre, with the couple of a bent drive joint.
    pub fn wrench(&self, state: &State) -> Wrench {
        let attitude = &state.attitude;
        let force = attitude.along(self.centre - Vec3::z() * self.weight);
        let moment = self.shaft_couple(state);
        Wrench::at(attitude.contact, attitude.along(self.road)).plus(&Wrench { force, moment })
    }

    /// What the bent drive joint adds, N·mm; nothing without a half-shaft.
    pub fn shaft_couple(&self, state: &State) -> Vec3 {
        state.half_shaft.and_then(|shaft| shaft.couple(self.drive_torque)).unwrap_or_default()
    }
}

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
    /// The load on the left wheel.
    pub load: fn(&Setting) -> Load,
}

/// Accelerations of the cases, in g.
const BRAKING: f64 = 0.8;
const CORNERING: f64 = 0.8;
const DRIVING: f64 = 0.4;
const BOTH: f64 = 0.5;

/// What the load of a case depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// The vehicle.
    pub vehicle: Vehicle,
    /// From the centre plane to the contact point at rest, mm.
    pub half_track: f64,
    /// From the wheel centre to the road, mm.
    pub radius: f64,
    /// Height of the front roll centre at rest over the road, mm.
    pub roll_centre: f64,
}

impl Setting {
    /// Of a linkage with its state at rest.
    pub fn new(layout: &Layout, rest: &State) -> Setting {
        Setting {
            vehicle: layout.vehicle(),
            half_track: rest.position.pose.w.y + rest.attitude.contact.y,
            radius: layout.wheel.loaded_radius,
            roll_centre: rest.bump.roll_centre.unwrap_or_default(),
        }
    }

    /// What cornering moves from wheel to wheel. Assumed: rear track and rear unsprung mass as in front, unsprung masses at
    /// hub height.
    fn lateral(&self) -> LateralTransfer {
        let v = &self.vehicle;
        let unsprung = 2.0 * v.unsprung_mass;
        let sprung = [v.mass * v.front_share - unsprung, v.mass * (1.0 - v.front_share) - unsprung];
        let all = sprung[0] + sprung[1];
        LateralTransfer {
            sprung,
            height: (v.mass * v.cg_height - 2.0 * unsprung * self.radius) / all,
            roll_centres: [self.roll_centre, v.rear_roll_centre],
            unsprung: [unsprung; 2],
            unsprung_heights: [self.radius; 2],
            track: 2.0 * self.half_track,
            // N·m per degree → N·mm per radian.
            stiffness: v.roll_stiffness * 1000.0 * 1.0_f64.to_degrees(),
            front_share: v.roll_stiffness_share,
        }
    }

    /// What `a` g of cornering add to the outer front wheel, N: at most all that the inner one carries.
    fn lean(&self, a: f64) -> f64 {
        self.lateral().axles(a)[0].min(self.vehicle.standing()).max(0.0)
    }
}

impl Vehicle {
    /// The front axle's share of the driving force.
    pub fn drive_share(&self) -> f64 {
        match self.drive {
            Drive::Front => 1.0,
            Drive::All => self.front_share,
            Drive::Rear => 0.0,
        }
    }

    /// Mass that one front spring carries, kg.
    pub fn sprung_mass(&self) -> f64 {
        self.mass * self.front_share / 2.0 - self.unsprung_mass
    }

    /// Load of one front wheel standing, N.
    pub fn standing(&self) -> f64 {
        self.mass * G * self.front_share / 2.0
    }

    /// What `a` g of braking add to one front wheel, N.
    fn dive(&self, a: f64) -> f64 {
        self.mass * a * G * self.cg_height / self.wheelbase / 2.0
    }

    /// Braking force of one front wheel at `a` g, N.
    fn braking(&self, a: f64) -> f64 {
        self.mass * a * G * self.brake_share / 2.0
    }

    /// A front wheel on the road with a load and forces lengthwise and sideways.
    fn on_road(&self, lengthwise: f64, sideways: f64, load: f64) -> Load {
        let road = Vec3::new(lengthwise, sideways, load.max(0.0));
        Load { road, weight: self.unsprung_mass * G, ..Load::default() }
    }
}

/// The cases, in the order of the page. Sideways forces point to the left (+) where the left wheel is the inner one.
pub static CASES: [LoadCase; 9] = [
    LoadCase {
        key: "standing",
        name: "Standing",
        assumes: "The front axle’s share of the weight, half on each wheel.",
        even: true,
        load: |at| Load::braking(&at.vehicle, 0.0),
    },
    LoadCase {
        key: "braking",
        name: "Braking 0.8 g",
        assumes: "Brakes at the wheels in the given front share; load goes forward by the height of the centre of gravity.",
        even: true,
        load: |at| Load::braking(&at.vehicle, BRAKING),
    },
    LoadCase {
        key: "outer",
        name: "Cornering 0.8 g, outer wheel",
        assumes: "A right-hand bend. Load moves outward by roll centres, springs’ roll stiffness and heights of the masses; each tyre takes a side force in step with its load.",
        even: false,
        load: |at| {
            let load = at.vehicle.standing() + at.lean(CORNERING);
            at.vehicle.on_road(0.0, -CORNERING * load, load)
        },
    },
    LoadCase {
        key: "inner",
        name: "Cornering 0.8 g, inner wheel",
        assumes: "A left-hand bend; else as the outer wheel. A wheel that lifts carries nothing.",
        even: false,
        load: |at| {
            let load = at.vehicle.standing() - at.lean(CORNERING);
            at.vehicle.on_road(0.0, CORNERING * load, load)
        },
    },
    LoadCase {
        key: "driving",
        name: "Driving 0.4 g",
        assumes: "Through the half-shafts, so the force acts at the wheel centre: all of it with front drive, the front’s share of the weight with all wheels, none with rear drive; load goes rearward.",
        even: true,
        load: |Setting { vehicle: v, radius, .. }| {
            let force = v.mass * DRIVING * G * v.drive_share() / 2.0;
            let load = v.on_road(0.0, 0.0, v.standing() - v.dive(DRIVING));
            Load { centre: Vec3::x() * force, drive_torque: force * radius, ..load }
        },
    },
    LoadCase {
        key: "bend",
        name: "Braking in a bend, outer wheel",
        assumes: "0.5 g of braking and 0.5 g of cornering together, a right-hand bend; forces and loads as in the two cases alone.",
        even: false,
        load: |at| {
            let v = &at.vehicle;
            let load = v.standing() + v.dive(BOTH) + at.lean(BOTH);
            v.on_road(-v.braking(BOTH), -BOTH * load, load)
        },
    },
    LoadCase {
        key: "one-sided",
        name: "One-sided braking",
        assumes: "This wheel brakes as at 0.8 g, the other one stands on ice; the car slows by half of it.",
        even: false,
        load: |Setting { vehicle: v, .. }| v.on_road(-v.braking(BRAKING), 0.0, v.standing() + v.dive(BRAKING / 2.0)),
    },
    LoadCase {
        key: "kerb",
        name: "Kerb, side blow",
        assumes: "Twice the standing load from outside at the road, with the standing load (invented, an order of size).",
        even: false,
        load: |Setting { vehicle: v, .. }| v.on_road(0.0, -2.0 * v.standing(), v.standing()),
    },
    LoadCase {
        key: "pothole",
        name: "Pothole 3 g",
        assumes: "Three times the standing load upward and one rearward at the wheel centre (invented, an order of size).",
        even: false,
        load: |Setting { vehicle: v, .. }| Load {
            centre: Vec3::new(-v.standing(), 0.0, 0.0),
            ..v.on_road(0.0, 0.0, 3.0 * v.standing())
        },
    },
];

impl LoadCase {
    /// Every case, in the order of the page.
    pub fn all() -> &'static [LoadCase] {
        &CASES
    }

    /// The case of a key.
    pub fn named(key: &str) -> Option<&'static LoadCase> {
        CASES.iter().find(|case| case.key == key)
    }
}
