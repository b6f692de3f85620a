//! What the vehicle puts on its front wheels: quasi-static transfer of load (textbook statics), with m the mass, h the height of the centre of
//! gravity, l the wheelbase, t the track, a the acceleration:
//! ```text
//! standing      F_z = m g·share/2
//! longitudinal  ΔF_z per axle = m a h/l                       braking loads the front, driving unloads it
//! lateral       see `transfer`
//! braking       F_x = −m a·brake_share/2 per front wheel, at the road (the brake is on the carrier)
//! cornering     F_y = a/g·F_z of each wheel                   assumption: every tyre takes its part of its own load
//! ```
//! A wheel's load never falls below 0. The weight of what moves with the wheel hangs on the carrier at the wheel centre.

use super::load::{Load, NoLoad};
use super::transfer::{G, LateralTransfer};
use crate::axle::Axle;
use crate::frame::Vec3;
use crate::layout::{Drive, Vehicle};

/// More braking than this, in g, ordinary tyres do not find.
const MOST_BRAKING: f64 = 1.3;

/// What the load of a case depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// The vehicle.
    pub vehicle: Vehicle,
    /// From the centre plane to the contact point where the car stands, mm.
    pub half_track: f64,
    /// From the wheel centre to the road, mm.
    pub radius: f64,
    /// Height of the front roll centre over the road where the car stands, mm.
    pub roll_centre: f64,
    /// Roll stiffness of the front axle, N·m/°: the vehicle's number, or that of this axle's springs and anti-roll bar.
    pub front_stiffness: f64,
}

impl Setting {
    /// Of an axle; the roll stiffness is the vehicle's number (see [`Setting::of`]).
    pub(crate) fn new(axle: &Axle) -> Setting {
        let vehicle = axle.vehicle();
        Setting {
            vehicle,
            front_stiffness: vehicle.roll_stiffness * vehicle.roll_stiffness_share,
            half_track: axle.half_track(),
            radius: axle.built().wheel.loaded_radius,
            roll_centre: axle.stands().bump.roll_centre.unwrap_or_default(),
        }
    }

    /// What cornering moves from wheel to wheel. Assumed: rear track and rear unsprung mass as in front, unsprung masses at
    /// hub height.
    fn lateral(&self) -> LateralTransfer {
        let v = &self.vehicle;
        let unsprung = 2.0 * v.unsprung_mass;
        let sprung = [v.mass * v.front_share - unsprung, v.mass * (1.0 - v.front_share) - unsprung];
        let all = sprung[0] + sprung[1];
        let stiffness = self.front_stiffness + v.rear_roll_stiffness();
        LateralTransfer {
            sprung,
            height: (v.mass * v.cg_height - 2.0 * unsprung * self.radius) / all,
            roll_centres: [self.roll_centre, v.rear_roll_centre],
            unsprung: [unsprung; 2],
            unsprung_heights: [self.radius; 2],
            track: 2.0 * self.half_track,
            stiffness: stiffness * PER_DEGREE,
            // Springs without stiffness share nothing.
            front_share: if stiffness > 0.0 { self.front_stiffness / stiffness } else { 0.0 },
        }
    }

    /// What `a` g of cornering add to the outer front wheel, N: at most all that the inner one carries, which is `inner` in a straight line.
    fn lean(&self, a: f64, inner: f64) -> Result<f64, NoLoad> {
        let lateral = self.lateral();
        if lateral.sprung[1] <= 0.0 {
            let unsprung = lateral.unsprung[1];
            return Err(NoLoad::Unsprung { unsprung, axle: unsprung + lateral.sprung[1], front: false });
        }
        let [stiffness, least] = [lateral.stiffness, lateral.least_stiffness()].map(|each| each / PER_DEGREE);
        let [front, _] = lateral.axles(a).ok_or(NoLoad::Soft { stiffness, least })?;
        Ok(front.min(inner).max(0.0))
    }

    /// A front wheel in a bend of `a` g while the car brakes with `slows` g: outer (1) or inner (−1). Side forces point inward, and act a
    /// pneumatic trail behind the contact point.
    pub(super) fn in_bend(&self, a: f64, slows: f64, outer: f64) -> Result<Load, NoLoad> {
        let v = &self.vehicle;
        let straight = v.standing() + v.dive(slows);
        let load = straight + outer * self.lean(a, straight)?;
        let lateral = -outer * a * load;
        Ok(Load { aligning: -v.pneumatic_trail * lateral, ..v.on_road(-v.braking(slows), lateral, load) })
    }
}

/// N·m per degree → N·mm per radian.
const PER_DEGREE: f64 = 1000.0 * 180.0 / std::f64::consts::PI;

impl Vehicle {
    /// Why the vehicle can't be: its wheels leave nothing for the front springs to carry.
    pub fn trouble(&self) -> Option<NoLoad> {
        let (unsprung, axle) = (2.0 * self.unsprung_mass, self.mass * self.front_share);
        (unsprung >= axle).then_some(NoLoad::Unsprung { unsprung, axle, front: true })
    }

    /// Roll stiffness of the rear axle, N·m/°.
    fn rear_roll_stiffness(&self) -> f64 {
        self.roll_stiffness * (1.0 - self.roll_stiffness_share)
    }

    /// The hardest braking asked for, g: where the rear wheels leave the ground, (1 − front share)·l/h, and no tyre goes far beyond.
    pub fn most_braking(&self) -> f64 {
        ((1.0 - self.front_share) * self.wheelbase / self.cg_height.max(f64::MIN_POSITIVE)).min(MOST_BRAKING)
    }

    /// Friction that the rear axle needs while the car slows and corners with so many g; `None` for rear wheels in the air.
    /// With load m g (1 − share − a h/l) on it: braking (1 − brake share)·a, cornering the part of its own load.
    pub fn rear_friction(&self, [slows, corners]: [f64; 2]) -> Option<f64> {
        let load = 1.0 - self.front_share - slows * self.cg_height / self.wheelbase;
        (load > 0.0).then(|| ((1.0 - self.brake_share) * slows / load).hypot(corners))
    }

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
    pub(super) fn dive(&self, a: f64) -> f64 {
        self.mass * a * G * self.cg_height / self.wheelbase / 2.0
    }

    /// Braking force of one front wheel at `a` g, N.
    pub(super) fn braking(&self, a: f64) -> f64 {
        self.mass * a * G * self.brake_share / 2.0
    }

    /// A front wheel on the road with a load and with longitudinal and lateral forces.
    pub(super) fn on_road(&self, longitudinal: f64, lateral: f64, load: f64) -> Load {
        let road = Vec3::new(longitudinal, lateral, load.max(0.0));
        Load { road, weight: self.unsprung_mass * G, ..Load::default() }
    }
}
