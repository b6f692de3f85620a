//! Why a demand cannot be met, in a sentence that names the part and the amount.

use super::newton::REACH;
use super::{Demand, Height, Position, Steering};
use crate::frame::Rotation;
use crate::layout::{Amount, LIMIT};
use crate::linkage::{Linkage, Member, Pose};
use crate::screw::{RISE, Twist, matrix};
use nalgebra::{Matrix6, Vector6};
use std::fmt;

/// A demand that could not be met.
#[derive(Clone, Debug, PartialEq)]
pub struct Unsolved {
    /// What was asked for.
    pub demand: Demand,
    /// The nearest demand on the way from rest that works.
    pub nearest: Demand,
    /// The position there.
    pub position: Position,
    /// Why it ends there.
    pub reason: Reason,
}

/// Why a demand cannot be met.
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// One member alone would have to be this much longer (positive) or shorter (negative), mm; the one that needs least.
    CannotReach {
        /// What people call it.
        name: &'static str,
        /// The strut's amount is how far its line misses the top mount.
        strut: bool,
        /// mm.
        by: f64,
    },
    /// The linkage passes through a position where these members' lines depend on each other and no longer hold the wheel.
    Singular(Vec<&'static str>),
    /// The same already at rest.
    SingularAtRest(Vec<&'static str>),
    /// The axle has no rack to move or to steer with.
    NotSteered,
    /// The value is not a number in the range that can be asked for: what, value, unit.
    NoNumber(&'static str, f64, &'static str),
}

impl fmt::Display for Unsolved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let list = |names: &[&str]| match names {
            [] => "its members".to_string(),
            [one] => format!("the {one}"),
            [rest @ .., last] => format!("the {} and the {last}", rest.join(", the ")),
        };
        match &self.reason {
            Reason::CannotReach { name, strut: true, by } => {
                write!(f, "{} can’t be reached: the {name}’s line misses its top mount by {by:.1} mm", self.demand)?;
            }
            Reason::CannotReach { name, by, .. } => {
                let how = if *by > 0.0 { "short" } else { "long" };
                write!(f, "{} can’t be reached: the {name} is {:.1} mm too {how}", self.demand, by.abs())?;
            }
            Reason::Singular(names) => write!(
                f,
                "{} can’t be reached: on the way the linkage is singular, {} come into line and no longer hold the wheel",
                self.demand,
                list(names)
            )?,
            Reason::SingularAtRest(names) => {
                return write!(
                    f,
                    "The linkage is singular at rest: the lines of {} depend on each other, so they don’t hold the wheel.",
                    list(names)
                );
            }
            Reason::NotSteered => {
                return write!(f, "This axle has no rack, so it can’t be steered; leave the rack at 0.");
            }
            Reason::NoNumber(what, value, unit) => {
                return write!(
                    f,
                    "The {what} asked for is {} {unit}, which is outside what can be asked for.",
                    Amount(*value)
                );
            }
        }
        write!(f, "; the nearest that works is {}.", self.nearest)
    }
}

impl std::error::Error for Unsolved {}

impl fmt::Display for Demand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.height {
            Height::Travel(travel) => write!(f, "travel {travel:+.1} mm")?,
            Height::SpringLength(length) => write!(f, "spring length {length:.1} mm")?,
        }
        match self.steering {
            Steering::Rack(0.0) => Ok(()),
            Steering::Rack(rack) => write!(f, " with rack {rack:+.1} mm"),
            Steering::Steer(steer) => write!(f, " with steer {steer:+.2}°"),
        }
    }
}

/// A demand must be made of numbers in range, and must not steer what has no rack.
pub(super) fn check_demand(linkage: &Linkage, demand: &Demand) -> Result<(), Unsolved> {
    let refuse = |reason| {
        let rest = Position { pose: linkage.rest(), rack: 0.0 };
        Err(Unsolved { demand: *demand, nearest: Demand::new(0.0, 0.0), position: rest, reason })
    };
    let in_range = |value: f64, limit: f64| value.abs() <= limit;
    match demand.height {
        Height::Travel(value) if !in_range(value, LIMIT) => return refuse(Reason::NoNumber("travel", value, "mm")),
        Height::SpringLength(value) if !(value > 0.0 && in_range(value, LIMIT)) => {
            return refuse(Reason::NoNumber("spring length", value, "mm"));
        }
        _ => {}
    }
    match demand.steering {
        Steering::Rack(value) if !in_range(value, LIMIT) => refuse(Reason::NoNumber("rack displacement", value, "mm")),
        Steering::Steer(value) if !in_range(value, 90.0) => refuse(Reason::NoNumber("steer angle", value, "°")),
        Steering::Rack(0.0) => Ok(()),
        _ if !linkage.steered => refuse(Reason::NotSteered),
        _ => Ok(()),
    }
}

/// Rows of the Jacobian are called dependent when the smallest singular value is below this part of the largest, with
/// moments divided by [`REACH`]: a hundred times finer than any axle that holds its wheel, far above rounding.
const DEPENDENT: f64 = 1e-5;

/// The members whose lines depend on each other at a position, if any do: those with a share in the left null vector.
pub(super) fn dependent_at(linkage: &Linkage, position: &Position) -> Option<Vec<&'static str>> {
    let svd = scaled_jacobian(linkage, position).svd(true, false);
    let values = svd.singular_values;
    (values.min() < DEPENDENT * values.max())
        .then(|| names_in(linkage, &svd.u.unwrap_or_else(Matrix6::zeros), values.imin()))
}

/// Guides and rise, with moments in units of [`REACH`] so that all entries are alike.
fn scaled_jacobian(linkage: &Linkage, position: &Position) -> Matrix6<f64> {
    let (_, [a, b, c, d, e]) = linkage.guides(&position.pose, position.rack);
    let mut jacobian = matrix(&[a, b, c, d, e, RISE]);
    jacobian.fixed_columns_mut::<3>(3).scale_mut(1.0 / REACH);
    jacobian
}

/// The names of the rows with a real share (a tenth of the largest) in one left singular vector.
fn names_in(linkage: &Linkage, u: &Matrix6<f64>, column: usize) -> Vec<&'static str> {
    let vector = u.column(column);
    let share = 0.1 * vector.amax();
    let mut names: Vec<_> =
        linkage.rows.iter().zip(vector.iter()).filter(|(_, x)| x.abs() > share).map(|(row, _)| row.name).collect();
    names.dedup();
    names
}

impl Unsolved {
    pub(super) fn singular_at_rest(demand: Demand, rest: Position, members: Vec<&'static str>) -> Unsolved {
        Unsolved { demand, nearest: Demand::new(0.0, 0.0), position: rest, reason: Reason::SingularAtRest(members) }
    }

    pub(super) fn out_of_reach(linkage: &Linkage, demand: Demand, nearest: Demand, position: Position) -> Unsolved {
        let reason = least_misfit(linkage, &demand, &position).unwrap_or_else(|| {
            let svd = scaled_jacobian(linkage, &position).svd(true, false);
            let column = svd.singular_values.imin();
            Reason::Singular(names_in(linkage, &svd.u.unwrap_or_else(Matrix6::zeros), column))
        });
        Unsolved { demand, nearest, position, reason }
    }
}

/// A misfit below this, mm, is none: the members reach, so the way there must be barred by a singular position.
const REACHES: f64 = 0.005;

/// For each member in turn: let it alone change its length (a wishbone: both its legs), keep everything else, and see how
/// little it takes. The member that needs least is the one to name. Only for demands of travel and rack; others are told by
/// their singular position.
fn least_misfit(linkage: &Linkage, demand: &Demand, from: &Position) -> Option<Reason> {
    let (Height::Travel(travel), Steering::Rack(rack)) = (demand.height, demand.steering) else { return None };
    let mut names = linkage.rows.each_ref().map(|row| row.name).to_vec();
    names.dedup();
    let misfit = |name| yielding(linkage, travel, rack, from, name).map(|by| (name, by));
    let (name, by) = names.into_iter().filter_map(misfit).min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
    let strut = linkage.rows.iter().any(|row| row.name == name && row.member == Member::Strut);
    let by = if strut { by.abs() } else { by };
    (by.abs() > REACHES).then_some(Reason::CannotReach { name, strut, by })
}

/// How stiff a member that must keep its length is against the one that may yield.
const STIFF: f64 = 1e4;

/// The least change of one member, mm, that closes the linkage at a demand: damped Gauss-Newton on the weighted residuals.
/// Of a wishbone's legs, or a strut's two directions, the greater.
/// `None` if the others can't be closed either.
fn yielding(linkage: &Linkage, travel: f64, rack: f64, from: &Position, freed: &str) -> Option<f64> {
    let mut pose = from.pose;
    let mut damping = 1.0;
    let weights =
        Vector6::from_fn(|i, _| if linkage.rows.get(i).is_some_and(|row| row.name == freed) { 1.0 } else { STIFF });
    let residuals = |pose: &Pose| {
        let ([a, b, c, d, e], lines) = linkage.guides(pose, rack);
        (Vector6::new(a, b, c, d, e, pose.w.z - linkage.centre.z - travel), lines)
    };
    let (mut r, mut lines) = residuals(&pose);
    for _ in 0..200 {
        let [a, b, c, d, e] = lines;
        let jacobian = Matrix6::from_diagonal(&weights) * matrix(&[a, b, c, d, e, RISE]);
        let weighted = weights.component_mul(&r);
        let scale = Vector6::new(1.0, 1.0, 1.0, REACH * REACH, REACH * REACH, REACH * REACH);
        let normal = jacobian.transpose() * jacobian + Matrix6::from_diagonal(&(scale * damping));
        let step = Twist::from_vector(&normal.cholesky()?.solve(&(-jacobian.transpose() * weighted)));
        let tried = Pose { w: pose.w + step.v, r: Rotation::new(step.omega) * pose.r };
        let (r_tried, lines_tried) = residuals(&tried);
        if weights.component_mul(&r_tried).norm() < weighted.norm() {
            (pose, r, lines, damping) = (tried, r_tried, lines_tried, damping * 0.3);
        } else {
            damping *= 5.0;
        }
    }
    let closed = |i: usize| weights[i] == 1.0 || r[i].abs() < REACHES;
    let freed = (0..6).filter(|&i| weights[i] == 1.0).map(|i| r[i]);
    (0..6).all(closed).then(|| freed.fold(0.0, |most: f64, by| if by.abs() > most.abs() { by } else { most }))
}
