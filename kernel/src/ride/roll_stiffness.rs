//! Roll stiffness of an axle, from both wheels; and where load cases take it from.

use super::{BarState, Springing};
use crate::axle::Axle;
use crate::layout::{AntiRollBar, RollFrom};
use crate::loads::Setting;
use crate::state::State;

/// Roll stiffness of the axle, N·m per degree, of the springs and of the bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollStiffness {
    /// Of the two springs: k_wheel t²/2.
    pub springs: f64,
    /// Of the anti-roll bar: c (θ' t)², 0 without one.
    pub bar: f64,
}

impl RollStiffness {
    /// With the mean wheel rate of both wheels and the mean turn of both halves of the bar per travel, rad/mm; `track` in mm.
    pub fn of(wheel_rate: f64, track: f64, bar: Option<(&AntiRollBar, f64)>) -> RollStiffness {
        // N·mm per radian → N·m per degree.
        let scale = 1.0_f64.to_radians() / 1000.0;
        let twist = bar.map_or(0.0, |(bar, per_travel)| bar.twist_rate() * (per_travel * track).powi(2));
        RollStiffness { springs: wheel_rate * track * track / 2.0 * scale, bar: twist * scale }
    }

    /// Of an axle, from both wheels' rates, N/mm, and states as left ones, in a track of so many mm; `None` where a spring carries nothing.
    pub fn with(axle: &Axle, rates: [Option<f64>; 2], sides: [&State; 2], track: f64) -> Option<RollStiffness> {
        let per_travel = |i: usize| Some(BarState::at(axle.layout(), &axle.linkages()[i], sides[i])?.per_travel);
        // A bar whose link can't reach leaves the stiffness unknown.
        let bar = match &axle.layout().anti_roll_bar {
            Some(bar) => Some((bar, both([0, 1].map(per_travel))?)),
            None => None,
        };
        Some(RollStiffness::of(both(rates)?, track, bar))
    }

    /// Of an axle where the car stands.
    pub fn standing(axle: &Axle) -> Option<RollStiffness> {
        let (stands, springs) = (axle.both_stand(), Springing::of_both(axle)?);
        let rate = |i: usize| Some(springs[i].at_wheel(&axle.linkages()[i], &stands[i])?.1);
        RollStiffness::with(axle, [0, 1].map(rate), stands.each_ref(), 2.0 * axle.half_track())
    }

    /// The bar's share.
    pub fn share(&self) -> f64 {
        self.bar / (self.springs + self.bar)
    }
}

impl Setting {
    /// What the load cases of an axle depend on, with the roll stiffness of its own springs and anti-roll bar where
    /// the vehicle asks for it and the springs carry.
    pub fn of(axle: &Axle) -> Setting {
        let setting = Setting::new(axle);
        let own = Some(setting.vehicle.roll_stiffness_from).filter(|from| *from == RollFrom::Axle);
        match own.and_then(|_| RollStiffness::standing(axle)) {
            Some(own) => Setting { front_stiffness: own.springs + own.bar, ..setting },
            None => setting,
        }
    }
}

/// The mean of two wheels' numbers, where both have one.
pub fn both([left, right]: [Option<f64>; 2]) -> Option<f64> {
    Some(f64::midpoint(left?, right?))
}
