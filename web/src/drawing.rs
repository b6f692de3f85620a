//! State + pose → scene: what the canvas, the SVG, the print and the tests all show.
//!
//! Paper units are CSS px, x to the right, y down. No browser types here.

use kernel::{Layout, Linkage, PointId, State, Vec3};

/// A point on paper, px.
pub type P = [f64; 2];

/// The three views, in first-angle places: side | front over plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// Seen from ahead: y to the right, z up.
    Front,
    /// Seen from the car's left: forward points left, z up.
    Side,
    /// Seen from above: y to the right, forward points down.
    Plan,
}

/// One axle with what was solved for it.
#[derive(Clone, Copy)]
pub struct Axle<'a> {
    /// The joints at rest.
    pub layout: &'a Layout,
    /// Its equations.
    pub linkage: &'a Linkage,
    /// The state at rest.
    pub rest: &'a State,
    /// The state to draw: the present one, or the last good one.
    pub now: &'a State,
}

/// What is to be drawn.
#[derive(Clone, Copy)]
pub struct Picture<'a> {
    /// The axle.
    pub axle: Axle<'a>,
    /// The axle laid over it.
    pub compared: Option<Axle<'a>>,
    /// The joint in hand.
    pub selected: Option<PointId>,
    /// A joint that stands where the linkage can't be assembled (its rest coordinates are those of `axle.layout`), or a
    /// position that can't be reached: draw what can't close in the fault style.
    pub fault: bool,
}

/// What can be grabbed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grab {
    /// A joint or an end of the spring.
    Joint(PointId),
    /// The wheel: travel.
    Wheel,
    /// The rack: steering.
    Rack,
}
