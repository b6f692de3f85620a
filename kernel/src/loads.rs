//! Statics of the carrier: the Jacobian's rows, transposed.
//!
//! Each guiding row i pulls on the carrier along its line with a force T_i (tension positive), the spring pushes along its
//! equivalent line s with a force F (compression positive). A tension pulls *against* the direction in which the length grows:
//! ```text
//! w − Σ T_i·row_i + F·s = 0          ⇒   [rows; −s]ᵀ·(T, F) = w
//! ```
//! and virtual work says the same: T_i·δL_i = w·δξ where L_i alone grows by δL_i. (A textbook's
//! rod forces in `tests/` settle which sign is tension.)
//!
//! A spring on a member loads the carrier through that member's outer joint. What is called the member's force here is the row's tension;
//! what the member carries along its line differs on both sides of the spring's foot (see [`Bending`]).

mod arms;
mod case;
mod corner;
mod damper;
mod load;
mod steering;
mod transfer;
mod vehicle;

pub use arms::{Material, Section, Strength, Swing, Swinging, column_reduction, swing};
pub use case::LoadCase;
pub use corner::{Bending, Corner, Joint};
pub use damper::{RodForces, SEAT, SideFreeSpring};
pub use load::{Load, NoLoad, turning_friction};
pub use steering::{Hands, Share, SteeringMoment};
pub use transfer::LateralTransfer;
pub use vehicle::Setting;

use crate::frame::Vec3;
use crate::layout::Member;
use crate::linkage::Linkage;
use crate::math::{Line, Wrench, matrix};
use crate::state::{Attitude, State};
use nalgebra::{LU, U6};

/// The rows that hold the carrier at a state, transposed and factored once for as many loads as there are.
#[derive(Clone, Debug)]
pub struct Statics {
    factored: LU<f64, U6, U6>,
}

impl Statics {
    /// `holds` is the line of what holds the wheel up (for a [`State`], its `spring`), with the sense that its force is positive
    /// when it pushes along the line.
    pub fn new(guides: &[Line; 5], holds: &Line) -> Statics {
        let [a, b, c, d, e] = *guides;
        let pushes = Line { u: -holds.u, m: -holds.m };
        Statics { factored: matrix(&[a, b, c, d, e, pushes]).transpose().lu() }
    }

    /// The same at a state.
    pub fn at(state: &State) -> Statics {
        Statics::new(&state.guides, &state.spring)
    }

    /// The forces that balance a wrench about the wheel centre; `None` where the members do not hold the carrier (singular).
    pub fn members(&self, wrench: &Wrench) -> Option<MemberForces> {
        let forces = self.factored.solve(&wrench.vector())?;
        let finite = forces.iter().all(|force| force.is_finite());
        finite.then(|| MemberForces { rows: std::array::from_fn(|i| forces[i]), spring: forces[5] })
    }
}

/// Forces in the members that hold one carrier, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MemberForces {
    /// Per guiding row: tension of a rod or wishbone leg; for the strut's two rows, the components of its side force.
    pub rows: [f64; 5],
    /// Spring force, compression positive.
    pub spring: f64,
}

impl MemberForces {
    /// The forces that balance a wrench about the wheel centre. `holds` is the line of what holds the wheel up (for a
    /// [`State`], its `spring`), with the sense that its force is positive when it pushes along the line.
    /// `None` where these lines do not hold the carrier (singular).
    pub fn balancing(wrench: &Wrench, guides: &[Line; 5], holds: &Line) -> Option<MemberForces> {
        Statics::new(guides, holds).members(wrench)
    }

    /// The forces under a road force at the contact point, given along (e_x', e_y', e_z), N, wheel locked to the carrier.
    pub fn under_road_force(state: &State, force: Vec3) -> Option<MemberForces> {
        let Attitude { contact, .. } = state.attitude;
        MemberForces::balancing(&Wrench::at(contact, state.attitude.along(force)), &state.guides, &state.spring)
    }

    /// Tension of one rod or wishbone leg, N; `None` if the linkage does not have it.
    pub fn tension(&self, linkage: &Linkage, member: Member) -> Option<f64> {
        let i = linkage.rows.iter().position(|row| row.member == member)?;
        (member != Member::Strut).then(|| self.rows[i])
    }

    /// Size of the side force at the strut's top mount, N; `None` without a strut.
    pub fn strut_side(&self, linkage: &Linkage) -> Option<f64> {
        let across = linkage.rows.iter().zip(self.rows).filter(|(row, _)| row.member == Member::Strut);
        across.map(|(_, force)| force).reduce(f64::hypot).map(f64::abs)
    }
}
