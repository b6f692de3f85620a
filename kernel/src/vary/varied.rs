//! Outcomes of one layout as functions of several of its numbers, asked again and again.

use super::{NoSearch, Outcome, Parameter, Quantity};
use crate::axle::{NoAxle, Swept};
use crate::layout::{Built, Layout, LeftOrRight, Sides};
use crate::linkage::Linkage;
use crate::math::Values;
use crate::pose::{Demand, Position, settled};
use crate::reading::{Known, Snapshot};
use crate::state::State;
use nalgebra::{DMatrix, DVector};
use std::ops::{Div, Sub};

/// A layout, the numbers of it that vary, and what is read each time.
#[derive(Clone)]
pub struct Varied {
    /// The layout with the numbers as they were set last.
    layout: Layout,
    numbers: Vec<(Parameter, Sides)>,
    outcomes: usize,
    places: Vec<Place>,
}

/// A position of a wheel, with what is read there and how near it the last solution lay.
#[derive(Clone)]
struct Place {
    side: LeftOrRight,
    travel: f64,
    rack: f64,
    /// Which outcome each quantity is; those of a sweep behind those of the state.
    read: Vec<(usize, Quantity)>,
    guess: Option<Position>,
}

impl Varied {
    /// Of a layout, as functions of these numbers; a change is of its sides, over those it has.
    pub fn new(layout: &Layout, numbers: Vec<(Parameter, Sides)>, outcomes: &[Outcome]) -> Varied {
        let mut places: Vec<Place> = Vec::new();
        for (i, &Outcome { quantity, side, travel, rack }) in outcomes.iter().enumerate() {
            let here = |place: &Place| (place.side, place.travel, place.rack) == (side, travel, rack);
            let at = places.iter().position(here).unwrap_or_else(|| {
                places.push(Place { side, travel, rack, read: Vec::new(), guess: None });
                places.len() - 1
            });
            places[at].read.push((i, quantity));
        }
        Varied { layout: layout.clone(), numbers, outcomes: outcomes.len(), places }
    }

    /// The numbers as they were set last.
    pub fn numbers(&self) -> Vec<f64> {
        self.numbers.iter().map(|(parameter, of)| parameter.get(&self.layout, *of).unwrap_or_default()).collect()
    }

    /// The layout with the numbers set so.
    pub fn layout(&mut self, numbers: &[f64]) -> &Layout {
        for ((parameter, of), number) in self.numbers.iter().zip(numbers) {
            parameter.set(&mut self.layout, *of, *number);
        }
        &self.layout
    }

    /// The outcomes there, each `None` where the axle does not have it; or why there is no such axle or position.
    pub fn at(&mut self, numbers: &[f64]) -> Result<Vec<Option<f64>>, NoAxle> {
        self.layout(numbers);
        let design = Linkage::new(&self.layout).map_err(NoAxle::Problems)?;
        let mut wheels: [Option<Linkage>; 2] = [None, None];
        let mut values = vec![None; self.outcomes];
        for place in &mut self.places {
            let linkage = match &mut wheels[place.side.index()] {
                Some(linkage) => linkage,
                none => {
                    let built = Built::of(&self.layout, place.side);
                    none.insert(settled(&design, &self.layout, &built).map_err(NoAxle::Unsolved)?)
                }
            };
            let guess = place.guess.unwrap_or_else(|| Position::at_rest(linkage));
            let state =
                State::solve(linkage, Demand::new(place.travel, place.rack), &guess).map_err(NoAxle::Unsolved)?;
            place.guess = Some(state.position);
            let swept = place.read.iter().any(|(_, quantity)| quantity.is_swept());
            let rack = self.layout.rack.as_ref().filter(|_| swept);
            let known = Known::of_rig(rack.and_then(|rack| Swept::of(linkage, rack, place.travel, Swept::ANGLE)));
            let snapshot = Snapshot::of(&state).knowing(&known);
            for (i, quantity) in &place.read {
                values[*i] = quantity.of(&snapshot);
            }
        }
        Ok(values)
    }

    /// The numbers as they are, if the axle has every outcome there: where a search may begin.
    pub fn begun(&mut self, outcomes: &[Outcome]) -> Result<Vec<f64>, NoSearch> {
        let now = self.numbers();
        let values = self.at(&now).map_err(NoSearch::Axle)?;
        match values.iter().zip(outcomes).find(|(value, _)| value.is_none()) {
            Some((_, of)) => Err(NoSearch::NoReading(of.quantity.column(), [of.travel, of.rack])),
            None => Ok(now),
        }
    }

    /// What each number does to each outcome, per mm or degree: central differences of solved states, one-sided where the axle or the outcome ends on
    /// the other side, `None` where on both.
    pub fn slopes(&mut self, numbers: &[f64], here: &[Option<f64>]) -> Vec<Vec<Option<f64>>> {
        let mut there = numbers.to_vec();
        let mut column = |i: usize| {
            let [up, down] = [NUDGE, -NUDGE].map(|by| {
                there[i] = numbers[i] + by;
                self.at(&there).unwrap_or_else(|_| vec![None; here.len()])
            });
            there[i] = numbers[i];
            (0..here.len()).map(|i| slope([up[i], here[i], down[i]])).collect()
        };
        (0..numbers.len()).map(&mut column).collect()
    }
}

/// Slopes are taken over this, mm or degrees: over the few mm in which the quickest reading, a half-shaft's angle near 0, changes its shape, a central
/// difference errs by (0.001/2)² ≈ 3e-7 of itself, and a pose is solved to 1e-11 mm, a noise of 1e-8 per mm.
const NUDGE: f64 = 1e-3;

/// The slope of something from what it is a nudge above, here and a nudge below: a central difference, a one-sided one where it ends on the other side.
fn slope<T: Sub<Output = T> + Div<f64, Output = T>>(places: [Option<T>; 3]) -> Option<T> {
    match places {
        [Some(up), _, Some(down)] => Some((up - down) / (2.0 * NUDGE)),
        [Some(up), Some(here), None] => Some((up - here) / NUDGE),
        [None, Some(here), Some(down)] => Some((here - down) / NUDGE),
        _ => None,
    }
}

/// The slopes of values, a column a number, in the same way; a column that has none is 0.
pub(super) fn slopes(problem: &mut impl Values, x: &[f64], here: &DVector<f64>) -> DMatrix<f64> {
    let mut slopes = DMatrix::zeros(here.len(), x.len());
    let mut there = x.to_vec();
    for i in 0..x.len() {
        let [up, down] = [NUDGE, -NUDGE].map(|by| {
            there[i] = x[i] + by;
            problem.at(&there)
        });
        there[i] = x[i];
        if let Some(slope) = slope([up, Some(here.clone()), down]) {
            slopes.set_column(i, &slope);
        }
    }
    slopes
}
