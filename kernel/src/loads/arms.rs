//! What an arm can carry, what it weighs, and how far its joints swing.
//!
//! A straight arm hinged at both ends buckles at Euler's load F = π² E I/L²; its outermost fibre yields where |N|/A + M/W reaches σ, W the
//! section modulus I/(d/2) (strength of materials, any textbook). What bending adds to buckling, notches, welds, fatigue and joints are not
//! looked at: a study, not a proof of strength.

use crate::frame::{Rotation, Vec3};
use crate::layout::PointId;
use crate::linkage::{Constraint, Linkage};
use crate::pose::{Demand, Position};
use crate::state::State;
use std::f64::consts::PI;

/// What an arm is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Structural steel S355: E 210 000, yield 355 N/mm², 7850 kg/m³ (EN 1993-1-1, 3.2.6; EN 10025-2: from memory).
    Steel,
    /// Wrought aluminium EN AW-6082 T6: E 70 000, proof stress 250 N/mm², 2700 kg/m³ (EN 1999-1-1, 3.2: from memory).
    Aluminium,
}

impl Material {
    /// Both, with their names.
    pub const ALL: [(Material, &'static str); 2] = [(Material::Steel, "steel"), (Material::Aluminium, "aluminium")];

    /// Young's modulus, N/mm².
    pub fn modulus(self) -> f64 {
        if self == Material::Steel { 210_000.0 } else { 70_000.0 }
    }

    /// Yield strength or 0.2 % proof stress, N/mm².
    pub fn yield_stress(self) -> f64 {
        if self == Material::Steel { 355.0 } else { 250.0 }
    }

    /// kg/mm³.
    pub fn density(self) -> f64 {
        if self == Material::Steel { 7.85e-6 } else { 2.7e-6 }
    }
}

/// Cross-section of an arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Section {
    /// A round tube; a wall of half the diameter makes a bar.
    Tube {
        /// Outer diameter, mm.
        outer: f64,
        /// Wall, mm.
        wall: f64,
    },
    /// Any other.
    Given {
        /// Area, mm².
        area: f64,
        /// Smallest second moment of area, mm⁴.
        inertia: f64,
    },
}

impl Section {
    /// Area, mm², and smallest second moment of area, mm⁴.
    fn area_and_inertia(self) -> (f64, f64) {
        match self {
            Section::Tube { outer, wall } => {
                let inner = (outer - 2.0 * wall).max(0.0);
                (PI / 4.0 * (outer.powi(2) - inner.powi(2)), PI / 64.0 * (outer.powi(4) - inner.powi(4)))
            }
            Section::Given { area, inertia } => (area, inertia),
        }
    }
}

/// What an arm can carry along its line, and its mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Compression at which it buckles, both ends hinged, N.
    pub buckling: f64,
    /// Force at which the section yields, N.
    pub yielding: f64,
    /// Bending moment at which its outermost fibre yields, N·mm; `None` for a section that does not say how far out that is.
    pub bending: Option<f64>,
    /// kg.
    pub mass: f64,
}

impl Strength {
    /// Of an arm of a length, mm.
    pub fn of(length: f64, section: Section, material: Material) -> Strength {
        let (area, inertia) = section.area_and_inertia();
        Strength {
            buckling: PI.powi(2) * material.modulus() * inertia / length.powi(2),
            yielding: material.yield_stress() * area,
            bending: match section {
                Section::Tube { outer, .. } => Some(material.yield_stress() * inertia / (outer / 2.0)),
                Section::Given { .. } => None,
            },
            mass: material.density() * area * length,
        }
    }

    /// The part of what the arm can carry that a force (tension positive, N) with its bending moment (N·mm) uses: 1 where it yields or, in
    /// compression, buckles. `None` for a moment on a section whose resistance to it is not known.
    pub fn used(&self, force: f64, moment: f64) -> Option<f64> {
        let bent = if moment == 0.0 { 0.0 } else { moment / self.bending? };
        let buckling = if force < 0.0 { -force / self.buckling } else { 0.0 };
        Some(f64::max(force.abs() / self.yielding + bent, buckling))
    }
}

/// The greatest swing of a joint from its rest position.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// The joint.
    pub joint: PointId,
    /// Degrees; at a body joint the turn of the member, at a carrier joint the tilt of the stud in its socket.
    pub most: f64,
    /// Where: travel and rack, mm.
    pub at: [f64; 2],
}

/// Steps of travel and of rack, each way.
const STEPS: i32 = 6;

/// The greatest swing of every joint over travel × rack, ± these, mm. Positions that can't be reached are passed over.
///
/// A member turns in the body by the smallest rotation M that takes its direction at rest to its present one (a wishbone's direction
/// is that from its axis to its ball joint, so that M is its turn about the axis). At the carrier, the joint's stud sits in the carrier,
/// which turns by R, and its socket in the member; turning about the stud is free. With the stud, at rest, across the member and as near
/// the steering axis as that lets it be (upright on an unsteered axle; assumed, as studs usually stand), it tilts in the socket by the
/// angle between R·stud and M·stud.
pub fn swing(linkage: &Linkage, travel: f64, rack: f64) -> Vec<Swing> {
    let rest = Position { pose: linkage.rest(), rack: 0.0 };
    let axis = State::solve(linkage, Demand::new(0.0, 0.0), &rest).ok().and_then(|state| state.axis.ok());
    let upright = axis.map_or(Vec3::z(), |axis| axis.screw.k);
    let members = directions(linkage, &rest);
    let joints = members.iter().flat_map(|member| member.joints);
    let mut swings: Vec<Swing> = joints.map(|joint| Swing { joint, most: 0.0, at: [0.0; 2] }).collect();
    for i in -STEPS..=STEPS {
        let mut guess = rest;
        for j in if rack > 0.0 { -STEPS..=STEPS } else { 0..=0 } {
            let at = [travel * f64::from(i), rack * f64::from(j)].map(|mm| mm / f64::from(STEPS));
            let Ok(state) = State::solve(linkage, Demand::new(at[0], at[1]), &guess) else { continue };
            guess = state.position;
            for (pair, (before, now)) in swings.chunks_mut(2).zip(members.iter().zip(directions(linkage, &guess))) {
                let turn = Rotation::rotation_between(&before.along, &now.along).unwrap_or_else(Rotation::identity);
                let d = before.along.normalize();
                let stud = upright - d * d.dot(&upright);
                let (carried, socket) = (guess.pose.r * stud, turn * stud);
                // By the tangent: the cosine of a small angle loses half its digits.
                let tilt = carried.cross(&socket).norm().atan2(carried.dot(&socket));
                let angles = [turn.angle(), tilt].map(f64::to_degrees);
                for (swing, angle) in pair.iter_mut().zip(angles).filter(|(swing, angle)| *angle > swing.most) {
                    (swing.most, swing.at) = (angle, at);
                }
            }
        }
    }
    // Both legs of a wishbone end in one ball joint.
    let mut seen = Vec::new();
    swings.retain(|swing| {
        let new = !seen.contains(&swing.joint);
        seen.push(swing.joint);
        new
    });
    swings
}

/// A member's direction, and its joints on the body and on the carrier.
struct Direction {
    joints: [PointId; 2],
    along: Vec3,
}

fn directions(linkage: &Linkage, position: &Position) -> Vec<Direction> {
    let rods = linkage.rows.iter().enumerate().filter_map(|(i, row)| {
        let Constraint::Rod { inner, outer, on_rack, .. } = &row.constraint else { return None };
        let base = inner + Vec3::y() * if *on_rack { position.rack } else { 0.0 };
        let arm = position.pose.place(*outer) - base;
        let partner = linkage.rows.get(i ^ 1).filter(|other| i < 4 && other.joints[1] == row.joints[1]);
        let along = match partner.map(|other| &other.constraint) {
            Some(Constraint::Rod { inner: other, .. }) => {
                let axis = (other - inner).normalize();
                arm - axis * axis.dot(&arm)
            }
            _ => arm,
        };
        Some(Direction { joints: row.joints, along })
    });
    rods.collect()
}
