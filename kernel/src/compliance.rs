//! Compliance: what gives way when forces act, about a solved pose.
//!
//! Members and subframe are rigid but for what the layout's `stiffness` gives (an arm's `along` is the member itself); ball joints have no play;
//! bushes are linear; deflections are small, one linear step. Left out: geometric stiffness of preload, the spring's own stiffness, dampers, the
//! anti-roll bar, wheel bearing, carrier, strut tube and rim, and everything of second order.
//!
//! With J the five guiding rows and a sixth that holds the wheel up, w a wrench on the carrier, T what the rows carry, ξ the carrier's twist, η the
//! subframe's and q the bar's movement in its housing:
//! ```text
//! Jᵀ T = w                                          statics: the rows, transposed
//! J ξ  = C T + A η + b q                            rows' lengths and body ends give way (`wheel` has C, A and b)
//! K η  = Σ Aᵀ T,   k q = Σ bᵀ T                     over both wheels: what their rows put on the subframe and on the rack
//! ```
//! so with G = J⁻¹ the twist of wheel i under the wrenches of both wheels j is ξ_i = Σ X_ij w_j with
//! ```text
//! X_ij = G_i (δ_ij C_i + A_i K⁻¹ A_jᵀ + b_i b_jᵀ/k) G_jᵀ
//! ```
//! which is symmetric as a whole: Maxwell's reciprocity. Each wheel is told as a left one; the right wheel's A and b are turned into the car's
//! axes, in which subframe and rack are one for both.

mod axis;
mod bushes;
mod deflection;
mod elastic;
mod under_load;
mod wheel;

pub use bushes::Bushes;
pub use deflection::Deflection;
pub use elastic::Elastic;
pub use under_load::{Column, UNDER_LOAD, UnderLoad, case_wrenches, force_wrenches};

use crate::linkage::Linkage;
use crate::math::{Twist, Wrench};
use crate::state::State;
use nalgebra::Matrix6;
use wheel::Wheel;

/// What holds the wheels up while forces act: the sixth row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// Pads under locked wheels: the carrier's points at the contact points keep their heights. The springs are not involved.
    ByPads,
    /// The springs, at their lengths in the rigid state.
    BySprings,
}

/// The compliance of both wheels at a position.
#[derive(Clone, Debug, PartialEq)]
pub struct Compliance {
    /// X_ij: twist of wheel i about its wheel centre (mm, rad) per wrench on wheel j about its wheel centre (N, N·mm), each as a left wheel.
    blocks: [[Matrix6<f64>; 2]; 2],
}

impl Compliance {
    /// Of what gives way, at the states of both wheels, each as a left one. `None` where the guides do not hold a wheel (singular), or don't hold
    /// it up.
    pub fn at(bushes: &Bushes, linkages: &[Linkage; 2], states: [&State; 2], held: Held) -> Option<Compliance> {
        let left = Wheel::at(&linkages[0], &bushes.ends[0], states[0], held)?;
        let right = Wheel::at(&linkages[1], &bushes.ends[1], states[1], held)?.mirrored();
        let own = |wheel: &Wheel| wheel.g * wheel.c * wheel.g.transpose();
        let mut blocks = [[own(&left), Matrix6::zeros()], [Matrix6::zeros(), own(&right)]];
        if let Some(mounts) = &bushes.mounts {
            let k = (mounts + left.braced + right.braced).cholesky()?;
            let [from_left, from_right] = [&left, &right].map(|wheel| wheel.g * wheel.a);
            let [to_left, to_right] = [&from_left, &from_right].map(|from| k.solve(&from.transpose()));
            blocks[0][0] += from_left * to_left;
            blocks[0][1] += from_left * to_right;
            blocks[1][1] += from_right * to_right;
        }
        if bushes.rack > 0.0 {
            let [l, r] = [&left, &right].map(|wheel| wheel.g * wheel.b);
            blocks[0][0] += l * l.transpose() * bushes.rack;
            blocks[0][1] += l * r.transpose() * bushes.rack;
            blocks[1][1] += r * r.transpose() * bushes.rack;
        }
        blocks[1][0] = blocks[0][1].transpose();
        let finite = blocks.iter().flatten().all(|block| block.iter().all(|number| number.is_finite()));
        finite.then_some(Compliance { blocks })
    }

    /// How both carriers move under a wrench on each: all about their wheel centres, each as of a left wheel.
    pub fn twists(&self, wrenches: &[Wrench; 2]) -> [Twist; 2] {
        [0, 1].map(|wheel| self.twist(wheel, wrenches))
    }

    /// How one carrier moves: 0 the left one, 1 the right one.
    pub(crate) fn twist(&self, wheel: usize, wrenches: &[Wrench; 2]) -> Twist {
        let [own, other] = [0, 1].map(|j| self.blocks[wheel][j] * wrenches[j].vector());
        Twist::from_vector(&(own + other))
    }
}
