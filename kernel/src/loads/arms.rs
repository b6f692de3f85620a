//! What an arm can carry, what it weighs, and how far its joints swing.
//!
//! A straight arm of area A hinged at both ends buckles at Euler's load N_cr = π² E I/L² only if it is perfectly straight. A real one is
//! bent and strained from its making; the column curves of EN 1993-1-1, 6.3.1 (EN 1999-1-1, 6.3.1 for aluminium) say what is left of its
//! strength N_y = A σ:
//! ```text
//! λ̄ = √(N_y/N_cr),   Φ = (1 + α(λ̄ − λ̄₀) + λ̄²)/2,   χ = 1/(Φ + √(Φ² − λ̄²)) ≤ 1,   N_b = χ N_y
//! ```
//! A bending moment M in the same place adds M/M_y, M_y = W σ with the section modulus W = I/(d/2); thrust N makes it 1/(1 − N/N_cr) times as
//! large. An arm bears k times its load where k N/N_b + k M/(M_y (1 − k N/N_cr)) = 1. The torsion of a foot off the arm's line, notches,
//! welds, fatigue and joints are not looked at: a study, not a proof of strength.

use crate::frame::{Rotation, Vec3};
use crate::layout::PointId;
use crate::linkage::{Constraint, Linkage};
use crate::pose::{Demand, Guess, Position};
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

    /// Imperfection α and the slenderness λ̄₀ up to which nothing is lost: column curve c, which takes in cold-formed tubes and solid bars
    /// (EN 1993-1-1, tables 6.1 and 6.2); buckling class A (EN 1999-1-1, table 6.6: from memory).
    pub fn column_curve(self) -> [f64; 2] {
        if self == Material::Steel { [0.49, 0.2] } else { [0.20, 0.1] }
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

/// The part χ of its strength that a column of slenderness λ̄ keeps, on the curve of an imperfection α from λ̄₀ on.
pub fn column_reduction(slenderness: f64, [imperfection, from]: [f64; 2]) -> f64 {
    let phi = 0.5 * (1.0 + imperfection * (slenderness - from) + slenderness.powi(2));
    let root = (phi * phi - slenderness * slenderness).max(0.0).sqrt();
    (1.0 / (phi + root)).min(1.0)
}

/// What an arm can carry along its line, and its mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Compression at which a perfectly straight one buckles, both ends hinged, N: Euler's load N_cr.
    pub euler: f64,
    /// Compression at which a real one buckles, N_b, N.
    pub buckling: f64,
    /// Force at which the section yields, N_y, N.
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
        let euler = PI.powi(2) * material.modulus() * inertia / length.powi(2);
        let yielding = material.yield_stress() * area;
        Strength {
            euler,
            buckling: column_reduction((yielding / euler).sqrt(), material.column_curve()) * yielding,
            yielding,
            bending: match section {
                Section::Tube { outer, .. } => Some(material.yield_stress() * inertia / (outer / 2.0)),
                Section::Given { .. } => None,
            },
            mass: material.density() * area * length,
        }
    }

    /// How many times a force (N, tension positive) with its bending moment (N·mm) could grow before the arm yields or, in compression,
    /// buckles: the smaller root of (1 − k n)(1 − k e) = k m with n = N/N_b, e = N/N_cr, m = M/M_y. Infinite without load; `None` for a moment
    /// on a section whose resistance to it is not known.
    pub fn reserve(&self, force: f64, moment: f64) -> Option<f64> {
        let m = if moment == 0.0 { 0.0 } else { moment / self.bending? };
        let (n, e) =
            if force < 0.0 { (-force / self.buckling, -force / self.euler) } else { (force / self.yielding, 0.0) };
        let sum = n + e + m;
        Some(2.0 / (sum + (sum * sum - 4.0 * n * e).max(0.0).sqrt()))
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

/// How far joints have swung from rest.
///
/// A member turns in the body by the smallest rotation M that takes its direction at rest to its present one (a wishbone's direction
/// is that from its axis to its ball joint, so that M is its turn about the axis). At the carrier, the joint's stud sits in the carrier,
/// which turns by R, and its socket in the member; turning about the stud is free. With the stud, at rest, across the member and as near
/// the steering axis as that lets it be (upright on an unsteered axle; assumed, as studs usually stand), it tilts in the socket by the
/// angle between R·stud and M·stud.
pub struct Swinging {
    /// The members at rest.
    members: Vec<Direction>,
    upright: Vec3,
}

impl Swinging {
    /// Of the joints of rods and wishbones.
    pub fn of(linkage: &Linkage) -> Swinging {
        let rest = Position::at_rest(linkage);
        let axis = State::solve(linkage, Demand::new(0.0, 0.0), &rest).ok().and_then(|state| state.axis.ok());
        let upright = axis.map_or(Vec3::z(), |axis| axis.screw.k);
        Swinging { members: directions(linkage, &rest), upright }
    }

    /// The joints, two a member; both legs of a wishbone have the same outer one.
    fn joints(&self) -> impl Iterator<Item = PointId> + '_ {
        self.members.iter().flat_map(|member| member.joints)
    }

    /// Each of them with its swing at a position, degrees.
    pub fn at(&self, linkage: &Linkage, position: &Position) -> Vec<(PointId, f64)> {
        let angles = self.members.iter().zip(directions(linkage, position)).flat_map(|(before, now)| {
            let turn = Rotation::rotation_between(&before.along, &now.along).unwrap_or_else(Rotation::identity);
            let d = before.along.normalize();
            let stud = self.upright - d * d.dot(&self.upright);
            let (carried, socket) = (position.pose.r * stud, turn * stud);
            // By the tangent: the cosine of a small angle loses half its digits.
            let tilt = carried.cross(&socket).norm().atan2(carried.dot(&socket));
            [turn.angle(), tilt].map(f64::to_degrees)
        });
        self.joints().zip(angles).collect()
    }
}

/// The greatest swing of every joint over travel × rack, ± these, mm, in so many steps each way. Positions that can't be reached are passed over.
pub fn swing(linkage: &Linkage, travel: f64, rack: f64, steps: i32) -> Vec<Swing> {
    let swinging = Swinging::of(linkage);
    let mut swings: Vec<Swing> = swinging.joints().map(|joint| Swing { joint, most: 0.0, at: [0.0; 2] }).collect();
    for i in -steps..=steps {
        let mut guess = Guess::at_rest(linkage);
        for j in if rack > 0.0 { -steps..=steps } else { 0..=0 } {
            let at = [travel * f64::from(i), rack * f64::from(j)].map(|mm| mm / f64::from(steps));
            let Ok(state) = State::solve(linkage, Demand::new(at[0], at[1]), guess) else { continue };
            guess = Guess::from(&state);
            let now = swinging.at(linkage, &state.position);
            for (swing, (_, angle)) in swings.iter_mut().zip(now).filter(|(swing, (_, angle))| *angle > swing.most) {
                (swing.most, swing.at) = (angle, at);
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
    let mut directions = Vec::new();
    for (_, rows) in linkage.parts() {
        for (i, row) in rows.iter().enumerate() {
            let Constraint::Rod { inner, outer, .. } = row.constraint else { continue };
            let base = row.constraint.inner_at(position.rack);
            let arm = position.pose.place(outer) - base;
            // Of a wishbone, from its body axis.
            let other = rows.get(1 - i).map(|row| &row.constraint);
            let along = if let Some(Constraint::Rod { inner: other, .. }) = other {
                let axis = (other - inner).normalize();
                arm - axis * axis.dot(&arm)
            } else {
                arm
            };
            directions.push(Direction { joints: row.joints, along });
        }
    }
    directions
}
