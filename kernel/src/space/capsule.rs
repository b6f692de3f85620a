//! A member: a chain of segments of one thickness, rounded at its ends and bends.

use super::cuboid::Cuboid;
use super::ring::Ring;
use crate::frame::Vec3;

/// A member in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Capsule {
    /// Its line, mm: two points at least.
    pub line: Vec<Vec3>,
    /// Half its thickness, mm.
    pub radius: f64,
}

impl Capsule {
    fn segments(&self) -> impl Iterator<Item = [Vec3; 2]> + '_ {
        self.line.windows(2).map(|ends| [ends[0], ends[1]])
    }

    fn least(&self, distance: impl Fn([Vec3; 2]) -> f64) -> f64 {
        self.segments().map(distance).fold(f64::INFINITY, f64::min) - self.radius
    }

    /// Its point nearest to p: p itself if it is inside.
    pub fn nearest(&self, p: Vec3) -> Vec3 {
        let foot = |[a, b]: [Vec3; 2]| {
            let along = b - a;
            let t = (p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
            a + along * t.clamp(0.0, 1.0)
        };
        let on_line = self.segments().map(foot).min_by(|a, b| (a - p).norm().total_cmp(&(b - p).norm())).unwrap_or(p);
        let off = p - on_line;
        if off.norm() > self.radius { on_line + off.normalize() * self.radius } else { p }
    }

    /// Distance of a ring, mm; negative where they meet.
    pub fn off_ring(&self, ring: &Ring) -> f64 {
        self.least(|segment| ring.off_segment(segment))
    }

    /// Distance of a box, mm; negative where they meet.
    pub fn off_box(&self, cuboid: &Cuboid) -> f64 {
        self.least(|segment| cuboid.off_segment(segment))
    }

    /// Distance of another member, mm; negative where they meet.
    pub fn off_other(&self, other: &Capsule) -> f64 {
        other.least(|theirs| self.segments().map(|own| between(own, theirs)).fold(f64::INFINITY, f64::min))
            - self.radius
    }
}

/// Distance of two segments p + s u and q + t v, s and t in [0, 1].
///
/// With r = p − q, the foot on the second line is t = (v·r + s u·v)/v·v and on the first s = (t u·v − u·r)/u·u; both together give
/// ```text
/// s = (u·v v·r − u·r v·v)/(u·u v·v − (u·v)²)
/// ```
/// Clamp s, take t for it, clamp t, take s for it, clamp s: the squared distance is convex in both, so this ends at the least (C. Ericson,
/// *Real-Time Collision Detection*, 2005, sec. 5.1.9: from memory). For parallel segments any s will do to begin with.
fn between([p, p2]: [Vec3; 2], [q, q2]: [Vec3; 2]) -> f64 {
    let (u, v, r) = (p2 - p, q2 - q, p - q);
    let (uu, vv, uv) = (u.norm_squared().max(f64::MIN_POSITIVE), v.norm_squared().max(f64::MIN_POSITIVE), u.dot(&v));
    let (ur, vr) = (u.dot(&r), v.dot(&r));
    let skew = uu * vv - uv * uv;
    let s = if skew > f64::EPSILON * uu * vv { ((uv * vr - ur * vv) / skew).clamp(0.0, 1.0) } else { 0.0 };
    let t = ((vr + s * uv) / vv).clamp(0.0, 1.0);
    let s = ((t * uv - ur) / uu).clamp(0.0, 1.0);
    (r + u * s - v * t).norm()
}
