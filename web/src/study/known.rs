//! A wheel whose points are known to ± so much: what margins and spread both ask about.

use kernel::vary::{Distribution, Kind};
use kernel::{Layout, LeftOrRight, PointId};

/// It, with what its ± mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// The car.
    pub layout: Layout,
    /// Which wheel, as a left one.
    pub side: LeftOrRight,
    /// What is off.
    pub kind: Kind,
    /// How, within its ±.
    pub distribution: Distribution,
    /// Points, each with the ± of its coordinates, mm; at least one.
    pub points: Vec<(PointId, f64)>,
}
