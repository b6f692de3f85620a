//! A car measured with a tape: distances between points, and known coordinates of some, give where all of them are.
//!
//! A tape reading is the distance of two *ends*: a point, or the mark that a plumb line from it leaves on the floor. With A = 1 for a point and
//! A = diag(1, 1, 0) for its mark,
//!
//! ```text
//! f = ‖A_i·p_i − A_j·p_j‖,   ∂f/∂p_i = A_i·u,   ∂f/∂p_j = −A_j·u,   u = (A_i·p_i − A_j·p_j)/f
//! ```
//!
//! and a known coordinate is one of p itself. Every reading has a standard deviation σ; the places make Σ ((f − value)/σ)² least. With J the derivative
//! of these (f − value)/σ at the places found, J = U·S·Vᵀ, the covariance of the places is (JᵀJ)⁻¹ = V·S⁻²·Vᵀ (the readings' errors independent), so a
//! singular value that is nothing, or next to it, is a movement of the points that the readings do not see: what is not determined.
//!
//! Of reading i the share h_i of its error goes into the places, h = diag(U·Uᵀ), and 1 − h_i is seen by the others. What is left of it, r_i, has the
//! standard deviation √(1 − h_i), so w_i = r_i/√(1 − h_i) is a standard normal number if all is well, and without the reading the sum of squares would
//! be smaller by w_i² (W. Baarda, *A Testing Procedure for Use in Geodetic Networks*, 1968; grade: memory).
//!
//! Distances alone leave the mirror image open, and in a plane both sides of it: the places found are those nearest to where the points are thought
//! to be.

mod found;
mod network;

pub use found::{Checked, Found, NO_MEASUREMENT, Suspect};
pub use network::{End, Fault, MOST, Network, Tape, What};
