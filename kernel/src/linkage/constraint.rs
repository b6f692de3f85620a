//! The guiding constraints: residual, Plücker row and derivation of each, in one place.

use crate::frame::Vec3;
use crate::layout::Rod;
use crate::math::Line;
use nalgebra::Matrix3;

/// One equation that takes one freedom from the carrier.
#[derive(Clone, Debug, PartialEq)]
pub enum Constraint {
    /// A rod keeps its length.
    Rod {
        /// Joint on the body, or on the rack at its middle, mm.
        inner: Vec3,
        /// Joint on the carrier, from W at rest, mm.
        outer: Vec3,
        /// Length, mm.
        length: f64,
        /// The way of the inner joint per mm of rack: for the track rod of a steered axle.
        stroke: Option<Vec3>,
    },
    /// A line of the carrier keeps passing through a mount on the body; this is its condition across one direction.
    Slide {
        /// The mount, mm.
        top: Vec3,
        /// A point of the line, from W at rest, mm.
        foot: Vec3,
        /// A unit direction across the line, fixed in the carrier.
        across: Vec3,
        /// From foot to mount in the design, mm.
        length: f64,
    },
}

impl Constraint {
    /// A rod, whose length is the distance of its joints at rest.
    pub fn rod(rod: &Rod, centre: Vec3, stroke: Option<Vec3>) -> Constraint {
        Constraint::Rod { inner: rod.inner, outer: rod.outer - centre, length: (rod.outer - rod.inner).norm(), stroke }
    }

    /// The two conditions of a strut, across two perpendicular directions.
    pub fn strut(top: Vec3, foot: Vec3, centre: Vec3) -> [Constraint; 2] {
        let line = (top - foot).normalize();
        // Any direction not along the line will do to build the pair from; the one along its least component is safest.
        let aside = line.cross(&Vec3::ith(line.iamin(), 1.0)).normalize();
        let length = (top - foot).norm();
        [aside, line.cross(&aside)].map(|across| Constraint::Slide { top, foot: foot - centre, across, length })
    }

    /// A rod's joint on the body or the rack, mm; a strut's mount.
    pub fn inner_at(&self, rack: f64) -> Vec3 {
        match self {
            Constraint::Rod { inner, stroke, .. } => stroke.map_or(*inner, |stroke| inner + stroke * rack),
            Constraint::Slide { top, .. } => *top,
        }
    }

    /// How fast the rack's way shortens a rod whose line is this, mm per mm: d‖d‖/d rack = −u·stroke. 0 for what is not on a rack.
    pub fn rack_rate(&self, line: &Line) -> f64 {
        match self {
            Constraint::Rod { stroke: Some(stroke), .. } => line.u.dot(stroke),
            _ => 0.0,
        }
    }

    /// Residual (mm) and Plücker line about W. `w`, `r` are the carrier's pose.
    ///
    /// Rod, with p = w + R·outer, d = p − inner, u = d/‖d‖:
    /// ```text
    /// residual   ‖d‖ − length
    /// its rate   u·(v + ω×(p−w))                       ⇒ line through p along u
    /// ```
    /// Slide, with A = R·across and e = w + R·foot − top (from the mount to the line's point):
    /// ```text
    /// residual   A·e
    /// its rate   A·(v + ω×R·foot) + (ω×A)·e = A·v + ω·((top−w)×A)   ⇒ line through the mount along A
    /// ```
    // Innermost of all; as a call it costs WebAssembly a sixth of a solve.
    #[inline(always)]
    pub fn evaluate(&self, w: Vec3, r: &Matrix3<f64>, rack: f64) -> (f64, Line) {
        match self {
            Constraint::Rod { inner, outer, length, stroke } => {
                let arm = r * outer;
                let mut d = w + arm - inner;
                if let Some(stroke) = stroke {
                    d -= stroke * rack;
                }
                let now = d.norm();
                // A rod shrunk to nothing has no direction; a zero row lets the solver see the singularity, not NaN.
                let u = if now > 0.0 { d * (1.0 / now) } else { Vec3::zeros() };
                (now - length, Line::through(arm, u))
            }
            Constraint::Slide { top, foot, across, .. } => {
                let a = r * across;
                (a.dot(&(w + r * foot - top)), Line::through(top - w, a))
            }
        }
    }
}
