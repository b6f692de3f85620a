//! Optional parts of a layout, each with its defaults. The defaults are invented: typical of a small passenger car.

use super::SpringOn;
use crate::frame::Vec3;
use serde::Serialize;

/// What the load cases and the ride know of the vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Vehicle {
    /// Wheelbase, mm; default 2650.
    pub wheelbase: f64,
    /// Mass of the loaded vehicle, kg; default 1500.
    pub mass: f64,
    /// The front axle's share of the weight; default 0.6.
    pub front_share: f64,
    /// Height of the centre of gravity over the road, mm; default 550.
    pub cg_height: f64,
    /// The front axle's share of the braking force; default 0.77: at 0.8 g both axles then need about the same friction.
    pub brake_share: f64,
    /// Mass that moves with one front wheel, kg; default 40.
    pub unsprung_mass: f64,
    /// Height of the rear roll centre over the road, mm; default 120. The front one is read from the axle.
    pub rear_roll_centre: f64,
    /// Roll stiffness of both axles together, N·m per degree of roll; default 1000.
    pub roll_stiffness: f64,
    /// The front axle's share of it; default 0.6.
    pub roll_stiffness_share: f64,
    /// Where load cases take the front axle's roll stiffness from; default the two numbers above.
    #[serde(skip_serializing_if = "RollFrom::is_default")]
    pub roll_stiffness_from: RollFrom,
    /// How far behind the contact point a side force acts, mm; default 0. Tyres have some 10 to 30 in mild bends, less near their limit
    /// (common practice, no source).
    #[serde(skip_serializing_if = "is_zero")]
    pub pneumatic_trail: f64,
    /// Width of the body, mm; default 1800.
    pub width: f64,
    /// From the front wheel centres to the body's foremost corner, mm; default 850.
    pub front_overhang: f64,
    /// The driven wheels; default front.
    pub drive: Drive,
    /// What comes out of the steering gear of the work put in; default 0.85.
    pub steering_efficiency: f64,
}

impl Default for Vehicle {
    fn default() -> Vehicle {
        Vehicle {
            wheelbase: 2650.0,
            mass: 1500.0,
            front_share: 0.6,
            cg_height: 550.0,
            brake_share: 0.77,
            unsprung_mass: 40.0,
            rear_roll_centre: 120.0,
            roll_stiffness: 1000.0,
            roll_stiffness_share: 0.6,
            roll_stiffness_from: RollFrom::Numbers,
            pneumatic_trail: 0.0,
            width: 1800.0,
            front_overhang: 850.0,
            drive: Drive::Front,
            steering_efficiency: 0.85,
        }
    }
}

fn is_zero(number: &f64) -> bool {
    *number == 0.0
}

/// Where load cases take the front axle's roll stiffness from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RollFrom {
    /// The vehicle's numbers.
    #[default]
    Numbers,
    /// This axle's springs and anti-roll bar, where the car stands; the rear axle's stays the vehicle's.
    Axle,
}

impl RollFrom {
    /// Every choice with its name in files and links.
    pub const ALL: [(RollFrom, &'static str); 2] = [(RollFrom::Numbers, "numbers"), (RollFrom::Axle, "axle")];

    fn is_default(&self) -> bool {
        *self == RollFrom::default()
    }
}

/// The driven wheels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Drive {
    /// The front wheels.
    #[default]
    Front,
    /// The rear wheels.
    Rear,
    /// All wheels, in the shares of the weight.
    All,
}

impl Drive {
    /// Every choice with its name in files and links.
    pub const ALL: [(Drive, &'static str); 3] = [(Drive::Front, "front"), (Drive::Rear, "rear"), (Drive::All, "all")];
}

/// The shaft from the final drive to the wheel, between the centres of its two joints at rest.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HalfShaft {
    /// Centre of the inner joint, on the body, mm; its axis lies across the car.
    pub inner: Vec3,
    /// Centre of the outer joint, on the carrier, mm; its axis is the wheel's spin axis.
    pub outer: Vec3,
    /// y of the right shaft's inner joint, mm, where it is not the left one's mirror image: shafts of unequal length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right_inner_y: Option<f64>,
}

/// The damper inside a strut. Lengths along the strut, at rest.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Damper {
    /// From the top mount to the rod guide at the tube's mouth, mm; default 200.
    pub guide: f64,
    /// From the rod guide to the piston, mm; default 180.
    pub piston: f64,
    /// Diameter of the rod, mm; default 22.
    pub rod: f64,
    /// Coefficient of friction at guide and piston; default 0.05.
    pub friction: f64,
}

impl Default for Damper {
    fn default() -> Damper {
        Damper { guide: 200.0, piston: 180.0, rod: 22.0, friction: 0.05 }
    }
}

/// The anti-roll bar, given by its left half. Points at rest.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AntiRollBar {
    /// The bearing on the body, mm; the bar's axis lies across the car through it.
    pub pivot: Vec3,
    /// The lever's end, where the drop link hangs, mm.
    pub lever: Vec3,
    /// The drop link's other end, mm.
    pub link: Vec3,
    /// The part that it rides on.
    pub on: SpringOn,
    /// N·m per degree of turn of one end against the other; without it, that of a round steel bar of `diameter`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stiffness: Option<f64>,
    /// Diameter of the bar, mm; default 22.
    pub diameter: f64,
}

impl AntiRollBar {
    /// The diameter of a bar that does not give its own, mm.
    pub const DIAMETER: f64 = 22.0;
}

/// Where bump and rebound stops end the wheel's way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stops {
    /// Travel at the bump stop, mm.
    pub bump: f64,
    /// Travel at the rebound stop, mm, as a size.
    pub rebound: f64,
}

impl Default for Stops {
    /// Invented; typical of a small passenger car.
    fn default() -> Stops {
        Stops { bump: 70.0, rebound: 75.0 }
    }
}

impl Stops {
    /// How far a travel is beyond them, mm, positive in bump; `None` between them.
    pub fn beyond(&self, travel: f64) -> Option<f64> {
        let past = (travel - self.bump).max(0.0) + (travel + self.rebound).min(0.0);
        (past != 0.0).then_some(past)
    }
}
