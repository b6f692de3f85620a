//! The tyre: a cylinder with rounded shoulders, not flattened at the road.
//!
//! It is the ball of radius s (the shoulder) moved over a solid cylinder, its core, of radius R − s and half height w/2 − s about the spin axis n at
//! the wheel centre W. The greatest reach of a sum is the sum of the greatest reaches, so its support in a unit direction d, how far it reaches from
//! the origin along d, is that of the centre, of the core's axis, of the core's disc and of the ball:
//! ```text
//! W·d + (w/2 − s)|n·d| + (R − s)√(1 − (n·d)²) + s
//! ```
//! With ρ a point's distance from the axis and h its height over the wheel plane, the distance to the core is that of a rectangle in (ρ, h), and
//! ```text
//! distance = hypot(max(ρ − (R − s), 0), max(|h| − (w/2 − s), 0)) − s
//! ```
//! negative inside. A distance to a convex body is convex along any line.

use crate::frame::Vec3;
use crate::layout::Wheel;

/// A tyre in its place. Lengths mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tyre {
    /// The wheel centre W.
    pub centre: Vec3,
    /// Unit outward spin axis n.
    pub spin: Vec3,
    /// Free radius R.
    pub radius: f64,
    /// Half the width, w/2.
    pub half: f64,
    /// Radius of the rounded shoulders, s.
    pub shoulder: f64,
}

impl Tyre {
    /// The tyre of a wheel with its centre and spin axis there.
    pub fn new(wheel: &Wheel, centre: Vec3, spin: Vec3) -> Tyre {
        Tyre { centre, spin, radius: wheel.free_radius, half: wheel.width / 2.0, shoulder: wheel.shoulder() }
    }

    /// All that is no farther from it than a margin, mm: a larger ball moved over the same core.
    pub fn with_margin(&self, margin: f64) -> Tyre {
        Tyre { radius: self.radius + margin, half: self.half + margin, shoulder: self.shoulder + margin, ..*self }
    }

    /// Radius of the core, and of the flat flanks: R − s.
    pub fn flank(&self) -> f64 {
        self.radius - self.shoulder
    }

    /// Half the height of the core, and of the flat tread: w/2 − s.
    pub fn tread(&self) -> f64 {
        self.half - self.shoulder
    }

    /// How far it reaches from the origin along a unit direction.
    pub fn support(&self, d: Vec3) -> f64 {
        let along = self.spin.dot(&d);
        let across = (1.0 - along * along).max(0.0).sqrt();
        self.centre.dot(&d) + self.tread() * along.abs() + self.flank() * across + self.shoulder
    }

    /// A point of it that reaches furthest along a unit direction; on a flank that lies square to it, one of the flank's rim.
    pub fn furthest(&self, d: Vec3) -> Vec3 {
        let along = self.spin.dot(&d);
        let across = (d - self.spin * along).try_normalize(f64::EPSILON).unwrap_or_else(|| self.aside());
        self.centre + self.spin * self.tread().copysign(along) + across * self.flank() + d * self.shoulder
    }

    /// Some unit direction square to the axis.
    pub fn aside(&self) -> Vec3 {
        self.spin.cross(&Vec3::ith(self.spin.iamin(), 1.0)).normalize()
    }

    /// A point's distance from the axis and its height over the wheel plane, ρ and h.
    pub fn section(&self, at: Vec3) -> [f64; 2] {
        let from = at - self.centre;
        let h = self.spin.dot(&from);
        [(from - self.spin * h).norm(), h]
    }

    /// Distance of what is at ρ and h; down to −s inside.
    pub fn distance(&self, [rho, h]: [f64; 2]) -> f64 {
        (rho - self.flank()).max(0.0).hypot((h.abs() - self.tread()).max(0.0)) - self.shoulder
    }
}
