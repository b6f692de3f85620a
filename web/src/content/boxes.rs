//! Boxes to begin with. Their sizes are invented; they stand where such things usually stand on the axle that is open, and are there to be changed.

use kernel::{Layout, Obstacle, PointId, Vec3};

/// A box to begin with.
pub struct Beginning {
    /// What it is called.
    pub name: &'static str,
    /// Two opposite corners of it on an axle, mm.
    place: fn(&Layout) -> [Vec3; 2],
    /// Whether there is its mirror image too.
    mirrored: bool,
}

/// All of them.
pub static BEGINNINGS: [Beginning; 3] = [
    Beginning { name: "engine", place: engine, mirrored: false },
    Beginning { name: "gearbox", place: gearbox, mirrored: false },
    Beginning { name: "body rail", place: rail, mirrored: true },
];

impl Beginning {
    /// The box on an axle, under a name that no other has there.
    pub fn on(&self, layout: &Layout) -> Obstacle {
        let taken = |name: &str| layout.boxes.iter().any(|one| one.name == name);
        let numbered = (2..).map(|number| format!("{} {number}", self.name));
        let free = std::iter::once(self.name.to_string()).chain(numbered).find(|name| !taken(name));
        let [from, to] = (self.place)(layout).map(|corner| corner.map(f64::round));
        Obstacle { name: free.unwrap_or_default(), from, to, mirrored: self.mirrored.then_some(true) }
    }
}

/// The joints on the body that guides have.
fn inner(layout: &Layout) -> impl Iterator<Item = Vec3> + '_ {
    use PointId::{LowerFrontInner, LowerRearInner, UpperFrontInner, UpperRearInner};
    [LowerFrontInner, LowerRearInner, UpperFrontInner, UpperRearInner].into_iter().filter_map(|id| layout.point(id))
}

/// Ahead of the joints on the body, between them and no wider.
fn engine(layout: &Layout) -> [Vec3; 2] {
    let ahead = inner(layout).map(|p| p.x).fold(layout.track_rod.inner.x, f64::max) + 60.0;
    let half = 0.8 * inner(layout).map(|p| p.y).fold(f64::INFINITY, f64::min);
    let low = layout.wheel.centre.z - 60.0;
    [Vec3::new(ahead, -half, low), Vec3::new(ahead + 480.0, half, low + 560.0)]
}

/// Under the rack’s joint, between the joints of both sides.
fn gearbox(layout: &Layout) -> [Vec3; 2] {
    let rack = layout.track_rod.inner;
    let half = 0.55 * rack.y;
    [Vec3::new(rack.x - 220.0, -half, rack.z - 160.0), Vec3::new(rack.x + 80.0, half, rack.z - 60.0)]
}

/// A rail of the body along the car, inboard of the wheel and above its centre.
fn rail(layout: &Layout) -> [Vec3; 2] {
    let (centre, radius) = (layout.wheel.centre, layout.wheel.free_radius);
    let from = Vec3::new(centre.x - 2.2 * radius, 0.4 * centre.y, centre.z + 0.35 * radius);
    [from, Vec3::new(centre.x + 2.2 * radius, 0.5 * centre.y, centre.z + 0.72 * radius)]
}
