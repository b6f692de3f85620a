//! A box with its edges along the car's axes.

use super::least;
use crate::frame::Vec3;
use crate::layout::Obstacle;

/// A box in its place, from its least to its greatest corner, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cuboid {
    least: Vec3,
    most: Vec3,
}

impl From<&Obstacle> for Cuboid {
    fn from(obstacle: &Obstacle) -> Cuboid {
        let [least, most] = obstacle.corners();
        Cuboid { least, most }
    }
}

/// A face: its axis, which way it looks along it (1 or −1), and where its plane is in that direction, mm.
#[derive(Clone, Copy, Debug)]
pub struct Face {
    /// 0, 1 or 2 for x, y or z.
    pub axis: usize,
    /// Unit direction out of the box.
    pub out: Vec3,
    /// The plane: out·p = at.
    pub at: f64,
}

impl Cuboid {
    /// Its point nearest to p: p itself if it is inside.
    pub fn nearest(&self, p: Vec3) -> Vec3 {
        p.sup(&self.least).inf(&self.most)
    }

    /// Distance of a point, 0 inside.
    pub fn distance(&self, p: Vec3) -> f64 {
        (p - self.nearest(p)).norm()
    }

    /// Distance of a segment, 0 where they meet: convex along it, as the box is.
    pub fn off_segment(&self, [a, b]: [Vec3; 2]) -> f64 {
        least::in_valley(|t| self.distance(a + (b - a) * t), [0.0, 1.0])
    }

    /// True for a point inside.
    pub fn contains(&self, p: Vec3) -> bool {
        (0..3).all(|i| (self.least[i]..=self.most[i]).contains(&p[i]))
    }

    /// The six faces.
    pub fn faces(&self) -> impl Iterator<Item = Face> + '_ {
        (0..3).flat_map(|axis| {
            let out = Vec3::ith(axis, 1.0);
            [Face { axis, out, at: self.most[axis] }, Face { axis, out: -out, at: -self.least[axis] }]
        })
    }

    /// True if a point of a face's plane, or its foot there, lies on the face.
    pub fn on(&self, face: &Face, p: Vec3) -> bool {
        (0..3).filter(|i| *i != face.axis).all(|i| (self.least[i]..=self.most[i]).contains(&p[i]))
    }

    /// The twelve edges.
    pub fn edges(&self) -> impl Iterator<Item = [Vec3; 2]> + '_ {
        let corner = |bits: usize| Vec3::from_fn(|i, _| if bits >> i & 1 == 0 { self.least[i] } else { self.most[i] });
        (0..3).flat_map(move |axis| {
            let from = (0..8).filter(move |bits| bits >> axis & 1 == 0);
            from.map(move |bits| [corner(bits), corner(bits | 1 << axis)])
        })
    }
}
