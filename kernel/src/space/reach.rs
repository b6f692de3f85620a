//! How far the tyre reaches over many positions: exact, by its support.

use super::clearance::At;
use super::tyre::Tyre;
use crate::frame::Vec3;

/// A greatest or least coordinate of the tyre and the first position with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extreme {
    /// The coordinate, mm.
    pub value: f64,
    /// The position.
    pub at: At,
}

/// The extreme coordinates of the tyre. `None` before any position.
#[derive(Clone, Copy, Debug, Default)]
pub struct Reach([Option<Extreme>; 5]);

impl Reach {
    /// Each extreme with its name in tables.
    const ALL: [&str; 5] =
        ["reach_y_least_mm", "reach_y_most_mm", "reach_x_least_mm", "reach_x_most_mm", "reach_z_most_mm"];

    /// Takes in the tyre at one position.
    pub fn add(&mut self, at: At, tyre: &Tyre) {
        let (x, y, z) = (Vec3::x(), Vec3::y(), Vec3::z());
        for (extreme, (along, sign)) in self.0.iter_mut().zip([(y, -1.0), (y, 1.0), (x, -1.0), (x, 1.0), (z, 1.0)]) {
            let value = sign * tyre.support(along * sign);
            if extreme.is_none_or(|extreme: Extreme| sign * value > sign * extreme.value) {
                *extreme = Some(Extreme { value, at });
            }
        }
    }

    /// The extremes with their names in tables, in the order of those.
    pub fn named(&self) -> impl Iterator<Item = (&'static str, Extreme)> + '_ {
        Reach::ALL.into_iter().zip(&self.0).filter_map(|(name, extreme)| Some((name, (*extreme)?)))
    }

    /// The extreme of a name.
    pub fn get(&self, name: &str) -> Option<Extreme> {
        self.named().find(|(own, _)| *own == name).map(|(_, extreme)| extreme)
    }
}
