//! Rigid-body motion and force: lines, twists, wrenches, screws. Pure mathematics, no axle.
//!
//! Everything is taken about one *reference point* (in this crate: the wheel centre W) in the car's axes.
//! A small motion of the body is a twist (v, ω): v the velocity of the body's point at W, ω the angular velocity.
//! A line through a point at r (from W) with direction u has Plücker coordinates (u, r×u); the rate at which a
//! body's point at r moves along u under a twist is
//!
//! ```text
//! u·(v + ω×r) = u·v + (r×u)·ω
//! ```
//!
//! so the line, as a row, *is* the derivative of a length along it, and, transposed, the wrench of a unit force along it.

use crate::frame::Vec3;
use nalgebra::{Matrix6, RowVector6, Vector6};

/// A line with direction `u` (a unit vector unless said otherwise) and moment `m` = r×u, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Direction.
    pub u: Vec3,
    /// Moment about the reference point, mm.
    pub m: Vec3,
}

impl Line {
    /// The line along `u` through the point `r` from the reference point.
    pub fn through(r: Vec3, u: Vec3) -> Line {
        Line { u, m: r.cross(&u) }
    }

    /// As a row of the Jacobian: (u, r×u).
    pub fn row(&self) -> RowVector6<f64> {
        RowVector6::new(self.u.x, self.u.y, self.u.z, self.m.x, self.m.y, self.m.z)
    }

    /// The rate along the line under a twist, mm per unit of the twist.
    pub fn rate(&self, twist: &Twist) -> f64 {
        self.u.dot(&twist.v) + self.m.dot(&twist.omega)
    }
}

/// A small motion: velocity of the reference point and angular velocity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Twist {
    /// Velocity of the body's point at the reference point, mm per unit.
    pub v: Vec3,
    /// Angular velocity, rad per unit.
    pub omega: Vec3,
}

impl Twist {
    /// No motion.
    pub const NONE: Twist = Twist { v: Vec3::new(0.0, 0.0, 0.0), omega: Vec3::new(0.0, 0.0, 0.0) };

    /// From six numbers (v, ω).
    pub fn from_vector(x: &Vector6<f64>) -> Twist {
        Twist { v: x.fixed_rows::<3>(0).into(), omega: x.fixed_rows::<3>(3).into() }
    }

    /// Velocity of the body's point at `r` from the reference point.
    pub fn velocity(&self, r: Vec3) -> Vec3 {
        self.v + self.omega.cross(&r)
    }

    /// The motion times `k`.
    pub fn scaled(&self, k: f64) -> Twist {
        Twist { v: self.v * k, omega: self.omega * k }
    }

    /// This motion and `k` times another.
    pub fn plus(&self, k: f64, other: &Twist) -> Twist {
        Twist { v: self.v + other.v * k, omega: self.omega + other.omega * k }
    }

    /// The instantaneous screw: the line every motion turns about and slides along.
    ///
    /// ```text
    /// v_A = v + ω×a ∥ ω   ⇒   a = ω×v/|ω|²,   pitch = ω·v/|ω|²
    /// ```
    ///
    /// (K. M. Lynch, F. C. Park, *Modern Robotics*, sec. 3.3.) `None` for a motion that turns by less than
    /// `NO_TURN` rad per mm: it is a translation and has no axis nearer than a kilometre.
    pub fn screw(&self) -> Option<Screw> {
        let omega2 = self.omega.norm_squared();
        let turns = omega2.sqrt() > NO_TURN * self.v.norm();
        (turns && omega2 > 0.0).then(|| Screw {
            k: self.omega / omega2.sqrt(),
            a: self.omega.cross(&self.v) / omega2,
            pitch: self.omega.dot(&self.v) / omega2,
        })
    }
}

/// Turn per movement, rad/mm, below which a motion counts as a translation: its axis would be a kilometre away.
pub const NO_TURN: f64 = 1e-6;

/// A screw: direction, the point of its axis nearest the reference point, pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// Unit direction.
    pub k: Vec3,
    /// From the reference point to the nearest point of the axis, mm.
    pub a: Vec3,
    /// Advance per turn, mm/rad, positive along `k` for a right-handed screw.
    pub pitch: f64,
}

impl Screw {
    /// Where the axis crosses the height `z` (from the reference point), mm from it; `None` for a level axis.
    pub fn at_height(&self, z: f64) -> Option<Vec3> {
        (self.k.z.abs() > LEVEL).then(|| self.a + self.k * ((z - self.a.z) / self.k.z))
    }
}

/// |k_z| below which an axis counts as level: it meets no road nearer than a kilometre or so.
const LEVEL: f64 = 1e-6;

/// A force and a moment about the reference point, N and N·mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wrench {
    /// Force, N.
    pub force: Vec3,
    /// Moment about the reference point, N·mm.
    pub moment: Vec3,
}

impl Wrench {
    /// A force at the point `r` from the reference point.
    pub fn at(r: Vec3, force: Vec3) -> Wrench {
        Wrench { force, moment: r.cross(&force) }
    }

    /// This wrench and another.
    pub fn plus(&self, other: &Wrench) -> Wrench {
        Wrench { force: self.force + other.force, moment: self.moment + other.moment }
    }

    /// As six numbers (F, M).
    pub fn vector(&self) -> Vector6<f64> {
        Vector6::new(self.force.x, self.force.y, self.force.z, self.moment.x, self.moment.y, self.moment.z)
    }

    /// Work done per unit of a twist, N·mm.
    pub fn power(&self, twist: &Twist) -> f64 {
        self.force.dot(&twist.v) + self.moment.dot(&twist.omega)
    }
}

/// Six lines as the rows of a matrix.
pub fn matrix(lines: &[Line; 6]) -> Matrix6<f64> {
    Matrix6::from_rows(&lines.map(|line| line.row()))
}
