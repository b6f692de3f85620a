//! State + pose → scene: what the canvas, the SVG, the print and the tests all show.
//!
//! Paper units are CSS px, x to the right, y down. No browser types here.

use kernel::{Layout, Linkage, Member, PointId, State, Vec3};

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
    /// What does not close; then `axle` is the last one that did.
    pub fault: Option<Fault>,
}

/// What does not close.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fault {
    /// A joint put, by hand, where the linkage can't be assembled, and where that is (car axes, mm).
    pub joint: Option<(PointId, Vec3)>,
    /// The member that can't reach, where one can be named.
    pub member: Option<Member>,
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
