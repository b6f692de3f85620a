//! Goals as what is to be made least.

use super::condition;
use super::{Answer, Goals, LengthKept, MET_RANGE, PULL};
use crate::layout::{Built, Member};
use crate::math::{Least, Values, outside};
use crate::vary::Varied;
use crate::vary::varied::slopes;
use nalgebra::{DMatrix, DVector};

/// What goals make least.
pub(super) struct Problem {
    pub goals: Goals,
    /// Where the aims' values and the lengths are to be.
    pub ranges: Vec<[f64; 2]>,
    pub varied: Varied,
    pub now: Vec<f64>,
}

impl Problem {
    /// The kept lengths, mm.
    fn lengths(&mut self, x: &[f64]) -> Vec<f64> {
        if self.goals.lengths.is_empty() {
            return Vec::new();
        }
        let layout = self.varied.layout(x);
        let all = Built::of(layout, self.goals.side).lengths(layout);
        let length = |member: Member| all.iter().find(|(has, _)| *has == member).map_or(0.0, |(_, length)| *length);
        self.goals.lengths.iter().map(|kept| length(kept.member)).collect()
    }

    /// What the conditions come to.
    fn conditions(&mut self, x: &[f64]) -> Option<Vec<f64>> {
        condition::values(self.varied.layout(x), self.goals.side, &self.goals.conditions)
    }

    fn values(&mut self, x: &[f64]) -> Option<Vec<f64>> {
        self.varied.at(x).ok()?.into_iter().collect()
    }

    /// What an end of the search says.
    pub fn answer(&mut self, least: Least) -> Option<Answer> {
        let Least { x, residuals, stopped, steps } = least;
        let all = self.values(&x)?;
        let (mut values, mut met, mut from) = (Vec::new(), Vec::new(), 0);
        for aim in &self.goals.aims {
            let here = &all[from..from + aim.places.len()];
            from += aim.places.len();
            met.push(aim.places.iter().zip(here).all(|((_, wanted), value)| wanted.is_met(*value, aim.tolerance)));
            values.push(here.to_vec());
        }
        let lengths = self.lengths(&x);
        let keeps = |(kept, length): (&LengthKept, &f64)| outside(*length, kept.range).abs() <= MET_RANGE;
        let mut kept: Vec<bool> = self.goals.lengths.iter().zip(&lengths).map(keeps).collect();
        let all_conditions = self.conditions(&x)?;
        let mut left = &all_conditions[..];
        let mut conditions = Vec::new();
        for condition in &self.goals.conditions {
            let (here, rest) = left.split_at(condition.places.len());
            kept.push(
                here.iter().all(|value| outside(*value, condition.range).abs() <= MET_RANGE * condition.kept.scale()),
            );
            conditions.push(here.to_vec());
            left = rest;
        }
        let at_an_end = |i: &usize| self.goals.free[*i].range.contains(&x[*i]);
        let mut answer = Answer {
            at_the_end: (0..x.len()).filter(at_an_end).collect(),
            sum: residuals.norm_squared(),
            against: None,
            numbers: x,
            values,
            met,
            kept,
            conditions,
            stopped,
            steps,
        };
        if !answer.all_met() {
            let here = self.at(&answer.numbers)?;
            let slopes = self.slopes(&answer.numbers, &here);
            answer.against = self.against(&residuals, &slopes);
        }
        Some(answer)
    }

    /// The two aims whose pulls on the free numbers, each in parts of its range, point against each other most.
    fn against(&self, residuals: &DVector<f64>, slopes: &DMatrix<f64>) -> Option<[usize; 2]> {
        let widths = DVector::from_iterator(
            self.goals.free.len(),
            self.goals.free.iter().map(|free| free.range[1] - free.range[0]),
        );
        let mut from = 0;
        let mut pulls: Vec<DVector<f64>> = Vec::new();
        for aim in &self.goals.aims {
            let rows = aim.places.len();
            pulls.push(slopes.rows(from, rows).tr_mul(&residuals.rows(from, rows)).component_mul(&widths));
            from += rows;
        }
        let pairs = (0..pulls.len()).flat_map(|a| (a + 1..pulls.len()).map(move |b| [a, b]));
        let against = pairs.map(|[a, b]| ([a, b], pulls[a].dot(&pulls[b]))).filter(|(_, product)| *product < 0.0);
        against.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(pair, _)| pair)
    }
}

impl Values for Problem {
    /// Aims place by place in units of their tolerance, lengths in mm, conditions place by place in units of their scale, the pull.
    fn at(&mut self, x: &[f64]) -> Option<DVector<f64>> {
        let outcomes = self.values(x)?;
        let (lengths, conditions) = (self.lengths(x), self.conditions(x)?);
        let tolerances = self.goals.aims.iter().flat_map(|aim| aim.places.iter().map(|_| aim.tolerance));
        let mut values: Vec<f64> =
            outcomes.iter().zip(tolerances).map(|(value, tolerance)| value / tolerance).collect();
        values.extend(lengths);
        let scales = self.goals.conditions.iter().flat_map(|one| one.places.iter().map(|_| one.kept.scale()));
        values.extend(conditions.iter().zip(scales).map(|(value, scale)| value / scale));
        values.extend(x.iter().zip(&self.now).map(|(x, now)| PULL * (x - now)));
        Some(DVector::from_vec(values))
    }

    fn range(&self, row: usize) -> [f64; 2] {
        self.ranges.get(row).copied().unwrap_or_default()
    }

    fn slopes(&mut self, x: &[f64], here: &DVector<f64>) -> DMatrix<f64> {
        slopes(self, x, here)
    }
}
