//! Where two pieces are nearest to each other: the ends of a dimension on a drawing.
//!
//! From a point of one the nearest point of the other, from that the nearest of the first, and so on: between convex bodies that comes to rest at the
//! least distance (W. Cheney and A. Goldstein, *Proximity maps for convex sets*, 1959: from memory). The hollow wheel is not convex, so the way begins
//! at the nearest of many points along the member, or along the box's edges.

use super::capsule::Capsule;
use super::cuboid::Cuboid;
use super::ring::Ring;
use crate::frame::Vec3;

/// Points along a segment where a way may begin.
const BEGINNINGS: usize = 24;

/// Rounds after which nearly parallel members are within a hundredth of a millimetre of the least distance.
const ROUNDS: usize = 200;

/// A piece in its place.
pub enum Body<'a> {
    /// The tyre on its rim and the disc in it.
    Wheel(&'a [Ring; 2]),
    /// A member.
    Limb(&'a Capsule),
    /// A box, with its mirror image if it has one.
    Boxes(Vec<&'a Cuboid>),
}

impl Body<'_> {
    /// Its point nearest to p: p itself if it is inside.
    fn nearest(&self, p: Vec3) -> Vec3 {
        let of = match self {
            Body::Wheel(rings) => rings.iter().map(|ring| ring.nearest(p)).collect::<Vec<_>>(),
            Body::Limb(capsule) => vec![capsule.nearest(p)],
            Body::Boxes(boxes) => boxes.iter().map(|cuboid| cuboid.nearest(p)).collect(),
        };
        of.into_iter().min_by(|a, b| (a - p).norm().total_cmp(&(b - p).norm())).unwrap_or(p)
    }

    /// Where a way to another body may begin.
    fn beginnings(&self) -> Vec<Vec3> {
        let segments: Vec<[Vec3; 2]> = match self {
            Body::Wheel(rings) => vec![[rings[0].tyre.centre; 2]],
            Body::Limb(capsule) => capsule.line.windows(2).map(|ends| [ends[0], ends[1]]).collect(),
            Body::Boxes(boxes) => boxes.iter().flat_map(|cuboid| cuboid.edges()).collect(),
        };
        let along = |[a, b]: [Vec3; 2]| (0..=BEGINNINGS).map(move |i| a.lerp(&b, i as f64 / BEGINNINGS as f64));
        segments.into_iter().flat_map(along).collect()
    }
}

/// The nearest points of two bodies that do not meet.
pub fn nearest(a: &Body, b: &Body) -> [Vec3; 2] {
    // The wheel has no line to walk along.
    if matches!(a, Body::Wheel(_)) {
        let [on_b, on_a] = walked(b, a);
        [on_a, on_b]
    } else {
        walked(a, b)
    }
}

fn walked(a: &Body, b: &Body) -> [Vec3; 2] {
    let ends = |p: Vec3| {
        let on_b = b.nearest(p);
        [a.nearest(on_b), on_b]
    };
    let apart = |[p, q]: &[Vec3; 2]| (p - q).norm();
    let begin = a.beginnings().into_iter().map(ends).min_by(|one, other| apart(one).total_cmp(&apart(other)));
    (0..ROUNDS).fold(begin.unwrap_or_default(), |[on_a, _], _| ends(on_a))
}
