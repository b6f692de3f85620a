//! Boxes: what of the car stands in the way of wheel and members.

use crate::frame::{Vec3, mirror};
use serde::Serialize;

/// A box with its edges along the car's axes, fixed to the body.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Obstacle {
    /// What the author calls it.
    pub name: String,
    /// One corner, mm.
    pub from: Vec3,
    /// The opposite corner, mm.
    pub to: Vec3,
    /// Whether there is its mirror image too; default no: there is one, where it is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mirrored: Option<bool>,
}

impl Obstacle {
    /// The most boxes that a layout may have.
    pub const MOST: usize = 12;

    /// The longest name, characters.
    pub const LONGEST_NAME: usize = 40;

    /// Its least and its greatest corner, mm.
    pub fn corners(&self) -> [Vec3; 2] {
        [self.from.inf(&self.to), self.from.sup(&self.to)]
    }

    /// The same on the other side of the car.
    pub fn mirrored(&self) -> Obstacle {
        Obstacle { from: mirror(self.from), to: mirror(self.to), ..self.clone() }
    }
}
