//! Fitting changes to what was found: least squares on solved states.

use super::{Found, Value};
use crate::axle::NoAxle;
use crate::layout::{Change, Layout, LeftOrRight, Sides};
use crate::math::least_squares;
use crate::vary::{Outcome, Parameter, read};
use nalgebra::DVector;
use std::fmt;

/// A number that is fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unknown {
    /// What has to be added to a change.
    Change(Sides, Change),
    /// How much higher a wheel stood than the travel that was written down, mm; expected to be 0 ± the height's error.
    Height(LeftOrRight, f64),
}

/// The unknowns with what they came out as, and what is left over.
#[derive(Clone, Debug)]
pub struct Fit {
    /// The amounts, in the order of the unknowns.
    pub amounts: Vec<f64>,
    /// Sum of squares of what is left of each value, and of each height, over its error.
    pub chi2: f64,
}

/// Why nothing can be fitted; its `Display` is a sentence.
#[derive(Clone, Debug)]
pub enum NoFit {
    /// The axle, as it should be, is none, or can't be where a value was found.
    Axle(NoAxle),
    /// The axle, as it should be, has no such reading there: column, side, travel and rack in mm.
    NoReading(&'static str, LeftOrRight, f64, f64),
}

impl fmt::Display for NoFit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoFit::Axle(why) => why.fmt(f),
            NoFit::NoReading(column, side, travel, rack) => {
                let side = side.name();
                write!(f, "The axle has no {column} on the {side} at travel {travel} mm and rack {rack} mm.")
            }
        }
    }
}

impl std::error::Error for NoFit {}

/// Slopes are taken over this, mm or degrees: a thousandth of what matters, a hundred million times the noise of a solved pose. They only lead the
/// way; where the way ends is told by the solved states.
const NUDGE: f64 = 1e-3;

/// The fit ends with a step that promises to lower χ² by less than this: a millionth of what tells two causes apart.
const ENOUGH: f64 = 4e-6;

/// A fit that contracts at all is done before so many steps; one along a change that does nearly nothing may end here.
const MOST_STEPS: u32 = 15;

/// A step is halved up to so many times until χ² falls.
const MOST_HALVINGS: u32 = 6;

/// Several unknowns and what they are fitted to.
pub struct Problem<'a> {
    pub layout: &'a Layout,
    pub found: &'a Found,
    pub unknowns: &'a [Unknown],
}

impl Problem<'_> {
    /// Gauss–Newton from these amounts, each step shortened until χ² falls, each change kept in its range. A change that the values tell nothing about,
    /// or nothing that the unknowns before it don't explain as well, stays where it was.
    pub fn fit(&self, start: Vec<f64>) -> Result<Fit, NoFit> {
        let mut here = start;
        let mut left = self.left_over(&here)?;
        for _ in 0..MOST_STEPS {
            let columns: Vec<DVector<f64>> = (0..here.len()).map(|i| self.column(&here, &left, i)).collect();
            let step = least_squares(&columns, &-&left);
            let to = columns.iter().zip(&step).fold(left.clone(), |sum, (column, by)| sum + column * *by);
            let promised = left.norm_squared() - to.norm_squared();
            let Some((next, now)) = self.shortened(&here, &left, &step) else { break };
            (here, left) = (next, now);
            if promised < ENOUGH {
                break;
            }
        }
        Ok(Fit { chi2: left.norm_squared(), amounts: here })
    }

    /// The amounts a step further, or a part of it, and what is left there; `None` where no part lowers χ².
    fn shortened(&self, here: &[f64], left: &DVector<f64>, step: &[f64]) -> Option<(Vec<f64>, DVector<f64>)> {
        (0..=MOST_HALVINGS).find_map(|halvings| {
            let part = 0.5_f64.powi(halvings as i32);
            let next: Vec<f64> = (0..here.len()).map(|i| self.kept(i, here[i] + step[i] * part)).collect();
            let now = self.left_over(&next).ok()?;
            (now.norm_squared() < left.norm_squared()).then_some((next, now))
        })
    }

    /// An amount within the range of its change.
    fn kept(&self, i: usize, amount: f64) -> f64 {
        match self.unknowns[i] {
            Unknown::Height(..) => amount,
            Unknown::Change(of, change) => {
                let [least, most] = change.range().map(|end| end - self.layout.changes.get(of, change));
                amount.clamp(least.min(0.0), most.max(0.0))
            }
        }
    }

    /// What is left of each value and of each height, over its error.
    fn left_over(&self, amounts: &[f64]) -> Result<DVector<f64>, NoFit> {
        let values: Vec<&Value> = self.found.values.iter().collect();
        let mut left = self.left_of(&values, amounts)?;
        let heights = self.unknowns.iter().zip(amounts).filter(|(unknown, _)| matches!(unknown, Unknown::Height(..)));
        left.extend(heights.map(|(_, by)| by / self.found.height_error));
        Ok(DVector::from_vec(left))
    }

    /// The same of some values.
    fn left_of(&self, values: &[&Value], amounts: &[f64]) -> Result<Vec<f64>, NoFit> {
        let mut layout = self.layout.clone();
        for (unknown, by) in self.unknowns.iter().zip(amounts) {
            if let Unknown::Change(of, change) = *unknown {
                layout = Parameter::Change(change).added(&layout, of, *by);
            }
        }
        let raised = |at: Outcome| {
            let of_it = |unknown: &Unknown| *unknown == Unknown::Height(at.side, at.travel);
            let by: f64 =
                self.unknowns.iter().zip(amounts).filter(|(unknown, _)| of_it(unknown)).map(|(_, by)| by).sum();
            Outcome { travel: at.travel + by, ..at }
        };
        let places: Vec<Outcome> = values.iter().flat_map(|value| value.places()).map(raised).collect();
        let mut readings = read(&layout, &places).map_err(NoFit::Axle)?.into_iter();
        let mut next = |at: Outcome| {
            let none = NoFit::NoReading(at.quantity.column(), at.side, at.travel, at.rack);
            readings.next().flatten().ok_or(none)
        };
        let left = |value: &&Value| {
            let reading = next(value.outcome)? - value.less.map_or(Ok(0.0), &mut next)?;
            Ok((reading - value.value) / value.error)
        };
        values.iter().map(left).collect()
    }

    /// What an unknown does to what is left over, per mm or degree: of the values that it can touch. One that can't be moved further does nothing.
    fn column(&self, here: &[f64], left: &DVector<f64>, i: usize) -> DVector<f64> {
        let mut column = DVector::zeros(left.len());
        let touched = |at: Outcome| match self.unknowns[i] {
            Unknown::Change(Sides::Both, _) => true,
            Unknown::Change(Sides::One(side), _) => at.side == side,
            Unknown::Height(side, travel) => (at.side, at.travel) == (side, travel),
        };
        let touches = |value: &Value| value.places().any(touched);
        let nudge = if self.kept(i, here[i] + NUDGE) == here[i] + NUDGE { NUDGE } else { -NUDGE };
        let mut there = here.to_vec();
        there[i] += nudge;
        let (places, values): (Vec<usize>, Vec<&Value>) =
            self.found.values.iter().enumerate().filter(|(_, value)| touches(value)).unzip();
        for (place, now) in places.into_iter().zip(self.left_of(&values, &there).unwrap_or_default()) {
            column[place] = (now - left[place]) / nudge;
        }
        if let Unknown::Height(..) = self.unknowns[i] {
            let before = self.unknowns[..i].iter().filter(|unknown| matches!(unknown, Unknown::Height(..))).count();
            column[self.found.values.len() + before] = 1.0 / self.found.height_error;
        }
        column
    }
}
