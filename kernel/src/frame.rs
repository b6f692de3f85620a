//! The conventions: axes, units, signs, the mirror. Everything else in the kernel follows this page.
//!
//! ```text
//!            z up
//!            │   x forward
//!            │  ╱                 ISO 8855: right-handed, x forward, y to the left, z up.
//!            │ ╱                  Origin: on the road, in the car's centre plane,
//!  y left ───┼╱                   below the front wheel centres at rest.
//!            ┆
//!   ╭──╮     ┆     ╭──╮           A layout describes the LEFT wheel (y > 0);
//!   │  │═════┆═════│  │           the right one is its mirror image (y → −y).
//!   ╰──╯     ┆     ╰──╯
//!  left    centre   right         (seen from behind)
//! ```
//!
//! Lengths are mm, forces N, moments N·mm, masses kg, angles degrees at every door of the crate
//! and radians inside functions. Directions follow ISO 8855:2011 (grade: memory, see the tests):
//!
//! | quantity | positive when (left wheel) |
//! | --- | --- |
//! | travel | the wheel centre rises relative to the body (bump) |
//! | rack | the rack moves to the left, +y |
//! | camber | the wheel's top leans out of the car |
//! | toe | toe-in: the wheel's front points to the centre plane |
//! | steer | the wheel turns left |

/// A point or a free vector in the car's axes, mm (or without unit, for directions).
pub type Vec3 = nalgebra::Vector3<f64>;

/// A rotation of the carrier from its rest attitude, in the car's axes.
pub type Rotation = nalgebra::UnitQuaternion<f64>;

/// The image of a point or true vector in the car's centre plane: y → −y.
pub fn mirror(p: Vec3) -> Vec3 {
    Vec3::new(p.x, -p.y, p.z)
}

/// Length of a unit vector's level part; not 0 even where it has none, so that it may divide.
pub fn level(unit: Vec3) -> f64 {
    (unit.x * unit.x + unit.y * unit.y).sqrt().max(f64::MIN_POSITIVE)
}

/// Where a wheel of a radius touches a level road, from its centre, mm: with n its spin axis, down the wheel plane's steepest line
/// u = (e_z − n_z n)/‖e_z − n_z n‖, whose length is that of n's level part.
pub fn contact_point(spin: Vec3, radius: f64) -> Vec3 {
    let level = level(spin);
    -(Vec3::z() - spin * spin.z) * (radius / level)
}

/// The outward spin axis of the left wheel at rest, `Rz(−toe)·Rx(−camber)·e_y`; angles in degrees.
pub fn spin_axis(camber: f64, toe: f64) -> Vec3 {
    let (sin_camber, cos_camber) = camber.to_radians().sin_cos();
    let (sin_toe, cos_toe) = toe.to_radians().sin_cos();
    Vec3::new(sin_toe * cos_camber, cos_toe * cos_camber, -sin_camber)
}
