//! Why a demand cannot be met, in a sentence that names the part and the amount.

use super::newton::REACH;
use super::{Demand, Height, Position, Steering, determinant};
use crate::layout::{Amount, LIMIT, Part};
use crate::linkage::Linkage;
use crate::math::{Pose, Twist, matrix};
use nalgebra::{Matrix6, Vector6};
use std::cmp::Ordering;
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
    /// True where it is the changed parts that don't go together, whatever the demand.
    pub as_built: bool,
}

/// Why a demand cannot be met.
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// One part alone would have to be this much longer (positive) or shorter (negative), mm; the one that needs least. Of a strut, how far
    /// its line misses the top mount.
    CannotReach(Part, f64),
    /// The linkage passes through a position where these parts' lines depend on each other and no longer hold the wheel.
    Singular(Vec<Part>),
    /// The same already at rest.
    SingularAtRest(Vec<Part>),
    /// The axle has no rack to move or to steer with.
    NotSteered,
    /// The value is not a number in the range that can be asked for: what, value, unit.
    NoNumber(&'static str, f64, &'static str),
}

/// Parts in a row, for a sentence.
fn list(parts: &[Part]) -> String {
    match &parts.iter().map(|part| part.name()).collect::<Vec<_>>()[..] {
        [] => "its members".to_string(),
        [one] => format!("the joints of the {one}"),
        [rest @ .., last] => format!("the {} and the {last}", rest.join(", the ")),
    }
}

impl fmt::Display for Reason {
    /// The clause that ends “can’t be reached: …”, or the whole sentence where nothing has been tried.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::CannotReach(Part::Strut, by) => {
                write!(f, "the strut’s line misses its top mount by {} mm", Visible(*by))
            }
            Reason::CannotReach(part, by) => {
                let how = if *by > 0.0 { "short" } else { "long" };
                write!(f, "the {} is {} mm too {how}", part.name(), Visible(*by))
            }
            Reason::Singular(parts) | Reason::SingularAtRest(parts) => write!(
                f,
                "on the way there {} line up and no longer locate the wheel (a singular position)",
                list(parts)
            ),
            Reason::NotSteered => write!(f, "This axle has no rack, so it can’t be steered; leave the rack at 0."),
            Reason::NoNumber(what, value, unit) => write!(f, "A {what} of {} {unit} is out of range.", Amount(*value)),
        }
    }
}

impl fmt::Display for Unsolved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let asked = self.demand;
        match &self.reason {
            reason if self.as_built => return write!(f, "With these changes the axle can’t be assembled: {reason}."),
            Reason::SingularAtRest(parts) => {
                return write!(
                    f,
                    "Already at rest, {} do not locate the wheel: their lines are not independent (a singular position).",
                    list(parts)
                );
            }
            reason @ (Reason::NotSteered | Reason::NoNumber(..)) => return write!(f, "{reason}"),
            reason => write!(f, "{asked} can’t be reached: {reason}.")?,
        }
        let nearest = self.nearest.short_of(&asked);
        write!(f, " The nearest position that works is {nearest}")?;
        let missing = nearest.missing(&asked);
        if !missing.is_empty() {
            write!(f, ", {} short of what was asked", missing.join(" and "))?;
        }
        write!(f, ".")
    }
}

impl std::error::Error for Unsolved {}

/// The decimals of lengths and angles in these sentences, at most: a micrometre is more than any demand means.
const MOST_DECIMALS: usize = 3;

/// A size, with as many decimals as it takes to be seen: 12.3, 0.04.
struct Visible(f64);

impl Visible {
    fn decimals(&self) -> usize {
        (1..MOST_DECIMALS).find(|&n| self.0.abs() >= 0.1_f64.powi(n as i32)).unwrap_or(MOST_DECIMALS)
    }
}

impl fmt::Display for Visible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.0.abs(), self.decimals()) {
            (size, MOST_DECIMALS) if size < 0.001 => write!(f, "less than 0.001"),
            (size, decimals) => write!(f, "{size:.decimals$}"),
        }
    }
}

/// A value as it was asked for: to the micrometre, without noughts behind what it has.
fn as_asked(value: f64, least: usize) -> String {
    let text = format!("{value:+.MOST_DECIMALS$}");
    let noughts = text.len() - text.trim_end_matches('0').len();
    text[..text.len() - noughts.min(MOST_DECIMALS - least)].to_string()
}

impl fmt::Display for Demand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.height {
            Height::Travel(travel) => write!(f, "travel {} mm", as_asked(travel, 1))?,
            Height::SpringLength(length) => {
                write!(f, "spring length {} mm", as_asked(length, 1).trim_start_matches('+'))?;
            }
        }
        match self.steering {
            Steering::Rack(0.0) => Ok(()),
            Steering::Rack(rack) => write!(f, " with rack {} mm", as_asked(rack, 1)),
            Steering::Steer(steer) => write!(f, " with steer {}°", as_asked(steer, 2)),
        }
    }
}

impl Demand {
    /// Rounded for a sentence, away from what was asked, so that what is printed works too.
    fn short_of(&self, asked: &Demand) -> Demand {
        let round = |value: f64, asked: f64| {
            let scale = 10_f64.powi(Visible(asked - value).decimals() as i32);
            match value.total_cmp(&asked) {
                Ordering::Less => (value * scale).floor() / scale,
                Ordering::Equal => value,
                Ordering::Greater => (value * scale).ceil() / scale,
            }
        };
        Demand {
            height: match (self.height, asked.height) {
                (Height::Travel(value), Height::Travel(asked)) => Height::Travel(round(value, asked)),
                (Height::SpringLength(value), Height::SpringLength(asked)) => Height::SpringLength(round(value, asked)),
                (height, _) => height,
            },
            steering: match (self.steering, asked.steering) {
                (Steering::Rack(value), Steering::Rack(asked)) => Steering::Rack(round(value, asked)),
                (Steering::Steer(value), Steering::Steer(asked)) => Steering::Steer(round(value, asked)),
                (steering, _) => steering,
            },
        }
    }

    /// What this demand lacks of another of its kind, each with its unit.
    fn missing(&self, asked: &Demand) -> Vec<String> {
        let height = match (self.height, asked.height) {
            (Height::Travel(value), Height::Travel(asked))
            | (Height::SpringLength(value), Height::SpringLength(asked)) => asked - value,
            _ => 0.0,
        };
        let (steering, unit) = match (self.steering, asked.steering) {
            (Steering::Rack(value), Steering::Rack(asked)) => (asked - value, " mm"),
            (Steering::Steer(value), Steering::Steer(asked)) => (asked - value, "°"),
            _ => (0.0, ""),
        };
        let parts = [(height, " mm"), (steering, unit)].into_iter().filter(|(by, _)| *by != 0.0);
        parts.map(|(by, unit)| format!("{}{unit}", Visible(by))).collect()
    }
}

/// A demand must be made of numbers in range, must not steer what has no rack, and needs an axle that holds its wheel at rest.
pub(super) fn check_demand(linkage: &Linkage, demand: &Demand) -> Result<(), Unsolved> {
    let rest = Position::at_rest(linkage);
    let refuse = |reason| {
        Err(Unsolved { demand: *demand, nearest: Demand::new(0.0, 0.0), position: rest, reason, as_built: false })
    };
    if determinant(linkage.orientation) == 0.0 {
        return refuse(Reason::SingularAtRest(in_line(linkage, &rest)));
    }
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

/// The members whose lines depend on each other most at a position: those with a share in the left null vector.
fn in_line(linkage: &Linkage, position: &Position) -> Vec<Part> {
    let svd = scaled_jacobian(linkage, position).svd(true, false);
    parts_in(linkage, &svd.u.unwrap_or_else(Matrix6::zeros), svd.singular_values.imin())
}

/// Guides and rise, with moments in units of [`REACH`] so that all entries are alike.
fn scaled_jacobian(linkage: &Linkage, position: &Position) -> Matrix6<f64> {
    let (_, [a, b, c, d, e]) = linkage.guides(&position.pose, position.rack);
    let mut jacobian = matrix(&[a, b, c, d, e, linkage.rise(&position.pose)]);
    jacobian.fixed_columns_mut::<3>(3).scale_mut(1.0 / REACH);
    jacobian
}

/// The parts of the rows with a real share (a tenth of the largest) in one left singular vector.
fn parts_in(linkage: &Linkage, u: &Matrix6<f64>, column: usize) -> Vec<Part> {
    let vector = u.column(column);
    let share = 0.1 * vector.amax();
    let mut parts: Vec<_> =
        linkage.rows.iter().zip(vector.iter()).filter(|(_, x)| x.abs() > share).map(|(row, _)| row.part).collect();
    parts.dedup();
    parts
}

impl Unsolved {
    pub(super) fn out_of_reach(linkage: &Linkage, demand: Demand, nearest: Demand, position: Position) -> Unsolved {
        let reason =
            least_misfit(linkage, &demand, &position).unwrap_or_else(|| Reason::Singular(in_line(linkage, &position)));
        Unsolved { demand, nearest, position, reason, as_built: false }
    }
}

/// A misfit below this, mm, is none: the members reach, so the way there must be barred by a singular position.
const REACHES: f64 = 0.005;

/// For each member in turn: let it alone change its length (a wishbone: both its legs), keep everything else, and see how
/// little it takes. The member that needs least is the one to name. Only for demands of travel and rack; others are told by
/// their singular position.
fn least_misfit(linkage: &Linkage, demand: &Demand, from: &Position) -> Option<Reason> {
    let (Height::Travel(travel), Steering::Rack(rack)) = (demand.height, demand.steering) else { return None };
    let mut parts = linkage.rows.each_ref().map(|row| row.part).to_vec();
    parts.dedup();
    let misfit = |part| yielding(linkage, travel, rack, from, part).map(|by| (part, by));
    let (part, by) = parts.into_iter().filter_map(misfit).min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
    let by = if part == Part::Strut { by.abs() } else { by };
    (by.abs() > REACHES).then_some(Reason::CannotReach(part, by))
}

/// How stiff a member that must keep its length is against the one that may yield.
const STIFF: f64 = 1e4;

/// The least change of one member, mm, that closes the linkage at a demand: damped Gauss-Newton on the weighted residuals.
/// Of a wishbone's legs, or a strut's two directions, the greater.
/// `None` if the others can't be closed either.
fn yielding(linkage: &Linkage, travel: f64, rack: f64, from: &Position, freed: Part) -> Option<f64> {
    let mut pose = from.pose;
    let mut damping = 1.0;
    let weights =
        Vector6::from_fn(|i, _| if linkage.rows.get(i).is_some_and(|row| row.part == freed) { 1.0 } else { STIFF });
    let residuals = |pose: &Pose| {
        let ([a, b, c, d, e], lines) = linkage.guides(pose, rack);
        (Vector6::new(a, b, c, d, e, linkage.travel(pose) - travel), lines)
    };
    let (mut r, mut lines) = residuals(&pose);
    for _ in 0..200 {
        let [a, b, c, d, e] = lines;
        let jacobian = Matrix6::from_diagonal(&weights) * matrix(&[a, b, c, d, e, linkage.rise(&pose)]);
        let weighted = weights.component_mul(&r);
        let scale = Vector6::new(1.0, 1.0, 1.0, REACH * REACH, REACH * REACH, REACH * REACH);
        let normal = jacobian.transpose() * jacobian + Matrix6::from_diagonal(&(scale * damping));
        let step = Twist::from_vector(&normal.cholesky()?.solve(&(-jacobian.transpose() * weighted)));
        let tried = pose.moved(&step);
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
