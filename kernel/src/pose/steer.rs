//! The steer angle and its rate, which a demand may hold.

use crate::frame::Vec3;
use crate::math::Line;

/// Steer angle of a wheel with outward spin axis n, rad.
pub fn steer_angle(n: Vec3) -> f64 {
    (-n.x).atan2(n.y)
}

/// The row whose product with a twist is the rate of the steer angle. With h = n_x²+n_y² and dn = ω×n:
/// ```text
/// d atan2(−n_x, n_y) = (n_x dn_y − n_y dn_x)/h = ω_z − n_z(n_x ω_x + n_y ω_y)/h
/// ```
pub fn steer_row(n: Vec3) -> Line {
    let h = (n.x * n.x + n.y * n.y).max(f64::MIN_POSITIVE);
    Line { u: Vec3::zeros(), m: Vec3::new(-n.z * n.x / h, -n.z * n.y / h, 1.0) }
}
