//! What of a wheel can be touched: the tyre on its rim, a ring, with the wheel disc inside it.
//!
//! Both are bodies of revolution: a rounded cylinder ([`Tyre`]) without what is nearer to the axis than the barrel's inside radius r; of the disc
//! nothing is missing (r = 0). Joints stand inside the ring. At (ρ, h) the distance is
//! ```text
//! ρ < r:   hypot(r − ρ, max(|h| − w/2, 0))        to the barrel, or to the edge of its mouth
//! else:    that of the rounded cylinder
//! ```
//! **A segment.** ρ² is a quadratic of the way along it, so it is inside the barrel's cylinder (ρ < r) on one part at most. Before and behind that
//! the distance is convex and has one valley. Inside, ρ is convex and |h| too: between the faces the distance is least at an end, and beyond them
//! a valley can lie near either end.
//!
//! **A box.** A nearest point of the box lies on an edge (a segment) or inside a face. Inside a face the ring's nearest point has its normal against
//! the face: on the tyre's convex outside that is the point furthest that way; the barrel, hollow, has its nearest points to a plane at the ends.
//! They meet without an edge in the ring only where a face's plane cuts the ring and one of the one or two pieces cut is inside the face; along both
//! ways round the ring from its furthest point on one side of the plane to that on the other, a point of each is found. Or the ring is inside the
//! box.

use super::cuboid::{Cuboid, Face};
use super::least;
use super::tyre::Tyre;
use crate::frame::Vec3;
use std::f64::consts::PI;

/// A rounded cylinder without its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// The rounded cylinder.
    pub tyre: Tyre,
    /// What is nearer than this to the axis is missing, mm; no more than the flank's radius.
    pub inner: f64,
}

/// What is told where a ring and a box meet: that they meet, and no depth, mm.
const MEET: f64 = -1.0;

/// Parts of a segment's way through the barrel between which there is one valley at most.
const PARTS: usize = 16;

/// Halvings that find where a way round the ring crosses a plane to a millionth of a millimetre.
const HALVINGS: usize = 32;

impl Ring {
    fn in_barrel(&self, [rho, h]: [f64; 2]) -> f64 {
        (self.inner - rho).max(0.0).hypot((h.abs() - self.tyre.half).max(0.0))
    }

    /// Its point nearest to p: p itself if it is inside.
    pub fn nearest(&self, p: Vec3) -> Vec3 {
        let Ring { tyre, inner } = self;
        let [rho, h] = tyre.section(p);
        let across = p - tyre.centre - tyre.spin * h;
        let across = across.try_normalize(f64::EPSILON).unwrap_or_else(|| tyre.aside());
        let at = |rho: f64, h: f64| tyre.centre + tyre.spin * h + across * rho;
        if rho < *inner {
            return at(*inner, h.clamp(-tyre.half, tyre.half));
        }
        let core = [rho.min(tyre.flank()), h.clamp(-tyre.tread(), tyre.tread())];
        let off = (rho - core[0]).hypot(h - core[1]);
        let part = if off > tyre.shoulder { tyre.shoulder / off } else { 1.0 };
        at(core[0] + (rho - core[0]) * part, core[1] + (h - core[1]) * part)
    }

    /// Distance of a segment, mm; negative where they meet.
    pub fn off_segment(&self, [a, b]: [Vec3; 2]) -> f64 {
        let (from, along) = (a - self.tyre.centre, b - a);
        let (h, rise) = (self.tyre.spin.dot(&from), self.tyre.spin.dot(&along));
        let (from, along) = (from - self.tyre.spin * h, along - self.tyre.spin * rise);
        let [q0, q1, q2] = [from.norm_squared(), from.dot(&along), along.norm_squared()];
        let section = |t: f64| [(q0 + t * (2.0 * q1 + t * q2)).max(0.0).sqrt(), h + t * rise];
        let outside = |t: f64| self.tyre.distance(section(t));
        let Some([into, out]) = within([q0 - self.inner.powi(2), q1, q2]) else {
            return least::in_valley(outside, [0.0, 1.0]);
        };
        // Cut at the mouths: a valley before one can be as near as the barrel is deep to another at the segment's end.
        let mouths = [-1.0, 1.0].map(|side| (side * self.tyre.half - h) / rise);
        let inside = mouths.map(|t| if t > into && t < out { t } else { into });
        let cuts = [into, inside[0].min(inside[1]), inside[0].max(inside[1]), out];
        let barrel = cuts
            .windows(2)
            .filter(|part| part[0] < part[1])
            .map(|part| least::in_valleys(|t| self.in_barrel(section(t)), [part[0], part[1]], PARTS))
            .fold(f64::INFINITY, f64::min);
        let before = if into > 0.0 { least::in_valley(outside, [0.0, into]) } else { barrel };
        let behind = if out < 1.0 { least::in_valley(outside, [out, 1.0]) } else { barrel };
        barrel.min(before).min(behind)
    }

    /// Distance of a box, mm; negative where they meet.
    pub fn off_box(&self, cuboid: &Cuboid) -> f64 {
        let edges = cuboid.edges().map(|edge| self.off_segment(edge)).fold(f64::INFINITY, f64::min);
        let faces = cuboid.faces().filter_map(|face| self.off_face(cuboid, &face)).fold(edges, f64::min);
        let distance = if cuboid.contains(self.tyre.furthest(Vec3::y())) { MEET } else { faces };
        if distance > 0.0 { distance } else { MEET }
    }

    /// Distance of a face's inside, if the nearest point is there.
    fn off_face(&self, cuboid: &Cuboid, face: &Face) -> Option<f64> {
        let near = self.tyre.furthest(-face.out);
        let gap = face.out.dot(&near) - face.at;
        if gap > 0.0 {
            return cuboid.on(face, near).then_some(gap);
        }
        let cut = self.tyre.support(face.out) > face.at;
        let meets = |way: f64| cuboid.on(face, self.crossing(face, way));
        (cut && (meets(1.0) || meets(-1.0))).then_some(MEET)
    }

    /// Where the way round the ring, from its furthest point behind a face's plane to that before it, crosses the plane; `way` is 1 or −1.
    fn crossing(&self, face: &Face, way: f64) -> Vec3 {
        let tyre = &self.tyre;
        let ends = [-face.out, face.out].map(|d| tyre.section(tyre.furthest(d)));
        let along = face.out - tyre.spin * tyre.spin.dot(&face.out);
        let across = along.try_normalize(f64::EPSILON).unwrap_or_else(|| tyre.aside());
        let side = tyre.spin.cross(&across) * way;
        let at = |part: f64| {
            let [rho, h] = [0, 1].map(|i| ends[0][i] + (ends[1][i] - ends[0][i]) * part);
            let (sin, cos) = (part * PI).sin_cos();
            tyre.centre + tyre.spin * h + (side * sin - across * cos) * rho
        };
        let (mut behind, mut before) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(behind, before);
            if face.out.dot(&at(middle)) < face.at { behind = middle } else { before = middle }
        }
        at(before)
    }
}

/// Where in [0, 1] the quadratic q0 + 2 q1 t + q2 t² with q2 ≥ 0 is negative.
fn within([q0, q1, q2]: [f64; 3]) -> Option<[f64; 2]> {
    if q2 < f64::MIN_POSITIVE {
        return (q0 < 0.0).then_some([0.0, 1.0]);
    }
    let root = (q1 * q1 - q0 * q2).sqrt();
    let [into, out] = [(-q1 - root) / q2, (-q1 + root) / q2].map(|t| t.clamp(0.0, 1.0));
    // Without a root these are not numbers.
    (into < out).then_some([into, out])
}
