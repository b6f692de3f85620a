//! Bushes that resist turning, and the travel at which each was tightened.
//!
//! The inner sleeve of a rubber bush is clamped where the wheel is when its bolt is tightened; from there the rubber is twisted as the arm turns.
//! With d from the inner to the outer joint, a the bush's axis (of a wishbone its body axis), p = d − a(a·d) and p₀ the same when it was tightened:
//! ```text
//! φ  = the angle from p₀ to p about a                its twist
//! φ' = a·(p × ḋ)/‖p‖²                                its turn per mm of travel, ḋ the outer joint's movement
//! U  = c φ²/2,   F = dU/ds = c φ φ'                  torque × turn per travel, by virtual work; positive presses the wheel down, as a spring does
//! k  = dF/ds                                         its share of the wheel rate: c φ'² where it is not twisted
//! ```
//! Only turns about the bush's axis count; what an arm tilts its bush besides is left out.

use super::slope::slope;
use crate::axle::Axle;
use crate::frame::Vec3;
use crate::layout::{Anchor, Part};
use crate::linkage::{Constraint, Linkage, Row};
use crate::pose::Demand;
use crate::state::State;

/// N·mm per rad in N·m per degree.
const PER_RADIAN: f64 = 1000.0 * 180.0 / std::f64::consts::PI;

/// An arm along its bush's axis but for so much of its length does not turn it: sin 0.1°.
const ALONG_AXIS: f64 = 0.002;

/// A bush with torsional stiffness at one wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnedBush {
    /// Which.
    pub anchor: Anchor,
    /// Its torsional stiffness, N·m/°.
    pub torsion: f64,
    /// The travel at which it was tightened, mm.
    pub tightened: f64,
    row: usize,
    /// a.
    axis: Vec3,
    /// p₀; `None` where the axle can't stand at that travel, or its arm lies along the axis there.
    from: Option<Vec3>,
}

/// Such a bush at a state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Twisted {
    /// φ, degrees, positive when it grows in bump.
    pub twist: f64,
    /// Its size as a torque on the arm, N·m, of the twist's sign.
    pub torque: f64,
    /// φ', degrees per mm of travel, positive.
    pub per_travel: f64,
    /// F: what it adds to the vertical force at the wheel, N, positive when it carries the car.
    pub force: f64,
}

impl TurnedBush {
    /// All of the wheel looked at, each tightened where the layout says, or where the car stands.
    pub fn all(axle: &Axle) -> Vec<TurnedBush> {
        let (layout, linkage) = (axle.layout(), axle.linkage());
        let of = |(row, held): (usize, &Row)| {
            let anchor = Anchor::of(held.member);
            let bush = layout.stiffness.get(&anchor).filter(|_| anchor.turns(layout))?;
            let axis = axis(linkage, row, bush.axis)?;
            let tightened = layout.changes.tightened.get(&held.member).copied();
            let tightened = tightened.unwrap_or_else(|| axle.standing_travel());
            let state = axle.state(Demand::new(tightened, 0.0)).ok();
            let from = state.and_then(|state| across(linkage, &state, row, axis));
            Some(TurnedBush { anchor, torsion: bush.torsion?, tightened, row, axis, from })
        };
        linkage.rows().iter().enumerate().filter_map(of).collect()
    }

    /// At a state of the same wheel; `None` where its twist is not known.
    pub fn at(&self, linkage: &Linkage, state: &State) -> Option<Twisted> {
        let (from, p) = (self.from?, across(linkage, state, self.row, self.axis)?);
        let twist = self.axis.dot(&from.cross(&p)).atan2(from.dot(&p));
        let (_, outer) = ends(&linkage.rows()[self.row], state);
        let moves = state.bump.twist.velocity(outer - state.position.pose.w);
        let turn = self.axis.dot(&p.cross(&moves)) / p.norm_squared();
        let torque = self.torsion * PER_RADIAN * twist;
        // Told as growing in bump, whichever way the axis points.
        let sign = if turn < 0.0 { -1.0 } else { 1.0 };
        Some(Twisted {
            twist: sign * twist.to_degrees(),
            torque: sign * self.torsion * twist.to_degrees(),
            per_travel: turn.abs().to_degrees(),
            force: torque * turn,
        })
    }
}

/// What bushes add to the vertical force at the wheel, N, and to the wheel rate, N/mm, at a state.
pub fn at_wheel(bushes: &[TurnedBush], linkage: &Linkage, state: &State) -> Option<(f64, f64)> {
    let force = |state: &State| bushes.iter().map(|bush| Some(bush.at(linkage, state)?.force)).sum::<Option<f64>>();
    if bushes.is_empty() { Some((0.0, 0.0)) } else { Some((force(state)?, slope(linkage, state, force)?)) }
}

/// The unit axis that a row's body end turns about: a wishbone's body axis, an arm's bush's own or x.
fn axis(linkage: &Linkage, row: usize, own: Option<Vec3>) -> Option<Vec3> {
    let part = linkage.rows()[row].part;
    let inner = |row: &Row| row.constraint.inner_at(0.0);
    match part {
        Part::LowerWishbone | Part::UpperWishbone => {
            let legs = linkage.rows().iter().filter(|row| row.part == part).map(inner);
            legs.reduce(|front, rear| front - rear)?.try_normalize(0.0)
        }
        _ => own.unwrap_or_else(Vec3::x).try_normalize(0.0),
    }
}

/// A row's inner and outer joint at a state, mm.
fn ends(row: &Row, state: &State) -> (Vec3, Vec3) {
    let (Constraint::Rod { outer, .. } | Constraint::Slide { foot: outer, .. }) = row.constraint;
    (row.constraint.inner_at(state.position.rack), state.position.pose.place(outer))
}

/// p: from a row's inner to its outer joint, across an axis; `None` where it lies along it.
fn across(linkage: &Linkage, state: &State, row: usize, axis: Vec3) -> Option<Vec3> {
    let (inner, outer) = ends(&linkage.rows()[row], state);
    let d = outer - inner;
    let p = d - axis * axis.dot(&d);
    (p.norm() > ALONG_AXIS * d.norm()).then_some(p)
}
